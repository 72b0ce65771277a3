/* The list of seam ends to secure, to work off beside the table. */
#pragma once

#include <adwaita.h>
#include "ui/selection.h"

G_BEGIN_DECLS

#define ODD_TYPE_WORK_ENDS (odd_work_ends_get_type ())
G_DECLARE_FINAL_TYPE (OddWorkEnds, odd_work_ends, ODD, WORK_ENDS, AdwWindow)

/* One a window: shown again when it is there already. @parent (nullable) has the
 * action win.locate. Of @textile_id, and of the pieced scraps that are not gone. */
OddWorkEnds *odd_work_ends_present (GtkWindow *parent, OddDocument *document, OddSelection *selection, OddId textile_id);
guint odd_work_ends_get_n_shown (OddWorkEnds *self);
/* Chooses the end at place @at of the list: it is shown on the table; and ticks it, or takes its tick off. FALSE where that is refused. */
void odd_work_ends_choose (OddWorkEnds *self, guint at);
gboolean odd_work_ends_tick (OddWorkEnds *self, guint at);

G_END_DECLS
