#include "config.h"

#include "cloth/panel.h"
#include "cloth/layout-slot.h"

#define SIDE_LEAST 0.9             /* of the box: what is sewn in before it is square is trimmed by less than this leaves, our choice */

static void
edges_copy (OddEdge       *to,
            const OddEdge *from,
            guint          n)
{
  for (guint i = 0; i < n; i++)
    if (from != NULL)
      to[i] = (OddEdge) { from[i].treatment, odd_progress_ref (from[i].progress) };
    else
      to[i] = (OddEdge) { ODD_TREATMENT_INHERIT, NULL };
}

/* The outline with labels 0..n-1 and its box at 0,0; @out_by is the shift that brought it there. */
static OddConvex *
outline_normalised (OddConvex *outline,
                    OddPoint  *out_by)
{
  const OddBox box = odd_convex_box (outline);
  g_autofree int *labels = g_new (int, outline->n);
  g_autofree OddPoint *points = g_new (OddPoint, outline->n);

  *out_by = odd_point (0.0 - box.x, 0.0 - box.y);   /* no negative zero */
  for (guint i = 0; i < outline->n; i++)
    {
      labels[i] = i;
      points[i] = odd_point_add (outline->points[i], *out_by);
    }
  return odd_convex_new (points, labels, outline->n);
}

static OddPanel *
panel_alloc (OddId            id,
             const char      *name,
             OddConvex       *outline,
             const OddEdge   *edges,
             OddNode         *root)
{
  OddPanel *self = g_atomic_rc_box_new0 (OddPanel);
  OddPoint by;

  self->id = id;
  self->name = g_strdup (name != NULL ? name : "");
  self->treatment = ODD_TREATMENT_INHERIT;
  self->outline = outline_normalised (outline, &by);
  self->edges = g_new (OddEdge, self->outline->n);
  edges_copy (self->edges, edges, self->outline->n);
  if (by.x != 0.0 || by.y != 0.0)
    self->root = odd_node_place (root, &(OddPlacement) { 0.0, FALSE, by });
  else
    self->root = odd_node_ref (root);
  self->layout_slot = odd_layout_slot_new ();
  return self;
}

OddPanel *
odd_panel_new (OddId          id,
               const char    *name,
               OddConvex     *outline,
               const OddEdge *edges,
               OddNode       *root)
{
  g_return_val_if_fail (outline != NULL && root != NULL, NULL);

  return panel_alloc (id, name, outline, edges, root);
}

OddPanel *
odd_panel_new_bare (OddId       id,
                    const char *name,
                    double      width_mm,
                    double      length_mm,
                    OddId       leaf_id)
{
  const int labels[4] = { 0, 1, 2, 3 };
  g_autoptr(OddConvex) outline = odd_convex_new_rectangle ((OddBox) { 0, 0, width_mm, length_mm }, labels);
  g_autoptr(OddNode) leaf = odd_node_new_bare (leaf_id);

  g_return_val_if_fail (outline != NULL, NULL);

  return odd_panel_new (id, name, outline, NULL, leaf);
}

OddPanel *
odd_panel_ref (OddPanel *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
panel_clear (gpointer data)
{
  OddPanel *self = data;

  for (guint i = 0; i < self->outline->n; i++)
    odd_progress_unref (self->edges[i].progress);
  g_free (self->edges);
  g_free (self->name);
  g_free (self->unknown_json);
  odd_measure_unref (self->measure);
  odd_convex_unref (self->outline);
  odd_node_unref (self->root);
  odd_layout_slot_free (self->layout_slot);
}

void
odd_panel_unref (OddPanel *self)
{
  g_atomic_rc_box_release_full (self, panel_clear);
}

OddPanel *
odd_panel_with_shape (OddPanel      *self,
                      OddConvex     *outline,
                      const OddEdge *edges,
                      OddNode       *root)
{
  OddPanel *copy = panel_alloc (self->id, self->name, outline, edges, root);

  copy->treatment = self->treatment;
  copy->locked = self->locked;
  copy->measure = odd_measure_ref (self->measure);
  copy->unknown_json = g_strdup (self->unknown_json);
  return copy;
}

OddPanel *
odd_panel_with_root (OddPanel *self,
                     OddNode  *root)
{
  return odd_panel_with_shape (self, self->outline, self->edges, root);
}

OddPanel *
odd_panel_with_name (OddPanel   *self,
                     const char *name)
{
  OddPanel *copy = odd_panel_with_root (self, self->root);

  g_free (copy->name);
  copy->name = g_strdup (name != NULL ? name : "");
  return copy;
}

OddPanel *
odd_panel_with_treatment (OddPanel           *self,
                          const OddTreatment *treatment)
{
  OddPanel *copy = odd_panel_with_root (self, self->root);

  copy->treatment = *treatment;
  return copy;
}

OddPanel *
odd_panel_with_edge (OddPanel           *self,
                     guint               edge,
                     const OddTreatment *treatment)
{
  OddPanel *copy = odd_panel_with_root (self, self->root);

  g_return_val_if_fail (edge < self->outline->n, copy);

  copy->edges[edge].treatment = *treatment;
  return copy;
}

OddPanel *
odd_panel_with_measure (OddPanel   *self,
                        OddMeasure *measure)
{
  OddPanel *copy = odd_panel_with_root (self, self->root);

  odd_measure_unref (copy->measure);
  copy->measure = odd_measure_ref (measure);
  return copy;
}

OddPanel *
odd_panel_with_lock (OddPanel *self,
                     gboolean  locked)
{
  OddPanel *copy = odd_panel_with_root (self, self->root);

  copy->locked = locked;
  return copy;
}

OddPanel *
odd_panel_with_unknown (OddPanel   *self,
                        const char *unknown_json)
{
  OddPanel *copy = odd_panel_with_root (self, self->root);

  g_free (copy->unknown_json);
  copy->unknown_json = g_strdup (unknown_json);
  return copy;
}

int
odd_panel_side_edge (const OddPanel *self,
                     guint           side)
{
  static const OddPoint outward[4] = { { 0, -1 }, { 1, 0 }, { 0, 1 }, { -1, 0 } };
  int best = -1;
  double best_dot = M_SQRT1_2 - 1e-9;

  g_return_val_if_fail (side < 4, -1);

  for (guint i = 0; i < self->outline->n; i++)
    {
      const double dot = odd_point_dot (odd_convex_edge_half_plane (self->outline, i).normal, outward[side]);

      if (dot > best_dot)
        {
          best = i;
          best_dot = dot;
        }
    }
  return best;
}

gboolean
odd_panel_has_four_sides (const OddPanel *self)
{
  const OddBox box = odd_convex_box (self->outline);

  for (guint side = 0; side < 4; side++)
    {
      const int edge = odd_panel_side_edge (self, side);
      const OddSegment line = edge >= 0 ? odd_convex_edge (self->outline, (guint) edge) : (OddSegment) { { 0.0, 0.0 }, { 0.0, 0.0 } };
      const double across = fabs (line.to.x - line.from.x) / box.width;
      const double down = fabs (line.to.y - line.from.y) / box.height;

      if (side % 2 == 0 ? across < SIDE_LEAST || down > 1.0 - SIDE_LEAST : down < SIDE_LEAST || across > 1.0 - SIDE_LEAST)
        return FALSE;
    }
  return TRUE;
}
