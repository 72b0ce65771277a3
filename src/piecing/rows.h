/* Panels of straight rows while they are being composed, and as a tree. */
#pragma once

#include "piecing/sources.h"

G_BEGIN_DECLS

#define ODD_CELL_BARE G_MAXUINT

/* A rectangle of cloth as it lies in a scrap. */
typedef struct
{
  guint scrap;                /* in OddSources.scraps; ODD_CELL_BARE: none */
  double turn_deg;            /* about the scrap's origin */
  OddPoint at;                /* least corner of the cut rectangle in the turned frame, mm */
  double width_mm;            /* finished; the row has the height */
  guint kind;                 /* only cells of one kind may change places */
} OddCell;

typedef struct
{
  double height_mm;           /* finished */
  double from_mm;             /* x of the first cell's left side; what sticks out of the panel is trimmed */
  GArray *cells;              /* OddCell, from left to right */
} OddRow;

/* Rows from top to bottom. (element-type OddRow) */
GPtrArray *odd_rows_new (void);
OddRow *odd_rows_add (GPtrArray *rows, double height_mm);
double odd_rows_length (const GPtrArray *rows);

/*
 * odd_rows_build_panel:
 * @allowance_mm: of every seam and edge
 * @next_id: (inout): ids are taken from here on
 *
 * Returns: (transfer full): the panel, its length that of all rows together
 */
OddPanel *odd_rows_build_panel (const GPtrArray *rows, const OddSources *sources, double width_mm, double allowance_mm, const OddTreatment *treatment, OddId *next_id);

/* The same rows as a tree within @region, in the rows' frame: cells are clipped by it, and those of which nothing is left are left out. (transfer full);
 * NULL when nothing is left at all. */
OddNode *odd_rows_build_within (const GPtrArray *rows, const OddSources *sources, OddConvex *region, double allowance_mm, OddId *next_id);

/* Which cells of several panels of rows hung side by side touch: for the arrangement. */
typedef struct
{
  OddCell **cells;            /* n, by panel, row and place */
  OddPoint *middles;          /* n; over all panels, finished */
  guint *starts;              /* n + 1, into @neighbours */
  guint *neighbours;
  guint n;
} OddCellGraph;
OddCellGraph *odd_cell_graph_new (GPtrArray *const *panels, guint n_panels, double width_mm);
void odd_cell_graph_free (OddCellGraph *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddCellGraph, odd_cell_graph_free)

G_END_DECLS
