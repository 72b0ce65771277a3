/* The cutting plan of one scrap: what to cut out of it, where, and what is left. For screen, picture and paper. */
#pragma once

#include "cloth/length.h"
#include "drawing/painter.h"

G_BEGIN_DECLS

/*
 * odd_paint_cutting_plan:
 * @cr: in the scrap's frame as it will be sewn, mm
 * @unit: of the measures written
 *
 * Cloth, zones, outline and grain; over them each patch's cut shape (broken: planned, whole: cut) with its number and its measures between raw
 * edges; what is left and usable framed with its size; waste hatched. Of a cut-out scrap its offcuts are framed, with their numbers, and
 * the rest is waste. Words only where they fit: the larger the drawing, the more it tells.
 */
void odd_paint_cutting_plan (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, OddUnit unit, const OddPaintOptions *options);
/* A piece that could be cut from what is there, before it is planned in any panel. */
typedef struct
{
  const OddConvex *shape;      /* in the scrap's frame as it will be sewn */
  double width_mm, length_mm;  /* as they will be ruled */
} OddPossibleCut;

/* The same, and over what the panels leave of the scrap @cuts, numbered from 1: broken frames with their measures; what they leave in its
 * turn framed or hatched. Without @cuts it is the plan above. */
void odd_paint_possible_cuts (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, const OddPossibleCut *cuts, guint n_cuts, OddUnit unit,
                              const OddPaintOptions *options);
/* Room it takes: the scrap's box as it will be sewn, and a margin for shadow, marks at its edge and the arrow of the grain. mm */
OddBox odd_cutting_plan_get_box (OddJob *job, OddScrap *scrap, const OddPaintOptions *options);

G_END_DECLS
