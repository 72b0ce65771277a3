/* One scrap in the tray or in the list of all scraps: picture, size, and what else is known of it. */
#pragma once

#include "ui/cut-counter.h"
#include "ui/scrap-picture.h"
#include "ui/scrap-row.h"

G_BEGIN_DECLS

#define ODD_TYPE_SCRAP_ITEM (odd_scrap_item_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapItem, odd_scrap_item, ODD, SCRAP_ITEM, GtkWidget)

/* Properties: in-hand (guint: which scrap of the job is in the hand), unit (int), details (gboolean: number, fabric, state).
 * Signals: carried (guint scrap id, double x, double y, gboolean shift): a mouse drags it, x, y of the item; let-go (). */
GtkWidget *odd_scrap_item_new (gboolean details);
/* It tells what the scrap gives, too. */
void odd_scrap_item_set_counter (OddScrapItem *self, OddCutCounter *counter);
void odd_scrap_item_bind (OddScrapItem *self, OddThumbnails *thumbnails, OddJob *job, OddScrapRow *row);
void odd_scrap_item_unbind (OddScrapItem *self);

G_END_DECLS
