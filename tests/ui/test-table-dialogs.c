#include "config.h"

/* What is asked and told about work at the table: zones on a scrap, cutting, unpicking, the record, a scrap's life. */
#include <adwaita.h>

#include "cloth/cutting.h"
#include "cloth/zones.h"
#include "ui/cut-mark.h"
#include "ui/deed.h"
#include "ui/length-entry.h"
#include "ui/record-window.h"
#include "ui/scrap-life.h"
#include "ui/unpick-dialog.h"
#include "ui/zone-dialog.h"
#include "widgets.h"
#include "../cloth/trees.h"

#define PATIENCE_S 20

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  OddId scrap_id, leaf_id, seam_id;
  GtkWidget *window;
  GtkWidget *dialog;
} Fixture;

/* Two squares of 100 mm; the first on a scrap of 200 x 150 mm. */
static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, 200, 150 });
  const OddPlacement at = { 0, FALSE, { -10, -10 } };
  const OddNode *root;
  OddScrap values;
  OddId panel_id = 0;

  take (&job, add_squares (job, first_textile (job)->id, 2, 1, 100, &panel_id));
  set_allowance (&job, ODD_LEVEL_JOB, 0, 10, FALSE);
  root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  fixture->leaf_id = root->parts[0]->id;
  fixture->seam_id = root->seams[0].id;
  odd_scrap_init_values (&values);
  values.outline = outline;
  take (&job, odd_job_put_scrap (job, &values, &fixture->scrap_id, NULL));
  take (&job, odd_job_place_scrap (job, fixture->leaf_id, fixture->scrap_id, &at, NULL));
  fixture->document = odd_document_new (job);
  fixture->selection = odd_selection_new (fixture->document);
  fixture->window = gtk_window_new ();
  gtk_window_set_child (GTK_WINDOW (fixture->window), adw_toast_overlay_new ());
  gtk_window_present (GTK_WINDOW (fixture->window));
}

static void
take_dialog (Fixture *fixture)
{
  fixture->dialog = newest_window (fixture->window, NULL);
  g_assert_nonnull (fixture->dialog);
  g_object_add_weak_pointer (G_OBJECT (fixture->dialog), (gpointer *) &fixture->dialog);
}

static void
wait_gone (Fixture *fixture)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  while (fixture->dialog != NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_null (fixture->dialog);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  if (fixture->dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  wait_gone (fixture);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_finalize_object (fixture->selection);
  g_assert_finalize_object (fixture->document);
}

static OddJob *
job_of (Fixture *fixture)
{
  return odd_document_get_job (fixture->document);
}

static OddScrap *
scrap_of (Fixture *fixture)
{
  return odd_job_get_scrap (job_of (fixture), fixture->scrap_id);
}

static gpointer
part (Fixture *fixture, const char *name)
{
  GObject *child = gtk_widget_get_template_child (fixture->dialog, G_OBJECT_TYPE (fixture->dialog), name);

  g_assert_nonnull (child);
  return child;
}

static void
type_box (Fixture *fixture, const char *const texts[4])
{
  static const char *const names[] = { "x", "y", "width", "height" };

  for (guint i = 0; i < 4; i++)
    {
      gtk_editable_set_text (part (fixture, names[i]), texts[i]);
      g_signal_emit_by_name (part (fixture, names[i]), "activate");
    }
}

static void
test_zone (Fixture *fixture, gconstpointer data)
{
  OddJob *before;

  g_test_summary ("A stain of 30 x 20 mm typed in figures; one that leaves nothing, and words for a length, are refused there; the bin takes it away");
  odd_zone_dialog_present (fixture->window, fixture->document, fixture->scrap_id, ODD_UNIT_MM);
  take_dialog (fixture);
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "add")));
  type_box (fixture, (const char *const[]) { "150", "100", "30", "20" });
  g_assert_true (gtk_widget_get_sensitive (part (fixture, "add")));
  g_signal_emit_by_name (part (fixture, "add"), "clicked");
  g_assert_cmpuint (scrap_of (fixture)->n_zones, ==, 1);
  g_assert_cmpint (scrap_of (fixture)->zones[0].kind, ==, ODD_ZONE_STAIN);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (scrap_of (fixture)->zones[0].outline), 600, 1e-3);
  g_assert_true (holds_text (fixture->dialog, "30"));

  before = job_of (fixture);
  type_box (fixture, (const char *const[]) { "-10", "-10", "900", "900" });
  if (gtk_widget_get_sensitive (part (fixture, "add")))
    g_signal_emit_by_name (part (fixture, "add"), "clicked");
  g_assert_true (job_of (fixture) == before);
  type_box (fixture, (const char *const[]) { "much", "1", "2", "3" });
  if (gtk_widget_get_sensitive (part (fixture, "add")))
    g_signal_emit_by_name (part (fixture, "add"), "clicked");
  g_assert_true (job_of (fixture) == before);
  g_assert_cmpstr (gtk_label_get_text (part (fixture, "complaint")), !=, "");

  g_signal_emit_by_name (find_button (part (fixture, "zones"), "user-trash-symbolic"), "clicked");
  g_assert_cmpuint (scrap_of (fixture)->n_zones, ==, 0);
}

static void
test_zone_on_patch (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("A stain under a patch closes the window, so that what it spoils is seen");
  odd_zone_dialog_present (fixture->window, fixture->document, fixture->scrap_id, ODD_UNIT_MM);
  take_dialog (fixture);
  type_box (fixture, (const char *const[]) { "40", "40", "30", "20" });
  g_signal_emit_by_name (part (fixture, "add"), "clicked");
  g_assert_cmpuint (odd_job_count_misfits (job_of (fixture), fixture->scrap_id), ==, 1);
  wait_gone (fixture);
}

static void
sew (Fixture *fixture)
{
  const OddAct mark = { .kind = ODD_ACT_MARK, .seam_id = fixture->seam_id, .operation = ODD_ACT_NEXT };

  g_assert_true (odd_do (fixture->window, fixture->document, &mark, "Sew"));
}

static gboolean
can_unpick (Fixture *fixture)
{
  return adw_message_dialog_get_response_enabled (ADW_MESSAGE_DIALOG (fixture->dialog), "unpick");
}

static void
test_unpick (Fixture *fixture, gconstpointer data)
{
  GtkEditable *lost;
  const OddAct *act;

  g_test_summary ("Words and half a metre cannot be lost: told in the dialog, which stays; 2 mm can, and are on record with the reason");
  sew (fixture);
  odd_unpick_dialog_present (fixture->window, fixture->document, fixture->seam_id, ODD_UNIT_MM);
  take_dialog (fixture);
  lost = GTK_EDITABLE (find_type (adw_message_dialog_get_extra_child (ADW_MESSAGE_DIALOG (fixture->dialog)), ODD_TYPE_LENGTH_ENTRY));
  g_assert_true (can_unpick (fixture));
  gtk_editable_set_text (lost, "some");
  g_assert_false (can_unpick (fixture));
  gtk_editable_set_text (lost, "500");
  g_assert_false (can_unpick (fixture));
  g_assert_true (holds_text (fixture->dialog, "100 mm"));
  gtk_editable_set_text (lost, "2");
  g_assert_true (can_unpick (fixture));
  g_assert_false (holds_text (fixture->dialog, "100 mm"));
  adw_message_dialog_response (ADW_MESSAGE_DIALOG (fixture->dialog), "unpick");

  g_assert_cmpuint (job_of (fixture)->record->len, ==, 2);
  act = job_of (fixture)->record->pdata[1];
  g_assert_cmpint (act->kind, ==, ODD_ACT_UNPICK);
  g_assert_cmpfloat (act->figures[0], ==, 2.0);
  g_assert_cmpstr (act->reason, ==, "Wrong allowance");
  g_assert_cmpint (act->clock_s, >, 0);
}

static void
test_cut (Fixture *fixture, gconstpointer data)
{
  g_test_summary ("Cut, and not cut: acts, with the offcut that comes and goes; what is no patch says so and changes nothing");
  g_assert_true (odd_mark_patch_cut (fixture->window, fixture->document, ODD_UNIT_CM, fixture->leaf_id, TRUE));
  g_assert_true (scrap_of (fixture)->cut_out);
  g_assert_cmpuint (job_of (fixture)->scraps->len, ==, 2);
  odd_toggle_cut (fixture->window, fixture->document, ODD_UNIT_CM, ODD_SELECTED_PATCH, fixture->leaf_id);
  g_assert_false (scrap_of (fixture)->cut_out);
  g_assert_cmpuint (job_of (fixture)->scraps->len, ==, 1);
  g_assert_cmpuint (job_of (fixture)->record->len, ==, 2);
  odd_toggle_cut (fixture->window, fixture->document, ODD_UNIT_CM, ODD_SELECTED_SEAM, fixture->seam_id);
  g_assert_cmpuint (job_of (fixture)->record->len, ==, 2);
}

static guint
count_listed (Fixture *fixture)
{
  return g_list_model_get_n_items (G_LIST_MODEL (gtk_list_view_get_model (part (fixture, "list"))));
}

static void
search (Fixture *fixture, const char *text)
{
  gtk_editable_set_text (part (fixture, "search"), text);
  g_signal_emit_by_name (part (fixture, "search"), "search-changed");
}

static void
test_record (Fixture *fixture, gconstpointer data)
{
  const OddAct unpick = { .kind = ODD_ACT_UNPICK, .seam_id = fixture->seam_id, .reason = "Puckered" };

  g_test_summary ("Three acts are listed, and a fourth joins them; searched by word, in capitals or not, and by reason");
  g_assert_true (odd_mark_patch_cut (fixture->window, fixture->document, ODD_UNIT_CM, fixture->leaf_id, TRUE));
  sew (fixture);
  g_assert_true (odd_do (fixture->window, fixture->document, &unpick, "Unpick"));
  odd_record_window_present (GTK_WINDOW (fixture->window), fixture->document, fixture->selection, ODD_UNIT_CM);
  take_dialog (fixture);
  g_assert_cmpuint (count_listed (fixture), ==, 3);
  sew (fixture);
  g_assert_cmpuint (count_listed (fixture), ==, 4);
  search (fixture, "CUT OUT");
  g_assert_cmpuint (count_listed (fixture), ==, 1);
  search (fixture, "pucker");
  g_assert_cmpuint (count_listed (fixture), ==, 1);
  search (fixture, "no such word");
  g_assert_cmpuint (count_listed (fixture), ==, 0);
  search (fixture, "");
  g_assert_cmpuint (count_listed (fixture), ==, 4);
}

static void
test_life (Fixture *fixture, gconstpointer data)
{
  g_autoptr(GtkWidget) list = g_object_ref_sink (gtk_list_box_new ());
  OddSelected kind = ODD_SELECTED_NOTHING;
  OddId id = 0;
  guint n = 0;

  g_test_summary ("A scrap's life in rows, from the tub to where it is; the last leads to its patch");
  g_assert_true (odd_mark_patch_cut (fixture->window, fixture->document, ODD_UNIT_CM, fixture->leaf_id, TRUE));
  odd_scrap_life_show (GTK_LIST_BOX (list), job_of (fixture), fixture->scrap_id, ODD_UNIT_CM);
  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), n) != NULL)
    n++;
  g_assert_cmpuint (n, >=, 3);
  g_assert_true (holds_text (list, "came from the tub"));
  g_assert_true (holds_text (list, "cut out"));
  g_assert_true (odd_scrap_life_find (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), n - 1), job_of (fixture), &kind, &id));
  g_assert_true (kind != ODD_SELECTED_NOTHING && id != 0);
}

#define ADD(name, func) g_test_add ("/table-dialogs/" name, Fixture, NULL, set_up, func, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  ADD ("zone", test_zone);
  ADD ("zone-on-patch", test_zone_on_patch);
  ADD ("unpick", test_unpick);
  ADD ("cut", test_cut);
  ADD ("record", test_record);
  ADD ("life", test_life);
  return g_test_run ();
}
