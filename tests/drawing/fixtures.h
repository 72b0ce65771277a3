/* Invented cloth that the tests and the contact sheet of the drawing room share. */
#pragma once

#include "cloth/layout.h"

extern const OddPrint sample_prints[];
extern const guint n_sample_prints;

/* Four panels of squares, of rectangles, of crumbs and an unfinished one, in every stage; one scrap a patch. (transfer full) */
OddJob *sample_job_new (void);
/* One panel of @columns x @rows squares of @side_mm, @n_done operations done on every seam. (transfer full) */
OddJob *sample_squares_new (guint columns, guint rows, double side_mm, guint n_done);
