/* The selection follows the document: no display. */
#include "ui/selection.h"

static void
changed_cb (OddSelection *selection, guint *n)
{
  (*n)++;
}

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  OddId panel_id, leaf_id;
  guint n_changed;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  OddTextile *textile = g_ptr_array_index (empty->textiles, 0);
  g_autoptr(GError) error = NULL;
  OddJob *job = odd_job_add_panel (empty, textile->id, G_MAXUINT, "", 240, 300, &fixture->panel_id, &error);

  g_assert_no_error (error);
  fixture->leaf_id = odd_job_get_panel (job, fixture->panel_id, NULL, NULL)->root->id;
  fixture->document = odd_document_new (job);
  odd_job_unref (job);
  fixture->selection = odd_selection_new (fixture->document);
  g_signal_connect (fixture->selection, "changed", G_CALLBACK (changed_cb), &fixture->n_changed);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_assert_finalize_object (fixture->selection);
  g_assert_finalize_object (fixture->document);
}

static void
test_set (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Told once for each change, not for the same again");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, fixture->leaf_id);
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, fixture->leaf_id);
  g_assert_cmpuint (fixture->n_changed, ==, 1);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PATCH);
  g_assert_cmpuint (odd_selection_get_id (fixture->selection), ==, fixture->leaf_id);
  odd_selection_set (fixture->selection, ODD_SELECTED_NOTHING, 77);
  g_assert_cmpuint (odd_selection_get_id (fixture->selection), ==, 0);
  g_assert_cmpuint (fixture->n_changed, ==, 2);
}

static void
test_follows (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GError) error = NULL;
  OddJob *after;

  g_test_summary ("What an edit takes away is unselected; what it leaves stays selected");
  odd_selection_set (fixture->selection, ODD_SELECTED_PATCH, fixture->leaf_id);
  after = odd_job_set_panel_name (odd_document_get_job (fixture->document), fixture->panel_id, "Back", &error);
  g_assert_no_error (error);
  odd_document_apply (fixture->document, after, "Name panel");
  g_assert_cmpuint (odd_selection_get_id (fixture->selection), ==, fixture->leaf_id);

  after = odd_job_remove_panel (odd_document_get_job (fixture->document), fixture->panel_id, &error);
  g_assert_no_error (error);
  odd_document_apply (fixture->document, after, "Remove panel");
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_NOTHING);
  g_assert_cmpuint (odd_selection_get_id (fixture->selection), ==, 0);
}

static void
test_each_kind (Fixture *fixture, gconstpointer data)
{
  OddJob *job = odd_document_get_job (fixture->document);
  OddTextile *textile = g_ptr_array_index (job->textiles, 0);
  g_autoptr(GError) error = NULL;

  odd_selection_set (fixture->selection, ODD_SELECTED_TEXTILE, textile->id);
  odd_document_apply (fixture->document, odd_job_set_textile_name (job, textile->id, "Coat", &error), "Name textile");
  g_assert_no_error (error);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_TEXTILE);

  odd_selection_set (fixture->selection, ODD_SELECTED_PANEL, fixture->panel_id);
  odd_document_undo (fixture->document);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PANEL);

  odd_selection_set (fixture->selection, ODD_SELECTED_SEAM, fixture->leaf_id);      /* not a seam */
  odd_document_redo (fixture->document);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_NOTHING);
}

#define ADD(path, func) g_test_add ("/ui/selection/" path, Fixture, NULL, set_up, func, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("set", test_set);
  ADD ("follows", test_follows);
  ADD ("each-kind", test_each_kind);
  return g_test_run ();
}
