#include "geometry/point.h"

#define assert_point(p, ex, ey, tolerance) \
  G_STMT_START { \
    const OddPoint got_ = (p); \
    g_assert_cmpfloat (fabs (got_.x - (ex)), <=, (tolerance)); \
    g_assert_cmpfloat (fabs (got_.y - (ey)), <=, (tolerance)); \
  } G_STMT_END

static OddPlacement
random_placement (void)
{
  return (OddPlacement) { g_test_rand_double_range (-720, 720), g_test_rand_bit (),
                          { g_test_rand_double_range (-2000, 2000), g_test_rand_double_range (-2000, 2000) } };
}

static OddPoint
random_point (void)
{
  return odd_point (g_test_rand_double_range (-1000, 1000), g_test_rand_double_range (-1000, 1000));
}

static void
test_quarter_turns (void)
{
  const double expected[4][2] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };

  for (int q = -9; q <= 9; q++)
    {
      double c, s;

      odd_turn_cos_sin (90.0 * q, &c, &s);
      g_assert_cmpfloat (c, ==, expected[(q + 12) % 4][0]);
      g_assert_cmpfloat (s, ==, expected[(q + 12) % 4][1]);
    }
}

static void
test_turn_against_libm (void)
{
  for (int i = 0; i < 1000; i++)
    {
      const double deg = g_test_rand_double_range (-1000, 1000);
      double c, s;

      odd_turn_cos_sin (deg, &c, &s);
      g_assert_cmpfloat_with_epsilon (c, cos (deg * G_PI / 180), 1e-12);
      g_assert_cmpfloat_with_epsilon (s, sin (deg * G_PI / 180), 1e-12);
    }
}

static void
test_placement_by_hand (void)
{
  const OddPlacement quarter = { 90, FALSE, { 10, 20 } };
  const OddPlacement mirrored = { 90, TRUE, { 0, 0 } };

  g_test_summary ("A positive turn goes from x towards y; the mirror comes before the turn");
  assert_point (odd_placement_apply (&quarter, odd_point (3, 0)), 10, 23, 0);
  assert_point (odd_placement_apply (&mirrored, odd_point (3, 0)), 0, -3, 0);
  g_assert_cmpfloat (odd_placement_apply_angle (&quarter, 300), ==, 30);
  g_assert_cmpfloat (odd_placement_apply_angle (&mirrored, 30), ==, 240);
}

static void
test_placement_undo (void)
{
  for (int i = 0; i < 1000; i++)
    {
      const OddPlacement p = random_placement ();
      const OddPlacement inverse = odd_placement_inverse (&p);
      const OddPoint a = random_point ();
      const OddPoint placed = odd_placement_apply (&p, a);

      assert_point (odd_placement_undo (&p, placed), a.x, a.y, 1e-9);
      assert_point (odd_placement_apply (&inverse, placed), a.x, a.y, 1e-9);
    }
}

static void
test_placement_compose (void)
{
  for (int i = 0; i < 1000; i++)
    {
      const OddPlacement inner = random_placement ();
      const OddPlacement outer = random_placement ();
      const OddPlacement both = odd_placement_compose (&outer, &inner);
      const OddPoint a = random_point ();
      const OddPoint expected = odd_placement_apply (&outer, odd_placement_apply (&inner, a));
      const double grain = g_test_rand_double_range (0, 360);
      double difference;

      assert_point (odd_placement_apply (&both, a), expected.x, expected.y, 1e-9);
      difference = odd_placement_apply_angle (&both, grain)
                   - odd_placement_apply_angle (&outer, odd_placement_apply_angle (&inner, grain));
      g_assert_cmpfloat_with_epsilon (remainder (difference, 360), 0, 1e-9);
    }
}

static void
test_half_plane_of_edge (void)
{
  const OddHalfPlane top = odd_half_plane_from_edge (odd_point (0, 5), odd_point (8, 5));

  g_test_summary ("The top edge of a ring drawn clockwise: below it is inside");
  assert_point (top.normal, 0, -1, 0);
  g_assert_cmpfloat (odd_half_plane_distance (top, odd_point (3, 7)), ==, -2);
  g_assert_cmpfloat (odd_half_plane_distance (odd_half_plane_push (top, 2), odd_point (3, 3)), ==, 0);
  g_assert_cmpfloat (odd_half_plane_distance (odd_half_plane_flip (top), odd_point (3, 7)), ==, 2);
}

static void
test_half_plane_place (void)
{
  for (int i = 0; i < 1000; i++)
    {
      const OddPlacement placement = random_placement ();
      const OddPoint p = random_point ();
      const OddHalfPlane h = odd_half_plane_from_edge (random_point (), random_point ());
      const OddHalfPlane placed = odd_half_plane_place (h, &placement);

      g_assert_cmpfloat_with_epsilon (odd_half_plane_distance (placed, odd_placement_apply (&placement, p)),
                                      odd_half_plane_distance (h, p), 1e-9);
    }
}

static void
test_half_planes_meet (void)
{
  const OddHalfPlane right = { { 1, 0 }, 7 };
  const OddHalfPlane bottom = { { 0, 1 }, 4 };
  OddPoint corner = { -1, -1 };

  g_assert_true (odd_half_plane_meet (right, bottom, &corner));
  assert_point (corner, 7, 4, 0);
  g_assert_false (odd_half_plane_meet (right, odd_half_plane_flip (right), &corner));
  assert_point (corner, 7, 4, 0);
}

static void
test_boxes (void)
{
  const OddPoint points[] = { { 3, 4 }, { -1, 9 }, { 2, 0 } };
  const OddBox box = odd_box_from_points (points, 3);

  g_assert_cmpfloat (box.x, ==, -1);
  g_assert_cmpfloat (box.y, ==, 0);
  g_assert_cmpfloat (box.width, ==, 4);
  g_assert_cmpfloat (box.height, ==, 9);
  g_assert_true (odd_box_is_empty (odd_box_from_points (points, 0)));
  g_assert_cmpfloat (odd_box_union (ODD_BOX_EMPTY, box).height, ==, 9);
  g_assert_cmpfloat (odd_box_union (box, (OddBox) { 10, 1, 5, 1 }).width, ==, 16);
  g_assert_true (odd_box_meets (box, (OddBox) { 3, 9, 1, 1 }));
  g_assert_false (odd_box_meets (box, (OddBox) { 3.1, 9, 1, 1 }));
  g_assert_true (odd_box_contains (odd_box_grow (box, 1), odd_point (-2, 10)));
  g_assert_false (odd_box_contains (box, odd_point (-2, 9)));
}

static void
test_segment_distance (void)
{
  const OddSegment s = { { 0, 0 }, { 10, 0 } };

  g_assert_cmpfloat (odd_segment_length (s), ==, 10);
  g_assert_cmpfloat (odd_segment_distance (s, odd_point (4, 3)), ==, 3);
  g_assert_cmpfloat (odd_segment_distance (s, odd_point (13, 4)), ==, 5);
}

static void
test_ring_area (void)
{
  const OddPoint clockwise_on_screen[] = { { 0, 0 }, { 4, 0 }, { 4, 3 }, { 0, 3 } };
  const OddPoint other_way[] = { { 0, 3 }, { 4, 3 }, { 4, 0 }, { 0, 0 } };

  g_assert_cmpfloat (odd_ring_area (clockwise_on_screen, 4), ==, 12);
  g_assert_cmpfloat (odd_ring_area (other_way, 4), ==, -12);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/point/quarter-turns", test_quarter_turns);
  g_test_add_func ("/geometry/point/turn-against-libm", test_turn_against_libm);
  g_test_add_func ("/geometry/point/placement-by-hand", test_placement_by_hand);
  g_test_add_func ("/geometry/point/placement-undo", test_placement_undo);
  g_test_add_func ("/geometry/point/placement-compose", test_placement_compose);
  g_test_add_func ("/geometry/point/half-plane-of-edge", test_half_plane_of_edge);
  g_test_add_func ("/geometry/point/half-plane-place", test_half_plane_place);
  g_test_add_func ("/geometry/point/half-planes-meet", test_half_planes_meet);
  g_test_add_func ("/geometry/point/boxes", test_boxes);
  g_test_add_func ("/geometry/point/segment-distance", test_segment_distance);
  g_test_add_func ("/geometry/point/ring-area", test_ring_area);

  return g_test_run ();
}
