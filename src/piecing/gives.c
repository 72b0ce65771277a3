#include "config.h"

#include "piecing/gives.h"

#include "cloth/offcuts.h"
#include "piecing/cut-plan.h"
#include "piecing/parallel.h"

#include <string.h>

void
odd_cut_sizes_init (OddCutSizes *self,
                    OddJob      *job)
{
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  *self = (OddCutSizes) { .n_templates = options.n_templates, .allowance_mm = options.treatment.allowance_mm };
  for (guint t = 0; t < options.n_templates; t++)
    self->templates[t] = options.templates[t];
}

gboolean
odd_cut_sizes_equal (const OddCutSizes *a,
                     const OddCutSizes *b)
{
  gboolean same = a->n_templates == b->n_templates && a->allowance_mm == b->allowance_mm;

  for (guint t = 0; same && t < a->n_templates; t++)
    same = a->templates[t].width_mm == b->templates[t].width_mm && a->templates[t].length_mm == b->templates[t].length_mm;

  return same;
}

static void
clear_piece (gpointer data)
{
  OddGivenPiece *piece = data;

  g_clear_pointer (&piece->shape, odd_convex_unref);
}

static void
scrap_gives_free (gpointer data)
{
  OddScrapGives *scrap = data;

  g_array_unref (scrap->pieces);
  g_free (scrap);
}

static void
add_pieces (OddScrapGives     *self,
            const OddCutPlan  *plan,
            const OddCutSizes *sizes)
{
  static const int LABELS[4] = { 0, 1, 2, 3 };
  const OddPlacement turn = { plan->turn_deg, FALSE, { 0.0, 0.0 } };
  const OddPlacement back = odd_placement_inverse (&turn);

  for (guint i = 0; i < plan->pieces->len; i++)
    {
      const OddPlanned *planned = &g_array_index (plan->pieces, OddPlanned, i);
      const OddTemplate *size = &sizes->templates[planned->template];
      g_autoptr(OddConvex) box = odd_convex_new_rectangle ((OddBox) { planned->at.x, planned->at.y, size->width_mm, size->length_mm }, LABELS);
      const OddGivenPiece piece = { planned->template, odd_convex_place (box, &back) };

      g_array_append_val (self->pieces, piece);
      self->n[planned->template]++;
    }
}

static OddScrapGives *
scrap_gives_new (OddId    scrap_id,
                 gboolean left)
{
  OddScrapGives *self = g_new0 (OddScrapGives, 1);

  self->scrap_id = scrap_id;
  self->left = left;
  self->pieces = g_array_new (FALSE, FALSE, sizeof (OddGivenPiece));
  g_array_set_clear_func (self->pieces, clear_piece);

  return self;
}

static void
weigh (OddScrapGives   *self,
       const OddFabric *fabric)
{
  if (fabric != NULL)
    self->grams = fabric->gsm * self->cloth_mm2 / 1e6;
}

/* Too thin for any plan, but cloth that a maker sees in her tub. */
static double
measure_cloth (OddJob   *job,
               OddScrap *scrap)
{
  g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (job, scrap);
  double mm2 = 0.0;

  for (guint i = 0; i < cloth->len; i++)
    mm2 += odd_polygon_get_area (cloth->pdata[i]);

  return mm2;
}

/* Plans come in the job's order, those of one scrap's pieces one after another. What is left of a scrap and gives nothing is waste, not a scrap
 * that she could put by. */
static void
collect (OddGives  *self,
         OddJob    *job,
         GPtrArray *plans)
{
  guint next = 0;

  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddScrap *scrap = job->scraps->pdata[i];
      const OddScrapState state = odd_job_get_scrap_state (job, scrap->id);
      OddScrapGives *gives = scrap_gives_new (scrap->id, state != ODD_SCRAP_FREE);

      for (; next < plans->len && ((OddScrapPlan *) plans->pdata[next])->scrap_id == scrap->id; next++)
        {
          const OddScrapPlan *plan = plans->pdata[next];

          gives->cloth_mm2 += plan->cloth_mm2;
          add_pieces (gives, plan->plan, &self->sizes);
        }
      if (gives->cloth_mm2 <= 0.0 && state == ODD_SCRAP_FREE)
        gives->cloth_mm2 = measure_cloth (job, scrap);
      weigh (gives, odd_job_get_scrap_fabric (job, scrap));
      if (state == ODD_SCRAP_FREE || gives->pieces->len > 0)
        g_ptr_array_add (self->scraps, gives);
      else
        scrap_gives_free (gives);
    }
}

/* --- what stays usable --- */

typedef struct { OddJob *job; GPtrArray *scraps; } Offcutting;

static GPtrArray *
dup_left (OddJob              *job,
          const OddScrapGives *self)
{
  g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (job, odd_job_get_scrap (job, self->scrap_id));
  g_autoptr(GPtrArray) shapes = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  GPtrArray *left = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  for (guint k = 0; k < self->pieces->len; k++)
    g_ptr_array_add (shapes, odd_polygon_new_from_convex (g_array_index (self->pieces, OddGivenPiece, k).shape));
  for (guint i = 0; i < cloth->len; i++)
    g_ptr_array_extend_and_steal (left, odd_polygon_difference_many (cloth->pdata[i], (OddPolygon *const *) shapes->pdata, shapes->len));

  return left;
}

/* Less than the usable square in all; to cut shapes out of cloth costs more than to find where they lie. */
static gboolean
is_surely_waste (OddJob              *job,
                 const OddScrapGives *scrap)
{
  double mm2 = scrap->cloth_mm2;

  for (guint k = 0; k < scrap->pieces->len; k++)
    mm2 -= odd_convex_area (g_array_index (scrap->pieces, OddGivenPiece, k).shape);

  return mm2 < job->settings.usable_square_mm * job->settings.usable_square_mm;
}

static void
measure_offcuts (guint    item,
                 gpointer data)
{
  const Offcutting *self = data;
  OddScrapGives *scrap = self->scraps->pdata[item];
  g_autoptr(GPtrArray) left = NULL;

  if (scrap->pieces->len == 0 || is_surely_waste (self->job, scrap))
    return;
  left = dup_left (self->job, scrap);
  for (guint i = 0; i < left->len; i++)
    if (odd_piece_holds_square (left->pdata[i], self->job->settings.usable_square_mm))
      scrap->offcuts_mm2 += odd_polygon_get_area (left->pdata[i]);
}

OddGives *
odd_gives_new (OddJob            *job,
               const OddCutSizes *sizes,
               OddGivesWhat       what,
               GCancellable      *cancellable,
               GError           **error)
{
  g_autoptr(OddGives) self = NULL;
  g_autoptr(GPtrArray) plans = NULL;
  OddProposalOptions options;
  Offcutting offcutting;

  g_return_val_if_fail (job != NULL && sizes != NULL, NULL);

  if (!odd_templates_check (sizes->templates, sizes->n_templates, sizes->allowance_mm, error))
    return NULL;
  odd_proposal_options_init (&options, job, ODD_PIECE_SQUARES);
  memcpy (options.templates, sizes->templates, sizeof options.templates);
  options.n_templates = sizes->n_templates;
  options.remains = (what & ODD_GIVES_REMAINS) != 0;
  plans = odd_cut_plans_new (job, &options, sizes->allowance_mm, cancellable, error);
  if (plans == NULL)
    return NULL;

  self = g_atomic_rc_box_new0 (OddGives);
  self->sizes = *sizes;
  self->what = what;
  self->scraps = g_ptr_array_new_with_free_func (scrap_gives_free);
  self->by_id = g_hash_table_new (NULL, NULL);
  collect (self, job, plans);
  offcutting = (Offcutting) { job, self->scraps };
  if ((what & ODD_GIVES_YIELD) && !odd_for_each_item (self->scraps->len, 0, measure_offcuts, &offcutting, cancellable, error))
    return NULL;
  for (guint i = 0; i < self->scraps->len; i++)
    {
      OddScrapGives *scrap = self->scraps->pdata[i];

      g_hash_table_insert (self->by_id, GUINT_TO_POINTER (scrap->scrap_id), scrap);
    }

  return g_steal_pointer (&self);
}

OddGives *
odd_gives_ref (OddGives *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
gives_clear (gpointer data)
{
  OddGives *self = data;

  g_hash_table_unref (self->by_id);
  g_ptr_array_unref (self->scraps);
}

void
odd_gives_unref (OddGives *self)
{
  g_atomic_rc_box_release_full (self, gives_clear);
}

const OddScrapGives *
odd_gives_find (const OddGives *self,
                OddId           scrap_id)
{
  g_return_val_if_fail (self != NULL, NULL);

  return g_hash_table_lookup (self->by_id, GUINT_TO_POINTER (scrap_id));
}

static double
template_mm2 (const OddCutSizes *sizes,
              guint              t,
              double             allowance_mm)
{
  return (sizes->templates[t].width_mm - 2.0 * allowance_mm) * (sizes->templates[t].length_mm - 2.0 * allowance_mm);
}

double
odd_gives_get_finished_mm2 (const OddGives      *self,
                            const OddScrapGives *scrap)
{
  double mm2 = 0.0;

  for (guint t = 0; t < self->sizes.n_templates; t++)
    mm2 += scrap->n[t] * template_mm2 (&self->sizes, t, self->sizes.allowance_mm);

  return mm2;
}

static void
add_none (OddGivesSum         *self,
          const OddScrapGives *scrap)
{
  self->n_none++;
  self->none_mm2 += scrap->cloth_mm2;
  self->none_grams += scrap->grams;
  self->n_weighed += scrap->grams > 0.0;
}

static void
add_scrap (OddGivesSum         *self,
           const OddGives      *gives,
           const OddScrapGives *scrap)
{
  self->n_scraps++;
  self->n_left += scrap->left;
  self->cloth_mm2 += scrap->cloth_mm2;
  self->finished_mm2 += odd_gives_get_finished_mm2 (gives, scrap);
  self->n_pieces += scrap->pieces->len;
  self->n_pieces_left += scrap->left ? scrap->pieces->len : 0;
  for (guint t = 0; t < gives->sizes.n_templates; t++)
    {
      self->n[t] += scrap->n[t];
      self->cut_mm2 += scrap->n[t] * template_mm2 (&gives->sizes, t, 0.0);
    }
  if (scrap->pieces->len == 0)
    add_none (self, scrap);
  else
    self->used_mm2 += scrap->cloth_mm2 - scrap->offcuts_mm2;
}

void
odd_gives_sum (const OddGives *self,
               const OddId    *ids,
               guint           n_ids,
               OddGivesSum    *out)
{
  g_return_if_fail (self != NULL && out != NULL);

  *out = (OddGivesSum) { 0 };
  for (guint i = 0; ids == NULL && i < self->scraps->len; i++)
    add_scrap (out, self, self->scraps->pdata[i]);
  for (guint i = 0; ids != NULL && i < n_ids; i++)
    {
      const OddScrapGives *scrap = odd_gives_find (self, ids[i]);

      if (scrap != NULL)
        add_scrap (out, self, scrap);
    }
  out->own_bound = out->cut_mm2 > 0.0 ? out->finished_mm2 / out->cut_mm2
                                      : template_mm2 (&self->sizes, 0, self->sizes.allowance_mm) / template_mm2 (&self->sizes, 0, 0.0);
  out->of_heap = out->cloth_mm2 > 0.0 ? out->finished_mm2 / out->cloth_mm2 : 0.0;
  out->net_yield = !(self->what & ODD_GIVES_YIELD) ? NAN : out->used_mm2 > 0.0 ? out->finished_mm2 / out->used_mm2 : 0.0;
  out->fit = out->net_yield / out->own_bound;
}
