/* Another scrap for a patch that is there: where on the scrap its cut shape can lie, and the edits that rest on that. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

/*
 * odd_refit:
 * @wanted_turn_deg: how the scrap is best turned in the panel alone; NAN: no matter
 * @ignored: (array length=n_ignored): patches whose cloth counts as free, as they are about to leave their scrap
 * @out_placement: scrap's frame to the panel's own
 * @out_missing_mm: (nullable): how much too small the scrap is where the cut shape fits nowhere, across; 0: no usable cloth at all
 *
 * Tries the wanted turn, then all that lay an edge of the scrap along an edge of the cut shape, nearest to the wanted first; cloth with an up
 * is never turned otherwise. Patches on the same scrap keep their cloth. Never a false fit; on cloth with many inward corners one can be missed.
 */
gboolean odd_refit (OddJob *job, OddId leaf_id, OddId scrap_id, double wanted_turn_deg, const OddId *ignored, guint n_ignored,
                    OddPlacement *out_placement, double *out_missing_mm);

/* Each refuses, with one sentence, what is locked, cut out or sewn, and what fits nowhere. */
OddJob *odd_job_replace_scrap (OddJob *self, OddId leaf_id, OddId scrap_id, double wanted_turn_deg, GError **error);
/* The two patches change places; one of them may be bare. */
OddJob *odd_job_swap_patches (OddJob *self, OddId a, OddId b, GError **error);
/*
 * odd_job_cut_in_two:
 * @line: panel's own frame
 * @out_bare_id: (nullable): the half for which the cloth does not reach, left bare; 0: none
 *
 * A seam through a patch needs an allowance on either side, so the halves must lie apart on the scrap: the larger stays, or both give way, or the
 * smaller one moves to where there is cloth for it.
 */
OddJob *odd_job_cut_in_two (OddJob *self, OddId leaf_id, OddHalfPlane line, OddId *out_bare_id, GError **error);
/* Free scraps that can take the patch's place, those with the least cloth to spare first. (transfer full) GArray of OddId; NULL when cancelled */
GArray *odd_refit_which (OddJob *job, OddId leaf_id, GCancellable *cancellable);

G_END_DECLS
