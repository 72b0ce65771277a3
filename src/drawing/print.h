/* Prints of cloth, drawn by our own code: one seamless tile of cloth with its print in true scale and its threads.
 *
 * The tile's y axis runs along the lengthwise grain. A tile is a whole number of repeats each way, so it can be laid edge to edge. */
#pragma once

#include "cloth/fabric.h"

G_BEGIN_DECLS

/* Length of the tile's side in mm: the least whole number of repeats that is long enough for slubs not to show as a pattern. */
double odd_print_tile_mm (const OddPrint *print);
/* Its side in px, a power of two so that it can be halved down to one px: about 5 px a mm, never more than 1024. */
guint odd_print_tile_px (const OddPrint *print);

/*
 * odd_print_render:
 * @pixels: (out) (array): side_px x side_px, native-endian 0xffRRGGBB (CAIRO_FORMAT_ARGB32, opaque), rows without padding
 * @side_px: at least 1
 * @threads: %FALSE leaves the threads out: inks only
 *
 * The same print gives the same pixels, whatever the thread.
 */
void odd_print_render (const OddPrint *print, guint32 *pixels, guint side_px, gboolean threads);

G_END_DECLS
