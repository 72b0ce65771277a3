#include "config.h"

#include "drawing/palette.h"

struct _OddPalette
{
  OddSwatches *swatches;
  double px_per_mm;
  gboolean wrong_side;
  GHashTable *found;          /* print or picture, by address -> OddSwatch or NULL */
  GHashTable *surfaces;       /* pixels of a level, by address -> cairo_surface_t */
};

static void
swatch_unref_nullable (gpointer swatch)
{
  if (swatch != NULL)
    odd_swatch_unref (swatch);
}

OddPalette *
odd_palette_new (OddSwatches *swatches, const OddPaintOptions *options)
{
  OddPalette *self = g_new0 (OddPalette, 1);

  self->swatches = odd_swatches_ref (swatches);
  self->px_per_mm = options->px_per_mm;
  self->wrong_side = options->show == ODD_SHOW_WRONG_SIDE;
  self->found = g_hash_table_new_full (NULL, NULL, NULL, swatch_unref_nullable);
  self->surfaces = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) cairo_surface_destroy);
  return self;
}

void
odd_palette_free (OddPalette *self)
{
  g_hash_table_unref (self->surfaces);
  g_hash_table_unref (self->found);
  odd_swatches_unref (self->swatches);
  g_free (self);
}

static OddSwatch *
find_print (OddPalette *self, const OddPrint *print)
{
  OddSwatch *swatch = g_hash_table_lookup (self->found, print);

  if (swatch == NULL)
    {
      swatch = odd_swatches_dup_print (self->swatches, print, self->wrong_side);
      g_hash_table_insert (self->found, (gpointer) print, swatch);
    }
  return swatch;
}

static OddSwatch *
find_picture (OddPalette *self, OddPicture *picture)
{
  gpointer swatch;

  if (!g_hash_table_lookup_extended (self->found, picture, NULL, &swatch))
    {
      swatch = odd_swatches_dup_picture (self->swatches, picture, self->wrong_side);
      g_hash_table_insert (self->found, picture, swatch);
    }
  return swatch;
}

static cairo_surface_t *
find_surface (OddPalette *self, OddSwatch *swatch, guint level)
{
  gpointer pixels = swatch->levels[level].pixels;
  cairo_surface_t *surface = g_hash_table_lookup (self->surfaces, pixels);

  if (surface == NULL)
    {
      surface = odd_swatch_wrap (swatch, level);
      g_hash_table_insert (self->surfaces, pixels, surface);
    }
  return surface;
}

static void
use_swatch (OddPalette *self, cairo_t *cr, OddSwatch *swatch, const cairo_matrix_t *to_frame)
{
  const double mm_per_unit = hypot (to_frame->xx, to_frame->yx);
  const guint level = odd_swatch_choose_level (swatch, self->px_per_mm * mm_per_unit);
  const OddSwatchLevel *l = &swatch->levels[level];
  cairo_pattern_t *pattern = cairo_pattern_create_for_surface (find_surface (self, swatch, level));
  cairo_matrix_t matrix;

  cairo_matrix_init_scale (&matrix, swatch->unit_width / l->width_px, swatch->unit_height / l->height_px);
  cairo_matrix_multiply (&matrix, &matrix, to_frame);
  if (cairo_matrix_invert (&matrix) == CAIRO_STATUS_SUCCESS)
    cairo_pattern_set_matrix (pattern, &matrix);
  /* the level fits the zoom already: cairo's own default would average again, three times slower */
  cairo_pattern_set_filter (pattern, CAIRO_FILTER_BILINEAR);
  cairo_pattern_set_extend (pattern, swatch->repeats ? CAIRO_EXTEND_REPEAT : CAIRO_EXTEND_PAD);
  cairo_set_source (cr, pattern);
  cairo_pattern_destroy (pattern);
}

void
odd_palette_use_print (OddPalette *self, cairo_t *cr, const OddPrint *print, const cairo_matrix_t *to_frame)
{
  use_swatch (self, cr, find_print (self, print), to_frame);
}

gboolean
odd_palette_use_picture (OddPalette *self, cairo_t *cr, OddPicture *picture, const cairo_matrix_t *to_frame)
{
  OddSwatch *swatch = find_picture (self, picture);

  if (swatch == NULL)
    return FALSE;
  use_swatch (self, cr, swatch, to_frame);
  return TRUE;
}

guint32
odd_palette_get_mean_colour (OddPalette *self, const OddPrint *print)
{
  return find_print (self, print)->mean_colour;
}
