/* Sewing on and taking off: edits of a panel's tree. */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

static OddJob *
with_panel (OddJob   *job,
            OddPanel *panel,
            OddId     next_id)
{
  OddJob *copy = odd_edit_with_panel (job, panel);

  copy->next_id = MAX (copy->next_id, next_id);
  return copy;
}

static guint
count_vanished_alone (OddJob *job,
                      OddId   panel_id)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_get_panel (job, panel_id, &textile, NULL);
  g_autoptr(OddLayout) alone = odd_layout_new_alone (job, textile, panel);

  return alone->n_vanished;
}

/* Does the changed panel leave every patch some cloth? Only what the edit itself swallowed counts: not what a shorter
 * neighbour in the textile cuts off, or nobody could sew on to the longest panel. The layouts as hung are kept anyway and are
 * asked first. */
static gboolean
check_swallowed (OddJob    *before,
                 OddJob    *after,
                 OddId      panel_id,
                 GError   **error)
{
  g_autoptr(OddLayout) was = odd_job_dup_layout (before, panel_id);
  g_autoptr(OddLayout) is = odd_job_dup_layout (after, panel_id);

  if (is->n_vanished <= was->n_vanished ||
      count_vanished_alone (after, panel_id) <= count_vanished_alone (before, panel_id))
    return TRUE;
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                       _("The new seam would swallow a patch whole. Tilt it less, or sew on somewhere else."));
  return FALSE;
}

/* --- sewing on --- */

/* Does the line lie beyond this border all along its way through the outline? */
static gboolean
lies_beyond (OddConvex    *outline,
             OddHalfPlane  line,
             OddHalfPlane  border)
{
  OddSegment chord;

  if (!odd_convex_chord (outline, line, &chord))
    return FALSE;
  return odd_half_plane_distance (border, chord.from) > ODD_TOLERANCE_MM &&
         odd_half_plane_distance (border, chord.to) > ODD_TOLERANCE_MM;
}

/* One more part in the top strip, or %NULL when the new seam meets one that is there. */
static OddNode *
grow_strip (OddNode      *strip,
            OddConvex    *outline,
            OddNode      *part,
            OddHalfPlane  line,
            OddId         seam_id)
{
  const guint n = strip->n_parts;
  const OddHalfPlane flipped = odd_half_plane_flip (line);
  g_autofree OddNode **parts = g_new (OddNode *, n + 1);
  g_autofree OddSeam *seams = g_new (OddSeam, n);
  gboolean at_end;

  if (strip->locked)
    return NULL;
  if (lies_beyond (outline, line, strip->seams[n - 2].line))
    at_end = TRUE;
  else if (lies_beyond (outline, line, odd_half_plane_flip (strip->seams[0].line)))
    at_end = FALSE;
  else
    return NULL;
  for (guint i = 0; i < n; i++)
    parts[at_end ? i : i + 1] = strip->parts[i];
  for (guint i = 0; i + 1 < n; i++)
    seams[at_end ? i : i + 1] = strip->seams[i];
  parts[at_end ? n : 0] = part;
  odd_seam_init (&seams[at_end ? n - 1 : 0], seam_id, at_end ? line : flipped);
  return odd_node_with_parts (strip, parts, seams, n + 1);
}

static OddNode *
sew_above (OddNode      *root,
           OddNode      *part,
           OddHalfPlane  line,
           OddId         seam_id,
           OddId         strip_id)
{
  OddNode *const parts[2] = { root, part };
  OddSeam seam;

  odd_seam_init (&seam, seam_id, line);
  return odd_node_new_strip (strip_id, parts, &seam, 2);
}

OddJob *
odd_job_extend_panel (OddJob              *self,
                      OddId                panel_id,
                      const OddExtension  *extension,
                      GError             **error)
{
  OddPanel *panel = odd_edit_get_panel (self, panel_id, NULL, NULL, error);
  g_autofree OddHalfPlane *planes = NULL;
  g_autoptr(OddPanel) grown = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddConvex) outline = NULL;
  g_autoptr(OddJob) job = NULL;
  g_autofree int *labels = NULL;
  OddId next_id = MAX (extension->next_id, self->next_id);

  if (panel == NULL)
    return NULL;
  g_return_val_if_fail (extension->edge < panel->outline->n, NULL);

  planes = odd_edit_outline_planes (panel);
  planes[extension->edge] = extension->outer;
  labels = g_new0 (int, panel->outline->n);
  outline = odd_convex_new_from_half_planes (planes, labels, panel->outline->n);
  if (outline == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                           _("Nothing would be left of the panel. Sew on along another edge."));
      return NULL;
    }
  if (panel->root->kind == ODD_NODE_STRIP)
    root = grow_strip (panel->root, outline, extension->part, extension->seam, next_id);
  if (root != NULL)
    next_id += 1;
  else
    {
      root = sew_above (panel->root, extension->part, extension->seam, next_id, next_id + 1);
      next_id += 2;
    }
  grown = odd_edit_panel_from_planes (panel, planes, root);
  if (grown == NULL)
    g_return_val_if_reached (NULL);
  job = with_panel (self, grown, next_id);
  return check_swallowed (self, job, panel_id, error) ? g_steal_pointer (&job) : NULL;
}

/* --- taking off --- */

/* The outline's edge that faces most where this normal points. */
static guint
edge_facing (OddPanel *panel,
             OddPoint  normal)
{
  guint best = 0;
  double best_dot = -2.0;

  for (guint i = 0; i < panel->outline->n; i++)
    {
      const double dot = odd_point_dot (odd_convex_edge_half_plane (panel->outline, i).normal, normal);

      if (dot > best_dot)
        {
          best = i;
          best_dot = dot;
        }
    }
  return best;
}

static gboolean
refuse_sewn (GError **error)
{
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                       _("This seam has been worked on. Unpick it and take its marks back first."));
  return FALSE;
}

OddJob *
odd_job_take_off_last (OddJob  *self,
                       OddId    panel_id,
                       GError **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_edit_get_panel (self, panel_id, &textile, NULL, error);
  OddNode *root = panel != NULL ? panel->root : NULL;
  g_autoptr(OddLayout) alone = NULL;
  g_autofree OddHalfPlane *planes = NULL;
  g_autoptr(OddNode) rest = NULL;
  g_autoptr(OddPanel) changed = NULL;
  const OddLaidSeam *laid;
  OddHalfPlane line;
  guint edge, n;
  gboolean at_end;

  if (panel == NULL)
    return NULL;
  if (root->kind == ODD_NODE_LEAF)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                           _("This panel has no seam left. Take its patch out, or remove the panel."));
      return NULL;
    }
  n = root->n_parts;
  at_end = root->seams[n - 2].id >= root->seams[0].id;
  if (odd_seam_is_touched (&root->seams[at_end ? n - 2 : 0]))
    {
      refuse_sewn (error);
      return NULL;
    }
  if (root->locked || root->parts[at_end ? n - 1 : 0]->locked)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("What was sewn on last is locked. Unlock it first."));
      return NULL;
    }
  alone = odd_layout_new_alone (self, textile, panel);
  laid = odd_layout_find_seam (alone, root->seams[at_end ? n - 2 : 0].id);
  line = at_end ? laid->line : odd_half_plane_flip (laid->line);
  edge = edge_facing (panel, line.normal);
  planes = odd_edit_outline_planes (panel);
  planes[edge] = odd_half_plane_push (line, laid->allowance_mm - alone->edges[edge].allowance_mm);
  if (n == 2)
    rest = odd_node_ref (root->parts[at_end ? 0 : 1]);
  else
    rest = odd_node_with_parts (root, at_end ? root->parts : root->parts + 1, at_end ? root->seams : root->seams + 1, n - 1);
  changed = odd_edit_panel_from_planes (panel, planes, rest);
  if (changed == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("Without this seam nothing would be left of the panel"));
      return NULL;
    }
  return odd_edit_with_panel (self, changed);
}

OddJob *
odd_job_move_edge (OddJob  *self,
                   OddId    panel_id,
                   guint    edge,
                   double   outward_mm,
                   GError **error)
{
  OddPanel *panel = odd_edit_get_panel (self, panel_id, NULL, NULL, error);
  g_autofree OddHalfPlane *planes = NULL;
  g_autoptr(OddPanel) changed = NULL;
  g_autoptr(OddJob) job = NULL;

  if (panel == NULL)
    return NULL;
  g_return_val_if_fail (edge < panel->outline->n, NULL);

  planes = odd_edit_outline_planes (panel);
  planes[edge] = odd_half_plane_push (planes[edge], outward_mm);
  changed = odd_edit_panel_from_planes (panel, planes, panel->root);
  if (changed == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("Nothing would be left of the panel. Move the edge less."));
      return NULL;
    }
  job = odd_edit_with_panel (self, changed);
  return check_swallowed (self, job, panel_id, error) ? g_steal_pointer (&job) : NULL;
}

/* --- leaves --- */

/* A patch that is cut or whose seams have been worked on is cloth already: it is not exchanged by a mere edit. */
static gboolean
check_leaf_free (OddJob    *job,
                 OddPanel  *panel,
                 OddNode   *leaf,
                 GError   **error)
{
  g_autoptr(OddLayout) layout = NULL;
  const OddPatch *patch;

  if (!odd_edit_check_lock (job, panel, leaf->id, error))
    return FALSE;
  if (leaf->scrap_id == 0)
    return TRUE;
  if (leaf->cut == ODD_STATE_DONE)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                           _("This patch is cut out already. Release it to the scraps, take its mark back, or cut it smaller by moving a seam into it."));
      return FALSE;
    }
  layout = odd_job_dup_layout (job, panel->id);
  patch = odd_layout_find_patch (layout, leaf->id);
  for (guint i = 0; patch != NULL && i < patch->region->n; i++)
    if (patch->region->labels[i] >= 0 && odd_seam_is_touched (layout->seams[patch->region->labels[i]].seam))
      {
        g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                     _("A seam of patch %u is sewn. Unpick it first, or trim the patch by moving an open seam into it."), patch->number);
        return FALSE;
      }
  return TRUE;
}

static OddNode *
get_leaf (OddJob    *job,
          OddId      leaf_id,
          OddPanel **out_panel,
          GError   **error)
{
  OddNode *leaf;

  *out_panel = odd_edit_get_panel_of (job, leaf_id, error);
  if (*out_panel == NULL)
    return NULL;
  leaf = odd_node_find ((*out_panel)->root, leaf_id);
  if (leaf == NULL || leaf->kind != ODD_NODE_LEAF)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("%u is not a patch"), leaf_id);
      return NULL;
    }
  return leaf;
}

OddJob *
odd_job_replace_root (OddJob   *self,
                      OddId     panel_id,
                      OddNode  *root,
                      OddId     next_id,
                      GError  **error)
{
  OddPanel *panel = odd_edit_get_panel (self, panel_id, NULL, NULL, error);
  g_autoptr(OddPanel) changed = NULL;
  g_autoptr(OddJob) job = NULL;

  if (panel == NULL)
    return NULL;
  changed = odd_panel_with_root (panel, root);
  job = with_panel (self, changed, next_id);
  return check_swallowed (self, job, panel_id, error) ? g_steal_pointer (&job) : NULL;
}

OddJob *
odd_job_replace_leaf (OddJob   *self,
                      OddId     leaf_id,
                      OddNode  *with,
                      OddId     next_id,
                      GError  **error)
{
  OddPanel *panel = NULL;
  OddNode *leaf = get_leaf (self, leaf_id, &panel, error);
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;
  g_autoptr(OddJob) job = NULL;

  if (leaf == NULL || !check_leaf_free (self, panel, leaf, error))
    return NULL;
  root = odd_node_replace (panel->root, leaf_id, with);
  changed = odd_panel_with_root (panel, root);
  job = with_panel (self, changed, next_id);
  return check_swallowed (self, job, panel->id, error) ? g_steal_pointer (&job) : NULL;
}

/* The strip of which @id is a part, and which part; %NULL for the root. */
static OddNode *
find_parent (OddNode *node,
             OddId    id,
             guint   *out_part)
{
  for (guint i = 0; node->kind == ODD_NODE_STRIP && i < node->n_parts; i++)
    {
      OddNode *parent;

      if (node->parts[i]->id == id)
        {
          *out_part = i;
          return node;
        }
      parent = find_parent (node->parts[i], id, out_part);
      if (parent != NULL)
        return parent;
    }
  return NULL;
}

/* Part @at of the strip parted in two; the line is turned to run as the strip's own. */
static OddNode *
part_in_strip (OddNode      *strip,
               guint         at,
               OddHalfPlane  line,
               OddNode      *first,
               OddNode      *second,
               OddId         seam_id)
{
  const guint n = strip->n_parts;
  const gboolean same_way = odd_point_dot (line.normal, strip->seams[0].line.normal) > 0.0;
  g_autofree OddNode **parts = g_new (OddNode *, n + 1);
  g_autofree OddSeam *seams = g_new (OddSeam, n);

  for (guint i = 0; i < n; i++)
    parts[i > at ? i + 1 : i] = strip->parts[i];
  for (guint i = 0; i + 1 < n; i++)
    seams[i >= at ? i + 1 : i] = strip->seams[i];
  parts[at] = same_way ? first : second;
  parts[at + 1] = same_way ? second : first;
  odd_seam_init (&seams[at], seam_id, same_way ? line : odd_half_plane_flip (line));
  return odd_node_with_parts (strip, parts, seams, n + 1);
}

OddJob *
odd_job_split_leaf (OddJob        *self,
                    OddId          leaf_id,
                    OddHalfPlane   line,
                    OddNode       *first,
                    OddNode       *second,
                    OddId          next_id,
                    GError       **error)
{
  OddPanel *panel = NULL;
  OddNode *leaf = get_leaf (self, leaf_id, &panel, error);
  OddNode *parent;
  g_autoptr(OddNode) with = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;
  g_autoptr(OddJob) job = NULL;
  guint at = 0;

  if (leaf == NULL || !check_leaf_free (self, panel, leaf, error))
    return NULL;
  next_id = MAX (next_id, self->next_id);
  parent = find_parent (panel->root, leaf_id, &at);
  if (parent != NULL && !parent->locked && fabs (odd_point_cross (line.normal, parent->seams[0].line.normal)) < 1e-9)
    with = part_in_strip (parent, at, line, first, second, next_id++);
  else
    {
      parent = leaf;
      with = sew_above (first, second, line, next_id, next_id + 1);
      next_id += 2;
    }
  root = odd_node_replace (panel->root, parent->id, with);
  changed = odd_panel_with_root (panel, root);
  job = with_panel (self, changed, next_id);
  return check_swallowed (self, job, panel->id, error) ? g_steal_pointer (&job) : NULL;
}

OddJob *
odd_job_place_scrap (OddJob              *self,
                     OddId                leaf_id,
                     OddId                scrap_id,
                     const OddPlacement  *placement,
                     GError             **error)
{
  OddPanel *panel = NULL;
  OddNode *leaf = get_leaf (self, leaf_id, &panel, error);
  OddScrap *scrap = odd_job_get_scrap (self, scrap_id);
  g_autoptr(OddNode) patch = NULL;

  if (leaf == NULL)
    return NULL;
  if (scrap == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no scrap %u in this job"), scrap_id);
      return NULL;
    }
  if (scrap->cut_out)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Scrap %u is cut out already. Take one of its offcuts."), scrap->number);
      return NULL;
    }
  patch = odd_node_with_patch (leaf, scrap_id, placement);
  return odd_job_replace_leaf (self, leaf_id, patch, 0, error);
}

OddJob *
odd_job_make_bare (OddJob  *self,
                   OddId    leaf_id,
                   GError **error)
{
  OddPanel *panel = NULL;
  OddNode *leaf = get_leaf (self, leaf_id, &panel, error);
  g_autoptr(OddNode) bare = NULL;

  if (leaf == NULL)
    return NULL;
  bare = odd_node_with_patch (leaf, 0, NULL);
  return odd_job_replace_leaf (self, leaf_id, bare, 0, error);
}

OddJob *
odd_edit_mark_cut (OddJob    *self,
                   OddId      leaf_id,
                   OddState   cut,
                   GError   **error)
{
  OddPanel *panel = NULL;
  OddNode *leaf = get_leaf (self, leaf_id, &panel, error);
  g_autoptr(OddNode) changed_leaf = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) changed = NULL;

  if (leaf == NULL)
    return NULL;
  if (leaf->scrap_id == 0)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("A bare region cannot be cut out. Give it a scrap first."));
      return NULL;
    }
  changed_leaf = odd_node_with_cut (leaf, cut);
  root = odd_node_replace (panel->root, leaf_id, changed_leaf);
  changed = odd_panel_with_root (panel, root);
  return odd_edit_with_panel (self, changed);
}

OddJob *
odd_job_set_lock (OddJob    *self,
                  OddId      id,
                  gboolean   locked,
                  GError   **error)
{
  OddPanel *panel = odd_job_get_panel (self, id, NULL, NULL);
  g_autoptr(OddPanel) changed = NULL;
  g_autoptr(OddNode) node = NULL;
  g_autoptr(OddNode) root = NULL;

  if (panel != NULL)
    {
      changed = odd_panel_with_lock (panel, locked);
      return odd_edit_with_panel (self, changed);
    }
  panel = odd_edit_get_panel_of (self, id, error);
  if (panel == NULL)
    return NULL;
  if (odd_node_find (panel->root, id) == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("%u is a seam; patches, strips and panels can be locked"), id);
      return NULL;
    }
  node = odd_node_with_lock (odd_node_find (panel->root, id), locked);
  root = odd_node_replace (panel->root, id, node);
  changed = odd_panel_with_root (panel, root);
  return odd_edit_with_panel (self, changed);
}
