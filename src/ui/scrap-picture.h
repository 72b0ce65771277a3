/* A scrap's picture at the scale of its thumbnails; a dashed outline while it is in the hand. */
#pragma once

#include "ui/thumbnails.h"

G_BEGIN_DECLS

#define ODD_TYPE_SCRAP_PICTURE (odd_scrap_picture_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapPicture, odd_scrap_picture, ODD, SCRAP_PICTURE, GtkWidget)

/* All may be NULL: then nothing is shown. */
void odd_scrap_picture_show (OddScrapPicture *self, OddThumbnails *thumbnails, OddJob *job, OddScrap *scrap);
void odd_scrap_picture_set_in_hand (OddScrapPicture *self, gboolean in_hand);
/* What a drag shows; NULL until it has been drawn. (transfer none) */
GdkTexture *odd_scrap_picture_get_texture (OddScrapPicture *self);

G_END_DECLS
