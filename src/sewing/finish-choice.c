#include "config.h"

#include "sewing/finish-choice.h"
#include "sewing/own-time.h"

#include <glib/gi18n.h>

#include "sewing/thread.h"

/* --- what a finish is good for --- */

static const OddOperation *
find_operation (const OddFinish  *finish,
                OddOperationKind  kind)
{
  for (guint i = 0; i < finish->n_operations; i++)
    if (finish->operations[i].kind == kind)
      return &finish->operations[i];
  return NULL;
}

OddEdges
odd_finish_get_edges (const OddFinish *finish)
{
  const OddOperation *neaten;

  g_return_val_if_fail (finish != NULL, ODD_EDGES_RAW);

  neaten = find_operation (finish, ODD_OPERATION_NEATEN);
  if (neaten != NULL)
    return neaten->station == ODD_STATION_SEWING_MACHINE && g_strcmp0 (neaten->stitch, "301") == 0 ? ODD_EDGES_BOUND : ODD_EDGES_NEATENED;
  if (finish->operations[odd_finish_first_sew (finish)].face == ODD_FACE_WRONG_SIDES)
    return ODD_EDGES_ENCLOSED;
  return find_operation (finish, ODD_OPERATION_FOLD) != NULL ? ODD_EDGES_FELLED : ODD_EDGES_RAW;
}

gboolean
odd_edges_fit_to_be_seen (OddEdges edges)
{
  return edges >= ODD_EDGES_BOUND;
}

OddGoodFor
odd_finish_get_good_for (const OddFinish  *finish,
                         const char      **out_why)
{
  static const struct { OddGoodFor good_for; const char *why; } table[] = {
    [ODD_EDGES_RAW] = { ODD_GOOD_FOR_LINED, N_("The lining covers the raw edges, and open seams lie flattest (common practice, no source).") },
    [ODD_EDGES_NEATENED] = { ODD_GOOD_FOR_GARMENTS, N_("The edges are made fast and stand washing; seen from within they show thread (common practice, no source).") },
    [ODD_EDGES_BOUND] = { ODD_GOOD_FOR_GARMENTS, N_("For unlined garments of thick cloth (common practice, no source).") },
    [ODD_EDGES_FELLED] = { ODD_GOOD_FOR_GARMENTS, N_("For light to heavy wovens and hard wear (Oregon State University Extension, Complex Seams for Woven Fabrics).") },
    [ODD_EDGES_ENCLOSED] = { ODD_GOOD_FOR_SHEER | ODD_GOOD_FOR_GARMENTS, N_("For sheer and light cloth: no raw edge shows through (Oklahoma Cooperative Extension, 4-H card 810). Not for thick cloth (Conover, 1922).") },
  };
  OddEdges edges;

  g_return_val_if_fail (finish != NULL, 0);

  edges = odd_finish_get_edges (finish);
  if (out_why != NULL)
    *out_why = _(table[edges].why);
  return table[edges].good_for;
}

/* --- trying --- */

void
odd_finish_choice_free (OddFinishChoice *self)
{
  odd_finish_unref (self->finish);
  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->broken, g_ptr_array_unref);
  g_clear_pointer (&self->misfits, g_array_unref);
  g_free (self->refusal);
  g_free (self);
}

OddJob *
odd_job_choose_finish (OddJob                *job,
                       const OddFinishReach  *reach,
                       OddId                  finish_id,
                       GError               **error)
{
  OddFinish *finish = odd_job_get_finish (job, finish_id);
  OddTreatment treatment = { finish_id, NAN };
  g_autoptr(OddJob) after = NULL;

  g_return_val_if_fail (finish != NULL, NULL);

  /* nothing lies above the job from which an allowance could come */
  if (reach->level == ODD_LEVEL_JOB)
    treatment.allowance_mm = finish->allowance_mm;
  after = odd_job_set_treatment (job, reach->level, reach->id, 0, &treatment, reach->keep_cut, error);
  if (after == NULL || !reach->all_within || reach->level == ODD_LEVEL_SEAM)
    return g_steal_pointer (&after);
  return odd_job_inherit_below (after, reach->level, reach->id, reach->keep_cut, error);
}

/* Where a reach lies. work_id: the textile or loose panel that is worked on, 0: all that is on the table. size_id: what is measured: the panel where the reach is no
 * more than one, else the same. */
typedef struct { OddId work_id, size_id; } Where;

static Where
find_where (OddJob               *job,
            const OddFinishReach *reach)
{
  OddTextile *textile = NULL;
  OddPanel *panel = NULL;

  if (reach->level == ODD_LEVEL_JOB)
    return (Where) { 0, 0 };
  if (reach->level == ODD_LEVEL_TEXTILE)
    return (Where) { reach->id, reach->id };
  if (reach->level == ODD_LEVEL_PANEL)
    panel = odd_job_get_panel (job, reach->id, &textile, NULL);
  else
    panel = odd_job_find_panel_of (job, reach->id, &textile, NULL);
  if (panel == NULL)
    return (Where) { textile != NULL ? textile->id : 0, textile != NULL ? textile->id : 0 };
  return (Where) { textile != NULL ? textile->id : panel->id, panel->id };
}

/* --- sizes, and what is left raw --- */

typedef struct
{
  guint n;                    /* textiles and panels measured */
  double width_mm, length_mm; /* of the last */
  double area_mm2, lining_mm2;
  OddEdges inside;            /* the least, of all */
} Measured;

/* Of a pieced scrap all seams count, as if it showed whole. */
static OddEdges
find_least_edges (const OddLayout *layout)
{
  OddEdges least = ODD_EDGES_ENCLOSED;

  for (guint i = 0; i < layout->n_seams; i++)
    if (layout->seams[i].raw_length_mm > 0.0)
      least = MIN (least, odd_finish_get_edges (layout->seams[i].finish));
  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].piece != NULL)
      least = MIN (least, find_least_edges (layout->patches[i].piece));
  return least;
}

static void
add_measure (Measured *self,
             double    width_mm,
             double    length_mm,
             double    raw_mm2,
             OddEdges  inside)
{
  self->n++;
  self->width_mm = width_mm;
  self->length_mm = length_mm;
  self->area_mm2 += width_mm * length_mm;
  self->lining_mm2 += inside == ODD_EDGES_RAW ? raw_mm2 : 0.0;
  self->inside = MIN (self->inside, inside);
}

static void
measure_panel (Measured *self,
               OddJob   *job,
               OddId     panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);

  add_measure (self, layout->box.width, layout->box.height, layout->raw_box.width * layout->raw_box.height, find_least_edges (layout));
}

static void
measure_textile (Measured *self,
                 OddJob   *job,
                 OddId     textile_id)
{
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (job, textile_id);
  OddEdges inside = ODD_EDGES_ENCLOSED;

  if (layout->n_panels == 0)
    return;
  for (guint i = 0; i < layout->n_panels; i++)
    inside = MIN (inside, find_least_edges (layout->panels[i].layout));
  for (guint i = 0; i < layout->n_joins; i++)
    inside = MIN (inside, odd_finish_get_edges (layout->joins[i].finish));
  add_measure (self, layout->finished_width_mm, layout->finished_length_mm, layout->raw_width_mm * layout->raw_length_mm, inside);
}

/* @id: of a textile or panel; 0: all that is on the table */
static Measured
measure (OddJob *job,
         OddId   id)
{
  Measured self = { .inside = ODD_EDGES_ENCLOSED };

  for (guint i = 0; i < job->textiles->len; i++)
    if (id == 0 || ((OddTextile *) job->textiles->pdata[i])->id == id)
      measure_textile (&self, job, ((OddTextile *) job->textiles->pdata[i])->id);
  for (guint i = 0; id == 0 && i < job->loose_panels->len; i++)
    measure_panel (&self, job, ((OddPanel *) job->loose_panels->pdata[i])->id);
  if (id != 0 && odd_job_get_panel (job, id, NULL, NULL) != NULL)
    measure_panel (&self, job, id);
  return self;
}

/* --- the figures of a job --- */

/* One comparison: what is the same for each finish that is tried. */
typedef struct
{
  OddJob *job;
  const OddFinishReach *reach;
  Where where;
  OddFinish *present;
  OddChoiceFigures now;
  GHashTable *known;          /* set of the findings there are now */
  guint step, n_steps;
  OddChoiceProgress progress;
  gpointer data;
  GCancellable *cancellable;
} Trial;

/* Before each step that takes its time; FALSE: called off. */
static gboolean
go_on (Trial *self)
{
  if (g_cancellable_is_cancelled (self->cancellable))
    return FALSE;
  self->step++;
  if (self->progress != NULL)
    self->progress ((double) self->step / (self->n_steps + 1), self->data);
  return !g_cancellable_is_cancelled (self->cancellable);
}

static void
plan_work (Trial            *self,
           OddJob           *job,
           OddChoiceFigures *out)
{
  const OddFinishReach *reach = self->reach;
  g_autoptr(OddPlan) walks = odd_plan_new (job, self->where.work_id, ODD_MANNER_WALKS, reach->pins, reach->n_pins, NULL);
  g_autoptr(OddPlan) chain = odd_plan_new (job, self->where.work_id, ODD_MANNER_CHAIN, reach->pins, reach->n_pins, walks);
  g_autoptr(GPtrArray) uses = odd_plan_thread (walks, ODD_THREAD_WASTE);

  for (guint i = 0; i < uses->len; i++)
    if (((OddThreadUse *) uses->pdata[i])->figure != NULL)
      out->thread_mm += ((OddThreadUse *) uses->pdata[i])->thread_mm;
  out->untold_mm = odd_thread_sum_untold (uses);
  out->time_s = odd_job_plan_time (job, walks).all;
  out->stops = walks->n_walks;
  out->rounds = chain->n_rounds_left;
}

/* FALSE: called off. */
static gboolean
take_figures (Trial            *self,
              OddJob           *job,
              OddChoiceFigures *out,
              Measured         *out_measured)
{
  g_autoptr(GArray) crossings = NULL;

  if (!go_on (self))
    return FALSE;
  *out_measured = measure (job, self->where.size_id);
  out->area_mm2 = out_measured->area_mm2;
  if (out_measured->n == 1)
    {
      out->width_mm = out_measured->width_mm;
      out->length_mm = out_measured->length_mm;
    }
  if (!go_on (self))
    return FALSE;
  plan_work (self, job, out);
  if (!go_on (self))
    return FALSE;
  crossings = odd_job_dup_crossings (job, self->where.work_id);
  out->bulk = odd_crossings_sum (crossings);
  return TRUE;
}

/* --- what breaks --- */

static guint
hash_finding (gconstpointer data)
{
  const OddFinding *finding = data;

  return finding->kind ^ finding->leaf_id * 31 ^ finding->seam_id * 1009 ^ finding->scrap_id * 65537 ^ finding->panel_id << 16;
}

static gboolean
equal_finding (gconstpointer a,
               gconstpointer b)
{
  const OddFinding *one = a, *other = b;

  return one->kind == other->kind && one->leaf_id == other->leaf_id && one->seam_id == other->seam_id && one->scrap_id == other->scrap_id &&
         one->panel_id == other->panel_id;
}

static int
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  const guint x = *(const guint *) a, y = *(const guint *) b;

  return (x > y) - (x < y);
}

static GArray *
dup_misfits (OddJob    *job,
             GPtrArray *broken)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (NULL, NULL);
  GArray *misfits = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < broken->len; i++)
    {
      const OddFinding *finding = broken->pdata[i];
      OddScrap *scrap = finding->scrap_id != 0 ? odd_job_get_scrap (job, finding->scrap_id) : NULL;

      if (scrap != NULL && g_hash_table_add (seen, scrap))
        g_array_append_val (misfits, scrap->number);
    }
  g_array_sort (misfits, compare_numbers);
  return misfits;
}

/* @known: set of the findings there are now. */
static GPtrArray *
find_broken (OddJob       *after,
             GHashTable   *known,
             GCancellable *cancellable)
{
  g_autoptr(GPtrArray) all = odd_job_check (after, cancellable);
  GPtrArray *broken = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_finding_free);

  g_ptr_array_set_free_func (all, NULL);
  for (guint i = 0; i < all->len; i++)
    if (g_hash_table_contains (known, all->pdata[i]))
      odd_finding_free (all->pdata[i]);
    else
      g_ptr_array_add (broken, all->pdata[i]);
  return broken;
}

/* --- which one is there now --- */

/* What lies on the way from @node to a strip or seam is appended to @chain, its own last; FALSE: it is not in there. */
static gboolean
add_way (GPtrArray     *chain,
         const OddNode *node,
         OddId          id)
{
  const guint was = chain->len;

  if (node->kind != ODD_NODE_STRIP)
    return FALSE;
  g_ptr_array_add (chain, (gpointer) &node->treatment);
  if (node->id == id)
    return TRUE;
  for (guint i = 0; i + 1 < node->n_parts; i++)
    if (node->seams[i].id == id)
      {
        g_ptr_array_add (chain, (gpointer) &node->seams[i].treatment);
        return TRUE;
      }
  for (guint i = 0; i < node->n_parts; i++)
    if (add_way (chain, node->parts[i], id))
      return TRUE;
  g_ptr_array_set_size (chain, was);
  return FALSE;
}

/* What the level itself comes to, without what lies within. */
static OddFinish *
find_present (OddJob               *job,
              const OddFinishReach *reach)
{
  g_autoptr(GPtrArray) chain = g_ptr_array_new ();
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = reach->level == ODD_LEVEL_PANEL ? odd_job_get_panel (job, reach->id, &textile, NULL)
                    : reach->level >= ODD_LEVEL_STRIP ? odd_job_find_panel_of (job, reach->id, &textile, &index) : NULL;
  OddFinish *finish = NULL;

  if (reach->level == ODD_LEVEL_TEXTILE)
    textile = odd_job_get_textile (job, reach->id);
  g_ptr_array_add (chain, &job->treatment);
  if (textile != NULL)
    g_ptr_array_add (chain, &textile->treatment);
  if (panel != NULL)
    g_ptr_array_add (chain, &panel->treatment);
  if (reach->level >= ODD_LEVEL_STRIP && panel != NULL)
    add_way (chain, panel->root, reach->id);
  else if (reach->level == ODD_LEVEL_SEAM && textile != NULL)
    g_ptr_array_add (chain, (gpointer) &textile->joins[index].treatment);
  odd_job_resolve (job, (const OddTreatment *const *) chain->pdata, chain->len, &finish, NULL);
  return finish;
}

/* NULL: called off. */
static OddFinishChoice *
try_finish (Trial     *self,
            OddFinish *finish)
{
  OddFinishChoice *choice = g_new0 (OddFinishChoice, 1);
  g_autoptr(GError) refused = NULL;
  Measured measured;

  choice->finish = odd_finish_ref (finish);
  choice->present = finish == self->present;
  choice->job = choice->present && !self->reach->all_within ? odd_job_ref (self->job)
                                                            : odd_job_choose_finish (self->job, self->reach, finish->id, &refused);
  if (choice->job == NULL)
    {
      choice->refusal = g_strdup (refused->message);
      return choice;
    }
  if (!take_figures (self, choice->job, &choice->figures, &measured) || !go_on (self))
    {
      odd_finish_choice_free (choice);
      return NULL;
    }
  choice->width_lost_mm = self->now.width_mm - choice->figures.width_mm;
  choice->length_lost_mm = self->now.length_mm - choice->figures.length_mm;
  choice->lining_mm2 = measured.lining_mm2;
  choice->inside = measured.inside;
  choice->broken = find_broken (choice->job, self->known, self->cancellable);
  choice->misfits = dup_misfits (choice->job, choice->broken);
  return choice;
}

/* FALSE: called off. */
static gboolean
try_all (Trial     *self,
         GPtrArray *choices)
{
  Measured measured;

  if (!take_figures (self, self->job, &self->now, &measured))
    return FALSE;
  for (guint i = 0; i < self->job->finishes->len; i++)
    {
      OddFinishChoice *choice = go_on (self) ? try_finish (self, self->job->finishes->pdata[i]) : NULL;

      if (choice == NULL)
        return FALSE;
      g_ptr_array_add (choices, choice);
    }
  return TRUE;
}

#define STEPS_OF_FIGURES 3
#define STEPS_OF_FINISH (2 + STEPS_OF_FIGURES)

GPtrArray *
odd_job_compare_finishes (OddJob                *job,
                          const OddFinishReach  *reach,
                          OddChoiceFigures      *out_now,
                          OddChoiceProgress      progress,
                          gpointer               data,
                          GCancellable          *cancellable,
                          GError               **error)
{
  g_autoptr(GPtrArray) choices = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_finish_choice_free);
  g_autoptr(GPtrArray) findings = NULL;
  g_autoptr(GHashTable) known = g_hash_table_new (hash_finding, equal_finding);
  Trial trial;

  g_return_val_if_fail (job != NULL && reach != NULL, NULL);
  g_return_val_if_fail (reach->n_pins == 0 || reach->pins != NULL, NULL);

  trial = (Trial) { .job = job, .reach = reach, .where = find_where (job, reach), .present = find_present (job, reach), .known = known,
                    .n_steps = STEPS_OF_FIGURES + STEPS_OF_FINISH * job->finishes->len, .progress = progress, .data = data, .cancellable = cancellable };
  findings = odd_job_check (job, cancellable);
  for (guint i = 0; i < findings->len; i++)
    g_hash_table_add (known, findings->pdata[i]);
  if (!try_all (&trial, choices) || g_cancellable_is_cancelled (cancellable))
    {
      g_cancellable_set_error_if_cancelled (cancellable, error);
      return NULL;
    }
  if (out_now != NULL)
    *out_now = trial.now;
  return g_steal_pointer (&choices);
}
