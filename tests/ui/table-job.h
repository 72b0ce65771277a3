/* Jobs for tests of the window: invented fabrics, panels of squares, some work done. */
#pragma once

#include "sewing/progress.h"

/* @n_panels panels of @columns x @rows squares of 94.6 mm finished, every third panel with uneven rows, and @n_free free scraps of
 * odd shapes, whose ids start at @out_first_free. (transfer full) */
OddJob *table_job_new (guint n_panels, guint columns, guint rows, guint n_free, OddId *out_first_free);
/* The same with work done in every panel but the last: all, half, a little ... (transfer full) */
OddJob *table_job_new_sewn (guint n_panels, guint columns, guint rows, guint n_free, OddId *out_first_free);
