/* Rulers along the top and the left of the canvas, in the shown unit. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

#define ODD_RULER_PX 24.0

/* @zero_px: where 0 of the table lies; @pointer_px: where the pointer is, or NAN. */
void odd_ruler_snapshot (const OddScene *scene, GtkSnapshot *snapshot, OddPoint zero_px, OddPoint pointer_px);
/* Least distance of two labelled ticks, mm, so that they lie at least @least_px apart; @out_parts: into how many it is divided by small ticks. */
double odd_ruler_get_step (OddUnit unit, double zoom, double least_px, guint *out_parts);

G_END_DECLS
