#include "config.h"

#include "piecing/refit.h"
#include "geometry/inscribed.h"

#include <glib/gi18n.h>

#define SPARE_MM 0.004           /* the cut shape is held so much smaller, so that cloth cut to size still holds it */
#define MOST_MISSING_MM 400.0
#define N_CORNERS 24             /* an outline with more is searched on a simplified one */
#define SIMPLIFY_MM 0.5
#define N_HALVINGS 14            /* of the share of an allowance: far finer than a thread */

typedef struct
{
  OddPatch patch;                /* lent by @layout, the scrap exchanged */
  OddLayout *layout;
  OddConvex *cut;                /* panel's own frame */
  GPtrArray *parts;              /* OddConvexParts, one a piece of cloth */
  GArray *turns;                 /* double, nearest to the wanted first */
} Refit;

static void
refit_clear (Refit *self)
{
  g_clear_pointer (&self->cut, odd_convex_unref);
  g_clear_pointer (&self->parts, g_ptr_array_unref);
  g_clear_pointer (&self->turns, g_array_unref);
  g_clear_pointer (&self->layout, odd_layout_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Refit, refit_clear)

/* --- the cloth --- */

static gboolean
is_ignored (OddId        leaf_id,
            const OddId *ignored,
            guint        n)
{
  for (guint i = 0; i < n; i++)
    if (ignored[i] == leaf_id)
      return TRUE;
  return FALSE;
}

static GPtrArray *
less_cut_shape (GPtrArray      *cloth,
                const OddPatch *patch)
{
  const OddPlacement back = odd_placement_inverse (&patch->placement);
  g_autoptr(OddConvex) cut = odd_convex_place (patch->cut, &back);
  GPtrArray *left = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  for (guint i = 0; i < cloth->len; i++)
    g_ptr_array_extend_and_steal (left, odd_polygon_difference_convex (cloth->pdata[i], cut));
  return left;
}

/* Usable cloth that no other patch needs. */
static GPtrArray *
dup_cloth (OddJob      *job,
           OddScrap    *scrap,
           const OddId *ignored,
           guint        n_ignored)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);
  GPtrArray *cloth = odd_scrap_dup_usable (scrap, odd_job_get_scrap_fabric (job, scrap));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, uses[i].panel->id);
      const OddPatch *patch = odd_layout_find_patch (layout, uses[i].leaf->id);
      GPtrArray *left;

      if (patch == NULL || is_ignored (uses[i].leaf->id, ignored, n_ignored))
        continue;
      left = less_cut_shape (cloth, patch);
      g_ptr_array_unref (cloth);
      cloth = left;
    }
  return cloth;
}

/* --- turns --- */

static double
edge_deg (OddPoint from,
          OddPoint to)
{
  return atan2 (to.y - from.y, to.x - from.x) * 180.0 / G_PI;
}

static void
add_flush_turns (Refit      *self,
                 OddPolygon *cloth)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (cloth, &n);

  for (gsize i = 0; i < n; i++)
    for (guint k = 0; k < self->cut->n; k++)
      {
        const OddSegment edge = odd_convex_edge (self->cut, k);
        const double turn = edge_deg (edge.from, edge.to) - edge_deg (ring[i], ring[(i + 1) % n]);

        g_array_append_val (self->turns, turn);
      }
}

static int
compare_away (gconstpointer a,
              gconstpointer b,
              gpointer      data)
{
  const double wanted = *(const double *) data;
  const double x = fabs (remainder (*(const double *) a - wanted, 360.0)), y = fabs (remainder (*(const double *) b - wanted, 360.0));

  return fabs (x - y) > 1e-9 ? (x > y) - (x < y) : 0;
}

/* The one turn at which cloth with an up stands upright where the panel hangs. */
static double
upright_turn (const Refit    *self,
              const OddScrap *scrap)
{
  return fmod (90.0 - scrap->grain_deg + self->layout->hung.turn_deg + 360.0, 360.0);
}

static void
make_turns (Refit     *self,
            GPtrArray *cloth,
            double     wanted)
{
  const gboolean one_way = self->patch.fabric != NULL && self->patch.fabric->one_way;

  self->turns = g_array_new (FALSE, FALSE, sizeof (double));
  if (isnan (wanted))
    wanted = one_way ? upright_turn (self, self->patch.scrap) : 0.0;
  g_array_append_val (self->turns, wanted);
  for (guint i = 0; i < cloth->len && !one_way; i++)
    add_flush_turns (self, cloth->pdata[i]);
  g_array_sort_with_data (self->turns, compare_away, &wanted);
}

/* --- the search --- */

static gboolean
refit_init (Refit       *self,
            OddJob      *job,
            OddId        leaf_id,
            OddId        scrap_id,
            double       wanted,
            const OddId *ignored,
            guint        n_ignored)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  g_autoptr(GPtrArray) cloth = NULL;
  g_autoptr(GPtrArray) searched = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  const OddPatch *patch;
  OddPlacement back;

  if (panel == NULL || scrap == NULL)
    return FALSE;
  self->layout = odd_job_dup_layout_apart (job, panel->id);
  patch = odd_layout_find_patch (self->layout, leaf_id);
  if (patch == NULL)
    return FALSE;
  self->patch = *patch;
  self->patch.scrap = scrap;
  self->patch.fabric = odd_job_get_scrap_fabric (job, scrap);
  back = odd_placement_inverse (&self->layout->hung);
  self->cut = odd_convex_place (patch->cut, &back);
  cloth = dup_cloth (job, scrap, ignored, n_ignored);
  self->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_convex_parts_free);
  for (guint i = 0; i < cloth->len; i++)
    {
      OddPolygon *simple = odd_polygon_simplify_inside (cloth->pdata[i], SIMPLIFY_MM, N_CORNERS);

      if (simple == NULL)
        continue;
      g_ptr_array_add (searched, simple);
      g_ptr_array_add (self->parts, odd_convex_parts_new (simple));
    }
  make_turns (self, searched, wanted);
  return TRUE;
}

static OddConvex *
pulled_in (const OddConvex *shape,
           double           by_mm)
{
  g_autofree OddHalfPlane *planes = g_new (OddHalfPlane, shape->n);

  for (guint i = 0; i < shape->n; i++)
    planes[i] = odd_half_plane_push (odd_convex_edge_half_plane (shape, i), -by_mm);
  return odd_convex_new_from_half_planes (planes, shape->labels, shape->n);
}

/* Turned back into the scrap's frame, does the shape lie in one of the pieces? */
static gboolean
fits_turned (const Refit     *self,
             OddConvex       *shape,
             double           turn,
             OddPlacement    *out)
{
  const OddPlacement back = { -turn, FALSE, { 0.0, 0.0 } }, there = { turn, FALSE, { 0.0, 0.0 } };
  g_autoptr(OddConvex) turned = odd_convex_place (shape, &back);
  OddPoint shift;

  for (guint i = 0; i < self->parts->len; i++)
    if (odd_convex_parts_fit (self->parts->pdata[i], turned, &shift))
      {
        const OddPoint away = odd_placement_apply (&there, shift);

        *out = (OddPlacement) { fmod (fmod (turn, 360.0) + 360.0, 360.0), FALSE, { -away.x, -away.y } };
        return TRUE;
      }
  return FALSE;
}

/* All that the checker asks: flaws among it. */
static gboolean
is_sound (const Refit        *self,
          const OddPlacement *placement)
{
  OddPatch patch = self->patch;

  patch.placement = odd_placement_compose (&self->layout->hung, placement);
  return odd_patch_fits (&patch);
}

static gboolean
find_placement (const Refit  *self,
                OddPlacement *out)
{
  g_autoptr(OddConvex) shape = pulled_in (self->cut, SPARE_MM);

  for (guint i = 0; shape != NULL && i < self->turns->len; i++)
    {
      OddPlacement placement;

      if (fits_turned (self, shape, g_array_index (self->turns, double, i), &placement) && is_sound (self, &placement))
        {
          *out = placement;
          return TRUE;
        }
    }
  return FALSE;
}

static gboolean
fits_pulled_in (const Refit *self,
                double       by_mm)
{
  g_autoptr(OddConvex) shape = pulled_in (self->cut, by_mm);
  OddPlacement placement;

  if (shape == NULL)
    return TRUE;
  for (guint i = 0; i < self->turns->len; i++)
    if (fits_turned (self, shape, g_array_index (self->turns, double, i), &placement))
      return TRUE;
  return FALSE;
}

/* By how much the cut shape would have to be smaller across; to 0.1 mm. */
static double
missing (const Refit *self)
{
  double fits = MOST_MISSING_MM, fails = 0.0;

  if (self->parts->len == 0)
    return 0.0;
  while (fits - fails > 0.01)
    {
      const double middle = (fits + fails) / 2.0;

      if (fits_pulled_in (self, middle))
        fits = middle;
      else
        fails = middle;
    }
  return 2.0 * fits;
}

gboolean
odd_refit (OddJob       *job,
           OddId         leaf_id,
           OddId         scrap_id,
           double        wanted_turn_deg,
           const OddId  *ignored,
           guint         n_ignored,
           OddPlacement *out_placement,
           double       *out_missing_mm)
{
  g_auto(Refit) refit = { .layout = NULL };

  g_return_val_if_fail (out_placement != NULL, FALSE);

  if (!refit_init (&refit, job, leaf_id, scrap_id, wanted_turn_deg, ignored, n_ignored))
    return FALSE;
  if (find_placement (&refit, out_placement))
    return TRUE;
  if (out_missing_mm != NULL)
    *out_missing_mm = missing (&refit);
  return FALSE;
}

/* --- replacing and swapping --- */

static OddNode *
find_leaf (OddJob *job,
           OddId   leaf_id)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  OddNode *leaf = panel != NULL ? odd_node_find (panel->root, leaf_id) : NULL;

  return leaf != NULL && leaf->kind == ODD_NODE_LEAF ? leaf : NULL;
}

static guint
patch_number (OddJob *job,
              OddId   leaf_id)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  g_autoptr(OddLayout) layout = panel != NULL ? odd_job_dup_layout_apart (job, panel->id) : NULL;
  const OddPatch *patch = layout != NULL ? odd_layout_find_patch (layout, leaf_id) : NULL;

  return patch != NULL ? patch->number : 0;
}

static OddJob *
place_refitted (OddJob      *job,
                OddId        leaf_id,
                OddId        scrap_id,
                double       wanted,
                const OddId *ignored,
                guint        n_ignored,
                GError     **error)
{
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  OddPlacement placement;
  double missing_mm = 0.0;

  if (scrap_id == 0)
    return odd_job_make_bare (job, leaf_id, error);
  if (odd_refit (job, leaf_id, scrap_id, wanted, ignored, n_ignored, &placement, &missing_mm))
    return odd_job_place_scrap (job, leaf_id, scrap_id, &placement, error);
  if (scrap == NULL)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no scrap %u in this job"), scrap_id);
  else if (missing_mm > 0.1)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("Scrap %u is about %.1f mm too small for patch %u. Choose a larger one."),
                 scrap->number, missing_mm, patch_number (job, leaf_id));
  else
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("Scrap %u has no cloth free for patch %u. Choose another one."),
                 scrap->number, patch_number (job, leaf_id));
  return NULL;
}

/* Asks whether the patch may be exchanged at all, before anything is searched. */
static gboolean
check_free (OddJob  *job,
            OddId    leaf_id,
            GError **error)
{
  g_autoptr(OddJob) bare = odd_job_make_bare (job, leaf_id, error);

  return bare != NULL;
}

OddJob *
odd_job_replace_scrap (OddJob  *self,
                       OddId    leaf_id,
                       OddId    scrap_id,
                       double   wanted_turn_deg,
                       GError **error)
{
  OddScrap *scrap = odd_job_get_scrap (self, scrap_id);

  if (!check_free (self, leaf_id, error))
    return NULL;
  if (scrap != NULL && scrap->gone)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Scrap %u is gone from the tub. Take another one."), scrap->number);
      return NULL;
    }
  return place_refitted (self, leaf_id, scrap_id, wanted_turn_deg, &leaf_id, 1, error);
}

OddJob *
odd_job_swap_patches (OddJob  *self,
                      OddId    a,
                      OddId    b,
                      GError **error)
{
  const OddId both[2] = { a, b };
  OddNode *first = find_leaf (self, a), *second = find_leaf (self, b);
  g_autoptr(OddJob) half = NULL;

  if (first == NULL || second == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("Two patches are needed for a swap. Select one, then choose the other."));
      return NULL;
    }
  if (a == b || (first->scrap_id == 0 && second->scrap_id == 0))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("There is nothing to swap here. Choose another patch."));
      return NULL;
    }
  if (!check_free (self, a, error) || !check_free (self, b, error))
    return NULL;
  half = place_refitted (self, a, second->scrap_id, second->placement.turn_deg, both, 2, error);
  return half != NULL ? place_refitted (half, b, first->scrap_id, first->placement.turn_deg, &b, 1, error) : NULL;
}

/* --- cutting in two --- */

typedef struct
{
  OddId ids[2];                  /* on the kept side of the line, beyond it */
  guint larger;
  OddPoint normal;               /* of the line, panel's own frame */
  double apart_mm;               /* both allowances of the new seam */
} Halves;

static gboolean
check_line (OddJob         *job,
            const OddPatch *patch,
            OddConvex      *region,
            OddHalfPlane    line,
            GError        **error)
{
  g_autoptr(OddConvex) first = odd_convex_clip (region, line, 0);
  g_autoptr(OddConvex) second = odd_convex_clip (region, odd_half_plane_flip (line), 0);
  const double least = job->settings.min_side_mm;
  double narrowest;

  if (first == NULL || second == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("The line misses patch %u. Draw it from one edge of the patch to another."), patch->number);
      return FALSE;
    }
  narrowest = MIN (odd_convex_min_width (first), odd_convex_min_width (second));
  if (narrowest >= least - ODD_TOLERANCE_MM)
    return TRUE;
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
               _("One half of patch %u would be %.1f mm narrow, and %.0f mm is the least side in the preferences. Draw the line nearer to the middle."),
               patch->number, narrowest, least);
  return FALSE;
}

static OddJob *
split_bare (OddJob         *job,
            const OddPatch *patch,
            OddConvex      *region,
            OddHalfPlane    line,
            Halves         *halves,
            GError        **error)
{
  const OddId seam_from = job->next_id + 1;
  g_autoptr(OddConvex) kept = odd_convex_clip (region, line, 0);
  g_autoptr(OddNode) keeps_id = odd_node_with_patch (patch->leaf, 0, NULL);
  g_autoptr(OddNode) fresh = odd_node_new_bare (job->next_id);
  g_autoptr(OddLayout) layout = NULL;
  OddJob *split;
  OddPanel *panel;

  halves->larger = odd_convex_area (kept) >= odd_convex_area (region) / 2.0 ? 0 : 1;
  halves->ids[halves->larger] = patch->leaf->id;
  halves->ids[1 - halves->larger] = fresh->id;
  split = odd_job_split_leaf (job, patch->leaf->id, line, halves->larger == 0 ? keeps_id : fresh, halves->larger == 0 ? fresh : keeps_id, seam_from, error);
  if (split == NULL)
    return NULL;
  panel = odd_job_find_panel_of (split, fresh->id, NULL, NULL);
  layout = odd_job_dup_layout_apart (split, panel->id);
  halves->normal = line.normal;
  for (guint i = 0; i < layout->n_seams; i++)
    if (layout->seams[i].seam->id == seam_from)
      halves->apart_mm = 2.0 * layout->seams[i].allowance_mm;
  return split;
}

/* Lies the half well on its scrap, and off the cloth of all others? */
static gboolean
half_fits (OddJob *job,
           OddId   leaf_id)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, leaf_id);
  g_autoptr(GPtrArray) cloth = dup_cloth (job, patch->scrap, &leaf_id, 1);
  const OddPlacement back = odd_placement_inverse (&patch->placement);
  g_autoptr(OddConvex) cut = odd_convex_place (patch->cut, &back);

  for (guint i = 0; i < cloth->len; i++)
    if (odd_polygon_contains_convex (cloth->pdata[i], cut, ODD_FIT_TOLERANCE_MM))
      return odd_patch_fits (patch);
  return FALSE;
}

/* Both halves on the scrap as it lies, moved apart by the seam's allowances: the larger half by @share of it, the smaller by the rest. */
static OddJob *
give_way (OddJob         *split,
          const OddNode  *leaf,
          const Halves   *halves,
          double          share)
{
  OddJob *job = odd_job_ref (split);

  for (guint i = 0; i < 2; i++)
    {
      const double by_mm = (i == 0 ? 1.0 : -1.0) * (i == halves->larger ? share : 1.0 - share) * halves->apart_mm;
      OddPlacement placement = leaf->placement;
      OddJob *placed;

      placement.shift = odd_point_add (placement.shift, odd_point_scale (halves->normal, by_mm));
      placed = odd_job_place_scrap (job, halves->ids[i], leaf->scrap_id, &placement, NULL);
      odd_job_unref (job);
      g_return_val_if_fail (placed != NULL, NULL);
      job = placed;
    }
  return job;
}

/* The less the larger half gives way, the better; the smaller one has room from some share on. */
static OddJob *
move_apart (OddJob         *split,
            const OddNode  *leaf,
            const Halves   *halves)
{
  const OddId larger = halves->ids[halves->larger], smaller = halves->ids[1 - halves->larger];
  double fails = 0.0, fits = 1.0;
  g_autoptr(OddJob) job = give_way (split, leaf, halves, 0.0);

  if (!half_fits (job, smaller))
    {
      for (guint i = 0; i < N_HALVINGS; i++)
        {
          const double share = (fits + fails) / 2.0;
          g_autoptr(OddJob) tried = give_way (split, leaf, halves, share);

          if (half_fits (tried, smaller))
            fits = share;
          else
            fails = share;
        }
      odd_job_unref (job);
      job = give_way (split, leaf, halves, fits);
    }
  return half_fits (job, larger) && half_fits (job, smaller) ? g_steal_pointer (&job) : NULL;
}

/* Where it lies, if the tip of a slanting line does not reach out of the cloth there; else elsewhere on the scrap. */
static OddJob *
keep_larger (OddJob         *split,
             const OddNode  *leaf,
             OddId           larger,
             GError        **error)
{
  g_autoptr(OddJob) kept = odd_job_place_scrap (split, larger, leaf->scrap_id, &leaf->placement, error);
  OddPlacement placement;

  if (kept == NULL || half_fits (kept, larger))
    return g_steal_pointer (&kept);
  if (odd_refit (split, larger, leaf->scrap_id, leaf->placement.turn_deg, NULL, 0, &placement, NULL))
    return odd_job_place_scrap (split, larger, leaf->scrap_id, &placement, error);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
               _("Cut there, the tips of patch %u would reach out of its scrap. Draw the line squarer to the patch's edges."), patch_number (split, larger));
  return NULL;
}

static OddJob *
fill_halves (OddJob         *split,
             const OddNode  *leaf,
             const Halves   *halves,
             OddId          *out_bare_id,
             GError        **error)
{
  const OddId larger = halves->ids[halves->larger], smaller = halves->ids[1 - halves->larger];
  OddJob *both = move_apart (split, leaf, halves);
  g_autoptr(OddJob) kept = NULL;
  OddPlacement placement;

  if (both != NULL)
    return both;
  kept = keep_larger (split, leaf, larger, error);
  if (kept == NULL)
    return NULL;
  if (odd_refit (kept, smaller, leaf->scrap_id, leaf->placement.turn_deg, NULL, 0, &placement, NULL))
    return odd_job_place_scrap (kept, smaller, leaf->scrap_id, &placement, NULL);
  *out_bare_id = smaller;
  return g_steal_pointer (&kept);
}

OddJob *
odd_job_cut_in_two (OddJob        *self,
                    OddId          leaf_id,
                    OddHalfPlane   line,
                    OddId         *out_bare_id,
                    GError       **error)
{
  OddPanel *panel = odd_job_find_panel_of (self, leaf_id, NULL, NULL);
  g_autoptr(OddLayout) layout = panel != NULL ? odd_job_dup_layout_apart (self, panel->id) : NULL;
  const OddPatch *patch = layout != NULL ? odd_layout_find_patch (layout, leaf_id) : NULL;
  g_autoptr(OddConvex) region = NULL;
  g_autoptr(OddJob) split = NULL;
  Halves halves = { { 0, 0 }, 0, { 0, 0 }, 0.0 };
  OddId bare_id = 0;
  OddPlacement back;
  OddNode *leaf;
  OddJob *job;

  if (patch == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("%u is not a patch"), leaf_id);
      return NULL;
    }
  back = odd_placement_inverse (&layout->hung);
  region = odd_convex_place (patch->region, &back);
  if (!check_free (self, leaf_id, error) || !check_line (self, patch, region, line, error))
    return NULL;
  leaf = find_leaf (self, leaf_id);
  split = split_bare (self, patch, region, line, &halves, error);
  if (split == NULL)
    return NULL;
  job = leaf->scrap_id == 0 ? g_steal_pointer (&split) : fill_halves (split, leaf, &halves, &bare_id, error);
  if (job != NULL && out_bare_id != NULL)
    *out_bare_id = bare_id;
  return job;
}

/* --- what could take its place --- */

typedef struct { OddId id; double spare_mm2; } Candidate;

static int
compare_spare (gconstpointer a,
               gconstpointer b)
{
  const Candidate *x = a, *y = b;

  return x->spare_mm2 != y->spare_mm2 ? (x->spare_mm2 > y->spare_mm2) - (x->spare_mm2 < y->spare_mm2) : (x->id > y->id) - (x->id < y->id);
}

GArray *
odd_refit_which (OddJob       *job,
                 OddId         leaf_id,
                 GCancellable *cancellable)
{
  g_autoptr(GArray) found = g_array_new (FALSE, FALSE, sizeof (Candidate));
  GArray *ids;

  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddScrap *scrap = job->scraps->pdata[i];
      const Candidate candidate = { scrap->id, odd_polygon_get_area (scrap->outline) };
      OddPlacement placement;

      if (g_cancellable_is_cancelled (cancellable))
        return NULL;
      if (odd_job_get_scrap_state (job, scrap->id) == ODD_SCRAP_FREE && odd_refit (job, leaf_id, scrap->id, NAN, &leaf_id, 1, &placement, NULL))
        g_array_append_val (found, candidate);
    }
  g_array_sort (found, compare_spare);
  ids = g_array_new (FALSE, FALSE, sizeof (OddId));
  for (guint i = 0; i < found->len; i++)
    g_array_append_val (ids, g_array_index (found, Candidate, i).id);
  return ids;
}
