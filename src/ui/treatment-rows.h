/* Finish and allowance of one level, as rows of a list: seam, panel, textile and join share them. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_TREATMENT_ROWS (odd_treatment_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddTreatmentRows, odd_treatment_rows, ODD, TREATMENT_ROWS, AdwBin)

/* Property keep-choice (gboolean, construct only): offer "keep the size" beside "keep the cut". */
/* What the level sets, and what it comes to. @pane: for its document, job and unit. */
void odd_treatment_rows_show (OddTreatmentRows *self, OddPane *pane, OddLevel level, OddId id, const OddTreatment *own,
                              OddFinish *finish, double allowance_mm);

G_END_DECLS
