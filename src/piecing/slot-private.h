/* What the files that make slots share. */
#pragma once

#include "piecing/slot.h"

G_BEGIN_DECLS

OddSlot *odd_slot_alloc (const OddTarget *target);
void odd_slot_add_side (OddSlot *self, OddHalfPlane plane, double allowance_mm);
/* The frame with its origin at @origin and y along @up. */
OddPlacement odd_slot_frame_along (OddPoint origin, OddPoint up);
/* Left and right end in the sheared frame, and the largest y. */
void odd_slot_sheared_extent (const OddSlot *self, const OddConvex *shape, double *out_left, double *out_right, double *out_top);
/* Measures the slot by its region up to @height_mm; FALSE when that is empty. */
gboolean odd_slot_measure (OddSlot *self, double height_mm);

G_END_DECLS
