#include "config.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "cloth/edit.h"
#include "drawing/painter.h"
#include "drawing/panels.h"
#include "fixtures.h"

#define TILE 256

static const OddLayout *
layout_of (OddTextileLayout *textile, guint panel)
{
  return textile->panels[panel].layout;
}

/* Paints what of a panel lies in a square tile whose top left is at @at (mm, as shown). (transfer full) */
static cairo_surface_t *
paint_tile (OddSwatches *swatches, OddJob *job, OddTextileLayout *textile, guint panel, OddPaintOptions options, OddPoint at, guint side_px)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) side_px, (int) side_px);
  cairo_t *cr = cairo_create (surface);
  const guint32 table = options.on_paper ? 0xffffff : options.table_colour;

  cairo_set_source_rgb (cr, (table >> 16) / 255.0, ((table >> 8) & 0xff) / 255.0, (table & 0xff) / 255.0);
  cairo_paint (cr);
  cairo_scale (cr, options.px_per_mm, options.px_per_mm);
  cairo_translate (cr, -at.x, -at.y);
  if (odd_box_is_empty (options.clip_mm))
    options.clip_mm = (OddBox) { at.x, at.y, side_px / options.px_per_mm, side_px / options.px_per_mm };
  odd_paint_panel (cr, swatches, job, layout_of (textile, panel), textile, &options);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  const guchar *row = cairo_image_surface_get_data (surface) + (gsize) y * (gsize) cairo_image_surface_get_stride (surface);

  return ((const guint32 *) (const void *) row)[x] & 0xffffff;
}

static guint
spread (guint32 colour)
{
  const guint red = colour >> 16, green = (colour >> 8) & 0xff, blue = colour & 0xff;

  return MAX (red, MAX (green, blue)) - MIN (red, MIN (green, blue));
}

static guint
light (guint32 colour)
{
  return ((colour >> 16) * 2 + ((colour >> 8) & 0xff) * 5 + (colour & 0xff)) / 8;
}

static gboolean
same_pixels (cairo_surface_t *a, cairo_surface_t *b)
{
  const gsize bytes = (gsize) cairo_image_surface_get_stride (a) * (gsize) cairo_image_surface_get_height (a);

  return memcmp (cairo_image_surface_get_data (a), cairo_image_surface_get_data (b), bytes) == 0;
}

static void
test_tiles_meet (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_job_new ();
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  OddPaintOptions options;

  g_test_summary ("What lies outside the clip is left out and what lies inside is the same: a tile is the cut-out of the whole");
  odd_paint_options_init (&options);
  for (guint show = 0; show < ODD_N_SHOWS; show++)
    for (guint panel = 0; panel < textile->n_panels; panel++)
      {
        cairo_surface_t *whole, *tile;
        guint differ = 0;

        options.show = show;
        options.px_per_mm = 0.8;
        options.clip_mm = (OddBox) { -100.0, -100.0, 2000.0, 2000.0 };
        whole = paint_tile (swatches, job, textile, panel, options, odd_point (-40.0, -40.0), 512);
        options.clip_mm = ODD_BOX_EMPTY;
        tile = paint_tile (swatches, job, textile, panel, options, odd_point (-40.0 + 160.0 / 0.8, -40.0 + 160.0 / 0.8), TILE);
        for (int y = 0; y < TILE; y++)
          for (int x = 0; x < TILE; x++)
            for (guint shift = 0; shift < 24; shift += 8)
              differ += ABS ((int) ((pixel (whole, x + 160, y + 160) >> shift) & 0xff) - (int) ((pixel (tile, x, y) >> shift) & 0xff)) > 8;
        /* pixman places turned cloth to 1/65536 px from the picture's corner: a few pixels fall to the next thread */
        g_assert_cmpuint (differ, <, TILE * TILE / 500);
        cairo_surface_destroy (whole);
        cairo_surface_destroy (tile);
      }
}

typedef struct { OddSwatches *swatches; OddJob *job; OddTextileLayout *textile; } Shared;

static gpointer
paint_in_thread (gpointer data)
{
  Shared *shared = data;
  OddPaintOptions options;

  odd_paint_options_init (&options);
  return paint_tile (shared->swatches, shared->job, shared->textile, 2, options, odd_point (0.0, 0.0), TILE);
}

static void
test_threads (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_job_new ();
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  Shared shared = { swatches, job, textile };
  GThread *threads[4];
  cairo_surface_t *tiles[4];

  g_test_summary ("Four threads paint the same tile at once, from swatches none of them had: the same bytes");
  for (guint i = 0; i < 4; i++)
    threads[i] = g_thread_new ("painter", paint_in_thread, &shared);
  for (guint i = 0; i < 4; i++)
    tiles[i] = g_thread_join (threads[i]);
  for (guint i = 0; i < 4; i++)
    g_assert_true (same_pixels (tiles[i], tiles[0]));
  for (guint i = 0; i < 4; i++)
    cairo_surface_destroy (tiles[i]);
}

static void
test_views (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_squares_new (3, 3, 100.0, 3);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  const OddPatch *patch = &layout_of (textile, 0)->patches[0];
  const guint expected_grey = (guint) (255.0 * odd_fabric_get_lightness (patch->fabric) / 100.0);
  cairo_surface_t *tiles[ODD_N_SHOWS];
  OddPaintOptions options;

  g_test_summary ("By lightness all cloth is grey, darker cloth darker; with seams shown cloth is pale; the wrong side is turned over and paler");
  g_assert_cmphex (patch->fabric->print.colours[0], ==, 0xa8492f);
  odd_paint_options_init (&options);
  for (guint show = 0; show < ODD_N_SHOWS; show++)
    {
      options.show = show;
      tiles[show] = paint_tile (swatches, job, textile, 0, options, odd_point (0.0, 0.0), TILE + 44);
    }
  g_assert_cmpuint (spread (pixel (tiles[ODD_SHOW_PATCHES], 50, 50)), >, 80);
  g_assert_cmpuint (spread (pixel (tiles[ODD_SHOW_LIGHTNESS], 50, 50)), <=, 1);
  g_assert_cmpuint (ABS ((int) light (pixel (tiles[ODD_SHOW_LIGHTNESS], 50, 50)) - (int) expected_grey), <, 20);
  g_assert_cmpuint (light (pixel (tiles[ODD_SHOW_SEAMS], 50, 50)), >, light (pixel (tiles[ODD_SHOW_PATCHES], 50, 50)) + 60);
  /* the first patch is plain rust; seen from behind it is on the right */
  g_assert_cmpuint (light (pixel (tiles[ODD_SHOW_WRONG_SIDE], 300 - 51, 50)), >, light (pixel (tiles[ODD_SHOW_PATCHES], 50, 50)) + 20);
  g_assert_cmpuint (spread (pixel (tiles[ODD_SHOW_WRONG_SIDE], 300 - 51, 50)), >, 25);
  g_assert_cmpuint (spread (pixel (tiles[ODD_SHOW_WRONG_SIDE], 300 - 51, 50)), <, spread (pixel (tiles[ODD_SHOW_PATCHES], 50, 50)) * 3 / 4);
  for (guint show = 0; show < ODD_N_SHOWS; show++)
    cairo_surface_destroy (tiles[show]);
}

static void
test_bands (void)
{
  const guint32 tables[] = { 0xf1eee9, 0x1d1b1a };
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_squares_new (2, 2, 100.0, 3);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  const double allowance = layout_of (textile, 0)->edges[0].allowance_mm;
  OddPaintOptions options;

  g_test_summary ("Round the finished panel cloth goes on for its allowance under a veil of the table's colour, and beyond is the table");
  odd_paint_options_init (&options);
  options.px_per_mm = 2.0;
  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      cairo_surface_t *tile;
      guint cloth, band, table;

      options.table_colour = tables[i];
      tile = paint_tile (swatches, job, textile, 0, options, odd_point (-60.0, -60.0), TILE);
      /* the middle row of the first patch, plain rust: well inside; halfway in the band; far off */
      cloth = light (pixel (tile, (int) (2.0 * (60.0 + 30.0)), 200));
      band = light (pixel (tile, (int) (2.0 * (60.0 - 0.5 * allowance)), 200));
      table = light (pixel (tile, 30, 200));
      g_assert_cmpuint (ABS ((int) table - (int) light (tables[i])), <=, 1);
      g_assert_cmpuint (ABS ((int) band - (int) (0.42 * cloth + 0.58 * table)), <, 14);
      cairo_surface_destroy (tile);
    }
}

static void
test_true_size (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_squares_new (2, 2, 30.0, 0);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  const OddBox raw = layout_of (textile, 0)->raw_box;
  OddPaintOptions options;
  cairo_surface_t *tile;
  int first = -1, last = -1;

  g_test_summary ("On paper a raw outline is as long as the layout says, measured in pixels");
  odd_paint_options_init (&options);
  options.on_paper = TRUE;
  options.px_per_mm = 4.0;
  tile = paint_tile (swatches, job, textile, 0, options, odd_point (raw.x - 10.0, raw.y - 10.0), 512);
  for (int x = 0; x < 512; x++)
    {
      guint dark = 0;

      /* a column of the outline is dark all along the raw length, a column of ticks is not */
      for (int y = 44; y < 44 + (int) (4.0 * raw.height) - 8; y++)
        dark += light (pixel (tile, x, y)) < 160;
      if (dark < (guint) (4.0 * raw.height) * 9 / 10)
        continue;
      first = first < 0 ? x : first;
      last = x;
    }
  g_assert_cmpint (first, >=, 39);
  g_assert_cmpint (first, <=, 41);
  g_assert_cmpint (ABS (last - first - (int) floor (4.0 * raw.width + 0.5)), <=, 2);
  cairo_surface_destroy (tile);
}

static guint
count_ink (cairo_surface_t *tile, guint side_px)
{
  guint n = 0;

  for (guint y = 0; y < side_px; y++)
    for (guint x = 0; x < side_px; x++)
      n += light (pixel (tile, (int) x, (int) y)) < 45;
  return n;
}

static void
test_less_when_small (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_squares_new (12, 12, 100.0, 0);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  const struct { double zoom; gboolean marks; } steps[] = { { 0.05, FALSE }, { 0.10, TRUE }, { 0.20, TRUE } };
  OddPaintOptions options;

  g_test_summary ("Patches under 6 px have no marks at all; the wedge and the words wait for more room");
  odd_paint_options_init (&options);
  options.show = ODD_SHOW_LIGHTNESS;
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      cairo_surface_t *tile;
      guint ink;

      options.px_per_mm = steps[i].zoom;
      tile = paint_tile (swatches, job, textile, 0, options, odd_point (100.0, 100.0), (guint) (1000.0 * steps[i].zoom));
      ink = count_ink (tile, (guint) (1000.0 * steps[i].zoom));
      if (steps[i].marks)
        g_assert_cmpuint (ink, >, 50);
      else
        g_assert_cmpuint (ink, ==, 0);
      cairo_surface_destroy (tile);
    }
}

/* Pixels that differ between the panel painted with either set of options. */
static guint
count_differences (const OddPaintOptions *a, const OddPaintOptions *b, guint n_done)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_squares_new (2, 2, 100.0, n_done);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  cairo_surface_t *one = paint_tile (swatches, job, textile, 0, *a, odd_point (0.0, 0.0), TILE);
  cairo_surface_t *other = paint_tile (swatches, job, textile, 0, *b, odd_point (0.0, 0.0), TILE);
  guint n = 0;

  for (int y = 0; y < TILE; y++)
    for (int x = 0; x < TILE; x++)
      n += pixel (one, x, y) != pixel (other, x, y);
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
  return n;
}

static void
test_options (void)
{
  OddPaintOptions plain, other;

  g_test_summary ("Numbers on wish, no words where a picture wants none, stronger marks in high contrast");
  odd_paint_options_init (&plain);
  other = plain;
  g_assert_cmpuint (count_differences (&plain, &other, 2), ==, 0);
  other.numbers = TRUE;
  g_assert_cmpuint (count_differences (&plain, &other, 2), >, 4 * 100);
  other = plain;
  other.high_contrast = TRUE;
  g_assert_cmpuint (count_differences (&plain, &other, 3), >, TILE);
  /* near by there are words; held back, they are gone, and no finer detail is left to hold back */
  plain.px_per_mm = other.px_per_mm = 2.0;
  other.high_contrast = FALSE;
  other.most_detail = ODD_DETAIL_SIGNS;
  g_assert_cmpuint (count_differences (&plain, &other, 3), >, 400);
  plain.most_detail = other.most_detail = ODD_DETAIL_COLOUR;
  other.numbers = TRUE;
  g_assert_cmpuint (count_differences (&plain, &other, 1), ==, 0);
}

static void
test_raw_inside (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_job_new ();
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  g_autofree gboolean *raw_inside = odd_layout_raw_inside (layout_of (textile, 0), textile);
  OddPaintOptions options;
  guint n = 0;

  g_test_summary ("A seam that was enclosed raw has a red disc in its middle, and only such a seam");
  odd_paint_options_init (&options);
  options.show = ODD_SHOW_LIGHTNESS;
  for (guint i = 0; i < layout_of (textile, 0)->n_seams; i++)
    {
      const OddSegment line = layout_of (textile, 0)->seams[i].finished;
      const OddPoint middle = odd_point_lerp (line.from, line.to, 0.5);
      cairo_surface_t *tile = paint_tile (swatches, job, textile, 0, options, odd_point (middle.x - 32.0, middle.y - 32.0), 64);

      /* within the disc and clear of the white cross; without a disc: line, ticks or grey cloth */
      g_assert_true ((spread (pixel (tile, 32 + 5, 32)) > 100) == raw_inside[i]);
      n += raw_inside[i];
      cairo_surface_destroy (tile);
    }
  g_assert_cmpuint (n, >, 0);
  g_assert_cmpuint (n, <, layout_of (textile, 0)->n_seams);
}

static void
test_scrap (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_squares_new (2, 2, 100.0, 0);
  OddScrap *scrap = g_ptr_array_index (job->scraps, 0);
  const OddBox box = odd_scrap_get_box (scrap);
  cairo_surface_t *surface = odd_scrap_render (job, swatches, scrap, 0.5, 2.0);
  OddPaintOptions options;

  g_test_summary ("A thumbnail is as large as its scrap, opaque within and clear at its corners; uses are hatched");
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, (int) ceil (0.5 * box.width + 8.0));
  g_assert_cmpuint (cairo_image_surface_get_data (surface)[3], ==, 0);
  g_assert_cmpuint (cairo_image_surface_get_data (surface)[cairo_image_surface_get_stride (surface) * (cairo_image_surface_get_height (surface) / 2) + 4 * (cairo_image_surface_get_width (surface) / 2) + 3], ==, 255);
  cairo_surface_destroy (surface);
  odd_paint_options_init (&options);
  {
    cairo_surface_t *free_one = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 220, 220), *used = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 220, 220);
    cairo_t *cr = cairo_create (free_one);

    odd_paint_scrap (cr, swatches, job, scrap, FALSE, &options);
    cairo_destroy (cr);
    cr = cairo_create (used);
    odd_paint_scrap (cr, swatches, job, scrap, TRUE, &options);
    cairo_destroy (cr);
    cairo_surface_flush (free_one);
    cairo_surface_flush (used);
    g_assert_false (same_pixels (free_one, used));
    /* near the scrap's corner nothing was cut */
    g_assert_cmphex (pixel (free_one, 8, 8), ==, pixel (used, 8, 8));
    cairo_surface_destroy (free_one);
    cairo_surface_destroy (used);
  }
}

static void
test_zones (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0.0, 0.0, 100.0, 100.0 }), hole = odd_polygon_new_box ((OddBox) { 80.0, 40.0, 40.0, 20.0 });
  g_autoptr(OddPolygon) stain = odd_polygon_new_box ((OddBox) { 10.0, 10.0, 30.0, 30.0 });
  OddZone zones[] = { { ODD_ZONE_HOLE, hole, FALSE }, { ODD_ZONE_STAIN, stain, TRUE } };
  g_autoptr(OddScrap) scrap = NULL;
  cairo_surface_t *surface;
  OddScrap values;

  g_test_summary ("What lies behind a hole is seen through it, even where the hole runs over the edge; a stain is drawn over the cloth");
  odd_scrap_init_values (&values);
  values.number = 1;
  values.outline = outline;
  values.zones = zones;
  values.n_zones = G_N_ELEMENTS (zones);
  scrap = odd_scrap_new (&values, NULL);
  g_assert_nonnull (scrap);
  surface = odd_scrap_render (job, swatches, scrap, 1.0, 1.0);
  /* 2 px of margin; the hole is only as dark as the shadow that the cloth throws */
  g_assert_cmpuint (cairo_image_surface_get_data (surface)[52 * cairo_image_surface_get_stride (surface) + 4 * 90 + 3], <, 128);
  g_assert_cmpuint (cairo_image_surface_get_data (surface)[82 * cairo_image_surface_get_stride (surface) + 4 * 90 + 3], ==, 255);
  g_assert_cmpuint (light (pixel (surface, 20, 30)) + 20, <, light (pixel (surface, 60, 80)));
  cairo_surface_destroy (surface);
}

static void
test_washed (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) empty = odd_job_new (), job = NULL;
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0.0, 0.0, 200.0, 200.0 });
  g_autoptr(OddScrap) scrap = NULL;
  cairo_surface_t *surface;
  OddFabric cloth;
  OddScrap values;

  g_test_summary ("Cloth not washed yet is drawn at its size after washing: a fifth shorter along the grain");
  odd_fabric_init_values (&cloth);
  cloth.name = (char *) "Raw linen";
  cloth.shrink_along = 0.2;
  job = odd_job_put_fabric (empty, &cloth, &cloth.id, NULL);
  odd_scrap_init_values (&values);
  values.number = 1;
  values.outline = outline;
  values.fabric_id = cloth.id;
  values.grain_deg = 90.0;
  scrap = odd_scrap_new (&values, NULL);
  surface = odd_scrap_render (job, swatches, scrap, 1.0, 1.0);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 204);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 164);
  cairo_surface_destroy (surface);
}

/* --- pictures --- */

static void
test_write_png (void)
{
  g_autoptr(OddJob) job = sample_job_new ();
  g_autofree char *folder = g_dir_make_tmp ("oddment-XXXXXX", NULL), *path = g_build_filename (folder, "all.png", NULL), *again = g_build_filename (folder, "again.PNG", NULL);
  g_autofree char *bytes = NULL, *other = NULL;
  gsize n, m;
  GError *error = NULL;
  cairo_surface_t *surface;

  g_test_summary ("A PNG has 1600 px on its longer side, and twice the same job is twice the same bytes");
  g_assert_true (odd_job_write_picture (job, 0, ODD_SHOW_PATCHES, path, &error));
  g_assert_no_error (error);
  g_assert_true (odd_job_write_picture (job, 0, ODD_SHOW_PATCHES, again, &error));
  surface = cairo_image_surface_create_from_png (path);
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  g_assert_cmpint (MAX (cairo_image_surface_get_width (surface), cairo_image_surface_get_height (surface)), ==, 1600);
  cairo_surface_destroy (surface);
  g_assert_true (g_file_get_contents (path, &bytes, &n, NULL) && g_file_get_contents (again, &other, &m, NULL));
  g_assert_cmpmem (bytes, n, other, m);
  g_unlink (path);
  g_unlink (again);
  g_rmdir (folder);
}

static void
test_write_svg (void)
{
  g_autoptr(OddJob) job = sample_squares_new (2, 3, 100.0, 1);
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (job, ((OddTextile *) g_ptr_array_index (job->textiles, 0))->id);
  g_autofree char *folder = g_dir_make_tmp ("oddment-XXXXXX", NULL), *path = g_build_filename (folder, "all.svg", NULL), *text = NULL, *expected = NULL;
  g_autoptr(GRegex) size = g_regex_new ("width=\"([0-9.]+)mm\"", 0, 0, NULL);
  g_autoptr(GMatchInfo) match = NULL;
  g_autofree char *width = NULL;
  GError *error = NULL;
  gsize n;

  g_test_summary ("An SVG says its size in millimetres: raw width and 20 mm on both sides; every view can be written");
  for (guint show = 0; show < ODD_N_SHOWS; show++)
    {
      g_assert_true (odd_job_write_picture (job, 0, show, path, &error));
      g_assert_no_error (error);
    }
  g_assert_true (g_file_get_contents (path, &text, &n, NULL));
  g_assert_nonnull (strstr (text, "<svg"));
  g_assert_cmpuint (n, <, 6 * 1024 * 1024);
  g_assert_true (g_regex_match (size, text, 0, &match));
  width = g_match_info_fetch (match, 1);
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (width, NULL), textile->panels[0].layout->raw_box.width + 40.0, 0.01);
  g_unlink (path);
  g_rmdir (folder);
}

static void
check_refused (OddJob *job, OddId textile, const char *path, const char *says)
{
  g_autoptr(GError) error = NULL;

  g_assert_false (odd_job_write_picture (job, textile, ODD_SHOW_PATCHES, path, &error));
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, says));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_true (g_str_has_suffix (error->message, "."));
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

static void
test_write_refused (void)
{
  g_autoptr(OddJob) job = sample_squares_new (2, 2, 100.0, 1), empty = odd_job_new ();
  g_autofree char *folder = g_dir_make_tmp ("oddment-XXXXXX", NULL), *blocked = g_build_filename (folder, "file", NULL);
  g_autofree char *in_file = g_build_filename (blocked, "a.png", NULL), *nowhere = g_build_filename (folder, "no", "such", "a.svg", NULL), *odd = g_build_filename (folder, "a.gif", NULL), *fine = g_build_filename (folder, "a.png", NULL);

  g_test_summary ("No folder, another ending, no panel: one sentence with the remedy, and no file is left behind");
  g_assert_true (g_file_set_contents (blocked, "x", 1, NULL));
  check_refused (job, 0, in_file, "a.png");
  check_refused (job, 0, nowhere, "a.svg");
  check_refused (job, 0, odd, ".png nor .svg");
  check_refused (empty, 0, fine, "panel");
  check_refused (job, 999999, fine, "panel");
  if (geteuid () != 0)
    {
      g_assert_cmpint (g_chmod (folder, 0500), ==, 0);
      check_refused (job, 0, fine, "a.png");
      g_assert_cmpint (g_chmod (folder, 0700), ==, 0);
    }
  g_unlink (blocked);
  g_rmdir (folder);
}

static void
test_show_nicks (void)
{
  OddShow show = ODD_SHOW_SEAMS;

  g_test_summary ("Views by name, there and back; an unknown name leaves the answer alone");
  for (guint i = 0; i < ODD_N_SHOWS; i++)
    {
      g_assert_true (odd_show_from_nick (odd_show_get_nick (i), &show));
      g_assert_cmpuint (show, ==, i);
    }
  g_assert_false (odd_show_from_nick ("Patches", &show));
  g_assert_cmpint (show, ==, ODD_SHOW_WRONG_SIDE);
}

static guint
alpha (cairo_surface_t *surface, double x, double y)
{
  return cairo_image_surface_get_data (surface)[(gsize) y * (gsize) cairo_image_surface_get_stride (surface) + 4 * (gsize) x + (G_BYTE_ORDER == G_LITTLE_ENDIAN ? 3 : 0)];
}

static void
test_panels_side_by_side (void)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  g_autoptr(OddJob) job = sample_job_new ();
  const OddTextile *textile = g_ptr_array_index (job->textiles, 0);
  const OddId ids[2] = { textile->hung[0].panel->id, textile->hung[1].panel->id };
  g_autoptr(OddLayout) first = odd_job_dup_layout_apart (job, ids[0]);
  g_autoptr(OddLayout) second = odd_job_dup_layout_apart (job, ids[1]);
  const double width_mm = first->raw_box.width + 12.0 + second->raw_box.width + 2.0 * 8.0;
  const double length_mm = MAX (first->raw_box.height, second->raw_box.height) + 2.0 * 8.0;
  cairo_surface_t *picture = odd_panels_render (job, swatches, ids, 2, 400, 300, 1.0);
  const int width = cairo_image_surface_get_width (picture), height = cairo_image_surface_get_height (picture);
  const double px_per_mm = MIN (400 / width_mm, 300 / length_mm);

  g_test_summary ("Two panels, a gap of 12 mm and margins of 8 mm keep their proportion; cloth on both sides of a clear gap");
  g_assert_cmpint (width, ==, (int) floor (width_mm * px_per_mm));
  g_assert_cmpint (height, ==, (int) floor (length_mm * px_per_mm));
  g_assert_cmpuint (alpha (picture, (8.0 + first->raw_box.width / 2.0) * px_per_mm, height / 2), ==, 0xff);
  g_assert_cmpuint (alpha (picture, (8.0 + first->raw_box.width + 12.0 + second->raw_box.width / 2.0) * px_per_mm, height / 2), ==, 0xff);
  g_assert_cmpuint (alpha (picture, (8.0 + first->raw_box.width + 6.0) * px_per_mm, height / 2), <, 0x80);
  cairo_surface_destroy (picture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/painter/panels-side-by-side", test_panels_side_by_side);
  g_test_add_func ("/drawing/painter/tiles-meet", test_tiles_meet);
  g_test_add_func ("/drawing/painter/threads", test_threads);
  g_test_add_func ("/drawing/painter/views", test_views);
  g_test_add_func ("/drawing/painter/bands", test_bands);
  g_test_add_func ("/drawing/painter/true-size", test_true_size);
  g_test_add_func ("/drawing/painter/less-when-small", test_less_when_small);
  g_test_add_func ("/drawing/painter/options", test_options);
  g_test_add_func ("/drawing/painter/raw-inside", test_raw_inside);
  g_test_add_func ("/drawing/painter/scrap", test_scrap);
  g_test_add_func ("/drawing/painter/zones", test_zones);
  g_test_add_func ("/drawing/painter/washed", test_washed);
  g_test_add_func ("/drawing/picture/png", test_write_png);
  g_test_add_func ("/drawing/picture/svg", test_write_svg);
  g_test_add_func ("/drawing/picture/refused", test_write_refused);
  g_test_add_func ("/drawing/show/nicks", test_show_nicks);
  return g_test_run ();
}
