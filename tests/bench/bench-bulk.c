/* Layers at the crossings of 5,000 seams, sides by rule, and what still wants work; beside a calibration loop of the same run. */
#include "config.h"

#include "sewing/bulk.h"
#include "sewing/unfinished.h"
#include "tests/grid.h"

#include <stdio.h>
#include <time.h>

/* Processor time of this thread, so that what else runs does not count. */
static gint64
now_us (void)
{
  struct timespec time;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &time);
  return time.tv_sec * G_USEC_PER_SEC + time.tv_nsec / 1000;
}

static double
calibrate_ms (void)
{
  const gint64 start = now_us ();
  volatile double sum = 0.0;

  for (guint i = 1; i < 20 * 1000 * 1000; i++)
    sum += 1.0 / i;
  return (now_us () - start) / 1000.0;
}

static void
time_crossings (OddJob *job)
{
  const gint64 start = now_us ();
  g_autoptr(GArray) crossings = odd_job_dup_crossings (job, 0);
  const double ms = (now_us () - start) / 1000.0;

  printf ("bulk: %u crossings counted in %.1f ms\n", crossings->len, ms);
}

static void
time_rule (OddJob       *job,
           OddPressRule  rule)
{
  const gint64 start = now_us ();
  g_autoptr(OddJob) pressed = odd_job_press_by (job, 0, rule, TRUE, NULL, NULL);
  const double ms = (now_us () - start) / 1000.0;
  g_autoptr(GArray) crossings = odd_job_dup_crossings (pressed, 0);
  const OddBulkSum sum = odd_crossings_sum (crossings);

  printf ("bulk: rule %u in %.1f ms: %u layers at %u of %u crossings, %u thicker than need be\n", rule, ms, sum.most, sum.n_most, sum.n, sum.n_thicker);
}

static void
time_unfinished (OddJob *job)
{
  const gint64 start = now_us ();
  g_auto(OddUnfinished) unfinished = { 0 };

  odd_unfinished_init (&unfinished, job, ODD_UNFINISHED_ALL);
  printf ("bulk: what still wants work in %.1f ms\n", (now_us () - start) / 1000.0);
}

int
main (void)
{
  OddJob *job = odd_job_new ();
  OddId id;

  for (guint i = 0; i < 8; i++)          /* 8 columns of 25 x 25: 8 x 624 seams, 7 joins */
    job = grid_add_panel (job, 25, 25, 60, 60, &id);
  odd_textile_layout_unref (odd_job_dup_textile_layout (job, ((OddTextile *) job->textiles->pdata[0])->id));
  time_crossings (job);
  for (guint rule = 0; rule < ODD_N_PRESS_RULES; rule++)
    time_rule (job, rule);
  time_unfinished (job);
  printf ("bulk: calibration loop %.0f ms\n", calibrate_ms ());
  odd_job_unref (job);
  return 0;
}
