#include "config.h"

#include "ui/figure-cells.h"

#include <glib/gi18n.h>

static void
figure_free (gpointer data)
{
  OddFigure *figure = data;

  g_free (figure->value);
  g_free (figure->title);
  g_free (figure->hint);
  g_free (figure);
}

GPtrArray *
odd_figure_list_new (void)
{
  return g_ptr_array_new_with_free_func (figure_free);
}

void
odd_figure_list_add (GPtrArray  *figures,
                     char       *value,
                     const char *title,
                     const char *hint)
{
  OddFigure *figure = g_new0 (OddFigure, 1);

  figure->value = value;
  figure->title = g_strdup (title);
  figure->hint = g_strdup (hint);
  g_ptr_array_add (figures, figure);
}

static GtkWidget *
cell_new (const OddFigure *figure)
{
  GtkWidget *cell = gtk_flow_box_child_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *value = gtk_label_new (figure->value);
  GtkWidget *title = gtk_label_new (figure->title);

  gtk_widget_add_css_class (value, "figure");
  gtk_widget_add_css_class (title, "second");
  gtk_label_set_xalign (GTK_LABEL (value), 0.0);
  gtk_label_set_xalign (GTK_LABEL (title), 0.0);
  gtk_label_set_wrap (GTK_LABEL (title), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (title), 18);
  gtk_box_append (GTK_BOX (box), value);
  gtk_box_append (GTK_BOX (box), title);
  if (figure->hint != NULL)
    gtk_widget_set_tooltip_text (box, figure->hint);
  gtk_widget_set_focusable (cell, FALSE);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (cell), box);
  return cell;
}

void
odd_figure_list_show (GPtrArray  *figures,
                      GtkFlowBox *box)
{
  GtkFlowBoxChild *cell;

  while ((cell = gtk_flow_box_get_child_at_index (box, 0)) != NULL)
    gtk_flow_box_remove (box, GTK_WIDGET (cell));
  for (guint i = 0; i < figures->len; i++)
    gtk_flow_box_append (box, cell_new (figures->pdata[i]));
}

char *
odd_figure_dup_count (guint n)
{
  return n > 0 ? g_strdup_printf ("%u", n) : g_strdup (_("none"));
}

char *
odd_figure_dup_percent (double share)
{
  return g_strdup_printf (_("%.0f %%"), 100.0 * share);
}
