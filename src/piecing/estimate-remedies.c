/* What would make the tub enough. */
#include "config.h"

#include "piecing/estimate-private.h"

#define STEP_MM 10.0

static gboolean
is_enough (OddTub        *self,
           const OddWish *wish,
           GCancellable  *cancellable,
           GError       **error)
{
  g_autoptr(GError) refused = NULL;
  OddEstimate estimate;

  if (odd_tub_estimate (self, wish, &estimate, cancellable, &refused))
    return estimate.short_mm2 <= 0.0;
  if (g_error_matches (refused, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    g_propagate_error (error, g_steal_pointer (&refused));
  return FALSE;
}

/* Squares that show nothing to speak of are no help. */
static gboolean
is_worth_cutting (const OddWish *wish,
                  double         least_mm)
{
  return least_mm >= 3.0 * wish->allowance_mm + ODD_ESTIMATE_LEAST_MM;
}

static double
least_side (const OddWish *wish)
{
  double least_mm = INFINITY;

  for (guint t = 0; t < wish->n_templates; t++)
    least_mm = MIN (least_mm, MIN (wish->templates[t].width_mm, wish->templates[t].length_mm));
  return least_mm;
}

static double
whole_below (double mm)
{
  return ceil (mm / STEP_MM - 1.0) * STEP_MM;
}

/* Larger squares show more of the cloth, smaller ones use more scraps: the count decides. */
static void
try_sizes (OddTub        *self,
           const OddWish *wish,
           GArray        *out,
           GCancellable  *cancellable,
           GError       **error)
{
  for (double mm = whole_below (wish->templates[0].width_mm); *error == NULL && mm > 0.0; mm -= STEP_MM)
    {
      const double ratio = mm / wish->templates[0].width_mm;
      OddRemedy remedy = { ODD_REMEDY_SIZE, *wish, 0 };

      for (guint t = 0; t < wish->n_templates; t++)
        remedy.wish.templates[t] = (OddTemplate) { wish->templates[t].width_mm * ratio, wish->templates[t].length_mm * ratio };
      if (!is_worth_cutting (wish, least_side (&remedy.wish)))
        return;
      if (!is_enough (self, &remedy.wish, cancellable, error))
        continue;
      g_array_append_val (out, remedy);
      return;
    }
}

/* What is too small for the templates may take another. */
static void
try_another_size (OddTub        *self,
                  const OddWish *wish,
                  GArray        *out,
                  GCancellable  *cancellable,
                  GError       **error)
{
  OddRemedy remedy = { ODD_REMEDY_ANOTHER_SIZE, *wish, 0 };

  if (wish->n_templates == ODD_MAX_TEMPLATES)
    return;
  remedy.wish.n_templates++;
  for (double mm = whole_below (least_side (wish)); *error == NULL && is_worth_cutting (wish, mm); mm -= STEP_MM)
    {
      remedy.wish.templates[wish->n_templates] = (OddTemplate) { mm, mm };
      if (!is_enough (self, &remedy.wish, cancellable, error))
        continue;
      g_array_append_val (out, remedy);
      return;
    }
}

/* Larger patches show more of what is cut, smaller ones lie on more scraps: the nearest size that would do, of two as near the smaller. */
static void
try_scales (OddTub        *self,
            const OddWish *wish,
            GArray        *out,
            GCancellable  *cancellable,
            GError       **error)
{
  const double now_mm = odd_tub_get_scale (self, wish);
  const double most_mm = MIN (wish->panel_width_mm, wish->length_mm);

  for (guint i = 0; *error == NULL && i < 2 * (guint) (most_mm / STEP_MM + 1.0); i++)
    {
      const double step_mm = (i / 2) * STEP_MM;
      const double mm = i % 2 == 0 ? whole_below (now_mm) - step_mm : floor (now_mm / STEP_MM + 1.0) * STEP_MM + step_mm;
      OddRemedy remedy = { ODD_REMEDY_SCALE, *wish, 0 };

      remedy.wish.scale_mm = mm;
      if (mm < wish->smallest_mm || mm > most_mm || !is_enough (self, &remedy.wish, cancellable, error))
        continue;
      g_array_append_val (out, remedy);
      return;
    }
}

static void
try_finishes (OddTub        *self,
              OddJob        *job,
              const OddWish *wish,
              GArray        *out,
              GCancellable  *cancellable,
              GError       **error)
{
  OddRemedy best = { ODD_REMEDY_FINISH, *wish, 0 };

  best.wish.allowance_mm = 0.0;
  for (guint i = 0; *error == NULL && i < job->finishes->len; i++)
    {
      const OddFinish *finish = job->finishes->pdata[i];
      OddWish changed = *wish;

      changed.allowance_mm = finish->allowance_mm;
      if (finish->allowance_mm >= wish->allowance_mm || finish->allowance_mm <= best.wish.allowance_mm || !is_enough (self, &changed, cancellable, error))
        continue;
      best.wish = changed;
      best.finish_id = finish->id;
    }
  if (best.finish_id != 0)
    g_array_append_val (out, best);
}

GArray *
odd_tub_find_remedies (OddTub        *self,
                       OddJob        *job,
                       const OddWish *wish,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr(GArray) remedies = g_array_new (FALSE, FALSE, sizeof (OddRemedy));
  g_autoptr(GError) stopped = NULL;

  g_return_val_if_fail (self != NULL && job != NULL && wish != NULL, NULL);

  if (wish->manner == ODD_PIECE_SQUARES)
    try_sizes (self, wish, remedies, cancellable, &stopped);
  if (wish->manner == ODD_PIECE_SQUARES && stopped == NULL)
    try_another_size (self, wish, remedies, cancellable, &stopped);
  if (wish->manner == ODD_PIECE_CRUMBS)
    try_scales (self, wish, remedies, cancellable, &stopped);
  if (stopped == NULL)
    try_finishes (self, job, wish, remedies, cancellable, &stopped);
  if (stopped == NULL)
    return g_steal_pointer (&remedies);
  g_propagate_error (error, g_steal_pointer (&stopped));
  return NULL;
}
