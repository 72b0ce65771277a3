/* Typing what was measured of a strip, panel or textile, and choosing what follows from it. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"
#include "ui/selection.h"

G_BEGIN_DECLS

/* @id: a strip, panel or textile */
void odd_measure_dialog_present (GtkWidget *from, OddDocument *document, OddId id, int unit);
/* What is measured when this is selected: the strip of a seam, the textile of a join, the panel of a patch; 0: nothing. */
OddId odd_measurable_of (OddJob *job, OddSelected kind, OddId id);
/* "14.1 mm", "0.56 in": finer than lengths are told elsewhere. (transfer full) */
char *odd_depth_format (double mm, int unit);

G_END_DECLS
