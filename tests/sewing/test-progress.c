#include "config.h"

#include "sewing/progress.h"
#include "sewing/stage.h"
#include "tests/grid.h"

#include <string.h>

/* Squares cut 120 at 12.7, as common practice (no source) has it: 94.6 finished. */
#define PITCH 94.6

static OddId
textile_id (OddJob *job)
{
  return ((OddTextile *) job->textiles->pdata[0])->id;
}

/* The seam number @index of the top strip (rows), or of one row. */
static OddId
row_seam (OddJob *job,
          OddId   panel_id,
          guint   index)
{
  return odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[index].id;
}

static OddId
square_seam (OddJob *job,
             OddId   panel_id,
             guint   row,
             guint   index)
{
  return odd_job_get_panel (job, panel_id, NULL, NULL)->root->parts[row]->seams[index].id;
}

static OddId
join (OddJob *job)
{
  return ((OddTextile *) job->textiles->pdata[0])->joins[0].id;
}

static void
mark (OddJob **job,
      OddId    seam_id,
      guint    times)
{
  for (guint i = 0; i < times; i++)
    {
      GError *error = NULL;

      grid_take (job, odd_job_mark_next (*job, seam_id, TRUE, &error), error);
    }
}

static void
use_finish (OddJob    **job,
            const char *key)
{
  const OddTreatment treatment = { odd_job_get_finish_by_key (*job, key)->id, NAN };
  GError *error = NULL;

  grid_take (job, odd_job_set_treatment (*job, ODD_LEVEL_JOB, 0, 0, &treatment, FALSE, &error), error);
}

static OddJob *
two_panels (OddId ids[2])
{
  OddJob *job = odd_job_new ();

  job = grid_add_panel (job, 2, 2, PITCH, PITCH, &ids[0]);
  return grid_add_panel (job, 2, 2, PITCH, PITCH, &ids[1]);
}

/* By hand: four seams between squares, raw 120 each; two between rows, raw 2 x 94.6 + 25.4 = 214.6; one join of the same length. */
static void
test_counts (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  OddWorkCount count = odd_job_count_work (job, 0);

  g_assert_cmpuint (count.n_seams, ==, 7);
  g_assert_cmpuint (count.n[ODD_WORK_SEW], ==, 7);
  g_assert_cmpfloat_with_epsilon (count.run_mm[ODD_WORK_SEW], 4 * 120 + 3 * 214.6, 1e-6);
  g_assert_cmpuint (count.operations_open[ODD_STATION_SEWING_MACHINE], ==, 7);
  g_assert_cmpuint (count.operations_open[ODD_STATION_OVERLOCKER], ==, 7);
  g_assert_cmpuint (count.operations_open[ODD_STATION_IRON], ==, 7);

  mark (&job, square_seam (job, ids[0], 0, 0), 3);
  mark (&job, square_seam (job, ids[0], 1, 0), 2);
  mark (&job, square_seam (job, ids[1], 0, 0), 1);
  count = odd_job_count_work (job, textile_id (job));
  g_assert_cmpuint (count.n_done, ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_SEW], ==, 4);
  g_assert_cmpuint (count.n[ODD_WORK_FINISH], ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_PRESS], ==, 1);
  g_assert_cmpuint (count.n_raw_inside, ==, 0);
  g_assert_cmpfloat_with_epsilon (count.run_mm[ODD_WORK_PRESS], 120, 1e-6);
}

static void
test_loose_panels_count (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, ids[0]);
  GError *error = NULL;

  grid_take (&job, odd_job_move_panel (job, ids[1], 0, G_MAXUINT, &error), error);
  g_assert_cmpuint (odd_job_count_work (job, 0).n_seams, ==, 6);
  g_assert_cmpuint (odd_job_count_work (job, textile_id (job)).n_seams, ==, 3);
  g_assert_cmpuint (odd_layout_count_work (layout).n_seams, ==, 3);
}

static gboolean
holds (GArray *ids,
       OddId   id)
{
  for (guint i = 0; i < ids->len; i++)
    if (g_array_index (ids, guint, i) == id)
      return TRUE;
  return FALSE;
}

static void
test_asks_before_enclosing (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  const OddId rows = row_seam (job, ids[0], 0);
  const OddId above = square_seam (job, ids[0], 0, 0);
  const OddId below = square_seam (job, ids[0], 1, 0);
  g_autoptr(GArray) enclosed = odd_job_would_enclose (job, rows);
  g_autoptr(GError) error = NULL;

  g_assert_cmpuint (enclosed->len, ==, 2);
  g_assert_true (holds (enclosed, above) && holds (enclosed, below));
  mark (&job, above, 3);
  mark (&job, below, 2);
  g_assert_null (odd_job_mark_next (job, rows, FALSE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "1, 2 to 3, 4"));
  g_assert_nonnull (strstr (error->message, "(3 to 4)"));

  mark (&job, rows, 1);
  g_assert_false (odd_job_seam_is_raw_inside (job, above));
  g_assert_true (odd_job_seam_is_raw_inside (job, below));
  g_assert_cmpuint (odd_job_count_work (job, 0).n_raw_inside, ==, 1);
  mark (&job, below, 1);
  g_assert_false (odd_job_seam_is_raw_inside (job, below));
  g_assert_cmpuint (odd_job_count_work (job, 0).n_raw_inside, ==, 0);
}

/* The join locks in the seams between rows, of both panels, and no others. */
static void
test_join_encloses (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  g_autoptr(GArray) enclosed = odd_job_would_enclose (job, join (job));
  g_autoptr(GError) error = NULL;

  g_assert_cmpuint (enclosed->len, ==, 2);
  g_assert_true (holds (enclosed, row_seam (job, ids[0], 0)));
  g_assert_true (holds (enclosed, row_seam (job, ids[1], 0)));
  g_assert_null (odd_job_mark_next (job, join (job), FALSE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  mark (&job, join (job), 1);
  g_assert_true (odd_job_seam_is_raw_inside (job, row_seam (job, ids[0], 0)));
  g_assert_true (odd_job_seam_is_raw_inside (job, row_seam (job, ids[1], 0)));
  g_assert_false (odd_job_seam_is_raw_inside (job, square_seam (job, ids[0], 0, 0)));
  g_assert_false (odd_job_seam_is_raw_inside (job, join (job)));
}

static void
mark_panel (OddJob **job,
            OddId    panel_id,
            OddWork  work,
            guint    marked,
            guint    left)
{
  GError *error = NULL;
  guint n_marked = 99, n_left = 99;

  grid_take (job, odd_job_mark_panel (*job, panel_id, work, &n_marked, &n_left, &error), error);
  g_assert_cmpuint (n_marked, ==, marked);
  g_assert_cmpuint (n_left, ==, left);
}

static void
test_panel_inner_seams_first (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  g_autoptr(GError) error = NULL;
  guint marked = 99;

  mark_panel (&job, ids[0], ODD_WORK_SEW, 2, 1);
  g_assert_null (odd_job_mark_panel (job, ids[0], ODD_WORK_SEW, &marked, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_cmpuint (marked, ==, 99);
  mark_panel (&job, ids[0], ODD_WORK_FINISH, 2, 0);
  mark_panel (&job, ids[0], ODD_WORK_PRESS, 2, 0);
  mark_panel (&job, ids[0], ODD_WORK_SEW, 1, 0);
  mark_panel (&job, ids[0], ODD_WORK_FINISH, 1, 0);
  mark_panel (&job, ids[0], ODD_WORK_PRESS, 1, 0);
  g_assert_cmpuint (odd_job_count_work (job, 0).n_done, ==, 3);
  g_assert_cmpuint (odd_job_count_work (job, 0).n_raw_inside, ==, 0);

  g_clear_error (&error);
  g_assert_null (odd_job_mark_panel (job, ids[0], ODD_WORK_TOPSTITCH, NULL, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_job_mark_panel (job, 9999, ODD_WORK_SEW, NULL, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND);
}

/* A seam that needs nothing but its stitching is ready at once: one call sews squares, then rows. */
static void
test_panel_in_one_go (void)
{
  OddOperation operations[] = {
    { ODD_OPERATION_SEW, ODD_STATION_SEWING_MACHINE, NULL, ODD_FACE_RIGHT_SIDES, FALSE, 0, (char *) "Sew" },
  };
  const OddFinish values = { .key = (char *) "bare", .name = (char *) "Bare", .allowance_mm = 12.7, .width_kept_mm = 12.7,
                             .operations = operations, .n_operations = 1 };
  OddId panel_id, finish_id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, PITCH, PITCH, &panel_id);
  GError *error = NULL;

  grid_take (&job, odd_job_put_finish (job, &values, TRUE, &finish_id, &error), error);
  use_finish (&job, "bare");
  mark_panel (&job, panel_id, ODD_WORK_SEW, 8, 0);
  g_assert_cmpuint (odd_job_count_work (job, 0).n_done, ==, 8);
}

/* First pass, trim, press: what is left of a French seam is finishing, and it may not be crossed. */
static void
test_french_second_pass (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  g_autoptr(OddJob) tried = NULL;
  OddWorkCount count;

  use_finish (&job, "french");
  mark (&job, square_seam (job, ids[0], 0, 0), 3);
  count = odd_job_count_work (job, 0);
  g_assert_cmpuint (count.n[ODD_WORK_FINISH], ==, 1);
  g_assert_cmpuint (count.n[ODD_WORK_PRESS], ==, 0);
  mark (&job, square_seam (job, ids[0], 1, 0), 5);
  tried = odd_job_mark_next (job, row_seam (job, ids[0], 0), FALSE, NULL);
  g_assert_null (tried);
  mark (&job, square_seam (job, ids[0], 0, 0), 2);
  tried = odd_job_mark_next (job, row_seam (job, ids[0], 0), FALSE, NULL);
  g_assert_nonnull (tried);
}

/* Topstitching may wait until the seam has been crossed. */
static void
test_topstitch_may_wait (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);

  use_finish (&job, "overlocked-topstitched");
  mark (&job, square_seam (job, ids[0], 0, 0), 3);
  mark (&job, square_seam (job, ids[0], 1, 0), 3);
  mark (&job, row_seam (job, ids[0], 0), 1);
  g_assert_cmpuint (odd_job_count_work (job, 0).n_raw_inside, ==, 0);
  g_assert_cmpuint (odd_job_count_work (job, 0).n[ODD_WORK_TOPSTITCH], ==, 2);
}

static void
test_unmark_and_skip (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  const OddId seam_id = square_seam (job, ids[0], 0, 0);
  g_autoptr(GError) error = NULL;
  GError *taken = NULL;

  g_assert_null (odd_job_unmark_last (job, seam_id, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_job_skip_next (job, seam_id, "no time", &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);

  mark (&job, seam_id, 1);
  grid_take (&job, odd_job_skip_next (job, seam_id, "selvedge", &taken), taken);
  g_assert_cmpuint (odd_job_count_work (job, 0).n[ODD_WORK_PRESS], ==, 1);
  mark (&job, seam_id, 1);
  g_assert_null (odd_job_mark_next (job, seam_id, TRUE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);

  for (guint i = 0; i < 3; i++)
    grid_take (&job, odd_job_unmark_last (job, seam_id, &taken), taken);
  g_assert_cmpuint (odd_job_count_work (job, 0).n[ODD_WORK_SEW], ==, 7);
  g_assert_null (odd_job_mark_next (job, 9999, TRUE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND);
}

static void
assert_name (OddJob     *job,
             OddId       seam_id,
             const char *expected)
{
  g_autofree char *name = odd_job_dup_seam_name (job, seam_id);

  g_assert_cmpstr (name, ==, expected);
}

static void
test_names (void)
{
  OddId ids[2], wide;
  g_autoptr(OddJob) job = two_panels (ids);
  g_autoptr(OddJob) wide_job = grid_add_panel (odd_job_new (), 12, 3, PITCH, PITCH, &wide);

  assert_name (job, square_seam (job, ids[0], 0, 0), "1 to 2");
  assert_name (job, row_seam (job, ids[0], 0), "1, 2 to 3, 4");
  assert_name (job, join (job), "Panel 1 to Panel 2");
  /* only the patches that lie on the seam */
  assert_name (wide_job, row_seam (wide_job, wide, 1), "13–24 to 25–36");
  assert_name (job, 9999, "");
}

static void
assert_advice (OddJob     *job,
               OddId       seam_id,
               const char *says)
{
  g_autofree char *advice = odd_job_seam_advice (job, seam_id);

  if (says == NULL)
    g_assert_null (advice);
  else
    g_assert_nonnull (advice != NULL ? strstr (advice, says) : NULL);
}

static void
test_advice (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = two_panels (ids);
  const OddId above = square_seam (job, ids[0], 0, 0);
  const OddId rows = row_seam (job, ids[0], 0);

  assert_advice (job, above, NULL);
  assert_advice (job, rows, "1 to 2; 3 to 4");
  mark (&job, above, 1);
  assert_advice (job, above, "Overlock both edges together before");
  mark (&job, above, 1);
  assert_advice (job, above, "Press the seam to one side before");
  mark (&job, above, 1);
  assert_advice (job, above, NULL);
  assert_advice (job, rows, "3 to 4 first");
  mark (&job, rows, 1);
  assert_advice (job, square_seam (job, ids[0], 1, 0), "sewn over");
}

static GArray *
all_seams (OddJob *job)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));
  OddTextile *textile = job->textiles->pdata[0];

  for (guint p = 0; p < textile->n_hung; p++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, textile->hung[p].panel->id);

      for (guint i = 0; i < layout->n_seams; i++)
        g_array_append_val (ids, layout->seams[i].seam->id);
    }
  for (guint i = 0; i + 1 < textile->n_hung; i++)
    g_array_append_val (ids, textile->joins[i].id);
  return ids;
}

/* Law: whoever heeds every refusal never has a raw edge inside, is never stuck, and comes to an end. */
static void
test_heeding_is_safe (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 4, PITCH, PITCH, &ids[0]);
  g_autoptr(GArray) seams = NULL;
  guint stuck = 0;

  job = grid_add_panel (job, 2, 4, PITCH, PITCH, &ids[1]);
  use_finish (&job, g_test_rand_bit () ? "felled" : "french");
  seams = all_seams (job);
  g_assert_cmpuint (seams->len, ==, 4 * 2 + 3 + 4 * 1 + 3 + 1);
  while (odd_job_count_work (job, 0).n_done < seams->len)
    {
      const OddId seam_id = g_array_index (seams, OddId, g_test_rand_int_range (0, seams->len));
      OddJob *after = odd_job_mark_next (job, seam_id, FALSE, NULL);

      stuck = after != NULL ? 0 : stuck + 1;
      g_assert_cmpuint (stuck, <, 10000);
      if (after == NULL)
        continue;
      odd_job_unref (job);
      job = after;
      g_assert_cmpuint (odd_job_count_work (job, 0).n_raw_inside, ==, 0);
    }
}

/* Law: a seam is raw inside exactly when a seam that is sewn is said to enclose it. */
static void
test_raw_inside_by_definition (void)
{
  OddId ids[2];
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, PITCH, PITCH, &ids[0]);
  g_autoptr(GArray) seams = NULL;

  job = grid_add_panel (job, 1, 3, PITCH, PITCH, &ids[1]);
  seams = all_seams (job);
  for (guint step = 0; step < 25; step++)
    {
      OddJob *after = odd_job_mark_next (job, g_array_index (seams, OddId, g_test_rand_int_range (0, seams->len)), TRUE, NULL);
      g_autoptr(GHashTable) expected = g_hash_table_new (NULL, NULL);

      if (after == NULL)
        continue;
      odd_job_unref (job);
      job = after;
      for (guint i = 0; i < seams->len; i++)
        {
          const OddId over = g_array_index (seams, OddId, i);
          g_autoptr(GArray) enclosed = odd_job_would_enclose (job, over);
          g_autoptr(OddJob) unsewn = odd_job_unmark_last (job, over, NULL);

          /* overlocked: any mark means that it is sewn */
          for (guint k = 0; unsewn != NULL && k < enclosed->len; k++)
            g_hash_table_add (expected, GUINT_TO_POINTER (g_array_index (enclosed, guint, k)));
        }
      for (guint i = 0; i < seams->len; i++)
        g_assert_cmpint (odd_job_seam_is_raw_inside (job, g_array_index (seams, OddId, i)), ==,
                         g_hash_table_contains (expected, GUINT_TO_POINTER (g_array_index (seams, OddId, i))));
      g_assert_cmpuint (odd_job_count_work (job, 0).n_raw_inside, ==, g_hash_table_size (expected));
    }
}

/* A panel of one lower row beside it trims all but that away: there nothing ends on anything, so nothing is raw inside. */
static void
test_trimmed_away (void)
{
  OddId panel_id, short_id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 3, PITCH, PITCH, &panel_id);
  g_autofree char *name = NULL;

  grid_take (&job, odd_job_mark_next (job, row_seam (job, panel_id, 1), TRUE, NULL), NULL);
  g_assert_cmpuint (odd_job_count_work (job, textile_id (job)).n_raw_inside, ==, 2);
  grid_take (&job, odd_job_mark_next (job, row_seam (job, panel_id, 0), TRUE, NULL), NULL);
  g_assert_cmpuint (odd_job_count_work (job, textile_id (job)).n_raw_inside, ==, 3);
  job = grid_add_panel (g_steal_pointer (&job), 2, 1, PITCH, PITCH - 20.0, &short_id);
  g_assert_cmpuint (odd_job_count_work (job, textile_id (job)).n_raw_inside, ==, 0);
  g_test_message ("what is trimmed away still has its name");
  name = odd_job_dup_seam_name (job, square_seam (job, panel_id, 2, 0));
  g_assert_cmpstr (name, ==, "5 to 6");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/progress/counts", test_counts);
  g_test_add_func ("/progress/loose-panels-count", test_loose_panels_count);
  g_test_add_func ("/progress/asks-before-enclosing", test_asks_before_enclosing);
  g_test_add_func ("/progress/join-encloses", test_join_encloses);
  g_test_add_func ("/progress/panel-inner-seams-first", test_panel_inner_seams_first);
  g_test_add_func ("/progress/panel-in-one-go", test_panel_in_one_go);
  g_test_add_func ("/progress/french-second-pass", test_french_second_pass);
  g_test_add_func ("/progress/topstitch-may-wait", test_topstitch_may_wait);
  g_test_add_func ("/progress/unmark-and-skip", test_unmark_and_skip);
  g_test_add_func ("/progress/names", test_names);
  g_test_add_func ("/progress/advice", test_advice);
  g_test_add_func ("/progress/heeding-is-safe", test_heeding_is_safe);
  g_test_add_func ("/progress/raw-inside-by-definition", test_raw_inside_by_definition);
  g_test_add_func ("/progress/trimmed-away", test_trimmed_away);
  return g_test_run ();
}
