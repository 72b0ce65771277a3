/* What a tub gives: hand-worked, and against what proposals make of the same scraps. */
#include "config.h"

#include "piecing/estimate.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

#include <string.h>

static OddJob *
tub_of_boxes (guint  n,
              double width_mm,
              double length_mm)
{
  OddJob *job = odd_job_new ();

  for (guint i = 0; i < n; i++)
    tub_add_box (&job, width_mm, length_mm);

  return job;
}

static OddWish
squares (double width_mm,
         double length_mm,
         double panel_width_mm)
{
  return (OddWish) {
    .manner = ODD_PIECE_SQUARES, .width_mm = width_mm, .length_mm = length_mm, .panel_width_mm = panel_width_mm,
    .templates = { { 100.0, 100.0 } }, .n_templates = 1, .allowance_mm = 10.0,
  };
}

static OddEstimate
ask (OddTub        *tub,
     const OddWish *wish)
{
  g_autoptr(GError) error = NULL;
  OddEstimate estimate;

  g_assert_true (odd_tub_estimate (tub, wish, &estimate, NULL, &error));
  g_assert_no_error (error);

  return estimate;
}

/*
 * Eight scraps of 205 x 105 give two squares of 100 each, 80 finished: 16. Wanted 480 x 400 in panels of 160: 3 panels of 2 x 5, 30 squares,
 * so 14 are short. Seams of a panel: in 5 rows one of 100, between rows 4 of 160 + 20; two joins of 400 + 20.
 */
static void
test_squares_by_hand (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (8, 205.0, 105.0);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  const OddWish wish = squares (480.0, 400.0, 160.0);
  const OddEstimate estimate = ask (tub, &wish);

  g_assert_cmpuint (estimate.n_panels, ==, 3);
  g_assert_cmpuint (estimate.n_patches, ==, 30);
  g_assert_cmpfloat_with_epsilon (estimate.cut_width_mm, 180.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (estimate.cut_length_mm, 420.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (estimate.seams_mm, 3 * (5 * 100.0 + 4 * 180.0) + 2 * 420.0, 1e-9);
  g_assert_cmpuint (estimate.n_gives, ==, 16);
  g_assert_cmpuint (estimate.n_short, ==, 14);
  g_assert_cmpfloat_with_epsilon (estimate.short_mm2, 14 * 6400.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (estimate.own_bound, 0.64, 1e-9);
  /* 185 x 85 of each 205 x 105 lie at least 10 mm inside */
  g_assert_cmpfloat_with_epsilon (estimate.heap_bound, 185.0 * 85.0 / (205.0 * 105.0), 1e-6);
  g_assert_cmpfloat_with_epsilon (estimate.more_mm2, 14.0 / 16.0 * 8 * 205.0 * 105.0, 1e-3);
  /* 6 across: two whole rows; in proportion 4 across and 4 down */
  g_assert_cmpfloat_with_epsilon (estimate.longest_mm, 160.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (estimate.largest_width_mm, 320.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (estimate.largest_length_mm, 320.0, 1e-9);
}

/* What is estimated for squares is what a proposal measures. */
static void
test_squares_as_proposed (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (120, 3);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  const OddWish wish = squares (900.0, 700.0, 300.0);
  const OddEstimate estimate = ask (tub, &wish);
  g_autoptr(OddProposal) proposal = NULL;
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  options.width_mm = 300.0;
  options.length_mm = 700.0;
  options.n_panels = estimate.n_panels;
  proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  g_assert_nonnull (proposal);
  g_assert_cmpuint (proposal->figures.n_patches + proposal->figures.n_bare, ==, estimate.n_patches);
  g_assert_cmpuint (proposal->figures.n_bare, ==, estimate.n_short);
  g_assert_cmpfloat_with_epsilon (proposal->figures.seams_mm, estimate.seams_mm, 1e-3);
  g_assert_cmpfloat_with_epsilon (proposal->figures.own_bound, estimate.own_bound, 1e-6);
  g_assert_cmpfloat_with_epsilon (proposal->figures.heap_mm2, estimate.heap_mm2, 1.0);
  g_assert_cmpfloat (proposal->figures.of_heap, <=, estimate.heap_bound);
}

/* Columns are estimated: within a tenth of what a proposal that uses the heap up makes of it. */
static void
test_columns_as_proposed (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (150, 5);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  const OddWish wish = { .manner = ODD_PIECE_COLUMNS, .width_mm = 900.0, .length_mm = 1500.0, .panel_width_mm = 300.0, .allowance_mm = 10.0, .liveliness = 0.5 };
  const OddEstimate estimate = ask (tub, &wish);
  g_autoptr(OddProposal) proposal = NULL;
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_COLUMNS);
  options.treatment.allowance_mm = 10.0;
  options.width_mm = 300.0;
  options.length_mm = 1500.0;
  options.n_panels = 8;
  options.moves = 1;
  proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  g_assert_nonnull (proposal);
  g_assert_cmpfloat (fabs (estimate.gives_mm2 / proposal->figures.finished_mm2 - 1.0), <, 0.1);
  g_assert_cmpfloat_with_epsilon (estimate.longest_mm * 900.0, estimate.gives_mm2, 1e-3);
}

/*
 * 1 kg at 125 g/m2 is 8 m2; of scraps about 200 x 200 that is 200 of them. Eroded by 10 each, with sides spread evenly over 7 steps between
 * 100 and 300, mean side 200: (mean (s - 20))^2 / (mean s)^2 = (180 / 200)^2 = 81 %.
 */
static void
test_weight_by_hand (void)
{
  g_autoptr(OddTub) tub = odd_tub_new_by_weight (1.0, 125.0, 200.0, 200.0, NULL);
  const OddWish wish = squares (900.0, 900.0, 300.0);
  OddEstimate estimate;

  g_assert_nonnull (tub);
  g_assert_true (odd_tub_is_by_weight (tub));
  g_assert_cmpfloat_with_epsilon (odd_tub_get_area_mm2 (tub), 8e6, 1e-3);
  g_assert_cmpfloat_with_epsilon (odd_tub_get_n_scraps (tub), 200.0, 1e-9);
  estimate = ask (tub, &wish);
  g_assert_cmpfloat_with_epsilon (estimate.heap_bound, 0.81, 1e-6);
  /* whole hundreds of sides 114.3, 142.9 ... 285.7: 1 1 1 2 2 2 2, mean 11/7, squared, times 200 */
  g_assert_cmpuint (estimate.n_gives, ==, (guint) floor (200.0 * (11.0 / 7.0) * (11.0 / 7.0)));
}

/* Twice the weight gives twice the cloth; a larger allowance never more. */
static void
test_laws (void)
{
  g_autoptr(OddTub) one = odd_tub_new_by_weight (2.0, 150.0, 180.0, 140.0, NULL);
  g_autoptr(OddTub) two = odd_tub_new_by_weight (4.0, 150.0, 180.0, 140.0, NULL);
  OddWish wish = { .manner = ODD_PIECE_COLUMNS, .width_mm = 900.0, .length_mm = 1200.0, .panel_width_mm = 240.0, .allowance_mm = 5.0, .liveliness = 0.5 };
  double before = INFINITY;

  for (; wish.allowance_mm <= 30.0; wish.allowance_mm += 5.0)
    {
      const OddEstimate a = ask (one, &wish), b = ask (two, &wish);

      g_assert_cmpfloat_with_epsilon (b.gives_mm2, 2.0 * a.gives_mm2, 1e-3);
      g_assert_cmpfloat_with_epsilon (a.heap_bound, b.heap_bound, 1e-9);
      g_assert_cmpfloat (a.gives_mm2, <=, before);
      g_assert_cmpfloat (a.gives_mm2, <=, a.heap_bound * a.heap_mm2);
      before = a.gives_mm2;
    }
}

/* 8 scraps of 205 x 105 do not reach 20 squares at 100, but cut 60 (6 to a scrap: 3 x 1 ... of 205 x 105) there are more, and smaller. */
static void
test_remedies (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (8, 205.0, 105.0);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  OddWish wish = squares (320.0, 320.0, 160.0);
  g_autoptr(GArray) none = NULL;
  g_autoptr(GArray) some = NULL;

  wish.allowance_mm = 20.0;
  /* finished 60 at 20: 6 x 6 = 36 wanted, 16 there are; the overlocked finish takes 12.7 and more: 74.6, 5 x 5 = 25; pressed open less */
  some = odd_tub_find_remedies (tub, job, &wish, NULL, NULL);
  g_assert_nonnull (some);
  for (guint i = 0; i < some->len; i++)
    {
      const OddRemedy *remedy = &g_array_index (some, OddRemedy, i);
      const OddEstimate estimate = ask (tub, &remedy->wish);

      g_assert_cmpfloat (estimate.short_mm2, ==, 0.0);
      if (remedy->kind == ODD_REMEDY_FINISH)
        g_assert_cmpfloat (odd_job_get_finish (job, remedy->finish_id)->allowance_mm, ==, remedy->wish.allowance_mm);
      else
        g_assert_cmpfloat (remedy->wish.templates[0].width_mm, <, 100.0);
    }
  wish = squares (3000.0, 3000.0, 160.0);
  none = odd_tub_find_remedies (tub, job, &wish, NULL, NULL);
  g_assert_cmpuint (none->len, ==, 0);
}

/* 60 x 60 of 8 scraps of 205 x 65: 3 each, 24; 40 x 40 finished. 240 x 160 needs 6 x 4 = 24. At 70 nothing fits. */
static void
test_remedy_size (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (8, 205.0, 65.0);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  const OddWish wish = squares (240.0, 160.0, 240.0);
  g_autoptr(GArray) remedies = odd_tub_find_remedies (tub, job, &wish, NULL, NULL);
  const OddEstimate estimate = ask (tub, &wish);

  g_assert_cmpuint (estimate.n_gives, ==, 0);
  g_assert_true (isinf (estimate.more_mm2));
  g_assert_cmpuint (remedies->len, >=, 1);
  g_assert_cmpint (g_array_index (remedies, OddRemedy, 0).kind, ==, ODD_REMEDY_SIZE);
  g_assert_cmpfloat (g_array_index (remedies, OddRemedy, 0).wish.templates[0].width_mm, ==, 60.0);
}

/* Two and three templates on random tubs: what is wanted and short of each is what a proposal says of the same panels. */
static void
test_templates_as_proposed (void)
{
  static const OddTemplate SIZES[] = { { 100.0, 100.0 }, { 70.0, 70.0 }, { 50.0, 80.0 }, { 130.0, 90.0 }, { 60.0, 60.0 } };
  guint n_short = 0, n_enough = 0;

  for (guint i = 0; i < 12; i++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (g_test_rand_int_range (10, 60), g_test_rand_int_range (1, 10000));
      g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
      OddWish wish = squares (g_test_rand_double_range (200.0, 900.0), g_test_rand_double_range (150.0, 900.0), g_test_rand_double_range (150.0, 400.0));
      g_autoptr(OddProposal) proposal = NULL;
      OddProposalOptions options;
      OddEstimate estimate;

      wish.n_templates = 2 + i % 2;
      for (guint t = 0; t < wish.n_templates; t++)
        wish.templates[t] = SIZES[(i + t) % G_N_ELEMENTS (SIZES)];
      wish.allowance_mm = g_test_rand_double_range (6.0, 14.0);
      estimate = ask (tub, &wish);
      odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
      options.width_mm = wish.panel_width_mm;
      options.length_mm = wish.length_mm;
      options.n_panels = estimate.n_panels;
      options.n_templates = wish.n_templates;
      memcpy (options.templates, wish.templates, sizeof options.templates);
      options.treatment.allowance_mm = wish.allowance_mm;
      options.moves = 1;
      proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      g_assert_nonnull (proposal);
      g_assert_cmpuint (proposal->figures.n_patches + proposal->figures.n_bare, ==, estimate.n_patches);
      g_assert_cmpuint (proposal->figures.n_bare, ==, estimate.n_short);
      for (guint t = 0; t < wish.n_templates; t++)
        {
          g_autofree char *says = g_strdup_printf ("%u of %u patches cut %.0f × %.0f mm", estimate.n_short_of[t], estimate.n_wanted[t],
                                                   wish.templates[t].width_mm, wish.templates[t].length_mm);

          g_assert_true ((proposal->missing != NULL && strstr (proposal->missing, says) != NULL) == (estimate.n_short_of[t] > 0));
        }
      /* rows of another height end elsewhere: the longer panels are trimmed in the textile, their outer rows at the sides */
      g_assert_cmpfloat (fabs (proposal->figures.seams_mm / estimate.seams_mm - 1.0), <, 0.1);
      g_assert_cmpfloat (fabs (proposal->figures.own_bound / estimate.own_bound - 1.0), <, estimate.n_short > 0 ? 0.3 : 0.15);
      n_short += estimate.n_short > 0;
      n_enough += estimate.n_short == 0;
    }
  g_test_message ("%u short, %u enough", n_short, n_enough);
}

/* Of several sizes too the longest can be had, and the tub says itself that it is enough. */
static void
test_longest (void)
{
  for (guint i = 0; i < 10; i++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (g_test_rand_int_range (20, 60), g_test_rand_int_range (1, 10000));
      g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
      OddWish wish = squares (600.0, 600.0, 300.0);
      OddEstimate first, longest;

      wish.n_templates = 1 + i % 3;
      wish.templates[1] = (OddTemplate) { 70.0, 70.0 };
      wish.templates[2] = (OddTemplate) { 50.0, 50.0 };
      first = ask (tub, &wish);
      g_assert_cmpfloat (first.longest_mm, >, 0.0);
      wish.length_mm = first.longest_mm;
      longest = ask (tub, &wish);
      g_assert_cmpuint (longest.n_short, ==, 0);
      g_assert_cmpfloat_with_epsilon (longest.longest_mm, first.longest_mm, 1e-9);
      wish.length_mm = first.longest_mm + 1.0;
      if (wish.n_templates == 1)
        g_assert_cmpuint (ask (tub, &wish).n_short, >, 0);
    }
}

/*
 * Eight scraps of 205 x 75 and four of 55 x 55, templates 100 x 70 and 50: of each of the former two of the first, and nothing beside, of the
 * latter one of the second, 16 and 4. Finished at 10: 80 x 50 and 30 x 30. A panel 160 x 130: rows of two of the first until 150 are reached:
 * three; two panels of it take 12. Five panels of three rows want 30 of the first: after eight rows of them all are gone, and the second has
 * not the six for a row; which comes then is by what is left in proportion, 0 of 16 or 4 of 4.
 */
static void
test_templates_by_hand (void)
{
  OddJob *job = tub_of_boxes (8, 205.0, 75.0);
  g_autoptr(OddTub) tub = NULL;
  OddWish wish = squares (320.0, 130.0, 160.0);
  OddEstimate estimate;

  for (guint i = 0; i < 4; i++)
    tub_add_box (&job, 55.0, 55.0);
  tub = odd_tub_new (job, NULL, 0);
  odd_job_unref (job);
  wish.n_templates = 2;
  wish.templates[0] = (OddTemplate) { 100.0, 70.0 };
  wish.templates[1] = (OddTemplate) { 50.0, 50.0 };
  estimate = ask (tub, &wish);
  g_assert_cmpuint (estimate.n_gives_of[0], ==, 16);
  g_assert_cmpuint (estimate.n_gives_of[1], ==, 4);
  g_assert_cmpuint (estimate.n_panels, ==, 2);
  g_assert_cmpuint (estimate.n_wanted[0], ==, 12);
  g_assert_cmpuint (estimate.n_wanted[1], ==, 0);
  g_assert_cmpuint (estimate.n_short, ==, 0);
  g_assert_cmpfloat_with_epsilon (estimate.panel_length_mm, 150.0, 1e-9);
  /* each panel: in 3 rows one seam of 70, between rows 2 of 160 + 20; one join of 150 + 20 */
  g_assert_cmpfloat_with_epsilon (estimate.seams_mm, 2 * (3 * 70.0 + 2 * 180.0) + 170.0, 1e-9);
  /* 16 fill four rows in each of two panels: 200 */
  g_assert_cmpfloat_with_epsilon (estimate.longest_mm, 200.0, 1e-9);
  wish.width_mm = 800.0;
  estimate = ask (tub, &wish);
  g_assert_cmpuint (estimate.n_panels, ==, 5);
  g_assert_cmpuint (estimate.n_short, ==, estimate.n_short_of[0] + estimate.n_short_of[1]);
  g_assert_cmpuint (estimate.n_wanted[0] - estimate.n_short_of[0], ==, 16);
  g_assert_cmpuint (estimate.n_wanted[1] - estimate.n_short_of[1], ==, 4);
}

/* --- crumbs --- */

static OddWish
crumbs (double width_mm,
        double length_mm,
        double panel_width_mm)
{
  return (OddWish) {
    .manner = ODD_PIECE_CRUMBS, .width_mm = width_mm, .length_mm = length_mm, .panel_width_mm = panel_width_mm,
    .allowance_mm = 10.0, .smallest_mm = 30.0, .liveliness = 0.6,
  };
}

/* Squares of t + 2a leave at most t x t of each: (t / (t + 2a))^2, arithmetic. By weight, sides spread alike about w and h: (w - 2a)(h - 2a) / wh. */
static void
test_crumbs_bounds (void)
{
  for (double t = 40.0; t <= 120.0; t += 20.0)
    {
      g_autoptr(OddJob) job = tub_of_boxes (20, t + 20.0, t + 20.0);
      g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
      const OddWish wish = crumbs (300.0, 300.0, 300.0);
      const OddEstimate estimate = ask (tub, &wish);

      g_assert_cmpfloat_with_epsilon (estimate.heap_bound, t * t / ((t + 20.0) * (t + 20.0)), 1e-6);
      g_assert_cmpfloat_with_epsilon (estimate.heap_mm2, 20 * (t + 20.0) * (t + 20.0), 1e-3);
      g_assert_cmpfloat (estimate.gives_mm2, <=, estimate.heap_bound * estimate.heap_mm2);
      g_assert_cmpfloat (estimate.gives_mm2, >, 0.0);
    }
  for (double a = 5.0; a <= 20.0; a += 5.0)
    {
      g_autoptr(OddTub) tub = odd_tub_new_by_weight (2.0, 130.0, 200.0, 150.0, NULL);
      OddWish wish = crumbs (900.0, 900.0, 300.0);

      wish.allowance_mm = a;
      g_assert_cmpfloat_with_epsilon (ask (tub, &wish).heap_bound, (200.0 - 2.0 * a) * (150.0 - 2.0 * a) / (200.0 * 150.0), 1e-6);
    }
}

/* A scrap narrower than the smallest patch and its allowances gives none: 45 of 30 + 20. */
static void
test_crumbs_too_narrow (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (20, 45.0, 400.0);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  OddWish wish = crumbs (300.0, 300.0, 300.0);
  const OddEstimate none = ask (tub, &wish);

  g_assert_cmpfloat (none.heap_bound, >, 0.0);
  g_assert_cmpfloat (none.gives_mm2, ==, 0.0);
  g_assert_true (isinf (none.more_mm2));
  wish.smallest_mm = 20.0;
  g_assert_cmpfloat (ask (tub, &wish).gives_mm2, >, 0.0);
}

/* Within a sixth of what a proposal makes of a wish a tenth larger than the tub gives; the middle patch is the one a proposal picks by itself. */
static void
test_crumbs_as_proposed (void)
{
  static const double SCALES_MM[] = { 0.0, 100.0 };

  for (guint i = 0; i < G_N_ELEMENTS (SCALES_MM); i++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (60, 11 + i);
      g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
      OddWish wish = crumbs (1500.0, 1500.0, 300.0);
      g_autoptr(OddProposal) proposal = NULL;
      OddProposalOptions options;
      OddEstimate estimate;

      wish.scale_mm = SCALES_MM[i];
      estimate = ask (tub, &wish);
      odd_proposal_options_init (&options, job, ODD_PIECE_CRUMBS);
      options.treatment.allowance_mm = wish.allowance_mm;
      options.width_mm = wish.panel_width_mm;
      options.n_panels = 2;
      options.length_mm = 1.1 * estimate.gives_mm2 / (2 * wish.panel_width_mm);
      options.scale_mm = wish.scale_mm;
      options.smallest_mm = wish.smallest_mm;
      options.liveliness = wish.liveliness;
      proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
      g_assert_nonnull (proposal);
      g_assert_cmpfloat (fabs (estimate.gives_mm2 / proposal->figures.finished_mm2 - 1.0), <, 1.0 / 6.0);
      g_assert_cmpfloat (fabs (estimate.patch_mm * sqrt (proposal->figures.n_patches / proposal->figures.finished_mm2) - 1.0), <, 1.0 / 6.0);
      g_assert_cmpfloat (fabs (estimate.own_bound / proposal->figures.own_bound - 1.0), <, 0.1);
      g_assert_cmpfloat (proposal->figures.of_heap, <=, estimate.heap_bound);
      g_assert_cmpfloat_with_epsilon (estimate.longest_mm * estimate.width_mm, estimate.gives_mm2, 1e-3);
      g_assert_cmpfloat_with_epsilon (estimate.largest_width_mm * estimate.largest_length_mm, estimate.gives_mm2, 1e-3);
    }
}

/* Each remedy is enough where the wish was not, and is the change it says it is. */
static void
test_crumbs_remedies (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (40, 4);
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  OddWish wish = crumbs (600.0, 600.0, 300.0);
  g_autoptr(GArray) remedies = NULL;
  gboolean other_scale = FALSE, other_finish = FALSE;

  wish.allowance_mm = 16.0;
  wish.scale_mm = 60.0;
  wish.length_mm = 1.02 * ask (tub, &wish).longest_mm;
  g_assert_cmpfloat (ask (tub, &wish).short_mm2, >, 0.0);
  remedies = odd_tub_find_remedies (tub, job, &wish, NULL, NULL);
  for (guint i = 0; i < remedies->len; i++)
    {
      const OddRemedy *remedy = &g_array_index (remedies, OddRemedy, i);

      g_assert_cmpfloat (ask (tub, &remedy->wish).short_mm2, ==, 0.0);
      other_scale |= remedy->kind == ODD_REMEDY_SCALE && remedy->wish.scale_mm == 70.0 && remedy->wish.allowance_mm == 16.0;
      other_finish |= remedy->kind == ODD_REMEDY_FINISH && remedy->wish.scale_mm == 60.0 && remedy->wish.allowance_mm < 16.0;
    }
  g_assert_true (other_scale);
  g_assert_true (other_finish);
}

/* Four scraps of 100 x 100, one square each, and 24 of 60 x 60 that give none. 160 x 160 of 80 finished takes the four; a row more the small ones too. */
static void
test_remedy_another_size (void)
{
  OddJob *job = tub_of_boxes (4, 100.0, 100.0);
  g_autoptr(OddTub) tub = NULL;
  g_autoptr(GArray) remedies = NULL;
  const OddWish wish = squares (160.0, 240.0, 160.0);
  gboolean found = FALSE;

  for (guint i = 0; i < 24; i++)
    tub_add_box (&job, 60.0, 60.0);
  tub = odd_tub_new (job, NULL, 0);
  g_assert_cmpuint (ask (tub, &wish).n_short, ==, 2);
  remedies = odd_tub_find_remedies (tub, job, &wish, NULL, NULL);
  for (guint i = 0; i < remedies->len; i++)
    {
      const OddRemedy *remedy = &g_array_index (remedies, OddRemedy, i);

      if (remedy->kind != ODD_REMEDY_ANOTHER_SIZE)
        continue;
      found = TRUE;
      g_assert_cmpuint (remedy->wish.n_templates, ==, 2);
      g_assert_cmpfloat (remedy->wish.templates[0].width_mm, ==, 100.0);
      g_assert_cmpfloat (remedy->wish.templates[1].width_mm, ==, 60.0);
      g_assert_cmpuint (ask (tub, &remedy->wish).n_short, ==, 0);
    }
  g_assert_true (found);
  odd_job_unref (job);
}

static void
assert_refused (OddTub        *tub,
                const OddWish *wish,
                const char    *word)
{
  g_autoptr(GError) error = NULL;
  OddEstimate estimate = { .n_patches = 77 };

  g_assert_false (odd_tub_estimate (tub, wish, &estimate, NULL, &error));
  g_assert_cmpuint (estimate.n_patches, ==, 77);
  g_assert_nonnull (error);
  if (strstr (error->message, word) == NULL)
    g_error ("“%s” does not say “%s”", error->message, word);
}

static void
test_refusals (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (2, 205.0, 105.0);
  g_autoptr(OddJob) nothing = odd_job_new ();
  g_autoptr(OddTub) tub = odd_tub_new (job, NULL, 0);
  g_autoptr(OddTub) empty = odd_tub_new (nothing, NULL, 0);
  g_autoptr(GCancellable) cancelled = g_cancellable_new ();
  g_autoptr(GError) error = NULL;
  OddWish wish = squares (480.0, 400.0, 160.0);
  OddEstimate estimate;

  assert_refused (empty, &wish, "weigh the tub");
  wish.allowance_mm = 48.0;
  assert_refused (tub, &wish, "cut size");
  wish = squares (0.0, 400.0, 160.0);
  assert_refused (tub, &wish, "width");
  wish = squares (NAN, 400.0, 160.0);
  assert_refused (tub, &wish, "width");
  wish = squares (1e5, 1e5, 160.0);
  assert_refused (tub, &wish, "patches");
  wish = squares (480.0, 400.0, -160.0);
  assert_refused (tub, &wish, "width of a panel");
  wish = squares (480.0, 1e9, 160.0);
  assert_refused (tub, &wish, "length");
  wish = squares (480.0, 400.0, 160.0);
  wish.n_templates = 4;
  assert_refused (tub, &wish, "4 template sizes");
  wish.n_templates = 0;
  assert_refused (tub, &wish, "template sizes");
  wish.n_templates = 3;
  wish.templates[1] = (OddTemplate) { 70.0, 70.0 };
  wish.templates[2] = (OddTemplate) { 70.0, 29.0 };
  assert_refused (tub, &wish, "cut size");
  wish.templates[2] = (OddTemplate) { 70.0, NAN };
  assert_refused (tub, &wish, "cut size");
  wish.templates[2] = (OddTemplate) { 70.0, 1e9 };
  assert_refused (tub, &wish, "cut size");
  wish = crumbs (480.0, 400.0, 160.0);
  wish.scale_mm = -1.0;
  assert_refused (tub, &wish, "middle patch");
  wish.scale_mm = NAN;
  assert_refused (tub, &wish, "middle patch");
  wish.scale_mm = 1e9;
  assert_refused (tub, &wish, "middle patch");
  wish.scale_mm = 29.0;
  assert_refused (tub, &wish, "middle patch");
  wish = crumbs (480.0, 400.0, 160.0);
  wish.smallest_mm = 0.0;
  assert_refused (tub, &wish, "smallest side");
  wish.smallest_mm = 161.0;
  assert_refused (tub, &wish, "smallest side");
  wish = crumbs (480.0, 400.0, 160.0);
  wish.allowance_mm = 0.0;
  assert_refused (tub, &wish, "allowance");
  g_assert_null (odd_tub_new_by_weight (0.0, 120.0, 200.0, 200.0, NULL));
  g_assert_null (odd_tub_new_by_weight (2.0, 0.0, 200.0, 200.0, NULL));
  g_assert_null (odd_tub_new_by_weight (2.0, 120.0, 2.0, 200.0, NULL));
  g_cancellable_cancel (cancelled);
  wish = squares (480.0, 400.0, 160.0);
  g_assert_false (odd_tub_estimate (tub, &wish, &estimate, cancelled, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/estimate/squares-by-hand", test_squares_by_hand);
  g_test_add_func ("/estimate/squares-as-proposed", test_squares_as_proposed);
  g_test_add_func ("/estimate/columns-as-proposed", test_columns_as_proposed);
  g_test_add_func ("/estimate/weight-by-hand", test_weight_by_hand);
  g_test_add_func ("/estimate/laws", test_laws);
  g_test_add_func ("/estimate/remedies", test_remedies);
  g_test_add_func ("/estimate/remedy-size", test_remedy_size);
  g_test_add_func ("/estimate/templates-by-hand", test_templates_by_hand);
  g_test_add_func ("/estimate/templates-as-proposed", test_templates_as_proposed);
  g_test_add_func ("/estimate/longest", test_longest);
  g_test_add_func ("/estimate/crumbs-bounds", test_crumbs_bounds);
  g_test_add_func ("/estimate/crumbs-too-narrow", test_crumbs_too_narrow);
  g_test_add_func ("/estimate/crumbs-as-proposed", test_crumbs_as_proposed);
  g_test_add_func ("/estimate/crumbs-remedies", test_crumbs_remedies);
  g_test_add_func ("/estimate/remedy-another-size", test_remedy_another_size);
  g_test_add_func ("/estimate/refusals", test_refusals);

  return g_test_run ();
}
