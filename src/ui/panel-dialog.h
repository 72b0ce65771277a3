/* A new bare panel: its width and length. */
#pragma once

#include <gtk/gtk.h>
#include "ui/selection.h"

G_BEGIN_DECLS

void odd_panel_dialog_present (GtkWidget *from, OddDocument *document, OddSelection *selection, OddId textile_id, int unit);

G_END_DECLS
