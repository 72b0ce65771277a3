/* Squares: counted, and shared among the rows as a proposal shares them. */
#include "config.h"

#include "piecing/estimate-private.h"
#include "piecing/square-rows.h"

#define MOST_ROWS 100000           /* looked at to find the longest; beyond them, as long as they reach */
#define ROWS_BACK 16               /* looked at one by one; beyond them in larger and larger steps */

static OddSquareGrid
grid_for (const OddWish *wish,
          double         width_mm,
          double         length_mm,
          guint          n_panels)
{
  const double a2 = 2.0 * wish->allowance_mm;
  OddSquareGrid grid = { .n_templates = wish->n_templates, .width_mm = width_mm, .length_mm = length_mm, .n_panels = n_panels };

  for (guint t = 0; t < wish->n_templates; t++)
    grid.finished[t] = (OddTemplate) { wish->templates[t].width_mm - a2, wish->templates[t].length_mm - a2 };
  return grid;
}

static double
area_of (const OddSquareGrid *grid,
         const guint         *n)
{
  double mm2 = 0.0;

  for (guint t = 0; t < grid->n_templates; t++)
    mm2 += n[t] * grid->finished[t].width_mm * grid->finished[t].length_mm;
  return mm2;
}

/* --- what is wanted --- */

typedef struct
{
  const OddWish *wish;
  const OddSquareGrid *grid;
  double *lengths_mm;              /* by panel */
  guint n[ODD_MAX_TEMPLATES];
  guint n_rows;
  double seams_mm;
  gboolean filled;
} Wanted;

/* In a row of n squares n - 1 seams as long as a cut square. */
static gboolean
want_row (const OddSquareRow *row,
          gpointer            data)
{
  Wanted *self = data;

  self->lengths_mm[row->panel] += self->grid->finished[row->template].length_mm;
  self->n[row->template] += row->across;
  self->n_rows++;
  self->seams_mm += (row->across - 1) * self->wish->templates[row->template].length_mm;
  self->filled = self->filled && row->filled;
  return TRUE;
}

static double
shortest (const double *lengths_mm,
          guint         n)
{
  double least = INFINITY;

  for (guint i = 0; i < n; i++)
    least = MIN (least, lengths_mm[i]);
  return least;
}

static gboolean
is_filled (const OddWish *wish,
           OddSquareGrid  grid,
           double         length_mm,
           const guint   *n_gives)
{
  g_autofree double *lengths_mm = g_new0 (double, grid.n_panels);
  Wanted wanted = { .wish = wish, .grid = &grid, .lengths_mm = lengths_mm, .filled = TRUE };

  grid.length_mm = length_mm;
  odd_square_rows_plan (&grid, n_gives, want_row, &wanted);
  return wanted.filled;
}

/* --- the longest --- */

typedef struct
{
  const OddSquareGrid *grid;
  double *lengths_mm;              /* by panel */
  GArray *reached;                 /* double: length of the shortest panel after each row over all panels */
  guint n_rows;
} Reaching;

static gboolean
reach_row (const OddSquareRow *row,
           gpointer            data)
{
  Reaching *self = data;

  if (!row->filled || self->n_rows++ >= MOST_ROWS)
    return FALSE;
  self->lengths_mm[row->panel] += self->grid->finished[row->template].length_mm;
  if (row->panel + 1 == self->grid->n_panels)
    {
      const double reached_mm = shortest (self->lengths_mm, self->grid->n_panels);

      g_array_append_val (self->reached, reached_mm);
    }
  return TRUE;
}

/* How long so many panels can be. Rows of several heights may be shared otherwise when all panels stop at one length: that is looked into. */
static double
find_longest (const OddWish *wish,
              OddSquareGrid  grid,
              const guint   *n_gives)
{
  g_autofree double *lengths_mm = g_new0 (double, grid.n_panels);
  g_autoptr(GArray) reached = g_array_new (FALSE, FALSE, sizeof (double));
  Reaching reaching = { &grid, lengths_mm, reached, 0 };

  if (wish->n_templates == 1)
    return (n_gives[0] / (grid.n_panels * odd_square_rows_reach (grid.width_mm, grid.finished[0].width_mm))) * grid.finished[0].length_mm;
  grid.length_mm = INFINITY;
  odd_square_rows_plan (&grid, n_gives, reach_row, &reaching);
  for (guint i = reached->len, step = 1, tries = 1; i >= step; tries++)
    {
      i -= step;
      if (is_filled (wish, grid, g_array_index (reached, double, i), n_gives))
        return g_array_index (reached, double, i);
      step = tries < ROWS_BACK ? 1 : 2 * step;
    }
  return 0.0;
}

/* The same in another width, of about the wanted proportion. Of one size squares are squares, however panels part them; else panels stay whole where
 * they can, for each trims its rows. */
static void
find_largest (OddEstimate         *self,
              const OddWish       *wish,
              const OddSquareGrid *grid)
{
  const double width_mm = grid->finished[0].width_mm;
  const guint across = odd_square_rows_reach (grid->width_mm, width_mm);
  const guint columns = (guint) MAX (1.0, floor (across * self->n_panels * sqrt (self->gives_mm2 / self->wanted_mm2) + ODD_TOLERANCE_MM));
  const gboolean whole = wish->n_templates > 1 && columns >= across;
  OddSquareGrid other = *grid;

  other.n_panels = whole ? columns / across : 1;
  other.width_mm = (whole ? across : columns) * width_mm;
  self->largest_length_mm = find_longest (wish, other, self->n_gives_of);
  self->largest_width_mm = self->largest_length_mm > 0.0 ? other.n_panels * other.width_mm : 0.0;
}

/* --- all of it --- */

static void
set_counts (OddEstimate         *self,
            const OddSquareGrid *grid,
            const Wanted        *wanted,
            const guint         *n_counted)
{
  for (guint t = 0; t < grid->n_templates; t++)
    {
      self->n_gives_of[t] = n_counted[t];
      self->n_wanted[t] = wanted->n[t];
      self->n_short_of[t] = wanted->n[t] > n_counted[t] ? wanted->n[t] - n_counted[t] : 0;
      self->n_gives += self->n_gives_of[t];
      self->n_patches += self->n_wanted[t];
      self->n_short += self->n_short_of[t];
    }
  self->gives_mm2 = area_of (grid, self->n_gives_of);
  self->short_mm2 = area_of (grid, self->n_short_of);
}

/* Of the wanted patches, trims at the sides left out. */
static double
own_bound (const OddWish       *wish,
           const OddSquareGrid *grid,
           const Wanted        *wanted)
{
  double cut_mm2 = 0.0;

  for (guint t = 0; t < wish->n_templates; t++)
    cut_mm2 += wanted->n[t] * wish->templates[t].width_mm * wish->templates[t].length_mm;
  return area_of (grid, wanted->n) / cut_mm2;
}

void
odd_estimate_set_squares (OddEstimate   *self,
                          const OddWish *wish,
                          const guint    n_counted[ODD_MAX_TEMPLATES])
{
  OddSquareGrid grid = grid_for (wish, 0.0, wish->length_mm, 0);
  g_autofree double *lengths_mm = NULL;
  Wanted wanted = { .wish = wish, .grid = &grid, .filled = TRUE };

  grid.width_mm = odd_square_rows_reach (wish->panel_width_mm, grid.finished[0].width_mm) * grid.finished[0].width_mm;
  grid.n_panels = odd_square_rows_reach (wish->width_mm, grid.width_mm);
  wanted.lengths_mm = lengths_mm = g_new0 (double, grid.n_panels);
  odd_square_rows_plan (&grid, n_counted, want_row, &wanted);

  odd_estimate_set_panels (self, wish, grid.width_mm, shortest (lengths_mm, grid.n_panels));
  set_counts (self, &grid, &wanted, n_counted);
  self->patch_mm = sqrt (grid.finished[0].width_mm * grid.finished[0].length_mm);
  /* between rows a seam as long as a panel is wide, cut */
  self->seams_mm += wanted.seams_mm + (wanted.n_rows - self->n_panels) * self->cut_width_mm;
  self->own_bound = own_bound (wish, &grid, &wanted);
  self->longest_mm = find_longest (wish, grid, self->n_gives_of);
  find_largest (self, wish, &grid);
}
