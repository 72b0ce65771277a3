/* The figures of a place: what it covers and gains, what is cut off and lost, what comes back, and what that is worth. */
#include "config.h"

#include "piecing/figures.h"
#include "cloth/offcuts.h"

#include <glib/gi18n.h>

/* Score: square millimetres of cloth lost, and what we hold other things to be worth in them. All our choice.
 * Heavier turning sticks to the hand's angle however much cloth that costs; lighter, and the ghost spins. */
#define TURN_MM2_PER_DEG 10.0
#define NEAR_JUNCTION_MM2 1000.0
/* A tilt must save cloth worth seeing: the rows after it lean too, and a seam end that it cuts loses its back-stitch. */
#define TILT_MM2_PER_DEG 150.0
#define CUT_END_MM2 1500.0
#define ZONE_SHOWS_MM2 4000.0
/* What a scrap's search outline is made with; see odd_scrap_dup_search_outline(). */
#define SEARCH_TOLERANCE_MM 1.0
#define SEARCH_CORNERS 16
#define MAX_PIECES 4
/* Sticking out less than this is rounding. */
#define INSIDE_TOLERANCE_MM 1e-3

static GPtrArray *
polygons_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
}

static void
add_search (OddHand    *self,
            OddPolygon *polygon,
            guint       piece)
{
  OddPolygon *simple = odd_polygon_simplify_inside (polygon, SEARCH_TOLERANCE_MM, SEARCH_CORNERS);

  g_ptr_array_add (self->search, simple != NULL ? simple : odd_polygon_ref (polygon));
  g_array_append_val (self->of_piece, piece);
}

OddHand *
odd_hand_new (OddJob   *job,
              OddScrap *scrap)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (job, scrap);
  OddHand *self = g_new0 (OddHand, 1);

  self->job = odd_job_ref (job);
  self->scrap = odd_scrap_ref (scrap);
  self->pieces = odd_scrap_dup_cloth (job, scrap);
  self->zones = odd_scrap_dup_allowance_zones (scrap, fabric);
  self->may_mirror = fabric != NULL && fabric->reversible;
  self->search = polygons_new ();
  self->of_piece = g_array_new (FALSE, FALSE, sizeof (guint));
  self->n_plain = MIN (self->pieces->len, MAX_PIECES);
  for (guint i = 0; i < self->n_plain; i++)
    add_search (self, self->pieces->pdata[i], i);
  for (guint i = 0; self->zones->len > 0 && i < self->n_plain; i++)
    {
      g_autoptr(GPtrArray) clear = odd_polygon_difference_many (self->pieces->pdata[i], (OddPolygon *const *) self->zones->pdata, self->zones->len);

      for (guint k = 0; k < clear->len && k < MAX_PIECES; k++)
        add_search (self, clear->pdata[k], i);
    }

  return self;
}

void
odd_hand_free (OddHand *self)
{
  g_ptr_array_unref (self->pieces);
  g_ptr_array_unref (self->search);
  g_ptr_array_unref (self->zones);
  g_array_unref (self->of_piece);
  odd_scrap_unref (self->scrap);
  odd_job_unref (self->job);
  g_free (self);
}

void
odd_place_free (OddPlace *place)
{
  if (place == NULL)
    return;
  g_free (place->warning);
  g_clear_pointer (&place->region, odd_convex_unref);
  g_clear_pointer (&place->cut, odd_convex_unref);
  g_clear_pointer (&place->trims, g_ptr_array_unref);
  g_clear_pointer (&place->panel_trims, g_ptr_array_unref);
  g_clear_pointer (&place->offcuts, g_ptr_array_unref);
  g_free (place);
}

OddPlace *
odd_place_copy (const OddPlace *place)
{
  OddPlace *copy = g_memdup2 (place, sizeof *place);

  copy->warning = g_strdup (place->warning);
  copy->region = odd_convex_ref (place->region);
  copy->cut = odd_convex_ref (place->cut);
  /* Never changed once made: shared. */
  copy->trims = g_ptr_array_ref (place->trims);
  copy->panel_trims = g_ptr_array_ref (place->panel_trims);
  copy->offcuts = g_ptr_array_ref (place->offcuts);

  return copy;
}

/* --- cloth --- */

/* Parts what the cut shape leaves of the piece into what comes back and what does not. */
static void
part_leavings (OddPlace      *place,
               const OddHand *hand,
               OddPolygon    *piece)
{
  const OddPlacement back = odd_placement_inverse (&place->placement);
  g_autoptr(OddConvex) cut = odd_convex_place (place->cut, &back);
  g_autoptr(GPtrArray) left = odd_polygon_difference_convex (piece, cut);
  double largest = 0.0;

  for (guint i = 0; i < left->len; i++)
    {
      const double area = odd_polygon_get_area (left->pdata[i]);
      OddPolygon *placed = odd_polygon_place (left->pdata[i], &place->placement);

      if (!odd_piece_holds_square (left->pdata[i], hand->job->settings.usable_square_mm))
        {
          place->trimmed_mm2 += area;
          g_ptr_array_add (place->trims, placed);
          continue;
        }
      place->n_offcuts++;
      place->offcuts_mm2 += area;
      g_ptr_array_add (place->offcuts, placed);
      if (area > largest)
        {
          const OddBox box = odd_polygon_get_box (placed);

          largest = area;
          place->offcut_width_mm = box.width;
          place->offcut_length_mm = box.height;
        }
    }
}

/* The kind of the zone of which this is the @index-th for allowances only. */
static OddZoneKind
allowance_zone_kind (const OddScrap *scrap,
                     guint           index)
{
  for (guint i = 0; i < scrap->n_zones; i++)
    if (scrap->zones[i].allowance_only && index-- == 0)
      return scrap->zones[i].kind;

  return ODD_ZONE_MARK;
}

/* Warns of the zone that shows most in the finished region. */
static void
warn_of_zones (OddPlace      *place,
               const OddHand *hand)
{
  g_autoptr(OddPolygon) region = NULL;
  double most = 0.0;

  for (guint i = 0; i < hand->zones->len; i++)
    {
      g_autoptr(OddPolygon) zone = odd_polygon_place (hand->zones->pdata[i], &place->placement);
      g_autoptr(GPtrArray) shows = NULL;

      if (region == NULL)
        region = odd_polygon_new_from_convex (place->region);
      shows = odd_polygon_intersection (zone, region);
      for (guint k = 0; k < shows->len; k++)
        {
          const double area = odd_polygon_get_area (shows->pdata[k]);
          const OddBox box = odd_polygon_get_box (shows->pdata[k]);

          if (area <= most)
            continue;
          most = area;
          g_free (place->warning);
          place->warning = g_strdup_printf (_("Covers the %s by %.0f x %.0f mm"), odd_zone_kind_get_name (allowance_zone_kind (hand->scrap, i)),
                                            ceil (box.width - 0.05), ceil (box.height - 0.05));
        }
    }
}

/* By hand, cloth may be laid off its grain: it is only said. */
static void
warn_of_grain (OddPlace      *place,
               const OddHand *hand)
{
  const OddFabric *fabric = odd_job_get_scrap_fabric (hand->job, hand->scrap);
  double off_deg;

  if (place->warning != NULL || fabric == NULL || fabric->grain_tolerance_deg >= 90.0)
    return;
  off_deg = fabs (remainder (odd_placement_apply_angle (&place->placement, hand->scrap->grain_deg) - 90.0, fabric->one_way ? 360.0 : 180.0));
  if (off_deg > fabric->grain_tolerance_deg + 0.05)
    place->warning = g_strdup_printf (_("Lies %.0f° off its grain; this cloth allows %.0f°"), off_deg, fabric->grain_tolerance_deg);
}

/* --- the panel --- */

static void
set_extent (OddPlace      *place,
            const OddSlot *slot)
{
  const double width_mm = slot->cut_width_mm - slot->left_allowance_mm - slot->right_allowance_mm;

  switch (slot->target.kind)
    {
    case ODD_TARGET_EDGE:
      {
        g_autoptr(OddConvex) part = odd_slot_part (slot, place->height_mm);

        place->covers_mm = slot->row_width_mm > 0.0 ? slot->row_width_mm : slot->edge_mm;
        place->edge_mm = slot->edge_mm;
        place->gain_mm = part != NULL ? odd_convex_support (part, slot->axis) - slot->reach_mm : 0.0;
        place->covers_all = slot->row_width_mm <= 0.0;
      }
      break;
    case ODD_TARGET_BARE:
      place->covers_mm = MIN (place->height_mm, slot->max_height_mm);
      place->edge_mm = slot->max_height_mm;
      place->gain_mm = width_mm;
      place->covers_all = odd_slot_is_whole (slot, place->height_mm);
      break;
    default:
      place->covers_mm = width_mm;
      place->edge_mm = slot->edge_mm;
      place->gain_mm = place->height_mm;
      place->covers_all = slot->row_width_mm <= 0.0;
      break;
    }
}

/* The edge of a shape that has this label; length 0 when there is none. */
static OddSegment
labelled_edge (const OddConvex *shape,
               int              label)
{
  for (guint i = 0; i < shape->n; i++)
    if (shape->labels[i] == label)
      return odd_convex_edge (shape, i);

  return (OddSegment) { shape->points[0], shape->points[0] };
}

static void
set_lines (OddPlace      *place,
           const OddSlot *slot)
{
  const int base = slot->target.kind == ODD_TARGET_BARE ? (int) slot->base : 0;
  /* odd_slot_region() numbers the lines: sides, far line, row line */
  const int far = slot->sides->len;
  g_autoptr(OddConvex) part = odd_slot_part (slot, place->height_mm);
  const OddSegment none = { place->region->points[0], place->region->points[0] };

  place->seam = place->row_seam = none;
  place->raw_edges[0] = place->raw_edges[1] = none;
  if (slot->row_width_mm > 0.0)
    place->row_seam = labelled_edge (place->region, far + 1);
  if (slot->target.kind == ODD_TARGET_BARE && !place->covers_all)
    place->seam = place->row_seam = labelled_edge (place->region, far);
  if (slot->target.kind != ODD_TARGET_EDGE)
    return;
  place->seam = labelled_edge (part, base);
  place->raw_edges[0] = slot->raw_edge;
  place->raw_edges[1] = labelled_edge (place->cut, base);
}

/* --- what it is worth --- */

static double
turn_away (double a_deg,
           double b_deg)
{
  const double d = fabs (remainder (a_deg - b_deg, 360.0));

  return isfinite (d) ? d : 0.0;
}

/* Seam ends that the new seams come too near to. */
static guint
count_near (const OddPlace *place,
            const OddSlot  *slot)
{
  guint n = slot->n_near;

  if (odd_segment_length (place->row_seam) > 0.0)
    n += odd_slot_count_near (slot, place->row_seam.from) + odd_slot_count_near (slot, place->row_seam.to);

  return n;
}

static double
score (const OddPlace       *place,
       const OddSlot        *slot,
       OddPolygon           *piece,
       const OddSnapOptions *options)
{
  double lost = odd_polygon_get_area (piece) - place->offcuts_mm2 - odd_convex_area (place->region) + slot->panel_trimmed_mm2;

  lost += NEAR_JUNCTION_MM2 * count_near (place, slot) + CUT_END_MM2 * place->n_cut_ends + TILT_MM2_PER_DEG * fabs (place->tilt_deg);
  if (place->warning != NULL)
    lost += ZONE_SHOWS_MM2;
  if (options != NULL)
    lost += TURN_MM2_PER_DEG * turn_away (place->placement.turn_deg, options->held_turn_deg);

  return lost;
}

/* Slanting parts are narrower than they are tall. A bare region that is narrow itself may be filled all the same. */
static gboolean
is_too_narrow (const OddPlace *place,
               const OddSlot  *slot,
               double          min_side_mm)
{
  return !odd_slot_is_whole (slot, place->height_mm)
         && odd_convex_min_width (place->region) < min_side_mm - ODD_TOLERANCE_MM;
}

OddPlace *
odd_place_new (const OddHand        *hand,
               const OddSlot        *slot,
               guint                 piece,
               const OddPlacement   *placement,
               double                height_mm,
               const OddSnapOptions *options)
{
  OddPlace *place = g_new0 (OddPlace, 1);
  const OddPlacement back = odd_placement_inverse (placement);
  g_autoptr(OddConvex) cut = NULL;

  place->target = slot->target;
  place->scrap_id = hand->scrap->id;
  place->placement = *placement;
  place->tilt_deg = slot->tilt_deg;
  place->height_mm = height_mm;
  place->row_width_mm = slot->row_width_mm;
  place->row_at_end = slot->row_at_end;
  place->base_edge = slot->base;
  place->n_cut_ends = slot->n_cut_ends;
  place->trims = polygons_new ();
  place->offcuts = polygons_new ();
  place->panel_trims = g_ptr_array_ref (slot->panel_trims);
  place->region = odd_slot_region (slot, height_mm, &place->cut);
  cut = place->cut != NULL ? odd_convex_place (place->cut, &back) : NULL;
  if (cut == NULL || is_too_narrow (place, slot, hand->job->settings.min_side_mm) || !odd_polygon_contains_convex (hand->pieces->pdata[piece], cut, INSIDE_TOLERANCE_MM))
    {
      odd_place_free (place);
      return NULL;
    }

  set_extent (place, slot);
  set_lines (place, slot);
  part_leavings (place, hand, hand->pieces->pdata[piece]);
  warn_of_zones (place, hand);
  warn_of_grain (place, hand);
  place->score = score (place, slot, hand->pieces->pdata[piece], options);

  return place;
}
