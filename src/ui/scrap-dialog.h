/* A new scrap by its two measures. */
#pragma once

#include <gtk/gtk.h>
#include "ui/selection.h"

G_BEGIN_DECLS

void odd_scrap_dialog_present (GtkWidget *from, OddDocument *document, OddSelection *selection, int unit);

G_END_DECLS
