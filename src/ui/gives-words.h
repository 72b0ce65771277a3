/* What scraps give, as a maker reads it. */
#pragma once

#include "cloth/length.h"
#include "piecing/gives.h"
#include "ui/figure-cells.h"

G_BEGIN_DECLS

/* All are (transfer full). "gives 4", of two sizes "gives 4 + 2", "gives 0": below a small picture, where room is short. */
char *odd_gives_dup_short (const OddGives *gives, const OddScrapGives *scrap);
/* "Gives 4 squares", "What is left gives 1 rectangle", "Gives 4 + 2 pieces". @scrap: NULL: nothing was left to count. */
char *odd_gives_dup_title (const OddGives *gives, const OddScrapGives *scrap);
/* "8.0 cm when sewn", of two sizes "4 cut 10.0 cm, 2 cut 6.0 × 8.0 cm" */
char *odd_gives_dup_subtitle (const OddGives *gives, const OddScrapGives *scrap, OddUnit unit);
/* "25 squares from 14 scraps; 22 give none" */
char *odd_gives_dup_sum (const OddGives *gives, const OddGivesSum *sum);
/* (element-type OddFigure); those of the yield where it was counted. */
GPtrArray *odd_gives_dup_figures (const OddGives *gives, const OddGivesSum *sum, OddUnit unit);

G_END_DECLS
