/* Fabrics, finishes and scraps to JSON, for job files and scrap lists. */
#pragma once

#include "cloth/job.h"
#include "store/json-printer.h"

G_BEGIN_DECLS

/* @id: 0: none is written */
void odd_print_fabric (OddPrinter *printer, const OddFabric *self, OddId id);
void odd_print_finish (OddPrinter *printer, const OddFinish *self);
/* @fabric_name: (nullable): written instead of ids, for a scrap list, which knows neither ids nor pictures */
void odd_print_scrap (OddPrinter *printer, const OddScrap *self, gboolean in_list, const char *fabric_name);
void odd_print_treatment (OddPrinter *printer, const OddTreatment *self);

G_END_DECLS
