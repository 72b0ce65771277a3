/* The figures of a proposal as a maker reads them. */
#pragma once

#include "cloth/length.h"
#include "piecing/proposal.h"

G_BEGIN_DECLS

typedef struct
{
  char *value;                /* "63 %" */
  char *title;                /* "of the cloth used shows" */
  char *hint;                 /* a sentence more, or NULL */
} OddFigure;

void odd_figure_free (OddFigure *figure);
/* Never yield alone: what the allowances leave and how much of that was got stand beside it. (transfer full) (element-type OddFigure) */
GPtrArray *odd_proposal_dup_figures (const OddProposal *proposal, const OddProposalOptions *options, OddUnit unit);
/* "48 patches, fit 92 %": under a small picture. (transfer full) */
char *odd_proposal_dup_caption (const OddProposal *proposal);

G_END_DECLS
