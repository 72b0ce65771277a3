/* Patches with edges on the bias: from one to the next, and marked as stayed. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/length.h"
#include "ui/selection.h"

G_BEGIN_DECLS

/* Selects the next patch of all on the table that wants to be stayed, and says how many there are; says so when there is none. */
void odd_select_next_bias (GtkWidget *from, OddDocument *document, OddSelection *selection);
gboolean odd_mark_stayed (GtkWidget *from, OddDocument *document, OddId leaf_id, gboolean stayed);
/* "2 edges, 31 cm, up to 38° off the threads"; NULL where nothing of the patch is on the bias. @stayed edges are told too. (transfer full) */
char *odd_bias_dup_text (OddJob *job, const OddLayout *layout, const OddPatch *patch, OddUnit unit);

G_END_DECLS
