/* What fits inside a simple polygon: strip sets, rectangles, convex shapes.
 *
 * Strip set: for a strip y0..y1 all x at which an upright line over the whole strip is cloth; exact for simple
 * polygons, with holes too. Take every corner level in the strip; between two levels the section is a set of trapezoids, each gives
 * [larger left end, smaller right end]; intersect over the levels. A tilted line is only a shear of x, and
 * containment survives a shear, so the same kernel answers diagonals (derived here).
 */
#pragma once

#include "geometry/polygon.h"

G_BEGIN_DECLS

typedef struct { double from, to; } OddInterval;          /* mm along x */

/* A polygon turned, mirrored and sheared once, its corner levels sorted: made once a candidate, asked often. It keeps
 * room to work in, so each thread makes its own. */
typedef struct _OddStrips OddStrips;
/* After the placement, x' = x - y * shear. */
OddStrips *odd_strips_new (OddPolygon *polygon, const OddPlacement *placement, double shear);
void odd_strips_free (OddStrips *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddStrips, odd_strips_free)
OddBox odd_strips_get_box (const OddStrips *self);
const double *odd_strips_get_levels (const OddStrips *self, guint *out_n);   /* corner levels, ascending, without repeats */
/* Intervals in ascending order; returns how many; at most @max are written. */
guint odd_strips_query (const OddStrips *self, double y0, double y1, OddInterval *out, guint max);
/* The longest interval of the strip; FALSE when there is none. */
gboolean odd_strips_widest (const OddStrips *self, double y0, double y1, OddInterval *out);
/* Highest channel of the width @width standing on level @y0 and lying in one interval: the largest y1 such that some x..x+width over y0..y1
 * is cloth. Returns y1 - y0, 0 when none. @out_x: left side of the interval found at that height. Bisection, 0.01 mm. */
double odd_strips_channel (const OddStrips *self, double y0, double width, OddInterval *out);

/* Largest-area axis-parallel rectangle inside the polygon, over the given turns of the polygon (degrees). Candidates for the lower and upper
 * side are corner levels and uniform levels; a lower bound of the true optimum, never outside.
 * @out_placement turn: that of the winner; @out_box in the turned frame. FALSE when the polygon holds none of at least @min_side_mm on both sides. */
gboolean odd_polygon_largest_rectangle (OddPolygon *self, const double *turns_deg, guint n_turns, double min_side_mm,
                                        double *out_turn_deg, OddBox *out_box);
/* Turns that lay an edge of the polygon (of at least @min_edge_mm) along x, with its quarter turns, sorted, in [0, 360), nearer than 0.05 degrees merged. (transfer full) GArray of double. */
GArray *odd_polygon_flush_turns (OddPolygon *self, double min_edge_mm);
/* Side of the largest square found inside, over the flush turns; mm. At least @enough_mm stops the search early (0: never). */
double odd_polygon_largest_square (OddPolygon *self, double enough_mm);

/* All translations t with convex + t inside polygon, tried over the maximal convex parts of the polygon (kept with the parts object).
 * Never a false fit; can miss some for non-convex cloth. */
typedef struct _OddConvexParts OddConvexParts;
OddConvexParts *odd_convex_parts_new (OddPolygon *polygon);
void odd_convex_parts_free (OddConvexParts *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddConvexParts, odd_convex_parts_free)
guint odd_convex_parts_get_n (const OddConvexParts *self);
OddConvex *odd_convex_parts_get (const OddConvexParts *self, guint i);       /* (transfer none) */
/* Some translation (the centroid of the feasible region of the part with the largest feasible region) of the convex shape given; FALSE when none found. */
gboolean odd_convex_parts_fit (const OddConvexParts *self, const OddConvex *shape, OddPoint *out_shift);

G_END_DECLS
