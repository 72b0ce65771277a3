/* Pictures of scraps at one scale, drawn by a worker and kept. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"
#include "drawing/painter.h"

G_BEGIN_DECLS

#define ODD_TYPE_THUMBNAILS (odd_thumbnails_get_type ())
G_DECLARE_FINAL_TYPE (OddThumbnails, odd_thumbnails, ODD, THUMBNAILS, GObject)

/* Signal: ready (guint scrap id). */
OddThumbnails *odd_thumbnails_new (OddSwatches *swatches);
/* Setting another scale or scale factor forgets what there is. */
void odd_thumbnails_set_scale (OddThumbnails *self, double px_per_mm, int scale_factor);
double odd_thumbnails_get_px_per_mm (OddThumbnails *self);
/* (transfer none) (nullable): the picture if it is there; else it is asked for, and ready is emitted when it has come. */
GdkTexture *odd_thumbnails_get (OddThumbnails *self, OddJob *job, OddScrap *scrap);
/* Shared by all windows' pictures of one process; (transfer none). */
OddSwatches *odd_swatches_get_shared (void);
/* An opaque or premultiplied ARGB32 surface as a texture, without a copy. @surface: (transfer full) */
GdkTexture *odd_texture_new_for_surface (cairo_surface_t *surface);

G_END_DECLS
