#include "config.h"

#include "ui/bias-mark.h"

#include <glib/gi18n.h>

#include "sewing/bias.h"
#include "ui/deed.h"
#include "ui/toast.h"

void
odd_select_next_bias (GtkWidget    *from,
                      OddDocument  *document,
                      OddSelection *selection)
{
  OddJob *job = odd_document_get_job (document);
  g_autoptr(GArray) patches = odd_job_dup_bias (job, 0);
  g_autofree char *text = NULL;
  guint next = 0;

  if (patches->len == 0)
    {
      odd_toast (from, _("No patch has a long edge on the bias that is still to be stayed."), NULL, NULL);
      return;
    }
  for (guint i = 0; i < patches->len; i++)
    if (odd_selection_get_kind (selection) == ODD_SELECTED_PATCH && g_array_index (patches, OddBiasPatch, i).leaf_id == odd_selection_get_id (selection))
      next = (i + 1) % patches->len;
  odd_selection_set (selection, ODD_SELECTED_PATCH, g_array_index (patches, OddBiasPatch, next).leaf_id);
  gtk_widget_activate_action (from, "win.locate", NULL);
  text = g_strdup_printf (_("Edges on the bias: patch %u of %u to stay"), next + 1, patches->len);
  odd_toast (from, text, NULL, NULL);
}

gboolean
odd_mark_stayed (GtkWidget   *from,
                 OddDocument *document,
                 OddId        leaf_id,
                 gboolean     stayed)
{
  const OddAct act = { .kind = ODD_ACT_STAY, .node_id = leaf_id, .state = stayed ? ODD_STATE_DONE : ODD_STATE_OPEN };

  return odd_do (from, document, &act, stayed ? _("Mark edges stayed") : _("Mark edges not stayed"));
}

char *
odd_bias_dup_text (OddJob          *job,
                   const OddLayout *layout,
                   const OddPatch  *patch,
                   OddUnit          unit)
{
  g_autoptr(OddNode) open = odd_node_with_stayed (patch->leaf, ODD_STATE_OPEN);
  OddPatch as_if = *patch;
  g_autoptr(GArray) edges = NULL;
  g_autofree char *length = NULL;
  double length_mm = 0.0, most_deg = 0.0;

  as_if.leaf = open;
  edges = odd_layout_dup_bias_edges (layout, &as_if, &job->settings);
  if (edges->len == 0)
    return NULL;
  for (guint i = 0; i < edges->len; i++)
    {
      length_mm += g_array_index (edges, OddBiasEdge, i).length_mm;
      most_deg = MAX (most_deg, g_array_index (edges, OddBiasEdge, i).off_deg);
    }
  length = odd_length_format (length_mm, unit);
  return g_strdup_printf (ngettext ("%u edge, %s, %.0f° off the threads", "%u edges, %s, up to %.0f° off the threads", edges->len), edges->len, length, most_deg);
}
