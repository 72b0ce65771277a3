/* Marking a task of the plan, whether or not it is the seam's next. */
#include "config.h"

#include "sewing/plan.h"
#include "sewing/stage.h"

#include <glib/gi18n.h>

typedef struct
{
  OddLayout *layout;
  OddTextileLayout *textile;
  const OddSeam *seam;
  const OddFinish *finish;
} Found;

static void
found_clear (Found *found)
{
  g_clear_pointer (&found->layout, odd_layout_unref);
  g_clear_pointer (&found->textile, odd_textile_layout_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Found, found_clear)

static void
find_join (Found *found,
           OddId  id)
{
  for (guint i = 0; i < found->textile->n_joins; i++)
    if (found->textile->joins[i].join->id == id)
      {
        found->seam = found->textile->joins[i].join;
        found->finish = found->textile->joins[i].finish;
      }
}

/* @found: zeroed; clear it whatever is returned. */
static gboolean
find_operation (OddJob           *job,
                const OddTaskKey *key,
                Found            *found,
                GError          **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_find_panel_of (job, key->id, &textile, NULL);

  if (panel != NULL)
    {
      const OddLaidSeam *laid;

      found->layout = odd_job_dup_layout (job, panel->id);
      laid = odd_layout_find_seam (found->layout, key->id);
      found->seam = laid != NULL ? laid->seam : NULL;
      found->finish = laid != NULL ? laid->finish : NULL;
    }
  else if (textile != NULL)
    {
      found->textile = odd_job_dup_textile_layout (job, textile->id);
      find_join (found, key->id);
    }
  if (found->seam != NULL && key->index < found->finish->n_operations)
    return TRUE;
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND,
               _("Operation %u of the seam with the number %u is no longer in the plan; choose one of the operations shown."), key->index + 1, key->id);
  return FALSE;
}

static gboolean
refuse (OddJob           *job,
        const OddTaskKey *key,
        const Found      *found,
        gboolean          even_if_raw,
        GError          **error)
{
  const guint first_sew = odd_finish_first_sew (found->finish);
  g_autofree char *name = odd_job_dup_seam_name (job, key->id);
  g_autoptr(GArray) enclosed = NULL;

  if (key->index > first_sew && !odd_seam_is_sewn (found->seam, found->finish))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("The seam %s is not sewn yet: mark operation %u of it first."), name, first_sew + 1);
      return TRUE;
    }
  enclosed = key->index == first_sew && !even_if_raw ? odd_job_would_enclose (job, key->id) : NULL;
  if (enclosed == NULL || enclosed->len == 0)
    return FALSE;
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               ngettext ("The seam %s would lock in %u seam that is still raw; finish and press it first.",
                         "The seam %s would lock in %u seams that are still raw; finish and press them first.", enclosed->len),
               name, enclosed->len);
  return TRUE;
}

static OddJob *
set_state (OddJob           *job,
           const OddTaskKey *key,
           const Found      *found,
           OddState          state,
           const char       *reason,
           GError          **error)
{
  g_autoptr(OddProgress) progress = odd_progress_with (found->seam->progress, key->index, state, reason);

  return odd_job_set_progress (job, key->id, progress, error);
}

OddJob *
odd_job_do_task (OddJob            *job,
                 const OddTaskKey  *key,
                 gboolean           even_if_raw,
                 GError           **error)
{
  g_auto(Found) found = { 0 };

  g_return_val_if_fail (job != NULL && key != NULL, NULL);

  if (key->kind == ODD_TASK_CUT)
    return odd_job_set_cut (job, key->id, ODD_STATE_DONE, error);
  if (key->kind == ODD_TASK_SECURE)
    return odd_job_set_end_secured (job, key->id, key->index, TRUE, error);
  if (!find_operation (job, key, &found, error) || refuse (job, key, &found, even_if_raw, error))
    return NULL;
  return set_state (job, key, &found, ODD_STATE_DONE, NULL, error);
}

OddJob *
odd_job_skip_task (OddJob            *job,
                   const OddTaskKey  *key,
                   const char        *reason,
                   GError           **error)
{
  g_auto(Found) found = { 0 };
  g_autofree char *name = NULL;

  g_return_val_if_fail (job != NULL && key != NULL, NULL);

  if (key->kind == ODD_TASK_CUT)
    return odd_job_set_cut (job, key->id, ODD_STATE_SKIPPED, error);
  if (key->kind == ODD_TASK_SECURE)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("The cut end of the seam with the number %u comes undone when it is left; stitch it down, then mark it."), key->id);
      return NULL;
    }
  if (!find_operation (job, key, &found, error))
    return NULL;
  if (key->index != odd_finish_first_sew (found.finish))
    return set_state (job, key, &found, ODD_STATE_SKIPPED, reason, error);
  name = odd_job_dup_seam_name (job, key->id);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("Operation %u of the seam %s joins its two sides and cannot be left out; take the seam off instead."), key->index + 1, name);
  return NULL;
}

OddJob *
odd_job_undo_task (OddJob            *job,
                   const OddTaskKey  *key,
                   GError           **error)
{
  g_auto(Found) found = { 0 };

  g_return_val_if_fail (job != NULL && key != NULL, NULL);

  if (key->kind == ODD_TASK_CUT)
    return odd_job_set_cut (job, key->id, ODD_STATE_OPEN, error);
  if (key->kind == ODD_TASK_SECURE)
    return odd_job_set_end_secured (job, key->id, key->index, FALSE, error);
  if (!find_operation (job, key, &found, error))
    return NULL;
  return set_state (job, key, &found, ODD_STATE_OPEN, NULL, error);
}
