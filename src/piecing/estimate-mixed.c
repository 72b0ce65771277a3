/* Columns and crumbs: what proposals have shown on a model heap. */
#include "config.h"

#include "piecing/estimate-private.h"

/* What columns show when the heap is used up, as a share of heap bound x root of heap bound (patches are smaller than scraps, and lose more to
 * the same allowance), and the mean finished patch as a share of the mean scrap; calm and lively, falling with the square of liveliness.
 * Measured by tests/bench/bench-estimate on the model heap, allowances 6 to 15 mm: within 5 %. */
#define CALM_SHARE 0.83
#define LIVELY_SHARE 0.72
#define CALM_PATCH 0.33
#define LIVELY_PATCH 0.23

/* What crumbs show when a tenth more is asked for than there is, as a share of own bound x root of the share of the heap in which the middle of a
 * patch may lie; falling where patches are small beside scraps, for then more of it stays in offcuts. And the side of a mean patch: of the wanted
 * scale, grown with the square of liveliness, and never beyond about a mean scrap, for a patch that finds no cloth is parted. Fitted to proposals of
 * bench-estimate, allowances 6 to 15 mm, scales 60 to 130 mm, heaps 0.6 to 1.6 times as large: within 7 % in the mean, 14 % at worst. */
#define CRUMB_SHARE 1.1
#define CRUMB_SMALL 0.02
#define CALM_CRUMB 0.95
#define LIVELY_CRUMB 1.15
#define LARGEST_CRUMB 0.95

static double
mix (double calm,
     double lively,
     double liveliness)
{
  const double l = CLAMP (liveliness, 0.0, 1.0);

  return calm + (lively - calm) * l * l;
}

/* As if all patches were squares of the mean size: patches in rows have about as much seam. */
static void
set_patches (OddEstimate   *self,
             const OddWish *wish,
             double         side_mm)
{
  odd_estimate_set_panels (self, wish, wish->panel_width_mm, wish->length_mm);
  self->patch_mm = MIN (side_mm, MIN (self->panel_width_mm, self->panel_length_mm));
  self->n_patches = (guint) MAX (1.0, floor (self->wanted_mm2 / (self->patch_mm * self->patch_mm) + 0.5));
  {
    const double across = self->panel_width_mm / self->patch_mm, down = self->panel_length_mm / self->patch_mm;
    const double cut_mm = self->patch_mm + 2.0 * wish->allowance_mm;

    self->seams_mm += self->n_panels * (down * MAX (across - 1.0, 0.0) * cut_mm + MAX (down - 1.0, 0.0) * self->cut_width_mm);
    self->own_bound = self->patch_mm * self->patch_mm / (cut_mm * cut_mm);
  }
}

static void
set_gives (OddEstimate *self,
           double       gives_mm2)
{
  const double scale = sqrt (gives_mm2 / self->wanted_mm2);

  self->gives_mm2 = gives_mm2;
  self->short_mm2 = MAX (self->wanted_mm2 - gives_mm2, 0.0);
  self->longest_mm = gives_mm2 / self->width_mm;
  self->largest_width_mm = self->width_mm * scale;
  self->largest_length_mm = self->length_mm * scale;
}

void
odd_estimate_set_columns (OddEstimate   *self,
                          const OddWish *wish,
                          double         n_scraps)
{
  const double scrap_mm2 = self->heap_mm2 / MAX (n_scraps, 1.0);

  set_patches (self, wish, MAX (sqrt (mix (CALM_PATCH, LIVELY_PATCH, wish->liveliness) * scrap_mm2), ODD_ESTIMATE_LEAST_MM));
  set_gives (self, self->heap_mm2 * self->heap_bound * sqrt (self->heap_bound) * mix (CALM_SHARE, LIVELY_SHARE, wish->liveliness));
}

void
odd_estimate_set_crumbs (OddEstimate   *self,
                         const OddWish *wish,
                         double         n_scraps,
                         double         scale_mm,
                         double         takes_mm2)
{
  const double scrap_mm = sqrt (self->heap_mm2 / MAX (n_scraps, 1.0));
  const double wanted_mm = scale_mm * mix (CALM_CRUMB, LIVELY_CRUMB, wish->liveliness);
  const double side_mm = MAX (1.0 / hypot (1.0 / wanted_mm, 1.0 / (LARGEST_CRUMB * scrap_mm)), wish->smallest_mm);
  double share;

  set_patches (self, wish, side_mm);
  share = CRUMB_SHARE * self->own_bound * sqrt (takes_mm2 / self->heap_mm2) * exp (-CRUMB_SMALL * scrap_mm * scrap_mm / (side_mm * side_mm));
  set_gives (self, self->heap_mm2 * MIN (share, self->heap_bound));
}
