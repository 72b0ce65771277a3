/* What geometry/ itself may ask of a strip set. */
#pragma once

#include "geometry/inscribed.h"
#include "geometry/polygon-private.h"

G_BEGIN_DECLS

/* Does the strip hold an interval of @width? Gives up as soon as nothing that long is left. */
gboolean odd_strips_holds (const OddStrips *self, double y0, double y1, double width);

G_END_DECLS
