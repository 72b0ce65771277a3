/* Writing the job file; job-reader.h says what it is. */
#pragma once

#include "cloth/job.h"
#include "store/json-printer.h"

G_BEGIN_DECLS

/*
 * odd_job_write_bytes:
 *
 * The whole job file. The same job is the same bytes: members and entries in a fixed order, pictures by name, no clock, no locale. Pictures
 * without bytes are left out. Safe in any thread.
 *
 * Returns: (transfer full): the bytes, or NULL with ODD_STORE_ERROR_WRITE when a value is not finite or not UTF-8
 */
GBytes *odd_job_write_bytes (OddJob *self, GError **error);

/* A panel with its tree, as @member of an object or (NULL) an element of a list. @hung: (nullable): how it hangs; NULL for a loose panel or a piece. */
void odd_print_panel (OddPrinter *printer, const char *member, const OddPanel *panel, const OddHung *hung);

/* The text of job.json alone. */
GBytes *odd_job_write_json (OddJob *self, GError **error);

G_END_DECLS
