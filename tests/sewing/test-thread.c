/* Thread against published tables, formulas and worked examples; each row of the tables names its source. */
#include "config.h"
#include "paths.h"

#include "cloth/csv.h"
#include "sewing/thread.h"
#include "tests/grid.h"

#include <string.h>

#define PITCH 94.6

static OddCsv *
load (const char *name)
{
  g_autofree char *path = g_strconcat (ODD_SOURCEDIR "/data/figures/", name, NULL);
  g_autofree char *text = NULL;
  g_autoptr(GError) error = NULL;
  OddCsv *table;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  table = odd_csv_parse (text, &error);
  g_assert_no_error (error);
  return table;
}

/* textilecalculations.com and others; the row TF6 uses the other constant published for 504. */
static void
test_formulas (void)
{
  g_autoptr(OddCsv) table = load ("thread_formula_checks.csv");

  g_assert_cmpuint (table->rows->len, ==, 7);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const double t = odd_csv_get_number (table, i, "T_in"), s = odd_csv_get_number (table, i, "S_per_in");
      const double w = odd_csv_get_number (table, i, "W_in"), published = odd_csv_get_number (table, i, "published");
      const gboolean high = g_str_equal (odd_csv_get (table, i, "id"), "TF6");
      const double ours = high ? odd_thread_by_formula_504_high (t, s, w)
                               : odd_thread_by_formula (odd_csv_get (table, i, "stitch"), t, s, isnan (w) ? 0.0 : w);

      g_test_message ("%s: %s", odd_csv_get (table, i, "id"), odd_csv_get (table, i, "source"));
      g_assert_cmpfloat_with_epsilon (ours, odd_csv_get_number (table, i, "computed"), 1e-3);
      if (!isnan (published))
        g_assert_cmpfloat_with_epsilon (ours, published, 1e-9);
    }
  g_assert_true (isnan (odd_thread_by_formula ("999", 1, 1, 1)));
}

typedef struct { const char *id; double ours; double per_cent; } Total;

/* thread_total_checks.csv row by row. TT3 to TT6 were printed with 42 in rounded to 1.17 yd: half a per cent is allowed. TT7 is printed wrong by one per cent there; its own
 * figures give what stands under "computed". */
static void
test_totals (void)
{
  g_autoptr(OddCsv) table = load ("thread_total_checks.csv");
  const double yards = 42.0 / 36.0;
  const double formula = odd_thread_by_formula ("401", 0.075, 8, 0);
  const Total totals[] = {
    { "TT1", 100 * (1.3 + 4.1), 1e-6 },
    { "TT2", 100 * (1.3 + 4.1) * ODD_THREAD_WASTE, 1e-6 },
    { "TT3", yards * 5.67, 0.5 },
    { "TT4", yards * 5.67 * ODD_THREAD_WASTE, 0.5 },
    { "TT5", yards * formula, 0.5 },
    { "TT6", yards * formula * ODD_THREAD_WASTE, 0.5 },
    { "TT7", (104 * 19 + 52 * 32 + 20 * 5 + 15 * 2.75) * 0.0254 * 1.1, 2.0 },
    { "TT8", 220 * odd_thread_get_figure ("301")->m_per_m, 1e-6 },
  };

  g_assert_cmpuint (table->rows->len, ==, G_N_ELEMENTS (totals));
  for (guint i = 0; i < G_N_ELEMENTS (totals); i++)
    {
      const int row = odd_csv_find (table, "id", totals[i].id);
      const double published = odd_csv_get_number (table, row, "published");

      g_test_message ("%s: %s", totals[i].id, odd_csv_get (table, row, "source"));
      if (!g_str_equal (totals[i].id, "TT7"))
        {
          g_assert_cmpfloat_with_epsilon (totals[i].ours, published, published * totals[i].per_cent / 100.0 + 1e-9);
          g_assert_cmpfloat_with_epsilon (totals[i].ours, odd_csv_get_number (table, row, "computed"), 1e-2);
        }
    }
  /* the figures we ship hold what was measured: A&E 3.0 + 2.67 an inch; apparelscience 1.3 + 4.1 */
  g_assert_cmpfloat_with_epsilon (odd_thread_get_figure ("401")->high, 5.67, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_thread_get_figure ("401")->m_per_m, 5.4, 1e-9);
}

/* Coats, Standard Stitch Type Classification: 2.5 m a metre, needle and bobbin alike; a shop's multiplier 2.75: textilecalculations.com. */
static void
test_table (void)
{
  const OddThreadFigure *lock = odd_thread_get_figure ("301");
  const OddThreadFigure *overedge = odd_thread_get_figure ("504");

  g_assert_cmpfloat_with_epsilon (lock->m_per_m, 2.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (lock->low, 2.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (lock->high, 2.75, 1e-9);
  g_assert_cmpfloat_with_epsilon (lock->needle_share, 0.5, 1e-9);
  g_assert_true (strstr (lock->source, "Coats") != NULL);
  g_assert_cmpfloat_with_epsilon (odd_thread_get_figure ("101")->m_per_m, 5.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_thread_get_figure ("304")->m_per_m, 5.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (overedge->low, 13.584, 1e-3);
  g_assert_cmpfloat_with_epsilon (overedge->high, 15.584, 1e-3);
  g_assert_true (isnan (odd_thread_get_figure ("401")->needle_share));       /* its sources disagree */
  g_assert_null (odd_thread_get_figure ("999"));
}

static OddJob *
job_with (const char *finish,
          OddTreatment *out)
{
  OddJob *job = odd_job_new ();
  GError *error = NULL;
  OddId id;

  *out = (OddTreatment) { odd_job_get_finish_by_key (job, finish)->id, 12.7 };
  grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_JOB, 0, 0, out, FALSE, &error), error);
  return grid_add_panel (job, 3, 2, PITCH, PITCH, &id);
}

/* By hand: 4 seams of 120 mm, one of 3 x 94.6 + 25.4 = 309.2: 789.2 mm, 2.5 and 14 m a metre, 15 % more. */
static void
test_plan (void)
{
  OddTreatment treatment;
  g_autoptr(OddJob) job = job_with ("overlocked", &treatment);
  g_autoptr(OddPlan) plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL);
  g_autoptr(GPtrArray) uses = odd_plan_thread (plan, ODD_THREAD_WASTE);
  const OddThreadUse *lock, *overedge;
  g_autoptr(OddPlan) after = NULL;
  g_autoptr(GPtrArray) left = NULL;
  GError *error = NULL;

  g_assert_cmpuint (uses->len, ==, 2);
  lock = uses->pdata[0];
  overedge = uses->pdata[1];
  g_assert_cmpstr (lock->stitch, ==, "301");
  g_assert_cmpfloat_with_epsilon (lock->seam_mm, 789.2, 1e-6);
  g_assert_cmpfloat_with_epsilon (lock->thread_mm, 789.2 * 2.5 * 1.15, 1e-6);
  g_assert_cmpfloat_with_epsilon (lock->needle_mm, lock->thread_mm / 2, 1e-6);
  g_assert_cmpfloat_with_epsilon (lock->under_mm, lock->thread_mm / 2, 1e-6);
  g_assert_cmpfloat_with_epsilon (overedge->thread_mm, 789.2 * 14 * 1.15, 1e-6);
  g_assert_cmpfloat_with_epsilon (overedge->needle_mm, 0.2 * overedge->thread_mm, 1e-6);

  grid_take (&job, odd_job_do_task (job, &plan->tasks[0].key, FALSE, &error), error);
  after = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, plan);
  left = odd_plan_thread (after, 1.0);
  g_assert_cmpfloat_with_epsilon (((OddThreadUse *) left->pdata[0])->seam_mm, 669.2, 1e-6);
}

/* A bound seam: one line that joins, and one along each of the two edges. */
static void
test_each_edge (void)
{
  OddTreatment treatment;
  g_autoptr(OddJob) job = job_with ("bound", &treatment);
  g_autoptr(OddPlan) plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL);
  g_autoptr(GPtrArray) uses = odd_plan_thread (plan, 1.0);

  g_assert_cmpuint (uses->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (((OddThreadUse *) uses->pdata[0])->seam_mm, 3 * 789.2, 1e-6);
}

/* 605 has no figure: its 789.2 mm are told apart, and of stitches that have one nothing is. */
static void
test_untold (void)
{
  OddTreatment treatment;
  g_autoptr(OddJob) job = job_with ("overlocked", &treatment);
  OddFinish values = *odd_job_get_finish_by_key (job, "overlocked");
  g_autofree OddOperation *operations = g_memdup2 (values.operations, values.n_operations * sizeof (OddOperation));
  g_autoptr(OddPlan) before = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL), plan = NULL;
  g_autoptr(GPtrArray) known = odd_plan_thread (before, 1.0), uses = NULL;
  OddId id;
  GError *error = NULL;

  g_assert_cmpfloat (odd_thread_sum_untold (known), ==, 0.0);
  operations[1].stitch = (char *) "605";
  values.operations = operations;
  grid_take (&job, odd_job_put_finish (job, &values, TRUE, &id, &error), error);
  plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, NULL, 0, NULL);
  uses = odd_plan_thread (plan, 1.0);
  g_assert_cmpfloat_with_epsilon (odd_thread_sum_untold (uses), 789.2, 1e-6);
}

static void
test_spools (void)
{
  g_assert_cmpuint (odd_thread_count_spools (0, 200), ==, 0);
  g_assert_cmpuint (odd_thread_count_spools (200000, 200), ==, 1);
  g_assert_cmpuint (odd_thread_count_spools (200001, 200), ==, 2);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/thread/formulas", test_formulas);
  g_test_add_func ("/thread/totals", test_totals);
  g_test_add_func ("/thread/table", test_table);
  g_test_add_func ("/thread/plan", test_plan);
  g_test_add_func ("/thread/each-edge", test_each_edge);
  g_test_add_func ("/thread/untold", test_untold);
  g_test_add_func ("/thread/spools", test_spools);
  return g_test_run ();
}
