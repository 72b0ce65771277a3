/* What is left of a scrap: cloth not yet taken, and what of it comes back. */
#pragma once

#include "cloth/layout.h"

G_BEGIN_DECLS

/* Usable cloth less the cut shapes of all patches that lie on the scrap, largest first; scrap's frame.
 * (transfer full) (element-type OddPolygon) */
GPtrArray *odd_scrap_dup_cloth (OddJob *job, OddScrap *scrap);
/* Does the piece hold the square? Tried flush with each of its edges. */
gboolean odd_piece_holds_square (OddPolygon *piece, double side_mm);

G_END_DECLS
