/* Finish, allowance and progress.
 *
 * A change of allowance moves cloth. Seams that have been worked on keep the finish and allowance they were sewn with: where a
 * wider level changes around them, what they had inherited is written down at the seam itself.
 */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

/* --- one panel after a change of levels or finishes --- */

static gboolean
laid_changed (const OddLaidSeam *was,
              const OddLaidSeam *is)
{
  return was->finish->id != is->finish->id || was->planned_allowance_mm != is->planned_allowance_mm;
}

/* The panel with the seams that have been worked on pinned to what they had. */
static OddPanel *
pin_touched (OddPanel        *panel,
             const OddLayout *was,
             const OddLayout *is)
{
  OddPanel *pinned = odd_panel_ref (panel);

  for (guint i = 0; i < was->n_seams; i++)
    {
      OddSeam seam = *was->seams[i].seam;
      g_autoptr(OddNode) root = NULL;
      OddPanel *changed;
      OddNode *strip;
      guint index = 0;

      if (!odd_seam_is_touched (&seam) || !laid_changed (&was->seams[i], &is->seams[i]))
        continue;
      strip = odd_node_find_seam (pinned->root, seam.id, &index);
      seam = strip->seams[index];
      seam.treatment = (OddTreatment) { was->seams[i].finish->id, was->seams[i].planned_allowance_mm };
      root = odd_node_replace_seam (pinned->root, &seam);
      changed = odd_panel_with_root (pinned, root);
      odd_panel_unref (pinned);
      pinned = changed;
    }
  return pinned;
}

static gboolean
any_allowance_changed (const OddLayout *was,
                       const OddLayout *is)
{
  for (guint i = 0; i < was->n_seams; i++)
    if (was->seams[i].allowance_mm != is->seams[i].allowance_mm)
      return TRUE;
  for (guint i = 0; i < was->n_edges; i++)
    if (was->edges[i].allowance_mm != is->edges[i].allowance_mm)
      return TRUE;
  return FALSE;
}

/* Patches that are cut out keep their cut shape: their size cannot be kept. */
static gboolean
check_none_cut (OddJob           *job,
                OddPanel         *panel,
                const OddLayout  *was,
                const OddLayout  *is,
                GError          **error)
{
  g_autofree char *name = odd_job_dup_panel_name (job, panel);

  for (guint i = 0; i < was->n_patches; i++)
    if (was->patches[i].leaf->cut == ODD_STATE_DONE && !odd_convex_equal (was->patches[i].cut, is->patches[i].cut, ODD_TOLERANCE_MM))
      {
        g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                     _("%s, patch %u is cut out already; it cannot grow. Keep the cut instead."), name, was->patches[i].number);
        return FALSE;
      }
  return TRUE;
}

/* @panel stands in @after with the new levels; @before holds it as it was. (transfer full) what it becomes, or NULL with error. */
static OddPanel *
resettle_panel (OddJob    *before,
                OddJob    *after,
                OddId      panel_id,
                gboolean   keep_cut,
                GError   **error)
{
  OddTextile *textile_before = NULL, *textile_after = NULL;
  OddPanel *panel_before = odd_job_get_panel (before, panel_id, &textile_before, NULL);
  OddPanel *panel = odd_job_get_panel (after, panel_id, &textile_after, NULL);
  g_autoptr(OddLayout) was = odd_layout_new_alone (before, textile_before, panel_before);
  g_autoptr(OddLayout) is = odd_layout_new_alone (after, textile_after, panel);
  g_autoptr(OddPanel) pinned = pin_touched (panel, was, is);
  OddPanel *moved;

  if (pinned != panel)
    {
      g_clear_pointer (&is, odd_layout_unref);
      is = odd_layout_new_alone (after, textile_after, pinned);
    }
  if (!any_allowance_changed (was, is))
    return g_steal_pointer (&pinned);
  if (!keep_cut)
    return check_none_cut (before, panel, was, is, error) ? g_steal_pointer (&pinned) : NULL;
  moved = odd_panel_reassemble (pinned, was, is);
  if (moved == NULL)
    {
      g_autofree char *name = odd_job_dup_panel_name (before, panel);

      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                   _("With this allowance the seams would take all the cloth of %s. Choose a narrower one."), name);
    }
  return moved;
}

static GArray *
panel_ids (OddJob *job)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  for (guint t = 0; t < job->textiles->len; t++)
    {
      OddTextile *textile = job->textiles->pdata[t];

      for (guint i = 0; i < textile->n_hung; i++)
        g_array_append_val (ids, textile->hung[i].panel->id);
    }
  for (guint i = 0; i < job->loose_panels->len; i++)
    g_array_append_val (ids, ((OddPanel *) job->loose_panels->pdata[i])->id);
  return ids;
}

/* Joins that have been worked on are pinned like seams. */
static OddJob *
pin_joins (OddJob *before,
           OddJob *after)
{
  OddJob *job = odd_job_ref (after);

  for (guint t = 0; t < before->textiles->len; t++)
    {
      OddTextile *was = before->textiles->pdata[t];

      for (guint i = 0; i + 1 < was->n_hung; i++)
        {
          OddTextile *is = odd_job_get_textile (job, was->id);
          const OddTreatment *const levels_was[] = { &was->treatment, &was->joins[i].treatment };
          const OddTreatment *const levels_is[] = { &is->treatment, &is->joins[i].treatment };
          OddFinish *finish_was, *finish_is;
          double mm_was, mm_is;
          OddSeam join;
          g_autoptr(OddTextile) pinned = NULL;
          OddJob *changed;

          odd_job_resolve (before, levels_was, 2, &finish_was, &mm_was);
          odd_job_resolve (job, levels_is, 2, &finish_is, &mm_is);
          if (!odd_seam_is_touched (&was->joins[i]) || (finish_was->id == finish_is->id && mm_was == mm_is))
            continue;
          join = is->joins[i];
          join.treatment = (OddTreatment) { finish_was->id, mm_was };
          pinned = odd_textile_with_join (is, i, &join);
          changed = odd_edit_with_textile (job, pinned);
          odd_job_unref (job);
          job = changed;
        }
    }
  return job;
}

OddJob *
odd_edit_resettle (OddJob    *before,
                   OddJob    *after,
                   gboolean   keep_cut,
                   GError   **error)
{
  g_autoptr(GArray) ids = panel_ids (after);
  g_autoptr(OddJob) job = pin_joins (before, after);

  for (guint i = 0; i < ids->len; i++)
    {
      const OddId id = g_array_index (ids, OddId, i);
      g_autoptr(OddPanel) settled = resettle_panel (before, job, id, keep_cut, error);

      if (settled == NULL)
        return NULL;
      if (settled != odd_job_get_panel (job, id, NULL, NULL))
        {
          OddJob *changed = odd_edit_with_panel (job, settled);

          odd_job_unref (job);
          job = changed;
        }
    }
  return g_steal_pointer (&job);
}

/* --- levels --- */

static gboolean
check_treatment (OddJob              *self,
                 const OddTreatment  *treatment,
                 GError             **error)
{
  if (treatment->finish_id != 0 && odd_job_get_finish (self, treatment->finish_id) == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no finish %u in this job"), treatment->finish_id);
      return FALSE;
    }
  if (!isnan (treatment->allowance_mm) && !(treatment->allowance_mm >= 1.0 && treatment->allowance_mm <= 100.0))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                   _("An allowance of %g mm cannot be sewn; it must lie between 1 mm and 10 cm"), treatment->allowance_mm);
      return FALSE;
    }
  return TRUE;
}

static gboolean
refuse_touched (GError **error)
{
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                       _("This seam has been worked on and keeps its finish. Unpick it and take its marks back first."));
  return FALSE;
}

static OddJob *
set_at_job (OddJob             *self,
            const OddTreatment *treatment)
{
  OddJob *job = odd_job_copy (self);

  odd_job_share_index (job, self);
  if (treatment->finish_id != 0)
    job->treatment = (OddTreatment) { treatment->finish_id, odd_job_get_finish (self, treatment->finish_id)->allowance_mm };
  if (!isnan (treatment->allowance_mm))
    job->treatment.allowance_mm = treatment->allowance_mm;
  return job;
}

static OddJob *
set_at_textile (OddJob              *self,
                OddId                id,
                const OddTreatment  *treatment,
                GError             **error)
{
  OddTextile *textile = odd_job_get_textile (self, id);
  g_autoptr(OddTextile) changed = NULL;

  if (textile == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no textile %u in this job"), id);
      return NULL;
    }
  changed = odd_textile_with_treatment (textile, treatment);
  return odd_edit_with_textile (self, changed);
}

static OddJob *
set_at_panel (OddJob              *self,
              OddLevel             level,
              OddId                id,
              guint                edge,
              const OddTreatment  *treatment,
              GError             **error)
{
  OddPanel *panel = odd_edit_get_panel (self, id, NULL, NULL, error);
  g_autoptr(OddPanel) changed = NULL;

  if (panel == NULL)
    return NULL;
  if (level == ODD_LEVEL_EDGE && edge >= panel->outline->n)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("The panel has no edge %u"), edge + 1);
      return NULL;
    }
  changed = level == ODD_LEVEL_EDGE ? odd_panel_with_edge (panel, edge, treatment) : odd_panel_with_treatment (panel, treatment);
  return odd_edit_with_panel (self, changed);
}

static OddJob *
set_at_strip (OddJob              *self,
              OddId                id,
              const OddTreatment  *treatment,
              GError             **error)
{
  OddPanel *panel = odd_edit_get_panel_of (self, id, error);
  OddNode *strip = panel != NULL ? odd_node_find (panel->root, id) : NULL;
  g_autoptr(OddNode) changed_strip = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;

  if (panel == NULL)
    return NULL;
  if (strip == NULL || strip->kind != ODD_NODE_STRIP)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("%u is not a strip"), id);
      return NULL;
    }
  changed_strip = odd_node_with_treatment (strip, treatment);
  root = odd_node_replace (panel->root, id, changed_strip);
  changed = odd_panel_with_root (panel, root);
  return odd_edit_with_panel (self, changed);
}

typedef gboolean (*SeamChange) (OddSeam *seam, gpointer data, GError **error);

/* A seam of a panel or a join, changed by @change on a copy. */
static OddJob *
change_seam (OddJob      *self,
             OddId        seam_id,
             SeamChange   change,
             gpointer     data,
             GError     **error)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_find_panel_of (self, seam_id, &textile, &index);
  OddSeam seam;

  if (panel == NULL && textile != NULL)
    {
      g_autoptr(OddTextile) changed = NULL;

      seam = textile->joins[index];
      if (!change (&seam, data, error))
        return NULL;
      changed = odd_textile_with_join (textile, index, &seam);
      return odd_edit_with_textile (self, changed);
    }
  else
    {
      OddNode *strip = panel != NULL ? odd_node_find_seam (panel->root, seam_id, &index) : NULL;
      g_autoptr(OddNode) root = NULL;
      g_autoptr(OddPanel) changed = NULL;

      if (strip == NULL)
        {
          g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no seam %u in this job"), seam_id);
          return NULL;
        }
      seam = strip->seams[index];
      if (!change (&seam, data, error))
        return NULL;
      root = odd_node_replace_seam (panel->root, &seam);
      changed = odd_panel_with_root (panel, root);
      return odd_edit_with_panel (self, changed);
    }
}

static gboolean
change_treatment (OddSeam   *seam,
                  gpointer   data,
                  GError   **error)
{
  if (odd_seam_is_touched (seam))
    return refuse_touched (error);
  seam->treatment = *(const OddTreatment *) data;
  return TRUE;
}

OddJob *
odd_job_set_treatment (OddJob              *self,
                       OddLevel             level,
                       OddId                id,
                       guint                edge,
                       const OddTreatment  *treatment,
                       gboolean             keep_cut,
                       GError             **error)
{
  g_autoptr(OddJob) after = NULL;

  if (!check_treatment (self, treatment, error))
    return NULL;
  switch (level)
    {
    case ODD_LEVEL_JOB:
      after = set_at_job (self, treatment);
      break;
    case ODD_LEVEL_TEXTILE:
      after = set_at_textile (self, id, treatment, error);
      break;
    case ODD_LEVEL_PANEL:
    case ODD_LEVEL_EDGE:
      after = set_at_panel (self, level, id, edge, treatment, error);
      break;
    case ODD_LEVEL_STRIP:
      after = set_at_strip (self, id, treatment, error);
      break;
    case ODD_LEVEL_SEAM:
      after = change_seam (self, id, change_treatment, (gpointer) treatment, error);
      break;
    default:
      g_return_val_if_reached (NULL);
    }
  return after != NULL ? odd_edit_resettle (self, after, keep_cut, error) : NULL;
}

/* --- the finishes themselves --- */

static gboolean
operations_equal (const OddFinish *a,
                  const OddFinish *b)
{
  if (a->n_operations != b->n_operations)
    return FALSE;
  for (guint i = 0; i < a->n_operations; i++)
    if (a->operations[i].kind != b->operations[i].kind || a->operations[i].station != b->operations[i].station)
      return FALSE;
  return TRUE;
}

static gboolean
treatment_uses (const OddTreatment *treatment,
                OddId               finish_id)
{
  return treatment->finish_id == finish_id;
}

typedef struct { OddJob *job; OddId finish_id; gboolean touched, named; } Use;

static gboolean
look_for_use (OddNode  *node,
              gpointer  data)
{
  Use *use = data;

  use->named |= treatment_uses (&node->treatment, use->finish_id);
  for (guint i = 0; i + 1 < node->n_parts; i++)
    use->named |= treatment_uses (&node->seams[i].treatment, use->finish_id);
  return TRUE;
}

static void
look_in_panel (Use      *use,
               OddPanel *panel)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (use->job, panel->id);

  use->named |= treatment_uses (&panel->treatment, use->finish_id);
  for (guint i = 0; i < panel->outline->n; i++)
    use->named |= treatment_uses (&panel->edges[i].treatment, use->finish_id);
  odd_node_foreach (panel->root, look_for_use, use);
  for (guint i = 0; i < layout->n_seams; i++)
    use->touched |= layout->seams[i].finish->id == use->finish_id && odd_seam_is_touched (layout->seams[i].seam);
}

/* Where a finish is named, and whether a seam finished that way has been worked on. */
static Use
look_for_finish (OddJob *job,
                 OddId   finish_id)
{
  Use use = { job, finish_id, FALSE, treatment_uses (&job->treatment, finish_id) };

  for (guint t = 0; t < job->textiles->len; t++)
    {
      OddTextile *textile = job->textiles->pdata[t];

      use.named |= treatment_uses (&textile->treatment, finish_id);
      for (guint i = 0; i < textile->n_hung; i++)
        look_in_panel (&use, textile->hung[i].panel);
      for (guint i = 0; i + 1 < textile->n_hung; i++)
        {
          const OddTreatment *const levels[] = { &textile->treatment, &textile->joins[i].treatment };
          OddFinish *finish = NULL;

          use.named |= treatment_uses (&textile->joins[i].treatment, finish_id);
          odd_job_resolve (job, levels, 2, &finish, NULL);
          use.touched |= finish->id == finish_id && odd_seam_is_touched (&textile->joins[i]);
        }
    }
  for (guint i = 0; i < job->loose_panels->len; i++)
    look_in_panel (&use, job->loose_panels->pdata[i]);
  for (guint i = 0; i < job->scraps->len; i++)
    if (((OddScrap *) job->scraps->pdata[i])->piece != NULL)
      look_in_panel (&use, ((OddScrap *) job->scraps->pdata[i])->piece);
  return use;
}

OddJob *
odd_job_put_finish (OddJob           *self,
                    const OddFinish  *values,
                    gboolean          keep_cut,
                    OddId            *out_id,
                    GError          **error)
{
  OddFinish *was = values->id != 0 ? odd_job_get_finish (self, values->id) : NULL;
  g_autoptr(OddFinish) finish = NULL;
  g_autoptr(OddJob) swapped = NULL;
  OddJob *job;

  if (values->id == 0)
    return odd_edit_add_finish (self, values, out_id, error);
  if (was == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no finish %u in this job"), values->id);
      return NULL;
    }
  finish = odd_finish_new (values, error);
  if (finish == NULL)
    return NULL;
  if (g_strcmp0 (finish->key, was->key) != 0 && odd_job_get_finish_by_key (self, finish->key) != NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN, _("There is a finish “%s” already. Give this one another name."), finish->key);
      return NULL;
    }
  if (!operations_equal (was, finish) && look_for_finish (self, finish->id).touched)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("Seams are already sewn with “%s”. Add a new finish instead of changing its steps."), was->name);
      return NULL;
    }
  swapped = odd_edit_swap_finish (self, finish);
  /* The job's own allowance came with the finish: it follows it. */
  if (swapped->treatment.finish_id == finish->id && self->treatment.allowance_mm == was->allowance_mm)
    swapped->treatment.allowance_mm = finish->allowance_mm;
  job = odd_edit_resettle (self, swapped, keep_cut, error);
  if (job != NULL && out_id != NULL)
    *out_id = finish->id;
  return job;
}

OddJob *
odd_job_remove_finish (OddJob  *self,
                       OddId    id,
                       GError **error)
{
  OddFinish *finish = odd_job_get_finish (self, id);

  if (finish == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no finish %u in this job"), id);
      return NULL;
    }
  if (look_for_finish (self, id).named)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("“%s” is in use. Give its seams another finish first."), finish->name);
      return NULL;
    }
  return odd_edit_drop_finish (self, id);
}

/* --- progress --- */

static gboolean
change_pressed (OddSeam   *seam,
                gpointer   data,
                GError   **error)
{
  seam->pressed_to = GPOINTER_TO_UINT (data);
  return TRUE;
}

OddJob *
odd_job_set_pressed (OddJob      *self,
                     OddId        seam_id,
                     OddPressed   pressed,
                     GError     **error)
{
  return change_seam (self, seam_id, change_pressed, GUINT_TO_POINTER (pressed), error);
}

static gboolean
change_progress (OddSeam   *seam,
                 gpointer   data,
                 GError   **error)
{
  /* Borrowed: change_seam() copies the seam with a reference of its own. */
  seam->progress = data;
  return TRUE;
}

OddJob *
odd_job_set_progress (OddJob       *self,
                      OddId         seam_id,
                      OddProgress  *progress,
                      GError      **error)
{
  OddJob *after = change_seam (self, seam_id, change_progress, progress, error);

  return after != NULL ? odd_edit_forget_unsewn (after, seam_id, error) : NULL;
}

static gboolean
change_secured (OddSeam   *seam,
                gpointer   data,
                GError   **error)
{
  const guint code = GPOINTER_TO_UINT (data);

  seam->end_secured[code & 1] = (code & 2) != 0;
  return TRUE;
}

static gboolean
change_opened (OddSeam   *seam,
               gpointer   data,
               GError   **error)
{
  /* Borrowed, as in change_progress(). */
  seam->progress = data;
  for (guint end = 0; end < 2; end++)
    seam->end_secured[end] = seam->end_cut[end] = FALSE;
  return TRUE;
}

OddJob *
odd_job_open_seam (OddJob       *self,
                   OddId         seam_id,
                   OddProgress  *left,
                   GError      **error)
{
  OddJob *after = change_seam (self, seam_id, change_opened, left, error);

  return after != NULL ? odd_edit_forget_unsewn (after, seam_id, error) : NULL;
}

OddJob *
odd_job_set_end_secured (OddJob    *self,
                         OddId      seam_id,
                         guint      end,
                         gboolean   secured,
                         GError   **error)
{
  g_return_val_if_fail (end < 2, NULL);

  return change_seam (self, seam_id, change_secured, GUINT_TO_POINTER (end | (secured ? 2 : 0)), error);
}
