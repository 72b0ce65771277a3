/* Millimetres on the sewing table to pixels of the canvas and back: the one object that every layer asks. Knows no widget. */
#pragma once

#include <glib-object.h>
#include "geometry/point.h"

G_BEGIN_DECLS

/* px per mm. Below the least a panel of 2 m is a speck; above the most a thread fills the window. */
#define ODD_ZOOM_LEAST 0.02
#define ODD_ZOOM_MOST 40.0

typedef struct { double left, top, right, bottom; } OddInsets;     /* px kept free around what is fitted */

#define ODD_TYPE_VIEWPORT (odd_viewport_get_type ())
G_DECLARE_FINAL_TYPE (OddViewport, odd_viewport, ODD, VIEWPORT, GObject)

/* Property: zoom (px per mm; read only, notify). Signal: changed, once after each call that moved or zoomed. */
OddViewport *odd_viewport_new (void);
void odd_viewport_set_size (OddViewport *self, double width_px, double height_px);
double odd_viewport_get_width (OddViewport *self);
double odd_viewport_get_height (OddViewport *self);
double odd_viewport_get_zoom (OddViewport *self);

OddPoint odd_viewport_to_px (OddViewport *self, OddPoint mm);
OddPoint odd_viewport_to_mm (OddViewport *self, OddPoint px);
OddBox odd_viewport_box_to_px (OddViewport *self, OddBox mm);
OddBox odd_viewport_get_visible_mm (OddViewport *self);

/* Puts the point @mm of the table at @px of the canvas. @zoom is kept within the limits. */
void odd_viewport_place (OddViewport *self, double zoom, OddPoint mm, OddPoint px);
/* Zooms so that what lies under @px stays there. */
void odd_viewport_zoom_at (OddViewport *self, OddPoint px, double zoom);
/* What lies on the table moves with the hand: positive to the right and down. */
void odd_viewport_pan_by (OddViewport *self, double dx_px, double dy_px);

/* The zoom and the place of @box_mm's top left at which the whole box is seen, centred from side to side and
 * as high up as @insets allow. FALSE, nothing set, for an empty box or a canvas without room. */
gboolean odd_viewport_get_fit (OddViewport *self, OddBox box_mm, OddInsets insets, double *out_zoom, OddPoint *out_px);
void odd_viewport_fit (OddViewport *self, OddBox box_mm, OddInsets insets);

/* An edge on whole device pixels; both neighbours of an edge get the same value. */
static inline double odd_round_to_device (double px, int scale_factor) { return floor (px * scale_factor + 0.5) / scale_factor; }
/* The nearest half octave: zooms at which cloth is drawn while the zoom still moves. */
double odd_zoom_half_octave (double zoom);

G_END_DECLS
