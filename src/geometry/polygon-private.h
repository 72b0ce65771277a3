/* Shared by the files that make up OddPolygon; for geometry/ alone. */
#pragma once

#include "geometry/polygon.h"

#include <geos_c.h>

G_BEGIN_DECLS

/* Nothing in here is made later: threads share a polygon without a lock. GEOS' own geometries cache their
 * boxes without one, so they are made for each call and never shared. */
struct _OddPolygon
{
  OddPoint *points;        /* of all rings, one after the other; the outer ring first */
  guint *starts;           /* n_rings + 1: where each ring starts, and the end */
  guint n_rings;
  double area_mm2;
  OddBox box;
};

/* Rings while they are gathered. */
typedef struct
{
  GArray *points;
  GArray *starts;          /* the end of the last ring included */
} OddRings;

OddRings odd_rings_new (void);
void odd_rings_clear (OddRings *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OddRings, odd_rings_clear)
/* Leaves out repeated corners; FALSE, and nothing added, when fewer than three are left. */
gboolean odd_rings_add (OddRings *self, const OddPoint *points, gsize n);

/* Takes rings that are known to be valid; turns each to its right direction. */
OddPolygon *odd_polygon_new_from_rings (const OddRings *rings);

/* (transfer full) (nullable) @self with these shapes as openings; NULL where they do not all lie clear of its border and of one another, or
 * something has openings already. */
OddPolygon *odd_polygon_new_with_openings (OddPolygon *self, OddPolygon *const *openings, guint n);

/* This thread's GEOS context. */
GEOSContextHandle_t odd_geos_get (void);
const char *odd_geos_get_message (void);
GEOSGeometry *odd_geos_from_polygon (const OddPolygon *polygon);
/* The polygons of any geometry, sorted as polygon.h says, slivers left out; takes @geometry, which may be NULL after a
 * failure: then a critical message names it, and the array is empty. */
GPtrArray *odd_geos_take_polygons (GEOSGeometry *geometry);

G_END_DECLS
