#include "config.h"

#include "sewing/act-measure.h"
#include "sewing/progress.h"
#include "sewing/piece-ends.h"
#include "../cloth/pieces.h"

static OddId
nth_seam (OddJob *job, OddId panel_id, guint n)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  return layout->seams[n].seam->id;
}

static const OddAct *
last_act (OddJob *job)
{
  return job->record->pdata[job->record->len - 1];
}

static void
assert_says (const OddAct *act, const char *text)
{
  g_autofree char *said = odd_act_dup_text (act, ODD_UNIT_CM);

  g_assert_cmpstr (said, ==, text);
}

static void
test_mark (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, first_textile (empty)->id, 3, 1, 80, &panel_id);
  const OddId seam = nth_seam (job, panel_id, 0);
  const OddAct mark = { .kind = ODD_ACT_MARK, .seam_id = seam, .operation = ODD_ACT_NEXT, .clock_s = 1000 };
  const OddAct last = { .kind = ODD_ACT_MARK, .seam_id = seam, .operation = 2 };
  const OddAct unmark = { .kind = ODD_ACT_UNMARK, .seam_id = seam, .operation = 0 };
  g_autoptr(GError) error = NULL;

  g_test_summary ("Marks are put down with seam, operation, names and time; so is taking them back");
  g_assert_null (odd_job_do (job, &last, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN);
  g_clear_error (&error);
  g_assert_cmpuint (job->record->len, ==, 0);

  take (&job, odd_job_do (job, &mark, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (job->record->len, ==, 1);
  g_assert_cmpuint (last_act (job)->operation, ==, 0);
  g_assert_cmpuint (last_act (job)->panel_id, ==, panel_id);
  g_assert_cmpint (last_act (job)->clock_s, ==, 1000);
  g_assert_true (odd_act_is_about (last_act (job), seam));
  g_assert_false (odd_act_is_about (last_act (job), 0));
  assert_says (last_act (job), "Panel 1, seam 1 to 2: Sew, right sides together");
  take (&job, odd_job_do (job, &mark, &error));
  assert_says (last_act (job), "Panel 1, seam 1 to 2: Overlock both edges together");

  take (&job, odd_job_do (job, &unmark, &error));
  g_assert_no_error (error);
  assert_says (last_act (job), "Panel 1, seam 1 to 2: mark taken back, Sew, right sides together");
  g_assert_cmpuint (job->record->len, ==, 3);
  g_assert_null (odd_job_do (job, &unmark, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_warned (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, first_textile (empty)->id, 2, 2, 80, &panel_id);
  OddAct mark = { .kind = ODD_ACT_MARK, .operation = ODD_ACT_NEXT };
  g_autoptr(GError) error = NULL;
  OddNode *root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;

  g_test_summary ("Sewing over raw ends needs saying so, and stays on record");
  mark.seam_id = root->seams[0].id;
  g_assert_null (odd_job_do (job, &mark, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  mark.anyway = TRUE;
  take (&job, odd_job_do (job, &mark, &error));
  g_assert_no_error (error);
  assert_says (last_act (job), "Panel 1, seam 1, 2 to 3, 4: Sew, right sides together, over raw ends");
}

static void
test_trim (void)
{
  OddId panel_id = 0;
  double off_mm = 12.0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, first_textile (empty)->id, 2, 1, 80, &panel_id);
  const OddId seam = nth_seam (job, panel_id, 0);
  const OddAct mark = { .kind = ODD_ACT_MARK, .seam_id = seam, .operation = ODD_ACT_NEXT };
  const OddAct secure = { .kind = ODD_ACT_SECURE, .seam_id = seam, .end = 1, .state = ODD_STATE_DONE };
  OddAct trim = { .kind = ODD_ACT_TRIM, .panel_id = panel_id, .figures = &off_mm, .n_figures = 1 };
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GError) error = NULL;
  guint end;

  g_test_summary ("Trimming 12 mm off an edge cuts the sewn seams that end on it, back-stitched or not");
  take (&job, odd_job_do (job, &mark, &error));
  take (&job, odd_job_do (job, &secure, &error));
  assert_says (last_act (job), "Panel 1, seam 1 to 2: an end back-stitched");
  layout = odd_job_dup_layout (job, panel_id);
  end = layout->seams[0].ends[1].label;
  g_assert_cmpint (layout->seams[0].ends[1].kind, ==, ODD_END_BACK_STITCHED);
  trim.end = layout->edges[-1 - (int) end].outline_edge;
  take (&job, odd_job_do (job, &trim, &error));
  g_assert_no_error (error);
  assert_says (last_act (job), "Panel 1: 1.2 cm trimmed off");
  g_clear_pointer (&layout, odd_layout_unref);
  layout = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 68.0, 1e-9);
  g_assert_cmpint (layout->seams[0].ends[1].kind, ==, ODD_END_CUT);
  g_assert_cmpint (layout->seams[0].ends[0].kind, ==, ODD_END_OPEN);

  off_mm = -1.0;
  g_assert_null (odd_job_do (job, &trim, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN);
}

static void
test_scraps (void)
{
  const OddPoint corners[] = { { 0, 0 }, { 100, 0 }, { 100, 50 }, { 0, 50 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (corners, 4, NULL);
  g_autoptr(OddJob) job = odd_job_new ();
  OddFabric fabric;
  OddScrap scrap;
  OddId fabric_id = 0, scrap_id = 0;
  OddAct act = { .kind = ODD_ACT_WASH, .state = ODD_STATE_DONE };
  g_autoptr(GError) error = NULL;

  g_test_summary ("Washed: 4 % less along the grain and 2 % across; given away: no longer free");
  odd_fabric_init_values (&fabric);
  fabric.name = (char *) "plain";
  fabric.shrink_along = 0.04;
  fabric.shrink_across = 0.02;
  take (&job, odd_job_put_fabric (job, &fabric, &fabric_id, &error));
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.fabric_id = fabric_id;
  scrap.grain_deg = 0.0;
  take (&job, odd_job_put_scrap (job, &scrap, &scrap_id, &error));
  act.scrap_id = scrap_id;
  take (&job, odd_job_do (job, &act, &error));
  g_assert_no_error (error);
  assert_says (last_act (job), "Scrap 1: washed");
  g_assert_true (odd_job_get_scrap (job, scrap_id)->washed);
  g_assert_cmpfloat_with_epsilon (odd_scrap_get_box (odd_job_get_scrap (job, scrap_id)).width, 96.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_scrap_get_box (odd_job_get_scrap (job, scrap_id)).height, 49.0, 1e-9);

  act.kind = ODD_ACT_GONE;
  take (&job, odd_job_do (job, &act, &error));
  assert_says (last_act (job), "Scrap 1: given away or used up");
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap_id), ==, ODD_SCRAP_GONE);
  act.state = ODD_STATE_OPEN;
  take (&job, odd_job_do (job, &act, &error));
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap_id), ==, ODD_SCRAP_FREE);
}

static void
test_pieces (void)
{
  OddId panel_id = 0;
  double line[3] = { 0.0, 1.0, 150.0 };
  g_autoptr(OddJob) planned = piece_job (2, 2, &panel_id);
  g_autoptr(OddJob) job = odd_job_ref (planned);
  g_autoptr(OddJob) again = NULL;
  g_autoptr(GError) error = NULL;
  OddAct act = { .kind = ODD_ACT_PIECE, .panel_id = panel_id, .state = ODD_STATE_DONE };
  OddAct cut = { .kind = ODD_ACT_CUT_PIECE, .figures = line, .n_figures = 3 };
  OddId halves[2];

  g_test_summary ("A panel becomes a scrap, is cut across, an end is back-stitched; and all of it again from the record");
  take (&job, odd_job_do (job, &act, &error));
  assert_says (last_act (job), "Panel 1: put among the scraps");
  cut.scrap_id = last_act (job)->ids[0];
  g_assert_nonnull (odd_job_get_scrap (job, cut.scrap_id)->piece);
  take (&job, odd_job_do (job, &cut, &error));
  assert_says (last_act (job), "Scrap 5: cut across");
  g_assert_cmpuint (last_act (job)->n_ids, ==, 2);
  halves[0] = last_act (job)->ids[0];
  halves[1] = last_act (job)->ids[1];
  g_assert_true (odd_act_is_about (last_act (job), halves[1]));
  {
    g_autoptr(GArray) ends = odd_job_dup_piece_ends (job, odd_job_get_scrap (job, halves[1]));
    const OddPieceEnd *end = &g_array_index (ends, OddPieceEnd, 0);
    const OddAct secure = { .kind = ODD_ACT_SECURE, .scrap_id = end->scrap_id, .seam_id = end->seam_id, .end = end->end, .state = ODD_STATE_DONE };

    g_assert_cmpuint (ends->len, ==, 1);
    g_assert_cmpstr (end->text, ==, "Between patches 1 and 2");
    g_assert_cmpfloat_with_epsilon (end->at.x, 100.0, 1e-9);
    g_assert_cmpfloat_with_epsilon (end->at.y, 150.0, 1e-9);
    g_assert_cmpuint (odd_job_count_piece_ends (job), ==, 2);
    take (&job, odd_job_do (job, &secure, &error));
    assert_says (last_act (job), "Seam of piece 7: an end back-stitched");
    g_assert_cmpuint (odd_job_count_piece_ends (job), ==, 1);
  }
  again = odd_job_replay (planned, job, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->next_id, ==, job->next_id);
  g_assert_true (odd_convex_equal (odd_job_get_scrap (again, halves[0])->piece->outline, odd_job_get_scrap (job, halves[0])->piece->outline, 0.0));
  line[0] = 5.0;
  g_assert_null (odd_job_do (job, &cut, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN);
}

static void
test_nicks (void)
{
  g_test_summary ("Every kind has a word of its own, and the word leads back");
  for (guint i = 0; i < ODD_N_ACT_KINDS; i++)
    {
      OddActKind kind = ODD_N_ACT_KINDS;

      g_assert_true (odd_act_kind_from_nick (odd_act_kind_get_nick (i), &kind));
      g_assert_cmpuint (kind, ==, i);
    }
}

static void
test_measure (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = add_squares (empty, first_textile (empty)->id, 1, 3, 94.6, &panel_id);
  g_autoptr(OddJob) planned = NULL;
  g_autoptr(OddJob) replayed = NULL;
  OddAct mark = { .kind = ODD_ACT_MARK_PANEL, .panel_id = panel_id, .operation = ODD_WORK_SEW };
  OddAct act = odd_act_about_part (job, ODD_ACT_MEASURE, panel_id);
  double figures[ODD_N_MEASURE_FIGURES];
  OddMeasure measure;
  g_autoptr(GError) error = NULL;

  g_test_summary ("Measuring, squaring up and cutting level are on record, and replaying them gives the same");
  odd_measure_init (&measure);
  measure.lengths_mm[0] = 305.2;
  measure.lengths_mm[2] = 304.2;
  odd_measure_to_figures (&measure, figures);
  act.figures = figures;
  act.n_figures = G_N_ELEMENTS (figures);
  planned = odd_job_ref (job);
  take (&job, odd_job_do (job, &mark, NULL));
  take (&job, odd_job_do (job, &act, NULL));
  assert_says (last_act (job), "Panel 1: measured, 30.47 cm long");
  act = odd_act_about_part (job, ODD_ACT_SQUARE_UP, panel_id);
  take (&job, odd_job_do (job, &act, NULL));
  assert_says (last_act (job), "Panel 1: squared up");
  act = odd_act_about_part (job, ODD_ACT_CUT_LEVEL, first_textile (job)->id);
  take (&job, odd_job_do (job, &act, NULL));
  assert_says (last_act (job), "Textile 1: all panels trimmed to the shortest");
  replayed = odd_job_replay (planned, job, &error);
  g_assert_no_error (error);
  g_assert_true (odd_convex_equal (odd_job_get_panel (replayed, panel_id, NULL, NULL)->outline,
                                   odd_job_get_panel (job, panel_id, NULL, NULL)->outline, 0.0));
  act = odd_act_about_part (job, ODD_ACT_MEASURE, panel_id);
  g_assert_null (odd_job_do (job, &act, &error));      /* no figures */
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/act/mark", test_mark);
  g_test_add_func ("/act/warned", test_warned);
  g_test_add_func ("/act/trim", test_trim);
  g_test_add_func ("/act/scraps", test_scraps);
  g_test_add_func ("/act/pieces", test_pieces);
  g_test_add_func ("/act/nicks", test_nicks);
  g_test_add_func ("/act/measure", test_measure);
  return g_test_run ();
}
