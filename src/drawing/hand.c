#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter.h"

#define HATCH_PITCH_PX 6.0
#define CROSS_PITCH_PX 8.0

static double
mm_per_px (const OddPaintOptions *options)
{
  return options->mark_px / options->px_per_mm;
}

/* Lines from lower left to upper right, their places fixed to the frame and not to the polygon, so that they do not crawl. */
static void
hatch (cairo_t *cr, OddBox box, const OddPaintOptions *options)
{
  const double px = mm_per_px (options);
  const double pitch = HATCH_PITCH_PX * G_SQRT2 * px;
  const double last = box.x + box.y + box.width + box.height;

  for (double sum = ceil ((box.x + box.y) / pitch) * pitch; sum < last; sum += pitch)
    {
      cairo_move_to (cr, box.x, sum - box.x);
      cairo_line_to (cr, box.x + box.width, sum - box.x - box.width);
    }
  odd_set_source_rgba (cr, options->on_paper ? 0x000000 : ODD_INK, 1.0);
  cairo_set_line_width (cr, (options->on_paper ? 0.7 : 1.3) * px);
  cairo_stroke (cr);
}

void
odd_paint_trimming (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options)
{
  g_return_if_fail (cr != NULL && polygon != NULL && options != NULL);

  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  odd_trace_polygon (cr, polygon);
  cairo_clip (cr);
  if (!options->on_paper)
    {
      odd_set_source_rgba (cr, ODD_CASING, 0.66);
      cairo_paint (cr);
    }
  hatch (cr, odd_polygon_get_box (polygon), options);
  cairo_restore (cr);
}

/* An arrow that goes out and comes back, 13 px wide, in a disc. */
static void
paint_turn_back (cairo_t *cr, OddPoint at, double px)
{
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_scale (cr, px, px);
  cairo_arc (cr, 0.0, 0.0, 8.2, 0.0, 2.0 * G_PI);
  odd_set_source_rgba (cr, ODD_CASING, 1.0);
  cairo_fill_preserve (cr);
  odd_set_source_rgba (cr, ODD_INK, 1.0);
  cairo_set_line_width (cr, 1.4);
  cairo_stroke (cr);
  cairo_move_to (cr, -1.2, -4.0);
  cairo_line_to (cr, -4.0, -1.2);
  cairo_line_to (cr, -1.2, 1.6);
  cairo_move_to (cr, -4.0, -1.2);
  cairo_line_to (cr, 1.0, -1.2);
  cairo_curve_to (cr, 5.2, -1.2, 5.0, 3.8, 2.2, 4.2);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
odd_paint_offcut (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options)
{
  double px;

  g_return_if_fail (cr != NULL && polygon != NULL && options != NULL);

  px = mm_per_px (options);
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  odd_trace_polygon (cr, polygon);
  odd_stroke_cased (cr, options, 1.7, 2.2, ODD_INK);
  if (odd_polygon_get_area (polygon) > 20.0 * px * 20.0 * px)
    paint_turn_back (cr, odd_polygon_get_inside_point (polygon), px);
  cairo_restore (cr);
}

static void
trace_segment (cairo_t *cr, OddSegment s)
{
  cairo_move_to (cr, s.from.x, s.from.y);
  cairo_line_to (cr, s.to.x, s.to.y);
}

void
odd_paint_dragged_seam (cairo_t *cr, OddSegment seam, const OddSegment raw[2], guint32 accent, const OddPaintOptions *options)
{
  double px;

  g_return_if_fail (cr != NULL && raw != NULL && options != NULL);

  px = mm_per_px (options);
  cairo_save (cr);
  for (guint i = 0; i < 2; i++)
    if (odd_segment_length (raw[i]) > ODD_TOLERANCE_MM)
      {
        trace_segment (cr, raw[i]);
        odd_stroke_cased_dashed (cr, options, 1.1, 2.2, ODD_INK, 2.4, 2.2);
      }
  trace_segment (cr, seam);
  odd_set_source_rgba (cr, ODD_CASING, 0.94);
  cairo_set_line_width (cr, 6.0 * px);
  cairo_stroke_preserve (cr);
  odd_set_dash_px (cr, options, 9.0, 5.0);
  odd_set_source_rgba (cr, accent, 1.0);
  cairo_set_line_width (cr, 2.8 * px);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static OddBox
common_box (OddBox a, OddBox b)
{
  const double x = MAX (a.x, b.x), y = MAX (a.y, b.y);

  return (OddBox) { x, y, MIN (a.x + a.width, b.x + b.width) - x, MIN (a.y + a.height, b.y + b.height) - y };
}

static void
paint_crosses (cairo_t *cr, OddBox box, double px)
{
  const double pitch = CROSS_PITCH_PX * px, arm = 1.7 * px;

  for (double y = ceil (box.y / pitch) * pitch; y < box.y + box.height; y += pitch)
    for (double x = ceil (box.x / pitch) * pitch; x < box.x + box.width; x += pitch)
      {
        cairo_move_to (cr, x - arm, y);
        cairo_line_to (cr, x + arm, y);
        cairo_move_to (cr, x, y - arm);
        cairo_line_to (cr, x, y + arm);
      }
  odd_set_source_rgba (cr, ODD_INK, 0.5);
  cairo_set_line_width (cr, 0.9 * px);
  cairo_stroke (cr);
}

void
odd_paint_bare (cairo_t *cr, const OddConvex *region, const OddPaintOptions *options)
{
  double px, size_px;
  OddBox box;

  g_return_if_fail (cr != NULL && region != NULL && options != NULL);

  px = mm_per_px (options);
  size_px = sqrt (odd_convex_area (region)) / px;
  box = odd_convex_box (region);
  cairo_save (cr);
  odd_trace_convex (cr, region);
  odd_set_source_rgba (cr, options->on_paper ? 0xffffff : ODD_PAPER, 1.0);
  cairo_fill_preserve (cr);
  if (size_px >= 16.0)
    {
      cairo_clip_preserve (cr);
      /* twice as wide, its outer half clipped away: the frame lies within the region */
      odd_set_dash_px (cr, options, 2.0, 2.4);
      odd_set_source_rgba (cr, ODD_INK, 1.0);
      cairo_set_line_width (cr, 2.0 * 1.3 * px);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0.0);
      paint_crosses (cr, odd_box_is_empty (options->clip_mm) ? box : common_box (box, odd_box_grow (options->clip_mm, CROSS_PITCH_PX * px)), px);
    }
  cairo_restore (cr);
}
