#include "config.h"

#include "geometry/convex.h"

#include <string.h>

#define LEAST_AREA_MM2 1e-6

/* Struct, corners and labels lie in one reference counted block. A region is filled in a block that may
 * be too large, then finish() drops what is no corner. */
static OddConvex *
alloc (guint capacity)
{
  OddConvex *self = g_atomic_rc_box_alloc (sizeof (OddConvex) + capacity * (sizeof (OddPoint) + sizeof (int)));

  self->n = 0;
  self->points = (OddPoint *) (self + 1);
  self->labels = (int *) (self->points + capacity);

  return self;
}

static inline void
append (OddConvex *self,
        OddPoint   p,
        int        label)
{
  self->points[self->n] = p;
  self->labels[self->n] = label;
  self->n++;
}

static inline guint
next (const OddConvex *self,
      guint            i)
{
  return i + 1 == self->n ? 0 : i + 1;
}

static inline guint
previous (const OddConvex *self,
          guint            i)
{
  return i == 0 ? self->n - 1 : i - 1;
}

static void
drop (OddConvex *self,
      guint      i)
{
  memmove (self->points + i, self->points + i + 1, (self->n - i - 1) * sizeof (OddPoint));
  memmove (self->labels + i, self->labels + i + 1, (self->n - i - 1) * sizeof (int));
  self->n--;
}

/* How far corner @i stands out over the line through its neighbours; negative where it is pushed in. */
static double
stand_out (const OddConvex *self,
           guint            i)
{
  const OddPoint a = self->points[previous (self, i)];
  const OddPoint b = self->points[next (self, i)];
  const double length = odd_point_distance (a, b);

  if (length <= ODD_TOLERANCE_MM)
    return odd_point_distance (a, self->points[i]);

  return odd_point_cross (odd_point_sub (self->points[i], a), odd_point_sub (b, a)) / length;
}

static gboolean
is_no_corner (const OddConvex *self,
              guint            i)
{
  const OddPoint p = self->points[i];
  const OddPoint q = self->points[next (self, i)];

  if (fabs (p.x - q.x) <= ODD_TOLERANCE_MM && fabs (p.y - q.y) <= ODD_TOLERANCE_MM
      && odd_point_distance (p, q) <= ODD_TOLERANCE_MM)
    return TRUE;

  return self->labels[previous (self, i)] == self->labels[i]
         && fabs (stand_out (self, i)) <= ODD_TOLERANCE_MM;
}

/* Takes a filled block, hands back the region or NULL. Dropping a corner with the label of the edge that
 * starts there hands its length to the edge before. */
static OddConvex *
finish (OddConvex *self)
{
  guint i = 0;
  guint kept_in_a_row = 0;

  while (self->n >= 3 && kept_in_a_row < self->n)
    {
      if (is_no_corner (self, i))
        {
          drop (self, i);
          i = i == 0 ? self->n - 1 : i - 1;    /* its neighbour may be straight now */
          kept_in_a_row = 0;
        }
      else
        {
          i = next (self, i);
          kept_in_a_row++;
        }
    }

  if (self->n < 3 || odd_ring_area (self->points, self->n) < LEAST_AREA_MM2)
    g_clear_pointer (&self, odd_convex_unref);

  return self;
}

/* Every corner stands out, and the edges turn once round: a star turns twice. */
static gboolean
is_convex (const OddConvex *self)
{
  double turned = 0.0;

  for (guint i = 0; i < self->n; i++)
    {
      const OddPoint p = self->points[i];
      const OddPoint before = odd_point_sub (p, self->points[previous (self, i)]);
      const OddPoint after = odd_point_sub (self->points[next (self, i)], p);

      if (stand_out (self, i) < -ODD_TOLERANCE_MM)
        return FALSE;
      turned += atan2 (odd_point_cross (before, after), odd_point_dot (before, after));
    }

  return fabs (turned - 2.0 * G_PI) < 1.0;
}

static gboolean
all_finite (const OddPoint *points,
            guint           n)
{
  for (guint i = 0; i < n; i++)
    if (!isfinite (points[i].x) || !isfinite (points[i].y))
      return FALSE;

  return TRUE;
}

OddConvex *
odd_convex_new (const OddPoint *points,
                const int      *labels,
                guint           n)
{
  OddConvex *self;

  g_return_val_if_fail (n == 0 || (points != NULL && labels != NULL), NULL);

  if (n < 3 || !all_finite (points, n))
    return NULL;

  self = alloc (n);
  if (odd_ring_area (points, n) >= 0.0)
    for (guint i = 0; i < n; i++)
      append (self, points[i], labels[i]);
  else
    for (guint i = n; i-- > 0;)
      append (self, points[i], labels[i == 0 ? n - 1 : i - 1]);

  self = finish (self);
  if (self != NULL && !is_convex (self))
    g_clear_pointer (&self, odd_convex_unref);

  return self;
}

OddConvex *
odd_convex_new_rectangle (OddBox    box,
                          const int labels[4])
{
  const OddPoint corners[] = {
    { box.x, box.y },
    { box.x + box.width, box.y },
    { box.x + box.width, box.y + box.height },
    { box.x, box.y + box.height },
  };

  if (odd_box_is_empty (box))
    return NULL;

  return odd_convex_new (corners, labels, 4);
}

OddConvex *
odd_convex_ref (OddConvex *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
odd_convex_unref (OddConvex *self)
{
  g_atomic_rc_box_release (self);
}

/* Where the edge a -> b crosses the border; the same bits from either side of the line. */
static OddPoint
crossing (OddPoint a,
          OddPoint b,
          double   a_outside,
          double   b_outside)
{
  return odd_point_lerp (a, b, a_outside / (a_outside - b_outside));
}

/* -1 inside, 0 on the border, 1 outside */
static inline int
side_of (double outside)
{
  return (outside > ODD_TOLERANCE_MM) - (outside < -ODD_TOLERANCE_MM);
}

/* Nothing is cut off: the region itself, or a copy where an edge takes the new label. */
static OddConvex *
relabel (OddConvex   *self,
         OddHalfPlane border,
         int          label)
{
  OddConvex *copy;
  gboolean changed = FALSE;

  copy = alloc (self->n);
  for (guint i = 0; i < self->n; i++)
    {
      const gboolean lies_on = side_of (odd_half_plane_distance (border, self->points[i])) == 0
                               && side_of (odd_half_plane_distance (border, self->points[next (self, i)])) == 0;

      append (copy, self->points[i], lies_on ? label : self->labels[i]);
      changed = changed || copy->labels[i] != self->labels[i];
    }

  if (changed)
    return finish (copy);

  odd_convex_unref (copy);
  return odd_convex_ref (self);
}

/* The border's side of each corner, so that a clip asks for it once. */
static int
most_outside (const OddConvex *self,
              OddHalfPlane     keep,
              int             *out_least)
{
  int most = -1;
  int least = 1;

  for (guint i = 0; i < self->n; i++)
    {
      const int side = side_of (odd_half_plane_distance (keep, self->points[i]));

      most = MAX (most, side);
      least = MIN (least, side);
    }
  *out_least = least;

  return most;
}

OddConvex *
odd_convex_clip (OddConvex   *self,
                 OddHalfPlane keep,
                 int          label)
{
  OddConvex *part;
  int least;

  g_return_val_if_fail (self != NULL, NULL);

  if (most_outside (self, keep, &least) <= 0)
    return relabel (self, keep, label);
  if (least >= 0)
    return NULL;

  part = alloc (self->n + 1);
  for (guint i = 0; i < self->n; i++)
    {
      const OddPoint a = self->points[i];
      const OddPoint b = self->points[next (self, i)];
      const double a_outside = odd_half_plane_distance (keep, a);
      const double b_outside = odd_half_plane_distance (keep, b);
      const int a_side = side_of (a_outside);
      const int b_side = side_of (b_outside);

      if (a_side <= 0)
        append (part, a, a_side == 0 && b_side >= 0 ? label : self->labels[i]);
      if (a_side * b_side < 0)
        append (part, crossing (a, b, a_outside, b_outside), a_side < 0 ? label : self->labels[i]);
    }

  return finish (part);
}

OddConvex *
odd_convex_place (OddConvex          *self,
                  const OddPlacement *placement)
{
  OddConvex *placed;

  g_return_val_if_fail (self != NULL && placement != NULL, NULL);

  placed = alloc (self->n);
  for (guint k = 0; k < self->n; k++)
    {
      /* A mirror turns the ring round. */
      const guint i = placement->mirror ? self->n - 1 - k : k;
      const guint edge = placement->mirror ? previous (self, i) : i;

      append (placed, odd_placement_apply (placement, self->points[i]), self->labels[edge]);
    }

  return placed;
}

OddConvex *
odd_convex_shift (OddConvex *self,
                  OddPoint   by)
{
  const OddPlacement placement = { 0.0, FALSE, by };

  return odd_convex_place (self, &placement);
}

OddHalfPlane
odd_convex_edge_half_plane (const OddConvex *self,
                            guint            edge)
{
  const OddSegment s = odd_convex_edge (self, edge);

  return odd_half_plane_from_edge (s.from, s.to);
}

OddSegment
odd_convex_edge (const OddConvex *self,
                 guint            edge)
{
  g_return_val_if_fail (edge < self->n, ((OddSegment) { { 0.0, 0.0 }, { 0.0, 0.0 } }));

  return (OddSegment) { self->points[edge], self->points[next (self, edge)] };
}

double
odd_convex_area (const OddConvex *self)
{
  return odd_ring_area (self->points, self->n);
}

double
odd_convex_perimeter (const OddConvex *self)
{
  double length = 0.0;

  for (guint i = 0; i < self->n; i++)
    length += odd_segment_length (odd_convex_edge (self, i));

  return length;
}

/* Mean of the centroids of a fan of triangles, weighed by area. */
OddPoint
odd_convex_centroid (const OddConvex *self)
{
  const OddPoint origin = self->points[0];
  OddPoint sum = { 0.0, 0.0 };
  double twice = 0.0;

  for (guint i = 1; i + 1 < self->n; i++)
    {
      const OddPoint a = odd_point_sub (self->points[i], origin);
      const OddPoint b = odd_point_sub (self->points[i + 1], origin);
      const double weight = odd_point_cross (a, b);

      sum = odd_point_add (sum, odd_point_scale (odd_point_add (a, b), weight / 3.0));
      twice += weight;
    }

  return odd_point_add (origin, odd_point_scale (sum, 1.0 / twice));
}

OddBox
odd_convex_box (const OddConvex *self)
{
  return odd_box_from_points (self->points, self->n);
}

gboolean
odd_convex_contains (const OddConvex *self,
                     OddPoint         p,
                     double           tolerance_mm)
{
  for (guint i = 0; i < self->n; i++)
    {
      const OddPoint a = self->points[i];
      const OddPoint along = odd_point_sub (self->points[next (self, i)], a);
      const double inside = odd_point_cross (along, odd_point_sub (p, a));

      if (inside < 0.0 && -inside > tolerance_mm * hypot (along.x, along.y))
        return FALSE;
    }

  return TRUE;
}

static gboolean
equal_from (const OddConvex *a,
            const OddConvex *b,
            guint            start,
            double           tolerance_mm)
{
  for (guint i = 0; i < a->n; i++)
    if (odd_point_distance (a->points[i], b->points[(i + start) % b->n]) > tolerance_mm)
      return FALSE;

  return TRUE;
}

gboolean
odd_convex_equal (const OddConvex *a,
                  const OddConvex *b,
                  double           tolerance_mm)
{
  if (a->n != b->n)
    return FALSE;

  for (guint start = 0; start < b->n; start++)
    if (equal_from (a, b, start, tolerance_mm))
      return TRUE;

  return FALSE;
}

/* The narrowest pair of lines has one that lies along an edge (Toussaint, rotating callipers, 1983; from memory). */
double
odd_convex_min_width (const OddConvex *self)
{
  double least = G_MAXDOUBLE;
  guint far = 1;

  for (guint i = 0; i < self->n; i++)
    {
      const OddHalfPlane h = odd_convex_edge_half_plane (self, i);

      while (odd_half_plane_distance (h, self->points[next (self, far)])
             < odd_half_plane_distance (h, self->points[far]))
        far = next (self, far);
      least = MIN (least, -odd_half_plane_distance (h, self->points[far]));
    }

  return least;
}

double
odd_convex_support (const OddConvex *self,
                    OddPoint         normal)
{
  double most = -G_MAXDOUBLE;

  for (guint i = 0; i < self->n; i++)
    most = MAX (most, odd_point_dot (normal, self->points[i]));

  return most;
}

gboolean
odd_convex_chord (const OddConvex *self,
                  OddHalfPlane     line,
                  OddSegment      *out)
{
  guint from_edge, to_edge;

  return odd_convex_chord_edges (self, line, out, &from_edge, &to_edge);
}

/* One end of the chord: where the ring, walked in its direction, comes to the line from the side @from_side
 * and leaves it to the other. */
static void
find_end (const OddConvex *self,
          OddHalfPlane     line,
          int              from_side,
          OddPoint        *out,
          guint           *out_edge)
{
  for (guint i = 0; i < self->n; i++)
    {
      const OddPoint a = self->points[i];
      const OddPoint b = self->points[next (self, i)];
      const double a_outside = odd_half_plane_distance (line, a);
      const double b_outside = odd_half_plane_distance (line, b);
      const int a_side = side_of (a_outside);
      const int b_side = side_of (b_outside);

      if (b_side != -from_side || a_side == b_side)
        continue;

      *out = a_side == 0 ? a : crossing (a, b, a_outside, b_outside);
      *out_edge = i;
      return;
    }
}

gboolean
odd_convex_chord_edges (const OddConvex *self,
                        OddHalfPlane     line,
                        OddSegment      *out,
                        guint           *out_from_edge,
                        guint           *out_to_edge)
{
  int least;

  if (most_outside (self, line, &least) <= 0 || least >= 0)
    return FALSE;

  /* Walking a positive ring, the kept side is left at the end of the chord and entered at its start. */
  find_end (self, line, 1, &out->from, out_from_edge);
  find_end (self, line, -1, &out->to, out_to_edge);

  return TRUE;
}
