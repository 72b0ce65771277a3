/* Simple polygons with holes: a small face over GEOS' reentrant C interface.
 *
 * One GEOS context a thread, made on first use. Immutable, atomically reference counted; nothing is made
 * later, so threads share a polygon without a lock. Containment is our own, for it is asked most; sets are GEOS'.
 * Rings are stored open; outer ring positive, holes negative by the shoelace sum.
 */
#pragma once

#include "geometry/convex.h"

G_BEGIN_DECLS

typedef struct _OddPolygon OddPolygon;     /* one outer ring, any holes; valid by OGC simple features */

#define ODD_POLYGON_ERROR (odd_polygon_error_quark ())
GQuark odd_polygon_error_quark (void);
typedef enum
{
  ODD_POLYGON_ERROR_CORNERS,        /* fewer than 3 corners, or no area */
  ODD_POLYGON_ERROR_CROSSING,       /* crosses or touches itself; the message names the place in mm */
  ODD_POLYGON_ERROR_GEOS            /* GEOS failed; message from it */
} OddPolygonError;

/* Either direction is taken; repeated neighbours and a repeated closing corner are dropped. Otherwise the corners are kept as they are. */
OddPolygon *odd_polygon_new (const OddPoint *points, gsize n, GError **error);
/* holes: arrays of OddPoint (GArray), may be NULL */
OddPolygon *odd_polygon_new_with_holes (const OddPoint *points, gsize n, GPtrArray *holes, GError **error);
OddPolygon *odd_polygon_new_from_convex (const OddConvex *convex);
OddPolygon *odd_polygon_new_box (OddBox box);
OddPolygon *odd_polygon_ref (OddPolygon *self);
void odd_polygon_unref (OddPolygon *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddPolygon, odd_polygon_unref)

const OddPoint *odd_polygon_get_ring (OddPolygon *self, gsize *out_n);          /* (transfer none) */
guint odd_polygon_get_n_holes (OddPolygon *self);
const OddPoint *odd_polygon_get_hole (OddPolygon *self, guint i, gsize *out_n); /* (transfer none) */
guint odd_polygon_get_n_corners (OddPolygon *self);                             /* of all rings */

double odd_polygon_get_area (OddPolygon *self);                                 /* mm2, holes taken off */
double odd_polygon_get_perimeter (OddPolygon *self);                            /* mm, of all rings */
OddBox odd_polygon_get_box (OddPolygon *self);
OddPoint odd_polygon_get_inside_point (OddPolygon *self);                       /* somewhere in the cloth, for a label */
/* A point on the border counts. */
gboolean odd_polygon_contains_point (OddPolygon *self, OddPoint p);
/* Is the inner region inside this one, letting it stick out by at most @tolerance_mm? Each corner lies in the cloth or that
 * near to it, and no outline comes deeper into the region than that.
 * A tolerance below ODD_TOLERANCE_MM is taken as that. */
gboolean odd_polygon_contains_convex (OddPolygon *self, const OddConvex *inner, double tolerance_mm);
gboolean odd_polygon_contains (OddPolygon *self, OddPolygon *inner, double tolerance_mm);
/* Area of what of @inner lies outside, mm2. */
double odd_polygon_outside_area (OddPolygon *self, OddPolygon *inner);
gboolean odd_polygon_is_convex (OddPolygon *self);
OddPolygon *odd_polygon_place (OddPolygon *self, const OddPlacement *placement);
OddPolygon *odd_polygon_scale (OddPolygon *self, double kx, double ky);         /* about the origin; both > 0 */

/* Sets: each returns (transfer full) (element-type OddPolygon) an array, empty when nothing is left, ordered by
 * the topmost, then leftmost corner so that the same input gives the same order. Slivers under 0.01 mm2 are left out. */
GPtrArray *odd_polygon_intersection (OddPolygon *a, OddPolygon *b);
GPtrArray *odd_polygon_difference (OddPolygon *a, OddPolygon *b);
/* The same for a convex @b: some ten times quicker where @a has no holes and the borders cross, as when a patch is cut out of a
 * scrap. The cut is @b grown by 1e-4 mm. */
GPtrArray *odd_polygon_difference_convex (OddPolygon *a, const OddConvex *b);
GPtrArray *odd_polygon_difference_many (OddPolygon *a, OddPolygon *const *minus, guint n);
/* The shortest line from the opening to the outer edge, and what is left of the polygon when it is slit along it, 0.02 mm wide. */
OddSegment odd_polygon_find_slit (OddPolygon *self, guint hole);
GPtrArray *odd_polygon_cut_slit (OddPolygon *self, OddSegment line);
GPtrArray *odd_polygon_union (OddPolygon *const *polygons, guint n);
double odd_polygon_overlap_area (OddPolygon *a, OddPolygon *b);                 /* mm2 */
/* (transfer full) (element-type OddPolygon): what of the polygon lies in @keep, in the order of the line. Pieces that hang
 * together by one corner only may come as one; slivers are not left out. */
GPtrArray *odd_polygon_clip (OddPolygon *polygon, OddHalfPlane keep);
/* Everything at least @by_mm from the border, and what lies nearer than @by_mm; corners mitred up to 5 x @by_mm. */
GPtrArray *odd_polygon_shrink (OddPolygon *self, double by_mm);
GPtrArray *odd_polygon_grow (OddPolygon *self, double by_mm);

/* Fewer corners, never outside: shrink by tolerance, then Douglas-Peucker with the same tolerance; the largest piece.
 * Polygons of at most @enough corners come back as they are (same reference). NULL when nothing is left. */
OddPolygon *odd_polygon_simplify_inside (OddPolygon *self, double tolerance_mm, guint enough);
/* All labels 0. */
OddConvex *odd_polygon_convex_hull (OddPolygon *self);

G_END_DECLS
