#include "config.h"
#include "ui/ruler.h"

#define LABEL_LEAST_PX 46.0
#define TICK_LEAST_PX 5.0

typedef struct { double step; guint parts, coarse; } Step;   /* in the unit; parts: many or few small ticks */

static const Step centimetres[] = {
  { 0.1, 1, 1 }, { 0.5, 5, 1 }, { 1, 10, 2 }, { 2, 4, 2 }, { 5, 10, 5 }, { 10, 10, 2 }, { 20, 20, 4 }, { 50, 10, 5 }, { 100, 10, 2 }, { 200, 4, 2 }, { 500, 5, 5 }, { 1000, 10, 2 },
};
static const Step inches[] = {
  { 0.125, 1, 1 }, { 0.25, 2, 1 }, { 0.5, 4, 2 }, { 1, 8, 2 }, { 2, 4, 2 }, { 4, 4, 2 }, { 6, 6, 2 }, { 12, 12, 2 }, { 24, 4, 2 }, { 36, 6, 3 }, { 72, 6, 2 }, { 144, 4, 2 }, { 360, 10, 2 },
};

static double
unit_mm (OddUnit unit)
{
  return unit == ODD_UNIT_INCH ? 25.4 : unit == ODD_UNIT_CM ? 10.0 : 1.0;
}

double
odd_ruler_get_step (OddUnit unit, double zoom, double least_px, guint *out_parts)
{
  const Step *steps = unit == ODD_UNIT_INCH ? inches : centimetres;
  const guint n = unit == ODD_UNIT_INCH ? G_N_ELEMENTS (inches) : G_N_ELEMENTS (centimetres);
  const double mm = unit == ODD_UNIT_INCH ? 25.4 : 10.0;
  guint i = 0;

  while (i + 1 < n && steps[i].step * mm * zoom < least_px)
    i++;
  *out_parts = steps[i].step * mm * zoom / steps[i].parts >= TICK_LEAST_PX ? steps[i].parts : steps[i].coarse;
  return steps[i].step * mm;
}

static void
append_label (const OddScene *scene, GtkSnapshot *snapshot, PangoLayout *layout, double value, gboolean upright, double at_px)
{
  char text[32];
  int width, height;

  g_snprintf (text, sizeof text, "%.6g", fabs (value) < 1e-9 ? 0 : value);
  pango_layout_set_text (layout, text, -1);
  pango_layout_get_pixel_size (layout, &width, &height);
  gtk_snapshot_save (snapshot);
  if (upright)
    {
      gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (1, (float) round (at_px + width / 2.0)));
      gtk_snapshot_rotate (snapshot, -90);
    }
  else
    gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) round (at_px - width / 2.0), 1));
  gtk_snapshot_append_layout (snapshot, layout, &scene->dim);
  gtk_snapshot_restore (snapshot);
}

/* One ruler; @upright: that on the left. */
static void
append_scale (const OddScene *scene, GtkSnapshot *snapshot, PangoLayout *layout, double zero_px, double length_px, gboolean upright)
{
  const double zoom = odd_viewport_get_zoom (scene->viewport);
  guint parts;
  const double step = odd_ruler_get_step (scene->unit, zoom, LABEL_LEAST_PX * scene->text_scale, &parts);
  const double tick_px = step * zoom / parts;
  const int first = (int) ceil ((ODD_RULER_PX - zero_px) / tick_px);
  GdkRGBA ink = scene->text;

  ink.alpha *= 0.55f;
  for (int i = first; zero_px + i * tick_px < length_px; i++)
    {
      const double at = odd_round_to_device (zero_px + i * tick_px, gtk_widget_get_scale_factor (scene->widget));
      const gboolean labelled = i % (int) parts == 0;
      const gboolean half = parts % 2 == 0 && i % (int) (parts / 2) == 0;
      const double size = labelled ? 8 : half ? 6 : 3;

      if (labelled)
        append_label (scene, snapshot, layout, i / (int) parts * step / unit_mm (scene->unit), upright, at);
      if (upright)
        gtk_snapshot_append_color (snapshot, &ink, &GRAPHENE_RECT_INIT (ODD_RULER_PX - size, at, size, 1));
      else
        gtk_snapshot_append_color (snapshot, &ink, &GRAPHENE_RECT_INIT (at, ODD_RULER_PX - size, 1, size));
    }
}

static PangoLayout *
new_layout (const OddScene *scene)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (scene->widget, NULL);
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_scale_new (10.4 / 14.67));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

void
odd_ruler_snapshot (const OddScene *scene, GtkSnapshot *snapshot, OddPoint zero_px, OddPoint pointer_px)
{
  const double width = odd_viewport_get_width (scene->viewport), height = odd_viewport_get_height (scene->viewport);
  g_autoptr(PangoLayout) layout = new_layout (scene);
  GdkRGBA rim = scene->text;
  int text_width, text_height;

  gtk_snapshot_append_color (snapshot, &scene->table_colour, &GRAPHENE_RECT_INIT (0, 0, width, ODD_RULER_PX));
  gtk_snapshot_append_color (snapshot, &scene->table_colour, &GRAPHENE_RECT_INIT (0, ODD_RULER_PX, ODD_RULER_PX, height - ODD_RULER_PX));

  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (ODD_RULER_PX, 0, MAX (width - ODD_RULER_PX, 0), ODD_RULER_PX));
  append_scale (scene, snapshot, layout, zero_px.x, width, FALSE);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (0, ODD_RULER_PX, ODD_RULER_PX, MAX (height - ODD_RULER_PX, 0)));
  append_scale (scene, snapshot, layout, zero_px.y, height, TRUE);
  gtk_snapshot_pop (snapshot);

  rim.alpha *= 0.12f;
  gtk_snapshot_append_color (snapshot, &rim, &GRAPHENE_RECT_INIT (0, ODD_RULER_PX, width, 1));
  gtk_snapshot_append_color (snapshot, &rim, &GRAPHENE_RECT_INIT (ODD_RULER_PX, 0, 1, height));
  if (isfinite (pointer_px.x))
    {
      gtk_snapshot_append_color (snapshot, &scene->accent, &GRAPHENE_RECT_INIT (floor (pointer_px.x), 0, 1.5, ODD_RULER_PX));
      gtk_snapshot_append_color (snapshot, &scene->accent, &GRAPHENE_RECT_INIT (0, floor (pointer_px.y), ODD_RULER_PX, 1.5));
    }
  gtk_snapshot_append_color (snapshot, &scene->table_colour, &GRAPHENE_RECT_INIT (0, 0, ODD_RULER_PX, ODD_RULER_PX));
  pango_layout_set_text (layout, odd_unit_get_symbol (scene->unit), -1);
  pango_layout_get_pixel_size (layout, &text_width, &text_height);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) round ((ODD_RULER_PX - text_width) / 2), (float) round ((ODD_RULER_PX - text_height) / 2)));
  gtk_snapshot_append_layout (snapshot, layout, &scene->dim);
  gtk_snapshot_restore (snapshot);
}
