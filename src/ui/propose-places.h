/* Where a proposal can go: new panels, bare places, or what may come off again round what is kept. */
#pragma once

#include "cloth/length.h"
#include "piecing/proposal.h"
#include "ui/selection.h"

G_BEGIN_DECLS

typedef struct
{
  OddInto into;
  OddId panel_id;             /* 0: of the textile, or loose */
  OddId part_id;              /* strip or patch; 0: the whole panel */
  char *text;                 /* beside "Where" */
  char *says;                 /* what that means here; "" for new panels */
} OddProposePlace;

/*
 * odd_propose_places_new:
 * @kind, @id: what is selected; the narrowest places come first
 * @out_first: which of them is offered: bare places of what is selected, else new panels
 *
 * Only those where there is something to do.
 *
 * Returns: (transfer full) (element-type OddProposePlace)
 */
GPtrArray *odd_propose_places_new (OddJob *job, OddId textile_id, OddSelected kind, OddId id, OddUnit unit, guint *out_first);
/* As the panel of what is selected is pieced already; squares where nothing tells. */
OddPieceManner odd_propose_guess_manner (OddJob *job, OddSelected kind, OddId id);
/* Into @options; the ids are lent. */
void odd_propose_place_apply (const OddProposePlace *place, OddProposalOptions *options);

G_END_DECLS
