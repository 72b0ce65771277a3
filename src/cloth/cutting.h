/* Cutting at the table: a patch is cut out of its scrap, and what is left over of a scrap becomes scraps.
 *
 *      +-----------------+      Marked cut one by one. With the last patch planned on the scrap, or when it is cut out as a whole,
 *      |  +-----+ . . . .|      what remains falls into pieces along the cut shapes. A piece whose good cloth holds the usable square
 *      |  |  1  | piece  |      (settings) is an offcut: a scrap with the next free number, its parent's fabric, grain, wash, place and
 *      |  +-----+ . . . .|      picture, in its parent's frame, with the zones that lie in it. The rest is waste. The parent keeps
 *      |  |  2  |        |      outline and patches, and has no remains any more. A pieced
 *      +--+-----+--------+      scrap does not fall apart by itself: see odd_job_cut_piece().
 */
#pragma once

#include "cloth/layout.h"
#include "cloth/length.h"

G_BEGIN_DECLS

/*
 * odd_job_set_cut:
 * @leaf_id: a patch
 * @cut: %ODD_STATE_DONE: cut out of its scrap; %ODD_STATE_OPEN: not yet
 *
 * Marks a patch cut; with the last one its scrap is cut out. Taking the mark back puts the scrap together again: its offcuts vanish, and that is
 * refused while one of them is used. ODD_JOB_ERROR_REFUSED for a bare region or a locked panel.
 *
 * Returns: (transfer full): the next job, or %NULL
 */
OddJob *odd_job_set_cut (OddJob *self, OddId leaf_id, OddState cut, GError **error);
/* All its patches at once, and the scrap cut out whether or not they were marked before. Refused where none is planned on it. */
OddJob *odd_job_cut_scrap (OddJob *self, OddId scrap_id, GError **error);
/* Every mark of it taken back. */
OddJob *odd_job_uncut_scrap (OddJob *self, OddId scrap_id, GError **error);

/*
 * odd_job_may_recut:
 * @leaf_id: a patch
 * @cut: cut shape it would get; in the scrap's frame as it will be sewn
 *
 * A patch that is cut already can only be cut smaller. Without an error when it is not cut yet, or @cut lies in the cut shape it has.
 *
 * Returns: %TRUE if the cloth that is there suffices
 */
gboolean odd_job_may_recut (OddJob *self, OddId leaf_id, const OddConvex *cut, GError **error);
/*
 * odd_job_recut:
 * @after: what an edit made of this job
 * @panel_id: panel the edit changed
 *
 * Looks at each patch of the panel that is marked cut in both jobs: its new cut shape must lie in the old one. What is trimmed off a patch whose
 * scrap is cut out, and holds the usable square, becomes a scrap.
 *
 * Returns: (transfer full): @after, or a job with these scraps too; %NULL with ODD_JOB_ERROR_REFUSED
 */
OddJob *odd_job_recut (OddJob *self, OddJob *after, OddId panel_id, GError **error);

/* Scraps that came of cutting this one: (transfer container) (element-type OddScrap), in the order of the job. */
GPtrArray *odd_job_dup_offcuts (OddJob *self, OddId scrap_id);
/* Cloth of a cut-out scrap that is neither patch nor offcut, mm2; of one that is not: 0. An offcut taken out of the tub since counts as waste. */
double odd_job_get_waste_mm2 (OddJob *self, OddId scrap_id);
/* "Cut. One offcut of 7 × 9 cm came back, 12 cm² are waste": what an act between both jobs brought. (transfer full) */
char *odd_job_dup_cut_text (OddJob *before, OddJob *after, OddId scrap_id, OddUnit unit);

G_END_DECLS
