#include "config.h"

#include "heap.h"

static double
normal (GRand *rand)
{
  const double u = 1.0 - g_rand_double (rand);
  const double v = g_rand_double (rand);

  return sqrt (-2.0 * log (u)) * cos (2.0 * G_PI * v);
}

static double
jitter (GRand *rand,
        double by)
{
  return g_rand_double_range (rand, -by, by);
}

static guint
near_rectangle (GRand    *rand,
                double    w,
                double    h,
                OddPoint *out)
{
  const OddPoint corners[4] = { { 0, 0 }, { w, 0 }, { w, h }, { 0, h } };

  for (guint i = 0; i < 4; i++)
    out[i] = odd_point (corners[i].x + jitter (rand, 0.04 * w), corners[i].y + jitter (rand, 0.04 * h));

  return 4;
}

static guint
triangle (GRand    *rand,
          double    w,
          double    h,
          OddPoint *out)
{
  out[0] = odd_point (0, 0);
  out[1] = odd_point (1.3 * w, jitter (rand, 0.1 * h));
  out[2] = odd_point (g_rand_double_range (rand, 0.1, 1.2) * w, 1.3 * h);

  return 3;
}

static guint
odd_quadrilateral (GRand    *rand,
                   double    w,
                   double    h,
                   OddPoint *out)
{
  const OddPoint corners[4] = { { 0, 0 }, { w, 0 }, { w, h }, { 0, h } };

  for (guint i = 0; i < 4; i++)
    out[i] = odd_point (corners[i].x + jitter (rand, 0.2 * w), corners[i].y + jitter (rand, 0.2 * h));

  return 4;
}

static guint
l_shape (GRand    *rand,
         double    w,
         double    h,
         OddPoint *out)
{
  const double x = g_rand_double_range (rand, 0.35, 0.65) * w;
  const double y = g_rand_double_range (rand, 0.35, 0.65) * h;
  const OddPoint corners[6] = { { 0, 0 }, { w, 0 }, { w, y }, { x, y }, { x, h }, { 0, h } };

  for (guint i = 0; i < 6; i++)
    out[i] = odd_point (corners[i].x + jitter (rand, 0.02 * w), corners[i].y + jitter (rand, 0.02 * h));

  return 6;
}

static OddPolygon *
in_some_pose (GRand    *rand,
              OddPoint *points,
              guint     n)
{
  const OddPlacement pose = { g_rand_double_range (rand, 0.0, 360.0), FALSE, { 0.0, 0.0 } };

  for (guint i = 0; i < n; i++)
    points[i] = odd_placement_apply (&pose, points[i]);

  return odd_polygon_new (points, n, NULL);
}

OddPolygon *
heap_polygon (GRand *rand)
{
  for (;;)
    {
      const double size = CLAMP (140.0 * exp (0.5 * normal (rand)), 50.0, 400.0);
      const double aspect = sqrt (g_rand_double_range (rand, 1.0, 2.5));
      const double kind = g_rand_double (rand);
      OddPoint points[6];
      OddPolygon *polygon;
      guint n;

      if (kind < 0.35)
        n = near_rectangle (rand, size * aspect, size / aspect, points);
      else if (kind < 0.60)
        n = triangle (rand, size * aspect, size / aspect, points);
      else if (kind < 0.85)
        n = odd_quadrilateral (rand, size * aspect, size / aspect, points);
      else
        n = l_shape (rand, size * aspect, size / aspect, points);
      polygon = in_some_pose (rand, points, n);
      if (polygon != NULL)
        return polygon;
    }
}

OddPolygon *
heap_ragged_polygon (GRand *rand,
                     guint  n_corners,
                     double size_mm)
{
  g_autofree OddPoint *points = g_new (OddPoint, n_corners);

  for (guint i = 0; i < n_corners; i++)
    {
      const double turn = 2.0 * G_PI * i / n_corners;
      const double reach = size_mm / 2.0 * g_rand_double_range (rand, 0.78, 1.0) * (i % 5 == 3 ? 0.85 : 1.0);

      points[i] = odd_point (1.3 * reach * cos (turn), reach * sin (turn));
    }

  return odd_polygon_new (points, n_corners, NULL);
}

OddScrap *
heap_scrap (OddPolygon *outline)
{
  OddScrap values;
  OddScrap *scrap;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.washed = TRUE;
  scrap = odd_scrap_new (&values, NULL);
  g_assert (scrap != NULL);

  return scrap;
}

OddJob *
heap_add_scraps (OddJob  *job,
                 guint    n,
                 guint32  seed)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  OddJob *filled;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddPolygon) outline = heap_polygon (rand);

      g_ptr_array_add (scraps, heap_scrap (outline));
    }
  filled = odd_job_put_scraps (job, scraps, NULL);
  g_assert (filled != NULL);
  odd_job_unref (job);

  return filled;
}
