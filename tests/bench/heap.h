/* A model heap of scraps for tests and benchmarks: the same seed gives the same heap. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

/*
 * Sizes are log-normal (median 140 mm, sigma 0.5 of the logarithm, kept within 50 .. 400), aspects 1 .. 2.5; 35 % near-rectangles, 25 %
 * triangles, 25 % odd quadrilaterals, 15 % L shapes, in any pose. Assumed, not measured on real heaps.
 */
OddPolygon *heap_polygon (GRand *rand);
/* A ragged outline of so many corners, about @size_mm across, some corners dented in. */
OddPolygon *heap_ragged_polygon (GRand *rand, guint n_corners, double size_mm);
OddScrap *heap_scrap (OddPolygon *outline);
/* @job with @n scraps of the model added. Takes the job's reference. */
OddJob *heap_add_scraps (OddJob *job, guint n, guint32 seed);

G_END_DECLS
