#include "config.h"

#include "ui/cut-mark.h"

#include "ui/deed.h"

#include <glib/gi18n.h>

#include "sewing/act.h"
#include "ui/toast.h"

static OddNode *
find_leaf (OddJob *job,
           OddId   leaf_id)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  OddNode *leaf = panel != NULL ? odd_node_find (panel->root, leaf_id) : NULL;

  return leaf != NULL && leaf->kind == ODD_NODE_LEAF ? leaf : NULL;
}

static gboolean
apply (GtkWidget    *from,
       OddDocument  *document,
       OddUnit       unit,
       OddId         scrap_id,
       OddJob       *after,
       GError      **error,
       const char   *label)
{
  g_autoptr(OddJob) before = odd_job_ref (odd_document_get_job (document));
  g_autofree char *text = after != NULL ? odd_job_dup_cut_text (before, after, scrap_id, unit) : NULL;

  if (!odd_apply (from, document, after, error, label))
    return FALSE;
  odd_toast (from, text, _("Undo"), "win.undo");
  return TRUE;
}

gboolean
odd_mark_patch_cut (GtkWidget   *from,
                    OddDocument *document,
                    OddUnit      unit,
                    OddId        leaf_id,
                    gboolean     cut)
{
  OddJob *job = odd_document_get_job (document);
  OddNode *leaf = find_leaf (job, leaf_id);
  g_autoptr(GError) error = NULL;
  const OddAct act = {
    .kind = ODD_ACT_CUT, .node_id = leaf_id, .state = cut ? ODD_STATE_DONE : ODD_STATE_OPEN, .clock_s = odd_now_s ()
  };
  OddJob *after;

  if (leaf == NULL)
    return FALSE;
  after = odd_job_do (job, &act, &error);
  return apply (from, document, unit, leaf->scrap_id, after, &error, cut ? _("Mark a patch cut") : _("Mark a patch not cut"));
}

gboolean
odd_mark_scrap_cut_out (GtkWidget   *from,
                        OddDocument *document,
                        OddUnit      unit,
                        OddId        scrap_id,
                        gboolean     cut_out)
{
  OddJob *job = odd_document_get_job (document);
  g_autoptr(GError) error = NULL;
  const OddAct act = {
    .kind = ODD_ACT_CUT, .scrap_id = scrap_id, .state = cut_out ? ODD_STATE_DONE : ODD_STATE_OPEN, .clock_s = odd_now_s ()
  };
  OddJob *after = odd_job_do (job, &act, &error);

  return apply (from, document, unit, scrap_id, after, &error, cut_out ? _("Mark a scrap cut out") : _("Mark a scrap not cut"));
}

void
odd_toggle_cut (GtkWidget   *from,
                OddDocument *document,
                OddUnit      unit,
                OddSelected  kind,
                OddId        id)
{
  OddJob *job = odd_document_get_job (document);
  OddNode *leaf = kind == ODD_SELECTED_PATCH ? find_leaf (job, id) : NULL;
  OddScrap *scrap = kind == ODD_SELECTED_SCRAP ? odd_job_get_scrap (job, id) : NULL;

  if (leaf != NULL)
    odd_mark_patch_cut (from, document, unit, id, leaf->cut != ODD_STATE_DONE);
  else if (scrap != NULL)
    odd_mark_scrap_cut_out (from, document, unit, id, !scrap->cut_out);
  else
    odd_toast (from, _("Select the patch that was cut, or the scrap that was cut out."), NULL, NULL);
}
