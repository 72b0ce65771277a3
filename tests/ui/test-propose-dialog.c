#include "config.h"

/* Piece by itself: proposals come side by side, one of them may be taken as one undo step, and Cancel leaves the job as it was. */
#include <adwaita.h>
#include <glib/gstdio.h>

#include "cloth/edit.h"
#include "piecing/proposal.h"
#include "ui/length-entry.h"
#include "ui/panel-dialog.h"
#include "ui/propose-dialog.h"

#define PATIENCE_S 20

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  GtkWidget *window;
  GtkWidget *dialog;
  GtkWidget *settings;
  OddJob *before;
} Fixture;

static GtkWidget *
child_of (GtkWidget  *widget,
          const char *name)
{
  GObject *child = gtk_widget_get_template_child (widget, G_OBJECT_TYPE (widget), name);

  g_assert_nonnull (child);
  return GTK_WIDGET (child);
}

static OddJob *
make_tub (guint n)
{
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(GError) error = NULL;
  OddJob *job;

  for (guint i = 0; i < n; i++)
    {
      const OddPoint points[4] = { { 0, 0 }, { 205, 0 }, { 205, 105 }, { 0, 105 } };
      OddScrap values;

      odd_scrap_init_values (&values);
      values.outline = odd_polygon_new (points, 4, NULL);
      values.washed = TRUE;
      g_ptr_array_add (scraps, odd_scrap_new (&values, &error));
      g_assert_no_error (error);
      odd_polygon_unref (values.outline);
    }
  job = odd_job_put_scraps (empty, scraps, &error);
  g_assert_no_error (error);
  return job;
}

/* Takes @job. */
static void
set_up_document (Fixture *fixture,
                 OddJob  *job)
{
  fixture->before = job;
  fixture->document = odd_document_new (fixture->before);
  fixture->selection = odd_selection_new (fixture->document);
  fixture->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (fixture->window));
}

static void
open_dialog (Fixture *fixture)
{
  GListModel *windows = gtk_window_get_toplevels ();
  const OddId textile_id = ((OddTextile *) fixture->before->textiles->pdata[0])->id;

  odd_propose_dialog_present (fixture->window, fixture->document, fixture->selection, textile_id, NULL, ODD_UNIT_CM, NULL);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) window = g_list_model_get_item (windows, i);

      if (window != fixture->window)
        fixture->dialog = window;
    }
  g_assert_nonnull (fixture->dialog);
  g_object_add_weak_pointer (G_OBJECT (fixture->dialog), (gpointer *) &fixture->dialog);
  fixture->settings = child_of (fixture->dialog, "settings");
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  set_up_document (fixture, make_tub (GPOINTER_TO_UINT (data)));
  open_dialog (fixture);
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (child_of (fixture->settings, "width")), 160.0);
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (child_of (fixture->settings, "length")), 240.0);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  if (fixture->dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  /* a worker called off may still hold the dialog for a moment */
  while (fixture->dialog != NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_null (fixture->dialog);
  g_object_unref (fixture->selection);
  g_assert_finalize_object (fixture->document);
  odd_job_unref (fixture->before);
}

static guint
count_cards (Fixture *fixture)
{
  guint n = 0;

  while (gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (child_of (fixture->dialog, "cards")), (int) n) != NULL)
    n++;
  return n;
}

/* Runs the loop until as many cards are there, or something is said instead. */
static void
wait_for_cards (Fixture *fixture,
                guint    n)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while (count_cards (fixture) < n && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (count_cards (fixture), ==, n);
}

static void
press (Fixture    *fixture,
       const char *button)
{
  g_signal_emit_by_name (child_of (fixture->dialog, button), "clicked");
}

/* 160 x 240 mm of squares cut 10 cm at 1 cm: 2 x 3 of 8 cm; each scrap of 205 x 105 gives two. */
static void
test_take (Fixture       *fixture,
           gconstpointer  data)
{
  OddJob *after;
  OddTextile *textile;

  wait_for_cards (fixture, 3);
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
  press (fixture, "take");
  after = odd_document_get_job (fixture->document);
  textile = after->textiles->pdata[0];
  g_assert_cmpuint (textile->n_hung, ==, 1);
  g_assert_cmpuint (textile->hung[0].panel->root->n_leaves, ==, 6);
  g_assert_cmpfloat (odd_convex_box (textile->hung[0].panel->outline).width, ==, 160.0);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PANEL);
  g_assert_cmpstr (odd_document_get_undo_label (fixture->document), ==, "Piece 1 panel");
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
  g_assert_null (odd_document_get_undo_label (fixture->document));
}

/* Earlier proposals stay to be compared with. */
static void
test_more (Fixture       *fixture,
           gconstpointer  data)
{
  wait_for_cards (fixture, 3);
  press (fixture, "propose");
  wait_for_cards (fixture, 6);
  gtk_window_close (GTK_WINDOW (fixture->dialog));
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
}

/* Crumbs are made better on the same card, and stopping keeps what was reached. */
static void
test_better (Fixture       *fixture,
             gconstpointer  data)
{
  GtkFlowBox *cards = GTK_FLOW_BOX (child_of (fixture->dialog, "cards"));
  const gint64 end = g_get_monotonic_time () + 3 * G_USEC_PER_SEC;

  wait_for_cards (fixture, 3);
  g_assert_false (gtk_widget_get_visible (child_of (fixture->dialog, "better")));
  adw_combo_row_set_selected (ADW_COMBO_ROW (child_of (fixture->settings, "manner")), ODD_PIECE_CRUMBS);
  g_assert_true (gtk_widget_get_visible (child_of (fixture->settings, "tilt_row")));
  g_assert_false (gtk_widget_get_visible (child_of (fixture->settings, "templates")));
  press (fixture, "propose");
  wait_for_cards (fixture, 6);
  gtk_flow_box_select_child (cards, gtk_flow_box_get_child_at_index (cards, 0));
  g_assert_true (gtk_widget_get_visible (child_of (fixture->dialog, "better")));
  press (fixture, "better");
  g_assert_true (gtk_widget_get_visible (child_of (fixture->dialog, "stop")));
  while (g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  press (fixture, "stop");
  g_assert_cmpuint (count_cards (fixture), ==, 6);
  press (fixture, "take");
  g_assert_cmpuint (((OddTextile *) odd_document_get_job (fixture->document)->textiles->pdata[0])->n_hung, ==, 1);
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
}

/* --- into cloth that stands --- */

/* A bare panel of 2 x 3 squares of 8 cm, drawn by hand, hung in the textile. */
static void
set_up_bare (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr(OddJob) tub = make_tub (GPOINTER_TO_UINT (data));
  const OddId textile_id = ((OddTextile *) tub->textiles->pdata[0])->id;
  const OddTreatment treatment = { 0, 10.0 };
  OddId panel_id;
  g_autoptr(OddJob) job = odd_job_add_panel (tub, textile_id, 0, "", 160.0, 240.0, &panel_id, NULL);
  OddJob *treated = odd_job_set_treatment (job, ODD_LEVEL_PANEL, panel_id, 0, &treatment, FALSE, NULL);

  g_assert_nonnull (treated);
  set_up_document (fixture, treated);
  odd_selection_set (fixture->selection, ODD_SELECTED_PANEL, panel_id);
  open_dialog (fixture);
}

static const char *
chosen_text (Fixture    *fixture,
             const char *row)
{
  GObject *item = adw_combo_row_get_selected_item (ADW_COMBO_ROW (child_of (fixture->settings, row)));

  return gtk_string_object_get_string (GTK_STRING_OBJECT (item));
}

static void
choose_text (Fixture    *fixture,
             const char *row,
             const char *text)
{
  AdwComboRow *combo = ADW_COMBO_ROW (child_of (fixture->settings, row));
  GListModel *model = adw_combo_row_get_model (combo);

  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr(GtkStringObject) item = g_list_model_get_item (model, i);

      if (strcmp (gtk_string_object_get_string (item), text) == 0)
        {
          adw_combo_row_set_selected (combo, i);
          return;
        }
    }
  g_error ("no “%s” in %s", text, row);
}

/* The panel that was drawn first is filled: the same panel, not one more. Size and seams are its own. */
static void
test_fill (Fixture       *fixture,
           gconstpointer  data)
{
  const OddTextile *textile;

  g_assert_cmpstr (chosen_text (fixture, "into"), ==, "bare in Panel 1");
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (child_of (fixture->settings, "into"))), "1 bare place"));
  g_assert_false (gtk_widget_get_visible (child_of (fixture->settings, "cloth_list")));
  g_assert_false (gtk_widget_get_visible (child_of (fixture->settings, "seams_list")));
  wait_for_cards (fixture, 3);
  press (fixture, "take");
  textile = odd_document_get_job (fixture->document)->textiles->pdata[0];
  g_assert_cmpuint (textile->n_hung, ==, 1);
  g_assert_cmpuint (textile->hung[0].panel->root->n_leaves, ==, 6);
  g_assert_cmpstr (odd_document_get_undo_label (fixture->document), ==, "Fill bare places");
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
}

/* One scrap gives two squares of six: four stay bare, and that is told. */
static void
test_fill_in_part (Fixture       *fixture,
                   gconstpointer  data)
{
  wait_for_cards (fixture, 3);
  g_assert_true (gtk_widget_get_visible (child_of (fixture->dialog, "missing")));
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (child_of (fixture->dialog, "missing"))), "4 of 6"));
}

static guint
count_locked_still_there (Fixture     *fixture,
                          const OddId *ids,
                          guint        n)
{
  const OddTextile *textile = odd_document_get_job (fixture->document)->textiles->pdata[0];
  guint n_there = 0;

  for (guint i = 0; i < n; i++)
    {
      const OddNode *leaf = odd_node_find (textile->hung[0].panel->root, ids[i]);

      n_there += leaf != NULL && leaf->locked && leaf->scrap_id != 0;
    }
  return n_there;
}

/* Filled, one square locked, pieced anew round it: the locked one stays, the others are new. */
static void
test_anew (Fixture       *fixture,
           gconstpointer  data)
{
  const OddTextile *textile;
  OddJob *locked;
  OddId ids[2];

  wait_for_cards (fixture, 3);
  press (fixture, "take");
  textile = odd_document_get_job (fixture->document)->textiles->pdata[0];
  ids[0] = textile->hung[0].panel->root->parts[1]->parts[0]->id;
  ids[1] = textile->hung[0].panel->root->parts[1]->parts[1]->id;
  locked = odd_job_set_lock (odd_document_get_job (fixture->document), ids[0], TRUE, NULL);
  odd_document_apply (fixture->document, locked, "Lock");
  while (fixture->dialog != NULL)
    g_main_context_iteration (NULL, FALSE);
  odd_selection_set (fixture->selection, ODD_SELECTED_PANEL, textile->hung[0].panel->id);
  open_dialog (fixture);
  g_assert_cmpstr (chosen_text (fixture, "into"), ==, "in new panels");
  choose_text (fixture, "into", "Panel 1 anew");
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (child_of (fixture->settings, "into"))), "5 patches come off"));
  press (fixture, "stop");
  press (fixture, "propose");
  wait_for_cards (fixture, 3);
  press (fixture, "take");
  textile = odd_document_get_job (fixture->document)->textiles->pdata[0];
  g_assert_cmpuint (textile->n_hung, ==, 1);
  g_assert_cmpuint (count_locked_still_there (fixture, ids, 2), ==, 1);
  g_assert_null (odd_node_find (textile->hung[0].panel->root, ids[1]));
  g_assert_cmpstr (odd_document_get_undo_label (fixture->document), ==, "Piece anew");
}

/* A panel round the outline in a file: loose, selected, and what the dialog offers to fill. A file of many outlines changes nothing. */
static void
test_shape (Fixture       *fixture,
            gconstpointer  data)
{
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "oddment-test-shape.json", NULL);
  const char *one = "{\"scraps\":[{\"outline_mm\":[[0,0],[160,0],[240,150],[0,220]]}]}";
  const char *two = "{\"scraps\":[{\"outline_mm\":[[0,0],[160,0],[0,220]]},{\"outline_mm\":[[0,0],[160,0],[0,220]]}]}";
  OddJob *after;

  set_up_document (fixture, make_tub (GPOINTER_TO_UINT (data)));
  g_assert_true (g_file_set_contents (path, two, -1, NULL));
  g_assert_false (odd_panel_dialog_add_shape (fixture->window, fixture->document, fixture->selection, path, 20.0));
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
  g_assert_true (g_file_set_contents (path, one, -1, NULL));
  g_assert_true (odd_panel_dialog_add_shape (fixture->window, fixture->document, fixture->selection, path, 20.0));
  g_remove (path);
  after = odd_document_get_job (fixture->document);
  g_assert_cmpuint (after->loose_panels->len, ==, 1);
  g_assert_cmpint (odd_selection_get_kind (fixture->selection), ==, ODD_SELECTED_PANEL);
  open_dialog (fixture);
  g_assert_cmpstr (chosen_text (fixture, "into"), ==, "bare in Panel 1");
  wait_for_cards (fixture, 3);
  press (fixture, "take");
  after = odd_document_get_job (fixture->document);
  g_assert_cmpuint (((OddPanel *) after->loose_panels->pdata[0])->root->n_leaves, >=, 6);
}

/* Cancelled while it runs: nothing comes, and nothing is changed. */
static void
test_cancel (Fixture       *fixture,
             gconstpointer  data)
{
  press (fixture, "propose");
  g_assert_true (gtk_widget_get_visible (child_of (fixture->dialog, "stop")));
  press (fixture, "stop");
  g_assert_false (gtk_widget_get_visible (child_of (fixture->dialog, "stop")));
  g_assert_cmpuint (count_cards (fixture), ==, 0);
  g_assert_true (odd_document_get_job (fixture->document) == fixture->before);
}

/* A tub without scraps is told in a sentence, and there is nothing to take. */
static void
test_refusal (Fixture       *fixture,
              gconstpointer  data)
{
  GtkLabel *says = GTK_LABEL (child_of (fixture->dialog, "says"));
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while (strstr (gtk_label_get_text (says), "no scraps") == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_nonnull (strstr (gtk_label_get_text (says), "Add scraps first"));
  g_assert_false (gtk_widget_get_sensitive (child_of (fixture->dialog, "take")));
}

/* An allowance that leaves nothing of the template: the core's own sentence. */
static void
test_absurd (Fixture       *fixture,
             gconstpointer  data)
{
  GtkLabel *says = GTK_LABEL (child_of (fixture->dialog, "says"));
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  odd_length_entry_set_value (ODD_LENGTH_ENTRY (child_of (fixture->settings, "allowance")), 48.0);
  press (fixture, "propose");
  while (strstr (gtk_label_get_text (says), "48.0") == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_nonnull (strstr (gtk_label_get_text (says), "smaller allowance"));
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/propose-dialog/take", Fixture, GUINT_TO_POINTER (8), set_up, test_take, tear_down);
  g_test_add ("/propose-dialog/more", Fixture, GUINT_TO_POINTER (8), set_up, test_more, tear_down);
  g_test_add ("/propose-dialog/better", Fixture, GUINT_TO_POINTER (12), set_up, test_better, tear_down);
  g_test_add ("/propose-dialog/fill", Fixture, GUINT_TO_POINTER (8), set_up_bare, test_fill, tear_down);
  g_test_add ("/propose-dialog/fill-in-part", Fixture, GUINT_TO_POINTER (1), set_up_bare, test_fill_in_part, tear_down);
  g_test_add ("/propose-dialog/anew", Fixture, GUINT_TO_POINTER (8), set_up_bare, test_anew, tear_down);
  g_test_add ("/propose-dialog/shape", Fixture, GUINT_TO_POINTER (12), NULL, test_shape, tear_down);
  g_test_add ("/propose-dialog/cancel", Fixture, GUINT_TO_POINTER (8), set_up, test_cancel, tear_down);
  g_test_add ("/propose-dialog/no-scraps", Fixture, GUINT_TO_POINTER (0), set_up, test_refusal, tear_down);
  g_test_add ("/propose-dialog/absurd", Fixture, GUINT_TO_POINTER (8), set_up, test_absurd, tear_down);

  return g_test_run ();
}
