#include "config.h"

#include "cloth/offcuts.h"
#include "geometry/inscribed.h"
#include "piecing/profile.h"

#define N_BETWEEN 5

typedef struct
{
  const OddProfileOptions *options;
  OddFitting *out;
  double needed_mm;           /* cut width beyond which a wider rectangle is no better */
} Profiler;

OddConvex *
odd_cut_rectangle (double   turn_deg,
                   OddPoint at,
                   double   width_mm,
                   double   height_mm,
                   double   by_mm)
{
  static const int LABELS[4] = { 0, 1, 2, 3 };
  const OddPlacement turn = { turn_deg, FALSE, { 0.0, 0.0 } };
  const OddPlacement back = odd_placement_inverse (&turn);
  g_autoptr(OddConvex) box = odd_convex_new_rectangle (odd_box_grow ((OddBox) { at.x, at.y, width_mm, height_mm }, by_mm), LABELS);

  return odd_convex_place (box, &back);
}

static double
cut_height (const Profiler *self,
            guint           h)
{
  return self->options->heights_mm[h] + 2.0 * self->options->allowance_mm + 2.0 * ODD_INSET_MM;
}

static void
try_level (Profiler        *self,
           const OddStrips *strips,
           double           turn_deg,
           double           y,
           guint            h,
           double          *widest_mm)
{
  const double cut_mm = cut_height (self, h);
  const OddBox box = odd_strips_get_box (strips);
  OddFitting *best = &self->out[h];
  OddInterval x;
  double width_mm;

  if (y < box.y - ODD_TOLERANCE_MM || y + cut_mm > box.y + box.height + ODD_TOLERANCE_MM || !odd_strips_widest (strips, y, y + cut_mm, &x))
    return;
  width_mm = x.to - x.from - 2.0 * ODD_INSET_MM - 2.0 * self->options->allowance_mm;
  *widest_mm = MAX (*widest_mm, width_mm);
  if (width_mm <= best->width_mm || width_mm < self->options->smallest_mm)
    return;
  best->width_mm = width_mm;
  best->turn_deg = turn_deg;
  best->at = odd_point (x.from + ODD_INSET_MM, y + ODD_INSET_MM);
}

static void
try_height (Profiler        *self,
            const OddStrips *strips,
            double           turn_deg,
            guint            h,
            double          *widest_mm)
{
  const OddBox box = odd_strips_get_box (strips);
  const double room_mm = box.height - cut_height (self, h);
  guint n_levels;
  const double *levels = odd_strips_get_levels (strips, &n_levels);

  for (guint i = 0; i < n_levels; i++)
    {
      try_level (self, strips, turn_deg, levels[i], h, widest_mm);
      try_level (self, strips, turn_deg, levels[i] - cut_height (self, h), h, widest_mm);
    }
  for (guint i = 1; i <= N_BETWEEN; i++)
    try_level (self, strips, turn_deg, box.y + room_mm * i / (N_BETWEEN + 1), h, widest_mm);
}

/* Higher strips are narrower: once a turn falls behind at its width one height lower, that height is passed over. */
static void
try_turn (Profiler        *self,
          const OddStrips *strips,
          double           turn_deg)
{
  const OddBox box = odd_strips_get_box (strips);
  double bound_mm = box.width;

  for (guint h = 0; h < self->options->n_heights && cut_height (self, h) <= box.height; h++)
    {
      double widest_mm = 0.0;

      if (self->out[h].width_mm >= MIN (bound_mm, self->needed_mm))
        continue;
      try_height (self, strips, turn_deg, h, &widest_mm);
      if (widest_mm < self->options->smallest_mm)
        break;
      bound_mm = widest_mm;
    }
}

/* Adds to @usable what of @piece lies beyond one edge and holds the square; returns the rest. Takes @piece. */
static OddPolygon *
part_at (OddPolygon   *piece,
         OddHalfPlane  keep,
         double        square_mm,
         double       *usable_mm2)
{
  g_autoptr(OddPolygon) whole = piece;
  g_autoptr(GPtrArray) off = odd_polygon_clip (whole, odd_half_plane_flip (keep));
  g_autoptr(GPtrArray) rest = NULL;
  OddPolygon *largest = NULL;

  for (guint i = 0; i < off->len; i++)
    if (odd_piece_holds_square (off->pdata[i], square_mm))
      *usable_mm2 += odd_polygon_get_area (off->pdata[i]);
  if (off->len == 0)
    return odd_polygon_ref (whole);
  rest = odd_polygon_clip (whole, keep);
  for (guint i = 0; i < rest->len; i++)
    if (largest == NULL || odd_polygon_get_area (rest->pdata[i]) > odd_polygon_get_area (largest))
      largest = rest->pdata[i];

  return largest != NULL ? odd_polygon_ref (largest) : NULL;
}

static double
usable_around (OddPolygon      *piece,
               const OddConvex *rectangle,
               double           square_mm,
               double           left_mm2)
{
  OddPolygon *rest = odd_polygon_ref (piece);
  double usable_mm2 = 0.0;

  /* right and left first, then above and below: strips are cut across before they are cut down */
  static const guint ORDER[4] = { 1, 3, 0, 2 };

  if (left_mm2 < square_mm * square_mm)
    {
      odd_polygon_unref (rest);
      return 0.0;
    }
  for (guint i = 0; i < 4 && rest != NULL; i++)
    rest = part_at (rest, odd_convex_edge_half_plane (rectangle, ORDER[i]), square_mm, &usable_mm2);
  g_clear_pointer (&rest, odd_polygon_unref);

  return usable_mm2;
}

static void
set_cost (const Profiler *self,
          OddPolygon     *piece,
          guint           h)
{
  const double taken_mm = self->out[h].width_mm + 2.0 * self->options->allowance_mm;
  const double cut_mm = self->options->heights_mm[h] + 2.0 * self->options->allowance_mm;
  const double area_mm2 = odd_polygon_get_area (piece);
  g_autoptr(OddConvex) rectangle = odd_cut_rectangle (self->out[h].turn_deg, self->out[h].at, taken_mm, cut_mm, 0.0);

  self->out[h].cost_mm2 = area_mm2 - usable_around (piece, rectangle, self->options->usable_square_mm, area_mm2 - taken_mm * cut_mm);
}

void
odd_profile_piece (const OddSourceScrap    *scrap,
                   const OddSource         *source,
                   double                   cap_mm,
                   const OddProfileOptions *options,
                   OddFitting              *out)
{
  const double most_mm = MIN (cap_mm, options->widest_mm);
  Profiler self = { options, out, most_mm };
  g_autoptr(GArray) turns = odd_scrap_allowed_turns (scrap, source->search, TRUE);

  for (guint h = 0; h < options->n_heights; h++)
    out[h] = (OddFitting) { 0.0 };
  for (guint i = 0; i < turns->len; i++)
    {
      const OddPlacement placement = { g_array_index (turns, double, i), FALSE, { 0.0, 0.0 } };
      g_autoptr(OddStrips) strips = odd_strips_new (source->search, &placement, 0.0);

      try_turn (&self, strips, placement.turn_deg);
    }
  for (guint h = 0; h < options->n_heights; h++)
    if (out[h].width_mm > 0.0)
      {
        out[h].width_mm = MIN (out[h].width_mm, most_mm);
        set_cost (&self, source->search, h);
      }
}
