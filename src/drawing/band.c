#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter-private.h"

/* Bands of allowance: the veiled one round the raw outline, its frayed rim, and the allowances that lie within. */

#define VEIL 0.58
#define VEIL_HIGH_CONTRAST 0.80
#define TICK_PITCH_PX 3.4
#define TICK_PX 2.8

void
odd_paint_veil (OddPainter *self, const OddConvex *raw, const OddConvex *finished)
{
  if (self->options->on_paper)
    return;
  cairo_save (self->cr);
  cairo_set_fill_rule (self->cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_new_path (self->cr);
  odd_trace_convex (self->cr, raw);
  odd_trace_convex (self->cr, finished);
  odd_set_source_rgba (self->cr, self->options->table_colour, self->options->high_contrast ? VEIL_HIGH_CONTRAST : VEIL);
  cairo_fill (self->cr);
  cairo_restore (self->cr);
}

/* A number in [0, 1) for the i-th thread: threads fray unevenly, and the same each time they are drawn. */
static double
unevenness (guint i)
{
  guint32 h = i * 2654435761u;

  h ^= h >> 15;
  h *= 2246822519u;
  h ^= h >> 13;
  return (h & 0xffff) / 65536.0;
}

/* The numbers of the first tick and of the one after the last that may be seen along the edge. */
static void
seen_ticks (const OddPainter *self, OddSegment edge, OddPoint along, double length, double pitch, guint *out_from, guint *out_to)
{
  double from = 0.0, to = length;

  if (!odd_box_is_empty (self->clip))
    {
      const OddPoint middle = odd_point (self->clip.x + 0.5 * self->clip.width, self->clip.y + 0.5 * self->clip.height);
      const double reach = 0.5 * hypot (self->clip.width, self->clip.height) + pitch, at = odd_point_dot (odd_point_sub (middle, edge.from), along);

      from = MAX (from, at - reach);
      to = MIN (to, at + reach);
    }
  *out_from = (guint) MAX (0.0, ceil (from / pitch));
  *out_to = (guint) MAX (0.0, floor (to / pitch) + 1.0);
}

static guint32
rim_colour (const OddPaintOptions *options)
{
  if (options->on_paper)
    return 0x000000;
  return odd_colour_luminance (options->table_colour) > 0.2 ? odd_colour_mix (options->table_colour, ODD_INK, 0.68) : odd_colour_mix (options->table_colour, 0xe8dfd0, 0.62);
}

void
odd_paint_fray (OddPainter *self, OddSegment edge, OddPoint outward)
{
  const double px = self->px, pitch = TICK_PITCH_PX * px, length = odd_segment_length (edge);
  const OddPoint ends[2] = { edge.from, edge.to };
  OddPoint along;
  guint from, to;

  if (length < pitch || odd_painter_skips (self, odd_box_grow (odd_box_from_points (ends, 2), 4.0 * px)))
    return;
  along = odd_point_scale (odd_point_sub (edge.to, edge.from), 1.0 / length);
  cairo_new_path (self->cr);
  cairo_move_to (self->cr, edge.from.x, edge.from.y);
  cairo_line_to (self->cr, edge.to.x, edge.to.y);
  odd_set_source_rgba (self->cr, rim_colour (self->options), 1.0);
  cairo_set_line_width (self->cr, 0.9 * px);
  cairo_stroke (self->cr);
  seen_ticks (self, edge, along, length, pitch, &from, &to);
  for (guint i = from; i < to; i++)
    {
      const OddPoint root = odd_point_add (edge.from, odd_point_scale (along, (i + 0.4 * unevenness (3 * i)) * pitch));
      const double long_px = TICK_PX * (0.55 + 0.55 * unevenness (3 * i + 1)), lean_px = 2.2 * (unevenness (3 * i + 2) - 0.5);
      const OddPoint tip = odd_point_add (root, odd_point_add (odd_point_scale (outward, long_px * px), odd_point_scale (along, lean_px * px)));

      cairo_move_to (self->cr, root.x, root.y);
      cairo_line_to (self->cr, tip.x, tip.y);
    }
  cairo_set_line_width (self->cr, 0.75 * px);
  cairo_stroke (self->cr);
}

/* --- within the finished cloth --- */

/* Where the allowance will reach on both sides of a seam that is not sewn yet. */
static void
trace_planned_allowances (OddPainter *self, const OddLayout *layout, const OddPatch *patch)
{
  for (guint i = 0; i < patch->region->n; i++)
    {
      const int label = patch->region->labels[i];
      OddHalfPlane line;
      OddSegment chord;

      if (label < 0 || odd_seam_get_stage (layout->seams[label].seam, layout->seams[label].finish) != ODD_STAGE_PLANNED)
        continue;
      line = odd_half_plane_push (odd_convex_edge_half_plane (patch->region, i), -layout->seams[label].allowance_mm);
      if (!odd_convex_chord (patch->region, line, &chord))
        continue;
      cairo_move_to (self->cr, chord.from.x, chord.from.y);
      cairo_line_to (self->cr, chord.to.x, chord.to.y);
    }
}

static void
fill_strip (OddPainter *self, OddSegment line, OddPoint side, double width_mm)
{
  const OddPoint by = odd_point_scale (side, width_mm);
  const OddPoint strip[] = { line.from, line.to, odd_point_add (line.to, by), odd_point_add (line.from, by) };

  cairo_new_path (self->cr);
  odd_trace_ring (self->cr, strip, G_N_ELEMENTS (strip));
  odd_set_source_rgba (self->cr, 0xffffff, 0.26);
  cairo_fill_preserve (self->cr);
  odd_set_source_rgba (self->cr, ODD_INK, 0.40);
  cairo_set_line_width (self->cr, 0.7 * self->px);
  cairo_stroke (self->cr);
}

/* On the wrong side the allowances of a sewn seam are seen, lying where they are pressed to. */
static void
paint_sewn_allowance (OddPainter *self, const OddLaidSeam *seam)
{
  const OddPressed pressed = odd_pressed_resolve (seam->seam->pressed_to, seam->finish);
  const OddPoint second = seam->line.normal, first = odd_point_scale (second, -1.0);
  const double kept_mm = MIN (seam->allowance_mm, seam->finish->width_kept_mm > 0.0 ? seam->finish->width_kept_mm : seam->allowance_mm);

  if (pressed != ODD_PRESSED_TO_SECOND)
    fill_strip (self, seam->finished, first, kept_mm);
  if (pressed != ODD_PRESSED_TO_FIRST)
    fill_strip (self, seam->finished, second, kept_mm);
}

static void
paint_wrong_side_allowances (OddPainter *self, const OddLayout *layout, const OddDetails *details)
{
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *seam = &layout->seams[i];
      const OddPoint ends[2] = { seam->finished.from, seam->finished.to };

      if (details->seams[i] >= ODD_DETAIL_LINES && odd_seam_get_stage (seam->seam, seam->finish) != ODD_STAGE_PLANNED
          && !odd_painter_skips (self, odd_box_grow (odd_box_from_points (ends, 2), seam->allowance_mm)))
        paint_sewn_allowance (self, seam);
    }
}

void
odd_paint_allowances (OddPainter *self, const OddLayout *layout, const OddDetails *details)
{
  cairo_save (self->cr);
  cairo_new_path (self->cr);
  if (self->mirrored && !self->options->on_paper)
    paint_wrong_side_allowances (self, layout, details);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];

      if (patch->region != NULL && details->patches[i] == ODD_DETAIL_WORDS && !odd_painter_skips (self, odd_convex_box (patch->region)))
        trace_planned_allowances (self, layout, patch);
    }
  odd_stroke_cased_dashed (self->cr, self->options, 0.9, 1.6, ODD_INK, 2.4, 2.2);
  cairo_restore (self->cr);
}
