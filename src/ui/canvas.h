/*
 * The sewing table: pan, zoom, cloth in tiles, what is selected, what is in the hand.
 *
 * Properties:
 *   document (OddDocument), selection (OddSelection)
 *   textile-id (guint): which textile is on the table; 0: the job's first
 *   joined (gboolean): FALSE panels apart with a gap, as while piecing; TRUE joined edge to edge, with the target's outline, as in Textile
 *   show (int OddShow), unit (int OddUnit)
 *   zoom (double, px per mm; read only, notify)
 *   in-hand (guint: scrap id in the hand, or 0; read only, notify)
 *   place (pointer const OddPlace *: the place shown now, or NULL; read only, notify), n-places, place-index (guint; read only, notify)
 *   refusal (string: why nothing fits, or NULL; read only, notify)
 * Signals:
 *   scrap-dropped (guint leaf): a scrap was sewn on
 *   announced (const char *text): worth a toast: "Trimmed. One offcut of 7 × 9 cm came back"; also what keyboard and screen reader must hear
 *   activated (): Enter or a second click on what is selected: show its pane
 * A GtkDropTarget takes G_TYPE_UINT: the id of a free scrap. While the desktop drags, no key reaches the window; a drag within the window
 * (a gesture, and odd_canvas_hold_scrap() for each of its moves) leaves Tab, R and E in force.
 * Colours are looked up in the style: table_color, accent_color.
 */
#pragma once

#include <gtk/gtk.h>
#include "drawing/painter.h"
#include "piecing/snap.h"
#include "ui/selection.h"
#include "sewing/unfinished.h"
#include "ui/work-layer.h"

G_BEGIN_DECLS

#define ODD_TYPE_CANVAS (odd_canvas_get_type ())
G_DECLARE_FINAL_TYPE (OddCanvas, odd_canvas, ODD, CANVAS, GtkWidget)

GtkWidget *odd_canvas_new (void);
/* From the tray or by key: takes a free scrap into the hand, the keyboard with it, and shows the first place at @target (NULL: the most likely open edge). */
void odd_canvas_take_scrap (OddCanvas *self, OddId scrap_id, const OddTarget *target);
/* By pointer, for a drag within the window: the middle of the scrap is held at @x, @y of the canvas, which takes the keyboard; @keep_angle: Shift is down. */
void odd_canvas_hold_scrap (OddCanvas *self, OddId scrap_id, double x, double y, gboolean keep_angle);
/* The pointer let go: sews on what is shown (TRUE), or puts the scrap back and tells why. */
gboolean odd_canvas_drop_scrap (OddCanvas *self);
void odd_canvas_next_place (OddCanvas *self, int step);        /* Tab, Shift+Tab */
void odd_canvas_next_target (OddCanvas *self, int step);       /* E, Shift+E: next open edge, bare region, new panel */
void odd_canvas_turn_in_hand (OddCanvas *self, double by_deg); /* R, Shift+R */
void odd_canvas_sew_on (OddCanvas *self);                      /* Enter: does what is shown */
void odd_canvas_put_back (OddCanvas *self);                    /* Escape */
void odd_canvas_fit (OddCanvas *self, gboolean animate);       /* 0 */
void odd_canvas_true_size (OddCanvas *self);                   /* 1 */
/* px per mm at which cloth is shown as large as it is; @out_known (nullable): FALSE when the screen does not tell its size and 96 px to the inch stand in. */
double odd_canvas_get_true_zoom (OddCanvas *self, gboolean *out_known);
void odd_canvas_zoom_by (OddCanvas *self, double factor);      /* about the middle; + and - */
void odd_canvas_reveal (OddCanvas *self, OddSelected kind, OddId id);
/* What lies at this stop of the order of work, ringed; copied. 0: nothing is. */
void odd_canvas_set_work (OddCanvas *self, const OddWorkMark *marks, guint n_marks);
/* A map of the layers of cloth where seams cross, over the cloth. */
void odd_canvas_set_bulk (OddCanvas *self, gboolean bulk);
gboolean odd_canvas_get_bulk (OddCanvas *self);
/* Only the seams that want this, the cloth dimmed; ODD_UNFINISHED_NOTHING: the cloth as it is. */
void odd_canvas_set_unfinished (OddCanvas *self, OddUnfinishedKind kind);
OddUnfinishedKind odd_canvas_get_unfinished (OddCanvas *self);
/* Edits of what is selected, as the keys do them; FALSE when there is nothing to do, the reason announced. */
gboolean odd_canvas_make_bare (OddCanvas *self);               /* Delete: the selected patch */
gboolean odd_canvas_take_off_last (OddCanvas *self);           /* Backspace: the last seam of the selected panel, or of the last one */
gboolean odd_canvas_move_panel (OddCanvas *self, int step);    /* Alt+Left, Alt+Right: the selected panel among its neighbours */
gboolean odd_canvas_begin_swap (OddCanvas *self);              /* W: the selected patch with the one chosen next */
gboolean odd_canvas_begin_cut (OddCanvas *self);               /* X: a line through the selected patch */
/* F, Shift+F: the free end of the selected panel, as seen; leaning by at most so much, or square for 0 */
gboolean odd_canvas_straighten (OddCanvas *self, gboolean upper, double most_tilt_deg);
gboolean odd_canvas_toggle_lock (OddCanvas *self);             /* L: patch, strip of the seam, panel */
gboolean odd_canvas_replace (OddCanvas *self, OddId leaf_id, OddId scrap_id);

G_END_DECLS
