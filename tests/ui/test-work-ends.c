/* The list of ends to secure: every tick is an act, the counts are the job's, and an end that is chosen is what is selected. The job is the sample. */
#include "sewing/ends.h"
#include "sewing/piece-ends.h"
#include "store/load.h"
#include "ui/work-ends.h"

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  OddId textile_id;
  OddWorkEnds *list;
} Fixture;

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "sample.oddment", NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_store_load (path, NULL, &error);

  g_assert_no_error (error);
  self->document = odd_document_new (job);
  self->selection = odd_selection_new (self->document);
  self->textile_id = ((OddTextile *) job->textiles->pdata[0])->id;
  self->list = odd_work_ends_present (NULL, self->document, self->selection, self->textile_id);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  gtk_window_destroy (GTK_WINDOW (self->list));
  g_object_unref (self->selection);
  g_object_unref (self->document);
}

static guint
count_job (Fixture *self)
{
  OddJob *job = odd_document_get_job (self->document);

  return odd_job_count_ends_to_secure (job, self->textile_id) + odd_job_count_piece_ends (job);
}

static void
test_choose (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr(GArray) ends = odd_job_dup_ends (odd_document_get_job (self->document), self->textile_id);
  guint at = 0;

  g_assert_cmpuint (odd_work_ends_get_n_shown (self->list), ==, count_job (self));
  for (guint i = 0; i < ends->len && at < 5; i++)
    if (odd_end_wants_securing (g_array_index (ends, OddSeamEnd, i).kind))
      {
        odd_work_ends_choose (self->list, at++);
        g_assert_cmpint (odd_selection_get_kind (self->selection), ==, ODD_SELECTED_SEAM);
        g_assert_cmpuint (odd_selection_get_id (self->selection), ==, g_array_index (ends, OddSeamEnd, i).seam_id);
      }
  g_assert_cmpuint (at, ==, 5);
}

static void
test_tick_all (Fixture       *self,
               gconstpointer  data)
{
  OddJob *before = odd_document_get_job (self->document);
  const guint n = count_job (self), n_acts = before->record->len;

  g_assert_cmpuint (n, >, 5);
  for (guint left = n; left > 0; left--)
    {
      OddJob *job;

      g_assert_true (odd_work_ends_tick (self->list, 0));
      job = odd_document_get_job (self->document);
      g_assert_cmpuint (count_job (self), ==, left - 1);
      g_assert_cmpuint (odd_work_ends_get_n_shown (self->list), ==, left - 1);
      g_assert_cmpint (((OddAct *) job->record->pdata[job->record->len - 1])->kind, ==, ODD_ACT_SECURE);
    }
  g_assert_cmpuint (odd_document_get_job (self->document)->record->len, ==, n_acts + n);
  g_assert_false (odd_work_ends_tick (self->list, 0));
  while (odd_document_undo (self->document))
    ;
  g_assert_true (odd_document_get_job (self->document) == before);
  g_assert_cmpuint (odd_work_ends_get_n_shown (self->list), ==, n);
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/work-ends/choose", Fixture, NULL, set_up, test_choose, tear_down);
  g_test_add ("/work-ends/tick-all", Fixture, NULL, set_up, test_tick_all, tear_down);
  return g_test_run ();
}
