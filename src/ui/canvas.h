/* The sewing table: pan, zoom, tiles, what is in the hand. */
#pragma once

#include <gtk/gtk.h>
#include "drawing/painter.h"
#include "piecing/snap.h"
#include "ui/selection.h"

G_BEGIN_DECLS

#define ODD_TYPE_CANVAS (odd_canvas_get_type ())
G_DECLARE_FINAL_TYPE (OddCanvas, odd_canvas, ODD, CANVAS, GtkWidget)

/* Properties: document, selection, textile-id (guint: which textile is on the table), joined (gboolean: FALSE panels apart with a gap,
 * as while piecing; TRUE joined edge to edge, as in Textile), show (int OddShow), unit (int OddUnit), zoom (double px per mm),
 * in-hand (guint: scrap id in the hand, or 0; read only), place (pointer const OddPlace *: the place shown now, or NULL; read only, notify),
 * n-places, place-index (guint, read only), refusal (string: why nothing fits, or NULL; read only).
 * Signals: scrap-dropped (OddId leaf), raw-question (OddId seam): ask before sewing over a raw end. */
GtkWidget *odd_canvas_new (void);
/* From the tray or by key: takes a free scrap into the hand and shows the first place at @target (NULL: the most likely open edge). */
void odd_canvas_take_scrap (OddCanvas *self, OddId scrap_id, const OddTarget *target);
void odd_canvas_next_place (OddCanvas *self, int step);        /* Tab, Shift+Tab */
void odd_canvas_next_target (OddCanvas *self, int step);       /* next open edge, bare region, new panel */
void odd_canvas_turn_in_hand (OddCanvas *self, double by_deg);
void odd_canvas_sew_on (OddCanvas *self);                      /* Enter: does what is shown */
void odd_canvas_put_back (OddCanvas *self);                    /* Escape */
void odd_canvas_fit (OddCanvas *self, gboolean animate);
void odd_canvas_true_size (OddCanvas *self);
void odd_canvas_zoom_by (OddCanvas *self, double factor);
void odd_canvas_reveal (OddCanvas *self, OddSelected kind, OddId id);

G_END_DECLS
