#include "config.h"

#include "trees.h"

#define NEAR 1e-6

static OddId
put_rectangle_scrap (OddJob **job, double width, double height)
{
  OddScrap values;
  OddId id = 0;
  const OddPoint corners[] = { { 0, 0 }, { width, 0 }, { width, height }, { 0, height } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (corners, 4, NULL);

  odd_scrap_init_values (&values);
  values.outline = outline;
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  return id;
}

/* Sews a bare strip of @height on to the bottom. */
static void
extend (OddJob **job, OddId panel_id, double height)
{
  OddPanel *panel = odd_job_get_panel (*job, panel_id, NULL, NULL);
  const double bottom = odd_convex_box (panel->outline).height;
  g_autoptr(OddNode) leaf = odd_node_new_bare ((*job)->next_id);
  g_autoptr(GError) error = NULL;
  const OddExtension extension = {
    .edge = odd_panel_side_edge (panel, 2), .seam = { { 0, 1 }, bottom }, .outer = { { 0, 1 }, bottom + height },
    .part = leaf, .next_id = (*job)->next_id + 1
  };
  OddJob *next = odd_job_extend_panel (*job, panel_id, &extension, &error);

  g_assert_no_error (error);
  take (job, next);
}

static void
test_keep_cut (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("3 x 3 of 120 with all inner seams from 12.7 to 15.875: pitch 88.25, finished 271.1, raw 296.5 with edges at 12.7 still (derived by hand)");
  take (&job, add_squares (job, 0, 3, 3, 94.6, &panel_id));
  for (guint i = 0; i < 4; i++)
    {
      const OddTreatment edge = { 0, 12.7 };

      take (&job, odd_job_set_treatment (job, ODD_LEVEL_EDGE, panel_id, i, &edge, TRUE, NULL));
    }
  set_allowance (&job, ODD_LEVEL_PANEL, panel_id, 15.875, TRUE);
  layout = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 271.1, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 271.1, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->raw_box.width, 296.5, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[4].region).width, 88.25, NEAR);
  for (guint i = 0; i < layout->n_patches; i++)
    g_assert_cmpfloat_with_epsilon (odd_convex_area (layout->patches[i].cut), 14400.0, 1e-3);
}

static void
test_keep_size (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GError) error = NULL;
  const OddTreatment wider = { 0, 20 };
  OddId scrap;

  g_test_summary ("Keep the size: lines stay, cut shapes grow; refused once a patch is cut out");
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  set_allowance (&job, ODD_LEVEL_PANEL, panel_id, 20, FALSE);
  layout = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 200, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[0].cut).width, 140, NEAR);

  set_allowance (&job, ODD_LEVEL_PANEL, panel_id, 10, FALSE);
  scrap = put_rectangle_scrap (&job, 300, 300);
  take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, scrap, &ODD_PLACEMENT_IDENTITY, NULL));
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  g_assert_null (odd_job_set_treatment (job, ODD_LEVEL_PANEL, panel_id, 0, &wider, FALSE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_keep_cut_row (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  g_autoptr(OddLayout) before = NULL;
  g_autoptr(OddLayout) layout = NULL;
  OddPanel *panel;

  g_test_summary ("One row of three sewn deeper by 2 mm is 8 mm narrower; the panel is as wide as the least of its rows");
  take (&job, add_squares (job, 0, 3, 2, 100, &panel_id));
  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  set_allowance (&job, ODD_LEVEL_STRIP, panel->root->parts[1]->id, 14.7, TRUE);
  layout = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 300 - 8, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 200, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[3].region).width, 98, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[4].region).width, 96, NEAR);
  g_assert_cmpfloat_with_epsilon (areas_of_regions (layout), odd_convex_area (layout->outline), 1e-3);
}

static void
test_keep_cut_moves_cloth (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddId scrap;
  g_autoptr(OddLayout) before = NULL;
  g_autoptr(OddLayout) after = NULL;
  const OddPlacement at = { 0, FALSE, { 90, -10 } };
  double gap_before, gap_after;

  g_test_summary ("Keep the cut: the scrap moves with its patch, its outline stays where it was about the cut shape");
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  scrap = put_rectangle_scrap (&job, 130, 130);
  before = odd_job_dup_layout (job, panel_id);
  take (&job, odd_job_place_scrap (job, before->patches[1].leaf->id, scrap, &at, NULL));
  g_clear_pointer (&before, odd_layout_unref);
  before = odd_job_dup_layout (job, panel_id);
  set_allowance (&job, ODD_LEVEL_SEAM, before->seams[0].seam->id, 16, TRUE);
  after = odd_job_dup_layout (job, panel_id);
  gap_before = odd_convex_box (before->patches[1].cut).x - before->patches[1].placement.shift.x;
  gap_after = odd_convex_box (after->patches[1].cut).x - after->patches[1].placement.shift.x;
  g_assert_cmpfloat_with_epsilon (gap_before, gap_after, NEAR);
  g_assert_cmpfloat_with_epsilon (after->box.width, 200 - 2 * 3.3, NEAR);
}

static void
test_there_and_back (void)
{
  g_test_summary ("Law: an allowance made wider on every seam and narrower again brings a panel of squares back to its size");
  for (guint round = 0; round < 30; round++)
    {
      g_autoptr(OddJob) job = odd_job_new ();
      OddId panel_id = 0;
      const double pitch = g_test_rand_double_range (60, 160);
      const guint columns = g_test_rand_int_range (1, 5), rows = g_test_rand_int_range (1, 5);
      g_autoptr(OddLayout) layout = NULL;

      take (&job, add_squares (job, 0, columns, rows, pitch, &panel_id));
      set_allowance (&job, ODD_LEVEL_PANEL, panel_id, g_test_rand_double_range (5, 20), TRUE);
      set_allowance (&job, ODD_LEVEL_PANEL, panel_id, 12.7, TRUE);
      layout = odd_job_dup_layout (job, panel_id);
      g_assert_cmpfloat_with_epsilon (layout->box.width, pitch * columns, 1e-6);
      g_assert_cmpfloat_with_epsilon (layout->box.height, pitch * rows, 1e-6);
    }
}

static void
test_extend_and_take_off (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddPanel *panel;
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("Sewn on twice, the second goes into the same strip; taken off again the size is as before");
  take (&job, odd_job_add_panel (job, first_textile (job)->id, G_MAXUINT, NULL, 240, 100, &panel_id, NULL));
  extend (&job, panel_id, 80);
  extend (&job, panel_id, 60);
  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  g_assert_cmpuint (panel->root->n_parts, ==, 3);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (panel->outline).height, 240, NEAR);
  take (&job, odd_job_take_off_last (job, panel_id, NULL));
  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (panel->outline).height, 180, NEAR);
  take (&job, odd_job_take_off_last (job, panel_id, NULL));
  g_assert_null (odd_job_take_off_last (job, panel_id, NULL));
  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  g_assert_true (panel->root->kind == ODD_NODE_LEAF);
  layout = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 100, NEAR);
}

static void
test_extend_top (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddPanel *panel;
  g_autoptr(OddNode) leaf = NULL;
  g_autoptr(OddLayout) layout = NULL;
  OddExtension extension;

  g_test_summary ("Sewn on at the top: everything moves down, the new part comes first");
  take (&job, odd_job_add_panel (job, 0, 0, NULL, 240, 100, &panel_id, NULL));
  extend (&job, panel_id, 80);
  leaf = odd_node_new_bare (job->next_id);
  extension = (OddExtension) { 0, { { 0, -1 }, 0 }, { { 0, -1 }, 50 }, leaf, job->next_id + 1 };
  take (&job, odd_job_extend_panel (job, panel_id, &extension, NULL));
  panel = odd_job_get_panel (job, panel_id, NULL, NULL);
  g_assert_cmpuint (panel->root->n_parts, ==, 3);
  g_assert_cmpuint (panel->root->parts[0]->id, ==, leaf->id);
  layout = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[1].region).y, 50, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (layout->patches[2].region).y, 150, NEAR);
}

static void
test_swallow (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  g_autoptr(OddNode) leaf = NULL;
  g_autoptr(GError) error = NULL;
  OddExtension extension;

  g_test_summary ("A tilt that swallows the patch below is refused, the job stays");
  take (&job, odd_job_add_panel (job, 0, 0, NULL, 240, 100, &panel_id, NULL));
  extend (&job, panel_id, 20);
  leaf = odd_node_new_bare (job->next_id);
  extension = (OddExtension) { odd_panel_side_edge (odd_job_get_panel (job, panel_id, NULL, NULL), 2),
                               { { 0, 1 }, 90 }, { { 0, 1 }, 200 }, leaf, job->next_id + 1 };
  g_assert_null (odd_job_extend_panel (job, panel_id, &extension, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
}

static void
test_longer_than_its_neighbour (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile_id = first_textile (job)->id;
  OddId long_id = 0, short_id = 0;
  g_autoptr(OddTextileLayout) layout = NULL;

  g_test_summary ("A panel grows beyond a shorter one beside it: what the textile trims off is not swallowed by the seam");
  take (&job, odd_job_add_panel (job, textile_id, 0, NULL, 240, 100, &long_id, NULL));
  take (&job, odd_job_add_panel (job, textile_id, 1, NULL, 240, 100, &short_id, NULL));
  extend (&job, long_id, 80);
  extend (&job, long_id, 80);
  layout = odd_job_dup_textile_layout (job, textile_id);
  g_assert_cmpfloat_with_epsilon (layout->finished_length_mm, 100, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->panels[0].layout->alone_length_mm, 260, NEAR);
}

static void
test_sewn_stays (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  g_autoptr(OddProgress) sewn = odd_progress_with (NULL, 0, ODD_STATE_DONE, NULL);
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddLayout) after = NULL;
  g_autoptr(GError) error = NULL;
  const OddTreatment wider = { 0, 15 };

  g_test_summary ("A seam that is sewn keeps its allowance when the panel's changes, refuses its own change, and cannot be taken off");
  take (&job, add_squares (job, 0, 1, 3, 100, &panel_id));
  layout = odd_job_dup_layout (job, panel_id);
  take (&job, odd_job_set_progress (job, layout->seams[1].seam->id, sewn, NULL));
  set_allowance (&job, ODD_LEVEL_PANEL, panel_id, 15, TRUE);
  after = odd_job_dup_layout (job, panel_id);
  g_assert_cmpfloat_with_epsilon (after->seams[0].allowance_mm, 15, NEAR);
  g_assert_cmpfloat_with_epsilon (after->seams[1].allowance_mm, 12.7, NEAR);
  g_assert_null (odd_job_set_treatment (job, ODD_LEVEL_SEAM, layout->seams[1].seam->id, 0, &wider, TRUE, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_null (odd_job_take_off_last (job, panel_id, NULL));
}

static void
test_order (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId ids[3];
  OddId join;
  g_autoptr(OddProgress) sewn = odd_progress_with (NULL, 0, ODD_STATE_DONE, NULL);
  g_autoptr(GError) error = NULL;

  g_test_summary ("Joins stay between panels that stay neighbours; a sewn join holds its panels together");
  for (guint i = 0; i < 3; i++)
    take (&job, add_squares (job, textile, 1, 2, 100, &ids[i]));
  join = first_textile (job)->joins[1].id;
  take (&job, odd_job_move_panel (job, ids[0], textile, 2, NULL));
  g_assert_cmpuint (first_textile (job)->hung[0].panel->id, ==, ids[1]);
  g_assert_cmpuint (first_textile (job)->hung[2].panel->id, ==, ids[0]);
  g_assert_cmpuint (first_textile (job)->joins[0].id, ==, join);
  take (&job, odd_job_set_progress (job, join, sewn, NULL));
  g_assert_null (odd_job_move_panel (job, ids[2], textile, 2, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_job_remove_panel (job, ids[1], &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  take (&job, odd_job_move_panel (job, ids[0], textile, 0, NULL));
  g_assert_cmpuint (first_textile (job)->joins[1].id, ==, join);
  take (&job, odd_job_move_panel (job, ids[0], 0, 0, NULL));
  g_assert_cmpuint (job->loose_panels->len, ==, 1);
}

static void
test_scrap_states (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  const OddId scrap = put_rectangle_scrap (&job, 200, 200);
  g_autoptr(OddProgress) sewn = odd_progress_with (NULL, 0, ODD_STATE_DONE, NULL);
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("Free, placed, sewn; a sewn patch is not taken out");
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap), ==, ODD_SCRAP_FREE);
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  layout = odd_job_dup_layout (job, panel_id);
  take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, scrap, &ODD_PLACEMENT_IDENTITY, NULL));
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap), ==, ODD_SCRAP_PLACED);
  g_assert_null (odd_job_remove_scrap (job, scrap, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  take (&job, odd_job_set_progress (job, layout->seams[0].seam->id, sewn, NULL));
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap), ==, ODD_SCRAP_SEWN);
  g_assert_null (odd_job_make_bare (job, layout->patches[0].leaf->id, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_check (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  const OddId scrap = put_rectangle_scrap (&job, 130, 130);
  const OddPlacement good = { 0, FALSE, { -14, -14 } };
  const OddPlacement bad = { 0, FALSE, { -10, -14 } };
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GPtrArray) findings = NULL;

  g_test_summary ("Sound when the cut shape lies in the scrap; 2.7 mm missing at the left is found, and two patches on one place");
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  layout = odd_job_dup_layout (job, panel_id);
  take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, scrap, &good, NULL));
  findings = odd_job_check (job, NULL);
  g_assert_cmpuint (findings->len, ==, 1);
  g_assert_cmpint (((OddFinding *) findings->pdata[0])->kind, ==, ODD_FINDING_BARE);
  g_clear_pointer (&findings, g_ptr_array_unref);

  take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, scrap, &bad, NULL));
  take (&job, odd_job_place_scrap (job, layout->patches[1].leaf->id, scrap, &(OddPlacement) { 0, FALSE, { 86, -14 } }, NULL));
  findings = odd_job_check (job, NULL);
  g_assert_cmpuint (findings->len, ==, 2);
  g_assert_cmpint (((OddFinding *) findings->pdata[0])->kind, ==, ODD_FINDING_TOO_SMALL);
  g_assert_nonnull (strstr (((OddFinding *) findings->pdata[0])->text, "2.7 mm"));
  g_assert_cmpint (((OddFinding *) findings->pdata[1])->kind, ==, ODD_FINDING_OVERLAP);
}

static void
test_trimmed_away (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  g_autoptr(GPtrArray) findings = NULL;

  g_test_summary ("A short column beside a long one trims it; what the trim takes away is no finding");
  take (&job, add_squares (job, textile, 2, 6, 100, NULL));
  take (&job, add_squares (job, textile, 2, 1, 100, NULL));
  findings = odd_job_check (job, NULL);
  for (guint i = 0; i < findings->len; i++)
    g_assert_cmpint (((OddFinding *) findings->pdata[i])->kind, ==, ODD_FINDING_BARE);
  g_assert_cmpuint (findings->len, ==, 4);
}

static void
test_numbers (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(GError) error = NULL;
  const OddTreatment silly[] = { { 0, 0 }, { 0, -3 }, { 0, 1e9 }, { 0, INFINITY }, { 999, NAN } };

  g_test_summary ("Zero, negative, absurd: asked for again in one sentence, nothing taken");
  for (guint i = 0; i < G_N_ELEMENTS (silly); i++)
    {
      g_assert_null (odd_job_set_treatment (job, ODD_LEVEL_JOB, 0, 0, &silly[i], TRUE, &error));
      g_assert_nonnull (error);
      g_clear_error (&error);
    }
  g_assert_null (odd_job_add_panel (job, 0, 0, NULL, 0, 100, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
  g_clear_error (&error);
  g_assert_null (odd_job_add_panel (job, 0, 0, NULL, NAN, 100, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
  g_clear_error (&error);
  g_assert_null (odd_job_set_target (job, first_textile (job)->id, -1, 0, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
}

/* Every refusal leaves the job as it was and says one thing. */
static void
assert_not_split (OddJob *job, OddId leaf_id, OddHalfPlane line, OddJobError code, const char *word)
{
  g_autoptr(OddNode) first = odd_node_new_bare (leaf_id);
  g_autoptr(OddNode) second = odd_node_new_bare (job->next_id);
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_job_split_leaf (job, leaf_id, line, first, second, job->next_id + 1, &error));
  g_assert_error (error, ODD_JOB_ERROR, (int) code);
  g_assert_nonnull (strstr (error->message, word));
}

static void
test_split_refused (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0, left, right, seam, strip, scrap;
  const OddHalfPlane middle = { { 0, 1 }, 50 }, beside = { { 1, 0 }, 150 };
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);
  g_autoptr(OddJob) locked = NULL;
  g_autoptr(OddJob) strip_locked = NULL;
  g_autoptr(OddJob) panel_locked = NULL;
  g_autoptr(OddJob) cut = NULL;
  g_autoptr(OddJob) sewn = NULL;

  g_test_summary ("A patch is not parted where the line misses it, where it, its strip or its panel is locked, once cut out, or once sewn; nor a seam or a strip");
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  strip = odd_job_get_panel (job, panel_id, NULL, NULL)->root->id;
  left = odd_job_get_panel (job, panel_id, NULL, NULL)->root->parts[0]->id;
  right = odd_job_get_panel (job, panel_id, NULL, NULL)->root->parts[1]->id;
  seam = odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[0].id;
  scrap = put_rectangle_scrap (&job, 300, 300);
  take (&job, odd_job_place_scrap (job, left, scrap, &ODD_PLACEMENT_IDENTITY, NULL));
  locked = odd_job_set_lock (job, left, TRUE, NULL);
  strip_locked = odd_job_set_lock (job, strip, TRUE, NULL);
  panel_locked = odd_job_set_lock (job, panel_id, TRUE, NULL);
  cut = odd_job_set_cut (job, left, ODD_STATE_DONE, NULL);
  sewn = odd_job_set_progress (job, seam, progress, NULL);

  assert_not_split (job, right, (OddHalfPlane) { { 1, 0 }, 50 }, ODD_JOB_ERROR_NO_ROOM, "swallow");
  assert_not_split (job, left, beside, ODD_JOB_ERROR_NO_ROOM, "swallow");
  assert_not_split (locked, left, middle, ODD_JOB_ERROR_REFUSED, "Patch 1 is locked");
  assert_not_split (strip_locked, left, middle, ODD_JOB_ERROR_REFUSED, "locked strip");
  assert_not_split (panel_locked, left, middle, ODD_JOB_ERROR_REFUSED, "locked");
  assert_not_split (cut, left, middle, ODD_JOB_ERROR_REFUSED, "cut out");
  assert_not_split (sewn, left, middle, ODD_JOB_ERROR_REFUSED, "sewn");
  assert_not_split (job, strip, middle, ODD_JOB_ERROR_NOT_FOUND, "not a patch");
  assert_not_split (job, 9999, middle, ODD_JOB_ERROR_NOT_FOUND, "9999");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edit/keep-cut", test_keep_cut);
  g_test_add_func ("/edit/keep-size", test_keep_size);
  g_test_add_func ("/edit/keep-cut-row", test_keep_cut_row);
  g_test_add_func ("/edit/keep-cut-moves-cloth", test_keep_cut_moves_cloth);
  g_test_add_func ("/edit/there-and-back", test_there_and_back);
  g_test_add_func ("/edit/extend-and-take-off", test_extend_and_take_off);
  g_test_add_func ("/edit/extend-top", test_extend_top);
  g_test_add_func ("/edit/swallow", test_swallow);
  g_test_add_func ("/edit/longer-than-its-neighbour", test_longer_than_its_neighbour);
  g_test_add_func ("/edit/sewn-stays", test_sewn_stays);
  g_test_add_func ("/edit/order", test_order);
  g_test_add_func ("/edit/scrap-states", test_scrap_states);
  g_test_add_func ("/edit/check", test_check);
  g_test_add_func ("/edit/trimmed-away", test_trimmed_away);
  g_test_add_func ("/edit/numbers", test_numbers);
  g_test_add_func ("/edit/split-refused", test_split_refused);
  return g_test_run ();
}
