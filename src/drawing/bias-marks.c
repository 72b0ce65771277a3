/* Edges on the bias: a row of short slanting strokes within the patch, along the edge. */
#include "config.h"

#include "drawing/painter-private.h"
#include "sewing/bias.h"

#define INSET_PX 4.0
#define STROKE_PX 7.0
#define STEP_PX 9.0
#define CASING_PX 3.0
#define INK_PX 1.2

static void
trace_strokes (OddPainter *self,
               OddSegment  edge,
               OddPoint    middle)
{
  const double length_mm = odd_segment_length (edge);
  const OddPoint along = odd_point_scale (odd_point_sub (edge.to, edge.from), 1.0 / length_mm);
  OddPoint inward = odd_point (-along.y, along.x);
  const double step_mm = STEP_PX * self->px;
  const guint n = (guint) (length_mm / step_mm);

  if (odd_point_dot (inward, odd_point_sub (middle, edge.from)) < 0.0)
    inward = odd_point_scale (inward, -1.0);
  for (guint i = 1; i + 1 < n; i++)
    {
      const OddPoint at = odd_point_add (odd_point_add (edge.from, odd_point_scale (along, i * length_mm / n)), odd_point_scale (inward, INSET_PX * self->px));
      const OddPoint reach = odd_point_scale (odd_point_add (along, inward), STROKE_PX * self->px * M_SQRT1_2);

      cairo_move_to (self->cr, at.x, at.y);
      cairo_line_to (self->cr, at.x + reach.x, at.y + reach.y);
    }
}

static void
stroke_casing_and_ink (OddPainter *self)
{
  cairo_set_line_cap (self->cr, CAIRO_LINE_CAP_ROUND);
  if (!self->options->on_paper)
    {
      cairo_set_source_rgba (self->cr, 1.0, 1.0, 1.0, 0.8);
      cairo_set_line_width (self->cr, CASING_PX * self->px);
      cairo_stroke_preserve (self->cr);
    }
  cairo_set_source_rgb (self->cr, 0.08, 0.08, 0.08);
  cairo_set_line_width (self->cr, INK_PX * self->px);
  cairo_stroke (self->cr);
}

void
odd_paint_bias_marks (OddPainter       *self,
                      const OddLayout  *layout,
                      const OddDetails *details)
{
  if (self->options->show == ODD_SHOW_LIGHTNESS)
    return;
  cairo_save (self->cr);
  cairo_new_path (self->cr);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      g_autoptr(GArray) edges = NULL;

      if (details->patches[i] < ODD_DETAIL_SIGNS || odd_painter_skips (self, odd_convex_box (patch->region)))
        continue;
      edges = odd_layout_dup_bias_edges (layout, patch, &self->job->settings);
      for (guint k = 0; k < edges->len; k++)
        {
          const OddSegment edge = g_array_index (edges, OddBiasEdge, k).finished;

          if (odd_segment_length (edge) > ODD_TOLERANCE_MM)
            trace_strokes (self, edge, odd_convex_centroid (patch->region));
        }
    }
  stroke_casing_and_ink (self);
  cairo_restore (self->cr);
}
