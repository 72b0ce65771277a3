/* Squares: what the templates give from each scrap, a grid of rows filled with it, and the squares arranged. */
#include "config.h"

#include "piecing/arrange.h"
#include "piecing/cut-plan.h"
#include "piecing/parallel.h"
#include "piecing/propose-private.h"
#include "piecing/square-rows.h"

#include <glib/gi18n.h>

#include "geometry/inscribed.h"

#define VARIETY 0.1                /* how far chance may shift the order in which scraps are taken */

typedef struct
{
  OddSources *sources;
  const OddTemplate *templates;
  guint n_templates;
  double allowance_mm;
  OddCutPlan **plans;              /* one a piece */
} Cutting;

static gboolean
has_only_squares (const OddTemplate *templates,
                  guint              n)
{
  for (guint i = 0; i < n; i++)
    if (fabs (templates[i].width_mm - templates[i].length_mm) > ODD_TOLERANCE_MM)
      return FALSE;

  return TRUE;
}

OddCutPlan *
odd_sources_plan_piece (const OddSources  *sources,
                        guint              piece,
                        const OddTemplate *templates,
                        guint              n_templates,
                        double             allowance_mm)
{
  const OddSource *source = odd_sources_piece (sources, piece);
  g_autoptr(GArray) turns = odd_scrap_allowed_turns (odd_sources_scrap_of (sources, piece), source->search, !has_only_squares (templates, n_templates));

  return odd_cut_plan_new (source->search, (const double *) turns->data, turns->len, templates, n_templates, allowance_mm);
}

static void
plan_piece (guint    item,
            gpointer data)
{
  Cutting *self = data;

  self->plans[item] = odd_sources_plan_piece (self->sources, item, self->templates, self->n_templates, self->allowance_mm);
}

static gboolean
plan_all (Cutting                  *self,
          OddSources               *sources,
          const OddProposalOptions *options,
          double                    allowance_mm,
          GCancellable             *cancellable,
          GError                  **error)
{
  *self = (Cutting) { sources, options->templates, options->n_templates, allowance_mm, g_new0 (OddCutPlan *, sources->pieces->len + 1) };

  return odd_for_each_item (sources->pieces->len, options->n_threads, plan_piece, self, cancellable, error);
}

static void
clear_cutting (Cutting *self)
{
  for (guint i = 0; i < self->sources->pieces->len; i++)
    g_clear_pointer (&self->plans[i], odd_cut_plan_free);
  g_free (self->plans);
}

static void
scrap_plan_free (gpointer data)
{
  OddScrapPlan *plan = data;

  odd_cut_plan_free (plan->plan);
  g_free (plan);
}

GPtrArray *
odd_cut_plans_new (OddJob                   *job,
                   const OddProposalOptions *options,
                   double                    allowance_mm,
                   GCancellable             *cancellable,
                   GError                  **error)
{
  g_autoptr(OddSources) sources = odd_sources_new (job, options);
  g_autoptr(GPtrArray) plans = g_ptr_array_new_with_free_func (scrap_plan_free);
  Cutting cutting;
  const gboolean done = plan_all (&cutting, sources, options, allowance_mm, cancellable, error);

  for (guint i = 0; done && i < sources->pieces->len; i++)
    {
      OddScrapPlan *plan = g_new (OddScrapPlan, 1);

      plan->scrap_id = odd_sources_scrap_of (sources, i)->id;
      plan->cloth_mm2 = odd_polygon_get_area (odd_sources_piece (sources, i)->piece);
      plan->plan = g_steal_pointer (&cutting.plans[i]);
      g_ptr_array_add (plans, plan);
    }
  clear_cutting (&cutting);

  return done ? g_steal_pointer (&plans) : NULL;
}

/* --- what is wanted --- */

static double
finished_width (const OddProposing *self,
                guint               template)
{
  return self->options->templates[template].width_mm - 2.0 * self->allowance_mm;
}

static double
finished_length (const OddProposing *self,
                 guint               template)
{
  return self->options->templates[template].length_mm - 2.0 * self->allowance_mm;
}

static void
count_supply (const Cutting *cutting,
              guint          supply[ODD_MAX_TEMPLATES])
{
  for (guint i = 0; i < cutting->sources->pieces->len; i++)
    for (guint k = 0; k < cutting->plans[i]->pieces->len; k++)
      supply[g_array_index (cutting->plans[i]->pieces, OddPlanned, k).template]++;
}

typedef struct
{
  const OddProposing *proposing;
  GPtrArray **panels;
} Laying;

/* A bare row of whole squares; one that reaches beyond the panel is trimmed alike at both ends. */
static gboolean
lay_row (const OddSquareRow *planned,
         gpointer            data)
{
  const Laying *self = data;
  const double width_mm = finished_width (self->proposing, planned->template);
  OddRow *row = odd_rows_add (self->panels[planned->panel], finished_length (self->proposing, planned->template));

  row->from_mm = (self->proposing->width_mm - planned->across * width_mm) / 2.0;
  for (guint k = 0; k < planned->across; k++)
    {
      const OddCell bare = { .scrap = ODD_CELL_BARE, .width_mm = width_mm, .kind = planned->template };

      g_array_append_val (row->cells, bare);
    }

  return TRUE;
}

static void
lay_rows (const OddProposing *self,
          const guint        *supply,
          GPtrArray         **panels)
{
  OddSquareGrid grid = { .n_templates = self->options->n_templates, .width_mm = self->width_mm, .length_mm = self->options->length_mm, .n_panels = self->options->n_panels };
  Laying laying = { self, panels };

  for (guint t = 0; t < grid.n_templates; t++)
    grid.finished[t] = (OddTemplate) { finished_width (self, t), finished_length (self, t) };
  odd_square_rows_plan (&grid, supply, lay_row, &laying);
}

/* Of one template, so that cut squares cover the cut shape row by row, the outer ones trimmed alike. Seams of a row and its ends stick out of it by an
 * allowance, so that much of the shape above and below counts. */
static void
lay_rows_within (const OddProposing *self,
                 GPtrArray          *rows)
{
  const double across_mm = finished_width (self, 0);
  const double down_mm = finished_length (self, 0);
  const double a = self->allowance_mm;
  const OddBox box = odd_convex_box (self->within);

  for (double y = 0.0; rows->len == 0 || y < box.y + box.height - a - ODD_REACHED_MM; y += down_mm)
    {
      g_autoptr(OddConvex) below = odd_convex_clip (self->within, (OddHalfPlane) { { 0.0, -1.0 }, a - y }, 0);
      g_autoptr(OddConvex) band = below != NULL ? odd_convex_clip (below, (OddHalfPlane) { { 0.0, 1.0 }, y + down_mm + a }, 0) : NULL;
      const OddBox reach = band != NULL ? odd_convex_box (band) : box;
      const double wanted_mm = reach.width - 2.0 * a;
      const guint least = odd_square_rows_reach (wanted_mm, across_mm);
      const guint n = least + (self->earlier > 0.0 ? 1 : 0);
      OddRow *row = odd_rows_add (rows, down_mm);

      row->from_mm = reach.x + a - (least * across_mm - wanted_mm) / 2.0 - self->earlier * across_mm;
      for (guint k = 0; k < n; k++)
        {
          const OddCell bare = { .scrap = ODD_CELL_BARE, .width_mm = across_mm };

          g_array_append_val (row->cells, bare);
        }
    }
}

/* --- which squares --- */

typedef struct { guint piece; double worth; } Choice;

static int
compare_choices (gconstpointer a,
                 gconstpointer b)
{
  const Choice *x = a;
  const Choice *y = b;

  if (x->worth != y->worth)
    return x->worth > y->worth ? -1 : 1;

  return x->piece < y->piece ? -1 : x->piece > y->piece;
}

/* Scraps that lose least first. */
static GArray *
order_pieces (const Cutting *cutting,
              OddRandom     *random)
{
  GArray *choices = g_array_new (FALSE, FALSE, sizeof (Choice));

  for (guint i = 0; i < cutting->sources->pieces->len; i++)
    {
      const double worth = cutting->plans[i]->finished_mm2 / odd_polygon_get_area (odd_sources_piece (cutting->sources, i)->piece);
      const Choice choice = { i, worth * (1.0 + VARIETY * (odd_random_unit (random) - 0.5)) };

      if (cutting->plans[i]->pieces->len > 0)
        g_array_append_val (choices, choice);
    }
  g_array_sort (choices, compare_choices);

  return choices;
}

typedef struct
{
  const Cutting *cutting;
  GArray *taken[ODD_MAX_TEMPLATES];    /* OddCell, in the order they were taken */
  guint wanted[ODD_MAX_TEMPLATES];
  guint *of_fabric;                    /* how many are taken */
  guint *limits;                       /* by fabric, how many may be */
  guint8 **is_taken;                   /* by piece and planned piece */
} Taking;

static void
take_from_piece (Taking *self,
                 guint   piece)
{
  const OddCutPlan *plan = self->cutting->plans[piece];
  const guint scrap = odd_sources_piece (self->cutting->sources, piece)->scrap;
  const guint fabric = g_array_index (self->cutting->sources->scraps, OddSourceScrap, scrap).fabric;

  for (guint k = 0; k < plan->pieces->len; k++)
    {
      const OddPlanned *planned = &g_array_index (plan->pieces, OddPlanned, k);
      const OddCell cell = { scrap, plan->turn_deg, planned->at, 0.0, planned->template };

      if (self->is_taken[piece][k] || self->taken[planned->template]->len >= self->wanted[planned->template]
          || self->of_fabric[fabric] >= self->limits[fabric])
        continue;
      self->is_taken[piece][k] = TRUE;
      self->of_fabric[fabric]++;
      g_array_append_val (self->taken[planned->template], cell);
    }
}

typedef enum { TAKE_WANTED, TAKE_HALF_AT_MOST, TAKE_ALL, N_TAKES } Take;

static guint
limit_of (Take   pass,
          guint  n_wanted,
          double least,
          double most)
{
  const guint cap = most < 1.0 ? (guint) (most * n_wanted + 0.5) : G_MAXUINT;

  switch (pass)
    {
    case TAKE_WANTED: return MIN ((guint) ceil (least * n_wanted - 1e-9), cap);
    case TAKE_HALF_AT_MOST: return MIN ((n_wanted + 1) / 2, cap);
    default: return cap;
    }
}

/* First what there should be of a fabric; then so that none has more than half, for else it must touch itself; then whatever there is and may be. */
static void
take_squares (Taking                   *self,
              const GArray             *choices,
              const OddProposalOptions *options)
{
  const guint n_wanted = self->wanted[0] + self->wanted[1] + self->wanted[2];
  const guint n_fabrics = self->cutting->sources->fabrics->len;
  g_autofree double *least = odd_sources_dup_least (self->cutting->sources, options);
  g_autofree double *most = odd_sources_dup_shares (self->cutting->sources, options);

  for (Take pass = TAKE_WANTED; pass < N_TAKES; pass++)
    {
      for (guint i = 0; i < n_fabrics; i++)
        self->limits[i] = limit_of (pass, n_wanted, least[i], most[i]);
      for (guint i = 0; i < choices->len; i++)
        take_from_piece (self, g_array_index (choices, Choice, i).piece);
    }
}

static void
fill_cells (Taking       *self,
            OddCellGraph *graph)
{
  guint used[ODD_MAX_TEMPLATES] = { 0 };

  for (guint i = 0; i < graph->n; i++)
    {
      OddCell *cell = graph->cells[i];
      const guint kind = cell->kind;
      const double width_mm = cell->width_mm;

      if (used[kind] >= self->taken[kind]->len)
        continue;
      *cell = g_array_index (self->taken[kind], OddCell, used[kind]++);
      cell->width_mm = width_mm;
    }
}

/* By rows from the top over all panels, so that what is short stays bare at the bottom. */
static int
compare_cells_down (gconstpointer a,
                    gconstpointer b,
                    gpointer      data)
{
  const OddPoint *middles = data;
  const guint i = *(const guint *) a;
  const guint k = *(const guint *) b;

  if (middles[i].y != middles[k].y)
    return middles[i].y < middles[k].y ? -1 : 1;
  if (middles[i].x != middles[k].x)
    return middles[i].x < middles[k].x ? -1 : 1;

  return 0;
}

static void
fill_from_top (Taking       *self,
               OddCellGraph *graph)
{
  g_autofree guint *order = g_new (guint, MAX (graph->n, 1));
  g_autofree OddCell **cells = g_new (OddCell *, MAX (graph->n, 1));
  OddCellGraph down = *graph;

  for (guint i = 0; i < graph->n; i++)
    order[i] = i;
  g_qsort_with_data (order, graph->n, sizeof (guint), compare_cells_down, graph->middles);
  for (guint i = 0; i < graph->n; i++)
    cells[i] = graph->cells[order[i]];
  down.cells = cells;
  fill_cells (self, &down);
}

static void
tell_missing (const OddProposing *self,
              const Taking       *taking)
{
  for (guint t = 0; t < self->options->n_templates; t++)
    {
      const OddTemplate *template = &self->options->templates[t];
      const guint missing = taking->wanted[t] - taking->taken[t]->len;

      if (missing == 0)
        continue;
      odd_sentence_add (self->missing,
                        ngettext ("%u of %u patches cut %.0f × %.0f mm is missing.", "%u of %u patches cut %.0f × %.0f mm are missing.", missing),
                        missing, taking->wanted[t], template->width_mm, template->length_mm);
    }
}

static void
fill_grid (OddProposing  *self,
           const Cutting *cutting,
           OddCellGraph  *graph,
           OddRandom     *random)
{
  g_autoptr(GArray) choices = order_pieces (cutting, random);
  Taking taking = { cutting };

  taking.of_fabric = g_new0 (guint, cutting->sources->fabrics->len + 1);
  taking.limits = g_new0 (guint, cutting->sources->fabrics->len + 1);
  taking.is_taken = g_new0 (guint8 *, cutting->sources->pieces->len + 1);
  for (guint t = 0; t < ODD_MAX_TEMPLATES; t++)
    taking.taken[t] = g_array_new (FALSE, FALSE, sizeof (OddCell));
  for (guint i = 0; i < cutting->sources->pieces->len; i++)
    taking.is_taken[i] = g_new0 (guint8, cutting->plans[i]->pieces->len + 1);
  for (guint i = 0; i < graph->n; i++)
    taking.wanted[graph->cells[i]->kind]++;

  take_squares (&taking, choices, self->options);
  fill_from_top (&taking, graph);
  tell_missing (self, &taking);

  for (guint i = 0; i < cutting->sources->pieces->len; i++)
    g_free (taking.is_taken[i]);
  for (guint t = 0; t < ODD_MAX_TEMPLATES; t++)
    g_array_unref (taking.taken[t]);
  g_free (taking.is_taken);
  g_free (taking.of_fabric);
  g_free (taking.limits);
}

static void
set_no_scrap_error (const OddProposing *self,
                    GError            **error)
{
  const OddTemplate *template = &self->options->templates[0];
  double largest = 0.0;

  for (guint i = 0; i < self->sources->pieces->len; i++)
    largest = MAX (largest, odd_polygon_largest_square (odd_sources_piece (self->sources, i)->search, 0.0));
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP,
               ngettext ("The %u free scrap holds no piece of %.0f × %.0f mm; the largest square in it is %.0f mm. Take a smaller template.",
                         "None of the %u free scraps holds a piece of %.0f × %.0f mm; the largest square in any of them is %.0f mm. Take a smaller template.",
                         self->sources->scraps->len),
               self->sources->scraps->len, template->width_mm, template->length_mm, floor (largest));
}

gboolean
odd_propose_squares (OddProposing *self,
                     GPtrArray   **panels,
                     GError      **error)
{
  OddRandom random = odd_random_stream (self->options->seed, 0);
  guint supply[ODD_MAX_TEMPLATES] = { 0 };
  g_autoptr(OddCellGraph) graph = NULL;
  Cutting cutting;
  gboolean done = plan_all (&cutting, self->sources, self->options, self->allowance_mm, self->cancellable, error);

  if (done)
    {
      count_supply (&cutting, supply);
      if (supply[0] + supply[1] + supply[2] == 0)
        {
          set_no_scrap_error (self, error);
          done = FALSE;
        }
    }
  if (done)
    {
      odd_proposing_tell (self, 0.4);
      if (self->within == NULL)
        {
          self->width_mm = odd_square_rows_reach (self->options->width_mm, finished_width (self, 0)) * finished_width (self, 0);
          lay_rows (self, supply, panels);
        }
      else
        lay_rows_within (self, panels[0]);
      graph = odd_cell_graph_new (panels, self->options->n_panels, self->width_mm);
      fill_grid (self, &cutting, graph, &random);
      odd_proposing_tell (self, 0.6);
      done = odd_arrange (graph, self->sources, self->options->spread, odd_schedule (self->options->moves, self->options->seconds),
                          &random, self->cancellable, error);
    }
  clear_cutting (&cutting);

  return done;
}
