#include "config.h"

#include "sewing/work-time.h"
#include "tests/grid.h"

#include <string.h>

/* onlineclothingstudy.com, How to calculate sewing machine RPM (2012): 4 stitches a cm, 200 cm in 12 s: 4000 a minute. */
static void
test_speed (void)
{
  g_assert_cmpfloat_with_epsilon (odd_time_get_speed (4, 200, 12), 4000, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_time_per_metre (4, 4000), 6.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_time_per_metre (4, 300), 80.0, 1e-9);
}

/* A&E, Stitches per inch (SPI): what you should know: at 5000 stitches a minute 17.4 yd at 8, 9.9 yd at 14 stitches an inch. */
static void
test_yards_a_minute (void)
{
  const double yards[][2] = { { 8, 17.4 }, { 14, 9.9 } };

  for (guint i = 0; i < G_N_ELEMENTS (yards); i++)
    g_assert_cmpfloat_with_epsilon (60.0 / odd_time_per_metre (yards[i][0] / 2.54, 5000) / 0.9144, yards[i][1], 0.05);
}

/* By hand: 120 mm, lockstitch 4 to 5.6 a cm, 300 to 500 a minute, 15 to 40 s in the hand. */
static void
test_operation (void)
{
  const OddOperation sew = { ODD_OPERATION_SEW, ODD_STATION_SEWING_MACHINE, (char *) "301", ODD_FACE_RIGHT_SIDES };
  const OddOperation press = { ODD_OPERATION_PRESS, ODD_STATION_IRON, NULL, ODD_FACE_ONE_LAYER };
  const OddSpeeds own = { 400, 0, 20, 30 };
  OddRange time = odd_operation_time (&sew, 120, NULL);

  g_assert_cmpfloat_with_epsilon (time.low, 15 + 0.12 * 6000 * 4 / 500, 1e-9);
  g_assert_cmpfloat_with_epsilon (time.high, 40 + 0.12 * 6000 * 5.6 / 300, 1e-9);
  time = odd_operation_time (&sew, 120, &own);
  g_assert_cmpfloat_with_epsilon (time.low, 20 + 0.12 * 6000 * 4 / 400, 1e-9);
  g_assert_cmpfloat_with_epsilon (time.high, 20 + 0.12 * 6000 * 5.6 / 400, 1e-9);
  time = odd_operation_time (&press, 1000, &own);
  g_assert_cmpfloat_with_epsilon (time.low, 30 + 4, 1e-9);
  g_assert_cmpfloat_with_epsilon (time.high, 30 + 10, 1e-9);
}

static void
test_figures_have_sources (void)
{
  const OddSpeeds own = { 0, 700, 0, 0 };

  for (guint i = 0; i < ODD_N_TIME_FIGURES; i++)
    {
      const OddTimeFigure figure = odd_time_get_figure (i, NULL);

      g_assert_false (figure.own);
      g_assert_cmpfloat (figure.range.low, >, 0);
      g_assert_cmpfloat (figure.range.low, <, figure.range.high);
      g_assert_cmpuint (strlen (figure.source), >, 10);
    }
  g_assert_true (odd_time_get_figure (ODD_TIME_OVERLOCKER_SPEED, &own).own);
  g_assert_cmpfloat_with_epsilon (odd_time_get_figure (ODD_TIME_OVERLOCKER_SPEED, &own).range.high, 700, 1e-9);
}

static void
test_plan_adds_up (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, 94.6, 94.6, &id);
  g_autoptr(OddPlan) plan = odd_plan_new (job, 0, ODD_MANNER_CHAIN, NULL, 0, NULL);
  const OddWorkTime time = odd_plan_work_time (plan, NULL);
  double low = 0, high = 0;

  for (guint i = 0; i < ODD_N_STATIONS; i++)
    {
      low += time.at[i].low;
      high += time.at[i].high;
    }
  g_assert_cmpfloat_with_epsilon (time.all.low, low, 1e-6);
  g_assert_cmpfloat_with_epsilon (time.all.high, high, 1e-6);
  g_assert_cmpfloat (time.at[ODD_STATION_TABLE].high, ==, 0);
  g_assert_cmpfloat (time.at[ODD_STATION_OVERLOCKER].low, >, 8 * 15);
}

/* Seams of 10 s and 60 s a metre; the telephone rang twice. */
static void
test_fit (void)
{
  const double lengths[] = { 100, 200, 300, 400, 500, 600, 700 };
  const double seconds[] = { 16, 22, 300, 34, 40, 46, 900 };
  const double same[] = { 200, 200, 200 };
  double handling = -1, per_m = -1;

  odd_time_fit (lengths, seconds, G_N_ELEMENTS (lengths), &handling, &per_m);
  g_assert_cmpfloat_with_epsilon (per_m, 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (handling, 10, 1e-6);
  odd_time_fit (same, seconds, 3, &handling, &per_m);
  g_assert_cmpfloat_with_epsilon (handling + 0.2 * per_m, 22, 1e-6);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/work-time/speed", test_speed);
  g_test_add_func ("/work-time/yards-a-minute", test_yards_a_minute);
  g_test_add_func ("/work-time/operation", test_operation);
  g_test_add_func ("/work-time/figures-have-sources", test_figures_have_sources);
  g_test_add_func ("/work-time/plan-adds-up", test_plan_adds_up);
  g_test_add_func ("/work-time/fit", test_fit);
  return g_test_run ();
}
