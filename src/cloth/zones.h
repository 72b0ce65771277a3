/* Zones of a scrap: parts that are not plain good cloth. */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

/*
 * odd_job_add_zone:
 * @outline: in the scrap's frame as it lies on the table; clipped to the scrap, and so perhaps several zones; of a scrap that is
 *   cut out, to its patches: a stain found late
 * @allowance_only: may lie in an allowance; else kept out of patches altogether
 *
 * Refused with ODD_JOB_ERROR_REFUSED: beside the scrap; nothing of the scrap left. A placed scrap is not refused: what no longer
 * fits is found by odd_job_count_misfits() and odd_job_check().
 *
 * Returns: (transfer full): the next job, or %NULL
 */
OddJob *odd_job_add_zone (OddJob *self, OddId scrap_id, OddZoneKind kind, gboolean allowance_only, OddPolygon *outline, GError **error);
OddJob *odd_job_remove_zone (OddJob *self, OddId scrap_id, guint index, GError **error);
/* Patches on the scrap whose cut shape leaves its usable cloth, or that show a zone meant for an allowance. */
guint odd_job_count_misfits (OddJob *self, OddId scrap_id);

G_END_DECLS
