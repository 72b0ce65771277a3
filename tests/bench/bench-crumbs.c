/* Crumbs on the model heap: what a move costs by the size of the cloth, and what comes out of first proposals and of improving.
 * Words name the parts to run: tub, moves, cancel, figures. */
#include "config.h"

#include "piecing/proposal.h"
#include "spent.h"
#include "tub-of-fabrics.h"

#include <stdio.h>

#define ALLOWANCE_MM 10.0

static OddProposalOptions
options_for (OddJob *job,
             double  length_mm,
             guint   n_panels,
             guint   seed)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_CRUMBS);
  options.treatment.allowance_mm = ALLOWANCE_MM;
  options.width_mm = 300.0;
  options.length_mm = length_mm;
  options.n_panels = n_panels;
  options.seed = seed;

  return options;
}

static OddProposal *
improve (const OddProposal        *first,
         const OddProposalOptions *options)
{
  return odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, options, NULL, NULL, NULL, NULL);
}

static void
print (const char       *what,
       const OddFigures *f,
       const Spent      *spent)
{
  printf ("  %s: %.2f s, cpu / wall %.2f, net %.1f %% (own bound %.1f), fit %.1f %%, %u patches, %.0f bare dm2, narrowest %.1f mm, %u contacts, %u alike, "
          "%u lined up, lightness %.2f\n",
          what, spent->wall_s, spent->cpu_s / spent->wall_s, 100.0 * f->net_yield, 100.0 * f->own_bound, 100.0 * f->fit, f->n_patches, f->bare_mm2 / 1e4,
          f->smallest_side_mm, f->n_contacts, f->n_alike, f->n_lined_up, f->lightness_spread);
}

/* Goals: first proposal 0.5 s; fit 95 % within 2 s in all, 97 % at about 70 patches after 15 s; nothing narrower than 30 mm, no contacts. */
static void
bench_figures (guint  n_scraps,
               guint  seed,
               double scale_mm,
               double seconds)
{
  g_autoptr(OddJob) job = tub_of_fabrics (n_scraps, seed);
  OddProposalOptions options = options_for (job, 1500.0, 1, seed);
  g_autoptr(OddProposal) first = NULL, better = NULL;
  Spent spent = spent_begin ();

  options.seconds = seconds;
  options.scale_mm = scale_mm;
  printf ("crumbs 300 x 1500 from %u scraps, seed %u, scale %.0f\n", n_scraps, seed, scale_mm);
  first = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  spent_end (&spent);
  print ("first", &first->figures, &spent);
  spent = spent_begin ();
  better = improve (first, &options);
  spent_end (&spent);
  print ("improved", &better->figures, &spent);
}

/* Each time twice as much cloth, of patches of one size, and so many moves. */
static void
bench_moves (void)
{
  for (guint n_panels = 1; n_panels <= 16; n_panels *= 2)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (150 * n_panels, 1);
      OddProposalOptions options = options_for (job, 1500.0, n_panels, 1);
      g_autoptr(OddProposal) first = NULL, better = NULL, told = NULL;
      Spent one = spent_begin (), many;

      options.scale_mm = 90.0;
      options.n_threads = 1;
      options.moves = 512;
      first = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      one = spent_begin ();
      told = improve (first, &options);
      spent_end (&one);
      options.moves = 512 + 6144;
      many = spent_begin ();
      better = improve (first, &options);
      spent_end (&many);
      printf ("crumbs, %u patches, seed 1, one thread: %.0f us a move, %.0f ms before the first\n", first->figures.n_patches,
              1e6 * (many.cpu_s - one.cpu_s) / 6144, 1e3 * one.cpu_s);
    }
}

/* Goals: 10 s, 300 MB. */
static void
bench_tub (double seconds)
{
  g_autoptr(OddJob) job = tub_of_fabrics (2000, 1);
  OddProposalOptions options = options_for (job, 1500.0, 20, 1);
  g_autoptr(OddProposal) first = NULL, better = NULL;
  Spent spent = spent_begin ();

  options.seconds = seconds;
  printf ("crumbs 20 of 300 x 1500 from 2000 scraps, seed 1\n");
  first = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  spent_end (&spent);
  print ("first", &first->figures, &spent);
  spent = spent_begin ();
  better = improve (first, &options);
  spent_end (&spent);
  print ("improved", &better->figures, &spent);
  printf ("  at most %.0f MB in memory\n", spent_peak_mb ());
}

typedef struct { GCancellable *cancellable; double after_s, at_s; } Cancelling;

static gpointer
cancel_cb (gpointer data)
{
  Cancelling *self = data;

  g_usleep ((gulong) (self->after_s * 1e6));
  self->at_s = spent_now ().wall_s;
  g_cancellable_cancel (self->cancellable);

  return NULL;
}

static void
watch_cb (double       done,
          OddProposal *so_far,
          gpointer     data)
{
}

/* Goal: 100 ms from the word to the end, at whatever moment it is said. */
static void
bench_cancel (guint n_scraps,
              guint n_panels)
{
  g_autoptr(OddJob) job = tub_of_fabrics (n_scraps, 1);
  OddProposalOptions options = options_for (job, 1500.0, n_panels, 1);
  g_autoptr(OddProposal) first = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  double most_ms[2] = { 0.0, 0.0 };

  options.seconds = 60.0;
  for (guint i = 0; i < 12; i++)
    {
      g_autoptr(GCancellable) cancellable = g_cancellable_new ();
      Cancelling cancelling = { cancellable, 0.05 + 0.17 * i };
      GThread *thread = g_thread_new ("cancel", cancel_cb, &cancelling);
      g_autoptr(OddProposal) stopped = i % 2 == 0 ? odd_propose (job, &options, NULL, NULL, cancellable, NULL)
                                                  : odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, &options, watch_cb,
                                                                 NULL, cancellable, NULL);
      const double end_s = spent_now ().wall_s;

      g_thread_join (thread);
      if (stopped == NULL)
        most_ms[i % 2] = MAX (most_ms[i % 2], 1e3 * (end_s - cancelling.at_s));
    }
  printf ("crumbs, %u columns of 300 x 1500 from %u scraps, seed 1, cancelled at 12 moments: over within %.0f ms proposing, %.0f ms improving (goal 100)\n",
          n_panels, n_scraps, most_ms[0], most_ms[1]);
}

static gboolean
is_wanted (char      **words,
           int         n,
           const char *part)
{
  for (int i = 1; i < n; i++)
    if (g_str_equal (words[i], part))
      return TRUE;

  return n < 2;
}

int
main (int    argc,
      char **argv)
{
  /* first, so that the peak is its own */
  if (is_wanted (argv, argc, "tub"))
    bench_tub (6.0);
  if (is_wanted (argv, argc, "moves"))
    bench_moves ();
  if (is_wanted (argv, argc, "cancel"))
    {
      bench_cancel (200, 1);
      bench_cancel (2000, 20);
    }
  if (is_wanted (argv, argc, "figures"))
    {
      for (guint seed = 1; seed <= 4; seed++)
        bench_figures (200, seed, 0.0, 1.5);
      bench_figures (200, 1, 82.0, 15.0);
      bench_figures (200, 2, 82.0, 15.0);
      bench_figures (60, 1, 0.0, 1.5);
      bench_figures (1000, 1, 0.0, 1.5);
    }

  return 0;
}
