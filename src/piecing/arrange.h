/* Cells change places until the cloth pleases. */
#pragma once

#include "piecing/random.h"
#include "piecing/rows.h"
#include "piecing/schedule.h"

G_BEGIN_DECLS

/*
 * odd_arrange:
 * @graph: cells that touch; what lies in them is swapped, widths and kinds stay
 * @schedule: its moves 0: as many as the number of cells asks for
 *
 * Simulated annealing (Kirkpatrick, Gelatt, Vecchi, Science 220, 1983). Energy: one for each pair of touching cells of one fabric, less for
 * two fabrics that look alike (CIEDE2000), and how far the mean lightness of a cell and its neighbours strays from the wanted course.
 *
 * Returns: FALSE when cancelled
 */
gboolean odd_arrange (OddCellGraph *graph, const OddSources *sources, OddSpread spread, OddSchedule schedule, OddRandom *random, GCancellable *cancellable, GError **error);

/* L* wanted at each cell, from the lightnesses there are. (transfer full) array of graph->n */
double *odd_wanted_lightness (const OddCellGraph *graph, const double *lightness, OddSpread spread);
/* What two touching fabrics cost: 1 the same, 0 well apart; n_fabrics x n_fabrics. (transfer full) */
float *odd_contact_costs (const OddSources *sources);

G_END_DECLS
