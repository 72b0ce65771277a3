/* Panels that are there, pieced better. */
#include "config.h"

#include "piecing/propose-private.h"

#include <glib/gi18n.h>

OddProposal *
odd_improve (OddJob                   *job,
             const OddId              *panels,
             guint                     n_panels,
             const OddProposalOptions *options,
             OddImproveFunc            improve,
             gpointer                  data,
             GCancellable             *cancellable,
             GError                  **error)
{
  g_autoptr(OddFields) fields = NULL;
  g_autoptr(OddSources) sources = NULL;
  g_autoptr(GString) missing = g_string_new (NULL);
  OddProposing self;
  OddJob *better;
  OddProposal *proposal;

  g_return_val_if_fail (job != NULL && options != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  fields = odd_fields_new (job, panels, n_panels, options->part_ids, options->n_part_ids, TRUE, error);
  if (fields == NULL)
    return NULL;
  if (fields->fields->len == 0)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Everything here is locked, cut out or sewn. Unlock what may change."));
      return NULL;
    }
  sources = odd_sources_new_freed (job, fields->job, options);
  self = (OddProposing) { fields->job, options, ((OddField *) fields->fields->pdata[0])->seam_allowance_mm, sources, 0.0, missing, NULL, NULL, cancellable, NULL, 0.0, job };
  if (!odd_sources_check (fields->job, sources, error))
    return NULL;
  better = odd_improve_crumbs (&self, fields, improve, data, error);

  if (better == NULL)
    return NULL;
  proposal = odd_proposal_new (&self, fields->job, better, panels, n_panels, error);
  if (proposal != NULL)
    odd_proposal_note_parts (proposal, fields);

  return proposal;
}
