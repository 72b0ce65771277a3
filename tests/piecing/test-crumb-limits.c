/* Crumbs at the ends of what may be asked: nothing hangs, and what comes out is sound. */
#include "config.h"

#include "piecing/proposal.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

#include <string.h>

static OddProposalOptions
options_for (OddJob *job,
             double  width_mm,
             double  length_mm)
{
  return tub_crumb_options (job, width_mm, length_mm, 1024);
}

/* A first proposal and a better one; both sound. */
static OddProposal *
propose_and_improve (OddJob                   *job,
                     const OddProposalOptions *options)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddProposal) first = odd_propose (job, options, NULL, NULL, NULL, &error);
  OddProposal *better;

  g_assert_no_error (error);
  better = odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat (better->figures.bare_mm2, <=, first->figures.bare_mm2 + 1e-6);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr(GPtrArray) findings = odd_job_check (i == 0 ? first->job : better->job, NULL);

      for (guint k = 0; k < findings->len; k++)
        if (((OddFinding *) findings->pdata[k])->kind != ODD_FINDING_BARE)
          g_error ("%s", ((OddFinding *) findings->pdata[k])->text);
    }

  return better;
}

static void
test_one_scrap (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddProposalOptions options;
  g_autoptr(OddProposal) proposal = NULL;

  tub_add_box (&job, 500.0, 400.0);
  options = options_for (job, 200.0, 200.0);
  proposal = propose_and_improve (job, &options);
  g_assert_cmpuint (proposal->figures.n_scraps_used, ==, 1);
  /* the more is cut from one sheet, the more places in what is left of it are missed */
  g_assert_cmpfloat (proposal->figures.bare_mm2, <, 0.1 * 200.0 * 200.0);
}

/* A middle patch larger than the panel: one patch is the panel, where a scrap is as large. */
static void
test_scale_beyond (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (60, 1);
  OddProposalOptions options = options_for (job, 120.0, 100.0);
  g_autoptr(OddProposal) proposal = NULL;

  options.scale_mm = 5000.0;
  proposal = propose_and_improve (job, &options);
  g_assert_cmpuint (proposal->figures.n_patches, ==, 1);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
}

static void
test_steep (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (80, 2);
  OddProposalOptions options = options_for (job, 240.0, 500.0);
  g_autoptr(OddProposal) proposal = NULL;

  options.tilt_deg = 45.0;
  proposal = propose_and_improve (job, &options);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
  g_assert_cmpfloat (proposal->figures.smallest_side_mm, >=, options.smallest_mm - 1e-6);
}

/* Neighbours of one fabric cannot be helped, and it is said. */
static void
test_one_fabric (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (3);
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) with_fabric = NULL;
  g_autoptr(OddJob) job = NULL;
  g_autoptr(OddProposal) proposal = NULL;
  OddProposalOptions options;
  OddFabric fabric;
  OddId fabric_id = 0;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) "Only one";
  with_fabric = odd_job_put_fabric (empty, &fabric, &fabric_id, NULL);
  for (guint i = 0; i < 80; i++)
    {
      g_autoptr(OddPolygon) outline = heap_polygon (rand);
      OddScrap values;

      odd_scrap_init_values (&values);
      values.outline = outline;
      values.washed = TRUE;
      values.fabric_id = fabric_id;
      g_ptr_array_add (scraps, odd_scrap_new (&values, NULL));
    }
  job = odd_job_put_scraps (with_fabric, scraps, NULL);
  options = options_for (job, 240.0, 500.0);
  proposal = propose_and_improve (job, &options);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
  g_assert_cmpuint (proposal->figures.n_contacts, >, 0);
  g_assert_nonnull (proposal->remark);
}

static void
assert_refused (OddJob                   *job,
                const OddProposalOptions *options,
                const char               *word)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_propose (job, options, NULL, NULL, NULL, &error));
  g_assert_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, word));
}

/* More patches than anyone will sew, or smaller ones: refused before the work begins, in one sentence. */
static void
test_too_many (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (100, 1);
  OddProposalOptions options = options_for (job, 300.0, 1500.0);

  options.smallest_mm = 1.0;
  assert_refused (job, &options, "smallest side");
  options = options_for (job, 300.0, 20000.0);
  assert_refused (job, &options, "length");
  options = options_for (job, 10000.0, 10000.0);
  options.n_panels = 20;
  assert_refused (job, &options, "patches");
}

static void
test_locked (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (60, 1);
  OddProposalOptions options = options_for (job, 200.0, 300.0);
  g_autoptr(OddProposal) first = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  const OddId panel_id = g_array_index (first->panels, OddId, 0);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) locked = odd_job_set_lock (first->job, odd_job_get_panel (first->job, panel_id, NULL, NULL)->root->id, TRUE, NULL);

  g_assert_nonnull (locked);
  g_assert_null (odd_improve (locked, &panel_id, 1, &options, NULL, NULL, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

/* Outlines as a hand draws them round, with many corners. */
static void
test_many_corners (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (5);
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) job = NULL;
  OddProposalOptions options;
  g_autoptr(OddProposal) proposal = NULL;

  for (guint i = 0; i < 60; i++)
    {
      g_autoptr(OddPolygon) outline = heap_ragged_polygon (rand, 40, 150.0);

      g_ptr_array_add (scraps, heap_scrap (outline));
    }
  job = odd_job_put_scraps (empty, scraps, NULL);
  options = options_for (job, 240.0, 400.0);
  proposal = propose_and_improve (job, &options);
  g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
}

typedef struct { GCancellable *cancellable; gulong after_us; } Cancelling;

static gpointer
cancel_cb (gpointer data)
{
  g_usleep (((Cancelling *) data)->after_us);
  g_cancellable_cancel (((Cancelling *) data)->cancellable);

  return NULL;
}

static void
watch_cb (double       done,
          OddProposal *so_far,
          gpointer     data)
{
  double *last = data;

  g_assert_cmpfloat (done, >=, *last);
  g_assert_cmpfloat (done, <=, 1.0);
  *last = done;
}

/* Whenever it is said: either the whole, or nothing and the reason. Leaks are for the sanitizers to find. */
static void
test_cancel_any_time (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (150, 1);
  OddProposalOptions options = options_for (job, 260.0, 900.0);
  g_autoptr(OddProposal) first = odd_propose (job, &options, NULL, NULL, NULL, NULL);

  options.seconds = 3.0;
  for (guint i = 0; i < 24; i++)
    {
      g_autoptr(GCancellable) cancellable = g_cancellable_new ();
      g_autoptr(GError) error = NULL;
      Cancelling cancelling = { cancellable, (gulong) g_test_rand_int_range (0, i % 2 == 0 ? 60000 : 200000) };
      double last = 0.0;
      GThread *thread = g_thread_new ("cancel", cancel_cb, &cancelling);
      g_autoptr(OddProposal) proposal = i % 2 == 0 ? odd_propose (job, &options, NULL, NULL, cancellable, &error)
                                                   : odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, &options, watch_cb,
                                                                  &last, cancellable, &error);

      g_thread_join (thread);
      if (proposal == NULL)
        g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
      else
        g_assert_no_error (error);
    }
}

/* A hundred thousand places to lay out, and it can still be stopped. */
static void
test_cancel_large (void)
{
  g_autoptr(OddJob) job = tub_of_fabrics (100, 1);
  OddProposalOptions options = options_for (job, 3000.0, 3000.0);
  g_autoptr(GCancellable) cancellable = g_cancellable_new ();
  g_autoptr(GError) error = NULL;
  Cancelling cancelling = { cancellable, 100000 };
  GThread *thread = g_thread_new ("cancel", cancel_cb, &cancelling);
  const gint64 start = g_get_monotonic_time ();

  options.smallest_mm = 10.0;
  options.scale_mm = 10.0;
  g_assert_null (odd_propose (job, &options, NULL, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_thread_join (thread);
  /* generous: sanitizers, and a computer with other things to do */
  g_assert_cmpint (g_get_monotonic_time () - start, <, 10 * G_USEC_PER_SEC);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/crumb-limits/one-scrap", test_one_scrap);
  g_test_add_func ("/crumb-limits/scale-beyond", test_scale_beyond);
  g_test_add_func ("/crumb-limits/steep", test_steep);
  g_test_add_func ("/crumb-limits/one-fabric", test_one_fabric);
  g_test_add_func ("/crumb-limits/locked", test_locked);
  g_test_add_func ("/crumb-limits/many-corners", test_many_corners);
  g_test_add_func ("/crumb-limits/cancel-any-time", test_cancel_any_time);
  g_test_add_func ("/crumb-limits/cancel-large", test_cancel_large);
  g_test_add_func ("/crumb-limits/too-many", test_too_many);

  return g_test_run ();
}
