#include "geometry/random-shapes.h"

static const OddPoint L_SHAPE[] = { { 0, 0 }, { 100, 0 }, { 100, 40 }, { 40, 40 }, { 40, 120 }, { 0, 120 } };

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
new_frame (void)
{
  const OddPoint outer[] = { { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 } };
  const OddPoint inner[] = { { 40, 40 }, { 60, 40 }, { 60, 60 }, { 40, 60 } };
  g_autoptr(GPtrArray) holes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  g_autoptr(GError) error = NULL;
  GArray *hole = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  OddPolygon *frame;

  g_array_append_vals (hole, inner, 4);
  g_ptr_array_add (holes, hole);
  frame = odd_polygon_new_with_holes (outer, 4, holes, &error);
  g_assert_no_error (error);

  return frame;
}

static OddConvex *
box_convex (double x,
            double y,
            double width,
            double height)
{
  const int labels[] = { 0, 1, 2, 3 };

  return odd_convex_new_rectangle ((OddBox) { x, y, width, height }, labels);
}

static double
total_area (GPtrArray *polygons)
{
  double sum = 0;

  for (guint i = 0; i < polygons->len; i++)
    sum += odd_polygon_get_area (g_ptr_array_index (polygons, i));

  return sum;
}

static void
test_new (void)
{
  const OddPoint closed[] = { { 0, 0 }, { 0, 50 }, { 0, 50 }, { 80, 50 }, { 80, 0 }, { 0, 0 } };
  g_autoptr(OddPolygon) polygon = new_polygon (closed, G_N_ELEMENTS (closed));
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  g_assert_cmpuint (n, ==, 4);
  g_assert_cmpfloat (odd_ring_area (ring, n), ==, 4000);
  g_assert_cmpfloat (ring[0].x, ==, 0);
  g_assert_cmpfloat (ring[1].x, ==, 80);
  g_assert_cmpfloat (odd_polygon_get_area (polygon), ==, 4000);
  g_assert_cmpfloat (odd_polygon_get_box (polygon).width, ==, 80);
  g_assert_true (odd_polygon_is_convex (polygon));
}

static void
assert_refused (const OddPoint *points,
                gsize           n,
                OddPolygonError code,
                const char     *says)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_polygon_new (points, n, &error));
  g_assert_error (error, ODD_POLYGON_ERROR, (int) code);
  if (strstr (error->message, says) == NULL)
    g_error ("\"%s\" does not say \"%s\"", error->message, says);
}

static void
test_new_refuses (void)
{
  const OddPoint bow[] = { { 0, 0 }, { 24, 69 }, { 24, 0 }, { 0, 69 } };
  const OddPoint touching[] = { { 0, 0 }, { 20, 0 }, { 10, 10 }, { 20, 20 }, { 0, 20 }, { 10, 10 } };
  const OddPoint two[] = { { 0, 0 }, { 20, 0 }, { 20, 0 }, { 0, 0 } };
  const OddPoint line[] = { { 0, 0 }, { 20, 0 }, { 10, 0 } };
  const OddPoint nan[] = { { 0, 0 }, { 20, NAN }, { 10, 10 } };

  assert_refused (bow, 4, ODD_POLYGON_ERROR_CROSSING, "crosses itself near 12.0, 34.5 mm");
  assert_refused (touching, 6, ODD_POLYGON_ERROR_CROSSING, "touches itself near 10.0, 10.0 mm");
  assert_refused (two, 4, ODD_POLYGON_ERROR_CORNERS, "at least 3");
  assert_refused (line, 3, ODD_POLYGON_ERROR_CORNERS, "no area");
  assert_refused (nan, 3, ODD_POLYGON_ERROR_CORNERS, "Corner 2");
  assert_refused (NULL, 0, ODD_POLYGON_ERROR_CORNERS, "at least 3");
}

static void
test_holes (void)
{
  g_autoptr(OddPolygon) frame = new_frame ();
  g_autoptr(GPtrArray) outside = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  g_autoptr(GError) error = NULL;
  const OddPoint beyond[] = { { 90, 90 }, { 110, 90 }, { 110, 110 } };
  const OddPoint *ring;
  gsize n;

  g_assert_cmpuint (odd_polygon_get_n_holes (frame), ==, 1);
  g_assert_cmpuint (odd_polygon_get_n_corners (frame), ==, 8);
  g_assert_cmpfloat (odd_polygon_get_area (frame), ==, 9600);
  g_assert_false (odd_polygon_is_convex (frame));
  ring = odd_polygon_get_hole (frame, 0, &n);
  g_assert_cmpfloat (odd_ring_area (ring, n), ==, -400);
  g_assert_true (odd_polygon_contains_point (frame, odd_polygon_get_inside_point (frame)));

  g_ptr_array_add (outside, g_array_append_vals (g_array_new (FALSE, FALSE, sizeof (OddPoint)), beyond, 3));
  ring = odd_polygon_get_ring (frame, &n);
  g_assert_null (odd_polygon_new_with_holes (ring, n, outside, &error));
  g_assert_error (error, ODD_POLYGON_ERROR, ODD_POLYGON_ERROR_CROSSING);
}

static void
test_contains_point (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddPolygon) frame = new_frame ();

  g_assert_true (odd_polygon_contains_point (l, odd_point (20, 100)));
  g_assert_false (odd_polygon_contains_point (l, odd_point (60, 60)));
  g_assert_true (odd_polygon_contains_point (l, odd_point (60, 40)));
  g_assert_true (odd_polygon_contains_point (l, odd_point (100, 40)));
  g_assert_false (odd_polygon_contains_point (frame, odd_point (50, 50)));
  g_assert_true (odd_polygon_contains_point (frame, odd_point (40, 50)));
}

static gboolean
contains_box (OddPolygon *polygon,
              double      x,
              double      y,
              double      width,
              double      height,
              double      tolerance)
{
  g_autoptr(OddConvex) convex = box_convex (x, y, width, height);
  g_autoptr(OddPolygon) same = odd_polygon_new_from_convex (convex);
  const gboolean contains = odd_polygon_contains_convex (polygon, convex, tolerance);

  g_assert_cmpint (odd_polygon_contains (polygon, same, tolerance), ==, contains);

  return contains;
}

static void
test_contains_convex (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddPolygon) frame = new_frame ();

  g_assert_true (contains_box (l, 0, 0, 100, 40, 0));
  g_assert_true (contains_box (l, 0, 0, 40, 120, 0));
  g_assert_false (contains_box (l, 0, 0, 41, 120, 0.5));
  g_assert_true (contains_box (l, 0, 0, 41, 120, 1.5));
  g_assert_false (contains_box (l, 0, 0, 100, 120, 1));     /* all corners but one on the L */
  g_assert_false (contains_box (l, -0.1, 0, 40, 40, 0.05));
  g_assert_false (contains_box (l, 150, 0, 10, 10, 0.05));
  g_assert_false (contains_box (frame, 40, 40, 20, 20, 0.5));   /* the hole itself: every corner on cloth */
  g_assert_false (contains_box (frame, 30, 30, 40, 40, 0.5));   /* the hole inside: every corner in cloth */
  g_assert_true (contains_box (frame, 0, 0, 40, 100, 0));
  g_assert_true (contains_box (l, 10, 10, 50, 0.01, 0.1));      /* thinner than the tolerance */
  g_assert_true (contains_box (l, 100.05, 10, 0.01, 5, 0.1));
  g_assert_false (contains_box (l, 10, 40.2, 80, 0.01, 0.1));
}

static void
test_contains_agrees_with_overlay (void)
{
  guint n_in = 0;
  guint n_out = 0;

  g_test_summary ("Against GEOS' overlay: inside exactly when nothing is left over");
  for (int round = 0; round < 4000; round++)
    {
      g_autoptr(OddPolygon) star = random_star (3 + round % 14, odd_point (0, 0), 200);
      g_autoptr(OddConvex) centred = random_convex (3 + round % 5, g_test_rand_double_range (5, 90));
      g_autoptr(OddConvex) convex = NULL;
      g_autoptr(OddPolygon) same = NULL;
      double outside;
      gboolean contains;

      if (centred == NULL)
        continue;
      convex = odd_convex_shift (centred, odd_point_sub (random_point_in_box ((OddBox) { -60, -60, 120, 120 }),
                                                         odd_convex_centroid (centred)));
      same = odd_polygon_new_from_convex (convex);
      outside = odd_polygon_outside_area (star, same);
      contains = odd_polygon_contains_convex (star, convex, 1e-6);
      if (outside > 1e-3)
        g_assert_false (contains);
      if (outside == 0)
        g_assert_true (contains);
      n_in += contains;
      n_out += !contains;
    }
  g_assert_cmpuint (n_in, >, 300);
  g_assert_cmpuint (n_out, >, 300);
}

static void
test_contains_own_clip (void)
{
  g_test_summary ("A patch that uses its scrap up to the edge fits, whatever the turn");
  for (int round = 0; round < 500; round++)
    {
      g_autoptr(OddConvex) whole = random_convex (4 + round % 6, 200);
      g_autoptr(OddConvex) part = NULL;
      g_autoptr(OddConvex) placed = NULL;
      g_autoptr(OddPolygon) cloth = NULL;
      g_autoptr(OddPolygon) placed_cloth = NULL;
      const OddPlacement placement = { g_test_rand_double_range (0, 360), g_test_rand_bit (), { 300, -80 } };

      if (whole == NULL)
        continue;
      part = odd_convex_clip (whole, random_half_plane (odd_convex_centroid (whole)), 99);
      cloth = odd_polygon_new_from_convex (whole);
      placed = odd_convex_place (part, &placement);
      placed_cloth = odd_polygon_place (cloth, &placement);
      g_assert_true (odd_polygon_contains_convex (cloth, part, 0));
      g_assert_true (odd_polygon_contains_convex (placed_cloth, placed, 0));
    }
}

static void
test_contains_polygon (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(GPtrArray) smaller = odd_polygon_shrink (l, 1);
  g_autoptr(GPtrArray) larger = odd_polygon_grow (l, 1);

  g_assert_true (odd_polygon_contains (l, l, 0));
  g_assert_true (odd_polygon_contains (l, smaller->pdata[0], 0));
  g_assert_false (odd_polygon_contains (l, larger->pdata[0], 0.5));
  g_assert_true (odd_polygon_contains (l, larger->pdata[0], 1.6));    /* mitred: root 2 at the corners */
  g_assert_cmpfloat_with_epsilon (odd_polygon_outside_area (l, larger->pdata[0]), 444, 1e-6);
}

static void
test_place (void)
{
  g_autoptr(OddPolygon) frame = new_frame ();
  const OddPlacement placement = { 33, TRUE, { 500, -20 } };
  const OddPlacement back = odd_placement_inverse (&placement);
  g_autoptr(OddPolygon) placed = odd_polygon_place (frame, &placement);
  g_autoptr(OddPolygon) again = odd_polygon_place (placed, &back);
  gsize n, n_again;
  const OddPoint *ring = odd_polygon_get_ring (frame, &n);
  const OddPoint *ring_again = odd_polygon_get_ring (again, &n_again);

  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (placed), 9600, 1e-8);
  g_assert_cmpuint (n, ==, n_again);
  for (gsize i = 0; i < n; i++)
    g_assert_cmpfloat (odd_point_distance (ring[i], ring_again[i]), <, 1e-9);
}

static void
test_scale (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddPolygon) washed = odd_polygon_scale (l, 0.95, 0.97);

  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (washed), 7200 * 0.95 * 0.97, 1e-8);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_box (washed).height, 116.4, 1e-9);
}

static void
test_sets_keep_area (void)
{
  for (int round = 0; round < 400; round++)
    {
      g_autoptr(OddPolygon) a = random_star (3 + round % 12, odd_point (0, 0), 200);
      g_autoptr(OddPolygon) b = random_star (3 + round % 7, odd_point (80, 30), 200);
      OddPolygon *const both[] = { a, b };
      g_autoptr(GPtrArray) common = odd_polygon_intersection (a, b);
      g_autoptr(GPtrArray) rest = odd_polygon_difference (a, b);
      g_autoptr(GPtrArray) rest_many = odd_polygon_difference_many (a, &both[1], 1);
      g_autoptr(GPtrArray) all = odd_polygon_union (both, 2);

      g_assert_cmpfloat_with_epsilon (total_area (common) + total_area (rest), odd_polygon_get_area (a), 0.1);
      g_assert_cmpfloat_with_epsilon (total_area (rest_many), total_area (rest), 0.1);
      g_assert_cmpfloat_with_epsilon (total_area (all) + total_area (common),
                                      odd_polygon_get_area (a) + odd_polygon_get_area (b), 0.1);
      g_assert_cmpfloat_with_epsilon (odd_polygon_overlap_area (a, b), total_area (common), 0.1);
      g_assert_cmpfloat_with_epsilon (odd_polygon_outside_area (b, a), total_area (rest), 0.1);
    }
}

/* Shapes inside, across the border, outside, touching one another: whichever way they are taken off, the same is left. */
static void
test_many_taken_off (void)
{
  guint n_openings = 0;

  for (int round = 0; round < 600; round++)
    {
      g_autoptr(OddPolygon) a = random_star (3 + round % 12, odd_point (0, 0), 200);
      const double x = g_test_rand_double_range (-160, 160), y = g_test_rand_double_range (-160, 160), gap = round % 3 == 0 ? 0.0 : g_test_rand_double_range (-5, 40);
      g_autoptr(OddPolygon) one = odd_polygon_new_box ((OddBox) { x, y, 30, 20 });
      g_autoptr(OddPolygon) two = odd_polygon_new_box ((OddBox) { x + 30 + gap, y, 25, 35 });
      OddPolygon *const both[] = { one, two };
      g_autoptr(GPtrArray) at_once = odd_polygon_difference_many (a, both, 2);
      g_autoptr(GPtrArray) first = odd_polygon_difference (a, one);
      double in_turn = 0.0;

      for (guint i = 0; i < first->len; i++)
        {
          g_autoptr(GPtrArray) rest = odd_polygon_difference (first->pdata[i], two);

          in_turn += total_area (rest);
        }
      g_assert_cmpfloat_with_epsilon (total_area (at_once), in_turn, 0.05);
      for (guint i = 0; i < at_once->len; i++)
        {
          n_openings += odd_polygon_get_n_holes (at_once->pdata[i]);
          g_assert_cmpfloat (odd_polygon_overlap_area (at_once->pdata[i], one), <, 0.01);
          g_assert_cmpfloat (odd_polygon_overlap_area (at_once->pdata[i], two), <, 0.01);
        }
    }
  g_assert_cmpuint (n_openings, >, 50);
}

static void
test_sets_nearly_coincident (void)
{
  const OddPoint cloth_points[] = {
    { 27.770268060658275, 19.729448466975349 }, { 9.1918917498067465, 113.27517097381285 },
    { -50.965685698942124, 10.429314214622963 }, { -147.71076594304066, 3.8424009615207559 },
    { -39.481329544280136, -47.707882787700591 }, { -1.3813946417980336, -159.80349672340458 },
    { 53.73551545414913, -41.88692412891298 },
  };
  const OddPoint part_points[] = {
    { -1.3813946417980305, -159.80349672340458 }, { 53.73551545414913, -41.88692412891298 },
    { 29.384027631640862, 15.899944765394174 }, { -59.05427438681582, 9.878600608384582 },
  };
  g_autoptr(OddPolygon) cloth = new_polygon (cloth_points, G_N_ELEMENTS (cloth_points));
  g_autoptr(OddPolygon) part = new_polygon (part_points, G_N_ELEMENTS (part_points));
  const double area = odd_polygon_get_area (part);

  g_test_summary ("A part cut from cloth: GEOS 3.11.1 without a grid says that nothing of it lies in the cloth");
  g_assert_true (odd_polygon_contains (cloth, part, 1e-6));
  g_assert_cmpfloat_with_epsilon (odd_polygon_overlap_area (cloth, part), area, 1e-3);
  g_assert_cmpfloat_with_epsilon (odd_polygon_outside_area (cloth, part), 0, 1e-3);
  g_assert_cmpfloat_with_epsilon (odd_polygon_outside_area (part, cloth), odd_polygon_get_area (cloth) - area, 1e-3);
}

static void
test_sets_order (void)
{
  g_autoptr(OddPolygon) bar = odd_polygon_new_box ((OddBox) { 0, 0, 100, 10 });
  g_autoptr(OddPolygon) gap = odd_polygon_new_box ((OddBox) { 40, -5, 20, 20 });
  g_autoptr(OddPolygon) far = odd_polygon_new_box ((OddBox) { 400, -5, 20, 20 });
  g_autoptr(GPtrArray) rest = odd_polygon_difference (bar, gap);
  g_autoptr(GPtrArray) untouched = odd_polygon_difference (bar, far);
  g_autoptr(GPtrArray) none = odd_polygon_intersection (bar, far);
  g_autoptr(GPtrArray) nothing_left = odd_polygon_difference (bar, bar);
  gsize n;

  g_assert_cmpuint (rest->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const OddPoint *ring = odd_polygon_get_ring (rest->pdata[i], &n);

      g_assert_cmpuint (n, ==, 4);
      g_assert_cmpfloat (ring[0].x, ==, i == 0 ? 0 : 60);
      g_assert_cmpfloat (ring[0].y, ==, 0);
    }
  g_assert_cmpuint (untouched->len, ==, 1);
  g_assert_true (untouched->pdata[0] == bar);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (nothing_left->len, ==, 0);
}

static void
test_shrink (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(GPtrArray) shrunk = odd_polygon_shrink (l, 10);
  g_autoptr(GPtrArray) gone = odd_polygon_shrink (l, 21);
  g_autoptr(GPtrArray) same = odd_polygon_shrink (l, 0);

  g_assert_cmpuint (shrunk->len, ==, 1);
  /* arms 20 wide: 80 x 20 and 20 x 80 */
  g_assert_cmpfloat_with_epsilon (total_area (shrunk), 80 * 20 + 20 * 80, 1e-6);
  g_assert_cmpuint (gone->len, ==, 0);
  g_assert_true (same->pdata[0] == l);
}

static void
test_simplify_inside (void)
{
  for (int round = 0; round < 60; round++)
    {
      enum { N = 200 };
      OddPoint wobbly[N];
      g_autoptr(OddPolygon) polygon = NULL;
      g_autoptr(OddPolygon) simple = NULL;

      for (int i = 0; i < N; i++)
        {
          const double t = i / (double) N;
          const double x = CLAMP (fabs (remainder (t - 0.375, 1)) * 4 - 0.5, 0, 1) * 150;
          const double y = CLAMP (fabs (remainder (t - 0.125, 1)) * 4 - 0.5, 0, 1) * 100;

          wobbly[i] = odd_point (x + g_test_rand_double_range (-0.3, 0.3), y + g_test_rand_double_range (-0.3, 0.3));
        }
      polygon = new_polygon (wobbly, N);
      simple = odd_polygon_simplify_inside (polygon, 1, 16);
      g_assert_nonnull (simple);
      g_assert_cmpuint (odd_polygon_get_n_corners (simple), <=, 16);
      g_assert_true (odd_polygon_contains (polygon, simple, 1e-6));
      g_assert_cmpfloat (odd_polygon_get_area (simple), >, 0.93 * odd_polygon_get_area (polygon));
    }
}

static void
test_simplify_enough (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddPolygon) same = odd_polygon_simplify_inside (l, 1, 6);
  g_autoptr(OddPolygon) small = odd_polygon_new_box ((OddBox) { 0, 0, 1.5, 30 });

  g_assert_true (same == l);
  g_assert_null (odd_polygon_simplify_inside (small, 1, 3));
}

static void
test_convex_hull (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autoptr(OddConvex) hull = odd_polygon_convex_hull (l);

  g_assert_cmpuint (hull->n, ==, 5);
  g_assert_cmpfloat_with_epsilon (odd_convex_area (hull), 12000 - 60 * 80 / 2, 1e-9);
}

static gpointer
thread_func (gpointer data)
{
  OddPolygon *polygon = data;
  double sum = 0;

  for (int i = 0; i < 200; i++)
    {
      const OddPlacement placement = { i, FALSE, { 5, 5 } };
      g_autoptr(OddPolygon) placed = odd_polygon_place (polygon, &placement);

      sum += odd_polygon_overlap_area (polygon, placed);
    }

  return g_memdup2 (&sum, sizeof sum);
}

static void
test_threads (void)
{
  g_autoptr(OddPolygon) l = new_polygon (L_SHAPE, 6);
  g_autofree double *expected = thread_func (l);
  GThread *threads[4];

  g_test_summary ("One polygon in four threads gives each the same bits");
  for (int i = 0; i < 4; i++)
    threads[i] = g_thread_new ("overlay", thread_func, l);
  for (int i = 0; i < 4; i++)
    {
      g_autofree double *sum = g_thread_join (threads[i]);

      g_assert_cmpfloat (*sum, ==, *expected);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/polygon/new", test_new);
  g_test_add_func ("/geometry/polygon/new/refuses", test_new_refuses);
  g_test_add_func ("/geometry/polygon/holes", test_holes);
  g_test_add_func ("/geometry/polygon/contains/point", test_contains_point);
  g_test_add_func ("/geometry/polygon/contains/convex", test_contains_convex);
  g_test_add_func ("/geometry/polygon/contains/agrees-with-overlay", test_contains_agrees_with_overlay);
  g_test_add_func ("/geometry/polygon/contains/own-clip", test_contains_own_clip);
  g_test_add_func ("/geometry/polygon/contains/polygon", test_contains_polygon);
  g_test_add_func ("/geometry/polygon/place", test_place);
  g_test_add_func ("/geometry/polygon/scale", test_scale);
  g_test_add_func ("/geometry/polygon/sets/keep-area", test_sets_keep_area);
  g_test_add_func ("/geometry/polygon/sets/many-taken-off", test_many_taken_off);
  g_test_add_func ("/geometry/polygon/sets/nearly-coincident", test_sets_nearly_coincident);
  g_test_add_func ("/geometry/polygon/sets/order", test_sets_order);
  g_test_add_func ("/geometry/polygon/shrink", test_shrink);
  g_test_add_func ("/geometry/polygon/simplify/inside", test_simplify_inside);
  g_test_add_func ("/geometry/polygon/simplify/enough", test_simplify_enough);
  g_test_add_func ("/geometry/polygon/convex-hull", test_convex_hull);
  g_test_add_func ("/geometry/polygon/threads", test_threads);

  return g_test_run ();
}
