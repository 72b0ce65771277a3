/* What the finishes are tried on: one textile of several, a loose panel, a join, a row with an exception. By hand, as test-finish-choice.c has it. */
#include "config.h"

#include "sewing/finish-choice.h"
#include "tests/grid.h"

#define CUT 120.0
#define PITCH 94.6
#define WITH_WASTE 1.15
#define OPEN_TAKES (2.5 * WITH_WASTE)             /* stitch 301, Coats */

static OddFinishChoice *
pick (OddJob     *job,
      GPtrArray  *choices,
      const char *key)
{
  for (guint i = 0; i < choices->len; i++)
    if (g_str_equal (((OddFinishChoice *) choices->pdata[i])->finish->key, key))
      return choices->pdata[i];
  g_assert_not_reached ();
}

static GPtrArray *
compare (OddJob           *job,
         OddLevel          level,
         OddId             id,
         OddChoiceFigures *now)
{
  const OddFinishReach reach = { .level = level, .id = id, .keep_cut = TRUE };
  GError *error = NULL;
  GPtrArray *choices = odd_job_compare_finishes (job, &reach, now, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  return choices;
}

static OddId
first_textile (OddJob *job)
{
  return ((OddTextile *) job->textiles->pdata[0])->id;
}

static OddNode *
root_of (OddJob *job,
         OddId   panel_id)
{
  return odd_job_get_panel (job, panel_id, NULL, NULL)->root;
}

static void
use_finish (OddJob    **job,
            OddLevel    level,
            OddId       id,
            const char *key)
{
  const OddTreatment own = { odd_job_get_finish_by_key (*job, key)->id, NAN };
  GError *error = NULL;

  grid_take (job, odd_job_set_treatment (*job, level, id, 0, &own, TRUE, &error), error);
}

/* Two squares, one seam; three squares, two seams: the job has three, and no one width. */
static void
test_two_textiles (void)
{
  OddId other, id;
  GError *error = NULL;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &id);
  OddChoiceFigures now;
  g_autoptr(GPtrArray) all = NULL, one = NULL;

  grid_take (&job, odd_job_add_textile (job, "Other", &other, &error), error);
  job = grid_add_panel_to (g_steal_pointer (&job), other, 3, 1, PITCH, PITCH, &id);
  all = compare (job, ODD_LEVEL_JOB, 0, &now);
  g_assert_cmpfloat_with_epsilon (pick (job, all, "pressed-open")->figures.thread_mm, 3 * CUT * OPEN_TAKES, 1e-6);
  g_assert_cmpfloat_with_epsilon (now.area_mm2, 5 * PITCH * PITCH, 1e-6);
  g_assert_cmpfloat (now.width_mm, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (pick (job, all, "pressed-open")->lining_mm2, (5 * PITCH + 2 * 25.4) * CUT, 1e-6);
  one = compare (job, ODD_LEVEL_TEXTILE, other, &now);
  g_assert_cmpfloat_with_epsilon (pick (job, one, "pressed-open")->figures.thread_mm, 2 * CUT * OPEN_TAKES, 1e-6);
  g_assert_cmpfloat_with_epsilon (now.width_mm, 3 * PITCH, 1e-6);
}

/* Of a loose panel with two seams beside a textile with one, and of a seam in it: those two only; four crossings lie elsewhere. */
static void
test_loose_panel (void)
{
  OddId hung, loose;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, PITCH, PITCH, &hung);
  OddChoiceFigures now;
  g_autoptr(GPtrArray) panel = NULL, seam = NULL;

  job = grid_add_panel_to (g_steal_pointer (&job), 0, 3, 1, PITCH, PITCH, &loose);
  panel = compare (job, ODD_LEVEL_PANEL, loose, &now);
  g_assert_cmpfloat_with_epsilon (pick (job, panel, "pressed-open")->figures.thread_mm, 2 * CUT * OPEN_TAKES, 1e-6);
  g_assert_cmpuint (pick (job, panel, "french")->figures.bulk.n, ==, 0);
  g_assert_cmpuint (now.rounds, ==, 2);
  g_assert_cmpfloat_with_epsilon (now.width_mm, 3 * PITCH, 1e-6);
  seam = compare (job, ODD_LEVEL_SEAM, root_of (job, loose)->seams[0].id, &now);
  g_assert_cmpfloat_with_epsilon (now.thread_mm, 2 * CUT * (2.5 + 14.0) * WITH_WASTE, 1e-6);
  g_assert_cmpfloat_with_epsilon (pick (job, seam, "pressed-open")->figures.thread_mm, CUT * (2 * 2.5 + 14.0) * WITH_WASTE, 1e-6);
}

/* A job's only panel, loose: the whole job is that panel. */
static void
test_only_loose (void)
{
  OddId loose;
  g_autoptr(OddJob) job = grid_add_panel_to (odd_job_new (), 0, 2, 1, PITCH, PITCH, &loose);
  OddChoiceFigures now;
  g_autoptr(GPtrArray) all = compare (job, ODD_LEVEL_JOB, 0, &now);

  g_assert_cmpfloat_with_epsilon (now.width_mm, 2 * PITCH, 1e-6);
  g_assert_cmpfloat_with_epsilon (pick (job, all, "french")->width_lost_mm, 2 * PITCH - 2 * (CUT - 2 * 15.875), 1e-6);
}

/* Two panels of two squares, joined by a felled seam; 3 seams of 120 mm. Overlocked the two take 16.5 each, the join pressed open 2.5. */
static void
test_join (void)
{
  OddId first, second, join;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &first);
  OddChoiceFigures now;
  g_autoptr(GPtrArray) choices = NULL;

  job = grid_add_panel (g_steal_pointer (&job), 2, 1, PITCH, PITCH, &second);
  join = odd_job_get_textile (job, first_textile (job))->joins[0].id;
  use_finish (&job, ODD_LEVEL_SEAM, join, "felled");
  choices = compare (job, ODD_LEVEL_SEAM, join, &now);
  g_assert_true (pick (job, choices, "felled")->present);
  g_assert_false (pick (job, choices, "overlocked")->present);
  g_assert_cmpfloat_with_epsilon (pick (job, choices, "pressed-open")->figures.width_mm, 4 * PITCH, 1e-6);
  g_assert_cmpfloat_with_epsilon (pick (job, choices, "pressed-open")->figures.thread_mm, CUT * (2 * 16.5 + 2.5) * WITH_WASTE, 1e-6);
}

/* What a row has is told by the row, not by the first seam in it, which is an exception. */
static void
test_row (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 2, PITCH, PITCH, &panel);
  OddNode *row = root_of (job, panel)->parts[0];
  const OddId row_id = row->id, seam = row->seams[0].id;
  g_autoptr(GPtrArray) choices = NULL, of_seam = NULL;

  use_finish (&job, ODD_LEVEL_SEAM, seam, "felled");
  use_finish (&job, ODD_LEVEL_STRIP, row_id, "zigzagged");
  choices = compare (job, ODD_LEVEL_STRIP, row_id, NULL);
  g_assert_true (pick (job, choices, "zigzagged")->present);
  g_assert_false (pick (job, choices, "felled")->present);
  of_seam = compare (job, ODD_LEVEL_SEAM, seam, NULL);
  g_assert_true (pick (job, of_seam, "felled")->present);
}

/* Lining is asked for by any seam that is left raw, whichever finish is tried. */
static void
test_lining (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 1, PITCH, PITCH, &panel);
  const OddNode *root = root_of (job, panel);
  const OddId seams[2] = { root->seams[0].id, root->seams[1].id };
  const double raw_mm2 = (3 * PITCH + 25.4) * CUT;
  g_autoptr(GPtrArray) one = NULL, both = NULL;
  const OddFinishChoice *french;

  use_finish (&job, ODD_LEVEL_PANEL, panel, "pressed-open");
  one = compare (job, ODD_LEVEL_SEAM, seams[0], NULL);
  french = pick (job, one, "french");
  g_assert_cmpint (french->inside, ==, ODD_EDGES_RAW);           /* the other seam */
  g_assert_cmpfloat_with_epsilon (french->lining_mm2, raw_mm2 - 2 * 3.175 * CUT, 1e-6);
  /* the first one French: a panel tried with its exception left */
  use_finish (&job, ODD_LEVEL_SEAM, seams[0], "french");
  use_finish (&job, ODD_LEVEL_SEAM, seams[1], "felled");
  both = compare (job, ODD_LEVEL_PANEL, panel, NULL);
  g_assert_cmpint (pick (job, both, "pressed-open")->inside, ==, ODD_EDGES_FELLED);
  g_assert_cmpfloat (pick (job, both, "pressed-open")->lining_mm2, ==, 0.0);
}

/* A raw join between two panels counts in the textile, not in either panel. */
static void
test_lining_of_join (void)
{
  OddId first, second, join;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &first);
  g_autoptr(GPtrArray) of_panel = NULL, of_textile = NULL;

  job = grid_add_panel (g_steal_pointer (&job), 2, 1, PITCH, PITCH, &second);
  join = odd_job_get_textile (job, first_textile (job))->joins[0].id;
  use_finish (&job, ODD_LEVEL_SEAM, join, "pressed-open");
  of_panel = compare (job, ODD_LEVEL_PANEL, first, NULL);
  of_textile = compare (job, ODD_LEVEL_TEXTILE, first_textile (job), NULL);
  g_assert_cmpfloat (pick (job, of_panel, "overlocked")->lining_mm2, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (pick (job, of_textile, "overlocked")->lining_mm2, (4 * PITCH + 25.4) * CUT, 1e-6);
}

/* 605 is no stitch that a figure is known of: its metres are told apart. */
static void
test_unknown_stitch (void)
{
  OddId panel, own = 0;
  GError *error = NULL;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  OddFinish *overlocked = odd_job_get_finish_by_key (job, "overlocked");
  OddFinish values = *overlocked;
  g_autofree OddOperation *operations = g_memdup2 (overlocked->operations, overlocked->n_operations * sizeof (OddOperation));
  g_autoptr(GPtrArray) choices = NULL;
  const OddFinishChoice *choice;

  values.id = 0;
  values.key = (char *) "own";
  values.name = (char *) "Own";
  values.operations = operations;
  operations[1].stitch = (char *) "605";
  grid_take (&job, odd_job_put_finish (job, &values, TRUE, &own, &error), error);
  choices = compare (job, ODD_LEVEL_PANEL, panel, NULL);
  choice = pick (job, choices, "own");
  g_assert_cmpfloat_with_epsilon (choice->figures.thread_mm, CUT * OPEN_TAKES, 1e-6);
  g_assert_cmpfloat_with_epsilon (choice->figures.untold_mm, CUT, 1e-6);
  g_assert_cmpfloat (pick (job, choices, "overlocked")->figures.untold_mm, ==, 0.0);
}

/* 3 x 3, overlocked, few walks: 6 stops. With the last row seam first, rows 2 and 3 are sewn, overlocked, pressed, and that seam is sewn: at that fourth stop
 * row 1 is sewn too, then overlocked and pressed, and only then its row seam can be: 3 + 3 + 3. */
static void
test_pins (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, PITCH, PITCH, &panel);
  const OddTaskKey pin = { ODD_TASK_OPERATION, root_of (job, panel)->seams[1].id, 0 };
  OddFinishReach reach = { .level = ODD_LEVEL_PANEL, .id = panel, .keep_cut = TRUE };
  g_autoptr(OddPlan) plan = odd_plan_new (job, 0, ODD_MANNER_WALKS, &pin, 1, NULL);
  GError *error = NULL;
  g_autoptr(GPtrArray) freely = odd_job_compare_finishes (job, &reach, NULL, NULL, NULL, NULL, &error), pinned = NULL;

  g_assert_cmpuint (pick (job, freely, "overlocked")->figures.stops, ==, 6);
  reach.pins = &pin;
  reach.n_pins = 1;
  pinned = odd_job_compare_finishes (job, &reach, NULL, NULL, NULL, NULL, &error);
  g_assert_cmpuint (pick (job, pinned, "overlocked")->figures.stops, ==, 9);
  g_assert_cmpuint (plan->n_walks, ==, 9);
}

/* Cancelled at any of the steps it tells of, it begins no further one. */
typedef struct { GCancellable *cancellable; guint told, stop_at; } Stopper;

static void
stop_cb (double   done,
         gpointer data)
{
  Stopper *stopper = data;

  if (++stopper->told == stopper->stop_at)
    g_cancellable_cancel (stopper->cancellable);
}

static void
test_cancelled_within (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  const OddFinishReach reach = { .level = ODD_LEVEL_PANEL, .id = panel, .keep_cut = TRUE };

  /* three for the job as it is, five for each finish */
  for (guint at = 1; at <= 3 + 5 * job->finishes->len; at++)
    {
      g_autoptr(GCancellable) cancellable = g_cancellable_new ();
      g_autoptr(GError) error = NULL;
      Stopper stopper = { cancellable, 0, at };

      g_assert_null (odd_job_compare_finishes (job, &reach, NULL, stop_cb, &stopper, cancellable, &error));
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
      g_assert_cmpuint (stopper.told, ==, at);
    }
}

static void
lay (OddJob **job,
     OddId    leaf,
     double   at_mm,
     double   size_mm)
{
  g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { at_mm - 12.7, -12.7, size_mm, CUT }, (int[4]) { 0, 1, 2, 3 });
  g_autoptr(OddPolygon) outline = odd_polygon_new_from_convex (box);
  const OddPlacement at = ODD_PLACEMENT_IDENTITY;
  OddScrap values;
  OddId id = 0;
  GError *error = NULL;

  odd_scrap_init_values (&values);
  values.outline = outline;
  grid_take (job, odd_job_put_scrap (*job, &values, &id, &error), error);
  grid_take (job, odd_job_place_scrap (*job, leaf, id, &at, &error), error);
}

/* Scrap 1 is too short already, scrap 2 holds just what is cut now: at the same size, only 2 is made a misfit by wider allowances. */
static void
test_misfit_before (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  const OddId leaves[2] = { root_of (job, panel)->parts[0]->id, root_of (job, panel)->parts[1]->id };
  const OddFinishReach reach = { .level = ODD_LEVEL_PANEL, .id = panel, .keep_cut = FALSE };
  GError *error = NULL;
  g_autoptr(GPtrArray) choices = NULL, before = NULL;
  const OddFinishChoice *french;

  lay (&job, leaves[0], 0.0, CUT - 10.0);
  lay (&job, leaves[1], PITCH, CUT);
  before = odd_job_check (job, NULL);
  g_assert_cmpuint (before->len, ==, 1);
  choices = odd_job_compare_finishes (job, &reach, NULL, NULL, NULL, NULL, &error);
  french = pick (job, choices, "french");
  g_assert_cmpuint (french->misfits->len, ==, 1);
  g_assert_cmpuint (g_array_index (french->misfits, guint, 0), ==, 2);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sewing/finish-reach/two-textiles", test_two_textiles);
  g_test_add_func ("/sewing/finish-reach/loose-panel", test_loose_panel);
  g_test_add_func ("/sewing/finish-reach/only-loose", test_only_loose);
  g_test_add_func ("/sewing/finish-reach/join", test_join);
  g_test_add_func ("/sewing/finish-reach/row", test_row);
  g_test_add_func ("/sewing/finish-reach/lining", test_lining);
  g_test_add_func ("/sewing/finish-reach/lining-of-join", test_lining_of_join);
  g_test_add_func ("/sewing/finish-reach/unknown-stitch", test_unknown_stitch);
  g_test_add_func ("/sewing/finish-reach/pins", test_pins);
  g_test_add_func ("/sewing/finish-reach/cancelled-within", test_cancelled_within);
  g_test_add_func ("/sewing/finish-reach/misfit-before", test_misfit_before);
  return g_test_run ();
}
