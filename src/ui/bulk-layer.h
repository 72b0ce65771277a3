/* How many layers of cloth lie on one another where seams cross, as a map on the canvas. */
#pragma once

#include "sewing/bulk.h"
#include "ui/scene.h"

G_BEGIN_DECLS

/* Thin, middling, thick: told by the mark's shape first (disc, lozenge, square), and by its colour. Limits are our choice. */
typedef enum { ODD_BULK_THIN, ODD_BULK_MIDDLING, ODD_BULK_THICK } OddBulk;
OddBulk odd_bulk_from_plies (guint plies);       /* to 5, to 9, above */

/* @crossings: (nullable) (element-type OddCrossing) */
void odd_snapshot_bulk (const OddScene *scene, GtkSnapshot *snapshot, const GArray *crossings);

G_END_DECLS
