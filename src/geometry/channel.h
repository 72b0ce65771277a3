/* The tallest channel of a given width in a turned piece of cloth: the kernel under snap and trim. */
#pragma once

#include "geometry/polygon.h"

G_BEGIN_DECLS

/* A polygon turned once and parted between its corner levels; asked for any width and any shear. */
typedef struct _OddSlabs OddSlabs;

typedef struct
{
  double x, y;              /* left end of the lower side, sheared frame (x' = x - y * shear); mm */
  double height;            /* y .. y + height is cloth over x' .. x' + width */
} OddChannel;

OddSlabs *odd_slabs_new (OddPolygon *polygon, double turn_deg, gboolean mirror);
void odd_slabs_free (OddSlabs *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSlabs, odd_slabs_free)

/* The same memory for another polygon or turn. */
void odd_slabs_set (OddSlabs *self, OddPolygon *polygon, double turn_deg, gboolean mirror);
/* Width at its widest level (a shear does not change it), and height; mm. */
double odd_slabs_get_width (const OddSlabs *self);
double odd_slabs_get_height (const OddSlabs *self);
/* No channel of this width is taller, whatever the shear; mm. */
double odd_slabs_bound (const OddSlabs *self, double width_mm);
/*
 * odd_slabs_tallest:
 * @shear: tangent of the angle between the channel's sides and y
 * @width_mm: across, along x
 * @out: (out): the tallest parallelogram of that width, its lower and upper side along x; untouched when there is none
 *
 * Exact (within 1e-7 mm) for simple polygons, concave ones and ones with holes.
 */
gboolean odd_slabs_tallest (OddSlabs *self, double shear, double width_mm, OddChannel *out);
/* Does it hold a square of that side in this turn? */
gboolean odd_slabs_hold_square (OddSlabs *self, double side_mm);

G_END_DECLS
