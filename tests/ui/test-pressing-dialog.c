#include "config.h"

/* Ways of pressing beside each other: their layers, one taken as one undo step. */
#include <adwaita.h>

#include "sewing/bulk.h"
#include "tests/grid.h"
#include "ui/bulk-layer.h"
#include "ui/pressing-dialog.h"

static void
read_labels (GtkWidget *widget,
             GString   *text)
{
  if (GTK_IS_LABEL (widget))
    g_string_append_printf (text, "%s\n", gtk_label_get_text (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    read_labels (child, text);
}

static guint
get_most (OddJob *job)
{
  g_autoptr(GArray) crossings = odd_job_dup_crossings (job, 0);

  return odd_crossings_sum (crossings).most;
}

static GtkWidget *
part (GtkWidget  *dialog,
      const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (dialog, G_OBJECT_TYPE (dialog), name));
}

static void
test_use (void)
{
  OddId id;
  g_autoptr(OddJob) job = grid_add_panel (odd_job_new (), 3, 3, 94.6, 94.6, &id);
  OddDocument *document = odd_document_new (job);
  GtkWidget *window = gtk_window_new (), *dialog = NULL, *card;
  GListModel *windows = gtk_window_get_toplevels ();
  g_autoptr(GString) now = g_string_new (NULL), alternately = g_string_new (NULL);

  gtk_window_present (GTK_WINDOW (window));
  odd_pressing_dialog_present (window, document, 0);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) other = g_list_model_get_item (windows, i);

      if (other != window)
        dialog = other;
    }
  while (gtk_widget_get_visible (part (dialog, "spinner")))
    g_main_context_iteration (NULL, TRUE);

  read_labels (GTK_WIDGET (gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (part (dialog, "cards")), 0)), now);
  g_assert_nonnull (strstr (now->str, "9 layers at 4 of 4 crossings"));
  g_assert_nonnull (strstr (now->str, "4 crossings are thicker"));
  card = gtk_widget_get_first_child (GTK_WIDGET (gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (part (dialog, "cards")), 1 + ODD_PRESS_ALTERNATE)));
  read_labels (card, alternately);
  g_assert_nonnull (strstr (alternately->str, "7 layers at 4 of 4 crossings"));
  g_assert_nonnull (strstr (alternately->str, "No crossing is thicker"));
  g_signal_emit_by_name (gtk_widget_get_last_child (card), "clicked");
  g_assert_cmpuint (get_most (odd_document_get_job (document)), ==, 7);
  g_assert_true (odd_document_undo (document));
  g_assert_true (odd_document_get_job (document) == job);

  gtk_window_destroy (GTK_WINDOW (window));
  while (g_main_context_iteration (NULL, FALSE));
  g_assert_finalize_object (document);
}

static void
test_shapes (void)
{
  g_assert_cmpint (odd_bulk_from_plies (4), ==, ODD_BULK_THIN);
  g_assert_cmpint (odd_bulk_from_plies (9), ==, ODD_BULK_MIDDLING);
  g_assert_cmpint (odd_bulk_from_plies (11), ==, ODD_BULK_THICK);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add_func ("/pressing-dialog/use", test_use);
  g_test_add_func ("/pressing-dialog/shapes", test_shapes);

  return g_test_run ();
}
