/* The finishes beside each other, against figures worked out by hand. Squares are cut 120 mm; at 12.7 mm they lie 94.6 mm apart. */
#include "config.h"

#include "sewing/finish-choice.h"
#include "tests/grid.h"

#define CUT 120.0
#define PITCH 94.6

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
compare (OddJob               *job,
         const OddFinishReach *reach,
         OddChoiceFigures     *now)
{
  GError *error = NULL;
  GPtrArray *choices = odd_job_compare_finishes (job, reach, now, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (choices->len, ==, job->finishes->len);
  return choices;
}

static OddFinishReach
whole_textile (OddJob *job)
{
  return (OddFinishReach) { .level = ODD_LEVEL_TEXTILE, .id = ((OddTextile *) job->textiles->pdata[0])->id, .keep_cut = TRUE };
}

static void
test_kinds (void)
{
  static const struct { const char *key; OddEdges edges; gboolean both; OddGoodFor good_for; } rows[] = {
    { "pressed-open", ODD_EDGES_RAW, FALSE, ODD_GOOD_FOR_LINED },
    { "zigzagged", ODD_EDGES_NEATENED, FALSE, ODD_GOOD_FOR_GARMENTS },
    { "overlocked", ODD_EDGES_NEATENED, FALSE, ODD_GOOD_FOR_GARMENTS },
    { "overlocked-topstitched", ODD_EDGES_NEATENED, FALSE, ODD_GOOD_FOR_GARMENTS },
    { "french", ODD_EDGES_ENCLOSED, TRUE, ODD_GOOD_FOR_SHEER | ODD_GOOD_FOR_GARMENTS },
    { "felled", ODD_EDGES_FELLED, TRUE, ODD_GOOD_FOR_GARMENTS },
    { "bound", ODD_EDGES_BOUND, TRUE, ODD_GOOD_FOR_GARMENTS },
  };
  g_autoptr(OddJob) job = odd_job_new ();

  g_assert_cmpuint (job->finishes->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      OddFinish *finish = odd_job_get_finish_by_key (job, rows[i].key);
      const char *why = NULL;

      g_test_message ("%s", rows[i].key);
      g_assert_cmpint (odd_finish_get_edges (finish), ==, rows[i].edges);
      g_assert_cmpint (odd_edges_fit_to_be_seen (rows[i].edges), ==, rows[i].both);
      g_assert_cmpint (odd_finish_get_good_for (finish, &why), ==, rows[i].good_for);
      g_assert_nonnull (why);
    }
}

/* One seam, 120 mm raw. Coats: 301 takes 2.5 m a metre; 504: 14.0; 15 % more. */
static void
test_one_seam (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  const OddFinishReach reach = whole_textile (job);
  OddChoiceFigures now;
  g_autoptr(GPtrArray) choices = compare (job, &reach, &now);
  const OddFinishChoice *open = pick (job, choices, "pressed-open"), *overlocked = pick (job, choices, "overlocked"), *french = pick (job, choices, "french");

  g_assert_true (overlocked->present && !open->present && !french->present);
  g_assert_cmpfloat_with_epsilon (now.width_mm, 2 * PITCH, 1e-6);
  g_assert_cmpfloat_with_epsilon (open->figures.thread_mm, CUT * 2.5 * 1.15, 1e-6);
  g_assert_cmpfloat_with_epsilon (overlocked->figures.thread_mm, CUT * (2.5 + 14.0) * 1.15, 1e-6);
  g_assert_cmpfloat_with_epsilon (french->figures.thread_mm, CUT * 2 * 2.5 * 1.15, 1e-6);
  /* sew, press; sew, overlock, press; sew, trim, press, sew, press */
  g_assert_cmpuint (open->figures.stops, ==, 2);
  g_assert_cmpuint (overlocked->figures.stops, ==, 3);
  g_assert_cmpuint (french->figures.stops, ==, 5);
  g_assert_cmpuint (french->figures.rounds, ==, 1);
  g_assert_cmpfloat (open->figures.time_s.low, >, 0.0);
  g_assert_cmpfloat (open->figures.time_s.high, >=, open->figures.time_s.low);
  g_assert_cmpfloat (french->figures.time_s.low, >, open->figures.time_s.low);
  /* two squares of 120 less two edges of 12.7 that overlap */
  g_assert_cmpfloat_with_epsilon (open->lining_mm2, (2 * CUT - 2 * 12.7) * CUT, 1e-6);
  g_assert_cmpfloat (french->lining_mm2, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (french->width_lost_mm, 2 * PITCH - 2 * (CUT - 2 * 15.875), 1e-6);
}

/* 3 x 3 squares, 12.7 to 15.875 at every edge: six edges of 3.175 mm in each direction, 283.8 to 264.75. The layers are those of the same seams everywhere. */
static void
test_nine_squares (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, PITCH, PITCH, &panel);
  OddFinishReach reach = whole_textile (job);
  g_autoptr(GPtrArray) choices = compare (job, &reach, NULL);
  const OddFinishChoice *french = pick (job, choices, "french");
  g_autoptr(GPtrArray) kept = NULL;

  g_assert_cmpfloat_with_epsilon (french->width_lost_mm, 19.05, 1e-6);
  g_assert_cmpfloat_with_epsilon (french->length_lost_mm, 19.05, 1e-6);
  g_assert_cmpuint (french->figures.bulk.n, ==, 4);
  g_assert_cmpuint (french->figures.bulk.most, ==, 5 + 2 * 5 + 2 * 5);
  g_assert_cmpuint (pick (job, choices, "pressed-open")->figures.bulk.most, ==, 4);
  g_assert_cmpuint (pick (job, choices, "overlocked")->figures.bulk.most, ==, 9);
  g_assert_cmpfloat (pick (job, choices, "overlocked")->width_lost_mm, ==, 0.0);
  reach.keep_cut = FALSE;
  kept = compare (job, &reach, NULL);
  g_assert_cmpfloat_with_epsilon (pick (job, kept, "french")->width_lost_mm, 0.0, 1e-6);
}

static void
lay_square (OddJob **job,
            OddId    leaf,
            double   at_mm)
{
  g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { at_mm - 12.7, -12.7, CUT, CUT }, (int[4]) { 0, 1, 2, 3 });
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

/* Scraps that hold exactly what is cut: wider allowances at the same size need more than there is, at the same cut they do not. */
static void
test_misfits (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  OddFinishReach reach = whole_textile (job);
  OddNode *root = odd_job_get_panel (job, panel, NULL, NULL)->root;
  const OddId leaves[2] = { root->parts[0]->id, root->parts[1]->id };
  g_autoptr(GPtrArray) cut = NULL, size = NULL;
  const OddFinishChoice *french;

  lay_square (&job, leaves[0], 0.0);
  lay_square (&job, leaves[1], PITCH);
  cut = compare (job, &reach, NULL);
  g_assert_cmpuint (pick (job, cut, "french")->broken->len, ==, 0);
  reach.keep_cut = FALSE;
  size = compare (job, &reach, NULL);
  french = pick (job, size, "french");
  g_assert_cmpuint (french->broken->len, ==, 2);
  g_assert_cmpuint (french->misfits->len, ==, 2);
  g_assert_cmpuint (g_array_index (french->misfits, guint, 0), ==, 1);
  g_assert_cmpuint (g_array_index (french->misfits, guint, 1), ==, 2);
  g_assert_cmpuint (pick (job, size, "pressed-open")->broken->len, ==, 0);
}

/* Of one seam alone: it is refused once that is sewn, in a sentence; a textile keeps what is sewn as it was sewn. */
static void
test_refused (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  const OddId seam = odd_job_get_panel (job, panel, NULL, NULL)->root->seams[0].id;
  const OddFinishReach reach = { .level = ODD_LEVEL_SEAM, .id = seam, .keep_cut = TRUE };
  const OddTaskKey sew = { ODD_TASK_OPERATION, seam, 0 };
  GError *error = NULL;
  g_autoptr(GPtrArray) choices = NULL;

  grid_take (&job, odd_job_do_task (job, &sew, FALSE, &error), error);
  choices = compare (job, &reach, NULL);
  for (guint i = 0; i < choices->len; i++)
    {
      const OddFinishChoice *choice = choices->pdata[i];

      g_assert_true (choice->present == (choice->job != NULL));
      g_assert_true (choice->present || strlen (choice->refusal) > 10);
    }
}

/* A seam with a finish of its own stays as it is, or follows. */
static void
test_within (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 1, PITCH, PITCH, &panel);
  const OddId seam = odd_job_get_panel (job, panel, NULL, NULL)->root->seams[1].id;
  const OddTreatment own = { odd_job_get_finish_by_key (job, "felled")->id, NAN };
  const OddId french = odd_job_get_finish_by_key (job, "french")->id;
  OddFinishReach reach = { .level = ODD_LEVEL_PANEL, .id = panel, .keep_cut = TRUE };
  GError *error = NULL;
  g_autoptr(OddJob) stays = NULL, follows = NULL;
  g_autoptr(OddLayout) layout = NULL;

  grid_take (&job, odd_job_set_treatment (job, ODD_LEVEL_SEAM, seam, 0, &own, TRUE, &error), error);
  stays = odd_job_choose_finish (job, &reach, french, &error);
  layout = odd_job_dup_layout (stays, panel);
  g_assert_cmpstr (layout->seams[0].finish->key, ==, "french");
  g_assert_cmpstr (layout->seams[1].finish->key, ==, "felled");
  reach.all_within = TRUE;
  follows = odd_job_choose_finish (job, &reach, french, &error);
  g_clear_pointer (&layout, odd_layout_unref);
  layout = odd_job_dup_layout (follows, panel);
  g_assert_cmpstr (layout->seams[1].finish->key, ==, "french");
}

static void
count_cb (double   done,
          gpointer data)
{
  g_assert_cmpfloat (done, >, *(double *) data);
  g_assert_cmpfloat (done, <, 1.0);
  *(double *) data = done;
}

static void
test_cancel (void)
{
  OddId panel;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 1, PITCH, PITCH, &panel);
  const OddFinishReach reach = whole_textile (job);
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();
  g_autoptr(GError) error = NULL;
  double done = 0.0;
  g_autoptr(GPtrArray) choices = odd_job_compare_finishes (job, &reach, NULL, count_cb, &done, cancellable, &error);

  g_assert_nonnull (choices);
  g_assert_cmpfloat (done, >, 0.5);
  g_cancellable_cancel (cancellable);
  g_assert_null (odd_job_compare_finishes (job, &reach, NULL, NULL, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sewing/finish-choice/kinds", test_kinds);
  g_test_add_func ("/sewing/finish-choice/one-seam", test_one_seam);
  g_test_add_func ("/sewing/finish-choice/nine-squares", test_nine_squares);
  g_test_add_func ("/sewing/finish-choice/misfits", test_misfits);
  g_test_add_func ("/sewing/finish-choice/refused", test_refused);
  g_test_add_func ("/sewing/finish-choice/within", test_within);
  g_test_add_func ("/sewing/finish-choice/cancel", test_cancel);
  return g_test_run ();
}
