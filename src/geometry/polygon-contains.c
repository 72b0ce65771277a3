/* What lies in a polygon.
 *
 * A convex region lies in a polygon when its corners do, some point of its inside does, and no outline comes into it.
 * "Into it" is asked of the region with each edge pulled in by the tolerance: a piece of outline that runs along an
 * edge, as it does wherever a patch uses its scrap up, does not count. No overlay is made, so it costs the corners of
 * the one times the edges of the other, and rounding cannot make it fail. */
#include "config.h"

#include "geometry/polygon-private.h"

#define N_STACK_EDGES 32

static gboolean
is_odd (OddPolygon *self,
        OddPoint    p)
{
  gboolean odd = FALSE;

  for (guint r = 0; r < self->n_rings; r++)
    {
      OddPoint a = self->points[self->starts[r + 1] - 1];

      for (guint i = self->starts[r]; i < self->starts[r + 1]; i++)
        {
          const OddPoint b = self->points[i];

          if ((a.y > p.y) != (b.y > p.y)
              && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x))
            odd = !odd;
          a = b;
        }
    }

  return odd;
}

static gboolean
is_near_border (OddPolygon *self,
                OddPoint    p,
                double      tolerance_mm)
{
  for (guint r = 0; r < self->n_rings; r++)
    {
      OddPoint a = self->points[self->starts[r + 1] - 1];

      for (guint i = self->starts[r]; i < self->starts[r + 1]; i++)
        {
          const OddPoint b = self->points[i];

          if (p.x >= MIN (a.x, b.x) - tolerance_mm && p.x <= MAX (a.x, b.x) + tolerance_mm
              && p.y >= MIN (a.y, b.y) - tolerance_mm && p.y <= MAX (a.y, b.y) + tolerance_mm
              && odd_segment_distance ((OddSegment) { a, b }, p) <= tolerance_mm)
            return TRUE;
          a = b;
        }
    }

  return FALSE;
}

static gboolean
contains_point_within (OddPolygon *self,
                       OddPoint    p,
                       double      tolerance_mm)
{
  return is_odd (self, p) || is_near_border (self, p, tolerance_mm);
}

gboolean
odd_polygon_contains_point (OddPolygon *self,
                            OddPoint    p)
{
  g_return_val_if_fail (self != NULL, FALSE);

  return odd_box_contains (odd_box_grow (self->box, ODD_TOLERANCE_MM), p)
         && contains_point_within (self, p, ODD_TOLERANCE_MM);
}

/* Does some of a -> b lie inside all @planes? Each plane cuts the range of t that may still be inside. */
static gboolean
segment_enters (OddPoint            a,
                OddPoint            b,
                const OddHalfPlane *planes,
                guint               n)
{
  double from = 0.0;
  double to = 1.0;

  for (guint i = 0; i < n; i++)
    {
      const double a_outside = odd_half_plane_distance (planes[i], a);
      const double b_outside = odd_half_plane_distance (planes[i], b);

      if (a_outside >= 0.0 && b_outside >= 0.0)
        return FALSE;
      if (a_outside > 0.0)
        from = MAX (from, a_outside / (a_outside - b_outside));
      else if (b_outside > 0.0)
        to = MIN (to, a_outside / (a_outside - b_outside));
      if (from >= to)
        return FALSE;
    }

  return TRUE;
}

static gboolean
outline_enters (OddPolygon         *self,
                OddBox              box,
                const OddHalfPlane *planes,
                guint               n)
{
  const double right = box.x + box.width;
  const double bottom = box.y + box.height;

  for (guint r = 0; r < self->n_rings; r++)
    {
      OddPoint a = self->points[self->starts[r + 1] - 1];

      for (guint i = self->starts[r]; i < self->starts[r + 1]; i++)
        {
          const OddPoint b = self->points[i];

          if (MAX (a.x, b.x) > box.x && MIN (a.x, b.x) < right
              && MAX (a.y, b.y) > box.y && MIN (a.y, b.y) < bottom
              && segment_enters (a, b, planes, n))
            return TRUE;
          a = b;
        }
    }

  return FALSE;
}

static gboolean
box_holds (OddBox outer,
           OddBox inner,
           double tolerance_mm)
{
  return inner.x >= outer.x - tolerance_mm
         && inner.y >= outer.y - tolerance_mm
         && inner.x + inner.width <= outer.x + outer.width + tolerance_mm
         && inner.y + inner.height <= outer.y + outer.height + tolerance_mm;
}

static gboolean
lies_deep (OddPoint            p,
           const OddHalfPlane *planes,
           guint               n)
{
  for (guint i = 0; i < n; i++)
    if (odd_half_plane_distance (planes[i], p) >= 0.0)
      return FALSE;

  return TRUE;
}

/* By GEOS: for regions thinner than the tolerance and for inner polygons that are not convex. */
static gboolean
covers (OddPolygon *self,
        OddPolygon *inner,
        double      tolerance_mm)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *outer_geometry = odd_geos_from_polygon (self);
  GEOSGeometry *inner_geometry = odd_geos_from_polygon (inner);
  GEOSGeometry *grown = NULL;
  gboolean result = FALSE;

  grown = GEOSBuffer_r (geos, outer_geometry, tolerance_mm, 8);
  if (grown != NULL)
    result = GEOSCovers_r (geos, grown, inner_geometry) == 1;

  GEOSGeom_destroy_r (geos, grown);
  GEOSGeom_destroy_r (geos, inner_geometry);
  GEOSGeom_destroy_r (geos, outer_geometry);

  return result;
}

gboolean
odd_polygon_contains_convex (OddPolygon      *self,
                             const OddConvex *inner,
                             double           tolerance_mm)
{
  OddHalfPlane stack[N_STACK_EDGES];
  g_autofree OddHalfPlane *heap = NULL;
  OddHalfPlane *planes = stack;
  OddBox box;
  OddPoint middle;

  g_return_val_if_fail (self != NULL && inner != NULL && tolerance_mm >= 0.0, FALSE);

  tolerance_mm = MAX (tolerance_mm, ODD_TOLERANCE_MM);
  box = odd_convex_box (inner);
  if (!box_holds (self->box, box, tolerance_mm))
    return FALSE;

  for (guint i = 0; i < inner->n; i++)
    if (!contains_point_within (self, inner->points[i], tolerance_mm))
      return FALSE;

  if (inner->n > N_STACK_EDGES)
    planes = heap = g_new (OddHalfPlane, inner->n);
  for (guint i = 0; i < inner->n; i++)
    planes[i] = odd_half_plane_push (odd_convex_edge_half_plane (inner, i), -tolerance_mm);

  if (outline_enters (self, box, planes, inner->n))
    return FALSE;

  middle = odd_convex_centroid (inner);
  if (!lies_deep (middle, planes, inner->n))
    {
      g_autoptr(OddPolygon) thin = odd_polygon_new_from_convex (inner);

      return covers (self, thin, tolerance_mm);
    }

  return is_odd (self, middle);
}

static OddConvex *
to_convex (OddPolygon *polygon)
{
  g_autofree int *labels = NULL;

  if (!odd_polygon_is_convex (polygon))
    return NULL;
  labels = g_new0 (int, polygon->starts[1]);

  return odd_convex_new (polygon->points, labels, polygon->starts[1]);
}

gboolean
odd_polygon_contains (OddPolygon *self,
                      OddPolygon *inner,
                      double      tolerance_mm)
{
  g_autoptr(OddConvex) convex = NULL;

  g_return_val_if_fail (self != NULL && inner != NULL && tolerance_mm >= 0.0, FALSE);

  tolerance_mm = MAX (tolerance_mm, ODD_TOLERANCE_MM);
  if (!box_holds (self->box, inner->box, tolerance_mm))
    return FALSE;

  convex = to_convex (inner);
  if (convex != NULL)
    return odd_polygon_contains_convex (self, convex, tolerance_mm);

  return covers (self, inner, tolerance_mm);
}
