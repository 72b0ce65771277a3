/* A slit from an opening to the edge of the cloth: nobody cuts a shape out of the middle without cutting into it. */
#include "config.h"

#include "geometry/polygon.h"

/* Scissors take nothing; a simple outline needs something, and this is below what is shown. */
#define SLIT_MM 0.02

static OddPoint
nearest_on (OddPoint from,
            OddPoint to,
            OddPoint p)
{
  const OddPoint along = odd_point_sub (to, from);
  const double t = odd_point_dot (odd_point_sub (p, from), along) / odd_point_dot (along, along);

  return odd_point_lerp (from, to, CLAMP (t, 0.0, 1.0));
}

/* Shortens @best where a corner of @corners lies nearer to an edge of @ring. @best runs from corner to edge. */
static void
shorten (const OddPoint *corners,
         gsize           n_corners,
         const OddPoint *ring,
         gsize           n_ring,
         OddSegment     *best)
{
  for (gsize i = 0; i < n_corners; i++)
    for (gsize k = 0; k < n_ring; k++)
      {
        const OddPoint at = nearest_on (ring[k], ring[(k + 1) % n_ring], corners[i]);

        if (odd_point_distance (corners[i], at) < odd_segment_length (*best))
          *best = (OddSegment) { corners[i], at };
      }
}

/* Rings that do not cross are nearest at a corner of one of them. */
OddSegment
odd_polygon_find_slit (OddPolygon *self,
                       guint       hole)
{
  gsize n_outer = 0, n_inner = 0;
  const OddPoint *outer = odd_polygon_get_ring (self, &n_outer);
  const OddPoint *inner = odd_polygon_get_hole (self, hole, &n_inner);
  OddSegment best = { { -1e9, -1e9 }, { 1e9, 1e9 } };

  shorten (inner, n_inner, outer, n_outer, &best);
  shorten (outer, n_outer, inner, n_inner, &best);
  return best;
}

static OddPolygon *
slit_new (OddSegment line)
{
  const double length = odd_segment_length (line);
  const OddPoint along = length > 0.0 ? odd_point_scale (odd_point_sub (line.to, line.from), SLIT_MM / length) : odd_point (SLIT_MM, 0.0);
  const OddPoint half = odd_point (-along.y / 2.0, along.x / 2.0);
  const OddPoint from = odd_point_sub (line.from, along), to = odd_point_add (line.to, along);
  const OddPoint corners[] = { odd_point_sub (from, half), odd_point_sub (to, half), odd_point_add (to, half), odd_point_add (from, half) };

  return odd_polygon_new (corners, G_N_ELEMENTS (corners), NULL);
}

GPtrArray *
odd_polygon_cut_slit (OddPolygon *self,
                      OddSegment  line)
{
  g_autoptr(OddPolygon) slit = slit_new (line);

  return odd_polygon_difference (self, slit);
}
