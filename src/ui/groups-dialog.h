/* "What goes together": fabrics against fabrics, the groups that come of it, and the limits. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

void odd_groups_dialog_present (GtkWidget *from, OddDocument *document, int unit);

G_END_DECLS
