#include "geometry/inscribed.h"
#include "geometry/random-shapes.h"

static const OddPoint L_SHAPE[] = { { 0, 0 }, { 100, 0 }, { 100, 40 }, { 40, 40 }, { 40, 120 }, { 0, 120 } };
static const OddPlacement IDENTITY = { 0, FALSE, { 0, 0 } };

static OddStrips *
strips_of (const OddPoint *points,
           gsize           n)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddPolygon) polygon = odd_polygon_new (points, n, &error);

  g_assert_no_error (error);

  return odd_strips_new (polygon, &IDENTITY, 0);
}

static void
test_levels (void)
{
  g_autoptr(OddStrips) l = strips_of (L_SHAPE, 6);
  guint n;
  const double *levels = odd_strips_get_levels (l, &n);

  g_assert_cmpuint (n, ==, 3);
  g_assert_cmpfloat (levels[0], ==, 0);
  g_assert_cmpfloat (levels[1], ==, 40);
  g_assert_cmpfloat (levels[2], ==, 120);
  g_assert_cmpfloat (odd_strips_get_box (l).width, ==, 100);
}

static void
test_l_shape (void)
{
  g_autoptr(OddStrips) l = strips_of (L_SHAPE, 6);
  OddInterval x = { -1, -1 };

  g_assert_true (odd_strips_widest (l, 0, 40, &x));
  g_assert_cmpfloat (x.from, ==, 0);
  g_assert_cmpfloat (x.to, ==, 100);
  g_assert_true (odd_strips_widest (l, 30, 60, &x));
  g_assert_cmpfloat (x.to, ==, 40);
  g_assert_false (odd_strips_widest (l, 30, 121, &x));
  g_assert_false (odd_strips_widest (l, -1, 30, &x));
  g_assert_cmpfloat (x.to, ==, 40);
  /* a rounding error off the levels */
  g_assert_true (odd_strips_widest (l, -1e-9, 40 + 1e-9, &x));
  g_assert_cmpfloat (x.to, ==, 100);
}

static void
test_triangle (void)
{
  const OddPoint points[] = { { 50, 0 }, { 100, 100 }, { 0, 100 } };
  g_autoptr(OddStrips) triangle = strips_of (points, 3);
  OddInterval x;

  g_test_summary ("Half-way up a triangle is half as wide");
  g_assert_true (odd_strips_widest (triangle, 50, 100, &x));
  g_assert_cmpfloat (x.from, ==, 25);
  g_assert_cmpfloat (x.to, ==, 75);
  g_assert_false (odd_strips_widest (triangle, 0, 100, &x));
}

static void
test_two_arms (void)
{
  const OddPoint u_shape[] = { { 0, 0 }, { 20, 0 }, { 20, 50 }, { 60, 50 }, { 60, 0 }, { 100, 0 }, { 100, 80 }, { 0, 80 } };
  g_autoptr(OddStrips) u = strips_of (u_shape, 8);
  OddInterval x[4];

  g_assert_cmpuint (odd_strips_query (u, 10, 80, x, 4), ==, 2);
  g_assert_cmpfloat (x[0].to, ==, 20);
  g_assert_cmpfloat (x[1].from, ==, 60);
  g_assert_cmpuint (odd_strips_query (u, 10, 80, x, 1), ==, 2);
  g_assert_cmpuint (odd_strips_query (u, 50, 80, x, 4), ==, 1);
  g_assert_cmpfloat (x[0].to, ==, 100);
}

static void
test_channel (void)
{
  const OddPoint points[] = { { 50, 100 }, { 100, 0 }, { 0, 0 } };
  g_autoptr(OddStrips) l = strips_of (L_SHAPE, 6);
  g_autoptr(OddStrips) triangle = strips_of (points, 3);
  OddInterval x = { -1, -1 };

  g_assert_cmpfloat (odd_strips_channel (l, 0, 41, &x), ==, 40);
  g_assert_cmpfloat (x.to, ==, 100);
  g_assert_cmpfloat (odd_strips_channel (l, 0, 40, &x), ==, 120);
  g_assert_cmpfloat (odd_strips_channel (l, 10, 101, &x), ==, 0);
  g_assert_cmpfloat (x.to, ==, 40);
  g_assert_cmpfloat (odd_strips_channel (l, 120, 10, &x), ==, 0);
  /* 60 wide in a triangle 100 wide and high: 40 */
  g_assert_cmpfloat_with_epsilon (odd_strips_channel (triangle, 0, 60, &x), 40, 0.0101);
  g_assert_cmpfloat (x.to - x.from, >=, 60 - 1e-6);
}

/* Is the upright line at x cloth from y0 to y1, by points? */
static gboolean
line_is_cloth (OddPolygon *placed,
               double      x,
               double      y0,
               double      y1)
{
  for (int i = 0; i <= 200; i++)
    if (!odd_polygon_contains_point (placed, odd_point (x, y0 + (y1 - y0) * i / 200)))
      return FALSE;

  return TRUE;
}

static gboolean
in_set (const OddInterval *set,
        guint              n,
        double             x,
        double             margin)
{
  for (guint i = 0; i < n; i++)
    if (x >= set[i].from - margin && x <= set[i].to + margin)
      return TRUE;

  return FALSE;
}

static void
test_against_points (void)
{
  guint n_in = 0;

  g_test_summary ("A strip set holds the x whose points are all cloth");
  for (int round = 0; round < 300; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 14, odd_point (30, -20), 200);
      const OddPlacement placement = { g_test_rand_double_range (0, 360), g_test_rand_bit (), { 7, 11 } };
      g_autoptr(OddPolygon) placed = odd_polygon_place (star, &placement);
      g_autoptr(OddStrips) strips = odd_strips_new (star, &placement, 0);
      const OddBox box = odd_polygon_get_box (placed);
      const double y0 = box.y + box.height * g_test_rand_double_range (0, 0.8);
      const double y1 = y0 + g_test_rand_double_range (1, 80);
      OddInterval set[32];
      const guint n = odd_strips_query (strips, y0, y1, set, 32);

      g_assert_cmpuint (n, <=, 32);
      for (int i = 0; i < 50; i++)
        {
          const double x = g_test_rand_double_range (box.x, box.x + box.width);
          const gboolean cloth = line_is_cloth (placed, x, y0, y1);

          if (in_set (set, n, x, -1e-3))
            g_assert_true (cloth);
          /* points can step over a corner that reaches in, no farther than one step */
          if (cloth && !in_set (set, n, x, 1e-3))
            g_assert_false (line_is_cloth (placed, x - 0.8, y0, y1) && line_is_cloth (placed, x + 0.8, y0, y1)
                            && line_is_cloth (placed, x - 0.4, y0, y1) && line_is_cloth (placed, x + 0.4, y0, y1));
          n_in += cloth;
        }
    }
  g_assert_cmpuint (n_in, >, 500);
}

static void
test_widest_is_inside (void)
{
  for (int round = 0; round < 500; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 14, odd_point (30, -20), 200);
      const OddPlacement placement = { g_test_rand_double_range (0, 360), g_test_rand_bit (), { 7, 11 } };
      g_autoptr(OddPolygon) placed = odd_polygon_place (star, &placement);
      g_autoptr(OddStrips) strips = odd_strips_new (star, &placement, 0);
      const int labels[] = { 0, 1, 2, 3 };
      const double y0 = g_test_rand_double_range (-60, 60);
      OddInterval x;

      if (!odd_strips_widest (strips, y0, y0 + 30, &x) || x.to - x.from < 0.1)
        continue;

      {
        g_autoptr(OddConvex) inside = odd_convex_new_rectangle ((OddBox) { x.from, y0, x.to - x.from, 30 }, labels);
        g_autoptr(OddConvex) wider = odd_convex_new_rectangle ((OddBox) { x.from - 0.01, y0, x.to - x.from + 0.02, 30 }, labels);

        g_assert_true (odd_polygon_contains_convex (placed, inside, 1e-6));
        g_assert_false (odd_polygon_contains_convex (placed, wider, 1e-6));
      }
    }
}

static void
test_channel_against_widest (void)
{
  for (int round = 0; round < 500; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 14, odd_point (0, 0), 200);
      g_autoptr(OddStrips) strips = odd_strips_new (star, &IDENTITY, 0);
      const double y0 = g_test_rand_double_range (-100, 60);
      const double width = g_test_rand_double_range (5, 120);
      OddInterval x;
      const double height = odd_strips_channel (strips, y0, width, &x);
      OddInterval widest = { 0, 0 };

      if (height > 0)
        {
          g_assert_true (odd_strips_widest (strips, y0, y0 + height, &widest));
          g_assert_cmpfloat (widest.to - widest.from, >=, width - 2e-6);
          g_assert_cmpfloat_with_epsilon (x.from, widest.from, 1e-6);
        }
      if (odd_strips_widest (strips, y0, y0 + height + 0.011, &widest))
        g_assert_cmpfloat (widest.to - widest.from, <, width + 1e-6);
    }
}

static void
test_shear (void)
{
  const double tilt = 0.3;

  g_test_summary ("A tilted channel is an upright one after the shear");
  for (int round = 0; round < 200; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 14, odd_point (0, 0), 200);
      g_autoptr(OddStrips) strips = odd_strips_new (star, &IDENTITY, tilt);
      OddInterval x;

      if (!odd_strips_widest (strips, -20, 20, &x) || x.to - x.from < 0.1)
        continue;

      {
        const OddPoint slanted[] = { { x.from + tilt * -20, -20 }, { x.to + tilt * -20, -20 }, { x.to + tilt * 20, 20 }, { x.from + tilt * 20, 20 } };
        const int labels[] = { 0, 1, 2, 3 };
        g_autoptr(OddConvex) channel = odd_convex_new (slanted, labels, 4);

        g_assert_true (odd_polygon_contains_convex (star, channel, 1e-6));
      }
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/strips/levels", test_levels);
  g_test_add_func ("/geometry/strips/l-shape", test_l_shape);
  g_test_add_func ("/geometry/strips/triangle", test_triangle);
  g_test_add_func ("/geometry/strips/two-arms", test_two_arms);
  g_test_add_func ("/geometry/strips/channel", test_channel);
  g_test_add_func ("/geometry/strips/against-points", test_against_points);
  g_test_add_func ("/geometry/strips/widest-is-inside", test_widest_is_inside);
  g_test_add_func ("/geometry/strips/channel-against-widest", test_channel_against_widest);
  g_test_add_func ("/geometry/strips/shear", test_shear);

  return g_test_run ();
}
