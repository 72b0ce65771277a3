/* What a tub gives, as a maker reads it. */
#pragma once

#include "cloth/length.h"
#include "piecing/estimate.h"
#include "ui/figure-cells.h"

G_BEGIN_DECLS

/* "Enough", "14 squares short" (transfer full) */
char *odd_estimate_dup_headline (const OddEstimate *estimate, const OddWish *wish, OddUnit unit);
/* What is short, what would do, what the tub gives at most. @gsm: above 0: cloth is told by its weight. (transfer full) */
char *odd_estimate_dup_sentence (const OddEstimate *estimate, const OddWish *wish, double gsm, OddUnit unit);
/* (transfer full) (element-type OddFigure) */
GPtrArray *odd_estimate_dup_figures (const OddEstimate *estimate, const OddWish *wish, OddUnit unit);
/* "Cut 8.0 cm instead" (transfer full) */
char *odd_remedy_dup_label (const OddRemedy *remedy, OddJob *job, OddUnit unit);

G_END_DECLS
