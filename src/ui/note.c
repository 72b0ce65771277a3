#include "config.h"
#include "ui/note.h"

#define WIDEST_PX 300
#define PADDING_PX 10
#define AWAY_PX 26.0
#define LEAST_PATCH_PX 30.0           /* a smaller patch shows no padlock */

static PangoLayout *
new_layout (const OddScene *scene, const char *figure, const char *words)
{
  g_autofree char *text = g_strconcat (figure != NULL ? figure : "", figure != NULL && words != NULL ? "\n" : "", words != NULL ? words : "", NULL);
  PangoLayout *layout = gtk_widget_create_pango_layout (scene->widget, text);
  PangoAttrList *attributes = pango_attr_list_new ();
  PangoAttribute *bold = pango_attr_weight_new (PANGO_WEIGHT_BOLD);

  bold->end_index = figure != NULL ? (guint) strlen (figure) : 0;
  pango_attr_list_insert (attributes, bold);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_width (layout, WIDEST_PX * PANGO_SCALE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  return layout;
}

void
odd_snapshot_note (const OddScene *scene, GtkSnapshot *snapshot, OddPoint at_px, const char *figure, const char *words)
{
  g_autoptr(PangoLayout) layout = new_layout (scene, figure, words);
  const double most_x = odd_viewport_get_width (scene->viewport), most_y = odd_viewport_get_height (scene->viewport);
  GdkRGBA rim = scene->text;
  GskRoundedRect card;
  PangoRectangle ink;
  double x, y, width, height;

  pango_layout_get_pixel_extents (layout, NULL, &ink);
  width = ink.width + 2 * PADDING_PX;
  height = ink.height + 2 * PADDING_PX;
  x = at_px.x + AWAY_PX + width < most_x - 6 ? at_px.x + AWAY_PX : at_px.x - AWAY_PX - width;
  y = CLAMP (at_px.y + AWAY_PX, 6, MAX (most_y - height - 6, 6));
  x = CLAMP (x, 6, MAX (most_x - width - 6, 6));
  gsk_rounded_rect_init_from_rect (&card, &GRAPHENE_RECT_INIT ((float) round (x), (float) round (y), (float) width, (float) height), 9);
  rim.alpha = scene->high_contrast ? 1 : 0.25f;
  gtk_snapshot_append_outset_shadow (snapshot, &card, &(GdkRGBA) { 0, 0, 0, 0.3f }, 0, 1, 0, 5);
  gtk_snapshot_push_rounded_clip (snapshot, &card);
  gtk_snapshot_append_color (snapshot, &scene->table_colour, &card.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &card, (const float[]) { 1, 1, 1, 1 }, (const GdkRGBA[]) { rim, rim, rim, rim });
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) round (x) + PADDING_PX - ink.x, (float) round (y) + PADDING_PX - ink.y));
  gtk_snapshot_append_layout (snapshot, layout, &scene->text);
  gtk_snapshot_restore (snapshot);
}

void
odd_snapshot_padlock (const OddScene *scene, GtkSnapshot *snapshot, OddPoint at_px)
{
  const double scale = scene->text_scale, reach = 13 * scale;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (floor (at_px.x - reach), floor (at_px.y - reach), 2 * reach + 1, 2 * reach + 1));

  cairo_translate (cr, at_px.x, at_px.y);
  cairo_scale (cr, scale, scale);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint layer = 0; layer < 2; layer++)
    {
      const gboolean casing = layer == 0;

      if (casing)
        cairo_set_source_rgba (cr, 1, 253 / 255.0, 248 / 255.0, scene->high_contrast ? 1 : 0.9);
      else
        cairo_set_source_rgb (cr, 23 / 255.0, 18 / 255.0, 14 / 255.0);
      cairo_arc (cr, 0, -1.5, 3.6, G_PI, 2 * G_PI);
      cairo_set_line_width (cr, casing ? 5.4 : 2.0);
      cairo_stroke (cr);
      cairo_rectangle (cr, -6, -1.5, 12, 9);
      if (casing)
        {
          cairo_set_line_width (cr, 4.4);
          cairo_stroke (cr);
        }
      else
        cairo_fill (cr);
    }
  cairo_destroy (cr);
}

/* --- what is locked --- */

/* In the patch, below its middle where the labels are. */
static void
mark_patch (const OddScene *scene, GtkSnapshot *snapshot, guint item, const OddPatch *patch)
{
  const OddPoint middle = odd_convex_centroid (patch->region);
  const OddBox box = odd_convex_box (patch->region);
  OddPoint at;

  if (MIN (box.width, box.height) * odd_viewport_get_zoom (scene->viewport) < LEAST_PATCH_PX)
    return;
  at = odd_table_to_px (scene->table, scene->viewport, item, odd_point (middle.x, middle.y + 0.3 * box.height));
  odd_snapshot_padlock (scene, snapshot, at);
}

static void
mark_item (const OddScene *scene, GtkSnapshot *snapshot, guint i)
{
  const OddTableItem *item = &scene->table->items[i];
  const OddPanel *panel = odd_job_get_panel (scene->table->job, item->panel_id, NULL, NULL);
  const OddBox box = odd_table_get_raw_px (scene->table, scene->viewport, i);

  if (panel->locked)
    odd_snapshot_padlock (scene, snapshot, odd_point (box.x + box.width - 10, box.y + 14));
  for (guint k = 0; k < item->layout->n_patches; k++)
    if (item->layout->patches[k].leaf->locked)
      mark_patch (scene, snapshot, i, &item->layout->patches[k]);
  for (guint k = 0; k < item->layout->n_seams; k++)
    {
      const OddLaidSeam *seam = &item->layout->seams[k];

      if (seam->strip->locked && seam->raw_length_mm > 0)
        odd_snapshot_padlock (scene, snapshot,
                              odd_table_to_px (scene->table, scene->viewport, i, odd_point_lerp (seam->finished.from, seam->finished.to, 0.5)));
    }
}

void
odd_snapshot_locks (const OddScene *scene, GtkSnapshot *snapshot)
{
  for (guint i = 0; i < scene->table->n_items; i++)
    mark_item (scene, snapshot, i);
}
