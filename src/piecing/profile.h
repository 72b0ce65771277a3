/* What each piece of cloth can give to a row: for every row height the widest rectangle, and what it costs. */
#pragma once

#include "piecing/sources.h"

G_BEGIN_DECLS

typedef struct
{
  double width_mm;            /* finished; 0: none */
  double turn_deg;
  OddPoint at;                /* least corner of the cut rectangle in the turned frame of the scrap */
  double cost_mm2;            /* cloth gone: the piece less the offcuts that come back */
} OddFitting;

typedef struct
{
  const double *heights_mm;   /* (array length=n_heights): finished, ascending */
  guint n_heights;
  double allowance_mm;
  double smallest_mm;         /* finished width below which nothing is taken */
  double widest_mm;           /* finished width beyond which nothing is gained: the row itself */
  double usable_square_mm;    /* an offcut that holds it comes back */
} OddProfileOptions;

/*
 * odd_profile_piece:
 * @cap_mm: finished width at most taken from this piece, for the mix of sizes
 * @out: (array length=n_heights)
 *
 * Strip sets over all allowed turns; the lower side stands on a corner level, hangs from one, or lies at one of a few levels between.
 * Offcuts are counted as scissors part them, along the lines of the rectangle.
 */
void odd_profile_piece (const OddSourceScrap *scrap, const OddSource *source, double cap_mm, const OddProfileOptions *options, OddFitting *out);

/* The cut rectangle of a cell in the scrap's frame, its sides pushed out by @by_mm. */
OddConvex *odd_cut_rectangle (double turn_deg, OddPoint at, double width_mm, double height_mm, double by_mm);

/* Two cut shapes of one scrap, or a cut shape and the border, keep at least this apart, so that rounding cannot make them overlap. */
#define ODD_INSET_MM 1e-5

G_END_DECLS
