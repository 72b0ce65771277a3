/* Remains of 1,000 scraps with two patches on each, well inside them or across a border; promised: 100 ms. */
#include "config.h"

#include "../cloth/trees.h"
#include "cloth/offcuts.h"

#include <stdio.h>

#define SCRAPS 1000
#define PANELS 20

static double
seconds_since (gint64 start)
{
  return (g_get_monotonic_time () - start) / 1e6;
}

/* What the machine can do at this moment: the same sums in each run. */
static double
calibrate (void)
{
  const gint64 start = g_get_monotonic_time ();
  volatile double sum = 0.0;

  for (int i = 1; i < 20000000; i++)
    sum += 1.0 / i;
  return seconds_since (start);
}

/* Ten corners, one of them inward: what is left when something was cut out before. */
static OddPolygon *
ragged (GRand *rand)
{
  OddPoint points[10];

  for (guint i = 0; i < G_N_ELEMENTS (points); i++)
    {
      const double angle = i * 2.0 * G_PI / G_N_ELEMENTS (points), r = i == 4 ? 120.0 : g_rand_double_range (rand, 200.0, 240.0);

      points[i] = odd_point (240.0 + r * cos (angle), 240.0 + r * sin (angle));
    }
  return odd_polygon_new (points, G_N_ELEMENTS (points), NULL);
}

/* Patch @i of the job lies on scrap i / 2: side by side. */
static OddJob *
job_new (GRand   *rand,
         double   from_x)
{
  OddJob *job = odd_job_new ();
  guint n = 0;

  for (guint p = 0; p < PANELS; p++)
    {
      OddId panel_id = 0;
      g_autoptr(OddLayout) layout = NULL;

      take (&job, add_squares (job, 0, 10, 2 * SCRAPS / PANELS / 10, 60, &panel_id));
      layout = odd_job_dup_layout (job, panel_id);
      for (guint i = 0; i < layout->n_patches; i++, n++)
        {
          const OddBox cut = odd_convex_box (layout->patches[i].cut);
          const OddPlacement at = { 0, FALSE, { cut.x - from_x - (n % 2) * 90.0, cut.y - 200.0 } };
          g_autoptr(OddPolygon) outline = ragged (rand);
          OddScrap values;
          static OddId scrap;

          odd_scrap_init_values (&values);
          values.outline = outline;
          if (n % 2 == 0)
            take (&job, odd_job_put_scrap (job, &values, &scrap, NULL));
          take (&job, odd_job_place_scrap (job, layout->patches[i].leaf->id, scrap, &at, NULL));
        }
    }
  return job;
}

static void
measure (const char *how,
         double      from_x)
{
  GRand *rand = g_rand_new_with_seed (1);
  g_autoptr(OddJob) job = job_new (rand, from_x);
  double best = G_MAXDOUBLE;
  guint pieces = 0;

  g_assert_cmpuint (job->scraps->len, ==, SCRAPS);
  for (int round = 0; round < 5; round++)
    {
      const gint64 start = g_get_monotonic_time ();

      pieces = 0;
      for (guint i = 0; i < job->scraps->len; i++)
        {
          g_autoptr(GPtrArray) remains = odd_scrap_remains (job, ((OddScrap *) job->scraps->pdata[i])->id);

          pieces += remains->len;
        }
      best = MIN (best, seconds_since (start));
    }
  printf ("remains of %u scraps, %u patches %s, %u pieces: %.1f ms (calibration loop %.1f ms)\n", SCRAPS, 2 * SCRAPS, how, pieces, best * 1e3,
          calibrate () * 1e3);
  g_rand_free (rand);
}

int
main (void)
{
  measure ("inside", 150.0);
  measure ("across a border", 10.0);
  return 0;
}
