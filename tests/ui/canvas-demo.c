/* Opens the canvas alone on a generated job: to look at it, and to drive it by hand or by xdotool. Not a test.
 * Usage: canvas-demo [panels] [columns] [rows] [joined]; keys t: next scrap into the hand, v: next way to show, j: joined, u: unit, z: undo.
 * With DARK or NARROW in the environment: so. */
#include "table-job.h"
#include "ui/canvas.h"

#include <adwaita.h>
#include <stdlib.h>

static GtkWidget *canvas;
static OddDocument *document;
static OddId first_free;
static guint n_taken;

static void
announced_cb (OddCanvas *self, const char *text, GtkLabel *label)
{
  gtk_label_set_text (label, text);
  g_print ("EVENT announced %s\n", text);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer data)
{
  int show, unit;
  gboolean joined;

  g_object_get (canvas, "show", &show, "unit", &unit, "joined", &joined, NULL);
  if (keyval == GDK_KEY_t)
    odd_canvas_take_scrap (ODD_CANVAS (canvas), first_free + n_taken++ % 12, NULL);
  else if (keyval == GDK_KEY_v)
    g_object_set (canvas, "show", (show + 1) % 4, NULL);
  else if (keyval == GDK_KEY_u)
    g_object_set (canvas, "unit", (unit + 1) % 3, NULL);
  else if (keyval == GDK_KEY_j)
    g_object_set (canvas, "joined", !joined, NULL);
  else if (keyval == GDK_KEY_z)
    odd_document_undo (document);
  else
    return FALSE;
  return TRUE;
}

static void
add_style (const char *path)
{
  g_autoptr(GtkCssProvider) provider = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (provider, path);
  gtk_style_context_add_provider_for_display (gdk_display_get_default (), GTK_STYLE_PROVIDER (provider), GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

/* The program's own style, as AdwApplication would load it. */
static void
load_style (void)
{
  add_style ("/io/github/oddment/Oddment/style.css");
  if (adw_style_manager_get_dark (adw_style_manager_get_default ()))
    add_style ("/io/github/oddment/Oddment/style-dark.css");
}

/* A handle to drag the next free scrap from, as the tray would give it. */
static GdkContentProvider *
prepare_cb (GtkDragSource *source, double x, double y, gpointer data)
{
  GValue value = G_VALUE_INIT;

  g_value_init (&value, G_TYPE_UINT);
  g_value_set_uint (&value, first_free + n_taken++ % 12);
  return gdk_content_provider_new_for_value (&value);
}

static void
drag_begin_cb (GtkDragSource *source, GdkDrag *drag, gpointer data)
{
  gtk_drag_source_set_icon (source, GDK_PAINTABLE (gdk_paintable_new_empty (1, 1)), 0, 0);
}

/* The same as a drag within the window, during which keys stay in force. */
static void
hold_cb (GtkGestureDrag *gesture, double dx, double dy, GtkWidget *handle)
{
  double x, y;

  gtk_gesture_drag_get_start_point (gesture, &x, &y);
  gtk_widget_translate_coordinates (handle, canvas, x + dx, y + dy, &x, &y);
  if (y > 0)
    odd_canvas_hold_scrap (ODD_CANVAS (canvas), first_free + n_taken % 12, x, y,
                           (gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture)) & GDK_SHIFT_MASK) != 0);
}

static void
drop_cb (GtkGestureDrag *gesture, double dx, double dy, GtkWidget *handle)
{
  odd_canvas_drop_scrap (ODD_CANVAS (canvas));
  n_taken++;
}

static OddJob *
make_job (int argc, char **argv)
{
  const guint panels = argc > 1 ? (guint) atoi (argv[1]) : 4;
  OddJob *job = table_job_new_sewn (panels, argc > 2 ? (guint) atoi (argv[2]) : 3, argc > 3 ? (guint) atoi (argv[3]) : 11, 12, &first_free);

  if (job->textiles->len > 0)
    {
      g_autoptr(GError) error = NULL;
      OddJob *aimed = odd_job_set_target (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id, 1400, 1150, &error);

      odd_job_unref (job);
      job = aimed;
    }
  return job;
}

int
main (int argc, char **argv)
{
  g_autoptr(GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr(OddSelection) selection = NULL;
  GtkWidget *window, *box, *label, *handle, *hold;
  GtkEventController *controller;
  OddJob *job;

  adw_init ();
  if (g_getenv ("DARK") != NULL)
    adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_FORCE_DARK);
  load_style ();
  job = make_job (argc, argv);
  document = odd_document_new (job);
  odd_job_unref (job);
  selection = odd_selection_new (document);
  canvas = odd_canvas_new ();
  g_object_set (canvas, "document", document, "selection", selection, "joined", argc > 4, "hexpand", TRUE, "vexpand", TRUE, NULL);
  window = gtk_window_new ();
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  label = gtk_label_new ("");
  handle = gtk_label_new ("Drag the next scrap from here");
  hold = gtk_label_new ("or hold it from here");
  gtk_box_append (GTK_BOX (box), handle);
  gtk_box_append (GTK_BOX (box), hold);
  gtk_box_append (GTK_BOX (box), canvas);
  gtk_box_append (GTK_BOX (box), label);
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), g_getenv ("NARROW") != NULL ? 360 : 780, 760);
  g_signal_connect (canvas, "announced", G_CALLBACK (announced_cb), label);
  controller = gtk_event_controller_key_new ();
  g_signal_connect (controller, "key-pressed", G_CALLBACK (key_cb), NULL);
  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (window, controller);
  controller = GTK_EVENT_CONTROLLER (gtk_drag_source_new ());
  g_signal_connect (controller, "prepare", G_CALLBACK (prepare_cb), NULL);
  g_signal_connect (controller, "drag-begin", G_CALLBACK (drag_begin_cb), NULL);
  gtk_widget_add_controller (handle, controller);
  controller = GTK_EVENT_CONTROLLER (gtk_gesture_drag_new ());
  g_signal_connect (controller, "drag-update", G_CALLBACK (hold_cb), hold);
  g_signal_connect (controller, "drag-end", G_CALLBACK (drop_cb), hold);
  gtk_widget_add_controller (hold, controller);
  g_signal_connect_swapped (window, "destroy", G_CALLBACK (g_main_loop_quit), loop);
  gtk_window_present (GTK_WINDOW (window));
  gtk_widget_grab_focus (canvas);
  g_print ("EVENT ready\n");
  g_main_loop_run (loop);
  return 0;
}
