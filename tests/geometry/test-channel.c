#include "config.h"

#include "bench/heap.h"
#include "geometry/channel.h"
#include "geometry/inscribed.h"

static OddPolygon *
polygon (const OddPoint *points,
         guint           n)
{
  OddPolygon *made = odd_polygon_new (points, n, NULL);

  g_assert_nonnull (made);

  return made;
}

static double
tallest (OddPolygon *cloth,
         double      turn_deg,
         double      shear,
         double      width_mm)
{
  g_autoptr(OddSlabs) slabs = odd_slabs_new (cloth, turn_deg, FALSE);
  OddChannel channel = { 0, 0, 0 };

  return odd_slabs_tallest (slabs, shear, width_mm, &channel) ? channel.height : 0.0;
}

static void
test_by_hand (void)
{
  const OddPoint box[] = { { 0, 0 }, { 300, 0 }, { 300, 200 }, { 0, 200 } };
  const OddPoint triangle[] = { { 0, 0 }, { 500, 0 }, { 250, 400 } };
  const OddPoint l_shape[] = { { 0, 0 }, { 400, 0 }, { 400, 150 }, { 180, 150 }, { 180, 350 }, { 0, 350 } };
  g_autoptr(OddPolygon) a = polygon (box, 4);
  g_autoptr(OddPolygon) b = polygon (triangle, 3);
  g_autoptr(OddPolygon) c = polygon (l_shape, 6);

  g_test_summary ("Heights worked by hand: rectangle, triangle, L shape");
  g_assert_cmpfloat_with_epsilon (tallest (a, 0, 0, 265.4), 200, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (a, 0, 0, 300), 200, 1e-6);
  g_assert_cmpfloat (tallest (a, 0, 0, 300.001), ==, 0);
  g_assert_cmpfloat_with_epsilon (tallest (a, 90, 0, 200), 300, 1e-6);
  /* a triangle is 500 (1 - h / 400) wide at height h */
  g_assert_cmpfloat_with_epsilon (tallest (b, 0, 0, 250), 200, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (b, 180, 0, 125), 300, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (c, 0, 0, 180), 350, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (c, 0, 0, 180.1), 150, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (c, 270, 0, 150), 400, 1e-6);
  /* A parallelogram of slope 1/4: 200 tall leans by 50. */
  g_assert_cmpfloat_with_epsilon (tallest (a, 0, 0.25, 250), 200, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (a, 0, 0.25, 275), 100, 1e-6);
}

static void
test_hole (void)
{
  const OddPoint box[] = { { 0, 0 }, { 300, 0 }, { 300, 200 }, { 0, 200 } };
  const OddPoint hole[] = { { 140, 60 }, { 160, 60 }, { 160, 80 }, { 140, 80 } };
  g_autoptr(GPtrArray) holes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  g_autoptr(OddPolygon) cloth = NULL;
  GArray *ring = g_array_new (FALSE, FALSE, sizeof (OddPoint));

  g_test_summary ("A hole at 60 .. 80 leaves 120 below it for a wide channel, all for a narrow one");
  g_array_append_vals (ring, hole, 4);
  g_ptr_array_add (holes, ring);
  cloth = odd_polygon_new_with_holes (box, 4, holes, NULL);
  g_assert_nonnull (cloth);
  g_assert_cmpfloat_with_epsilon (tallest (cloth, 0, 0, 265.4), 120, 1e-6);
  g_assert_cmpfloat_with_epsilon (tallest (cloth, 0, 0, 140), 200, 1e-6);
}

/* The parallelogram that was found, in the cloth's own frame. */
static OddConvex *
found_shape (const OddChannel *channel,
             double            turn_deg,
             double            shear,
             double            width_mm)
{
  const OddPlacement turned = { turn_deg, FALSE, { 0, 0 } };
  const OddPlacement back = odd_placement_inverse (&turned);
  const double y0 = channel->y, y1 = channel->y + channel->height;
  const OddPoint points[4] = { { channel->x + shear * y0, y0 }, { channel->x + width_mm + shear * y0, y0 },
                               { channel->x + width_mm + shear * y1, y1 }, { channel->x + shear * y1, y1 } };
  const int labels[4] = { 0, 1, 2, 3 };
  g_autoptr(OddConvex) shape = odd_convex_new (points, labels, 4);

  return shape != NULL ? odd_convex_place (shape, &back) : NULL;
}

/* The best of the strip kernel's channels, standing on any corner level: never above the tallest one. */
static double
best_standing (OddPolygon *cloth,
               double      turn_deg,
               double      shear,
               double      width_mm)
{
  const OddPlacement turned = { turn_deg, FALSE, { 0, 0 } };
  g_autoptr(OddStrips) strips = odd_strips_new (cloth, &turned, shear);
  guint n = 0;
  const double *levels = odd_strips_get_levels (strips, &n);
  double best = 0.0;

  for (guint i = 0; i < n; i++)
    {
      OddInterval x;

      best = MAX (best, odd_strips_channel (strips, levels[i], width_mm, &x));
    }

  return best;
}

static void
test_law (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (7);

  g_test_summary ("Over random scraps: what is found lies in the cloth, is as tall as said, and no strip gives a taller one");
  for (guint i = 0; i < 400; i++)
    {
      g_autoptr(OddPolygon) cloth = i % 4 == 3 ? heap_ragged_polygon (rand, 16, 250) : heap_polygon (rand);
      const double turn_deg = g_rand_double_range (rand, 0, 360);
      const double shear = g_rand_double_range (rand, -0.3, 0.3);
      const double width_mm = g_rand_double_range (rand, 20, 160);
      g_autoptr(OddSlabs) slabs = odd_slabs_new (cloth, turn_deg, FALSE);
      OddChannel channel = { 0, 0, 0 };
      g_autoptr(OddConvex) shape = NULL;

      if (!odd_slabs_tallest (slabs, shear, width_mm, &channel))
        channel.height = 0.0;
      g_assert_cmpfloat (channel.height, <=, odd_slabs_bound (slabs, width_mm) + 1e-6);
      g_assert_cmpfloat (best_standing (cloth, turn_deg, shear, width_mm), <=, channel.height + 0.02);
      if (channel.height < 0.1)
        continue;
      shape = found_shape (&channel, turn_deg, shear, width_mm);
      g_assert_true (odd_polygon_contains_convex (cloth, shape, 1e-5));
    }
}

static void
test_difference (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (9);
  guint n_pieces = 0;

  g_test_summary ("The quick difference takes the same cloth off as GEOS does, flush shapes too");
  for (guint i = 0; i < 400; i++)
    {
      g_autoptr(OddPolygon) cloth = i % 4 == 3 ? heap_ragged_polygon (rand, 16, 250) : heap_polygon (rand);
      const double width_mm = g_rand_double_range (rand, 20, 160);
      g_autoptr(OddSlabs) slabs = odd_slabs_new (cloth, 30 * (i % 7), FALSE);
      OddChannel channel;
      g_autoptr(OddConvex) shape = NULL;
      g_autoptr(OddPolygon) as_polygon = NULL;
      g_autoptr(GPtrArray) quick = NULL;
      g_autoptr(GPtrArray) slow = NULL;

      if (!odd_slabs_tallest (slabs, 0.1, width_mm, &channel) || channel.height < 5)
        continue;
      shape = found_shape (&channel, 30 * (i % 7), 0.1, width_mm);
      as_polygon = odd_polygon_new_from_convex (shape);
      quick = odd_polygon_difference_convex (cloth, shape);
      slow = odd_polygon_difference (cloth, as_polygon);
      n_pieces += quick->len;
      for (guint k = 0; k < quick->len; k++)
        g_assert_cmpfloat (odd_polygon_overlap_area (quick->pdata[k], as_polygon), <, 1e-3);
      for (guint k = 0; k < slow->len; k++)
        {
          g_autoptr(GPtrArray) rest = odd_polygon_difference_many (slow->pdata[k], (OddPolygon *const *) quick->pdata, quick->len);
          double missed = 0.0;

          for (guint m = 0; m < rest->len; m++)
            missed += odd_polygon_get_area (rest->pdata[m]);
          g_assert_cmpfloat (missed, <, 0.3);
        }
    }
  g_assert_cmpuint (n_pieces, >, 500);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/channel/by-hand", test_by_hand);
  g_test_add_func ("/channel/hole", test_hole);
  g_test_add_func ("/channel/law", test_law);
  g_test_add_func ("/channel/difference", test_difference);

  return g_test_run ();
}
