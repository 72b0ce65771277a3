#include "config.h"

#include "drawing/panels.h"

#define GAP_MM 12.0       /* between panels: seen to be apart, and still one cloth to the eye */
#define MARGIN_MM 8.0     /* for shadows */

static OddBox
box_of (GPtrArray *layouts)
{
  OddBox all = { 0.0, 0.0, 0.0, 0.0 };

  for (guint i = 0; i < layouts->len; i++)
    {
      const OddLayout *layout = layouts->pdata[i];

      all.width += layout->raw_box.width + (i > 0 ? GAP_MM : 0.0);
      all.height = MAX (all.height, layout->raw_box.height);
    }

  return odd_box_grow (all, MARGIN_MM);
}

cairo_surface_t *
odd_panels_render (OddJob      *job,
                   OddSwatches *swatches,
                   const OddId *panels,
                   guint        n_panels,
                   int          width_px,
                   int          height_px,
                   double       mark_px)
{
  g_autoptr(GPtrArray) layouts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_layout_unref);
  OddPaintOptions options;
  cairo_surface_t *surface;
  cairo_t *cr;
  OddBox box;
  double x = 0.0;

  g_return_val_if_fail (job != NULL && panels != NULL && n_panels > 0 && width_px > 0 && height_px > 0, NULL);

  for (guint i = 0; i < n_panels; i++)
    g_ptr_array_add (layouts, odd_job_dup_layout_apart (job, panels[i]));
  box = box_of (layouts);
  odd_paint_options_init (&options);
  options.px_per_mm = MIN (width_px / box.width, height_px / box.height);
  options.mark_px = mark_px;
  options.most_detail = ODD_DETAIL_DONE_OR_NOT;   /* cloth is judged here, not work */
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) MAX (1.0, floor (box.width * options.px_per_mm)),
                                        (int) MAX (1.0, floor (box.height * options.px_per_mm)));
  cr = cairo_create (surface);
  cairo_scale (cr, options.px_per_mm, options.px_per_mm);
  cairo_translate (cr, -box.x, -box.y);
  for (guint i = 0; i < layouts->len; i++)
    {
      const OddLayout *layout = layouts->pdata[i];

      cairo_save (cr);
      cairo_translate (cr, x - layout->raw_box.x, -layout->raw_box.y);
      odd_paint_panel (cr, swatches, job, layout, NULL, &options);
      cairo_restore (cr);
      x += layout->raw_box.width + GAP_MM;
    }
  cairo_destroy (cr);

  return surface;
}
