/* Panes and status line: they show what is selected, follow the job and undo, and their figures are the layout's. The job is the sample. */
#include "store/load.h"
#include "ui/detail-pane.h"
#include "ui/fabric-dialog.h"
#include "ui/hint-pane.h"
#include "ui/length-entry.h"
#include "ui/merger-row.h"
#include "ui/status-line.h"
#include "ui/steps.h"
#include "ui/tray.h"
#include "ui/treatment-rows.h"

static OddDocument *
load_sample (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "sample.oddment", NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_store_load (path, NULL, &error);

  g_assert_no_error (error);
  return odd_document_new (job);
}

static OddTextile *
first_textile (OddDocument *document)
{
  return g_ptr_array_index (odd_document_get_job (document)->textiles, 0);
}

static gboolean
holds_text (GtkWidget  *widget,
            const char *text)
{
  GtkWidget *child;

  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return TRUE;
  for (child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (holds_text (child, text))
      return TRUE;
  return FALSE;
}

static GtkWidget *
find_type (GtkWidget *widget,
           GType      type)
{
  GtkWidget *child, *found = NULL;

  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    return widget;
  for (child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

static void
settle (guint ms)
{
  const gint64 end = g_get_monotonic_time () + ms * 1000;

  while (g_get_monotonic_time () < end)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (2000);
    }
}

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  OddDetailPane *pane;
} Fixture;

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  self->document = load_sample ();
  self->selection = odd_selection_new (self->document);
  self->pane = g_object_ref_sink (g_object_new (ODD_TYPE_DETAIL_PANE, "document", self->document, "selection", self->selection,
                                                "textile-id", first_textile (self->document)->id, "stage", "piecing", NULL));
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  settle (300); /* pictures that are being drawn hold their widgets */
  g_assert_finalize_object (self->pane);
  g_assert_finalize_object (self->selection);
  g_assert_finalize_object (self->document);
}

static void
test_follow (Fixture       *self,
             gconstpointer  data)
{
  OddTextile *textile = first_textile (self->document);
  OddPanel *panel = textile->hung[0].panel;
  g_autoptr(OddLayout) layout = odd_job_dup_layout (odd_document_get_job (self->document), panel->id);
  OddScrap *scrap = g_ptr_array_index (odd_document_get_job (self->document)->scraps, 0);

  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "hint");
  odd_selection_set (self->selection, ODD_SELECTED_SEAM, layout->seams[0].seam->id);
  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "seam");
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Seam 1 · 1"));
  odd_selection_set (self->selection, ODD_SELECTED_PATCH, layout->patches[0].leaf->id);
  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "patch");
  odd_selection_set (self->selection, ODD_SELECTED_PANEL, panel->id);
  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "panel");
  odd_selection_set (self->selection, ODD_SELECTED_SCRAP, scrap->id);
  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "scrap");
  odd_selection_set (self->selection, ODD_SELECTED_TEXTILE, textile->id);
  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "textile");
  odd_selection_set (self->selection, ODD_SELECTED_SEAM, textile->joins[0].id);
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Join 1 · 2"));
  g_object_set (self->pane, "stage", "textile", NULL);
  odd_selection_set (self->selection, ODD_SELECTED_PANEL, panel->id);
  g_assert_cmpstr (odd_detail_pane_get_shown (self->pane), ==, "textile");
}

static void
test_undo (Fixture       *self,
           gconstpointer  data)
{
  OddPanel *panel = first_textile (self->document)->hung[0].panel;

  odd_selection_set (self->selection, ODD_SELECTED_PANEL, panel->id);
  odd_document_apply (self->document, odd_job_set_panel_name (odd_document_get_job (self->document), panel->id, "Left front", NULL), "name");
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Left front"));
  g_assert_true (odd_document_undo (self->document));
  g_assert_false (holds_text (GTK_WIDGET (self->pane), "Left front"));
  g_assert_true (odd_document_redo (self->document));
  g_assert_true (holds_text (GTK_WIDGET (self->pane), "Left front"));
}

/* A seam of the sample that has something open. */
static OddId
find_open_seam (OddDocument *document)
{
  OddTextile *textile = first_textile (document);

  for (guint p = 0; p < textile->n_hung; p++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (odd_document_get_job (document), textile->hung[p].panel->id);

      for (guint i = 0; i < layout->n_seams; i++)
        if (odd_seam_get_stage (layout->seams[i].seam, layout->seams[i].finish) == ODD_STAGE_FINISHED)
          return layout->seams[i].seam->id;
    }
  return 0;
}

static void
test_mark (Fixture       *self,
           gconstpointer  data)
{
  const OddId seam_id = find_open_seam (self->document);
  OddJob *before = odd_document_get_job (self->document);
  const OddWorkCount count = odd_job_count_work (before, 0);
  OddWorkCount after;

  g_test_summary ("Marking a finished seam takes one from those to press; the button's word goes with it");
  g_assert_cmpuint (seam_id, !=, 0);
  odd_selection_set (self->selection, ODD_SELECTED_SEAM, seam_id);
  g_assert_true (holds_text (GTK_WIDGET (odd_detail_pane_get_seam_pane (self->pane)), "Mark pressed"));
  odd_seam_pane_mark_next (odd_detail_pane_get_seam_pane (self->pane));
  after = odd_job_count_work (odd_document_get_job (self->document), 0);
  g_assert_cmpuint (after.n[ODD_WORK_PRESS], ==, count.n[ODD_WORK_PRESS] - 1);
  g_assert_false (holds_text (GTK_WIDGET (odd_detail_pane_get_seam_pane (self->pane)), "Mark pressed"));
  odd_seam_pane_unmark_last (odd_detail_pane_get_seam_pane (self->pane));
  g_assert_true (holds_text (GTK_WIDGET (odd_detail_pane_get_seam_pane (self->pane)), "Mark pressed"));
  g_assert_true (odd_document_undo (self->document) && odd_document_undo (self->document));
  g_assert_true (odd_document_get_job (self->document) == before);
}

/* An upright seam's line runs upwards: its upper end is the second one laid. */
static void
test_upper_end (Fixture       *self,
                gconstpointer  data)
{
  OddJob *before = odd_document_get_job (self->document);
  OddPanel *panel = first_textile (self->document)->hung[0].panel;
  const OddSeam *upright = &panel->root->parts[0]->seams[0];
  g_autoptr(OddLayout) layout = odd_job_dup_layout (before, panel->id);
  const OddLaidSeam *laid = odd_layout_find_seam (layout, upright->id);
  GtkWidget *seam_pane = GTK_WIDGET (odd_detail_pane_get_seam_pane (self->pane));
  GtkToggleButton *upper;
  const OddSeam *after;

  g_assert_cmpfloat (laid->finished.to.y, <, laid->finished.from.y);
  odd_selection_set (self->selection, ODD_SELECTED_SEAM, upright->id);
  g_assert_cmpstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (gtk_widget_get_template_child (seam_pane, ODD_TYPE_SEAM_PANE, "end_row_0"))), ==, "Upper end");
  upper = GTK_TOGGLE_BUTTON (gtk_widget_get_template_child (seam_pane, ODD_TYPE_SEAM_PANE, "secure_0"));
  g_assert_false (gtk_toggle_button_get_active (upper));
  gtk_toggle_button_set_active (upper, TRUE);
  after = &first_textile (self->document)->hung[0].panel->root->parts[0]->seams[0];
  g_assert_true (after->end_secured[1]);
  g_assert_false (after->end_secured[0]);
  g_assert_true (odd_document_undo (self->document));
}

static GtkWidget *
find_reach (GtkWidget *widget)
{
  GtkWidget *child, *found = NULL;

  if (ADW_IS_COMBO_ROW (widget) && strcmp (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), "A change is for") == 0)
    return widget;
  for (child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_reach (child);
  return found;
}

static void
test_reach (Fixture       *self,
            gconstpointer  data)
{
  OddPanel *panel = first_textile (self->document)->hung[1].panel;
  OddNode *row = panel->root;
  GtkWidget *seam_pane, *reach, *entry;

  g_test_summary ("A change made from a seam reaches as far as she says: here its panel");
  while (row->parts[0]->kind == ODD_NODE_STRIP)
    row = row->parts[0];
  odd_selection_set (self->selection, ODD_SELECTED_SEAM, row->seams[0].id);
  seam_pane = GTK_WIDGET (odd_detail_pane_get_seam_pane (self->pane));
  reach = find_reach (seam_pane);
  entry = find_type (find_type (seam_pane, ODD_TYPE_TREATMENT_ROWS), ODD_TYPE_LENGTH_ENTRY);
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (reach)), ==, 0);
  adw_combo_row_set_selected (ADW_COMBO_ROW (reach), g_list_model_get_n_items (adw_combo_row_get_model (ADW_COMBO_ROW (reach))) - 3);
  gtk_editable_set_text (GTK_EDITABLE (entry), "11 mm");
  g_signal_emit_by_name (entry, "activate");
  g_assert_cmpfloat (odd_job_get_panel (odd_document_get_job (self->document), panel->id, NULL, NULL)->treatment.allowance_mm, ==, 11.0);
  g_test_message ("the choice stays for this seam, and falls back for another");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (reach)), >, 0);
  odd_selection_set (self->selection, ODD_SELECTED_SEAM, first_textile (self->document)->joins[0].id);
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (reach)), ==, 0);
  g_assert_true (odd_document_undo (self->document));
}

static void
test_merger (Fixture       *self,
             gconstpointer  data)
{
  OddTextile *textile = first_textile (self->document);
  const OddId first = textile->hung[0].panel->id;
  GtkWidget *row;

  g_test_summary ("The first row's button moves its panel one to the right");
  odd_selection_set (self->selection, ODD_SELECTED_TEXTILE, textile->id);
  row = find_type (GTK_WIDGET (self->pane), ODD_TYPE_MERGER_ROW);
  g_assert_nonnull (row);
  g_assert_cmpuint (odd_merger_row_get_panel_id (ODD_MERGER_ROW (row)), ==, first);
  g_assert_true (gtk_widget_activate_action (row, "row.later", NULL));
  g_assert_cmpuint (first_textile (self->document)->hung[1].panel->id, ==, first);
  row = find_type (GTK_WIDGET (self->pane), ODD_TYPE_MERGER_ROW);
  g_assert_cmpuint (odd_merger_row_get_panel_id (ODD_MERGER_ROW (row)), !=, first);
}

static void
test_status_line (void)
{
  g_autoptr(OddDocument) document = load_sample ();
  g_autoptr(OddSelection) selection = odd_selection_new (document);
  OddTextile *textile = first_textile (document);
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (odd_document_get_job (document), textile->id);
  const OddWorkCount count = odd_job_count_work (odd_document_get_job (document), 0);
  g_autofree char *size = odd_length_format_pair (layout->finished_width_mm, layout->finished_length_mm, ODD_UNIT_CM);
  g_autofree char *missing = odd_length_format_bare (layout->missing_width_mm, ODD_UNIT_CM);
  g_autofree char *inches = odd_length_format_pair (layout->finished_width_mm, layout->finished_length_mm, ODD_UNIT_INCH);
  g_autofree char *to_sew = g_strdup_printf ("%u to sew", count.n[ODD_WORK_SEW]);
  GtkWidget *line = g_object_ref_sink (g_object_new (ODD_TYPE_STATUS_LINE, "document", document, "selection", selection, "textile-id", textile->id, NULL));

  g_assert_cmpfloat (layout->missing_width_mm, >, 1.0); /* the sample is not finished */
  g_assert_true (holds_text (line, size));
  g_assert_true (holds_text (line, missing));
  g_assert_true (holds_text (line, "too narrow"));
  g_assert_true (holds_text (line, to_sew));
  g_object_set (line, "unit", ODD_UNIT_INCH, NULL);
  g_assert_true (holds_text (line, inches));
  odd_document_apply (document, odd_job_set_target (odd_document_get_job (document), textile->id, 0.0, 0.0, NULL), "target");
  g_assert_false (holds_text (line, "too narrow"));
  settle (700);
  g_assert_finalize_object (line);
}

/* The button that holds this text. */
static GtkWidget *
find_button_with (GtkWidget  *widget,
                  const char *text)
{
  GtkWidget *child, *found = NULL;

  if (GTK_IS_BUTTON (widget) && holds_text (widget, text))
    return widget;
  for (child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_button_with (child, text);
  return found;
}

static void
asked_cb (GSimpleAction *action,
          GVariant      *parameter,
          char         **asked)
{
  g_free (*asked);
  *asked = g_variant_dup_string (parameter, NULL);
}

/* A click on a count asks for just these seams on the cloth; what is not sewn is no button. */
static void
test_counts (void)
{
  static const char *const words[][2] = { { "to finish", "finish" }, { "to press", "press" }, { "to topstitch", "topstitch" } };
  g_autoptr(OddDocument) document = load_sample ();
  g_autoptr(OddSelection) selection = odd_selection_new (document);
  g_autoptr(GSimpleActionGroup) group = g_simple_action_group_new ();
  g_autoptr(GSimpleAction) action = g_simple_action_new ("unfinished", G_VARIANT_TYPE_STRING);
  g_autofree char *asked = NULL;
  GtkWidget *window = gtk_window_new ();
  GtkWidget *line = g_object_new (ODD_TYPE_STATUS_LINE, "document", document, "selection", selection, "textile-id", first_textile (document)->id, NULL);

  g_signal_connect (action, "activate", G_CALLBACK (asked_cb), &asked);
  g_action_map_add_action (G_ACTION_MAP (group), G_ACTION (action));
  gtk_widget_insert_action_group (window, "win", G_ACTION_GROUP (group));
  gtk_window_set_child (GTK_WINDOW (window), line);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      GtkWidget *button = find_button_with (line, words[i][0]);

      g_assert_nonnull (button);
      g_signal_emit_by_name (button, "clicked");
      g_assert_cmpstr (asked, ==, words[i][1]);
    }
  g_assert_null (find_button_with (line, "to sew"));
  settle (700);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_tray (void)
{
  g_autoptr(OddDocument) document = load_sample ();
  g_autoptr(OddSelection) selection = odd_selection_new (document);
  GtkWidget *tray = g_object_ref_sink (odd_tray_new ("pane"));
  g_autofree char *free_text = NULL;

  g_object_set (tray, "document", document, "selection", selection, NULL);
  free_text = g_strdup_printf ("%u free", odd_scrap_model_get_n_free (odd_tray_get_model (ODD_TRAY (tray))));
  g_assert_true (holds_text (tray, free_text));
  g_object_set (odd_tray_get_model (ODD_TRAY (tray)), "search", "no such cloth", NULL);
  g_assert_true (holds_text (tray, "0 free"));
  settle (100);
  g_assert_finalize_object (tray);
}

int
main (int   argc,
      char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/panes/follow", Fixture, NULL, set_up, test_follow, tear_down);
  g_test_add ("/panes/undo", Fixture, NULL, set_up, test_undo, tear_down);
  g_test_add ("/panes/mark", Fixture, NULL, set_up, test_mark, tear_down);
  g_test_add ("/panes/upper-end", Fixture, NULL, set_up, test_upper_end, tear_down);
  g_test_add ("/panes/reach", Fixture, NULL, set_up, test_reach, tear_down);
  g_test_add ("/panes/merger", Fixture, NULL, set_up, test_merger, tear_down);
  g_test_add_func ("/panes/status-line", test_status_line);
  g_test_add_func ("/panes/counts", test_counts);
  g_test_add_func ("/panes/tray", test_tray);
  return g_test_run ();
}
