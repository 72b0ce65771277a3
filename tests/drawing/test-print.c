#include "config.h"

#include <string.h>

#include "drawing/palette.h"
#include "drawing/print.h"
#include "fixtures.h"

static guint32 *
render (const OddPrint *print, guint side_px, gboolean threads)
{
  guint32 *pixels = g_new (guint32, (gsize) side_px * side_px);

  odd_print_render (print, pixels, side_px, threads);
  return pixels;
}

static gpointer
render_in_thread (gpointer data)
{
  return render (data, 256, TRUE);
}

static void
test_same_bytes (void)
{
  g_test_summary ("A print is the same bytes each time, and in two threads at once");
  for (guint i = 0; i < n_sample_prints; i++)
    {
      const gsize bytes = 256 * 256 * sizeof (guint32);
      GThread *one = g_thread_new ("one", render_in_thread, (gpointer) &sample_prints[i]);
      GThread *two = g_thread_new ("two", render_in_thread, (gpointer) &sample_prints[i]);
      g_autofree guint32 *here = render (&sample_prints[i], 256, TRUE);
      g_autofree guint32 *first = g_thread_join (one), *second = g_thread_join (two);

      g_assert_cmpmem (here, bytes, first, bytes);
      g_assert_cmpmem (here, bytes, second, bytes);
    }
}

static void
test_every_kind (void)
{
  guint seen = 0;

  g_test_summary ("Every kind has a sample, and no kind looks like its bare ground or like another");
  for (guint i = 0; i < n_sample_prints; i++)
    seen |= 1u << sample_prints[i].kind;
  g_assert_cmpuint (seen, ==, (1u << ODD_N_PRINT_KINDS) - 1);
  for (OddPrintKind a = 0; a < ODD_N_PRINT_KINDS; a++)
    for (OddPrintKind b = 0; b < a; b++)
      {
        const OddPrint one = { a, { 0x203040, 0xd04030, 0xe0c040, 0xf0f0e0 }, 24.0 }, other = { b, { 0x203040, 0xd04030, 0xe0c040, 0xf0f0e0 }, 24.0 };
        g_autofree guint32 *pixels = render (&one, 128, FALSE), *others = render (&other, 128, FALSE);
        guint differ = 0;

        for (guint i = 0; i < 128 * 128; i++)
          differ += pixels[i] != others[i];
        g_assert_cmpuint (differ, >, 128 * 128 / 20);
      }
}

static guint
difference (guint32 a, guint32 b)
{
  guint sum = 0;

  for (guint shift = 0; shift < 24; shift += 8)
    sum += (guint) ABS ((int) ((a >> shift) & 0xff) - (int) ((b >> shift) & 0xff));
  return sum;
}

/* How much each column (row) differs from the one after it, the last from the first; @out: side_px sums. */
static void
sum_steps (const guint32 *pixels, guint side_px, gboolean rows, guint *out)
{
  for (guint i = 0; i < side_px; i++)
    {
      const guint next = (i + 1) % side_px;

      out[i] = 0;
      for (guint j = 0; j < side_px; j++)
        out[i] += rows ? difference (pixels[i * side_px + j], pixels[next * side_px + j]) : difference (pixels[j * side_px + i], pixels[j * side_px + next]);
    }
}

static void
test_seamless (void)
{
  g_test_summary ("Laid edge to edge, a tile's border is no step that the tile does not have within");
  for (guint i = 0; i < n_sample_prints; i++)
    {
      const guint side_px = odd_print_tile_px (&sample_prints[i]);
      g_autofree guint32 *pixels = render (&sample_prints[i], side_px, TRUE);
      g_autofree guint *steps = g_new (guint, side_px);

      for (guint rows = 0; rows < 2; rows++)
        {
          guint largest = 0;

          sum_steps (pixels, side_px, rows, steps);
          for (guint j = 0; j + 1 < side_px; j++)
            largest = MAX (largest, steps[j]);
          g_assert_cmpuint (steps[side_px - 1], <=, largest + largest / 10);
        }
    }
}

static void
test_repeats (void)
{
  g_test_summary ("Without threads each repeat is like the next, those at the tile's border too");
  for (guint i = 0; i < n_sample_prints; i++)
    {
      OddPrint print = sample_prints[i];
      const guint step = 64, n = 4, side_px = n * step;
      g_autofree guint32 *pixels = NULL;

      /* yarn that was tied, and yarns of two colours, are never twice the same */
      if (print.kind == ODD_PRINT_DIAMOND || print.kind == ODD_PRINT_FLECK)
        continue;
      print.repeat_mm = 24.0;
      g_assert_cmpfloat_with_epsilon (odd_print_tile_mm (&print), n * 24.0, 1e-9);
      pixels = render (&print, side_px, FALSE);
      for (guint y = 0; y < side_px; y++)
        for (guint x = 0; x < side_px; x++)
          {
            const guint32 here = pixels[y * side_px + x];

            g_assert_cmpuint (difference (here, pixels[y * side_px + (x + step) % side_px]), <=, 6);
            g_assert_cmpuint (difference (here, pixels[(y + step) % side_px * side_px + x]), <=, 6);
          }
    }
}

static void
test_extreme_repeats (void)
{
  const double repeats_mm[] = { 1e-6, 0.3, 10000.0 };

  g_test_summary ("The smallest and largest repeats a fabric may have are drawn in tiles of bounded size");
  for (guint i = 0; i < G_N_ELEMENTS (repeats_mm); i++)
    {
      const OddPrint print = { ODD_PRINT_FLOWER, { 0xf0e6d4, 0xb23b35, 0xe08a78, 0x5d7550 }, repeats_mm[i] };
      g_autoptr(OddSwatches) swatches = odd_swatches_new ();
      g_autoptr(OddSwatch) swatch = odd_swatches_dup_print (swatches, &print, FALSE);

      g_assert_cmpuint (swatch->levels[0].width_px, <=, 1024);
      g_assert_cmpfloat_with_epsilon (remainder (swatch->unit_width, repeats_mm[i]), 0.0, 1e-9);
      g_assert_cmpfloat_with_epsilon ((swatch->mean_colour >> 16) & 0xff, 0xe3, 16.0);
    }
}

static void
test_shares (void)
{
  g_test_summary ("The share of area that each colour covers is the one fabrics reckon with");
  for (OddPrintKind kind = 0; kind < ODD_N_PRINT_KINDS; kind++)
    for (guint colour = 0; colour < 4; colour++)
      {
        OddPrint print = { kind, { 0, 0, 0, 0 }, 30.0 };
        g_autofree guint32 *pixels = NULL;
        double sum = 0.0;

        print.colours[colour] = 0xffffff;
        pixels = render (&print, 512, FALSE);
        for (guint i = 0; i < 512 * 512; i++)
          sum += (pixels[i] & 0xff) / 255.0;
        g_assert_cmpfloat_with_epsilon (sum / (512 * 512), odd_print_kind_get_shares (kind)[colour], 0.015);
      }
}

static void
test_threads_keep_colour (void)
{
  g_test_summary ("Threads make a surface, not another colour: the mean moves by less than 6 of 255");
  for (guint i = 0; i < n_sample_prints; i++)
    {
      g_autofree guint32 *flat = render (&sample_prints[i], 256, FALSE), *cloth = render (&sample_prints[i], 256, TRUE);

      for (guint shift = 0; shift < 24; shift += 8)
        {
          double sum = 0.0;

          for (guint j = 0; j < 256 * 256; j++)
            sum += (double) ((cloth[j] >> shift) & 0xff) - (double) ((flat[j] >> shift) & 0xff);
          g_assert_cmpfloat (fabs (sum / (256 * 256)), <, 6.0);
        }
      g_assert_cmpint (memcmp (flat, cloth, 256 * 256 * 4), !=, 0);
    }
}

/* Mean difference between a row of pixels and itself, shifted. */
static double
shifted_difference (const guint32 *row, guint n, guint shift)
{
  double sum = 0.0;

  for (guint i = 0; i + shift < n; i++)
    sum += difference (row[i], row[i + shift]);
  return sum / (n - shift);
}

static void
check_repeat (const OddPrint *print, double px_per_mm)
{
  const guint width = 900, expected = (guint) floor (print->repeat_mm * px_per_mm + 0.5);
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) width, 1);
  cairo_t *cr = cairo_create (surface);
  OddPaintOptions options;
  cairo_matrix_t identity;
  guint best = expected / 2 + 1;
  const guint32 *row;

  odd_paint_options_init (&options);
  options.px_per_mm = px_per_mm;
  {
    g_autoptr(OddPalette) palette = odd_palette_new (swatches, &options);

    cairo_scale (cr, px_per_mm, px_per_mm);
    cairo_matrix_init_identity (&identity);
    odd_palette_use_print (palette, cr, print, &identity);
    cairo_paint (cr);
    cairo_destroy (cr);
    cairo_surface_flush (surface);
    row = (const guint32 *) cairo_image_surface_get_data (surface);
    for (guint shift = best; shift < expected * 3 / 2; shift++)
      if (shifted_difference (row, width, shift) < shifted_difference (row, width, best))
        best = shift;
  }
  g_assert_cmpuint (best, >=, expected - 1);
  g_assert_cmpuint (best, <=, expected + 1);
  cairo_surface_destroy (surface);
}

static void
test_true_scale (void)
{
  const OddPrint stripe = { ODD_PRINT_STRIPE, { 0xe9dec8, 0x344a77, 0xa3a4ac }, 34.0 }, check = { ODD_PRINT_CHECK, { 0xffffff, 0xb84c47 }, 25.4 };
  const double zooms[] = { 0.8, 1.0, 3.0, 6.0 };

  g_test_summary ("A repeat of 34 mm is 34 mm long on the screen, measured in pixels at four zooms");
  for (guint i = 0; i < G_N_ELEMENTS (zooms); i++)
    {
      check_repeat (&stripe, zooms[i]);
      check_repeat (&check, zooms[i]);
    }
}

static void
test_levels (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  const OddPrint print = { ODD_PRINT_CHECK, { 0xffffff, 0x000000 }, 20.0 };
  g_autoptr(OddSwatch) swatch = odd_swatches_dup_print (swatches, &print, FALSE);
  const OddSwatchLevel *last = &swatch->levels[swatch->n_levels - 1];

  g_test_summary ("Levels halve down to one px of the mean colour; the one chosen is neither coarser than seen nor twice too fine");
  g_assert_cmpuint (last->width_px, ==, 1);
  g_assert_cmpuint (last->height_px, ==, 1);
  for (guint i = 1; i < swatch->n_levels; i++)
    g_assert_cmpuint (swatch->levels[i].width_px * 2, ==, swatch->levels[i - 1].width_px);
  g_assert_cmpfloat_with_epsilon (swatch->mean_colour & 0xff, 255.0 * odd_print_kind_get_shares (ODD_PRINT_CHECK)[0], 8.0);
  for (double px_per_mm = 0.05; px_per_mm < 4.0; px_per_mm *= 1.3)
    {
      const guint level = odd_swatch_choose_level (swatch, px_per_mm);
      const double fineness = swatch->levels[level].width_px / swatch->unit_width;

      g_assert_cmpfloat (fineness, >=, MIN (0.9 * px_per_mm, swatch->px_per_unit));
      g_assert_cmpfloat (fineness, <, 1.8 * px_per_mm + 1e-9);
    }
  g_assert_cmpuint (odd_swatch_choose_level (swatch, 50.0), ==, 0);
}

static gpointer
ask_for_all (gpointer data)
{
  OddSwatch **found = g_new0 (OddSwatch *, n_sample_prints);

  for (guint i = 0; i < n_sample_prints; i++)
    found[i] = odd_swatches_dup_print (data, &sample_prints[i], FALSE);
  return found;
}

static void
test_shared_by_threads (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  GThread *threads[4];
  OddSwatch **found[4];

  g_test_summary ("Four threads that ask at once are handed the same swatches, each made once");
  for (guint i = 0; i < 4; i++)
    threads[i] = g_thread_new ("painter", ask_for_all, swatches);
  for (guint i = 0; i < 4; i++)
    found[i] = g_thread_join (threads[i]);
  for (guint i = 0; i < 4; i++)
    {
      for (guint j = 0; j < n_sample_prints; j++)
        {
          g_assert_true (found[i][j] == found[0][j]);
          if (i > 0)
            odd_swatch_unref (found[i][j]);
        }
    }
  for (guint j = 0; j < n_sample_prints; j++)
    odd_swatch_unref (found[0][j]);
  for (guint i = 0; i < 4; i++)
    g_free (found[i]);
}

static void
test_wrong_side (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  const OddPrint print = { ODD_PRINT_PLAIN, { 0xa02020 }, 20.0 };
  g_autoptr(OddSwatch) right = odd_swatches_dup_print (swatches, &print, FALSE);
  g_autoptr(OddSwatch) wrong = odd_swatches_dup_print (swatches, &print, TRUE);
  const int right_spread = (int) (right->mean_colour >> 16) - (int) (right->mean_colour & 0xff);
  const int wrong_spread = (int) (wrong->mean_colour >> 16) - (int) (wrong->mean_colour & 0xff);

  g_test_summary ("The wrong side is paler and greyer, and of the same hue");
  g_assert_cmpuint (wrong->mean_colour & 0xff, >, (right->mean_colour & 0xff) + 30);
  g_assert_cmpint (wrong_spread, <, right_spread * 3 / 4);
  g_assert_cmpint (wrong_spread, >, 10);
}

static cairo_status_t
append_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
test_picture (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 30, 20);
  GByteArray *png = g_byte_array_new ();
  g_autoptr(GBytes) bytes = NULL, rubbish = g_bytes_new_static ("not a picture", 13);
  OddPicture good = { (char *) "good.png" }, broken = { (char *) "broken.png" }, missing = { (char *) "missing.png" };
  g_autoptr(OddSwatch) swatch = NULL;
  cairo_t *cr = cairo_create (surface);

  g_test_summary ("A picture is read once, with its size; a broken or missing one gives nothing, each time it is asked for");
  cairo_set_source_rgb (cr, 1.0, 0.0, 0.0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_write_to_png_stream (surface, append_cb, png);
  cairo_surface_destroy (surface);
  bytes = g_byte_array_free_to_bytes (png);
  good.bytes = bytes;
  broken.bytes = rubbish;
  swatch = odd_swatches_dup_picture (swatches, &good, FALSE);
  g_assert_nonnull (swatch);
  g_assert_cmpfloat (swatch->unit_width, ==, 30.0);
  g_assert_cmpfloat (swatch->unit_height, ==, 20.0);
  g_assert_cmphex (swatch->mean_colour, ==, 0xff0000);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_null (odd_swatches_dup_picture (swatches, &broken, FALSE));
      g_assert_null (odd_swatches_dup_picture (swatches, &missing, FALSE));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/print/same-bytes", test_same_bytes);
  g_test_add_func ("/drawing/print/every-kind", test_every_kind);
  g_test_add_func ("/drawing/print/seamless", test_seamless);
  g_test_add_func ("/drawing/print/repeats", test_repeats);
  g_test_add_func ("/drawing/print/extreme-repeats", test_extreme_repeats);
  g_test_add_func ("/drawing/print/shares", test_shares);
  g_test_add_func ("/drawing/print/threads-keep-colour", test_threads_keep_colour);
  g_test_add_func ("/drawing/print/true-scale", test_true_scale);
  g_test_add_func ("/drawing/swatch/levels", test_levels);
  g_test_add_func ("/drawing/swatch/shared-by-threads", test_shared_by_threads);
  g_test_add_func ("/drawing/swatch/wrong-side", test_wrong_side);
  g_test_add_func ("/drawing/swatch/picture", test_picture);
  return g_test_run ();
}
