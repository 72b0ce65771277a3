/* One step of a finish, to be changed: what, at which station, with which stitch, and in which words. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/finish.h"

G_BEGIN_DECLS

#define ODD_TYPE_OPERATION_ROW (odd_operation_row_get_type ())
G_DECLARE_FINAL_TYPE (OddOperationRow, odd_operation_row, ODD, OPERATION_ROW, GtkListBoxRow)

/* Signals: lift (): one place up; lower (): one place down; drop (): away with it. */
GtkWidget *odd_operation_row_new (const OddOperation *operation);
/* Strings are lent, until the row is changed. */
void odd_operation_row_read (OddOperationRow *self, OddOperation *out);

G_END_DECLS
