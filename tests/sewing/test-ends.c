#include "config.h"

#include "sewing/ends.h"
#include "sewing/plan.h"
#include "tests/grid.h"

#define PITCH 94.6

/* By hand, 2 x 2 squares, alone in the textile: each square seam ends on the row seam and on an outer edge, the row seam on two outer edges. */
static void
test_one_panel (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, PITCH, PITCH, &id);
  g_autoptr(GArray) ends = odd_job_dup_ends (job, 0);
  guint n_caught = 0;

  g_assert_cmpuint (ends->len, ==, 6);
  for (guint i = 0; i < ends->len; i++)
    n_caught += g_array_index (ends, OddSeamEnd, i).kind == ODD_END_CAUGHT;
  g_assert_cmpuint (n_caught, ==, 2);
  g_assert_cmpuint (odd_job_count_ends_to_secure (job, 0), ==, 4);
}

/* A second panel beside it: the join catches one end of each row seam, and has two open ends of its own. */
static void
test_join_catches (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, PITCH, PITCH, &id);

  job = grid_add_panel (g_steal_pointer (&job), 2, 2, PITCH, PITCH, &id);
  g_assert_cmpuint (odd_job_count_ends_to_secure (job, 0), ==, 2 * 4 - 2 + 2);
}

static void
test_secured (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 2, 2, PITCH, PITCH, &id);
  g_autoptr(GArray) ends = odd_job_dup_ends (job, 0);
  GError *error = NULL;

  for (guint i = 0; i < ends->len; i++)
    {
      const OddSeamEnd *end = &g_array_index (ends, OddSeamEnd, i);

      g_assert_false (end->sewn);
      if (odd_end_wants_securing (end->kind))
        grid_take (&job, odd_job_set_end_secured (job, end->seam_id, end->end, TRUE, &error), error);
    }
  g_assert_cmpuint (odd_job_count_ends_to_secure (job, 0), ==, 0);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ends/one-panel", test_one_panel);
  g_test_add_func ("/ends/join-catches", test_join_catches);
  g_test_add_func ("/ends/secured", test_secured);
  return g_test_run ();
}
