/* For the cloth room's own edits only. */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

OddJob *odd_job_copy (OddJob *values);                        /* shares every array; unchecked */
void odd_job_share_index (OddJob *self, OddJob *from);

G_END_DECLS
