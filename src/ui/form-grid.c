#include "config.h"

#include "ui/form-grid.h"

GtkWidget *
odd_form_grid_new (void)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  return grid;
}

static int
count_rows (GtkGrid *grid)
{
  int n = 0;

  while (gtk_grid_get_child_at (grid, 0, n) != NULL)
    n++;
  return n;
}

void
odd_form_grid_add (GtkGrid    *grid,
                   const char *title,
                   GtkWidget  *field)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (title);
  const int row = count_rows (grid);

  g_return_if_fail (GTK_IS_GRID (grid) && GTK_IS_WIDGET (field));

  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), field);
  gtk_widget_set_hexpand (field, TRUE);
  gtk_grid_attach (grid, label, 0, row, 1, 1);
  gtk_grid_attach (grid, field, 1, row, 1, 1);
}

GtkLabel *
odd_form_grid_add_complaint (GtkGrid *grid)
{
  GtkWidget *label = gtk_label_new (NULL);

  g_return_val_if_fail (GTK_IS_GRID (grid), NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "error");
  gtk_widget_set_visible (label, FALSE);
  gtk_grid_attach (grid, label, 0, count_rows (grid), 2, 1);
  return GTK_LABEL (label);
}

void
odd_complain (GtkLabel   *complaint,
              const char *text)
{
  g_return_if_fail (GTK_IS_LABEL (complaint));

  gtk_label_set_text (complaint, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (complaint), text != NULL);
}
