/* A convex region whose edges remember which line they lie on.
 *
 * The label of an edge is the caller's number for the seam or the outer edge
 * that made it; it survives clipping, so a patch knows which of its edges is
 * which seam. Immutable, atomically reference counted.
 */
#pragma once

#include "geometry/point.h"

G_BEGIN_DECLS

typedef struct _OddConvex OddConvex;

struct _OddConvex          /* read only */
{
  guint n;                 /* at least 3 */
  OddPoint *points;        /* positive ring, mm; no two neighbours nearer than the tolerance, no straight corner between two edges of one label */
  int *labels;             /* labels[i] belongs to the edge points[i] -> points[(i + 1) % n] */
};

/* Takes any positive or negative convex ring (a negative one is turned round, labels with it).
 * NULL when fewer than three corners remain, the area is below 1e-6 mm2, or it is not convex. */
OddConvex *odd_convex_new (const OddPoint *points, const int *labels, guint n);
OddConvex *odd_convex_new_rectangle (OddBox box, const int labels[4]);   /* labels: top, right, bottom, left */
/* The intersection of half-planes; labels[i] names planes[i]. NULL when empty, thinner than the tolerance, or unbounded. */
OddConvex *odd_convex_new_from_half_planes (const OddHalfPlane *planes, const int *labels, guint n);
OddConvex *odd_convex_ref (OddConvex *self);
void odd_convex_unref (OddConvex *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddConvex, odd_convex_unref)

/* What lies in the half-plane, the new edge labelled @label. An edge that already lies on the border keeps
 * its place and takes the new label. NULL when nothing of positive area is left. */
OddConvex *odd_convex_clip (OddConvex *self, OddHalfPlane keep, int label);
OddConvex *odd_convex_place (OddConvex *self, const OddPlacement *placement);
OddConvex *odd_convex_shift (OddConvex *self, OddPoint by);

OddHalfPlane odd_convex_edge_half_plane (const OddConvex *self, guint edge);
OddSegment odd_convex_edge (const OddConvex *self, guint edge);
double odd_convex_area (const OddConvex *self);                /* mm2 */
double odd_convex_perimeter (const OddConvex *self);
OddPoint odd_convex_centroid (const OddConvex *self);
OddBox odd_convex_box (const OddConvex *self);
gboolean odd_convex_contains (const OddConvex *self, OddPoint p, double tolerance_mm);
/* The same corners in the same order, from whichever corner; labels are not compared. */
gboolean odd_convex_equal (const OddConvex *a, const OddConvex *b, double tolerance_mm);
/* Least distance between two parallel lines that hold the region (rotating callipers); mm. */
double odd_convex_min_width (const OddConvex *self);
/* Support: the largest normal . p over the region. */
double odd_convex_support (const OddConvex *self, OddPoint normal);
/* The part of the line normal . p = offset inside the region; FALSE when it misses or only touches. */
gboolean odd_convex_chord (const OddConvex *self, OddHalfPlane line, OddSegment *out);
/* Like odd_convex_chord(), and the indices of the edges on which the two ends lie; the chord runs with the line's
 * direction (normal turned by -90 degrees: for normal (0, 1) from left to right). Through a corner: the edge that starts there. */
gboolean odd_convex_chord_edges (const OddConvex *self, OddHalfPlane line, OddSegment *out, guint *out_from_edge, guint *out_to_edge);

/*
 * odd_convex_cut_shape:
 * @allowances_mm: (array): one per edge of @self, at least 0
 *
 * The cut shape of a patch: each edge pushed out by its allowance, the corners
 * where the pushed edges meet; a tip farther than 2 x the larger of its two allowances
 * from its finished corner is cut square there (at right angles to the line from the finished corner to
 * the tip, at that distance); where two neighbouring edges are nearly flat (under 1 degree) and differ in
 * allowance, the wider strip holds up to the corner. Square cuts get the label G_MININT. Result is convex
 * save for the nearly flat case, where the step is bridged on the outside. Definition at length: cut-shape.c.
 */
OddConvex *odd_convex_cut_shape (OddConvex *self, const double *allowances_mm);

G_END_DECLS
