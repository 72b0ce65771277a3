/* Single steps of progress.h: one seam, one layout at a time. */
#pragma once

#include "sewing/progress.h"

G_BEGIN_DECLS

/* Are the parts joined: is the first seam of the finish sewn? */
gboolean odd_seam_is_sewn (const OddSeam *seam, const OddFinish *finish);
/* Is all done, or skipped, up to and with the last press? */
gboolean odd_seam_is_ready_to_cross (const OddSeam *seam, const OddFinish *finish);

/* @run_mm: raw length of the seam. Raw inside is not counted here. */
void odd_work_count_add_seam (OddWorkCount *count, const OddSeam *seam, const OddFinish *finish, double run_mm);
/* @textile: (nullable): where the panel hangs; its joins themselves are not counted. */
void odd_work_count_add_layout (OddWorkCount *count, const OddLayout *layout, OddTextileLayout *textile);

/* "7, 8, 11–14": the patches that lie on a laid seam, on the side of its first (0) or second part (1). (transfer full) */
char *odd_layout_dup_side (const OddLayout *layout, guint seam, guint side);

G_END_DECLS
