#include "config.h"

#include "paper/pen.h"

#define MM_PER_POINT (25.4 / 72.0)

void
odd_pen_init (OddPen *self, cairo_t *cr)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();

  /* Letters stand where the font puts them: rounded to whole millimetres they would dance. */
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 72.0);
  pango_context_set_round_glyph_positions (context, FALSE);
  cairo_font_options_destroy (options);
  self->cr = cr;
  self->layout = pango_layout_new (context);
  g_object_unref (context);
}

void
odd_pen_clear (OddPen *self)
{
  g_clear_object (&self->layout);
}

static void
set_text (OddPen *self, double points, gboolean bold, const char *text)
{
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell, Sans");
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, points * PANGO_SCALE);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_font_description (self->layout, font);
  pango_layout_set_attributes (self->layout, attributes);
  pango_layout_set_text (self->layout, text, -1);
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
}

/* All that Pango sees is points. */
static double
lay_out (OddPen *self, double width_mm, OddType type, const char *text)
{
  int height;

  set_text (self, type.points, type.bold, text);
  pango_layout_set_width (self->layout, (int) (width_mm / MM_PER_POINT * PANGO_SCALE));
  pango_layout_set_wrap (self->layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (self->layout, type.align);
  pango_layout_set_ellipsize (self->layout, type.one_line ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  pango_layout_get_size (self->layout, NULL, &height);
  return (double) height / PANGO_SCALE * MM_PER_POINT;
}

double
odd_pen_measure (OddPen *self, double width_mm, OddType type, const char *text)
{
  return lay_out (self, width_mm, type, text);
}

double
odd_pen_write (OddPen *self, OddPoint at, double width_mm, OddType type, const char *text)
{
  const double height_mm = lay_out (self, width_mm, type, text);

  cairo_save (self->cr);
  cairo_translate (self->cr, at.x, at.y);
  cairo_scale (self->cr, MM_PER_POINT, MM_PER_POINT);
  cairo_set_source_rgb (self->cr, 0.0, 0.0, 0.0);
  cairo_move_to (self->cr, 0.0, 0.0);
  pango_cairo_show_layout (self->cr, self->layout);
  cairo_new_path (self->cr);
  cairo_restore (self->cr);
  return height_mm;
}

static void
lay_out_line (OddPen *self, double points, gboolean bold, const char *text)
{
  set_text (self, points, bold, text);
  pango_layout_set_width (self->layout, -1);
  pango_layout_set_alignment (self->layout, PANGO_ALIGN_LEFT);
}

double
odd_pen_get_width (OddPen *self, double points, gboolean bold, const char *text)
{
  int width;

  lay_out_line (self, points, bold, text);
  pango_layout_get_size (self->layout, &width, NULL);
  return (double) width / PANGO_SCALE * MM_PER_POINT;
}

void
odd_pen_write_centred (OddPen *self, OddPoint middle, double points, gboolean bold, gboolean halo, const char *text)
{
  int width, height;

  lay_out_line (self, points, bold, text);
  pango_layout_get_size (self->layout, &width, &height);
  cairo_save (self->cr);
  cairo_translate (self->cr, middle.x, middle.y);
  cairo_scale (self->cr, MM_PER_POINT, MM_PER_POINT);
  cairo_move_to (self->cr, -0.5 * width / PANGO_SCALE, -0.5 * height / PANGO_SCALE);
  if (halo)
    {
      pango_cairo_layout_path (self->cr, self->layout);
      cairo_set_source_rgb (self->cr, 1.0, 1.0, 1.0);
      cairo_set_line_width (self->cr, MAX (points * 0.35, 2.5));
      cairo_set_line_join (self->cr, CAIRO_LINE_JOIN_ROUND);
      cairo_stroke (self->cr);
      cairo_move_to (self->cr, -0.5 * width / PANGO_SCALE, -0.5 * height / PANGO_SCALE);
    }
  cairo_set_source_rgb (self->cr, 0.0, 0.0, 0.0);
  pango_cairo_show_layout (self->cr, self->layout);
  cairo_new_path (self->cr);
  cairo_restore (self->cr);
}

void
odd_pen_write_measure (OddPen *self, OddPoint middle, double points, const char *text)
{
  const double width_mm = odd_pen_get_width (self, points, FALSE, text) + 1.0, height_mm = points * MM_PER_POINT * 1.2;

  cairo_rectangle (self->cr, middle.x - width_mm / 2, middle.y - height_mm / 2, width_mm, height_mm);
  cairo_set_source_rgb (self->cr, 1.0, 1.0, 1.0);
  cairo_fill (self->cr);
  odd_pen_write_centred (self, middle, points, FALSE, FALSE, text);
}

static void
stroke (OddPen *self, double width_mm)
{
  cairo_set_source_rgb (self->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (self->cr, width_mm);
  cairo_stroke (self->cr);
}

void
odd_pen_line (OddPen *self, OddPoint from, OddPoint to, double width_mm)
{
  cairo_move_to (self->cr, from.x, from.y);
  cairo_line_to (self->cr, to.x, to.y);
  stroke (self, width_mm);
}

void
odd_pen_convex (OddPen *self, const OddConvex *convex, double width_mm)
{
  for (guint i = 0; i < convex->n; i++)
    cairo_line_to (self->cr, convex->points[i].x, convex->points[i].y);
  cairo_close_path (self->cr);
  cairo_set_line_join (self->cr, CAIRO_LINE_JOIN_MITER);
  stroke (self, width_mm);
}

void
odd_pen_box (OddPen *self, OddPoint at, double side_mm, gboolean done, gboolean skipped)
{
  cairo_rectangle (self->cr, at.x, at.y, side_mm, side_mm);
  stroke (self, 0.25);
  if (skipped)
    odd_pen_line (self, odd_point (at.x + side_mm * 0.25, at.y + side_mm / 2), odd_point (at.x + side_mm * 0.75, at.y + side_mm / 2), 0.4);
  if (!done)
    return;
  cairo_move_to (self->cr, at.x + side_mm * 0.2, at.y + side_mm * 0.55);
  cairo_line_to (self->cr, at.x + side_mm * 0.42, at.y + side_mm * 0.78);
  cairo_line_to (self->cr, at.x + side_mm * 0.85, at.y + side_mm * 0.2);
  stroke (self, 0.45);
}
