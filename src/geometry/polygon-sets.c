/* Intersections, differences, unions, shrinking: GEOS' overlay.
 *
 * Always on a grid (snap rounding), a tenth of our tolerance wide. Patches run along the edges of their scraps, and
 * where edges coincide but for rounding the free overlay of GEOS 3.11 can lose a whole polygon without
 * a word (tests/geometry/test-polygon.c, "nearly-coincident", has one). The grid takes twice the time and does not. */
#include "config.h"

#include "geometry/polygon-private.h"

#define MITRE_LIMIT 5.0
#define GRID_MM (ODD_TOLERANCE_MM / 10.0)

static GEOSGeometry *
intersection (const GEOSGeometry *a,
              const GEOSGeometry *b)
{
  return GEOSIntersectionPrec_r (odd_geos_get (), a, b, GRID_MM);
}

static GEOSGeometry *
difference (const GEOSGeometry *a,
            const GEOSGeometry *b)
{
  return GEOSDifferencePrec_r (odd_geos_get (), a, b, GRID_MM);
}

static gboolean
are_apart (OddPolygon *const *polygons,
           guint              n)
{
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < i; k++)
      if (odd_box_meets (polygons[i]->box, polygons[k]->box))
        return FALSE;
  return TRUE;
}

/* Those that do not touch are one geometry as they are: a union costs as much as what is done with it. */
static GEOSGeometry *
unite (OddPolygon *const *polygons,
       guint              n)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  g_autofree GEOSGeometry **parts = g_new (GEOSGeometry *, n);
  GEOSGeometry *collection;
  GEOSGeometry *result;

  for (guint i = 0; i < n; i++)
    parts[i] = odd_geos_from_polygon (polygons[i]);
  if (are_apart (polygons, n))
    return GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, parts, n);
  collection = GEOSGeom_createCollection_r (geos, GEOS_GEOMETRYCOLLECTION, parts, n);

  result = GEOSUnaryUnionPrec_r (geos, collection, GRID_MM);
  GEOSGeom_destroy_r (geos, collection);

  return result;
}

static void
mend (GEOSGeometry **geometry)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *valid = GEOSMakeValid_r (geos, *geometry);

  if (valid == NULL)
    return;
  GEOSGeom_destroy_r (geos, *geometry);
  *geometry = valid;
}

typedef GEOSGeometry *(*Overlay) (const GEOSGeometry *a, const GEOSGeometry *b);

static GEOSGeometry *
overlay (OddPolygon *a,
         OddPolygon *b,
         Overlay     operation)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *a_geometry = odd_geos_from_polygon (a);
  GEOSGeometry *b_geometry = odd_geos_from_polygon (b);
  GEOSGeometry *result = operation (a_geometry, b_geometry);

  /* what hangs together by a corner is parted there first */
  if (result == NULL)
    {
      mend (&a_geometry);
      mend (&b_geometry);
      result = operation (a_geometry, b_geometry);
    }
  GEOSGeom_destroy_r (geos, b_geometry);
  GEOSGeom_destroy_r (geos, a_geometry);

  return result;
}

static double
overlay_area (OddPolygon *a,
              OddPolygon *b,
              Overlay     operation)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *result = overlay (a, b, operation);
  double area = 0.0;

  if (result == NULL)
    g_critical ("GEOS failed: %s", odd_geos_get_message ());
  else
    GEOSArea_r (geos, result, &area);
  GEOSGeom_destroy_r (geos, result);

  return area;
}

static GPtrArray *
new_array (OddPolygon *only)
{
  GPtrArray *array = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  if (only != NULL)
    g_ptr_array_add (array, odd_polygon_ref (only));

  return array;
}

GPtrArray *
odd_polygon_intersection (OddPolygon *a,
                          OddPolygon *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);

  if (!odd_box_meets (a->box, b->box))
    return new_array (NULL);

  return odd_geos_take_polygons (overlay (a, b, intersection));
}

GPtrArray *
odd_polygon_difference (OddPolygon *a,
                        OddPolygon *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);

  if (!odd_box_meets (a->box, b->box))
    return new_array (a);

  return odd_geos_take_polygons (overlay (a, b, difference));
}

GPtrArray *
odd_polygon_difference_many (OddPolygon        *a,
                             OddPolygon *const *minus,
                             guint              n)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  g_autofree OddPolygon **near = NULL;
  g_autoptr(OddPolygon) opened = NULL;
  GEOSGeometry *a_geometry;
  GEOSGeometry *all;
  GEOSGeometry *result = NULL;
  guint n_near = 0;

  g_return_val_if_fail (a != NULL && (minus != NULL || n == 0), NULL);

  near = g_new (OddPolygon *, n);
  for (guint i = 0; i < n; i++)
    if (odd_box_meets (a->box, minus[i]->box))
      near[n_near++] = minus[i];
  if (n_near == 0)
    return new_array (a);
  opened = odd_polygon_new_with_openings (a, near, n_near);
  if (opened != NULL)
    return new_array (opened);

  a_geometry = odd_geos_from_polygon (a);
  all = unite (near, n_near);
  if (all != NULL)
    result = difference (a_geometry, all);
  GEOSGeom_destroy_r (geos, all);
  GEOSGeom_destroy_r (geos, a_geometry);

  return odd_geos_take_polygons (result);
}

GPtrArray *
odd_polygon_union (OddPolygon *const *polygons,
                   guint              n)
{
  g_return_val_if_fail (polygons != NULL || n == 0, NULL);

  if (n == 0)
    return new_array (NULL);

  return odd_geos_take_polygons (unite (polygons, n));
}

double
odd_polygon_overlap_area (OddPolygon *a,
                          OddPolygon *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, 0.0);

  return odd_box_meets (a->box, b->box) ? overlay_area (a, b, intersection) : 0.0;
}

double
odd_polygon_outside_area (OddPolygon *self,
                          OddPolygon *inner)
{
  g_return_val_if_fail (self != NULL && inner != NULL, 0.0);

  return odd_box_meets (self->box, inner->box) ? overlay_area (inner, self, difference) : inner->area_mm2;
}

static GPtrArray *
offset (OddPolygon *self,
        double      by_mm)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *geometry = odd_geos_from_polygon (self);
  GEOSGeometry *result = GEOSBufferWithStyle_r (geos, geometry, by_mm, 8, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, MITRE_LIMIT);

  GEOSGeom_destroy_r (geos, geometry);

  return odd_geos_take_polygons (result);
}

GPtrArray *
odd_polygon_shrink (OddPolygon *self,
                    double      by_mm)
{
  g_return_val_if_fail (self != NULL && by_mm >= 0.0, NULL);

  return by_mm > 0.0 ? offset (self, -by_mm) : new_array (self);
}

GPtrArray *
odd_polygon_grow (OddPolygon *self,
                  double      by_mm)
{
  g_return_val_if_fail (self != NULL && by_mm >= 0.0, NULL);

  return by_mm > 0.0 ? offset (self, by_mm) : new_array (self);
}

/* (transfer full): the largest of the polygons, the first of equals; takes the array. */
static OddPolygon *
take_largest (GPtrArray *polygons)
{
  OddPolygon *largest = NULL;

  for (guint i = 0; i < polygons->len; i++)
    {
      OddPolygon *polygon = g_ptr_array_index (polygons, i);

      if (largest == NULL || polygon->area_mm2 > largest->area_mm2)
        largest = polygon;
    }
  if (largest != NULL)
    odd_polygon_ref (largest);
  g_ptr_array_unref (polygons);

  return largest;
}

/* The simplified line stays within the tolerance of a line that is at least the tolerance from the border, so
 * it cannot leave the cloth. */
OddPolygon *
odd_polygon_simplify_inside (OddPolygon *self,
                             double      tolerance_mm,
                             guint       enough)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  g_autoptr(OddPolygon) shrunk = NULL;
  g_autoptr(OddPolygon) simple = NULL;
  GEOSGeometry *geometry;
  GEOSGeometry *result;

  g_return_val_if_fail (self != NULL && tolerance_mm >= 0.0, NULL);

  if (odd_polygon_get_n_corners (self) <= enough)
    return odd_polygon_ref (self);

  shrunk = take_largest (odd_polygon_shrink (self, tolerance_mm));
  if (shrunk == NULL)
    return NULL;

  geometry = odd_geos_from_polygon (shrunk);
  result = GEOSTopologyPreserveSimplify_r (geos, geometry, tolerance_mm);
  GEOSGeom_destroy_r (geos, geometry);
  simple = take_largest (odd_geos_take_polygons (result));
  if (simple != NULL && odd_polygon_get_n_corners (simple) >= odd_polygon_get_n_corners (self))
    return odd_polygon_ref (self);

  return g_steal_pointer (&simple);
}

OddConvex *
odd_polygon_convex_hull (OddPolygon *self)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  g_autofree int *labels = NULL;
  g_autoptr(OddPolygon) hull = NULL;
  GEOSGeometry *geometry;

  g_return_val_if_fail (self != NULL, NULL);

  geometry = odd_geos_from_polygon (self);
  hull = take_largest (odd_geos_take_polygons (GEOSConvexHull_r (geos, geometry)));
  GEOSGeom_destroy_r (geos, geometry);
  if (hull == NULL)
    return NULL;

  labels = g_new0 (int, hull->starts[1]);

  return odd_convex_new (hull->points, labels, hull->starts[1]);
}
