#include "config.h"

#include "sewing/found.h"

#include <glib/gi18n.h>

#include "sewing/stage.h"

#include "sewing/progress.h"

void
odd_found_clear (OddFound *found)
{
  g_clear_pointer (&found->layout, odd_layout_unref);
  g_clear_pointer (&found->textile, odd_textile_layout_unref);
}

static gboolean
find_in_panel (OddFound *found,
               OddId     seam_id)
{
  for (guint i = 0; i < found->layout->n_seams; i++)
    if (found->layout->seams[i].seam->id == seam_id)
      {
        found->index = i;
        found->seam = found->layout->seams[i].seam;
        found->finish = found->layout->seams[i].finish;
        return TRUE;
      }
  return FALSE;
}

static gboolean
find_in_joins (OddFound *found,
               OddId     seam_id)
{
  for (guint i = 0; i < found->textile->n_joins; i++)
    if (found->textile->joins[i].join->id == seam_id)
      {
        found->index = i;
        found->seam = found->textile->joins[i].join;
        found->finish = found->textile->joins[i].finish;
        return TRUE;
      }
  return FALSE;
}

/* Where it hangs a trim may have left nothing of the seam, as of what lies beyond a shorter neighbour: it is still on the table, and sewn or not. */
static gboolean
find_untrimmed (OddFound *found,
                OddJob   *job,
                OddId     seam_id)
{
  if (!find_in_panel (found, seam_id))
    return FALSE;
  if (found->layout->seams[found->index].raw_length_mm > 0.0)
    return TRUE;
  odd_layout_unref (found->layout);
  found->layout = odd_job_dup_layout_apart (job, found->panel->id);
  return find_in_panel (found, seam_id);
}

gboolean
odd_found_init (OddFound  *found,
                OddJob    *job,
                OddId      seam_id,
                GError   **error)
{
  OddTextile *textile = NULL;

  found->panel = odd_job_find_panel_of (job, seam_id, &textile, NULL);
  if (textile != NULL)
    found->textile = odd_job_dup_textile_layout (job, textile->id);
  if (found->panel != NULL)
    found->layout = odd_job_dup_layout (job, found->panel->id);
  if ((found->layout != NULL && find_untrimmed (found, job, seam_id)) ||
      (found->panel == NULL && textile != NULL && find_in_joins (found, seam_id)))
    return TRUE;

  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND,
               _("There is no seam with the number %u to work on; choose one of the seams shown."), seam_id);
  return FALSE;
}

/* --- its name --- */

char *
odd_found_dup_name (const OddFound *found,
                    OddJob         *job)
{
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  if (found->layout != NULL)
    {
      first = odd_layout_dup_side (found->layout, found->index, 0);
      second = odd_layout_dup_side (found->layout, found->index, 1);
    }
  else
    {
      first = odd_job_dup_panel_name (job, found->textile->textile->hung[found->index].panel);
      second = odd_job_dup_panel_name (job, found->textile->textile->hung[found->index + 1].panel);
    }
  /* Translators: the two sides of a seam: "7, 8 to 9", "Panel 2 to Panel 3" */
  return g_strdup_printf (_("%s to %s"), first, second);
}
