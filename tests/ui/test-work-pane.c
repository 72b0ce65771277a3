/* The order of work at the sewing table: ticks are marks of the job, the list follows, and what is undone comes back. The job is the sample. */
#include "store/load.h"
#include "sewing/work-time.h"
#include "tests/ui/widgets.h"
#include "ui/work-pane.h"

typedef struct
{
  OddDocument *document;
  OddSelection *selection;
  GtkWidget *window;
  OddWorkPane *pane;
  guint n_marks_changed;
} Fixture;

static void
marks_cb (Fixture *self)
{
  self->n_marks_changed++;
}

/* Until the worker's plan has come. */
static void
wait_for_plan (Fixture *self)
{
  const guint was = self->n_marks_changed;
  const gint64 end = g_get_monotonic_time () + 20 * G_TIME_SPAN_SECOND;

  while (self->n_marks_changed == was && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpuint (self->n_marks_changed, >, was);
}

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "sample.oddment", NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_store_load (path, NULL, &error);

  g_assert_no_error (error);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  self->document = odd_document_new (job);
  self->selection = odd_selection_new (self->document);
  self->pane = g_object_new (ODD_TYPE_WORK_PANE, "document", self->document, "selection", self->selection,
                             "textile-id", ((OddTextile *) job->textiles->pdata[0])->id, NULL);
  g_signal_connect_swapped (self->pane, "marks-changed", G_CALLBACK (marks_cb), self);
  self->window = gtk_window_new ();
  gtk_window_set_child (GTK_WINDOW (self->window), GTK_WIDGET (self->pane));
  gtk_window_present (GTK_WINDOW (self->window));
  g_object_set (self->pane, "active", TRUE, NULL);
  while (odd_work_pane_get_marks (self->pane)->len == 0)
    wait_for_plan (self);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  const gint64 end = g_get_monotonic_time () + 300 * G_TIME_SPAN_MILLISECOND;

  gtk_window_destroy (GTK_WINDOW (self->window));
  while (g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_object_unref (self->selection);
  g_object_unref (self->document);
}

static guint
count_open (Fixture *self)
{
  const OddWorkCount count = odd_job_count_work (odd_document_get_job (self->document), 0);
  guint n = 0;

  for (guint i = 0; i < ODD_N_STATIONS; i++)
    n += count.operations_open[i];
  return n;
}

static void
test_tick (Fixture       *self,
           gconstpointer  data)
{
  OddJob *before = odd_document_get_job (self->document);
  const guint n_open = count_open (self);
  guint done, all, done_after, all_after;

  odd_work_pane_get_progress (self->pane, &done, &all);
  g_assert_cmpuint (done, ==, 0);
  g_assert_cmpuint (all, >, 1);
  g_assert_true (odd_work_pane_tick (self->pane));
  g_assert_cmpuint (count_open (self), ==, n_open - 1);
  wait_for_plan (self);
  odd_work_pane_get_progress (self->pane, &done_after, &all_after);
  g_assert_cmpuint (done_after, ==, 1);
  g_assert_cmpuint (all_after, ==, all);
  g_assert_true (g_array_index (odd_work_pane_get_marks (self->pane), OddWorkMark, 0).done);
  g_test_message ("the last tick is taken back");
  g_assert_true (odd_work_pane_untick_last (self->pane));
  g_assert_cmpuint (count_open (self), ==, n_open);
  wait_for_plan (self);
  odd_work_pane_get_progress (self->pane, &done_after, &all_after);
  g_assert_cmpuint (done_after, ==, 0);
  g_assert_false (odd_work_pane_untick_last (self->pane));
  g_assert_true (odd_document_undo (self->document) && odd_document_undo (self->document));
  g_assert_true (odd_document_get_job (self->document) == before);
}

/* From what is left of the sample to the last tick: every tick takes one operation away, none encloses a raw seam. */
static void
test_to_the_end (Fixture       *self,
                 gconstpointer  data)
{
  const guint raw_before = odd_job_count_work (odd_document_get_job (self->document), 0).n_raw_inside;
  guint n_ticks = 0;

  while (odd_work_pane_get_marks (self->pane)->len > 0)
    {
      g_assert_true (odd_work_pane_tick (self->pane));
      g_assert_cmpuint (++n_ticks, <, 1000);
      wait_for_plan (self);
    }
  g_assert_cmpuint (n_ticks, >, 20);
  g_assert_cmpuint (odd_job_count_work (odd_document_get_job (self->document), ((OddTextile *) odd_document_get_job (self->document)->textiles->pdata[0])->id).n[ODD_WORK_SEW], ==, 0);
  g_assert_cmpuint (odd_job_count_work (odd_document_get_job (self->document), 0).n_raw_inside, ==, raw_before);
  g_assert_false (odd_work_pane_tick (self->pane));
}

/* --- time and thread --- */

static GtkWidget *
find_row (GtkWidget  *widget,
          const char *title)
{
  GtkWidget *found = NULL;

  if (ADW_IS_ACTION_ROW (widget) && g_str_equal (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_row (child, title);
  return found;
}

static const char *
read_value (GtkWidget *widget)
{
  const char *found = NULL;

  if (GTK_IS_LABEL (widget) && gtk_widget_has_css_class (widget, "tabular"))
    return gtk_label_get_text (GTK_LABEL (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = read_value (child);
  return found;
}

/* The times follow a speed at once: ten times the longest walk makes them longer, undone by the button beside it. */
static void
test_figures (Fixture       *self,
              gconstpointer  data)
{
  GtkWidget *dialog, *walking;
  g_autofree char *before = NULL;
  g_autofree char *slow = NULL;

  gtk_widget_activate_action (GTK_WIDGET (self->pane), "work.figures", NULL);
  dialog = newest_window (self->window, NULL);
  walking = find_row (dialog, odd_time_get_figure (ODD_TIME_WALKING, NULL).name);
  before = g_strdup (read_value (find_row (dialog, "In all")));
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (find_type (walking, GTK_TYPE_SPIN_BUTTON)), 600.0);
  slow = g_strdup (read_value (find_row (dialog, "In all")));
  g_assert_cmpstr (slow, !=, before);
  g_signal_emit_by_name (find_button (walking, "edit-undo-symbolic"), "clicked");
  g_assert_cmpstr (read_value (find_row (dialog, "In all")), ==, before);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

int
main (int    argc,
      char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  adw_init ();
  g_test_add ("/work-pane/tick", Fixture, NULL, set_up, test_tick, tear_down);
  g_test_add ("/work-pane/to-the-end", Fixture, NULL, set_up, test_to_the_end, tear_down);
  g_test_add ("/work-pane/figures", Fixture, NULL, set_up, test_figures, tear_down);
  return g_test_run ();
}
