/* One scrap's life: where it came from, what was done to it, what became of it. Derived from job and record. */
#pragma once

#include "cloth/edit.h"
#include "cloth/length.h"

G_BEGIN_DECLS

typedef enum { ODD_LIFE_ORIGIN, ODD_LIFE_ACT, ODD_LIFE_PLACE } OddLifeKind;    /* whence, what happened, where it is now */

typedef struct
{
  OddLifeKind kind;
  char *text;
  OddAct *act;                /* for ODD_LIFE_ACT; else NULL */
  OddId scrap_id, node_id, panel_id, textile_id;      /* what a place or an origin is about; 0: none */
} OddLifeStep;

/* In order: whence, what happened, where it is. @unit for lengths in the text. (transfer full) (element-type OddLifeStep) */
GPtrArray *odd_job_dup_scrap_life (OddJob *job, OddId scrap_id, OddUnit unit);

G_END_DECLS
