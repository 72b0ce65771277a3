#include "config.h"

#include "drawing/ink.h"
#include "drawing/painter-private.h"

void
odd_painter_init (OddPainter *self, cairo_t *cr, OddSwatches *swatches, OddJob *job, double width_mm, const OddPaintOptions *options)
{
  self->cr = cr;
  self->job = job;
  self->palette = odd_palette_new (swatches, options);
  self->options = options;
  self->mirrored = options->show == ODD_SHOW_WRONG_SIDE;
  self->px = options->mark_px / options->px_per_mm;
  self->clip = options->clip_mm;
  cairo_save (cr);
  if (!self->mirrored)
    return;
  cairo_translate (cr, width_mm, 0.0);
  cairo_scale (cr, -1.0, 1.0);
  if (!odd_box_is_empty (self->clip))
    self->clip.x = width_mm - self->clip.x - self->clip.width;
}

void
odd_painter_clear (OddPainter *self)
{
  cairo_restore (self->cr);
  odd_palette_free (self->palette);
}

OddPainter
odd_painter_enter (const OddPainter *self, OddPoint at)
{
  OddPainter part = *self;

  cairo_save (part.cr);
  cairo_translate (part.cr, at.x, at.y);
  part.clip.x -= at.x;
  part.clip.y -= at.y;
  return part;
}

void
odd_painter_leave (OddPainter *part)
{
  cairo_restore (part->cr);
}

gboolean
odd_painter_skips (const OddPainter *self, OddBox box)
{
  return !odd_box_is_empty (self->clip) && !odd_box_meets (self->clip, box);
}

/* --- level of detail --- */

/* Mean size of the patches first .. first + n, from the sums of the areas before each. */
static double
mean_size (const double *sums, guint first, guint n)
{
  return n > 0 ? sqrt ((sums[first + n] - sums[first]) / n) : 0.0;
}

static OddDetail
detail_for (const OddPainter *painter, double size_mm)
{
  return MIN (odd_detail_for_size (size_mm / painter->px), painter->options->most_detail);
}

void
odd_details_init (OddDetails *self, const OddLayout *layout, const OddPainter *painter)
{
  g_autofree double *sums = g_new (double, layout->n_patches + 1);

  self->patches = g_new (OddDetail, layout->n_patches + 1);
  self->seams = g_new (OddDetail, layout->n_seams + 1);
  sums[0] = 0.0;
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const double area = layout->patches[i].region != NULL ? odd_convex_area (layout->patches[i].region) : 0.0;

      sums[i + 1] = sums[i] + area;
      self->patches[i] = detail_for (painter, sqrt (area));
    }
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *seam = &layout->seams[i];
      const double first = mean_size (sums, seam->first_patch, seam->n_first), second = mean_size (sums, seam->second_patch, seam->n_second);

      self->seams[i] = detail_for (painter, MIN (first, second));
      if (painter->options->show == ODD_SHOW_SEAMS && self->seams[i] == ODD_DETAIL_DONE_OR_NOT)
        self->seams[i] = ODD_DETAIL_LINES;
    }
}

void
odd_details_clear (OddDetails *self)
{
  g_free (self->patches);
  g_free (self->seams);
}
