#include "config.h"

#include "sewing/bias.h"

#include <glib/gi18n.h>

static gboolean
can_stretch (const OddPatch *patch)
{
  return patch->scrap != NULL && patch->piece == NULL && patch->leaf->stayed == ODD_STATE_OPEN
         && (patch->fabric == NULL || patch->fabric->make != ODD_MAKE_KNIT);
}

/* Degrees to the nearer thread. */
static double
off_threads (const OddPatch *patch,
             OddSegment      edge)
{
  const double edge_deg = atan2 (edge.to.y - edge.from.y, edge.to.x - edge.from.x) * 180.0 / G_PI;
  const double grain_deg = odd_placement_apply_angle (&patch->placement, patch->scrap->grain_deg);

  return fabs (remainder (edge_deg - grain_deg, 90.0));
}

static OddSegment
finished_edge (const OddPatch *patch,
               int             label)
{
  OddSegment none = { { 0.0, 0.0 }, { 0.0, 0.0 } };

  for (guint i = 0; i < patch->region->n; i++)
    if (patch->region->labels[i] == label)
      return odd_convex_edge (patch->region, i);

  return none;
}

static gboolean
is_held (const OddLayout *layout,
         int              label)
{
  return label >= 0 && odd_seam_is_touched (layout->seams[label].seam);
}

GArray *
odd_layout_dup_bias_edges (const OddLayout   *layout,
                           const OddPatch    *patch,
                           const OddSettings *settings)
{
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (OddBiasEdge));

  g_return_val_if_fail (layout != NULL && patch != NULL && settings != NULL, edges);

  for (guint i = 0; can_stretch (patch) && i < patch->cut->n; i++)
    {
      const int label = patch->cut->labels[i];
      OddBiasEdge edge = { i, odd_convex_edge (patch->cut, i), finished_edge (patch, label) };

      edge.length_mm = odd_segment_length (edge.cut);
      edge.off_deg = off_threads (patch, edge.cut);
      if (edge.length_mm > settings->stay_from_mm && edge.off_deg > settings->stay_from_deg && !is_held (layout, label))
        g_array_append_val (edges, edge);
    }

  return edges;
}

static void
add_panel (GArray   *patches,
           OddJob   *job,
           OddPanel *panel)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      g_autoptr(GArray) edges = odd_layout_dup_bias_edges (layout, patch, &job->settings);
      OddBiasPatch added = { panel->id, patch->leaf->id, patch->number, edges->len, 0.0 };

      for (guint k = 0; k < edges->len; k++)
        added.length_mm += g_array_index (edges, OddBiasEdge, k).length_mm;
      if (edges->len > 0)
        g_array_append_val (patches, added);
    }
}

GArray *
odd_job_dup_bias (OddJob *job,
                  OddId   textile_id)
{
  GArray *patches = g_array_new (FALSE, FALSE, sizeof (OddBiasPatch));

  g_return_val_if_fail (job != NULL, patches);

  for (guint t = 0; t < job->textiles->len; t++)
    {
      const OddTextile *textile = job->textiles->pdata[t];

      for (guint i = 0; i < textile->n_hung && (textile_id == 0 || textile_id == textile->id); i++)
        add_panel (patches, job, textile->hung[i].panel);
    }
  for (guint i = 0; textile_id == 0 && i < job->loose_panels->len; i++)
    add_panel (patches, job, job->loose_panels->pdata[i]);

  return patches;
}

OddJob *
odd_job_set_stayed (OddJob    *job,
                    OddId      leaf_id,
                    OddState   state,
                    GError   **error)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  OddNode *leaf = panel != NULL ? odd_node_find (panel->root, leaf_id) : NULL;
  g_autoptr(OddNode) changed = NULL;
  g_autoptr(OddNode) root = NULL;

  if (leaf == NULL || leaf->kind != ODD_NODE_LEAF || leaf->scrap_id == 0)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("Only a patch with a scrap has edges to stay. Give the place a scrap first."));
      return NULL;
    }
  changed = odd_node_with_stayed (leaf, state);
  root = odd_node_replace (panel->root, leaf_id, changed);

  return odd_job_replace_root (job, panel->id, root, job->next_id, error);
}
