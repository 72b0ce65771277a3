#include "config.h"

/* What goes together: a sign for every pair, the reason when it is chosen, limits as one undo step. */
#include <adwaita.h>

#include "cloth/edit.h"
#include "ui/groups-dialog.h"

static OddJob *
add_fabric (OddJob     *job,
            const char *name,
            double      gsm)
{
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, 200, 200 });
  g_autoptr(OddJob) before = job;
  g_autoptr(OddJob) with_fabric = NULL;
  OddFabric fabric;
  OddScrap scrap;
  OddId id;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) name;
  fabric.gsm = gsm;
  with_fabric = odd_job_put_fabric (before, &fabric, &id, NULL);
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.washed = TRUE;
  scrap.fabric_id = id;
  return odd_job_put_scrap (with_fabric, &scrap, NULL, NULL);
}

static GtkWidget *
part (GtkWidget  *dialog,
      const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (dialog, G_OBJECT_TYPE (dialog), name));
}

static void
test_pairs (void)
{
  g_autoptr(OddJob) job = add_fabric (add_fabric (odd_job_new (), "Lawn", 70.0), "Drill", 210.0);
  OddDocument *document = odd_document_new (job);
  GtkWidget *window = gtk_window_new ();
  GtkWidget *dialog = NULL;
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWidget *sign;

  gtk_window_present (GTK_WINDOW (window));
  odd_groups_dialog_present (window, document, ODD_UNIT_CM);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) other = g_list_model_get_item (windows, i);

      if (other != window)
        dialog = other;
    }
  g_assert_nonnull (dialog);

  sign = gtk_grid_get_child_at (GTK_GRID (part (dialog, "table")), 2, 1);
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (sign)), ==, "✕");
  g_signal_emit_by_name (sign, "clicked");
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (part (dialog, "reason"))), "3.0 times as heavy"));
  g_assert_nonnull (gtk_list_box_get_row_at_index (GTK_LIST_BOX (part (dialog, "list")), 1));

  gtk_spin_button_set_value (GTK_SPIN_BUTTON (part (dialog, "mass_ratio")), 4.0);
  sign = gtk_grid_get_child_at (GTK_GRID (part (dialog, "table")), 2, 1);
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (sign)), ==, "✓");
  g_assert_null (gtk_list_box_get_row_at_index (GTK_LIST_BOX (part (dialog, "list")), 1));
  g_assert_cmpfloat (odd_document_get_job (document)->settings.mass_ratio, ==, 4.0);
  g_assert_true (odd_document_undo (document));
  g_assert_true (odd_document_get_job (document) == job);

  gtk_window_destroy (GTK_WINDOW (dialog));
  gtk_window_destroy (GTK_WINDOW (window));
  while (g_main_context_iteration (NULL, FALSE));
  g_assert_finalize_object (document);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add_func ("/groups-dialog/pairs", test_pairs);

  return g_test_run ();
}
