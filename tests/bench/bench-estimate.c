/* "What can I make?": how long an answer takes, and how far it strays from what proposals make of the same heap. */
#include "config.h"

#include "piecing/estimate.h"
#include "tub-of-fabrics.h"

#include <stdio.h>
#include <time.h>

#define PANEL_MM 300.0

static double
ms_since (gint64 start)
{
  return (g_get_monotonic_time () - start) / 1e3;
}

/* Of all threads: says what an answer costs where others use the computer too. */
static double
cpu_ms (void)
{
  return 1e3 * (double) clock () / CLOCKS_PER_SEC;
}

static OddWish
wish_for (OddPieceManner manner,
          double    cut_mm,
          double    allowance_mm,
          double    liveliness)
{
  return (OddWish) {
    .manner = manner, .width_mm = 1500.0, .length_mm = 2000.0, .panel_width_mm = PANEL_MM,
    .size = { cut_mm, cut_mm }, .allowance_mm = allowance_mm, .liveliness = liveliness,
  };
}

/* The slower of this and @slowest. */
static double
time_one (OddTub        *tub,
          const OddWish *wish,
          double         slowest)
{
  const gint64 start = g_get_monotonic_time ();
  OddEstimate estimate;
  double ms;

  if (!odd_tub_estimate (tub, wish, &estimate, NULL, NULL))
    g_error ("no estimate");
  ms = ms_since (start);
  return MAX (ms, slowest);
}

/* A keystroke that changes the allowance is the dearest: nothing kept can be used. */
static void
bench_keystrokes (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (1000, 1);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  const double start = cpu_ms ();
  double first = 0.0, size = 0.0, mixed = 0.0, again = 0.0;

  for (guint i = 0; i < 5; i++)
    {
      OddWish wish = wish_for (ODD_PIECE_SQUARES, 100.0, 8.0 + i, 0.5);

      first = time_one (tub, &wish, first);
      again = time_one (tub, &wish, again);
      wish.size.width_mm = wish.size.length_mm = 95.0;
      size = time_one (tub, &wish, size);
      wish = wish_for (ODD_PIECE_COLUMNS, 100.0, 15.0 + i, 0.5);
      mixed = time_one (tub, &wish, mixed);
    }
  printf ("1000 scraps, seed 1, slowest of 5 keystrokes (goal 50 ms): squares %.1f ms, other template %.1f ms, columns %.1f ms, asked again %.3f ms; "
          "all 15 took %.0f ms of processor\n",
          first, size, mixed, again, cpu_ms () - start);
}

/* Proposals that ask for more than there is, so that the heap is used up. */
static void
bench_columns (guint  n_scraps,
               double allowance_mm,
               double liveliness)
{
  double share = 0.0, off = 0.0, patch = 0.0, seams = 0.0;
  const guint n_seeds = 3;

  for (guint seed = 1; seed <= n_seeds; seed++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (n_scraps, seed);
      g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
      const OddWish wish = wish_for (ODD_PIECE_COLUMNS, 0.0, allowance_mm, liveliness);
      OddEstimate estimate;
      OddProposalOptions options;
      g_autoptr(OddProposal) proposal = NULL;
      double eroded_mm2;

      if (!odd_tub_estimate (tub, &wish, &estimate, NULL, NULL))
        g_error ("no estimate");
      eroded_mm2 = estimate.heap_bound * estimate.heap_mm2;
      odd_proposal_options_init (&options, job, ODD_PIECE_COLUMNS);
      options.width_mm = PANEL_MM;
      options.length_mm = 1500.0;
      options.n_panels = (guint) (estimate.heap_mm2 / (PANEL_MM * 1500.0)) + 1;
      options.treatment.allowance_mm = allowance_mm;
      options.liveliness = liveliness;
      options.seed = seed;
      options.moves = 1;
      proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      share += proposal->figures.finished_mm2 / (eroded_mm2 * sqrt (estimate.heap_bound)) / n_seeds;
      off += fabs (estimate.gives_mm2 / proposal->figures.finished_mm2 - 1.0) / n_seeds;
      patch += proposal->figures.finished_mm2 / proposal->figures.n_patches / (estimate.heap_mm2 / n_scraps) / n_seeds;
      seams += proposal->figures.seams_mm / proposal->figures.finished_mm2 / (estimate.seams_mm / estimate.wanted_mm2) / n_seeds;
    }
  printf ("columns used up, %u scraps, allowance %.1f, liveliness %.1f, seeds 1-%u: share of heap bound x its root %.3f, estimate off by %.1f %%, patch %.3f of a scrap, seams %.2f of the estimate\n",
          n_scraps, allowance_mm, liveliness, n_seeds, share, 100.0 * off, patch, seams);
}

int
main (void)
{
  static const double ALLOWANCES_MM[] = { 6.35, 10.0, 15.0 };

  bench_keystrokes ();
  for (guint i = 0; i < G_N_ELEMENTS (ALLOWANCES_MM); i++)
    for (guint lively = 0; lively <= 2; lively++)
      bench_columns (200, ALLOWANCES_MM[i], lively / 2.0);
  bench_columns (60, 10.0, 0.5);
  bench_columns (600, 10.0, 0.5);

  return 0;
}
