/* What a few panels ask for: no more than theirs, and all of it. */
#include "config.h"

#include "piecing/proposal.h"
#include "sewing/own-time.h"
#include "sewing/panel-work.h"
#include "bench/tub-of-fabrics.h"

static OddProposal *
propose (OddJob        *job,
         OddPieceManner manner,
         guint          n_panels)
{
  OddProposalOptions options;
  g_autoptr(GError) error = NULL;
  OddProposal *proposal;

  odd_proposal_options_init (&options, job, manner);
  options.width_mm = 240.0;
  options.length_mm = 480.0;
  options.n_panels = n_panels;
  options.moves = 100;
  proposal = odd_propose (job, &options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return proposal;
}

/* 3 x 6 squares of 80 mm: rows of three want two rounds, six rows three more (fewest rounds of n parts: ceil (log2 n), common practice, no source). */
static void
test_rounds (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (200, 2);
  g_autoptr(OddProposal) proposal = propose (job, ODD_PIECE_SQUARES, 2);

  g_assert_cmpuint (odd_job_measure_panel_work (proposal->job, (const OddId *) proposal->panels->data, 2).n_rounds, ==, 5);
}

static void
test_parts_and_whole (void)
{
  for (guint manner = 0; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (300, 3);
      g_autoptr(OddProposal) proposal = propose (job, (OddPieceManner) manner, 3);
      const OddId *panels = (const OddId *) proposal->panels->data;
      g_autoptr(OddPlan) plan = odd_plan_new (proposal->job, 0, ODD_MANNER_CHAIN, NULL, 0, NULL);
      const OddRange walk = odd_time_get_figure (ODD_TIME_WALKING, NULL).range;
      const OddRange all = odd_job_plan_time (proposal->job, plan).all;
      const OddPanelWork three = odd_job_measure_panel_work (proposal->job, panels, 3);
      const OddPanelWork first = odd_job_measure_panel_work (proposal->job, panels, 1);
      const OddPanelWork last = odd_job_measure_panel_work (proposal->job, panels + 2, 1);
      const OddPanelWork middle = odd_job_measure_panel_work (proposal->job, panels + 1, 1);

      g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
      g_assert_cmpfloat_with_epsilon (three.time_s.low, all.low - plan->n_walks * walk.low, 1e-6);
      g_assert_cmpfloat_with_epsilon (three.time_s.high, all.high - plan->n_walks * walk.high, 1e-6);
      /* each join is told of the panel at either side of it */
      g_assert_cmpfloat (first.time_s.low + middle.time_s.low + last.time_s.low, >, three.time_s.low);
      g_assert_cmpfloat (first.time_s.low + last.time_s.low, <, three.time_s.low);
      g_assert_cmpuint (MAX (MAX (first.n_rounds, middle.n_rounds), last.n_rounds), ==, three.n_rounds);
      g_assert_cmpuint (three.n_rounds, <, plan->n_rounds);
    }
}

/* Loose, and with nothing to do with what hangs in the textile. */
static void
test_beside (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (300, 5);
  g_autoptr(OddProposal) first = propose (job, ODD_PIECE_COLUMNS, 2);
  const OddPanelWork before = odd_job_measure_panel_work (first->job, (const OddId *) first->panels->data, 2);
  OddProposalOptions options;
  g_autoptr(OddProposal) second = NULL;
  OddPanelWork after;

  odd_proposal_options_init (&options, first->job, ODD_PIECE_COLUMNS);
  options.into = ODD_INTO_LOOSE;
  options.length_mm = 300.0;
  second = odd_propose (first->job, &options, NULL, NULL, NULL, NULL);
  g_assert_nonnull (second);
  after = odd_job_measure_panel_work (second->job, (const OddId *) first->panels->data, 2);
  g_assert_cmpfloat (before.time_s.low, ==, after.time_s.low);
  g_assert_cmpfloat (before.time_s.high, ==, after.time_s.high);
  g_assert_cmpuint (before.n_rounds, ==, after.n_rounds);
  g_assert_cmpfloat (odd_job_measure_panel_work (second->job, (const OddId *) second->panels->data, 1).time_s.low, >, 0.0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/panel-work/rounds", test_rounds);
  g_test_add_func ("/panel-work/parts-and-whole", test_parts_and_whole);
  g_test_add_func ("/panel-work/beside", test_beside);
  return g_test_run ();
}
