/* Finish and allowance of one level, as rows of a list: seam, panel, textile and join share them. */
#pragma once

#include "ui/pane.h"
#include "ui/scopes.h"

G_BEGIN_DECLS

#define ODD_TYPE_TREATMENT_ROWS (odd_treatment_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddTreatmentRows, odd_treatment_rows, ODD, TREATMENT_ROWS, AdwBin)

/* Property keep-choice (gboolean, construct only): offer "keep the size" beside "keep the cut". */
/* @scopes: (element-type OddScope): how far a change may reach, the first as long as she has not chosen another for the same thing; a
 * reference is kept. @pane: for its document, job and unit. */
void odd_treatment_rows_show (OddTreatmentRows *self, OddPane *pane, GArray *scopes);

G_END_DECLS
