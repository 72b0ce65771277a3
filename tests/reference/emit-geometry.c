/* Works out random cases of geometry and prints each with its answer, one JSON object a line, for
 * check-geometry.py to work out again. Usage: emit-geometry SEED CASES */
#include "geometry/inscribed.h"

#include <stdio.h>
#include <stdlib.h>

static GRand *generator;

static double
between (double from,
         double to)
{
  return g_rand_double_range (generator, from, to);
}

static int
compare_doubles (const void *a,
                 const void *b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Mostly a ring about a point; in every seventh two neighbours are drawn together so that they make a nearly flat corner. */
static OddConvex *
random_convex (guint round)
{
  const guint n = 3 + round % 6;
  const double radius = between (20, 150);
  const double flat = between (0.15, 1);
  const OddPoint centre = { between (-200, 200), between (-200, 200) };
  double angles[8];
  OddPoint points[8];
  int labels[8];

  for (guint i = 0; i < n; i++)
    angles[i] = between (0, 2 * G_PI);
  qsort (angles, n, sizeof (double), compare_doubles);
  for (guint i = 0; i < n; i++)
    {
      points[i] = odd_point_add (centre, odd_point (radius * cos (angles[i]), flat * radius * sin (angles[i])));
      labels[i] = (int) i;
    }
  if (round % 7 == 0 && n > 3)
    {
      const OddPoint middle = odd_point_lerp (points[0], points[2], between (0.2, 0.8));

      points[1] = odd_point_lerp (middle, points[1], 1e-3);
    }

  return odd_convex_new (points, labels, n);
}

static OddConvex *
need_convex (guint round)
{
  OddConvex *convex = NULL;

  while (convex == NULL || odd_convex_min_width (convex) < 0.5)
    {
      g_clear_pointer (&convex, odd_convex_unref);
      convex = random_convex (round);
    }

  return convex;
}

static guint
random_ring (guint     round,
             double    spread,
             OddPoint *points)
{
  const guint n = 3 + round % 14;
  const OddPoint centre = { between (-60, 60), between (-60, 60) };

  for (guint i = 0; i < n; i++)
    {
      const double angle = 2 * G_PI * (i + between (0.5 - spread, 0.5 + spread)) / n;
      const double r = 150 * between (0.25, 1);

      points[i] = odd_point_add (centre, odd_point (r * cos (angle), r * sin (angle)));
    }

  return n;
}

static OddPolygon *
random_polygon (guint round)
{
  OddPoint points[16];
  const guint n = random_ring (round, 0.45, points);
  OddPolygon *polygon = odd_polygon_new (points, n, NULL);

  if (round % 5 == 0)      /* with a hole or a notch */
    {
      g_autoptr(OddPolygon) whole = polygon;
      g_autoptr(OddPolygon) zone = odd_polygon_new_box ((OddBox) { between (-40, 20), between (-40, 20), between (3, 40), between (3, 40) });
      g_autoptr(GPtrArray) rest = odd_polygon_difference (whole, zone);

      polygon = odd_polygon_ref (rest->len > 0 ? g_ptr_array_index (rest, 0) : whole);
    }

  return polygon;
}

static void
put_ring (const OddPoint *points,
          gsize           n)
{
  printf ("[");
  for (gsize i = 0; i < n; i++)
    printf ("%s[%.17g,%.17g]", i > 0 ? "," : "", points[i].x, points[i].y);
  printf ("]");
}

static void
put_convex (const char      *name,
            const OddConvex *convex)
{
  printf (",\"%s\":", name);
  if (convex == NULL)
    printf ("null");
  else
    put_ring (convex->points, convex->n);
}

static void
put_rings (OddPolygon *polygon)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  printf ("[");
  put_ring (ring, n);
  for (guint i = 0; i < odd_polygon_get_n_holes (polygon); i++)
    {
      ring = odd_polygon_get_hole (polygon, i, &n);
      printf (",");
      put_ring (ring, n);
    }
  printf ("]");
}

static void
put_polygon (const char *name,
             OddPolygon *polygon)
{
  printf (",\"%s\":", name);
  if (polygon == NULL)
    printf ("null");
  else
    put_rings (polygon);
}

static void
put_polygons (const char *name,
              GPtrArray  *polygons)
{
  printf (",\"%s\":[", name);
  for (guint i = 0; i < polygons->len; i++)
    {
      if (i > 0)
        printf (",");
      put_rings (g_ptr_array_index (polygons, i));
    }
  printf ("]");
}

static void
put_placement (const OddPlacement *p)
{
  printf (",\"turn\":%.17g,\"mirror\":%s,\"shift\":[%.17g,%.17g]",
          p->turn_deg, p->mirror ? "true" : "false", p->shift.x, p->shift.y);
}

static void
emit_clip (guint round)
{
  g_autoptr(OddConvex) region = need_convex (round);
  const double angle = between (0, 2 * G_PI);
  OddHalfPlane keep = { { cos (angle), sin (angle) }, 0 };
  g_autoptr(OddConvex) part = NULL;

  keep.offset_mm = odd_point_dot (keep.normal, odd_convex_centroid (region)) + between (-80, 80);
  part = odd_convex_clip (region, keep, 99);
  put_convex ("region", region);
  printf (",\"normal\":[%.17g,%.17g],\"offset\":%.17g", keep.normal.x, keep.normal.y, keep.offset_mm);
  put_convex ("part", part);
}

static void
emit_cut_shape (guint round)
{
  static const double USUAL[] = { 6.35, 10, 12.7, 15.875 };
  g_autoptr(OddConvex) region = need_convex (round);
  g_autoptr(OddConvex) cut = NULL;
  double allowances[8];

  for (guint i = 0; i < region->n; i++)
    allowances[i] = round % 3 == 0 ? 12.7 : USUAL[g_rand_int_range (generator, 0, 4)];
  cut = odd_convex_cut_shape (region, allowances);
  put_convex ("region", region);
  printf (",\"allowances\":[");
  for (guint i = 0; i < region->n; i++)
    printf ("%s%.17g", i > 0 ? "," : "", allowances[i]);
  printf ("]");
  put_convex ("cut", cut);
}

static void
emit_sets (guint round)
{
  g_autoptr(OddPolygon) a = random_polygon (round);
  g_autoptr(OddPolygon) b = random_polygon (round + 4);
  OddPolygon *const both[] = { a, b };
  g_autoptr(GPtrArray) common = odd_polygon_intersection (a, b);
  g_autoptr(GPtrArray) rest = odd_polygon_difference (a, b);
  g_autoptr(GPtrArray) all = odd_polygon_union (both, 2);

  put_polygon ("a", a);
  put_polygon ("b", b);
  put_polygons ("intersection", common);
  put_polygons ("difference", rest);
  put_polygons ("union", all);
  printf (",\"overlap\":%.17g,\"outside\":%.17g", odd_polygon_overlap_area (a, b), odd_polygon_outside_area (b, a));
}

static void
emit_offset (guint round)
{
  g_autoptr(OddPolygon) polygon = random_polygon (round);
  const double by = between (0.5, 20);
  g_autoptr(GPtrArray) shrunk = odd_polygon_shrink (polygon, by);
  g_autoptr(GPtrArray) grown = odd_polygon_grow (polygon, by);
  g_autoptr(OddPolygon) simple = odd_polygon_simplify_inside (polygon, by, 3);

  put_polygon ("polygon", polygon);
  printf (",\"by\":%.17g", by);
  put_polygons ("shrunk", shrunk);
  put_polygons ("grown", grown);
  put_polygon ("simple", simple);
}

static void
emit_contains (guint round)
{
  g_autoptr(OddPolygon) polygon = random_polygon (round);
  g_autoptr(OddConvex) any = need_convex (round / 3);
  const OddPoint middle = odd_polygon_get_inside_point (polygon);
  g_autoptr(OddConvex) inner = odd_convex_shift (any, odd_point_sub (middle, odd_convex_centroid (any)));
  const OddPoint p = { between (-150, 150), between (-150, 150) };

  put_polygon ("polygon", polygon);
  put_convex ("inner", inner);
  printf (",\"contains\":%s", odd_polygon_contains_convex (polygon, inner, 1e-6) ? "true" : "false");
  printf (",\"point\":[%.17g,%.17g],\"contains_point\":%s", p.x, p.y, odd_polygon_contains_point (polygon, p) ? "true" : "false");
}

static void
emit_new (guint round)
{
  OddPoint points[16];
  const guint n = random_ring (round, 1.1, points);
  g_autoptr(OddPolygon) polygon = odd_polygon_new (points, n, NULL);

  printf (",\"ring\":");
  put_ring (points, n);
  printf (",\"area\":");
  if (polygon == NULL)
    printf ("null");
  else
    printf ("%.17g", odd_polygon_get_area (polygon));
}

static void
emit_strips (guint round)
{
  g_autoptr(OddPolygon) polygon = random_polygon (round);
  const OddPlacement placement = { between (0, 360), g_rand_boolean (generator), { between (-50, 50), between (-50, 50) } };
  const double shear = round % 2 == 0 ? 0 : between (-0.5, 0.5);
  g_autoptr(OddStrips) strips = odd_strips_new (polygon, &placement, shear);
  const OddBox box = odd_strips_get_box (strips);
  const double y0 = box.y + box.height * between (0, 0.9);
  const double y1 = y0 + between (1, 60);
  OddInterval set[64];
  const guint n = odd_strips_query (strips, y0, y1, set, 64);

  put_polygon ("polygon", polygon);
  put_placement (&placement);
  printf (",\"shear\":%.17g,\"y0\":%.17g,\"y1\":%.17g,\"set\":[", shear, y0, y1);
  for (guint i = 0; i < n; i++)
    printf ("%s[%.17g,%.17g]", i > 0 ? "," : "", set[i].from, set[i].to);
  printf ("]");
}

static void
emit_rectangle (guint round)
{
  g_autoptr(OddPolygon) polygon = random_polygon (round);
  g_autoptr(GArray) turns = odd_polygon_flush_turns (polygon, 40);
  double turn = 0;
  OddBox box = { 0 };

  put_polygon ("polygon", polygon);
  if (odd_polygon_largest_rectangle (polygon, (double *) turns->data, turns->len, 1, &turn, &box))
    printf (",\"turn\":%.17g,\"box\":[%.17g,%.17g,%.17g,%.17g]", turn, box.x, box.y, box.width, box.height);
  else
    printf (",\"turn\":0,\"box\":null");
}

static void
emit_fit (guint round)
{
  g_autoptr(OddPolygon) polygon = random_polygon (round % 6);
  g_autoptr(OddConvexParts) parts = odd_convex_parts_new (polygon);
  g_autoptr(OddConvex) shape = need_convex (round);
  OddPoint shift;

  put_polygon ("polygon", polygon);
  put_convex ("shape", shape);
  if (odd_convex_parts_fit (parts, shape, &shift))
    printf (",\"shift\":[%.17g,%.17g]", shift.x, shift.y);
  else
    printf (",\"shift\":null");
  printf (",\"parts\":[");
  for (guint i = 0; i < odd_convex_parts_get_n (parts); i++)
    {
      const OddConvex *part = odd_convex_parts_get (parts, i);

      printf ("%s", i > 0 ? "," : "");
      put_ring (part->points, part->n);
    }
  printf ("]");
}

static void
emit_place (guint round)
{
  g_autoptr(OddPolygon) polygon = random_polygon (round);
  const OddPlacement placement = { between (-720, 720), g_rand_boolean (generator), { between (-500, 500), between (-500, 500) } };
  g_autoptr(OddPolygon) placed = odd_polygon_place (polygon, &placement);

  put_polygon ("polygon", polygon);
  put_placement (&placement);
  put_polygon ("placed", placed);
}

int
main (int   argc,
      char *argv[])
{
  static const struct
  {
    const char *kind;
    void (*emit) (guint round);
  } KINDS[] = {
    { "clip", emit_clip }, { "cut-shape", emit_cut_shape }, { "sets", emit_sets }, { "offset", emit_offset },
    { "contains", emit_contains }, { "new", emit_new }, { "strips", emit_strips }, { "rectangle", emit_rectangle },
    { "fit", emit_fit }, { "place", emit_place },
  };

  if (argc != 3)
    return 2;

  generator = g_rand_new_with_seed ((guint32) g_ascii_strtoull (argv[1], NULL, 10));
  for (guint round = 0; round < g_ascii_strtoull (argv[2], NULL, 10); round++)
    for (guint i = 0; i < G_N_ELEMENTS (KINDS); i++)
      {
        printf ("{\"kind\":\"%s\"", KINDS[i].kind);
        KINDS[i].emit (round);
        printf ("}\n");
      }
  g_rand_free (generator);

  return 0;
}
