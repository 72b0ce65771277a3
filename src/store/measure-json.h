/* A measure taken at the table, in job files: the member "measure" of a strip, panel or textile. */
#pragma once

#include "cloth/measure.h"
#include "store/json-cursor.h"
#include "store/json-printer.h"

G_BEGIN_DECLS

/* Nothing is written when @measure is NULL. */
void odd_print_measure (OddPrinter *printer, const OddMeasure *measure);
/* (transfer full); NULL when there is none, or when the reading failed. */
OddMeasure *odd_read_measure (OddCursor *cursor);

G_END_DECLS
