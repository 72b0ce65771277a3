/* The viewport alone: no display, no widget. */
#include "ui/viewport.h"

#include <locale.h>

static void
assert_point (OddPoint a, OddPoint b, double within)
{
  g_assert_cmpfloat_with_epsilon (a.x, b.x, within);
  g_assert_cmpfloat_with_epsilon (a.y, b.y, within);
}

static void
count_cb (OddViewport *viewport, guint *n)
{
  (*n)++;
}

static void
test_there_and_back (void)
{
  g_autoptr(OddViewport) viewport = odd_viewport_new ();

  odd_viewport_place (viewport, 0.56, odd_point (100, 50), odd_point (300, 200));
  assert_point (odd_viewport_to_px (viewport, odd_point (100, 50)), odd_point (300, 200), 1e-9);
  assert_point (odd_viewport_to_px (viewport, odd_point (110, 50)), odd_point (305.6, 200), 1e-9);
  for (guint i = 0; i < 200; i++)
    {
      const OddPoint mm = odd_point (g_test_rand_double_range (-5000, 5000), g_test_rand_double_range (-5000, 5000));

      assert_point (odd_viewport_to_mm (viewport, odd_viewport_to_px (viewport, mm)), mm, 1e-6);
    }
}

static void
test_zoom_keeps_the_point (void)
{
  g_autoptr(OddViewport) viewport = odd_viewport_new ();

  g_test_summary ("What lies under the pointer stays there, at the limits of the zoom too");
  odd_viewport_set_size (viewport, 800, 600);
  for (guint i = 0; i < 500; i++)
    {
      const OddPoint px = odd_point (g_test_rand_double_range (0, 800), g_test_rand_double_range (0, 600));
      const OddPoint before = odd_viewport_to_mm (viewport, px);

      odd_viewport_zoom_at (viewport, px, odd_viewport_get_zoom (viewport) * g_test_rand_double_range (0.3, 3.0));
      assert_point (odd_viewport_to_px (viewport, before), px, 1e-5);
      g_assert_cmpfloat (odd_viewport_get_zoom (viewport), >=, ODD_ZOOM_LEAST);
      g_assert_cmpfloat (odd_viewport_get_zoom (viewport), <=, ODD_ZOOM_MOST);
      if (i % 50 == 0)
        odd_viewport_place (viewport, 1.0, odd_point (0, 0), odd_point (400, 300));
    }
}

static void
test_fit (void)
{
  g_autoptr(OddViewport) viewport = odd_viewport_new ();
  const OddInsets insets = { 30, 60, 10, 40 };
  const OddBox tall = { -10, -10, 200, 1000 };
  const OddBox wide = { 5, 7, 3000, 20 };
  OddBox px;

  odd_viewport_set_size (viewport, 640, 480);
  odd_viewport_fit (viewport, tall, insets);
  px = odd_viewport_box_to_px (viewport, tall);
  g_assert_cmpfloat_with_epsilon (px.y, 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (px.height, 380, 1e-9);
  g_assert_cmpfloat_with_epsilon (px.x + px.width / 2, 30 + 600 / 2.0, 1e-9);

  odd_viewport_fit (viewport, wide, insets);
  px = odd_viewport_box_to_px (viewport, wide);
  g_assert_cmpfloat_with_epsilon (px.x, 30, 1e-9);
  g_assert_cmpfloat_with_epsilon (px.width, 600, 1e-9);
  g_assert_cmpfloat_with_epsilon (px.y, 60, 1e-9);
}

static void
test_fit_without_room (void)
{
  g_autoptr(OddViewport) viewport = odd_viewport_new ();
  double zoom = -1;
  OddPoint px = { -1, -1 };

  g_test_summary ("No box, or no room: nothing moves");
  odd_viewport_set_size (viewport, 40, 40);
  g_assert_false (odd_viewport_get_fit (viewport, (OddBox) { 0, 0, 10, 10 }, (OddInsets) { 30, 30, 30, 30 }, &zoom, &px));
  g_assert_false (odd_viewport_get_fit (viewport, ODD_BOX_EMPTY, (OddInsets) { 0 }, &zoom, &px));
  g_assert_cmpfloat (zoom, ==, -1);
  g_assert_cmpfloat (px.x, ==, -1);
}

static void
test_tells_once (void)
{
  g_autoptr(OddViewport) viewport = odd_viewport_new ();
  guint n = 0;

  g_signal_connect (viewport, "changed", G_CALLBACK (count_cb), &n);
  odd_viewport_set_size (viewport, 100, 100);
  odd_viewport_set_size (viewport, 100, 100);
  g_assert_cmpuint (n, ==, 1);
  odd_viewport_pan_by (viewport, 3, 4);
  g_assert_cmpuint (n, ==, 2);
  assert_point (odd_viewport_to_px (viewport, odd_point (0, 0)), odd_point (3, 4), 1e-12);
  odd_viewport_zoom_at (viewport, odd_point (50, 50), 2);
  g_assert_cmpuint (n, ==, 3);
}

static void
test_rounding (void)
{
  g_test_summary ("Edges fall on device pixels, and halves always go the same way");
  g_assert_cmpfloat (odd_round_to_device (10.4, 1), ==, 10);
  g_assert_cmpfloat (odd_round_to_device (10.5, 1), ==, 11);
  g_assert_cmpfloat (odd_round_to_device (-0.5, 1), ==, 0);
  g_assert_cmpfloat (odd_round_to_device (10.4, 2), ==, 10.5);
  g_assert_cmpfloat (odd_round_to_device (10.2, 2), ==, 10);
  for (double zoom = 0.03; zoom < 30; zoom *= 1.31)
    {
      const double level = odd_zoom_half_octave (zoom);

      g_assert_cmpfloat (MAX (level / zoom, zoom / level), <=, pow (2, 0.25) + 1e-9);
      g_assert_cmpfloat_with_epsilon (odd_zoom_half_octave (level), level, 1e-12);
    }
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ui/viewport/there-and-back", test_there_and_back);
  g_test_add_func ("/ui/viewport/zoom-keeps-the-point", test_zoom_keeps_the_point);
  g_test_add_func ("/ui/viewport/fit", test_fit);
  g_test_add_func ("/ui/viewport/fit-without-room", test_fit_without_room);
  g_test_add_func ("/ui/viewport/tells-once", test_tells_once);
  g_test_add_func ("/ui/viewport/rounding", test_rounding);
  return g_test_run ();
}
