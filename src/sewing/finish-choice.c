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
odd_finish_needs_lining (const OddFinish *finish)
{
  return odd_finish_get_edges (finish) == ODD_EDGES_RAW;
}

gboolean
odd_finish_fit_both_sides (const OddFinish *finish)
{
  return odd_finish_get_edges (finish) >= ODD_EDGES_BOUND;
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

/* The textile a reach lies in, and the panel where it is no more than one; 0: none. */
typedef struct { OddId textile_id, panel_id; } Where;

static Where
find_where (OddJob               *job,
            const OddFinishReach *reach)
{
  OddTextile *textile = NULL;
  OddPanel *panel = NULL;

  if (reach->level == ODD_LEVEL_TEXTILE)
    return (Where) { reach->id, 0 };
  if (reach->level == ODD_LEVEL_JOB)
    return (Where) { job->textiles->len > 0 ? ((OddTextile *) job->textiles->pdata[0])->id : 0, 0 };
  if (reach->level == ODD_LEVEL_PANEL)
    panel = odd_job_get_panel (job, reach->id, &textile, NULL);
  else
    panel = odd_job_find_panel_of (job, reach->id, &textile, NULL);
  return (Where) { textile != NULL ? textile->id : 0, panel != NULL ? panel->id : 0 };
}

/* Raw area in mm2 comes back. */
static double
measure (OddJob           *job,
         const Where      *where,
         OddChoiceFigures *out)
{
  if (where->panel_id != 0)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, where->panel_id);

      out->width_mm = layout->box.width;
      out->length_mm = layout->box.height;
      return layout->raw_box.width * layout->raw_box.height;
    }
  if (where->textile_id != 0)
    {
      g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (job, where->textile_id);

      out->width_mm = layout->finished_width_mm;
      out->length_mm = layout->finished_length_mm;
      return layout->raw_width_mm * layout->raw_length_mm;
    }
  return 0.0;
}

static void
plan_work (OddJob           *job,
           const Where      *where,
           OddChoiceFigures *out)
{
  g_autoptr(OddPlan) walks = odd_plan_new (job, where->textile_id, ODD_MANNER_WALKS, NULL, 0, NULL);
  g_autoptr(OddPlan) chain = odd_plan_new (job, where->textile_id, ODD_MANNER_CHAIN, NULL, 0, walks);
  g_autoptr(GPtrArray) uses = odd_plan_thread (walks, ODD_THREAD_WASTE);

  for (guint i = 0; i < uses->len; i++)
    if (((OddThreadUse *) uses->pdata[i])->figure != NULL)
      out->thread_mm += ((OddThreadUse *) uses->pdata[i])->thread_mm;
  out->time_s = odd_job_plan_time (job, walks).all;
  out->stops = walks->n_walks;
  out->rounds = chain->n_rounds_left;
}

static double
take_figures (OddJob           *job,
              const Where      *where,
              OddChoiceFigures *out)
{
  g_autoptr(GArray) crossings = odd_job_dup_crossings (job, where->textile_id);

  plan_work (job, where, out);
  out->bulk = odd_crossings_sum (crossings);
  return measure (job, where, out);
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

/* What @scope itself comes to without what lies within. */
static OddFinish *
find_present (OddJob               *job,
              const OddFinishReach *reach)
{
  OddTextile *textile = NULL;
  guint index = 0;
  const OddTreatment *levels[3] = { &job->treatment, NULL, NULL };
  OddPanel *panel = reach->level == ODD_LEVEL_PANEL ? odd_job_get_panel (job, reach->id, &textile, NULL)
                    : reach->level >= ODD_LEVEL_STRIP ? odd_job_find_panel_of (job, reach->id, &textile, &index) : NULL;
  OddFinish *finish = NULL;

  if (reach->level == ODD_LEVEL_TEXTILE)
    textile = odd_job_get_textile (job, reach->id);
  if (reach->level >= ODD_LEVEL_STRIP && panel != NULL)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

      for (guint i = 0; i < layout->n_seams; i++)
        if (layout->seams[i].seam->id == reach->id || layout->seams[i].strip->id == reach->id)
          return odd_job_get_finish (job, layout->seams[i].finish->id);
    }
  levels[1] = textile != NULL ? &textile->treatment : NULL;
  levels[2] = panel != NULL ? &panel->treatment : NULL;
  for (guint i = 0; reach->level == ODD_LEVEL_SEAM && panel == NULL && textile != NULL && i + 1 < textile->n_hung; i++)
    if (textile->joins[i].id == reach->id)
      levels[2] = &textile->joins[i].treatment;
  odd_job_resolve (job, levels, 3, &finish, NULL);
  return finish;
}

static OddFinishChoice *
try_finish (OddJob                 *job,
            const OddFinishReach   *reach,
            const Where            *where,
            OddFinish              *finish,
            OddFinish              *present,
            const OddChoiceFigures *now,
            GHashTable             *known,
            GCancellable           *cancellable)
{
  OddFinishChoice *choice = g_new0 (OddFinishChoice, 1);
  g_autoptr(GError) refused = NULL;
  double raw_mm2;

  choice->finish = odd_finish_ref (finish);
  choice->present = finish == present;
  choice->job = choice->present && !reach->all_within ? odd_job_ref (job) : odd_job_choose_finish (job, reach, finish->id, &refused);
  if (choice->job == NULL)
    {
      choice->refusal = g_strdup (refused->message);
      return choice;
    }
  raw_mm2 = take_figures (choice->job, where, &choice->figures);
  choice->width_lost_mm = now->width_mm - choice->figures.width_mm;
  choice->length_lost_mm = now->length_mm - choice->figures.length_mm;
  choice->lining_mm2 = odd_finish_needs_lining (finish) ? raw_mm2 : 0.0;
  choice->broken = find_broken (choice->job, known, cancellable);
  choice->misfits = dup_misfits (choice->job, choice->broken);
  return choice;
}

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
  g_autoptr(GHashTable) known = NULL;
  OddChoiceFigures now = { 0 };
  OddFinish *present;
  Where where;

  g_return_val_if_fail (job != NULL && reach != NULL, NULL);

  where = find_where (job, reach);
  present = find_present (job, reach);
  findings = odd_job_check (job, cancellable);
  known = g_hash_table_new (hash_finding, equal_finding);
  for (guint i = 0; i < findings->len; i++)
    g_hash_table_add (known, findings->pdata[i]);
  take_figures (job, &where, &now);
  for (guint i = 0; i < job->finishes->len; i++)
    {
      if (progress != NULL)
        progress ((i + 1.0) / (job->finishes->len + 1.0), data);
      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return NULL;
      g_ptr_array_add (choices, try_finish (job, reach, &where, job->finishes->pdata[i], present, &now, known, cancellable));
    }
  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  if (out_now != NULL)
    *out_now = now;
  return g_steal_pointer (&choices);
}
