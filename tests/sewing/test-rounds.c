#include "config.h"

#include "sewing/rounds.h"

#include <string.h>

#define MOST_PARTS 40

/* The textbook way, which knows nothing of places: over all ways to part a run of neighbours in two. */
static guint
by_intervals (const guint *heights,
              guint        n)
{
  guint best[MOST_PARTS][MOST_PARTS];

  for (guint i = 0; i < n; i++)
    best[i][i] = heights[i];
  for (guint length = 2; length <= n; length++)
    for (guint i = 0; i + length <= n; i++)
      {
        best[i][i + length - 1] = G_MAXUINT;
        for (guint k = i; k + 1 < i + length; k++)
          best[i][i + length - 1] = MIN (best[i][i + length - 1], MAX (best[i][k], best[k + 1][i + length - 1]) + 1);
      }
  return best[0][n - 1];
}

/* Are these rounds a way to sew the strip? Seams by rounds; each joins two blocks, and waits for all of theirs. */
static void
assert_sewable (const guint *heights,
                const guint *rounds,
                guint        n)
{
  for (guint i = 0; i + 1 < n; i++)
    {
      g_assert_cmpuint (rounds[i], >, MAX (heights[i], heights[i + 1]));
      for (guint k = i + 1; k + 1 < n && rounds[k - 1] < rounds[i]; k++)
        g_assert_cmpuint (rounds[k], !=, rounds[i]);
    }
}

static void
test_equals_intervals (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (7);
  guint heights[MOST_PARTS], rounds[MOST_PARTS];

  for (guint row = 0; row < 4000; row++)
    {
      const guint n = g_rand_int_range (rand, 1, row % 10 == 0 ? MOST_PARTS : 13);
      const guint highest = g_rand_int_range (rand, 1, 8);
      guint height, most = 0;

      for (guint i = 0; i < n; i++)
        heights[i] = g_rand_int_range (rand, 0, highest);
      height = odd_rounds_fewest (heights, NULL, n, rounds);
      g_assert_cmpuint (height, ==, by_intervals (heights, n));
      assert_sewable (heights, rounds, n);
      for (guint i = 0; i + 1 < n; i++)
        most = MAX (most, rounds[i]);
      g_assert_cmpuint (n > 1 ? most : heights[0], ==, height);
    }
}

/* ceil (log2 n), counted by doubling. */
static void
test_equal_units (void)
{
  g_autofree guint *heights = g_new0 (guint, 1100);

  for (guint n = 1; n <= 1100; n++)
    {
      guint doublings = 0;

      while ((1u << doublings) < n)
        doublings++;
      g_assert_cmpuint (odd_rounds_fewest (heights, NULL, n, NULL), ==, doublings);
      g_assert_cmpuint (odd_rounds_in_turn (heights, n, NULL), ==, n - 1);
    }
}

/* More places than any machine word counts. */
static void
test_tall_parts (void)
{
  const guint heights[] = { 300, 0, 300, 2, 2, 301, 0 };
  guint rounds[G_N_ELEMENTS (heights)];

  g_assert_cmpuint (odd_rounds_fewest (heights, NULL, G_N_ELEMENTS (heights), rounds), ==, by_intervals (heights, G_N_ELEMENTS (heights)));
  assert_sewable (heights, rounds, G_N_ELEMENTS (heights));
}

/* Whoever follows the plan keeps it: with any seams sewn that were next, all others stay in their rounds. */
static void
test_followed_plan_stays (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (11);

  for (guint row = 0; row < 500; row++)
    {
      const guint n = g_rand_int_range (rand, 2, 20);
      g_autofree guint *heights = g_new0 (guint, n);
      g_autofree guint *planned = g_new0 (guint, n);
      g_autofree guint *now = g_new0 (guint, n);
      g_autofree gboolean *joined = g_new0 (gboolean, n);
      guint height;

      for (guint i = 0; i < n; i++)
        heights[i] = g_rand_int_range (rand, 0, 4);
      height = odd_rounds_fewest (heights, NULL, n, planned);
      for (guint round = 1; round <= height; round++)
        for (guint i = 0; i + 1 < n; i++)
          if (planned[i] == round)
            {
              joined[i] = TRUE;
              g_assert_cmpuint (odd_rounds_fewest (heights, joined, n, now), ==, height);
              g_assert_cmpmem (now, (n - 1) * sizeof (guint), planned, (n - 1) * sizeof (guint));
            }
    }
}

/* Squares 2 and 3 of four were sewn together first: three rounds in all, where two would have done. */
static void
test_out_of_order (void)
{
  const guint heights[] = { 0, 0, 0, 0 };
  const gboolean joined[] = { FALSE, TRUE, FALSE };
  guint rounds[3];

  g_assert_cmpuint (odd_rounds_fewest (heights, joined, 4, rounds), ==, 3);
  g_assert_cmpuint (rounds[1], ==, 1);
  g_assert_cmpuint (rounds[0], ==, 2);
  g_assert_cmpuint (rounds[2], ==, 3);
}

static void
test_in_turn (void)
{
  const guint heights[] = { 0, 3, 0, 1 };
  guint rounds[3];

  g_assert_cmpuint (odd_rounds_in_turn (heights, 4, rounds), ==, 6);
  g_assert_cmpuint (rounds[0], ==, 4);
  g_assert_cmpuint (rounds[1], ==, 5);
  g_assert_cmpuint (rounds[2], ==, 6);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rounds/equals-intervals", test_equals_intervals);
  g_test_add_func ("/rounds/equal-units", test_equal_units);
  g_test_add_func ("/rounds/tall-parts", test_tall_parts);
  g_test_add_func ("/rounds/followed-plan-stays", test_followed_plan_stays);
  g_test_add_func ("/rounds/out-of-order", test_out_of_order);
  g_test_add_func ("/rounds/in-turn", test_in_turn);
  return g_test_run ();
}
