/* What the canvas draws per frame beside cloth and tools: titles of panels, figures of what is shown, the place for a new one, words on an empty table. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

void odd_canvas_paint_titles (const OddScene *scene, GtkSnapshot *snapshot);
void odd_canvas_paint_new_panel (const OddScene *scene, GtkSnapshot *snapshot, gboolean in_hand);
void odd_canvas_paint_focus (const OddScene *scene, GtkSnapshot *snapshot);
/* At the bottom left, in as many lines as it needs. */
void odd_canvas_paint_note (const OddScene *scene, GtkSnapshot *snapshot, const char *text);
/* Where 0 of the rulers lies: the finished corner of the first panel, or of the textile. */
OddPoint odd_canvas_get_ruler_zero (const OddScene *scene);

G_END_DECLS
