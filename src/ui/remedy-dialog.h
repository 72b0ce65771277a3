/* Unequal panels: the four remedies beside each other, each with its price and its button. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

void odd_remedy_dialog_present (GtkWidget *from, OddDocument *document, OddId textile_id, int unit);

G_END_DECLS
