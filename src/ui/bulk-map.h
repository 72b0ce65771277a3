/* The crossings of a job for the canvas: counted in a worker after each edit, the last ones shown meanwhile. */
#pragma once

#include <gtk/gtk.h>
#include "sewing/bulk.h"

G_BEGIN_DECLS

typedef struct _OddBulkMap OddBulkMap;

/* @widget: is drawn again when they are counted; not owned, must outlive the map */
OddBulkMap *odd_bulk_map_new (GtkWidget *widget);
void odd_bulk_map_free (OddBulkMap *self);
/* (transfer none) (nullable) (element-type OddCrossing): of this job, or while that is counted of the one before; NULL: none yet */
const GArray *odd_bulk_map_get (OddBulkMap *self, OddJob *job);
/* (transfer none) (nullable) (element-type OddPressing): with the crossings last given */
const GArray *odd_bulk_map_get_pressings (OddBulkMap *self);

G_END_DECLS
