/* Cloth that stands, pieced in part: bare places, and what is anew round that which is kept. */
#include "config.h"

#include "piecing/proposal.h"
#include "sewing/act.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

static OddProposalOptions
options_for (OddJob   *job,
             OddPieceManner manner)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, manner);
  options.width_mm = 240.0;
  options.length_mm = 640.0;
  options.treatment.allowance_mm = 10.0;
  options.moves = 1500;

  return options;
}

static OddProposal *
propose (OddJob                   *job,
         const OddProposalOptions *options)
{
  g_autoptr(GError) error = NULL;
  OddProposal *proposal = odd_propose (job, options, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (proposal);

  return proposal;
}

static OddLayout *
layout_of (const OddProposal *proposal,
           guint              i)
{
  return odd_job_dup_layout (proposal->job, g_array_index (proposal->panels, OddId, i));
}

static void
replaced (OddJob **job,
          OddJob  *next)
{
  g_assert_nonnull (next);
  odd_job_unref (*job);
  *job = next;
}

/* Nothing but bare places may be found. */
static void
assert_sound (OddJob *job)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);

  for (guint i = 0; i < findings->len; i++)
    g_assert_cmpint (((OddFinding *) findings->pdata[i])->kind, ==, ODD_FINDING_BARE);
}

/* How many patches of @was are in @is as they were. */
static guint
count_same (const OddLayout *was,
            const OddLayout *is)
{
  guint n = 0;

  for (guint i = 0; i < was->n_patches; i++)
    {
      const OddPatch *patch = &was->patches[i];
      const OddPatch *same = odd_layout_find_patch (is, patch->leaf->id);

      n += same != NULL && same->scrap != NULL && patch->scrap != NULL && same->scrap->id == patch->scrap->id
           && odd_convex_equal (same->region, patch->region, 1e-9) && same->placement.turn_deg == patch->placement.turn_deg
           && odd_point_distance (same->placement.shift, patch->placement.shift) < 1e-9;
    }

  return n;
}

/* One patch anew: every other one stays to the last digit, while it is proposed and while it is made better. */
static void
test_one_patch (void)
{
  for (guint manner = 0; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (150, 3);
      OddProposalOptions options = options_for (job, (OddPieceManner) manner);
      g_autoptr(OddProposal) first = propose (job, &options);
      g_autoptr(OddLayout) was = layout_of (first, 0);
      const OddId leaf_id = was->patches[was->n_patches / 2].leaf->id;
      g_autoptr(OddProposal) again = NULL, better = NULL;
      g_autoptr(OddLayout) is = NULL, at_last = NULL;
      g_autoptr(GError) error = NULL;
      OddRoom room;

      g_assert_null (first->parts);
      options.into = ODD_INTO_UNLOCKED;
      options.seed = 7;
      options.part_ids = &leaf_id;
      options.n_part_ids = 1;
      room = odd_proposal_measure_room (first->job, &options);
      g_assert_cmpuint (room.n_places, ==, 1);
      g_assert_cmpuint (room.n_patches, ==, 1);
      g_assert_cmpfloat_with_epsilon (room.area_mm2, odd_convex_area (was->patches[was->n_patches / 2].region), 1e-3);
      again = propose (first->job, &options);
      assert_sound (again->job);
      is = layout_of (again, 0);
      g_assert_cmpuint (count_same (was, is), ==, was->n_patches - 1);
      g_assert_cmpuint (again->figures.n_bare, ==, 0);
      g_assert_cmpuint (again->parts->len, ==, 1);
      g_assert_null (odd_layout_find_patch (is, leaf_id));

      options.part_ids = (const OddId *) again->parts->data;
      better = odd_improve (again->job, (const OddId *) again->panels->data, 1, &options, NULL, NULL, NULL, &error);
      g_assert_no_error (error);
      assert_sound (better->job);
      at_last = layout_of (better, 0);
      g_assert_cmpuint (count_same (was, at_last), ==, was->n_patches - 1);
      g_assert_cmpuint (better->parts->len, ==, 1);
    }
}

/* By hand: a strip of two bare places in a panel with a third bare place: only the strip's are filled. */
static void
test_strip_only (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES);
  g_autoptr(OddProposal) first = NULL, filled = NULL;
  const OddPanel *panel;
  OddId strip_id, bare[3];

  for (guint i = 0; i < 9; i++)
    tub_add_box (&job, 100.0, 100.0);
  options.width_mm = options.length_mm = 240.0;
  first = propose (job, &options);
  panel = odd_job_get_panel (first->job, g_array_index (first->panels, OddId, 0), NULL, NULL);
  strip_id = panel->root->parts[1]->id;
  bare[0] = panel->root->parts[1]->parts[0]->id;
  bare[1] = panel->root->parts[1]->parts[2]->id;
  bare[2] = panel->root->parts[0]->parts[1]->id;
  for (guint i = 0; i < 3; i++)
    replaced (&first->job, odd_job_make_bare (first->job, bare[i], NULL));
  options.into = ODD_INTO_BARE;
  options.part_ids = &strip_id;
  options.n_part_ids = 1;
  filled = propose (first->job, &options);
  assert_sound (filled->job);
  g_assert_cmpuint (filled->figures.n_bare, ==, 1);
  g_assert_cmpuint (filled->figures.n_patches, ==, 2);
  g_assert_cmpfloat_with_epsilon (filled->figures.net_yield, 0.64, 1e-9);
  g_assert_cmpfloat_with_epsilon (filled->figures.seams_mm, 0.0, 1e-9);
  g_assert_cmpuint (filled->parts->len, ==, 2);
}

/* What is locked above holds what is below it. */
static void
test_locked_above (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (150, 3);
  OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES);
  g_autoptr(OddProposal) first = propose (job, &options);
  const OddPanel *panel = odd_job_get_panel (first->job, g_array_index (first->panels, OddId, 0), NULL, NULL);
  const OddId leaf_id = panel->root->parts[1]->parts[1]->id;
  g_autoptr(GError) error = NULL;

  replaced (&first->job, odd_job_set_lock (first->job, panel->root->parts[1]->id, TRUE, NULL));
  options.into = ODD_INTO_UNLOCKED;
  options.part_ids = &leaf_id;
  options.n_part_ids = 1;
  g_assert_cmpuint (odd_proposal_measure_room (first->job, &options).n_places, ==, 0);
  g_assert_null (odd_propose (first->job, &options, NULL, NULL, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

/* A join that is sewn holds the patches along it, though none of their own seams is. */
static void
test_sewn_join (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (200, 3);
  OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES);
  g_autoptr(OddProposal) first = NULL, again = NULL;
  const OddTextile *textile;
  g_autoptr(OddProgress) progress = NULL;
  g_autoptr(OddLayout) was = NULL, is = NULL;
  const OddState done[1] = { ODD_STATE_DONE };
  guint n_along = 0;

  options.n_panels = 2;
  first = propose (job, &options);
  textile = first->job->textiles->pdata[0];
  progress = odd_progress_new (done, NULL, 1);
  replaced (&first->job, odd_job_set_progress (first->job, textile->joins[0].id, progress, NULL));
  was = layout_of (first, 0);
  for (guint i = 0; i < was->n_patches; i++)
    {
      const OddBox box = odd_convex_box (was->patches[i].region);

      n_along += box.x + box.width > was->box.width - 0.01;
    }
  options.into = ODD_INTO_UNLOCKED;
  options.seed = 9;
  again = propose (first->job, &options);
  is = layout_of (again, 0);
  g_assert_cmpuint (n_along, ==, 8);
  g_assert_cmpuint (count_same (was, is), ==, n_along);
  for (guint i = 0; i < was->n_patches; i++)
    {
      const OddBox box = odd_convex_box (was->patches[i].region);

      if (box.x + box.width > was->box.width - 0.01)
        g_assert_nonnull (odd_layout_find_patch (is, was->patches[i].leaf->id));
    }
}

/* The scraps of what comes off may be drawn from again, though only others were named. */
static void
test_draws_what_came_off (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (60, 3);
  OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES);
  g_autoptr(OddProposal) first = propose (job, &options);
  g_autoptr(OddProposal) again = NULL;
  g_autoptr(OddLayout) is = NULL;
  OddId free_id = 0;

  for (guint i = 0; i < job->scraps->len; i++)
    {
      const OddScrap *scrap = job->scraps->pdata[i];

      if (odd_job_get_scrap_state (first->job, scrap->id) == ODD_SCRAP_FREE)
        free_id = scrap->id;
    }
  options.into = ODD_INTO_UNLOCKED;
  options.scrap_ids = &free_id;
  options.n_scrap_ids = 1;
  options.seed = 4;
  again = propose (first->job, &options);
  assert_sound (again->job);
  is = layout_of (again, 0);
  g_assert_cmpuint (again->figures.n_patches, >=, first->figures.n_patches);
  for (guint i = 0; i < is->n_patches; i++)
    if (is->patches[i].scrap != NULL)
      g_assert_true (is->patches[i].scrap->id == free_id || odd_job_get_scrap_state (first->job, is->patches[i].scrap->id) == ODD_SCRAP_PLACED);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/into/one-patch", test_one_patch);
  g_test_add_func ("/into/strip-only", test_strip_only);
  g_test_add_func ("/into/locked-above", test_locked_above);
  g_test_add_func ("/into/sewn-join", test_sewn_join);
  g_test_add_func ("/into/draws-what-came-off", test_draws_what_came_off);

  return g_test_run ();
}
