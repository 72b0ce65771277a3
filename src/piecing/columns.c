/* Columns: rows of rectangles, each row covered at the least cost in cloth.
 *
 *      +-------+-----------+-----+
 *      |   a   |     b     |  c  |   row 1     One row height after another is tried; a 0/1 dynamic programme picks the
 *      +-------+--+--------+-----+             pieces whose widths cover the row at the least cloth. The height of the best
 *      |    d     |      e       |   row 2     yield wins. What reaches beyond is trimmed from the widest patch, and offcuts
 *      +----------+--------------+             return to the tub at once.
 *
 * All columns grow together, the shortest next, so that none gets only what the others left. Tried and dropped: greedy from the
 * largest (4 to 10 points less yield); matching scraps to a layout drawn beforehand (15 points less).
 */
#include "config.h"

#include "cloth/offcuts.h"
#include "piecing/look.h"
#include "piecing/parallel.h"
#include "piecing/profile.h"
#include "piecing/propose-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "geometry/inscribed.h"

#define HEIGHT_STEP_MM 10.0
#define MAX_HEIGHTS 64
#define WIDTH_STEP_MM 5.0          /* widths are rounded down to it while rows are sought */
#define ROW_NOISE 0.25             /* at full liveliness: how far chance may shift the yield by which rows are chosen */
#define CROWDED 0.8                /* a row in which one fabric must touch itself is as good as one of so much of its yield */
#define LEAST_CAP_MM 55.0          /* at full liveliness no piece is taken wider than chance says between these */
#define MOST_CAP_MM 160.0
#define WANTED 0.3                 /* cloth of a fabric of which there should be more counts so much of its cost */
#define CLEARANCE_MM 1e-3          /* between a cut shape and what comes back; no saw is as thin */

typedef struct
{
  OddProposing *proposing;
  OddSources *sources;
  OddProfileOptions profile;
  double heights_mm[MAX_HEIGHTS];
  GArray *fittings;                /* OddFitting, n_heights a piece */
  GArray *is_free;                 /* guint8, by piece */
  guint n_states;                  /* width steps of a row, and 0 */
  guint8 *taken;                   /* room to work in: item x state */
  double *costs;
  double *shares;                  /* by fabric: finished area at most, mm2 */
  double *least;                   /* at least, mm2 */
  double *fabric_mm2;              /* and as it is now */
  gboolean uncapped;               /* the mix of sizes is given up: with it no row could be covered any more */
  OddRandom random;
} Filler;

typedef struct
{
  GArray *pieces;                  /* guint */
  guint h;                         /* profile height */
  double height_mm;
  double score;
} Row;

static OddFitting *
fitting_of (const Filler *self,
            guint         piece,
            guint         h)
{
  return &g_array_index (self->fittings, OddFitting, piece * self->profile.n_heights + h);
}

/* --- profiles --- */

static double
cap_of (const Filler *self,
        guint         scrap)
{
  const OddProposalOptions *options = self->proposing->options;
  OddRandom random = odd_random_stream (options->seed, scrap + 1);

  if (options->liveliness <= 0.0 || self->uncapped)
    return INFINITY;

  return MAX (odd_random_range (&random, LEAST_CAP_MM, MOST_CAP_MM) / options->liveliness, options->smallest_mm);
}

static void
profile_cb (guint    item,
            gpointer data)
{
  Filler *self = data;

  odd_profile_piece (odd_sources_scrap_of (self->sources, item), odd_sources_piece (self->sources, item),
                     cap_of (self, odd_sources_piece (self->sources, item)->scrap), &self->profile, fitting_of (self, item, 0));
}

static void
make_room (Filler *self)
{
  const guint8 yes = TRUE;

  g_array_set_size (self->fittings, self->sources->pieces->len * self->profile.n_heights);
  while (self->is_free->len < self->sources->pieces->len)
    g_array_append_val (self->is_free, yes);
}

static void
set_heights (Filler *self)
{
  const OddProposalOptions *options = self->proposing->options;
  guint n = 0;

  for (double h = options->row_least_mm; n < MAX_HEIGHTS && h < options->row_most_mm + HEIGHT_STEP_MM / 2.0; h += HEIGHT_STEP_MM)
    self->heights_mm[n++] = h;
  self->profile = (OddProfileOptions) {
    self->heights_mm, n, self->proposing->allowance_mm, options->smallest_mm, options->width_mm,
    self->proposing->job->settings.usable_square_mm,
  };
}

/* --- one row --- */

static double
cost_of (const Filler *self,
         guint         piece,
         guint         h)
{
  const guint fabric = odd_sources_scrap_of (self->sources, piece)->fabric;

  return fitting_of (self, piece, h)->cost_mm2 * (self->fabric_mm2[fabric] < self->least[fabric] ? WANTED : 1.0);
}

/* Least cloth that covers the row with free pieces of profile height @h; INFINITY when nothing does. What was taken for it stays in self->taken. */
static double
cover (Filler *self,
       guint   h,
       GArray *items)
{
  const guint n_states = self->n_states;
  double *costs = self->costs;

  costs[0] = 0.0;
  for (guint s = 1; s < n_states; s++)
    costs[s] = INFINITY;
  memset (self->taken, 0, (gsize) items->len * n_states);
  for (guint i = 0; i < items->len; i++)
    {
      const OddFitting *fitting = fitting_of (self, g_array_index (items, guint, i), h);
      const guint width = MAX (1, (guint) (fitting->width_mm / WIDTH_STEP_MM));
      const double own = cost_of (self, g_array_index (items, guint, i), h);
      guint8 *taken = self->taken + (gsize) i * n_states;

      for (guint s = n_states - 1; s > 0; s--)
        {
          const double cost = costs[s > width ? s - width : 0] + own;

          if (cost < costs[s])
            {
              costs[s] = cost;
              taken[s] = TRUE;
            }
        }
    }

  return costs[n_states - 1];
}

/* So that no fabric gets more than is wanted, but for what one row brings at once. */
static gboolean
has_share_left (const Filler *self,
                guint         piece)
{
  const guint fabric = odd_sources_scrap_of (self->sources, piece)->fabric;

  return self->fabric_mm2[fabric] < self->shares[fabric];
}

static void
count_shares (Filler       *self,
              const OddRow *row)
{
  for (guint i = 0; i < row->cells->len; i++)
    {
      const OddCell *cell = &g_array_index (row->cells, OddCell, i);

      self->fabric_mm2[g_array_index (self->sources->scraps, OddSourceScrap, cell->scrap).fabric] += cell->width_mm * row->height_mm;
    }
}

static GArray *
items_of_height (const Filler *self,
                 guint         h)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < self->is_free->len; i++)
    if (g_array_index (self->is_free, guint8, i) && fitting_of (self, i, h)->width_mm > 0.0 && has_share_left (self, i))
      g_array_append_val (items, i);

  return items;
}

static GArray *
read_cover (const Filler *self,
            const GArray *items,
            guint         h)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (guint));
  guint s = self->n_states - 1;

  for (guint i = items->len; i-- > 0 && s > 0;)
    if (self->taken[(gsize) i * self->n_states + s])
      {
        const guint piece = g_array_index (items, guint, i);
        const guint width = MAX (1, (guint) (fitting_of (self, piece, h)->width_mm / WIDTH_STEP_MM));

        g_array_append_val (pieces, piece);
        s = s > width ? s - width : 0;
      }

  return pieces;
}

/* Finished height of a row cut at profile height @h where @rest_mm is left; 0: not with this one. */
static double
row_height (const Filler *self,
            guint         h,
            double        rest_mm)
{
  const double height_mm = self->heights_mm[h];

  if (height_mm >= rest_mm - ODD_TOLERANCE_MM)
    return h == 0 || self->heights_mm[h - 1] < rest_mm - ODD_TOLERANCE_MM ? rest_mm : 0.0;

  return rest_mm - height_mm >= self->heights_mm[0] - ODD_TOLERANCE_MM ? height_mm : 0.0;
}

/* Of one fabric there is more than can lie apart in the row. */
static gboolean
is_crowded (const Filler *self,
            const GArray *pieces)
{
  for (guint i = 0; i < pieces->len; i++)
    {
      const guint fabric = odd_sources_scrap_of (self->sources, g_array_index (pieces, guint, i))->fabric;
      guint n = 0;

      for (guint k = 0; k < pieces->len; k++)
        n += odd_sources_scrap_of (self->sources, g_array_index (pieces, guint, k))->fabric == fabric;
      if (n > (pieces->len + 1) / 2)
        return TRUE;
    }

  return FALSE;
}

static gboolean
choose_row (Filler *self,
            double  rest_mm,
            Row    *out)
{
  const OddProposalOptions *options = self->proposing->options;
  const double noise = ROW_NOISE * options->liveliness;

  *out = (Row) { NULL };
  for (guint h = 0; h < self->profile.n_heights; h++)
    {
      const double height_mm = row_height (self, h, rest_mm);
      g_autoptr(GArray) items = NULL;
      g_autoptr(GArray) pieces = NULL;
      double cost_mm2, score;

      if (height_mm <= 0.0)
        continue;
      items = items_of_height (self, h);
      self->taken = g_realloc (self->taken, (gsize) (items->len + 1) * self->n_states);
      cost_mm2 = cover (self, h, items);
      score = options->width_mm * height_mm / cost_mm2 * (1.0 + noise * (odd_random_unit (&self->random) - 0.5));
      if (!isfinite (cost_mm2) || score <= out->score)
        continue;
      pieces = read_cover (self, items, h);
      if (is_crowded (self, pieces))
        score *= CROWDED;
      if (score <= out->score)
        continue;
      g_clear_pointer (&out->pieces, g_array_unref);
      *out = (Row) { g_steal_pointer (&pieces), h, height_mm, score };
    }

  return out->pieces != NULL;
}

/* A few large scraps cannot cover a row while each gives a narrow piece only. */
static gboolean
choose_row_uncapped (Filler *self,
                     double  rest_mm,
                     Row    *out)
{
  if (self->uncapped || self->proposing->options->liveliness <= 0.0)
    return FALSE;
  self->uncapped = TRUE;
  for (guint i = 0; i < self->is_free->len; i++)
    if (g_array_index (self->is_free, guint8, i))
      profile_cb (i, self);

  return choose_row (self, rest_mm, out);
}

/* Takes what reaches beyond the row from the widest, as long as it is wide. */
static void
trim_cells (const Filler *self,
            GArray       *cells)
{
  double beyond_mm = -self->proposing->options->width_mm;

  for (guint i = 0; i < cells->len; i++)
    beyond_mm += g_array_index (cells, OddCell, i).width_mm;
  while (beyond_mm > 0.0)
    {
      OddCell *widest = &g_array_index (cells, OddCell, 0);
      double least_mm = self->profile.smallest_mm;
      double by_mm;

      for (guint i = 1; i < cells->len; i++)
        if (g_array_index (cells, OddCell, i).width_mm > widest->width_mm)
          widest = &g_array_index (cells, OddCell, i);
      if (widest->width_mm <= least_mm)
        least_mm = 0.0;
      by_mm = MIN (beyond_mm, widest->width_mm - least_mm);
      widest->width_mm -= by_mm;
      beyond_mm -= by_mm;
    }
}

/* What the patch leaves of its piece goes back into the tub. */
static void
return_offcuts (Filler        *self,
                guint          piece,
                const OddCell *cell,
                double         height_mm)
{
  const double allowances_mm = 2.0 * self->proposing->allowance_mm;
  g_autoptr(OddConvex) rectangle = odd_cut_rectangle (cell->turn_deg, cell->at, cell->width_mm + allowances_mm, height_mm + allowances_mm, CLEARANCE_MM);
  g_autoptr(GPtrArray) left = odd_polygon_difference_convex (odd_sources_piece (self->sources, piece)->piece, rectangle);
  const guint first = self->sources->pieces->len;

  for (guint i = 0; i < left->len; i++)
    if (odd_piece_holds_square (left->pdata[i], self->profile.usable_square_mm))
      odd_sources_add_piece (self->sources, cell->scrap, odd_polygon_ref (left->pdata[i]));
  make_room (self);
  for (guint i = first; i < self->sources->pieces->len; i++)
    profile_cb (i, self);
}

static void
add_row (Filler    *self,
         const Row *found,
         GPtrArray *rows)
{
  OddRow *row = odd_rows_add (rows, found->height_mm);

  for (guint i = 0; i < found->pieces->len; i++)
    {
      const guint piece = g_array_index (found->pieces, guint, i);
      const OddFitting *fitting = fitting_of (self, piece, found->h);
      const OddCell cell = { odd_sources_piece (self->sources, piece)->scrap, fitting->turn_deg, fitting->at, fitting->width_mm, 0 };

      g_array_append_val (row->cells, cell);
      g_array_index (self->is_free, guint8, piece) = FALSE;
    }
  trim_cells (self, row->cells);
  count_shares (self, row);
  for (guint i = 0; i < found->pieces->len; i++)
    return_offcuts (self, g_array_index (found->pieces, guint, i), &g_array_index (row->cells, OddCell, i), row->height_mm);
}

static void
add_bare_row (const OddProposing *self,
              GPtrArray          *rows,
              double              height_mm)
{
  const OddCell bare = { ODD_CELL_BARE, 0.0, { 0.0, 0.0 }, self->width_mm, 0 };
  OddRow *row = odd_rows_add (rows, height_mm);

  g_array_append_val (row->cells, bare);
}

/* --- all columns --- */

static guint
shortest (GPtrArray *const *panels,
          guint             n)
{
  guint best = 0;

  for (guint i = 1; i < n; i++)
    if (odd_rows_length (panels[i]) < odd_rows_length (panels[best]) - ODD_TOLERANCE_MM)
      best = i;

  return best;
}

/* A column that finds no row stays bare from there on. */
static gboolean
fill_all (Filler     *self,
          GPtrArray **panels,
          GError    **error)
{
  const OddProposalOptions *options = self->proposing->options;

  for (;;)
    {
      GPtrArray *rows = panels[shortest (panels, options->n_panels)];
      const double done_mm = odd_rows_length (rows);
      Row row;

      if (done_mm >= options->length_mm - ODD_TOLERANCE_MM)
        return TRUE;
      if (g_cancellable_set_error_if_cancelled (self->proposing->cancellable, error))
        return FALSE;
      odd_proposing_tell (self->proposing, 0.2 + 0.6 * done_mm / options->length_mm);
      if (choose_row (self, options->length_mm - done_mm, &row) || choose_row_uncapped (self, options->length_mm - done_mm, &row))
        {
          add_row (self, &row, rows);
          g_array_unref (row.pieces);
        }
      else
        {
          add_bare_row (self->proposing, rows, options->length_mm - done_mm);
        }
    }
}

static gboolean
check_any_fits (const Filler *self,
                GError      **error)
{
  const OddProfileOptions *profile = &self->profile;
  double largest_mm = 0.0;

  for (guint i = 0; i < self->sources->pieces->len; i++)
    for (guint h = 0; h < profile->n_heights; h++)
      if (fitting_of (self, i, h)->width_mm > 0.0)
        return TRUE;

  for (guint i = 0; i < self->sources->pieces->len; i++)
    largest_mm = MAX (largest_mm, odd_polygon_largest_square (odd_sources_piece (self->sources, i)->search, 0.0));
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP,
               ngettext ("The %u free scrap gives no patch of %.0f × %.0f mm finished, cut with %.1f mm allowance; the largest square in it is %.0f mm. "
                         "Allow lower rows, a smaller side or a smaller allowance.",
                         "None of the %u free scraps gives a patch of %.0f × %.0f mm finished, cut with %.1f mm allowance; the largest square in any of "
                         "them is %.0f mm. Allow lower rows, a smaller side or a smaller allowance.", self->sources->scraps->len),
               self->sources->scraps->len, profile->smallest_mm, profile->heights_mm[0], profile->allowance_mm, floor (largest_mm));

  return FALSE;
}

gboolean
odd_propose_columns (OddProposing *proposing,
                     GPtrArray   **panels,
                     GError      **error)
{
  const OddProposalOptions *options = proposing->options;
  Filler self = { .proposing = proposing, .sources = proposing->sources };
  gboolean done;

  set_heights (&self);
  self.fittings = g_array_new (FALSE, FALSE, sizeof (OddFitting));
  self.is_free = g_array_new (FALSE, FALSE, sizeof (guint8));
  self.n_states = (guint) ceil (options->width_mm / WIDTH_STEP_MM - ODD_TOLERANCE_MM) + 1;
  self.costs = g_new (double, self.n_states);
  self.shares = odd_sources_dup_shares (self.sources, options);
  self.least = odd_sources_dup_least (self.sources, options);
  self.fabric_mm2 = g_new0 (double, self.sources->fabrics->len + 1);
  for (guint i = 0; i < self.sources->fabrics->len; i++)
    {
      self.shares[i] = self.shares[i] < 1.0 ? self.shares[i] * options->width_mm * options->length_mm * options->n_panels : INFINITY;
      self.least[i] *= options->width_mm * options->length_mm * options->n_panels;
    }
  self.random = odd_random_stream (options->seed, 0);
  make_room (&self);

  done = odd_for_each_item (self.sources->pieces->len, options->n_threads, profile_cb, &self, proposing->cancellable, error)
         && check_any_fits (&self, error)
         && fill_all (&self, panels, error)
         && odd_look_improve (panels, options->n_panels, options->width_mm, self.sources, options->spread,
                              odd_schedule (options->moves, options->seconds), &self.random, proposing->cancellable, error);

  g_array_unref (self.fittings);
  g_array_unref (self.is_free);
  g_free (self.costs);
  g_free (self.shares);
  g_free (self.least);
  g_free (self.fabric_mm2);
  g_free (self.taken);

  return done;
}
