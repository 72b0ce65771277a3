/* Soft shadows for cairo, which has no blur of its own. */
#pragma once

#include <cairo.h>

/* Blurs an A8 surface in place: three boxes of @radius px, near to a Gaussian (sigma about the radius). */
void odd_blur_a8 (cairo_surface_t *surface, int radius);
