#include "config.h"

#include "piecing/field.h"

#include <glib/gi18n.h>

#define LOOSE_GAP_MM 1000.0        /* loose panels are nobody's neighbours */

static void
field_free (gpointer data)
{
  OddField *field = data;

  g_clear_pointer (&field->region, odd_convex_unref);
  g_clear_pointer (&field->before, odd_node_unref);
  g_free (field->allowances_mm);
  g_free (field);
}

static void
clear_kept (gpointer data)
{
  g_clear_pointer (&((OddKept *) data)->region, odd_convex_unref);
}

void
odd_fields_free (OddFields *self)
{
  g_clear_pointer (&self->job, odd_job_unref);
  g_ptr_array_unref (self->fields);
  g_array_unref (self->kept);
  g_free (self);
}

/* --- what is freed --- */

typedef struct
{
  OddFields *fields;
  OddLayout *layout;               /* before; apart */
  OddLayout *hung;                 /* as it hangs: which edges are joined */
  const OddTextile *textile;       /* or NULL */
  const OddId *parts;              /* or NULL */
  guint n_parts;
  OddId panel_id;
  gboolean free_patches;
  OddId next_id;
} Freeing;

static gboolean
is_at_work (const OddLayout *layout,
            const OddNode   *leaf)
{
  const OddPatch *patch = odd_layout_find_patch (layout, leaf->id);

  for (guint i = 0; patch != NULL && i < patch->region->n; i++)
    if (patch->region->labels[i] >= 0 && odd_seam_is_touched (layout->seams[patch->region->labels[i]].seam))
      return TRUE;

  return FALSE;
}

/* A join that has been worked on holds what lies along it, too. */
static gboolean
is_joined (const Freeing *self,
           const OddNode *leaf)
{
  const OddPatch *patch = odd_layout_find_patch (self->hung, leaf->id);

  for (guint i = 0; patch != NULL && self->textile != NULL && i < patch->region->n; i++)
    {
      const int label = patch->region->labels[i];
      const OddId join_id = label < 0 && label != G_MININT ? self->hung->edges[-1 - label].join_id : 0;

      for (guint k = 0; join_id != 0 && k + 1 < self->textile->n_hung; k++)
        if (self->textile->joins[k].id == join_id && odd_seam_is_touched (&self->textile->joins[k]))
          return TRUE;
    }

  return FALSE;
}

static gboolean
is_kept_leaf (const Freeing *self,
              const OddNode *leaf)
{
  if (leaf->locked)
    return TRUE;
  if (leaf->scrap_id == 0)
    return FALSE;

  return !self->free_patches || leaf->cut == ODD_STATE_DONE || is_at_work (self->layout, leaf) || is_joined (self, leaf);
}

static gboolean
has_kept (const Freeing *self,
          const OddNode *node)
{
  if (node->kind == ODD_NODE_LEAF)
    return is_kept_leaf (self, node);
  if (node->locked)
    return TRUE;
  for (guint i = 0; i < node->n_parts; i++)
    if (has_kept (self, node->parts[i]))
      return TRUE;

  return FALSE;
}

/* A bare leaf, and the field that is to fill it. */
static OddNode *
add_field (Freeing *self,
           OddNode *before)
{
  OddField *field = g_new0 (OddField, 1);
  OddNode *bare = before->kind == ODD_NODE_LEAF && before->scrap_id == 0 ? odd_node_ref (before) : odd_node_new_bare (self->next_id++);

  field->panel_id = self->panel_id;
  field->leaf_id = bare->id;
  field->before = odd_node_ref (before);
  g_ptr_array_add (self->fields->fields, field);

  return bare;
}

/* Parts @from .. @to - 1 of the strip as one. */
static OddNode *
dup_run (Freeing *self,
         OddNode *strip,
         guint    from,
         guint    to)
{
  if (to - from == 1)
    return odd_node_ref (strip->parts[from]);

  return odd_node_new_strip (self->next_id++, strip->parts + from, strip->seams + from, to - from);
}

static OddNode *free_node (Freeing *self, OddNode *node);

static OddNode *
free_strip (Freeing *self,
            OddNode *strip)
{
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  g_autoptr(GArray) seams = g_array_new (FALSE, FALSE, sizeof (OddSeam));

  for (guint i = 0, to; i < strip->n_parts; i = to)
    {
      to = i + 1;
      if (has_kept (self, strip->parts[i]))
        {
          g_ptr_array_add (parts, free_node (self, strip->parts[i]));
        }
      else
        {
          g_autoptr(OddNode) run = NULL;

          while (self->free_patches && to < strip->n_parts && !has_kept (self, strip->parts[to]))
            to++;
          run = dup_run (self, strip, i, to);
          g_ptr_array_add (parts, self->free_patches ? add_field (self, run) : free_node (self, run));
        }
      if (to < strip->n_parts)
        g_array_append_val (seams, strip->seams[to - 1]);
    }

  return odd_node_with_parts (strip, (OddNode *const *) parts->pdata, (const OddSeam *) seams->data, parts->len);
}

static OddNode *
free_node (Freeing *self,
           OddNode *node)
{
  const gboolean keeps = has_kept (self, node);

  if (node->kind == ODD_NODE_LEAF ? keeps : node->locked)
    return odd_node_ref (node);
  if (node->kind == ODD_NODE_LEAF || (self->free_patches && !keeps))
    return add_field (self, node);

  return free_strip (self, node);
}

static gboolean
is_part (const Freeing *self,
         const OddNode *node)
{
  for (guint i = 0; i < self->n_parts; i++)
    if (self->parts[i] == node->id)
      return TRUE;

  return self->parts == NULL;
}

/* Where only parts are meant, the rest is gone through to find them; what is locked above them holds them as well. */
static OddNode *
free_parts (Freeing *self,
            OddNode *node)
{
  g_autoptr(GPtrArray) parts = NULL;

  if (is_part (self, node))
    return free_node (self, node);
  if (node->kind == ODD_NODE_LEAF || node->locked)
    return odd_node_ref (node);
  parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  for (guint i = 0; i < node->n_parts; i++)
    g_ptr_array_add (parts, free_parts (self, node->parts[i]));

  return odd_node_with_parts (node, (OddNode *const *) parts->pdata, node->seams, node->n_parts);
}

static gboolean
free_panel (OddFields   *self,
            OddId        panel_id,
            const OddId *parts,
            guint        n_parts,
            gboolean     free_patches,
            GError     **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_get_panel (self->job, panel_id, &textile, NULL);
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddLayout) hung = NULL;
  g_autoptr(OddNode) root = NULL;
  OddJob *job;
  Freeing freeing;

  if (panel == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("The panel to be pieced is not there any more."));
      return FALSE;
    }
  if (panel->locked)
    return TRUE;
  layout = odd_job_dup_layout_apart (self->job, panel_id);
  hung = odd_job_dup_layout (self->job, panel_id);
  freeing = (Freeing) { self, layout, hung, textile, parts, n_parts, panel_id, free_patches, self->job->next_id };
  root = free_parts (&freeing, panel->root);
  job = odd_job_replace_root (self->job, panel_id, root, freeing.next_id, error);
  if (job == NULL)
    return FALSE;
  odd_job_unref (self->job);
  self->job = job;

  return TRUE;
}

/* --- where it lies --- */

static double
path_allowance (OddJob              *job,
                const OddNode       *node,
                OddId                leaf_id,
                const OddTreatment **levels,
                guint                n)
{
  double allowance_mm = NAN;

  if (n == 256)
    return NAN;
  levels[n++] = &node->treatment;
  if (node->id == leaf_id)
    {
      odd_job_resolve (job, levels, n, NULL, &allowance_mm);
      return allowance_mm;
    }
  for (guint i = 0; node->kind == ODD_NODE_STRIP && i < node->n_parts && isnan (allowance_mm); i++)
    allowance_mm = path_allowance (job, node->parts[i], leaf_id, levels, n);

  return allowance_mm;
}

static double
seam_allowance (OddJob     *job,
                OddTextile *textile,
                OddPanel   *panel,
                OddId       leaf_id)
{
  const OddTreatment *levels[258] = { textile != NULL ? &textile->treatment : &ODD_TREATMENT_INHERIT, &panel->treatment };

  return path_allowance (job, panel->root, leaf_id, levels, 2);
}

static double
label_allowance (const OddLayout *layout,
                 int              label)
{
  return label >= 0 ? layout->seams[label].allowance_mm : layout->edges[-1 - label].allowance_mm;
}

static void
place_field (OddField        *field,
             const OddLayout *layout,
             const OddPatch  *patch,
             OddPoint         at)
{
  const OddPlacement back = { 0.0, FALSE, { -at.x, -at.y } };
  const OddPlacement unhang = odd_placement_inverse (&layout->hung);
  g_autofree int *labels = g_new (int, patch->region->n);
  g_autoptr(OddConvex) region = NULL;

  field->allowances_mm = g_new (double, patch->region->n);
  for (guint i = 0; i < patch->region->n; i++)
    {
      labels[i] = -1 - (int) i;
      field->allowances_mm[i] = label_allowance (layout, patch->region->labels[i]);
    }
  region = odd_convex_new (patch->region->points, labels, patch->region->n);
  field->region = region != NULL ? odd_convex_shift (region, at) : NULL;
  field->to_own = odd_placement_compose (&unhang, &back);
}

static OddField *
find_field (const OddFields *self,
            OddId            leaf_id)
{
  for (guint i = 0; i < self->fields->len; i++)
    if (((OddField *) self->fields->pdata[i])->leaf_id == leaf_id)
      return self->fields->pdata[i];

  return NULL;
}

static void
place_panel (OddFields  *self,
             OddTextile *textile,
             OddPanel   *panel,
             OddPoint    at,
             double     *width_mm)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (self->job, panel->id);

  *width_mm = layout->box.width;
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      OddField *field = patch->scrap == NULL ? find_field (self, patch->leaf->id) : NULL;

      if (field != NULL)
        {
          place_field (field, layout, patch, at);
          field->seam_allowance_mm = seam_allowance (self->job, textile, panel, field->leaf_id);
        }
      else if (patch->scrap != NULL)
        {
          OddKept kept = { odd_convex_shift (patch->region, at), ODD_BOX_EMPTY, patch->scrap->fabric_id, patch->scrap->id };

          kept.box = odd_convex_box (kept.region);
          g_array_append_val (self->kept, kept);
        }
    }
}

static gboolean
has_field_in (const OddFields *self,
              OddId            panel_id)
{
  for (guint i = 0; i < self->fields->len; i++)
    if (((OddField *) self->fields->pdata[i])->panel_id == panel_id)
      return TRUE;

  return FALSE;
}

/* Panels of a textile side by side, as they hang one beside the other but not trimmed. */
static void
place_textile (OddFields  *self,
               OddTextile *textile,
               double     *x)
{
  g_autoptr(OddTextileLayout) hung = odd_job_dup_textile_layout (self->job, textile->id);
  gboolean wanted = FALSE;

  for (guint i = 0; i < textile->n_hung; i++)
    wanted = wanted || has_field_in (self, textile->hung[i].panel->id);
  for (guint i = 0; wanted && i < textile->n_hung; i++)
    {
      double width_mm;

      place_panel (self, textile, textile->hung[i].panel, odd_point (*x, hung->panels[i].at.y), &width_mm);
      *x += width_mm;
    }
  *x += LOOSE_GAP_MM;
}

static void
place_all (OddFields *self)
{
  double x = 0.0;

  for (guint i = 0; i < self->job->textiles->len; i++)
    place_textile (self, self->job->textiles->pdata[i], &x);
  for (guint i = 0; i < self->job->loose_panels->len; i++)
    {
      OddPanel *panel = self->job->loose_panels->pdata[i];
      double width_mm;

      if (!has_field_in (self, panel->id))
        continue;
      place_panel (self, NULL, panel, odd_point (x, 0.0), &width_mm);
      x += width_mm + LOOSE_GAP_MM;
    }
  for (guint i = self->fields->len; i-- > 0;)
    if (((OddField *) self->fields->pdata[i])->region == NULL)
      g_ptr_array_remove_index (self->fields, i);
}

OddFields *
odd_fields_new (OddJob      *job,
                const OddId *panels,
                guint        n_panels,
                const OddId *parts,
                guint        n_parts,
                gboolean     free_patches,
                GError     **error)
{
  g_autoptr(OddFields) self = g_new0 (OddFields, 1);

  self->job = odd_job_ref (job);
  self->fields = g_ptr_array_new_with_free_func (field_free);
  self->kept = g_array_new (FALSE, FALSE, sizeof (OddKept));
  g_array_set_clear_func (self->kept, clear_kept);
  for (guint i = 0; i < n_panels; i++)
    if (!free_panel (self, panels[i], parts, n_parts, free_patches, error))
      return NULL;
  place_all (self);

  return g_steal_pointer (&self);
}
