/* One panel in the panel merger: order, half-turn, offset, and what is trimmed off it. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_MERGER_ROW (odd_merger_row_get_type ())
G_DECLARE_FINAL_TYPE (OddMergerRow, odd_merger_row, ODD, MERGER_ROW, GtkListBoxRow)

/* Signals: move (int to index), turn (), offset (double mm). Ctrl+Up and Ctrl+Down move too; the row can be dragged. */
GtkWidget *odd_merger_row_new (void);
void odd_merger_row_show (OddMergerRow *self, OddJob *job, OddTextileLayout *textile, guint index, OddUnit unit);
guint odd_merger_row_get_index (OddMergerRow *self);
OddId odd_merger_row_get_panel_id (OddMergerRow *self);

G_END_DECLS
