/* Figures with what they mean below them, side by side as far as there is room. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct
{
  char *value;                /* "63 %" */
  char *title;                /* "of the cloth used shows" */
  char *hint;                 /* a sentence more, or NULL */
} OddFigure;

/* (transfer full) (element-type OddFigure) */
GPtrArray *odd_figure_list_new (void);
/* Takes @value; copies the others. */
void odd_figure_list_add (GPtrArray *figures, char *value, const char *title, const char *hint);
/* In the place of what the box holds. */
void odd_figure_list_show (GPtrArray *figures, GtkFlowBox *box);
/* "none" for 0. (transfer full) */
char *odd_figure_dup_count (guint n);
char *odd_figure_dup_percent (double share);

G_END_DECLS
