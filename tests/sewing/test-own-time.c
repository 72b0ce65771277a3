/* Her own times: the fit against numbers from outside, how the range narrows, the timer by a clock of our own, and figures nobody can have timed. */
#include "config.h"

#include "sewing/own-time.h"
#include "tests/grid.h"

/* numpy 1.24: r = [1.21, 0.83, 1.02, 0.97, 4.5, 0.91, 1.13]; m = np.median(r) = 1.02; 1.4826 * np.median(np.abs(r - m)) / m = 0.1598884...
 * By hand: deviations .19 .19 0 .05 3.48 .11 .11, sorted 0 .05 .11 .11 .19 .19 3.48, middle .11; 1.4826 x .11 / 1.02. */
static void
test_fit (void)
{
  const double r[] = { 1.21, 0.83, 1.02, 0.97, 4.5, 0.91, 1.13 };
  const OddOwnTime own = odd_own_time_fit (r, G_N_ELEMENTS (r));
  const OddOwnTime even = odd_own_time_fit (r, 2);

  g_assert_cmpfloat_with_epsilon (own.ratio, 1.02, 1e-12);
  g_assert_cmpfloat_with_epsilon (own.scatter, 1.4826 * 0.11 / 1.02, 1e-12);
  g_assert_cmpfloat_with_epsilon (even.ratio, 1.02, 1e-12);
  g_assert_cmpuint (odd_own_time_fit (NULL, 0).n, ==, 0);
}

/* Timings that agree: half the width is w0 / (n + 1); the middle is hers from the first on. However they scatter, it is never wider than at first. */
static void
test_narrows (void)
{
  const OddRange usual = { 60.0, 100.0 };
  double before = 0.25;

  for (guint n = 1; n <= 20; n++)
    {
      const OddOwnTime own = { n, 1.5, 0.0 }, wild = { n, 1.5, 3.0 }, like_usual = { n, 1.0, 0.25 };
      const OddRange range = odd_own_time_apply (&own, usual), wide = odd_own_time_apply (&wild, usual), mixed = odd_own_time_apply (&like_usual, usual);
      const double half = (range.high - range.low) / 2.0 / 120.0;

      g_assert_cmpfloat_with_epsilon ((range.low + range.high) / 2.0, 120.0, 1e-9);
      g_assert_cmpfloat_with_epsilon (half, 0.25 / (n + 1), 1e-12);
      g_assert_cmpfloat (half, <, before);
      before = half;
      g_assert_cmpfloat ((wide.high - wide.low) / 2.0 / 120.0, <=, 0.25 + 1e-12);
      g_assert_cmpfloat_with_epsilon ((mixed.high - mixed.low) / 160.0, 0.25 / sqrt (n + 1), 1e-12);
    }
  g_assert_cmpfloat (odd_own_time_apply (&(OddOwnTime) { 0 }, usual).high, ==, 100.0);
}

static OddTiming
time_some (OddJob  *job,
           OddPlan *plan)
{
  OddWorkTimer *timer = odd_work_timer_new (1000);
  OddTiming timing = { 0 };
  guint sewn = 0;

  for (guint i = 0; i < plan->n_tasks && sewn < 2; i++)
    if (plan->tasks[i].station == ODD_STATION_SEWING_MACHINE)
      {
        g_assert_false (odd_work_timer_tick (timer, plan, i, 1060 + 60 * sewn, &timing));
        sewn++;
      }
  odd_work_timer_pause (timer, 1125);
  g_assert_false (odd_work_timer_is_running (timer));
  odd_work_timer_go_on (timer, 5000);
  g_assert_cmpint (odd_work_timer_get_seconds (timer, 5005), ==, 130);
  for (guint i = 0; i < plan->n_tasks; i++)
    if (plan->tasks[i].station == ODD_STATION_IRON)
      {
        g_assert_true (odd_work_timer_tick (timer, plan, i, 5055, &timing));
        odd_work_timer_untick (timer, &plan->tasks[i].key);
        break;
      }
  g_assert_cmpuint (timing.n, ==, 2);
  g_assert_cmpfloat (timing.seconds, ==, 120.0);
  g_assert_cmpint (timing.station, ==, ODD_STATION_SEWING_MACHINE);
  g_assert_false (odd_work_timer_close (timer, &(OddTiming) { 0 }));
  odd_work_timer_free (timer);
  return timing;
}

/* Two seams of a grid of 2 x 2, a minute each; what is put down moves the estimate of its station and of no other. */
static void
test_timer_and_record (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, 94.6, 94.6, &id);
  g_autoptr(OddPlan) plan = odd_plan_new (job, 0, ODD_MANNER_CHAIN, NULL, 0, NULL);
  const OddWorkTime usual = odd_job_plan_time (job, plan);
  const OddTiming timing = time_some (job, plan);
  const double ratio = 2.0 * 120.0 / (timing.usual.low + timing.usual.high);
  double figures[ODD_TIMING_N_FIGURES];
  OddAct act = odd_timing_to_act (&timing, figures);
  OddWorkTime own;
  GError *error = NULL;

  g_assert_cmpfloat_with_epsilon (usual.all.low, usual.at[0].low + usual.at[1].low + usual.at[2].low + usual.at[3].low + plan->n_walks * 10.0, 1e-9);
  grid_take (&job, odd_job_do (job, &act, &error), error);
  own = odd_job_plan_time (job, plan);
  for (guint s = 0; s < ODD_N_STATIONS; s++)
    if (s == ODD_STATION_SEWING_MACHINE)
      {
        g_assert_cmpfloat_with_epsilon (own.at[s].low + own.at[s].high, ratio * (usual.at[s].low + usual.at[s].high), 1e-9);
        g_assert_cmpfloat ((own.at[s].high - own.at[s].low) / ratio, <, 0.51 * (usual.at[s].high - usual.at[s].low));
      }
    else
      g_assert_cmpfloat (own.at[s].high, ==, usual.at[s].high);
}

static void
test_hostile (void)
{
  static const double rows[][ODD_TIMING_N_FIGURES] = {
    { 0, 1, 10, 5, 8 }, { 1.5, 1, 10, 5, 8 }, { 1, -1, 10, 5, 8 }, { 1, 1, 0, 5, 8 }, { 1, 1, -3, 5, 8 }, { 1, 1, 1e6, 5, 8 }, { 1, 1, 10, 0, 8 }, { 1, 1, 10, 9, 8 },
  };
  g_autoptr(OddJob) job = odd_job_new ();
  OddTiming timing;

  for (guint i = 0; i <= G_N_ELEMENTS (rows); i++)
    {
      const double *row = rows[MIN (i, G_N_ELEMENTS (rows) - 1)];
      const OddAct act = { .kind = ODD_ACT_TIME, .figures = (double *) row, .n_figures = i < G_N_ELEMENTS (rows) ? ODD_TIMING_N_FIGURES : 2 };
      g_autoptr(GError) error = NULL;

      g_assert_false (odd_timing_from_act (&act, &timing));
      g_assert_null (odd_job_do (job, &act, &error));
      g_assert_nonnull (error);
    }
  g_assert_false (odd_timing_from_act (&(OddAct) { .kind = ODD_ACT_TIME, .operation = 99, .figures = (double[]) { 1, 1, 10, 5, 8 }, .n_figures = 5 }, &timing));
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/own-time/fit", test_fit);
  g_test_add_func ("/own-time/narrows", test_narrows);
  g_test_add_func ("/own-time/timer-and-record", test_timer_and_record);
  g_test_add_func ("/own-time/hostile", test_hostile);
  return g_test_run ();
}
