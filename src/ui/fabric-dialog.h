/* A fabric: what the scraps of one cloth have in common. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* @fabric_id 0: a new one. */
void odd_fabric_dialog_present (GtkWidget *from, OddDocument *document, OddId fabric_id, int unit);

G_END_DECLS
