/* Proposals: sound cloth, honest figures, clear words. */
#include "config.h"

#include "piecing/proposal.h"
#include "store/job-writer.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

#include <string.h>

static OddProposalOptions
options_for (OddJob   *job,
             OddPieceManner manner,
             double    width_mm,
             double    length_mm)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, manner);
  options.width_mm = width_mm;
  options.length_mm = length_mm;
  options.treatment.allowance_mm = 10.0;

  return options;
}

static OddProposal *
propose (OddJob                   *job,
         const OddProposalOptions *options)
{
  g_autoptr(GError) error = NULL;
  OddProposal *proposal = odd_propose (job, options, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (proposal);

  return proposal;
}

static void
assert_refused (OddJob                   *job,
                const OddProposalOptions *options,
                int                       code,
                const char               *word)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_propose (job, options, NULL, NULL, NULL, &error));
  g_assert_error (error, ODD_PIECING_ERROR, code);
  if (strstr (error->message, word) == NULL)
    g_error ("“%s” does not say “%s”", error->message, word);
}

/* Nothing but bare places may be found. */
static void
assert_sound (OddJob *job)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);

  for (guint i = 0; i < findings->len; i++)
    {
      const OddFinding *finding = findings->pdata[i];

      if (finding->kind != ODD_FINDING_BARE)
        g_error ("%s", finding->text);
    }
}

static OddLayout *
layout_of (const OddProposal *proposal,
           guint              i)
{
  return odd_job_dup_layout (proposal->job, g_array_index (proposal->panels, OddId, i));
}

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

/* By hand: four scraps of just the template, 100 mm at 10 mm: two by two, 160 mm; 4 x 6400 of 40000 mm2. Seams: one across 180 raw, two of 100. */
static void
test_squares_by_hand (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (4, 100.0, 100.0);
  const OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES, 150.0, 160.0);
  g_autoptr(OddProposal) proposal = propose (job, &options);
  g_autoptr(OddLayout) layout = layout_of (proposal, 0);
  const OddFigures *figures = &proposal->figures;

  assert_sound (proposal->job);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 160.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (layout->box.height, 160.0, 1e-9);
  g_assert_cmpuint (figures->n_patches, ==, 4);
  g_assert_cmpuint (figures->n_bare, ==, 0);
  g_assert_cmpuint (figures->n_scraps_used, ==, 4);
  g_assert_cmpuint (figures->n_offcuts, ==, 0);
  g_assert_cmpfloat_with_epsilon (figures->net_yield, 0.64, 1e-9);
  g_assert_cmpfloat_with_epsilon (figures->own_bound, 0.64, 1e-9);
  g_assert_cmpfloat_with_epsilon (figures->fit, 1.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (figures->of_heap, 0.64, 1e-9);
  g_assert_cmpfloat_with_epsilon (figures->smallest_side_mm, 80.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (figures->seams_mm, 180.0 + 2 * 100.0, 1e-6);
  g_assert_null (proposal->missing);
}

/* One scrap of 210 x 300 gives one of 100 x 100 and keeps an offcut: 63000 less all but the square. */
static void
test_offcut_comes_back (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (1, 100.0, 300.0);
  const OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES, 80.0, 80.0);
  g_autoptr(OddProposal) proposal = propose (job, &options);

  g_assert_cmpuint (proposal->figures.n_offcuts, ==, 1);
  g_assert_cmpfloat_with_epsilon (proposal->figures.offcuts_mm2, 20000.0, 1e-3);
  g_assert_cmpfloat_with_epsilon (proposal->figures.net_yield, 0.64, 1e-6);
}

static void
test_squares_missing (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (3, 100.0, 100.0);
  const OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES, 160.0, 160.0);
  g_autoptr(OddProposal) proposal = propose (job, &options);
  g_autoptr(OddLayout) layout = layout_of (proposal, 0);

  assert_sound (proposal->job);
  g_assert_cmpuint (proposal->figures.n_patches, ==, 3);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 1);
  g_assert_nonnull (proposal->missing);
  g_assert_nonnull (strstr (proposal->missing, "1 of 4"));
  g_assert_null (layout->patches[3].scrap);      /* the last in the last row */
}

/* Rows of two sizes are trimmed to one width. */
static void
test_squares_two_sizes (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (150, 4);
  OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES, 500.0, 600.0);
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(OddLayout) layout = NULL;

  options.templates[1] = (OddTemplate) { 70.0, 70.0 };
  options.templates[2] = (OddTemplate) { 60.0, 90.0 };
  options.n_templates = 3;
  proposal = propose (job, &options);
  layout = layout_of (proposal, 0);
  assert_sound (proposal->job);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 560.0, 1e-9);
  g_assert_cmpfloat (layout->box.height, >=, 600.0 - 0.05);
  g_assert_cmpfloat (layout->box.height, <, 680.0);
  g_assert_cmpfloat_with_epsilon (proposal->figures.finished_mm2, layout->box.width * layout->box.height, 1e-3);
}

static OddJob *
with_fabric (OddJob      *job,
             const char  *name,
             gboolean     one_way,
             OddId       *out_id)
{
  OddFabric values;
  g_autoptr(OddJob) before = job;
  g_autoptr(GError) error = NULL;
  OddJob *after;

  odd_fabric_init_values (&values);
  values.name = (char *) name;
  values.one_way = one_way;
  after = odd_job_put_fabric (before, &values, out_id, &error);
  g_assert_no_error (error);

  return after;
}

static OddJob *
with_boxes_of (OddJob *job,
               OddId   fabric_id,
               guint   n,
               double  width_mm,
               double  length_mm,
               double  grain_deg)
{
  g_autoptr(OddPolygon) box = odd_polygon_new_box ((OddBox) { 0.0, 0.0, width_mm, length_mm });

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(GError) error = NULL;
      OddScrap values;
      OddJob *next;

      odd_scrap_init_values (&values);
      values.outline = box;
      values.washed = TRUE;
      values.fabric_id = fabric_id;
      values.grain_deg = grain_deg;
      next = odd_job_put_scrap (job, &values, NULL, &error);
      g_assert_no_error (error);
      odd_job_unref (job);
      job = next;
    }

  return job;
}

/* Eighteen squares each of two fabrics, six by six: a chequerboard is the only way without contact. */
static void
test_chequerboard (void)
{
  OddId light = 0, dark = 0;
  g_autoptr(OddJob) job = with_fabric (with_fabric (odd_job_new (), "Light", FALSE, &light), "Dark", FALSE, &dark);
  g_autoptr(OddProposal) proposal = NULL;
  OddProposalOptions options;

  job = with_boxes_of (with_boxes_of (g_steal_pointer (&job), light, 18, 100.0, 100.0, 90.0), dark, 18, 100.0, 100.0, 90.0);
  options = options_for (job, ODD_PIECE_SQUARES, 480.0, 480.0);
  options.moves = 400000;
  proposal = propose (job, &options);
  g_assert_cmpuint (proposal->figures.n_patches, ==, 36);
  g_assert_cmpuint (proposal->figures.n_contacts, ==, 0);
  g_assert_null (proposal->remark);
}

/* Three of four are of one fabric: two of them must touch, and the remark says why. */
static void
test_too_much_of_one (void)
{
  OddId most = 0, rest = 0;
  g_autoptr(OddJob) job = with_fabric (with_fabric (odd_job_new (), "Ticking", FALSE, &most), "Linen", FALSE, &rest);
  g_autoptr(OddProposal) proposal = NULL;
  OddProposalOptions options;

  job = with_boxes_of (with_boxes_of (g_steal_pointer (&job), most, 3, 100.0, 100.0, 90.0), rest, 1, 100.0, 100.0, 90.0);
  options = options_for (job, ODD_PIECE_SQUARES, 160.0, 160.0);
  proposal = propose (job, &options);
  g_assert_cmpuint (proposal->figures.n_contacts, ==, 2);
  g_assert_nonnull (proposal->remark);
  g_assert_nonnull (strstr (proposal->remark, "Ticking"));
  g_assert_nonnull (strstr (proposal->remark, "of 4 patches"));
}

/* With enough of others, no fabric is taken beyond half although its scraps lose least. */
static void
test_half_at_most (void)
{
  OddId most = 0, rest = 0;
  g_autoptr(OddJob) job = with_fabric (with_fabric (odd_job_new (), "Ticking", FALSE, &most), "Linen", FALSE, &rest);
  g_autoptr(OddProposal) proposal = NULL;
  OddProposalOptions options;

  job = with_boxes_of (with_boxes_of (g_steal_pointer (&job), most, 40, 100.0, 100.0, 90.0), rest, 20, 120.0, 130.0, 90.0);
  options = options_for (job, ODD_PIECE_SQUARES, 480.0, 480.0);
  options.moves = 400000;
  proposal = propose (job, &options);
  g_assert_cmpfloat (proposal->figures.widest_share, <=, 0.5);
  g_assert_cmpuint (proposal->figures.n_contacts, ==, 0);
}

/* 36 squares: of the one at most a quarter, of the other at least two thirds, though the one loses less. */
static void
test_shares_of_squares (void)
{
  OddId scarce = 0, wanted = 0, rest = 0;
  g_autoptr(OddJob) job = with_fabric (with_fabric (with_fabric (odd_job_new (), "Ticking", FALSE, &scarce), "Linen", FALSE, &wanted), "Lawn", FALSE, &rest);
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(OddLayout) layout = NULL;
  OddShare shares[2];
  OddProposalOptions options;
  guint n[2] = { 0, 0 };

  job = with_boxes_of (with_boxes_of (with_boxes_of (g_steal_pointer (&job), scarce, 40, 100.0, 100.0, 90.0), wanted, 40, 120.0, 130.0, 90.0),
                       rest, 40, 110.0, 105.0, 90.0);
  options = options_for (job, ODD_PIECE_SQUARES, 480.0, 480.0);
  shares[0] = (OddShare) { scarce, 0.25, 0.0 };
  shares[1] = (OddShare) { wanted, 1.0, 2.0 / 3.0 };
  options.shares = shares;
  options.n_shares = 2;
  proposal = propose (job, &options);
  layout = layout_of (proposal, 0);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      n[0] += layout->patches[i].fabric->id == scarce;
      n[1] += layout->patches[i].fabric->id == wanted;
    }
  g_assert_cmpuint (layout->n_patches, ==, 36);
  g_assert_cmpuint (n[0], <=, 9);
  g_assert_cmpuint (n[1], ==, 24);
}

/* A cap that leaves too little cloth leaves places bare. */
static void
test_cap_leaves_bare (void)
{
  OddId only = 0;
  g_autoptr(OddJob) job = with_fabric (odd_job_new (), "Ticking", FALSE, &only);
  g_autoptr(OddProposal) proposal = NULL;
  OddShare share;
  OddProposalOptions options;

  job = with_boxes_of (g_steal_pointer (&job), only, 40, 100.0, 100.0, 90.0);
  options = options_for (job, ODD_PIECE_SQUARES, 320.0, 320.0);
  share = (OddShare) { only, 0.5, 0.0 };
  options.shares = &share;
  options.n_shares = 1;
  proposal = propose (job, &options);
  g_assert_cmpuint (proposal->figures.n_patches, ==, 8);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 8);
  g_assert_nonnull (proposal->missing);
}

/* Every patch of a print with an up is told when its panel is turned over end, and none when it hangs right. */
static void
test_upside_down (void)
{
  OddId print = 0;
  g_autoptr(OddJob) job = with_fabric (odd_job_new (), "Birds", TRUE, &print);
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(OddJob) turned = NULL;
  g_autoptr(GPtrArray) findings = NULL;
  OddProposalOptions options;

  job = with_boxes_of (g_steal_pointer (&job), print, 8, 110.0, 110.0, 90.0);
  options = options_for (job, ODD_PIECE_SQUARES, 160.0, 240.0);
  proposal = propose (job, &options);
  assert_sound (proposal->job);
  turned = odd_job_turn_panel (proposal->job, g_array_index (proposal->panels, OddId, 0), NULL);
  findings = odd_job_check (turned, NULL);
  g_assert_cmpuint (findings->len, ==, 6);
  for (guint i = 0; i < findings->len; i++)
    {
      const OddFinding *finding = findings->pdata[i];

      g_assert_cmpint (finding->kind, ==, ODD_FINDING_UPSIDE_DOWN);
      g_assert_nonnull (strstr (finding->text, "“Birds” has an up"));
    }
}

/* Grain along x in the scrap: an upright print is turned until it runs down the panel; plain cloth may lie any way. */
static void
test_one_way (void)
{
  OddId print = 0;
  g_autoptr(OddJob) job = with_fabric (odd_job_new (), "Birds", TRUE, &print);
  OddPieceManner manner;

  job = with_boxes_of (with_boxes_of (g_steal_pointer (&job), print, 20, 150.0, 110.0, 0.0), print, 20, 140.0, 200.0, 270.0);
  for (manner = ODD_PIECE_SQUARES; manner <= ODD_PIECE_COLUMNS; manner++)
    {
      const OddProposalOptions options = options_for (job, manner, 240.0, 480.0);
      g_autoptr(OddProposal) proposal = propose (job, &options);
      g_autoptr(OddLayout) layout = layout_of (proposal, 0);
      guint n_seen = 0;

      assert_sound (proposal->job);
      for (guint i = 0; i < layout->n_patches; i++)
        {
          const OddPatch *patch = &layout->patches[i];

          if (patch->scrap == NULL)
            continue;
          g_assert_cmpfloat_with_epsilon (odd_placement_apply_angle (&patch->placement, patch->scrap->grain_deg), 90.0, 1e-9);
          n_seen++;
        }
      g_assert_cmpuint (n_seen, >, 3);
    }
}

/* --- columns --- */

static void
assert_filled (const OddProposal *proposal,
               double             width_mm,
               double             length_mm)
{
  for (guint i = 0; i < proposal->panels->len; i++)
    {
      g_autoptr(OddLayout) layout = layout_of (proposal, i);

      g_assert_cmpfloat_with_epsilon (layout->box.width, width_mm, 1e-6);
      g_assert_cmpfloat_with_epsilon (layout->box.height, length_mm, 1e-6);
      g_assert_cmpuint (layout->n_vanished, ==, 0);
    }
}

static void
test_columns (void)
{
  static const double LIVELINESS[] = { 0.0, 0.5, 1.0 };
  static const double LENGTHS_MM[] = { 1500.0, 973.3, 101.0 };

  for (guint i = 0; i < G_N_ELEMENTS (LIVELINESS); i++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (120, 10 + i);
      OddProposalOptions options = options_for (job, ODD_PIECE_COLUMNS, 300.0, LENGTHS_MM[i]);
      g_autoptr(OddProposal) proposal = NULL;

      options.liveliness = LIVELINESS[i];
      options.n_panels = 2;
      proposal = propose (job, &options);
      assert_sound (proposal->job);
      assert_filled (proposal, 300.0, LENGTHS_MM[i]);
      g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
      g_assert_cmpfloat (proposal->figures.smallest_side_mm, >=, 30.0 - 1e-6);
      g_assert_cmpfloat_with_epsilon (proposal->figures.finished_mm2, 2 * 300.0 * LENGTHS_MM[i], 1e-3);
      g_assert_cmpfloat (proposal->figures.fit, >, 0.9);
      g_assert_cmpfloat (proposal->figures.fit, <=, 1.0 + 1e-9);
    }
}

/* More cloth is asked for than there is: what is there is used, the rest is bare and told. */
static void
test_columns_used_up (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (40, 3);
  OddProposalOptions options = options_for (job, ODD_PIECE_COLUMNS, 250.0, 1000.0);
  g_autoptr(OddProposal) proposal = NULL;
  double longest = 0.0, shortest = INFINITY;

  options.n_panels = 6;
  proposal = propose (job, &options);
  assert_sound (proposal->job);
  assert_filled (proposal, 250.0, 1000.0);
  g_assert_cmpuint (proposal->figures.n_bare, >, 0);
  g_assert_nonnull (proposal->missing);
  g_assert_cmpfloat_with_epsilon (proposal->figures.finished_mm2 + proposal->figures.bare_mm2, 6 * 250.0 * 1000.0, 1e-3);
  g_assert_cmpfloat (proposal->figures.of_heap, >, 0.4);

  for (guint i = 0; i < proposal->panels->len; i++)
    {
      g_autoptr(OddLayout) layout = layout_of (proposal, i);
      double covered = 0.0;

      for (guint k = 0; k < layout->n_patches; k++)
        covered += layout->patches[k].scrap != NULL ? odd_convex_area (layout->patches[k].region) : 0.0;
      longest = MAX (longest, covered);
      shortest = MIN (shortest, covered);
    }
  /* none is more than a high row behind another */
  g_assert_cmpfloat (longest - shortest, <=, 250.0 * 190.0);
}

/* --- laws --- */

static GBytes *
bytes_of (const OddProposal *proposal)
{
  g_autoptr(GError) error = NULL;
  GBytes *bytes = odd_job_write_bytes (proposal->job, &error);

  g_assert_no_error (error);

  return bytes;
}

static void
test_same_seed_same_bytes (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (80, 5);

  for (OddPieceManner manner = ODD_PIECE_SQUARES; manner <= ODD_PIECE_COLUMNS; manner++)
    {
      OddProposalOptions options = options_for (job, manner, 320.0, 600.0);
      g_autoptr(OddProposal) one = NULL;
      g_autoptr(OddProposal) many = NULL;
      g_autoptr(OddProposal) other = NULL;
      g_autoptr(GBytes) first = NULL;
      g_autoptr(GBytes) second = NULL;
      g_autoptr(GBytes) third = NULL;

      options.n_threads = 1;
      one = propose (job, &options);
      options.n_threads = 5;
      many = propose (job, &options);
      options.seed = 2;
      other = propose (job, &options);
      first = bytes_of (one);
      second = bytes_of (many);
      third = bytes_of (other);
      g_assert_true (g_bytes_equal (first, second));
      g_assert_false (g_bytes_equal (first, third));
    }
}

/* What a first proposal used is not touched by a second, and its panels stay as they are. */
static void
test_again_beside_what_stands (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (120, 6);
  const OddProposalOptions options = options_for (job, ODD_PIECE_COLUMNS, 300.0, 600.0);
  g_autoptr(OddProposal) first = propose (job, &options);
  const OddProposalOptions next = options_for (first->job, ODD_PIECE_SQUARES, 300.0, 600.0);
  g_autoptr(OddProposal) second = propose (first->job, &next);
  const OddId kept = g_array_index (first->panels, OddId, 0);

  assert_sound (second->job);
  g_assert_true (odd_job_get_panel (second->job, kept, NULL, NULL) == odd_job_get_panel (first->job, kept, NULL, NULL));
  for (guint i = 0; i < job->scraps->len; i++)
    {
      const OddId id = ((OddScrap *) job->scraps->pdata[i])->id;
      guint n_first = 0, n_second = 0;

      odd_job_get_uses (first->job, id, &n_first);
      odd_job_get_uses (second->job, id, &n_second);
      if (n_first > 0)
        g_assert_cmpuint (n_second, ==, n_first);
    }
}

static void
test_only_these_scraps (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (60, 7);
  OddProposalOptions options = options_for (job, ODD_PIECE_COLUMNS, 250.0, 300.0);
  g_autoptr(OddProposal) proposal = NULL;
  OddId ids[30];

  for (guint i = 0; i < 30; i++)
    ids[i] = ((OddScrap *) job->scraps->pdata[2 * i])->id;
  options.scrap_ids = ids;
  options.n_scrap_ids = 30;
  proposal = propose (job, &options);
  for (guint i = 0; i < 30; i++)
    {
      guint n = 0;

      odd_job_get_uses (proposal->job, ((OddScrap *) job->scraps->pdata[2 * i + 1])->id, &n);
      g_assert_cmpuint (n, ==, 0);
    }
  g_assert_cmpuint (proposal->figures.n_patches, >, 1);
}

/* Light at the top, dark at the bottom, and the other way: the upper third is so many L* lighter than the lower. */
static void
test_graded (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (200, 8);
  const OddSpread spreads[2] = { ODD_SPREAD_LIGHT_TOP, ODD_SPREAD_DARK_TOP };

  for (guint s = 0; s < 2; s++)
    for (OddPieceManner manner = ODD_PIECE_SQUARES; manner <= ODD_PIECE_COLUMNS; manner++)
      {
        OddProposalOptions options = options_for (job, manner, 400.0, 1200.0);
        g_autoptr(OddProposal) proposal = NULL;
        g_autoptr(OddLayout) layout = NULL;
        double sum[2] = { 0.0, 0.0 }, area[2] = { 0.0, 0.0 };

        options.spread = spreads[s];
        proposal = propose (job, &options);
        layout = layout_of (proposal, 0);
        for (guint i = 0; i < layout->n_patches; i++)
          {
            const OddPatch *patch = &layout->patches[i];
            const double y = odd_convex_centroid (patch->region).y / layout->box.height;
            const double mm2 = odd_convex_area (patch->region);

            if (y > 1.0 / 3.0 && y < 2.0 / 3.0)
              continue;
            sum[y > 0.5] += mm2 * odd_fabric_get_lightness (patch->fabric);
            area[y > 0.5] += mm2;
          }
        g_assert_cmpfloat ((sum[0] / area[0] - sum[1] / area[1]) * (s == 0 ? 1.0 : -1.0), >, 15.0);
      }
}

/* --- what is refused --- */

static void
test_bad_lengths (void)
{
  static const double BAD[] = { 0.0, -100.0, 1e9, NAN, INFINITY };
  g_autoptr(OddJob) job = tub_of_boxes (4, 100.0, 100.0);

  for (guint i = 0; i < G_N_ELEMENTS (BAD); i++)
    for (OddPieceManner manner = ODD_PIECE_SQUARES; manner <= ODD_PIECE_COLUMNS; manner++)
      {
        OddProposalOptions options = options_for (job, manner, BAD[i], 500.0);

        assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "width");
        options = options_for (job, manner, 300.0, BAD[i]);
        assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "length");
        options = options_for (job, ODD_PIECE_SQUARES, 300.0, 300.0);
        options.templates[0].width_mm = BAD[i];
        assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "template");
      }
}

static void
test_bad_amounts (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (4, 100.0, 100.0);
  OddProposalOptions options = options_for (job, ODD_PIECE_SQUARES, 160.0, 160.0);

  options.treatment.allowance_mm = 50.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "50.0");
  options.treatment.allowance_mm = -1.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "allowance");
  options = options_for (job, ODD_PIECE_SQUARES, 160.0, 160.0);
  options.n_panels = 0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "panels");
  options.n_panels = 200;
  options.width_mm = options.length_mm = 9999.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "patches");
  options = options_for (job, ODD_PIECE_COLUMNS, 160.0, 160.0);
  options.smallest_mm = 50.0;
  options.row_least_mm = 40.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "lowest row");
}

static void
test_nothing_to_take (void)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) small = tub_of_boxes (3, 61.0, 59.0);
  OddProposalOptions options = options_for (empty, ODD_PIECE_SQUARES, 160.0, 160.0);
  g_autoptr(OddProposal) all = NULL;

  assert_refused (empty, &options, ODD_PIECING_ERROR_NO_SCRAP, "no scraps");
  assert_refused (small, &options, ODD_PIECING_ERROR_NO_SCRAP, "59 mm");
  options = options_for (small, ODD_PIECE_COLUMNS, 160.0, 160.0);
  options.row_least_mm = 50.0;
  assert_refused (small, &options, ODD_PIECING_ERROR_NO_SCRAP, "30 × 50");

  options = options_for (small, ODD_PIECE_SQUARES, 40.0, 40.0);
  options.templates[0] = (OddTemplate) { 55.0, 55.0 };
  options.n_panels = 3;
  all = propose (small, &options);
  assert_refused (all->job, &options, ODD_PIECING_ERROR_NO_SCRAP, "None of the 3 scraps is free");
}

static void
test_cancelled (void)
{
  g_autoptr(OddJob) job = tub_of_boxes (4, 100.0, 100.0);
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();

  g_cancellable_cancel (cancellable);
  for (OddPieceManner manner = ODD_PIECE_SQUARES; manner <= ODD_PIECE_COLUMNS; manner++)
    {
      const OddProposalOptions options = options_for (job, manner, 160.0, 160.0);
      g_autoptr(GError) error = NULL;

      g_assert_null (odd_propose (job, &options, NULL, NULL, cancellable, &error));
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/proposal/squares/by-hand", test_squares_by_hand);
  g_test_add_func ("/proposal/squares/offcut-comes-back", test_offcut_comes_back);
  g_test_add_func ("/proposal/squares/missing", test_squares_missing);
  g_test_add_func ("/proposal/squares/two-sizes", test_squares_two_sizes);
  g_test_add_func ("/proposal/squares/chequerboard", test_chequerboard);
  g_test_add_func ("/proposal/squares/too-much-of-one", test_too_much_of_one);
  g_test_add_func ("/proposal/squares/half-at-most", test_half_at_most);
  g_test_add_func ("/proposal/squares/shares", test_shares_of_squares);
  g_test_add_func ("/proposal/squares/cap-leaves-bare", test_cap_leaves_bare);
  g_test_add_func ("/proposal/upside-down", test_upside_down);
  g_test_add_func ("/proposal/one-way", test_one_way);
  g_test_add_func ("/proposal/columns", test_columns);
  g_test_add_func ("/proposal/columns/used-up", test_columns_used_up);
  g_test_add_func ("/proposal/same-seed-same-bytes", test_same_seed_same_bytes);
  g_test_add_func ("/proposal/again-beside-what-stands", test_again_beside_what_stands);
  g_test_add_func ("/proposal/only-these-scraps", test_only_these_scraps);
  g_test_add_func ("/proposal/graded", test_graded);
  g_test_add_func ("/proposal/refused/lengths", test_bad_lengths);
  g_test_add_func ("/proposal/refused/amounts", test_bad_amounts);
  g_test_add_func ("/proposal/refused/nothing-to-take", test_nothing_to_take);
  g_test_add_func ("/proposal/cancelled", test_cancelled);

  return g_test_run ();
}
