/* The report for programs: everything that follows from a job, in millimetres. Described by data/report.schema.json. */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

/*
 * odd_report_json:
 *
 * All points of a panel are in its frame as it hangs in the textile; every ring is open and positive by the shoelace formula,
 * holes too. Numbers are rounded to 1e-9 mm, so that what is 309.2 does not read 309.20000000000005.
 *
 * Returns: (transfer full): JSON text in UTF-8, or NULL
 */
GBytes *odd_report_json (OddJob *job, GError **error);

G_END_DECLS
