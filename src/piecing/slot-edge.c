/* The slot at an open edge: the new seam's line, the sides prolonged, and what the seam does to the panel that stands.
 *
 * The panel's raw edge stays where it is. The new seam's line lies one allowance inside it; a tilted seam's raw
 * edge turns about the raw corner that it reaches first, so the panel's cloth always suffices:
 *
 *      |        |            |        |
 *      |        |            |     _.-|   raw edge of the tilted seam
 *      |        |            |  _.-   |   what lies below is trimmed
 *      +--------+ raw edge   +.-------+
 */
#include "config.h"

#include "cloth/hang.h"
#include "piecing/slot-private.h"

/* Beyond any panel. */
#define FAR_MM 1e4

/* The sides of the panel as it hangs; those of the panel alone where it is trimmed to its neighbours. */
static void
add_prolonged_sides (OddSlot    *self,
                     OddJob     *job,
                     OddTextile *textile,
                     OddPanel   *panel)
{
  for (guint i = 0; i < panel->outline->n; i++)
    {
      OddHalfPlane plane = odd_half_plane_place (odd_convex_edge_half_plane (panel->outline, i), &self->layout->hung);
      double allowance_mm;

      if (i == self->target.edge)
        continue;
      odd_panel_resolve_edge (job, textile, panel, i, NULL, &allowance_mm);
      for (guint k = 0; k < self->layout->n_edges; k++)
        {
          const OddLaidEdge *edge = &self->layout->edges[k];

          if (edge->outline_edge != (int) i || edge->trimmed_mm > 0.0)
            continue;
          plane = odd_convex_edge_half_plane (self->layout->outline, k);
          allowance_mm = edge->allowance_mm;
        }
      odd_slot_add_side (self, plane, allowance_mm);
    }
}

/* How far out the raw edge of a seam of this direction may lie: where it first meets a corner of the raw edge that is there. */
static double
raw_reach (const OddConvex *raw,
           int              label,
           OddPoint         normal)
{
  double reach = INFINITY;

  for (guint i = 0; i < raw->n; i++)
    {
      const OddSegment edge = odd_convex_edge (raw, i);

      if (raw->labels[i] == label)
        reach = MIN (reach, MIN (odd_point_dot (normal, edge.from), odd_point_dot (normal, edge.to)));
    }

  return reach;
}

/* Will a seam go into the top strip? As odd_job_extend_panel() decides it: when it runs beyond the strip's first or last seam. */
static gboolean
joins_top_strip (OddSlot      *self,
                 OddHalfPlane  seam)
{
  const OddNode *root = self->layout->root;
  const OddHalfPlane far = odd_half_plane_push (seam, FAR_MM);
  g_autoptr(OddConvex) outline = NULL;
  OddSegment chord;
  double from, to;

  if (root->kind != ODD_NODE_STRIP || root->locked)
    return FALSE;
  odd_slot_add_side (self, far, 0.0);
  outline = odd_slot_part (self, INFINITY);
  g_array_set_size (self->sides, self->sides->len - 1);
  if (outline == NULL || !odd_convex_chord (outline, seam, &chord))
    return FALSE;

  from = odd_half_plane_distance (root->seams[root->n_parts - 2].line, chord.from);
  to = odd_half_plane_distance (root->seams[root->n_parts - 2].line, chord.to);
  if (MIN (from, to) > ODD_TOLERANCE_MM)
    return TRUE;
  from = odd_half_plane_distance (root->seams[0].line, chord.from);
  to = odd_half_plane_distance (root->seams[0].line, chord.to);

  return MAX (from, to) < -ODD_TOLERANCE_MM;
}

static double
new_seam_allowance (OddSlot      *self,
                    OddJob       *job,
                    OddTextile   *textile,
                    OddPanel     *panel,
                    OddHalfPlane  near_line)
{
  const OddTreatment *levels[3] = { textile != NULL ? &textile->treatment : NULL, &panel->treatment,
                                    joins_top_strip (self, near_line) ? &self->layout->root->treatment : NULL };
  double allowance_mm;

  odd_job_resolve (job, levels, G_N_ELEMENTS (levels), NULL, &allowance_mm);

  return allowance_mm;
}

/* What the new seam takes from the panel that stands. FALSE: a patch vanishes, or gets narrower than @min_side_mm. */
static gboolean
trim_panel (OddSlot         *self,
            const OddConvex *finished,
            const OddConvex *raw,
            OddHalfPlane     seam,
            double           min_side_mm)
{
  const OddHalfPlane raw_edge = odd_half_plane_push (seam, self->base_allowance_mm);
  g_autoptr(OddConvex) lost = odd_convex_clip ((OddConvex *) finished, odd_half_plane_flip (seam), 0);
  g_autoptr(OddConvex) lost_raw = odd_convex_clip ((OddConvex *) raw, odd_half_plane_flip (raw_edge), 0);

  /* a hair inside, where the line is sure to cross */
  odd_convex_chord (raw, odd_half_plane_push (raw_edge, -1e-4), &self->raw_edge);
  self->panel_trimmed_mm2 = lost != NULL ? odd_convex_area (lost) : 0.0;
  if (lost_raw != NULL && odd_convex_area (lost_raw) > 1.0)
    g_ptr_array_add (self->panel_trims, odd_polygon_new_from_convex (lost_raw));

  for (guint i = 0; i < self->layout->n_patches; i++)
    {
      OddConvex *region = self->layout->patches[i].region;
      g_autoptr(OddConvex) left = NULL;

      if (odd_convex_support (region, seam.normal) <= seam.offset_mm + ODD_TOLERANCE_MM)
        continue;
      left = odd_convex_clip (region, seam, 0);
      if (left == NULL || odd_convex_min_width (left) < MIN (min_side_mm, odd_convex_min_width (region)) - ODD_TOLERANCE_MM)
        return FALSE;
    }

  return TRUE;
}

/* Ends of seams that the cut along the new raw edge takes off, and junctions that it passes too near. */
static void
count_ends (OddSlot     *self,
            OddHalfPlane seam)
{
  for (guint i = 0; i < self->layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &self->layout->seams[i];

      for (guint end = 0; end < 2 && laid->raw_length_mm > 0.0; end++)
        {
          const OddPoint finished = end == 0 ? laid->finished.from : laid->finished.to;
          const OddPoint raw = end == 0 ? laid->raw.from : laid->raw.to;

          if (odd_half_plane_distance (seam, raw) > self->base_allowance_mm + 0.01)
            self->n_cut_ends++;
          else if (laid->ends[end].label >= 0 && fabs (odd_half_plane_distance (seam, finished)) < ODD_NEAR_JUNCTION_MM)
            self->n_near++;
        }
    }
}

static OddPoint
nearest_axis (OddPoint up)
{
  if (fabs (up.x) > fabs (up.y))
    return odd_point (up.x > 0.0 ? 1.0 : -1.0, 0.0);

  return odd_point (0.0, up.y > 0.0 ? 1.0 : -1.0);
}

OddSlot *
odd_slot_new_edge (OddJob          *job,
                   const OddTarget *target,
                   double           tilt_deg)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_get_panel (job, target->panel_id, &textile, NULL);
  g_autoptr(OddSlot) self = NULL;
  g_autoptr(OddConvex) raw_alone = NULL;
  g_autoptr(OddConvex) raw = NULL;
  g_autoptr(OddConvex) finished = NULL;
  OddHalfPlane edge, seam;

  g_return_val_if_fail (panel != NULL && target->edge < panel->outline->n, NULL);

  self = odd_slot_alloc (target);
  self->tilt_deg = tilt_deg;
  self->layout = odd_job_dup_layout (job, target->panel_id);
  raw_alone = odd_panel_dup_raw_outline (job, textile, panel);
  raw = odd_convex_place (raw_alone, &self->layout->hung);
  finished = odd_convex_place (panel->outline, &self->layout->hung);
  edge = odd_half_plane_place (odd_convex_edge_half_plane (panel->outline, target->edge), &self->layout->hung);

  seam.normal = odd_half_plane_place (edge, &(OddPlacement) { tilt_deg, FALSE, { 0.0, 0.0 } }).normal;
  seam.offset_mm = raw_reach (raw, target->edge, seam.normal);
  if (!isfinite (seam.offset_mm))
    return NULL;
  add_prolonged_sides (self, job, textile, panel);
  self->base_allowance_mm = new_seam_allowance (self, job, textile, panel, seam);
  self->seam_allowance_mm = self->base_allowance_mm;
  seam = odd_half_plane_push (seam, -self->base_allowance_mm);
  odd_panel_resolve_edge (job, textile, panel, target->edge, NULL, &self->far_allowance_mm);

  self->base_plane = odd_half_plane_flip (seam);
  self->axis = nearest_axis (seam.normal);
  self->reach_mm = odd_convex_support (finished, self->axis);
  self->frame = odd_slot_frame_along (odd_point_scale (seam.normal, seam.offset_mm), seam.normal);
  g_array_prepend_val (self->sides, ((OddSlotSide) { self->base_plane, self->base_allowance_mm }));
  if (!trim_panel (self, finished, raw, seam, job->settings.min_side_mm))
    return NULL;
  count_ends (self, seam);

  return odd_slot_measure (self, 100.0) ? g_steal_pointer (&self) : NULL;
}
