/* Is the cloth sound? Each finding names the thing, the place and the remedy. */
#include "config.h"

#include "cloth/layout.h"
#include "cloth/length.h"

#include <glib/gi18n.h>

/* Two cut shapes on one scrap may share an edge; what rounding makes of that is far below. */
#define OVERLAP_MM2 1.0
#define UPRIGHT_DEG 0.01
#define MOST_PIECES 16             /* a piece in a piece: no job holds more */

void
odd_finding_free (OddFinding *finding)
{
  g_free (finding->text);
  g_free (finding);
}

static gboolean
cut_is_in (GPtrArray       *usable,
           const OddConvex *cut)
{
  for (guint i = 0; i < usable->len; i++)
    if (odd_polygon_contains_convex (usable->pdata[i], cut, ODD_FIT_TOLERANCE_MM))
      return TRUE;
  return FALSE;
}

/* The zone that shows in the finished region, and how much of it by box; NULL when none. */
static OddPolygon *
zone_in_region (const OddPatch *patch,
                OddBox         *out_box)
{
  g_autoptr(GPtrArray) zones = odd_scrap_dup_allowance_zones (patch->scrap, patch->fabric);
  g_autoptr(OddPolygon) region = NULL;

  if (zones->len == 0)
    return NULL;
  region = odd_polygon_new_from_convex (patch->region);
  for (guint i = 0; i < zones->len; i++)
    {
      g_autoptr(OddPolygon) placed = odd_polygon_place (zones->pdata[i], &patch->placement);
      g_autoptr(GPtrArray) shown = odd_polygon_intersection (placed, region);

      if (shown->len > 0)
        {
          *out_box = odd_polygon_get_box (shown->pdata[0]);
          return odd_polygon_ref (placed);
        }
    }
  return NULL;
}

gboolean
odd_patch_fits (const OddPatch *self)
{
  g_autoptr(GPtrArray) usable = odd_patch_dup_placed_usable (self);
  g_autoptr(OddPolygon) zone = NULL;
  OddBox box;

  if (usable == NULL)
    return TRUE;
  if (!cut_is_in (usable, self->cut))
    return FALSE;
  zone = zone_in_region (self, &box);
  return zone == NULL;
}

typedef struct
{
  OddJob *job;
  OddTextile *textile;
  OddPanel *panel;
  const OddLayout *layout;
  char *panel_name;
  GPtrArray *findings;
} Check;

static OddFinding *
add (Check          *check,
     OddFindingKind  kind,
     const OddPatch *patch,
     char           *text)
{
  OddFinding *finding = g_new0 (OddFinding, 1);

  finding->kind = kind;
  finding->textile_id = check->textile != NULL ? check->textile->id : 0;
  finding->panel_id = check->panel != NULL ? check->panel->id : 0;
  if (patch != NULL)
    {
      finding->leaf_id = patch->leaf->id;
      finding->scrap_id = patch->scrap != NULL ? patch->scrap->id : 0;
      finding->at = odd_convex_centroid (patch->region);
    }
  finding->text = text;
  g_ptr_array_add (check->findings, finding);
  return finding;
}

static void
add_too_small (Check          *check,
               const OddPatch *patch,
               GPtrArray      *usable)
{
  g_autoptr(OddPolygon) cut = odd_polygon_new_from_convex (patch->cut);
  g_autoptr(GPtrArray) outside = odd_polygon_difference_many (cut, (OddPolygon *const *) usable->pdata, usable->len);
  double widest_mm = 0.0;

  for (guint i = 0; i < outside->len; i++)
    {
      g_autoptr(OddConvex) hull = odd_polygon_convex_hull (outside->pdata[i]);

      if (hull != NULL)
        widest_mm = MAX (widest_mm, odd_convex_min_width (hull));
    }
  add (check, ODD_FINDING_TOO_SMALL, patch,
       g_strdup_printf (_("%s, patch %u: scrap %u is up to %.1f mm too small for its cut shape. Put a larger scrap there, or shift it."),
                        check->panel_name, patch->number, patch->scrap->number, MAX (widest_mm, 0.1)));
}

/* What shows of a print with an up, through however many pieces it lies in. @turned: those pieces, from the outside in. */
static const OddPatch *
find_upside_down (const OddPatch *patch,
                  const OddPatch **turned,
                  guint            n)
{
  const OddPatch *found = NULL;
  double up_deg;

  if (n == MOST_PIECES)
    return NULL;
  turned[n++] = patch;
  for (guint i = 0; patch->piece != NULL && found == NULL && i < patch->piece->n_patches; i++)
    found = find_upside_down (&patch->piece->patches[i], turned, n);
  if (found != NULL || patch->scrap == NULL || patch->fabric == NULL || !patch->fabric->one_way)
    return found;
  up_deg = patch->scrap->grain_deg;
  while (n-- > 0)
    up_deg = odd_placement_apply_angle (&turned[n]->placement, up_deg);
  return fabs (remainder (up_deg - 90.0, 360.0)) > 90.0 + UPRIGHT_DEG ? patch : NULL;
}

static void
check_upright (Check          *check,
               const OddPatch *patch)
{
  const OddPatch *turned[MOST_PIECES];
  const OddPatch *found = find_upside_down (patch, turned, 0);

  if (found != NULL)
    add (check, ODD_FINDING_UPSIDE_DOWN, patch,
         g_strdup_printf (_("%s, patch %u: “%s” has an up, and scrap %u hangs upside down. Turn it, or the panel, over end."),
                          check->panel_name, patch->number, found->fabric->name, found->scrap->number));
}

static void
check_patch (Check          *check,
             const OddPatch *patch)
{
  g_autoptr(GPtrArray) usable = NULL;
  g_autoptr(OddPolygon) zone = NULL;
  OddBox box;

  if (patch->scrap == NULL)
    {
      const OddBox region = odd_convex_box (patch->cut);

      add (check, ODD_FINDING_BARE, patch,
           g_strdup_printf (_("%s, patch %u is bare. It needs a scrap of %.1f × %.1f mm."),
                            check->panel_name, patch->number, region.width, region.height));
      return;
    }
  usable = odd_patch_dup_placed_usable (patch);
  if (!cut_is_in (usable, patch->cut))
    add_too_small (check, patch, usable);
  zone = zone_in_region (patch, &box);
  if (zone != NULL)
    add (check, ODD_FINDING_ZONE, patch,
         g_strdup_printf (_("%s, patch %u: a flaw of scrap %u shows by %.1f × %.1f mm. Shift the scrap so that it falls in the allowance."),
                          check->panel_name, patch->number, patch->scrap->number, box.width, box.height));
  if (patch->placement.mirror && (patch->fabric == NULL || !patch->fabric->reversible))
    add (check, ODD_FINDING_MIRRORED, patch,
         g_strdup_printf (_("%s, patch %u: scrap %u lies wrong side up, and its cloth is not marked reversible. Turn it over."),
                          check->panel_name, patch->number, patch->scrap->number));
  check_upright (check, patch);
}

static void
check_allowances (Check *check)
{
  for (guint i = 0; i < check->layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &check->layout->seams[i];
      OddFinding *finding;

      if (laid->allowance_mm >= laid->finish->min_allowance_mm - ODD_TOLERANCE_MM || laid->raw_length_mm <= 0.0)
        continue;
      finding = add (check, ODD_FINDING_NARROW_ALLOWANCE, NULL,
                     g_strdup_printf (_("%s: a seam has %.1f mm allowance, and “%s” needs at least %.1f mm. Choose another finish or a wider allowance."),
                                      check->panel_name, laid->allowance_mm, laid->finish->name, laid->finish->min_allowance_mm));
      finding->seam_id = laid->seam->id;
      finding->at = odd_point_lerp (laid->finished.from, laid->finished.to, 0.5);
    }
}

/* A seam that is not finished and pressed although what crosses its end is sewn. */
static gboolean
is_ready (const OddLaidSeam *laid)
{
  for (guint op = 0; op <= odd_finish_ready_to_cross (laid->finish); op++)
    if (odd_progress_get_state (laid->seam->progress, op) == ODD_STATE_OPEN)
      return FALSE;
  return TRUE;
}

static gboolean
is_joined (const OddSeam   *seam,
           const OddFinish *finish)
{
  return odd_progress_get_state (seam->progress, odd_finish_first_sew (finish)) == ODD_STATE_DONE;
}

static gboolean
crosser_is_joined (Check        *check,
                   const OddEnd *end)
{
  if (end->label >= 0)
    return is_joined (check->layout->seams[end->label].seam, check->layout->seams[end->label].finish);
  if (end->by != 0 && check->textile != NULL)
    for (guint i = 0; i + 1 < check->textile->n_hung; i++)
      if (check->textile->joins[i].id == end->by)
        return is_joined (&check->textile->joins[i], check->layout->edges[-1 - end->label].finish);
  return FALSE;
}

static void
check_raw_inside (Check *check)
{
  for (guint i = 0; i < check->layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &check->layout->seams[i];
      OddFinding *finding;

      if (laid->raw_length_mm <= 0.0 || is_ready (laid) ||
          !(crosser_is_joined (check, &laid->ends[0]) || crosser_is_joined (check, &laid->ends[1])))
        continue;
      finding = add (check, ODD_FINDING_RAW_INSIDE, NULL,
                     g_strdup_printf (_("%s: a seam was sewn over before it was finished and pressed. Unpick the seam across its end, or accept that it stays raw inside."),
                                      check->panel_name));
      finding->seam_id = laid->seam->id;
      finding->at = odd_point_lerp (laid->finished.from, laid->finished.to, 0.5);
    }
}

static void
check_panel (OddJob     *job,
             OddTextile *textile,
             OddPanel   *panel,
             GPtrArray  *findings)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
  g_autoptr(OddLayout) apart = odd_job_dup_layout_apart (job, panel->id);
  g_autofree char *name = odd_job_dup_panel_name (job, panel);
  Check check = { job, textile, panel, layout, name, findings };

  for (guint i = 0; i < layout->n_patches; i++)
    check_patch (&check, &layout->patches[i]);
  /* What only the neighbours' trim takes away is no fault of the panel: a short new column must not condemn the others. */
  for (guint i = 0; i < apart->n_vanished; i++)
    {
      OddFinding *finding = add (&check, ODD_FINDING_VANISHED, NULL,
                                 g_strdup_printf (_("%s: seams and trims leave nothing of one patch. Take a seam off, or move it."), name));

      finding->leaf_id = apart->vanished[i];
    }
  check_allowances (&check);
  check_raw_inside (&check);
}

/* The cut shape of a use, back in the frame of its scrap. */
static OddPolygon *
use_in_scrap (OddJob       *job,
              const OddUse *use)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, use->panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, use->leaf->id);
  OddPlacement back;
  g_autoptr(OddPolygon) cut = NULL;

  if (patch == NULL)
    return NULL;
  back = odd_placement_inverse (&patch->placement);
  cut = odd_polygon_new_from_convex (patch->cut);
  return odd_polygon_place (cut, &back);
}

static void
check_scrap_overlaps (OddJob    *job,
                      OddScrap  *scrap,
                      GPtrArray *findings)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);
  g_autoptr(GPtrArray) shapes = NULL;

  if (n < 2)
    return;
  shapes = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  for (guint i = 0; i < n; i++)
    {
      OddPolygon *shape;

      /* what is sewn into a piece already lies where it lies; a piece and its halves hold the same cloth */
      if (odd_job_find_pieced (job, uses[i].panel->id) != NULL)
        continue;
      shape = use_in_scrap (job, &uses[i]);
      for (guint k = 0; shape != NULL && k < shapes->len; k++)
        if (odd_polygon_overlap_area (shape, shapes->pdata[k]) > OVERLAP_MM2)
          {
            Check check = { job, NULL, uses[i].panel, NULL, NULL, findings };
            OddFinding *finding = add (&check, ODD_FINDING_OVERLAP, NULL,
                                       g_strdup_printf (_("Two patches overlap on scrap %u. Shift one of them, or give it another scrap."), scrap->number));

            finding->scrap_id = scrap->id;
            finding->leaf_id = uses[i].leaf->id;
            break;
          }
      if (shape != NULL)
        g_ptr_array_add (shapes, shape);
    }
}

static void
check_pictures (OddJob    *job,
                GPtrArray *findings)
{
  for (guint i = 0; i < job->pictures->len; i++)
    {
      OddPicture *picture = job->pictures->pdata[i];
      Check check = { job, NULL, NULL, NULL, NULL, findings };

      if (picture->bytes == NULL)
        add (&check, ODD_FINDING_PICTURE, NULL,
             g_strdup_printf (_("The picture %.12s… is missing or broken; a plain fill is shown. Photograph the cloth again."), picture->name));
    }
}

GPtrArray *
odd_job_check (OddJob       *self,
               GCancellable *cancellable)
{
  GPtrArray *findings = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_finding_free);

  for (guint t = 0; t < self->textiles->len; t++)
    {
      OddTextile *textile = self->textiles->pdata[t];

      for (guint i = 0; i < textile->n_hung && !g_cancellable_is_cancelled (cancellable); i++)
        check_panel (self, textile, textile->hung[i].panel, findings);
    }
  for (guint i = 0; i < self->loose_panels->len && !g_cancellable_is_cancelled (cancellable); i++)
    check_panel (self, NULL, self->loose_panels->pdata[i], findings);
  for (guint i = 0; i < self->scraps->len && !g_cancellable_is_cancelled (cancellable); i++)
    check_scrap_overlaps (self, self->scraps->pdata[i], findings);
  check_pictures (self, findings);
  return findings;
}
