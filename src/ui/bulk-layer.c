#include "config.h"

#include "ui/bulk-layer.h"

#define HALF_PX 9.0
#define SMALL_HALF_PX 3.5
#define CASING_PX 1.6
/* So much cloth must be so many px for a number to have room beside the next one. */
#define ROOM_MM 50.0
#define ROOM_PX 26.0

static const GdkRGBA casing = { 1.0f, 0.992f, 0.973f, 0.9f };
static const GdkRGBA paper = { 1.0f, 0.992f, 0.973f, 1.0f };
/* Cloth does not follow the theme, so neither do these; each on its casing. */
static const GdkRGBA colours[] = {
  [ODD_BULK_THIN] = { 0.078f, 0.459f, 0.412f, 1.0f },
  [ODD_BULK_MIDDLING] = { 0.50f, 0.29f, 0.0f, 1.0f },
  [ODD_BULK_THICK] = { 0.64f, 0.06f, 0.13f, 1.0f },
};

OddBulk
odd_bulk_from_plies (guint plies)
{
  if (plies <= 5)
    return ODD_BULK_THIN;
  return plies <= 9 ? ODD_BULK_MIDDLING : ODD_BULK_THICK;
}

/* About the origin. A lozenge is a square on its corner. */
static void
fill_shape (GtkSnapshot   *snapshot,
            OddBulk        bulk,
            double         half,
            const GdkRGBA *colour)
{
  const double side = bulk == ODD_BULK_MIDDLING ? half * 0.95 : half;
  const graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float) -side, (float) -side, (float) (2 * side), (float) (2 * side));
  GskRoundedRect round;

  gtk_snapshot_save (snapshot);
  if (bulk == ODD_BULK_MIDDLING)
    gtk_snapshot_rotate (snapshot, 45.0f);
  gsk_rounded_rect_init_from_rect (&round, &bounds, bulk == ODD_BULK_THIN ? (float) side : 0.0f);
  gtk_snapshot_push_rounded_clip (snapshot, &round);
  gtk_snapshot_append_color (snapshot, colour, &bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_restore (snapshot);
}

static void
write_number (const OddScene *scene,
              GtkSnapshot    *snapshot,
              guint           plies)
{
  g_autofree char *text = g_strdup_printf ("%u", plies);
  g_autoptr(PangoLayout) layout = gtk_widget_create_pango_layout (scene->widget, text);
  PangoAttrList *attributes = pango_attr_list_new ();
  int width, height;

  pango_attr_list_insert (attributes, pango_attr_scale_new (0.8));
  pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_get_pixel_size (layout, &width, &height);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) round (-width / 2.0), (float) round (-height / 2.0)));
  gtk_snapshot_append_layout (snapshot, layout, &paper);
  gtk_snapshot_restore (snapshot);
}

static gboolean
find_px (const OddScene    *scene,
         const OddCrossing *crossing,
         OddPoint          *out)
{
  const int item = odd_table_find_panel (scene->table, crossing->end_panel_id);

  if (item < 0)
    return FALSE;
  *out = odd_table_to_px (scene->table, scene->viewport, (guint) item, odd_point_add (crossing->end_at, scene->table->items[item].hung_at_mm));
  return out->x > -20 && out->y > -20 && out->x < odd_viewport_get_width (scene->viewport) + 20 && out->y < odd_viewport_get_height (scene->viewport) + 20;
}

void
odd_snapshot_bulk (const OddScene *scene,
                   GtkSnapshot    *snapshot,
                   const GArray   *crossings)
{
  const gboolean roomy = odd_viewport_get_zoom (scene->viewport) * ROOM_MM >= ROOM_PX * scene->text_scale;
  const double half = (roomy ? HALF_PX : SMALL_HALF_PX) * scene->text_scale;

  for (guint i = 0; crossings != NULL && i < crossings->len; i++)
    {
      const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i);
      const OddBulk bulk = odd_bulk_from_plies (crossing->plies);
      OddPoint at;

      if (!find_px (scene, crossing, &at))
        continue;
      gtk_snapshot_save (snapshot);
      gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) at.x, (float) at.y));
      fill_shape (snapshot, bulk, half + CASING_PX, &casing);
      fill_shape (snapshot, bulk, half, &colours[bulk]);
      if (roomy)
        write_number (scene, snapshot, crossing->plies);
      gtk_snapshot_restore (snapshot);
    }
}
