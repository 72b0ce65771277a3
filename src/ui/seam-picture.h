/* A close look at one seam: the cloth on both sides of it, its mark, and the numbers of the patches. */
#pragma once

#include <gtk/gtk.h>
#include "drawing/painter.h"

G_BEGIN_DECLS

#define ODD_TYPE_SEAM_PICTURE (odd_seam_picture_get_type ())
G_DECLARE_FINAL_TYPE (OddSeamPicture, odd_seam_picture, ODD, SEAM_PICTURE, GtkWidget)

/* Properties, write only: wrong-side (gboolean: seen from behind, from the next call on), small (gboolean: 96 x 58 px). */
/* Drawn by a worker; what was shown before stays until it is done. @seam_id: seam of @layout, or a patch's id to look at, or 0: the whole panel. */
void odd_seam_picture_show (OddSeamPicture *self, OddJob *job, OddLayout *layout, OddTextileLayout *textile, OddId id);
/* A join: between two panels of the textile. */
void odd_seam_picture_show_join (OddSeamPicture *self, OddJob *job, OddTextileLayout *textile, guint join);

G_END_DECLS
