#include "config.h"

/* Machine settings of the order of work: no way to change thread and stitch less often, by trying every order there is. */
#include "sewing/plan-graph.h"

#define MOST_BATCHES 4
#define N_SETTINGS 4

static const OddMachineSetting settings[N_SETTINGS] = {
  { ODD_STATION_SEWING_MACHINE, "301", FALSE, ODD_SHADE_DARK },
  { ODD_STATION_SEWING_MACHINE, "301", FALSE, ODD_SHADE_PALE },
  { ODD_STATION_SEWING_MACHINE, "301", TRUE, ODD_SHADE_DARK },
  { ODD_STATION_SEWING_MACHINE, "304", FALSE, ODD_SHADE_PALE },
};

/* Counted here anew: one change for another thread, one for another stitch. */
static guint
changes_between (guint a, guint b)
{
  return (settings[a].shade != settings[b].shade) + (g_strcmp0 (settings[a].stitch, settings[b].stitch) != 0 || settings[a].topstitch != settings[b].topstitch);
}

/* The least over every order of every batch. @last: set before, N_SETTINGS: none yet; @left: still to be used in this batch. */
static guint
try_all (const guint32 *needed, guint n_batches, guint batch, guint32 left, guint last)
{
  guint least = G_MAXUINT;

  if (left == 0)
    return batch + 1 == n_batches ? 0 : try_all (needed, n_batches, batch + 1, needed[batch + 1], last);
  for (guint s = 0; s < N_SETTINGS; s++)
    if ((left >> s) & 1)
      least = MIN (least, (last < N_SETTINGS ? changes_between (last, s) : 0) + try_all (needed, n_batches, batch, left & ~(1u << s), s));
  return least;
}

static guint
walk_ranks (const guint32 *needed, guint n_batches, const guint8 *ranks)
{
  guint n = 0, last = N_SETTINGS;

  for (guint batch = 0; batch < n_batches; batch++)
    for (guint rank = 0; rank < N_SETTINGS; rank++)
      for (guint s = 0; s < N_SETTINGS; s++)
        if (((needed[batch] >> s) & 1) && ranks[batch * N_SETTINGS + s] == rank)
          {
            n += last < N_SETTINGS ? changes_between (last, s) : 0;
            last = s;
          }
  return n;
}

static void
test_by_hand (void)
{
  const guint32 needed[] = { 0x3, 0x3 };
  guint8 ranks[2 * N_SETTINGS];

  g_test_summary ("Dark and pale thread in two stops: dark, pale, pale, dark is one change each, two in all; beginning anew with dark would be three");
  memset (ranks, G_MAXUINT8, sizeof ranks);
  g_assert_cmpuint (odd_settings_order (needed, 2, settings, N_SETTINGS, ranks), ==, 2);
  g_assert_cmpuint (walk_ranks (needed, 2, ranks), ==, 2);
}

static void
test_against_all (void)
{
  for (guint round = 0; round < 500; round++)
    {
      const guint n = g_test_rand_int_range (1, MOST_BATCHES + 1);
      guint32 needed[MOST_BATCHES];
      guint8 ranks[MOST_BATCHES * N_SETTINGS];
      guint found;

      for (guint i = 0; i < n; i++)
        needed[i] = (guint32) g_test_rand_int_range (1, 1 << N_SETTINGS);
      memset (ranks, G_MAXUINT8, sizeof ranks);
      found = odd_settings_order (needed, n, settings, N_SETTINGS, ranks);
      g_assert_cmpuint (found, ==, try_all (needed, n, 0, needed[0], N_SETTINGS));
      g_assert_cmpuint (found, ==, walk_ranks (needed, n, ranks));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/settings/by-hand", test_by_hand);
  g_test_add_func ("/settings/against-all", test_against_all);
  return g_test_run ();
}
