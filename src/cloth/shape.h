/* A cloth for one shape: a bare panel round any outline, say a pattern piece with what it needs round it. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

/*
 * odd_shape_new_round:
 * @outline: what is to be cut from the cloth; need not be convex
 * @margin_mm: finished cloth all round it
 *
 * The convex hull of the outline, pushed out by the margin. A curve has many corners and a seam edge wants few: edges whose loss adds the least
 * cloth are left out, their neighbours prolonged, until %ODD_SHAPE_CORNERS are left and while it costs next to nothing. The outline stays inside.
 *
 * Returns: (transfer full): its box at 0, 0; NULL with an error when it is too small or too large
 */
#define ODD_SHAPE_CORNERS 12
OddConvex *odd_shape_new_round (OddPolygon *outline, double margin_mm, GError **error);

/* A bare loose panel of this finished outline. */
OddJob *odd_job_add_shape (OddJob *self, const char *name, OddConvex *outline, const OddTreatment *treatment, OddId *out_panel_id, GError **error);

/* The one scrap of a list as an outline: how a shape comes in from a file. (transfer full); NULL with an error when there is none, or more than one. */
OddPolygon *odd_job_dup_only_outline (OddJob *list, GError **error);

G_END_DECLS
