#include "config.h"

#include "piecing/arrange.h"
#include "piecing/look.h"

#include <stdlib.h>

#define CONTACT_WEIGHT 3.0
#define LINED_UP_MM 15.0           /* seams of neighbouring rows nearer than this look like a mistake, and lie lump on lump */
#define LINED_UP_WEIGHT 1.0
#define LIGHTNESS_SCALE 6.0        /* L* by which three rows may stray to cost as much as LIGHTNESS_WEIGHT */
#define LIGHTNESS_WEIGHT 0.3
#define TOUCH_MM 0.5
#define MOVES_A_PATCH 1000
#define LEAST_MOVES 30000
#define HOTTEST 1.0
#define COLDEST 0.02

typedef struct
{
  OddRow *row;
  double lightness;                /* mean by width */
  double energy;                   /* within the row */
} Line;

typedef struct
{
  Line *lines;
  guint n;                         /* all */
  guint n_movable;                 /* the first of them */
  double *pairs;                   /* energy of each line with the next */
  double stray;                    /* of lightness, all lines */
  double side;                     /* with the column on its right */
} Column;

typedef struct
{
  Column *columns;
  guint n;
  const OddSources *sources;
  const float *costs;
  guint n_fabrics;
  const double *wanted;            /* L* by hundredths of the length */
  double length_mm;
} Look;

#define N_WANTED 101

static double
contact (const Look    *self,
         const OddCell *a,
         const OddCell *b)
{
  const OddSourceScrap *scraps = (const OddSourceScrap *) self->sources->scraps->data;

  if (a->scrap == ODD_CELL_BARE || b->scrap == ODD_CELL_BARE)
    return 0.0;

  return CONTACT_WEIGHT * self->costs[scraps[a->scrap].fabric * self->n_fabrics + scraps[b->scrap].fabric];
}

static double
row_energy (const Look   *self,
            const OddRow *row)
{
  const OddCell *cells = (const OddCell *) row->cells->data;
  double energy = 0.0;

  for (guint i = 0; i + 1 < row->cells->len; i++)
    energy += contact (self, &cells[i], &cells[i + 1]);

  return energy;
}

/* Two rows, one on the other: from left to right, always past the cell that ends first. */
static double
pair_energy (const Look   *self,
             const OddRow *upper,
             const OddRow *lower)
{
  const OddCell *up = (const OddCell *) upper->cells->data;
  const OddCell *low = (const OddCell *) lower->cells->data;
  guint i = 0, k = 0;
  double left = 0.0;
  double up_end = up[0].width_mm, low_end = low[0].width_mm;
  double energy = 0.0;

  for (;;)
    {
      const double end = MIN (up_end, low_end);

      if (end - left > TOUCH_MM)
        energy += contact (self, &up[i], &low[k]);
      left = end;
      if (i + 1 == upper->cells->len && k + 1 == lower->cells->len)
        return energy;
      if (i + 1 < upper->cells->len && k + 1 < lower->cells->len && fabs (up_end - low_end) < LINED_UP_MM)
        energy += LINED_UP_WEIGHT;
      if (k + 1 == lower->cells->len || (i + 1 < upper->cells->len && up_end <= low_end))
        up_end += up[++i].width_mm;
      else
        low_end += low[++k].width_mm;
    }
}

static double
stray_energy (const Look *self,
              double      lightness,
              double      at_mm)
{
  const guint at = (guint) CLAMP (at_mm / self->length_mm * (N_WANTED - 1), 0.0, N_WANTED - 1.0);
  const double away = (lightness - self->wanted[at]) / LIGHTNESS_SCALE;

  return LIGHTNESS_WEIGHT * away * away;
}

static double
stray_of (const Look   *self,
          const Column *column)
{
  double energy = 0.0;
  double y = 0.0;

  for (guint i = 0; i < column->n; i++)
    {
      const Line *line = &column->lines[i];

      if (i > 0 && i + 1 < column->n)
        energy += stray_energy (self, (line[-1].lightness + line->lightness + line[1].lightness) / 3.0, y + line->row->height_mm / 2.0);
      y += line->row->height_mm;
    }

  return energy;
}

/* Patches on the two sides of a join. */
static double
side_of (const Look *self,
         guint       left)
{
  const Column *one = &self->columns[left];
  const Column *two = one + 1;
  guint i = 0, k = 0;
  double y = 0.0, energy = 0.0;
  double one_end, two_end;

  if (left + 1 >= self->n || one->n == 0 || two->n == 0)
    return 0.0;
  one_end = one->lines[0].row->height_mm;
  two_end = two->lines[0].row->height_mm;
  for (;;)
    {
      const GArray *cells = one->lines[i].row->cells;
      const double end = MIN (one_end, two_end);

      if (end - y > TOUCH_MM)
        energy += contact (self, &g_array_index (cells, OddCell, cells->len - 1), &g_array_index (two->lines[k].row->cells, OddCell, 0));
      y = end;
      if (one_end <= two_end)
        {
          if (++i == one->n)
            return energy;
          one_end += one->lines[i].row->height_mm;
        }
      else
        {
          if (++k == two->n)
            return energy;
          two_end += two->lines[k].row->height_mm;
        }
    }
}

/* --- moves --- */

typedef enum { MOVE_ROWS, MOVE_PATCHES, MOVE_TURN_ROW } MoveKind;

typedef struct
{
  MoveKind kind;
  guint column, other;             /* columns */
  guint a, b;                      /* rows; patches of row @a: @i, @k */
  guint i, k;
} Move;

static void
swap_lines (Line *a,
            Line *b)
{
  const Line held = *a;

  *a = *b;
  *b = held;
}

static void
swap_cells (GArray *cells,
            guint   i,
            guint   k)
{
  const OddCell held = g_array_index (cells, OddCell, i);

  g_array_index (cells, OddCell, i) = g_array_index (cells, OddCell, k);
  g_array_index (cells, OddCell, k) = held;
}

/* Each move is its own way back. */
static void
apply (Look       *self,
       const Move *move)
{
  Line *line = &self->columns[move->column].lines[move->a];
  GArray *cells = line->row->cells;

  if (move->kind == MOVE_ROWS)
    swap_lines (line, &self->columns[move->other].lines[move->b]);
  else if (move->kind == MOVE_PATCHES)
    swap_cells (cells, move->i, move->k);
  else
    for (guint i = 0; i < cells->len / 2; i++)
      swap_cells (cells, i, cells->len - 1 - i);
}

static gboolean
choose_move (const Look *self,
             OddRandom  *random,
             Move       *move)
{
  const guint dice = odd_random_below (random, 8);
  const Column *column, *other;
  const GArray *cells;

  move->kind = dice < 3 ? MOVE_ROWS : dice < 6 ? MOVE_PATCHES : MOVE_TURN_ROW;
  move->column = move->other = odd_random_below (random, self->n);
  if (move->kind == MOVE_ROWS && dice == 0)
    move->other = odd_random_below (random, self->n);
  column = &self->columns[move->column];
  other = &self->columns[move->other];
  if (column->n_movable == 0 || other->n_movable == 0)
    return FALSE;

  move->a = odd_random_below (random, column->n_movable);
  cells = column->lines[move->a].row->cells;
  if (move->kind == MOVE_TURN_ROW)
    return cells->len > 1;
  if (move->kind == MOVE_PATCHES)
    {
      move->i = odd_random_below (random, cells->len);
      move->k = odd_random_below (random, cells->len);
      return move->i != move->k;
    }
  move->b = odd_random_below (random, other->n_movable);
  if (move->column != move->other)
    return fabs (column->lines[move->a].row->height_mm - other->lines[move->b].row->height_mm) <= ODD_TOLERANCE_MM;

  return move->a != move->b;
}

/* Each takes the new value for the old and returns the change; twice is as good as once. */
static double
update (double *value,
        double  now)
{
  const double change = now - *value;

  *value = now;

  return change;
}

static double
update_row (const Look *self,
            Line       *line)
{
  return update (&line->energy, row_energy (self, line->row));
}

/* The line with the ones above and below. */
static double
update_pairs (const Look *self,
              Column     *column,
              guint       i)
{
  double change = 0.0;

  if (i > 0)
    change += update (&column->pairs[i - 1], pair_energy (self, column->lines[i - 1].row, column->lines[i].row));
  if (i + 1 < column->n)
    change += update (&column->pairs[i], pair_energy (self, column->lines[i].row, column->lines[i + 1].row));

  return change;
}

static double
update_sides (const Look *self,
              guint       c)
{
  double change = update (&self->columns[c].side, side_of (self, c));

  if (c > 0)
    change += update (&self->columns[c - 1].side, side_of (self, c - 1));

  return change;
}

static double
refresh (Look       *self,
         const Move *move)
{
  Column *column = &self->columns[move->column];
  Column *other = &self->columns[move->other];
  double change = update_pairs (self, column, move->a) + update_sides (self, move->column);

  if (move->kind != MOVE_ROWS)
    return change + update_row (self, &column->lines[move->a]);
  change += update_pairs (self, other, move->b) + update (&column->stray, stray_of (self, column));
  if (column != other)
    change += update (&other->stray, stray_of (self, other)) + update_sides (self, move->other);

  return change;
}

static void
try_move (Look      *self,
          double     heat,
          OddRandom *random)
{
  Move move = { 0 };
  const gboolean possible = choose_move (self, random, &move);
  const double chance = odd_random_unit (random);
  double change;

  if (!possible)
    return;
  apply (self, &move);
  change = refresh (self, &move);
  if (change <= 0.0 || chance < exp (-change / heat))
    return;
  apply (self, &move);
  refresh (self, &move);
}

/* --- set up --- */

static gboolean
is_bare (const OddRow *row)
{
  for (guint i = 0; i < row->cells->len; i++)
    if (g_array_index (row->cells, OddCell, i).scrap == ODD_CELL_BARE)
      return TRUE;

  return FALSE;
}

static double
row_lightness (const Look   *self,
               const OddRow *row,
               double        otherwise)
{
  double sum = 0.0, width_mm = 0.0;

  for (guint i = 0; i < row->cells->len; i++)
    {
      const OddCell *cell = &g_array_index (row->cells, OddCell, i);
      guint fabric;

      if (cell->scrap == ODD_CELL_BARE)
        continue;
      fabric = g_array_index (self->sources->scraps, OddSourceScrap, cell->scrap).fabric;
      sum += cell->width_mm * g_array_index (self->sources->fabrics, OddSourceFabric, fabric).colour.l;
      width_mm += cell->width_mm;
    }

  return width_mm > 0.0 ? sum / width_mm : otherwise;
}

static int
compare_doubles (const void *a,
                 const void *b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Even: the mean all along. Graded: as if all rows were sorted. */
static double *
wanted_course (const Look *self,
               OddSpread   spread)
{
  g_autoptr(GArray) rows = g_array_new (FALSE, FALSE, sizeof (double));
  double *wanted = g_new0 (double, N_WANTED);
  double mean = 0.0;

  for (guint c = 0; c < self->n; c++)
    for (guint i = 0; i < self->columns[c].n_movable; i++)
      g_array_append_val (rows, self->columns[c].lines[i].lightness);
  if (rows->len == 0)
    return wanted;
  qsort (rows->data, rows->len, sizeof (double), compare_doubles);
  for (guint i = 0; i < rows->len; i++)
    mean += g_array_index (rows, double, i) / rows->len;
  for (guint i = 0; i < N_WANTED; i++)
    {
      const guint rank = (guint) ((double) i / (N_WANTED - 1) * (rows->len - 1) + 0.5);

      wanted[i] = spread == ODD_SPREAD_EVEN ? mean
                  : g_array_index (rows, double, spread == ODD_SPREAD_DARK_TOP ? rank : rows->len - 1 - rank);
    }

  return wanted;
}

static guint
set_column (Look      *self,
            guint      c,
            GPtrArray *rows)
{
  Column *column = &self->columns[c];
  guint n_patches = 0;

  column->n = rows->len;
  column->lines = g_new (Line, MAX (rows->len, 1));
  column->pairs = g_new0 (double, MAX (rows->len, 1));
  for (guint i = 0; i < rows->len; i++)
    {
      column->lines[i] = (Line) { rows->pdata[i], row_lightness (self, rows->pdata[i], 50.0), 0.0 };
      if (column->n_movable == i && !is_bare (rows->pdata[i]))
        column->n_movable++;
      n_patches += column->lines[i].row->cells->len;
    }
  self->length_mm = MAX (self->length_mm, odd_rows_length (rows));

  return n_patches;
}

static void
measure_column (const Look *self,
                guint       c)
{
  Column *column = &self->columns[c];

  for (guint i = 0; i < column->n; i++)
    {
      update_row (self, &column->lines[i]);
      update_pairs (self, column, i);
    }
  column->stray = stray_of (self, column);
  column->side = side_of (self, c);
}

static gboolean
anneal (Look              *self,
        const OddSchedule *schedule,
        OddRandom         *random,
        GCancellable      *cancellable,
        GError           **error)
{
  guint64 move = 0;

  for (double done = 0.0; done < 1.0; done = odd_schedule_done (schedule, move))
    {
      const double heat = HOTTEST * pow (COLDEST / HOTTEST, done);

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      for (guint i = 0; i < ODD_SCHEDULE_EVERY; i++, move++)
        try_move (self, heat, random);
    }

  return TRUE;
}

gboolean
odd_look_improve (GPtrArray *const *panels,
                  guint             n_panels,
                  double            width_mm,
                  const OddSources *sources,
                  OddSpread         spread,
                  OddSchedule       schedule,
                  OddRandom        *random,
                  GCancellable     *cancellable,
                  GError          **error)
{
  g_autofree float *costs = odd_contact_costs (sources);
  g_autofree Column *columns = g_new0 (Column, n_panels);
  g_autofree double *wanted = NULL;
  Look self = { columns, n_panels, sources, costs, sources->fabrics->len, NULL, 0.0 };
  guint n_patches = 0;
  gboolean done;

  for (guint c = 0; c < n_panels; c++)
    n_patches += set_column (&self, c, panels[c]);
  self.wanted = wanted = wanted_course (&self, spread);
  for (guint c = 0; c < n_panels; c++)
    measure_column (&self, c);

  if (schedule.moves == 0)
    schedule.moves = MAX (LEAST_MOVES, (guint64) n_patches * MOVES_A_PATCH);
  done = anneal (&self, &schedule, random, cancellable, error);

  for (guint c = 0; c < n_panels; c++)
    {
      for (guint i = 0; i < columns[c].n; i++)
        panels[c]->pdata[i] = columns[c].lines[i].row;
      g_free (columns[c].lines);
      g_free (columns[c].pairs);
    }

  return done;
}
