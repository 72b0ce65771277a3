/* The slot in a bare region: its own lines, and the ends from which it can be filled. */
#include "config.h"

#include "piecing/slot-private.h"

typedef struct
{
  const OddNode *strips[256];     /* from the root to the leaf's parent */
  guint n;
} Path;

static gboolean
find_path (const OddNode *node,
           OddId          leaf_id,
           Path          *path)
{
  if (node->kind == ODD_NODE_LEAF)
    return node->id == leaf_id;
  if (path->n == G_N_ELEMENTS (path->strips))
    return FALSE;
  path->strips[path->n++] = node;
  for (guint i = 0; i < node->n_parts; i++)
    if (find_path (node->parts[i], leaf_id, path))
      return TRUE;
  path->n--;

  return FALSE;
}

static double
split_seam_allowance (OddJob     *job,
                      OddTextile *textile,
                      OddPanel   *panel,
                      const Path *path)
{
  const OddTreatment *levels[258] = { textile != NULL ? &textile->treatment : NULL, &panel->treatment };
  double allowance_mm;

  for (guint i = 0; i < path->n; i++)
    levels[2 + i] = &path->strips[i]->treatment;
  odd_job_resolve (job, levels, 2 + path->n, NULL, &allowance_mm);

  return allowance_mm;
}

static double
label_allowance (const OddLayout *layout,
                 int              label)
{
  return label >= 0 ? layout->seams[label].allowance_mm : layout->edges[-1 - label].allowance_mm;
}

OddSlot *
odd_slot_new_bare (OddJob          *job,
                   const OddTarget *target,
                   guint            base)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_find_panel_of (job, target->leaf_id, &textile, NULL);
  g_autoptr(OddSlot) self = NULL;
  const OddPatch *patch;
  Path path = { .n = 0 };
  double left, right;

  g_return_val_if_fail (panel != NULL, NULL);

  self = odd_slot_alloc (target);
  self->target.panel_id = panel->id;
  self->layout = odd_job_dup_layout (job, panel->id);
  self->base = base;
  patch = odd_layout_find_patch (self->layout, target->leaf_id);
  if (patch == NULL || base >= patch->region->n)
    return NULL;

  for (guint i = 0; i < patch->region->n; i++)
    odd_slot_add_side (self, odd_convex_edge_half_plane (patch->region, i), label_allowance (self->layout, patch->region->labels[i]));
  find_path (self->layout->root, target->leaf_id, &path);
  self->base_plane = odd_convex_edge_half_plane (patch->region, base);
  self->base_allowance_mm = g_array_index (self->sides, OddSlotSide, base).allowance_mm;
  self->seam_allowance_mm = split_seam_allowance (job, textile, panel, &path);
  self->far_allowance_mm = self->seam_allowance_mm;
  self->frame = odd_slot_frame_along (odd_convex_edge (patch->region, base).from, odd_point_scale (self->base_plane.normal, -1.0));
  odd_slot_sheared_extent (self, patch->region, &left, &right, &self->max_height_mm);

  return odd_slot_measure (self, self->max_height_mm) ? g_steal_pointer (&self) : NULL;
}

static gboolean
grows_from (const OddLayout *layout,
            const OddNode   *parent,
            int              label)
{
  return label >= 0 && layout->seams[label].strip == parent;
}

/* The two shorter of four sides: a bare column fills from its ends. */
static gboolean
is_short_end (const OddConvex *region,
              guint            edge)
{
  const double length = odd_segment_length (odd_convex_edge (region, edge));
  guint n_shorter = 0;

  for (guint i = 0; i < region->n; i++)
    n_shorter += odd_segment_length (odd_convex_edge (region, i)) < length - ODD_TOLERANCE_MM;

  return n_shorter < 2;
}

GArray *
odd_slot_bases (OddJob          *job,
                const OddTarget *target,
                OddPoint         held_at)
{
  GArray *bases = g_array_new (FALSE, FALSE, sizeof (guint));
  OddPanel *panel = odd_job_find_panel_of (job, target->leaf_id, NULL, NULL);
  g_autoptr(OddLayout) layout = panel != NULL ? odd_job_dup_layout (job, panel->id) : NULL;
  const OddPatch *patch = layout != NULL ? odd_layout_find_patch (layout, target->leaf_id) : NULL;
  Path path = { .n = 0 };
  g_autofree double *ranks = NULL;

  if (patch == NULL)
    return bases;

  find_path (layout->root, target->leaf_id, &path);
  ranks = g_new (double, patch->region->n);
  for (guint i = 0; i < patch->region->n; i++)
    {
      const OddSegment edge = odd_convex_edge (patch->region, i);
      const OddPoint middle = odd_point_lerp (edge.from, edge.to, 0.5);
      const gboolean grows = path.n > 0 ? grows_from (layout, path.strips[path.n - 1], patch->region->labels[i]) : is_short_end (patch->region, i);
      guint at = bases->len;

      /* held near one end: from there; else from the top, then from the left */
      ranks[i] = (grows ? 0.0 : 1e6) + (isnan (held_at.x) ? middle.y + middle.x / 1e3 : odd_point_distance (middle, held_at));
      g_array_append_val (bases, i);
      for (; at > 0 && ranks[g_array_index (bases, guint, at - 1)] > ranks[i]; at--)
        g_array_index (bases, guint, at) = g_array_index (bases, guint, at - 1);
      g_array_index (bases, guint, at) = i;
    }

  return bases;
}
