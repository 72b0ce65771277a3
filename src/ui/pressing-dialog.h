/* To which side seams are pressed: the rules beside each other, with the layers each leaves where seams cross. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* @textile_id: or 0: everything on the table */
void odd_pressing_dialog_present (GtkWidget *from, OddDocument *document, OddId textile_id);

G_END_DECLS
