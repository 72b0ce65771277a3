/* Expected sizes: the closed form against a seeded Monte Carlo of 40,000 runs, and against figures worked by hand (derived here).
 * The quantiles of the normal distribution: from memory, as any table prints them. */
#include "sewing/expected.h"
#include "../cloth/trees.h"

#define N_RUNS 40000

static const OddSettings one_and_one = { 50, 30, 240, 1.0, 1.0, 0.0, 1.0 };

static void
test_normal (void)
{
  g_test_summary ("1.6449 leaves 5 % above, 1.9600 leaves 2.5 %");
  g_assert_cmpfloat_with_epsilon (odd_normal_quantile (0.95), 1.644853627, 1e-8);
  g_assert_cmpfloat_with_epsilon (odd_normal_quantile (0.975), 1.959963985, 1e-8);
  g_assert_cmpfloat_with_epsilon (odd_normal_quantile (0.5), 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_normal_below (-1.644853627), 0.05, 1e-9);
}

static void
test_eleven (void)
{
  OddSettings with_habit = one_and_one;
  OddTake take = odd_take_of_seams (11, &one_and_one);

  g_test_summary ("11 seams, loss U(0, 1), scatter 1: mean 11 / 2 = 5.5, sd sqrt (11 x (1 + 1/12)) = 3.45; habit 0.3: sqrt (11.92 + 3.3 squared) = 4.78");
  g_assert_cmpfloat_with_epsilon (take.mean_mm, 5.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (take.sd_mm, 3.452, 5e-4);
  with_habit.bias_mm = 0.3;
  g_assert_cmpfloat_with_epsilon (odd_take_of_seams (11, &with_habit).sd_mm, sqrt (11.0 * 13.0 / 12.0 + 10.89), 1e-9);
}

/* Box and Muller's way to normal numbers. */
static double
normal (GRand *random)
{
  const double u = 1.0 - g_rand_double (random), v = g_rand_double (random);

  return sqrt (-2.0 * log (u)) * cos (2.0 * G_PI * v);
}

static void
simulate (guint n_seams, const OddSettings *settings, double *out_mean, double *out_sd)
{
  g_autoptr(GRand) random = g_rand_new_with_seed (20250612 + n_seams);
  double sum = 0.0, squares = 0.0;

  for (guint run = 0; run < N_RUNS; run++)
    {
      const double habit = settings->bias_mm * normal (random);
      double lost = 0.0;

      for (guint i = 0; i < n_seams; i++)
        lost += settings->fold_loss_mm * g_rand_double (random) + settings->scatter_mm * normal (random) + habit;
      sum += lost;
      squares += lost * lost;
    }
  *out_mean = sum / N_RUNS;
  *out_sd = sqrt (squares / N_RUNS - *out_mean * *out_mean);
}

static void
test_monte_carlo (void)
{
  static const guint counts[] = { 11, 24, 40 };
  static const double habits[] = { 0.0, 0.3 };

  g_test_summary ("Mean and spread of 40,000 simulated panels agree with the closed form to 1 %");
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    for (guint h = 0; h < G_N_ELEMENTS (habits); h++)
      {
        OddSettings settings = one_and_one;
        OddTake take;
        double mean, sd;

        settings.bias_mm = habits[h];
        take = odd_take_of_seams (counts[i], &settings);
        simulate (counts[i], &settings, &mean, &sd);
        g_assert_cmpfloat_with_epsilon (mean / take.mean_mm, 1.0, 0.01);
        g_assert_cmpfloat_with_epsilon (sd / take.sd_mm, 1.0, 0.01);
      }
}

static OddJob *
add_columns (guint n_panels, guint rows, OddId *out_first)
{
  OddJob *job = odd_job_new ();

  for (guint i = 0; i < n_panels; i++)
    take (&job, add_squares (job, first_textile (job)->id, 1, rows, 100.0, i == 0 ? out_first : NULL));
  return job;
}

static void
test_one_panel (void)
{
  OddId id;
  g_autoptr(OddJob) job = add_columns (1, 12, &id);
  OddExpected expected;

  g_test_summary ("12 patches of 100 finished: 1200 planned, 1194.5 expected; 95 % at least 1194.5 - 1.645 x 3.452 = 1188.8; add 11.2");
  g_assert_true (odd_job_expect (job, id, FALSE, &expected));
  g_assert_cmpuint (expected.n_seams, ==, 11);
  g_assert_cmpfloat_with_epsilon (expected.planned_mm, 1200.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (expected.mean_mm, 1194.5, 1e-3);
  g_assert_cmpfloat_with_epsilon (expected.least_95_mm, 1194.5 - 1.644853627 * sqrt (11.0 * 13.0 / 12.0), 1e-6);
  g_assert_cmpfloat_with_epsilon (expected.add_mm, 11.178, 1e-2);
  g_assert_cmpfloat_with_epsilon (expected.chance_short, odd_normal_below (5.5 / sqrt (11.0 * 13.0 / 12.0)), 1e-9);
  g_assert_false (odd_job_expect (job, id, TRUE, &expected));      /* no seam runs down a single column */
}

static void
test_several_panels (void)
{
  OddId id;
  g_autoptr(OddJob) job = add_columns (5, 12, &id);
  const OddId textile_id = first_textile (job)->id;
  OddExpected expected;

  /* 5.5 + z (0.95^(1/5) = 0.98979) x 3.452, z = 2.319: 13.5 */
  g_test_summary ("Five panels, the shortest rules: add 5.5 + z (0.95 ^ (1/5)) x 3.452 = 13.5 to each; across: four joins");
  g_assert_true (odd_job_expect (job, textile_id, FALSE, &expected));
  g_assert_cmpfloat_with_epsilon (expected.add_mm, 5.5 + odd_normal_quantile (pow (0.95, 0.2)) * sqrt (11.0 * 13.0 / 12.0), 1e-6);
  g_assert_cmpfloat_with_epsilon (expected.add_mm, 13.5, 0.05);
  /* The least of five normal numbers lies 1.163 sd below their mean (order statistics, as tables print it; from memory). */
  g_assert_cmpfloat_with_epsilon (expected.mean_mm, 1200.0 - 5.5 - 1.16296 * sqrt (11.0 * 13.0 / 12.0), 0.01);
  g_assert_true (odd_job_expect (job, textile_id, TRUE, &expected));
  g_assert_cmpuint (expected.n_seams, ==, 4);
  g_assert_cmpfloat_with_epsilon (expected.mean_mm, 500.0 - 2.0, 1e-3);
}

static void
test_target (void)
{
  OddId id;
  g_autoptr(OddJob) job = add_columns (2, 12, &id);
  OddExpected expected;

  g_test_summary ("A target of 1190: the chance that both panels reach it is Φ (4.5 / 3.452) squared");
  take (&job, odd_job_set_target (job, first_textile (job)->id, 0.0, 1190.0, NULL));
  g_assert_true (odd_job_expect (job, first_textile (job)->id, FALSE, &expected));
  g_assert_cmpfloat (expected.wanted_mm, ==, 1190.0);
  g_assert_cmpfloat_with_epsilon (expected.chance_short, 1.0 - pow (odd_normal_below (4.5 / sqrt (11.0 * 13.0 / 12.0)), 2), 1e-9);
}

static void
test_measured_is_certain (void)
{
  OddId id;
  g_autoptr(OddJob) job = add_columns (1, 3, &id);
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);
  OddMeasure measure;
  OddExpected expected;

  g_test_summary ("What is measured is no longer guessed at");
  for (guint i = 0; i < 2; i++)
    take (&job, odd_job_set_progress (job, odd_job_get_panel (job, id, NULL, NULL)->root->seams[i].id, progress, NULL));
  odd_measure_init (&measure);
  measure.lengths_mm[1] = 300.0 + 25.4 - 3.0;
  take (&job, odd_job_measure (job, id, &measure, FALSE, NULL));
  g_assert_true (odd_job_expect (job, id, FALSE, &expected));
  g_assert_cmpuint (expected.n_seams, ==, 0);
  g_assert_cmpfloat_with_epsilon (expected.mean_mm, 297.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (expected.least_95_mm, 297.0, 1e-6);
}

static void
test_calibrate (void)
{
  OddMeasured measured = { .length = { .n_seams = 11 }, .deeper_mm = 0.35 };
  OddSettings settings = one_and_one;

  g_test_summary ("0.35 mm deeper on each side is 0.7 a seam on the mean: F = 1.4; what 11 seams leave unknown: sqrt ((1.96 / 12 + 1) / 11) = 0.3252");
  g_assert_true (odd_settings_calibrate (&settings, &measured));
  g_assert_cmpfloat_with_epsilon (settings.fold_loss_mm, 1.4, 1e-12);
  g_assert_cmpfloat_with_epsilon (settings.bias_mm, 0.3252, 5e-5);
  measured.deeper_mm = NAN;
  g_assert_false (odd_settings_calibrate (&settings, &measured));
  measured.deeper_mm = -0.2;
  g_assert_true (odd_settings_calibrate (&settings, &measured));
  g_assert_cmpfloat (settings.fold_loss_mm, ==, 0.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/expected/normal", test_normal);
  g_test_add_func ("/expected/eleven", test_eleven);
  g_test_add_func ("/expected/monte-carlo", test_monte_carlo);
  g_test_add_func ("/expected/one-panel", test_one_panel);
  g_test_add_func ("/expected/several-panels", test_several_panels);
  g_test_add_func ("/expected/target", test_target);
  g_test_add_func ("/expected/measured-is-certain", test_measured_is_certain);
  g_test_add_func ("/expected/calibrate", test_calibrate);
  return g_test_run ();
}
