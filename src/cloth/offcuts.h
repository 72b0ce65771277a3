/* What is left of a scrap: cloth not yet taken, and what of it is worth keeping. */
#pragma once

#include "cloth/layout.h"

G_BEGIN_DECLS

/* Cut shape of a patch in its scrap's frame, as it will be sewn; NULL for a leaf that has vanished. (transfer full) */
OddConvex *odd_use_dup_cut (OddJob *job, const OddUse *use);
/* Those of all patches on the scrap. (transfer full) (element-type OddPolygon) */
GPtrArray *odd_scrap_dup_cut_shapes (OddJob *job, OddId scrap_id);
/* Usable cloth less the cut shapes of all patches that lie on the scrap, largest first; scrap's frame. Nothing for a scrap that is cut out.
 * (transfer full) (element-type OddPolygon) */
GPtrArray *odd_scrap_dup_cloth (OddJob *job, OddScrap *scrap);
/* Of these the pieces that hold the usable square. (transfer full) (element-type OddPolygon) */
GPtrArray *odd_scrap_remains (OddJob *job, OddId scrap_id);
/* Does the piece hold the square? Tried flush with each of its edges. */
gboolean odd_piece_holds_square (OddPolygon *piece, double side_mm);

G_END_DECLS
