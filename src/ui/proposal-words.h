/* The figures of a proposal as a maker reads them. */
#pragma once

#include "cloth/length.h"
#include "piecing/proposal.h"
#include "sewing/panel-work.h"
#include "ui/figure-cells.h"

G_BEGIN_DECLS

/* Never yield alone: what the allowances leave and how much of that was got stand beside it. (transfer full) (element-type OddFigure) */
GPtrArray *odd_proposal_dup_figures (const OddProposal *proposal, const OddPanelWork *work, const OddProposalOptions *options, OddUnit unit);
/* The three of them that belong together. */
void odd_figure_list_add_yield (GPtrArray *figures, double net_yield, double own_bound, double fit);
/* "48 patches, fit 92 %": under a small picture. (transfer full) */
char *odd_proposal_dup_caption (const OddProposal *proposal);

G_END_DECLS
