#include "config.h"

#include "cloth/scrap.h"

#include <string.h>

static OddPolygon *
box (double x,
     double y,
     double width,
     double height)
{
  return odd_polygon_new_box ((OddBox) { x, y, width, height });
}

static OddScrap *
scrap (OddPolygon *outline,
       double      grain_deg,
       gboolean    washed,
       OddZone    *zones,
       guint       n_zones)
{
  g_autoptr(GError) error = NULL;
  OddScrap values, *self;

  odd_scrap_init_values (&values);
  values.number = 12;
  values.outline = outline;
  values.grain_deg = grain_deg;
  values.washed = washed;
  values.zones = zones;
  values.n_zones = n_zones;
  self = odd_scrap_new (&values, &error);
  g_assert_no_error (error);
  return self;
}

static OddFabric *
shrinking (double along,
           double across)
{
  OddFabric values;

  odd_fabric_init_values (&values);
  values.name = (char *) "Shrinking";
  values.shrink_along = along;
  values.shrink_across = across;
  return odd_fabric_new (&values, NULL);
}

static void
assert_ring (OddPolygon     *polygon,
             const OddPoint *expected,
             gsize           n_expected)
{
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  g_assert_cmpuint (n, ==, n_expected);
  for (gsize i = 0; i < n; i++)
    {
      gboolean found = FALSE;

      for (gsize k = 0; k < n; k++)
        found |= odd_point_distance (ring[k], expected[i]) < 1e-9;
      if (!found)
        g_error ("no corner at %g, %g", expected[i].x, expected[i].y);
    }
}

static void
assert_box (OddBox b,
            double x,
            double y,
            double width,
            double height)
{
  g_assert_cmpfloat_with_epsilon (b.x, x, 1e-9);
  g_assert_cmpfloat_with_epsilon (b.y, y, 1e-9);
  g_assert_cmpfloat_with_epsilon (b.width, width, 1e-9);
  g_assert_cmpfloat_with_epsilon (b.height, height, 1e-9);
}

/* By hand: 5 % along, 2 % across the grain; 100 x 100 with its top left at 10, 20. */
static void
test_shrinks_along_its_grain (void)
{
  g_autoptr(OddPolygon) square = box (10, 20, 100, 100);
  g_autoptr(OddFabric) fabric = shrinking (0.05, 0.02);
  g_autoptr(OddScrap) upright = scrap (square, 90, FALSE, NULL, 0);
  g_autoptr(OddScrap) lying = scrap (square, 0, FALSE, NULL, 0);
  g_autoptr(OddScrap) head_down = scrap (square, 270, FALSE, NULL, 0);
  g_autoptr(OddPolygon) a = odd_scrap_dup_outline (upright, fabric);
  g_autoptr(OddPolygon) b = odd_scrap_dup_outline (lying, fabric);
  g_autoptr(OddPolygon) c = odd_scrap_dup_outline (head_down, fabric);

  assert_box (odd_polygon_get_box (a), 9.8, 19, 98, 95);
  assert_box (odd_polygon_get_box (b), 9.5, 19.6, 95, 98);
  assert_box (odd_polygon_get_box (c), 9.8, 19, 98, 95);
  assert_box (odd_scrap_get_box (upright), 10, 20, 100, 100);
}

/* By hand, grain at 45 degrees: 100, 0 is 50, 50 along the grain and 50, -50 across it; 0.95 and 0.98 of these sum to
 * 96.5, -1.5. */
static void
test_shrinks_on_the_bias (void)
{
  const OddPoint expected[] = { { 0, 0 }, { 96.5, -1.5 }, { 95, 95 }, { -1.5, 96.5 } };
  g_autoptr(OddPolygon) square = box (0, 0, 100, 100);
  g_autoptr(OddFabric) fabric = shrinking (0.05, 0.02);
  g_autoptr(OddScrap) self = scrap (square, 45, FALSE, NULL, 0);
  g_autoptr(OddPolygon) outline = odd_scrap_dup_outline (self, fabric);

  assert_ring (outline, expected, G_N_ELEMENTS (expected));
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (outline), 10000 * 0.95 * 0.98, 1e-6);
}

static void
test_washed_stays (void)
{
  g_autoptr(OddPolygon) square = box (10, 20, 100, 100);
  g_autoptr(OddFabric) fabric = shrinking (0.05, 0.02);
  g_autoptr(OddScrap) washed = scrap (square, 90, TRUE, NULL, 0);
  g_autoptr(OddScrap) unknown = scrap (square, 90, FALSE, NULL, 0);
  g_autoptr(OddPolygon) a = odd_scrap_dup_outline (washed, fabric);
  g_autoptr(OddPolygon) b = odd_scrap_dup_outline (unknown, NULL);

  g_assert_true (a == square);
  g_assert_true (b == square);
}

/* A 200 x 100 scrap: a hole of 20 x 20 in its middle, and a stain of 10 x 100 at its left side that may hide in an allowance. */
static void
test_zones (void)
{
  g_autoptr(OddPolygon) outline = box (0, 0, 200, 100);
  g_autoptr(OddPolygon) hole = box (90, 40, 20, 20);
  g_autoptr(OddPolygon) stain = box (0, 0, 10, 100);
  OddZone zones[] = { { ODD_ZONE_HOLE, hole, FALSE }, { ODD_ZONE_STAIN, stain, TRUE } };
  g_autoptr(OddFabric) fabric = shrinking (0.10, 0);
  g_autoptr(OddScrap) self = scrap (outline, 0, FALSE, zones, 2);
  g_autoptr(GPtrArray) usable = odd_scrap_dup_usable (self, NULL);
  g_autoptr(GPtrArray) stained = odd_scrap_dup_allowance_zones (self, NULL);
  g_autoptr(GPtrArray) shrunk = NULL;
  g_autoptr(GPtrArray) shrunk_stain = NULL;

  g_assert_cmpuint (usable->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (usable->pdata[0]), 20000 - 400, 1e-6);
  g_assert_cmpuint (odd_polygon_get_n_holes (usable->pdata[0]), ==, 1);
  g_assert_cmpuint (stained->len, ==, 1);
  g_assert_true (stained->pdata[0] == stain);

  shrunk = odd_scrap_dup_usable (self, fabric);
  shrunk_stain = odd_scrap_dup_allowance_zones (self, fabric);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (shrunk->pdata[0]), 0.9 * 19600, 1e-6);
  assert_box (odd_polygon_get_box (shrunk_stain->pdata[0]), 0, 0, 9, 100);
}

/* An old seam from edge to edge leaves two pieces; the search takes the larger. */
static void
test_zone_splits (void)
{
  g_autoptr(OddPolygon) outline = box (0, 0, 200, 100);
  g_autoptr(OddPolygon) seam = box (50, -5, 10, 110);
  OddZone zones[] = { { ODD_ZONE_OLD_SEAM, seam, FALSE } };
  g_autoptr(OddScrap) self = scrap (outline, 90, TRUE, zones, 1);
  g_autoptr(GPtrArray) usable = odd_scrap_dup_usable (self, NULL);
  g_autoptr(OddPolygon) search = odd_scrap_dup_search_outline (self, NULL);

  g_assert_cmpuint (usable->len, ==, 2);
  assert_box (odd_polygon_get_box (usable->pdata[0]), 60, 0, 140, 100);
  assert_box (odd_polygon_get_box (usable->pdata[1]), 0, 0, 50, 100);
  assert_box (odd_polygon_get_box (search), 60, 0, 140, 100);
}

static void
test_nothing_left (void)
{
  g_autoptr(OddPolygon) outline = box (0, 0, 200, 100);
  g_autoptr(OddPolygon) all = box (-1, -1, 300, 300);
  OddZone zones[] = { { ODD_ZONE_THIN, all, FALSE } };
  g_autoptr(OddScrap) self = scrap (outline, 90, TRUE, zones, 1);
  g_autoptr(GPtrArray) usable = odd_scrap_dup_usable (self, NULL);

  g_assert_cmpuint (usable->len, ==, 0);
  g_assert_null (odd_scrap_dup_search_outline (self, NULL));
}

/* A traced disc of 200 corners is searched with few, inside it, and gives little away. */
static void
test_search_outline (void)
{
  OddPoint ring[200];
  g_autoptr(OddPolygon) disc = NULL;
  g_autoptr(OddPolygon) search = NULL;
  g_autoptr(OddScrap) self = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (ring); i++)
    ring[i] = odd_point (80 * cos (G_PI * i / 100), 80 * sin (G_PI * i / 100));
  disc = odd_polygon_new (ring, G_N_ELEMENTS (ring), NULL);
  self = scrap (disc, 90, TRUE, NULL, 0);
  search = odd_scrap_dup_search_outline (self, NULL);
  g_assert_cmpuint (odd_polygon_get_n_corners (search), <=, 32);
  g_assert_true (odd_polygon_contains (disc, search, 0));
  g_assert_cmpfloat (odd_polygon_get_area (search), >, 0.94 * odd_polygon_get_area (disc));
}

static void
test_copied_deeply (void)
{
  char place[] = "blue tub", note[] = "from a shirt";
  g_autoptr(OddPolygon) outline = box (0, 0, 200, 100);
  OddZone zones[] = { { ODD_ZONE_MARK, outline, TRUE } };
  g_autoptr(OddScrap) self = NULL;
  OddScrap values;

  odd_scrap_init_values (&values);
  g_assert_cmpfloat (values.grain_deg, ==, 90);
  values.outline = outline;
  values.zones = zones;
  values.n_zones = 1;
  values.place = place;
  values.note = note;
  self = odd_scrap_new (&values, NULL);
  place[0] = note[0] = 'x';
  zones[0].kind = ODD_ZONE_HOLE;
  g_assert_cmpstr (self->place, ==, "blue tub");
  g_assert_cmpstr (self->note, ==, "from a shirt");
  g_assert_cmpint (self->zones[0].kind, ==, ODD_ZONE_MARK);
}

static void
assert_refused (const OddScrap *values,
                int             code,
                const char     *says)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_scrap_new (values, &error));
  g_assert_error (error, ODD_VALUE_ERROR, code);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, says));
}

static void
test_refused (void)
{
  g_autoptr(OddPolygon) outline = box (0, 0, 200, 100);
  g_autoptr(OddPolygon) far = box (9900, 0, 101, 100);
  g_autoptr(OddPolygon) many = NULL;
  g_autofree OddPoint *ring = g_new (OddPoint, 10001);
  OddZone zones[] = { { ODD_ZONE_HOLE, far, FALSE } };
  OddScrap values;

  for (guint i = 0; i < 10001; i++)
    ring[i] = odd_point (1000 * cos (2 * G_PI * i / 10001), 1000 * sin (2 * G_PI * i / 10001));
  many = odd_polygon_new (ring, 10001, NULL);

  odd_scrap_init_values (&values);
  values.number = 12;
  values.outline = far;
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "10001 mm");
  values.outline = many;
  assert_refused (&values, ODD_VALUE_ERROR_SHAPE, "10001 corners");
  values.outline = outline;
  values.zones = zones;
  values.n_zones = 1;
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "hole");
  values.n_zones = 0;
  values.grain_deg = NAN;
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "Scrap 12");
  values.grain_deg = 0;
  values.picture = (char *) "0.png";
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "0 mm per pixel");
}

typedef struct { OddScrap *scrap; OddFabric *fabric; double area; } Ask;

static gpointer
ask_cb (gpointer data)
{
  const Ask *ask = data;

  for (guint i = 0; i < 200; i++)
    {
      g_autoptr(GPtrArray) usable = odd_scrap_dup_usable (ask->scrap, ask->fabric);
      g_autoptr(OddPolygon) search = odd_scrap_dup_search_outline (ask->scrap, ask->fabric);

      g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (usable->pdata[0]), ask->area, 1e-6);
      g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (search), ask->area, 1e-6);
    }
  return NULL;
}

/* Each thread asks for a shrinkage of its own, so that what is kept changes all the time. */
static void
test_threads (void)
{
  g_autoptr(OddPolygon) outline = box (0, 0, 200, 100);
  g_autoptr(OddPolygon) hole = box (90, 40, 20, 20);
  OddZone zones[] = { { ODD_ZONE_HOLE, hole, FALSE } };
  g_autoptr(OddScrap) self = scrap (outline, 90, FALSE, zones, 1);
  Ask asks[4];
  GThread *threads[4];

  for (guint i = 0; i < G_N_ELEMENTS (asks); i++)
    {
      asks[i] = (Ask) { self, shrinking (0.1 * i, 0), 19600 * (1 - 0.1 * i) };
      threads[i] = g_thread_new ("ask", ask_cb, &asks[i]);
    }
  for (guint i = 0; i < G_N_ELEMENTS (asks); i++)
    {
      g_thread_join (threads[i]);
      odd_fabric_unref (asks[i].fabric);
    }
}

static void
test_nicks (void)
{
  OddZoneKind kind = ODD_ZONE_THIN;

  for (guint i = 0; i <= ODD_ZONE_OLD_SEAM; i++)
    {
      g_assert_true (odd_zone_kind_from_nick (odd_zone_kind_get_nick (i), &kind));
      g_assert_cmpuint (kind, ==, i);
    }
  g_assert_false (odd_zone_kind_from_nick ("hol", &kind));
  g_assert_cmpuint (kind, ==, ODD_ZONE_OLD_SEAM);
  g_assert_cmpstr (odd_zone_kind_get_name (ODD_ZONE_THIN), ==, "thin place");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scrap/shrinks-along-its-grain", test_shrinks_along_its_grain);
  g_test_add_func ("/scrap/shrinks-on-the-bias", test_shrinks_on_the_bias);
  g_test_add_func ("/scrap/washed-stays", test_washed_stays);
  g_test_add_func ("/scrap/zones", test_zones);
  g_test_add_func ("/scrap/zone-splits", test_zone_splits);
  g_test_add_func ("/scrap/nothing-left", test_nothing_left);
  g_test_add_func ("/scrap/search-outline", test_search_outline);
  g_test_add_func ("/scrap/copied-deeply", test_copied_deeply);
  g_test_add_func ("/scrap/refused", test_refused);
  g_test_add_func ("/scrap/threads", test_threads);
  g_test_add_func ("/scrap/nicks", test_nicks);
  return g_test_run ();
}
