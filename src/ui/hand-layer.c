#include "config.h"
#include "ui/hand-layer.h"

#include "ui/soft.h"
#include <adwaita.h>

#define SNAP_MS 120
#define FLY_BACK_MS 180
#define RIM_PX 16.0                 /* round the cloth, for strokes and shadow */
#define SHADOW_DOWN_MM 5.0
#define SHADOW_BLUR_MM 7.0
#define SHADOW_ALPHA 0.34
/* A picture is never larger than this, px a side: what lies outside the window is left out. */
#define MOST_PX 4096.0

struct _OddHandLayer
{
  OddScene *scene;
  /* the scrap as held: box_mm about its middle */
  GdkTexture *ghost;
  OddBox ghost_mm;
  OddScrap *ghost_scrap;            /* for which it was drawn */
  double ghost_turn, ghost_zoom;
  int ghost_scale;
  /* the place: box_mm in the panel's layout frame */
  GdkTexture *picture;
  OddBox picture_mm;
  gboolean has_place;
  guint pictured;                   /* serial of the hand for which it was drawn */
  double picture_zoom;
  OddTarget target;
  OddPoint middle_px;               /* of what is shown */
  gboolean shown;
  OddPoint held_px;
  AdwAnimation *snap, *fly;
  OddPoint slide_px, fly_from_px, fly_to_px;
};

static void
queue_draw_cb (double value, gpointer data)
{
  OddHandLayer *self = data;

  gtk_widget_queue_draw (self->scene->widget);
}

OddHandLayer *
odd_hand_layer_new (OddScene *scene)
{
  OddHandLayer *self = g_new0 (OddHandLayer, 1);

  self->scene = scene;
  self->held_px = odd_point (NAN, NAN);
  self->snap = adw_timed_animation_new (scene->widget, 1, 0, SNAP_MS, adw_callback_animation_target_new (queue_draw_cb, self, NULL));
  adw_timed_animation_set_easing (ADW_TIMED_ANIMATION (self->snap), ADW_EASE_OUT_CUBIC);
  self->fly = adw_timed_animation_new (scene->widget, 0, 1, FLY_BACK_MS, adw_callback_animation_target_new (queue_draw_cb, self, NULL));
  adw_timed_animation_set_easing (ADW_TIMED_ANIMATION (self->fly), ADW_EASE_IN_OUT_CUBIC);
  return self;
}

void
odd_hand_layer_free (OddHandLayer *self)
{
  adw_animation_skip (self->snap);
  adw_animation_skip (self->fly);
  g_object_unref (self->snap);
  g_object_unref (self->fly);
  g_clear_object (&self->ghost);
  g_clear_object (&self->picture);
  g_clear_pointer (&self->ghost_scrap, odd_scrap_unref);
  g_free (self);
}

/* --- drawing once --- */

static void
trace_ring (cairo_t *cr, const OddPoint *points, gsize n)
{
  for (gsize i = 0; i < n; i++)
    cairo_line_to (cr, points[i].x, points[i].y);
  cairo_close_path (cr);
}

static void
trace_outline (cairo_t *cr, OddPolygon *polygon)
{
  gsize n;
  const OddPoint *points = odd_polygon_get_ring (polygon, &n);

  cairo_new_path (cr);
  trace_ring (cr, points, n);
  for (guint i = 0; i < odd_polygon_get_n_holes (polygon); i++)
    {
      points = odd_polygon_get_hole (polygon, i, &n);
      cairo_new_sub_path (cr);
      trace_ring (cr, points, n);
    }
}

static void
trace_region (cairo_t *cr, const OddConvex *region)
{
  cairo_new_sub_path (cr);
  trace_ring (cr, region->points, region->n);
}

typedef struct { cairo_surface_t *surface; cairo_t *cr; OddBox box_mm; double level; } Canvas;

static Canvas
begin_picture (OddBox box_mm, double level)
{
  Canvas canvas = { .box_mm = box_mm, .level = level };

  canvas.surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) CLAMP (ceil (box_mm.width * level), 1, MOST_PX), (int) CLAMP (ceil (box_mm.height * level), 1, MOST_PX));
  canvas.cr = cairo_create (canvas.surface);
  cairo_scale (canvas.cr, level, level);
  cairo_translate (canvas.cr, -box_mm.x, -box_mm.y);
  return canvas;
}

static GdkTexture *
end_picture (Canvas *canvas)
{
  const int width = cairo_image_surface_get_width (canvas->surface), height = cairo_image_surface_get_height (canvas->surface);
  const gsize stride = (gsize) cairo_image_surface_get_stride (canvas->surface);
  g_autoptr(GBytes) bytes = NULL;

  cairo_destroy (canvas->cr);
  cairo_surface_flush (canvas->surface);
  bytes = g_bytes_new_with_free_func (cairo_image_surface_get_data (canvas->surface), stride * height,
                                      (GDestroyNotify) cairo_surface_destroy, canvas->surface);
  return gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, stride);
}

static void
cast_shadow (Canvas *canvas, OddPolygon *outline)
{
  const double coarse = 0.25;       /* soft things need no fine picture */
  const int width = (int) (cairo_image_surface_get_width (canvas->surface) * coarse) + 1;
  const int height = (int) (cairo_image_surface_get_height (canvas->surface) * coarse) + 1;
  cairo_surface_t *mask = cairo_image_surface_create (CAIRO_FORMAT_A8, width, height);
  cairo_t *cr = cairo_create (mask);

  cairo_scale (cr, canvas->level * coarse, canvas->level * coarse);
  cairo_translate (cr, -canvas->box_mm.x, -canvas->box_mm.y + SHADOW_DOWN_MM);
  trace_outline (cr, outline);
  cairo_fill (cr);
  cairo_destroy (cr);
  odd_blur_a8 (mask, (int) CLAMP (SHADOW_BLUR_MM * canvas->level * coarse / 2, 1, 24));
  cairo_save (canvas->cr);
  cairo_identity_matrix (canvas->cr);
  cairo_scale (canvas->cr, 1 / coarse, 1 / coarse);
  cairo_set_source_rgba (canvas->cr, 0, 0, 0, SHADOW_ALPHA);
  cairo_mask_surface (canvas->cr, mask, 0, 0);
  cairo_restore (canvas->cr);
  cairo_surface_destroy (mask);
}

static void
stroke_outline (Canvas *canvas, double px_mm)
{
  cairo_set_line_join (canvas->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (canvas->cr, 1, 253 / 255.0, 248 / 255.0, 0.84);
  cairo_set_line_width (canvas->cr, 3.2 * px_mm);
  cairo_stroke_preserve (canvas->cr);
  cairo_set_source_rgb (canvas->cr, 23 / 255.0, 18 / 255.0, 14 / 255.0);
  cairo_set_line_width (canvas->cr, 1.2 * px_mm);
  cairo_stroke (canvas->cr);
}

static OddPolygon *
dup_outline (OddScene *scene, OddScrap *scrap, const OddPlacement *placement)
{
  g_autoptr(OddPolygon) outline = odd_scrap_dup_outline (scrap, odd_job_get_scrap_fabric (scene->table->job, scrap));

  return odd_polygon_place (outline, placement);
}

static double
shadow_reach_mm (double zoom)
{
  return SHADOW_DOWN_MM + 2 * SHADOW_BLUR_MM + RIM_PX / zoom;
}

static void
draw_ghost (OddHandLayer *self, OddScrap *scrap, double turn_deg, double zoom, int scale)
{
  OddScene *scene = self->scene;
  OddPlacement placement = { turn_deg, FALSE, { 0, 0 } };
  g_autoptr(OddPolygon) turned = dup_outline (scene, scrap, &placement);
  g_autoptr(OddPolygon) outline = NULL;
  const OddBox box = odd_polygon_get_box (turned);
  const double level = MIN (zoom * scale, MOST_PX / (MAX (box.width, box.height) + 2 * shadow_reach_mm (zoom)));
  OddPaintOptions options;
  Canvas canvas;

  placement.shift = odd_point (-box.x - box.width / 2, -box.y - box.height / 2);
  outline = dup_outline (scene, scrap, &placement);
  self->ghost_mm = odd_box_grow (odd_polygon_get_box (outline), shadow_reach_mm (zoom));
  canvas = begin_picture (self->ghost_mm, level);
  odd_scene_init_options (scene, level, scale, &options);
  cast_shadow (&canvas, outline);
  odd_paint_cloth (canvas.cr, scene->swatches, scene->table->job, scrap, &placement, outline, &options);
  trace_outline (canvas.cr, outline);
  stroke_outline (&canvas, options.mark_px / level);
  g_clear_object (&self->ghost);
  self->ghost = end_picture (&canvas);
}

static OddBox
place_box (const OddPlace *place, OddPolygon *outline)
{
  OddBox box = odd_box_union (odd_polygon_get_box (outline), odd_convex_box (place->cut));

  for (guint i = 0; place->panel_trims != NULL && i < place->panel_trims->len; i++)
    box = odd_box_union (box, odd_polygon_get_box (g_ptr_array_index (place->panel_trims, i)));
  return box;
}

static void
paint_polygons (cairo_t *cr, GPtrArray *polygons, void (*paint) (cairo_t *, OddPolygon *, const OddPaintOptions *), const OddPaintOptions *options)
{
  for (guint i = 0; polygons != NULL && i < polygons->len; i++)
    paint (cr, g_ptr_array_index (polygons, i), options);
}

/* What the seam cuts off the panel, save where the new patch will lie over it. */
static void
paint_panel_trims (Canvas *canvas, const OddPlace *place, const OddPaintOptions *options)
{
  const OddBox box = canvas->box_mm;

  if (place->panel_trims == NULL || place->panel_trims->len == 0)
    return;
  cairo_save (canvas->cr);
  cairo_set_fill_rule (canvas->cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_new_path (canvas->cr);
  cairo_rectangle (canvas->cr, box.x, box.y, box.width, box.height);
  trace_region (canvas->cr, place->region);
  cairo_clip (canvas->cr);
  paint_polygons (canvas->cr, place->panel_trims, odd_paint_trimming, options);
  cairo_restore (canvas->cr);
}

/* The allowance, under the veil that raw edges have everywhere, and the finished line dotted. */
static void
paint_band (OddScene *scene, cairo_t *cr, const OddPlace *place, double px_mm)
{
  const double dash[2] = { 2.4 * px_mm, 2.2 * px_mm };
  GdkRGBA veil = scene->table_colour;

  veil.alpha = 0.58f;
  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_new_path (cr);
  trace_region (cr, place->cut);
  trace_region (cr, place->region);
  gdk_cairo_set_source_rgba (cr, &veil);
  cairo_fill (cr);
  trace_region (cr, place->region);
  cairo_set_source_rgba (cr, 1, 253 / 255.0, 248 / 255.0, 0.84);
  cairo_set_line_width (cr, 3.3 * px_mm);
  cairo_stroke_preserve (cr);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_source_rgb (cr, 23 / 255.0, 18 / 255.0, 14 / 255.0);
  cairo_set_line_width (cr, 1.1 * px_mm);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_place (OddHandLayer *self, const OddPlace *place, OddScrap *scrap, double zoom, int scale)
{
  OddScene *scene = self->scene;
  g_autoptr(OddPolygon) outline = dup_outline (scene, scrap, &place->placement);
  const OddBox box = odd_box_grow (place_box (place, outline), shadow_reach_mm (zoom));
  const double level = MIN (zoom * scale, MOST_PX / MAX (box.width, box.height));
  OddPaintOptions options;
  Canvas canvas = begin_picture (box, level);

  odd_scene_init_options (scene, level, scale, &options);
  cast_shadow (&canvas, outline);
  odd_paint_cloth (canvas.cr, scene->swatches, scene->table->job, scrap, &place->placement, outline, &options);
  paint_polygons (canvas.cr, place->trims, odd_paint_trimming, &options);
  trace_outline (canvas.cr, outline);
  stroke_outline (&canvas, options.mark_px / level);
  paint_polygons (canvas.cr, place->offcuts, odd_paint_offcut, &options);
  paint_panel_trims (&canvas, place, &options);
  paint_band (scene, canvas.cr, place, options.mark_px / level);
  if (odd_segment_length (place->seam) > ODD_TOLERANCE_MM)
    odd_paint_dragged_seam (canvas.cr, place->seam, place->raw_edges, odd_rgba_to_rgb (&scene->mark), &options);
  self->picture_mm = box;
  g_clear_object (&self->picture);
  self->picture = end_picture (&canvas);
}

/* --- where it lies --- */

/* Where the place's frame begins on the canvas; *@out_mirrored: x runs to the left. FALSE when its panel is not on the table. */
static gboolean
find_frame (OddHandLayer *self, const OddPlace *place, OddPoint *out_px, gboolean *out_mirrored)
{
  OddScene *scene = self->scene;
  int item;

  *out_mirrored = FALSE;
  if (place->target.kind == ODD_TARGET_NEW_PANEL)
    {
      const OddBox cut = odd_convex_box (place->cut);
      const double zoom = odd_viewport_get_zoom (scene->viewport);

      *out_px = odd_point_sub (odd_table_get_new_panel_px (scene->table, scene->viewport), odd_point (cut.x * zoom, cut.y * zoom));
      return TRUE;
    }
  item = odd_table_find_panel (scene->table, place->target.panel_id);
  if (item < 0)
    return FALSE;
  *out_mirrored = scene->table->wrong_side;
  *out_px = odd_table_to_px (scene->table, scene->viewport, (guint) item, scene->table->items[item].hung_at_mm);
  return TRUE;
}

static OddBox
box_in_frame (OddPoint frame_px, gboolean mirrored, OddBox mm, double zoom)
{
  const double x = mirrored ? -(mm.x + mm.width) : mm.x;

  return (OddBox) { frame_px.x + x * zoom, frame_px.y + mm.y * zoom, mm.width * zoom, mm.height * zoom };
}

static OddPoint
middle_of (OddBox box)
{
  return odd_point (box.x + box.width / 2, box.y + box.height / 2);
}

static void
update_ghost (OddHandLayer *self, OddScrap *scrap, double zoom, int scale)
{
  const double turn = odd_held_get_turn (self->scene->hand);

  if (self->ghost != NULL && self->ghost_scrap == scrap && self->ghost_turn == turn && self->ghost_zoom == zoom && self->ghost_scale == scale)
    return;
  draw_ghost (self, scrap, turn, zoom, scale);
  g_clear_pointer (&self->ghost_scrap, odd_scrap_unref);
  self->ghost_scrap = odd_scrap_ref (scrap);
  self->ghost_turn = turn;
  self->ghost_zoom = zoom;
  self->ghost_scale = scale;
}

/* A jump to another place is shown as a short slide from where it was, or from where it is held. */
static void
start_slide (OddHandLayer *self, OddPoint from_px, OddPoint to_px)
{
  self->slide_px = odd_point_sub (from_px, to_px);
  adw_animation_reset (self->snap);
  adw_animation_play (self->snap);
}

static void
forget_place (OddHandLayer *self)
{
  g_clear_object (&self->picture);
  self->has_place = FALSE;
}

void
odd_hand_layer_update (OddHandLayer *self, OddPoint held_px)
{
  OddScene *scene = self->scene;
  const OddId id = scene->hand != NULL && scene->table != NULL ? odd_held_get_scrap_id (scene->hand) : 0;
  OddScrap *scrap = id != 0 ? odd_job_get_scrap (scene->table->job, id) : NULL;
  const OddPlace *place = scrap != NULL ? odd_held_get_place (scene->hand) : NULL;
  const double zoom = odd_viewport_get_zoom (scene->viewport);
  const int scale = gtk_widget_get_scale_factor (scene->widget);
  const gboolean had_place = self->has_place;
  guint serial;
  OddPoint frame, middle;
  gboolean mirrored;

  self->held_px = held_px;
  if (scrap == NULL)
    {
      forget_place (self);
      self->shown = FALSE;
      return;
    }
  update_ghost (self, scrap, zoom, scale);
  if (place == NULL || !find_frame (self, place, &frame, &mirrored))
    {
      forget_place (self);
      self->shown = isfinite (held_px.x);
      self->middle_px = held_px;
      return;
    }
  serial = odd_held_get_serial (scene->hand);
  if (self->picture == NULL || self->pictured != serial || self->picture_zoom != zoom)
    draw_place (self, place, scrap, zoom, scale);
  middle = middle_of (box_in_frame (frame, mirrored, self->picture_mm, zoom));
  if (!had_place || !odd_target_equal (&self->target, &place->target))
    {
      if (self->shown)
        start_slide (self, self->middle_px, middle);
    }
  else if (self->pictured != serial && !isfinite (held_px.x))
    start_slide (self, self->middle_px, middle);
  self->has_place = TRUE;
  self->pictured = serial;
  self->picture_zoom = zoom;
  self->target = place->target;
  self->middle_px = middle;
  self->shown = TRUE;
}

static void
lay_ghost (OddHandLayer *self, GtkSnapshot *snapshot, OddPoint middle_px, double size)
{
  const double zoom = odd_viewport_get_zoom (self->scene->viewport) * size;
  const OddBox box = box_in_frame (middle_px, FALSE, self->ghost_mm, zoom);

  gtk_snapshot_append_texture (snapshot, self->ghost, &GRAPHENE_RECT_INIT (box.x, box.y, box.width, box.height));
}

/* Is the picture that of the place shown? */
static gboolean
is_pictured (OddHandLayer *self)
{
  return self->has_place && self->picture != NULL && odd_held_get_serial (self->scene->hand) == self->pictured
         && odd_held_get_place (self->scene->hand) != NULL;
}

static void
lay_place (OddHandLayer *self, GtkSnapshot *snapshot)
{
  const double left = adw_animation_get_state (self->snap) == ADW_ANIMATION_PLAYING ? adw_animation_get_value (self->snap) : 0;
  const double zoom = odd_viewport_get_zoom (self->scene->viewport);
  OddPoint frame;
  gboolean mirrored;

  if (!find_frame (self, odd_held_get_place (self->scene->hand), &frame, &mirrored))
    return;
  frame = odd_point_add (frame, odd_point_scale (self->slide_px, left));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (frame.x, frame.y));
  if (mirrored)
    gtk_snapshot_scale (snapshot, -1, 1);
  gtk_snapshot_append_texture (snapshot, self->picture, &GRAPHENE_RECT_INIT (self->picture_mm.x * zoom, self->picture_mm.y * zoom,
                                                                            self->picture_mm.width * zoom, self->picture_mm.height * zoom));
  gtk_snapshot_restore (snapshot);
}

void
odd_hand_layer_snapshot (OddHandLayer *self, GtkSnapshot *snapshot)
{
  const gboolean flying = adw_animation_get_state (self->fly) == ADW_ANIMATION_PLAYING;

  if (flying && self->ghost != NULL)
    {
      const double t = adw_animation_get_value (self->fly);

      lay_ghost (self, snapshot, odd_point_lerp (self->fly_from_px, self->fly_to_px, t), 1 - 0.6 * t);
    }
  if (!self->shown)
    return;
  if (is_pictured (self))
    lay_place (self, snapshot);
  else if (self->ghost != NULL && isfinite (self->held_px.x))
    lay_ghost (self, snapshot, self->held_px, 1);
}

void
odd_hand_layer_fly_back (OddHandLayer *self, OddPoint px)
{
  if (!self->shown || self->ghost == NULL)
    return;
  self->fly_from_px = self->middle_px;
  self->fly_to_px = px;
  adw_animation_reset (self->fly);
  adw_animation_play (self->fly);
}

OddBox
odd_hand_layer_get_box_px (OddHandLayer *self)
{
  const double zoom = odd_viewport_get_zoom (self->scene->viewport);
  OddPoint frame;
  gboolean mirrored;
  OddBox box;

  if (!self->shown)
    return ODD_BOX_EMPTY;
  if (is_pictured (self) && find_frame (self, odd_held_get_place (self->scene->hand), &frame, &mirrored))
    box = box_in_frame (frame, mirrored, self->picture_mm, zoom);
  else if (isfinite (self->held_px.x))
    box = box_in_frame (self->held_px, FALSE, self->ghost_mm, zoom);
  else
    return ODD_BOX_EMPTY;
  return odd_box_grow (box, -shadow_reach_mm (zoom) * zoom);
}
