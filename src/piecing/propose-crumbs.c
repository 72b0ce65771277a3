/* Crumbs for the fields of a job: what the options come to, a few first layouts by chance, and the best of them made better. */
#include "config.h"

#include "piecing/crumbs.h"
#include "piecing/parallel.h"
#include "piecing/propose-private.h"
#include "piecing/arrange.h"
#include "piecing/schedule.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "geometry/inscribed.h"

#define N_STARTS 4                 /* first layouts, the best of which is shown */
#define MOST_PASSES 4              /* each within the reach that the one before has shown the cloth to have */
#define FEW_BARE 0.02              /* of what is within reach: such holes are left to bettering */
#define N_STARTS_MANY 2            /* of cloth with so many leaves that chance evens out within one layout */
#define MANY_LEAVES 400
#define N_CHAINS 2                 /* that are bettered side by side; a number of its own, so that threads change nothing */
#define ROUND_MOVES 256            /* of each between two looks at the clock */
#define COPY_EVERY 24              /* rounds after which the worse one goes on from the better */
#define MOVES_A_LEAF 600
#define LEAST_MOVES 10000
#define MOST_MOVES 300000          /* half a minute to a minute; who wants more of a cloth beyond 500 leaves says so */
#define CANCEL_MOVES 16            /* between two looks at the cancellable: a few ms */
#define MOVES_A_SECOND 8000.0      /* about, of both chains, where the clock counts */
#define HOTTEST 2500.0             /* mm2 */
#define COLDEST 40.0
#define TELL_EVERY_US 500000
#define TELL_TIMES 6               /* and never sooner than so many times as long as it takes to make up what is told */
#define TELL_EVERY_SHARE 0.05      /* where moves are counted: what is told hangs on no clock either */
#define SHORTEST_SHARE 0.7         /* an edge may be so much of the smallest width */
#define SHARPEST_DEG 38.0
#define SCALE_SHARE 0.95           /* side of a middle patch, cut, against the side of a square as large as a middle scrap */
#define FEW_PATCHES 30.0           /* of middle size in the largest panel, at least */
#define LEAST_SCALE 1.4            /* and never below so many smallest widths */
#define N_WANTED 101
#define SHARPEST_IN_ROWS_DEG 12.0  /* where a row meets a slanted side no other corner can be had */
#define STRAIGHT_DEG 0.5
#define ALONG_ROWS 2.0             /* a side along the rows counts so much more than one across them */
#define MUCH_MORE 1.5
#define ROW_MOVES_A_LEAF 120       /* seams within rows and scraps change, so that no two of one fabric and no two ends meet */

typedef struct { double l, mm2; } Shade;

typedef struct
{
  OddCrumbRules rules;
  float *contacts;
  double *wanted;
  double *shares, *least;
  double *row_turns_deg;           /* columns */
} Setting;

static void
setting_clear (Setting *setting)
{
  g_free (setting->contacts);
  g_free (setting->wanted);
  g_free (setting->shares);
  g_free (setting->least);
  g_free (setting->row_turns_deg);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Setting, setting_clear)

static int
compare_shades (const void *a,
                const void *b)
{
  const Shade *p = a;
  const Shade *q = b;

  return (p->l > q->l) - (p->l < q->l);
}

static int
compare_doubles (const void *a,
                 const void *b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

/* L* along the length: the mean all along, or as if all cloth were sorted by it. */
static double *
wanted_course (const OddSources *sources,
               OddSpread         spread)
{
  const guint n = sources->pieces->len;
  g_autofree Shade *shades = g_new (Shade, n + 1);
  double *wanted = g_new (double, N_WANTED);
  double sum = 0.0, mean = 0.0, passed = 0.0;

  for (guint i = 0; i < n; i++)
    {
      const OddSourceScrap *scrap = odd_sources_scrap_of (sources, i);

      shades[i] = (Shade) { g_array_index (sources->fabrics, OddSourceFabric, scrap->fabric).colour.l, odd_polygon_get_area (odd_sources_piece (sources, i)->piece) };
      sum += shades[i].mm2;
      mean += shades[i].l * shades[i].mm2;
    }
  qsort (shades, n, sizeof (Shade), compare_shades);
  for (guint i = 0, k = 0; i < N_WANTED; i++)
    {
      while (k + 1 < n && passed + shades[k].mm2 < sum * i / (N_WANTED - 1))
        passed += shades[k++].mm2;
      wanted[spread == ODD_SPREAD_LIGHT_TOP ? N_WANTED - 1 - i : i] = spread == ODD_SPREAD_EVEN ? mean / sum : shades[k].l;
    }

  return wanted;
}

double
odd_crumb_scale_by_tub (const OddSources *sources,
                        double            panel_mm2,
                        double            allowance_mm,
                        double            smallest_mm)
{
  const guint n = sources->pieces->len;
  g_autofree double *sides_mm = g_new (double, n + 1);

  g_return_val_if_fail (n > 0, LEAST_SCALE * smallest_mm);

  for (guint i = 0; i < n; i++)
    sides_mm[i] = sqrt (odd_polygon_get_area (odd_sources_piece (sources, i)->piece));
  qsort (sides_mm, n, sizeof (double), compare_doubles);

  return MAX (MIN (SCALE_SHARE * sides_mm[n / 2] - 2.0 * allowance_mm, sqrt (panel_mm2 / FEW_PATCHES)), LEAST_SCALE * smallest_mm);
}

static double
off_square (OddSegment side)
{
  return remainder (atan2 (side.to.y - side.from.y, side.to.x - side.from.x) * 180.0 / G_PI, 90.0);
}

/* How much of the border runs along rows turned so, or across them: a row that ends in a wedge is worse than one with slanted ends. */
static double
flush_mm (const OddConvex *region,
          double           turn_deg)
{
  double mm = 0.0;

  for (guint i = 0; i < region->n; i++)
    {
      const OddSegment side = odd_convex_edge (region, i);
      const double deg = atan2 (side.to.y - side.from.y, side.to.x - side.from.x) * 180.0 / G_PI - turn_deg;

      if (fabs (remainder (deg, 90.0)) <= STRAIGHT_DEG)
        mm += odd_segment_length (side) * (fabs (remainder (deg, 180.0)) <= STRAIGHT_DEG ? ALONG_ROWS : 1.0);
    }

  return mm;
}

/* Straight across, but where the place slants and much more of its border is flush with rows that slant too. */
static double
turn_of_rows (const OddConvex *region)
{
  double best_deg = 0.0;
  double best_mm = MUCH_MORE * flush_mm (region, 0.0);

  for (guint i = 0; i < region->n; i++)
    {
      const double turn_deg = off_square (odd_convex_edge (region, i));
      const double mm = flush_mm (region, turn_deg);

      if (mm <= best_mm + ODD_TOLERANCE_MM)
        continue;
      best_deg = turn_deg;
      best_mm = mm;
    }

  return best_deg;
}

/* The same rules, but that all lies in rows. */
static void
set_up_rows (Setting         *setting,
             const OddProposing *self,
             const OddFields *fields)
{
  const OddProposalOptions *options = self->options;

  setting->row_turns_deg = g_new (double, fields->fields->len + 1);
  for (guint i = 0; i < fields->fields->len; i++)
    setting->row_turns_deg[i] = turn_of_rows (((OddField *) fields->fields->pdata[i])->region);
  setting->rules.row_turns_deg = setting->row_turns_deg;
  setting->rules.row_least_mm = options->row_least_mm;
  setting->rules.row_most_mm = options->row_most_mm;
  setting->rules.tilt_deg = 0.0;
  setting->rules.shortest_mm = 0.0;
  setting->rules.sharpest_cos = cos (SHARPEST_IN_ROWS_DEG * G_PI / 180.0);
}

static void
set_up (Setting            *setting,
        const OddProposing *self,
        const OddFields    *fields)
{
  const OddProposalOptions *options = self->options;
  double top_mm = INFINITY, bottom_mm = -INFINITY, largest_mm2 = 0.0;

  for (guint i = 0; i < fields->fields->len; i++)
    {
      const OddConvex *region = ((OddField *) fields->fields->pdata[i])->region;
      const OddBox box = odd_convex_box (region);

      largest_mm2 = MAX (largest_mm2, odd_convex_area (region));
      top_mm = MIN (top_mm, box.y);
      bottom_mm = MAX (bottom_mm, box.y + box.height);
    }
  setting->contacts = odd_contact_costs (self->sources);
  setting->wanted = wanted_course (self->sources, options->spread);
  setting->shares = options->n_shares > 0 ? odd_sources_dup_shares (self->sources, options) : NULL;
  setting->least = options->n_shares > 0 ? odd_sources_dup_least (self->sources, options) : NULL;
  setting->rules = (OddCrumbRules) {
    .smallest_mm = options->smallest_mm,
    .shortest_mm = SHORTEST_SHARE * options->smallest_mm,
    .scale_mm = options->scale_mm > 0.0 ? options->scale_mm : odd_crumb_scale_by_tub (self->sources, largest_mm2, self->allowance_mm, options->smallest_mm),
    .mix = options->liveliness,
    .tilt_deg = options->tilt_deg,
    .sharpest_cos = cos (SHARPEST_DEG * G_PI / 180.0),
    .contacts = setting->contacts,
    .wanted = setting->wanted,
    .most_share = setting->shares,
    .least_share = setting->least,
    .graded = options->spread != ODD_SPREAD_EVEN,
    .top_mm = top_mm,
    .length_mm = MAX (bottom_mm - top_mm, 1.0),
  };
  if (options->manner == ODD_PIECE_COLUMNS)
    set_up_rows (setting, self, fields);
}

/* --- to a job --- */

static OddJob *
build_job (const OddFields *fields,
           OddCrumbs       *crumbs,
           GError         **error)
{
  OddJob *job = odd_job_ref (fields->job);

  for (guint i = 0; job != NULL && i < fields->fields->len; i++)
    {
      const OddField *field = fields->fields->pdata[i];
      OddId next_id = job->next_id;
      g_autoptr(OddNode) node = odd_crumbs_build (crumbs, i, &next_id);
      OddJob *filled = odd_job_replace_leaf (job, field->leaf_id, node, next_id, error);

      odd_job_unref (job);
      job = filled;
    }

  return job;
}

GArray *
odd_fields_dup_panels (const OddFields *fields)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  for (guint i = 0; i < fields->fields->len; i++)
    {
      const OddId id = ((OddField *) fields->fields->pdata[i])->panel_id;

      if (ids->len == 0 || g_array_index (ids, OddId, ids->len - 1) != id)
        g_array_append_val (ids, id);
    }

  return ids;
}

/* --- the first proposal --- */

typedef struct
{
  const OddFields *fields;
  const OddStock *stock;
  const OddCrumbRules *rules;
  guint64 seed;
  double reach_mm2;
  GCancellable *cancellable;
  guint n;
  OddCrumbs *starts[N_STARTS];
  double energies[N_STARTS];
  OddCrumbs *best;
  double best_energy;
} Starting;

/* What the look of columns asks for, cooled down quickly: there is no button for it. */
static void
settle_rows (OddCrumbs    *crumbs,
             guint64       seed,
             GCancellable *cancellable)
{
  OddRandom random = odd_random_stream (seed, 2000);
  guint bare;
  const guint n = ROW_MOVES_A_LEAF * odd_crumbs_count_leaves (crumbs, &bare);

  for (guint i = 0; i < n && !g_cancellable_is_cancelled (cancellable); i++)
    odd_crumbs_move (crumbs, HOTTEST * pow (COLDEST / HOTTEST, (double) i / n), &random);
}

static void
starting_clear (Starting *self)
{
  for (guint i = 0; i < N_STARTS; i++)
    g_clear_pointer (&self->starts[i], odd_crumbs_free);
  g_clear_pointer (&self->best, odd_crumbs_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Starting, starting_clear)

static void
start_cb (guint    item,
          gpointer data)
{
  Starting *self = data;
  OddRandom random = odd_random_stream (self->seed, 1000 + item);

  self->starts[item] = odd_crumbs_new (self->fields, self->stock, self->rules);
  odd_crumbs_fill (self->starts[item], self->reach_mm2, &random, self->cancellable);
  odd_crumbs_join_bare (self->starts[item]);
  self->energies[item] = odd_crumbs_get_energy (self->starts[item]);
}

static void
no_scrap_fits (const OddProposing *self,
               GError            **error)
{
  double largest_mm = 0.0;

  for (guint i = 0; i < self->sources->pieces->len; i++)
    largest_mm = MAX (largest_mm, odd_polygon_largest_square (odd_sources_piece (self->sources, i)->search, 0.0));
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_NO_SCRAP,
               ngettext ("The %u free scrap gives no patch at least %.0f mm wide, cut with %.1f mm allowance; the largest square in it is %.0f mm. "
                         "Allow a smaller side or a smaller allowance.",
                         "None of the %u free scraps gives a patch at least %.0f mm wide, cut with %.1f mm allowance; the largest square in any of them "
                         "is %.0f mm. Allow a smaller side or a smaller allowance.", self->sources->scraps->len),
               self->sources->scraps->len, self->options->smallest_mm, self->allowance_mm, floor (largest_mm));
}

/* The best of a few layouts within reach. How much of it found cloth, mm2; below 0 with an error. */
static double
start_within (const OddProposing *self,
              Starting           *starting,
              GError            **error)
{
  guint first = 0;
  double laid_mm2;

  if (!odd_for_each_item (starting->n, self->options->n_threads, start_cb, starting, self->cancellable, error))
    return -1.0;
  for (guint i = 1; i < starting->n; i++)
    if (starting->energies[i] < starting->energies[first])
      first = i;
  laid_mm2 = odd_crumbs_get_laid_mm2 (starting->starts[first]);
  if (starting->best == NULL || starting->energies[first] < starting->best_energy)
    {
      g_clear_pointer (&starting->best, odd_crumbs_free);
      starting->best = g_steal_pointer (&starting->starts[first]);
      starting->best_energy = starting->energies[first];
    }
  for (guint i = 0; i < N_STARTS; i++)
    g_clear_pointer (&starting->starts[i], odd_crumbs_free);

  return laid_mm2;
}

/* Where cloth runs short, holes all over are of no use: what there is is put into whole panels and the top of one more. */
static gboolean
start (const OddProposing *self,
       Starting           *starting,
       double              area_mm2,
       GError            **error)
{
  double within_mm2 = area_mm2;

  starting->reach_mm2 = INFINITY;
  for (guint pass = 0; pass < MOST_PASSES; pass++)
    {
      const double laid_mm2 = start_within (self, starting, error);

      if (laid_mm2 < 0.0)
        return FALSE;
      if (laid_mm2 <= 0.0 || laid_mm2 >= (1.0 - FEW_BARE) * within_mm2)
        break;
      starting->reach_mm2 = within_mm2 = laid_mm2;
    }

  return TRUE;
}

OddJob *
odd_propose_crumbs (OddProposing    *self,
                    const OddFields *fields,
                    GError         **error)
{
  g_auto(Setting) setting = { .wanted = NULL };
  g_autoptr(OddStock) stock = NULL;
  g_auto(Starting) starting = { .fields = fields, .rules = &setting.rules, .seed = self->options->seed, .cancellable = self->cancellable };
  double area_mm2 = 0.0;

  for (guint i = 0; i < fields->fields->len; i++)
    area_mm2 += odd_convex_area (((OddField *) fields->fields->pdata[i])->region);
  set_up (&setting, self, fields);
  stock = odd_stock_new (self->sources, self->job->settings.usable_square_mm, self->options->n_threads, self->cancellable, error);
  if (stock == NULL)
    return NULL;
  odd_proposing_tell (self, 0.1);
  starting.stock = stock;
  starting.n = area_mm2 > MANY_LEAVES * setting.rules.scale_mm * setting.rules.scale_mm ? N_STARTS_MANY : N_STARTS;
  if (!start (self, &starting, area_mm2, error))
    return NULL;
  if (odd_crumbs_get_laid_mm2 (starting.best) <= 0.0)
    {
      no_scrap_fits (self, error);
      return NULL;
    }
  if (setting.rules.row_turns_deg != NULL)
    {
      settle_rows (starting.best, self->options->seed, self->cancellable);
      odd_crumbs_join_bare (starting.best);
    }

  return build_job (fields, starting.best, error);
}

/* --- better and better --- */

typedef struct
{
  OddCrumbs *crumbs;
  OddRandom random;
  double energy;
} Chain;

typedef struct
{
  const OddProposing *proposing;
  const OddFields *fields;
  Chain chains[N_CHAINS];
  OddCrumbs *best;
  double best_energy, told_energy;
  double heat, hottest;
  OddImproveFunc improve;
  gpointer data;
  GArray *panels;
  gboolean by_clock;
  gint64 told_us, telling_us;      /* when last; how long that took */
  double told_share;
} Improving;

static void
chain_cb (guint    item,
          gpointer data)
{
  Improving *self = data;
  Chain *chain = &self->chains[item];

  for (guint i = 0; i < ROUND_MOVES; i++)
    {
      if (i % CANCEL_MOVES == 0 && g_cancellable_is_cancelled (self->proposing->cancellable))
        return;
      odd_crumbs_move (chain->crumbs, self->heat, &chain->random);
    }
  chain->energy = odd_crumbs_get_energy (chain->crumbs);
  odd_crumbs_settle (chain->crumbs, 1, NULL);
}

static void
keep_best (Improving *self)
{
  for (guint i = 0; i < N_CHAINS; i++)
    if (self->chains[i].energy < self->best_energy)
      {
        odd_crumbs_free (self->best);
        self->best = odd_crumbs_copy (self->chains[i].crumbs);
        self->best_energy = self->chains[i].energy;
      }
}

/* The worse goes on from where the better is. */
static void
copy_better (Improving *self)
{
  const guint better = self->chains[1].energy < self->chains[0].energy;
  Chain *worse = &self->chains[1 - better];

  odd_crumbs_free (worse->crumbs);
  worse->crumbs = odd_crumbs_copy (self->chains[better].crumbs);
  worse->energy = self->chains[better].energy;
}

static gboolean
is_time_to_tell (const Improving *self,
                 double           done)
{
  return self->by_clock ? g_get_monotonic_time () - self->told_us >= MAX (TELL_EVERY_US, TELL_TIMES * self->telling_us) : done - self->told_share >= TELL_EVERY_SHARE;
}

/* NULL when cancelled. */
static OddProposal *
make_proposal (const Improving *self)
{
  g_autoptr(OddCrumbs) copy = odd_crumbs_copy (self->best);
  OddProposal *proposal = NULL;
  OddJob *job;

  odd_crumbs_join_bare (copy);
  job = build_job (self->fields, copy, NULL);
  if (job != NULL)
    proposal = odd_proposal_new (self->proposing, self->fields->job, job, (const OddId *) self->panels->data, self->panels->len, NULL);
  if (proposal != NULL)
    odd_proposal_note_parts (proposal, self->fields);

  return proposal;
}

static void
tell (Improving *self,
      double     done)
{
  g_autoptr(OddProposal) proposal = NULL;

  if (self->improve == NULL)
    return;
  if (self->best_energy < self->told_energy && is_time_to_tell (self, done))
    {
      const gint64 start_us = g_get_monotonic_time ();

      proposal = make_proposal (self);
      self->told_energy = self->best_energy;
      self->told_us = g_get_monotonic_time ();
      self->telling_us = self->told_us - start_us;
      self->told_share = done;
    }
  self->improve (done, proposal, self->data);
}

static gboolean
improve_for (Improving   *self,
             OddSchedule  schedule,
             GError     **error)
{
  const OddProposing *proposing = self->proposing;
  guint64 moves = 0;
  guint round = 0;

  for (double done = 0.0; done < 1.0; done = odd_schedule_done (&schedule, moves))
    {
      self->heat = self->hottest * pow (COLDEST / self->hottest, done);
      if (!odd_for_each_item (N_CHAINS, proposing->options->n_threads, chain_cb, self, proposing->cancellable, error))
        return FALSE;
      moves += N_CHAINS * ROUND_MOVES;
      keep_best (self);
      if (++round % COPY_EVERY == 0)
        copy_better (self);
      tell (self, done);
    }

  return TRUE;
}

static OddSchedule
schedule_for (const OddProposing *self,
              const OddCrumbs    *crumbs)
{
  guint bare;
  const guint n = odd_crumbs_count_leaves (crumbs, &bare);
  OddSchedule schedule = odd_schedule (self->options->moves, self->options->seconds);

  if (schedule.moves == 0)
    schedule.moves = CLAMP ((guint64) n * MOVES_A_LEAF, LEAST_MOVES, MOST_MOVES);

  return schedule;
}

/* A short time is better spent on small gains than on shaking up what there is. */
static double
hottest_for (const OddSchedule *schedule,
             const OddCrumbs   *crumbs)
{
  guint bare;
  const guint n = odd_crumbs_count_leaves (crumbs, &bare);
  const double moves = schedule->end_us == 0 ? schedule->moves : (schedule->end_us - schedule->start_us) * 1e-6 * MOVES_A_SECOND;

  return COLDEST * pow (HOTTEST / COLDEST, MIN (moves / MAX (n * MOVES_A_LEAF, 1), 1.0));
}

/* What there is, and a chain for each. FALSE when cancelled. */
static gboolean
start_chains (Improving           *self,
              const OddStock      *stock,
              const OddCrumbRules *rules,
              GError             **error)
{
  GCancellable *cancellable = self->proposing->cancellable;

  self->best = odd_crumbs_new (self->fields, stock, rules);
  if (!odd_crumbs_take_over (self->best, cancellable) || !odd_crumbs_settle (self->best, self->proposing->options->n_threads, cancellable))
    return !g_cancellable_set_error_if_cancelled (cancellable, error);
  self->best_energy = self->told_energy = odd_crumbs_get_energy (self->best);
  for (guint i = 0; i < N_CHAINS; i++)
    self->chains[i] = (Chain) { odd_crumbs_copy (self->best), odd_random_stream (self->proposing->options->seed, 2000 + i), self->best_energy };

  return TRUE;
}

static OddJob *
improve_chains (Improving *self,
                GError   **error)
{
  const OddSchedule schedule = schedule_for (self->proposing, self->best);

  self->by_clock = schedule.end_us != 0;
  self->hottest = hottest_for (&schedule, self->best);
  if (!improve_for (self, schedule, error))
    return NULL;
  odd_crumbs_join_bare (self->best);

  return build_job (self->fields, self->best, error);
}

OddJob *
odd_improve_crumbs (OddProposing    *proposing,
                    const OddFields *fields,
                    OddImproveFunc   improve,
                    gpointer         data,
                    GError         **error)
{
  g_auto(Setting) setting = { .wanted = NULL };
  g_autoptr(OddStock) stock = NULL;
  g_autoptr(GArray) panels = odd_fields_dup_panels (fields);
  Improving self = { .proposing = proposing, .fields = fields, .improve = improve, .data = data, .panels = panels, .told_us = g_get_monotonic_time () };
  OddJob *job = NULL;

  set_up (&setting, proposing, fields);
  stock = odd_stock_new (proposing->sources, proposing->job->settings.usable_square_mm, proposing->options->n_threads, proposing->cancellable, error);
  if (stock == NULL)
    return NULL;
  if (start_chains (&self, stock, &setting.rules, error))
    job = improve_chains (&self, error);
  for (guint i = 0; i < N_CHAINS; i++)
    g_clear_pointer (&self.chains[i].crumbs, odd_crumbs_free);
  odd_crumbs_free (self.best);

  return job;
}
