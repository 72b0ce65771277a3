/* Asks before a seam is unpicked: what goes with it, why, and what cloth was lost. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* Says why not where the seam cannot be unpicked. @unit: OddUnit of what is shown and typed. */
void odd_unpick_dialog_present (GtkWidget *from, OddDocument *document, OddId seam_id, int unit);

G_END_DECLS
