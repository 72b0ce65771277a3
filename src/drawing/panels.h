/* Panels side by side, apart from all others: a small picture to judge them by. */
#pragma once

#include <cairo.h>
#include "drawing/painter.h"

G_BEGIN_DECLS

/*
 * odd_panels_render:
 * @panels: (array length=n_panels): of @job, drawn left to right as they hang, neither joined nor trimmed
 * @width_px: device px there are
 * @height_px: the same, downwards
 * @mark_px: as in #OddPaintOptions
 *
 * Returns: (transfer full): premultiplied ARGB32, clear where no cloth lies, no larger than asked and in the panels' own proportion
 */
cairo_surface_t *odd_panels_render (OddJob *job, OddSwatches *swatches, const OddId *panels, guint n_panels, int width_px, int height_px, double mark_px);

G_END_DECLS
