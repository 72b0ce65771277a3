/* What lists of scraps hold: a scrap with its cloth and state, as of one job. Immutable. */
#pragma once

#include <gio/gio.h>
#include "cloth/job.h"

G_BEGIN_DECLS

#define ODD_TYPE_SCRAP_ROW (odd_scrap_row_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapRow, odd_scrap_row, ODD, SCRAP_ROW, GObject)

OddScrapRow *odd_scrap_row_new (OddJob *job, OddScrap *scrap, OddScrapState state);
OddScrap *odd_scrap_row_get_scrap (OddScrapRow *self);         /* (transfer none) */
OddFabric *odd_scrap_row_get_fabric (OddScrapRow *self);       /* (transfer none) (nullable) */
OddScrapState odd_scrap_row_get_state (OddScrapRow *self);
const char *odd_scrap_row_get_cloth (OddScrapRow *self);       /* "Red check", "pieced, 3 fabrics" */
/* Does the row say what is so in this job? */
gboolean odd_scrap_row_is_true (OddScrapRow *self, OddJob *job, OddScrap *scrap, OddScrapState state);
/* Is there cloth of it to take: free, or placed with a usable piece left? */
gboolean odd_scrap_row_is_free (OddScrapRow *self);
/* Of the cloth there is to take: the whole scrap, or the largest piece left of it. */
double odd_scrap_row_get_area_mm2 (OddScrapRow *self);
OddBox odd_scrap_row_get_box (OddScrapRow *self);
double odd_scrap_row_get_lightness (OddScrapRow *self);        /* CIE L* */
/* "21 × 20 cm", the whole scrap: whole centimetres, as a label wants it. (transfer full) */
char *odd_scrap_row_dup_size (OddScrapRow *self, int unit);
/* "free", "offcut, free", "placed, 12 × 30 cm left", "cut out". (transfer full) */
char *odd_scrap_row_dup_state (OddScrapRow *self, int unit);
/* Does every word of @text stand in the scrap's number, fabric, place or note? Case does not matter. */
gboolean odd_scrap_row_matches (OddScrapRow *self, const char *text);

G_END_DECLS
