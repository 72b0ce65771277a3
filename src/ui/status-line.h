/* The line below the canvas that always tells the truth about sizes and open seams. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_STATUS_LINE (odd_status_line_get_type ())
G_DECLARE_FINAL_TYPE (OddStatusLine, odd_status_line, ODD, STATUS_LINE, OddPane)

/* Properties beside the pane's: narrow (gboolean: size and one number), zoom (double, percent; NAN: unknown). */
/* "98.4 × 63.0 cm", and what is missing or over: "47.0 too short". (transfer full) */
char *odd_status_line_dup_size (OddJob *job, OddId textile_id, int unit);
char *odd_status_line_dup_missing (OddJob *job, OddId textile_id, int unit);
/* Opens the list of what is not sound, if anything is. */
void odd_status_line_open_findings (OddStatusLine *self);
/* FALSE when all is sound. */
gboolean odd_status_line_next_finding (OddStatusLine *self);

G_END_DECLS
