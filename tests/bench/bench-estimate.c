/* "What can I make?": how long an answer takes, and how far it strays from what proposals make of the same heap. */
#include "config.h"

#include "piecing/estimate.h"
#include "tub-of-fabrics.h"

#include <stdio.h>
#include <string.h>
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
    .templates = { { cut_mm, cut_mm } }, .n_templates = 1, .smallest_mm = 30.0, .allowance_mm = allowance_mm, .liveliness = liveliness,
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

static const OddTemplate THREE[] = { { 100.0, 100.0 }, { 70.0, 70.0 }, { 50.0, 50.0 } };

/* A keystroke that changes the allowance is the dearest: nothing kept can be used. */
static void
bench_keystrokes (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (1000, 1);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  const double start = cpu_ms ();
  double first = 0.0, size = 0.0, three = 0.0, columns = 0.0, crumbs = 0.0, scale = 0.0, again = 0.0;

  for (guint i = 0; i < 5; i++)
    {
      OddWish wish = wish_for (ODD_PIECE_SQUARES, 100.0, 8.0 + i, 0.5);

      first = time_one (tub, &wish, first);
      again = time_one (tub, &wish, again);
      wish.templates[0] = (OddTemplate) { 95.0, 95.0 };
      size = time_one (tub, &wish, size);
      wish.allowance_mm += 0.3;
      wish.n_templates = G_N_ELEMENTS (THREE);
      memcpy (wish.templates, THREE, sizeof THREE);
      three = time_one (tub, &wish, three);
      wish = wish_for (ODD_PIECE_COLUMNS, 100.0, 15.0 + i, 0.5);
      columns = time_one (tub, &wish, columns);
      wish = wish_for (ODD_PIECE_CRUMBS, 100.0, 15.5 + i, 0.5);
      crumbs = time_one (tub, &wish, crumbs);
      wish.scale_mm = 80.0 + i;
      scale = time_one (tub, &wish, scale);
    }
  printf ("1000 scraps, seed 1, slowest of 5 keystrokes (goal 50 ms): squares %.1f ms, other template %.1f ms, three templates %.1f ms, columns %.1f ms, crumbs %.1f ms, "
          "other scale %.3f ms, asked again %.3f ms; all 35 took %.0f ms of processor\n",
          first, size, three, columns, crumbs, scale, again, cpu_ms () - start);
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

/* Share of the heap so far from the border. */
static double
eroded_share (OddTub *tub,
              double  depth_mm)
{
  const OddWish wish = wish_for (ODD_PIECE_COLUMNS, 0.0, depth_mm, 0.5);
  OddEstimate estimate;

  if (!odd_tub_estimate (tub, &wish, &estimate, NULL, NULL))
    g_error ("no estimate");
  return estimate.heap_bound;
}

/* What a proposal makes of a wish a tenth larger than what comes out of it: asked for far more, it would pick the easiest places. */
static OddProposal *
propose_used_up (OddJob        *job,
                 const OddWish *wish,
                 double         wanted_mm2,
                 guint          seed)
{
  OddProposal *proposal = NULL;
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_CRUMBS);
  options.width_mm = PANEL_MM;
  options.treatment.allowance_mm = wish->allowance_mm;
  options.liveliness = wish->liveliness;
  options.scale_mm = wish->scale_mm;
  options.smallest_mm = wish->smallest_mm;
  options.seed = seed;
  for (guint i = 0; i < 3; i++)
    {
      g_clear_pointer (&proposal, odd_proposal_free);
      options.n_panels = (guint) MAX (1.0, 1.1 * wanted_mm2 / (PANEL_MM * 1500.0) + 0.5);
      options.length_mm = 1.1 * wanted_mm2 / (options.n_panels * PANEL_MM);
      proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      wanted_mm2 = proposal->figures.finished_mm2;
    }

  return proposal;
}

static void
bench_crumbs (guint  n_scraps,
              guint  first_seed,
              double allowance_mm,
              double scale_mm,
              double liveliness)
{
  double share = 0.0, off = 0.0, fit = 0.0, patch = 0.0, own = 0.0, seams = 0.0, bare = 0.0;
  const guint n_seeds = 2;

  for (guint seed = first_seed; seed < first_seed + n_seeds; seed++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (n_scraps, seed);
      g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
      OddWish wish = wish_for (ODD_PIECE_CRUMBS, 0.0, allowance_mm, liveliness);
      g_autoptr(OddProposal) proposal = NULL;
      const OddFigures *figures;
      OddEstimate estimate;

      wish.scale_mm = scale_mm;
      if (!odd_tub_estimate (tub, &wish, &estimate, NULL, NULL))
        g_error ("no estimate");
      proposal = propose_used_up (job, &wish, estimate.gives_mm2, seed);
      figures = &proposal->figures;
      share += figures->of_heap / (figures->own_bound * sqrt (eroded_share (tub, allowance_mm + wish.smallest_mm / 2.0))) / n_seeds;
      off += fabs (estimate.gives_mm2 / figures->finished_mm2 - 1.0) / n_seeds;
      fit += figures->fit / n_seeds;
      patch += estimate.patch_mm / sqrt (figures->finished_mm2 / figures->n_patches) / n_seeds;
      own += estimate.own_bound / figures->own_bound / n_seeds;
      seams += figures->seams_mm / (figures->finished_mm2 + figures->bare_mm2) / (estimate.seams_mm / estimate.wanted_mm2) / n_seeds;
      bare += figures->bare_mm2 / (figures->finished_mm2 + figures->bare_mm2) / n_seeds;
    }
  printf ("crumbs used up (%.0f %% bare), %u scraps, allowance %.1f, scale %.0f, liveliness %.1f, seeds %u-%u: fit %.3f, share of own bound x root of takes %.3f, estimate off by "
          "%.1f %%, its patch %.2f, its own bound %.2f; seams %.2f of the estimate\n",
          100.0 * bare, n_scraps, allowance_mm, scale_mm, liveliness, first_seed, first_seed + n_seeds - 1, fit, share, 100.0 * off, patch, own, seams);
}

/* The seeds and sizes the share was fitted to, then others. */
static void
bench_all_crumbs (void)
{
  static const double ALLOWANCES_MM[] = { 6.35, 10.0, 15.0 };
  static const double SCALES_MM[] = { 0.0, 60.0, 90.0, 130.0 };

  for (guint i = 0; i < G_N_ELEMENTS (ALLOWANCES_MM); i++)
    for (guint k = 0; k < G_N_ELEMENTS (SCALES_MM); k++)
      bench_crumbs (60, 1, ALLOWANCES_MM[i], SCALES_MM[k], 0.6);
  for (guint lively = 0; lively <= 2; lively += 2)
    bench_crumbs (60, 1, 10.0, 0.0, lively / 2.0);
  bench_crumbs (30, 11, 10.0, 0.0, 0.6);
  bench_crumbs (30, 11, 12.7, 80.0, 0.3);
  bench_crumbs (100, 21, 8.0, 0.0, 0.6);
  bench_crumbs (200, 31, 10.0, 0.0, 0.6);
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
  bench_all_crumbs ();

  return 0;
}
