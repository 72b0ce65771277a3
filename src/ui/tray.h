/* The tub: scraps in their true relative size, to take from. As the left pane, as the page of the stage Scraps, or as a strip below the canvas. */
#pragma once

#include <gtk/gtk.h>
#include "ui/scrap-model.h"
#include "ui/selection.h"

G_BEGIN_DECLS

#define ODD_TYPE_TRAY (odd_tray_get_type ())
G_DECLARE_FINAL_TYPE (OddTray, odd_tray, ODD, TRAY, GtkWidget)

/* Properties: document, selection, unit (int), in-hand (guint), manner (string, construct only: "pane", "page" or "strip").
 * Signals: take (guint scrap id): Enter or double click on a free scrap; carried (guint scrap id, double x, double y, gboolean shift): a mouse
 * drags a free scrap, now at x, y of the tray, mostly outside it; let-go (): and lets go of it. */
GtkWidget *odd_tray_new (const char *manner);
OddScrapModel *odd_tray_get_model (OddTray *self);      /* (transfer none) (nullable): NULL while there is no document */
void odd_tray_focus_search (OddTray *self);

G_END_DECLS
