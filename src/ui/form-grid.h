/* Named fields under one another, for a dialog's extra child. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *odd_form_grid_new (void);
/* One more row: @title with a mnemonic that leads to @field. */
void odd_form_grid_add (GtkGrid *grid, const char *title, GtkWidget *field);
/* A row over the whole width: what is wrong with what was typed, said aloud too. Hidden while it has no text. */
GtkLabel *odd_form_grid_add_complaint (GtkGrid *grid);
/* NULL: nothing is wrong. */
void odd_complain (GtkLabel *complaint, const char *text);

G_END_DECLS
