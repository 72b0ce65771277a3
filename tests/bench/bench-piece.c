/* Squares and columns on the model heap: how long they take and how well they use it, beside a loop that any computer can be measured by. */
#include "config.h"

#include "cloth/offcuts.h"
#include "piecing/cut-plan.h"
#include "piecing/gives.h"
#include "piecing/proposal.h"
#include "spent.h"
#include "tub-of-fabrics.h"

#include <stdio.h>

#define ALLOWANCE_MM 10.0

static double
ms_since (gint64 start)
{
  return (g_get_monotonic_time () - start) / 1e3;
}

/* Milliseconds for a fixed amount of arithmetic: the measure of this computer in this run. */
static double
calibrate (void)
{
  const gint64 start = g_get_monotonic_time ();
  volatile double sum = 0.0;

  for (guint i = 1; i <= 10000000; i++)
    sum += sqrt (i) / (i + 1.0);

  return ms_since (start);
}

static OddProposalOptions
columns_options (OddJob *job,
                 guint   n_panels,
                 double  liveliness,
                 guint64 seed)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_COLUMNS);
  options.treatment.allowance_mm = ALLOWANCE_MM;
  options.width_mm = 300.0;
  options.length_mm = 1500.0;
  options.n_panels = n_panels;
  options.liveliness = liveliness;
  options.seed = seed;

  return options;
}

/* Usable cloth gone when the plan is cut: the scrap less the offcuts that hold the job's usable square. */
static double
cloth_gone (OddJob             *job,
            const OddScrapPlan *plan,
            double              cut_mm)
{
  static const int LABELS[4] = { 0, 1, 2, 3 };
  OddPolygon *outline = odd_job_get_scrap (job, plan->scrap_id)->outline;
  const OddPlacement turn = { plan->plan->turn_deg, FALSE, { 0.0, 0.0 } };
  const OddPlacement back = odd_placement_inverse (&turn);
  g_autoptr(GPtrArray) cut = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  g_autoptr(GPtrArray) left = NULL;
  double mm2 = odd_polygon_get_area (outline);

  for (guint i = 0; i < plan->plan->pieces->len; i++)
    {
      const OddPoint at = g_array_index (plan->plan->pieces, OddPlanned, i).at;
      g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { at.x, at.y, cut_mm, cut_mm }, LABELS);
      g_autoptr(OddConvex) placed = odd_convex_place (box, &back);

      g_ptr_array_add (cut, odd_polygon_new_from_convex (placed));
    }
  left = odd_polygon_difference_many (outline, (OddPolygon *const *) cut->pdata, cut->len);
  for (guint i = 0; i < left->len; i++)
    if (odd_piece_holds_square (left->pdata[i], job->settings.usable_square_mm))
      mm2 -= odd_polygon_get_area (left->pdata[i]);

  return mm2;
}

/* All squares that the heap gives, by the plans alone. */
static void
bench_cutting (void)
{
  static const double FINISHED_MM[] = { 40.0, 60.0, 80.0, 100.0, 120.0 };
  static const double GOALS[] = { 72.0, 72.0, 75.0, 80.0, 80.0 };
  g_autoptr(OddJob) job = tub_of_fabrics (1000, 1);

  for (guint i = 0; i < G_N_ELEMENTS (FINISHED_MM); i++)
    {
      const double t = FINISHED_MM[i];
      const double bound = t * t / ((t + 2.0 * ALLOWANCE_MM) * (t + 2.0 * ALLOWANCE_MM));
      OddProposalOptions options;
      double used_mm2 = 0.0, finished_mm2 = 0.0, ms = INFINITY, ms_one;
      guint n = 0;

      odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
      options.templates[0] = (OddTemplate) { t + 2.0 * ALLOWANCE_MM, t + 2.0 * ALLOWANCE_MM };
      options.n_threads = 1;
      for (guint go = 0; go < 3; go++)
        {
          const gint64 start = g_get_monotonic_time ();
          g_autoptr(GPtrArray) plans = odd_cut_plans_new (job, &options, ALLOWANCE_MM, NULL, NULL);

          ms_one = ms_since (start);
          ms = MIN (ms, ms_one);
          n = 0;
          finished_mm2 = 0.0;
          for (guint k = 0; k < plans->len; k++)
            {
              const OddScrapPlan *plan = plans->pdata[k];

              n += plan->plan->pieces->len;
              finished_mm2 += plan->plan->finished_mm2;
              if (go == 0 && plan->plan->pieces->len > 0)
                used_mm2 += cloth_gone (job, plan, t + 2.0 * ALLOWANCE_MM);
            }
        }
      printf ("squares %3.0f mm finished, seed 1: %4u from 1000 scraps, %.1f us a scrap on one thread (goal 50), net yield %.1f %% = %.0f %% of the bound (goal %.0f)\n",
              t, n, ms, 100.0 * finished_mm2 / used_mm2, 100.0 * finished_mm2 / used_mm2 / bound, GOALS[i]);
    }
}

/* What is asked at every keystroke while a size is typed. */
static void
bench_counting (guint n)
{
  g_autoptr(OddJob) job = tub_of_fabrics (n, 1);
  OddCutSizes sizes;
  double ms[2] = { INFINITY, INFINITY };
  OddGivesSum sum;

  odd_cut_sizes_init (&sizes, job);
  for (guint go = 0; go < 6; go++)
    {
      const gint64 start = g_get_monotonic_time ();
      g_autoptr(OddGives) gives = odd_gives_new (job, &sizes, go % 2 == 0 ? ODD_GIVES_REMAINS : ODD_GIVES_REMAINS | ODD_GIVES_YIELD, NULL, NULL);

      ms[go % 2] = MIN (ms[go % 2], ms_since (start));
      odd_gives_sum (gives, NULL, 0, &sum);
    }
  printf ("counting %u scraps, seed 1: %u squares, %.0f ms (goal %u), with yield %.0f ms, net yield %.1f %% of %.1f %%\n", n, sum.n_pieces, ms[0], n / 20, ms[1],
          100.0 * sum.net_yield, 100.0 * sum.own_bound);
}

static void
bench_squares (void)
{
  for (guint seed = 1; seed <= 3; seed++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (200, seed);
      OddProposalOptions options;
      gint64 start;
      g_autoptr(OddProposal) proposal = NULL;

      odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
      options.width_mm = 960.0;
      options.length_mm = 960.0;
      options.seed = seed;
      start = g_get_monotonic_time ();
      proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      printf ("squares 12 x 12 from 200 scraps, seed %u: %.0f ms, net %.1f %% (own bound %.1f), fit %.1f %%, %u bare, %u contacts, lightness %.2f\n",
              seed, ms_since (start), 100.0 * proposal->figures.net_yield, 100.0 * proposal->figures.own_bound, 100.0 * proposal->figures.fit,
              proposal->figures.n_bare, proposal->figures.n_contacts, proposal->figures.lightness_spread);
    }
}

static void
bench_columns (guint  n_scraps,
               guint  n_panels,
               double liveliness,
               guint  n_seeds)
{
  double fit = 0.0, ms = 0.0, net = 0.0, bound = 0.0, of_heap = 0.0, patches = 0.0, contacts = 0.0, lined_up = 0.0, bare = 0.0, lightness = 0.0;

  for (guint seed = 1; seed <= n_seeds; seed++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (n_scraps, seed);
      const OddProposalOptions options = columns_options (job, n_panels, liveliness, seed);
      const gint64 start = g_get_monotonic_time ();
      g_autoptr(OddProposal) proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      const OddFigures *f = &proposal->figures;

      ms += ms_since (start) / n_seeds;
      fit += 100.0 * f->fit / n_seeds;
      net += 100.0 * f->net_yield / n_seeds;
      bound += 100.0 * f->own_bound / n_seeds;
      of_heap += 100.0 * f->of_heap / n_seeds;
      patches += (double) f->n_patches / n_seeds;
      contacts += (double) f->n_contacts / n_seeds;
      lined_up += (double) f->n_lined_up / n_seeds;
      lightness += f->lightness_spread / n_seeds;
      bare += f->bare_mm2 / 1e4 / n_seeds;
    }
  printf ("columns %u of 300 x 1500 from %u scraps, liveliness %.1f, seeds 1-%u, look and figures included: %.0f ms, net %.1f %% (own bound %.1f), fit %.1f %%, "
          "%.1f %% of heap, %.0f patches, %.1f contacts, %.1f lined up, lightness %.2f, bare %.0f dm2\n",
          n_panels, n_scraps, liveliness, n_seeds, ms, net, bound, fit, of_heap, patches, contacts, lined_up, lightness, bare);
}

/* The same without look. */
static void
bench_fill (guint n_scraps)
{
  g_autoptr(OddJob) job = tub_of_fabrics (n_scraps, 1);
  OddProposalOptions options = columns_options (job, 1, 0.0, 1);
  double ms = INFINITY;

  options.moves = 1;
  for (guint go = 0; go < 3; go++)
    {
      const gint64 start = g_get_monotonic_time ();
      g_autoptr(OddProposal) proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);

      ms = MIN (ms, ms_since (start));
    }
  printf ("column from %u scraps, seed 1, without look: %.0f ms (goal %d)\n", n_scraps, ms, n_scraps > 200 ? 300 : 100);
}

/* Goals: 10 s, 300 MB. */
static void
bench_tub (void)
{
  bench_columns (2000, 20, 0.5, 1);
  printf ("  at most %.0f MB in memory\n", spent_peak_mb ());
}

/* "tub" runs the largest alone. */
int
main (int    argc,
      char **argv)
{
  printf ("calibration: %.1f ms; %u processors\n", calibrate (), g_get_num_processors ());
  bench_tub ();
  if (argc > 1)
    return 0;
  bench_cutting ();
  bench_counting (1000);
  bench_counting (2000);
  bench_squares ();
  bench_fill (200);
  bench_fill (1000);
  bench_columns (60, 1, 0.0, 8);
  bench_columns (200, 1, 0.0, 8);
  bench_columns (1000, 1, 0.0, 2);
  bench_columns (200, 8, 0.0, 4);
  bench_columns (60, 1, 1.0, 4);
  bench_columns (200, 1, 1.0, 8);
  bench_columns (200, 1, 0.5, 4);
  bench_columns (200, 8, 1.0, 2);

  return 0;
}
