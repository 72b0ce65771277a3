/* Cloth inside a path: print or picture turned with placement and grain, or what a view shows in its place. */
#pragma once

#include "drawing/palette.h"

G_BEGIN_DECLS

/* Fills the current path and clears it. @scrap, @fabric: nullable: plain natural cloth. @flat: mean colour only. A pieced scrap is shown through:
 * its patches with their cloth, and unless @flat the ditches between them. */
void odd_cloth_fill (OddPalette *palette, cairo_t *cr, OddJob *job, OddScrap *scrap, OddFabric *fabric, const OddPlacement *placement, gboolean flat, const OddPaintOptions *options);

/* The way through a pieced scrap, see piece-painter.c: fills the current path and clears it. */
void odd_piece_fill (OddPalette *palette, cairo_t *cr, OddJob *job, OddScrap *scrap, const OddPlacement *placement, gboolean flat, const OddPaintOptions *options);

/* What the first wash does to the scrap's frame: cloth that is not washed yet counts at its size afterwards, and print, picture and zones
 * shrink with it, along and across the grain. @fabric: nullable. */
void odd_cloth_get_wash (OddScrap *scrap, OddFabric *fabric, cairo_matrix_t *out);

/* The ditch along the edges of a patch and the light on its rim, within the patch. @points: a convex positive ring.
 * @mirrored: x runs to the left on the screen. */
void odd_cloth_ditch (cairo_t *cr, const OddPoint *points, guint n, gboolean mirrored, const OddPaintOptions *options);

/* The shadow of cloth that lies on the table; the current path is kept. @in_hand: lifted off it. */
void odd_cloth_shadow (cairo_t *cr, gboolean in_hand);

G_END_DECLS
