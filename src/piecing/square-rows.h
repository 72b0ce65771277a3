/* Which template each row of squares is cut with: planned alike for a proposal and for an estimate. */
#pragma once

#include "piecing/proposal.h"

G_BEGIN_DECLS

#define ODD_REACHED_MM 0.05        /* a whole number of squares reaches a size within this */

typedef struct
{
  OddTemplate finished[ODD_MAX_TEMPLATES];
  guint n_templates;
  double width_mm, length_mm;      /* of each panel, finished; length: at least, may be INFINITY */
  guint n_panels;
} OddSquareGrid;

typedef struct
{
  guint panel, template;
  guint across;                    /* squares: as many as reach over the panel */
  gboolean filled;                 /* the supply has them */
} OddSquareRow;

/* FALSE: that is enough. */
typedef gboolean (*OddSquareRowFunc) (const OddSquareRow *row, gpointer data);

/* As many of @each_mm as reach @total_mm; at least one. */
guint odd_square_rows_reach (double total_mm, double each_mm);
/*
 * odd_square_rows_plan:
 * @supply: (array length=grid->n_templates): squares the cloth gives of each template
 *
 * Row by row over all panels, so that they share: each row of the template of which most is left, measured by what there was; of one that still
 * fills a row before one that does not. Of a template that no scrap gives there is no row, unless of the first.
 *
 * Returns: whether @func never called it enough
 */
gboolean odd_square_rows_plan (const OddSquareGrid *grid, const guint *supply, OddSquareRowFunc func, gpointer data);

G_END_DECLS
