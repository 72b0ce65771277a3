#include "config.h"

/* What can I make: answers as it is typed, by weight before there is a scrap, and what would help where it is short. */
#include <adwaita.h>

#include "cloth/edit.h"
#include "ui/estimate-dialog.h"
#include "ui/length-entry.h"
#include "ui/propose-settings.h"
#include "ui/template-rows.h"

#define PATIENCE_S 20

typedef struct
{
  OddDocument *document;
  GtkWidget *window;
  GtkWidget *dialog;
} Fixture;

static OddProposalOptions offered;
static OddId offered_ids[64];

static void
piece_cb (GtkWidget                *from,
          const OddProposalOptions *offer)
{
  offered = *offer;
  g_assert_cmpuint (offer->n_scrap_ids, <=, G_N_ELEMENTS (offered_ids));
  for (guint i = 0; i < offer->n_scrap_ids; i++)
    offered_ids[i] = offer->scrap_ids[i];
  offered.scrap_ids = offer->scrap_ids != NULL ? offered_ids : NULL;
}

static GtkWidget *
part (Fixture    *fixture,
      const char *name)
{
  GObject *child = gtk_widget_get_template_child (fixture->dialog, G_OBJECT_TYPE (fixture->dialog), name);

  g_assert_nonnull (child);
  return GTK_WIDGET (child);
}

static GtkWidget *
template_entry (Fixture    *fixture,
                const char *name)
{
  GObject *child = gtk_widget_get_template_child (part (fixture, "templates"), ODD_TYPE_TEMPLATE_ROWS, name);

  g_assert_nonnull (child);
  return GTK_WIDGET (child);
}

/* A heavy cloth for every second scrap: it does not mix with the others. */
static OddJob *
make_half_heavy (OddJob *job)
{
  const double gsm[] = { 90.0, 400.0 };
  g_autoptr(OddJob) mixed = odd_job_ref (job);

  for (guint f = 0; f < 2; f++)
    {
      OddFabric values;
      OddId id;
      OddJob *next;

      odd_fabric_init_values (&values);
      values.name = f == 0 ? (char *) "Light" : (char *) "Heavy";
      values.gsm = gsm[f];
      next = odd_job_put_fabric (mixed, &values, &id, NULL);
      g_assert_nonnull (next);
      odd_job_unref (mixed);
      mixed = next;
      for (guint i = f; i < job->scraps->len; i += 2)
        {
          OddScrap scrap = *(OddScrap *) job->scraps->pdata[i];
          g_autoptr(GPtrArray) one = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);

          scrap.fabric_id = id;
          g_ptr_array_add (one, odd_scrap_new (&scrap, NULL));
          next = odd_job_put_scraps (mixed, one, NULL);
          g_assert_nonnull (next);
          odd_job_unref (mixed);
          mixed = next;
        }
    }
  return g_steal_pointer (&mixed);
}

static OddJob *
make_tub (guint n)
{
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  g_autoptr(OddJob) empty = odd_job_new ();
  const OddPoint points[4] = { { 0, 0 }, { 205, 0 }, { 205, 105 }, { 0, 105 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (points, 4, NULL);

  for (guint i = 0; i < n; i++)
    {
      OddScrap values;

      odd_scrap_init_values (&values);
      values.outline = outline;
      values.washed = TRUE;
      g_ptr_array_add (scraps, odd_scrap_new (&values, NULL));
    }
  return odd_job_put_scraps (empty, scraps, NULL);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr(OddJob) plain = make_tub (GPOINTER_TO_UINT (data) % 100);
  g_autoptr(OddJob) job = GPOINTER_TO_UINT (data) > 100 ? make_half_heavy (plain) : odd_job_ref (plain);
  GListModel *windows = gtk_window_get_toplevels ();

  offered = (OddProposalOptions) { 0 };
  fixture->document = odd_document_new (job);
  fixture->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (fixture->window));
  odd_estimate_dialog_present (fixture->window, fixture->document, ((OddTextile *) job->textiles->pdata[0])->id, ODD_UNIT_CM, piece_cb);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) window = g_list_model_get_item (windows, i);

      if (window != fixture->window)
        fixture->dialog = window;
    }
  g_assert_nonnull (fixture->dialog);
  g_object_add_weak_pointer (G_OBJECT (fixture->dialog), (gpointer *) &fixture->dialog);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  if (fixture->dialog != NULL)
    gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  while (fixture->dialog != NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_null (fixture->dialog);
  g_assert_finalize_object (fixture->document);
}

static void
type (Fixture    *fixture,
      const char *entry,
      const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (part (fixture, entry)), text);
}

static void
wait_for (Fixture    *fixture,
          const char *label,
          const char *text)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;
  GtkLabel *widget = GTK_LABEL (part (fixture, label));

  while (strstr (gtk_label_get_text (widget), text) == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  if (strstr (gtk_label_get_text (widget), text) == NULL)
    g_error ("“%s” does not say “%s”", gtk_label_get_text (widget), text);
}

/* Eight scraps of 205 x 105: 16 squares cut 10 cm. 32 x 32 cm of squares of 8 cm takes 16, 40 x 32 four more. Typed, not entered. */
static void
test_typing (Fixture       *fixture,
             gconstpointer  data)
{
  static const char *const ABSURD[] = { "0", "-5", "nan", "inf", "1e9", "1000000 m", "", "9999999999999999999999" };
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;

  type (fixture, "panel_width", "16");
  type (fixture, "width", "32");
  type (fixture, "length", "32");
  wait_for (fixture, "headline", "Enough");
  type (fixture, "length", "40");
  wait_for (fixture, "headline", "4 squares short");
  for (guint i = 0; i < G_N_ELEMENTS (ABSURD); i++)
    {
      type (fixture, "length", ABSURD[i]);
      wait_for (fixture, "headline", "Not yet clear");
      g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (part (fixture, "sentence"))), !=, "");
      type (fixture, "length", "40");
      wait_for (fixture, "headline", "4 squares short");
    }
  type (fixture, "allowance", "5");
  wait_for (fixture, "sentence", "cut size");
  type (fixture, "allowance", "1");
  type (fixture, "length", "40 apples");
  wait_for (fixture, "headline", "Not yet clear");
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "piece")));
  type (fixture, "length", "32");
  wait_for (fixture, "headline", "Enough");
  /* what is typed is taken as it is entered, and written out: the button stays on; pressed before the answer, it waits for it */
  type (fixture, "width", "");
  type (fixture, "width", "30.0 cm");
  g_assert_true (gtk_widget_get_sensitive (part (fixture, "piece")));
  g_signal_emit_by_name (part (fixture, "piece"), "clicked");
  while (offered.n_panels == 0 && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (offered.n_panels, ==, 2);
  g_assert_cmpfloat (offered.width_mm, ==, 160.0);
  g_assert_cmpfloat (offered.templates[0].width_mm, ==, 100.0);
  g_assert_cmpfloat (offered.treatment.allowance_mm, ==, 10.0);
}

/* Cut 12 cm none of the scraps takes one; a remedy is a button, and pressing it makes it so: cut 10 cm, 8 finished, 4 x 4 is 16. */
static void
test_remedy (Fixture       *fixture,
             gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + PATIENCE_S * G_USEC_PER_SEC;
  GtkWidget *button;

  type (fixture, "panel_width", "16");
  type (fixture, "width", "32");
  type (fixture, "length", "32");
  gtk_editable_set_text (GTK_EDITABLE (template_entry (fixture, "width_0")), "12");
  wait_for (fixture, "sentence", "None of the scraps");
  while ((button = gtk_widget_get_first_child (part (fixture, "remedies"))) == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_nonnull (button);
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (button)), ==, "Cut 10.0 cm instead: enough");
  g_signal_emit_by_name (button, "clicked");
  wait_for (fixture, "headline", "Enough");
}

/* What the dialog offers, shown and read again by the settings of "Piece by itself". */
static OddProposalOptions
read_back (Fixture *fixture)
{
  OddJob *job = odd_document_get_job (fixture->document);
  GtkWidget *settings = g_object_ref_sink (g_object_new (ODD_TYPE_PROPOSE_SETTINGS, NULL));
  const char *complaint = NULL;
  OddProposalOptions read;

  odd_propose_settings_start (ODD_PROPOSE_SETTINGS (settings), job, ((OddTextile *) job->textiles->pdata[0])->id, ODD_UNIT_CM, NULL, 0, 0);
  odd_propose_settings_offer (ODD_PROPOSE_SETTINGS (settings), &offered);
  g_assert_true (odd_propose_settings_read (ODD_PROPOSE_SETTINGS (settings), &read, &complaint));
  g_assert_cmpmem (read.scrap_ids, read.n_scrap_ids * sizeof (OddId), offered.scrap_ids, offered.n_scrap_ids * sizeof (OddId));
  g_object_unref (settings);
  return read;
}

/* Cut 12 cm nothing fits; cut 5 as well each scrap gives 4 x 2 of 3 cm, 64: 6 across 16 cm. Handed on, both sizes arrive. */
static void
test_templates (Fixture       *fixture,
                gconstpointer  data)
{
  OddProposalOptions read;

  type (fixture, "panel_width", "10");
  type (fixture, "width", "10");
  type (fixture, "length", "20");
  gtk_editable_set_text (GTK_EDITABLE (template_entry (fixture, "width_0")), "12");
  wait_for (fixture, "headline", "short");
  gtk_editable_set_text (GTK_EDITABLE (template_entry (fixture, "width_1")), "5");
  wait_for (fixture, "headline", "Enough");
  gtk_editable_set_text (GTK_EDITABLE (template_entry (fixture, "width_2")), "2");
  wait_for (fixture, "headline", "Not yet clear");
  wait_for (fixture, "sentence", "cut size");
  gtk_editable_set_text (GTK_EDITABLE (template_entry (fixture, "width_2")), "");
  gtk_editable_set_text (GTK_EDITABLE (template_entry (fixture, "length_1")), "6");
  wait_for (fixture, "headline", "Enough");
  g_signal_emit_by_name (part (fixture, "piece"), "clicked");
  read = read_back (fixture);
  g_assert_cmpint (read.manner, ==, ODD_PIECE_SQUARES);
  g_assert_cmpuint (read.n_templates, ==, 2);
  g_assert_cmpfloat (read.templates[0].width_mm, ==, 120.0);
  g_assert_cmpfloat (read.templates[0].length_mm, ==, 120.0);
  g_assert_cmpfloat (read.templates[1].width_mm, ==, 50.0);
  g_assert_cmpfloat (read.templates[1].length_mm, ==, 60.0);
}

/* Eight scraps of 205 x 105 are 0.17 m2. Handed on, the size of the patches arrives too. */
static void
test_crumbs (Fixture       *fixture,
             gconstpointer  data)
{
  OddProposalOptions read;

  adw_combo_row_set_selected (ADW_COMBO_ROW (part (fixture, "manner")), ODD_PIECE_CRUMBS);
  g_assert_true (gtk_widget_get_visible (part (fixture, "scale_row")));
  g_assert_true (gtk_widget_get_visible (part (fixture, "liveliness_row")));
  g_assert_false (gtk_widget_get_visible (part (fixture, "templates")));
  type (fixture, "panel_width", "16");
  type (fixture, "width", "32");
  type (fixture, "length", "100");
  wait_for (fixture, "headline", "short");
  type (fixture, "length", "10");
  wait_for (fixture, "headline", "Very likely enough");
  type (fixture, "scale", "2");
  wait_for (fixture, "sentence", "middle patch");
  type (fixture, "scale", "");
  type (fixture, "smallest", "12");
  wait_for (fixture, "sentence", "wide enough");
  type (fixture, "smallest", "2.5");
  type (fixture, "scale", "4.5");
  wait_for (fixture, "headline", "Very likely enough");
  g_signal_emit_by_name (part (fixture, "piece"), "clicked");
  read = read_back (fixture);
  g_assert_cmpint (read.manner, ==, ODD_PIECE_CRUMBS);
  g_assert_cmpfloat (read.scale_mm, ==, 45.0);
  g_assert_cmpfloat (read.smallest_mm, ==, 25.0);
  g_assert_cmpuint (read.n_panels, ==, 2);
  g_assert_cmpfloat (read.width_mm, ==, 160.0);
  g_assert_cmpfloat (read.length_mm, ==, 100.0);
}

/* Four scraps of each of two cloths that do not mix: the tub is one of them, 8 squares, unless they are mixed on purpose. So is what is handed on. */
static void
test_groups (Fixture       *fixture,
             gconstpointer  data)
{
  OddProposalOptions read;

  type (fixture, "panel_width", "16");
  type (fixture, "width", "32");
  type (fixture, "length", "32");
  wait_for (fixture, "headline", "8 squares short");
  adw_combo_row_set_selected (ADW_COMBO_ROW (part (fixture, "draw_from")), 2);
  wait_for (fixture, "headline", "Enough");
  adw_combo_row_set_selected (ADW_COMBO_ROW (part (fixture, "draw_from")), 1);
  wait_for (fixture, "headline", "8 squares short");
  g_signal_emit_by_name (part (fixture, "piece"), "clicked");
  read = read_back (fixture);
  g_assert_cmpuint (offered.n_scrap_ids, ==, 4);
  g_assert_cmpuint (read.n_scrap_ids, ==, 4);
}

/* No scrap yet: the tub is weighed. 0.1 kg at 130 g/m2 is 0.77 m2, far too little for 10 m2; 100 kg is not. */
static void
test_weight (Fixture       *fixture,
             gconstpointer  data)
{
  g_assert_true (gtk_widget_get_visible (part (fixture, "kg_row")));
  type (fixture, "width", "200");
  type (fixture, "length", "500");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (part (fixture, "kg")), 0.1);
  wait_for (fixture, "headline", "short");
  wait_for (fixture, "sentence", "kg more");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (part (fixture, "kg")), 100.0);
  wait_for (fixture, "headline", "Enough");
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "piece")));
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/estimate-dialog/typing", Fixture, GUINT_TO_POINTER (8), set_up, test_typing, tear_down);
  g_test_add ("/estimate-dialog/remedy", Fixture, GUINT_TO_POINTER (8), set_up, test_remedy, tear_down);
  g_test_add ("/estimate-dialog/templates", Fixture, GUINT_TO_POINTER (8), set_up, test_templates, tear_down);
  g_test_add ("/estimate-dialog/crumbs", Fixture, GUINT_TO_POINTER (8), set_up, test_crumbs, tear_down);
  g_test_add ("/estimate-dialog/groups", Fixture, GUINT_TO_POINTER (108), set_up, test_groups, tear_down);
  g_test_add ("/estimate-dialog/weight", Fixture, GUINT_TO_POINTER (0), set_up, test_weight, tear_down);

  return g_test_run ();
}
