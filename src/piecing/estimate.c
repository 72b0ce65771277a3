#include "config.h"

#include "piecing/estimate-private.h"

#include <glib/gi18n.h>

#include "piecing/parallel.h"
#include "piecing/propose-private.h"
#include "piecing/square-rows.h"

#define MOST_PATCHES 1e6
#define N_SPREAD 7                 /* sizes a side is spread over, by weight */

typedef struct { double depth_mm, mm2; } Eroded;

typedef struct
{
  OddTemplate templates[ODD_MAX_TEMPLATES];
  guint n_templates;
  double allowance_mm;
  guint n[ODD_MAX_TEMPLATES];
} Counted;

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
      || !check_figure (_("size of a scrap"), MIN (scrap_width_mm, scrap_length_mm), ODD_ESTIMATE_LEAST_MM, ODD_ESTIMATE_MOST_MM, "mm", error)
      || !check_figure (_("size of a scrap"), MAX (scrap_width_mm, scrap_length_mm), ODD_ESTIMATE_LEAST_MM, ODD_ESTIMATE_MOST_MM, "mm", error))
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
  double depth_mm;                 /* of the border, to erode */
  const OddWish *wish;             /* what to count */
  guint n;                         /* values a piece */
  double *out;                     /* by piece */
} Asking;

static void
erode_piece (guint    item,
             gpointer data)
{
  Asking *self = data;
  g_autoptr(GPtrArray) left = odd_polygon_shrink (odd_sources_piece (self->tub->sources, item)->piece, self->depth_mm);

  for (guint i = 0; i < left->len; i++)
    self->out[item] += odd_polygon_get_area (left->pdata[i]);
}

static void
count_piece (guint    item,
             gpointer data)
{
  Asking *self = data;
  const OddWish *wish = self->wish;
  g_autoptr(OddCutPlan) plan = odd_sources_plan_piece (self->tub->sources, item, wish->templates, wish->n_templates, wish->allowance_mm);

  for (guint i = 0; i < plan->pieces->len; i++)
    self->out[item * self->n + g_array_index (plan->pieces, OddPlanned, i).template]++;
}

/* What @func finds of every piece, as often as there are such pieces. */
static gboolean
sum_pieces (Asking       *asking,
            OddItemFunc   func,
            double       *out,
            GCancellable *cancellable,
            GError      **error)
{
  const guint n = asking->tub->sources->pieces->len;
  g_autofree double *values = g_new0 (double, n * asking->n + 1);

  asking->out = values;
  if (!odd_for_each_item (n, 0, func, asking, cancellable, error))
    return FALSE;
  for (guint k = 0; k < asking->n; k++)
    out[k] = 0.0;
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < asking->n; k++)
      out[k] += values[i * asking->n + k] * asking->tub->counts[i];
  return TRUE;
}

gboolean
odd_tub_get_eroded (OddTub       *self,
                    double        depth_mm,
                    double       *out_mm2,
                    GCancellable *cancellable,
                    GError      **error)
{
  Asking asking = { .tub = self, .depth_mm = depth_mm, .n = 1 };
  Eroded found = { depth_mm, NAN };

  g_mutex_lock (&self->mutex);
  for (guint i = 0; i < self->eroded->len; i++)
    if (g_array_index (self->eroded, Eroded, i).depth_mm == depth_mm)
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
  *out_mm2 = found.mm2;
  return TRUE;
}

static gboolean
is_count_of (const Counted *counted,
             const OddWish *wish)
{
  if (counted->n_templates != wish->n_templates || counted->allowance_mm != wish->allowance_mm)
    return FALSE;
  for (guint t = 0; t < wish->n_templates; t++)
    if (counted->templates[t].width_mm != wish->templates[t].width_mm || counted->templates[t].length_mm != wish->templates[t].length_mm)
      return FALSE;
  return TRUE;
}

static gboolean
find_counted (OddTub        *self,
              const OddWish *wish,
              Counted       *out)
{
  gboolean found = FALSE;

  g_mutex_lock (&self->mutex);
  for (guint i = 0; i < self->counted->len && !found; i++)
    {
      const Counted *counted = &g_array_index (self->counted, Counted, i);

      found = is_count_of (counted, wish);
      if (found)
        *out = *counted;
    }
  g_mutex_unlock (&self->mutex);
  return found;
}

gboolean
odd_tub_get_counted (OddTub        *self,
                     const OddWish *wish,
                     guint          out_n[ODD_MAX_TEMPLATES],
                     GCancellable  *cancellable,
                     GError       **error)
{
  Asking asking = { .tub = self, .wish = wish, .n = wish->n_templates };
  Counted counted = { .n_templates = wish->n_templates, .allowance_mm = wish->allowance_mm };
  double sums[ODD_MAX_TEMPLATES];

  if (!find_counted (self, wish, &counted))
    {
      if (!sum_pieces (&asking, count_piece, sums, cancellable, error))
        return FALSE;
      for (guint t = 0; t < wish->n_templates; t++)
        {
          counted.templates[t] = wish->templates[t];
          counted.n[t] = (guint) MIN (floor (sums[t] + ODD_TOLERANCE_MM), G_MAXINT);
        }
      g_mutex_lock (&self->mutex);
      g_array_append_val (self->counted, counted);
      g_mutex_unlock (&self->mutex);
    }
  for (guint t = 0; t < ODD_MAX_TEMPLATES; t++)
    out_n[t] = counted.n[t];
  return TRUE;
}

double
odd_tub_get_scale (const OddTub  *self,
                   const OddWish *wish)
{
  const double panel_mm2 = wish->panel_width_mm * wish->length_mm;

  return wish->scale_mm > 0.0 ? wish->scale_mm : odd_crumb_scale_by_tub (self->sources, panel_mm2, wish->allowance_mm, wish->smallest_mm);
}

/* --- the answer --- */

static gboolean
check_templates (const OddWish *wish,
                 GError       **error)
{
  if (wish->n_templates < 1 || wish->n_templates > ODD_MAX_TEMPLATES)
    {
      g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE, _("There are %u template sizes; choose one to %u."), wish->n_templates,
                   ODD_MAX_TEMPLATES);
      return FALSE;
    }
  for (guint t = 0; t < wish->n_templates; t++)
    if (!check_figure (_("cut size"), MIN (wish->templates[t].width_mm, wish->templates[t].length_mm), 2.0 * wish->allowance_mm + ODD_ESTIMATE_LEAST_MM,
                       ODD_ESTIMATE_MOST_MM, "mm", error) ||
        !check_figure (_("cut size"), MAX (wish->templates[t].width_mm, wish->templates[t].length_mm), ODD_ESTIMATE_LEAST_MM, ODD_ESTIMATE_MOST_MM, "mm",
                       error))
      return FALSE;
  return TRUE;
}

static gboolean
check_crumbs (const OddWish *wish,
              GError       **error)
{
  return check_figure (_("smallest side"), wish->smallest_mm, ODD_ESTIMATE_LEAST_MM, wish->panel_width_mm, "mm", error) &&
         (wish->scale_mm == 0.0 || check_figure (_("size of a middle patch"), wish->scale_mm, wish->smallest_mm, ODD_ESTIMATE_MOST_MM, "mm", error));
}

/* The least a patch can be. */
static double
patch_mm2 (const OddWish *wish)
{
  const double a2 = 2.0 * wish->allowance_mm;
  double least = INFINITY;

  if (wish->manner != ODD_PIECE_SQUARES)
    return wish->manner == ODD_PIECE_CRUMBS && wish->scale_mm > 0.0 ? wish->scale_mm * wish->scale_mm : 25.0 * ODD_ESTIMATE_LEAST_MM * ODD_ESTIMATE_LEAST_MM;
  for (guint t = 0; t < wish->n_templates; t++)
    least = MIN (least, (wish->templates[t].width_mm - a2) * (wish->templates[t].length_mm - a2));
  return least;
}

static gboolean
check_wish (const OddWish *wish,
            GError       **error)
{
  double n;

  if (!check_figure (_("width"), wish->width_mm, ODD_ESTIMATE_LEAST_MM, ODD_ESTIMATE_MOST_MM, "mm", error) ||
      !check_figure (_("length"), wish->length_mm, ODD_ESTIMATE_LEAST_MM, ODD_ESTIMATE_MOST_MM, "mm", error) ||
      !check_figure (_("width of a panel"), wish->panel_width_mm, ODD_ESTIMATE_LEAST_MM, ODD_ESTIMATE_MOST_MM, "mm", error) ||
      !check_figure (_("allowance"), wish->allowance_mm, 0.1, 200.0, "mm", error) ||
      (wish->manner == ODD_PIECE_SQUARES && !check_templates (wish, error)) || (wish->manner == ODD_PIECE_CRUMBS && !check_crumbs (wish, error)))
    return FALSE;
  n = wish->width_mm * wish->length_mm / patch_mm2 (wish);
  if (n <= MOST_PATCHES)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE, _("That would be about %.0f patches. Ask for less cloth or larger patches."), n);
  return FALSE;
}

void
odd_estimate_set_panels (OddEstimate   *self,
                         const OddWish *wish,
                         double         panel_width_mm,
                         double         panel_length_mm)
{
  self->panel_width_mm = panel_width_mm;
  self->panel_length_mm = panel_length_mm;
  self->n_panels = odd_square_rows_reach (wish->width_mm, panel_width_mm);
  self->cut_width_mm = panel_width_mm + 2.0 * wish->allowance_mm;
  self->cut_length_mm = panel_length_mm + 2.0 * wish->allowance_mm;
  self->width_mm = self->n_panels * panel_width_mm;
  self->length_mm = panel_length_mm;
  self->wanted_mm2 = self->width_mm * self->length_mm;
  self->seams_mm = (self->n_panels - 1) * self->cut_length_mm;
}

static gboolean
set_by_manner (OddTub        *self,
               const OddWish *wish,
               OddEstimate   *out,
               GCancellable  *cancellable,
               GError       **error)
{
  guint n_counted[ODD_MAX_TEMPLATES];
  double takes_mm2;

  switch (wish->manner)
    {
    case ODD_PIECE_SQUARES:
      if (!odd_tub_get_counted (self, wish, n_counted, cancellable, error))
        return FALSE;
      odd_estimate_set_squares (out, wish, n_counted);
      return TRUE;
    case ODD_PIECE_CRUMBS:
      if (!odd_tub_get_eroded (self, wish->allowance_mm + wish->smallest_mm / 2.0, &takes_mm2, cancellable, error))
        return FALSE;
      odd_estimate_set_crumbs (out, wish, self->n_scraps, odd_tub_get_scale (self, wish), takes_mm2);
      return TRUE;
    default:
      odd_estimate_set_columns (out, wish, self->n_scraps);
      return TRUE;
    }
}

gboolean
odd_tub_estimate (OddTub        *self,
                  const OddWish *wish,
                  OddEstimate   *out,
                  GCancellable  *cancellable,
                  GError       **error)
{
  OddEstimate estimate = { .heap_mm2 = self->area_mm2 };
  double eroded_mm2;

  g_return_val_if_fail (self != NULL && wish != NULL && out != NULL, FALSE);

  if (!check_wish (wish, error))
    return FALSE;
  if (self->sources->pieces->len == 0)
    {
      g_set_error_literal (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP, _("There is no free scrap yet. Add scraps, or weigh the tub."));
      return FALSE;
    }
  if (!odd_tub_get_eroded (self, wish->allowance_mm, &eroded_mm2, cancellable, error))
    return FALSE;
  estimate.heap_bound = self->area_mm2 > 0.0 ? eroded_mm2 / self->area_mm2 : 0.0;
  if (!set_by_manner (self, wish, &estimate, cancellable, error))
    return FALSE;
  if (estimate.short_mm2 > 0.0)
    estimate.more_mm2 = estimate.gives_mm2 > 0.0 ? estimate.short_mm2 * self->area_mm2 / estimate.gives_mm2 : INFINITY;
  *out = estimate;
  return TRUE;
}
