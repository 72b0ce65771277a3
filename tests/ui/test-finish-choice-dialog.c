#include "config.h"

/* Finishes beside each other: a card each, the present one without a button; one taken is one undo step; a smaller reach changes less. */
#include <adwaita.h>

#include "tests/grid.h"
#include "ui/finish-choice-dialog.h"
#include "ui/scopes.h"

typedef struct
{
  OddDocument *document;
  OddId panel_id;
  GtkWidget *window, *dialog;
} Fixture;

enum { OF_TEXTILE, OF_PANEL, OF_JOB };

/* 9 squares, overlocked by a stitch that nobody has a figure for; for the whole job 4 loose ones more. */
static OddJob *
add_odd_cloth (OddJob *job)
{
  OddFinish values = *odd_job_get_finish_by_key (job, "overlocked");
  g_autofree OddOperation *operations = g_memdup2 (values.operations, values.n_operations * sizeof (OddOperation));
  OddId id;
  GError *error = NULL;

  operations[1].stitch = (char *) "605";
  values.operations = operations;
  grid_take (&job, odd_job_put_finish (job, &values, TRUE, &id, &error), error);
  return grid_add_panel_to (job, 0, 2, 2, 94.6, 94.6, &id);
}

static GArray *
dup_scopes (Fixture *fixture,
            OddJob  *job,
            int      of)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_get_panel (job, fixture->panel_id, &textile, NULL);

  if (of == OF_JOB)
    return odd_scopes_of_job (job);
  return of == OF_PANEL ? odd_scopes_of_panel (job, panel, textile) : odd_scopes_of_textile (job, textile);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  OddJob *nine = grid_add_panel (odd_job_new (), 3, 3, 94.6, 94.6, &fixture->panel_id);
  g_autoptr(OddJob) job = GPOINTER_TO_INT (data) == OF_JOB ? add_odd_cloth (nine) : nine;
  g_autoptr(GArray) scopes = dup_scopes (fixture, job, GPOINTER_TO_INT (data));
  GListModel *windows = gtk_window_get_toplevels ();

  fixture->document = odd_document_new (job);
  fixture->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (fixture->window));
  odd_finish_choice_dialog_present (fixture->window, fixture->document, scopes, NULL, ODD_UNIT_CM);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) other = g_list_model_get_item (windows, i);

      if (other != fixture->window)
        fixture->dialog = other;
    }
  g_object_ref (fixture->dialog);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + 10 * G_TIME_SPAN_SECOND;

  gtk_window_destroy (GTK_WINDOW (fixture->dialog));
  gtk_window_destroy (GTK_WINDOW (fixture->window));
  /* a worker that is called off ends when it next looks */
  while (G_OBJECT (fixture->dialog)->ref_count > 1 && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_finalize_object (fixture->dialog);
  g_assert_finalize_object (fixture->document);
}

static GtkWidget *
part (Fixture    *fixture,
      const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (fixture->dialog, G_OBJECT_TYPE (fixture->dialog), name));
}

/* All labels below a widget, one a line. */
static void
read_labels (GtkWidget *widget,
             GString   *text)
{
  if (GTK_IS_LABEL (widget))
    g_string_append_printf (text, "%s\n", gtk_label_get_text (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    read_labels (child, text);
}

static GtkWidget *
find_button (GtkWidget *widget)
{
  if (GTK_IS_BUTTON (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_button (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkWidget *
find_card (Fixture    *fixture,
           const char *finish)
{
  GtkFlowBox *cards = GTK_FLOW_BOX (part (fixture, "cards"));

  for (guint i = 0; gtk_flow_box_get_child_at_index (cards, i) != NULL; i++)
    {
      GtkWidget *card = GTK_WIDGET (gtk_flow_box_get_child_at_index (cards, i));
      g_autoptr(GString) text = g_string_new (NULL);
      g_autofree char *line = g_strconcat (finish, "\n", NULL);

      read_labels (card, text);
      if (g_str_has_prefix (text->str, line))
        return card;
    }
  return NULL;
}

/* Until the worker is through. */
static void
wait_for_cards (Fixture *fixture)
{
  while (gtk_widget_get_visible (part (fixture, "progress")))
    g_main_context_iteration (NULL, TRUE);
}

static double
get_width (Fixture *fixture)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (odd_document_get_job (fixture->document), fixture->panel_id);

  return layout->box.width;
}

static void
test_cards (Fixture       *fixture,
            gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);
  g_autoptr(GString) french = g_string_new (NULL), open = g_string_new (NULL), now = g_string_new (NULL);

  wait_for_cards (fixture);
  g_assert_null (gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (part (fixture, "cards")), before->finishes->len));
  read_labels (find_card (fixture, "French"), french);
  g_assert_nonnull (strstr (french->str, "1.91 cm narrower"));
  g_assert_nonnull (strstr (french->str, "up to 25"));
  g_assert_nonnull (strstr (french->str, "fit to be seen"));
  g_assert_nonnull (strstr (french->str, "For sheer cloth"));
  read_labels (find_card (fixture, "Pressed open"), open);
  g_assert_nonnull (strstr (open->str, "up to 4"));
  g_assert_nonnull (strstr (open->str, "For lined work"));
  g_assert_nonnull (strstr (open->str, "0.10 m²"));      /* (3 x 94.6 + 25.4)² is 0.0956 */
  read_labels (find_card (fixture, "Overlocked"), now);
  g_assert_nonnull (strstr (now->str, "now"));
  g_assert_null (find_button (find_card (fixture, "Overlocked")));
}

/* Of several pieces of cloth the area: 13 squares of 94.6 mm are 0.116 m2; French, 13 of 88.25, 0.101. What has no figure is named: 2 x 3 + 2 seams of
 * squares of 120 mm and two rows' of 309.2, one of 214.6: 1.79 m. */
static void
test_whole_job (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr(GString) french = g_string_new (NULL), now = g_string_new (NULL);

  wait_for_cards (fixture);
  read_labels (find_card (fixture, "French"), french);
  g_assert_nonnull (strstr (french->str, "0.10 m²\n0.02 m² less"));
  g_assert_null (strstr (french->str, "no figure"));
  read_labels (find_card (fixture, "Overlocked"), now);
  g_assert_nonnull (strstr (now->str, "0.12 m²\n"));
  g_assert_nonnull (strstr (now->str, "and for 1.8 m of stitching no figure is known"));
}

static void
test_use (Fixture       *fixture,
          gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  wait_for_cards (fixture);
  g_signal_emit_by_name (find_button (find_card (fixture, "French")), "clicked");
  g_assert_cmpfloat_with_epsilon (get_width (fixture), 3 * (120 - 2 * 15.875), 1e-6);
  g_assert_true (odd_document_undo (fixture->document));
  g_assert_true (odd_document_get_job (fixture->document) == before);
}

static void
test_keep_size (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr(GString) french = g_string_new (NULL);

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (part (fixture, "keep_size")), TRUE);
  wait_for_cards (fixture);
  read_labels (find_card (fixture, "French"), french);
  g_assert_null (strstr (french->str, "narrower"));
  g_signal_emit_by_name (find_button (find_card (fixture, "French")), "clicked");
  g_assert_cmpfloat_with_epsilon (get_width (fixture), 3 * 94.6, 1e-6);
}

static void
test_closed_early (Fixture       *fixture,
                   gconstpointer  data)
{
  OddJob *before = odd_document_get_job (fixture->document);

  gtk_window_close (GTK_WINDOW (fixture->dialog));
  g_assert_true (odd_document_get_job (fixture->document) == before);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  adw_init ();

  g_test_add ("/finish-choice-dialog/cards", Fixture, GINT_TO_POINTER (OF_TEXTILE), set_up, test_cards, tear_down);
  g_test_add ("/finish-choice-dialog/whole-job", Fixture, GINT_TO_POINTER (OF_JOB), set_up, test_whole_job, tear_down);
  g_test_add ("/finish-choice-dialog/use", Fixture, GINT_TO_POINTER (OF_PANEL), set_up, test_use, tear_down);
  g_test_add ("/finish-choice-dialog/keep-size", Fixture, GINT_TO_POINTER (OF_TEXTILE), set_up, test_keep_size, tear_down);
  g_test_add ("/finish-choice-dialog/closed-early", Fixture, GINT_TO_POINTER (OF_TEXTILE), set_up, test_closed_early, tear_down);

  return g_test_run ();
}
