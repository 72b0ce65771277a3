#include "config.h"
#include "ui/canvas-paint.h"

#include <glib/gi18n.h>

#define TITLE_SIZE (12.6 / 14.67)
#define NEW_PANEL_LEAST_PX 120.0      /* height of its outline at the least */
#define SHORT_TITLE_PX 44.0           /* narrower panels have none */
#define NOTE_MARGIN_PX 12.0
#define NOTE_LEFT_PX 26.0             /* beside the ruler at the left */
#define NOTE_PAD_PX 9.0

static PangoLayout *
new_layout (const OddScene *scene, const char *text, double size, guint n_bold)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (scene->widget, text);
  PangoAttrList *attributes = pango_attr_list_new ();
  PangoAttribute *bold = pango_attr_weight_new (PANGO_WEIGHT_BOLD);

  bold->end_index = n_bold;
  pango_attr_list_insert (attributes, pango_attr_scale_new (size));
  pango_attr_list_insert (attributes, bold);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

static void
append_text (GtkSnapshot *snapshot, PangoLayout *layout, double x, double y, const GdkRGBA *colour)
{
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) round (x), (float) round (y)));
  gtk_snapshot_append_layout (snapshot, layout, colour);
  gtk_snapshot_restore (snapshot);
}

/* Name bold, length after it where there is room. */
static void
paint_title (const OddScene *scene, GtkSnapshot *snapshot, guint i)
{
  const OddTableItem *item = &scene->table->items[i];
  const OddBox box = odd_table_get_raw_px (scene->table, scene->viewport, i);
  OddPanel *panel = odd_job_get_panel (scene->table->job, item->panel_id, NULL, NULL);
  g_autofree char *name = odd_job_dup_panel_name (scene->table->job, panel);
  g_autofree char *length = odd_length_format (item->layout->box.height, scene->unit);
  g_autoptr(PangoLayout) title = new_layout (scene, name, TITLE_SIZE, (guint) strlen (name));
  g_autoptr(PangoLayout) measure = new_layout (scene, length, TITLE_SIZE, 0);
  const double room = box.width + ODD_PANEL_GAP_PX - 6;
  int title_width, title_height, measure_width;

  if (box.width < SHORT_TITLE_PX || box.x > odd_viewport_get_width (scene->viewport) || box.x + room < 0)
    return;
  pango_layout_get_pixel_size (title, &title_width, &title_height);
  pango_layout_get_pixel_size (measure, &measure_width, NULL);
  if (title_width > room)
    {
      pango_layout_set_width (title, (int) (room * PANGO_SCALE));
      pango_layout_set_ellipsize (title, PANGO_ELLIPSIZE_END);
    }
  append_text (snapshot, title, box.x, box.y - title_height - 5, &scene->text);
  if (title_width + 7 + measure_width <= room)
    append_text (snapshot, measure, box.x + title_width + 7, box.y - title_height - 5, &scene->dim);
}

void
odd_canvas_paint_titles (const OddScene *scene, GtkSnapshot *snapshot)
{
  for (guint i = 0; !scene->table->joined && i < scene->table->n_items; i++)
    paint_title (scene, snapshot, i);
}

static void
outline_box (const OddScene *scene, GtkSnapshot *snapshot, OddBox box, const GdkRGBA *colour)
{
  const OddPoint corners[] = { { box.x, box.y }, { box.x + box.width, box.y }, { box.x + box.width, box.y + box.height }, { box.x, box.y + box.height } };
  g_autoptr(GArray) points = g_array_new (FALSE, FALSE, sizeof (OddPoint));

  g_array_append_vals (points, corners, 4);
  odd_snapshot_path (snapshot, points, TRUE, colour, 1.7, (const double[]) { 7, 4.5 }, 2);
}

static void
paint_words (const OddScene *scene, GtkSnapshot *snapshot, const char *text, OddBox box, const GdkRGBA *colour, double size)
{
  g_autoptr(PangoLayout) layout = new_layout (scene, text, size, 0);
  int width, height;

  pango_layout_set_width (layout, (int) (MAX (box.width - 12, 24) * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_get_pixel_size (layout, &width, &height);
  append_text (snapshot, layout, box.x + (box.width - MAX (box.width - 12, 24)) / 2, box.y + (box.height - height) / 2, colour);
}

static double
tallest_px (const OddScene *scene)
{
  double tallest = NEW_PANEL_LEAST_PX;

  for (guint i = 0; i < scene->table->n_items; i++)
    tallest = MAX (tallest, odd_table_get_raw_px (scene->table, scene->viewport, i).height);
  return tallest;
}

/* Where the first panel would lie: a broken outline with words in the middle of the canvas. */
static void
paint_empty (const OddScene *scene, GtkSnapshot *snapshot, gboolean in_hand)
{
  const double width = odd_viewport_get_width (scene->viewport), height = odd_viewport_get_height (scene->viewport);
  const double box_width = MIN (width - 80, 320), box_height = MIN (height - 100, 220);
  const OddBox box = { round ((width - box_width) / 2), round ((height - box_height) / 2), box_width, box_height };

  if (box_width < 80 || box_height < 60)
    return;
  outline_box (scene, snapshot, box, in_hand ? &scene->accent : &scene->dim);
  paint_words (scene, snapshot, _("Drag a scrap here to start a panel, or press Enter on one."), odd_box_grow (box, -24), &scene->dim, 1.0);
}

void
odd_canvas_paint_new_panel (const OddScene *scene, GtkSnapshot *snapshot, gboolean in_hand)
{
  const OddTarget *target = scene->hand != NULL ? odd_held_get_target (scene->hand) : NULL;
  const gboolean meant = target != NULL && target->kind == ODD_TARGET_NEW_PANEL;
  const double zoom = odd_viewport_get_zoom (scene->viewport);
  const double most = odd_viewport_get_width (scene->viewport) - 8;
  OddPoint at;
  OddBox box;

  if (scene->table->n_items == 0)
    {
      if (!meant || odd_held_get_place (scene->hand) == NULL)
        paint_empty (scene, snapshot, in_hand);
      return;
    }
  if (!in_hand || scene->table->joined || (meant && odd_held_get_place (scene->hand) != NULL))
    return;
  at = odd_table_get_new_panel_px (scene->table, scene->viewport);
  box = (OddBox) { at.x, at.y, scene->table->job->settings.column_width_mm * zoom, tallest_px (scene) };
  if (box.x + box.width > most)
    box.width = MAX (most - box.x, 40);
  outline_box (scene, snapshot, box, meant ? &scene->accent : &scene->dim);
  box.height = MIN (box.height, MAX (odd_viewport_get_height (scene->viewport) - box.y, 60));
  paint_words (scene, snapshot, _("New panel"), box, meant ? &scene->accent : &scene->dim, TITLE_SIZE);
}

void
odd_canvas_paint_focus (const OddScene *scene, GtkSnapshot *snapshot)
{
  const float width = (float) odd_viewport_get_width (scene->viewport), height = (float) odd_viewport_get_height (scene->viewport);
  const GskRoundedRect rect = GSK_ROUNDED_RECT_INIT (0, 0, width, height);

  gtk_snapshot_append_border (snapshot, &rect, (const float[4]) { 2, 2, 2, 2 },
                              (const GdkRGBA[4]) { scene->accent, scene->accent, scene->accent, scene->accent });
}

OddPoint
odd_canvas_get_ruler_zero (const OddScene *scene)
{
  const OddTable *table = scene->table;
  OddBox raw_px;

  if (table->joined || table->n_items == 0)
    return odd_viewport_to_px (scene->viewport, odd_point (0, 0));
  raw_px = odd_table_get_raw_px (scene->table, scene->viewport, 0);
  return odd_point (raw_px.x - table->items[0].layout->raw_box.x * odd_viewport_get_zoom (scene->viewport),
                    raw_px.y - table->items[0].layout->raw_box.y * odd_viewport_get_zoom (scene->viewport));
}

void
odd_canvas_paint_note (const OddScene *scene,
                       GtkSnapshot    *snapshot,
                       const char     *text)
{
  g_autoptr(PangoLayout) layout = gtk_widget_create_pango_layout (scene->widget, text);
  const double most = odd_viewport_get_width (scene->viewport) - NOTE_LEFT_PX - 2 * (NOTE_MARGIN_PX + NOTE_PAD_PX);
  static const GdkRGBA ink = { 0.09f, 0.09f, 0.09f, 1.0f }, paper = { 1.0f, 0.992f, 0.973f, 1.0f };
  int width, height;
  GskRoundedRect round;
  graphene_rect_t bounds;

  pango_layout_set_width (layout, (int) (MAX (most, 60) * PANGO_SCALE));
  pango_layout_get_pixel_size (layout, &width, &height);
  graphene_rect_init (&bounds, (float) (NOTE_LEFT_PX + NOTE_MARGIN_PX), (float) (odd_viewport_get_height (scene->viewport) - NOTE_MARGIN_PX - height - 2 * NOTE_PAD_PX),
                      (float) (width + 2 * NOTE_PAD_PX), (float) (height + 2 * NOTE_PAD_PX));
  gsk_rounded_rect_init_from_rect (&round, &bounds, (float) NOTE_PAD_PX);
  gtk_snapshot_push_rounded_clip (snapshot, &round);
  gtk_snapshot_append_color (snapshot, &ink, &bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (bounds.origin.x + (float) NOTE_PAD_PX, bounds.origin.y + (float) NOTE_PAD_PX));
  gtk_snapshot_append_layout (snapshot, layout, &paper);
  gtk_snapshot_restore (snapshot);
}
