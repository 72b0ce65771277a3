/* Colours as 0xRRGGBB, mixed as they stand on the screen. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

guint32 odd_colour_mix (guint32 a, guint32 b, double share_of_b);
/* Grey of the given CIE L*, 0 to 100. */
guint32 odd_colour_grey (double lightness);
/* Relative luminance (sRGB), 0 to 1: tells a dark table from a light one. */
double odd_colour_luminance (guint32 colour);
void odd_set_source_rgba (cairo_t *cr, guint32 colour, double alpha);
void odd_pattern_add_stop (cairo_pattern_t *pattern, double at, guint32 colour, double alpha);

G_END_DECLS
