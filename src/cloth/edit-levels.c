/* What lies below a level and has a finish or an allowance of its own. */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

static gboolean
is_own (const OddTreatment *treatment)
{
  return treatment->finish_id != 0 || !isnan (treatment->allowance_mm);
}

/* What has been worked on is pinned: it keeps what it was sewn with, whatever it is asked to inherit. */
static gboolean
may_inherit (const OddSeam *seam)
{
  return is_own (&seam->treatment) && !odd_seam_is_touched (seam);
}

/* (transfer full) The subtree with all below @self inheriting; @self itself too, unless it is @top. */
static OddNode *
inherit_node (OddNode *self,
              gboolean top,
              guint   *n)
{
  const OddTreatment inherit = ODD_TREATMENT_INHERIT;
  g_autoptr(GPtrArray) parts = NULL;
  g_autofree OddSeam *seams = NULL;
  g_autoptr(OddNode) changed = NULL;
  const guint before = *n;

  if (self->kind == ODD_NODE_LEAF)
    return odd_node_ref (self);
  parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  seams = g_memdup2 (self->seams, (self->n_parts - 1) * sizeof *seams);
  for (guint i = 0; i < self->n_parts; i++)
    g_ptr_array_add (parts, inherit_node (self->parts[i], FALSE, n));
  for (guint i = 0; i + 1 < self->n_parts; i++)
    if (may_inherit (&seams[i]))
      {
        seams[i].treatment = inherit;
        (*n)++;
      }
  if (*n == before && (top || !is_own (&self->treatment)))
    return odd_node_ref (self);
  changed = odd_node_with_parts (self, (OddNode *const *) parts->pdata, seams, self->n_parts);
  if (top || !is_own (&self->treatment))
    return g_steal_pointer (&changed);
  (*n)++;
  return odd_node_with_treatment (changed, &inherit);
}

static OddPanel *
inherit_panel (OddPanel *self,
               gboolean  top,
               guint    *n)
{
  const OddTreatment inherit = ODD_TREATMENT_INHERIT;
  g_autoptr(OddNode) root = inherit_node (self->root, FALSE, n);
  OddPanel *panel = root != self->root ? odd_panel_with_root (self, root) : odd_panel_ref (self);

  for (guint i = 0; i < self->outline->n; i++)
    if (is_own (&self->edges[i].treatment))
      {
        OddPanel *with = odd_panel_with_edge (panel, i, &inherit);

        odd_panel_unref (panel);
        panel = with;
        (*n)++;
      }
  if (!top && is_own (&self->treatment))
    {
      OddPanel *with = odd_panel_with_treatment (panel, &inherit);

      odd_panel_unref (panel);
      panel = with;
      (*n)++;
    }
  return panel;
}

static OddTextile *
inherit_textile (OddTextile *self,
                 gboolean    top,
                 guint      *n)
{
  const OddTreatment inherit = ODD_TREATMENT_INHERIT;
  OddTextile *textile = odd_textile_ref (self);
  OddTextile *with = NULL;

  for (guint i = 0; i < self->n_hung; i++)
    {
      g_autoptr(OddPanel) panel = inherit_panel (self->hung[i].panel, FALSE, n);

      if (panel == self->hung[i].panel)
        continue;
      with = odd_textile_with_panel (textile, i, panel);
      odd_textile_unref (textile);
      textile = with;
    }
  for (guint i = 0; i + 1 < self->n_hung; i++)
    if (may_inherit (&self->joins[i]))
      {
        OddSeam join = textile->joins[i];

        join.treatment = inherit;
        with = odd_textile_with_join (textile, i, &join);
        odd_textile_unref (textile);
        textile = with;
        (*n)++;
      }
  if (!top && is_own (&self->treatment))
    {
      with = odd_textile_with_treatment (textile, &inherit);
      odd_textile_unref (textile);
      textile = with;
      (*n)++;
    }
  return textile;
}

/* --- one level --- */

static OddJob *
inherit_in_job (OddJob *self,
                guint  *n)
{
  OddJob *job = odd_job_ref (self);

  for (guint i = 0; i < self->textiles->len; i++)
    {
      g_autoptr(OddTextile) textile = inherit_textile (self->textiles->pdata[i], FALSE, n);
      OddJob *with = odd_edit_with_textile (job, textile);

      odd_job_unref (job);
      job = with;
    }
  for (guint i = 0; i < self->loose_panels->len; i++)
    {
      g_autoptr(OddPanel) panel = inherit_panel (self->loose_panels->pdata[i], FALSE, n);
      OddJob *with = odd_edit_with_panel (job, panel);

      odd_job_unref (job);
      job = with;
    }
  return job;
}

static OddJob *
inherit_in_strip (OddJob  *self,
                  OddId    id,
                  guint   *n,
                  GError **error)
{
  OddPanel *panel = odd_edit_get_panel_of (self, id, error);
  OddNode *strip = panel != NULL ? odd_node_find (panel->root, id) : NULL;
  g_autoptr(OddNode) changed = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) with = NULL;

  if (strip == NULL)
    return NULL;
  changed = inherit_node (strip, TRUE, n);
  root = odd_node_replace (panel->root, id, changed);
  with = odd_panel_with_root (panel, root);
  return odd_edit_with_panel (self, with);
}

/* (transfer full) The job before its panels are settled; NULL with error. */
static OddJob *
inherit_at (OddJob    *self,
            OddLevel   level,
            OddId      id,
            guint     *n,
            GError   **error)
{
  switch (level)
    {
    case ODD_LEVEL_JOB:
      return inherit_in_job (self, n);
    case ODD_LEVEL_TEXTILE:
      {
        OddTextile *textile = odd_job_get_textile (self, id);
        g_autoptr(OddTextile) with = textile != NULL ? inherit_textile (textile, TRUE, n) : NULL;

        if (with == NULL)
          g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no textile %u in this job"), id);
        return with != NULL ? odd_edit_with_textile (self, with) : NULL;
      }
    case ODD_LEVEL_PANEL:
      {
        OddPanel *panel = odd_edit_get_panel (self, id, NULL, NULL, error);
        g_autoptr(OddPanel) with = panel != NULL ? inherit_panel (panel, TRUE, n) : NULL;

        return with != NULL ? odd_edit_with_panel (self, with) : NULL;
      }
    case ODD_LEVEL_STRIP:
      return inherit_in_strip (self, id, n, error);
    default:
      return odd_job_ref (self);
    }
}

guint
odd_job_count_own_treatments (OddJob   *self,
                              OddLevel  level,
                              OddId     id)
{
  guint n = 0;
  g_autoptr(OddJob) changed = inherit_at (self, level, id, &n, NULL);

  return changed != NULL ? n : 0;
}

OddJob *
odd_job_inherit_below (OddJob    *self,
                       OddLevel   level,
                       OddId      id,
                       gboolean   keep_cut,
                       GError   **error)
{
  guint n = 0;
  g_autoptr(OddJob) changed = inherit_at (self, level, id, &n, error);

  if (changed == NULL)
    return NULL;
  return n > 0 ? odd_edit_resettle (self, changed, keep_cut, error) : odd_job_ref (self);
}
