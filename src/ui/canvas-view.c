/* The view of the canvas: what is seen, how large, and how it gets there. */
#include "config.h"
#include "ui/canvas-private.h"

#include "ui/ruler.h"

#include <glib/gi18n.h>

#define FIT_MS 250
#define FIT_LEAST_MM 500.0             /* a panel just begun does not fill the window */
#define REST_MS 120                   /* without a change of zoom: the cloth is drawn sharp */
#define STRIP_PX 76.0                  /* kept free for it above */

static gboolean
rest_cb (gpointer data)
{
  OddCanvas *self = data;

  self->rest_source = 0;
  self->resting = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

static void
zoom_changed_cb (OddCanvas *self)
{
  self->resting = FALSE;
  g_clear_handle_id (&self->rest_source, g_source_remove);
  self->rest_source = g_timeout_add (REST_MS, rest_cb, self);
}

gboolean
odd_canvas_has_rulers (OddCanvas *self)
{
  return odd_viewport_get_width (self->scene.viewport) >= NARROW_PX;
}

static OddInsets
fit_insets (OddCanvas *self)
{
  const gboolean rulers = odd_canvas_has_rulers (self);

  return (OddInsets) {
    .left = (rulers ? ODD_RULER_PX : 0) + ODD_PANEL_GAP_PX,
    .top = (rulers ? ODD_RULER_PX : 0) + (self->joined ? ODD_PANEL_GAP_PX : ODD_PANEL_TITLE_PX),
    .right = self->joined || odd_viewport_get_width (self->scene.viewport) < NARROW_PX ? ODD_PANEL_GAP_PX : ODD_NEW_PANEL_PX,
    .bottom = 12,
  };
}

/* The zoom at which all is seen, and where the table's box begins then. */
static gboolean
find_fit (OddCanvas *self, double *out_zoom, OddPoint *out_mm, OddPoint *out_px)
{
  double gaps_px = 0;
  OddBox box = ODD_BOX_EMPTY;
  OddInsets insets = fit_insets (self);

  if (self->scene.table != NULL)
    box = odd_table_get_box (self->scene.table, &gaps_px);
  if (odd_box_is_empty (box))
    box = (OddBox) { 0, 0, 0, 0 };
  box.width = MAX (box.width, FIT_LEAST_MM);
  box.height = MAX (box.height, FIT_LEAST_MM);
  insets.right += gaps_px;
  if (!odd_viewport_get_fit (self->scene.viewport, box, insets, out_zoom, out_px))
    return FALSE;
  *out_mm = odd_point (box.x, box.y);
  return TRUE;
}

static void
glide_cb (double t, gpointer data)
{
  OddCanvas *self = data;
  const double zoom = exp (log (self->glide_zoom[0]) * (1 - t) + log (self->glide_zoom[1]) * t);

  odd_viewport_place (self->scene.viewport, zoom, self->glide_mm, odd_point_lerp (self->glide_px[0], self->glide_px[1], t));
}

/* Brings the point @mm to @px at @zoom. */
static void
glide_to (OddCanvas *self, double zoom, OddPoint mm, OddPoint px, gboolean animate)
{
  OddViewport *viewport = self->scene.viewport;

  adw_animation_pause (self->glide);
  if (!animate || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      odd_viewport_place (viewport, zoom, mm, px);
      return;
    }
  self->glide_zoom[0] = odd_viewport_get_zoom (viewport);
  self->glide_zoom[1] = zoom;
  self->glide_mm = mm;
  self->glide_px[0] = odd_viewport_to_px (viewport, mm);
  self->glide_px[1] = px;
  adw_animation_reset (self->glide);
  adw_animation_play (self->glide);
}

/* How far a stretch from @a to @b must move to lie within @least and @most; its beginning comes first. */
static double
pull_in (double a, double b, double least, double most)
{
  if (a < least)
    return least - a;
  if (b > most)
    return MAX (most - b, least - a);
  return 0;
}

void
odd_canvas_reveal_box (OddCanvas *self, OddBox box)
{
  OddViewport *viewport = self->scene.viewport;
  const double rim = (odd_canvas_has_rulers (self) ? ODD_RULER_PX : 0) + 12;
  const double top = odd_canvas_is_in_hand (self) && odd_viewport_get_width (viewport) < NARROW_PX ? STRIP_PX : rim;
  const OddPoint by = { pull_in (box.x, box.x + box.width, rim, odd_viewport_get_width (viewport) - 12),
                        pull_in (box.y, box.y + box.height, top, odd_viewport_get_height (viewport) - 12) };

  if (by.x == 0 && by.y == 0)
    return;
  self->fitted = FALSE;
  glide_to (self, odd_viewport_get_zoom (viewport), odd_point (0, 0),
            odd_point_add (odd_viewport_to_px (viewport, odd_point (0, 0)), by), TRUE);
}

void
odd_canvas_fit (OddCanvas *self, gboolean animate)
{
  double zoom;
  OddPoint mm, px;

  g_return_if_fail (ODD_IS_CANVAS (self));

  self->fit_wanted = !find_fit (self, &zoom, &mm, &px);
  self->fitted = TRUE;
  if (!self->fit_wanted)
    glide_to (self, zoom, mm, px, animate);
}

double
odd_canvas_get_true_zoom (OddCanvas *self, gboolean *out_known)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (self));
  GdkSurface *surface = native != NULL ? gtk_native_get_surface (native) : NULL;
  GdkMonitor *monitor = surface != NULL ? gdk_display_get_monitor_at_surface (gdk_surface_get_display (surface), surface) : NULL;
  GdkRectangle geometry = { 0 };

  if (monitor != NULL)
    gdk_monitor_get_geometry (monitor, &geometry);
  if (out_known != NULL)
    *out_known = geometry.width > 0 && gdk_monitor_get_width_mm (monitor) > 0;
  if (geometry.width > 0 && gdk_monitor_get_width_mm (monitor) > 0)
    return (double) geometry.width / gdk_monitor_get_width_mm (monitor);
  return 96 / 25.4;
}

void
odd_canvas_zoom_at (OddCanvas *self, OddPoint px, double zoom)
{
  adw_animation_pause (self->glide);
  self->fitted = FALSE;
  if (self->scene.table != NULL)
    odd_table_zoom_at (self->scene.table, self->scene.viewport, px, zoom);
  else
    odd_viewport_zoom_at (self->scene.viewport, px, zoom);
}

void
odd_canvas_pan_by (OddCanvas *self, double dx_px, double dy_px)
{
  adw_animation_pause (self->glide);
  self->fitted = FALSE;
  odd_viewport_pan_by (self->scene.viewport, dx_px, dy_px);
}

static OddPoint
middle (OddCanvas *self)
{
  return odd_point (odd_viewport_get_width (self->scene.viewport) / 2, odd_viewport_get_height (self->scene.viewport) / 2);
}

void
odd_canvas_true_size (OddCanvas *self)
{
  gboolean known;
  double zoom;

  g_return_if_fail (ODD_IS_CANVAS (self));

  zoom = odd_canvas_get_true_zoom (self, &known);
  odd_canvas_zoom_at (self, middle (self), zoom);
  if (!known)
    self->scene.announce (&self->scene, _("This screen does not tell its size. Shown at 96 px to the inch."));
}

void
odd_canvas_zoom_by (OddCanvas *self, double factor)
{
  g_return_if_fail (ODD_IS_CANVAS (self));
  g_return_if_fail (factor > 0);
  odd_canvas_zoom_at (self, middle (self), odd_viewport_get_zoom (self->scene.viewport) * factor);
}

void
odd_canvas_reveal (OddCanvas *self, OddSelected kind, OddId id)
{
  g_autoptr(GArray) outline = NULL;

  g_return_if_fail (ODD_IS_CANVAS (self));

  if (self->scene.table == NULL)
    return;
  outline = odd_table_get_outline_px (self->scene.table, self->scene.viewport, kind, id);
  if (outline == NULL)
    return;
  odd_canvas_reveal_box (self, odd_box_from_points ((const OddPoint *) (const void *) outline->data, outline->len));
}

double
odd_canvas_get_level (OddCanvas *self)
{
  const double zoom = odd_viewport_get_zoom (self->scene.viewport);

  return self->resting ? zoom : odd_zoom_half_octave (zoom);
}

void
odd_canvas_init_view (OddCanvas *self)
{
  self->resting = TRUE;
  self->fit_wanted = TRUE;
  self->glide = adw_timed_animation_new (GTK_WIDGET (self), 0, 1, FIT_MS, adw_callback_animation_target_new (glide_cb, self, NULL));
  g_signal_connect_swapped (self->scene.viewport, "notify::zoom", G_CALLBACK (zoom_changed_cb), self);
}
