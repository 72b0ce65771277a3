/* A lock holds a patch, or all that a strip holds. */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

static gboolean
holds (OddNode *node,
       OddId    id)
{
  return odd_node_find (node, id) != NULL || odd_node_find_seam (node, id, NULL) != NULL;
}

OddNode *
odd_edit_find_lock (OddPanel *panel,
                    OddId     id)
{
  OddNode *node = panel->root;

  while (node != NULL && holds (node, id))
    {
      OddNode *next = NULL;

      if (node->locked)
        return node;
      for (guint i = 0; node->kind == ODD_NODE_STRIP && i < node->n_parts && next == NULL; i++)
        if (holds (node->parts[i], id))
          next = node->parts[i];
      node = next;
    }
  return NULL;
}

gboolean
odd_edit_check_lock (OddJob    *job,
                     OddPanel  *panel,
                     OddId      id,
                     GError   **error)
{
  OddNode *lock = odd_edit_find_lock (panel, id);
  g_autoptr(OddLayout) layout = NULL;
  const OddPatch *patch;

  if (lock == NULL)
    return TRUE;
  layout = odd_job_dup_layout_apart (job, panel->id);
  patch = odd_layout_find_patch (layout, id);
  if (patch == NULL)
    g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("The strip of this seam is locked. Unlock it first."));
  else if (lock->kind == ODD_NODE_LEAF)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Patch %u is locked. Unlock it first."), patch->number);
  else
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Patch %u lies in a locked strip. Unlock the strip first."), patch->number);
  return FALSE;
}
