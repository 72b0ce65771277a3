#include "geometry/random-shapes.h"

#define assert_box(convex, ex, ey, ew, eh) \
  G_STMT_START { \
    const OddBox box_ = odd_convex_box (convex); \
    g_assert_cmpfloat_with_epsilon (box_.x, (ex), 1e-9); \
    g_assert_cmpfloat_with_epsilon (box_.y, (ey), 1e-9); \
    g_assert_cmpfloat_with_epsilon (box_.width, (ew), 1e-9); \
    g_assert_cmpfloat_with_epsilon (box_.height, (eh), 1e-9); \
  } G_STMT_END

static const int LABELS[] = { 1, 2, 3, 4, 5, 6 };

static OddConvex *
cut_shape (const OddPoint *points,
           guint           n,
           const double   *allowances)
{
  g_autoptr(OddConvex) region = odd_convex_new (points, LABELS, n);

  g_assert_nonnull (region);
  g_assert_cmpuint (region->n, ==, n);

  return odd_convex_cut_shape (region, allowances);
}

static gboolean
has_corner (const OddConvex *convex,
            double           x,
            double           y)
{
  for (guint i = 0; i < convex->n; i++)
    if (odd_point_distance (convex->points[i], odd_point (x, y)) < 1e-9)
      return TRUE;

  return FALSE;
}

static void
test_square (void)
{
  const OddPoint square[] = { { 0, 0 }, { 94.6, 0 }, { 94.6, 94.6 }, { 0, 94.6 } };
  const double allowances[] = { 12.7, 12.7, 12.7, 12.7 };
  g_autoptr(OddConvex) cut = cut_shape (square, 4, allowances);

  g_test_summary ("94.6 finished and half an inch all round are 120 cut (sum by hand)");
  g_assert_cmpuint (cut->n, ==, 4);
  assert_box (cut, -12.7, -12.7, 120, 120);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpint (cut->labels[i], ==, LABELS[i]);
}

static void
test_unequal (void)
{
  const OddPoint square[] = { { 0, 0 }, { 100, 0 }, { 100, 80 }, { 0, 80 } };
  const double allowances[] = { 5, 12.7, 0, 16 };     /* top, right, bottom, left */
  g_autoptr(OddConvex) cut = cut_shape (square, 4, allowances);

  assert_box (cut, -16, -5, 128.7, 85);
  g_assert_cmpuint (cut->n, ==, 4);
}

static void
test_no_allowance (void)
{
  const OddPoint sharp[] = { { 0, 0 }, { 100, -5 }, { 100, 5 } };
  const double allowances[] = { 0, 0, 0 };
  g_autoptr(OddConvex) region = odd_convex_new (sharp, LABELS, 3);
  g_autoptr(OddConvex) cut = odd_convex_cut_shape (region, allowances);

  g_assert_true (odd_convex_equal (region, cut, 1e-9));
}

static void
test_equilateral (void)
{
  const double height = 50 * sqrt (3);
  const OddPoint triangle[] = { { 0, 0 }, { 100, 0 }, { 50, height } };
  const double allowances[] = { 10, 10, 10 };
  g_autoptr(OddConvex) cut = cut_shape (triangle, 3, allowances);

  g_test_summary ("At 60 degrees the tip lies at 2 x the allowance exactly: still whole");
  g_assert_cmpuint (cut->n, ==, 3);
  g_assert_true (has_corner (cut, 50, height + 20));
}

static void
test_sharp_tip (void)
{
  /* Tip of 2 atan (1/4) = 28.07 degrees at the origin, pointing left; base at x = 100. */
  const OddPoint triangle[] = { { 0, 0 }, { 100, -25 }, { 100, 25 } };
  const double a = 10;
  const double allowances[] = { a, a, a };
  const double tip = a * sqrt (17);         /* a / sin (half angle); tan = 1/4, so sin = 1/sqrt 17 */
  const double half = (tip - 2 * a) / 4;    /* half the square cut: the rest of the tip x tan */
  g_autoptr(OddConvex) cut = cut_shape (triangle, 3, allowances);
  guint n_square = 0;

  g_test_summary ("A tip at 4.12 allowances is cut square at two");
  g_assert_cmpuint (cut->n, ==, 4);
  g_assert_true (has_corner (cut, -2 * a, half));
  g_assert_true (has_corner (cut, -2 * a, -half));
  for (guint i = 0; i < cut->n; i++)
    if (cut->labels[i] == G_MININT)
      {
        const OddSegment s = odd_convex_edge (cut, i);

        n_square++;
        g_assert_cmpfloat_with_epsilon (s.from.x, -2 * a, 1e-9);
        g_assert_cmpfloat_with_epsilon (odd_segment_length (s), 2 * half, 1e-9);
      }
  g_assert_cmpuint (n_square, ==, 1);
}

static void
test_sharp_tip_unequal (void)
{
  const OddPoint triangle[] = { { 0, 0 }, { 100, 0 }, { 100, 20 } };
  const double allowances[] = { 0, 10, 10 };
  g_autoptr(OddConvex) cut = cut_shape (triangle, 3, allowances);

  g_test_summary ("The tip runs out along the edge without allowance and is cut across it at 2 x 10");
  g_assert_true (has_corner (cut, -20, 0));
  g_assert_cmpfloat_with_epsilon (odd_convex_box (cut).x, -20, 1e-9);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (cut).y, 0, 1e-9);
}

static void
test_step (void)
{
  /* The top edge has two seams, on one line: 6 wide to the left, 16 to the right. */
  const OddPoint region[] = { { 0, 0 }, { 60, 0 }, { 100, 0 }, { 100, 80 }, { 0, 80 } };
  const double allowances[] = { 6, 16, 10, 10, 10 };
  g_autoptr(OddConvex) cut = cut_shape (region, 5, allowances);

  g_test_summary ("The wider strip holds up to the corner; the step is bridged to the far end of the narrow one");
  g_assert_cmpuint (cut->n, ==, 5);
  g_assert_true (has_corner (cut, 60, -16));
  g_assert_true (has_corner (cut, 110, -16));
  g_assert_true (has_corner (cut, -10, -6));
  assert_box (cut, -10, -16, 120, 106);
  /* 120 x 106 less the triangle over the bridge, 70 x 10 / 2 */
  g_assert_cmpfloat_with_epsilon (odd_convex_area (cut), 120 * 106 - 350, 1e-9);
  for (guint i = 0; i < cut->n; i++)
    g_assert_cmpint (cut->labels[i], >, 0);
}

static void
test_straight_and_equal (void)
{
  const OddPoint region[] = { { 0, 0 }, { 60, 0 }, { 100, 0 }, { 100, 80 }, { 0, 80 } };
  const double allowances[] = { 10, 10, 10, 10, 10 };
  g_autoptr(OddConvex) cut = cut_shape (region, 5, allowances);

  assert_box (cut, -10, -10, 120, 100);
  g_assert_cmpfloat_with_epsilon (odd_convex_area (cut), 12000, 1e-9);
}

static void
test_two_steps (void)
{
  const OddPoint region[] = { { 0, 0 }, { 30, 0 }, { 70, 0 }, { 100, 0 }, { 100, 80 }, { 0, 80 } };
  const double allowances[] = { 16, 6, 12, 10, 10, 10 };
  g_autoptr(OddConvex) cut = cut_shape (region, 6, allowances);

  g_test_summary ("Narrow between two wider strips: bridged from one to the other");
  g_assert_true (has_corner (cut, 30, -16));
  g_assert_true (has_corner (cut, 110, -12));
  /* (70, -12) lies under the bridge from (30, -16) to (110, -12) */
  g_assert_false (has_corner (cut, 70, -12));
  g_assert_true (odd_convex_contains (cut, odd_point (70, -12), 1e-9));
  assert_box (cut, -10, -16, 120, 106);
}

static void
test_nearly_flat_unequal_is_no_tip (void)
{
  /* Turn of about 5.7 degrees, allowances 0 and 10: the lines meet 100 mm to the side. */
  const OddPoint region[] = { { 0, 0 }, { 100, 0 }, { 200, 10 }, { 200, 200 }, { 0, 200 } };
  const double allowances[] = { 0, 10, 10, 10, 10 };
  g_autoptr(OddConvex) cut = cut_shape (region, 5, allowances);

  for (guint i = 0; i < 5; i++)
    g_assert_true (odd_convex_contains (cut, region[i], 1e-9));
}

/* The strip between an edge and its pushed line must lie in the cut shape, where the neighbours push at least as far and
 * no tip is near: middle of the edge. */
static void
test_holds_the_region (void)
{
  for (int round = 0; round < 500; round++)
    {
      g_autoptr(OddConvex) region = random_convex (3 + round % 8, 150);
      g_autoptr(OddConvex) cut = NULL;
      double allowances[12];
      double most = 0;

      if (region == NULL)
        continue;
      for (guint i = 0; i < region->n; i++)
        {
          allowances[i] = g_test_rand_double_range (0, 20);
          most = MAX (most, allowances[i]);
        }
      cut = odd_convex_cut_shape (region, allowances);
      g_assert_nonnull (cut);
      for (guint i = 0; i < region->n; i++)
        g_assert_true (odd_convex_contains (cut, region->points[i], 1e-6));
      g_assert_cmpfloat (odd_convex_area (cut), >=, odd_convex_area (region) - 1e-6);
      for (guint i = 0; i < cut->n; i++)
        {
          double nearest = G_MAXDOUBLE;

          for (guint k = 0; k < region->n; k++)
            nearest = MIN (nearest, odd_segment_distance (odd_convex_edge (region, k), cut->points[i]));
          g_assert_cmpfloat (nearest, <=, 4 * most + 1e-6);
        }
    }
}

static void
test_equal_allowances_hold_all_strips (void)
{
  g_test_summary ("With one allowance, everything that near to an edge's middle part is in the cut shape");
  for (int round = 0; round < 500; round++)
    {
      g_autoptr(OddConvex) region = random_convex (3 + round % 8, 150);
      g_autoptr(OddConvex) cut = NULL;
      double allowances[12];

      if (region == NULL)
        continue;
      for (guint i = 0; i < region->n; i++)
        allowances[i] = 12.7;
      cut = odd_convex_cut_shape (region, allowances);
      for (guint i = 0; i < region->n; i++)
        {
          const OddSegment s = odd_convex_edge (region, i);
          const OddPoint out = odd_point_scale (odd_convex_edge_half_plane (region, i).normal, 12.7);

          g_assert_true (odd_convex_contains (cut, odd_point_add (s.from, out), 1e-6));
          g_assert_true (odd_convex_contains (cut, odd_point_add (s.to, out), 1e-6));
        }
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/cut-shape/square", test_square);
  g_test_add_func ("/geometry/cut-shape/unequal", test_unequal);
  g_test_add_func ("/geometry/cut-shape/no-allowance", test_no_allowance);
  g_test_add_func ("/geometry/cut-shape/equilateral", test_equilateral);
  g_test_add_func ("/geometry/cut-shape/sharp-tip", test_sharp_tip);
  g_test_add_func ("/geometry/cut-shape/sharp-tip-unequal", test_sharp_tip_unequal);
  g_test_add_func ("/geometry/cut-shape/step", test_step);
  g_test_add_func ("/geometry/cut-shape/straight-and-equal", test_straight_and_equal);
  g_test_add_func ("/geometry/cut-shape/two-steps", test_two_steps);
  g_test_add_func ("/geometry/cut-shape/nearly-flat-unequal-is-no-tip", test_nearly_flat_unequal_is_no_tip);
  g_test_add_func ("/geometry/cut-shape/holds-the-region", test_holds_the_region);
  g_test_add_func ("/geometry/cut-shape/equal-allowances-hold-all-strips", test_equal_allowances_hold_all_strips);

  return g_test_run ();
}
