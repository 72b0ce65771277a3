#include "geometry/inscribed.h"
#include "geometry/random-shapes.h"

static const OddPoint L_SHAPE[] = { { 0, 0 }, { 100, 0 }, { 100, 40 }, { 40, 40 }, { 40, 120 }, { 0, 120 } };
static const int LABELS[] = { 0, 1, 2, 3 };

static OddPolygon *
new_polygon (const OddPoint *points,
             gsize           n)
{
  g_autoptr(GError) error = NULL;
  OddPolygon *polygon = odd_polygon_new (points, n, &error);

  g_assert_no_error (error);

  return polygon;
}

static OddPolygon *
turned (OddPolygon *polygon,
        double      turn_deg)
{
  const OddPlacement placement = { turn_deg, FALSE, { 40, -70 } };

  return odd_polygon_place (polygon, &placement);
}

static void
test_flush_turns (void)
{
  g_autoptr(OddPolygon) box = odd_polygon_new_box ((OddBox) { 0, 0, 80, 30 });
  g_autoptr(OddPolygon) tilted = turned (box, 20);
  g_autoptr(GArray) upright = odd_polygon_flush_turns (box, 1);
  g_autoptr(GArray) turns = odd_polygon_flush_turns (tilted, 1);
  g_autoptr(GArray) none = odd_polygon_flush_turns (box, 100);

  g_assert_cmpuint (upright->len, ==, 4);
  g_assert_cmpuint (turns->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpfloat (g_array_index (upright, double, i), ==, 90.0 * i);
      g_assert_cmpfloat_with_epsilon (g_array_index (turns, double, i), 70 + 90.0 * i, 1e-9);
    }
  g_assert_cmpuint (none->len, ==, 0);
}

static void
test_flush_turns_merge (void)
{
  const OddPoint nearly[] = { { 0, 0 }, { 100, 0.01 }, { 100, 50 }, { 0, 50.01 } };
  g_autoptr(OddPolygon) polygon = new_polygon (nearly, 4);
  g_autoptr(GArray) turns = odd_polygon_flush_turns (polygon, 1);

  g_assert_cmpuint (turns->len, ==, 4);
}

static void
test_largest_rectangle_by_hand (void)
{
  const OddPoint triangle_points[] = { { 0, 100 }, { 100, 100 }, { 50, 0 } };
  const double turns[] = { 0, 90 };
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddPolygon) triangle = new_polygon (triangle_points, 3);
  OddBox box;
  double turn = -1;

  /* 40 x 120 beats 100 x 40 */
  g_assert_true (odd_polygon_largest_rectangle (l, turns, 1, 10, &turn, &box));
  g_assert_cmpfloat (turn, ==, 0);
  g_assert_cmpfloat (box.width, ==, 40);
  g_assert_cmpfloat (box.height, ==, 120);
  g_assert_false (odd_polygon_largest_rectangle (l, turns, 2, 41, &turn, &box));
  g_assert_cmpfloat (box.width, ==, 40);

  /* half of a triangle, the text-book case */
  g_assert_true (odd_polygon_largest_rectangle (triangle, turns, 1, 10, &turn, &box));
  g_assert_cmpfloat_with_epsilon (box.width * box.height, 2500, 2);
}

static void
test_largest_rectangle_inside (void)
{
  for (int round = 0; round < 150; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 14, odd_point (0, 0), 200);
      g_autoptr(GArray) turns = odd_polygon_flush_turns (star, 20);
      OddPlacement placement = { 0 };
      OddBox box;

      if (!odd_polygon_largest_rectangle (star, (double *) turns->data, turns->len, 5, &placement.turn_deg, &box))
        continue;

      {
        g_autoptr(OddPolygon) placed = odd_polygon_place (star, &placement);
        g_autoptr(OddConvex) rectangle = odd_convex_new_rectangle (box, LABELS);

        g_assert_cmpfloat (box.width, >=, 5);
        g_assert_cmpfloat (box.height, >=, 5);
        g_assert_true (odd_polygon_contains_convex (placed, rectangle, 1e-5));
      }
    }
}

static void
test_largest_rectangle_against_grid (void)
{
  const double upright[] = { 0 };

  g_test_summary ("At least nine tenths of what every pair of fine levels gives");
  for (int round = 0; round < 20; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 8, odd_point (0, 0), 200);
      const OddPlacement placement = { 0 };
      g_autoptr(OddStrips) strips = odd_strips_new (star, &placement, 0);
      const OddBox frame = odd_strips_get_box (strips);
      double grid = 0;
      double turn;
      OddBox box = { 0 };

      for (int i = 0; i < 100; i++)
        for (int k = i + 1; k <= 100; k++)
          {
            OddInterval x;

            if (odd_strips_widest (strips, frame.y + frame.height * i / 100, frame.y + frame.height * k / 100, &x))
              grid = MAX (grid, (x.to - x.from) * frame.height * (k - i) / 100);
          }
      g_assert_true (odd_polygon_largest_rectangle (star, upright, 1, 0, &turn, &box));
      g_assert_cmpfloat (box.width * box.height, >=, 0.9 * grid);
    }
}

static void
test_largest_square_by_hand (void)
{
  const OddPoint triangle_points[] = { { 0, 100 }, { 100, 100 }, { 50, 0 } };
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddPolygon) tilted = turned (l, 33);
  g_autoptr(OddPolygon) triangle = new_polygon (triangle_points, 3);

  g_assert_cmpfloat_with_epsilon (odd_polygon_largest_square (l, 0), 40, 0.021);
  g_assert_cmpfloat_with_epsilon (odd_polygon_largest_square (tilted, 0), 40, 0.021);
  g_assert_cmpfloat (odd_polygon_largest_square (l, 30), ==, 30);
  g_assert_cmpfloat (odd_polygon_largest_square (l, 50), <, 41);
  /* a b / (a + b) on the base of a triangle, b = height */
  g_assert_cmpfloat_with_epsilon (odd_polygon_largest_square (triangle, 0), 50, 0.021);
}

static void
test_parts_convex (void)
{
  g_autoptr(OddPolygon) box = odd_polygon_new_box ((OddBox) { 10, 20, 80, 30 });
  g_autoptr(OddConvexParts) parts = odd_convex_parts_new (box);
  g_autoptr(OddConvex) same = odd_convex_new_rectangle ((OddBox) { 0, 0, 80, 30 }, LABELS);
  g_autoptr(OddConvex) larger = odd_convex_new_rectangle ((OddBox) { 0, 0, 80.01, 30 }, LABELS);
  OddPoint shift = { -1, -1 };

  g_assert_cmpuint (odd_convex_parts_get_n (parts), ==, 1);
  g_assert_false (odd_convex_parts_fit (parts, larger, &shift));
  g_assert_cmpfloat (shift.x, ==, -1);
  g_assert_true (odd_convex_parts_fit (parts, same, &shift));
  g_assert_cmpfloat_with_epsilon (shift.x, 10, 1e-5);
  g_assert_cmpfloat_with_epsilon (shift.y, 20, 1e-5);
}

static void
test_parts_l_shape (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddConvexParts) parts = odd_convex_parts_new (l);
  g_autoptr(OddConvex) across = odd_convex_new_rectangle ((OddBox) { 0, 0, 100, 40 }, LABELS);
  g_autoptr(OddConvex) down = odd_convex_new_rectangle ((OddBox) { -500, 300, 40, 120 }, LABELS);
  g_autoptr(OddConvex) square = odd_convex_new_rectangle ((OddBox) { 0, 0, 45, 45 }, LABELS);
  OddPoint shift;

  g_assert_cmpuint (odd_convex_parts_get_n (parts), ==, 4);
  g_assert_true (odd_convex_parts_fit (parts, across, &shift));
  g_assert_true (odd_convex_parts_fit (parts, down, &shift));
  g_assert_cmpfloat_with_epsilon (shift.x, 500, 1e-5);
  g_assert_false (odd_convex_parts_fit (parts, square, &shift));
}

static void
test_parts_hole (void)
{
  const OddPoint outer[] = { { 0, 0 }, { 200, 0 }, { 200, 200 }, { 0, 200 } };
  const OddPoint inner[] = { { 90, 90 }, { 110, 90 }, { 110, 110 }, { 90, 110 } };
  g_autoptr(GPtrArray) holes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  g_autoptr(OddPolygon) frame = NULL;
  g_autoptr(OddConvexParts) parts = NULL;
  g_autoptr(OddConvex) bar = odd_convex_new_rectangle ((OddBox) { 0, 0, 200, 90 }, LABELS);
  g_autoptr(OddConvex) square = odd_convex_new_rectangle ((OddBox) { 0, 0, 120, 120 }, LABELS);
  g_autoptr(GError) error = NULL;
  OddPoint shift;

  g_ptr_array_add (holes, g_array_append_vals (g_array_new (FALSE, FALSE, sizeof (OddPoint)), inner, 4));
  frame = odd_polygon_new_with_holes (outer, 4, holes, &error);
  g_assert_no_error (error);
  parts = odd_convex_parts_new (frame);

  for (guint i = 0; i < odd_convex_parts_get_n (parts); i++)
    g_assert_true (odd_polygon_contains_convex (frame, odd_convex_parts_get (parts, i), 1e-5));
  g_assert_true (odd_convex_parts_fit (parts, bar, &shift));
  g_assert_false (odd_convex_parts_fit (parts, square, &shift));
}

/* A sheet out of whose edges much has been cut, aslant: far more inward corners than can be tried, and most of it is still there. */
static void
test_parts_sheet (void)
{
  const OddPoint corners[] = { { 0, 0 }, { 900, 0 }, { 900, 900 }, { 0, 900 } };
  g_autoptr(OddConvex) shape = odd_convex_new_rectangle ((OddBox) { -35.0, -35.0, 70.0, 70.0 }, LABELS);
  g_autoptr(OddConvex) back = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, 350.0, 350.0 }, LABELS);
  g_autoptr(OddPolygon) sheet = odd_polygon_new (corners, 4, NULL);
  g_autoptr(OddConvexParts) parts = NULL;
  OddPoint shift;

  for (guint i = 0; i < 40; i++)
    {
      const double along_mm = 50.0 + 89.0 * (i / 4);
      const OddPoint at[4] = { { along_mm, 20.0 }, { 880.0, along_mm }, { along_mm, 880.0 }, { 20.0, along_mm } };
      const OddPlacement placement = { 7.0 + 53.0 * i, FALSE, at[i % 4] };
      g_autoptr(OddConvex) cut = odd_convex_place (shape, &placement);
      g_autoptr(GPtrArray) left = odd_polygon_difference_convex (sheet, cut);

      odd_polygon_unref (sheet);
      sheet = NULL;
      for (guint k = 0; k < left->len; k++)
        if (sheet == NULL || odd_polygon_get_area (left->pdata[k]) > odd_polygon_get_area (sheet))
          {
            g_clear_pointer (&sheet, odd_polygon_unref);
            sheet = odd_polygon_ref (left->pdata[k]);
          }
    }
  parts = odd_convex_parts_new (sheet);
  g_assert_true (odd_convex_parts_fit (parts, back, &shift));
}

static void
test_parts_never_false (void)
{
  guint n_fits = 0;

  for (int round = 0; round < 120; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 10, odd_point (0, 0), 200);
      g_autoptr(OddConvexParts) parts = odd_convex_parts_new (star);

      g_assert_cmpuint (odd_convex_parts_get_n (parts), >, 0);
      for (guint i = 0; i < odd_convex_parts_get_n (parts); i++)
        g_assert_true (odd_polygon_contains_convex (star, odd_convex_parts_get (parts, i), 1e-5));
      for (int k = 0; k < 20; k++)
        {
          g_autoptr(OddConvex) shape = random_convex (3 + k % 4, g_test_rand_double_range (10, 80));
          OddPoint shift;

          if (shape == NULL || !odd_convex_parts_fit (parts, shape, &shift))
            continue;

          {
            g_autoptr(OddConvex) placed = odd_convex_shift (shape, shift);

            g_assert_true (odd_polygon_contains_convex (star, placed, 1e-5));
            n_fits++;
          }
        }
    }
  g_assert_cmpuint (n_fits, >, 200);
}

static void
test_parts_find_most (void)
{
  guint n_planted = 0;
  guint n_found = 0;

  g_test_summary ("Of shapes that do fit, planted in non-convex cloth, nine in ten are found");
  for (int round = 0; round < 400; round++)
    {
      g_autoptr(OddPolygon) star = random_star (5 + round % 6, odd_point (0, 0), 200);
      g_autoptr(OddConvexParts) parts = odd_convex_parts_new (star);
      g_autoptr(OddConvex) centred = random_convex (4, g_test_rand_double_range (20, 60));
      g_autoptr(OddConvex) shape = NULL;
      OddPoint shift;

      if (centred == NULL)
        continue;
      shape = odd_convex_shift (centred, odd_point_scale (odd_convex_centroid (centred), -1));
      if (!odd_polygon_contains_convex (star, shape, 1e-6))
        continue;
      n_planted++;
      n_found += odd_convex_parts_fit (parts, shape, &shift);
    }
  g_assert_cmpuint (n_planted, >, 50);
  g_assert_cmpuint (10 * n_found, >=, 9 * n_planted);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/inscribed/flush-turns", test_flush_turns);
  g_test_add_func ("/geometry/inscribed/flush-turns/merge", test_flush_turns_merge);
  g_test_add_func ("/geometry/inscribed/largest-rectangle/by-hand", test_largest_rectangle_by_hand);
  g_test_add_func ("/geometry/inscribed/largest-rectangle/inside", test_largest_rectangle_inside);
  g_test_add_func ("/geometry/inscribed/largest-rectangle/against-grid", test_largest_rectangle_against_grid);
  g_test_add_func ("/geometry/inscribed/largest-square/by-hand", test_largest_square_by_hand);
  g_test_add_func ("/geometry/inscribed/parts/convex", test_parts_convex);
  g_test_add_func ("/geometry/inscribed/parts/l-shape", test_parts_l_shape);
  g_test_add_func ("/geometry/inscribed/parts/hole", test_parts_hole);
  g_test_add_func ("/geometry/inscribed/parts/sheet", test_parts_sheet);
  g_test_add_func ("/geometry/inscribed/parts/never-false", test_parts_never_false);
  g_test_add_func ("/geometry/inscribed/parts/find-most", test_parts_find_most);

  return g_test_run ();
}
