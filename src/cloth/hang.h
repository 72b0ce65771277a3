/* How a panel hangs: what its place in a textile does to its outline. */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

/* Sides in the hung frame: 0 top, 1 right, 2 bottom, 3 left. */
typedef struct
{
  gboolean in_textile;
  gboolean half_turn;
  double raw_mm[4];            /* where the raw edge of each side lies in the frame of the panel turned but not shifted, after trimming */
  double allowance_mm[4];      /* used there */
  OddId join_id[4];            /* 0: raw */
  OddId finish_id[4];          /* of the allowance used */
  double trimmed_mm[4];
  double eased_mm;             /* of what it has too much at the bottom; not in trimmed_mm */
} OddHang;

/* Hangs of all panels of a textile, in order.
 * (transfer full) (array length = textile->n_hung) */
OddHang *odd_textile_hang (OddJob *job, OddTextile *textile);
OddHang odd_hang_loose (void);

/* Finish and allowance of an outline edge of the panel alone. */
void odd_panel_resolve_edge (OddJob *job, OddTextile *textile, OddPanel *panel, guint edge, OddFinish **out_finish, double *out_allowance_mm);
/* The outline with its edges' allowances, panel's own frame. (transfer full) */
OddConvex *odd_panel_dup_raw_outline (OddJob *job, OddTextile *textile, OddPanel *panel);

G_END_DECLS
