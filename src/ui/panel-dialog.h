/* A new bare panel: its width and length. */
#pragma once

#include <gtk/gtk.h>
#include "ui/selection.h"

G_BEGIN_DECLS

void odd_panel_dialog_present (GtkWidget *from, OddDocument *document, OddSelection *selection, OddId textile_id, int unit);

/* A loose bare panel round the one outline in a scrap list; it is selected. FALSE, and told, when the file is none. */
gboolean odd_panel_dialog_add_shape (GtkWidget *from, OddDocument *document, OddSelection *selection, const char *path, double margin_mm);

G_END_DECLS
