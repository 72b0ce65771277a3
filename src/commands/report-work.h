/* The report's figures of the work that is left on one textile. */
#pragma once

#include "cloth/job.h"
#include "store/json-printer.h"

G_BEGIN_DECLS

/* Members "plans", "operations_left", "thread_m", "minutes" and "ends_to_secure" of the object that is open. */
void odd_report_print_work (OddPrinter *out, OddJob *job, OddId textile_id);

G_END_DECLS
