/* Pieced scraps are shown through: the colours of what they are sewn from appear where it lies. */
#include "config.h"

#include "../cloth/pieces.h"
#include "drawing/painter.h"


typedef enum { OTHER, REDDISH, BLUISH } Hue;

/* Weave, ditch and the paler wrong side change how strong a colour is, not its hue. */
static Hue
hue_at (cairo_surface_t *surface, double x, double y)
{
  const guchar *row = cairo_image_surface_get_data (surface) + (gsize) y * (gsize) cairo_image_surface_get_stride (surface);
  const guint32 pixel = ((const guint32 *) (const void *) row)[(gsize) x];
  const int red = (pixel >> 16) & 0xff, blue = pixel & 0xff;

  if (red > blue + 40)
    return REDDISH;
  return blue > red + 40 ? BLUISH : OTHER;
}

static cairo_surface_t *
render_scrap (OddJob *job, OddId scrap_id)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();

  return odd_scrap_render (job, swatches, odd_job_get_scrap (job, scrap_id), 1.0, 1.0);
}

static void
test_scrap (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  cairo_surface_t *surface = render_scrap (job, scrap_id);
  /* margin 2, then 12.7 of allowance */
  static const struct { double x, y; Hue hue; } cases[] = {
    { 50, 50, REDDISH }, { 150, 50, BLUISH }, { 50, 150, BLUISH }, { 150, 150, REDDISH },
    /* the cloth goes on into the allowance */
    { -8, 50, REDDISH }, { 208, 50, BLUISH }, { 150, 208, REDDISH },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (hue_at (surface, cases[i].x + 14.7, cases[i].y + 14.7), ==, cases[i].hue);
  cairo_surface_destroy (surface);
}

static void
test_half (void)
{
  OddId scrap_id = 0, ids[2];
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  cairo_surface_t *surface;

  take (&job, odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 150 }, ids, NULL));
  surface = render_scrap (job, ids[1]);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, (int) ceil (62.7 + 4.0));
  g_assert_cmpint (hue_at (surface, 64, 20), ==, BLUISH);
  g_assert_cmpint (hue_at (surface, 164, 20), ==, REDDISH);
  cairo_surface_destroy (surface);
}

/* A panel of one square filled with the piece, painted with its origin at 20, 20. */
static cairo_surface_t *
paint_holder (OddJob *job, OddId panel_id, OddShow show, gboolean on_paper)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 200, 200);
  cairo_t *cr = cairo_create (surface);
  OddPaintOptions options;

  odd_paint_options_init (&options);
  options.show = show;
  options.on_paper = on_paper;
  options.most_detail = ODD_DETAIL_SIGNS;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, 20, 20);
  odd_paint_panel (cr, swatches, job, layout, NULL, &options);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static OddId
place (OddJob **job, OddId scrap_id, double mm, OddPlacement at)
{
  OddId panel_id = 0;

  take (job, odd_job_add_panel (*job, 0, 0, "Holder", mm, mm, &panel_id, NULL));
  take (job, odd_job_place_scrap (*job, odd_job_get_panel (*job, panel_id, NULL, NULL)->root->id, scrap_id, &at, NULL));
  return panel_id;
}

static void
test_placed (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  /* turned by 90 degrees: what was on the right is below; the middle of the piece comes to 80, 80 */
  const OddPlacement at = { 90.0, FALSE, { 180.0, -20.0 } };
  const OddId panel_id = place (&job, scrap_id, 160.0, at);
  cairo_surface_t *surface = paint_holder (job, panel_id, ODD_SHOW_PATCHES, FALSE);

  g_assert_cmpint (hue_at (surface, 20 + 40, 20 + 40), ==, BLUISH);
  g_assert_cmpint (hue_at (surface, 20 + 120, 20 + 40), ==, REDDISH);
  g_assert_cmpint (hue_at (surface, 20 + 40, 20 + 120), ==, REDDISH);
  g_assert_cmpint (hue_at (surface, 20 + 120, 20 + 120), ==, BLUISH);
  cairo_surface_destroy (surface);
}

static void
test_views (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  const OddId panel_id = place (&job, scrap_id, 160.0, (OddPlacement) { 0.0, FALSE, { -20.0, -20.0 } });
  cairo_surface_t *grey = paint_holder (job, panel_id, ODD_SHOW_LIGHTNESS, FALSE);
  cairo_surface_t *wrong = paint_holder (job, panel_id, ODD_SHOW_WRONG_SIDE, FALSE);
  cairo_surface_t *paper = paint_holder (job, panel_id, ODD_SHOW_PATCHES, TRUE);

  g_assert_cmpint (hue_at (grey, 60, 60), ==, OTHER);
  g_assert_cmpint (hue_at (wrong, 60, 60), ==, BLUISH);
  g_assert_cmpint (hue_at (wrong, 140, 60), ==, REDDISH);
  g_assert_cmpint (hue_at (paper, 60, 60), ==, OTHER);
  cairo_surface_destroy (grey);
  cairo_surface_destroy (wrong);
  cairo_surface_destroy (paper);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/piece-painter/scrap", test_scrap);
  g_test_add_func ("/piece-painter/half", test_half);
  g_test_add_func ("/piece-painter/placed", test_placed);
  g_test_add_func ("/piece-painter/views", test_views);
  return g_test_run ();
}
