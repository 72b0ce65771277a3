#include "config.h"

#include "piecing/colour-difference.h"

#include <lcms2.h>
#include <math.h>

static double
decode (guint byte)
{
  const double v = byte / 255.0;

  return v <= 0.04045 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4);
}

/* Rows and white as in IEC 61966-2-1; the white is the sum of each row, so that greys come out without colour. */
OddLab
odd_lab_from_rgb (guint32 rgb)
{
  static const double TO_XYZ[3][3] = {
    { 0.4124, 0.3576, 0.1805 },
    { 0.2126, 0.7152, 0.0722 },
    { 0.0193, 0.1192, 0.9505 },
  };
  const double light[3] = { decode ((rgb >> 16) & 0xff), decode ((rgb >> 8) & 0xff), decode (rgb & 0xff) };
  double xyz[3], white[3];
  cmsCIEXYZ colour, d65;
  cmsCIELab lab;

  for (guint i = 0; i < 3; i++)
    {
      xyz[i] = TO_XYZ[i][0] * light[0] + TO_XYZ[i][1] * light[1] + TO_XYZ[i][2] * light[2];
      white[i] = TO_XYZ[i][0] + TO_XYZ[i][1] + TO_XYZ[i][2];
    }
  colour = (cmsCIEXYZ) { xyz[0], xyz[1], xyz[2] };
  d65 = (cmsCIEXYZ) { white[0], white[1], white[2] };
  cmsXYZ2Lab (&d65, &lab, &colour);

  return (OddLab) { lab.L, lab.a, lab.b };
}

double
odd_lab_difference (OddLab a,
                    OddLab b)
{
  const cmsCIELab first = { a.l, a.a, a.b };
  const cmsCIELab second = { b.l, b.a, b.b };

  return cmsCIE2000DeltaE (&first, &second, 1.0, 1.0, 1.0);
}
