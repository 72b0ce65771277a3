/* To GEOS and back: one context a thread, made on first use. */
#include "config.h"

#include "geometry/polygon-private.h"

#include <string.h>

#define SLIVER_MM2 0.01    /* far below what scissors leave, far above the rounding of an overlay */

typedef struct
{
  GEOSContextHandle_t handle;
  char message[256];
} Context;

static void
context_free (gpointer data)
{
  Context *self = data;

  GEOS_finish_r (self->handle);
  g_free (self);
}

static void
error_cb (const char *message,
          void       *user_data)
{
  Context *self = user_data;

  g_strlcpy (self->message, message, sizeof self->message);
}

static Context *
get_context (void)
{
  static GPrivate key = G_PRIVATE_INIT (context_free);
  Context *self = g_private_get (&key);

  if (self == NULL)
    {
      self = g_new0 (Context, 1);
      self->handle = GEOS_init_r ();
      GEOSContext_setErrorMessageHandler_r (self->handle, error_cb, self);
      g_private_set (&key, self);
    }

  return self;
}

GEOSContextHandle_t
odd_geos_get (void)
{
  return get_context ()->handle;
}

const char *
odd_geos_get_message (void)
{
  return get_context ()->message;
}

static GEOSGeometry *
ring_to_geos (GEOSContextHandle_t geos,
              const OddPoint     *points,
              guint               n)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (geos, n + 1, 2);

  for (guint i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (geos, sequence, i, points[i % n].x, points[i % n].y);

  return GEOSGeom_createLinearRing_r (geos, sequence);
}

GEOSGeometry *
odd_geos_from_polygon (const OddPolygon *polygon)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  g_autofree GEOSGeometry **rings = g_new (GEOSGeometry *, polygon->n_rings);

  for (guint i = 0; i < polygon->n_rings; i++)
    rings[i] = ring_to_geos (geos, polygon->points + polygon->starts[i],
                             polygon->starts[i + 1] - polygon->starts[i]);

  return GEOSGeom_createPolygon_r (geos, rings[0], rings + 1, polygon->n_rings - 1);
}

static gboolean
comes_first (OddPoint a,
             OddPoint b)
{
  return a.y < b.y || (a.y == b.y && a.x < b.x);
}

static guint
topmost (const OddPoint *points,
         guint           n)
{
  guint first = 0;

  for (guint i = 1; i < n; i++)
    if (comes_first (points[i], points[first]))
      first = i;

  return first;
}

/* A ring as we keep those that GEOS made: open, from its topmost corner. Where GEOS starts is its own affair. */
static gboolean
add_ring (OddRings           *rings,
          const GEOSGeometry *ring)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (geos, ring);
  g_autofree OddPoint *closed = NULL;
  g_autofree OddPoint *open = NULL;
  guint n = 0;
  guint first;

  if (sequence == NULL || !GEOSCoordSeq_getSize_r (geos, sequence, &n) || n < 4)
    return FALSE;

  closed = g_new (OddPoint, n);
  GEOSCoordSeq_copyToBuffer_r (geos, sequence, &closed[0].x, 0, 0);
  n--;
  first = topmost (closed, n);
  open = g_new (OddPoint, n);
  for (guint i = 0; i < n; i++)
    open[i] = closed[(first + i) % n];

  return odd_rings_add (rings, open, n);
}

static int
compare_rings (gconstpointer a,
               gconstpointer b)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  OddPoint p[2];

  for (int i = 0; i < 2; i++)
    {
      const GEOSGeometry *ring = *(const GEOSGeometry **) (i == 0 ? a : b);
      double right, bottom;

      GEOSGeom_getExtent_r (geos, ring, &p[i].x, &p[i].y, &right, &bottom);
    }

  return comes_first (p[0], p[1]) ? -1 : comes_first (p[1], p[0]);
}

static OddPolygon *
polygon_from_geos (const GEOSGeometry *geometry)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  g_auto(OddRings) rings = odd_rings_new ();
  g_autoptr(GPtrArray) holes = g_ptr_array_new ();

  if (!add_ring (&rings, GEOSGetExteriorRing_r (geos, geometry)))
    return NULL;

  for (int i = 0; i < GEOSGetNumInteriorRings_r (geos, geometry); i++)
    g_ptr_array_add (holes, (gpointer) GEOSGetInteriorRingN_r (geos, geometry, i));
  g_ptr_array_sort (holes, compare_rings);
  for (guint i = 0; i < holes->len; i++)
    add_ring (&rings, g_ptr_array_index (holes, i));

  return odd_polygon_new_from_rings (&rings);
}

static void
gather (const GEOSGeometry *geometry,
        GPtrArray          *into)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  const int type = GEOSGeomTypeId_r (geos, geometry);

  if (type == GEOS_POLYGON)
    {
      g_autoptr(OddPolygon) polygon = NULL;

      if (!GEOSisEmpty_r (geos, geometry))
        polygon = polygon_from_geos (geometry);
      if (polygon != NULL && polygon->area_mm2 >= SLIVER_MM2)
        g_ptr_array_add (into, g_steal_pointer (&polygon));
    }
  else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION)
    {
      for (int i = 0; i < GEOSGetNumGeometries_r (geos, geometry); i++)
        gather (GEOSGetGeometryN_r (geos, geometry, i), into);
    }
}

/* Disjoint polygons may share their topmost corner; then the next corners tell. */
static int
compare_polygons (gconstpointer a,
                  gconstpointer b)
{
  const OddPolygon *p = *(const OddPolygon **) a;
  const OddPolygon *q = *(const OddPolygon **) b;
  const guint n = MIN (p->starts[1], q->starts[1]);

  for (guint i = 0; i < n; i++)
    {
      if (comes_first (p->points[i], q->points[i]))
        return -1;
      if (comes_first (q->points[i], p->points[i]))
        return 1;
    }

  return (p->starts[1] > q->starts[1]) - (p->starts[1] < q->starts[1]);
}

GPtrArray *
odd_geos_take_polygons (GEOSGeometry *geometry)
{
  GPtrArray *polygons = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  if (geometry == NULL)
    {
      g_critical ("GEOS failed: %s", odd_geos_get_message ());
      return polygons;
    }

  gather (geometry, polygons);
  GEOSGeom_destroy_r (odd_geos_get (), geometry);
  g_ptr_array_sort (polygons, compare_polygons);

  return polygons;
}
