/* What menus and buttons do to what stands on the table; the keys are the canvas' own. */
#include "config.h"

#include "ui/window-private.h"

/* Leaning farther, the rows sewn on next would lean with it. */
#define MOST_TILT_DEG 15.0

#define ACTION(name) \
  static void name (GtkWidget *widget, const char *action, GVariant *parameter)

/* The table must be seen where something is chosen or drawn on it. */
static OddCanvas *
show_table (GtkWidget *widget)
{
  OddWindow *self = ODD_WINDOW (widget);

  if (g_str_equal (self->stage, "scraps"))
    odd_window_set_stage (self, "piecing");
  odd_canvas_reveal (self->canvas, odd_selection_get_kind (self->selection), odd_selection_get_id (self->selection));
  return self->canvas;
}

ACTION (swap)
{
  odd_canvas_begin_swap (show_table (widget));
}

ACTION (cut_in_two)
{
  odd_canvas_begin_cut (show_table (widget));
}

ACTION (straighten)
{
  odd_canvas_straighten (ODD_WINDOW (widget)->canvas, FALSE, 0);
}

ACTION (straighten_upper)
{
  odd_canvas_straighten (ODD_WINDOW (widget)->canvas, TRUE, 0);
}

ACTION (lean)
{
  odd_canvas_straighten (ODD_WINDOW (widget)->canvas, FALSE, MOST_TILT_DEG);
}

ACTION (lock)
{
  odd_canvas_toggle_lock (ODD_WINDOW (widget)->canvas);
}

ACTION (replace)
{
  OddWindow *self = ODD_WINDOW (widget);
  guint32 leaf_id, scrap_id;

  g_variant_get (parameter, "(uu)", &leaf_id, &scrap_id);
  odd_canvas_replace (self->canvas, leaf_id, scrap_id);
}

void
odd_window_update_change_actions (OddWindow *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  const OddSelected kind = odd_selection_get_kind (self->selection);
  const gboolean in_panel = kind == ODD_SELECTED_PATCH || kind == ODD_SELECTED_SEAM || kind == ODD_SELECTED_PANEL;

  gtk_widget_action_set_enabled (widget, "win.swap", kind == ODD_SELECTED_PATCH);
  gtk_widget_action_set_enabled (widget, "win.cut-in-two", kind == ODD_SELECTED_PATCH);
  gtk_widget_action_set_enabled (widget, "win.straighten", in_panel);
  gtk_widget_action_set_enabled (widget, "win.straighten-upper", in_panel);
  gtk_widget_action_set_enabled (widget, "win.lean", in_panel);
  gtk_widget_action_set_enabled (widget, "win.lock", in_panel);
}

void
odd_window_install_change_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.swap", NULL, swap);
  gtk_widget_class_install_action (widget_class, "win.cut-in-two", NULL, cut_in_two);
  gtk_widget_class_install_action (widget_class, "win.straighten", NULL, straighten);
  gtk_widget_class_install_action (widget_class, "win.straighten-upper", NULL, straighten_upper);
  gtk_widget_class_install_action (widget_class, "win.lean", NULL, lean);
  gtk_widget_class_install_action (widget_class, "win.lock", NULL, lock);
  gtk_widget_class_install_action (widget_class, "win.replace", "(uu)", replace);
}
