#include "config.h"

#include "cloth/document.h"
#include "cloth/edit-private.h"
#include "cloth/line-move.h"
#include "random-trees.h"

#define ALLOWANCE 12.7
#define EXACT 1e-3

static OddId
place_rectangle (OddJob **job, OddId leaf_id, OddBox box)
{
  g_autoptr(OddPolygon) outline = odd_polygon_new_box (box);
  OddScrap values;
  OddId id = 0;

  odd_scrap_init_values (&values);
  values.outline = outline;
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  take (job, odd_job_place_scrap (*job, leaf_id, id, &ODD_PLACEMENT_IDENTITY, NULL));
  return id;
}

/* Two squares of 100 side by side; the left one on a scrap that reaches to x = 127.3, the right one bare. */
static OddJob *
two_squares (OddId *out_seam, OddId *out_left, OddId *out_right)
{
  OddJob *job = odd_job_new ();
  OddId panel_id = 0;
  OddNode *root;

  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  *out_seam = root->seams[0].id;
  *out_left = root->parts[0]->id;
  *out_right = root->parts[1]->id;
  place_rectangle (&job, *out_left, (OddBox) { -ALLOWANCE, -ALLOWANCE, 140, 100 + 2 * ALLOWANCE });
  return job;
}

static void
test_shift_by_hand (void)
{
  OddId seam, left, right;
  g_autoptr(OddJob) job = two_squares (&seam, &left, &right);
  g_autoptr(OddLineMove) move = odd_line_move_new_seam (job, seam, NULL);
  const OddLinePath shift = { FALSE, { 0, 0 } };
  OddLineLimits limits;
  g_autofree char *reason = NULL;

  g_test_summary ("A scrap 140 wide under a cut shape of 125.4 lets the seam go 14.6 mm (and the 0.01 that is no finding); the other way 30 mm must be left of 100");
  odd_line_move_get_limits (move, &shift, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, 14.6 + ODD_FIT_TOLERANCE_MM, EXACT);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_SCRAP);
  g_assert_cmpuint (limits.at_most.leaf_id, ==, left);
  g_assert_cmpfloat_with_epsilon (limits.least, -70, EXACT);
  g_assert_cmpint (limits.at_least.kind, ==, ODD_STOP_NARROW);
  reason = odd_line_move_dup_reason (move, &limits.at_most);
  g_assert_nonnull (strstr (reason, "Scrap 1"));
  g_assert_nonnull (strstr (reason, "patch 1"));
}

static void
test_tilt_by_hand (void)
{
  OddId seam, left, right;
  g_autoptr(OddJob) job = two_squares (&seam, &left, &right);
  g_autoptr(OddLineMove) move = odd_line_move_new_seam (job, seam, NULL);
  const OddLinePath tilt = { TRUE, { 100, 50 } };
  OddLineLimits limits;
  double reach;

  g_test_summary ("Tilted round its middle, the raw edge leans out to 100 + 12.7 / cos t + 62.7 tan t at the raw corner; the cloth ends at 127.3");
  odd_line_move_get_limits (move, &tilt, &limits);
  reach = 100 + ALLOWANCE / cos (limits.most * G_PI / 180) + (50 + ALLOWANCE) * tan (limits.most * G_PI / 180);
  g_assert_cmpfloat_with_epsilon (reach, 127.3 + ODD_FIT_TOLERANCE_MM, 1e-3);
  g_assert_cmpfloat_with_epsilon (limits.least, -limits.most, 1e-3);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_SCRAP);
}

static void
test_seams_do_not_meet (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddNode *root;
  g_autoptr(OddLineMove) move = NULL;
  const OddLinePath shift = { FALSE, { 0, 0 } }, tilt = { TRUE, { 100, 50 } };
  OddLineLimits limits;

  g_test_summary ("Three bare squares: the first seam stops 1 mm before the second, tilted at 60 degrees, before its end meets the second's at atan (100 / 50) = 63");
  take (&job, add_squares (job, 0, 3, 1, 100, &panel_id));
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  move = odd_line_move_new_seam (job, root->seams[0].id, NULL);
  odd_line_move_get_limits (move, &shift, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, 99, EXACT);
  g_assert_cmpfloat_with_epsilon (limits.least, -99, EXACT);
  odd_line_move_get_limits (move, &tilt, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, ODD_MOST_TILT_DEG, EXACT);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_RANGE);
}

static void
test_nested_seams_do_not_meet (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddNode *root, *row;
  OddSeam leaning[2];
  g_autoptr(OddNode) leaning_row = NULL;
  g_autoptr(OddLineMove) move = NULL;
  const OddLinePath shift = { FALSE, { 0, 0 } };
  OddLineLimits limits;

  g_test_summary ("Seams of a row that lean towards each other meet 150 mm down: the seam below the row, at 100, stops there after 50");
  take (&job, add_squares (job, 0, 3, 2, 100, &panel_id));
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  row = root->parts[0];
  leaning[0] = row->seams[0];
  leaning[1] = row->seams[1];
  leaning[0].line = (OddHalfPlane) { { 1, 0 }, 100 };
  leaning[1].line = (OddHalfPlane) { { 3 / sqrt (13), 2 / sqrt (13) }, 600 / sqrt (13) };     /* through (200, 0) and (100, 150) */
  leaning_row = odd_node_with_parts (row, row->parts, leaning, 3);
  {
    g_autoptr(OddNode) changed = odd_node_replace (root, row->id, leaning_row);
    g_autoptr(OddPanel) panel = odd_panel_with_root (odd_job_get_panel (job, panel_id, NULL, NULL), changed);

    take (&job, odd_edit_with_panel (job, panel));
  }
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  move = odd_line_move_new_seam (job, root->seams[0].id, NULL);
  odd_line_move_get_limits (move, &shift, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, 50, EXACT);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_SEAM);
}

static void
set_sewn (OddJob **job, OddId seam)
{
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);

  take (job, odd_job_set_progress (*job, seam, progress, NULL));
}

static void
assert_refused (OddJob *job, OddId seam, double by_mm, const char *word)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_job_shift_seam (job, seam, by_mm, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, word));
}

static void
test_refusals (void)
{
  OddId seam, left, right;
  g_autoptr(OddJob) job = two_squares (&seam, &left, &right);
  g_autoptr(OddJob) locked = odd_job_set_lock (job, left, TRUE, NULL);
  g_autoptr(OddJob) sewn = odd_job_ref (job);
  g_autoptr(OddJob) cut = odd_job_set_cut (job, left, ODD_STATE_DONE, NULL);
  g_autoptr(OddJob) strip = NULL;
  g_autoptr(OddJob) panel = NULL;
  g_autoptr(OddJob) smaller = NULL;
  OddPanel *of = odd_job_find_panel_of (job, seam, NULL, NULL);

  g_test_summary ("Locked patch, strip and panel, a sewn seam, a patch cut out: each refused in a sentence; a cut patch can be made smaller");
  assert_refused (locked, seam, 5, "Patch 1 is locked");
  strip = odd_job_set_lock (job, of->root->id, TRUE, NULL);
  assert_refused (strip, seam, 5, "strip");
  panel = odd_job_set_lock (job, of->id, TRUE, NULL);
  assert_refused (panel, seam, 5, "locked");
  set_sewn (&sewn, seam);
  assert_refused (sewn, seam, 5, "Unpick");
  assert_refused (cut, seam, 5, "cut out");
  smaller = odd_job_shift_seam (cut, seam, -5, NULL);
  g_assert_nonnull (smaller);
}

static void
test_back_stitch_goes (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddNode *root;
  OddId below, upright;
  guint index;

  g_test_summary ("A seam that is trimmed loses the back-stitch at that end; the other end keeps its own");
  take (&job, add_squares (job, 0, 2, 2, 100, &panel_id));
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  below = root->seams[0].id;
  upright = root->parts[0]->seams[0].id;
  for (guint end = 0; end < 2; end++)
    take (&job, odd_job_set_end_secured (job, upright, end, TRUE, NULL));
  take (&job, odd_job_shift_seam (job, below, 5, NULL));
  root = odd_node_find_seam (odd_job_get_panel (job, panel_id, NULL, NULL)->root, upright, &index);
  g_assert_true (root->seams[index].end_secured[0] && root->seams[index].end_secured[1]);
  take (&job, odd_job_shift_seam (job, below, -10, NULL));
  root = odd_node_find_seam (odd_job_get_panel (job, panel_id, NULL, NULL)->root, upright, &index);
  g_assert_cmpint (root->seams[index].end_secured[0] + root->seams[index].end_secured[1], ==, 1);
}

static void
test_one_scrap (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0, scrap = 0;
  OddNode *root;
  OddId seam, third;
  const OddPlacement second = { 0, FALSE, { -60, 0 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { -20, -20, 400, 200 });
  OddScrap values;
  g_autoptr(OddLineMove) move = NULL;
  const OddLinePath shift = { FALSE, { 0, 0 } };
  OddLineLimits limits;

  g_test_summary ("First and third of a row lie on one scrap: where 14.6 mm are free between their cut shapes, the first can take them and no more");
  take (&job, add_squares (job, 0, 3, 1, 100, &panel_id));
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  seam = root->seams[0].id;
  third = root->parts[2]->id;
  odd_scrap_init_values (&values);
  values.outline = outline;
  take (&job, odd_job_put_scrap (job, &values, &scrap, NULL));
  take (&job, odd_job_place_scrap (job, root->parts[0]->id, scrap, &ODD_PLACEMENT_IDENTITY, NULL));
  take (&job, odd_job_place_scrap (job, third, scrap, &second, NULL));
  /* On the scrap: the first cut shape from -12.7 to 112.7; the third, from 187.3 in the panel, begins at 247.3. */
  move = odd_line_move_new_seam (job, seam, NULL);
  odd_line_move_get_limits (move, &shift, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, 99, EXACT);
  {
    const OddPlacement nearer = { 0, FALSE, { 60, 0 } };

    take (&job, odd_job_place_scrap (job, third, scrap, &nearer, NULL));
  }
  g_clear_pointer (&move, odd_line_move_free);
  move = odd_line_move_new_seam (job, seam, NULL);
  odd_line_move_get_limits (move, &shift, &limits);
  /* Now it begins at 127.3: 14.6 are free, and an overlap of 1 mm2 on 125.4 is no finding. */
  g_assert_cmpfloat_with_epsilon (limits.most, 14.6 + 1.0 / 125.4, EXACT);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_OVERLAP);
}

static void
test_flaw (void)
{
  OddId seam, left, right, scrap;
  g_autoptr(OddJob) job = two_squares (&seam, &left, &right);
  g_autoptr(OddPolygon) stain = odd_polygon_new_box ((OddBox) { 108, 40, 5, 5 });
  OddZone zone = { ODD_ZONE_STAIN, stain, TRUE };
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { -ALLOWANCE, -ALLOWANCE, 200, 130 });
  OddScrap values;
  g_autoptr(OddLineMove) move = NULL;
  const OddLinePath shift = { FALSE, { 0, 0 } };
  OddLineLimits limits;

  g_test_summary ("A stain at 108 mm may lie in the allowance: the seam stops there, to what is left out as a sliver of 0.01 mm2 on 5 mm");
  odd_scrap_init_values (&values);
  values.outline = outline;
  values.zones = &zone;
  values.n_zones = 1;
  take (&job, odd_job_put_scrap (job, &values, &scrap, NULL));
  take (&job, odd_job_place_scrap (job, left, scrap, &ODD_PLACEMENT_IDENTITY, NULL));
  move = odd_line_move_new_seam (job, seam, NULL);
  odd_line_move_get_limits (move, &shift, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, 8 + 0.01 / 5, EXACT);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_FLAW);
}

static void
test_sewn_neighbour (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0, below;
  OddNode *root;
  g_autoptr(OddLineMove) move = NULL;
  const OddLinePath shift = { FALSE, { 0, 0 } };
  OddLineLimits limits;

  g_test_summary ("Where the row above is sewn, the seam below it may trim the row, down to 1 mm of what is bare, but not let it grow");
  take (&job, add_squares (job, 0, 2, 2, 100, &panel_id));
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  below = root->seams[0].id;
  set_sewn (&job, root->parts[0]->seams[0].id);
  move = odd_line_move_new_seam (job, below, NULL);
  odd_line_move_get_limits (move, &shift, &limits);
  g_assert_cmpfloat_with_epsilon (limits.most, 0, EXACT);
  g_assert_cmpint (limits.at_most.kind, ==, ODD_STOP_SEWN);
  g_assert_cmpfloat_with_epsilon (limits.least, -99, EXACT);
}

/* --- laws over random trees --- */

/* The seam set there without a question. */
static OddJob *
force (OddJob *job, OddId seam_id, OddHalfPlane line)
{
  OddPanel *panel = odd_job_find_panel_of (job, seam_id, NULL, NULL);
  guint index = 0;
  OddNode *strip = odd_node_find_seam (panel->root, seam_id, &index);
  OddSeam seam = strip->seams[index];
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;

  seam.line = line;
  root = odd_node_replace_seam (panel->root, &seam);
  changed = odd_panel_with_root (panel, root);
  return odd_edit_with_panel (job, changed);
}

static guint
count_findings (OddJob *job)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);

  return findings->len;
}

static void
check_way (OddJob *job, OddLineMove *move, OddId seam_id, const OddLinePath *path, double limit, const OddStop *stop, GRand *random)
{
  const double sign = limit < 0 ? -1 : 1, beyond = path->tilt ? 0.02 : 0.01;
  g_autoptr(OddJob) at_limit = NULL;
  g_autoptr(OddJob) past = NULL;

  /* nowhere before the limit is the cloth unsound: asked of the checker, which knows nothing of lines on the move */
  for (guint i = 0; i < 6; i++)
    {
      g_autoptr(OddJob) on_the_way = force (job, seam_id, odd_line_move_line_at (move, path, limit * g_rand_double (random)));

      g_assert_cmpuint (count_findings (on_the_way), ==, 0);
    }
  at_limit = odd_line_move_apply (move, odd_line_move_line_at (move, path, limit), NULL);
  g_assert_nonnull (at_limit);
  g_assert_cmpuint (count_findings (at_limit), ==, 0);
  g_assert_false (odd_line_move_allows (move, odd_line_move_line_at (move, path, limit + sign * beyond), NULL));
  if (stop->kind != ODD_STOP_SCRAP)
    return;
  past = force (job, seam_id, odd_line_move_line_at (move, path, limit + sign * beyond));
  g_assert_cmpuint (count_findings (past), >, 0);
}

static void
test_limits_are_exact (void)
{
  GRand *random = g_rand_new_with_seed (20251);
  guint n_ways = 0;

  g_test_summary ("Random trees: sound up to the limit, and 0.01 mm (0.02 degrees) past it not allowed, and unsound where a scrap is what stops");
  for (guint round = 0; round < 60; round++)
    {
      OddId panel_id = 0;
      g_autoptr(OddJob) job = random_panel (random, &panel_id);
      g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);

      g_assert_cmpuint (count_findings (job), ==, 0);
      for (guint i = 0; i < layout->n_seams; i++)
        {
          const OddLaidSeam *laid = &layout->seams[i];
          g_autoptr(OddLineMove) move = odd_line_move_new_seam (job, laid->seam->id, NULL);
          const OddLinePath path = { g_rand_boolean (random), odd_point_lerp (laid->finished.from, laid->finished.to, g_rand_double (random)) };
          OddLineLimits limits;

          odd_line_move_get_limits (move, &path, &limits);
          g_assert_cmpfloat (limits.least, <=, 0);
          g_assert_cmpfloat (limits.most, >=, 0);
          if (limits.at_most.kind != ODD_STOP_RANGE)
            check_way (job, move, laid->seam->id, &path, limits.most, &limits.at_most, random);
          if (limits.at_least.kind != ODD_STOP_RANGE)
            check_way (job, move, laid->seam->id, &path, limits.least, &limits.at_least, random);
          n_ways += 2;
        }
    }
  g_assert_cmpuint (n_ways, >, 600);
  g_rand_free (random);
}

static void
test_undo (void)
{
  OddId seam, left, right;
  g_autoptr(OddJob) job = two_squares (&seam, &left, &right);
  g_autoptr(OddDocument) document = odd_document_new (job);

  g_test_summary ("A gesture of many moves is one step, and undo gives the very job back");
  for (guint i = 0; i < 5; i++)
    odd_document_apply_merging (document, odd_job_shift_seam (odd_document_get_job (document), seam, 2, NULL), "Move seam", "move");
  g_assert_true (odd_document_get_job (document) != job);
  g_assert_true (odd_document_undo (document));
  g_assert_true (odd_document_get_job (document) == job);
  g_assert_false (odd_document_undo (document));
}

static void
test_turned_panel (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0, seam;
  g_autoptr(OddLineMove) move = NULL;
  g_autoptr(OddJob) after = NULL;

  g_test_summary ("In a panel hung half-turned, the line is told as it hangs and stored as the panel lies alone");
  take (&job, add_squares (job, first_textile (job)->id, 2, 1, 100, &panel_id));
  take (&job, odd_job_turn_panel (job, panel_id, NULL));
  seam = odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[0].id;
  move = odd_line_move_new_seam (job, seam, NULL);
  after = odd_line_move_apply (move, odd_half_plane_push (odd_line_move_get_line (move), 10), NULL);
  g_assert_cmpfloat_with_epsilon (odd_job_get_panel (after, panel_id, NULL, NULL)->root->seams[0].line.offset_mm, 110, 1e-9);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/line-move/shift-by-hand", test_shift_by_hand);
  g_test_add_func ("/line-move/tilt-by-hand", test_tilt_by_hand);
  g_test_add_func ("/line-move/seams-do-not-meet", test_seams_do_not_meet);
  g_test_add_func ("/line-move/nested-seams-do-not-meet", test_nested_seams_do_not_meet);
  g_test_add_func ("/line-move/refusals", test_refusals);
  g_test_add_func ("/line-move/back-stitch-goes", test_back_stitch_goes);
  g_test_add_func ("/line-move/one-scrap", test_one_scrap);
  g_test_add_func ("/line-move/flaw", test_flaw);
  g_test_add_func ("/line-move/sewn-neighbour", test_sewn_neighbour);
  g_test_add_func ("/line-move/limits-are-exact", test_limits_are_exact);
  g_test_add_func ("/line-move/undo", test_undo);
  g_test_add_func ("/line-move/turned-panel", test_turned_panel);
  return g_test_run ();
}
