/* What was measured, what the seams then are, and squaring up. Figures worked by hand beside each check; derived, no outside source. */
#include "cloth/measured.h"
#include "trees.h"

#define NEAR 1e-9

/* One column of @rows patches of 120 mm cut, 12.7 mm seams, in the first textile; the first @n_sewn seams are marked sewn. */
static OddJob *
make_column (guint rows, guint n_sewn, OddId *out_id)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  OddJob *job = add_squares (empty, first_textile (empty)->id, 1, rows, 120.0 - 2 * 12.7, out_id);
  const OddState done = ODD_STATE_DONE;

  for (guint i = 0; i < n_sewn; i++)
    {
      g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);
      OddPanel *panel = odd_job_get_panel (job, *out_id, NULL, NULL);

      take (&job, odd_job_set_progress (job, panel->root->seams[i].id, progress, NULL));
    }
  return job;
}

static OddMeasure
lengths (double left, double middle, double right)
{
  OddMeasure measure;

  odd_measure_init (&measure);
  measure.lengths_mm[0] = left;
  measure.lengths_mm[1] = middle;
  measure.lengths_mm[2] = right;
  return measure;
}

static void
do_measure (OddJob **job, OddId id, const OddMeasure *measure)
{
  g_autoptr(GError) error = NULL;
  OddJob *next = odd_job_measure (*job, id, measure, FALSE, &error);

  g_assert_no_error (error);
  take (job, next);
}

static double
raw_length (OddJob *job, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);

  return layout->raw_box.height;
}

static double
raw_width (OddJob *job, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);

  return layout->raw_box.width;
}

static void
test_spread (void)
{
  const double three[3] = { 1490.0, 1494.0, 1492.0 };
  const double two[3] = { NAN, 500.0, 496.0 };
  const double none[3] = { NAN, NAN, NAN };
  OddTriple spread = odd_triple_of (three);

  g_test_summary ("Mean (1490 + 1494 + 1492) / 3 = 1492; least 1490; worst 2 off; bow 1494 - (1490 + 1492) / 2 = 3");
  g_assert_cmpuint (spread.n, ==, 3);
  g_assert_cmpfloat_with_epsilon (spread.mean_mm, 1492.0, NEAR);
  g_assert_cmpfloat (spread.least_mm, ==, 1490.0);
  g_assert_cmpfloat_with_epsilon (fabs (spread.worst_mm), 2.0, NEAR);
  g_assert_cmpfloat_with_epsilon (spread.bow_mm, 3.0, NEAR);
  spread = odd_triple_of (two);
  g_assert_cmpuint (spread.n, ==, 2);
  g_assert_cmpfloat_with_epsilon (spread.mean_mm, 498.0, NEAR);
  g_assert_true (isnan (spread.bow_mm));
  g_assert_cmpuint (odd_triple_of (none).n, ==, 0);
}

static void
test_out_of_square (void)
{
  g_test_summary ("Base 300, height 400, leaning 10: diagonals hypot (310, 400) and hypot (290, 400); a rectangle leans by nothing");
  g_assert_cmpfloat_with_epsilon (odd_out_of_square_mm (hypot (310, 400), hypot (290, 400), 300), 10.0, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_out_of_square_mm (hypot (290, 400), hypot (310, 400), 300), -10.0, NEAR);
  g_assert_cmpfloat (odd_out_of_square_mm (500, 500, 300), ==, 0.0);
}

static void
test_implied (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (12, 11, &id);
  /* Raw: 12 x 120 - 11 x 2 x 12.7 = 1160.6. Measured 1129.8 on the mean: loss 30.8 over 11 seams, 30.8 / 22 = 1.4 deeper: 14.1. */
  const OddMeasure measure = lengths (1129.0, 1129.8, 1130.6);
  OddMeasured measured;
  double planned_width, planned_length;

  g_test_summary ("12 patches of 120 cut, 11 seams of 12.7: 1160.6 raw; measured 1129.8: each seam is 14.1 mm deep");
  g_assert_true (odd_job_evaluate_measure (job, id, &measure, &measured, NULL));
  g_assert_cmpfloat_with_epsilon (measured.length.planned_mm, 1160.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (measured.length.loss_mm, 30.8, 1e-6);
  g_assert_cmpuint (measured.length.n_seams, ==, 11);
  g_assert_cmpfloat_with_epsilon (measured.length.allowance_mm, 12.7, NEAR);
  g_assert_cmpfloat_with_epsilon (measured.length.implied_mm, 14.1, 1e-6);
  g_assert_cmpfloat_with_epsilon (measured.implied_mm, 14.1, 1e-6);
  g_assert_true (isnan (measured.width.loss_mm));
  g_assert_cmpuint (measured.width.n_seams, ==, 0);
  do_measure (&job, id, &measure);
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1129.8, 1e-6);
  g_assert_true (odd_panel_is_as_sewn (odd_job_get_panel (job, id, NULL, NULL)));
  odd_job_get_planned_raw (job, id, &planned_width, &planned_length);
  g_assert_cmpfloat_with_epsilon (planned_length, 1160.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_job_get_measure (job, id)->planned_length_mm, 1160.6, 1e-6);
}

static void
test_again (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (12, 11, &id);
  const OddMeasure first = lengths (1129.8, NAN, NAN), second = lengths (1138.6, NAN, NAN);
  OddMeasure none;
  OddMeasured measured;

  g_test_summary ("A second measure replaces the first: loss against the plan, 22.0 over 11 seams: 13.7. An empty one goes back to plan.");
  do_measure (&job, id, &first);
  g_assert_true (odd_job_evaluate_measure (job, id, &second, &measured, NULL));
  g_assert_cmpfloat_with_epsilon (measured.length.loss_mm, 22.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (measured.length.now_mm, 1129.8, 1e-6);
  do_measure (&job, id, &second);
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1138.6, 1e-6);
  odd_measure_init (&none);
  do_measure (&job, id, &none);
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1160.6, 1e-6);
  g_assert_false (odd_panel_is_as_sewn (odd_job_get_panel (job, id, NULL, NULL)));
}

static void
test_only_sewn (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (5, 3, &id);
  const OddMeasure measure = lengths (492.4, NAN, NAN);      /* 5 x 120 - 4 x 25.4 = 498.4; 6 mm over three sewn seams: 1 mm deeper */
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("Of four seams three are sewn: they share the loss, the fourth stays as planned");
  do_measure (&job, id, &measure);
  layout = odd_job_dup_layout_apart (job, id);
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpfloat_with_epsilon (layout->seams[i].allowance_mm, i < 3 ? 13.7 : 12.7, 1e-6);
      g_assert_cmpfloat_with_epsilon (layout->seams[i].planned_allowance_mm, 12.7, NEAR);
    }
  for (guint p = 0; p < layout->n_patches; p++)
    g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[p].cut).height, 120.0, 1e-6);
}

static void
test_seam_to_seam (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (12, 11, &id);
  OddMeasure measure = lengths (1104.4, NAN, NAN);           /* 1160.6 - 2 x 12.7 = 1135.2 finished; 30.8 lost */
  OddMeasured measured;

  g_test_summary ("Seam to seam the same panel is 25.4 shorter, the loss the same");
  measure.seam_to_seam = TRUE;
  g_assert_true (odd_job_evaluate_measure (job, id, &measure, &measured, NULL));
  g_assert_cmpfloat_with_epsilon (measured.length.planned_mm, 1135.2, 1e-6);
  g_assert_cmpfloat_with_epsilon (measured.length.planned_raw_mm, 1160.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (measured.length.implied_mm, 14.1, 1e-6);
}

static void
test_square_up (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (12, 11, &id);
  OddMeasure measure = lengths (1129.0, 1129.8, 1130.6);
  OddMeasured measured;
  double planned_width, planned_length;

  g_test_summary ("Squared up to the least, 1129.0; its seams take no share of a later loss; that comes off the panel itself");
  do_measure (&job, id, &measure);
  take (&job, odd_job_square_up (job, id, NULL));
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1129.0, 1e-6);
  odd_job_get_planned_raw (job, id, &planned_width, &planned_length);
  g_assert_cmpfloat_with_epsilon (planned_length, 1129.0, 1e-6);
  measure = lengths (1128.0, NAN, NAN);
  g_assert_true (odd_job_evaluate_measure (job, id, &measure, &measured, NULL));
  g_assert_cmpuint (measured.length.n_seams, ==, 0);
  g_assert_cmpfloat_with_epsilon (measured.length.loss_mm, 1.0, 1e-6);
  g_assert_true (isnan (measured.length.implied_mm));
  do_measure (&job, id, &measure);
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1128.0, 1e-6);
}

static void
test_no_seam_across (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (3, 2, &id);
  OddMeasure measure;
  double planned_width, planned_length;

  g_test_summary ("No seam runs down a single column: 118 wide instead of 120 is 2 mm off the panel, and 119 a moment later gives one back");
  odd_measure_init (&measure);
  measure.widths_mm[1] = 118.0;
  do_measure (&job, id, &measure);
  g_assert_cmpfloat_with_epsilon (raw_width (job, id), 118.0, 1e-6);
  odd_job_get_planned_raw (job, id, &planned_width, &planned_length);
  g_assert_cmpfloat_with_epsilon (planned_width, 120.0, 1e-6);
  measure.widths_mm[1] = 119.0;
  do_measure (&job, id, &measure);
  g_assert_cmpfloat_with_epsilon (raw_width (job, id), 119.0, 1e-6);
  measure.widths_mm[1] = 123.0;
  do_measure (&job, id, &measure);
  g_assert_cmpfloat_with_epsilon (raw_width (job, id), 120.0, 1e-6);    /* never more than was planned */
}

static OddJob *
sew_all (OddJob *job, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);
  const OddState done = ODD_STATE_DONE;
  OddJob *sewn = odd_job_ref (job);

  for (guint i = 0; i < layout->n_seams; i++)
    {
      g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);

      take (&sewn, odd_job_set_progress (sewn, layout->seams[i].seam->id, progress, NULL));
    }
  return sewn;
}

static void
test_strip (void)
{
  OddId id;
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) squares = add_squares (empty, first_textile (empty)->id, 3, 2, 120.0 - 2 * 12.7, &id);
  g_autoptr(OddJob) job = odd_job_ref (squares);
  OddPanel *panel = odd_job_get_panel (job, id, NULL, NULL);
  const OddId row_id = panel->root->parts[0]->id, row_seams[] = { panel->root->parts[0]->seams[0].id, panel->root->parts[0]->seams[1].id };
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);
  g_autoptr(GError) error = NULL;
  OddMeasure measure;

  g_test_summary ("A row of three: 360 - 2 x 25.4 = 309.2 raw; 305.2 measured: 1 mm deeper each; the panel is as wide as this row, the least");
  for (guint i = 0; i < 2; i++)
    take (&job, odd_job_set_progress (job, row_seams[i], progress, NULL));
  odd_measure_init (&measure);
  measure.widths_mm[0] = 305.6;
  measure.widths_mm[2] = 304.8;
  do_measure (&job, row_id, &measure);
  g_assert_cmpfloat_with_epsilon (raw_width (job, id), 305.2, 1e-6);
  panel = odd_job_get_panel (job, id, NULL, NULL);
  g_assert_cmpfloat_with_epsilon (panel->root->parts[0]->seams[0].sewn_mm, 13.7, 1e-6);
  g_assert_cmpfloat (panel->root->parts[1]->seams[0].sewn_mm, ==, 0.0);
  g_assert_nonnull (panel->root->parts[0]->measure);

  /* Its height: 120 measured as 118 cannot come from a seam; squared up, the row loses 2 mm and the panel too. */
  measure.lengths_mm[1] = 118.0;
  do_measure (&job, row_id, &measure);
  take (&job, odd_job_square_up (job, row_id, NULL));
  g_assert_cmpfloat_with_epsilon (raw_width (job, id), 304.8, 1e-6);
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 240.0 - 25.4 - 2.0, 1e-6);
  panel = odd_job_get_panel (job, id, NULL, NULL);
  g_assert_true (panel->root->parts[0]->seams[0].squared);
  g_assert_false (panel->root->parts[1]->seams[0].squared);

  /* Sewn to the next row it cannot be trimmed by itself. */
  take (&job, sew_all (job, id));
  g_assert_null (odd_job_square_up (job, row_id, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_textile (void)
{
  OddId left, right;
  g_autoptr(OddJob) empty = odd_job_new ();
  const OddId textile_id = first_textile (empty)->id;
  g_autoptr(OddJob) one = add_squares (empty, textile_id, 3, 3, 120.0 - 2 * 12.7, &left);
  g_autoptr(OddJob) job = add_squares (one, textile_id, 3, 3, 120.0 - 2 * 12.7, &right);
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);
  g_autoptr(OddTextileLayout) layout = NULL;
  g_autoptr(OddTextileLayout) squared = NULL;
  OddMeasure measure;

  g_test_summary ("2 panels of 3 x 3: 720 - 5 x 25.4 = 593 raw; 583 measured: five seams across, the join among them, 1 mm deeper each");
  take (&job, sew_all (job, left));
  take (&job, sew_all (job, right));
  take (&job, odd_job_set_progress (job, first_textile (job)->joins[0].id, progress, NULL));
  odd_measure_init (&measure);
  measure.widths_mm[0] = 584.0;
  measure.widths_mm[1] = 582.0;
  measure.widths_mm[2] = 583.0;
  do_measure (&job, textile_id, &measure);
  layout = odd_job_dup_textile_layout (job, textile_id);
  g_assert_cmpfloat_with_epsilon (layout->raw_width_mm, 583.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->joins[0].allowance_mm, 13.7, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->joins[0].planned_allowance_mm, 12.7, 1e-6);
  g_assert_true (odd_textile_is_as_sewn (first_textile (job)));
  take (&job, odd_job_square_up (job, textile_id, NULL));
  squared = odd_job_dup_textile_layout (job, textile_id);
  g_assert_cmpfloat_with_epsilon (squared->raw_width_mm, 582.0, 1e-6);
  g_assert_true (first_textile (job)->joins[0].squared);
}

static void
test_doubts (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (12, 11, &id);
  const struct { double mm; gboolean impossible; } cases[] = { { 0.0, TRUE }, { -5.0, TRUE }, { 11606.1, FALSE }, { 116.0, FALSE } };

  g_test_summary ("0, negative, ten times the plan or a tenth of it: asked, and nothing is taken silently");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const OddMeasure measure = lengths (NAN, cases[i].mm, NAN);
      OddMeasured measured;
      gboolean impossible = FALSE;
      g_autofree char *doubt = NULL;
      g_autoptr(GError) error = NULL;

      g_assert_true (odd_job_evaluate_measure (job, id, &measure, &measured, NULL));
      doubt = odd_measure_doubt (&measure, &measured, &impossible);
      g_assert_nonnull (doubt);
      g_assert_true (g_str_has_prefix (doubt, "Is it really"));
      g_assert_cmpint (impossible, ==, cases[i].impossible);
      g_assert_null (odd_job_measure (job, id, &measure, FALSE, &error));
      g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
    }
}

static void
test_refusals (void)
{
  OddId id;
  g_autoptr(OddJob) sewn = make_column (12, 11, &id);
  g_autoptr(OddJob) planned = make_column (12, 0, &id);
  const OddMeasure good = lengths (1129.8, NAN, NAN), too_long = lengths (1460.6, NAN, NAN), too_short = lengths (100.0, NAN, NAN);
  g_autoptr(GError) error = NULL;

  g_test_summary ("Nothing sewn; seams of -0.9 mm (300 too long over 11 seams); of 60.9 mm in patches of 120; no such part; squaring up before measuring");
  g_assert_null (odd_job_measure (planned, id, &good, FALSE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_job_measure (sewn, id, &too_long, TRUE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
  g_clear_error (&error);
  g_assert_null (odd_job_measure (sewn, id, &too_short, TRUE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
  g_clear_error (&error);
  g_assert_null (odd_job_measure (sewn, 9999, &good, FALSE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_null (odd_job_square_up (sewn, id, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_forget (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (12, 11, &id);
  const OddMeasure measure = lengths (1129.8, NAN, NAN);
  OddId seam_id;

  g_test_summary ("One seam of 11 unpicked: it goes back to 12.7, and the panel grows by 2 x 1.4");
  do_measure (&job, id, &measure);
  seam_id = odd_job_get_panel (job, id, NULL, NULL)->root->seams[4].id;
  take (&job, odd_job_forget_sewn (job, &seam_id, 1, NULL));
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1129.8 + 2.8, 1e-6);
  seam_id = odd_job_get_panel (job, id, NULL, NULL)->root->seams[5].id;
  take (&job, odd_job_set_progress (job, seam_id, NULL, NULL));      /* a mark taken back is no seam any more */
  g_assert_cmpfloat_with_epsilon (raw_length (job, id), 1129.8 + 5.6, 1e-6);
}

static void
test_plan_changes (void)
{
  OddId id;
  g_autoptr(OddJob) job = make_column (5, 2, &id);
  const OddMeasure measure = lengths (494.4, NAN, NAN);     /* 498.4 planned; two sewn seams 1 mm deeper */
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("The plan re-set to what she really sews: seams not sewn follow, sewn ones keep theirs");
  do_measure (&job, id, &measure);
  set_allowance (&job, ODD_LEVEL_PANEL, id, 13.7, TRUE);
  layout = odd_job_dup_layout_apart (job, id);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (layout->seams[i].allowance_mm, 13.7, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->seams[0].planned_allowance_mm, 12.7, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->seams[3].planned_allowance_mm, 13.7, NEAR);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/measure/spread", test_spread);
  g_test_add_func ("/measure/out-of-square", test_out_of_square);
  g_test_add_func ("/measure/implied", test_implied);
  g_test_add_func ("/measure/again", test_again);
  g_test_add_func ("/measure/only-sewn", test_only_sewn);
  g_test_add_func ("/measure/seam-to-seam", test_seam_to_seam);
  g_test_add_func ("/measure/square-up", test_square_up);
  g_test_add_func ("/measure/no-seam-across", test_no_seam_across);
  g_test_add_func ("/measure/strip", test_strip);
  g_test_add_func ("/measure/textile", test_textile);
  g_test_add_func ("/measure/doubts", test_doubts);
  g_test_add_func ("/measure/refusals", test_refusals);
  g_test_add_func ("/measure/forget", test_forget);
  g_test_add_func ("/measure/plan-changes", test_plan_changes);
  return g_test_run ();
}
