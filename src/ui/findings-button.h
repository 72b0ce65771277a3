/* What is not sound in the job: a triangle with a count, a list behind it; each row selects its place. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_FINDINGS_BUTTON (odd_findings_button_get_type ())
G_DECLARE_FINAL_TYPE (OddFindingsButton, odd_findings_button, ODD, FINDINGS_BUTTON, OddPane)

/* Property count (guint, read only). The job is checked in a thread a moment after each edit. */
/* Selects and shows one after another, from the first again after the last; FALSE when all is sound. */
gboolean odd_findings_button_next (OddFindingsButton *self);
void odd_findings_button_open (OddFindingsButton *self);

G_END_DECLS
