/* Pointer, fingers, wheel, keys and drops of the canvas, turned into pan, zoom and calls of the tool in use. */
#pragma once

#include "ui/canvas.h"
#include "ui/hand-tool.h"

G_BEGIN_DECLS

typedef struct _OddCanvasInput OddCanvasInput;

OddCanvasInput *odd_canvas_input_new (OddCanvas *canvas);      /* adds its controllers to the widget */
void odd_canvas_input_free (OddCanvasInput *self);
OddPoint odd_canvas_input_get_pointer (OddCanvasInput *self);  /* px, or NAN */

/* For this file and canvas.c only. */
OddTool *odd_canvas_get_tool (OddCanvas *self);
OddHandTool *odd_canvas_get_hand_tool (OddCanvas *self);
OddScene *odd_canvas_get_scene (OddCanvas *self);
void odd_canvas_zoom_at (OddCanvas *self, OddPoint px, double zoom);
void odd_canvas_pan_by (OddCanvas *self, double dx_px, double dy_px);
void odd_canvas_queue_update (OddCanvas *self);

G_END_DECLS
