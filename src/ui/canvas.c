#include "config.h"
#include "ui/canvas.h"

#include "ui/bulk-layer.h"
#include "ui/canvas-paint.h"
#include "ui/canvas-private.h"
#include "ui/change-tool.h"
#include "ui/hand-tool.h"
#include "ui/place-card.h"
#include "ui/ruler.h"
#include "ui/select-tool.h"
#include "ui/sheet.h"
#include "ui/unfinished-layer.h"

#include <glib/gi18n.h>

#define MARK_COLOUR "#0d6b60"          /* 6.1:1 on the marks' casing */
#define TILE_BYTES (96u * 1024 * 1024)

enum
{
  PROP_DOCUMENT = 1, PROP_SELECTION, PROP_TEXTILE_ID, PROP_JOINED, PROP_SHOW, PROP_UNIT, PROP_ZOOM,
  PROP_IN_HAND, PROP_PLACE, PROP_N_PLACES, PROP_PLACE_INDEX, PROP_REFUSAL, N_PROPS
};
enum { SCRAP_DROPPED, ANNOUNCED, ACTIVATED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddCanvas, odd_canvas, GTK_TYPE_WIDGET)

static void
announce (OddScene *scene, const char *text)
{
  g_signal_emit (scene->widget, signals[ANNOUNCED], 0, text);
}

gboolean
odd_canvas_is_in_hand (OddCanvas *self)
{
  return self->scene.hand != NULL && odd_held_get_scrap_id (self->scene.hand) != 0;
}

static OddTool *
tool_in_use (OddCanvas *self)
{
  return odd_canvas_is_in_hand (self) ? self->hand_tool : self->change_tool;
}

/* --- what is on the table --- */

static void
set_sheet (OddCanvas *self, GHashTable *kept, guint id, OddLayout *layout)
{
  OddScene *scene = &self->scene;
  OddPaintOptions options;
  g_autoptr(OddSheet) sheet = NULL;
  g_autoptr(GArray) damage = NULL;
  OddSheet *before = odd_tiles_get_content (self->tiles, id);

  odd_scene_init_options (scene, 1, 1, &options);
  sheet = odd_sheet_new (scene->table->job, layout, layout == NULL ? scene->table->textile : NULL, scene->swatches, &options);
  if (odd_box_is_empty (odd_sheet_get_box (sheet)) || odd_sheet_get_box (sheet).width <= 0 || odd_sheet_get_box (sheet).height <= 0)
    return;
  if (before != NULL)
    damage = odd_sheet_compare (sheet, before);
  odd_tiles_set_sheet (self->tiles, id, sheet, odd_sheet_get_box (sheet),
                       damage != NULL ? (const OddBox *) (const void *) damage->data : NULL, damage != NULL ? damage->len : 0);
  g_hash_table_add (kept, GUINT_TO_POINTER (id));
}

static void
update_sheets (OddCanvas *self)
{
  OddTable *table = self->scene.table;
  GHashTable *kept = g_hash_table_new (NULL, NULL);
  GHashTableIter iter;
  gpointer id;

  if (table != NULL && table->joined)
    set_sheet (self, kept, table->textile_id, NULL);
  else if (table != NULL)
    {
      for (guint i = 0; i < table->n_items; i++)
        set_sheet (self, kept, table->items[i].panel_id, table->items[i].layout);
    }
  g_hash_table_iter_init (&iter, self->sheets);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    {
      if (!g_hash_table_contains (kept, id))
        odd_tiles_remove_sheet (self->tiles, GPOINTER_TO_UINT (id));
    }
  g_hash_table_unref (self->sheets);
  self->sheets = kept;
}

/* "Scrap 14 in the hand: Flush edge, 1 of 4", or why nothing fits. */
static char *
describe_hand (OddCanvas *self)
{
  OddHeld *hand = self->scene.hand;
  OddScrap *scrap = odd_job_get_scrap (odd_document_get_job (self->scene.document), odd_held_get_scrap_id (hand));
  const OddPlace *place = odd_held_get_place (hand);

  if (scrap == NULL)
    return NULL;
  if (place != NULL)
    return g_strdup_printf (_("Scrap %u in the hand: %s, %u of %u"), scrap->number, odd_place_class_get_name (place->kind),
                            odd_held_get_index (hand) + 1, odd_held_get_n_places (hand));
  if (odd_held_get_refusal (hand) != NULL)
    return g_strdup_printf (_("Scrap %u in the hand: %s"), scrap->number, odd_held_get_refusal (hand));
  return g_strdup_printf (_("Scrap %u in the hand"), scrap->number);
}

/* Figures of what still wants work. NULL: all of the cloth is shown. (transfer full) */
static char *
describe_unfinished (OddCanvas *self)
{
  g_auto(OddUnfinished) unfinished = { 0 };

  if (self->unfinished == ODD_UNFINISHED_NOTHING || self->scene.table == NULL)
    return NULL;
  odd_unfinished_init (&unfinished, self->scene.table->job, self->unfinished);
  return odd_unfinished_dup_text (&unfinished, self->scene.unit);
}

/* Figures of what is shown over the cloth, which stand on the canvas, where no screen reader finds them. NULL: nothing is. (transfer full) */
static char *
dup_note (OddCanvas *self)
{
  const GArray *crossings = self->bulk && self->scene.table != NULL ? odd_bulk_map_get (self->bulk_map, self->scene.table->job) : NULL;
  g_autofree char *counts = describe_unfinished (self);
  g_autofree char *layers = NULL;

  if (crossings != NULL)
    {
      const OddBulkSum sum = odd_crossings_sum (crossings);

      layers = odd_bulk_sum_dup_text (&sum);
    }
  if (counts != NULL && layers != NULL)
    return g_strdup_printf ("%s\n%s", counts, layers);
  return counts != NULL ? g_steal_pointer (&counts) : g_steal_pointer (&layers);
}

static void
describe (OddCanvas *self)
{
  g_autofree char *counts = dup_note (self);
  g_autofree char *text = odd_canvas_is_in_hand (self) ? describe_hand (self) : odd_scene_describe_selection (&self->scene);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, text != NULL ? text : _("Sewing table"),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  counts != NULL ? counts : _("Arrow keys go from patch to patch, S to the seams of a patch, P to its panel"), -1);
}

static void
update_table (OddCanvas *self)
{
  OddScene *scene = &self->scene;
  const gboolean was_empty = scene->table == NULL || scene->table->n_items == 0;

  g_clear_pointer (&scene->table, odd_table_unref);
  if (scene->document != NULL)
    scene->table = odd_table_new (odd_document_get_job (scene->document), self->textile_id, self->joined, scene->show == ODD_SHOW_WRONG_SIDE);
  update_sheets (self);
  odd_hand_tool_table_changed (ODD_HAND_TOOL (self->hand_tool));
  if (was_empty && scene->table != NULL && scene->table->n_items > 0)
    odd_canvas_fit (self, FALSE);
  describe (self);
  odd_canvas_queue_update (self);
}

static void
document_changed_cb (OddCanvas *self)
{
  odd_change_tool_stop (ODD_CHANGE_TOOL (self->change_tool));
  update_table (self);
}

static void
selection_changed_cb (OddCanvas *self)
{
  describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- what is in the hand --- */

static void
hand_changed_cb (OddCanvas *self)
{
  const OddId id = odd_held_get_scrap_id (self->scene.hand);

  self->reveal_hand = TRUE;
  odd_canvas_queue_update (self);
  for (guint i = PROP_PLACE; i <= PROP_REFUSAL; i++)
    g_object_notify_by_pspec (G_OBJECT (self), props[i]);
  if (id == self->told_in_hand)
    return;
  self->told_in_hand = id;
  odd_change_tool_stop (ODD_CHANGE_TOOL (self->change_tool));
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_IN_HAND]);
}

static void
sewn_on_cb (OddCanvas *self, guint leaf)
{
  g_signal_emit (self, signals[SCRAP_DROPPED], 0, leaf);
}

static void
activated_cb (OddCanvas *self)
{
  g_signal_emit (self, signals[ACTIVATED], 0);
}

static void
next_cb (OddCanvas *self)
{
  odd_canvas_next_place (self, 1);
}

/* Not at once: the zoom may change while sizes are given out, when whoever shows it must not change. */
static void
tell_zoom (OddCanvas *self)
{
  const double zoom = odd_viewport_get_zoom (self->scene.viewport);

  if (zoom == self->told_zoom)
    return;
  self->told_zoom = zoom;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_ZOOM]);
}

static gboolean
tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  OddCanvas *self = ODD_CANVAS (widget);

  self->tick = 0;
  tell_zoom (self);
  odd_hand_tool_update (ODD_HAND_TOOL (self->hand_tool));
  odd_canvas_update_card (self);
  if (self->reveal_hand)
    describe (self);
  if (self->reveal_hand && odd_canvas_is_in_hand (self) && !odd_hand_tool_is_held (ODD_HAND_TOOL (self->hand_tool)))
    {
      const OddBox box = odd_hand_tool_get_box_px (ODD_HAND_TOOL (self->hand_tool));

      if (!odd_box_is_empty (box))
        odd_canvas_reveal_box (self, box);
    }
  self->reveal_hand = FALSE;
  gtk_widget_queue_allocate (widget);
  gtk_widget_queue_draw (widget);
  return G_SOURCE_REMOVE;
}

/* Places and pictures are worked out once a frame, before it, however often the pointer moved. */
void
odd_canvas_queue_update (OddCanvas *self)
{
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), tick_cb, NULL, NULL);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- what canvas-input.c asks --- */

OddTool *
odd_canvas_get_tool (OddCanvas *self)
{
  return tool_in_use (self);
}

OddHandTool *
odd_canvas_get_hand_tool (OddCanvas *self)
{
  return ODD_HAND_TOOL (self->hand_tool);
}

OddScene *
odd_canvas_get_scene (OddCanvas *self)
{
  return &self->scene;
}

/* --- the widget --- */

static void
look_up (GtkStyleContext *context, const char *name, const char *fallback, GdkRGBA *out)
{
  if (!gtk_style_context_lookup_color (context, name, out))
    gdk_rgba_parse (out, fallback);
}

static void
read_style (OddCanvas *self)
{
  OddScene *scene = &self->scene;
  GtkStyleContext *context = gtk_widget_get_style_context (GTK_WIDGET (self));
  AdwStyleManager *manager = adw_style_manager_get_for_display (gtk_widget_get_display (GTK_WIDGET (self)));
  const gboolean dark = adw_style_manager_get_dark (manager);
  int dpi = 0;

  look_up (context, "table_color", dark ? "#1d1b1a" : "#f1eee9", &scene->table_colour);
  look_up (context, "accent_color", dark ? "#74d3c3" : "#0d6b60", &scene->accent);
  gdk_rgba_parse (&scene->mark, MARK_COLOUR);
  gtk_style_context_get_color (context, &scene->text);
  scene->dim = scene->text;
  scene->dim.alpha *= dark ? 0.68f : 0.72f;
  scene->high_contrast = adw_style_manager_get_high_contrast (manager);
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-xft-dpi", &dpi, NULL);
  scene->text_scale = dpi > 0 ? CLAMP (dpi / (96.0 * 1024), 0.5, 4) : 1;
}

static void
style_changed_cb (OddCanvas *self)
{
  read_style (self);
  update_sheets (self);
  odd_canvas_queue_update (self);
}

static void
odd_canvas_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  OddCanvas *self = ODD_CANVAS (widget);
  const OddScene before = self->scene;

  GTK_WIDGET_CLASS (odd_canvas_parent_class)->css_changed (widget, change);
  read_style (self);
  if (!gdk_rgba_equal (&before.table_colour, &self->scene.table_colour) || !gdk_rgba_equal (&before.accent, &self->scene.accent)
      || before.high_contrast != self->scene.high_contrast)
    style_changed_cb (self);
}

static void
odd_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = 120;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 640 : 480;
  *minimum_baseline = *natural_baseline = -1;
}

static void
odd_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  OddCanvas *self = ODD_CANVAS (widget);
  const gboolean resized = odd_viewport_get_width (self->scene.viewport) != width || odd_viewport_get_height (self->scene.viewport) != height;

  odd_viewport_set_size (self->scene.viewport, width, height);
  if (self->fit_wanted || (resized && self->fitted))
    odd_canvas_fit (self, FALSE);
  odd_canvas_allocate_card (self, width, height);
}

static void
snapshot_cloth (OddCanvas *self, GtkSnapshot *snapshot, OddBox seen)
{
  OddTable *table = self->scene.table;
  OddViewport *viewport = self->scene.viewport;
  const int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  const double zoom = odd_viewport_get_zoom (viewport), level = odd_canvas_get_level (self) * scale;

  if (table == NULL)
    return;
  if (table->joined)
    odd_tiles_snapshot (self->tiles, snapshot, table->textile_id, odd_viewport_to_px (viewport, odd_point (0, 0)), zoom, level, scale, seen);
  else
    {
      for (guint i = 0; i < table->n_items; i++)
        {
          const OddBox raw_px = odd_table_get_raw_px (table, viewport, i);
          OddSheet *sheet = odd_tiles_get_content (self->tiles, table->items[i].panel_id);
          OddBox box;

          if (sheet == NULL)
            continue;
          box = odd_sheet_get_box (sheet);
          odd_tiles_snapshot (self->tiles, snapshot, table->items[i].panel_id,
                              odd_point (raw_px.x - box.x * zoom, raw_px.y - box.y * zoom), zoom, level, scale, seen);
        }
    }
  odd_tiles_end_frame (self->tiles);
}

static void
odd_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  OddCanvas *self = ODD_CANVAS (widget);
  OddScene *scene = &self->scene;
  const double width = odd_viewport_get_width (scene->viewport), height = odd_viewport_get_height (scene->viewport);
  const OddBox seen = { 0, 0, width, height };

  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  gtk_snapshot_append_color (snapshot, &scene->table_colour, &GRAPHENE_RECT_INIT (0, 0, width, height));
  if (scene->table != NULL)
    {
      g_autofree char *note = dup_note (self);

      snapshot_cloth (self, snapshot, seen);
      odd_canvas_paint_titles (scene, snapshot);
      odd_canvas_paint_new_panel (scene, snapshot, odd_canvas_is_in_hand (self));
      odd_snapshot_unfinished (scene, snapshot, self->unfinished);
      if (self->bulk)
        {
          const GArray *crossings = odd_bulk_map_get (self->bulk_map, scene->table->job);

          odd_snapshot_pressings (scene, snapshot, odd_bulk_map_get_pressings (self->bulk_map));
          odd_snapshot_bulk (scene, snapshot, crossings);
        }
      if (note != NULL)
        odd_canvas_paint_note (scene, snapshot, note);
      odd_snapshot_work (scene, snapshot, (const OddWorkMark *) (gpointer) self->work->data, self->work->len);
      odd_tool_snapshot (self->change_tool, snapshot);
      odd_tool_snapshot (self->hand_tool, snapshot);
      if (odd_canvas_has_rulers (self))
        odd_ruler_snapshot (scene, snapshot, odd_canvas_get_ruler_zero (scene), odd_canvas_input_get_pointer (self->input));
    }
  if (gtk_widget_has_visible_focus (widget))
    odd_canvas_paint_focus (scene, snapshot);
  gtk_widget_snapshot_child (widget, self->card, snapshot);
  gtk_snapshot_pop (snapshot);
}

static void
odd_canvas_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  OddCanvas *self = ODD_CANVAS (object);
  OddHeld *hand = self->scene.hand;

  switch (id)
    {
    case PROP_DOCUMENT:
      g_value_set_object (value, self->scene.document);
      break;
    case PROP_SELECTION:
      g_value_set_object (value, self->scene.selection);
      break;
    case PROP_TEXTILE_ID:
      g_value_set_uint (value, self->textile_id);
      break;
    case PROP_JOINED:
      g_value_set_boolean (value, self->joined);
      break;
    case PROP_SHOW:
      g_value_set_int (value, self->scene.show);
      break;
    case PROP_UNIT:
      g_value_set_int (value, self->scene.unit);
      break;
    case PROP_ZOOM:
      g_value_set_double (value, odd_viewport_get_zoom (self->scene.viewport));
      break;
    case PROP_IN_HAND:
      g_value_set_uint (value, hand != NULL ? odd_held_get_scrap_id (hand) : 0);
      break;
    case PROP_PLACE:
      g_value_set_pointer (value, hand != NULL ? (gpointer) odd_held_get_place (hand) : NULL);
      break;
    case PROP_N_PLACES:
      g_value_set_uint (value, hand != NULL ? odd_held_get_n_places (hand) : 0);
      break;
    case PROP_PLACE_INDEX:
      g_value_set_uint (value, hand != NULL ? odd_held_get_index (hand) : 0);
      break;
    case PROP_REFUSAL:
      g_value_set_string (value, hand != NULL ? odd_held_get_refusal (hand) : NULL);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
set_document (OddCanvas *self, OddDocument *document)
{
  OddScene *scene = &self->scene;

  if (scene->document == document)
    return;
  if (scene->document != NULL)
    {
      g_signal_handlers_disconnect_by_data (scene->document, self);
      g_signal_handlers_disconnect_by_data (scene->hand, self);
    }
  g_clear_object (&scene->hand);
  g_set_object (&scene->document, document);
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
      scene->hand = odd_held_new (document);
      g_signal_connect_object (scene->hand, "changed", G_CALLBACK (hand_changed_cb), self, G_CONNECT_SWAPPED);
    }
  update_table (self);
  odd_canvas_fit (self, FALSE);
}

static void
set_selection (OddCanvas *self, OddSelection *selection)
{
  if (self->scene.selection != NULL)
    g_signal_handlers_disconnect_by_data (self->scene.selection, self);
  g_set_object (&self->scene.selection, selection);
  if (selection != NULL)
    g_signal_connect_object (selection, "changed", G_CALLBACK (selection_changed_cb), self, G_CONNECT_SWAPPED);
  selection_changed_cb (self);
}

static void
odd_canvas_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  OddCanvas *self = ODD_CANVAS (object);

  switch (id)
    {
    case PROP_DOCUMENT:
      set_document (self, g_value_get_object (value));
      break;
    case PROP_SELECTION:
      set_selection (self, g_value_get_object (value));
      break;
    case PROP_TEXTILE_ID:
      if (self->textile_id != g_value_get_uint (value))
        {
          self->textile_id = g_value_get_uint (value);
          update_table (self);
          odd_canvas_fit (self, FALSE);
        }
      break;
    case PROP_JOINED:
      if (self->joined != g_value_get_boolean (value))
        {
          self->joined = g_value_get_boolean (value);
          update_table (self);
          odd_canvas_fit (self, TRUE);
        }
      break;
    case PROP_SHOW:
      self->scene.show = (OddShow) g_value_get_int (value);
      update_table (self);
      break;
    case PROP_UNIT:
      self->scene.unit = (OddUnit) g_value_get_int (value);
      odd_canvas_queue_update (self);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
odd_canvas_dispose (GObject *object)
{
  OddCanvas *self = ODD_CANVAS (object);

  g_clear_handle_id (&self->rest_source, g_source_remove);
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  if (self->glide != NULL)
    adw_animation_pause (self->glide);
  g_clear_object (&self->glide);
  g_clear_object (&self->change_tool);
  g_clear_object (&self->select_tool);
  g_clear_object (&self->hand_tool);
  g_clear_object (&self->tiles);
  g_clear_pointer (&self->sheets, g_hash_table_unref);
  g_clear_pointer (&self->card, gtk_widget_unparent);
  g_clear_object (&self->scene.hand);
  g_clear_pointer (&self->scene.table, odd_table_unref);
  g_clear_object (&self->scene.selection);
  g_clear_object (&self->scene.document);
  g_clear_object (&self->scene.viewport);
  g_clear_pointer (&self->scene.swatches, odd_swatches_unref);
  G_OBJECT_CLASS (odd_canvas_parent_class)->dispose (object);
}

static void
odd_canvas_finalize (GObject *object)
{
  g_array_unref (ODD_CANVAS (object)->work);
  odd_bulk_map_free (ODD_CANVAS (object)->bulk_map);
  odd_canvas_input_free (ODD_CANVAS (object)->input);
  G_OBJECT_CLASS (odd_canvas_parent_class)->finalize (object);
}

static void
install_properties (GObjectClass *object_class)
{
  const GParamFlags read = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;
  const GParamFlags both = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, both);
  props[PROP_SELECTION] = g_param_spec_object ("selection", NULL, NULL, ODD_TYPE_SELECTION, both);
  props[PROP_TEXTILE_ID] = g_param_spec_uint ("textile-id", NULL, NULL, 0, G_MAXUINT, 0, both);
  props[PROP_JOINED] = g_param_spec_boolean ("joined", NULL, NULL, FALSE, both);
  props[PROP_SHOW] = g_param_spec_int ("show", NULL, NULL, ODD_SHOW_PATCHES, ODD_SHOW_WRONG_SIDE, ODD_SHOW_PATCHES, both);
  props[PROP_UNIT] = g_param_spec_int ("unit", NULL, NULL, ODD_UNIT_CM, ODD_UNIT_INCH, ODD_UNIT_CM, both);
  props[PROP_ZOOM] = g_param_spec_double ("zoom", NULL, NULL, ODD_ZOOM_LEAST, ODD_ZOOM_MOST, 1, read);
  props[PROP_IN_HAND] = g_param_spec_uint ("in-hand", NULL, NULL, 0, G_MAXUINT, 0, read);
  props[PROP_PLACE] = g_param_spec_pointer ("place", NULL, NULL, read);
  props[PROP_N_PLACES] = g_param_spec_uint ("n-places", NULL, NULL, 0, G_MAXUINT, 0, read);
  props[PROP_PLACE_INDEX] = g_param_spec_uint ("place-index", NULL, NULL, 0, G_MAXUINT, 0, read);
  props[PROP_REFUSAL] = g_param_spec_string ("refusal", NULL, NULL, NULL, read);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
odd_canvas_class_init (OddCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = odd_canvas_get_property;
  object_class->set_property = odd_canvas_set_property;
  object_class->dispose = odd_canvas_dispose;
  object_class->finalize = odd_canvas_finalize;
  widget_class->measure = odd_canvas_measure;
  widget_class->size_allocate = odd_canvas_size_allocate;
  widget_class->snapshot = odd_canvas_snapshot;
  widget_class->css_changed = odd_canvas_css_changed;
  install_properties (object_class);
  signals[SCRAP_DROPPED] = g_signal_new ("scrap-dropped", ODD_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[ANNOUNCED] = g_signal_new ("announced", ODD_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[ACTIVATED] = g_signal_new ("activated", ODD_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "canvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
init_tools (OddCanvas *self)
{
  self->select_tool = odd_select_tool_new ();
  self->hand_tool = odd_hand_tool_new ();
  odd_tool_set_scene (self->select_tool, &self->scene);
  odd_tool_set_scene (self->hand_tool, &self->scene);
  self->change_tool = odd_change_tool_new (&self->scene, self->select_tool);
  g_signal_connect_swapped (self->select_tool, "activated", G_CALLBACK (activated_cb), self);
  g_signal_connect_swapped (self->hand_tool, "sewn-on", G_CALLBACK (sewn_on_cb), self);
  g_signal_connect_swapped (self->hand_tool, "emptied", G_CALLBACK (odd_canvas_queue_update), self);
}

static void
odd_canvas_init (OddCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->scene.widget = widget;
  self->scene.viewport = odd_viewport_new ();
  self->scene.swatches = odd_swatches_new ();
  self->scene.text_scale = 1;
  self->scene.announce = announce;
  self->bulk_map = odd_bulk_map_new (GTK_WIDGET (self));
  self->work = g_array_new (FALSE, FALSE, sizeof (OddWorkMark));
  self->sheets = g_hash_table_new (NULL, NULL);
  self->tiles = odd_tiles_new (&odd_sheet_tile_content, 2);
  odd_tiles_set_limit (self->tiles, TILE_BYTES);
  g_signal_connect_swapped (self->tiles, "ready", G_CALLBACK (gtk_widget_queue_draw), self);
  g_signal_connect_swapped (self->scene.viewport, "changed", G_CALLBACK (odd_canvas_queue_update), self);
  odd_canvas_init_view (self);
  self->card = odd_place_card_new ();
  gtk_widget_set_child_visible (self->card, FALSE);
  gtk_widget_set_parent (self->card, widget);
  g_signal_connect_swapped (self->card, "next", G_CALLBACK (next_cb), self);
  init_tools (self);
  self->input = odd_canvas_input_new (self);
  read_style (self);
  g_signal_connect_object (adw_style_manager_get_default (), "notify", G_CALLBACK (style_changed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  describe (self);
}

GtkWidget *
odd_canvas_new (void)
{
  return g_object_new (ODD_TYPE_CANVAS, NULL);
}

void
odd_canvas_set_work (OddCanvas         *self,
                     const OddWorkMark *marks,
                     guint              n_marks)
{
  g_return_if_fail (ODD_IS_CANVAS (self));

  g_array_set_size (self->work, 0);
  if (n_marks > 0)
    g_array_append_vals (self->work, marks, n_marks);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
odd_canvas_set_bulk (OddCanvas *self,
                     gboolean   bulk)
{
  g_return_if_fail (ODD_IS_CANVAS (self));

  self->bulk = bulk;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
odd_canvas_get_bulk (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), FALSE);

  return self->bulk;
}

void
odd_canvas_set_unfinished (OddCanvas         *self,
                           OddUnfinishedKind  kind)
{
  g_return_if_fail (ODD_IS_CANVAS (self));

  self->unfinished = kind;
  describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

OddUnfinishedKind
odd_canvas_get_unfinished (OddCanvas *self)
{
  g_return_val_if_fail (ODD_IS_CANVAS (self), ODD_UNFINISHED_NOTHING);

  return self->unfinished;
}
