#include "config.h"

#include "sewing/plan.h"
#include "sewing/stage.h"
#include "tests/grid.h"
#include "tests/sewing/random-trees.h"

#include <string.h>

#define PITCH 94.6

static void
use_finish (OddJob    **job,
            OddLevel    level,
            OddId       id,
            const char *key)
{
  const OddTreatment treatment = { odd_job_get_finish_by_key (*job, key)->id, NAN };
  GError *error = NULL;

  grid_take (job, odd_job_set_treatment (*job, level, id, 0, &treatment, FALSE, &error), error);
}

static OddPlan *
plan (OddJob    *job,
      OddManner  manner)
{
  return odd_plan_new (job, 0, manner, NULL, 0, NULL);
}

static void
assert_plan (OddJob    *job,
             OddManner  manner,
             guint      rounds,
             guint      walks)
{
  g_autoptr(OddPlan) made = plan (job, manner);

  g_assert_cmpuint (made->n_rounds, ==, rounds);
  g_assert_cmpuint (made->n_walks, ==, walks);
}

/* 8 squares a row need 3 rounds, 12 rows 4; chain by chain each round is sewn, overlocked and pressed: 7 x 3 stops. Row by row: squares, then
 * rows: 2 x 3 stops, and 7 + 11 seams wait for one another. */
static void
test_grid (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 8, 12, PITCH, PITCH, &id);

  assert_plan (job, ODD_MANNER_CHAIN, 7, 21);
  assert_plan (job, ODD_MANNER_WALKS, 18, 6);
}

/* 12 x 20: 9 rounds; five such columns: three more, and one more crossing, so three more stops. */
static void
test_columns (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId id;

  for (guint i = 0; i < 5; i++)
    job = grid_add_panel (g_steal_pointer (&job), 12, 20, PITCH, PITCH, &id);
  assert_plan (job, ODD_MANNER_CHAIN, 9 + 3, 36);
  assert_plan (job, ODD_MANNER_WALKS, 11 + 19 + 4, 9);
}

/* By hand. French: two passes with trimming and pressing between: sew, trim, press, sew, press: five stops a level, and the next level begins at
 * the machine. Topstitching: sew, overlock, press, then topstitch and sew on at one stop: 3 + 3 + 1. */
static void
test_finishes (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 4, 4, PITCH, PITCH, &id);

  use_finish (&job, ODD_LEVEL_JOB, 0, "french");
  assert_plan (job, ODD_MANNER_WALKS, 6, 10);
  use_finish (&job, ODD_LEVEL_JOB, 0, "overlocked-topstitched");
  assert_plan (job, ODD_MANNER_WALKS, 6, 7);
  assert_plan (job, ODD_MANNER_CHAIN, 4, 13);
  use_finish (&job, ODD_LEVEL_JOB, 0, "pressed-open");
  assert_plan (job, ODD_MANNER_WALKS, 6, 4);
}

/* Squares French, rows overlocked: sew, trim, iron, sew, iron; sew, overlock, iron. Mixed: one row's squares zigzagged (sew, trim, zigzag, iron) fit into
 * the same stops. */
static void
test_mixed_finishes (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 4, 4, PITCH, PITCH, &id);

  for (guint i = 0; i < 4; i++)
    use_finish (&job, ODD_LEVEL_STRIP, odd_job_get_panel (job, id, NULL, NULL)->root->parts[i]->id, i == 2 ? "zigzagged" : "french");
  assert_plan (job, ODD_MANNER_WALKS, 6, 8);
}

/* --- laws --- */

/* Does every task once, in its order, and looks at each step whether anything is enclosed raw. */
static void
follow (OddJob  *job,
        OddPlan *plan)
{
  g_autoptr(OddJob) now = odd_job_ref (job);

  for (guint i = 0; i < plan->n_tasks; i++)
    {
      g_autoptr(GError) error = NULL;
      OddJob *next = odd_job_do_task (now, &plan->tasks[i].key, FALSE, &error);

      grid_take (&now, next, error);
    }
  g_assert_cmpuint (odd_job_count_work (now, 0).n_raw_inside, ==, 0);
  g_assert_cmpuint (odd_job_count_work (now, 0).n_done, ==, odd_job_count_work (now, 0).n_seams);
}

static void
assert_whole (OddJob  *job,
              OddPlan *plan)
{
  const OddWorkCount work = odd_job_count_work (job, 0);
  guint n = 0;

  g_assert_cmpmem (plan->n_left, sizeof plan->n_left, work.operations_open, sizeof work.operations_open);
  for (guint i = 0; i < plan->n_stops; i++)
    {
      g_assert_cmpuint (plan->stops[i].first, ==, n);
      g_assert_cmpuint (plan->stops[i].n, >, 0);
      for (guint k = n; k < n + plan->stops[i].n; k++)
        {
          g_assert_cmpuint (plan->tasks[k].stop, ==, i);
          g_assert_cmpint (plan->tasks[k].station, ==, plan->stops[i].station);
        }
      if (i > 0 && plan->stops[i - 1].number > 0)
        g_assert_cmpint (plan->stops[i].station, !=, plan->stops[i - 1].station);
      n += plan->stops[i].n;
    }
  g_assert_cmpuint (n, ==, plan->n_tasks);
}

/*
 * Ten thousand trees of up to 30 patches and more with seams at any angle, a third of them in a textile of several panels, finishes mixed. The plan is acted out on states
 * of our own here, by the ends the layout tells; some of them, and those in panels, by the marks themselves.
 */
static void
act_out (OddJob  *job,
         OddPlan *plan)
{
  g_autoptr(GHashTable) done = g_hash_table_new (NULL, NULL);      /* seam id -> operations done */

  for (guint i = 0; i < plan->n_tasks; i++)
    {
      OddTaskFacts facts;
      const guint n = GPOINTER_TO_UINT (g_hash_table_lookup (done, GUINT_TO_POINTER (plan->tasks[i].key.id)));

      odd_plan_get_facts (plan, i, &facts);
      g_assert_cmpuint (plan->tasks[i].key.index, ==, n);          /* nothing is left out */
      g_hash_table_insert (done, GUINT_TO_POINTER (plan->tasks[i].key.id), GUINT_TO_POINTER (n + 1));
      if (plan->tasks[i].work != ODD_WORK_SEW)
        continue;
      if (facts.layout == NULL)
        continue;
      /* whoever ends on this seam is finished and pressed */
      for (guint s = 0; s < facts.layout->n_seams; s++)
        {
          const OddLaidSeam *laid = &facts.layout->seams[s];

          if (laid->raw_length_mm > 0 && (laid->ends[0].by == plan->tasks[i].key.id || laid->ends[1].by == plan->tasks[i].key.id))
            g_assert_cmpuint (GPOINTER_TO_UINT (g_hash_table_lookup (done, GUINT_TO_POINTER (laid->seam->id))), ==, laid->finish->n_operations);
        }
    }
}

static void
test_never_encloses (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (2026);
  g_autoptr(OddJob) empty = odd_job_new ();

  for (guint i = 0; i < 10000; i++)
    {
      g_autoptr(OddJob) job = random_trees_new (empty, rand, i % 3 == 0 ? g_rand_int_range (rand, 2, 4) : 1, 30);
      const OddManner manner = i % 2;
      g_autoptr(OddPlan) made = plan (job, manner);

      assert_whole (job, made);
      act_out (job, made);
      if (i % 100 == 0)
        follow (job, made);
    }
}

/* Marks tasks at random where none is enclosed; the plan of what is left holds the same promise, and never needs more rounds than there are seams. */
static void
test_never_encloses_from_the_middle (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (5);
  g_autoptr(OddJob) empty = odd_job_new ();

  for (guint i = 0; i < 150; i++)
    {
      g_autoptr(OddJob) job = random_trees_new (empty, rand, g_rand_int_range (rand, 1, 4), 25);

      for (guint k = 0; k < 25; k++)
        {
          g_autoptr(OddPlan) made = plan (job, i % 2);
          OddJob *next = NULL;

          if (made->n_tasks > 0)
            next = odd_job_do_task (job, &made->tasks[g_rand_int_range (rand, 0, made->n_tasks)].key, FALSE, NULL);
          if (next == NULL)
            continue;
          odd_job_unref (job);
          job = next;
        }
      {
        g_autoptr(OddPlan) made = plan (job, i % 2);

        assert_whole (job, made);
        follow (job, made);
      }
    }
}

/* Doing the first task of the plan takes that one off, and changes nothing else. */
static void
test_followed_plan_stays (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (17);
  g_autoptr(OddJob) empty = odd_job_new ();

  for (guint i = 0; i < 40; i++)
    {
      g_autoptr(OddJob) job = random_trees_new (empty, rand, g_rand_int_range (rand, 1, 4), 20);
      g_autoptr(OddPlan) first = plan (job, ODD_MANNER_CHAIN);

      for (guint k = 0; k < first->n_tasks; k++)
        {
          g_autoptr(OddPlan) now = odd_plan_new (job, 0, ODD_MANNER_CHAIN, NULL, 0, first);
          GError *error = NULL;

          g_assert_cmpuint (now->n_tasks, ==, first->n_tasks - k);
          g_assert_cmpuint (now->n_rounds, ==, first->n_rounds);
          g_assert_true (odd_task_key_equal (&now->tasks[0].key, &first->tasks[k].key) ||
                         now->tasks[0].round == first->tasks[k].round);
          grid_take (&job, odd_job_do_task (job, &first->tasks[k].key, FALSE, &error), error);
        }
    }
}

/* --- pins, marks, texts --- */

static void
test_pin (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, PITCH, PITCH, &id);
  OddPanel *panel = odd_job_get_panel (job, id, NULL, NULL);
  const OddTaskKey pins[] = {
    { ODD_TASK_OPERATION, panel->root->parts[2]->seams[1].id, 0 },
    { ODD_TASK_OPERATION, 9999, 0 },                          /* gone: passed over */
    { ODD_TASK_OPERATION, panel->root->seams[1].id, 0 },
  };
  guint last = 0;

  for (guint m = 0; m < ODD_N_MANNERS; m++)
    {
      g_autoptr(OddPlan) made = odd_plan_new (job, 0, m, pins, G_N_ELEMENTS (pins), NULL);

      g_assert_cmpint (odd_plan_find (made, &pins[0]), ==, 0);
      assert_whole (job, made);
      follow (job, made);
      /* the second pin comes after what it waits for: the squares of rows 2 and 3, all three operations, itself */
      last = odd_plan_find (made, &pins[2]);
      g_assert_cmpuint (last, ==, 12);
    }
}

static void
test_raw_inside_is_told (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, PITCH, PITCH, &id);
  OddPanel *panel = odd_job_get_panel (job, id, NULL, NULL);
  const OddTaskKey rows = { ODD_TASK_OPERATION, panel->root->seams[0].id, 0 };
  const OddTaskKey squares = { ODD_TASK_OPERATION, panel->root->parts[0]->seams[0].id, 0 };
  g_autoptr(GError) error = NULL;
  g_autoptr(OddPlan) made = NULL;

  g_assert_null (odd_job_do_task (job, &rows, FALSE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  grid_take (&job, odd_job_do_task (job, &rows, TRUE, &error), error);
  made = plan (job, ODD_MANNER_WALKS);
  g_assert_true (made->tasks[odd_plan_find (made, &squares)].raw_inside);
  g_assert_cmpint (odd_plan_find (made, &rows), ==, -1);
}

static void
test_texts (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 1, PITCH, PITCH, &id);
  g_autoptr(OddPlan) made = plan (job, ODD_MANNER_CHAIN);
  g_autofree char *text = odd_plan_dup_text (made, 0, ODD_UNIT_CM);
  OddTaskFacts facts;

  g_assert_cmpstr (text, ==, "Sew 1 to 2, right sides together, 12.7 mm; back-stitch both ends");
  odd_plan_get_facts (made, 0, &facts);
  g_assert_cmpfloat_with_epsilon (facts.length_mm, PITCH + 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (facts.distance_mm, 12.7, 1e-9);
  g_clear_pointer (&text, g_free);
  text = odd_plan_dup_text (made, 1, ODD_UNIT_CM);
  g_assert_cmpstr (text, ==, "Overlock both edges together: 1 to 2");

  use_finish (&job, ODD_LEVEL_JOB, 0, "french");
  g_clear_pointer (&made, odd_plan_unref);
  made = plan (job, ODD_MANNER_CHAIN);
  g_clear_pointer (&text, g_free);
  text = odd_plan_dup_text (made, 0, ODD_UNIT_CM);
  g_assert_cmpstr (text, ==, "Pass 1: sew 1 to 2, wrong sides together, 9.5 mm; back-stitch both ends");
}

static void
test_keys (void)
{
  const OddTaskKey keys[] = { { ODD_TASK_OPERATION, 12, 3 }, { ODD_TASK_CUT, 7, 0 }, { ODD_TASK_SECURE, 4000000000u, 1 } };
  const char *const wrong[] = { "", "seam", "seam-1", "cut-1-2", "seam-1-2-3", "seam--1-2", "pin-1", "cut-x", "cut-99999999999" };
  OddTaskKey key = { ODD_TASK_CUT, 5, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      g_autofree char *text = odd_task_key_dup_text (&keys[i]);

      g_assert_true (odd_task_key_from_text (text, &key));
      g_assert_true (odd_task_key_equal (&key, &keys[i]));
    }
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    g_assert_false (odd_task_key_from_text (wrong[i], &key));
  g_assert_true (odd_task_key_equal (&key, &keys[2]));
}

static void
test_from_start (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 4, 2, PITCH, PITCH, &id);
  g_autoptr(OddPlan) before = plan (job, ODD_MANNER_WALKS);
  g_autoptr(OddPlan) after = NULL;
  GError *error = NULL;

  grid_take (&job, odd_job_do_task (job, &before->tasks[0].key, FALSE, &error), error);
  after = odd_plan_new_from_start (job, 0, ODD_MANNER_WALKS, NULL, 0);
  g_assert_cmpuint (after->n_tasks, ==, before->n_tasks);
  for (guint i = 0; i < after->n_tasks; i++)
    {
      g_assert_true (odd_task_key_equal (&after->tasks[i].key, &before->tasks[i].key));
      g_assert_cmpint (after->tasks[i].state, ==, i == 0 ? ODD_STATE_DONE : ODD_STATE_OPEN);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/grid", test_grid);
  g_test_add_func ("/plan/columns", test_columns);
  g_test_add_func ("/plan/finishes", test_finishes);
  g_test_add_func ("/plan/mixed-finishes", test_mixed_finishes);
  g_test_add_func ("/plan/never-encloses", test_never_encloses);
  g_test_add_func ("/plan/never-encloses-from-the-middle", test_never_encloses_from_the_middle);
  g_test_add_func ("/plan/followed-plan-stays", test_followed_plan_stays);
  g_test_add_func ("/plan/pin", test_pin);
  g_test_add_func ("/plan/raw-inside-is-told", test_raw_inside_is_told);
  g_test_add_func ("/plan/texts", test_texts);
  g_test_add_func ("/plan/keys", test_keys);
  g_test_add_func ("/plan/from-start", test_from_start);
  return g_test_run ();
}
