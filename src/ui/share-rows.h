/* How much of a fabric there should be: rows that she adds, one a fabric. */
#pragma once

#include <adwaita.h>
#include "piecing/proposal.h"

G_BEGIN_DECLS

#define ODD_TYPE_SHARE_ROWS (odd_share_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddShareRows, odd_share_rows, ODD, SHARE_ROWS, AdwBin)

/* Signal: changed (). Hidden where the job has no fabrics. */
void odd_share_rows_start (OddShareRows *self, OddJob *job);
/* As the button's list does; a fabric that has a row already gets none more. */
void odd_share_rows_add (OddShareRows *self, OddId fabric_id);
/* (transfer none) (nullable) (array length=out_n): until the rows change. */
const OddShare *odd_share_rows_get (OddShareRows *self, guint *out_n);
/* What cannot be, shown below the rows as well; NULL: nothing. */
const char *odd_share_rows_get_complaint (OddShareRows *self);

G_END_DECLS
