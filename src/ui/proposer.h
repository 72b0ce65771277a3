/* Makes proposals one after another in a thread, each with its picture; never touches a document. */
#pragma once

#include <gtk/gtk.h>
#include "drawing/painter.h"
#include "piecing/proposal.h"
#include "sewing/panel-work.h"

G_BEGIN_DECLS

/* What came out; the proposal may be taken from it, its job shared. */
#define ODD_TYPE_PROPOSED (odd_proposed_get_type ())
G_DECLARE_FINAL_TYPE (OddProposed, odd_proposed, ODD, PROPOSED, GObject)

const OddProposal *odd_proposed_get_proposal (OddProposed *self);
const OddProposalOptions *odd_proposed_get_options (OddProposed *self);
const OddPanelWork *odd_proposed_get_work (OddProposed *self);
GdkTexture *odd_proposed_get_picture (OddProposed *self);                 /* (transfer none) */
/* Those that the picture is scaled for, logical px. */
#define ODD_PROPOSED_WIDTH_PX 220
#define ODD_PROPOSED_HEIGHT_PX 300

#define ODD_TYPE_PROPOSER (odd_proposer_get_type ())
G_DECLARE_FINAL_TYPE (OddProposer, odd_proposer, ODD, PROPOSER, GObject)

/* Properties: running (gboolean), progress (double, 0..1, of all that were asked for).
 * Signals: proposed (OddProposed); bettered (OddProposed: the one that was asked to be better, as it is by now); failed (string: why; no more
 * follow). None comes after odd_proposer_cancel(). */
OddProposer *odd_proposer_new (OddSwatches *swatches);
/* @n proposals with the seeds from @options->seed on. What runs is cancelled first. @options are copied. */
void odd_proposer_run (OddProposer *self, OddJob *job, const OddProposalOptions *options, guint n, int scale_factor);
/* Goes on with one proposal for @seconds; every better state is told, so that stopping loses nothing. What runs is cancelled first. */
void odd_proposer_better (OddProposer *self, OddProposed *proposed, double seconds, int scale_factor);
void odd_proposer_cancel (OddProposer *self);
gboolean odd_proposer_is_running (OddProposer *self);

G_END_DECLS
