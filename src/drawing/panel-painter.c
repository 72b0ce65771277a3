#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter-private.h"

/* From the table up: shadow, a ground that hides what shows between two smoothed edges, the cloth of each patch up to the raw
 * edges, the veil over the bands, ditches, frayed rim, allowances, marks, words.
 *
 * Inside a panel a patch ends at its seams; where it reaches the panel's edge its cloth goes on for the allowance:
 *
 *      +--------+-------+      raw
 *      | +------+-----+ |      finished
 *      | |  A   |  B  | |      A's cloth goes on to the left, up and down,
 *      | +------+-----+ |      B's to the right, up and down
 *      +--------+-------+
 */

#define GROUND 0x857b6e

static gboolean
is_wide (const OddLaidEdge *edge, gboolean joined)
{
  return edge->allowance_mm > 0.0 && !(joined && edge->join_id != 0);
}

/* The panel's raw outline; joined edges stay where they are finished. (transfer full) (nullable) */
static OddConvex *
dup_raw (const OddLayout *layout, const OddConvex *region, gboolean joined)
{
  g_autofree OddHalfPlane *planes = g_new (OddHalfPlane, region->n);

  for (guint i = 0; i < region->n; i++)
    {
      const int label = region->labels[i];

      planes[i] = odd_convex_edge_half_plane (region, i);
      if (label < 0 && label != G_MININT && (guint) (-(1 + label)) < layout->n_edges && is_wide (&layout->edges[-(1 + label)], joined))
        planes[i] = odd_half_plane_push (planes[i], layout->edges[-(1 + label)].allowance_mm);
    }
  return odd_convex_new_from_half_planes (planes, region->labels, region->n);
}

static gboolean
touches_outline (const OddConvex *region)
{
  for (guint i = 0; i < region->n; i++)
    if (region->labels[i] < 0)
      return TRUE;
  return FALSE;
}

static void
paint_patch (OddPainter *self, const OddLayout *layout, const OddPatch *patch, OddDetail detail, gboolean joined)
{
  g_autoptr(OddConvex) wide = touches_outline (patch->region) ? dup_raw (layout, patch->region, joined) : NULL;
  const OddConvex *shape = wide != NULL ? wide : patch->region;

  if (odd_painter_skips (self, odd_convex_box (shape)))
    return;
  if (patch->scrap == NULL)
    {
      OddPaintOptions options = *self->options;

      options.clip_mm = self->clip;
      cairo_new_path (self->cr);
      odd_trace_convex (self->cr, shape);
      odd_set_source_rgba (self->cr, options.on_paper ? 0xffffff : ODD_PAPER, 1.0);
      cairo_fill (self->cr);
      odd_paint_bare (self->cr, patch->region, &options);
      return;
    }
  cairo_new_path (self->cr);
  odd_trace_convex (self->cr, shape);
  odd_cloth_fill (self->palette, self->cr, self->job, patch->scrap, patch->fabric, &patch->placement, detail == ODD_DETAIL_COLOUR, self->options);
}

static void
paint_ditches (OddPainter *self, const OddLayout *layout, const OddDetails *details)
{
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddConvex *region = layout->patches[i].region;

      if (region != NULL && layout->patches[i].scrap != NULL && details->patches[i] >= ODD_DETAIL_LINES && !odd_painter_skips (self, odd_convex_box (region)))
        odd_cloth_ditch (self->cr, region->points, region->n, self->mirrored, self->options);
    }
}

/* On paper neighbours are told apart by a pale outline, as cloth is white there. */
static void
paint_outlines (OddPainter *self, const OddLayout *layout)
{
  if (!self->options->on_paper)
    return;
  cairo_set_line_width (self->cr, 0.6 * self->px);
  odd_set_source_rgba (self->cr, 0x8c8c8c, 1.0);
  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].region != NULL)
      odd_trace_convex (self->cr, layout->patches[i].region);
  cairo_stroke (self->cr);
}

static void
paint_ground (OddPainter *self, const OddConvex *raw)
{
  if (self->options->on_paper)
    return;
  cairo_new_path (self->cr);
  odd_trace_convex (self->cr, raw);
  odd_cloth_shadow (self->cr, FALSE);
  odd_set_source_rgba (self->cr, GROUND, 1.0);
  cairo_fill (self->cr);
}

static void
paint_fray (OddPainter *self, const OddLayout *layout, gboolean joined)
{
  const OddConvex *outline = layout->outline;

  for (guint i = 0; i < outline->n; i++)
    {
      const guint edge = (guint) (-(1 + outline->labels[i]));

      if (edge < layout->n_edges && is_wide (&layout->edges[edge], joined))
        odd_paint_fray (self, layout->edges[edge].raw, odd_convex_edge_half_plane (outline, i).normal);
    }
}

void
odd_paint_panel_cloth (OddPainter *self, const OddLayout *layout, const OddDetails *details, gboolean joined)
{
  g_autoptr(OddConvex) raw = dup_raw (layout, layout->outline, joined);

  if (raw == NULL || odd_painter_skips (self, odd_box_grow (odd_convex_box (raw), odd_paint_overhang_mm (self->options))))
    return;
  if (!joined)
    paint_ground (self, raw);
  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].region != NULL)
      paint_patch (self, layout, &layout->patches[i], details->patches[i], joined);
  odd_paint_veil (self, raw, layout->outline);
  paint_ditches (self, layout, details);
  paint_outlines (self, layout);
  paint_fray (self, layout, joined);
}

/* --- marks --- */

/* Topstitched already, and something else is open. */
static gboolean
is_topstitched (const OddSeam *seam, const OddFinish *finish)
{
  for (guint i = 0; i < finish->n_operations; i++)
    if (finish->operations[i].kind == ODD_OPERATION_TOPSTITCH && odd_progress_get_state (seam->progress, i) == ODD_STATE_DONE)
      return TRUE;
  return FALSE;
}

/* Open and caught ends are told only near by, else each row of squares would begin and end with a ring until it is joined; a caught
 * end of a seam that is done is no news at all. What was done to an end, or is to be done at once, is told as soon as signs are. */
static gboolean
tells_end (OddEndKind kind, OddStage stage, OddDetail detail)
{
  switch (kind)
    {
    case ODD_END_CAUGHT:
      return detail == ODD_DETAIL_WORDS && stage != ODD_STAGE_DONE;
    case ODD_END_OPEN:
      return detail == ODD_DETAIL_WORDS;
    case ODD_END_BACK_STITCHED:
    case ODD_END_CUT:
    default:
      return TRUE;
    }
}

static void
collect_ends (const OddLaidSeam *seam, OddStage stage, OddDetail detail, OddPoint at, OddMarks *marks)
{
  const OddPoint ends[2] = { odd_point_add (seam->finished.from, at), odd_point_add (seam->finished.to, at) };
  const double length = MAX (odd_segment_length (seam->finished), ODD_TOLERANCE_MM);
  const OddPoint along = odd_point_scale (odd_point_sub (ends[1], ends[0]), 1.0 / length);

  for (guint i = 0; i < 2; i++)
    if (tells_end (seam->ends[i].kind, stage, detail))
      odd_marks_add_end (marks, ends[i], odd_point_scale (along, i == 0 ? 1.0 : -1.0), &seam->ends[i]);
}

static void
collect_seam (OddPainter *self, const OddLaidSeam *seam, OddDetail detail, gboolean raw_inside, OddPoint at, OddMarks *marks)
{
  const OddSegment line = { odd_point_add (seam->finished.from, at), odd_point_add (seam->finished.to, at) };
  const OddPoint first = odd_point_scale (seam->line.normal, -1.0);
  const OddStage stage = odd_seam_get_stage (seam->seam, seam->finish);

  odd_marks_set_detail (marks, detail);
  if (stage == ODD_STAGE_PRESSED && !raw_inside && is_topstitched (seam->seam, seam->finish))
    odd_marks_add_mark (marks, ODD_MARK_TOPSTITCHED, line, odd_pressed_resolve (seam->seam->pressed_to, seam->finish) == ODD_PRESSED_TO_SECOND ? seam->line.normal : first);
  else
    odd_marks_add_seam (marks, line, stage, seam->seam->pressed_to, seam->finish, raw_inside, first);
  if (stage != ODD_STAGE_PLANNED)
    collect_ends (seam, stage, detail, at, marks);
}

static const OddLaidJoin *
find_join (OddTextileLayout *textile, OddId join_id)
{
  for (guint i = 0; i < textile->n_joins; i++)
    if (textile->joins[i].join->id == join_id)
      return &textile->joins[i];
  return NULL;
}

/* The state of the joins at its edges, for a panel that is shown by itself. */
static void
collect_joins (const OddLayout *layout, OddTextileLayout *textile, OddMarks *marks)
{
  odd_marks_set_detail (marks, ODD_DETAIL_LINES);
  for (guint i = 0; i < layout->n_edges; i++)
    {
      const OddLaidEdge *edge = &layout->edges[i];
      const OddLaidJoin *join = edge->join_id != 0 ? find_join (textile, edge->join_id) : NULL;
      const OddStage stage = join != NULL ? odd_seam_get_stage (join->join, join->finish) : ODD_STAGE_PLANNED;
      const OddPoint inwards = odd_point_sub (edge->finished.from, edge->raw.from);

      if (stage != ODD_STAGE_PLANNED)
        odd_marks_add_seam (marks, edge->finished, stage, join->join->pressed_to, join->finish, FALSE, inwards);
    }
}

void
odd_collect_panel_marks (OddPainter *self, const OddLayout *layout, OddTextileLayout *textile, const OddDetails *details, OddPoint at, OddMarks *marks)
{
  const double reach = 12.0 * self->px;
  g_autofree gboolean *raw_inside = NULL;

  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *seam = &layout->seams[i];
      const OddPoint ends[2] = { seam->finished.from, seam->finished.to };

      if (details->seams[i] == ODD_DETAIL_COLOUR || odd_painter_skips (self, odd_box_grow (odd_box_from_points (ends, 2), reach)))
        continue;
      /* only asked for when a seam is drawn at all: it looks at the whole panel */
      if (raw_inside == NULL)
        raw_inside = odd_layout_raw_inside (layout, textile);
      collect_seam (self, seam, details->seams[i], raw_inside[i], at, marks);
    }
}

void
odd_paint_panel (cairo_t *cr, OddSwatches *swatches, OddJob *job, const OddLayout *layout, OddTextileLayout *textile, const OddPaintOptions *options)
{
  OddPainter painter;
  OddDetails details;
  g_autoptr(OddMarks) marks = NULL;

  g_return_if_fail (cr != NULL && swatches != NULL && job != NULL && layout != NULL && options != NULL);

  odd_painter_init (&painter, cr, swatches, job, layout->box.width, options);
  odd_details_init (&details, layout, &painter);
  marks = odd_marks_new (options);
  odd_paint_panel_cloth (&painter, layout, &details, FALSE);
  odd_paint_allowances (&painter, layout, &details);
  odd_paint_bias_marks (&painter, layout, &details);
  odd_collect_panel_marks (&painter, layout, textile, &details, odd_point (0.0, 0.0), marks);
  if (textile != NULL)
    collect_joins (layout, textile, marks);
  odd_marks_paint (marks, cr);
  odd_paint_panel_labels (&painter, layout, &details);
  odd_details_clear (&details);
  odd_painter_clear (&painter);
}
