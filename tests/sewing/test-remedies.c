/* Unequal panels. Figures worked by hand beside each check; derived, no outside source. */
#include "cloth/length.h"
#include "sewing/remedies.h"
#include "../cloth/trees.h"

/* Two columns of 12.7 mm seams: 5 patches and 5 patches of @short_mm cut, otherwise 120 mm. */
static OddJob *
make_two (double short_finished_mm, OddId *out_long, OddId *out_short)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  const OddId textile_id = first_textile (empty)->id;
  g_autoptr(OddJob) one = add_squares (empty, textile_id, 1, 5, 94.6, out_long);

  return add_squares (one, textile_id, 1, 5, short_finished_mm, out_short);
}

static double
raw_length (OddJob *job, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);

  return layout->raw_box.height;
}

static void
remedy (OddJob **job, OddRemedyKind kind)
{
  g_autoptr(GError) error = NULL;
  OddJob *next = odd_job_remedy (*job, first_textile (*job)->id, kind, &error);

  g_assert_no_error (error);
  take (job, next);
}

static void
mark_sewn (OddJob **job, OddId seam_id)
{
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);

  take (job, odd_job_set_progress (*job, seam_id, progress, NULL));
}

static void
test_lengths (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  g_autoptr(OddUnequal) unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);

  g_test_summary ("5 x 94.6 + 25.4 = 498.4 against 5 x 91.2 + 25.4 = 481.4 raw: 17 mm short");
  g_assert_cmpfloat_with_epsilon (unequal->shortest_mm, 481.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (unequal->wanted_mm, 498.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (unequal->gap_mm, 17.0, 1e-6);
  g_assert_cmpuint (unequal->short_panels->len, ==, 1);
  g_assert_cmpuint (g_array_index (unequal->short_panels, OddId, 0), ==, right);
}

static void
test_trim (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  g_autoptr(OddUnequal) unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);

  g_test_summary ("17 mm come off the one that is 94.6 + 25.4 = 120 wide: 2040 mm2");
  g_assert_cmpfloat_with_epsilon (unequal->remedies[ODD_REMEDY_TRIM].cloth_mm2, 17.0 * 120.0, 1e-6);
  remedy (&job, ODD_REMEDY_TRIM);
  g_assert_cmpfloat_with_epsilon (raw_length (job, left), 481.4, 1e-6);
  g_assert_null (odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM));
}

static void
test_ease (void)
{
  OddId left, right;
  g_autoptr(OddJob) far = make_two (91.2, &left, &right);
  g_autoptr(OddJob) job = make_two (94.0, &left, &right);        /* 495.4 raw: 3 mm, 0.6 % */
  g_autoptr(OddUnequal) too_far = odd_job_find_unequal (far, first_textile (far)->id, ODD_UNIT_CM);
  g_autoptr(OddUnequal) unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);
  g_autoptr(OddTextileLayout) layout = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("17 of 481.4 is 3.5 %, too much; 3 of 495.4 is 0.6 %: eased, and then nothing is told as trim");
  g_assert_cmpfloat_with_epsilon (too_far->remedies[ODD_REMEDY_EASE].ease_percent, 100 * 17.0 / 481.4, 1e-6);
  g_assert_false (too_far->remedies[ODD_REMEDY_EASE].possible);
  g_assert_null (odd_job_remedy (far, first_textile (far)->id, ODD_REMEDY_EASE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_true (unequal->remedies[ODD_REMEDY_EASE].possible);
  g_assert_cmpfloat (unequal->remedies[ODD_REMEDY_EASE].cloth_mm2, ==, 0.0);
  remedy (&job, ODD_REMEDY_EASE);
  layout = odd_job_dup_textile_layout (job, first_textile (job)->id);
  g_assert_cmpfloat_with_epsilon (layout->panels[0].eased_mm, 3.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->panels[0].trim_bottom_mm, 0.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (layout->raw_length_mm, 495.4, 1e-6);
}

static void
test_patch (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  g_autoptr(OddUnequal) unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("A patch cut 17 + 2 x 12.7 = 42.4 high, finished 17");
  g_assert_cmpfloat_with_epsilon (unequal->remedies[ODD_REMEDY_PATCH].cut_height_mm, 42.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (unequal->remedies[ODD_REMEDY_PATCH].cloth_mm2, 42.4 * (91.2 + 25.4), 1e-6);
  remedy (&job, ODD_REMEDY_PATCH);
  layout = odd_job_dup_layout_apart (job, right);
  g_assert_cmpfloat_with_epsilon (layout->raw_box.height, 498.4, 1e-6);
  g_assert_cmpuint (layout->n_patches, ==, 6);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[5].region).height, 17.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[5].cut).height, 42.4, 1e-6);
  g_assert_null (odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM));
}

static void
test_seams_narrower (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  OddPanel *panel = odd_job_get_panel (job, right, NULL, NULL);
  g_autoptr(OddUnequal) unequal = NULL;
  g_autoptr(OddLayout) layout = NULL;

  /* Of four seams one is sewn. Cut sum of the other three: 481.4 + 6 x 12.7 = 557.6; need 498.4: (557.6 - 498.4) / 6 = 9.8667. */
  g_test_summary ("Three seams not sewn yet at (557.6 - 498.4) / 6 = 9.87 mm bring the short panel up");
  mark_sewn (&job, panel->root->seams[1].id);
  unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);
  g_assert_true (unequal->remedies[ODD_REMEDY_SEAMS].possible);
  g_assert_cmpuint (unequal->remedies[ODD_REMEDY_SEAMS].n_seams, ==, 3);
  g_assert_cmpfloat_with_epsilon (unequal->remedies[ODD_REMEDY_SEAMS].allowance_mm, 59.2 / 6, 1e-6);
  remedy (&job, ODD_REMEDY_SEAMS);
  g_assert_cmpfloat_with_epsilon (raw_length (job, right), 498.4, 1e-6);
  layout = odd_job_dup_layout_apart (job, right);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (layout->seams[i].allowance_mm, i == 1 ? 12.7 : 59.2 / 6, 1e-6);
  for (guint i = 0; i < 5; i++)
    g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[i].cut).height, 91.2 + 25.4, 1e-6);
}

static void
test_seams_deeper (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  g_autoptr(OddUnequal) unequal = NULL;

  /* The long panel's four: 498.4 + 8 x 12.7 = 600; need 481.4: 118.6 / 8 = 14.825. */
  g_test_summary ("The short panel all sewn: the long one's four seams at (600 - 481.4) / 8 = 14.825 mm bring it down");
  for (guint i = 0; i < 4; i++)
    mark_sewn (&job, odd_job_get_panel (job, right, NULL, NULL)->root->seams[i].id);
  unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);
  g_assert_cmpfloat_with_epsilon (unequal->remedies[ODD_REMEDY_SEAMS].allowance_mm, 14.825, 1e-6);
  remedy (&job, ODD_REMEDY_SEAMS);
  g_assert_cmpfloat_with_epsilon (raw_length (job, left), 481.4, 1e-6);
}

static void
test_impossible (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  g_autoptr(OddJob) equal = make_two (94.6, &left, &right);
  g_autoptr(OddUnequal) unequal = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("All sewn and joined: no seam to re-set, no ease, no patch; equal panels need nothing");
  g_assert_null (odd_job_find_unequal (equal, first_textile (equal)->id, ODD_UNIT_CM));
  g_assert_null (odd_job_remedy (equal, first_textile (equal)->id, ODD_REMEDY_TRIM, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  for (guint p = 0; p < 2; p++)
    for (guint i = 0; i < 4; i++)
      mark_sewn (&job, first_textile (job)->hung[p].panel->root->seams[i].id);
  mark_sewn (&job, first_textile (job)->joins[0].id);
  unequal = odd_job_find_unequal (job, first_textile (job)->id, ODD_UNIT_CM);
  for (guint i = 0; i < ODD_N_REMEDIES; i++)
    {
      g_assert_nonnull (unequal->remedies[i].text);
      g_assert_cmpint (unequal->remedies[i].possible, ==, i == ODD_REMEDY_TRIM);
    }
}

static void
test_turned (void)
{
  OddId left, right;
  g_autoptr(OddJob) job = make_two (91.2, &left, &right);
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("A panel that hangs turned gets its patch at the end that hangs below");
  take (&job, odd_job_turn_panel (job, right, NULL));
  remedy (&job, ODD_REMEDY_PATCH);
  layout = odd_job_dup_layout (job, right);
  g_assert_cmpfloat_with_epsilon (layout->raw_box.height, 498.4, 1e-6);
  g_assert_cmpuint (layout->n_patches, ==, 6);
  for (guint i = 0; i < 6; i++)
    {
      const OddBox box = odd_convex_box (layout->patches[i].region);

      g_assert_true (box.height > 20.0 || box.y > 400.0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/remedies/lengths", test_lengths);
  g_test_add_func ("/remedies/trim", test_trim);
  g_test_add_func ("/remedies/ease", test_ease);
  g_test_add_func ("/remedies/patch", test_patch);
  g_test_add_func ("/remedies/seams-narrower", test_seams_narrower);
  g_test_add_func ("/remedies/seams-deeper", test_seams_deeper);
  g_test_add_func ("/remedies/impossible", test_impossible);
  g_test_add_func ("/remedies/turned", test_turned);
  return g_test_run ();
}
