/* Points, lines, boxes and placements: plain structs by value.
 *
 * Everywhere in Oddment: millimetres, x to the right, y down, so that a positive
 * turn goes from x towards y (clockwise on screen) and the shoelace sum of a
 * ring that is drawn clockwise on screen is positive.
 */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

/* Two lengths nearer than this are the same length. Below it lies the rounding
 * of sums of metres in double; above it nothing a pair of scissors can tell. */
#define ODD_TOLERANCE_MM 1e-6

typedef struct { double x, y; } OddPoint;                    /* mm */
typedef struct { OddPoint from, to; } OddSegment;            /* mm */
typedef struct { double x, y, width, height; } OddBox;       /* mm; width < 0: empty */

/* The points p with normal . p <= offset_mm; normal has length 1. Its border is
 * the line normal . p = offset_mm, the normal points out of the kept side. */
typedef struct { OddPoint normal; double offset_mm; } OddHalfPlane;

/* p' = turn (mirror (p)) + shift. mirror is x -> -x. */
typedef struct
{
  double turn_deg;
  gboolean mirror;
  OddPoint shift;
} OddPlacement;

#define ODD_PLACEMENT_IDENTITY ((OddPlacement) { 0.0, FALSE, { 0.0, 0.0 } })
#define ODD_BOX_EMPTY ((OddBox) { 0.0, 0.0, -1.0, -1.0 })

static inline OddPoint odd_point (double x, double y) { return (OddPoint) { x, y }; }
static inline OddPoint odd_point_add (OddPoint a, OddPoint b) { return odd_point (a.x + b.x, a.y + b.y); }
static inline OddPoint odd_point_sub (OddPoint a, OddPoint b) { return odd_point (a.x - b.x, a.y - b.y); }
static inline OddPoint odd_point_scale (OddPoint a, double k) { return odd_point (a.x * k, a.y * k); }
static inline double odd_point_dot (OddPoint a, OddPoint b) { return a.x * b.x + a.y * b.y; }
static inline double odd_point_cross (OddPoint a, OddPoint b) { return a.x * b.y - a.y * b.x; }
static inline double odd_point_distance (OddPoint a, OddPoint b) { return hypot (a.x - b.x, a.y - b.y); }
static inline OddPoint odd_point_lerp (OddPoint a, OddPoint b, double t) { return odd_point (a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t); }

/* Cosine and sine that are exact at every quarter turn, so that a panel turned
 * by 180 degrees lies on its own numbers. */
void odd_turn_cos_sin (double turn_deg, double *out_cos, double *out_sin);

/* How far p lies outside the half-plane, in mm; negative inside. */
static inline double odd_half_plane_distance (OddHalfPlane h, OddPoint p) { return odd_point_dot (h.normal, p) - h.offset_mm; }
static inline OddHalfPlane odd_half_plane_flip (OddHalfPlane h) { return (OddHalfPlane) { { -h.normal.x, -h.normal.y }, -h.offset_mm }; }
static inline OddHalfPlane odd_half_plane_push (OddHalfPlane h, double outward_mm) { h.offset_mm += outward_mm; return h; }

/* The half-plane to the inner side of the edge a -> b of a positive ring. */
OddHalfPlane odd_half_plane_from_edge (OddPoint a, OddPoint b);
OddHalfPlane odd_half_plane_shift (OddHalfPlane h, OddPoint by);
OddHalfPlane odd_half_plane_place (OddHalfPlane h, const OddPlacement *placement);
/* FALSE when the borders are parallel (within 1e-12 of the sine). */
gboolean odd_half_plane_meet (OddHalfPlane a, OddHalfPlane b, OddPoint *out);

OddPoint odd_placement_apply (const OddPlacement *self, OddPoint p);
OddPoint odd_placement_undo (const OddPlacement *self, OddPoint p);
/* First @inner, then @outer, as one placement. */
OddPlacement odd_placement_compose (const OddPlacement *outer, const OddPlacement *inner);
OddPlacement odd_placement_inverse (const OddPlacement *self);
/* Grain, in the scrap's frame, after placement; degrees in [0, 360). */
double odd_placement_apply_angle (const OddPlacement *self, double angle_deg);

static inline gboolean odd_box_is_empty (OddBox b) { return b.width < 0.0 || b.height < 0.0; }
OddBox odd_box_from_points (const OddPoint *points, gsize n);
OddBox odd_box_union (OddBox a, OddBox b);
OddBox odd_box_grow (OddBox b, double by_mm);
gboolean odd_box_meets (OddBox a, OddBox b);       /* touching counts */
gboolean odd_box_contains (OddBox b, OddPoint p);

double odd_segment_length (OddSegment s);
double odd_segment_distance (OddSegment s, OddPoint p);

/* Shoelace: positive for a ring that runs clockwise on screen; mm2. */
double odd_ring_area (const OddPoint *points, gsize n);

G_END_DECLS
