/* One scrap's life as rows of a list. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/length.h"
#include "ui/selection.h"

G_BEGIN_DECLS

void odd_scrap_life_show (GtkListBox *list, OddJob *job, OddId scrap_id, OddUnit unit);
/* What a row is about, as far as it is still there. */
gboolean odd_scrap_life_find (GtkListBoxRow *row, OddJob *job, OddSelected *out_kind, OddId *out_id);

G_END_DECLS
