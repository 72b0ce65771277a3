/* Cuts a pieced scrap across: a line laid by the pointer on its picture, or by distance and tilt. */
#pragma once

#include "cloth/document.h"
#include "ui/selection.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The line across a scrap's box: at @distance_mm from its upper (left) edge, measured in the middle of the box, tilted from level (upright), degrees. */
typedef struct
{
  gboolean upright;
  double distance_mm;
  double tilt_deg;
} OddCutLine;

/* Scrap's frame; kept side: above (to the left). */
OddHalfPlane odd_cut_line_to_half_plane (const OddCutLine *self, OddBox box);
/* The line through two points, as level or upright as it comes out. FALSE when they are one point. */
gboolean odd_cut_line_through (OddCutLine *self, OddBox box, OddPoint a, OddPoint b);

void odd_piece_cut_dialog_present (GtkWidget *from, OddDocument *document, OddSelection *selection, OddId scrap_id, int unit);

G_END_DECLS
