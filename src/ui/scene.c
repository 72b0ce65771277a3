#include "config.h"
#include "ui/scene.h"

#define REACH_PX 12.0
#define REACH_FINGER_PX 22.0

guint32
odd_rgba_to_rgb (const GdkRGBA *rgba)
{
  const guint32 red = (guint32) (CLAMP (rgba->red, 0, 1) * 255 + 0.5);
  const guint32 green = (guint32) (CLAMP (rgba->green, 0, 1) * 255 + 0.5);
  const guint32 blue = (guint32) (CLAMP (rgba->blue, 0, 1) * 255 + 0.5);

  return red << 16 | green << 8 | blue;
}

void
odd_scene_init_options (const OddScene *scene, double device_px_per_mm, int scale_factor, OddPaintOptions *options)
{
  odd_paint_options_init (options);
  options->show = scene->show;
  options->px_per_mm = device_px_per_mm;
  options->mark_px = scale_factor * scene->text_scale;
  options->high_contrast = scene->high_contrast;
  options->table_colour = odd_rgba_to_rgb (&scene->table_colour);
}

double
odd_scene_get_reach (const OddScene *scene)
{
  return scene->touch ? REACH_FINGER_PX : REACH_PX;
}

void
odd_snapshot_path (GtkSnapshot *snapshot, GArray *points, gboolean closed, const GdkRGBA *colour, double width_px, const double *dash, int n_dash)
{
  const OddBox box = odd_box_grow (odd_box_from_points ((const OddPoint *) (const void *) points->data, points->len), width_px + 1);
  const graphene_rect_t bounds = GRAPHENE_RECT_INIT (floor (box.x), floor (box.y), ceil (box.width) + 1, ceil (box.height) + 1);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);

  for (guint i = 0; i < points->len; i++)
    {
      const OddPoint p = g_array_index (points, OddPoint, i);

      cairo_line_to (cr, p.x, p.y);
    }
  if (closed)
    cairo_close_path (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, n_dash > 0 ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
  cairo_set_dash (cr, dash, n_dash, 0);
  cairo_set_line_width (cr, width_px);
  gdk_cairo_set_source_rgba (cr, colour);
  cairo_stroke (cr);
  cairo_destroy (cr);
}
