#include "config.h"

#include "sewing/unpick.h"

#include <glib/gi18n.h>

#include "sewing/found.h"
#include "sewing/stage.h"

void
odd_unpicking_free (OddUnpicking *self)
{
  g_array_unref (self->seams);
  g_free (self);
}

static double
raw_length (const OddFound *found)
{
  return found->layout != NULL ? found->layout->seams[found->index].raw_length_mm : found->textile->joins[found->index].raw_length_mm;
}

static gboolean
is_stitching (const OddOperation *operation)
{
  if (operation->before_joining)
    return FALSE;
  return operation->kind == ODD_OPERATION_SEW || operation->kind == ODD_OPERATION_NEATEN || operation->kind == ODD_OPERATION_TOPSTITCH;
}

static double
stitching_of (const OddFound *found)
{
  guint n_rows = 0;

  for (guint i = 0; i < found->finish->n_operations; i++)
    if (is_stitching (&found->finish->operations[i]) && odd_progress_get_state (found->seam->progress, i) == ODD_STATE_DONE)
      n_rows++;
  return n_rows * raw_length (found);
}

static gboolean
holds (GArray *seams,
       OddId   id)
{
  for (guint i = 0; i < seams->len; i++)
    if (g_array_index (seams, OddId, i) == id)
      return TRUE;
  return FALSE;
}

/* The seam or join that crosses an end; 0: none. */
static OddId
get_crossing (const OddLayout *layout,
              const OddEnd    *end)
{
  return end->label >= 0 ? layout->seams[end->label].seam->id : layout->edges[-1 - end->label].join_id;
}

/* What crosses a seam lies above it in the tree, or is a join; where a trim left seams that end on one another, @seen ends the walk. What is opened
 * first is added first. */
static void
add_with_crossing (OddUnpicking *plan,
                   GArray       *seen,
                   OddJob       *job,
                   OddId         seam_id)
{
  g_auto(OddFound) found = { 0 };

  if (seam_id == 0 || holds (seen, seam_id) || !odd_found_init (&found, job, seam_id, NULL) || !odd_seam_is_sewn (found.seam, found.finish))
    return;
  g_array_append_val (seen, seam_id);
  for (guint end = 0; found.layout != NULL && end < 2; end++)
    add_with_crossing (plan, seen, job, get_crossing (found.layout, &found.layout->seams[found.index].ends[end]));
  g_array_append_val (plan->seams, seam_id);
  plan->stitching_mm += stitching_of (&found);
}

/* Nothing else takes a seam out of the job that was worked on, than that its cloth was cut up or taken apart. */
static void
say_gone (OddJob  *job,
          OddId    seam_id,
          GError **error)
{
  for (guint i = job->record->len; i-- > 0; )
    {
      const OddAct *act = job->record->pdata[i];

      if (act->seam_id == seam_id && act->name != NULL)
        {
          g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                       _("%s cannot be unpicked: its cloth is cut up or taken apart by now. Look for its pieces among the scraps."), act->name);
          return;
        }
    }
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no seam %u to unpick; choose one of the seams shown."), seam_id);
}

OddUnpicking *
odd_job_plan_unpicking (OddJob  *job,
                        OddId    seam_id,
                        GError **error)
{
  g_auto(OddFound) found = { 0 };
  g_autoptr(GArray) seen = NULL;
  OddUnpicking *plan;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!odd_found_init (&found, job, seam_id, NULL))
    {
      say_gone (job, seam_id, error);
      return NULL;
    }
  if (!odd_seam_is_sewn (found.seam, found.finish))
    {
      g_autofree char *name = odd_found_dup_name (&found, job);

      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("The seam %s is not sewn, so there is nothing to unpick. Move or change it as it is."), name);
      return NULL;
    }
  plan = g_new0 (OddUnpicking, 1);
  plan->seams = g_array_new (FALSE, FALSE, sizeof (OddId));
  seen = g_array_new (FALSE, FALSE, sizeof (OddId));
  add_with_crossing (plan, seen, job, seam_id);
  return plan;
}

/* What stays done when the stitching is out: what each edge had before. */
static OddProgress *
progress_before_joining (const OddFound *found)
{
  OddProgress *left = NULL;

  for (guint i = 0; i < found->finish->n_operations; i++)
    if (found->finish->operations[i].before_joining && odd_progress_get_state (found->seam->progress, i) != ODD_STATE_OPEN)
      {
        OddProgress *with = odd_progress_with (left, i, odd_progress_get_state (found->seam->progress, i), odd_progress_get_reason (found->seam->progress, i));

        odd_progress_unref (left);
        left = with;
      }
  return left;
}

static OddJob *
open_seam (OddJob  *job,
           OddId    seam_id,
           GError **error)
{
  g_auto(OddFound) found = { 0 };
  g_autoptr(OddProgress) left = NULL;

  if (!odd_found_init (&found, job, seam_id, error))
    return NULL;
  left = progress_before_joining (&found);
  return odd_job_open_seam (job, seam_id, left, error);
}

OddJob *
odd_job_unpick (OddJob  *job,
                OddId    seam_id,
                double   lost_mm,
                GError **error)
{
  g_autoptr(OddUnpicking) plan = NULL;
  g_autoptr(OddJob) after = NULL;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  plan = odd_job_plan_unpicking (job, seam_id, error);
  if (plan == NULL)
    return NULL;
  after = odd_job_ref (job);
  for (guint i = 0; i < plan->seams->len; i++)
    {
      OddJob *next = open_seam (after, g_array_index (plan->seams, OddId, i), error);

      if (next == NULL)
        return NULL;
      odd_job_unref (after);
      after = next;
    }
  return lost_mm != 0.0 ? odd_job_narrow_seam (after, seam_id, lost_mm, error) : g_steal_pointer (&after);
}

gboolean
odd_job_seam_is_trimmed (OddJob *job,
                         OddId   seam_id)
{
  g_auto(OddFound) found = { 0 };

  if (!odd_found_init (&found, job, seam_id, NULL))
    return FALSE;
  for (guint i = 0; i < found.finish->n_operations; i++)
    if (found.finish->operations[i].kind == ODD_OPERATION_TRIM && odd_progress_get_state (found.seam->progress, i) == ODD_STATE_DONE)
      return TRUE;
  return FALSE;
}
