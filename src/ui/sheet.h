/* What a tile is painted from: one panel, or one joined textile, with all that its look depends on. Immutable, atomically counted. */
#pragma once

#include "drawing/painter.h"
#include "ui/tiles.h"

G_BEGIN_DECLS

typedef struct _OddSheet OddSheet;

/* @layout: one panel apart, in its layout's frame; or else @textile joined, with its target, in the textile's frame; the other is %NULL.
 * @options: what its show, colours and high contrast say; zoom and clip are the tile's. */
OddSheet *odd_sheet_new (OddJob *job, OddLayout *layout, OddTextileLayout *textile, OddSwatches *swatches, const OddPaintOptions *options);
OddSheet *odd_sheet_ref (OddSheet *self);
void odd_sheet_unref (OddSheet *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSheet, odd_sheet_unref)

/* Raw cloth, and the target where joined; mm. */
OddBox odd_sheet_get_box (OddSheet *self);
/*
 * What differs from an earlier sheet of the same panel or textile. (transfer full) (element-type OddBox): empty when it looks
 * the same, as it does when the layouts are the same pointers; %NULL when all may differ.
 */
GArray *odd_sheet_compare (OddSheet *self, OddSheet *before);

/* For odd_tiles_new(). */
extern const OddTileContent odd_sheet_tile_content;

G_END_DECLS
