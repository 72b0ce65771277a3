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

/* --- many settings in one stop: threads by stitches, as they come --- */

#define MANY 24
static OddMachineSetting many[MANY];

static void
set_many (void)
{
  static const char *const stitches[] = { "301", "304", "401", "308" };

  for (guint i = 0; i < MANY; i++)
    many[i] = (OddMachineSetting) { ODD_STATION_SEWING_MACHINE, stitches[i / 3 % 4], i >= 12, i % 3 };
}

static guint
changes_of_many (guint a, guint b)
{
  return (many[a].shade != many[b].shade) + (g_strcmp0 (many[a].stitch, many[b].stitch) != 0 || many[a].topstitch != many[b].topstitch);
}

static guint
walk_many (const guint32 *needed, guint n_batches, const guint8 *ranks)
{
  guint n = 0, last = MANY;

  for (guint batch = 0; batch < n_batches; batch++)
    for (guint rank = 0; rank < MANY; rank++)
      for (guint s = 0; s < MANY; s++)
        if (((needed[batch] >> s) & 1) && ranks[batch * MANY + s] == rank)
          {
            n += last < MANY ? changes_of_many (last, s) : 0;
            last = s;
          }
  return n;
}

/* No order is better than this: each setting of a batch but the first needs a change to come to it, and the first none at best, where the batch before ended with it. */
static guint
bound_many (const guint32 *needed, guint n_batches)
{
  guint n = 0;

  for (guint batch = 0; batch < n_batches; batch++)
    for (guint s = 0, first = 1; s < MANY; s++)
      if ((needed[batch] >> s) & 1)
        {
          n += !first;
          first = 0;
        }
  return n;
}

static guint32
take_some (guint n)
{
  guint32 set = 0;

  for (guint left = n; left > 0; )
    {
      const guint s = g_test_rand_int_range (0, MANY);

      left -= !((set >> s) & 1);
      set |= 1u << s;
    }
  return set;
}

/* 9 settings are what zigzag, plain and topstitched seams in three threads come to: 8 changes, as thread and stitch never change together. The given order, which
 * goes back to the first thread with each stitch, takes 10. All 24 likewise: 23. */
static void
test_many_by_hand (void)
{
  const guint32 nine[] = { 0x00703f }, all[] = { 0xffffff };
  guint8 ranks[MANY];

  set_many ();
  memset (ranks, G_MAXUINT8, sizeof ranks);
  g_assert_cmpuint (odd_settings_order (nine, 1, many, MANY, ranks), ==, 8);
  g_assert_cmpuint (walk_many (nine, 1, ranks), ==, 8);
  memset (ranks, G_MAXUINT8, sizeof ranks);
  g_assert_cmpuint (odd_settings_order (all, 1, many, MANY, ranks), ==, 23);
  g_assert_cmpuint (walk_many (all, 1, ranks), ==, 23);
}

/* Small stops round a large one: dark plain; all; pale plain. The large one goes on with what is set, 23 changes; then at most thread and stitch. */
static void
test_many_between (void)
{
  const guint32 needed[] = { 1u << ODD_SHADE_DARK, 0xffffff, 1u << ODD_SHADE_PALE };
  guint8 ranks[3 * MANY];
  guint found;

  set_many ();
  memset (ranks, G_MAXUINT8, sizeof ranks);
  found = odd_settings_order (needed, 3, many, MANY, ranks);
  g_assert_cmpuint (found, ==, walk_many (needed, 3, ranks));
  g_assert_cmpuint (ranks[MANY + ODD_SHADE_DARK], ==, 0);        /* goes on with what is set */
  g_assert_cmpuint (found, <=, 23 + 2);
}

/* Never worse than as given, each setting once, and seldom far from the bound. */
static void
test_many_laws (void)
{
  guint over = 0, least = 0;

  set_many ();
  for (guint round = 0; round < 200; round++)
    {
      const guint n = g_test_rand_int_range (1, MOST_BATCHES + 1);
      guint32 needed[MOST_BATCHES];
      guint8 ranks[MOST_BATCHES * MANY], given[MOST_BATCHES * MANY];
      guint found;

      memset (ranks, G_MAXUINT8, sizeof ranks);
      for (guint i = 0; i < n; i++)
        {
          needed[i] = take_some (g_test_rand_int_range (1, MANY + 1));
          for (guint s = 0; s < MANY; s++)
            given[i * MANY + s] = s;
        }
      found = odd_settings_order (needed, n, many, MANY, ranks);
      g_assert_cmpuint (found, ==, walk_many (needed, n, ranks));
      g_assert_cmpuint (found, <=, walk_many (needed, n, given));
      for (guint i = 0; i < n; i++)
        {
          guint32 used = 0;

          for (guint s = 0; s < MANY; s++)
            if ((needed[i] >> s) & 1)
              used |= 1u << ranks[i * MANY + s];
          g_assert_cmpuint (used, ==, (guint32) ((G_GUINT64_CONSTANT (1) << __builtin_popcount (needed[i])) - 1));
        }
      least += bound_many (needed, n);
      over += found - bound_many (needed, n);
    }
  g_test_message ("%u changes over a bound of %u", over, least);
  g_assert_cmpuint (over * 10, <=, least);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/settings/by-hand", test_by_hand);
  g_test_add_func ("/settings/against-all", test_against_all);
  g_test_add_func ("/settings/many-by-hand", test_many_by_hand);
  g_test_add_func ("/settings/many-between", test_many_between);
  g_test_add_func ("/settings/many-laws", test_many_laws);
  return g_test_run ();
}
