/* The record of what was done, to JSON and back. */
#pragma once

#include "cloth/job.h"
#include "store/json-cursor.h"
#include "store/json-printer.h"

G_BEGIN_DECLS

/* An empty record is not written. */
void odd_print_record (OddPrinter *printer, GPtrArray *record);
/* (transfer full) (element-type OddAct). Ids need not be there any more, but must have been given out: they lie below @next_id. */
GPtrArray *odd_read_record (OddCursor *top, OddId next_id);

G_END_DECLS
