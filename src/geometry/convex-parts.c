/* Where a convex shape can lie in a polygon: by the polygon's convex parts.
 *
 * A convex shape in the cloth passes each inward corner on one side of some line through it, a line that lies between
 * the two edges met there. A few such lines are tried at the deepest inward corner, the cloth is cut along each,
 * and what is left is cut again until it is convex. Parts overlap. Lines between those tried are not, so
 * a fit can be missed; one that is found is true. */
#include "config.h"

#include "geometry/polygon-private.h"
#include "geometry/inscribed.h"

#include <string.h>

#define N_LINES 4                /* at an inward corner, the two edges' own lines among them */
#define SHALLOW_MM 5.0           /* inward corners less deep than this get the edges' own lines only: the others gain less than that */
#define MOST_CLIPS 240           /* about 1 ms; an outline with more inward corners gives some of its larger parts only */
#define MANY_INWARD 10           /* beyond so many inward corners trying all lines comes to no end: */
#define FEW_CLIPS 12             /* some first cuts then, */
#define N_DESCENTS 6             /* and of what waits so much is cut down to one part each */
#define MOST_PARTS 64
#define N_STACK_CORNERS 64
#define LEAST_PART_MM2 100.0     /* a square centimetre: no patch is as small with its allowances */

struct _OddConvexParts
{
  GPtrArray *parts;              /* OddConvex, largest first */
};

typedef struct
{
  OddPoint corner;
  double depth_mm;
  double from_rad;               /* direction of the outward normals of the edges before and after */
  double turn_rad;               /* from the one to the other, negative */
} Inward;

static void
look_at_corner (OddPoint before,
                OddPoint corner,
                OddPoint after,
                Inward  *deepest)
{
  const OddPoint in = odd_point_sub (corner, before);
  const OddPoint out = odd_point_sub (after, corner);
  const double turn = odd_point_cross (in, out);
  double depth;

  if (turn >= 0.0)
    return;

  depth = -turn / MAX (odd_point_distance (before, after), ODD_TOLERANCE_MM);
  if (depth > deepest->depth_mm)
    *deepest = (Inward) { corner, depth, atan2 (-in.x, in.y), atan2 (turn, odd_point_dot (in, out)) };
}

static gboolean
find_deepest (OddPolygon *polygon,
              Inward     *deepest)
{
  *deepest = (Inward) { { 0.0, 0.0 }, ODD_TOLERANCE_MM, 0.0, 0.0 };
  for (guint r = 0; r < polygon->n_rings; r++)
    {
      const OddPoint *ring = polygon->points + polygon->starts[r];
      const guint n = polygon->starts[r + 1] - polygon->starts[r];

      for (guint i = 0; i < n; i++)
        look_at_corner (ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n], deepest);
    }

  return deepest->turn_rad < 0.0;
}

static guint
count_inward (OddPolygon *polygon)
{
  guint count = 0;

  for (guint r = 0; r < polygon->n_rings; r++)
    {
      const OddPoint *ring = polygon->points + polygon->starts[r];
      const guint n = polygon->starts[r + 1] - polygon->starts[r];

      for (guint i = 0; i < n; i++)
        {
          Inward inward = { { 0.0, 0.0 }, ODD_TOLERANCE_MM, 0.0, 0.0 };

          look_at_corner (ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n], &inward);
          count += inward.turn_rad < 0.0;
        }
    }

  return count;
}

static gboolean
lies_in (const OddConvex *inner,
         const OddConvex *outer)
{
  for (guint i = 0; i < inner->n; i++)
    if (!odd_convex_contains (outer, inner->points[i], ODD_TOLERANCE_MM))
      return FALSE;

  return TRUE;
}

static void
add_part (OddConvexParts *self,
          OddPolygon     *polygon)
{
  g_autofree int *labels = g_new0 (int, polygon->starts[1]);
  g_autoptr(OddConvex) part = NULL;

  part = odd_convex_new (polygon->points, labels, polygon->starts[1]);
  if (part == NULL)
    return;

  for (guint i = 0; i < self->parts->len; i++)
    if (lies_in (part, g_ptr_array_index (self->parts, i)))
      return;
  for (guint i = self->parts->len; i-- > 0;)
    if (lies_in (g_ptr_array_index (self->parts, i), part))
      g_ptr_array_remove_index (self->parts, i);
  g_ptr_array_add (self->parts, g_steal_pointer (&part));
}

static OddPolygon *
take_largest (GPtrArray *waiting)
{
  guint largest = 0;

  for (guint i = 1; i < waiting->len; i++)
    if (odd_polygon_get_area (g_ptr_array_index (waiting, i))
        > odd_polygon_get_area (g_ptr_array_index (waiting, largest)))
      largest = i;

  return g_ptr_array_steal_index (waiting, largest);
}

static guint
count_lines (const Inward *inward)
{
  return inward->depth_mm < SHALLOW_MM ? 2 : N_LINES;
}

/* What the i-th line through the corner leaves. */
static GPtrArray *
cut_along (OddPolygon   *polygon,
           const Inward *inward,
           guint         i)
{
  const double angle = inward->from_rad + inward->turn_rad * i / (count_lines (inward) - 1);
  const OddPoint normal = { cos (angle), sin (angle) };

  return odd_polygon_clip (polygon, (OddHalfPlane) { normal, odd_point_dot (normal, inward->corner) });
}

/* Cuts @polygon along each line tried; returns how many that were. */
static guint
cut_at (OddPolygon   *polygon,
        const Inward *inward,
        GPtrArray    *waiting)
{
  const guint n_lines = count_lines (inward);

  for (guint i = 0; i < n_lines; i++)
    {
      g_autoptr(GPtrArray) pieces = cut_along (polygon, inward, i);

      for (guint k = 0; k < pieces->len; k++)
        {
          OddPolygon *piece = g_ptr_array_index (pieces, k);

          if (odd_polygon_get_area (piece) >= LEAST_PART_MM2)
            g_ptr_array_add (waiting, odd_polygon_ref (piece));
        }
    }

  return n_lines;
}

/* The largest piece that the two edges' own lines leave. (transfer full); NULL: none worth it. */
static OddPolygon *
cut_least (OddPolygon   *polygon,
           const Inward *inward)
{
  OddPolygon *largest = NULL;
  double most_mm2 = LEAST_PART_MM2;

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr(GPtrArray) pieces = cut_along (polygon, inward, i == 0 ? 0 : count_lines (inward) - 1);

      for (guint k = 0; k < pieces->len; k++)
        if (odd_polygon_get_area (pieces->pdata[k]) > most_mm2)
          {
            g_clear_pointer (&largest, odd_polygon_unref);
            largest = odd_polygon_ref (pieces->pdata[k]);
            most_mm2 = odd_polygon_get_area (largest);
          }
    }

  return largest;
}

/* Down to one convex part. */
static void
descend (OddConvexParts *self,
         OddPolygon     *polygon)
{
  OddPolygon *rest = odd_polygon_ref (polygon);
  Inward inward;

  while (rest != NULL && find_deepest (rest, &inward))
    {
      OddPolygon *next = cut_least (rest, &inward);

      odd_polygon_unref (rest);
      rest = next;
    }
  if (rest != NULL)
    add_part (self, rest);
  g_clear_pointer (&rest, odd_polygon_unref);
}

static int
compare_areas (gconstpointer a,
               gconstpointer b)
{
  const double x = odd_convex_area (*(OddConvex *const *) a);
  const double y = odd_convex_area (*(OddConvex *const *) b);

  return (x < y) - (x > y);
}

OddConvexParts *
odd_convex_parts_new (OddPolygon *polygon)
{
  g_autoptr(GPtrArray) waiting = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  OddConvexParts *self;
  guint n_clips = 0, n_descents = 0, most_clips;

  g_return_val_if_fail (polygon != NULL, NULL);

  most_clips = count_inward (polygon) > MANY_INWARD ? FEW_CLIPS : MOST_CLIPS;
  self = g_new0 (OddConvexParts, 1);
  self->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_convex_unref);

  g_ptr_array_add (waiting, odd_polygon_ref (polygon));
  while (waiting->len > 0)
    {
      g_autoptr(OddPolygon) largest = take_largest (waiting);
      Inward inward;

      if (!find_deepest (largest, &inward))
        add_part (self, largest);
      else if (n_clips < most_clips)
        n_clips += cut_at (largest, &inward, waiting);
      else if (n_descents++ < N_DESCENTS)
        descend (self, largest);
    }

  g_ptr_array_sort (self->parts, compare_areas);
  if (self->parts->len > MOST_PARTS)
    g_ptr_array_set_size (self->parts, MOST_PARTS);

  return self;
}

void
odd_convex_parts_free (OddConvexParts *self)
{
  if (self == NULL)
    return;

  g_ptr_array_unref (self->parts);
  g_free (self);
}

guint
odd_convex_parts_get_n (const OddConvexParts *self)
{
  return self->parts->len;
}

OddConvex *
odd_convex_parts_get (const OddConvexParts *self,
                      guint                 i)
{
  g_return_val_if_fail (i < self->parts->len, NULL);

  return g_ptr_array_index (self->parts, i);
}

/* A convex ring without labels, clipped in place between two buffers. */
typedef struct
{
  OddPoint *points;
  OddPoint *spare;
  guint n;
  guint capacity;
} Region;

static void
clip_region (Region      *self,
             OddHalfPlane keep)
{
  OddPoint *points = self->spare;
  guint n = 0;

  /* A clip adds one corner; where rounding has bent a hair of a region it may add more, and its tail is dropped. */
  for (guint i = 0; i < self->n && n + 2 <= self->capacity; i++)
    {
      const OddPoint a = self->points[i];
      const OddPoint b = self->points[i + 1 == self->n ? 0 : i + 1];
      const double a_outside = odd_half_plane_distance (keep, a);
      const double b_outside = odd_half_plane_distance (keep, b);

      if (a_outside <= 0.0)
        points[n++] = a;
      if ((a_outside < 0.0 && b_outside > 0.0) || (a_outside > 0.0 && b_outside < 0.0))
        points[n++] = odd_point_lerp (a, b, a_outside / (a_outside - b_outside));
    }

  self->spare = self->points;
  self->points = points;
  self->n = n;
}

/* Shifts that put the shape's box into the part's box, a hair wider so that an exact fit has room for rounding. */
static gboolean
start_region (Region *self,
              OddBox  part,
              OddBox  shape)
{
  const double left = part.x - shape.x - ODD_TOLERANCE_MM;
  const double top = part.y - shape.y - ODD_TOLERANCE_MM;
  const double right = left + part.width - shape.width + 2.0 * ODD_TOLERANCE_MM;
  const double bottom = top + part.height - shape.height + 2.0 * ODD_TOLERANCE_MM;

  if (right < left || bottom < top)
    return FALSE;

  self->points[0] = odd_point (left, top);
  self->points[1] = odd_point (right, top);
  self->points[2] = odd_point (right, bottom);
  self->points[3] = odd_point (left, bottom);
  self->n = 4;

  return TRUE;
}

static OddPoint
region_middle (const Region *self,
               double        area)
{
  const OddPoint origin = self->points[0];
  OddPoint sum = { 0.0, 0.0 };

  if (area <= 0.0)
    return origin;

  for (guint i = 1; i + 1 < self->n; i++)
    {
      const OddPoint a = odd_point_sub (self->points[i], origin);
      const OddPoint b = odd_point_sub (self->points[i + 1], origin);

      sum = odd_point_add (sum, odd_point_scale (odd_point_add (a, b), odd_point_cross (a, b)));
    }

  return odd_point_add (origin, odd_point_scale (sum, 1.0 / (6.0 * area)));
}

/* The region of the shifts that fit into one part; FALSE when there is none. */
static gboolean
fit_part (const OddConvex *part,
          const OddConvex *shape,
          OddBox           shape_box,
          Region          *region)
{
  if (!start_region (region, odd_convex_box (part), shape_box))
    return FALSE;

  for (guint i = 0; i < part->n && region->n > 0; i++)
    {
      OddHalfPlane h = odd_convex_edge_half_plane (part, i);

      h.offset_mm -= odd_convex_support (shape, h.normal) - ODD_TOLERANCE_MM;
      clip_region (region, h);
    }

  return region->n > 0;
}

gboolean
odd_convex_parts_fit (const OddConvexParts *self,
                      const OddConvex      *shape,
                      OddPoint             *out_shift)
{
  OddPoint stack[2 * N_STACK_CORNERS];
  g_autofree OddPoint *heap = NULL;
  OddPoint *room = stack;
  OddBox shape_box;
  double best = -1.0;
  guint most = N_STACK_CORNERS;

  g_return_val_if_fail (self != NULL && shape != NULL && out_shift != NULL, FALSE);

  for (guint i = 0; i < self->parts->len; i++)
    most = MAX (most, odd_convex_parts_get (self, i)->n + 8);
  if (most > N_STACK_CORNERS)
    room = heap = g_new (OddPoint, 2 * most);

  shape_box = odd_convex_box (shape);
  for (guint i = 0; i < self->parts->len; i++)
    {
      Region region = { room, room + most, 0, most };
      double area;

      if (!fit_part (odd_convex_parts_get (self, i), shape, shape_box, &region))
        continue;
      area = MAX (odd_ring_area (region.points, region.n), 0.0);
      if (area > best)
        {
          best = area;
          *out_shift = region_middle (&region, area);
        }
    }

  return best >= 0.0;
}
