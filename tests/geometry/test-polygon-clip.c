#include "geometry/polygon-private.h"
#include "geometry/random-shapes.h"

static double
total_area (GPtrArray *polygons)
{
  double sum = 0;

  for (guint i = 0; i < polygons->len; i++)
    sum += odd_polygon_get_area (g_ptr_array_index (polygons, i));

  return sum;
}

static OddPolygon *
new_u_shape (void)
{
  const OddPoint points[] = { { 0, 0 }, { 20, 0 }, { 20, 50 }, { 60, 50 }, { 60, 0 }, { 100, 0 }, { 100, 80 }, { 0, 80 } };
  g_autoptr(GError) error = NULL;
  OddPolygon *polygon = odd_polygon_new (points, G_N_ELEMENTS (points), &error);

  g_assert_no_error (error);

  return polygon;
}

static void
test_by_hand (void)
{
  g_autoptr(OddPolygon) u = new_u_shape ();
  g_autoptr(GPtrArray) arms = odd_polygon_clip (u, (OddHalfPlane) { { 0, 1 }, 30 });
  g_autoptr(GPtrArray) base = odd_polygon_clip (u, (OddHalfPlane) { { 0, -1 }, -50 });
  g_autoptr(GPtrArray) both_arms = odd_polygon_clip (u, (OddHalfPlane) { { 0, 1 }, 50 });
  g_autoptr(GPtrArray) all = odd_polygon_clip (u, (OddHalfPlane) { { 0, 1 }, 80 });
  g_autoptr(GPtrArray) none = odd_polygon_clip (u, (OddHalfPlane) { { 0, 1 }, -1 });

  g_assert_cmpuint (arms->len, ==, 2);
  g_assert_cmpfloat (odd_polygon_get_area (arms->pdata[0]), ==, 600);
  g_assert_cmpfloat (odd_polygon_get_area (arms->pdata[1]), ==, 1200);
  /* along an edge of its own */
  g_assert_cmpuint (base->len, ==, 1);
  g_assert_cmpfloat (total_area (base), ==, 3000);
  g_assert_cmpfloat (total_area (both_arms), ==, 3000);
  g_assert_cmpuint (all->len, ==, 1);
  g_assert_true (all->pdata[0] == u);
  g_assert_cmpuint (none->len, ==, 0);
}

static void
test_hole (void)
{
  g_autoptr(OddPolygon) whole = odd_polygon_new_box ((OddBox) { 0, 0, 100, 100 });
  g_autoptr(OddPolygon) zone = odd_polygon_new_box ((OddBox) { 40, 40, 20, 20 });
  g_autoptr(GPtrArray) frame = odd_polygon_difference (whole, zone);
  g_autoptr(GPtrArray) half = odd_polygon_clip (frame->pdata[0], (OddHalfPlane) { { 1, 0 }, 50 });

  g_assert_cmpuint (half->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (total_area (half), 4800, 1e-6);
}

/* Both sides together are the whole, and lie in it. */
static void
check_line (OddPolygon  *polygon,
            OddHalfPlane line)
{
  g_autoptr(GPtrArray) one = odd_polygon_clip (polygon, line);
  g_autoptr(GPtrArray) other = odd_polygon_clip (polygon, odd_half_plane_flip (line));

  g_assert_cmpfloat_with_epsilon (total_area (one) + total_area (other), odd_polygon_get_area (polygon), 2e-3);
  for (guint i = 0; i < one->len; i++)
    {
      gsize n;
      const OddPoint *ring = odd_polygon_get_ring (one->pdata[i], &n);

      for (gsize k = 0; k < n; k++)
        {
          g_assert_cmpfloat (odd_half_plane_distance (line, ring[k]), <=, 1.1e-6);
          g_assert_true (odd_polygon_contains_point (polygon, ring[k]));
        }
    }
}

static void
test_keeps_area (void)
{
  for (int round = 0; round < 1000; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 20, odd_point (0, 0), 200);
      gsize n;
      const OddPoint *ring = odd_polygon_get_ring (star, &n);
      const guint i = g_test_rand_int_range (0, (int) n);

      check_line (star, random_half_plane (random_point_in_box ((OddBox) { -150, -150, 300, 300 })));
      check_line (star, random_half_plane (ring[i]));
      check_line (star, odd_half_plane_from_edge (ring[i], ring[(i + 1) % n]));
      check_line (star, odd_half_plane_from_edge (ring[i], ring[(i + n / 2) % n]));
    }
}

static void
test_against_overlay (void)
{
  for (int round = 0; round < 300; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 20, odd_point (0, 0), 200);
      const OddHalfPlane line = random_half_plane (random_point_in_box ((OddBox) { -100, -100, 200, 200 }));
      const int labels[] = { 0, 1, 2, 3 };
      g_autoptr(OddConvex) all = odd_convex_new_rectangle ((OddBox) { -250, -250, 500, 500 }, labels);
      g_autoptr(OddConvex) side = odd_convex_clip (all, line, 4);
      g_autoptr(OddPolygon) cutter = odd_polygon_new_from_convex (side);
      g_autoptr(GPtrArray) expected = odd_polygon_intersection (star, cutter);
      g_autoptr(GPtrArray) got = odd_polygon_clip (star, line);

      g_assert_cmpfloat_with_epsilon (total_area (got), total_area (expected), 0.1);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/polygon-clip/by-hand", test_by_hand);
  g_test_add_func ("/geometry/polygon-clip/hole", test_hole);
  g_test_add_func ("/geometry/polygon-clip/keeps-area", test_keeps_area);
  g_test_add_func ("/geometry/polygon-clip/against-overlay", test_against_overlay);

  return g_test_run ();
}
