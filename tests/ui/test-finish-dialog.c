#include "config.h"

/* The dialog of finishes: what is changed there moves the cloth, is one undo step, and is refused in a sentence. */
#include <adwaita.h>

#include "cloth/edit.h"
#include "ui/finish-dialog.h"
#include "ui/length-entry.h"

typedef struct
{
  OddDocument *document;
  GtkWidget *window;
  GtkWidget *dialog;
} Fixture;

/* Two squares, their seam from the job's finish. */
static OddJob *
make_job (OddId *out_panel)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId leaf, seam, strip;
  g_autoptr(OddJob) with_panel = odd_job_add_panel (job, 0, 0, NULL, 200, 100, out_panel, NULL);

  leaf = odd_job_get_panel (with_panel, *out_panel, NULL, NULL)->root->id;
  seam = with_panel->next_id;
  strip = seam + 1;
  {
    g_autoptr(OddNode) left = odd_node_new_bare (leaf);
    g_autoptr(OddNode) right = odd_node_new_bare (strip + 1);
    OddNode *const parts[2] = { left, right };
    OddSeam line;
    g_autoptr(OddNode) row = NULL;

    odd_seam_init (&line, seam, (OddHalfPlane) { { 1, 0 }, 100 });
    row = odd_node_new_strip (strip, parts, &line, 2);
    return odd_job_replace_leaf (with_panel, leaf, row, strip + 2, NULL);
  }
}

static GtkWidget *
part (Fixture    *fixture,
      const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (fixture->dialog, G_OBJECT_TYPE (fixture->dialog), name));
}

static void
open_dialog (Fixture *fixture,
             OddId    finish)
{
  GListModel *windows = gtk_window_get_toplevels ();

  odd_finish_dialog_present (fixture->window, fixture->document, finish, ODD_UNIT_CM);
  fixture->dialog = NULL;
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) window = g_list_model_get_item (windows, i);

      if (window != fixture->window)
        fixture->dialog = window;
    }
  g_assert_nonnull (fixture->dialog);
}

static void
press_save (Fixture *fixture)
{
  g_signal_emit_by_name (gtk_window_get_default_widget (GTK_WINDOW (fixture->dialog)), "clicked");
}

static OddId panel_id;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr(OddJob) job = make_job (&panel_id);

  g_assert_nonnull (job);
  fixture->document = odd_document_new (job);
  fixture->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (fixture->window));
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  if (fixture->dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  g_object_unref (fixture->document);
}

static double
panel_width (Fixture *fixture)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (odd_document_get_job (fixture->document), panel_id);

  return layout->box.width;
}

static void
test_allowance (Fixture       *fixture,
                gconstpointer  data)
{
  OddFinish *overlocked = odd_job_get_finish_by_key (odd_document_get_job (fixture->document), "overlocked");

  g_test_summary ("Two squares sewn deeper: from 12.7 to 15.7 the seam takes 6 mm more, the two edges 6 mm more of the finished width; undo brings it back");
  open_dialog (fixture, overlocked->id);
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (part (fixture, "allowance")), 15.7);
  press_save (fixture);
  fixture->dialog = NULL;
  g_assert_cmpfloat_with_epsilon (panel_width (fixture), 200.0 - 4 * 3.0, 1e-6);
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_cmpfloat_with_epsilon (panel_width (fixture), 200.0, 1e-6);
}

static void
test_refused (Fixture       *fixture,
              gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  g_test_summary ("No name: one sentence in the dialog, the job stays");
  open_dialog (fixture, odd_job_get_finish_by_key (before, "french")->id);
  gtk_editable_set_text (GTK_EDITABLE (part (fixture, "name")), "");
  press_save (fixture);
  g_assert_cmpuint (strlen (gtk_label_get_text (GTK_LABEL (part (fixture, "complaint")))), >, 10);
  g_assert_true (odd_document_get_job (fixture->document) == before);
}

static void
test_no_length (Fixture       *fixture,
                gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  g_test_summary ("What is no length stops the dialog with a sentence; a length still being typed is taken");
  open_dialog (fixture, odd_job_get_finish_by_key (before, "overlocked")->id);
  gtk_editable_set_text (GTK_EDITABLE (part (fixture, "allowance")), "abc");
  press_save (fixture);
  g_assert_cmpuint (strlen (gtk_label_get_text (GTK_LABEL (part (fixture, "complaint")))), >, 10);
  g_assert_true (odd_document_get_job (fixture->document) == before);
  gtk_editable_set_text (GTK_EDITABLE (part (fixture, "allowance")), "1.57 cm");
  press_save (fixture);
  fixture->dialog = NULL;
  g_assert_cmpfloat_with_epsilon (panel_width (fixture), 200.0 - 4 * 3.0, 1e-6);
}

static void
test_kept_too_wide (Fixture       *fixture,
                    gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  g_test_summary ("More kept than there is allowance: said, not cut down in silence");
  open_dialog (fixture, odd_job_get_finish_by_key (before, "pressed-open")->id);
  gtk_editable_set_text (GTK_EDITABLE (part (fixture, "kept")), "3 cm");
  press_save (fixture);
  g_assert_cmpuint (strlen (gtk_label_get_text (GTK_LABEL (part (fixture, "complaint")))), >, 10);
  g_assert_true (odd_document_get_job (fixture->document) == before);
}

static void
test_unchanged (Fixture       *fixture,
                gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  g_test_summary ("Saved without a change: no step to undo, whatever the finish");
  for (guint i = 0; i < before->finishes->len; i++)
    {
      open_dialog (fixture, ((OddFinish *) before->finishes->pdata[i])->id);
      press_save (fixture);
      fixture->dialog = NULL;
      g_assert_true (odd_document_get_job (fixture->document) == before);
    }
}

static void
test_remove (Fixture       *fixture,
             gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  g_test_summary ("A finish in use stays, with the reason; one that is not goes, and undo brings it back");
  open_dialog (fixture, odd_job_get_finish_by_key (before, "overlocked")->id);
  g_signal_emit_by_name (part (fixture, "remove"), "clicked");
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (part (fixture, "complaint"))), "in use"));
  g_assert_true (odd_document_get_job (fixture->document) == before);
  gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  open_dialog (fixture, odd_job_get_finish_by_key (before, "bound")->id);
  g_signal_emit_by_name (part (fixture, "remove"), "clicked");
  g_assert_null (odd_job_get_finish_by_key (odd_document_get_job (fixture->document), "bound"));
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_nonnull (odd_job_get_finish_by_key (odd_document_get_job (fixture->document), "bound"));
}

static void
test_new (Fixture       *fixture,
          gconstpointer  data)
{
  OddJob *after;

  g_test_summary ("A new finish gets a word of its own, also when the name is taken");
  for (guint i = 0; i < 2; i++)
    {
      open_dialog (fixture, 0);
      adw_combo_row_set_selected (ADW_COMBO_ROW (part (fixture, "which")), odd_document_get_job (fixture->document)->finishes->len);
      gtk_editable_set_text (GTK_EDITABLE (part (fixture, "name")), "Taped, by hand");
      press_save (fixture);
      fixture->dialog = NULL;
    }
  after = odd_document_get_job (fixture->document);
  g_assert_nonnull (odd_job_get_finish_by_key (after, "taped-by-hand"));
  g_assert_nonnull (odd_job_get_finish_by_key (after, "taped-by-hand-2"));
}

int
main (int   argc,
      char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/finish-dialog/allowance", Fixture, NULL, set_up, test_allowance, tear_down);
  g_test_add ("/finish-dialog/refused", Fixture, NULL, set_up, test_refused, tear_down);
  g_test_add ("/finish-dialog/no-length", Fixture, NULL, set_up, test_no_length, tear_down);
  g_test_add ("/finish-dialog/kept-too-wide", Fixture, NULL, set_up, test_kept_too_wide, tear_down);
  g_test_add ("/finish-dialog/unchanged", Fixture, NULL, set_up, test_unchanged, tear_down);
  g_test_add ("/finish-dialog/remove", Fixture, NULL, set_up, test_remove, tear_down);
  g_test_add ("/finish-dialog/new", Fixture, NULL, set_up, test_new, tear_down);
  return g_test_run ();
}
