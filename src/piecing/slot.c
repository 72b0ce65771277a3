/* Slots from targets: which lines bound a new patch, and what each takes as its allowance.
 *
 * At an open edge the panel's raw edge stays where it is. The new seam's line lies one allowance inside it; a tilted seam's raw
 * edge turns about the raw corner that it reaches first, so the panel's cloth always suffices:
 *
 *      |        |            |        |
 *      |        |            |     _.-|   raw edge of the tilted seam
 *      |        |            |  _.-   |   what lies below is trimmed
 *      +--------+ raw edge   +.-------+
 */
#include "config.h"

#include "cloth/hang.h"
#include "piecing/slot.h"

/* Sides that meet at less than this are parallel; mm per mm. */
#define PARALLEL 1e-9
/* Beyond any panel. */
#define FAR_MM 1e4

void
odd_slot_free (OddSlot *self)
{
  g_clear_pointer (&self->layout, odd_layout_unref);
  g_clear_pointer (&self->panel_trims, g_ptr_array_unref);
  g_array_unref (self->sides);
  g_free (self);
}

static OddSlot *
slot_alloc (const OddTarget *target)
{
  OddSlot *self = g_new0 (OddSlot, 1);

  self->target = *target;
  self->sides = g_array_new (FALSE, FALSE, sizeof (OddSlotSide));
  self->panel_trims = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  self->max_height_mm = INFINITY;
  self->closed_top_mm = INFINITY;

  return self;
}

static void
add_side (OddSlot     *self,
          OddHalfPlane plane,
          double       allowance_mm)
{
  const OddSlotSide side = { plane, allowance_mm };

  g_array_append_val (self->sides, side);
}

/* The frame with its origin at @origin and y along @up. */
static OddPlacement
frame_along (OddPoint origin,
             OddPoint up)
{
  double turn_deg = atan2 (-up.x, up.y) * 180.0 / G_PI;

  /* quarter turns are to be exact */
  if (fabs (turn_deg - 90.0 * round (turn_deg / 90.0)) < 1e-9)
    turn_deg = 90.0 * round (turn_deg / 90.0);

  return (OddPlacement) { turn_deg, FALSE, origin };
}

OddHalfPlane
odd_slot_far_line (const OddSlot *self,
                   double         height_mm)
{
  return odd_half_plane_push (odd_half_plane_flip (self->base_plane), height_mm);
}

OddHalfPlane
odd_slot_row_line (const OddSlot *self)
{
  const double slant = sqrt (1.0 + self->shear * self->shear);
  const double x = self->row_at_end
                   ? self->cut_left_mm + self->left_allowance_mm
                   : self->cut_left_mm + self->left_allowance_mm + self->row_width_mm;
  const OddHalfPlane line = { { 1.0 / slant, -self->shear / slant }, x / slant };

  return odd_half_plane_place (self->row_at_end ? odd_half_plane_flip (line) : line, &self->frame);
}

gboolean
odd_slot_is_whole (const OddSlot *self,
                   double         height_mm)
{
  return height_mm >= self->max_height_mm - ODD_TOLERANCE_MM;
}

/* Labels: index of the side; after them the far line, then the row line. */
static OddConvex *
make_region (const OddSlot *self,
             double         height_mm,
             gboolean       row,
             OddConvex    **out_cut)
{
  const guint n = self->sides->len;
  OddHalfPlane *planes = g_newa (OddHalfPlane, n + 2);
  double *all = g_newa (double, n + 2);
  int *labels = g_newa (int, n + 2);
  OddConvex *region;
  guint used = 0;

  for (; used < n; used++)
    {
      planes[used] = g_array_index (self->sides, OddSlotSide, used).plane;
      all[used] = g_array_index (self->sides, OddSlotSide, used).allowance_mm;
      labels[used] = used;
    }
  if (isfinite (height_mm) && !odd_slot_is_whole (self, height_mm))
    {
      planes[used] = odd_slot_far_line (self, height_mm);
      all[n] = self->far_allowance_mm;
      labels[used++] = n;
    }
  if (row && self->row_width_mm > 0.0)
    {
      planes[used] = odd_slot_row_line (self);
      all[n + 1] = self->seam_allowance_mm;
      labels[used++] = n + 1;
    }

  region = odd_convex_new_from_half_planes (planes, labels, used);
  if (region != NULL && out_cut != NULL)
    {
      double *allowances = g_newa (double, region->n);

      for (guint i = 0; i < region->n; i++)
        allowances[i] = all[region->labels[i]];
      *out_cut = odd_convex_cut_shape (region, allowances);
    }

  return region;
}

OddConvex *
odd_slot_region (const OddSlot *self,
                 double         height_mm,
                 OddConvex    **out_cut)
{
  return make_region (self, height_mm, TRUE, out_cut);
}

gboolean
odd_slot_is_plain (const OddSlot *self)
{
  g_autoptr(OddConvex) region = odd_slot_part (self, INFINITY);

  if (region == NULL || region->n != 4)
    return FALSE;
  for (guint i = 0; i < 2; i++)
    {
      const OddPoint a = odd_convex_edge_half_plane (region, i).normal;
      const OddPoint b = odd_convex_edge_half_plane (region, i + 2).normal;

      if (fabs (odd_point_cross (a, b)) > PARALLEL)
        return FALSE;
    }

  return TRUE;
}

OddConvex *
odd_slot_part (const OddSlot *self,
               double         height_mm)
{
  return make_region (self, height_mm, FALSE, NULL);
}

double
odd_slot_height (const OddSlot *self,
                 double         channel_mm,
                 double         min_rest_mm)
{
  const double height_mm = channel_mm - self->base_allowance_mm - self->far_allowance_mm;

  if (channel_mm >= self->closed_top_mm + self->base_allowance_mm - ODD_TOLERANCE_MM)
    return self->max_height_mm;

  return CLAMP (height_mm, 0.0, MAX (0.0, self->max_height_mm - min_rest_mm));
}

/* --- what the scrap must span --- */

/* dx / dy of the sides that stand on the base, in the slot's frame; FALSE when the region does not stand on it. */
static gboolean
measure_base (OddSlot   *self,
              OddConvex *region)
{
  for (guint i = 0; i < region->n; i++)
    {
      const guint before = (i + region->n - 1) % region->n, after = (i + 1) % region->n;
      const OddPoint up = odd_point_scale (self->base_plane.normal, -1.0);
      const OddPoint along = odd_point (up.y, -up.x);
      OddPoint left, right;
      double shears[2];

      if (odd_point_dot (odd_convex_edge_half_plane (region, i).normal, self->base_plane.normal) < 1.0 - 1e-9
          || fabs (odd_half_plane_distance (self->base_plane, region->points[i])) > 1e-6)
        continue;
      self->edge_mm = odd_segment_length (odd_convex_edge (region, i));
      /* The base runs along x (positive ring, y away from it). */
      left = odd_point_sub (region->points[before], region->points[i]);
      right = odd_point_sub (region->points[(after + 1) % region->n], region->points[after]);
      shears[0] = odd_point_dot (left, along) / MAX (odd_point_dot (left, up), 1e-9);
      shears[1] = odd_point_dot (right, along) / MAX (odd_point_dot (right, up), 1e-9);
      self->shear = fabs (shears[0] - shears[1]) <= PARALLEL ? shears[0] : CLAMP ((shears[0] + shears[1]) / 2.0, -1.0, 1.0);
      if (fabs (self->shear) < PARALLEL)
        self->shear = 0.0;
      return TRUE;
    }

  return FALSE;
}

static void
sheared_extent (const OddSlot   *self,
                const OddConvex *shape,
                double          *out_left,
                double          *out_right,
                double          *out_top)
{
  *out_left = INFINITY;
  *out_right = -INFINITY;
  *out_top = -INFINITY;
  for (guint i = 0; i < shape->n; i++)
    {
      const OddPoint p = odd_placement_undo (&self->frame, shape->points[i]);

      *out_left = MIN (*out_left, p.x - p.y * self->shear);
      *out_right = MAX (*out_right, p.x - p.y * self->shear);
      *out_top = MAX (*out_top, p.y);
    }
}

/* Measures the slot by the cut shape of its region up to @height_mm; sides that are not parallel are boxed in. */
static gboolean
measure (OddSlot *self,
         double   height_mm)
{
  g_autoptr(OddConvex) cut = NULL;
  g_autoptr(OddConvex) region = odd_slot_region (self, height_mm, &cut);
  double left, right, top, finished_left, finished_right, cut_top;

  if (region == NULL || cut == NULL || !measure_base (self, region))
    return FALSE;

  sheared_extent (self, region, &finished_left, &finished_right, &top);
  sheared_extent (self, cut, &left, &right, &cut_top);
  self->cut_left_mm = left;
  self->cut_width_mm = right - left;
  self->left_allowance_mm = finished_left - left;
  self->right_allowance_mm = right - finished_right;
  if (odd_slot_is_whole (self, height_mm))
    self->closed_top_mm = cut_top;

  return TRUE;
}

guint
odd_slot_count_near (const OddSlot *self,
                     OddPoint       p)
{
  guint n = 0;

  for (guint i = 0; self->layout != NULL && i < self->layout->n_seams; i++)
    {
      const OddLaidSeam *seam = &self->layout->seams[i];

      if (seam->raw_length_mm <= 0.0)
        continue;
      n += odd_point_distance (seam->finished.from, p) < ODD_NEAR_JUNCTION_MM;
      n += odd_point_distance (seam->finished.to, p) < ODD_NEAR_JUNCTION_MM;
    }

  return n;
}

/* --- an open edge --- */

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
      add_side (self, plane, allowance_mm);
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
  add_side (self, far, 0.0);
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

  self = slot_alloc (target);
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
  self->frame = frame_along (odd_point_scale (seam.normal, seam.offset_mm), seam.normal);
  g_array_prepend_val (self->sides, ((OddSlotSide) { self->base_plane, self->base_allowance_mm }));
  if (!trim_panel (self, finished, raw, seam, job->settings.min_side_mm))
    return NULL;
  count_ends (self, seam);

  return measure (self, 100.0) ? g_steal_pointer (&self) : NULL;
}

/* --- a bare region --- */

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

  self = slot_alloc (target);
  self->target.panel_id = panel->id;
  self->layout = odd_job_dup_layout (job, panel->id);
  self->base = base;
  patch = odd_layout_find_patch (self->layout, target->leaf_id);
  if (patch == NULL || base >= patch->region->n)
    return NULL;

  for (guint i = 0; i < patch->region->n; i++)
    add_side (self, odd_convex_edge_half_plane (patch->region, i), label_allowance (self->layout, patch->region->labels[i]));
  find_path (self->layout->root, target->leaf_id, &path);
  self->base_plane = odd_convex_edge_half_plane (patch->region, base);
  self->base_allowance_mm = g_array_index (self->sides, OddSlotSide, base).allowance_mm;
  self->seam_allowance_mm = split_seam_allowance (job, textile, panel, &path);
  self->far_allowance_mm = self->seam_allowance_mm;
  self->frame = frame_along (odd_convex_edge (patch->region, base).from, odd_point_scale (self->base_plane.normal, -1.0));
  sheared_extent (self, patch->region, &left, &right, &self->max_height_mm);

  return measure (self, self->max_height_mm) ? g_steal_pointer (&self) : NULL;
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

/* --- a new panel, a row --- */

OddSlot *
odd_slot_new_panel (OddJob          *job,
                    const OddTarget *target,
                    double           width_mm)
{
  OddTextile *textile = target->textile_id != 0 ? odd_job_get_textile (job, target->textile_id) : NULL;
  const OddTreatment *levels[1] = { textile != NULL ? &textile->treatment : NULL };
  g_autoptr(OddSlot) self = slot_alloc (target);
  double allowance_mm;

  odd_job_resolve (job, levels, 1, NULL, &allowance_mm);
  self->frame = ODD_PLACEMENT_IDENTITY;
  self->base_plane = (OddHalfPlane) { { 0.0, -1.0 }, 0.0 };
  self->base_allowance_mm = self->far_allowance_mm = self->seam_allowance_mm = allowance_mm;
  add_side (self, self->base_plane, allowance_mm);
  add_side (self, (OddHalfPlane) { { -1.0, 0.0 }, 0.0 }, allowance_mm);
  add_side (self, (OddHalfPlane) { { 1.0, 0.0 }, width_mm }, allowance_mm);

  return measure (self, 100.0) ? g_steal_pointer (&self) : NULL;
}

OddSlot *
odd_slot_new_row (const OddSlot *self,
                  double         width_mm,
                  gboolean       at_end)
{
  const double slant = sqrt (1.0 + self->shear * self->shear);
  const double finished_mm = self->cut_width_mm - self->left_allowance_mm - self->right_allowance_mm;
  OddSlot *row = slot_alloc (&self->target);
  GArray *sides = row->sides;
  GPtrArray *panel_trims = row->panel_trims;

  *row = *self;
  row->sides = sides;
  g_array_append_vals (sides, self->sides->data, self->sides->len);
  row->panel_trims = panel_trims;
  for (guint i = 0; i < self->panel_trims->len; i++)
    g_ptr_array_add (panel_trims, odd_polygon_ref (self->panel_trims->pdata[i]));
  if (row->layout != NULL)
    odd_layout_ref (row->layout);

  row->row_width_mm = width_mm;
  row->row_at_end = at_end;
  if (at_end)
    {
      row->cut_left_mm = self->cut_left_mm + self->left_allowance_mm + finished_mm - width_mm - self->seam_allowance_mm * slant;
      row->left_allowance_mm = self->seam_allowance_mm * slant;
    }
  else
    row->right_allowance_mm = self->seam_allowance_mm * slant;
  row->cut_width_mm = width_mm + row->left_allowance_mm + row->right_allowance_mm;

  return row;
}

OddSlot *
odd_slot_for_place (OddJob         *job,
                    const OddPlace *place)
{
  g_autoptr(OddSlot) slot = NULL;

  switch (place->target.kind)
    {
    case ODD_TARGET_EDGE:
      slot = odd_slot_new_edge (job, &place->target, place->tilt_deg);
      break;
    case ODD_TARGET_BARE:
      slot = odd_slot_new_bare (job, &place->target, place->base_edge);
      break;
    case ODD_TARGET_NEW_PANEL:
      slot = odd_slot_new_panel (job, &place->target, place->edge_mm);
      break;
    default:
      g_assert_not_reached ();
    }
  if (slot != NULL && place->row_width_mm > 0.0)
    return odd_slot_new_row (slot, place->row_width_mm, place->row_at_end);

  return g_steal_pointer (&slot);
}
