/* What the painters of panels and textiles hand one another during one call. */
#pragma once

#include "drawing/cloth.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_t *cr;                     /* in the frame being painted, already mirrored in the wrong-side view */
  OddJob *job;
  OddPalette *palette;
  const OddPaintOptions *options;
  gboolean mirrored;
  double px;                       /* mm of one mark px */
  OddBox clip;                     /* in the frame being painted, not mirrored; empty: all */
} OddPainter;

/* Saves @cr's state, mirrors it when the view asks for it. @width_mm: finished width of what is painted. */
void odd_painter_init (OddPainter *self, cairo_t *cr, OddSwatches *swatches, OddJob *job, double width_mm, const OddPaintOptions *options);
void odd_painter_clear (OddPainter *self);
/* The same painter for a part whose frame lies at @at in this one's; its @cr is translated until odd_painter_leave(). */
OddPainter odd_painter_enter (const OddPainter *self, OddPoint at);
void odd_painter_leave (OddPainter *part);
gboolean odd_painter_skips (const OddPainter *self, OddBox box);

/* What is drawn of each patch and of each seam at this zoom: a seam is as fine as the finer of the two parts it joins. */
typedef struct
{
  OddDetail *patches, *seams;
} OddDetails;
void odd_details_init (OddDetails *self, const OddLayout *layout, const OddPainter *painter);
void odd_details_clear (OddDetails *self);

/* Cloth of a panel up to its raw edges, with bands and ditches. @joined: edges that are joined have no band. */
void odd_paint_panel_cloth (OddPainter *self, const OddLayout *layout, const OddDetails *details, gboolean joined);
/* Adds the marks of its seams and ends, moved by @at. */
void odd_collect_panel_marks (OddPainter *self, const OddLayout *layout, OddTextileLayout *textile, const OddDetails *details, OddPoint at, OddMarks *marks);
/* A plate with words in the piece @room, upright, its middle at @at: both lines, else the first alone, else nothing. FALSE when neither fits. */
gboolean odd_paint_words (OddPainter *self, OddPolygon *room, OddPoint at, const char *bold, const char *plain);
/* Numbers and names of patches. */
void odd_paint_panel_labels (OddPainter *self, const OddLayout *layout, const OddDetails *details);
/* Along edges that are on the bias and not stayed yet. */
void odd_paint_bias_marks (OddPainter *self, const OddLayout *layout, const OddDetails *details);
/* The allowances within the finished cloth: where they will lie, or on the wrong side where they lie. */
void odd_paint_allowances (OddPainter *self, const OddLayout *layout, const OddDetails *details);

/* The raw-edge band between @raw and @finished, and the frayed rim along the segments. */
void odd_paint_veil (OddPainter *self, const OddConvex *raw, const OddConvex *finished);
void odd_paint_fray (OddPainter *self, OddSegment edge, OddPoint outward);

G_END_DECLS
