/* Edits that follow what was done to cloth: an edge trimmed off. */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

static gboolean
is_sewn (const OddLaidSeam *laid)
{
  return odd_progress_get_state (laid->seam->progress, odd_finish_first_sew (laid->finish)) == ODD_STATE_DONE;
}

/* Scissors along the edge went through the stitching of every seam that ends on it. */
static OddNode *
cut_ends (OddNode         *root,
          const OddLayout *alone,
          guint            edge)
{
  OddNode *changed = odd_node_ref (root);

  for (guint i = 0; i < alone->n_seams; i++)
    for (guint end = 0; end < 2; end++)
      {
        const int label = alone->seams[i].ends[end].label;
        OddNode *strip, *next;
        OddSeam seam;
        guint index = 0;

        if (!is_sewn (&alone->seams[i]) || label >= 0 || alone->edges[-1 - label].outline_edge != (int) edge)
          continue;
        strip = odd_node_find_seam (changed, alone->seams[i].seam->id, &index);
        seam = strip->seams[index];
        seam.end_cut[end] = TRUE;
        seam.end_secured[end] = FALSE;
        next = odd_node_replace_seam (changed, &seam);
        odd_node_unref (changed);
        changed = next;
      }
  return changed;
}

OddJob *
odd_job_trim_edge (OddJob  *self,
                   OddId    panel_id,
                   guint    edge,
                   double   off_mm,
                   GError **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_edit_get_panel (self, panel_id, NULL, NULL, error);
  g_autoptr(OddJob) moved = NULL;
  g_autoptr(OddLayout) alone = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;

  if (panel == NULL)
    return NULL;
  if (edge >= panel->outline->n || !(off_mm > 0.0))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN, _("Edge %u cannot be trimmed by %g mm. Choose one of the %u edges, and more than 0."),
                   edge + 1, off_mm, panel->outline->n);
      return NULL;
    }
  moved = odd_job_move_edge (self, panel_id, edge, -off_mm, error);
  if (moved == NULL)
    return NULL;
  panel = odd_job_get_panel (moved, panel_id, &textile, NULL);
  alone = odd_layout_new_alone (moved, textile, panel);
  root = cut_ends (panel->root, alone, edge);
  changed = odd_panel_with_root (panel, root);
  return odd_edit_with_panel (moved, changed);
}
