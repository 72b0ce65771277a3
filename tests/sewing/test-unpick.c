#include "config.h"

#include <string.h>
#include "sewing/act.h"
#include "sewing/life.h"
#include "sewing/progress.h"
#include "sewing/unpick.h"
#include "../cloth/trees.h"

/* Everything of a panel done, as far as nothing would be enclosed. */
static void
finish_panel (OddJob **job, OddId panel_id)
{
  for (guint round = 0; round < 8; round++)
    for (OddWork work = ODD_WORK_SEW; work < ODD_WORK_NONE; work++)
      {
        OddJob *next = odd_job_mark_panel (*job, panel_id, work, NULL, NULL, NULL);

        if (next != NULL)
          take (job, next);
      }
}

static void
mark_all (OddJob **job, OddId seam_id)
{
  OddJob *next;

  while ((next = odd_job_mark_next (*job, seam_id, TRUE, NULL)) != NULL)
    take (job, next);
}

/* Vertical seam @n of row @row, of rows sewn first. */
static OddId
in_row (OddJob *job, OddId panel_id, guint row, guint n)
{
  return odd_job_get_panel (job, panel_id, NULL, NULL)->root->parts[row]->seams[n].id;
}

static OddId
between_rows (OddJob *job, OddId panel_id, guint n)
{
  return odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[n].id;
}

static const OddSeam *
find_seam (OddJob *job, OddId panel_id, OddId seam_id)
{
  guint index = 0;
  OddNode *strip = odd_node_find_seam (odd_job_get_panel (job, panel_id, NULL, NULL)->root, seam_id, &index);

  return &strip->seams[index];
}

static void
test_crossing (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, first_textile (empty)->id, 3, 3, 80, &panel_id);
  g_autoptr(OddUnpicking) inner = NULL;
  g_autoptr(OddUnpicking) outer = NULL;
  g_autoptr(OddJob) after = NULL;
  g_autoptr(GError) error = NULL;
  OddId first, second, upright;

  g_test_summary ("A seam in the middle row of nine squares takes both seams across its ends with it: (80 + 2 x 240 + 3 x 25.4) x 2 rows = 1.27 m");
  finish_panel (&job, panel_id);
  first = between_rows (job, panel_id, 0);
  second = between_rows (job, panel_id, 1);
  upright = in_row (job, panel_id, 1, 0);
  inner = odd_job_plan_unpicking (job, upright, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (inner->seams->len, ==, 3);
  g_assert_cmpuint (g_array_index (inner->seams, OddId, 2), ==, upright);
  g_assert_cmpuint (g_array_index (inner->seams, OddId, 0) + g_array_index (inner->seams, OddId, 1), ==, first + second);
  g_assert_cmpfloat_with_epsilon (inner->stitching_mm, 2.0 * (80.0 + 2.0 * 240.0 + 3.0 * 25.4), 1e-6);

  outer = odd_job_plan_unpicking (job, first, &error);
  g_assert_cmpuint (outer->seams->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (outer->stitching_mm, 2.0 * 265.4, 1e-6);

  take (&job, odd_job_set_end_secured (job, first, 1, TRUE, NULL));
  after = odd_job_unpick (job, upright, 0.0, &error);
  g_assert_no_error (error);
  g_assert_false (odd_seam_is_touched (find_seam (after, panel_id, upright)));
  g_assert_false (odd_seam_is_touched (find_seam (after, panel_id, first)));
  g_assert_false (odd_seam_is_touched (find_seam (after, panel_id, second)));
  g_assert_false (find_seam (after, panel_id, first)->end_secured[1]);
  g_assert_true (odd_seam_is_touched (find_seam (after, panel_id, in_row (after, panel_id, 1, 1))));
  g_assert_true (odd_seam_is_touched (find_seam (after, panel_id, in_row (after, panel_id, 0, 0))));
}

static void
test_join (void)
{
  OddId left = 0, right = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) half = add_squares (empty, first_textile (empty)->id, 2, 2, 80, &left);
  g_autoptr(OddJob) job = add_squares (half, first_textile (half)->id, 2, 2, 80, &right);
  const OddId join = first_textile (job)->joins[0].id;
  g_autoptr(OddUnpicking) plan = NULL;
  g_autoptr(OddJob) after = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("A join over the end of the seam between two rows is opened first, and the row's seam after that");
  finish_panel (&job, left);
  finish_panel (&job, right);
  plan = odd_job_plan_unpicking (job, in_row (job, left, 0, 0), &error);
  g_assert_cmpuint (plan->seams->len, ==, 2);
  g_clear_pointer (&plan, odd_unpicking_free);

  mark_all (&job, join);
  plan = odd_job_plan_unpicking (job, in_row (job, left, 0, 0), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (plan->seams->len, ==, 3);
  g_assert_cmpuint (g_array_index (plan->seams, OddId, 0), ==, join);
  g_assert_cmpuint (g_array_index (plan->seams, OddId, 1), ==, between_rows (job, left, 0));
  after = odd_job_unpick (job, in_row (job, left, 0, 0), 0.0, &error);
  g_assert_no_error (error);
  g_assert_false (odd_seam_is_touched (&first_textile (after)->joins[0]));
  g_assert_true (odd_seam_is_touched (find_seam (after, right, between_rows (after, right, 0))));
}

static void
test_rows_of_stitching (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, first_textile (empty)->id, 2, 1, 80, &panel_id);
  const OddId seam = odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[0].id;
  const OddTreatment french = { odd_job_get_finish_by_key (job, "french")->id, NAN };
  const OddTreatment topstitched = { odd_job_get_finish_by_key (job, "overlocked-topstitched")->id, NAN };
  g_autoptr(OddJob) as_french = odd_job_set_treatment (job, ODD_LEVEL_SEAM, seam, 0, &french, FALSE, NULL);
  g_autoptr(OddJob) as_topstitched = odd_job_set_treatment (job, ODD_LEVEL_SEAM, seam, 0, &topstitched, FALSE, NULL);
  g_autoptr(OddUnpicking) twice = NULL;
  g_autoptr(OddUnpicking) thrice = NULL;

  g_test_summary ("French: two passes; overlocked and topstitched: three rows; each as long as the raw seam, 80 + 25.4 mm");
  mark_all (&as_french, seam);
  mark_all (&as_topstitched, seam);
  twice = odd_job_plan_unpicking (as_french, seam, NULL);
  thrice = odd_job_plan_unpicking (as_topstitched, seam, NULL);
  g_assert_cmpfloat_with_epsilon (twice->stitching_mm, 2.0 * 105.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (thrice->stitching_mm, 3.0 * 105.4, 1e-6);
  g_assert_true (odd_job_seam_is_trimmed (as_french, seam));
  g_assert_false (odd_job_seam_is_trimmed (as_topstitched, seam));
}

static void
test_edges_stay_neatened (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = odd_job_new ();
  OddOperation steps[] = {
    { .kind = ODD_OPERATION_NEATEN, .station = ODD_STATION_OVERLOCKER, .face = ODD_FACE_ONE_LAYER, .before_joining = TRUE, .text = (char *) "Overlock each edge" },
    { .kind = ODD_OPERATION_SEW, .station = ODD_STATION_SEWING_MACHINE, .text = (char *) "Sew" },
    { .kind = ODD_OPERATION_PRESS, .station = ODD_STATION_IRON, .text = (char *) "Press open" },
  };
  const OddFinish values = { .key = (char *) "edges-first", .name = (char *) "Edges first", .allowance_mm = 12.7, .min_allowance_mm = 6, .width_kept_mm = 12.7,
                             .plies = { 1, 1 }, .may_open = TRUE, .operations = steps, .n_operations = 3, .source = (char *) "this test" };
  OddTreatment treatment = { 0, NAN };
  g_autoptr(OddUnpicking) plan = NULL;
  g_autoptr(GError) error = NULL;
  OddId seam;
  const OddSeam *after;

  g_test_summary ("Edges overlocked each by itself before joining are not unpicked, and stay overlocked");
  take (&job, odd_job_put_finish (job, &values, TRUE, &treatment.finish_id, &error));
  take (&job, add_squares (job, 0, 2, 1, 80, &panel_id));
  seam = odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[0].id;
  take (&job, odd_job_set_treatment (job, ODD_LEVEL_SEAM, seam, 0, &treatment, TRUE, &error));
  mark_all (&job, seam);
  plan = odd_job_plan_unpicking (job, seam, &error);
  g_assert_cmpfloat_with_epsilon (plan->stitching_mm, 105.4, 1e-6);
  take (&job, odd_job_unpick (job, seam, 0.0, &error));
  after = find_seam (job, panel_id, seam);
  g_assert_cmpint (odd_progress_get_state (after->progress, 0), ==, ODD_STATE_DONE);
  g_assert_cmpint (odd_progress_get_state (after->progress, 1), ==, ODD_STATE_OPEN);
  g_assert_cmpint (odd_progress_get_state (after->progress, 2), ==, ODD_STATE_OPEN);
}

static void
test_lost (void)
{
  OddId left = 0, right = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) half = add_squares (empty, first_textile (empty)->id, 2, 1, 80, &left);
  g_autoptr(OddJob) job = add_squares (half, first_textile (half)->id, 2, 1, 80, &right);
  const OddId seam = odd_job_get_panel (job, left, NULL, NULL)->root->seams[0].id;
  const OddId join = first_textile (job)->joins[0].id;
  g_autoptr(OddJob) after = NULL;
  g_autoptr(OddJob) after_join = NULL;
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("3 mm lost at each edge: the allowance stays 12.7, both squares end at 77 mm, the panel at 154; at a join both panels lose them");
  mark_all (&job, seam);
  after = odd_job_unpick (job, seam, 3.0, &error);
  g_assert_no_error (error);
  layout = odd_job_dup_layout_apart (after, left);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 154.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 80.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[0].region).width, 77.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[1].region).width, 77.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[0].cut).width, 77.0 + 25.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->seams[0].allowance_mm, 12.7, 1e-9);

  mark_all (&job, join);
  after_join = odd_job_unpick (job, join, 2.0, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < 2; i++)
    {
      g_clear_pointer (&layout, odd_layout_unref);
      layout = odd_job_dup_layout_apart (after_join, i == 0 ? left : right);
      g_assert_cmpfloat_with_epsilon (layout->box.width, 158.0, 1e-6);
    }

  g_clear_pointer (&layout, odd_layout_unref);
  g_assert_null (odd_job_unpick (job, seam, 90.0, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_job_unpick (job, seam, -1.0, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN);
  g_clear_error (&error);
  g_assert_null (odd_job_unpick (job, seam, NAN, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN);
}

static void
test_refused (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, 0, 2, 1, 80, &panel_id);
  const OddId seam = odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[0].id;
  const OddAct mark = { .kind = ODD_ACT_MARK, .seam_id = seam, .operation = ODD_ACT_NEXT };
  g_autoptr(GError) error = NULL;

  g_test_summary ("Not sewn, not there, and cut up since it was sewn: each is refused with its reason");
  g_assert_null (odd_job_plan_unpicking (job, seam, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "1 to 2 is not sewn"));
  g_clear_error (&error);
  g_assert_null (odd_job_plan_unpicking (job, 9999, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND);
  g_clear_error (&error);

  take (&job, odd_job_do (job, &mark, &error));
  take (&job, odd_job_remove_panel (job, panel_id, &error));
  g_assert_no_error (error);
  g_assert_null (odd_job_plan_unpicking (job, seam, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "cut up"));
}

static void
test_act (void)
{
  OddId panel_id = 0;
  double lost_mm = 1.0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, 0, 2, 2, 80, &panel_id);
  OddAct unpick = { .kind = ODD_ACT_UNPICK, .figures = &lost_mm, .n_figures = 1, .reason = (char *) "stain", .clock_s = 77 };
  g_autofree char *said = NULL;
  g_autoptr(GError) error = NULL;
  const OddAct *act;

  g_test_summary ("Unpicking is on record: with the seams that went with it, the stitching, the cloth lost and the reason");
  finish_panel (&job, panel_id);
  unpick.seam_id = in_row (job, panel_id, 0, 0);
  take (&job, odd_job_do (job, &unpick, &error));
  g_assert_no_error (error);
  act = job->record->pdata[0];
  g_assert_cmpuint (act->n_ids, ==, 1);
  g_assert_cmpuint (act->ids[0], ==, between_rows (job, panel_id, 0));
  g_assert_cmpuint (act->n_figures, ==, 2);
  g_assert_cmpfloat (act->figures[0], ==, 1.0);
  g_assert_cmpfloat_with_epsilon (act->figures[1], 2.0 * (105.4 + 185.4), 1e-6);
  g_assert_cmpstr (act->reason, ==, "stain");
  said = odd_act_dup_text (act, ODD_UNIT_CM);
  g_assert_cmpstr (said, ==, "Panel 1, seam 1 to 2: unpicked with 1 more, 0.58 m of stitching, 0.1 cm of cloth lost");
}

/* One square of cloth, 200 x 200 mm, shrinking by 4 and 2 %, under the first of two squares of 80 mm. */
static OddJob *
job_with_scrap (OddId *out_leaf, OddId *out_seam, OddId *out_scrap)
{
  const OddPoint corners[] = { { 0, 0 }, { 200, 0 }, { 200, 200 }, { 0, 200 } };
  const OddPlacement placement = { 0.0, FALSE, { -50.0, -50.0 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (corners, 4, NULL);
  OddJob *job = odd_job_new ();
  OddId fabric_id = 0, panel_id = 0;
  OddFabric fabric;
  OddScrap scrap;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) "plain";
  fabric.shrink_along = 0.04;
  fabric.shrink_across = 0.02;
  take (&job, odd_job_put_fabric (job, &fabric, &fabric_id, NULL));
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.fabric_id = fabric_id;
  take (&job, odd_job_put_scrap (job, &scrap, out_scrap, NULL));
  take (&job, add_squares (job, 0, 2, 1, 80, &panel_id));
  *out_leaf = odd_job_get_panel (job, panel_id, NULL, NULL)->root->parts[0]->id;
  *out_seam = odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[0].id;
  take (&job, odd_job_place_scrap (job, *out_leaf, *out_scrap, &placement, NULL));
  return job;
}

static void
test_release (void)
{
  OddId leaf = 0, seam = 0, scrap_id = 0;
  g_autoptr(OddJob) job = job_with_scrap (&leaf, &seam, &scrap_id);
  const OddAct cut = { .kind = ODD_ACT_CUT, .node_id = leaf, .state = ODD_STATE_DONE };
  const OddAct mark = { .kind = ODD_ACT_MARK, .seam_id = seam, .operation = ODD_ACT_NEXT };
  const OddAct unpick = { .kind = ODD_ACT_UNPICK, .seam_id = seam };
  const OddAct release = { .kind = ODD_ACT_RELEASE, .node_id = leaf };
  g_autoptr(OddPolygon) worn = NULL;
  g_autoptr(GError) error = NULL;
  const OddAct *act;
  OddScrap *piece;
  guint n = 0;

  g_test_summary ("A patch cut out and not sewn becomes a scrap of its cut shape, 105.4 mm square after the wash; its parent is gone when cut out");
  g_assert_null (odd_job_do (job, &release, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  take (&job, odd_job_do (job, &cut, &error));
  take (&job, odd_job_do (job, &mark, &error));
  g_assert_null (odd_job_do (job, &release, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "Unpick"));
  g_clear_error (&error);
  take (&job, odd_job_do (job, &unpick, &error));
  take (&job, odd_job_do (job, &release, &error));
  g_assert_no_error (error);

  act = job->record->pdata[job->record->len - 1];
  g_assert_cmpuint (act->n_ids, ==, 1);
  piece = odd_job_get_scrap (job, act->ids[0]);
  g_assert_cmpuint (piece->parent_id, ==, scrap_id);
  worn = odd_scrap_dup_outline (piece, odd_job_get_scrap_fabric (job, piece));
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_box (worn).width, 105.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_box (worn).height, 105.4, 1e-6);
  g_assert_cmpint (odd_job_get_scrap_state (job, piece->id), ==, ODD_SCRAP_FREE);
  g_assert_true (odd_job_get_scrap (job, scrap_id)->gone);
  odd_job_get_uses (job, scrap_id, &n);
  g_assert_cmpuint (n, ==, 0);
}

static gboolean
tells (GPtrArray *life, OddLifeKind kind, const char *text)
{
  for (guint i = 0; i < life->len; i++)
    {
      const OddLifeStep *step = life->pdata[i];

      if (step->kind == kind && strcmp (step->text, text) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
test_life (void)
{
  OddId leaf = 0, seam = 0, scrap_id = 0;
  g_autoptr(OddJob) job = job_with_scrap (&leaf, &seam, &scrap_id);
  const OddAct cut = { .kind = ODD_ACT_CUT, .node_id = leaf, .state = ODD_STATE_DONE };
  const OddAct mark = { .kind = ODD_ACT_MARK, .seam_id = seam, .operation = ODD_ACT_NEXT };
  const OddAct unpick = { .kind = ODD_ACT_UNPICK, .seam_id = seam };
  const OddAct release = { .kind = ODD_ACT_RELEASE, .node_id = leaf };
  g_autoptr(GPtrArray) life = NULL;
  g_autoptr(GPtrArray) of_piece = NULL;
  const OddAct *act;

  g_test_summary ("One scrap's life: from the tub, cut, sewn, and where it is; of what was cut from it, whence it came");
  take (&job, odd_job_do (job, &cut, NULL));
  take (&job, odd_job_do (job, &mark, NULL));
  life = odd_job_dup_scrap_life (job, scrap_id, ODD_UNIT_CM);
  g_assert_true (tells (life, ODD_LIFE_ORIGIN, "Scrap 1 came from the tub"));
  g_assert_true (tells (life, ODD_LIFE_ACT, "Panel 1, patch 1: cut out"));
  g_assert_true (tells (life, ODD_LIFE_ACT, "Panel 1, seam 1 to 2: Sew, right sides together"));
  g_assert_true (tells (life, ODD_LIFE_PLACE, "It is patch 1 of Panel 1"));

  take (&job, odd_job_do (job, &unpick, NULL));
  take (&job, odd_job_do (job, &release, NULL));
  act = job->record->pdata[job->record->len - 1];
  of_piece = odd_job_dup_scrap_life (job, act->ids[0], ODD_UNIT_CM);
  g_assert_cmpstr (((OddLifeStep *) of_piece->pdata[0])->text, ==, "Scrap 1 came from the tub");
  g_assert_cmpint (((OddLifeStep *) of_piece->pdata[1])->kind, ==, ODD_LIFE_ORIGIN);
  g_assert_cmpuint (((OddLifeStep *) of_piece->pdata[1])->scrap_id, ==, scrap_id);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/unpick/crossing", test_crossing);
  g_test_add_func ("/unpick/join", test_join);
  g_test_add_func ("/unpick/rows-of-stitching", test_rows_of_stitching);
  g_test_add_func ("/unpick/edges-stay-neatened", test_edges_stay_neatened);
  g_test_add_func ("/unpick/lost", test_lost);
  g_test_add_func ("/unpick/refused", test_refused);
  g_test_add_func ("/unpick/act", test_act);
  g_test_add_func ("/unpick/release", test_release);
  g_test_add_func ("/unpick/life", test_life);
  return g_test_run ();
}
