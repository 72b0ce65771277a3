/* Time to paint one tile, in ms; asked for by name only: meson test -C build --suite bench --verbose */
#include "config.h"

#include "drawing/painter.h"
#include "fixtures.h"

static double
time_tile (OddSwatches *swatches, OddJob *job, OddPaintOptions *options, OddPoint at, guint n)
{
  OddTextile *hung = g_ptr_array_index (job->textiles, 0);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, hung->id);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 256, 256);
  gint64 best = G_MAXINT64;

  options->clip_mm = (OddBox) { at.x, at.y, 256.0 / options->px_per_mm, 256.0 / options->px_per_mm };
  for (guint i = 0; i < n; i++)
    {
      cairo_t *cr = cairo_create (surface);
      const gint64 start = g_get_monotonic_time ();

      cairo_set_source_rgb (cr, 0.95, 0.93, 0.91);
      cairo_paint (cr);
      cairo_scale (cr, options->px_per_mm, options->px_per_mm);
      cairo_translate (cr, -at.x, -at.y);
      odd_paint_panel (cr, swatches, job, textile->panels[0].layout, textile, options);
      cairo_destroy (cr);
      best = MIN (best, g_get_monotonic_time () - start);
    }
  cairo_surface_destroy (surface);
  return best / 1000.0;
}

static void
bench_tiles (void)
{
  static const struct { guint columns, rows, n_done; double px_per_mm; const char *what; } cases[] = {
    { 12, 40, 3, 0.4, "256 px, about 40 patches of 40 px, all done" },
    { 12, 40, 1, 0.4, "256 px, about 40 patches of 40 px, sewn and enclosed raw" },
    { 12, 40, 0, 0.4, "256 px, about 40 patches of 40 px, planned" },
    { 50, 100, 3, 0.05, "256 px, 5000 patches of 5 px" },
    { 50, 100, 3, 0.4, "256 px of a panel of 5000 patches of 40 px" },
    { 12, 40, 3, 3.0, "256 px, one patch of 300 px" },
  };

  g_test_summary ("A tile of 256 px with about 40 patches");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(OddSwatches) swatches = odd_swatches_new ();
      g_autoptr(OddJob) job = sample_squares_new (cases[i].columns, cases[i].rows, 100.0, cases[i].n_done);
      OddPaintOptions options;

      odd_paint_options_init (&options);
      options.px_per_mm = cases[i].px_per_mm;
      g_test_minimized_result (time_tile (swatches, job, &options, odd_point (130.0, 130.0), 20), "%s: %.2f ms", cases[i].what, time_tile (swatches, job, &options, odd_point (130.0, 130.0), 20));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench/painter/tiles", bench_tiles);
  return g_test_run ();
}
