/* Crumbs: sound cloth within the rules, the same whatever the threads, and made better without touching what is kept. */
#include "config.h"

#include "piecing/proposal.h"
#include "store/job-writer.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

#include <string.h>

static OddProposalOptions
options_for (OddJob *job,
             double  width_mm,
             double  length_mm)
{
  return tub_crumb_options (job, width_mm, length_mm, 1500);
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

static OddProposal *
improve (const OddProposal        *first,
         const OddProposalOptions *options)
{
  g_autoptr(GError) error = NULL;
  OddProposal *better = odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, options, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (better);

  return better;
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

/* Degrees between the seam and the nearer side of the panel. */
static double
tilt_of (const OddLaidSeam *seam)
{
  return fabs (remainder (atan2 (seam->line.normal.y, seam->line.normal.x) * 180.0 / G_PI, 90.0));
}

static void
test_sound (void)
{
  for (guint seed = 1; seed <= 3; seed++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (120, seed);
      OddProposalOptions options = options_for (job, 260.0, 800.0);
      g_autoptr(OddProposal) first = NULL, better = NULL;
      g_autoptr(OddLayout) layout = NULL;
      double steepest_deg = 0.0;

      options.seed = seed;
      options.n_panels = seed;
      options.smallest_mm = 32.0;
      first = propose (job, &options);
      better = improve (first, &options);
      layout = layout_of (better, 0);
      assert_sound (first->job);
      assert_sound (better->job);
      g_assert_cmpfloat_with_epsilon (layout->box.width, 260.0, 1e-6);
      g_assert_cmpfloat_with_epsilon (layout->box.height, 800.0, 1e-6);
      g_assert_cmpuint (better->panels->len, ==, seed);
      g_assert_cmpfloat (first->figures.smallest_side_mm, >=, 32.0 - 1e-6);
      g_assert_cmpfloat (better->figures.smallest_side_mm, >=, 32.0 - 1e-6);
      g_assert_cmpuint (better->figures.n_contacts, ==, 0);
      g_assert_cmpuint (better->figures.n_patches, >, 10 * seed);
      /* cloth and look together get no worse; alone, one may give way a little to the other */
      g_assert_cmpfloat (better->figures.fit, >=, first->figures.fit - 0.02);
      for (guint i = 0; i < layout->n_seams; i++)
        steepest_deg = MAX (steepest_deg, tilt_of (&layout->seams[i]));
      g_assert_cmpfloat (steepest_deg, >, 3.0);
      g_assert_cmpfloat (steepest_deg, <=, options.tilt_deg + 1e-6);
    }
}

static void
test_no_tilt (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (80, 5);
  OddProposalOptions options = options_for (job, 240.0, 600.0);
  g_autoptr(OddProposal) first = NULL, better = NULL;
  g_autoptr(OddLayout) layout = NULL;

  options.tilt_deg = 0.0;
  first = propose (job, &options);
  better = improve (first, &options);
  layout = layout_of (better, 0);
  assert_sound (better->job);
  for (guint i = 0; i < layout->n_seams; i++)
    g_assert_cmpfloat (tilt_of (&layout->seams[i]), <, 1e-9);
}

static char *
job_text (OddJob *job)
{
  g_autoptr(GBytes) bytes = odd_job_write_json (job, NULL);

  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* Same seed, same bytes, on one thread and on three; another seed, another cloth. */
static void
test_threads (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (80, 2);
  OddProposalOptions options = options_for (job, 240.0, 700.0);
  g_autofree char *texts[3] = { NULL };

  for (guint i = 0; i < 3; i++)
    {
      g_autoptr(OddProposal) first = NULL, better = NULL;

      options.n_threads = i == 0 ? 1 : 3;
      options.seed = i == 2 ? 9 : 1;
      first = propose (job, &options);
      better = improve (first, &options);
      texts[i] = job_text (better->job);
    }
  g_assert_cmpstr (texts[0], ==, texts[1]);
  g_assert_cmpstr (texts[0], !=, texts[2]);
  g_free (texts[1]);
  g_free (texts[2]);
}

/* Ten small scraps for much cloth: some of it stays bare, and it is said how much is short. */
static void
test_missing (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddProposalOptions options;
  g_autoptr(OddProposal) proposal = NULL;

  for (guint i = 0; i < 10; i++)
    tub_add_box (&job, 120.0, 110.0);
  options = options_for (job, 300.0, 900.0);
  proposal = propose (job, &options);
  assert_sound (proposal->job);
  g_assert_cmpuint (proposal->figures.n_patches, >=, 8);
  g_assert_cmpuint (proposal->figures.n_bare, >, 0);
  g_assert_nonnull (proposal->missing);
  g_assert_nonnull (strstr (proposal->missing, "stay bare"));
}

/* Finished cloth and bare places of one panel. */
static double
laid_in (const OddProposal *proposal,
         guint              i,
         guint             *n_bare)
{
  g_autoptr(OddLayout) layout = layout_of (proposal, i);
  double laid_mm2 = 0.0;

  *n_bare = 0;
  for (guint k = 0; k < layout->n_patches; k++)
    {
      const OddPatch *patch = &layout->patches[k];

      if (patch->scrap == NULL)
        (*n_bare)++;
      else
        laid_mm2 += odd_convex_area (patch->region);
    }

  return laid_mm2;
}

/* Holes all over would be cloth that nobody can use: what there is is put together, from the first panel on. */
static void
test_gathered (void)
{
  for (guint seed = 1; seed <= 3; seed++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (60, seed);
      OddProposalOptions options = options_for (job, 300.0, 1000.0);
      g_autoptr(OddProposal) proposal = NULL;
      double before_mm2 = INFINITY;
      guint n_holes = 0;

      options.n_panels = 6;
      options.seed = seed;
      proposal = propose (job, &options);
      assert_sound (proposal->job);
      g_assert_cmpfloat (proposal->figures.bare_mm2, >, 300.0 * 1000.0);
      for (guint i = 0; i < options.n_panels; i++)
        {
          guint n_bare;
          const double laid_mm2 = laid_in (proposal, i, &n_bare);

          /* whole, then one begun, then none */
          g_assert_true (before_mm2 > 0.9 * 300.0 * 1000.0 || laid_mm2 == 0.0);
          if (laid_mm2 > 0.0)
            n_holes += n_bare;
          before_mm2 = laid_mm2;
        }
      g_assert_cmpfloat (before_mm2, ==, 0.0);
      g_assert_cmpuint (n_holes, <=, 1 + proposal->figures.n_patches / 10);
    }
}

/* Much can be cut out of one sheet: its many corners must not hide what is left of it. */
static void
test_one_sheet (void)
{
  for (guint seed = 1; seed <= 3; seed++)
    {
      g_autoptr(OddJob) job = odd_job_new ();
      OddProposalOptions options;
      g_autoptr(OddProposal) proposal = NULL;

      tub_add_box (&job, 700.0, 700.0);
      options = options_for (job, 160.0, 240.0);
      options.scale_mm = 40.0;
      options.seed = seed;
      options.moves = 200;
      proposal = propose (job, &options);
      assert_sound (proposal->job);
      g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
      g_assert_cmpuint (proposal->figures.n_patches, >, 10);
    }
}

static void
test_refusals (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddProposalOptions options = options_for (job, 300.0, 900.0);

  assert_refused (job, &options, ODD_PIECING_ERROR_NO_SCRAP, "no scraps");
  tub_add_box (&job, 45.0, 400.0);
  assert_refused (job, &options, ODD_PIECING_ERROR_NO_SCRAP, "at least 30 mm wide");
  options.tilt_deg = 60.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "tilt is 60.0");
  options.tilt_deg = NAN;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "tilt");
  options = options_for (job, 300.0, 900.0);
  options.smallest_mm = -1.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "smallest side");
  options = options_for (job, 300.0, 900.0);
  options.scale_mm = 5.0;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "middle patch");
  options = options_for (job, 300.0, 900.0);
  options.liveliness = 1.5;
  assert_refused (job, &options, ODD_PIECING_ERROR_RANGE, "1.50");
}

static void
cancel_cb (double       done,
           OddProposal *so_far,
           gpointer     data)
{
  g_cancellable_cancel (data);
}

static void
test_cancel (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (40, 1);
  const OddProposalOptions options = options_for (job, 240.0, 500.0);
  g_autoptr(OddProposal) first = propose (job, &options);
  g_autofree char *before = job_text (first->job);
  g_autofree char *after = NULL;
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_improve (first->job, (const OddId *) first->panels->data, 1, &options, cancel_cb, cancellable, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  after = job_text (first->job);
  g_assert_cmpstr (before, ==, after);
  g_clear_error (&error);
  g_assert_null (odd_propose (job, &options, NULL, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

/* By the clock, what is better is told while it goes on, and each proposal told is sound. */
static void
told_cb (double       done,
         OddProposal *so_far,
         gpointer     data)
{
  if (so_far == NULL)
    return;
  assert_sound (so_far->job);
  (*(guint *) data)++;
}

static void
test_told (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (120, 4);
  OddProposalOptions options = options_for (job, 260.0, 900.0);
  g_autoptr(OddProposal) first = NULL;
  g_autoptr(OddProposal) better = NULL;
  guint n_told = 0;

  options.scale_mm = 60.0;
  first = propose (job, &options);
  options.moves = 20000;
  better = odd_improve (first->job, (const OddId *) first->panels->data, 1, &options, told_cb, &n_told, NULL, NULL);
  g_assert_nonnull (better);
  g_assert_cmpuint (n_told, >=, 3);
  g_assert_cmpuint (n_told, <=, 20);
  assert_sound (better->job);
  g_assert_cmpuint (better->figures.n_bare, <=, first->figures.n_bare);
  g_assert_cmpfloat (better->figures.fit, >, first->figures.fit);
}

/* Two patches locked, one cut out: they stay to the last digit, and everything else goes on getting better. */
static void
test_kept (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (120, 6);
  const OddProposalOptions options = options_for (job, 260.0, 900.0);
  g_autoptr(OddProposal) first = propose (job, &options);
  g_autoptr(OddLayout) layout = layout_of (first, 0);
  g_autoptr(OddLayout) after = NULL;
  OddId kept[3];

  for (guint i = 0; i < 3; i++)
    {
      OddJob *next;

      kept[i] = layout->patches[(i + 1) * layout->n_patches / 5].leaf->id;
      next = i < 2 ? odd_job_set_lock (first->job, kept[i], TRUE, NULL) : odd_job_set_cut (first->job, kept[i], ODD_STATE_DONE, NULL);
      g_assert_nonnull (next);
      odd_job_unref (first->job);
      first->job = next;
    }
  {
    g_autoptr(OddProposal) better = improve (first, &options);

    assert_sound (better->job);
    after = layout_of (better, 0);
    g_assert_cmpuint (after->n_patches, >, 10);
    for (guint i = 0; i < 3; i++)
      {
        const OddPatch *was = odd_layout_find_patch (layout, kept[i]);
        const OddPatch *is = odd_layout_find_patch (after, kept[i]);

        g_assert_nonnull (is);
        g_assert_cmpuint (was->scrap->id, ==, is->scrap->id);
        g_assert_true (odd_convex_equal (was->region, is->region, 1e-9));
      }
  }
}

static OddJob *
replaced (OddProposal *proposal,
          OddJob      *next)
{
  g_assert_nonnull (next);
  odd_job_unref (proposal->job);
  proposal->job = next;

  return next;
}

/* Bare leaves of a panel that stands are filled, each manner; nothing else moves. */
static void
test_into_bare (void)
{
  for (guint manner = 0; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (150, 3);
      OddProposalOptions options = options_for (job, 240.0, 640.0);
      g_autoptr(OddProposal) first = NULL, filled = NULL;
      g_autoptr(OddLayout) was = NULL, is = NULL;
      g_autoptr(GError) error = NULL;
      OddId bare[2];

      options.manner = (OddPieceManner) manner;
      first = propose (job, &options);
      was = layout_of (first, 0);
      for (guint i = 0; i < 2; i++)
        {
          bare[i] = was->patches[i == 0 ? 1 : was->n_patches - 2].leaf->id;
          replaced (first, odd_job_make_bare (first->job, bare[i], NULL));
        }
      options.into = ODD_INTO_BARE;
      options.panel_ids = (const OddId *) first->panels->data;
      options.n_panel_ids = 1;
      filled = propose (first->job, &options);
      is = layout_of (filled, 0);
      assert_sound (filled->job);
      g_assert_cmpuint (filled->panels->len, ==, 1);
      g_assert_cmpuint (filled->figures.n_bare, ==, 0);
      for (guint i = 0; i < was->n_patches; i++)
        if (was->patches[i].leaf->id != bare[0] && was->patches[i].leaf->id != bare[1])
          {
            const OddPatch *same = odd_layout_find_patch (is, was->patches[i].leaf->id);

            g_assert_nonnull (same);
            g_assert_nonnull (same->scrap);
            g_assert_nonnull (was->patches[i].scrap);
            g_assert_cmpuint (same->scrap->id, ==, was->patches[i].scrap->id);
          }
      g_assert_null (odd_propose (filled->job, &options, NULL, NULL, NULL, &error));
      g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
    }
}

/* Around what is locked: it stays, the rest is another cloth. */
static void
test_into_unlocked (void)
{
  for (guint manner = 0; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (150, 3);
      OddProposalOptions options = options_for (job, 240.0, 640.0);
      g_autoptr(OddProposal) first = NULL, again = NULL;
      g_autoptr(OddLayout) was = NULL, is = NULL;
      const OddPatch *kept, *same;

      options.manner = (OddPieceManner) manner;
      first = propose (job, &options);
      was = layout_of (first, 0);
      kept = &was->patches[was->n_patches / 2];
      replaced (first, odd_job_set_lock (first->job, kept->leaf->id, TRUE, NULL));
      options.into = ODD_INTO_UNLOCKED;
      options.seed = 5;
      again = propose (first->job, &options);
      is = layout_of (again, 0);
      assert_sound (again->job);
      same = odd_layout_find_patch (is, kept->leaf->id);
      g_assert_nonnull (same);
      g_assert_cmpuint (same->scrap->id, ==, kept->scrap->id);
      g_assert_true (odd_convex_equal (same->region, kept->region, 1e-9));
      g_assert_cmpuint (again->figures.n_bare, ==, 0);
      g_assert_cmpfloat_with_epsilon (is->box.height, was->box.height, 1e-9);
    }
}

static void
test_loose (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (60, 3);
  OddProposalOptions options = options_for (job, 200.0, 150.0);
  g_autoptr(OddProposal) proposal = NULL;

  options.into = ODD_INTO_LOOSE;
  options.n_panels = 2;
  proposal = propose (job, &options);
  assert_sound (proposal->job);
  g_assert_cmpuint (proposal->job->loose_panels->len, ==, 2);
  g_assert_cmpuint (((OddTextile *) proposal->job->textiles->pdata[0])->n_hung, ==, 0);
}

/* Cloth that allows 12 degrees lies within them in every manner; one that is one way, the same way up. */
static void
test_grain (void)
{
  for (guint manner = 0; manner < 3; manner++)
    for (guint one_way = 0; one_way < 2; one_way++)
      {
        g_autoptr(OddJob) job = tub_of_fabrics (120, 4);
        OddProposalOptions options;
        g_autoptr(OddProposal) proposal = NULL;
        g_autoptr(OddLayout) layout = NULL;
        double most_deg = 0.0;

        for (guint i = 0; i < TUB_N_FABRICS; i++)
          {
            OddFabric values = *(OddFabric *) job->fabrics->pdata[i];
            OddJob *next;

            values.grain_tolerance_deg = 12.0;
            values.one_way = one_way;
            values.reversible = TRUE;
            next = odd_job_put_fabric (job, &values, NULL, NULL);
            g_assert_nonnull (next);
            odd_job_unref (job);
            job = next;
          }
        options = options_for (job, 240.0, 640.0);
        options.manner = (OddPieceManner) manner;
        proposal = propose (job, &options);
        if (manner == ODD_PIECE_CRUMBS)
          {
            OddProposal *better = improve (proposal, &options);

            odd_proposal_free (proposal);
            proposal = better;
          }
        assert_sound (proposal->job);
        layout = layout_of (proposal, 0);
        g_assert_cmpuint (proposal->figures.n_patches, >, 5);
        for (guint i = 0; i < layout->n_patches; i++)
          {
            const OddPatch *patch = &layout->patches[i];

            if (patch->scrap != NULL)
              most_deg = MAX (most_deg, fabs (remainder (odd_placement_apply_angle (&patch->placement, patch->scrap->grain_deg) - 90.0,
                                                         one_way ? 360.0 : 180.0)));
          }
        g_assert_cmpfloat (most_deg, <=, 12.0 + 1e-6);
        g_assert_cmpfloat (most_deg, >, 0.1);
      }
}

/* The fabric that would have most may have at most 4 of 100: one row or patch beyond it is let pass. */
static void
test_share (void)
{
  for (guint manner = 1; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (150, 2);
      OddProposalOptions options = options_for (job, 300.0, 1200.0);
      g_autoptr(OddProposal) as_it_comes = NULL, with_less = NULL;
      OddShare share = { 0, 0.04 };
      double mm2[2] = { 0.0, 0.0 };

      options.manner = (OddPieceManner) manner;
      as_it_comes = propose (job, &options);
      share.fabric_id = as_it_comes->figures.widest_share_fabric;
      options.shares = &share;
      options.n_shares = 1;
      with_less = propose (job, &options);
      assert_sound (with_less->job);
      for (guint i = 0; i < 2; i++)
        {
          g_autoptr(OddLayout) layout = layout_of (i == 0 ? as_it_comes : with_less, 0);

          for (guint k = 0; k < layout->n_patches; k++)
            if (layout->patches[k].fabric != NULL && layout->patches[k].fabric->id == share.fabric_id)
              mm2[i] += odd_convex_area (layout->patches[k].region);
        }
      g_assert_cmpuint (with_less->figures.n_bare, ==, 0);
      g_assert_cmpfloat (mm2[1], <, mm2[0]);
      g_assert_cmpfloat (mm2[1], <, (0.04 + 0.06) * 300.0 * 1200.0);
    }
}

/* And of which there should be a quarter, it is a quarter, where as it comes it is less. */
static void
test_least_share (void)
{
  for (guint manner = 1; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = tub_of_fabrics (150, 2);
      OddProposalOptions options = options_for (job, 240.0, 800.0);
      g_autoptr(OddProposal) as_it_comes = NULL, with_more = NULL;
      OddShare share = { ((OddFabric *) job->fabrics->pdata[3])->id, 1.0, 0.25 };
      double mm2[2] = { 0.0, 0.0 };

      options.manner = (OddPieceManner) manner;
      as_it_comes = propose (job, &options);
      options.shares = &share;
      options.n_shares = 1;
      with_more = propose (job, &options);
      assert_sound (with_more->job);
      for (guint i = 0; i < 2; i++)
        {
          g_autoptr(OddLayout) layout = layout_of (i == 0 ? as_it_comes : with_more, 0);

          for (guint k = 0; k < layout->n_patches; k++)
            if (layout->patches[k].fabric != NULL && layout->patches[k].fabric->id == share.fabric_id)
              mm2[i] += odd_convex_area (layout->patches[k].region);
        }
      g_assert_cmpfloat (mm2[0], <, 0.2 * 240.0 * 800.0);
      g_assert_cmpfloat (mm2[1], >, 1.5 * mm2[0]);
      g_test_message ("%.3f %.3f", mm2[0] / (240.0 * 800.0), mm2[1] / (240.0 * 800.0));
    }
}

/* One large scrap for two panels: the second has only what is left of it. */
static void
test_remains (void)
{
  for (guint manner = 0; manner < 3; manner++)
    {
      g_autoptr(OddJob) job = odd_job_new ();
      OddProposalOptions options;
      g_autoptr(OddProposal) first = NULL, second = NULL;
      g_autoptr(GError) error = NULL;

      tub_add_box (&job, 900.0, 900.0);
      options = options_for (job, 160.0, 240.0);
      options.manner = (OddPieceManner) manner;
      first = propose (job, &options);
      g_assert_cmpuint (first->figures.n_bare, ==, 0);
      g_assert_null (odd_propose (first->job, &options, NULL, NULL, NULL, &error));
      g_assert_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP);
      options.remains = TRUE;
      second = propose (first->job, &options);
      assert_sound (second->job);
      g_assert_cmpuint (second->figures.n_patches, >, 0);
      g_assert_cmpuint (second->figures.n_bare, ==, 0);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/crumbs/sound", test_sound);
  g_test_add_func ("/crumbs/no-tilt", test_no_tilt);
  g_test_add_func ("/crumbs/threads", test_threads);
  g_test_add_func ("/crumbs/missing", test_missing);
  g_test_add_func ("/crumbs/gathered", test_gathered);
  g_test_add_func ("/crumbs/one-sheet", test_one_sheet);
  g_test_add_func ("/crumbs/refusals", test_refusals);
  g_test_add_func ("/crumbs/cancel", test_cancel);
  g_test_add_func ("/crumbs/told", test_told);
  g_test_add_func ("/crumbs/kept", test_kept);
  g_test_add_func ("/crumbs/into-bare", test_into_bare);
  g_test_add_func ("/crumbs/into-unlocked", test_into_unlocked);
  g_test_add_func ("/crumbs/loose", test_loose);
  g_test_add_func ("/crumbs/grain", test_grain);
  g_test_add_func ("/crumbs/share", test_share);
  g_test_add_func ("/crumbs/least-share", test_least_share);
  g_test_add_func ("/crumbs/remains", test_remains);

  return g_test_run ();
}
