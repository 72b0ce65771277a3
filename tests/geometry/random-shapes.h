/* Random shapes for the laws: the seed is GLib's, printed by every test program and set again with --seed. */
#pragma once

#include "geometry/polygon.h"

#include <stdlib.h>

static inline int
compare_doubles (const void *a,
                 const void *b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Corners on an ellipse, so every one stands out; edges labelled 0, 1, 2 ... NULL now and then, where two are too near. */
static inline OddConvex *
random_convex (guint  n,
               double radius_mm)
{
  g_autofree double *angles = g_new (double, n);
  g_autofree OddPoint *points = g_new (OddPoint, n);
  g_autofree int *labels = g_new (int, n);
  const double flat = g_test_rand_double_range (0.2, 1);
  const OddPoint centre = { g_test_rand_double_range (-500, 500), g_test_rand_double_range (-500, 500) };

  for (guint i = 0; i < n; i++)
    angles[i] = g_test_rand_double_range (0, 2 * G_PI);
  qsort (angles, n, sizeof (double), compare_doubles);
  for (guint i = 0; i < n; i++)
    {
      points[i] = odd_point_add (centre, odd_point (radius_mm * cos (angles[i]), flat * radius_mm * sin (angles[i])));
      labels[i] = (int) i;
    }

  return odd_convex_new (points, labels, n);
}

static inline OddHalfPlane
random_half_plane (OddPoint through)
{
  const double angle = g_test_rand_double_range (0, 2 * G_PI);
  const OddPoint normal = { cos (angle), sin (angle) };

  return (OddHalfPlane) { normal, odd_point_dot (normal, through) };
}

/* A star about a point: simple whatever the radii, mostly not convex. */
static inline OddPolygon *
random_star (guint    n,
             OddPoint centre,
             double   radius_mm)
{
  g_autofree double *angles = g_new (double, n);
  g_autofree OddPoint *points = g_new (OddPoint, n);
  g_autoptr(GError) error = NULL;
  OddPolygon *star;

  for (guint i = 0; i < n; i++)
    angles[i] = 2 * G_PI * (i + g_test_rand_double_range (0.05, 0.95)) / n;
  for (guint i = 0; i < n; i++)
    {
      const double r = radius_mm * g_test_rand_double_range (0.25, 1);

      points[i] = odd_point_add (centre, odd_point (r * cos (angles[i]), r * sin (angles[i])));
    }
  star = odd_polygon_new (points, n, &error);
  g_assert_no_error (error);

  return star;
}

static inline OddPoint
random_point_in_box (OddBox box)
{
  return odd_point (g_test_rand_double_range (box.x, box.x + box.width),
                    g_test_rand_double_range (box.y, box.y + box.height));
}
