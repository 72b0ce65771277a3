/* Contact sheets to look at while the painters are worked on; not a test.
 *
 * Usage: sheet prints|marks|panels|dark|high-contrast|paper|SHOW OUT.png [PX_PER_MM | MARK_PX]
 * SHOW is a view: patches, seams, lightness, wrong-side */
#include "config.h"

#include "drawing/colour.h"
#include "drawing/palette.h"
#include "fixtures.h"

static cairo_surface_t *
new_sheet (double width, double height, guint32 colour, cairo_t **out_cr)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (width), (int) ceil (height));

  *out_cr = cairo_create (surface);
  odd_set_source_rgba (*out_cr, colour, 1.0);
  cairo_paint (*out_cr);
  return surface;
}

static void
fill_swatch (cairo_t *cr, OddPalette *palette, const OddPrint *print, OddBox box)
{
  cairo_matrix_t identity;

  cairo_matrix_init_identity (&identity);
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  odd_palette_use_print (palette, cr, print, &identity);
  cairo_fill (cr);
}

static cairo_surface_t *
sheet_of_prints (OddSwatches *swatches, double px_per_mm)
{
  const double cell = 106.0, columns = 5.0;
  cairo_t *cr;
  cairo_surface_t *surface = new_sheet (columns * cell * px_per_mm, ceil (n_sample_prints / columns) * cell * px_per_mm, 0xf1eee9, &cr);
  OddPaintOptions options;
  g_autoptr(OddPalette) palette = NULL;

  odd_paint_options_init (&options);
  options.px_per_mm = px_per_mm;
  palette = odd_palette_new (swatches, &options);
  cairo_scale (cr, px_per_mm, px_per_mm);
  for (guint i = 0; i < n_sample_prints; i++)
    {
      const OddBox box = { fmod (i, columns) * cell + 3.0, floor (i / columns) * cell + 3.0, 100.0, 100.0 };

      fill_swatch (cr, palette, &sample_prints[i], box);
    }
  cairo_destroy (cr);
  return surface;
}

static void
add_mark (OddMarks *marks, guint i, OddBox box)
{
  const double middle = box.y + 0.5 * box.height;
  const OddSegment line = { { box.x, middle }, { box.x + box.width, middle } };
  const OddEndKind ends[] = { ODD_END_CAUGHT, ODD_END_OPEN, ODD_END_BACK_STITCHED, ODD_END_CUT };

  if (i < ODD_N_MARKS)
    odd_marks_add_mark (marks, i, line, odd_point (0.0, 1.0));
  else
    {
      const OddPoint at = odd_point (box.x + 0.7 * box.width, middle);
      const OddEnd end = { ends[i - ODD_N_MARKS], 0, 0, 90.0 };

      odd_marks_add_mark (marks, ODD_MARK_DONE, (OddSegment) { line.from, at }, odd_point (0.0, 1.0));
      odd_marks_add_end (marks, at, odd_point (-1.0, 0.0), &end);
    }
}

static void
paint_in_hand (cairo_t *cr, guint i, OddBox box, const OddPaintOptions *options)
{
  const OddBox inner = { box.x + 0.3 * box.width, box.y + 0.15 * box.height, 0.7 * box.width, 0.7 * box.height };
  const double middle = box.y + 0.5 * box.height;
  const OddSegment seam = { { box.x, middle }, { box.x + box.width, middle } };
  const OddSegment raw[2] = { { { box.x, middle - 12.0 }, { box.x + box.width, middle - 12.0 } }, { { box.x, middle + 12.0 }, { box.x + box.width, middle + 12.0 } } };
  const int labels[4] = { 0, 0, 0, 0 };
  g_autoptr(OddPolygon) polygon = odd_polygon_new_box (inner);
  g_autoptr(OddConvex) convex = odd_convex_new_rectangle (inner, labels);

  if (i == 0)
    odd_paint_bare (cr, convex, options);
  else if (i == 1)
    odd_paint_trimming (cr, polygon, options);
  else if (i == 2)
    odd_paint_offcut (cr, polygon, options);
  else
    odd_paint_dragged_seam (cr, seam, raw, 0x147569, options);
}

static cairo_surface_t *
sheet_of_marks (OddSwatches *swatches, double mark_px)
{
  static const guint cloths[][2] = { { 7, 13 }, { 8, 4 }, { 1, 11 } };
  const guint n_rows = ODD_N_MARKS + 4 + 4;
  const double zoom = 0.56 * mark_px, width = 100.0, height = 90.0;
  cairo_t *cr;
  cairo_surface_t *surface = new_sheet (2.0 * 3.2 * width * zoom, ceil (n_rows / 2.0) * (height + 14.0) * zoom, 0xfafafa, &cr);
  OddPaintOptions options;
  g_autoptr(OddPalette) palette = NULL;

  odd_paint_options_init (&options);
  options.px_per_mm = zoom;
  options.mark_px = mark_px;
  palette = odd_palette_new (swatches, &options);
  cairo_scale (cr, zoom, zoom);
  for (guint i = 0; i < n_rows; i++)
    for (guint j = 0; j < G_N_ELEMENTS (cloths); j++)
      {
        const OddBox box = { (i % 2) * 3.2 * width + j * (width + 4.0) + 4.0, (i / 2) * (height + 14.0) + 4.0, width, height };
        g_autoptr(OddMarks) marks = odd_marks_new (&options);

        cairo_save (cr);
        cairo_rectangle (cr, box.x, box.y, box.width, box.height);
        cairo_clip (cr);
        fill_swatch (cr, palette, &sample_prints[cloths[j][0]], (OddBox) { box.x, box.y, box.width, 0.5 * box.height });
        fill_swatch (cr, palette, &sample_prints[cloths[j][1]], (OddBox) { box.x, box.y + 0.5 * box.height, box.width, 0.5 * box.height });
        if (i < ODD_N_MARKS + 4)
          add_mark (marks, i, box);
        else
          paint_in_hand (cr, i - ODD_N_MARKS - 4, box, &options);
        odd_marks_paint (marks, cr);
        cairo_restore (cr);
      }
  cairo_destroy (cr);
  return surface;
}

/* All panels of the sample side by side, as in the piecing view. */
static cairo_surface_t *
sheet_of_panels (OddSwatches *swatches, OddPaintOptions *options)
{
  const double gap = 40.0, zoom = options->px_per_mm;
  g_autoptr(OddJob) job = sample_job_new ();
  OddTextile *textile = g_ptr_array_index (job->textiles, 0);
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (job, textile->id);
  double width = gap, length = 0.0;
  cairo_surface_t *surface;
  cairo_t *cr;

  for (guint i = 0; i < layout->n_panels; i++)
    {
      width += layout->panels[i].layout->raw_box.width + gap;
      length = MAX (length, layout->panels[i].layout->raw_box.height);
    }
  surface = new_sheet (width * zoom, (length + 2.0 * gap) * zoom, options->on_paper ? 0xffffff : options->table_colour, &cr);
  cairo_scale (cr, zoom, zoom);
  cairo_translate (cr, gap, gap);
  for (guint i = 0; i < layout->n_panels; i++)
    {
      const OddLayout *panel = layout->panels[i].layout;

      cairo_save (cr);
      cairo_translate (cr, -panel->raw_box.x, -panel->raw_box.y);
      odd_paint_panel (cr, swatches, job, panel, layout, options);
      cairo_restore (cr);
      cairo_translate (cr, panel->raw_box.width + gap, 0.0);
    }
  cairo_destroy (cr);
  return surface;
}

int
main (int argc, char **argv)
{
  g_autoptr(OddSwatches) swatches = odd_swatches_new ();
  const double scale = argc > 3 ? g_ascii_strtod (argv[3], NULL) : 1.0;
  cairo_surface_t *surface;
  OddPaintOptions options;

  if (argc < 3 || !(scale > 0.0))
    return 2;
  odd_paint_options_init (&options);
  options.px_per_mm = scale;
  odd_show_from_nick (argv[1], &options.show);
  options.on_paper = options.numbers = g_str_equal (argv[1], "paper");
  options.high_contrast = g_str_equal (argv[1], "high-contrast");
  if (g_str_equal (argv[1], "dark"))
    options.table_colour = 0x1d1b1a;
  if (g_str_equal (argv[1], "prints"))
    surface = sheet_of_prints (swatches, scale);
  else if (g_str_equal (argv[1], "marks"))
    surface = sheet_of_marks (swatches, scale);
  else
    surface = sheet_of_panels (swatches, &options);
  cairo_surface_write_to_png (surface, argv[2]);
  cairo_surface_destroy (surface);
  return 0;
}
