/* What scraps give: by hand, and against the plans and proposals it must agree with. */
#include "config.h"

#include "piecing/cut-plan.h"
#include "piecing/gives.h"
#include "bench/heap.h"
#include "tub.h"

#include <string.h>

static OddCutSizes
sizes_of (double width_mm,
          double length_mm)
{
  return (OddCutSizes) { .templates = { { width_mm, length_mm } }, .n_templates = 1, .allowance_mm = 10.0 };
}

static OddGives *
count (OddJob            *job,
       const OddCutSizes *sizes,
       gboolean           remains)
{
  g_autoptr(GError) error = NULL;
  OddGives *gives = odd_gives_new (job, sizes, ODD_GIVES_YIELD | (remains ? ODD_GIVES_REMAINS : 0), NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (gives);

  return gives;
}

static guint
count_of (OddJob *job,
          OddId   scrap_id,
          double  width_mm,
          double  length_mm)
{
  const OddCutSizes sizes = sizes_of (width_mm, length_mm);
  g_autoptr(OddGives) gives = count (job, &sizes, FALSE);

  return odd_gives_find (gives, scrap_id)->pieces->len;
}

static OddId
add_fabric (OddJob         **job,
            const OddFabric *values)
{
  g_autoptr(GError) error = NULL;
  OddId id = 0;
  OddJob *next = odd_job_put_fabric (*job, values, &id, &error);

  g_assert_no_error (error);
  odd_job_unref (*job);
  *job = next;

  return id;
}

/* The scrap with another cloth, grain and wash. */
static void
dress (OddJob  **job,
       OddId     scrap_id,
       OddId     fabric_id,
       double    grain_deg,
       gboolean  washed)
{
  OddScrap values = *odd_job_get_scrap (*job, scrap_id);
  g_autoptr(GError) error = NULL;
  OddJob *next;

  values.fabric_id = fabric_id;
  values.grain_deg = grain_deg;
  values.washed = washed;
  next = odd_job_put_scrap (*job, &values, NULL, &error);
  g_assert_no_error (error);
  odd_job_unref (*job);
  *job = next;
}

/* The first proposal of squares, and this, begin with the same sizes. */
static void
test_offer (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddProposalOptions options;
  OddCutSizes sizes;

  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  odd_cut_sizes_init (&sizes, job);
  g_assert_cmpuint (sizes.n_templates, ==, 1);
  g_assert_cmpfloat (sizes.templates[0].width_mm, ==, 100.0);
  g_assert_cmpfloat (sizes.templates[0].width_mm, ==, options.templates[0].width_mm);
  g_assert_cmpfloat (sizes.templates[0].length_mm, ==, options.templates[0].length_mm);
  g_assert_cmpfloat (sizes.allowance_mm, ==, options.treatment.allowance_mm);
}

/* By hand: two scraps of 205 x 105 give two squares cut 100 each; 60 x 60 of 200 g/m2 gives none and weighs 0.72 g. Of 46650 mm2 four times
 * 80 x 80 will show; of the two cut into, whose offcuts hold no 50 x 50, 43050; the allowances alone leave 64 %. */
static void
test_sum (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddCutSizes sizes = sizes_of (100.0, 100.0);
  g_autoptr(OddGives) gives = NULL;
  OddFabric heavy;
  OddGivesSum all, some;
  OddId ids[3];

  odd_fabric_init_values (&heavy);
  heavy.name = (char *) "Sailcloth";
  heavy.gsm = 200.0;
  ids[0] = tub_add_box (&job, 205.0, 105.0);
  ids[1] = tub_add_box (&job, 60.0, 60.0);
  ids[2] = tub_add_box (&job, 205.0, 105.0);
  dress (&job, ids[1], add_fabric (&job, &heavy), 90.0, TRUE);
  gives = count (job, &sizes, FALSE);
  odd_gives_sum (gives, NULL, 0, &all);
  odd_gives_sum (gives, ids, 2, &some);

  g_assert_cmpuint (all.n_scraps, ==, 3);
  g_assert_cmpuint (all.n_pieces, ==, 4);
  g_assert_cmpuint (all.n[0], ==, 4);
  g_assert_cmpuint (all.n_none, ==, 1);
  g_assert_cmpuint (all.n_weighed, ==, 1);
  g_assert_cmpfloat_with_epsilon (all.none_mm2, 3600.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (all.none_grams, 0.72, 1e-9);
  g_assert_cmpfloat_with_epsilon (all.of_heap, 4.0 * 6400.0 / 46650.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (all.own_bound, 0.64, 1e-12);
  g_assert_cmpfloat_with_epsilon (all.net_yield, 4.0 * 6400.0 / 43050.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (all.fit, all.net_yield / 0.64, 1e-12);
  g_assert_cmpuint (some.n_scraps, ==, 2);
  g_assert_cmpuint (some.n_pieces, ==, 2);

  g_clear_pointer (&gives, odd_gives_unref);
  gives = odd_gives_new (job, &sizes, ODD_GIVES_FREE, NULL, NULL);
  odd_gives_sum (gives, NULL, 0, &all);
  g_assert_cmpuint (all.n_pieces, ==, 4);
  g_assert_true (isnan (all.net_yield) && isnan (all.fit));
}

/* By hand, as in test-cut-plan: 210 x 145 gives two of 100 and five of 40. */
static void
test_two_sizes (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId id = tub_add_box (&job, 210.0, 145.0);
  const OddCutSizes sizes = { .templates = { { 100.0, 100.0 }, { 40.0, 40.0 } }, .n_templates = 2, .allowance_mm = 5.0 };
  g_autoptr(OddGives) gives = count (job, &sizes, FALSE);
  const OddScrapGives *scrap = odd_gives_find (gives, id);

  g_assert_cmpuint (scrap->n[0], ==, 2);
  g_assert_cmpuint (scrap->n[1], ==, 5);
  g_assert_cmpfloat (scrap->offcuts_mm2, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (odd_gives_get_finished_mm2 (gives, scrap), 2 * 90.0 * 90.0 + 5 * 30.0 * 30.0, 1e-6);
}

/* Law: every count is that of the scrap's cutting plans; every piece lies in its scrap, right side up, and no two overlap. */
static void
test_plans (void)
{
  g_autoptr(OddJob) job = heap_add_scraps (odd_job_new (), 150, (guint32) g_test_rand_int ());
  const OddCutSizes sizes = { .templates = { { 90.0, 90.0 }, { 45.0, 60.0 } }, .n_templates = 2, .allowance_mm = 10.0 };
  g_autoptr(OddGives) gives = count (job, &sizes, FALSE);
  g_autoptr(GPtrArray) plans = NULL;
  g_autofree guint *planned = g_new0 (guint, job->next_id);
  OddProposalOptions options;
  OddGivesSum sum;
  guint n = 0;

  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  memcpy (options.templates, sizes.templates, sizeof options.templates);
  options.n_templates = 2;
  plans = odd_cut_plans_new (job, &options, 10.0, NULL, NULL);
  for (guint i = 0; i < plans->len; i++)
    planned[((OddScrapPlan *) plans->pdata[i])->scrap_id] += ((OddScrapPlan *) plans->pdata[i])->plan->pieces->len;
  g_assert_cmpuint (gives->scraps->len, ==, 150);
  for (guint i = 0; i < gives->scraps->len; i++)
    {
      const OddScrapGives *scrap = gives->scraps->pdata[i];
      OddPolygon *outline = odd_job_get_scrap (job, scrap->scrap_id)->outline;
      double cut_mm2 = 0.0;
      g_autoptr(GPtrArray) shapes = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
      g_autoptr(GPtrArray) left = NULL;

      g_assert_cmpuint (scrap->pieces->len, ==, planned[scrap->scrap_id]);
      n += scrap->pieces->len;
      for (guint k = 0; k < scrap->pieces->len; k++)
        {
          const OddGivenPiece *piece = &g_array_index (scrap->pieces, OddGivenPiece, k);

          g_assert_true (odd_polygon_contains_convex (outline, piece->shape, 1e-6));
          g_ptr_array_add (shapes, odd_polygon_new_from_convex (piece->shape));
          cut_mm2 += odd_convex_area (piece->shape);
        }
      left = odd_polygon_difference_many (outline, (OddPolygon *const *) shapes->pdata, shapes->len);
      for (guint k = 0; k < left->len; k++)
        cut_mm2 += odd_polygon_get_area (left->pdata[k]);
      g_assert_cmpfloat_with_epsilon (cut_mm2, odd_polygon_get_area (outline), 1e-3);
    }
  odd_gives_sum (gives, NULL, 0, &sum);
  g_assert_cmpuint (sum.n_pieces, ==, n);
  g_assert_cmpuint (n, >, 100);
}

/* Given that one scrap and asked for more squares than it has, the proposer lays exactly as many as were counted. */
static void
test_proposer (void)
{
  g_autoptr(OddJob) job = heap_add_scraps (odd_job_new (), 40, (guint32) g_test_rand_int ());
  const OddCutSizes sizes = sizes_of (80.0, 80.0);
  g_autoptr(OddGives) gives = count (job, &sizes, FALSE);
  guint n_checked = 0;

  for (guint i = 0; i < gives->scraps->len; i++)
    {
      const OddScrapGives *scrap = gives->scraps->pdata[i];
      g_autoptr(OddProposal) proposal = NULL;
      g_autoptr(GError) error = NULL;
      OddProposalOptions options;
      OddGivesSum sum;

      odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
      options.templates[0] = sizes.templates[0];
      options.width_mm = 60.0;
      options.length_mm = 60.0 * (scrap->n[0] + 2);
      options.scrap_ids = &scrap->scrap_id;
      options.n_scrap_ids = 1;
      proposal = odd_propose (job, &options, NULL, NULL, NULL, &error);
      if (scrap->n[0] == 0)
        {
          g_assert_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP);
          continue;
        }
      g_assert_no_error (error);
      g_assert_cmpuint (proposal->figures.n_patches, ==, scrap->n[0]);
      odd_gives_sum (gives, &scrap->scrap_id, 1, &sum);
      g_assert_cmpfloat_with_epsilon (proposal->figures.net_yield, sum.net_yield, 1e-6);
      g_assert_cmpfloat_with_epsilon (proposal->figures.own_bound, sum.own_bound, 1e-9);
      g_assert_cmpfloat_with_epsilon (proposal->figures.heap_mm2, sum.cloth_mm2, 1e-6);
      g_assert_cmpuint (proposal->figures.n_bare, ==, 2);
      n_checked++;
    }
  g_assert_cmpuint (n_checked, >, 10);
}

/* By hand. Rectangles 80 x 120, their length along the grain, from 300 x 100: grain along the short side, none is high enough; along the long
 * one, two. Squares of 104 from 150 x 150 with the grain across corner: the largest square that way is 150 / sqrt 2 = 106. */
static void
test_grain (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId band = tub_add_box (&job, 300.0, 100.0), square = tub_add_box (&job, 150.0, 150.0);
  OddFabric values;
  OddId strict, one_way;

  odd_fabric_init_values (&values);
  values.name = (char *) "Lengthwise only";
  values.grain_tolerance_deg = 0.0;
  strict = add_fabric (&job, &values);
  values.name = (char *) "Trees upright";
  values.one_way = TRUE;
  one_way = add_fabric (&job, &values);

  g_assert_cmpuint (count_of (job, band, 80.0, 120.0), ==, 2);
  dress (&job, band, strict, 90.0, TRUE);
  g_assert_cmpuint (count_of (job, band, 80.0, 120.0), ==, 0);
  dress (&job, band, strict, 0.0, TRUE);
  g_assert_cmpuint (count_of (job, band, 80.0, 120.0), ==, 2);
  dress (&job, band, one_way, 90.0, TRUE);
  g_assert_cmpuint (count_of (job, band, 80.0, 120.0), ==, 0);
  dress (&job, band, one_way, 180.0, TRUE);
  g_assert_cmpuint (count_of (job, band, 80.0, 120.0), ==, 2);

  g_assert_cmpuint (count_of (job, square, 140.0, 140.0), ==, 1);
  dress (&job, square, strict, 45.0, TRUE);
  g_assert_cmpuint (count_of (job, square, 140.0, 140.0), ==, 0);
  g_assert_cmpuint (count_of (job, square, 104.0, 104.0), ==, 1);
  dress (&job, square, one_way, 45.0, TRUE);
  g_assert_cmpuint (count_of (job, square, 108.0, 108.0), ==, 0);
}

/* Nothing is gained by turning cloth over: a rectangle is its own mirror image, so cloth without a wrong side gives no more, whatever its outline. */
static void
test_wrong_side (void)
{
  const OddPoint corners[5] = { { 0, 0 }, { 260, 30 }, { 240, 120 }, { 90, 150 }, { 20, 110 } };
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId one = tub_add (&job, corners, 5), other = tub_add (&job, corners, 5);
  const OddCutSizes sizes = sizes_of (70.0, 95.0);
  g_autoptr(OddGives) gives = NULL;
  OddFabric values;

  odd_fabric_init_values (&values);
  values.name = (char *) "Print";
  values.grain_tolerance_deg = 5.0;
  values.one_way = TRUE;
  dress (&job, one, add_fabric (&job, &values), 80.0, TRUE);
  values.name = (char *) "Yarn-dyed";
  values.reversible = TRUE;
  dress (&job, other, add_fabric (&job, &values), 80.0, TRUE);
  gives = count (job, &sizes, FALSE);
  g_assert_cmpuint (odd_gives_find (gives, one)->n[0], >, 0);
  g_assert_cmpuint (odd_gives_find (gives, one)->n[0], ==, odd_gives_find (gives, other)->n[0]);
  for (guint k = 0; k < odd_gives_find (gives, one)->pieces->len; k++)
    {
      const OddGivenPiece *a = &g_array_index (odd_gives_find (gives, one)->pieces, OddGivenPiece, k);
      const OddGivenPiece *b = &g_array_index (odd_gives_find (gives, other)->pieces, OddGivenPiece, k);

      g_assert_true (odd_convex_equal (a->shape, b->shape, 1e-9));
    }
}

/* By hand: 210 x 100 gives two; with a stain at 40..60 only the right one is left, and one in an allowance is not gambled on. */
static void
test_zones (void)
{
  const OddPoint corners[4] = { { 0, 0 }, { 210, 0 }, { 210, 100 }, { 0, 100 } };
  const OddPoint stain[4] = { { 40, 40 }, { 60, 40 }, { 60, 60 }, { 40, 60 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (stain, 4, NULL);
  OddZone zone = { .kind = ODD_ZONE_STAIN, .outline = outline };

  for (guint allowance_only = 0; allowance_only < 2; allowance_only++)
    {
      g_autoptr(OddJob) job = odd_job_new ();
      const OddId whole = tub_add (&job, corners, 4);
      OddId stained;

      zone.allowance_only = allowance_only == 1;
      stained = tub_add_zoned (&job, corners, 4, &zone, 1);
      g_assert_cmpuint (count_of (job, whole, 100.0, 100.0), ==, 2);
      g_assert_cmpuint (count_of (job, stained, 100.0, 100.0), ==, 1);
    }
}

/* By hand: 205 x 105 that is still to shrink by a tenth along and across is 184.5 x 94.5 when it is sewn. */
static void
test_unwashed (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId id = tub_add_box (&job, 205.0, 105.0);
  OddFabric values;
  OddId fabric;

  odd_fabric_init_values (&values);
  values.name = (char *) "Raw cotton";
  values.shrink_along = values.shrink_across = 0.1;
  fabric = add_fabric (&job, &values);
  dress (&job, id, fabric, 90.0, TRUE);
  g_assert_cmpuint (count_of (job, id, 100.0, 100.0), ==, 2);
  dress (&job, id, fabric, 90.0, FALSE);
  g_assert_cmpuint (count_of (job, id, 100.0, 100.0), ==, 0);
}

/* By hand: 310 x 100 gives three. With one of them in a panel what is left gives two, when that is asked for; gone, none is counted. */
static void
test_in_a_panel (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId id = tub_add_box (&job, 310.0, 100.0);
  const OddCutSizes sizes = sizes_of (100.0, 100.0);
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(OddGives) before = count (job, &sizes, TRUE);
  g_autoptr(OddGives) free_only = NULL;
  g_autoptr(OddGives) with_left = NULL;
  g_autoptr(OddGives) gone = NULL;
  g_autoptr(OddJob) given_away = NULL;
  g_autoptr(GError) error = NULL;
  OddProposalOptions options;
  OddScrap values = *odd_job_get_scrap (job, id);
  OddGivesSum sum;

  g_assert_cmpuint (odd_gives_find (before, id)->n[0], ==, 3);
  g_assert_false (odd_gives_find (before, id)->left);
  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  options.width_mm = options.length_mm = 80.0;
  proposal = odd_propose (job, &options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  free_only = count (proposal->job, &sizes, FALSE);
  with_left = count (proposal->job, &sizes, TRUE);
  g_assert_null (odd_gives_find (free_only, id));
  g_assert_true (odd_gives_find (with_left, id)->left);
  g_assert_cmpuint (odd_gives_find (with_left, id)->n[0], ==, 2);
  odd_gives_sum (with_left, NULL, 0, &sum);
  g_assert_cmpuint (sum.n_left, ==, 1);
  g_assert_cmpuint (sum.n_pieces_left, ==, 2);
  g_assert_cmpuint (sum.n_none, ==, 0);

  values.gone = TRUE;
  given_away = odd_job_put_scrap (job, &values, NULL, &error);
  g_assert_no_error (error);
  gone = count (given_away, &sizes, TRUE);
  g_assert_null (odd_gives_find (gone, id));
}

static void
assert_refused (double      width_mm,
                double      length_mm,
                double      allowance_mm,
                const char *word)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddCutSizes sizes = sizes_of (width_mm, length_mm);
  g_autoptr(GError) error = NULL;

  tub_add_box (&job, 300.0, 300.0);
  sizes.allowance_mm = allowance_mm;
  g_assert_null (odd_gives_new (job, &sizes, ODD_GIVES_FREE, NULL, &error));
  g_assert_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE);
  if (strstr (error->message, word) == NULL)
    g_error ("“%s” does not say “%s”", error->message, word);
}

static void
test_refused (void)
{
  assert_refused (0.0, 100.0, 10.0, "template is 0.0 mm");
  assert_refused (100.0, -40.0, 10.0, "template is -40.0 mm");
  assert_refused (2e4, 100.0, 10.0, "template is 20000.0 mm");
  assert_refused (NAN, 100.0, 10.0, "template is nan mm");
  assert_refused (100.0, 100.0, 0.0, "allowance is 0.0 mm");
  assert_refused (100.0, 100.0, 46.0, "Two allowances of 46.0 mm");
}

static void
test_cancelled (void)
{
  g_autoptr(OddJob) job = heap_add_scraps (odd_job_new (), 50, 1);
  const OddCutSizes sizes = sizes_of (100.0, 100.0);
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();
  g_autoptr(GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (odd_gives_new (job, &sizes, ODD_GIVES_YIELD, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gives/offer", test_offer);
  g_test_add_func ("/gives/sum", test_sum);
  g_test_add_func ("/gives/two-sizes", test_two_sizes);
  g_test_add_func ("/gives/plans", test_plans);
  g_test_add_func ("/gives/proposer", test_proposer);
  g_test_add_func ("/gives/grain", test_grain);
  g_test_add_func ("/gives/wrong-side", test_wrong_side);
  g_test_add_func ("/gives/zones", test_zones);
  g_test_add_func ("/gives/unwashed", test_unwashed);
  g_test_add_func ("/gives/in-a-panel", test_in_a_panel);
  g_test_add_func ("/gives/refused", test_refused);
  g_test_add_func ("/gives/cancelled", test_cancelled);

  return g_test_run ();
}
