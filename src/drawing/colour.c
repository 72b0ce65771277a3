#include "config.h"

#include <math.h>

#include "drawing/colour.h"

static double
channel (guint32 colour, guint shift)
{
  return ((colour >> shift) & 0xff) / 255.0;
}

static guint32
mix_channel (guint32 a, guint32 b, double share_of_b, guint shift)
{
  const double from = (a >> shift) & 0xff, to = (b >> shift) & 0xff;

  return (guint32) CLAMP (floor (from + (to - from) * share_of_b + 0.5), 0.0, 255.0) << shift;
}

guint32
odd_colour_mix (guint32 a, guint32 b, double share_of_b)
{
  return mix_channel (a, b, share_of_b, 16) | mix_channel (a, b, share_of_b, 8) | mix_channel (a, b, share_of_b, 0);
}

/* Lightness to luminance by CIE 15 (1976 L*), luminance to sRGB by IEC 61966-2-1; a grey has all three channels alike. */
guint32
odd_colour_grey (double lightness)
{
  const double l = CLAMP (lightness, 0.0, 100.0);
  const double y = l > 8.0 ? pow ((l + 16.0) / 116.0, 3.0) : l * 27.0 / 24389.0;
  const double v = y <= 0.0031308 ? 12.92 * y : 1.055 * pow (y, 1.0 / 2.4) - 0.055;
  const guint32 grey = (guint32) CLAMP (floor (255.0 * v + 0.5), 0.0, 255.0);

  return grey << 16 | grey << 8 | grey;
}

static double
linear (double v)
{
  return v <= 0.04045 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4);
}

double
odd_colour_luminance (guint32 colour)
{
  return 0.2126 * linear (channel (colour, 16)) + 0.7152 * linear (channel (colour, 8)) + 0.0722 * linear (channel (colour, 0));
}

void
odd_set_source_rgba (cairo_t *cr, guint32 colour, double alpha)
{
  cairo_set_source_rgba (cr, channel (colour, 16), channel (colour, 8), channel (colour, 0), alpha);
}

void
odd_pattern_add_stop (cairo_pattern_t *pattern, double at, guint32 colour, double alpha)
{
  cairo_pattern_add_color_stop_rgba (pattern, at, channel (colour, 16), channel (colour, 8), channel (colour, 0), alpha);
}
