#include "config.h"

#include <glib/gi18n.h>
#include <pango/pangocairo.h>

#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter-private.h"

/* Words on cloth stand on a plate of the casing's colour, upright in every view, and only where the plate fits the patch. */

#define NUMBER_PX 12.6
#define NAME_PX 10.4

static PangoLayout *
create_text (cairo_t *cr, const char *text, double size_px, PangoWeight weight)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  g_autoptr(PangoAttrList) attributes = pango_attr_list_new ();
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell, Sans");

  pango_font_description_set_absolute_size (font, size_px * PANGO_SCALE);
  pango_font_description_set_weight (font, weight);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  /* figures of one width: numbers in a column of patches stand under one another */
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

typedef struct
{
  PangoLayout *lines[2];
  int width[2], height[2];
  guint n;
  double plate_width, plate_height;         /* px */
} Label;

static void
label_add (Label *self, PangoLayout *line)
{
  pango_layout_get_pixel_size (line, &self->width[self->n], &self->height[self->n]);
  self->plate_width = MAX (self->plate_width, MAX (self->width[self->n] + 11.0, self->height[self->n] + 2.0));
  self->plate_height += self->height[self->n] + (self->n == 0 ? 2.0 : 0.0);
  self->lines[self->n++] = line;
}

static void
label_clear (Label *self)
{
  for (guint i = 0; i < self->n; i++)
    g_object_unref (self->lines[i]);
}

static gboolean
fits (const OddConvex *region, OddPoint at, double width, double height)
{
  const double x = 0.5 * width, y = 0.5 * height;

  return odd_convex_contains (region, odd_point (at.x - x, at.y - y), 0.0) && odd_convex_contains (region, odd_point (at.x + x, at.y - y), 0.0)
         && odd_convex_contains (region, odd_point (at.x - x, at.y + y), 0.0) && odd_convex_contains (region, odd_point (at.x + x, at.y + y), 0.0);
}

static void
trace_plate (cairo_t *cr, double width, double height)
{
  const double r = MIN (0.5 * height, 9.0), x = 0.5 * width - r, y = 0.5 * height - r;

  cairo_new_path (cr);
  cairo_arc (cr, x, -y, r, -0.5 * G_PI, 0.0);
  cairo_arc (cr, x, y, r, 0.0, 0.5 * G_PI);
  cairo_arc (cr, -x, y, r, 0.5 * G_PI, G_PI);
  cairo_arc (cr, -x, -y, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

static void
paint_label (OddPainter *self, const Label *label, OddPoint at)
{
  cairo_t *cr = self->cr;
  double y = -0.5 * label->plate_height + 1.0;

  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_scale (cr, self->mirrored ? -self->px : self->px, self->px);
  trace_plate (cr, label->plate_width, label->plate_height);
  odd_set_source_rgba (cr, self->options->on_paper ? 0xffffff : ODD_CASING, self->options->on_paper || self->options->high_contrast ? 1.0 : 0.92);
  cairo_fill (cr);
  odd_set_source_rgba (cr, self->options->on_paper ? 0x000000 : ODD_INK, 1.0);
  for (guint i = 0; i < label->n; i++)
    {
      cairo_move_to (cr, -0.5 * label->width[i], y);
      pango_cairo_show_layout (cr, label->lines[i]);
      y += label->height[i];
    }
  cairo_restore (cr);
}

static char *
dup_patch_name (const OddPatch *patch)
{
  if (patch->scrap == NULL)
    return g_strdup (_("bare"));
  if (patch->piece != NULL)
    return g_strdup_printf (_("Piece %u"), patch->scrap->number);
  if (patch->fabric != NULL && patch->fabric->name[0] != '\0')
    return g_strdup_printf (_("Scrap %u, %s"), patch->scrap->number, patch->fabric->name);
  return g_strdup_printf (_("Scrap %u"), patch->scrap->number);
}

static void
label_patch (OddPainter *self, const OddPatch *patch, gboolean with_name)
{
  const OddPoint at = odd_convex_centroid (patch->region);
  g_autofree char *number = g_strdup_printf ("%u", patch->number);
  Label label = { 0 };

  label_add (&label, create_text (self->cr, number, NUMBER_PX, PANGO_WEIGHT_BOLD));
  if (with_name)
    {
      g_autofree char *name = dup_patch_name (patch);
      Label both = { 0 };

      label_add (&both, g_object_ref (label.lines[0]));
      label_add (&both, create_text (self->cr, name, NAME_PX, PANGO_WEIGHT_NORMAL));
      if (fits (patch->region, at, both.plate_width * self->px, both.plate_height * self->px))
        {
          label_clear (&label);
          label = both;
        }
      else
        label_clear (&both);
    }
  if (fits (patch->region, at, label.plate_width * self->px, label.plate_height * self->px))
    paint_label (self, &label, at);
  label_clear (&label);
}

void
odd_paint_panel_labels (OddPainter *self, const OddLayout *layout, const OddDetails *details)
{
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      const gboolean words = details->patches[i] == ODD_DETAIL_WORDS;

      if (patch->region == NULL || details->patches[i] < ODD_DETAIL_LINES || !(words || self->options->numbers) || odd_painter_skips (self, odd_convex_box (patch->region)))
        continue;
      label_patch (self, patch, words);
    }
}

static gboolean
lies_in (OddPolygon *room, OddPoint at, double width, double height)
{
  g_autoptr(OddPolygon) plate = odd_polygon_new_box ((OddBox) { at.x - 0.5 * width, at.y - 0.5 * height, width, height });

  return odd_polygon_contains (room, plate, 0.0);
}

gboolean
odd_paint_words (OddPainter *self, OddPolygon *room, OddPoint at, const char *bold, const char *plain)
{
  PangoLayout *lines[] = { create_text (self->cr, bold, NUMBER_PX, PANGO_WEIGHT_BOLD), create_text (self->cr, plain, NAME_PX, PANGO_WEIGHT_NORMAL) };
  gboolean painted = FALSE;

  for (guint n = 2; n > 0 && !painted; n--)
    {
      Label label = { 0 };

      for (guint i = 0; i < n; i++)
        label_add (&label, g_object_ref (lines[i]));
      painted = lies_in (room, at, label.plate_width * self->px, label.plate_height * self->px);
      if (painted)
        paint_label (self, &label, at);
      label_clear (&label);
    }
  g_object_unref (lines[0]);
  g_object_unref (lines[1]);
  return painted;
}
