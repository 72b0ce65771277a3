/* The cut shape of a patch: its finished region with each edge pushed out by the allowance of its seam.
 *
 *        tip, cut square            Plain corners: the intersection of the pushed half-planes. A sharp tip is cut
 *           __                      square by one more half-plane, across the line from the finished corner to
 *          /  \                     the tip, at twice the larger of the two allowances. It is left alone where
 *         / /\ \                    such a cut would reach the finished region: two nearly straight edges with
 *        / /  \ \                   unequal allowances meet far off sideways, and that is no tip.
 *       / /____\ \
 *      /__________\
 *
 *    wide ______ W                  Two edges that are nearly flat: the pushed lines meet anywhere or nowhere.
 *         |     |'-.._              The region is parted by the line through the corner at right angles; the part of
 *         |     |_____''-.__        either edge forgets the other edge's line, so the wider strip holds up to the
 *         |_____c__________|        corner; the hull of both parts bridges the step.
 *            finished
 *
 * Where the region has several such corners, the parts are parted again.
 */
#include "config.h"

#include "geometry/convex.h"

#include <stdlib.h>

#define SQUARE_LABEL G_MININT
#define PARTING_LABEL (G_MININT + 1)     /* lines that are gone once the hull is taken */
#define FLAT_SINE 0.017452406437283512   /* of 1 degree */

typedef struct
{
  const OddConvex *region;
  const double *allowances;
  OddHalfPlane *planes;        /* the pushed edges, the square cuts, the parting lines */
  int *labels;
  guint n;
} CutShape;

static guint
edge_before (const OddConvex *region,
             guint            corner)
{
  return (corner + region->n - 1) % region->n;
}

static void
add_plane (CutShape    *self,
           OddHalfPlane plane,
           int          label)
{
  self->planes[self->n] = plane;
  self->labels[self->n] = label;
  self->n++;
}

static OddHalfPlane
pushed (const CutShape *self,
        guint           edge)
{
  return odd_half_plane_push (odd_convex_edge_half_plane (self->region, edge), self->allowances[edge]);
}

static gboolean
is_step (const CutShape *self,
         guint           corner)
{
  const guint before = edge_before (self->region, corner);
  const OddHalfPlane a = odd_convex_edge_half_plane (self->region, before);
  const OddHalfPlane b = odd_convex_edge_half_plane (self->region, corner);

  return odd_point_dot (a.normal, b.normal) > 0.0
         && odd_point_cross (a.normal, b.normal) < FLAT_SINE
         && fabs (self->allowances[before] - self->allowances[corner]) > ODD_TOLERANCE_MM;
}

static void
cut_tip_square (CutShape *self,
                guint     corner)
{
  const guint before = edge_before (self->region, corner);
  const OddPoint c = self->region->points[corner];
  const double farthest = 2.0 * MAX (self->allowances[before], self->allowances[corner]);
  const OddSegment in = odd_convex_edge (self->region, before);
  const OddSegment out = odd_convex_edge (self->region, corner);
  OddPoint tip, ahead;
  double distance;

  if (!odd_half_plane_meet (pushed (self, before), pushed (self, corner), &tip))
    return;

  distance = odd_point_distance (c, tip);
  if (distance <= farthest + ODD_TOLERANCE_MM)
    return;

  ahead = odd_point_scale (odd_point_sub (tip, c), 1.0 / distance);
  if (odd_point_dot (ahead, odd_point_sub (in.from, c)) > 0.0
      || odd_point_dot (ahead, odd_point_sub (out.to, c)) > 0.0)
    return;

  add_plane (self, (OddHalfPlane) { ahead, odd_point_dot (ahead, c) + farthest }, SQUARE_LABEL);
}

typedef struct
{
  OddPoint p;
  guint index;
} HullPoint;

static int
compare_hull_points (const void *a,
                     const void *b)
{
  const HullPoint *p = a;
  const HullPoint *q = b;

  if (p->p.x != q->p.x)
    return p->p.x < q->p.x ? -1 : 1;
  if (p->p.y != q->p.y)
    return p->p.y < q->p.y ? -1 : 1;

  return p->index < q->index ? -1 : 1;
}

/* Is @p no corner between the two that came before it and @q? */
static gboolean
turns_in (OddPoint a,
          OddPoint p,
          OddPoint q)
{
  return odd_point_cross (odd_point_sub (p, a), odd_point_sub (q, p))
         <= ODD_TOLERANCE_MM * odd_point_distance (a, q);
}

static guint
grow_chain (OddPoint *chain,
            guint     n,
            guint     least,
            OddPoint  p)
{
  while (n >= least + 2 && turns_in (chain[n - 2], chain[n - 1], p))
    n--;
  chain[n] = p;

  return n + 1;
}

/* Hull of the corners of both, positive ring; Andrew's monotone chain (1979; from memory). */
static guint
hull_points (const OddConvex *a,
             const OddConvex *b,
             OddPoint        *chain)
{
  const guint n = a->n + b->n;
  g_autofree HullPoint *sorted = g_new (HullPoint, n);
  guint n_chain = 0;
  guint n_lower;

  for (guint i = 0; i < n; i++)
    sorted[i] = (HullPoint) { i < a->n ? a->points[i] : b->points[i - a->n], i };
  qsort (sorted, n, sizeof (HullPoint), compare_hull_points);

  for (guint i = 0; i < n; i++)
    n_chain = grow_chain (chain, n_chain, 0, sorted[i].p);
  n_lower = n_chain - 1;
  for (guint i = n - 1; i-- > 0;)
    n_chain = grow_chain (chain, n_chain, n_lower, sorted[i].p);

  return n_chain - 1;     /* the last one is the first again */
}

/* The label of the edge of @part that lies on the line a -> b; FALSE when there is none. */
static gboolean
find_label (const OddConvex *part,
            OddPoint         a,
            OddPoint         b,
            int             *out_label)
{
  const OddHalfPlane line = odd_half_plane_from_edge (a, b);

  for (guint i = 0; i < part->n; i++)
    {
      const OddSegment s = odd_convex_edge (part, i);

      if (part->labels[i] != PARTING_LABEL
          && fabs (odd_half_plane_distance (line, s.from)) <= 2.0 * ODD_TOLERANCE_MM
          && fabs (odd_half_plane_distance (line, s.to)) <= 2.0 * ODD_TOLERANCE_MM)
        {
          *out_label = part->labels[i];
          return TRUE;
        }
    }

  return FALSE;
}

static OddConvex *
bridge (const OddConvex *a,
        const OddConvex *b,
        int              bridge_label)
{
  g_autofree OddPoint *points = g_new (OddPoint, 2 * (a->n + b->n) + 1);
  const guint n = hull_points (a, b, points);
  g_autofree int *labels = g_new (int, n);

  for (guint i = 0; i < n; i++)
    if (!find_label (a, points[i], points[(i + 1) % n], &labels[i])
        && !find_label (b, points[i], points[(i + 1) % n], &labels[i]))
      labels[i] = bridge_label;

  return odd_convex_new (points, labels, n);
}

static OddConvex *build (CutShape *self, guint corner);

/* The part on one side of the step at @corner, without the line of @forgotten. Its place is taken by the parting line,
 * unless a step before has taken it. */
static OddConvex *
build_part (CutShape    *self,
            guint        corner,
            guint        forgotten,
            OddHalfPlane side)
{
  const guint n = self->n;
  const guint place = self->labels[forgotten] == PARTING_LABEL ? n : forgotten;
  const OddHalfPlane saved_plane = self->planes[place];
  const int saved_label = self->labels[place];
  OddConvex *part;

  self->planes[place] = side;
  self->labels[place] = PARTING_LABEL;
  self->n = MAX (n, place + 1);
  part = build (self, corner + 1);
  self->planes[place] = saved_plane;
  self->labels[place] = saved_label;
  self->n = n;

  return part;
}

/* The shape between the lines as they stand, with the steps from @corner on. */
static OddConvex *
build (CutShape *self,
       guint     corner)
{
  g_autoptr(OddConvex) ahead = NULL;
  g_autoptr(OddConvex) behind = NULL;
  OddHalfPlane side;
  guint before;

  while (corner < self->region->n && !is_step (self, corner))
    corner++;
  if (corner == self->region->n)
    return odd_convex_new_from_half_planes (self->planes, self->labels, self->n);

  before = edge_before (self->region, corner);
  side.normal = odd_convex_edge_half_plane (self->region, corner).normal;
  side.normal = odd_point (-side.normal.y, side.normal.x);
  side.offset_mm = odd_point_dot (side.normal, self->region->points[corner]);

  behind = build_part (self, corner, corner, side);
  ahead = build_part (self, corner, before, odd_half_plane_flip (side));
  if (ahead == NULL || behind == NULL)
    return ahead != NULL ? g_steal_pointer (&ahead) : g_steal_pointer (&behind);

  return bridge (behind, ahead,
                 self->region->labels[self->allowances[before] < self->allowances[corner] ? before : corner]);
}

OddConvex *
odd_convex_cut_shape (OddConvex    *self,
                      const double *allowances_mm)
{
  g_autofree OddHalfPlane *planes = NULL;
  g_autofree int *labels = NULL;
  CutShape shape = { self, allowances_mm };

  g_return_val_if_fail (self != NULL && allowances_mm != NULL, NULL);

  shape.planes = planes = g_new0 (OddHalfPlane, 3 * self->n);
  shape.labels = labels = g_new0 (int, 3 * self->n);
  for (guint i = 0; i < self->n; i++)
    {
      g_return_val_if_fail (allowances_mm[i] >= 0.0, NULL);
      add_plane (&shape, pushed (&shape, i), self->labels[i]);
    }
  for (guint i = 0; i < self->n; i++)
    if (!is_step (&shape, i))
      cut_tip_square (&shape, i);

  return build (&shape, 0);
}
