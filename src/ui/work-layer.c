#include "config.h"

#include "ui/work-layer.h"

#define RING_PX 18.0
#define BADGE_PX 9.5
#define ROOM_PX 40.0                 /* a shorter seam on screen has its ring, but no number */

static const GdkRGBA casing = { 1.0f, 0.992f, 0.973f, 0.84f };
static const GdkRGBA paper = { 1.0f, 0.992f, 0.973f, 1.0f };

static GArray *
ring_round (OddSegment line,
            double     width)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  const double angle = atan2 (line.to.y - line.from.y, line.to.x - line.from.x);

  for (guint end = 0; end < 2; end++)
    for (guint i = 0; i <= 12; i++)
      {
        const double turn = angle + (end == 0 ? -G_PI_2 : G_PI_2) + i * G_PI / 12.0;
        const OddPoint middle = end == 0 ? line.to : line.from;
        const OddPoint p = odd_point (middle.x + cos (turn) * width / 2.0, middle.y + sin (turn) * width / 2.0);

        g_array_append_val (points, p);
      }
  return points;
}

static void
fill_disc (GtkSnapshot   *snapshot,
           OddPoint       middle,
           double         radius,
           const GdkRGBA *colour)
{
  GskRoundedRect rect;
  const graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float) (middle.x - radius), (float) (middle.y - radius), (float) (2 * radius), (float) (2 * radius));

  gsk_rounded_rect_init_from_rect (&rect, &bounds, (float) radius);
  gtk_snapshot_push_rounded_clip (snapshot, &rect);
  gtk_snapshot_append_color (snapshot, colour, &bounds);
  gtk_snapshot_pop (snapshot);
}

static void
badge (const OddScene    *scene,
       GtkSnapshot       *snapshot,
       OddPoint           at,
       const OddWorkMark *mark)
{
  const double radius = BADGE_PX * scene->text_scale;
  g_autofree char *text = mark->done ? g_strdup ("✓") : g_strdup_printf ("%u", mark->number);
  g_autoptr(PangoLayout) layout = gtk_widget_create_pango_layout (scene->widget, text);
  PangoAttrList *attributes = pango_attr_list_new ();
  int width, height;

  pango_attr_list_insert (attributes, pango_attr_scale_new (0.8));
  pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_BOLD));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_get_pixel_size (layout, &width, &height);
  fill_disc (snapshot, at, radius + 1.6, &casing);
  fill_disc (snapshot, at, radius, mark->done ? &paper : &scene->mark);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) round (at.x - width / 2.0), (float) round (at.y - height / 2.0)));
  gtk_snapshot_append_layout (snapshot, layout, mark->done ? &scene->mark : &paper);
  gtk_snapshot_restore (snapshot);
}

static void
snapshot_seam (const OddScene    *scene,
               GtkSnapshot       *snapshot,
               OddSegment         line,
               const OddWorkMark *mark)
{
  g_autoptr(GArray) ring = ring_round (line, RING_PX);

  odd_snapshot_path (snapshot, ring, TRUE, &casing, 4.4 * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, ring, TRUE, &scene->mark, (mark->done ? 1.0 : 2.0) * scene->text_scale, NULL, 0);
  if (odd_segment_length (line) >= ROOM_PX)
    badge (scene, snapshot, line.to.x >= line.from.x ? line.to : line.from, mark);
}

static void
snapshot_patch (const OddScene    *scene,
                GtkSnapshot       *snapshot,
                GArray            *outline,
                const OddWorkMark *mark)
{
  OddPoint sum = { 0, 0 };

  odd_snapshot_path (snapshot, outline, TRUE, &casing, 4.4 * scene->text_scale, NULL, 0);
  odd_snapshot_path (snapshot, outline, TRUE, &scene->mark, (mark->done ? 1.0 : 2.0) * scene->text_scale, NULL, 0);
  for (guint i = 0; i < outline->len; i++)
    sum = odd_point_add (sum, g_array_index (outline, OddPoint, i));
  badge (scene, snapshot, odd_point (sum.x / outline->len, sum.y / outline->len), mark);
}

void
odd_snapshot_work (const OddScene    *scene,
                   GtkSnapshot       *snapshot,
                   const OddWorkMark *marks,
                   guint              n_marks)
{
  for (guint i = 0; i < n_marks; i++)
    {
      g_autoptr(GArray) seam = odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_SEAM, marks[i].id);
      g_autoptr(GArray) patch = seam == NULL ? odd_table_get_outline_px (scene->table, scene->viewport, ODD_SELECTED_PATCH, marks[i].id) : NULL;

      if (seam != NULL)
        snapshot_seam (scene, snapshot, (OddSegment) { g_array_index (seam, OddPoint, 0), g_array_index (seam, OddPoint, 1) }, &marks[i]);
      else if (patch != NULL && patch->len > 0)
        snapshot_patch (scene, snapshot, patch, &marks[i]);
    }
}
