#include "config.h"

#include "geometry/polygon-private.h"

#include <glib/gi18n.h>
#include <string.h>

G_DEFINE_QUARK (odd-polygon-error-quark, odd_polygon_error)

OddRings
odd_rings_new (void)
{
  OddRings self = { g_array_new (FALSE, FALSE, sizeof (OddPoint)), g_array_new (FALSE, FALSE, sizeof (guint)) };
  const guint start = 0;

  g_array_append_val (self.starts, start);

  return self;
}

void
odd_rings_clear (OddRings *self)
{
  g_clear_pointer (&self->points, g_array_unref);
  g_clear_pointer (&self->starts, g_array_unref);
}

static gboolean
is_repeated (OddPoint a,
             OddPoint b)
{
  return odd_point_distance (a, b) <= ODD_TOLERANCE_MM;
}

gboolean
odd_rings_add (OddRings       *self,
               const OddPoint *points,
               gsize           n)
{
  const guint start = self->points->len;

  for (gsize i = 0; i < n; i++)
    if (self->points->len == start
        || !is_repeated (points[i], g_array_index (self->points, OddPoint, self->points->len - 1)))
      g_array_append_val (self->points, points[i]);

  while (self->points->len > start + 1
         && is_repeated (g_array_index (self->points, OddPoint, start),
                         g_array_index (self->points, OddPoint, self->points->len - 1)))
    g_array_set_size (self->points, self->points->len - 1);

  if (self->points->len < start + 3)
    {
      g_array_set_size (self->points, start);
      return FALSE;
    }
  g_array_append_val (self->starts, self->points->len);

  return TRUE;
}

/* Keeps the first corner first. */
static void
reverse_ring (OddPoint *points,
              guint     n)
{
  for (guint i = 1, k = n - 1; i < k; i++, k--)
    {
      const OddPoint p = points[i];

      points[i] = points[k];
      points[k] = p;
    }
}

OddPolygon *
odd_polygon_new_from_rings (const OddRings *rings)
{
  const guint n_rings = rings->starts->len - 1;
  const gsize points_size = rings->points->len * sizeof (OddPoint);
  OddPolygon *self = g_atomic_rc_box_alloc (sizeof (OddPolygon) + points_size + (n_rings + 1) * sizeof (guint));

  self->points = (OddPoint *) (self + 1);
  self->starts = (guint *) (self->points + rings->points->len);
  self->n_rings = n_rings;
  memcpy (self->points, rings->points->data, points_size);
  memcpy (self->starts, rings->starts->data, (n_rings + 1) * sizeof (guint));

  self->area_mm2 = 0.0;
  for (guint i = 0; i < n_rings; i++)
    {
      OddPoint *ring = self->points + self->starts[i];
      const guint n = self->starts[i + 1] - self->starts[i];
      const double area = odd_ring_area (ring, n);

      if ((i == 0) != (area > 0.0))
        reverse_ring (ring, n);
      self->area_mm2 += i == 0 ? fabs (area) : -fabs (area);
    }
  self->box = odd_box_from_points (self->points, self->starts[1]);

  return self;
}

static gboolean
check_finite (const OddPoint *points,
              gsize           n,
              GError        **error)
{
  for (gsize i = 0; i < n; i++)
    if (!isfinite (points[i].x) || !isfinite (points[i].y))
      {
        g_set_error (error, ODD_POLYGON_ERROR, ODD_POLYGON_ERROR_CORNERS,
                     _("Corner %" G_GSIZE_FORMAT " of the outline is not a pair of finite numbers; measure it again"), i + 1);
        return FALSE;
      }

  return TRUE;
}

/* No corner stands off the line through the first corner and the one farthest from it. */
static gboolean
lies_on_a_line (const OddPoint *points,
                guint           n)
{
  guint farthest = 0;
  OddHalfPlane line;

  for (guint i = 1; i < n; i++)
    if (odd_point_distance (points[0], points[i]) > odd_point_distance (points[0], points[farthest]))
      farthest = i;

  line = odd_half_plane_from_edge (points[0], points[farthest]);
  for (guint i = 1; i < n; i++)
    if (fabs (odd_half_plane_distance (line, points[i])) > ODD_TOLERANCE_MM)
      return FALSE;

  return TRUE;
}

static gboolean
add_checked_ring (OddRings       *rings,
                  const OddPoint *points,
                  gsize           n,
                  GError        **error)
{
  const guint start = rings->points->len;

  if (!check_finite (points, n, error))
    return FALSE;

  if (!odd_rings_add (rings, points, n))
    {
      g_set_error_literal (error, ODD_POLYGON_ERROR, ODD_POLYGON_ERROR_CORNERS,
                           _("The outline has fewer than 3 different corners; give it at least 3"));
      return FALSE;
    }
  if (lies_on_a_line (&g_array_index (rings->points, OddPoint, start), rings->points->len - start))
    {
      g_set_error_literal (error, ODD_POLYGON_ERROR, ODD_POLYGON_ERROR_CORNERS,
                           _("All corners of the outline lie on one line; it has no area"));
      return FALSE;
    }

  return TRUE;
}

static void
set_invalid (const char  *reason,
             OddPoint     at,
             GError     **error)
{
  const char *format;
  g_autofree char *message = NULL;

  if (strstr (reason, "Ring Self") != NULL)
    format = _("The outline touches itself near %.1f, %.1f mm; move one of the corners there apart");
  else if (strstr (reason, "Self") != NULL)
    format = _("The outline crosses itself near %.1f, %.1f mm; put its corners in order there");
  else
    format = _("A hole of the outline crosses its border or another hole near %.1f, %.1f mm; move it apart");

  message = g_strdup_printf (format, at.x, at.y);
  g_set_error_literal (error, ODD_POLYGON_ERROR, ODD_POLYGON_ERROR_CROSSING, message);
}

static gboolean
check_valid (const OddPolygon *polygon,
             GError          **error)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *geometry = odd_geos_from_polygon (polygon);
  GEOSGeometry *place = NULL;
  char *reason = NULL;
  char valid = 2;

  if (geometry != NULL)
    valid = GEOSisValidDetail_r (geos, geometry, 0, &reason, &place);

  if (valid == 0)
    {
      OddPoint at = { 0.0, 0.0 };

      if (place != NULL)
        {
          GEOSGeomGetX_r (geos, place, &at.x);
          GEOSGeomGetY_r (geos, place, &at.y);
        }
      set_invalid (reason != NULL ? reason : "", at, error);
    }
  else if (valid != 1)
    {
      g_set_error (error, ODD_POLYGON_ERROR, ODD_POLYGON_ERROR_GEOS,
                   _("The outline could not be checked: %s"), odd_geos_get_message ());
    }

  GEOSFree_r (geos, reason);
  GEOSGeom_destroy_r (geos, place);
  GEOSGeom_destroy_r (geos, geometry);

  return valid == 1;
}

OddPolygon *
odd_polygon_new (const OddPoint *points,
                 gsize           n,
                 GError        **error)
{
  return odd_polygon_new_with_holes (points, n, NULL, error);
}

OddPolygon *
odd_polygon_new_with_holes (const OddPoint *points,
                            gsize           n,
                            GPtrArray      *holes,
                            GError        **error)
{
  g_auto(OddRings) rings = odd_rings_new ();
  g_autoptr(OddPolygon) self = NULL;

  g_return_val_if_fail (points != NULL || n == 0, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!add_checked_ring (&rings, points, n, error))
    return NULL;
  for (guint i = 0; holes != NULL && i < holes->len; i++)
    {
      const GArray *hole = g_ptr_array_index (holes, i);

      if (!add_checked_ring (&rings, (const OddPoint *) hole->data, hole->len, error))
        return NULL;
    }

  self = odd_polygon_new_from_rings (&rings);
  if (!check_valid (self, error))
    return NULL;

  return g_steal_pointer (&self);
}

OddPolygon *
odd_polygon_new_from_convex (const OddConvex *convex)
{
  g_auto(OddRings) rings = odd_rings_new ();

  g_return_val_if_fail (convex != NULL, NULL);

  odd_rings_add (&rings, convex->points, convex->n);

  return odd_polygon_new_from_rings (&rings);
}

OddPolygon *
odd_polygon_new_box (OddBox box)
{
  const int labels[4] = { 0, 1, 2, 3 };
  g_autoptr(OddConvex) rectangle = odd_convex_new_rectangle (box, labels);

  g_return_val_if_fail (rectangle != NULL, NULL);

  return odd_polygon_new_from_convex (rectangle);
}

OddPolygon *
odd_polygon_ref (OddPolygon *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
odd_polygon_unref (OddPolygon *self)
{
  g_atomic_rc_box_release (self);
}

const OddPoint *
odd_polygon_get_ring (OddPolygon *self,
                      gsize      *out_n)
{
  *out_n = self->starts[1];

  return self->points;
}

guint
odd_polygon_get_n_holes (OddPolygon *self)
{
  return self->n_rings - 1;
}

const OddPoint *
odd_polygon_get_hole (OddPolygon *self,
                      guint       i,
                      gsize      *out_n)
{
  g_return_val_if_fail (i + 1 < self->n_rings, NULL);

  *out_n = self->starts[i + 2] - self->starts[i + 1];

  return self->points + self->starts[i + 1];
}

guint
odd_polygon_get_n_corners (OddPolygon *self)
{
  return self->starts[self->n_rings];
}

double
odd_polygon_get_area (OddPolygon *self)
{
  return self->area_mm2;
}

double
odd_polygon_get_perimeter (OddPolygon *self)
{
  double mm = 0.0;

  for (guint r = 0; r < self->n_rings; r++)
    {
      const OddPoint *ring = self->points + self->starts[r];
      const guint n = self->starts[r + 1] - self->starts[r];

      for (guint i = 0; i < n; i++)
        mm += odd_point_distance (ring[i], ring[(i + 1) % n]);
    }

  return mm;
}

OddBox
odd_polygon_get_box (OddPolygon *self)
{
  return self->box;
}

OddPoint
odd_polygon_get_inside_point (OddPolygon *self)
{
  GEOSContextHandle_t geos = odd_geos_get ();
  GEOSGeometry *geometry = odd_geos_from_polygon (self);
  GEOSGeometry *inside = GEOSPointOnSurface_r (geos, geometry);
  OddPoint p = self->points[0];

  if (inside != NULL)
    {
      GEOSGeomGetX_r (geos, inside, &p.x);
      GEOSGeomGetY_r (geos, inside, &p.y);
    }
  GEOSGeom_destroy_r (geos, inside);
  GEOSGeom_destroy_r (geos, geometry);

  return p;
}

gboolean
odd_polygon_is_convex (OddPolygon *self)
{
  const guint n = self->starts[1];

  if (self->n_rings > 1)
    return FALSE;

  for (guint i = 0; i < n; i++)
    {
      const OddPoint a = self->points[i];
      const OddPoint b = self->points[(i + 2) % n];
      const double inside = odd_point_cross (odd_point_sub (self->points[(i + 1) % n], a), odd_point_sub (b, a));

      if (inside < -ODD_TOLERANCE_MM * odd_point_distance (a, b))
        return FALSE;
    }

  return TRUE;
}

/* x' = xx x + xy y + shift.x, and so on. */
typedef struct
{
  double xx, xy, yx, yy;
  OddPoint shift;
} Matrix;

/* The same rings with each corner moved, by a map that keeps a simple polygon simple. */
static OddPolygon *
map_corners (OddPolygon *self,
             Matrix      m)
{
  g_auto(OddRings) rings = odd_rings_new ();

  g_array_set_size (rings.points, self->starts[self->n_rings]);
  for (guint i = 0; i < rings.points->len; i++)
    {
      const OddPoint p = self->points[i];

      g_array_index (rings.points, OddPoint, i) = odd_point (m.xx * p.x + m.xy * p.y + m.shift.x,
                                                             m.yx * p.x + m.yy * p.y + m.shift.y);
    }
  g_array_append_vals (rings.starts, self->starts + 1, self->n_rings);

  return odd_polygon_new_from_rings (&rings);
}

OddPolygon *
odd_polygon_place (OddPolygon         *self,
                   const OddPlacement *placement)
{
  double c, s;

  g_return_val_if_fail (self != NULL && placement != NULL, NULL);

  odd_turn_cos_sin (placement->turn_deg, &c, &s);

  return map_corners (self, (Matrix) { placement->mirror ? -c : c, -s, placement->mirror ? -s : s, c, placement->shift });
}

OddPolygon *
odd_polygon_scale (OddPolygon *self,
                   double      kx,
                   double      ky)
{
  g_return_val_if_fail (self != NULL && kx > 0.0 && ky > 0.0, NULL);

  return map_corners (self, (Matrix) { kx, 0.0, 0.0, ky, { 0.0, 0.0 } });
}
