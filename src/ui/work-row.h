/* A task on the list for the sewing table: picture, number, which parts, tick. The chosen one is large. */
#pragma once

#include "ui/work-item.h"

G_BEGIN_DECLS

#define ODD_TYPE_WORK_ROW (odd_work_row_get_type ())
G_DECLARE_FINAL_TYPE (OddWorkRow, odd_work_row, ODD, WORK_ROW, GtkWidget)

/* Properties chosen, narrow (gboolean). Signal ticked (). */
GtkWidget *odd_work_row_new (void);
void odd_work_row_show (OddWorkRow *self, OddWorkItem *item, OddUnit unit);
OddWorkItem *odd_work_row_get_item (OddWorkRow *self);          /* (transfer none) */

G_END_DECLS
