/* What could be cut from a scrap, drawn on it. */
#include "config.h"

#include <string.h>

#include "cloth/edit.h"
#include "cloth/offcuts.h"
#include "drawing/cutting-plan.h"
#include "fixtures.h"

#define PX_PER_MM 2.0

static const int LABELS[4] = { 0, 1, 2, 3 };

static OddJob *
job_with_box (double width_mm, double height_mm)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0.0, 0.0, width_mm, height_mm });
  OddScrap values;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.washed = TRUE;
  return odd_job_put_scrap (job, &values, NULL, NULL);
}

/* In the scrap's frame from (-10, -10) mm on. (transfer full) */
static cairo_surface_t *
paint (OddJob *job, OddScrap *scrap, const OddPossibleCut *cuts, guint n)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 700, 700);
  cairo_t *cr = cairo_create (surface);
  OddPaintOptions options;

  odd_paint_options_init (&options);
  options.px_per_mm = PX_PER_MM;
  options.table_colour = 0xf1eee9;
  cairo_set_source_rgb (cr, 0.0, 0.0, 1.0);
  cairo_paint (cr);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  cairo_translate (cr, 10.0, 10.0);
  odd_paint_possible_cuts (cr, swatches, job, scrap, cuts, n, ODD_UNIT_CM, &options);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, double x_mm, double y_mm)
{
  const int x = (int) ((x_mm + 10.0) * PX_PER_MM), y = (int) ((y_mm + 10.0) * PX_PER_MM);
  const guchar *row = cairo_image_surface_get_data (surface) + (gsize) y * (gsize) cairo_image_surface_get_stride (surface);

  return ((const guint32 *) (const void *) row)[x] & 0xffffff;
}

/* How many px of this part of the scrap differ between the two; 0..1 */
static double
share_that_differs (cairo_surface_t *a, cairo_surface_t *b, OddBox box)
{
  guint n = 0, n_differ = 0;

  for (double y = box.y; y < box.y + box.height; y += 0.5)
    for (double x = box.x; x < box.x + box.width; x += 0.5)
      {
        n++;
        n_differ += pixel (a, x, y) != pixel (b, x, y);
      }
  return (double) n_differ / n;
}

static void
test_pieces (void)
{
  g_autoptr(OddJob) job = job_with_box (140.0, 100.0);
  OddScrap *scrap = job->scraps->pdata[0];
  g_autoptr(OddConvex) shape = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, 100.0, 100.0 }, LABELS);
  const OddPossibleCut cut = { shape, 100.0, 100.0 };
  cairo_surface_t *bare = paint (job, scrap, NULL, 0), *again = paint (job, scrap, NULL, 0), *with = paint (job, scrap, &cut, 1);

  g_test_summary ("A piece is framed and numbered in its middle, its cloth else untouched; a strip of 40 mm beside it is hatched as waste");
  g_assert_cmpfloat (share_that_differs (bare, again, (OddBox) { -10.0, -10.0, 200.0, 200.0 }), ==, 0.0);
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 98.5, 20.0, 3.0, 60.0 }), >, 0.3);
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 45.0, 45.0, 10.0, 10.0 }), >, 0.5);
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 8.0, 8.0, 20.0, 84.0 }), ==, 0.0);
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 105.0, 10.0, 30.0, 80.0 }), >, 0.2);
  cairo_surface_destroy (bare);
  cairo_surface_destroy (again);
  cairo_surface_destroy (with);
}

static void
test_usable (void)
{
  g_autoptr(OddJob) job = job_with_box (300.0, 100.0);
  OddScrap *scrap = job->scraps->pdata[0];
  g_autoptr(OddConvex) shape = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, 100.0, 100.0 }, LABELS);
  const OddPossibleCut cut = { shape, 100.0, 100.0 };
  cairo_surface_t *bare = paint (job, scrap, NULL, 0), *with = paint (job, scrap, &cut, 1);

  g_test_summary ("What is left and holds the usable square is named in its middle, not hatched");
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 195.0, 47.0, 10.0, 6.0 }), >, 0.3);
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 110.0, 10.0, 50.0, 80.0 }), ==, 0.0);
  cairo_surface_destroy (bare);
  cairo_surface_destroy (with);
}

static void
test_room (void)
{
  g_autoptr(OddJob) job = job_with_box (320.0, 220.0);
  OddScrap *scrap = job->scraps->pdata[0];
  g_autoptr(OddConvex) upper = odd_convex_new_rectangle ((OddBox) { 0.0, 10.0, 300.0, 130.0 }, LABELS);
  g_autoptr(OddConvex) lower = odd_convex_new_rectangle ((OddBox) { 0.0, 140.0, 200.0, 80.0 }, LABELS);
  const OddPossibleCut cuts[] = { { upper, 300.0, 130.0 }, { lower, 200.0, 80.0 } };
  cairo_surface_t *bare = paint (job, scrap, NULL, 0), *with = paint (job, scrap, cuts, 2);

  g_test_summary ("What is left runs along two sides of the pieces: it is named in its corner of 120 x 80, the only place with room");
  g_assert_cmpfloat (share_that_differs (bare, with, (OddBox) { 255.0, 177.0, 10.0, 6.0 }), >, 0.3);
  cairo_surface_destroy (bare);
  cairo_surface_destroy (with);
}

static guint
distance (guint32 a, guint32 b)
{
  return (guint) (ABS ((int) (a >> 16) - (int) (b >> 16)) + ABS ((int) (a >> 8 & 255) - (int) (b >> 8 & 255)) + ABS ((int) (a & 255) - (int) (b & 255)));
}

static void
test_taken (void)
{
  g_autoptr(OddJob) job = sample_job_new ();
  guint n_seen = 0;

  g_test_summary ("Cloth that a panel has taken fades towards the table while possible pieces are drawn");
  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddScrap *scrap = job->scraps->pdata[i];
      g_autoptr(GPtrArray) taken = odd_scrap_dup_cut_shapes (job, scrap->id);
      g_autoptr(OddConvex) far = odd_convex_new_rectangle ((OddBox) { -5.0, -5.0, 1.0, 1.0 }, LABELS);
      const OddPossibleCut cut = { far, 1.0, 1.0 };
      cairo_surface_t *plan, *with;
      OddBox box;
      guint before = 0, after = 0;

      if (taken->len != 1 || scrap->cut_out)
        continue;
      box = odd_polygon_get_box (taken->pdata[0]);
      plan = paint (job, scrap, NULL, 0);
      with = paint (job, scrap, &cut, 1);
      for (double k = 0.1; k < 0.3; k += 0.01)
        {
          const double x = box.x + 0.5 * box.width, y = box.y + k * box.height;

          before += distance (pixel (plan, x, y), 0xf1eee9);
          after += distance (pixel (with, x, y), 0xf1eee9);
        }
      g_assert_cmpuint (after, <, before);
      n_seen++;
      cairo_surface_destroy (plan);
      cairo_surface_destroy (with);
    }
  g_assert_cmpuint (n_seen, >, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cutting-plan/pieces", test_pieces);
  g_test_add_func ("/cutting-plan/usable", test_usable);
  g_test_add_func ("/cutting-plan/room", test_room);
  g_test_add_func ("/cutting-plan/taken", test_taken);

  return g_test_run ();
}
