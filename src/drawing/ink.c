#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"

void
odd_trace_ring (cairo_t *cr, const OddPoint *points, gsize n)
{
  for (gsize i = 0; i < n; i++)
    cairo_line_to (cr, points[i].x, points[i].y);
  cairo_close_path (cr);
}

void
odd_trace_convex (cairo_t *cr, const OddConvex *convex)
{
  cairo_new_sub_path (cr);
  odd_trace_ring (cr, convex->points, convex->n);
}

void
odd_trace_polygon (cairo_t *cr, OddPolygon *polygon)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  cairo_new_sub_path (cr);
  odd_trace_ring (cr, ring, n);
  for (guint i = 0; i < odd_polygon_get_n_holes (polygon); i++)
    {
      ring = odd_polygon_get_hole (polygon, i, &n);
      cairo_new_sub_path (cr);
      odd_trace_ring (cr, ring, n);
    }
}

void
odd_set_dash_px (cairo_t *cr, const OddPaintOptions *options, double on_px, double off_px)
{
  const double px = options->mark_px / options->px_per_mm;
  const double dashes[] = { on_px * px, off_px * px };

  cairo_set_dash (cr, dashes, 2, 0.0);
}

static void
stroke_casing (cairo_t *cr, const OddPaintOptions *options, double width_px, double casing_px)
{
  const double px = options->mark_px / options->px_per_mm;
  const double extra_px = options->high_contrast ? MAX (casing_px, 3.2) : casing_px;

  if (options->on_paper)
    return;
  cairo_set_dash (cr, NULL, 0, 0.0);
  odd_set_source_rgba (cr, ODD_CASING, options->high_contrast ? 1.0 : 0.84);
  cairo_set_line_width (cr, (width_px + extra_px) * px);
  cairo_stroke_preserve (cr);
}

static void
stroke_ink (cairo_t *cr, const OddPaintOptions *options, double width_px, guint32 colour)
{
  odd_set_source_rgba (cr, options->on_paper ? 0x000000 : colour, 1.0);
  cairo_set_line_width (cr, width_px * options->mark_px / options->px_per_mm);
  cairo_stroke (cr);
}

void
odd_stroke_cased (cairo_t *cr, const OddPaintOptions *options, double width_px, double casing_px, guint32 colour)
{
  stroke_casing (cr, options, width_px, casing_px);
  stroke_ink (cr, options, width_px, colour);
}

void
odd_stroke_cased_dashed (cairo_t *cr, const OddPaintOptions *options, double width_px, double casing_px, guint32 colour, double on_px, double off_px)
{
  stroke_casing (cr, options, width_px, casing_px);
  odd_set_dash_px (cr, options, on_px, off_px);
  stroke_ink (cr, options, width_px, colour);
  cairo_set_dash (cr, NULL, 0, 0.0);
}
