/* What a few panels ask for by themselves, among all that lies on the table. */
#pragma once

#include "sewing/work-time.h"

G_BEGIN_DECLS

typedef struct
{
  guint n_rounds;             /* the fewest in which the panels themselves are sewn; joins come after them */
  OddRange time_s;            /* cutting out, seams, and the joins at their sides; walks between stations are not in it */
} OddPanelWork;

/*
 * odd_job_measure_panel_work:
 * @panels: (array length=n_panels): hung or loose
 *
 * Of what is still open. Times are her own where she took them, else by her speeds, else by the usual figures.
 */
OddPanelWork odd_job_measure_panel_work (OddJob *job, const OddId *panels, guint n_panels);

G_END_DECLS
