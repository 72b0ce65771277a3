#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter-private.h"

/* One shadow under all panels: drawn for each before any cloth, so that no panel shades its neighbour. */
static void
paint_shadows (OddPainter *self, OddTextileLayout *textile)
{
  if (self->options->on_paper)
    return;
  cairo_new_path (self->cr);
  for (guint i = 0; i < textile->n_panels; i++)
    {
      const OddHungLayout *hung = &textile->panels[i];
      OddBox box = hung->layout->raw_box;

      box.x += hung->at.x;
      box.y += hung->at.y;
      if (!odd_painter_skips (self, odd_box_grow (box, odd_paint_overhang_mm (self->options))))
        cairo_rectangle (self->cr, box.x, box.y, box.width, box.height);
    }
  odd_cloth_shadow (self->cr, FALSE);
  cairo_new_path (self->cr);
}

static void
paint_hung (OddPainter *self, OddTextileLayout *textile, const OddHungLayout *hung, OddMarks *marks)
{
  OddPainter part = odd_painter_enter (self, hung->at);
  OddDetails details;

  odd_details_init (&details, hung->layout, &part);
  odd_paint_panel_cloth (&part, hung->layout, &details, TRUE);
  odd_paint_allowances (&part, hung->layout, &details);
  odd_paint_bias_marks (&part, hung->layout, &details);
  odd_collect_panel_marks (&part, hung->layout, textile, &details, hung->at, marks);
  odd_details_clear (&details);
  odd_painter_leave (&part);
}

static void
paint_hung_labels (OddPainter *self, const OddHungLayout *hung)
{
  OddPainter part = odd_painter_enter (self, hung->at);
  OddDetails details;

  odd_details_init (&details, hung->layout, &part);
  odd_paint_panel_labels (&part, hung->layout, &details);
  odd_details_clear (&details);
  odd_painter_leave (&part);
}

static void
collect_join (OddPainter *self, const OddLaidJoin *join, OddMarks *marks)
{
  const OddPoint ends[2] = { join->finished.from, join->finished.to };
  const double length = odd_segment_length (join->finished);
  OddPoint along;

  if (length < ODD_TOLERANCE_MM || odd_painter_skips (self, odd_box_grow (odd_box_from_points (ends, 2), 12.0 * self->px)))
    return;
  along = odd_point_scale (odd_point_sub (ends[1], ends[0]), 1.0 / length);
  odd_marks_set_detail (marks, ODD_DETAIL_SIGNS);
  odd_marks_add_seam (marks, join->finished, odd_seam_get_stage (join->join, join->finish), join->join->pressed_to, join->finish, FALSE, odd_point (-along.y, along.x));
}

void
odd_paint_textile (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddTextileLayout *textile, const OddPaintOptions *options)
{
  OddPainter painter;
  g_autoptr(OddMarks) marks = NULL;

  g_return_if_fail (cr != NULL && swatches != NULL && job != NULL && textile != NULL && options != NULL);

  odd_painter_init (&painter, cr, swatches, job, textile->finished_width_mm, options);
  marks = odd_marks_new (options);
  paint_shadows (&painter, textile);
  for (guint i = 0; i < textile->n_panels; i++)
    paint_hung (&painter, textile, &textile->panels[i], marks);
  for (guint i = 0; i < textile->n_joins; i++)
    collect_join (&painter, &textile->joins[i], marks);
  odd_marks_paint (marks, cr);
  for (guint i = 0; i < textile->n_panels; i++)
    paint_hung_labels (&painter, &textile->panels[i]);
  odd_painter_clear (&painter);
}
