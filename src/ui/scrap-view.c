#include "config.h"

#include "ui/scrap-view.h"

#include <math.h>

#include "cloth/scrap.h"
#include "drawing/cloth.h"
#include "drawing/cutting-plan.h"
#include "drawing/ink.h"
#include "ui/scene.h"
#include "ui/thumbnails.h"

#define MOST_PX_PER_MM 4.0
#define STEP_MM 1.0
#define LARGE_STEP_MM 10.0
#define LASSO_STEP_PX 3.0          /* closer points tell of the hand, not of the stain */
#define LEAST_DRAG_PX 4.0          /* a click is no zone */

struct _OddScrapView
{
  GtkWidget parent_instance;
  OddJob *job;
  OddScrap *scrap;
  OddUnit unit;
  OddGives *gives;             /* or NULL */
  OddDraw draw;
  OddPolygon *zone;            /* as it lies on the table */
  GArray *lasso;               /* px, while the pointer draws */
  OddPoint from_px;
  int least_width, least_height;
  GdkTexture *texture;         /* the plan, as large as the widget */
  int texture_width, texture_height;
};

G_DEFINE_FINAL_TYPE (OddScrapView, odd_scrap_view, GTK_TYPE_WIDGET)

enum { DRAWN, ACCEPTED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- where things are seen --- */

typedef struct
{
  double px_per_mm;
  OddBox box;                  /* of the whole plan, mm */
  OddPoint at_px;              /* of its top left */
  cairo_matrix_t wash;         /* from the scrap as it lies on the table to the scrap as it will be sewn */
} View;

static gboolean
will_shrink (OddScrapView *self)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (self->job, self->scrap);

  return !self->scrap->washed && fabric != NULL && (fabric->shrink_along > 0.0 || fabric->shrink_across > 0.0);
}

/* The plan's box, and that of the cloth before its wash. */
static OddBox
measure_plan (OddScrapView *self,
              double        px_per_mm)
{
  OddPaintOptions options;
  OddBox box;

  odd_paint_options_init (&options);
  options.px_per_mm = px_per_mm;
  box = odd_cutting_plan_get_box (self->job, self->scrap, &options);
  return will_shrink (self) ? odd_box_union (box, odd_box_grow (odd_scrap_get_box (self->scrap), 2.0 / px_per_mm)) : box;
}

static void
get_view (OddScrapView *self,
          View         *view)
{
  const double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  const OddBox bare = measure_plan (self, 1e6), one = measure_plan (self, 1.0);

  odd_cloth_get_wash (self->scrap, odd_job_get_scrap_fabric (self->job, self->scrap), &view->wash);
  view->px_per_mm = MIN ((width - (one.width - bare.width)) / bare.width, (height - (one.height - bare.height)) / bare.height);
  view->px_per_mm = CLAMP (view->px_per_mm, 0.01, MOST_PX_PER_MM);
  view->box = measure_plan (self, view->px_per_mm);
  view->at_px = odd_point (floor (0.5 * (width - view->box.width * view->px_per_mm)), floor (0.5 * (height - view->box.height * view->px_per_mm)));
}

static OddPoint
sewn_to_px (const View *view,
            OddPoint    mm)
{
  return odd_point (view->at_px.x + (mm.x - view->box.x) * view->px_per_mm, view->at_px.y + (mm.y - view->box.y) * view->px_per_mm);
}

OddPoint
odd_scrap_view_to_px (OddScrapView *self,
                      OddPoint      mm)
{
  View view;

  g_return_val_if_fail (ODD_IS_SCRAP_VIEW (self) && self->scrap != NULL, mm);

  get_view (self, &view);
  cairo_matrix_transform_point (&view.wash, &mm.x, &mm.y);
  return sewn_to_px (&view, mm);
}

OddPoint
odd_scrap_view_to_mm (OddScrapView *self,
                      OddPoint      px)
{
  View view;

  g_return_val_if_fail (ODD_IS_SCRAP_VIEW (self) && self->scrap != NULL, px);

  get_view (self, &view);
  px = odd_point (view.box.x + (px.x - view.at_px.x) / view.px_per_mm, view.box.y + (px.y - view.at_px.y) / view.px_per_mm);
  cairo_matrix_invert (&view.wash);
  cairo_matrix_transform_point (&view.wash, &px.x, &px.y);
  return px;
}

/* --- what is seen --- */

static gboolean
is_dark (OddScrapView *self)
{
  GdkRGBA text;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (self)), &text);
  return text.red + text.green + text.blue > 1.5;
}

static void
paint_outline_before (OddScrapView          *self,
                      cairo_t               *cr,
                      const OddPaintOptions *options)
{
  odd_trace_polygon (cr, self->scrap->outline);
  cairo_set_line_width (cr, 1.2 / options->px_per_mm * options->mark_px);
  odd_set_dash_px (cr, options, 3.0, 3.0);
  cairo_set_source_rgb (cr, is_dark (self) ? 0.73 : 0.3, is_dark (self) ? 0.68 : 0.27, is_dark (self) ? 0.62 : 0.23);
  cairo_stroke (cr);
}

/* (element-type OddPossibleCut) */
static GArray *
dup_cuts (OddScrapView *self)
{
  GArray *cuts = g_array_new (FALSE, FALSE, sizeof (OddPossibleCut));
  const OddScrapGives *scrap = self->gives != NULL ? odd_gives_find (self->gives, self->scrap->id) : NULL;

  for (guint i = 0; scrap != NULL && i < scrap->pieces->len; i++)
    {
      const OddGivenPiece *piece = &g_array_index (scrap->pieces, OddGivenPiece, i);
      const OddTemplate *size = &self->gives->sizes.templates[piece->template];
      const OddPossibleCut cut = { piece->shape, size->width_mm, size->length_mm };

      g_array_append_val (cuts, cut);
    }
  return cuts;
}

static GdkTexture *
make_texture (OddScrapView *self,
              int           width,
              int           height)
{
  const int k = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * k, height * k);
  cairo_t *cr = cairo_create (surface);
  g_autoptr(GArray) cuts = dup_cuts (self);
  OddPaintOptions options;
  View view;

  get_view (self, &view);
  odd_paint_options_init (&options);
  options.px_per_mm = view.px_per_mm * k;
  options.mark_px = k;
  options.table_colour = is_dark (self) ? 0x1d1b1a : 0xf1eee9;
  cairo_scale (cr, k, k);
  cairo_translate (cr, view.at_px.x, view.at_px.y);
  cairo_scale (cr, view.px_per_mm, view.px_per_mm);
  cairo_translate (cr, -view.box.x, -view.box.y);
  odd_paint_possible_cuts (cr, odd_swatches_get_shared (), self->job, self->scrap, (const OddPossibleCut *) cuts->data, cuts->len, self->unit, &options);
  if (will_shrink (self))
    paint_outline_before (self, cr, &options);
  cairo_destroy (cr);
  return odd_texture_new_for_surface (surface);
}

static void
snapshot_ring (OddScrapView *self,
               GtkSnapshot  *snapshot,
               GArray       *px,
               gboolean      closed)
{
  GdkRGBA accent = { 0.08, 0.46, 0.41, 1.0 }, casing = { 1.0, 0.99, 0.97, 0.9 };

  if (px->len < 2)
    return;
  odd_snapshot_path (snapshot, px, closed, &casing, 5.0, NULL, 0);
  odd_snapshot_path (snapshot, px, closed, &accent, 2.4, NULL, 0);
}

static void
snapshot_zone (OddScrapView *self,
               GtkSnapshot  *snapshot)
{
  gsize n = 0;
  const OddPoint *ring = odd_polygon_get_ring (self->zone, &n);
  g_autoptr(GArray) px = g_array_sized_new (FALSE, FALSE, sizeof (OddPoint), n);

  for (gsize i = 0; i < n; i++)
    {
      const OddPoint p = odd_scrap_view_to_px (self, ring[i]);

      g_array_append_val (px, p);
    }
  snapshot_ring (self, snapshot, px, TRUE);
}

static void
odd_scrap_view_snapshot (GtkWidget   *widget,
                         GtkSnapshot *snapshot)
{
  OddScrapView *self = ODD_SCRAP_VIEW (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);

  if (self->scrap == NULL || width < 1 || height < 1)
    return;
  if (self->texture == NULL || self->texture_width != width || self->texture_height != height)
    {
      g_clear_object (&self->texture);
      self->texture = make_texture (self, width, height);
      self->texture_width = width;
      self->texture_height = height;
    }
  gtk_snapshot_append_texture (snapshot, self->texture, &GRAPHENE_RECT_INIT (0, 0, width, height));
  if (self->lasso != NULL)
    snapshot_ring (self, snapshot, self->lasso, FALSE);
  else if (self->zone != NULL)
    snapshot_zone (self, snapshot);
}

static void
forget_texture (OddScrapView *self)
{
  g_clear_object (&self->texture);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
odd_scrap_view_css_changed (GtkWidget         *widget,
                            GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (odd_scrap_view_parent_class)->css_changed (widget, change);
  forget_texture (ODD_SCRAP_VIEW (widget));
}

static void
odd_scrap_view_measure (GtkWidget      *widget,
                        GtkOrientation  orientation,
                        int             for_size,
                        int            *minimum,
                        int            *natural,
                        int            *minimum_baseline,
                        int            *natural_baseline)
{
  OddScrapView *self = ODD_SCRAP_VIEW (widget);

  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? self->least_width : self->least_height;
}

/* --- drawing a zone --- */

static void
tell (OddScrapView *self,
      OddPolygon   *zone)
{
  odd_scrap_view_set_zone (self, zone);
  g_signal_emit (self, signals[DRAWN], 0, zone);
}

static OddPolygon *
polygon_from_px (OddScrapView   *self,
                 const OddPoint *px,
                 guint           n)
{
  g_autofree OddPoint *mm = g_new (OddPoint, n);

  for (guint i = 0; i < n; i++)
    mm[i] = odd_scrap_view_to_mm (self, px[i]);
  return odd_polygon_new (mm, n, NULL);
}

/* The hand overshoots where it began: points are taken off the end until the line does not cross itself. */
static OddPolygon *
close_lasso (OddScrapView *self)
{
  const OddPoint *px = (const OddPoint *) (const void *) self->lasso->data;

  for (guint n = self->lasso->len; n >= 3 && n > self->lasso->len / 2; n--)
    {
      OddPolygon *zone = polygon_from_px (self, px, n);

      if (zone != NULL)
        return zone;
    }
  return NULL;
}

static OddPolygon *
rectangle_to (OddScrapView *self,
              OddPoint      to)
{
  const OddPoint from = self->from_px;
  const OddPoint px[] = { from, { to.x, from.y }, to, { from.x, to.y } };

  if (fabs (to.x - from.x) < LEAST_DRAG_PX || fabs (to.y - from.y) < LEAST_DRAG_PX)
    return NULL;
  return polygon_from_px (self, px, G_N_ELEMENTS (px));
}

static void
drag_begin_cb (OddScrapView   *self,
               double          x,
               double          y,
               GtkGestureDrag *gesture)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->scrap == NULL || self->draw == ODD_DRAW_NOTHING)
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  self->from_px = odd_point (x, y);
  if (self->draw != ODD_DRAW_FREEHAND)
    return;
  self->lasso = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  g_array_append_val (self->lasso, self->from_px);
}

static void
drag_update_cb (OddScrapView *self,
                double        dx,
                double        dy)
{
  const OddPoint to = odd_point_add (self->from_px, odd_point (dx, dy));

  if (self->lasso != NULL)
    {
      if (odd_point_distance (to, g_array_index (self->lasso, OddPoint, self->lasso->len - 1)) >= LASSO_STEP_PX)
        g_array_append_val (self->lasso, to);
    }
  else
    {
      g_autoptr(OddPolygon) zone = rectangle_to (self, to);

      odd_scrap_view_set_zone (self, zone);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drag_end_cb (OddScrapView *self,
             double        dx,
             double        dy)
{
  g_autoptr(OddPolygon) zone = NULL;

  if (self->draw == ODD_DRAW_NOTHING)
    return;
  zone = self->lasso != NULL ? close_lasso (self) : rectangle_to (self, odd_point_add (self->from_px, odd_point (dx, dy)));
  g_clear_pointer (&self->lasso, g_array_unref);
  tell (self, zone);
}

static gboolean
move_zone (OddScrapView    *self,
           double           dx,
           double           dy,
           GdkModifierType  state)
{
  const double step = state & GDK_SHIFT_MASK ? LARGE_STEP_MM : STEP_MM;
  const OddPlacement by = { 0.0, FALSE, { dx * step, dy * step } };
  g_autoptr(OddPolygon) moved = NULL;

  if (self->zone == NULL)
    return FALSE;
  moved = odd_polygon_place (self->zone, &by);
  tell (self, moved);
  return TRUE;
}

static gboolean
key_cb (OddScrapView    *self,
        guint            keyval,
        guint            keycode,
        GdkModifierType  state)
{
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      return move_zone (self, -1.0, 0.0, state);
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      return move_zone (self, 1.0, 0.0, state);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return move_zone (self, 0.0, -1.0, state);
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return move_zone (self, 0.0, 1.0, state);
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      if (self->zone != NULL)
        g_signal_emit (self, signals[ACCEPTED], 0);
      return self->zone != NULL;
    default:
      return FALSE;
    }
}

/* --- the widget --- */

void
odd_scrap_view_show (OddScrapView *self,
                     OddJob       *job,
                     OddScrap     *scrap,
                     OddUnit       unit)
{
  g_return_if_fail (ODD_IS_SCRAP_VIEW (self));

  if (job != NULL)
    odd_job_ref (job);
  if (scrap != NULL)
    odd_scrap_ref (scrap);
  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->scrap, odd_scrap_unref);
  self->job = job;
  self->scrap = scrap;
  self->unit = unit;
  forget_texture (self);
}

void
odd_scrap_view_set_gives (OddScrapView *self,
                          OddGives     *gives)
{
  g_return_if_fail (ODD_IS_SCRAP_VIEW (self));

  if (gives == self->gives)
    return;
  if (gives != NULL)
    odd_gives_ref (gives);
  g_clear_pointer (&self->gives, odd_gives_unref);
  self->gives = gives;
  forget_texture (self);
}

void
odd_scrap_view_set_draw (OddScrapView *self,
                         OddDraw       draw)
{
  g_return_if_fail (ODD_IS_SCRAP_VIEW (self));

  self->draw = draw;
  gtk_widget_set_focusable (GTK_WIDGET (self), draw != ODD_DRAW_NOTHING);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), draw != ODD_DRAW_NOTHING ? "crosshair" : NULL);
}

void
odd_scrap_view_set_zone (OddScrapView *self,
                         OddPolygon   *zone)
{
  g_return_if_fail (ODD_IS_SCRAP_VIEW (self));

  if (zone != NULL)
    odd_polygon_ref (zone);
  g_clear_pointer (&self->zone, odd_polygon_unref);
  self->zone = zone;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
odd_scrap_view_set_least (OddScrapView *self,
                          int           width,
                          int           height)
{
  g_return_if_fail (ODD_IS_SCRAP_VIEW (self));

  self->least_width = width;
  self->least_height = height;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
odd_scrap_view_dispose (GObject *object)
{
  OddScrapView *self = ODD_SCRAP_VIEW (object);

  odd_scrap_view_show (self, NULL, NULL, ODD_UNIT_CM);
  g_clear_pointer (&self->gives, odd_gives_unref);
  g_clear_pointer (&self->zone, odd_polygon_unref);
  g_clear_pointer (&self->lasso, g_array_unref);
  G_OBJECT_CLASS (odd_scrap_view_parent_class)->dispose (object);
}

static void
odd_scrap_view_class_init (OddScrapViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_scrap_view_dispose;
  widget_class->measure = odd_scrap_view_measure;
  widget_class->snapshot = odd_scrap_view_snapshot;
  widget_class->css_changed = odd_scrap_view_css_changed;
  gtk_widget_class_set_css_name (widget_class, "scrapview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[DRAWN] = g_signal_new ("drawn", ODD_TYPE_SCRAP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  signals[ACCEPTED] = g_signal_new ("accepted", ODD_TYPE_SCRAP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_scrap_view_init (OddScrapView *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->least_width = 240;
  self->least_height = 160;
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect_swapped (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect_swapped (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

GtkWidget *
odd_scrap_view_new (void)
{
  return g_object_new (ODD_TYPE_SCRAP_VIEW, NULL);
}
