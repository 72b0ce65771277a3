#include "config.h"

#include "geometry/box-grid.h"

#define MOST_CELLS 16384           /* 256 kB: far above what a panel of a few hundred patches needs */

typedef struct { guint n, n_room; guint *ids; } Cell;
typedef struct { guint left, top, right, bottom; } Cells;

struct _OddBoxGrid
{
  OddPoint origin;
  double cell_mm;
  guint n_across, n_down;
  Cell *cells;
};

static guint
count_cells (double length_mm,
             double cell_mm)
{
  return (guint) CLAMP (ceil (length_mm / cell_mm), 1.0, MOST_CELLS);
}

OddBoxGrid *
odd_box_grid_new (OddBox all,
                  double cell_mm)
{
  OddBoxGrid *self = g_new0 (OddBoxGrid, 1);

  self->origin = odd_point (all.x, all.y);
  self->cell_mm = MAX (cell_mm, 1.0);
  while ((double) count_cells (all.width, self->cell_mm) * count_cells (all.height, self->cell_mm) > MOST_CELLS)
    self->cell_mm *= 1.25;
  self->n_across = count_cells (all.width, self->cell_mm);
  self->n_down = count_cells (all.height, self->cell_mm);
  self->cells = g_new0 (Cell, self->n_across * self->n_down);

  return self;
}

void
odd_box_grid_free (OddBoxGrid *self)
{
  for (guint i = 0; i < self->n_across * self->n_down; i++)
    g_free (self->cells[i].ids);
  g_free (self->cells);
  g_free (self);
}

/* What lies outside counts to the outermost cells. */
static guint
cell_at (const OddBoxGrid *self,
         double            away_mm,
         guint             n)
{
  return (guint) CLAMP (away_mm / self->cell_mm, 0.0, n - 1.0);
}

static Cells
cells_of (const OddBoxGrid *self,
          OddBox            box)
{
  /* the same sums as in odd_box_meets(), so that boxes that meet there have a cell in common here, to the last digit */
  const OddPoint from = odd_point_sub (odd_point (box.x, box.y), self->origin);
  const OddPoint to = odd_point_sub (odd_point (box.x + box.width, box.y + box.height), self->origin);

  return (Cells) { cell_at (self, from.x, self->n_across), cell_at (self, from.y, self->n_down),
                   cell_at (self, to.x, self->n_across), cell_at (self, to.y, self->n_down) };
}

static void
cell_add (Cell *cell,
          guint id)
{
  if (cell->n == cell->n_room)
    {
      cell->n_room = MAX (2 * cell->n_room, 4);
      cell->ids = g_renew (guint, cell->ids, cell->n_room);
    }
  cell->ids[cell->n++] = id;
}

static void
cell_remove (Cell *cell,
             guint id)
{
  for (guint i = 0; i < cell->n; i++)
    if (cell->ids[i] == id)
      {
        cell->ids[i] = cell->ids[--cell->n];
        return;
      }
  g_assert_not_reached ();
}

void
odd_box_grid_add (OddBoxGrid *self,
                  guint       id,
                  OddBox      box)
{
  const Cells at = cells_of (self, box);

  for (guint y = at.top; y <= at.bottom; y++)
    for (guint x = at.left; x <= at.right; x++)
      cell_add (&self->cells[y * self->n_across + x], id);
}

void
odd_box_grid_remove (OddBoxGrid *self,
                     guint       id,
                     OddBox      box)
{
  const Cells at = cells_of (self, box);

  for (guint y = at.top; y <= at.bottom; y++)
    for (guint x = at.left; x <= at.right; x++)
      cell_remove (&self->cells[y * self->n_across + x], id);
}

/* Few are found, and most of them in order: insertion beats qsort(). */
static void
insert (GArray *out,
        guint   id)
{
  guint at = out->len;

  while (at > 0 && g_array_index (out, guint, at - 1) > id)
    at--;
  if (at == 0 || g_array_index (out, guint, at - 1) != id)
    g_array_insert_val (out, at, id);
}

void
odd_box_grid_find (const OddBoxGrid *self,
                   OddBox            box,
                   GArray           *out)
{
  const Cells at = cells_of (self, box);

  g_array_set_size (out, 0);
  for (guint y = at.top; y <= at.bottom; y++)
    for (guint x = at.left; x <= at.right; x++)
      {
        const Cell *cell = &self->cells[y * self->n_across + x];

        for (guint i = 0; i < cell->n; i++)
          insert (out, cell->ids[i]);
      }
}
