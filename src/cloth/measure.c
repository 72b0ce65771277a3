#include "config.h"

#include "cloth/measure.h"

void
odd_measure_init (OddMeasure *values)
{
  *values = (OddMeasure) { { NAN, NAN, NAN }, { NAN, NAN, NAN }, { NAN, NAN }, FALSE, 0.0, 0.0, 0.0, 0.0 };
}

OddMeasure *
odd_measure_new (const OddMeasure *values)
{
  OddMeasure *self = g_atomic_rc_box_new (OddMeasure);

  *self = *values;
  return self;
}

OddMeasure *
odd_measure_ref (OddMeasure *self)
{
  return self != NULL ? g_atomic_rc_box_acquire (self) : NULL;
}

void
odd_measure_unref (OddMeasure *self)
{
  if (self != NULL)
    g_atomic_rc_box_release (self);
}

static gboolean
all_nan (const double *values,
         guint         n)
{
  for (guint i = 0; i < n; i++)
    if (!isnan (values[i]))
      return FALSE;
  return TRUE;
}

gboolean
odd_measure_is_empty (const OddMeasure *self)
{
  return all_nan (self->lengths_mm, 3) && all_nan (self->widths_mm, 3) && all_nan (self->diagonals_mm, 2);
}

static gboolean
values_equal (const double *a,
              const double *b,
              guint         n)
{
  for (guint i = 0; i < n; i++)
    if (!(a[i] == b[i] || (isnan (a[i]) && isnan (b[i]))))
      return FALSE;
  return TRUE;
}

gboolean
odd_measure_equal (const OddMeasure *a,
                   const OddMeasure *b)
{
  if (a == NULL || b == NULL || a == b)
    return a == b;
  return values_equal (a->lengths_mm, b->lengths_mm, 3) && values_equal (a->widths_mm, b->widths_mm, 3) &&
         values_equal (a->diagonals_mm, b->diagonals_mm, 2) && a->seam_to_seam == b->seam_to_seam &&
         a->planned_width_mm == b->planned_width_mm && a->planned_length_mm == b->planned_length_mm &&
         a->off_width_mm == b->off_width_mm && a->off_length_mm == b->off_length_mm;
}

OddTriple
odd_triple_of (const double values_mm[3])
{
  OddTriple spread = { 0, NAN, NAN, NAN, NAN };
  double sum = 0.0;

  for (guint i = 0; i < 3; i++)
    if (!isnan (values_mm[i]))
      {
        spread.least_mm = spread.n == 0 ? values_mm[i] : MIN (spread.least_mm, values_mm[i]);
        sum += values_mm[i];
        spread.n++;
      }
  if (spread.n == 0)
    return spread;
  spread.mean_mm = sum / spread.n;
  spread.worst_mm = 0.0;
  for (guint i = 0; i < 3; i++)
    if (!isnan (values_mm[i]) && fabs (values_mm[i] - spread.mean_mm) > fabs (spread.worst_mm))
      spread.worst_mm = values_mm[i] - spread.mean_mm;
  if (spread.n == 3)
    spread.bow_mm = values_mm[1] - (values_mm[0] + values_mm[2]) / 2.0;
  return spread;
}

double
odd_out_of_square_mm (double diagonal_1_mm,
                      double diagonal_2_mm,
                      double width_mm)
{
  return (diagonal_1_mm * diagonal_1_mm - diagonal_2_mm * diagonal_2_mm) / (4.0 * width_mm);
}
