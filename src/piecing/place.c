/* What is done with a place: shifted by a hair, and made true. */
#include "config.h"

#include "piecing/figures.h"

#include <glib/gi18n.h>

/* --- nudging --- */

/* The piece of cloth in which the cut shape lies; -1: none. */
static int
piece_of (const OddHand *hand,
          const OddSlot *slot,
          OddPlacement   placement,
          double         height_mm)
{
  const OddPlacement back = odd_placement_inverse (&placement);
  g_autoptr(OddConvex) cut = NULL;
  g_autoptr(OddConvex) region = odd_slot_region (slot, height_mm, &cut);
  g_autoptr(OddConvex) in_scrap = region != NULL && cut != NULL ? odd_convex_place (cut, &back) : NULL;

  for (guint i = 0; in_scrap != NULL && i < hand->pieces->len; i++)
    if (odd_polygon_contains_convex (hand->pieces->pdata[i], in_scrap, 1e-3))
      return i;

  return -1;
}

/* Swaps what a place holds with what another one holds. */
static void
take_over (OddPlace *place,
           OddPlace *from)
{
  const OddPlace was = *place;

  from->kind = place->kind;
  *place = *from;
  *from = was;
}

gboolean
odd_place_nudge (OddJob   *job,
                 OddPlace *place,
                 double    along_mm,
                 double    across_mm)
{
  OddScrap *scrap = odd_job_get_scrap (job, place->scrap_id);
  g_autoptr(OddSlot) slot = odd_slot_for_place (job, place);
  g_autoptr(OddHand) hand = NULL;
  const OddPlacement old = place->placement;
  OddPlacement placement = old;
  OddPoint by;
  OddPlace *nudged;
  double height_mm;
  int piece;

  g_return_val_if_fail (scrap != NULL, FALSE);

  if (slot == NULL)
    return FALSE;
  hand = odd_hand_new (job, scrap);
  by = odd_placement_apply (&(OddPlacement) { slot->frame.turn_deg, FALSE, { 0.0, 0.0 } }, odd_point (along_mm, across_mm));
  placement.shift = odd_point_add (old.shift, by);
  height_mm = place->height_mm;
  /* the far line goes with the cloth where it is free */
  if (!odd_slot_is_whole (slot, height_mm))
    height_mm = MIN (height_mm + across_mm, slot->max_height_mm - job->settings.min_side_mm);
  if (height_mm < job->settings.min_side_mm - ODD_TOLERANCE_MM)
    return FALSE;

  piece = piece_of (hand, slot, placement, height_mm);
  if (piece < 0)
    return FALSE;
  nudged = odd_place_new (hand, slot, piece, &placement, height_mm, NULL);
  if (nudged == NULL)
    return FALSE;
  take_over (place, nudged);
  odd_place_free (nudged);

  return TRUE;
}

/* --- making it true --- */

/* A line in the panel's own frame. */
static OddHalfPlane
own_line (const OddSlot *slot,
          OddHalfPlane   line)
{
  const OddPlacement back = slot->layout != NULL ? odd_placement_inverse (&slot->layout->hung) : ODD_PLACEMENT_IDENTITY;

  return odd_half_plane_place (line, &back);
}

static OddPlacement
own_placement (const OddSlot  *slot,
               const OddPlace *place)
{
  const OddPlacement back = slot->layout != NULL ? odd_placement_inverse (&slot->layout->hung) : ODD_PLACEMENT_IDENTITY;

  return odd_placement_compose (&back, &place->placement);
}

/* The first row of a strip is at its left, or top. */
static gboolean
runs_backwards (OddHalfPlane line)
{
  return fabs (line.normal.x) > fabs (line.normal.y) ? line.normal.x < 0.0 : line.normal.y < 0.0;
}

/* Patch and bare rest as a strip; takes ids from @next on. */
static OddNode *
make_row (const OddSlot  *slot,
          const OddPlace *place,
          OddId          *next,
          OddId          *out_leaf_id)
{
  const OddHalfPlane line = own_line (slot, odd_slot_row_line (slot));
  const OddPlacement placement = own_placement (slot, place);
  const gboolean backwards = runs_backwards (line);
  const OddId strip_id = *next;
  g_autoptr(OddNode) patch = odd_node_new_patch (strip_id + 1, place->scrap_id, &placement);
  g_autoptr(OddNode) bare = odd_node_new_bare (strip_id + 2);
  OddNode *const parts[2] = { backwards ? bare : patch, backwards ? patch : bare };
  OddSeam seam;

  odd_seam_init (&seam, strip_id + 3, backwards ? odd_half_plane_flip (line) : line);
  *next = strip_id + 4;
  *out_leaf_id = patch->id;

  return odd_node_new_strip (strip_id, parts, &seam, 2);
}

static OddNode *
make_part (const OddSlot  *slot,
           const OddPlace *place,
           OddId          *next,
           OddId          *out_leaf_id)
{
  const OddPlacement placement = own_placement (slot, place);

  if (slot->row_width_mm > 0.0)
    return make_row (slot, place, next, out_leaf_id);
  *out_leaf_id = (*next)++;

  return odd_node_new_patch (*out_leaf_id, place->scrap_id, &placement);
}

static OddJob *
apply_at_edge (OddJob         *job,
               const OddSlot  *slot,
               const OddPlace *place,
               OddId          *out_leaf_id,
               GError        **error)
{
  OddId next = job->next_id;
  g_autoptr(OddNode) part = make_part (slot, place, &next, out_leaf_id);
  const OddExtension extension = {
    .edge = place->target.edge,
    .seam = own_line (slot, odd_half_plane_flip (slot->base_plane)),
    .outer = own_line (slot, odd_slot_far_line (slot, place->height_mm)),
    .part = part,
    .next_id = next,
  };

  return odd_job_extend_panel (job, place->target.panel_id, &extension, error);
}

static OddJob *
apply_in_bare (OddJob         *job,
               const OddSlot  *slot,
               const OddPlace *place,
               OddId          *out_leaf_id,
               GError        **error)
{
  const OddPlacement placement = own_placement (slot, place);
  g_autoptr(OddNode) patch = NULL;
  g_autoptr(OddNode) bare = NULL;

  if (odd_slot_is_whole (slot, place->height_mm))
    {
      *out_leaf_id = place->target.leaf_id;
      return odd_job_place_scrap (job, place->target.leaf_id, place->scrap_id, &placement, error);
    }
  /* The bare rest stays what it was; the patch is new. */
  *out_leaf_id = job->next_id;
  patch = odd_node_new_patch (*out_leaf_id, place->scrap_id, &placement);
  bare = odd_node_new_bare (place->target.leaf_id);

  return odd_job_split_leaf (job, place->target.leaf_id, own_line (slot, odd_slot_far_line (slot, place->height_mm)),
                             patch, bare, *out_leaf_id + 1, error);
}

static OddJob *
apply_as_panel (OddJob         *job,
                const OddSlot  *slot,
                const OddPlace *place,
                OddId          *out_leaf_id,
                GError        **error)
{
  OddId panel_id = 0, next;
  g_autoptr(OddJob) bare = odd_job_add_panel (job, place->target.textile_id, place->target.index, "", slot->edge_mm, place->height_mm, &panel_id, error);
  g_autoptr(OddNode) row = NULL;
  OddPanel *panel;
  OddJob *done;

  if (bare == NULL)
    return NULL;
  panel = odd_job_get_panel (bare, panel_id, NULL, NULL);
  if (slot->row_width_mm <= 0.0)
    {
      *out_leaf_id = panel->root->id;
      return odd_job_place_scrap (bare, panel->root->id, place->scrap_id, &place->placement, error);
    }
  next = bare->next_id;
  row = make_row (slot, place, &next, out_leaf_id);
  done = odd_job_replace_leaf (bare, panel->root->id, row, next, error);

  return done;
}

OddJob *
odd_job_apply_place (OddJob          *job,
                     const OddPlace  *place,
                     OddId           *out_leaf_id,
                     GError         **error)
{
  g_autoptr(OddSlot) slot = odd_slot_for_place (job, place);
  OddId leaf_id = 0;
  OddJob *done;

  if (slot == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("This place is no longer there. Choose another one."));
      return NULL;
    }
  switch (place->target.kind)
    {
    case ODD_TARGET_EDGE:
      done = apply_at_edge (job, slot, place, &leaf_id, error);
      break;
    case ODD_TARGET_BARE:
      done = apply_in_bare (job, slot, place, &leaf_id, error);
      break;
    default:
      done = apply_as_panel (job, slot, place, &leaf_id, error);
      break;
    }
  if (done != NULL && out_leaf_id != NULL)
    *out_leaf_id = leaf_id;

  return done;
}
