/* A scrap on its own, to draw its holes, stains and the like on it. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

void odd_zone_dialog_present (GtkWidget *from, OddDocument *document, OddId scrap_id, int unit);

G_END_DECLS
