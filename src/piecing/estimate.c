#include "config.h"

#include "piecing/estimate.h"

#include <glib/gi18n.h>

#include "piecing/cut-plan.h"
#include "piecing/parallel.h"
#include "piecing/sources.h"

#define REACHED_MM 0.05            /* as in squares.c */
#define LEAST_MM 10.0
#define MOST_MM 100000.0
#define MOST_PATCHES 1e6
#define N_SPREAD 7                 /* sizes a side is spread over, by weight */

/* What columns show when the heap is used up, as a share of heap bound x root of heap bound (patches are smaller than scraps, and lose more to
 * the same allowance), and the mean finished patch as a share of the mean scrap; calm and lively, falling with the square of liveliness.
 * Measured by tests/bench/bench-estimate on the model heap, allowances 6 to 15 mm: within 5 %. */
#define CALM_SHARE 0.83
#define LIVELY_SHARE 0.72
#define CALM_PATCH 0.33
#define LIVELY_PATCH 0.23

typedef struct { double allowance_mm, mm2; } Eroded;
typedef struct { OddTemplate size; double allowance_mm, n; } Counted;

struct _OddTub
{
  gatomicrefcount ref_count;
  OddSources *sources;
  double *counts;                  /* how many such pieces there are; by piece */
  double n_scraps;
  double area_mm2;
  gboolean by_weight;
  GMutex mutex;                    /* for what follows */
  GArray *eroded;                  /* Eroded */
  GArray *counted;                 /* Counted */
};

/* --- the cloth --- */

static OddTub *
tub_new_take (OddSources *sources)
{
  OddTub *self = g_new0 (OddTub, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->sources = sources;
  self->counts = g_new (double, sources->pieces->len + 1);
  g_mutex_init (&self->mutex);
  self->eroded = g_array_new (FALSE, FALSE, sizeof (Eroded));
  self->counted = g_array_new (FALSE, FALSE, sizeof (Counted));
  return self;
}

OddTub *
odd_tub_new (OddJob      *job,
             const OddId *scrap_ids,
             guint        n_scrap_ids)
{
  OddProposalOptions options = { .scrap_ids = scrap_ids, .n_scrap_ids = n_scrap_ids };
  OddTub *self;

  g_return_val_if_fail (job != NULL, NULL);

  self = tub_new_take (odd_sources_new (job, &options));
  for (guint i = 0; i < self->sources->pieces->len; i++)
    self->counts[i] = 1.0;
  self->n_scraps = self->sources->scraps->len;
  self->area_mm2 = self->sources->area_mm2;
  return self;
}

static gboolean
check_figure (const char *what,
              double      value,
              double      least,
              double      most,
              const char *unit,
              GError    **error)
{
  if (isfinite (value) && value >= least && value <= most)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE, _("The %s is %g %s; it must be between %g and %g %s."), what, value, unit, least, most, unit);
  return FALSE;
}

OddTub *
odd_tub_new_by_weight (double   kg,
                       double   gsm,
                       double   scrap_width_mm,
                       double   scrap_length_mm,
                       GError **error)
{
  const OddSourceScrap scrap = { 0 };
  const OddSourceFabric fabric = { 0, { 50.0, 0.0, 0.0 } };
  OddSources *sources;
  OddTub *self;

  if (!check_figure (_("weight of the tub"), kg, 0.01, 10000.0, "kg", error) || !check_figure (_("weight of the cloth"), gsm, 5.0, 2000.0, "g/m²", error)
      || !check_figure (_("size of a scrap"), MIN (scrap_width_mm, scrap_length_mm), LEAST_MM, MOST_MM, "mm", error)
      || !check_figure (_("size of a scrap"), MAX (scrap_width_mm, scrap_length_mm), LEAST_MM, MOST_MM, "mm", error))
    return NULL;
  sources = g_new0 (OddSources, 1);
  sources->scraps = g_array_new (FALSE, FALSE, sizeof (OddSourceScrap));
  sources->fabrics = g_array_new (FALSE, FALSE, sizeof (OddSourceFabric));
  sources->pieces = odd_sources_pieces_new ();
  g_array_append_val (sources->scraps, scrap);
  g_array_append_val (sources->fabrics, fabric);
  for (guint i = 0; i < N_SPREAD * N_SPREAD; i++)
    {
      const double kx = 0.5 + (i % N_SPREAD + 0.5) / N_SPREAD;
      const double ky = 0.5 + (i / N_SPREAD + 0.5) / N_SPREAD;
      const OddSource source = {
        0,
        odd_polygon_new_box ((OddBox) { 0.0, 0.0, scrap_width_mm * kx, scrap_length_mm * ky }),
        odd_polygon_new_box ((OddBox) { 0.0, 0.0, scrap_width_mm * kx, scrap_length_mm * ky }),
      };

      g_array_append_val (sources->pieces, source);
    }
  self = tub_new_take (sources);
  self->by_weight = TRUE;
  self->area_mm2 = kg * 1000.0 / gsm * 1e6;
  self->n_scraps = self->area_mm2 / (scrap_width_mm * scrap_length_mm);   /* the spread's mean side is the side named */
  for (guint i = 0; i < N_SPREAD * N_SPREAD; i++)
    self->counts[i] = self->n_scraps / (N_SPREAD * N_SPREAD);
  return self;
}

OddTub *
odd_tub_ref (OddTub *self)
{
  g_atomic_ref_count_inc (&self->ref_count);
  return self;
}

void
odd_tub_unref (OddTub *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  odd_sources_free (self->sources);
  g_free (self->counts);
  g_mutex_clear (&self->mutex);
  g_array_unref (self->eroded);
  g_array_unref (self->counted);
  g_free (self);
}

double odd_tub_get_area_mm2 (const OddTub *self) { return self->area_mm2; }
double odd_tub_get_n_scraps (const OddTub *self) { return self->n_scraps; }
gboolean odd_tub_is_by_weight (const OddTub *self) { return self->by_weight; }

/* --- what is worked out of every scrap --- */

typedef struct
{
  OddTub *tub;
  OddTemplate size;
  double allowance_mm;
  double *out;                     /* by piece */
} Asking;

static void
erode_piece (guint    item,
             gpointer data)
{
  Asking *self = data;
  g_autoptr(GPtrArray) left = odd_polygon_shrink (odd_sources_piece (self->tub->sources, item)->piece, self->allowance_mm);

  self->out[item] = 0.0;
  for (guint i = 0; i < left->len; i++)
    self->out[item] += odd_polygon_get_area (left->pdata[i]);
}

static void
count_piece (guint    item,
             gpointer data)
{
  Asking *self = data;
  const OddSource *source = odd_sources_piece (self->tub->sources, item);
  const gboolean half = fabs (self->size.width_mm - self->size.length_mm) > ODD_TOLERANCE_MM;
  g_autoptr(GArray) turns = odd_scrap_allowed_turns (odd_sources_scrap_of (self->tub->sources, item), source->search, half);
  g_autoptr(OddCutPlan) plan = odd_cut_plan_new (source->search, (const double *) turns->data, turns->len, &self->size, 1, self->allowance_mm);

  self->out[item] = plan->pieces->len;
}

static gboolean
sum_pieces (Asking       *asking,
            OddItemFunc   func,
            double       *out,
            GCancellable *cancellable,
            GError      **error)
{
  const guint n = asking->tub->sources->pieces->len;
  g_autofree double *values = g_new0 (double, n + 1);
  double sum = 0.0;

  asking->out = values;
  if (!odd_for_each_item (n, 0, func, asking, cancellable, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    sum += values[i] * asking->tub->counts[i];
  *out = sum;
  return TRUE;
}

static gboolean
get_eroded (OddTub       *self,
            double        allowance_mm,
            double       *out,
            GCancellable *cancellable,
            GError      **error)
{
  Asking asking = { self, { 0.0, 0.0 }, allowance_mm, NULL };
  Eroded found = { allowance_mm, NAN };

  g_mutex_lock (&self->mutex);
  for (guint i = 0; i < self->eroded->len; i++)
    if (g_array_index (self->eroded, Eroded, i).allowance_mm == allowance_mm)
      found = g_array_index (self->eroded, Eroded, i);
  g_mutex_unlock (&self->mutex);
  if (isnan (found.mm2))
    {
      if (!sum_pieces (&asking, erode_piece, &found.mm2, cancellable, error))
        return FALSE;
      g_mutex_lock (&self->mutex);
      g_array_append_val (self->eroded, found);
      g_mutex_unlock (&self->mutex);
    }
  *out = found.mm2;
  return TRUE;
}

static gboolean
get_counted (OddTub       *self,
             OddTemplate   size,
             double        allowance_mm,
             double       *out,
             GCancellable *cancellable,
             GError      **error)
{
  Asking asking = { self, size, allowance_mm, NULL };
  Counted found = { size, allowance_mm, NAN };

  g_mutex_lock (&self->mutex);
  for (guint i = 0; i < self->counted->len; i++)
    {
      const Counted *counted = &g_array_index (self->counted, Counted, i);

      if (counted->size.width_mm == size.width_mm && counted->size.length_mm == size.length_mm && counted->allowance_mm == allowance_mm)
        found = *counted;
    }
  g_mutex_unlock (&self->mutex);
  if (isnan (found.n))
    {
      if (!sum_pieces (&asking, count_piece, &found.n, cancellable, error))
        return FALSE;
      g_mutex_lock (&self->mutex);
      g_array_append_val (self->counted, found);
      g_mutex_unlock (&self->mutex);
    }
  *out = found.n;
  return TRUE;
}

/* --- the answer --- */

static guint
count_to_reach (double total_mm,
                double each_mm)
{
  return (guint) MAX (1.0, ceil ((total_mm - REACHED_MM) / each_mm));
}

static double
mix (double calm,
     double lively,
     double liveliness)
{
  const double l = CLAMP (liveliness, 0.0, 1.0);

  return calm + (lively - calm) * l * l;
}

static gboolean
check_wish (const OddWish *wish,
            GError       **error)
{
  const double a2 = 2.0 * wish->allowance_mm;
  double patch_mm2 = LEAST_MM * LEAST_MM * 25.0;

  if (!check_figure (_("width"), wish->width_mm, LEAST_MM, MOST_MM, "mm", error) || !check_figure (_("length"), wish->length_mm, LEAST_MM, MOST_MM, "mm", error)
      || !check_figure (_("width of a panel"), wish->panel_width_mm, LEAST_MM, MOST_MM, "mm", error)
      || !check_figure (_("allowance"), wish->allowance_mm, 0.1, 200.0, "mm", error))
    return FALSE;
  if (wish->manner == ODD_PIECE_SQUARES)
    {
      if (!check_figure (_("cut size"), MIN (wish->size.width_mm, wish->size.length_mm), a2 + LEAST_MM, MOST_MM, "mm", error)
          || !check_figure (_("cut size"), MAX (wish->size.width_mm, wish->size.length_mm), a2 + LEAST_MM, MOST_MM, "mm", error))
        return FALSE;
      patch_mm2 = (wish->size.width_mm - a2) * (wish->size.length_mm - a2);
    }
  if (wish->width_mm * wish->length_mm / patch_mm2 <= MOST_PATCHES)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
               _("That would be about %.0f patches. Ask for less cloth or larger patches."), wish->width_mm * wish->length_mm / patch_mm2);
  return FALSE;
}

/* The same however it is made. */
static void
set_panels (OddEstimate   *out,
            const OddWish *wish,
            double         panel_width_mm,
            double         panel_length_mm)
{
  out->panel_width_mm = panel_width_mm;
  out->panel_length_mm = panel_length_mm;
  out->n_panels = count_to_reach (wish->width_mm, panel_width_mm);
  out->cut_width_mm = panel_width_mm + 2.0 * wish->allowance_mm;
  out->cut_length_mm = panel_length_mm + 2.0 * wish->allowance_mm;
  out->width_mm = out->n_panels * panel_width_mm;
  out->length_mm = panel_length_mm;
  out->wanted_mm2 = out->width_mm * out->length_mm;
  out->seams_mm = (out->n_panels - 1) * out->cut_length_mm;
}

/* In a row of n squares n - 1 seams as long as a cut square; between rows seams as long as a panel is wide, cut. */
static void
estimate_squares (OddEstimate   *out,
                  const OddWish *wish,
                  double         n_counted)
{
  const double width_mm = wish->size.width_mm - 2.0 * wish->allowance_mm;
  const double length_mm = wish->size.length_mm - 2.0 * wish->allowance_mm;
  const guint across = count_to_reach (wish->panel_width_mm, width_mm);
  const guint down = count_to_reach (wish->length_mm, length_mm);
  guint columns;

  set_panels (out, wish, across * width_mm, down * length_mm);
  columns = across * out->n_panels;
  out->n_patches = columns * down;
  out->seams_mm += out->n_panels * (down * (across - 1) * wish->size.length_mm + (down - 1) * out->cut_width_mm);
  out->own_bound = width_mm * length_mm / (wish->size.width_mm * wish->size.length_mm);
  out->n_gives = (guint) floor (n_counted + ODD_TOLERANCE_MM);
  out->gives_mm2 = out->n_gives * width_mm * length_mm;
  out->n_short = out->n_patches > out->n_gives ? out->n_patches - out->n_gives : 0;
  out->short_mm2 = out->n_short * width_mm * length_mm;
  out->longest_mm = (out->n_gives / columns) * length_mm;
  {
    const double scale = sqrt (out->gives_mm2 / out->wanted_mm2);
    const guint fewer = (guint) MAX (1.0, floor (columns * scale + ODD_TOLERANCE_MM));

    out->largest_length_mm = (out->n_gives / fewer) * length_mm;
    out->largest_width_mm = out->largest_length_mm > 0.0 ? fewer * width_mm : 0.0;
  }
}

/* As if all patches were squares of the mean size: patches in rows have about as much seam. */
static void
estimate_mixed (OddEstimate   *out,
                const OddWish *wish,
                const OddTub  *tub,
                double         eroded_mm2)
{
  const double patch_mm2 = MAX (mix (CALM_PATCH, LIVELY_PATCH, wish->liveliness) * tub->area_mm2 / MAX (tub->n_scraps, 1.0), LEAST_MM * LEAST_MM);
  double side_mm;

  set_panels (out, wish, wish->panel_width_mm, wish->length_mm);
  side_mm = MIN (sqrt (patch_mm2), MIN (out->panel_width_mm, out->panel_length_mm));
  out->n_patches = (guint) MAX (1.0, floor (out->wanted_mm2 / (side_mm * side_mm) + 0.5));
  {
    const double across = out->panel_width_mm / side_mm, down = out->panel_length_mm / side_mm;
    const double cut_mm = side_mm + 2.0 * wish->allowance_mm;

    out->seams_mm += out->n_panels * (down * MAX (across - 1.0, 0.0) * cut_mm + MAX (down - 1.0, 0.0) * out->cut_width_mm);
    out->own_bound = side_mm * side_mm / (cut_mm * cut_mm);
  }
  out->gives_mm2 = eroded_mm2 * sqrt (eroded_mm2 / tub->area_mm2) * mix (CALM_SHARE, LIVELY_SHARE, wish->liveliness);
  out->short_mm2 = MAX (out->wanted_mm2 - out->gives_mm2, 0.0);
  out->longest_mm = out->gives_mm2 / out->width_mm;
  {
    const double scale = sqrt (out->gives_mm2 / out->wanted_mm2);

    out->largest_width_mm = out->width_mm * scale;
    out->largest_length_mm = out->length_mm * scale;
  }
}

gboolean
odd_tub_estimate (OddTub        *self,
                  const OddWish *wish,
                  OddEstimate   *out,
                  GCancellable  *cancellable,
                  GError       **error)
{
  OddEstimate estimate = { 0 };
  double eroded_mm2, n_counted;

  g_return_val_if_fail (self != NULL && wish != NULL && out != NULL, FALSE);

  if (!check_wish (wish, error))
    return FALSE;
  if (self->sources->pieces->len == 0)
    {
      g_set_error_literal (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP, _("There is no free scrap yet. Add scraps, or weigh the tub."));
      return FALSE;
    }
  if (!get_eroded (self, wish->allowance_mm, &eroded_mm2, cancellable, error))
    return FALSE;
  if (wish->manner != ODD_PIECE_SQUARES)
    estimate_mixed (&estimate, wish, self, eroded_mm2);
  else if (get_counted (self, wish->size, wish->allowance_mm, &n_counted, cancellable, error))
    estimate_squares (&estimate, wish, n_counted);
  else
    return FALSE;
  estimate.heap_mm2 = self->area_mm2;
  estimate.heap_bound = self->area_mm2 > 0.0 ? eroded_mm2 / self->area_mm2 : 0.0;
  if (estimate.short_mm2 > 0.0)
    estimate.more_mm2 = estimate.gives_mm2 > 0.0 ? estimate.short_mm2 * self->area_mm2 / estimate.gives_mm2 : INFINITY;
  *out = estimate;
  return TRUE;
}

/* --- what would help --- */

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

/* Larger squares show more of the cloth, smaller ones use more scraps: the count decides. */
static void
try_sizes (OddTub        *self,
           const OddWish *wish,
           GArray        *out,
           GCancellable  *cancellable,
           GError       **error)
{
  const double ratio = wish->size.length_mm / wish->size.width_mm;

  for (double mm = ceil (wish->size.width_mm / 10.0 - 1.0) * 10.0; *error == NULL && MIN (mm, mm * ratio) >= 3.0 * wish->allowance_mm + LEAST_MM; mm -= 10.0)
    {
      OddRemedy remedy = { ODD_REMEDY_SIZE, *wish, 0 };

      remedy.wish.size = (OddTemplate) { mm, mm * ratio };
      if (!is_enough (self, &remedy.wish, cancellable, error))
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
  if (stopped == NULL)
    try_finishes (self, job, wish, remedies, cancellable, &stopped);
  if (stopped == NULL)
    return g_steal_pointer (&remedies);
  g_propagate_error (error, g_steal_pointer (&stopped));
  return NULL;
}
