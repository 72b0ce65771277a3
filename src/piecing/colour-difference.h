/* How different two colours look. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct { double l, a, b; } OddLab;        /* CIE 1976 L*a*b* under D65 */

/* From 0xRRGGBB: sRGB (IEC 61966-2-1) to L*a*b* under its own white, D65. */
OddLab odd_lab_from_rgb (guint32 rgb);
/* CIEDE2000 with all weights 1; below about 1 nobody sees a difference, below about 10 neighbours look alike. */
double odd_lab_difference (OddLab a, OddLab b);

G_END_DECLS
