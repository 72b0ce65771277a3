/* The handles of the selected seam: in its middle to move it, near its ends to tilt it. Knows gestures and keys; the edit is
 * cloth/line-move. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

typedef struct _OddSeamHandles OddSeamHandles;

OddSeamHandles *odd_seam_handles_new (OddScene *scene);
void odd_seam_handles_free (OddSeamHandles *self);

/* Name of the cursor over the handle there; NULL: there is none. */
const char *odd_seam_handles_get_cursor (OddSeamHandles *self, OddPoint px);
gboolean odd_seam_handles_is_dragging (OddSeamHandles *self);
/* TRUE: a handle was taken hold of, or why it cannot be was told. */
gboolean odd_seam_handles_drag_begin (OddSeamHandles *self, OddPoint px);
void odd_seam_handles_drag_update (OddSeamHandles *self, OddPoint px);
void odd_seam_handles_drag_end (OddSeamHandles *self, OddPoint px, gboolean cancelled);
/* By key, as one step of undo however often: @dx, @dy of 1 or -1, as the seam is seen. */
void odd_seam_handles_nudge (OddSeamHandles *self, int dx, int dy, double by_mm);
void odd_seam_handles_tilt (OddSeamHandles *self, double by_deg);
void odd_seam_handles_snapshot (OddSeamHandles *self, GtkSnapshot *snapshot);

G_END_DECLS
