/* Which seam waits for which. A seam ends on seams of strips above its own, or on a join; the seams of a strip also wait until the strips that are their two
 * parts are sewn. Joins come first in the list, then each panel's seams from the root down: so whatever waits stands before what it waits for.
 */
#include "config.h"

#include "sewing/plan-graph.h"
#include "sewing/rounds.h"
#include "sewing/stage.h"

#define PALE_FROM 70.0             /* L*, our choice */
#define DARK_BELOW 40.0

/* --- what a panel tells --- */

static void
facts_unref (OddSheetFacts *facts)
{
  if (!g_atomic_ref_count_dec (&facts->refs))
    return;
  odd_layout_unref (facts->layout);
  g_free (facts->shades);
  g_free (facts->sewn);
  g_free (facts);
}

typedef struct { double sum, length_mm; } Mean;

static double
get_lightness (GHashTable *known,
               OddFabric  *fabric)
{
  double *lightness = g_hash_table_lookup (known, fabric);

  if (lightness == NULL)
    {
      lightness = g_new (double, 1);
      *lightness = odd_fabric_get_lightness (fabric);
      g_hash_table_insert (known, fabric, lightness);
    }
  return *lightness;
}

static void
add_patch (Mean           *means,
           const OddPatch *patch,
           double          lightness)
{
  for (guint i = 0; i < patch->region->n; i++)
    if (patch->region->labels[i] >= 0)
      {
        const double length_mm = odd_segment_length (odd_convex_edge (patch->region, i));

        means[patch->region->labels[i]].sum += length_mm * lightness;
        means[patch->region->labels[i]].length_mm += length_mm;
      }
}

static guint8
get_shade (Mean mean)
{
  if (mean.length_mm <= 0.0)
    return ODD_SHADE_MIDDLE;
  if (mean.sum / mean.length_mm < DARK_BELOW)
    return ODD_SHADE_DARK;
  return mean.sum / mean.length_mm < PALE_FROM ? ODD_SHADE_MIDDLE : ODD_SHADE_PALE;
}

static gboolean
is_any_edge_sewn (const OddConvex *region,
                  const guint8    *seam_sewn)
{
  for (guint i = 0; i < region->n; i++)
    if (region->labels[i] >= 0 && seam_sewn[region->labels[i]])
      return TRUE;
  return FALSE;
}

static guint8 *
find_sewn (const OddLayout *layout)
{
  g_autofree guint8 *seam_sewn = g_new (guint8, layout->n_seams + 1);
  guint8 *sewn = g_new (guint8, layout->n_patches + 1);

  for (guint i = 0; i < layout->n_seams; i++)
    seam_sewn[i] = odd_seam_is_sewn (layout->seams[i].seam, layout->seams[i].finish);
  for (guint i = 0; i < layout->n_patches; i++)
    sewn[i] = is_any_edge_sewn (layout->patches[i].region, seam_sewn);
  return sewn;
}

static OddSheetFacts *
facts_new (OddLayout *layout)
{
  OddSheetFacts *facts = g_new0 (OddSheetFacts, 1);
  g_autofree Mean *means = g_new0 (Mean, layout->n_seams + 1);
  g_autoptr(GHashTable) known = g_hash_table_new_full (NULL, NULL, NULL, g_free);

  g_atomic_ref_count_init (&facts->refs);
  facts->layout = odd_layout_ref (layout);
  facts->shades = g_new (guint8, layout->n_seams + 1);
  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].fabric != NULL)
      add_patch (means, &layout->patches[i], get_lightness (known, layout->patches[i].fabric));
  for (guint i = 0; i < layout->n_seams; i++)
    facts->shades[i] = get_shade (means[i]);
  facts->sewn = find_sewn (layout);
  return facts;
}

static OddSheetFacts *
facts_dup (OddLayout      *layout,
           const OddGraph *previous)
{
  for (guint i = 0; previous != NULL && i < previous->sheets->len; i++)
    {
      OddSheetFacts *facts = g_array_index (previous->sheets, OddSheet, i).facts;

      if (facts->layout == layout)
        {
          g_atomic_ref_count_inc (&facts->refs);
          return facts;
        }
    }
  return facts_new (layout);
}

/* --- what is there --- */

static void
add_sheet (OddGraph         *self,
           OddPanel         *panel,
           OddTextileLayout *textile,
           guint             place,
           const OddGraph   *previous)
{
  OddSheet sheet = { .textile = textile, .panel_id = panel->id, .place = place };

  sheet.layout = odd_job_dup_layout (self->job, panel->id);
  sheet.facts = facts_dup (sheet.layout, previous);
  sheet.first = self->n_works;
  self->n_works += sheet.layout->n_seams;
  g_array_append_val (self->sheets, sheet);
}

static void
collect (OddGraph       *self,
         OddId           textile_id,
         const OddGraph *previous)
{
  for (guint i = 0; i < self->job->textiles->len; i++)
    {
      OddTextile *textile = self->job->textiles->pdata[i];

      if (textile_id != 0 && textile->id != textile_id)
        continue;
      g_ptr_array_add (self->textiles, odd_job_dup_textile_layout (self->job, textile->id));
      self->n_works += ((OddTextileLayout *) self->textiles->pdata[self->textiles->len - 1])->n_joins;
    }
  for (guint i = 0; i < self->textiles->len; i++)
    {
      OddTextileLayout *textile = self->textiles->pdata[i];

      for (guint k = 0; k < textile->n_panels; k++)
        add_sheet (self, textile->textile->hung[k].panel, textile, k, previous);
    }
  for (guint i = 0; i < self->job->loose_panels->len; i++)
    if (textile_id == 0 || ((OddPanel *) self->job->loose_panels->pdata[i])->id == textile_id)
      add_sheet (self, self->job->loose_panels->pdata[i], NULL, 0, previous);
}

/* --- one seam --- */

static void
set_finish (OddGraph        *self,
            OddSeamWork     *work,
            const OddSeam   *seam,
            const OddFinish *finish)
{
  work->seam = seam;
  work->finish = finish;
  work->first_sew = odd_finish_first_sew (finish);
  while (work->from < finish->n_operations && !odd_graph_plans (self, work, work->from))
    work->from++;
}

/* May still be sewn: what is sewn waits for nothing any more. */
static gboolean
is_to_sew (const OddSeamWork *work)
{
  return work->seam != NULL && work->from <= work->first_sew;
}

static void
let_wait (OddGraph    *self,
          OddSeamWork *work,
          int          on,
          gboolean     all)
{
  if (on < 0 || !is_to_sew (&self->works[on]))
    return;
  for (guint i = 0; i < work->n_waits; i++)
    if (work->waits[i].work == (guint) on)
      {
        work->waits[i].all = work->waits[i].all || all;
        return;
      }
  work->waits[work->n_waits++] = (OddWaits) { on, all };
}

static guint
first_join (const OddGraph         *self,
            const OddTextileLayout *textile)
{
  guint first = 0;

  for (guint i = 0; self->textiles->pdata[i] != textile; i++)
    first += ((OddTextileLayout *) self->textiles->pdata[i])->n_joins;
  return first;
}

/* The join on the panel's left (@side 0) or right side; -1: none. */
static int
find_join (const OddGraph *self,
           const OddSheet *sheet,
           guint           side)
{
  if (sheet->textile == NULL || sheet->place + side == 0 || sheet->place + side > sheet->textile->n_joins)
    return -1;
  return first_join (self, sheet->textile) + sheet->place + side - 1;
}

/* The seam or join that an end lies on; -1: a raw edge. */
static int
find_on (const OddGraph *self,
         const OddSheet *sheet,
         const OddEnd   *end)
{
  if (end->label >= 0)
    return sheet->first + end->label;
  for (guint side = 0; end->by != 0 && side < 2; side++)
    {
      const int join = find_join (self, sheet, side);

      if (join >= 0 && self->works[join].seam->id == end->by)
        return join;
    }
  return -1;
}

static gboolean
is_sewn_over (const OddGraph *self,
              int             on)
{
  return on >= 0 && self->works[on].seam != NULL && odd_seam_is_sewn (self->works[on].seam, self->works[on].finish);
}

/* @outer: the seams or joins beside the strip in which this one lies */
static void
set_seam (OddGraph *self,
          guint     sheet_index,
          guint     index,
          const int outer[2])
{
  const OddSheet *sheet = &g_array_index (self->sheets, OddSheet, sheet_index);
  const OddLaidSeam *laid = &sheet->layout->seams[index];
  OddSeamWork *work = &self->works[sheet->first + index];

  work->sheet = sheet_index;
  work->textile = sheet->textile;
  work->index = index;
  work->shade = sheet->facts->shades[index];
  if (laid->raw_length_mm <= 0.0)
    return;
  set_finish (self, work, laid->seam, laid->finish);
  for (guint e = 0; e < 2; e++)
    {
      const int on = find_on (self, sheet, &laid->ends[e]);

      let_wait (self, work, on, TRUE);
      work->raw_inside = work->raw_inside || (!odd_seam_is_ready_to_cross (laid->seam, laid->finish) && is_sewn_over (self, on));
    }
  for (guint i = 0; i < 2; i++)
    let_wait (self, work, outer[i], FALSE);
}

/* --- rounds --- */

typedef struct
{
  OddGraph *graph;
  guint sheet;
  guint next;                 /* the layout's next seam; each strip's own come before its parts' */
} Builder;

/* Of a strip's seams works[first .. first + n - 1). A seam taken by a trim joins nothing, and there is nothing to wait for. */
static void
set_rounds (OddGraph    *graph,
            guint        first,
            guint       *heights[ODD_N_MANNERS],
            guint        n,
            guint        out_heights[ODD_N_MANNERS])
{
  g_autofree gboolean *joined = g_new (gboolean, n);
  g_autofree guint *rounds = g_new (guint, n);

  for (guint i = 0; i + 1 < n; i++)
    joined[i] = graph->works[first + i].seam == NULL || (!graph->from_start && !is_to_sew (&graph->works[first + i]));
  out_heights[ODD_MANNER_CHAIN] = odd_rounds_fewest (heights[ODD_MANNER_CHAIN], joined, n, rounds);
  for (guint i = 0; i + 1 < n; i++)
    graph->works[first + i].round[ODD_MANNER_CHAIN] = rounds[i];
  out_heights[ODD_MANNER_WALKS] = odd_rounds_in_turn (heights[ODD_MANNER_WALKS], n, rounds);
  for (guint i = 0; i + 1 < n; i++)
    graph->works[first + i].round[ODD_MANNER_WALKS] = rounds[i];
}

static void
build (Builder  *self,
       OddNode  *node,
       const int outer[2],
       guint     out_heights[ODD_N_MANNERS])
{
  const guint own = self->next;
  const guint first = g_array_index (self->graph->sheets, OddSheet, self->sheet).first + own;
  g_autofree guint *space = NULL;
  guint *heights[ODD_N_MANNERS];

  out_heights[0] = out_heights[1] = 0;
  if (node->kind == ODD_NODE_LEAF)
    return;
  space = g_new (guint, 2 * node->n_parts);
  heights[0] = space;
  heights[1] = space + node->n_parts;
  self->next += node->n_parts - 1;
  for (guint i = 0; i + 1 < node->n_parts; i++)
    set_seam (self->graph, self->sheet, own + i, outer);
  for (guint i = 0; i < node->n_parts; i++)
    {
      const int beside[2] = { i > 0 ? (int) (first + i - 1) : -1, i + 1 < node->n_parts ? (int) (first + i) : -1 };
      guint part[ODD_N_MANNERS];

      build (self, node->parts[i], beside, part);
      heights[0][i] = part[0];
      heights[1][i] = part[1];
    }
  set_rounds (self->graph, first, heights, node->n_parts, out_heights);
}

static void
build_sheet (OddGraph *self,
             guint     index)
{
  OddSheet *sheet = &g_array_index (self->sheets, OddSheet, index);
  const int outer[2] = { find_join (self, sheet, 0), find_join (self, sheet, 1) };
  Builder builder = { self, index, 0 };

  build (&builder, sheet->layout->root, outer, sheet->heights);
  for (guint m = 0; m < ODD_N_MANNERS; m++)
    self->n_rounds[m] = MAX (self->n_rounds[m], sheet->heights[m]);
}

/* --- joins --- */

static void
set_joins (OddGraph *self)
{
  guint next = 0;

  for (guint i = 0; i < self->textiles->len; i++)
    {
      OddTextileLayout *textile = self->textiles->pdata[i];

      for (guint k = 0; k < textile->n_joins; k++)
        {
          OddSeamWork *work = &self->works[next++];

          *work = (OddSeamWork) { .sheet = -1, .textile = textile, .index = k, .shade = ODD_SHADE_MIDDLE };
          set_finish (self, work, textile->joins[k].join, textile->joins[k].finish);
        }
    }
}

static void
set_join_rounds (OddGraph         *self,
                 OddTextileLayout *textile)
{
  guint *heights[ODD_N_MANNERS] = { g_new (guint, textile->n_panels), g_new (guint, textile->n_panels) };
  guint all[ODD_N_MANNERS];

  for (guint i = 0; i < self->sheets->len; i++)
    {
      const OddSheet *sheet = &g_array_index (self->sheets, OddSheet, i);

      for (guint m = 0; sheet->textile == textile && m < ODD_N_MANNERS; m++)
        heights[m][sheet->place] = sheet->heights[m];
    }
  set_rounds (self, first_join (self, textile), heights, textile->n_panels, all);
  for (guint m = 0; m < ODD_N_MANNERS; m++)
    {
      self->n_rounds[m] = MAX (self->n_rounds[m], all[m]);
      g_free (heights[m]);
    }
}

/* --- the whole --- */

OddGraph *
odd_graph_new (OddJob         *job,
               OddId           textile_id,
               gboolean        from_start,
               const OddGraph *previous)
{
  OddGraph *self = g_new0 (OddGraph, 1);

  self->job = odd_job_ref (job);
  self->from_start = from_start;
  self->sheets = g_array_new (FALSE, FALSE, sizeof (OddSheet));
  self->textiles = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_textile_layout_unref);
  collect (self, textile_id, previous);
  self->works = g_new0 (OddSeamWork, self->n_works + 1);
  set_joins (self);
  for (guint i = 0; i < self->sheets->len; i++)
    build_sheet (self, i);
  for (guint i = 0; i < self->textiles->len; i++)
    if (((OddTextileLayout *) self->textiles->pdata[i])->n_panels > 0)
      set_join_rounds (self, self->textiles->pdata[i]);
  return self;
}

void
odd_graph_free (OddGraph *self)
{
  for (guint i = 0; i < self->sheets->len; i++)
    {
      OddSheet *sheet = &g_array_index (self->sheets, OddSheet, i);

      odd_layout_unref (sheet->layout);
      facts_unref (sheet->facts);
    }
  g_array_unref (self->sheets);
  g_ptr_array_unref (self->textiles);
  g_free (self->works);
  odd_job_unref (self->job);
  g_free (self);
}

gboolean
odd_graph_plans (const OddGraph    *self,
                 const OddSeamWork *work,
                 guint              operation)
{
  return self->from_start || odd_progress_get_state (work->seam->progress, operation) == ODD_STATE_OPEN;
}

int
odd_graph_find (const OddGraph *self,
                OddId           seam_id)
{
  for (guint i = 0; i < self->n_works; i++)
    if (self->works[i].seam != NULL && self->works[i].seam->id == seam_id)
      return i;
  return -1;
}

double
odd_graph_get_length (const OddGraph    *self,
                      const OddSeamWork *work)
{
  if (work->sheet < 0)
    return work->textile->joins[work->index].raw_length_mm;
  return g_array_index (self->sheets, OddSheet, work->sheet).layout->seams[work->index].raw_length_mm;
}

OddId
odd_graph_get_panel_id (const OddGraph    *self,
                        const OddSeamWork *work)
{
  return work->sheet < 0 ? 0 : g_array_index (self->sheets, OddSheet, work->sheet).panel_id;
}

OddId
odd_graph_get_textile_id (const OddGraph    *self,
                          const OddSeamWork *work)
{
  return work->textile != NULL ? work->textile->textile->id : 0;
}
