/* Swatches: what a cloth looks like, in pixels, at every size. Made once, then read by all threads.
 *
 * A swatch is never changed once it is handed out. Cairo's surfaces are not safe to share between threads, so each painter wraps
 * the pixels in surfaces of its own (odd_swatch_wrap()) and keeps them for as long as it paints. */
#pragma once

#include "cloth/job.h"
#include "drawing/painter.h"

G_BEGIN_DECLS

#define ODD_SWATCH_MAX_LEVELS 13

typedef struct
{
  guint32 *pixels;           /* native-endian premultiplied ARGB, rows without padding */
  guint width_px, height_px;
} OddSwatchLevel;

typedef struct _OddSwatch OddSwatch;
struct _OddSwatch            /* read only; atomically reference counted */
{
  double px_per_unit;        /* px of level 0 in a mm of the print, or 1 for a picture whose unit is its own px */
  double unit_width, unit_height;      /* of the whole swatch */
  gboolean repeats;          /* laid edge to edge; else its border goes on */
  guint n_levels;            /* each half as large as the one before, the last one px */
  OddSwatchLevel levels[ODD_SWATCH_MAX_LEVELS];
  guint32 mean_colour;       /* 0xRRGGBB */
};

OddSwatch *odd_swatch_ref (OddSwatch *self);
void odd_swatch_unref (OddSwatch *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSwatch, odd_swatch_unref)

/* (transfer full). @wrong_side: paler and greyer, as a print looks from behind. */
OddSwatch *odd_swatches_dup_print (OddSwatches *self, const OddPrint *print, gboolean wrong_side);
/* (transfer full) (nullable): %NULL when the picture is missing or cannot be read. */
OddSwatch *odd_swatches_dup_picture (OddSwatches *self, OddPicture *picture, gboolean wrong_side);

/* The level that is neither finer than needed nor coarser than seen, for so many device px to a unit. */
guint odd_swatch_choose_level (const OddSwatch *self, double px_per_unit);
/* (transfer full) A surface over a level's pixels that keeps the swatch alive; for one thread. */
cairo_surface_t *odd_swatch_wrap (OddSwatch *self, guint level);

G_END_DECLS
