/* What makes a flat print look like cloth: threads, slubs, dyed and mixed yarns, all seamless over one tile. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  ODD_THREADS_EVEN,            /* a plain weave of even yarn */
  ODD_THREADS_TWILL,           /* the weave runs in slanting lines */
  ODD_THREADS_SLUBBED,         /* thick and thin yarn, as in linen */
  ODD_THREADS_TWO_COLOURED,    /* warp of one colour, weft of another */
  ODD_THREADS_TIED             /* yarn tied and dyed before weaving: motifs with feathered edges */
} OddThreads;

/* All take a square tile of opaque 0xffRRGGBB, @side_px on a side. Equal @seed: equal yarns. */
void odd_threads_weave (guint32 *pixels, guint side_px, double side_mm, OddThreads threads, guint32 seed);
void odd_threads_cross (guint32 *pixels, guint side_px, double side_mm, const guint32 colours[2], guint32 seed);
void odd_threads_tie_diamonds (guint32 *pixels, guint side_px, guint n_repeats, const guint32 colours[4]);

G_END_DECLS
