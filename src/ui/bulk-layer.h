/* How many layers of cloth lie on one another where seams cross, as a map on the canvas. */
#pragma once

#include "sewing/bulk.h"
#include "ui/scene.h"

G_BEGIN_DECLS

/* Thin, middling, thick: told by the mark's shape first (disc, lozenge, square), and by its colour. Limits are our choice. */
typedef enum { ODD_BULK_THIN, ODD_BULK_MIDDLING, ODD_BULK_THICK } OddBulk;
OddBulk odd_bulk_from_plies (guint plies);       /* to 5, to 9, above */

/* A wedge in the middle of each seam points to the side to which it is pressed, or is to be; two where it is open. Where there is room for them.
 * @pressings: (nullable) (element-type OddPressing) */
void odd_snapshot_pressings (const OddScene *scene, GtkSnapshot *snapshot, const GArray *pressings);
/* @crossings: (nullable) (element-type OddCrossing) */
void odd_snapshot_bulk (const OddScene *scene, GtkSnapshot *snapshot, const GArray *crossings);

G_END_DECLS
