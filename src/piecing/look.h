/* Rows and patches change places until a cloth of columns pleases; straight seams make that free. */
#pragma once

#include "piecing/random.h"
#include "piecing/rows.h"
#include "piecing/schedule.h"

G_BEGIN_DECLS

/*
 * odd_look_improve:
 * @panels: (array length=n_panels): rows of each, hung side by side; rows with bare cells stay where they are
 * @schedule: its moves 0: as many as the number of patches asks for
 *
 * Simulated annealing over the order of rows in a column, of patches in a row, and rows of one height between columns. Energy: touching
 * patches of one fabric (or two that look alike), seams of neighbouring rows nearer than 15 mm, mean lightness of three rows in a run.
 *
 * Returns: FALSE when cancelled
 */
gboolean odd_look_improve (GPtrArray *const *panels, guint n_panels, double width_mm, const OddSources *sources, OddSpread spread, OddSchedule schedule,
                           OddRandom *random, GCancellable *cancellable, GError **error);

G_END_DECLS
