#include "config.h"

/* The window itself: what its menus show as chosen, what it says at its foot, and what it proposes next. */
#include "sewing/plan.h"
#include "tests/grid.h"
#include "tests/ui/widgets.h"
#include "ui/application.h"
#include "ui/toast.h"
#include "ui/window.h"

typedef struct { OddWindow *window; } Fixture;

static OddApplication *application;

static void
settle (guint ms)
{
  const gint64 end = g_get_monotonic_time () + ms * G_TIME_SPAN_MILLISECOND;

  while (g_get_monotonic_time () < end)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (2000);
    }
}

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  self->window = odd_window_new (GTK_APPLICATION (application), NULL);
  gtk_window_present (GTK_WINDOW (self->window));
  settle (200);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  gtk_window_destroy (GTK_WINDOW (self->window));
  settle (200);
}

static void
show_job (Fixture *self,
          OddJob  *job)
{
  odd_document_apply (odd_window_get_document (self->window), job, "Test");
  settle (100);
}

static OddJob *
one_loose (void)
{
  OddId id;

  return grid_add_panel_to (odd_job_new (), 0, 2, 2, 94.6, 94.6, &id);
}

/* Where it can be seen: pages of other stages are visible, but not shown. */
static gboolean
is_shown (GtkWidget  *widget,
          const char *text)
{
  if (!gtk_widget_get_mapped (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (is_shown (child, text))
      return TRUE;
  return FALSE;
}

static gboolean
says (Fixture    *self,
      const char *text)
{
  return is_shown (GTK_WIDGET (self->window), text);
}

/* The machine may be busy. */
static void
wait_for (Fixture    *self,
          const char *text)
{
  for (guint i = 0; i < 1000 && !says (self, text); i++)
    settle (10);
  g_assert_true (says (self, text));
}

/* --- what is chosen --- */

static char *
dup_state (Fixture    *self,
           const char *action)
{
  g_autoptr(GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (self->window), action);

  g_assert_nonnull (state);
  return g_variant_print (state, FALSE);
}

static void
assert_state (Fixture    *self,
              const char *action,
              const char *wanted)
{
  g_autofree char *state = dup_state (self, action);

  g_assert_cmpstr (state, ==, wanted);
}

/* A menu shows a mark where there is a state, and the state is what the canvas shows. */
static void
test_looks (Fixture       *self,
            gconstpointer  data)
{
  GtkWidget *window = GTK_WIDGET (self->window);
  OddCanvas *canvas = odd_window_get_canvas (self->window);

  assert_state (self, "bulk", "false");
  gtk_widget_activate_action (window, "win.bulk", NULL);
  assert_state (self, "bulk", "true");
  g_assert_true (odd_canvas_get_bulk (canvas));
  gtk_widget_activate_action (window, "win.bulk", NULL);
  assert_state (self, "bulk", "false");
  g_assert_false (odd_canvas_get_bulk (canvas));

  assert_state (self, "unfinished", "'nothing'");
  gtk_widget_activate_action (window, "win.unfinished", "s", "all");
  assert_state (self, "unfinished", "'all'");
  gtk_widget_activate_action (window, "win.unfinished", "s", "press");
  assert_state (self, "unfinished", "'press'");
  g_assert_cmpint (odd_canvas_get_unfinished (canvas), ==, ODD_UNFINISHED_PRESS);
  gtk_widget_activate_action (window, "win.unfinished", "s", "press");
  assert_state (self, "unfinished", "'nothing'");
  g_assert_cmpint (odd_canvas_get_unfinished (canvas), ==, ODD_UNFINISHED_NOTHING);

  assert_state (self, "show", "'patches'");
  gtk_widget_activate_action (window, "win.show", "s", "lightness");
  assert_state (self, "show", "'lightness'");
}

/* --- what is said --- */

/* A refusal is seen at once although something was saved just before; and what is saved after it waits. */
static void
test_refusal_outlives (Fixture       *self,
                       gconstpointer  data)
{
  GtkWidget *canvas = GTK_WIDGET (odd_window_get_canvas (self->window));

  odd_note (canvas, "Saved");
  wait_for (self, "Saved");
  odd_toast (canvas, "This cannot be.", NULL, NULL);
  for (guint i = 0; i < 150 && !says (self, "This cannot be."); i++)
    settle (10);
  g_assert_true (says (self, "This cannot be."));      /* before the first would have gone by itself */
  g_assert_false (says (self, "Saved"));
  odd_note (canvas, "Saved");
  settle (2500);
  g_assert_true (says (self, "This cannot be."));
  /* it is still to come: one more takes its place, so that they do not heap up */
  odd_note (canvas, "Saved again");
  wait_for (self, "Saved again");
  g_assert_false (says (self, "This cannot be."));
}

/* --- what next --- */

static OddJob *
with_scrap (OddJob *job)
{
  g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { 0, 0, 120, 120 }, (int[4]) { 0, 1, 2, 3 });
  g_autoptr(OddPolygon) outline = odd_polygon_new_from_convex (box);
  OddScrap values;
  OddId id;
  GError *error = NULL;

  odd_scrap_init_values (&values);
  values.outline = outline;
  grid_take (&job, odd_job_put_scrap (job, &values, &id, &error), error);
  return job;
}

static guint
count_hung (Fixture *self)
{
  return ((OddTextile *) odd_document_get_job (odd_window_get_document (self->window))->textiles->pdata[0])->n_hung;
}

static void
test_all_loose (Fixture       *self,
                gconstpointer  data)
{
  OddSelection *selection = odd_window_get_selection (self->window);
  OddJob *job = with_scrap (one_loose ());

  show_job (self, job);
  g_assert_false (says (self, "No panel yet"));
  g_assert_false (says (self, "Start a panel"));
  g_assert_true (says (self, "1 loose panel, not hung yet"));
  g_assert_true (says (self, "Hang a panel"));
  /* its row leads to the button */
  gtk_widget_activate (gtk_widget_get_ancestor (find_type (GTK_WIDGET (self->window), ADW_TYPE_ACTION_ROW), GTK_TYPE_LIST_BOX_ROW));
  settle (100);
  g_assert_cmpint (odd_selection_get_kind (selection), ==, ODD_SELECTED_PANEL);
  gtk_widget_activate (find_button (GTK_WIDGET (self->window), "_Hang in the textile"));
  for (guint i = 0; i < 500 && count_hung (self) == 0; i++)
    settle (10);
  g_assert_cmpuint (count_hung (self), ==, 1);
}

/* Ctrl+T with a loose panel alone: the finishes of that. */
static void
test_compare_loose (Fixture       *self,
                    gconstpointer  data)
{
  GtkWidget *dialog;

  show_job (self, one_loose ());
  gtk_widget_activate_action (GTK_WIDGET (self->window), "win.compare-finishes", NULL);
  dialog = newest_window (GTK_WIDGET (self->window), NULL);
  g_assert_nonnull (dialog);
  for (guint i = 0; i < 500 && !holds_text (dialog, "18.92 × 18.92 cm"); i++)
    settle (10);
  g_assert_true (holds_text (dialog, "18.92 × 18.92 cm"));
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static GtkWidget *
find_shown_button (GtkWidget  *widget,
                   const char *text)
{
  GtkWidget *found = NULL;

  if (GTK_IS_BUTTON (widget) && is_shown (widget, text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_shown_button (child, text);
  return found;
}

/* A row seam sewn over squares that are only sewn: two are raw inside, told beside what wants to be done, and a click shows them. */
static void
test_raw_inside (Fixture       *self,
                 gconstpointer  data)
{
  OddId id;
  OddJob *job = grid_add_panel (odd_job_new (), 2, 2, 94.6, 94.6, &id);
  OddNode *root = odd_job_get_panel (job, id, NULL, NULL)->root;
  const OddId seams[] = { root->parts[0]->seams[0].id, root->parts[1]->seams[0].id, root->seams[0].id };
  GtkWidget *button;
  GError *error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (seams); i++)
    {
      const OddTaskKey sew = { ODD_TASK_OPERATION, seams[i], 0 };

      grid_take (&job, odd_job_do_task (job, &sew, TRUE, &error), error);
    }
  show_job (self, job);
  button = find_shown_button (GTK_WIDGET (self->window), "2 raw inside");
  g_assert_nonnull (button);
  gtk_widget_activate (button);
  for (guint i = 0; i < 500 && odd_canvas_get_unfinished (odd_window_get_canvas (self->window)) == ODD_UNFINISHED_NOTHING; i++)
    settle (10);
  g_assert_cmpint (odd_canvas_get_unfinished (odd_window_get_canvas (self->window)), ==, ODD_UNFINISHED_RAW_INSIDE);
}

static void
start (void)
{
  g_autoptr(GError) error = NULL;

  application = odd_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (application), NULL, &error);
  g_assert_no_error (error);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  start ();
  g_test_add ("/window/looks", Fixture, NULL, set_up, test_looks, tear_down);
  g_test_add ("/window/refusal-outlives", Fixture, NULL, set_up, test_refusal_outlives, tear_down);
  g_test_add ("/window/all-loose", Fixture, NULL, set_up, test_all_loose, tear_down);
  g_test_add ("/window/compare-loose", Fixture, NULL, set_up, test_compare_loose, tear_down);
  g_test_add ("/window/raw-inside", Fixture, NULL, set_up, test_raw_inside, tear_down);
  return g_test_run ();
}
