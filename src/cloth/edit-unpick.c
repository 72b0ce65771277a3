/* Edits that take sewn cloth apart again: cloth lost at a seam, a patch released. */
#include "config.h"

#include "cloth/edit-private.h"
#include "cloth/offcuts.h"
#include "cloth/piece.h"

#include <glib/gi18n.h>

#define MOST_LOST_MM 100.0         /* more is another seam, not a frayed edge */
#define SAME_SHAPE_MM2 1.0         /* a scrap that is larger than the patch by less is the patch */

/* --- cloth lost along a seam --- */

static OddJob *
refuse (GError     **error,
        const char  *sentence)
{
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, sentence);
  return NULL;
}

static OddPanel *
with_allowance (OddPanel          *panel,
                const OddLaidSeam *laid,
                double             allowance_mm)
{
  guint index = 0;
  OddNode *strip = odd_node_find_seam (panel->root, laid->seam->id, &index);
  OddSeam seam = strip->seams[index];
  g_autoptr(OddNode) root = NULL;

  seam.treatment = (OddTreatment) { laid->finish->id, allowance_mm };
  root = odd_node_replace_seam (panel->root, &seam);
  return odd_panel_with_root (panel, root);
}

/* As if the allowance had grown by what was lost while the cut was kept: both sides give up that much, and come closer by twice as much.
 * %NULL when a patch would vanish. */
static OddPanel *
draw_together (OddJob            *self,
               OddTextile        *textile,
               OddPanel          *panel,
               OddId              seam_id,
               double             lost_mm)
{
  g_autoptr(OddLayout) from = odd_layout_new_alone (self, textile, panel);
  const OddLaidSeam *laid = odd_layout_find_seam (from, seam_id);
  g_autoptr(OddPanel) deeper = NULL;
  g_autoptr(OddLayout) to = NULL;
  g_autoptr(OddPanel) narrowed = NULL;
  g_autoptr(OddLayout) after = NULL;

  if (laid == NULL)
    return odd_panel_ref (panel);      /* trimmed away: there is no cloth left at it to lose */
  deeper = with_allowance (panel, laid, laid->allowance_mm + lost_mm);
  to = odd_layout_new_alone (self, textile, deeper);
  narrowed = odd_panel_reassemble (panel, from, to);
  if (narrowed == NULL)
    return NULL;
  after = odd_layout_new_alone (self, textile, narrowed);
  return after->n_vanished <= from->n_vanished ? g_steal_pointer (&narrowed) : NULL;
}

/* Both panels of a join lose their raw edge there. */
static OddJob *
move_joined_edges (OddJob      *self,
                   OddTextile  *textile,
                   guint        index,
                   double       lost_mm,
                   GError     **error)
{
  const OddId join_id = textile->joins[index].id;
  OddJob *job = odd_job_ref (self);

  for (guint i = index; i <= index + 1; i++)
    {
      const OddId panel_id = textile->hung[i].panel->id;
      g_autoptr(OddLayout) layout = odd_job_dup_layout (self, panel_id);

      for (guint e = 0; e < layout->n_edges; e++)
        if (layout->edges[e].join_id == join_id && layout->edges[e].outline_edge >= 0)
          {
            OddJob *next = odd_job_move_edge (job, panel_id, layout->edges[e].outline_edge, -lost_mm, error);

            odd_job_unref (job);
            if (next == NULL)
              return NULL;
            job = next;
          }
    }
  return job;
}

OddJob *
odd_job_narrow_seam (OddJob  *self,
                     OddId    seam_id,
                     double   lost_mm,
                     GError **error)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_find_panel_of (self, seam_id, &textile, &index);
  g_autoptr(OddPanel) narrowed = NULL;

  if (!(lost_mm >= 0.0 && lost_mm <= MOST_LOST_MM))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("%g mm of cloth cannot be lost along a seam; enter 0 to %g mm, or release the patch."), lost_mm, MOST_LOST_MM);
      return NULL;
    }
  if (panel == NULL && textile != NULL)
    return move_joined_edges (self, textile, index, lost_mm, error);
  panel = odd_edit_get_panel_of (self, seam_id, error);
  if (panel == NULL)
    return NULL;
  narrowed = draw_together (self, textile, panel, seam_id, lost_mm);
  if (narrowed == NULL)
    return refuse (error, _("If so much cloth is lost, nothing is left of a patch beside the seam. Enter less, or release the patch."));
  return odd_edit_with_panel (self, narrowed);
}

/* --- a patch released --- */

static gboolean
label_is_sewn (OddJob          *self,
               OddTextile      *textile,
               const OddLayout *layout,
               int              label)
{
  g_autoptr(OddTextileLayout) hung = NULL;

  if (label >= 0)
    return odd_progress_get_state (layout->seams[label].seam->progress, odd_finish_first_sew (layout->seams[label].finish)) == ODD_STATE_DONE;
  if (textile == NULL || layout->edges[-1 - label].join_id == 0)
    return FALSE;
  hung = odd_job_dup_textile_layout (self, textile->id);
  for (guint i = 0; i < hung->n_joins; i++)
    if (hung->joins[i].join->id == layout->edges[-1 - label].join_id)
      return odd_progress_get_state (hung->joins[i].join->progress, odd_finish_first_sew (hung->joins[i].finish)) == ODD_STATE_DONE;
  return FALSE;
}

static gboolean
check_loose (OddJob      *self,
             OddTextile  *textile,
             OddPanel    *panel,
             OddNode     *leaf,
             GError     **error)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (self, panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, leaf->id);

  if (leaf->locked)
    return refuse (error, _("This patch is locked. Unlock it first.")) != NULL;
  if (leaf->kind != ODD_NODE_LEAF || leaf->scrap_id == 0 || patch == NULL)
    return refuse (error, _("There is no cloth here to release. Choose a patch.")) != NULL;
  if (leaf->cut != ODD_STATE_DONE)
    return refuse (error, _("This patch is not cut out yet. Make its place bare instead.")) != NULL;
  for (guint i = 0; i < patch->region->n; i++)
    if (patch->region->labels[i] != G_MININT && label_is_sewn (self, textile, layout, patch->region->labels[i]))
      {
        g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Patch %u is sewn in. Unpick the seams around it first."), patch->number);
        return FALSE;
      }
  return TRUE;
}

/* The parts of the parent's zones that lie on the piece; (transfer full) (element-type OddPolygon) with the zone each came from in @from. */
static GPtrArray *
clip_zones (OddScrap   *parent,
            OddPolygon *piece,
            GArray     *from)
{
  GPtrArray *outlines = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  for (guint i = 0; i < parent->n_zones; i++)
    {
      g_autoptr(GPtrArray) parts = odd_polygon_intersection (parent->zones[i].outline, piece);

      for (guint k = 0; k < parts->len; k++)
        {
          g_ptr_array_add (outlines, odd_polygon_ref (parts->pdata[k]));
          g_array_append_val (from, i);
        }
    }
  return outlines;
}

/* The piece stays in its parent's frame, so that grain and picture hold. */
static OddJob *
add_piece (OddJob      *self,
           OddScrap    *parent,
           OddPolygon  *piece,
           OddId       *out_id,
           GError     **error)
{
  g_autoptr(GArray) from = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr(GPtrArray) outlines = clip_zones (parent, piece, from);
  g_autofree OddZone *zones = g_new0 (OddZone, outlines->len);
  OddScrap values = *parent;

  for (guint i = 0; i < outlines->len; i++)
    {
      zones[i] = parent->zones[g_array_index (from, guint, i)];
      zones[i].outline = outlines->pdata[i];
    }
  values.id = 0;
  values.number = 0;
  values.outline = piece;
  values.zones = zones;
  values.n_zones = outlines->len;
  values.place = NULL;
  values.note = NULL;
  values.parent_id = parent->id;
  values.gone = FALSE;
  values.cut_out = FALSE;
  values.unknown_json = NULL;
  return odd_job_put_scrap (self, &values, out_id, error);
}

static gint
compare_areas (gconstpointer a,
               gconstpointer b)
{
  const double area_a = odd_polygon_get_area (*(OddPolygon *const *) a), area_b = odd_polygon_get_area (*(OddPolygon *const *) b);

  return area_a < area_b ? 1 : area_a > area_b ? -1 : 0;
}

/* Does another patch of the parent lie on this part of it? */
static gboolean
is_planned_on (OddJob     *self,
               OddScrap   *parent,
               OddPolygon *part)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (self, parent);
  g_autoptr(GPtrArray) taken = odd_scrap_dup_cut_shapes (self, parent->id);

  for (guint i = 0; i < taken->len; i++)
    {
      g_autoptr(OddPolygon) raw = odd_scrap_dup_unshrunk (parent, fabric, taken->pdata[i]);

      if (odd_polygon_overlap_area (raw, part) > SAME_SHAPE_MM2)
        return TRUE;
    }
  return FALSE;
}

/* Which part stays the parent: the one that is planned on, else the first. -1: several are planned on. */
static int
choose_part (OddJob    *self,
             OddScrap  *parent,
             GPtrArray *parts)
{
  int chosen = -1;

  for (guint i = 0; i < parts->len; i++)
    {
      if (!is_planned_on (self, parent, parts->pdata[i]))
        continue;
      if (chosen >= 0)
        return -1;
      chosen = (int) i;
    }
  return MAX (chosen, 0);
}

/* The parent is one part of itself from now on; the others become scraps where they hold the usable square. */
static OddJob *
split (OddJob     *self,
       OddScrap   *parent,
       GPtrArray  *parts,
       guint       kept,
       GError    **error)
{
  OddScrap values = *parent;
  g_autoptr(OddJob) job = NULL;

  values.outline = parts->pdata[kept];
  job = odd_job_put_scrap (self, &values, NULL, error);
  for (guint i = 0; i < parts->len && job != NULL; i++)
    {
      OddJob *next;

      if (i == kept || !odd_piece_holds_square (parts->pdata[i], self->settings.usable_square_mm))
        continue;
      next = add_piece (job, parent, parts->pdata[i], NULL, error);
      odd_job_unref (job);
      job = next;
    }
  return g_steal_pointer (&job);
}

/* The parent without the piece. Where it is cut out, its remains are scraps of their own already: with its last patch it is gone. */
static OddJob *
take_off_piece (OddJob      *self,
                OddScrap    *parent,
                OddPolygon  *piece,
                GError     **error)
{
  g_autoptr(GPtrArray) parts = odd_polygon_difference (parent->outline, piece);
  guint n_uses = 0;
  int kept;

  odd_job_get_uses (self, parent->id, &n_uses);
  if (n_uses == 0 && (parent->cut_out || parts->len == 0))
    return odd_job_set_scrap_gone (self, parent->id, TRUE, error);
  if (parent->cut_out || parts->len == 0)
    return odd_job_ref (self);
  g_ptr_array_sort (parts, compare_areas);
  kept = choose_part (self, parent, parts);
  if (kept < 0)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("Without this patch scrap %u falls apart, and other patches are planned on more than one part of it. Mark the whole scrap cut out first."),
                   parent->number);
      return NULL;
    }
  return split (self, parent, parts, (guint) kept, error);
}

static OddPolygon *
dup_piece (OddJob   *self,
           OddPanel *panel,
           OddId     leaf_id,
           OddScrap *scrap)
{
  g_autoptr(OddLayout) apart = odd_job_dup_layout_apart (self, panel->id);
  const OddPatch *patch = odd_layout_find_patch (apart, leaf_id);
  g_autoptr(OddPolygon) cut = patch != NULL ? odd_polygon_new_from_convex (patch->cut) : NULL;
  g_autoptr(OddPolygon) worn = NULL;
  OddPlacement back;

  if (cut == NULL)
    return NULL;
  back = odd_placement_inverse (&patch->placement);
  worn = odd_polygon_place (cut, &back);
  return odd_scrap_dup_unshrunk (scrap, odd_job_get_scrap_fabric (self, scrap), worn);
}

OddJob *
odd_job_release_patch (OddJob  *self,
                       OddId    leaf_id,
                       OddId   *out_scrap_id,
                       GError **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_edit_get_panel_of (self, leaf_id, error);
  OddNode *leaf = panel != NULL ? odd_node_find (panel->root, leaf_id) : NULL;
  g_autoptr(OddNode) uncut_leaf = NULL;
  g_autoptr(OddNode) bare_leaf = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;
  g_autoptr(OddPolygon) piece = NULL;
  g_autoptr(OddJob) bare = NULL;
  g_autoptr(OddJob) added = NULL;
  OddScrap *scrap;
  OddId id = 0;
  OddJob *job;

  if (panel == NULL)
    return NULL;
  if (leaf == NULL)
    return refuse (error, _("There is no cloth here to release. Choose a patch."));
  odd_job_get_panel (self, panel->id, &textile, NULL);
  if (!check_loose (self, textile, panel, leaf, error))
    return NULL;
  scrap = odd_job_get_scrap (self, leaf->scrap_id);
  piece = dup_piece (self, panel, leaf_id, scrap);
  uncut_leaf = odd_node_with_cut (leaf, ODD_STATE_OPEN);
  bare_leaf = odd_node_with_patch (uncut_leaf, 0, &leaf->placement);
  root = odd_node_replace (panel->root, leaf_id, bare_leaf);
  changed = odd_panel_with_root (panel, root);
  bare = odd_edit_with_panel (self, changed);
  /* A pieced scrap does not fall apart by itself. */
  if (piece == NULL || scrap->piece != NULL || odd_polygon_get_area (scrap->outline) <= odd_polygon_get_area (piece) + SAME_SHAPE_MM2)
    {
      id = scrap->id;
      job = g_steal_pointer (&bare);
    }
  else
    {
      added = add_piece (bare, scrap, piece, &id, error);
      if (added == NULL)
        return NULL;
      job = take_off_piece (added, scrap, piece, error);
    }
  if (job != NULL && out_scrap_id != NULL)
    *out_scrap_id = id;
  return job;
}
