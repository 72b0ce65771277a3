/* Which scraps to fetch for what is not cut out yet, by the bag or tub they are in. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

void odd_pull_list_present (GtkWidget *from, OddDocument *document, OddId textile_id);

G_END_DECLS
