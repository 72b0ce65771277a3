#include "config.h"

#include "cloth/piece.h"
#include "cloth/hang.h"

#include <glib/gi18n.h>

/* An outline that was cut again may stick out by what rounding makes of that. */
#define OUTLINE_TOLERANCE_MM 0.01

/* --- nesting --- */

typedef struct
{
  OddJob *job;
  guint deepest;
  guint room;                 /* levels that may still follow */
} Depth;

static guint get_depth (OddJob *job, OddScrap *scrap, guint room);

static gboolean
look_at_leaf (OddNode  *node,
              gpointer  data)
{
  Depth *depth = data;
  OddScrap *scrap = node->kind == ODD_NODE_LEAF && node->scrap_id != 0 ? odd_job_get_scrap (depth->job, node->scrap_id) : NULL;

  if (scrap != NULL && scrap->piece != NULL)
    depth->deepest = MAX (depth->deepest, get_depth (depth->job, scrap, depth->room));
  return depth->deepest <= depth->room;
}

/* Stops beyond @room, so that a cycle ends too. */
static guint
get_depth (OddJob   *job,
           OddScrap *scrap,
           guint     room)
{
  Depth depth = { job, 0, room > 0 ? room - 1 : 0 };

  if (scrap->piece == NULL)
    return 0;
  if (room == 0)
    return 1;
  odd_node_foreach (scrap->piece->root, look_at_leaf, &depth);
  return depth.deepest + 1;
}

guint
odd_job_get_piece_depth (OddJob   *self,
                         OddScrap *scrap)
{
  return get_depth (self, scrap, ODD_PIECE_MAX_DEPTH);
}

/* --- what comes from outside --- */

/* What is known of a piece already: children are looked at before it is, each piece once, however often it is used. */
typedef enum { UNSEEN, OPEN, CLOSED } Seen;

typedef struct
{
  OddJob *job;
  GHashTable *seen;           /* OddScrap -> Seen */
  GHashTable *depths;         /* OddScrap -> levels */
  guint deepest;
  OddScrap *scrap;            /* the one whose leaves are being looked at */
  GError **error;
} Check;

static gboolean check_nesting (Check *check, OddScrap *scrap);

static gboolean
check_leaf (OddNode  *node,
            gpointer  data)
{
  Check *check = data;
  OddScrap *scrap;

  if (node->kind != ODD_NODE_LEAF)
    return TRUE;
  if (node->scrap_id == 0)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("Scrap %u is pieced, but patch %u of it is bare; name the scrap that lies there"), check->scrap->number, node->id);
      return FALSE;
    }
  scrap = odd_job_get_scrap (check->job, node->scrap_id);
  if (scrap->piece == NULL)
    return TRUE;
  if (!check_nesting (check, scrap))
    return FALSE;
  check->deepest = MAX (check->deepest, GPOINTER_TO_UINT (g_hash_table_lookup (check->depths, scrap)));
  return TRUE;
}

static gboolean
check_nesting (Check    *check,
               OddScrap *scrap)
{
  const Seen seen = GPOINTER_TO_UINT (g_hash_table_lookup (check->seen, scrap));
  Check inner = *check;

  if (seen == CLOSED)
    return TRUE;
  if (seen == OPEN)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("Scrap %u would be sewn into itself; take it out of its own piece"), scrap->number);
      return FALSE;
    }
  g_hash_table_insert (check->seen, scrap, GUINT_TO_POINTER (OPEN));
  inner.scrap = scrap;
  inner.deepest = 0;
  if (!odd_node_foreach (scrap->piece->root, check_leaf, &inner))
    return FALSE;
  if (inner.deepest + 1 > ODD_PIECE_MAX_DEPTH)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("Scrap %u holds pieces within pieces more than %d deep; take some of them apart"), scrap->number, ODD_PIECE_MAX_DEPTH);
      return FALSE;
    }
  g_hash_table_insert (check->depths, scrap, GUINT_TO_POINTER (inner.deepest + 1));
  g_hash_table_insert (check->seen, scrap, GUINT_TO_POINTER (CLOSED));
  return TRUE;
}

/* Edge by edge, not by the cut shape: that cuts sharp tips square, and a cut across leaves such tips. */
static gboolean
check_outline (OddJob    *job,
               OddScrap  *scrap,
               GError   **error)
{
  OddPanel *piece = scrap->piece;
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (scrap->outline, &n);

  for (guint edge = 0; edge < piece->outline->n; edge++)
    {
      const OddHalfPlane finished = odd_half_plane_place (odd_convex_edge_half_plane (piece->outline, edge), &scrap->piece_at);
      double allowance_mm = 0.0;

      odd_panel_resolve_edge (job, NULL, piece, edge, NULL, &allowance_mm);
      for (gsize i = 0; i < n; i++)
        if (odd_half_plane_distance (finished, ring[i]) > allowance_mm + OUTLINE_TOLERANCE_MM)
          {
            g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                         _("Scrap %u is pieced, but its outline leaves the cloth of its piece at %.1f, %.1f mm; draw it inside"),
                         scrap->number, ring[i].x, ring[i].y);
            return FALSE;
          }
    }
  return TRUE;
}

static gboolean
check_piece (Check    *check,
             OddScrap *scrap)
{
  OddNode *root = scrap->piece->root;

  if (!check_nesting (check, scrap))
    return FALSE;
  if (root->kind == ODD_NODE_LEAF && odd_job_get_scrap (check->job, root->scrap_id)->piece == NULL)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("Scrap %u is pieced, but its piece has no seam; make it a plain scrap"), scrap->number);
      return FALSE;
    }
  return check_outline (check->job, scrap, check->error);
}

gboolean
odd_job_check_pieces (OddJob  *self,
                      GError **error)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (NULL, NULL);
  g_autoptr(GHashTable) depths = g_hash_table_new (NULL, NULL);
  Check check = { self, seen, depths, 0, NULL, error };

  for (guint i = 0; i < self->scraps->len; i++)
    {
      OddScrap *scrap = self->scraps->pdata[i];

      if (scrap->piece != NULL && !check_piece (&check, scrap))
        return FALSE;
    }
  return TRUE;
}

/* --- its cloth --- */

static void
add_share (GArray    *shares,
           OddFabric *fabric,
           double     area_mm2)
{
  const OddClothShare share = { fabric, area_mm2 };

  for (guint i = 0; i < shares->len; i++)
    if (g_array_index (shares, OddClothShare, i).fabric == fabric)
      {
        g_array_index (shares, OddClothShare, i).area_mm2 += area_mm2;
        return;
      }
  g_array_append_val (shares, share);
}

/* The cloth of @scrap makes up @area_mm2: that of a piece within a piece in the mean. */
static void
add_cloth (OddJob   *job,
           OddScrap *scrap,
           double    area_mm2,
           GArray   *shares)
{
  g_autoptr(OddLayout) piece = odd_job_dup_piece_layout (job, scrap);
  double all_mm2;

  if (piece == NULL)
    {
      add_share (shares, odd_job_get_scrap_fabric (job, scrap), area_mm2);
      return;
    }
  all_mm2 = odd_convex_area (piece->outline);
  for (guint i = 0; i < piece->n_patches; i++)
    if (piece->patches[i].scrap != NULL)
      add_cloth (job, piece->patches[i].scrap, area_mm2 * odd_convex_area (piece->patches[i].region) / all_mm2, shares);
}

GArray *
odd_job_dup_scrap_cloth (OddJob   *self,
                         OddScrap *scrap)
{
  GArray *shares = g_array_new (FALSE, FALSE, sizeof (OddClothShare));
  g_autoptr(OddLayout) piece = odd_job_dup_piece_layout (self, scrap);

  add_cloth (self, scrap, piece != NULL ? odd_convex_area (piece->outline) : odd_polygon_get_area (scrap->outline), shares);
  return shares;
}

double
odd_job_get_scrap_lightness (OddJob   *self,
                             OddScrap *scrap)
{
  g_autoptr(GArray) shares = odd_job_dup_scrap_cloth (self, scrap);
  double sum = 0.0, known_mm2 = 0.0;

  for (guint i = 0; i < shares->len; i++)
    {
      const OddClothShare *share = &g_array_index (shares, OddClothShare, i);

      if (share->fabric == NULL)
        continue;
      sum += share->area_mm2 * odd_fabric_get_lightness (share->fabric);
      known_mm2 += share->area_mm2;
    }
  return known_mm2 > 0.0 ? sum / known_mm2 : NAN;
}

double
odd_patch_get_lightness (const OddPatch *self)
{
  double sum = 0.0, known_mm2 = 0.0;

  if (self->piece == NULL)
    return self->fabric != NULL ? odd_fabric_get_lightness (self->fabric) : NAN;
  for (guint i = 0; i < self->piece->n_patches; i++)
    {
      const double area_mm2 = odd_convex_area (self->piece->patches[i].region);
      const double lightness = odd_patch_get_lightness (&self->piece->patches[i]);

      if (isnan (lightness))
        continue;
      sum += area_mm2 * lightness;
      known_mm2 += area_mm2;
    }
  return known_mm2 > 0.0 ? sum / known_mm2 : NAN;
}

char *
odd_job_dup_scrap_cloth_name (OddJob   *self,
                              OddScrap *scrap)
{
  g_autoptr(GArray) shares = odd_job_dup_scrap_cloth (self, scrap);
  OddFabric *fabric = odd_job_get_scrap_fabric (self, scrap);

  if (scrap->piece != NULL)
    return g_strdup_printf (ngettext ("pieced, %u fabric", "pieced, %u fabrics", shares->len), shares->len);
  return g_strdup (fabric != NULL ? fabric->name : _("unknown cloth"));
}
