#include "config.h"

#include "cloth/document.h"
#include "trees.h"

static void
test_undo (void)
{
  g_autoptr(OddDocument) document = odd_document_new (NULL);
  OddJob *start = odd_document_get_job (document);
  g_autoptr(OddJob) kept = odd_job_ref (start);
  OddId id = 0;

  g_test_summary ("Undo brings the very job back, redo the later one; each step keeps its name");
  odd_document_apply (document, odd_job_add_panel (start, 0, 0, NULL, 200, 200, &id, NULL), "Add panel");
  odd_document_apply (document, odd_job_set_panel_name (odd_document_get_job (document), id, "Sleeve", NULL), "Name panel");
  g_assert_true (odd_document_get_modified (document));
  g_assert_cmpstr (odd_document_get_undo_label (document), ==, "Name panel");
  g_assert_true (odd_document_undo (document));
  g_assert_cmpstr (odd_document_get_redo_label (document), ==, "Name panel");
  g_assert_true (odd_document_undo (document));
  g_assert_false (odd_document_undo (document));
  g_assert_true (odd_document_get_job (document) == kept);
  g_assert_false (odd_document_get_modified (document));
  g_assert_true (odd_document_redo (document));
  g_assert_true (odd_document_redo (document));
  g_assert_cmpstr (odd_job_get_panel (odd_document_get_job (document), id, NULL, NULL)->name, ==, "Sleeve");
}

static void
test_merging (void)
{
  g_autoptr(OddDocument) document = odd_document_new (NULL);
  OddId id = 0;

  g_test_summary ("Typing in one entry is one step; another entry, or an end of merging, begins a new one");
  odd_document_apply (document, odd_job_add_panel (odd_document_get_job (document), 0, 0, NULL, 200, 200, &id, NULL), "Add panel");
  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *name = g_strdup_printf ("S%u", i);

      odd_document_apply_merging (document, odd_job_set_panel_name (odd_document_get_job (document), id, name, NULL), "Name panel", "name");
    }
  odd_document_end_merging (document);
  odd_document_apply_merging (document, odd_job_set_panel_name (odd_document_get_job (document), id, "T", NULL), "Name panel", "name");
  g_assert_true (odd_document_undo (document));
  g_assert_cmpstr (odd_job_get_panel (odd_document_get_job (document), id, NULL, NULL)->name, ==, "S4");
  g_assert_true (odd_document_undo (document));
  g_assert_cmpstr (odd_job_get_panel (odd_document_get_job (document), id, NULL, NULL)->name, ==, "");
}

static void
count_cb (OddDocument *document, OddJob *before, OddJob *after, gpointer data)
{
  guint *n = data;

  g_assert_true (before != after);
  g_assert_true (after == odd_document_get_job (document));
  *n += 1;
}

static void
test_signals (void)
{
  OddDocument *document = odd_document_new (NULL);
  g_autoptr(GFile) file = g_file_new_for_path ("/nowhere/Harbour coat.oddment");
  guint n = 0;

  g_test_summary ("One signal an edit, none for an edit that changes nothing; the title is the file's; the last reference goes");
  g_signal_connect (document, "changed", G_CALLBACK (count_cb), &n);
  odd_document_apply (document, odd_job_ref (odd_document_get_job (document)), "Nothing");
  g_assert_cmpuint (n, ==, 0);
  odd_document_apply (document, odd_job_add_textile (odd_document_get_job (document), "Back", NULL, NULL), "Add textile");
  g_assert_cmpuint (n, ==, 1);
  odd_document_mark_saved (document, odd_document_get_job (document), file);
  g_assert_false (odd_document_get_modified (document));
  g_assert_cmpstr (odd_document_get_title (document), ==, "Harbour coat");
  odd_document_undo (document);
  g_assert_true (odd_document_get_modified (document));
  odd_document_redo (document);
  g_assert_false (odd_document_get_modified (document));
  g_assert_finalize_object (document);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/document/undo", test_undo);
  g_test_add_func ("/document/merging", test_merging);
  g_test_add_func ("/document/signals", test_signals);
  return g_test_run ();
}
