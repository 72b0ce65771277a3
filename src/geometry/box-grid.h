/* Which of many boxes lie near: a uniform grid of cells, each with the numbers of the boxes that meet it. */
#pragma once

#include "geometry/point.h"

G_BEGIN_DECLS

typedef struct _OddBoxGrid OddBoxGrid;

/* @all: about where the boxes will be; what lies outside is found all the same, only more slowly. @cell_mm: about as large as a box. */
OddBoxGrid *odd_box_grid_new (OddBox all, double cell_mm);
void odd_box_grid_free (OddBoxGrid *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddBoxGrid, odd_box_grid_free)

void odd_box_grid_add (OddBoxGrid *self, guint id, OddBox box);
/* With the box that it was added with. */
void odd_box_grid_remove (OddBoxGrid *self, guint id, OddBox box);
/* All that may meet the box, and maybe some that do not, into @out (guint), which is emptied first: each once, the lowest number first. */
void odd_box_grid_find (const OddBoxGrid *self, OddBox box, GArray *out);

G_END_DECLS
