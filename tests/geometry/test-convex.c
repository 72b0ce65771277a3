#include "geometry/random-shapes.h"

static const int SIDES[] = { 1, 2, 3, 4 };     /* top, right, bottom, left */

static int
label_at (const OddConvex *convex,
          double           x,
          double           y)
{
  for (guint i = 0; i < convex->n; i++)
    if (odd_segment_distance (odd_convex_edge (convex, i), odd_point (x, y)) < 1e-6)
      return convex->labels[i];

  g_error ("no edge at %g, %g", x, y);
}

static OddConvex *
rectangle (double x,
           double y,
           double width,
           double height)
{
  return odd_convex_new_rectangle ((OddBox) { x, y, width, height }, SIDES);
}

static void
test_rectangle (void)
{
  g_autoptr(OddConvex) r = rectangle (10, 20, 30, 40);

  g_assert_cmpuint (r->n, ==, 4);
  g_assert_cmpfloat (odd_convex_area (r), ==, 1200);
  g_assert_cmpfloat (odd_convex_perimeter (r), ==, 140);
  g_assert_cmpfloat (odd_convex_centroid (r).x, ==, 25);
  g_assert_cmpfloat (odd_convex_centroid (r).y, ==, 40);
  g_assert_cmpint (label_at (r, 25, 20), ==, 1);
  g_assert_cmpint (label_at (r, 40, 40), ==, 2);
  g_assert_cmpint (label_at (r, 25, 60), ==, 3);
  g_assert_cmpint (label_at (r, 10, 40), ==, 4);
  g_assert_cmpfloat (odd_convex_min_width (r), ==, 30);
  g_assert_cmpfloat (odd_convex_support (r, odd_point (0, 1)), ==, 60);
}

static void
test_new_turned_round (void)
{
  const OddPoint negative[] = { { 0, 0 }, { 0, 40 }, { 30, 40 }, { 30, 0 } };
  const int labels[] = { 4, 3, 2, 1 };
  g_autoptr(OddConvex) r = odd_convex_new (negative, labels, 4);

  g_assert_cmpfloat (odd_convex_area (r), ==, 1200);
  g_assert_cmpint (label_at (r, 15, 0), ==, 1);
  g_assert_cmpint (label_at (r, 30, 20), ==, 2);
  g_assert_cmpint (label_at (r, 15, 40), ==, 3);
  g_assert_cmpint (label_at (r, 0, 20), ==, 4);
}

static void
test_new_drops_what_is_no_corner (void)
{
  const OddPoint points[] = { { 0, 0 }, { 5, 0 }, { 10, 0 }, { 10, 10 }, { 10, 10 }, { 0, 10 } };
  const int one_label[] = { 1, 1, 2, 9, 3, 4 };
  const int two_labels[] = { 1, 7, 2, 9, 3, 4 };
  g_autoptr(OddConvex) one = odd_convex_new (points, one_label, 6);
  g_autoptr(OddConvex) two = odd_convex_new (points, two_labels, 6);

  g_test_summary ("A straight corner stays where two seams meet in it, and only there");
  g_assert_cmpuint (one->n, ==, 4);
  g_assert_cmpuint (two->n, ==, 5);
  g_assert_cmpint (label_at (two, 2, 0), ==, 1);
  g_assert_cmpint (label_at (two, 8, 0), ==, 7);
  g_assert_cmpint (label_at (two, 5, 10), ==, 3);
}

static void
test_new_refuses (void)
{
  const int labels[] = { 0, 1, 2, 3, 4 };
  const OddPoint arrow[] = { { 0, 0 }, { 10, 0 }, { 5, 3 }, { 5, 10 } };
  const OddPoint flat[] = { { 0, 0 }, { 10, 0 }, { 20, 0 } };
  const OddPoint not_finite[] = { { 0, 0 }, { INFINITY, 0 }, { 0, 10 } };
  OddPoint star[5];

  for (int i = 0; i < 5; i++)
    star[i] = odd_point (10 * cos (i * 0.8 * G_PI), 10 * sin (i * 0.8 * G_PI));

  g_assert_null (odd_convex_new (arrow, labels, 4));
  g_assert_null (odd_convex_new (flat, labels, 3));
  g_assert_null (odd_convex_new (not_finite, labels, 3));
  g_assert_null (odd_convex_new (star, labels, 5));
  g_assert_null (odd_convex_new (arrow, labels, 2));
}

static void
test_half_planes (void)
{
  const OddHalfPlane planes[] = {
    { { 0, -1 }, 0 }, { { 1, 0 }, 30 }, { { 0, 1 }, 40 }, { { -1, 0 }, 0 },
    { { 1, 0 }, 90 }, { { M_SQRT1_2, M_SQRT1_2 }, 60 * M_SQRT1_2 },
  };
  const OddHalfPlane beyond[] = { { { 0, -1 }, 0 }, { { 1, 0 }, 30 }, { { 0, 1 }, 40 }, { { -1, 0 }, -31 } };
  const int labels[] = { 1, 2, 3, 4, 5, 6 };
  g_autoptr(OddConvex) r = odd_convex_new_from_half_planes (planes, labels, 4);
  g_autoptr(OddConvex) cut = odd_convex_new_from_half_planes (planes, labels, 6);

  g_assert_cmpfloat (odd_convex_area (r), ==, 1200);
  g_assert_cmpint (label_at (r, 15, 0), ==, 1);
  g_assert_cmpuint (cut->n, ==, 5);
  g_assert_cmpfloat_with_epsilon (odd_convex_area (cut), 1150, 1e-9);
  g_assert_cmpint (label_at (cut, 25, 35), ==, 6);
  g_assert_null (odd_convex_new_from_half_planes (planes, labels, 3));      /* open to the left */
  g_assert_null (odd_convex_new_from_half_planes (beyond, labels, 4));      /* empty */
}

static void
test_half_planes_rebuild (void)
{
  for (int round = 0; round < 300; round++)
    {
      g_autoptr(OddConvex) convex = random_convex (3 + round % 9, 100);
      g_autoptr(OddConvex) rebuilt = NULL;
      OddHalfPlane planes[12];

      if (convex == NULL || odd_convex_min_width (convex) < 1)
        continue;
      for (guint i = 0; i < convex->n; i++)
        planes[(i * 7) % convex->n] = odd_convex_edge_half_plane (convex, i);
      if (convex->n % 7 == 0)     /* 7 and n must be coprime for a shuffle */
        continue;

      rebuilt = odd_convex_new_from_half_planes (planes, convex->labels, convex->n);
      g_assert_nonnull (rebuilt);
      g_assert_true (odd_convex_equal (convex, rebuilt, 1e-6));
    }
}

static void
test_clip_by_hand (void)
{
  g_autoptr(OddConvex) r = rectangle (0, 0, 30, 40);
  g_autoptr(OddConvex) upper = odd_convex_clip (r, (OddHalfPlane) { { 0, 1 }, 10 }, 9);
  g_autoptr(OddConvex) all = odd_convex_clip (r, (OddHalfPlane) { { 0, 1 }, 50 }, 9);
  g_autoptr(OddConvex) renamed = odd_convex_clip (r, (OddHalfPlane) { { 0, 1 }, 40 }, 9);

  g_assert_cmpfloat (odd_convex_area (upper), ==, 300);
  g_assert_cmpint (label_at (upper, 15, 10), ==, 9);
  g_assert_cmpint (label_at (upper, 15, 0), ==, 1);
  g_assert_true (all == r);
  g_assert_cmpint (label_at (renamed, 15, 40), ==, 9);
  g_assert_cmpuint (renamed->n, ==, 4);
  g_assert_null (odd_convex_clip (r, (OddHalfPlane) { { 0, 1 }, 0 }, 9));
  g_assert_null (odd_convex_clip (r, (OddHalfPlane) { { 0, 1 }, -1 }, 9));
}

static void
test_clip_through_corners (void)
{
  g_autoptr(OddConvex) r = rectangle (0, 0, 10, 10);
  const OddHalfPlane diagonal = { { M_SQRT1_2, -M_SQRT1_2 }, 0 };
  g_autoptr(OddConvex) below = odd_convex_clip (r, diagonal, 9);

  g_assert_cmpuint (below->n, ==, 3);
  g_assert_cmpfloat (odd_convex_area (below), ==, 50);
  g_assert_cmpint (label_at (below, 5, 5), ==, 9);
  g_assert_cmpint (label_at (below, 5, 10), ==, 3);
  g_assert_cmpint (label_at (below, 0, 5), ==, 4);
}

static void
test_clip_keeps_area (void)
{
  g_test_summary ("Both sides of a line together are the whole, and share the chord to the last bit");
  for (int round = 0; round < 1000; round++)
    {
      g_autoptr(OddConvex) whole = random_convex (3 + round % 8, 150);
      g_autoptr(OddConvex) one = NULL;
      g_autoptr(OddConvex) other = NULL;
      OddHalfPlane line;
      OddSegment chord;

      if (whole == NULL)
        continue;
      line = random_half_plane (odd_convex_centroid (whole));
      line.offset_mm += g_test_rand_double_range (-200, 200);
      one = odd_convex_clip (whole, line, 77);
      other = odd_convex_clip (whole, odd_half_plane_flip (line), 77);

      g_assert_cmpfloat_with_epsilon ((one ? odd_convex_area (one) : 0) + (other ? odd_convex_area (other) : 0),
                                      odd_convex_area (whole), 1e-6);
      if (one == NULL || other == NULL)
        continue;
      g_assert_true (odd_convex_chord (whole, line, &chord));
      for (guint i = 0; i < one->n; i++)
        if (one->labels[i] == 77)
          {
            const OddSegment edge = odd_convex_edge (one, i);

            /* the line is the border of the kept side, so the ring runs against the chord */
            g_assert_cmpmem (&edge.from, sizeof (OddPoint), &chord.to, sizeof (OddPoint));
            g_assert_cmpmem (&edge.to, sizeof (OddPoint), &chord.from, sizeof (OddPoint));
          }
      for (guint i = 0; i < other->n; i++)
        if (other->labels[i] == 77)
          {
            const OddSegment edge = odd_convex_edge (other, i);

            g_assert_cmpmem (&edge, sizeof edge, &chord, sizeof chord);
          }
    }
}

static void
test_clip_inside (void)
{
  for (int round = 0; round < 300; round++)
    {
      g_autoptr(OddConvex) whole = random_convex (3 + round % 8, 150);
      g_autoptr(OddConvex) part = NULL;
      OddHalfPlane line;

      if (whole == NULL)
        continue;
      line = random_half_plane (odd_convex_centroid (whole));
      part = odd_convex_clip (whole, line, -1);
      g_assert_nonnull (part);
      for (guint i = 0; i < part->n; i++)
        {
          g_assert_true (odd_convex_contains (whole, part->points[i], 1e-6));
          g_assert_cmpfloat (odd_half_plane_distance (line, part->points[i]), <, 1e-6);
        }
    }
}

static void
test_place_and_back (void)
{
  for (int round = 0; round < 300; round++)
    {
      g_autoptr(OddConvex) convex = random_convex (3 + round % 8, 150);
      g_autoptr(OddConvex) placed = NULL;
      g_autoptr(OddConvex) back = NULL;
      const OddPlacement placement = { g_test_rand_double_range (0, 360), g_test_rand_bit (), { 12, -7 } };
      const OddPlacement inverse = odd_placement_inverse (&placement);

      if (convex == NULL)
        continue;
      placed = odd_convex_place (convex, &placement);
      back = odd_convex_place (placed, &inverse);
      g_assert_cmpfloat_with_epsilon (odd_convex_area (placed), odd_convex_area (convex), 1e-6);
      g_assert_true (odd_convex_equal (convex, back, 1e-9));
      for (guint i = 0; i < convex->n; i++)
        {
          const OddSegment e = odd_convex_edge (convex, i);
          const OddPoint middle = odd_placement_apply (&placement, odd_point_lerp (e.from, e.to, 0.5));

          g_assert_cmpint (label_at (placed, middle.x, middle.y), ==, convex->labels[i]);
        }
    }
}

static void
test_contains (void)
{
  g_autoptr(OddConvex) r = rectangle (0, 0, 30, 40);

  g_assert_true (odd_convex_contains (r, odd_point (1, 1), 0));
  g_assert_false (odd_convex_contains (r, odd_point (-0.01, 1), 0));
  g_assert_true (odd_convex_contains (r, odd_point (-0.01, 1), 0.02));
}

static void
test_chord (void)
{
  g_autoptr(OddConvex) r = rectangle (0, 0, 30, 40);
  OddSegment chord = { { -1, -1 }, { -1, -1 } };
  guint from_edge, to_edge;

  g_assert_true (odd_convex_chord_edges (r, (OddHalfPlane) { { 0, 1 }, 10 }, &chord, &from_edge, &to_edge));
  g_assert_cmpfloat (chord.from.x, ==, 0);
  g_assert_cmpfloat (chord.to.x, ==, 30);
  g_assert_cmpfloat (chord.to.y, ==, 10);
  g_assert_cmpint (r->labels[from_edge], ==, 4);
  g_assert_cmpint (r->labels[to_edge], ==, 2);

  g_assert_false (odd_convex_chord (r, (OddHalfPlane) { { 0, 1 }, 40 }, &chord));
  g_assert_false (odd_convex_chord (r, (OddHalfPlane) { { 0, 1 }, 41 }, &chord));
  g_assert_cmpfloat (chord.to.y, ==, 10);
}

static void
test_min_width_by_turning (void)
{
  g_test_summary ("No direction of a fine fan is narrower than the width found");
  for (int round = 0; round < 100; round++)
    {
      g_autoptr(OddConvex) convex = random_convex (3 + round % 8, 150);
      double fan = G_MAXDOUBLE;

      if (convex == NULL)
        continue;
      for (int i = 0; i < 1800; i++)
        {
          const OddPoint n = { cos (i * G_PI / 1800), sin (i * G_PI / 1800) };

          fan = MIN (fan, odd_convex_support (convex, n) + odd_convex_support (convex, odd_point (-n.x, -n.y)));
        }
      g_assert_cmpfloat (odd_convex_min_width (convex), <=, fan + 1e-9);
      g_assert_cmpfloat (odd_convex_min_width (convex), >=, fan - 300 * G_PI / 1800);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/convex/rectangle", test_rectangle);
  g_test_add_func ("/geometry/convex/new/turned-round", test_new_turned_round);
  g_test_add_func ("/geometry/convex/new/drops-what-is-no-corner", test_new_drops_what_is_no_corner);
  g_test_add_func ("/geometry/convex/new/refuses", test_new_refuses);
  g_test_add_func ("/geometry/convex/half-planes/by-hand", test_half_planes);
  g_test_add_func ("/geometry/convex/half-planes/rebuild", test_half_planes_rebuild);
  g_test_add_func ("/geometry/convex/clip/by-hand", test_clip_by_hand);
  g_test_add_func ("/geometry/convex/clip/through-corners", test_clip_through_corners);
  g_test_add_func ("/geometry/convex/clip/keeps-area", test_clip_keeps_area);
  g_test_add_func ("/geometry/convex/clip/inside", test_clip_inside);
  g_test_add_func ("/geometry/convex/place-and-back", test_place_and_back);
  g_test_add_func ("/geometry/convex/contains", test_contains);
  g_test_add_func ("/geometry/convex/chord", test_chord);
  g_test_add_func ("/geometry/convex/min-width-by-turning", test_min_width_by_turning);

  return g_test_run ();
}
