/* What the maker measured of a strip, a panel or a textile after sewing. Immutable, atomically reference counted.
 *
 * Lengths run down (y), widths across (x), as the thing hangs. Three of each: near one edge, in the middle, near the other.
 */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

typedef struct _OddMeasure OddMeasure;
struct _OddMeasure               /* read only */
{
  double lengths_mm[3];          /* near the left edge, in the middle, near the right edge; NAN: not measured */
  double widths_mm[3];           /* near the top, in the middle, near the bottom; NAN: not measured */
  double diagonals_mm[2];        /* from top left to bottom right, from top right to bottom left; NAN: not measured */
  gboolean seam_to_seam;         /* between the seams at the edges; else from raw edge to raw edge */
  double planned_width_mm, planned_length_mm;   /* raw, as planned when it was measured; 0: not known */
  double off_width_mm, off_length_mm;           /* taken off the part itself, as no seam across could have taken it */
};

/* Nothing measured. */
void odd_measure_init (OddMeasure *values);
/* A copy of @values, counted. */
OddMeasure *odd_measure_new (const OddMeasure *values);
OddMeasure *odd_measure_ref (OddMeasure *self);        /* NULL-safe */
void odd_measure_unref (OddMeasure *self);             /* NULL-safe */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddMeasure, odd_measure_unref)
gboolean odd_measure_is_empty (const OddMeasure *self);
gboolean odd_measure_equal (const OddMeasure *a, const OddMeasure *b);   /* NULL-safe; NAN equals NAN */

/* --- arithmetic of up to three measures --- */
typedef struct
{
  guint n;                       /* how many were measured */
  double mean_mm;                /* gives the loss; NAN when n is 0 */
  double least_mm;               /* gives the usable rectangle */
  double worst_mm;               /* farthest from the mean, with its sign */
  double bow_mm;                 /* middle less the mean of the two ends, NAN unless all three were measured */
} OddTriple;
OddTriple odd_triple_of (const double values_mm[3]);

/*
 * odd_out_of_square_mm:
 * @width_mm: the side that both diagonals start on
 *
 * How far one end lies beside the other: a parallelogram of base W, height L and lean s has the diagonals (W + s, L) and (W - s, L), so
 * d1² - d2² = 4 W s. Positive: leans to the right going down. Derived here.
 */
double odd_out_of_square_mm (double diagonal_1_mm, double diagonal_2_mm, double width_mm);

G_END_DECLS
