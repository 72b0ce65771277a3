/* Inks, paths and cased strokes that all painters share. */
#pragma once

#include "drawing/painter.h"

G_BEGIN_DECLS

/* Marks on cloth never change with the theme: cloth does not. Dark on pale gives 18:1 by the contrast formula of WCAG 2.1. */
#define ODD_INK 0x17120e
#define ODD_CASING 0xfffdf8
#define ODD_RED_INK 0xa3101d
#define ODD_PAPER 0xf7f4ef

void odd_trace_ring (cairo_t *cr, const OddPoint *points, gsize n);
void odd_trace_convex (cairo_t *cr, const OddConvex *convex);
void odd_trace_polygon (cairo_t *cr, OddPolygon *polygon);
void odd_set_dash_px (cairo_t *cr, const OddPaintOptions *options, double on_px, double off_px);
/* Strokes the current path twice and clears it: casing (left out on paper), then ink; widths in mark px, @casing_px is added to the ink's. */
void odd_stroke_cased (cairo_t *cr, const OddPaintOptions *options, double width_px, double casing_px, guint32 colour);
void odd_stroke_cased_dashed (cairo_t *cr, const OddPaintOptions *options, double width_px, double casing_px, guint32 colour, double on_px, double off_px);

G_END_DECLS
