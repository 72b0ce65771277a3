/* A ragged free end made one straight line, as far out as its cloth reaches. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

/*
 * odd_job_straighten_end:
 * @side: 0 the panel's top, 2 its bottom, as it lies alone
 * @most_tilt_deg: 0: square to the panel's length; else the line may lean so far to keep more cloth
 * @out_gained_mm2: (nullable): finished area won; negative: lost
 *
 * Along the end the cloth of each patch reaches so far, less its allowance. A line with slope s can lie at the height m(s) = min over x of
 * (p(x) - s (x - W/2)) over the middle of the width W, and W m(s) is the area below it. As a minimum of straight lines m is concave, so its best
 * slope is found by golden section; it is that of the lower convex envelope of p at W/2 (derived here).
 *
 * Cloth that is cut or sewn is only trimmed. Refused: locked; nothing to straighten.
 */
OddJob *odd_job_straighten_end (OddJob *self, OddId panel_id, guint side, double most_tilt_deg, double *out_gained_mm2, GError **error);

G_END_DECLS
