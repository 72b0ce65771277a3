#include "config.h"

/* The dialog of the work ticket: it counts the pages of what is chosen, shows only what matters for that, and prints nothing where nothing is chosen. */
#include <adwaita.h>

#include "cloth/edit.h"
#include "ui/ticket-dialog.h"

typedef struct
{
  GtkWidget *window;
  GtkWidget *dialog;
} Fixture;

static GtkWidget *
part (Fixture    *fixture,
      const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (fixture->dialog, G_OBJECT_TYPE (fixture->dialog), name));
}

/* Every check button below @widget in its order. */
static void
collect_checks (GtkWidget *widget,
                GPtrArray *checks)
{
  if (GTK_IS_CHECK_BUTTON (widget))
    g_ptr_array_add (checks, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    collect_checks (child, checks);
}

static void
set_all (Fixture  *fixture,
         gboolean  active)
{
  g_autoptr(GPtrArray) checks = g_ptr_array_new ();

  collect_checks (part (fixture, "sheets"), checks);
  g_assert_cmpuint (checks->len, ==, 9);
  for (guint i = 0; i < checks->len; i++)
    gtk_check_button_set_active (checks->pdata[i], active);
}

static void
set_one (Fixture *fixture,
         guint    i)
{
  g_autoptr(GPtrArray) checks = g_ptr_array_new ();

  set_all (fixture, FALSE);
  collect_checks (part (fixture, "sheets"), checks);
  gtk_check_button_set_active (checks->pdata[i], TRUE);
}

static void
wait_for_count (Fixture    *fixture,
                const char *wanted)
{
  const gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;

  while (!g_str_equal (gtk_label_get_label (GTK_LABEL (part (fixture, "count"))), wanted) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpstr (gtk_label_get_label (GTK_LABEL (part (fixture, "count"))), ==, wanted);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddJob) with_panel = odd_job_add_panel (job, 0, 0, NULL, 200, 100, NULL, NULL);
  GListModel *windows = gtk_window_get_toplevels ();

  fixture->window = adw_application_window_new (NULL);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (fixture->window), gtk_label_new (""));
  odd_ticket_dialog_present (GTK_WINDOW (fixture->window), NULL, with_panel, "Tub", 0, 1, NULL);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) window = g_list_model_get_item (windows, i);

      if (window != fixture->window)
        fixture->dialog = window;
    }
  g_assert_nonnull (fixture->dialog);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
}

static void
test_count (Fixture       *fixture,
            gconstpointer  data)
{
  g_test_summary ("One bare panel: a cover and a panel sheet, and no template that two share; asked for every shape there is one");
  wait_for_count (fixture, "2 pages");
  set_one (fixture, 0);
  wait_for_count (fixture, "1 page");
  set_all (fixture, TRUE);
  adw_combo_row_set_selected (ADW_COMBO_ROW (part (fixture, "templates")), 2);
  wait_for_count (fixture, "5 pages");
}

static void
test_nothing (Fixture       *fixture,
              gconstpointer  data)
{
  g_test_summary ("Nothing chosen: nothing to print, and it says what to do");
  wait_for_count (fixture, "2 pages");
  g_assert_true (gtk_widget_get_sensitive (part (fixture, "print")));
  set_all (fixture, FALSE);
  wait_for_count (fixture, "Choose a sheet");
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "print")));
  g_assert_false (gtk_widget_get_sensitive (part (fixture, "save")));
}

static void
test_shown (Fixture       *fixture,
            gconstpointer  data)
{
  g_test_summary ("Only what matters for the chosen sheets is asked; the manner is as it was chosen in the order of work");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (part (fixture, "manner"))), ==, 1);
  g_assert_true (gtk_widget_get_visible (part (fixture, "manner")));
  g_assert_true (gtk_widget_get_visible (part (fixture, "templates")));
  g_assert_false (gtk_widget_get_visible (part (fixture, "stickers")));
  set_one (fixture, 8);
  g_assert_false (gtk_widget_get_visible (part (fixture, "manner")));
  g_assert_false (gtk_widget_get_visible (part (fixture, "templates")));
  g_assert_true (gtk_widget_get_visible (part (fixture, "stickers")));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/ticket-dialog/count", Fixture, NULL, set_up, test_count, tear_down);
  g_test_add ("/ticket-dialog/nothing", Fixture, NULL, set_up, test_nothing, tear_down);
  g_test_add ("/ticket-dialog/shown", Fixture, NULL, set_up, test_shown, tear_down);
  return g_test_run ();
}
