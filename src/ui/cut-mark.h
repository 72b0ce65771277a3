/* Marking what was cut at the table, and telling what came back of it. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/length.h"
#include "cloth/document.h"
#include "ui/selection.h"

G_BEGIN_DECLS

/* Each applies the edit to @document, or says why not; FALSE then. @from: any widget of the window, for the toast. */
gboolean odd_mark_patch_cut (GtkWidget *from, OddDocument *document, OddUnit unit, OddId leaf_id, gboolean cut);
gboolean odd_mark_scrap_cut_out (GtkWidget *from, OddDocument *document, OddUnit unit, OddId scrap_id, gboolean cut_out);
/* The patch or scrap that is selected: marks it, or takes the mark back. Anything else: says what to select. */
void odd_toggle_cut (GtkWidget *from, OddDocument *document, OddUnit unit, OddSelected kind, OddId id);

G_END_DECLS
