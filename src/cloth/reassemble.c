/* Keeping the cut when allowances change.
 *
 *    part 0  |  part 1  |  part 2        Each part is put together by itself first; it tells, for every line it borders on,
 *   ---------+----------+---------       where its finished edge now lies (its extent). Then the parts of the strip are pushed
 *      a0 -> a0'   a1 -> a1'             together: part i + 1 moves along the seam's normal until its extent meets that of part i.
 *
 * A part made of several patches reaches a line as far as the one that reaches least; what the others have more is trimmed. The same
 * holds for the panel's outline, so every region stays inside every part that makes it up.
 * Derived here; worked through in tests/cloth/test-edit.c (3 x 3 squares from 12.7 to 15.875 mm: pitch 88.25 mm).
 */
#include "config.h"

#include "cloth/edit-private.h"

typedef struct { int label; OddHalfPlane plane; } Extent;       /* plane: outward */

typedef struct
{
  const OddLayout *from, *to;
  GHashTable *patches;        /* leaf id -> OddPatch of @from */
  guint next_seam;
  OddId trimmed_id;           /* 0: none */
  const double *trim_mm;
} Reassembly;

static double
growth (const Reassembly *self,
        int               label)
{
  if (label >= 0)
    return self->to->seams[label].allowance_mm - self->from->seams[label].allowance_mm;
  return self->to->edges[-1 - label].allowance_mm - self->from->edges[-1 - label].allowance_mm;
}

static Extent *
find_extent (GArray *extents,
             int     label)
{
  for (guint i = 0; i < extents->len; i++)
    if (g_array_index (extents, Extent, i).label == label)
      return &g_array_index (extents, Extent, i);
  return NULL;
}

/* The least reach wins. */
static void
merge_extents (GArray *into,
               GArray *from,
               int     but_label_from,
               guint   but_n)
{
  for (guint i = 0; i < from->len; i++)
    {
      const Extent *extent = &g_array_index (from, Extent, i);
      Extent *known;

      if (extent->label >= but_label_from && extent->label < but_label_from + (int) but_n)
        continue;
      known = find_extent (into, extent->label);
      if (known == NULL)
        g_array_append_val (into, *extent);
      else
        known->plane.offset_mm = MIN (known->plane.offset_mm, extent->plane.offset_mm);
    }
}

static void
shift_extents (GArray   *extents,
               OddPoint  by)
{
  for (guint i = 0; i < extents->len; i++)
    {
      Extent *extent = &g_array_index (extents, Extent, i);

      extent->plane = odd_half_plane_shift (extent->plane, by);
    }
}

static void
leaf_extents (const Reassembly *self,
              OddNode          *leaf,
              GArray           *extents)
{
  const OddPatch *patch = g_hash_table_lookup (self->patches, GUINT_TO_POINTER (leaf->id));

  for (guint e = 0; patch != NULL && e < patch->region->n; e++)
    {
      const int label = patch->region->labels[e];
      const Extent extent = { label, odd_half_plane_push (odd_convex_edge_half_plane (patch->region, e), -growth (self, label)) };

      g_array_append_val (extents, extent);
    }
}

static OddNode *reassemble (Reassembly *self, OddNode *node, GArray *extents);

/* Moves part @i up to part @i - 1 across their seam; returns where the seam's line now lies. */
static OddHalfPlane
push_together (OddHalfPlane  line,
               int           label,
               GArray       *before,
               GArray       *after,
               OddNode     **part)
{
  const Extent *near_edge = find_extent (before, label);
  const Extent *far_edge = find_extent (after, label);
  OddHalfPlane moved = line;
  OddPoint by;

  if (near_edge == NULL || far_edge == NULL)
    return line;     /* a part without a region: nothing to push */
  moved.offset_mm = near_edge->plane.offset_mm;
  by = odd_point_scale (line.normal, near_edge->plane.offset_mm + far_edge->plane.offset_mm);
  if (by.x != 0.0 || by.y != 0.0)
    {
      OddNode *placed = odd_node_place (*part, &(OddPlacement) { 0.0, FALSE, by });

      odd_node_unref (*part);
      *part = placed;
      shift_extents (after, by);
    }
  return moved;
}

static OddNode *
reassemble_strip (Reassembly *self,
                  OddNode    *strip,
                  GArray     *extents)
{
  const guint n = strip->n_parts;
  const guint first_seam = self->next_seam;
  g_autofree OddNode **parts = g_new0 (OddNode *, n);
  g_autofree OddSeam *seams = g_new0 (OddSeam, n - 1);
  g_autoptr(GArray) before = NULL;
  OddNode *result;

  self->next_seam += n - 1;
  for (guint i = 0; i < n; i++)
    {
      g_autoptr(GArray) own = g_array_new (FALSE, FALSE, sizeof (Extent));

      parts[i] = reassemble (self, strip->parts[i], own);
      if (i > 0)
        {
          seams[i - 1] = strip->seams[i - 1];
          seams[i - 1].line = push_together (strip->seams[i - 1].line, first_seam + i - 1, before, own, &parts[i]);
        }
      merge_extents (extents, own, first_seam, n - 1);
      g_clear_pointer (&before, g_array_unref);
      before = g_steal_pointer (&own);
    }
  result = odd_node_with_parts (strip, parts, seams, n);
  for (guint i = 0; i < n; i++)
    odd_node_unref (parts[i]);
  return result;
}

static void
trim_extents (const Reassembly *self,
              GArray           *extents)
{
  static const OddPoint outward[4] = { { 0, -1 }, { 1, 0 }, { 0, 1 }, { -1, 0 } };

  for (guint i = 0; i < extents->len; i++)
    for (guint side = 0; side < 4; side++)
      {
        Extent *extent = &g_array_index (extents, Extent, i);

        if (odd_point_dot (extent->plane.normal, outward[side]) > M_SQRT1_2)
          extent->plane.offset_mm -= self->trim_mm[side];
      }
}

static OddNode *
reassemble (Reassembly *self,
            OddNode    *node,
            GArray     *extents)
{
  OddNode *result;

  if (node->kind == ODD_NODE_STRIP)
    result = reassemble_strip (self, node, extents);
  else
    {
      leaf_extents (self, node, extents);
      result = odd_node_ref (node);
    }
  if (node->id == self->trimmed_id)
    trim_extents (self, extents);
  return result;
}

OddPanel *
odd_panel_reassemble (OddPanel        *panel,
                      const OddLayout *from,
                      const OddLayout *to)
{
  return odd_panel_reassemble_trimmed (panel, from, to, 0, NULL);
}

OddPanel *
odd_panel_reassemble_trimmed (OddPanel        *panel,
                              const OddLayout *from,
                              const OddLayout *to,
                              OddId            node_id,
                              const double     by_mm[4])
{
  Reassembly self = { from, to, NULL, 0, node_id, by_mm };
  g_autoptr(GHashTable) patches = g_hash_table_new (NULL, NULL);
  g_autoptr(GArray) extents = g_array_new (FALSE, FALSE, sizeof (Extent));
  g_autofree OddHalfPlane *planes = odd_edit_outline_planes (panel);
  g_autoptr(OddNode) root = NULL;

  for (guint i = 0; i < from->n_patches; i++)
    g_hash_table_insert (patches, GUINT_TO_POINTER (from->patches[i].leaf->id), &from->patches[i]);
  self.patches = patches;
  root = reassemble (&self, panel->root, extents);
  for (guint i = 0; i < panel->outline->n; i++)
    {
      const Extent *extent = find_extent (extents, -1 - (int) i);

      if (extent != NULL)
        planes[i].offset_mm = extent->plane.offset_mm;
    }
  return odd_edit_panel_from_planes (panel, planes, root);
}
