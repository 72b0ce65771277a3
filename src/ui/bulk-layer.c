#include "config.h"

#include "ui/bulk-layer.h"

#define HALF_PX 9.0
#define SMALL_HALF_PX 3.5
#define CASING_PX 1.6
#define WEDGE_PX 5.0
/* So much cloth must be so many px for a number to have room beside the next one. */
#define ROOM_MM 50.0
#define ROOM_PX 26.0

static const GdkRGBA casing = { 1.0f, 0.992f, 0.973f, 0.9f };
static const GdkRGBA paper = { 1.0f, 0.992f, 0.973f, 1.0f };
static const GdkRGBA ink = { 0.09f, 0.09f, 0.09f, 1.0f };
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

static gboolean
is_roomy (const OddScene *scene)
{
  return odd_viewport_get_zoom (scene->viewport) * ROOM_MM >= ROOM_PX * scene->text_scale;
}

static void
fill_wedge (GtkSnapshot *snapshot,
            OddPoint     at,
            OddPoint     toward,
            double       px)
{
  g_autoptr(GArray) points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  const OddPoint along = odd_point (-toward.y, toward.x);
  const OddPoint corners[3] = {
    odd_point_add (at, odd_point_add (odd_point_scale (along, px), odd_point_scale (toward, 2.0))),
    odd_point_add (at, odd_point_add (odd_point_scale (along, -px), odd_point_scale (toward, 2.0))),
    odd_point_add (at, odd_point_scale (toward, px + 3.0)),
  };

  g_array_append_vals (points, corners, 3);
  odd_snapshot_path (snapshot, points, TRUE, &casing, 5.0, NULL, 0);
  odd_snapshot_path (snapshot, points, TRUE, &ink, 2.4, NULL, 0);
}

/* Middle and side in px; a join, which lies in no panel, by its line on the table. */
static gboolean
find_wedge (const OddScene    *scene,
            const OddPressing *pressing,
            OddPoint          *out_at,
            OddPoint          *out_toward)
{
  const int item = pressing->panel_id != 0 ? odd_table_find_panel (scene->table, pressing->panel_id) : -1;

  if (item >= 0)
    {
      const OddPoint at = odd_point_add (pressing->middle, scene->table->items[item].hung_at_mm);

      *out_at = odd_table_to_px (scene->table, scene->viewport, (guint) item, at);
      *out_toward = odd_point_sub (odd_table_to_px (scene->table, scene->viewport, (guint) item, odd_point_add (at, pressing->toward)), *out_at);
    }
  else
    {
      g_autoptr(GArray) line = odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_SEAM, pressing->seam_id);

      if (line == NULL || pressing->panel_id != 0)
        return FALSE;
      *out_at = odd_point_lerp (g_array_index (line, OddPoint, 0), g_array_index (line, OddPoint, 1), 0.5);
      *out_toward = odd_point (scene->table->wrong_side ? -pressing->toward.x : pressing->toward.x, pressing->toward.y);
    }
  *out_toward = odd_point_scale (*out_toward, 1.0 / MAX (hypot (out_toward->x, out_toward->y), 1e-9));
  return out_at->x > -20 && out_at->y > -20 && out_at->x < odd_viewport_get_width (scene->viewport) + 20 &&
         out_at->y < odd_viewport_get_height (scene->viewport) + 20;
}

void
odd_snapshot_pressings (const OddScene *scene,
                        GtkSnapshot    *snapshot,
                        const GArray   *pressings)
{
  if (pressings == NULL || !is_roomy (scene))
    return;
  for (guint i = 0; i < pressings->len; i++)
    {
      const OddPressing *pressing = &g_array_index (pressings, OddPressing, i);
      OddPoint at, toward;

      if (!find_wedge (scene, pressing, &at, &toward))
        continue;
      fill_wedge (snapshot, at, toward, WEDGE_PX * scene->text_scale);
      if (pressing->open)
        fill_wedge (snapshot, at, odd_point_scale (toward, -1.0), WEDGE_PX * scene->text_scale);
    }
}

void
odd_snapshot_bulk (const OddScene *scene,
                   GtkSnapshot    *snapshot,
                   const GArray   *crossings)
{
  const gboolean roomy = is_roomy (scene);
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
