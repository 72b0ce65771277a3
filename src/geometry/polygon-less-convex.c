/* A polygon less a convex shape, the quick way.
 *
 *      +-------------+        Walk the polygon's border from where it leaves the shape to where it next enters it; from there
 *      |             |        walk the shape's border backwards to where the polygon leaves it again. Each such round is one
 *      |   x-----x   |        piece (Weiler and Atherton's clipping, from memory).
 *      |   | cut |   |
 *      +---x     x---+        Walks of this kind fail where borders run along one another, and a patch lies flush with its scrap as
 *                             a rule. So the shape is first grown by a hair: borders that were flush now pass one another.
 *
 * The areas tell whether all went well; whenever they do not agree, or nothing crosses, GEOS is asked.
 */
#include "config.h"

#include "geometry/polygon-private.h"

#define HAIR_MM 1e-4
#define SLIVER_MM2 0.01
#define MAX_CORNERS 64                   /* of the shape */

typedef struct
{
  OddPoint p;
  double along_ring, along_shape;        /* edge index + part of the edge */
  gboolean leaves;                       /* the ring leaves the shape here */
  gboolean used;
} Crossing;

typedef struct
{
  const OddPoint *ring;
  guint n_ring;
  OddPoint shape[MAX_CORNERS];
  guint n_shape;
  GArray *crossings;                     /* Crossing, in the order of the ring */
} Walk;

static gboolean
grow (Walk            *walk,
      const OddConvex *b)
{
  if (b->n > MAX_CORNERS)
    return FALSE;
  walk->n_shape = b->n;
  for (guint i = 0; i < b->n; i++)
    {
      const OddHalfPlane in = odd_half_plane_push (odd_convex_edge_half_plane (b, (i + b->n - 1) % b->n), HAIR_MM);
      const OddHalfPlane out = odd_half_plane_push (odd_convex_edge_half_plane (b, i), HAIR_MM);

      if (!odd_half_plane_meet (in, out, &walk->shape[i]))
        return FALSE;
    }

  return TRUE;
}

static void
cross_edge (Walk *walk,
            guint edge)
{
  const OddPoint a = walk->ring[edge];
  const OddPoint d = odd_point_sub (walk->ring[(edge + 1) % walk->n_ring], a);

  for (guint k = 0; k < walk->n_shape; k++)
    {
      const OddPoint c = walk->shape[k];
      const OddPoint e = odd_point_sub (walk->shape[(k + 1) % walk->n_shape], c);
      const OddPoint ac = odd_point_sub (c, a);
      const double across = odd_point_cross (d, e);
      double t, u;
      Crossing crossing;

      if (across == 0.0)
        continue;
      t = odd_point_cross (ac, e) / across;
      u = odd_point_cross (ac, d) / across;
      if (t < 0.0 || t >= 1.0 || u < 0.0 || u >= 1.0)
        continue;
      /* the shape's inside lies to the positive side of its edges */
      crossing = (Crossing) { odd_point (a.x + t * d.x, a.y + t * d.y), edge + t, k + u, across > 0.0, FALSE };
      g_array_append_val (walk->crossings, crossing);
    }
}

static int
compare_along_ring (gconstpointer a,
                    gconstpointer b)
{
  const Crossing *p = a;
  const Crossing *q = b;

  return (p->along_ring > q->along_ring) - (p->along_ring < q->along_ring);
}

/* Entering and leaving must take turns. */
static gboolean
takes_turns (const GArray *crossings)
{
  for (guint i = 0; i < crossings->len; i++)
    if (g_array_index (crossings, Crossing, i).leaves == g_array_index (crossings, Crossing, (i + 1) % crossings->len).leaves)
      return FALSE;

  return crossings->len >= 2;
}

static void
add_point (GArray  *points,
           OddPoint p)
{
  g_array_append_val (points, p);
}

/* Along the ring from where it leaves the shape to where it next enters it. */
static guint
walk_ring (const Walk *walk,
           guint       from,
           GArray     *points)
{
  const guint to = (from + 1) % walk->crossings->len;
  const Crossing *a = &g_array_index (walk->crossings, Crossing, from);
  const Crossing *b = &g_array_index (walk->crossings, Crossing, to);
  const guint first = (guint) a->along_ring, last = (guint) b->along_ring;
  const guint n = b->along_ring > a->along_ring ? last - first : last + walk->n_ring - first;

  add_point (points, a->p);
  for (guint i = 1; i <= n; i++)
    add_point (points, walk->ring[(first + i) % walk->n_ring]);
  add_point (points, b->p);

  return to;
}

/* Backwards along the shape to where the ring leaves it. */
static guint
walk_shape (const Walk *walk,
            guint       from,
            GArray     *points)
{
  const Crossing *a = &g_array_index (walk->crossings, Crossing, from);
  guint to = from, n = 0;
  double nearest = INFINITY;

  for (guint i = 0; i < walk->crossings->len; i++)
    {
      const Crossing *b = &g_array_index (walk->crossings, Crossing, i);
      const gboolean round = b->along_shape > a->along_shape;
      const double back = a->along_shape - b->along_shape + (round ? walk->n_shape : 0);

      if (i == from || back >= nearest)
        continue;
      nearest = back;
      to = i;
      n = (guint) a->along_shape + (round ? walk->n_shape : 0) - (guint) b->along_shape;
    }
  for (guint i = 0; i < n; i++)
    add_point (points, walk->shape[((guint) a->along_shape + walk->n_shape - i) % walk->n_shape]);

  return to;
}

/* One round; NULL when it does not close. */
static GArray *
walk_round (Walk *walk,
            guint start)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  guint at = start;

  do
    {
      Crossing *crossing = &g_array_index (walk->crossings, Crossing, at);

      if (!crossing->leaves || crossing->used)
        {
          g_array_unref (points);
          return NULL;
        }
      crossing->used = TRUE;
      at = walk_shape (walk, walk_ring (walk, at, points), points);
    }
  while (at != start);

  return points;
}

static gboolean
comes_first (const OddPolygon *p,
             const OddPolygon *q)
{
  return p->points[0].y < q->points[0].y || (p->points[0].y == q->points[0].y && p->points[0].x < q->points[0].x);
}

/* The ring turned so that its topmost, then leftmost corner comes first, as GEOS' results are. */
static void
begin_at_top (GArray *points)
{
  g_autofree OddPoint *turned = g_new (OddPoint, points->len);
  guint top = 0;

  for (guint i = 1; i < points->len; i++)
    {
      const OddPoint p = g_array_index (points, OddPoint, i), q = g_array_index (points, OddPoint, top);

      if (p.y < q.y || (p.y == q.y && p.x < q.x))
        top = i;
    }
  for (guint i = 0; i < points->len; i++)
    turned[i] = g_array_index (points, OddPoint, (top + i) % points->len);
  memcpy (points->data, turned, points->len * sizeof (OddPoint));
}

static void
add_piece (GPtrArray *pieces,
           GArray    *points)
{
  g_auto(OddRings) rings = odd_rings_new ();
  OddPolygon *piece;
  guint at;

  begin_at_top (points);
  if (!odd_rings_add (&rings, (OddPoint *) points->data, points->len))
    return;
  piece = odd_polygon_new_from_rings (&rings);
  for (at = 0; at < pieces->len && !comes_first (piece, pieces->pdata[at]); at++)
    ;
  g_ptr_array_insert (pieces, at, piece);
}

/* All rounds; NULL when one fails. Slivers are counted into @out_area but left out. */
static GPtrArray *
walk_all (Walk   *walk,
          double *out_area)
{
  g_autoptr(GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  *out_area = 0.0;
  for (guint i = 0; i < walk->crossings->len; i++)
    {
      const Crossing *crossing = &g_array_index (walk->crossings, Crossing, i);
      g_autoptr(GArray) points = NULL;
      double area;

      if (!crossing->leaves || crossing->used)
        continue;
      points = walk_round (walk, i);
      if (points == NULL)
        return NULL;
      area = odd_ring_area ((OddPoint *) points->data, points->len);
      if (area < 0.0)
        return NULL;
      *out_area += area;
      if (area >= SLIVER_MM2)
        add_piece (pieces, points);
    }

  return g_steal_pointer (&pieces);
}

static GPtrArray *
ask_geos (OddPolygon      *a,
          const OddConvex *b)
{
  g_autoptr(OddPolygon) polygon = odd_polygon_new_from_convex (b);

  return odd_polygon_difference (a, polygon);
}

/* Does it add up, where the shape lies inside but for the hair? */
static gboolean
adds_up (const OddPolygon *a,
         const OddConvex  *b,
         double            left_mm2)
{
  return fabs (a->area_mm2 - odd_convex_area (b) - left_mm2) <= 0.01 + 4.0 * HAIR_MM * odd_convex_perimeter (b);
}

GPtrArray *
odd_polygon_difference_convex (OddPolygon      *a,
                               const OddConvex *b)
{
  Walk walk = { .ring = a->points, .n_ring = a->starts[1] };
  g_autoptr(GArray) crossings = NULL;
  g_autoptr(GPtrArray) pieces = NULL;
  double left_mm2;

  g_return_val_if_fail (a != NULL && b != NULL, NULL);

  if (a->n_rings > 1 || !grow (&walk, b))
    return ask_geos (a, b);

  walk.crossings = crossings = g_array_sized_new (FALSE, FALSE, sizeof (Crossing), 16);
  for (guint i = 0; i < walk.n_ring; i++)
    cross_edge (&walk, i);
  g_array_sort (crossings, compare_along_ring);
  if (!takes_turns (crossings))
    return ask_geos (a, b);
  pieces = walk_all (&walk, &left_mm2);
  if (pieces == NULL || !adds_up (a, b, left_mm2))
    return ask_geos (a, b);

  return g_steal_pointer (&pieces);
}
