/* The order of work beside the sewing table: the stop she is at, task by task. */
#pragma once

#include "ui/pane.h"
#include "ui/work-layer.h"

G_BEGIN_DECLS

#define ODD_TYPE_WORK_PANE (odd_work_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddWorkPane, odd_work_pane, ODD, WORK_PANE, OddPane)

/* Property narrow (gboolean): small pictures, few stops. Signal marks-changed (): what lies at this stop is another than before. */
/* (transfer none) (element-type OddWorkMark) */
GArray *odd_work_pane_get_marks (OddWorkPane *self);
/* As the keys do: the chosen task is done; the last tick is taken back; FALSE when there is none. */
gboolean odd_work_pane_tick (OddWorkPane *self);
gboolean odd_work_pane_untick_last (OddWorkPane *self);
/* "3 of 9": done and all of this stop. */
void odd_work_pane_get_progress (OddWorkPane *self, guint *out_done, guint *out_all);

/* OddManner, as it is chosen above the list. */
int odd_work_pane_get_manner (OddWorkPane *self);
/* What she wants first: (transfer none) (element-type OddTaskKey) */
GArray *odd_work_pane_get_pins (OddWorkPane *self);

G_END_DECLS
