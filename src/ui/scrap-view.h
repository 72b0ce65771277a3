/* One scrap, large enough to work on: its cutting plan, and a zone being drawn on it. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/job.h"
#include "cloth/length.h"
#include "piecing/gives.h"

G_BEGIN_DECLS

#define ODD_TYPE_SCRAP_VIEW (odd_scrap_view_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapView, odd_scrap_view, ODD, SCRAP_VIEW, GtkWidget)

typedef enum { ODD_DRAW_NOTHING, ODD_DRAW_RECTANGLE, ODD_DRAW_FREEHAND } OddDraw;

/* Signals:
 *   drawn (OddPolygon *): by pointer or arrow keys; in the scrap's frame as it lies on the table
 *   accepted (): Enter */
GtkWidget *odd_scrap_view_new (void);
/* Shows the scrap as it will be sewn; where it is still to shrink, its outline of now as a broken line round it. NULL: nothing. */
void odd_scrap_view_show (OddScrapView *self, OddJob *job, OddScrap *scrap, OddUnit unit);
/* What it gives is drawn on it; NULL: nothing of the kind. */
void odd_scrap_view_set_gives (OddScrapView *self, OddGives *gives);
/* What a drag draws; at first nothing. */
void odd_scrap_view_set_draw (OddScrapView *self, OddDraw draw);
/* The zone being drawn, as it lies on the table; NULL: none. Nothing is emitted. */
void odd_scrap_view_set_zone (OddScrapView *self, OddPolygon *zone);
/* Least room it asks for, px. */
void odd_scrap_view_set_least (OddScrapView *self, int width, int height);
/* Where a point of the scrap as it lies on the table is seen, and back; for tests and for those who draw over it. */
OddPoint odd_scrap_view_to_px (OddScrapView *self, OddPoint mm);
OddPoint odd_scrap_view_to_mm (OddScrapView *self, OddPoint px);

G_END_DECLS
