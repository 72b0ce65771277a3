/* Looking for widgets in a window under test. */
#pragma once

#include <adwaita.h>

static inline gboolean
holds_text (GtkWidget *widget, const char *text)
{
  GtkWidget *child;

  if (!gtk_widget_get_visible (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return TRUE;
  for (child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (holds_text (child, text))
      return TRUE;
  return FALSE;
}

/* By its label, or by its icon's name. */
static inline GtkWidget *
find_button (GtkWidget *widget, const char *text)
{
  GtkWidget *child, *found = NULL;

  if (GTK_IS_BUTTON (widget) && (g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), text) == 0 || g_strcmp0 (gtk_button_get_icon_name (GTK_BUTTON (widget)), text) == 0))
    return widget;
  for (child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_button (child, text);
  return found;
}

static inline GtkWidget *
find_type (GtkWidget *widget, GType type)
{
  GtkWidget *child, *found = NULL;

  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    return widget;
  for (child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

/* A window that is neither of the two; NULL: there is none. */
static inline GtkWidget *
newest_window (const GtkWidget *but, const GtkWidget *nor)
{
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWidget *found = NULL;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr(GtkWidget) window = g_list_model_get_item (windows, i);

      if (window != but && window != nor)
        found = window;
    }
  return found;
}
