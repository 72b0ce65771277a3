/* How long snapping takes, beside a loop that any computer can be measured by. */
#include "config.h"

#include "heap.h"
#include "piecing/snap.h"

#include <stdio.h>

#define COLUMN_MM 150.0

/* Milliseconds for a fixed amount of arithmetic: the measure of this computer in this run. */
static double
calibrate (void)
{
  const gint64 start = g_get_monotonic_time ();
  volatile double sum = 0.0;

  for (guint i = 1; i <= 10000000; i++)
    sum += sqrt (i) / (i + 1.0);

  return (g_get_monotonic_time () - start) / 1e3;
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const double p = *(const double *) a;
  const double q = *(const double *) b;

  return (p > q) - (p < q);
}

static double
median (double *values,
        guint   n)
{
  qsort (values, n, sizeof *values, compare);

  return values[n / 2];
}

static OddJob *
column (OddId     *out_panel_id,
        OddTarget *out_target)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddJob *with = odd_job_add_panel (job, 0, 0, "", COLUMN_MM, 200.0, out_panel_id, NULL);

  *out_target = (OddTarget) { .kind = ODD_TARGET_EDGE, .panel_id = *out_panel_id,
                              .edge = (guint) odd_panel_side_edge (odd_job_get_panel (with, *out_panel_id, NULL, NULL), 2) };

  return with;
}

static OddJob *
with_ragged (OddJob *job,
             guint   n,
             guint   n_corners)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (16);
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  OddJob *filled;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddPolygon) outline = heap_ragged_polygon (rand, n_corners, 280.0);

      g_ptr_array_add (scraps, heap_scrap (outline));
    }
  filled = odd_job_put_scraps (job, scraps, NULL);
  odd_job_unref (job);

  return filled;
}

/* Median over @n scraps of the quickest of three goes each; the first go fills what a scrap keeps of itself. */
static double
time_places (OddJob          *job,
             const OddTarget *target,
             guint            n,
             double          *out_mean_places)
{
  g_autofree double *ms = g_new (double, n);
  guint n_places = 0;

  for (guint i = 0; i < n; i++)
    {
      const OddId id = ((OddScrap *) job->scraps->pdata[i])->id;

      ms[i] = INFINITY;
      for (guint go = 0; go < 3; go++)
        {
          const gint64 start = g_get_monotonic_time ();
          g_autoptr(GPtrArray) places = odd_snap_places (job, target, id, NULL, NULL);

          ms[i] = MIN (ms[i], (g_get_monotonic_time () - start) / 1e3);
          n_places += go == 0 ? places->len : 0;
        }
    }
  *out_mean_places = (double) n_places / n;

  return median (ms, n);
}

int
main (void)
{
  OddId panel_id = 0;
  OddTarget target;
  double places = 0.0, ms;
  g_autoptr(OddJob) heap = heap_add_scraps (column (&panel_id, &target), 1000, 1);
  g_autoptr(OddJob) ragged = with_ragged (column (&panel_id, &target), 40, 16);

  printf ("calibration: %.1f ms\n", calibrate ());
  ms = time_places (heap, &target, 200, &places);
  printf ("snap, heap scrap (3-6 corners), 7 tilts: %.3f ms (median), %.1f places\n", ms, places);
  ms = time_places (ragged, &target, 40, &places);
  printf ("snap, 16 corners, all flush turns, 7 tilts: %.3f ms (median; goal 1 ms), %.1f places\n", ms, places);
  for (guint go = 0; go < 2; go++)
    {
      const gint64 start = g_get_monotonic_time ();
      g_autoptr(GArray) fits = odd_snap_which_fit (heap, &target, NULL);

      printf ("which of 1000 scraps fit %.0f mm, %s: %.1f ms (goal 100 ms), %u do\n", COLUMN_MM, go == 0 ? "first time" : "again",
              (g_get_monotonic_time () - start) / 1e3, fits->len);
    }

  return 0;
}
