/* "Sewn over now, their edges stay raw inside for good": asked before a seam is marked sewn over ends that are not ready. */
#pragma once

#include <gtk/gtk.h>
#include "ui/selection.h"

G_BEGIN_DECLS

/* Marks the next operation of the seam done; asks first where that would enclose raw ends. "Finish first" selects the first of those seams. */
void odd_mark_next_asking (GtkWidget *from, OddDocument *document, OddSelection *selection, OddId seam_id);
/* The same for all operations up to and with @operation. */
void odd_mark_up_to_asking (GtkWidget *from, OddDocument *document, OddSelection *selection, OddId seam_id, guint operation);

G_END_DECLS
