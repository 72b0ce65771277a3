/* Shared by the files that work out an estimate. */
#pragma once

#include "piecing/estimate.h"

G_BEGIN_DECLS

#define ODD_ESTIMATE_LEAST_MM 10.0
#define ODD_ESTIMATE_MOST_MM 100000.0

/* Usable cloth at least so far from the border of its piece, mm2; worked out once for a depth. FALSE when cancelled. */
gboolean odd_tub_get_eroded (OddTub *self, double depth_mm, double *out_mm2, GCancellable *cancellable, GError **error);
/* How many of each of the wish's templates it gives, cut in one pass; worked out once for templates and allowance. FALSE when cancelled. */
gboolean odd_tub_get_counted (OddTub *self, const OddWish *wish, guint out_n[ODD_MAX_TEMPLATES], GCancellable *cancellable, GError **error);
/* Finished side of a middle patch of crumbs: as wanted, or as a proposal would have it from this tub. */
double odd_tub_get_scale (const OddTub *self, const OddWish *wish);

/* Number and sizes of panels, and the joins: the same however they are made. */
void odd_estimate_set_panels (OddEstimate *self, const OddWish *wish, double panel_width_mm, double panel_length_mm);
/* What the templates give, and what is wanted of each. */
void odd_estimate_set_squares (OddEstimate *self, const OddWish *wish, const guint n_counted[ODD_MAX_TEMPLATES]);
/* Columns; heap_mm2 and heap_bound are set. */
void odd_estimate_set_columns (OddEstimate *self, const OddWish *wish, double n_scraps);
/* Crumbs; heap_mm2 and heap_bound are set. @takes_mm2: cloth in which the middle of a patch may lie */
void odd_estimate_set_crumbs (OddEstimate *self, const OddWish *wish, double n_scraps, double scale_mm, double takes_mm2);

G_END_DECLS
