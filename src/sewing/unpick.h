/* Unpicking a seam: what must be opened with it, how much stitching that is, and what it leaves. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef struct
{
  GArray *seams;              /* (element-type OddId) in the order in which they are opened; the seam itself is the last */
  double stitching_mm;        /* of them all */
} OddUnpicking;
void odd_unpicking_free (OddUnpicking *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddUnpicking, odd_unpicking_free)

/*
 * odd_job_plan_unpicking:
 * @seam_id: a seam or a join that is sewn
 *
 * A seam can be opened to its ends only after the sewn seams and joins across its ends are open, and those across their ends first. Seams that
 * end on it stay sewn: their ends come free.
 *
 * Stitching: the raw length of a seam once for every row of stitches that holds it: each pass of the sewing machine, edges neatened together,
 * topstitching; not edges that were neatened each by itself, which stay as they are.
 *
 * Returns: (transfer full): what must be opened; %NULL when the seam is not sewn, or not there any more
 */
OddUnpicking *odd_job_plan_unpicking (OddJob *job, OddId seam_id, GError **error);

/*
 * odd_job_unpick:
 * @lost_mm: cloth lost along each of the seam's two raw edges, from 0
 *
 * Sets the seam and those that go with it back: what was done before joining stays, ends are neither back-stitched nor cut. Lost cloth takes its
 * share of the patches: see odd_job_narrow_seam().
 *
 * Returns: (transfer full): the job after it, or %NULL with error
 */
OddJob *odd_job_unpick (OddJob *job, OddId seam_id, double lost_mm, GError **error);

/* Was an edge of this seam cut back while it was being finished? What is left of its allowance is then less than the plan's. */
gboolean odd_job_seam_is_trimmed (OddJob *job, OddId seam_id);

G_END_DECLS
