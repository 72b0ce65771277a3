/* The cloth patterns of one paint call: swatches looked up once, wrapped once for this thread, let go together. */
#pragma once

#include "drawing/swatch.h"

G_BEGIN_DECLS

typedef struct _OddPalette OddPalette;
OddPalette *odd_palette_new (OddSwatches *swatches, const OddPaintOptions *options);
void odd_palette_free (OddPalette *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddPalette, odd_palette_free)

/* Makes the print the source of @cr. @to_frame: print's mm to the frame of @cr. @print must live as long as the palette. */
void odd_palette_use_print (OddPalette *self, cairo_t *cr, const OddPrint *print, const cairo_matrix_t *to_frame);
/* Likewise a picture; @to_frame: its px to the frame. %FALSE, and no source set, when it cannot be shown. */
gboolean odd_palette_use_picture (OddPalette *self, cairo_t *cr, OddPicture *picture, const cairo_matrix_t *to_frame);
guint32 odd_palette_get_mean_colour (OddPalette *self, const OddPrint *print);

G_END_DECLS
