/* How far a change of finish or allowance reaches: one seam, its row, its panel, the textile, the whole job. */
#pragma once

#include "ui/seam-facts.h"

G_BEGIN_DECLS

typedef struct
{
  OddLevel level;
  OddId id;                   /* as odd_job_set_treatment() wants it */
  OddTreatment own;           /* what the level itself sets */
  OddFinish *finish;          /* what it comes to; (transfer none) */
  double allowance_mm;
  char *name;                 /* "This seam", "Its row, 5 seams" */
} OddScope;

/* The levels a seam or join inherits from, the nearest first. (transfer full) (element-type OddScope) */
GArray *odd_scopes_of_seam (OddJob *job, const OddSeamFacts *facts);
/* Of a panel or textile: that level, then those around it. (transfer full) (element-type OddScope) */
GArray *odd_scopes_of_panel (OddJob *job, OddPanel *panel, OddTextile *textile);
GArray *odd_scopes_of_textile (OddJob *job, OddTextile *textile);
GArray *odd_scopes_of_job (OddJob *job);

G_END_DECLS
