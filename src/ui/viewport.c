#include "config.h"
#include "ui/viewport.h"

/* px = zoom * mm + shift. */
struct _OddViewport
{
  GObject parent_instance;
  double width_px, height_px;
  double zoom;
  OddPoint shift_px;
};

enum { PROP_ZOOM = 1, N_PROPS };
enum { CHANGED, N_SIGNALS };

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (OddViewport, odd_viewport, G_TYPE_OBJECT)

static void
odd_viewport_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_ZOOM)
    g_value_set_double (value, ODD_VIEWPORT (object)->zoom);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
odd_viewport_class_init (OddViewportClass *klass)
{
  G_OBJECT_CLASS (klass)->get_property = odd_viewport_get_property;
  props[PROP_ZOOM] = g_param_spec_double ("zoom", NULL, NULL, ODD_ZOOM_LEAST, ODD_ZOOM_MOST, 1.0,
                                          G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
  signals[CHANGED] = g_signal_new ("changed", ODD_TYPE_VIEWPORT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_viewport_init (OddViewport *self)
{
  self->zoom = 1.0;
}

OddViewport *
odd_viewport_new (void)
{
  return g_object_new (ODD_TYPE_VIEWPORT, NULL);
}

void
odd_viewport_set_size (OddViewport *self, double width_px, double height_px)
{
  g_return_if_fail (ODD_IS_VIEWPORT (self));

  if (self->width_px == width_px && self->height_px == height_px)
    return;
  self->width_px = width_px;
  self->height_px = height_px;
  g_signal_emit (self, signals[CHANGED], 0);
}

double
odd_viewport_get_width (OddViewport *self)
{
  return self->width_px;
}

double
odd_viewport_get_height (OddViewport *self)
{
  return self->height_px;
}

double
odd_viewport_get_zoom (OddViewport *self)
{
  return self->zoom;
}

OddPoint
odd_viewport_to_px (OddViewport *self, OddPoint mm)
{
  return odd_point_add (odd_point_scale (mm, self->zoom), self->shift_px);
}

OddPoint
odd_viewport_to_mm (OddViewport *self, OddPoint px)
{
  return odd_point_scale (odd_point_sub (px, self->shift_px), 1.0 / self->zoom);
}

OddBox
odd_viewport_box_to_px (OddViewport *self, OddBox mm)
{
  const OddPoint at = odd_viewport_to_px (self, odd_point (mm.x, mm.y));

  return (OddBox) { at.x, at.y, mm.width * self->zoom, mm.height * self->zoom };
}

OddBox
odd_viewport_get_visible_mm (OddViewport *self)
{
  const OddPoint at = odd_viewport_to_mm (self, odd_point (0, 0));

  return (OddBox) { at.x, at.y, self->width_px / self->zoom, self->height_px / self->zoom };
}

void
odd_viewport_place (OddViewport *self, double zoom, OddPoint mm, OddPoint px)
{
  double before;

  g_return_if_fail (ODD_IS_VIEWPORT (self));
  g_return_if_fail (isfinite (zoom) && isfinite (mm.x + mm.y + px.x + px.y));

  before = self->zoom;
  self->zoom = CLAMP (zoom, ODD_ZOOM_LEAST, ODD_ZOOM_MOST);
  self->shift_px = odd_point_sub (px, odd_point_scale (mm, self->zoom));
  g_signal_emit (self, signals[CHANGED], 0);
  if (self->zoom != before)
    g_object_notify_by_pspec (G_OBJECT (self), props[PROP_ZOOM]);
}

void
odd_viewport_zoom_at (OddViewport *self, OddPoint px, double zoom)
{
  odd_viewport_place (self, zoom, odd_viewport_to_mm (self, px), px);
}

void
odd_viewport_pan_by (OddViewport *self, double dx_px, double dy_px)
{
  g_return_if_fail (ODD_IS_VIEWPORT (self));
  g_return_if_fail (isfinite (dx_px) && isfinite (dy_px));

  self->shift_px = odd_point_add (self->shift_px, odd_point (dx_px, dy_px));
  g_signal_emit (self, signals[CHANGED], 0);
}

gboolean
odd_viewport_get_fit (OddViewport *self, OddBox box_mm, OddInsets insets, double *out_zoom, OddPoint *out_px)
{
  const double width = self->width_px - insets.left - insets.right;
  const double height = self->height_px - insets.top - insets.bottom;
  double zoom;

  if (box_mm.width <= 0 || box_mm.height <= 0 || width <= 0 || height <= 0)
    return FALSE;
  zoom = CLAMP (MIN (width / box_mm.width, height / box_mm.height), ODD_ZOOM_LEAST, ODD_ZOOM_MOST);
  *out_zoom = zoom;
  *out_px = odd_point (insets.left + (width - box_mm.width * zoom) / 2, insets.top);
  return TRUE;
}

void
odd_viewport_fit (OddViewport *self, OddBox box_mm, OddInsets insets)
{
  double zoom;
  OddPoint px;

  if (odd_viewport_get_fit (self, box_mm, insets, &zoom, &px))
    odd_viewport_place (self, zoom, odd_point (box_mm.x, box_mm.y), px);
}

double
odd_zoom_half_octave (double zoom)
{
  return exp2 (round (log2 (zoom) * 2) / 2);
}
