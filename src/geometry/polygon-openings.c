/* A polygon less shapes that lie wholly inside it: it is the polygon with more openings, and no overlay is needed.
 *
 * What comes close to a border, or to another shape's box, is left to GEOS.
 */
#include "config.h"

#include "geometry/polygon-private.h"

#define CLEAR_MM 1e-3

static OddSegment
edge_of (const OddPoint *ring,
         guint           n,
         guint           i)
{
  return (OddSegment) { ring[i], ring[(i + 1) % n] };
}

static gboolean
are_on_two_sides (OddSegment line,
                  OddSegment of)
{
  const OddPoint along = odd_point_sub (line.to, line.from);

  return (odd_point_cross (along, odd_point_sub (of.from, line.from)) > 0.0) != (odd_point_cross (along, odd_point_sub (of.to, line.from)) > 0.0);
}

/* Segments that do not cross are nearest at an end of one of them. */
static gboolean
are_clear (OddSegment a,
           OddSegment b)
{
  if (are_on_two_sides (a, b) && are_on_two_sides (b, a))
    return FALSE;
  return odd_segment_distance (a, b.from) > CLEAR_MM && odd_segment_distance (a, b.to) > CLEAR_MM && odd_segment_distance (b, a.from) > CLEAR_MM &&
         odd_segment_distance (b, a.to) > CLEAR_MM;
}

static gboolean
lies_inside (const OddPolygon *inner,
             OddPolygon       *outer)
{
  const guint n_outer = outer->starts[1], n_inner = inner->starts[1];

  if (!odd_polygon_contains_point (outer, inner->points[0]))
    return FALSE;
  for (guint i = 0; i < n_outer; i++)
    for (guint k = 0; k < n_inner; k++)
      if (!are_clear (edge_of (outer->points, n_outer, i), edge_of (inner->points, n_inner, k)))
        return FALSE;
  return TRUE;
}

OddPolygon *
odd_polygon_new_with_openings (OddPolygon        *self,
                               OddPolygon *const *openings,
                               guint              n)
{
  g_auto(OddRings) rings = odd_rings_new ();

  if (self->n_rings > 1)
    return NULL;
  for (guint i = 0; i < n; i++)
    {
      if (openings[i]->n_rings > 1)
        return NULL;
      for (guint k = 0; k < i; k++)
        if (odd_box_meets (openings[i]->box, openings[k]->box))
          return NULL;
    }
  odd_rings_add (&rings, self->points, self->starts[1]);
  for (guint i = 0; i < n; i++)
    if (!lies_inside (openings[i], self) || !odd_rings_add (&rings, openings[i]->points, openings[i]->starts[1]))
      return NULL;
  return odd_polygon_new_from_rings (&rings);
}
