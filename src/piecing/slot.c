/* Slots: the region and the cut shape that their lines leave, and what a scrap must span to lie in them. */
#include "config.h"

#include "piecing/slot-private.h"

/* Sides that meet at less than this are parallel; mm per mm. */
#define PARALLEL 1e-9

void
odd_slot_free (OddSlot *self)
{
  g_clear_pointer (&self->layout, odd_layout_unref);
  g_clear_pointer (&self->panel_trims, g_ptr_array_unref);
  g_array_unref (self->sides);
  g_free (self);
}

OddSlot *
odd_slot_alloc (const OddTarget *target)
{
  OddSlot *self = g_new0 (OddSlot, 1);

  self->target = *target;
  self->sides = g_array_new (FALSE, FALSE, sizeof (OddSlotSide));
  self->panel_trims = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  self->max_height_mm = INFINITY;
  self->closed_top_mm = INFINITY;

  return self;
}

void
odd_slot_add_side (OddSlot     *self,
                   OddHalfPlane plane,
                   double       allowance_mm)
{
  const OddSlotSide side = { plane, allowance_mm };

  g_array_append_val (self->sides, side);
}

/* The frame with its origin at @origin and y along @up. */
OddPlacement
odd_slot_frame_along (OddPoint origin,
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

void
odd_slot_sheared_extent (const OddSlot   *self,
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
gboolean
odd_slot_measure (OddSlot *self,
                  double   height_mm)
{
  g_autoptr(OddConvex) cut = NULL;
  g_autoptr(OddConvex) region = odd_slot_region (self, height_mm, &cut);
  double left, right, top, finished_left, finished_right, cut_top;

  if (region == NULL || cut == NULL || !measure_base (self, region))
    return FALSE;

  odd_slot_sheared_extent (self, region, &finished_left, &finished_right, &top);
  odd_slot_sheared_extent (self, cut, &left, &right, &cut_top);
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

/* --- a new panel, a row --- */

OddSlot *
odd_slot_new_panel (OddJob          *job,
                    const OddTarget *target,
                    double           width_mm)
{
  OddTextile *textile = target->textile_id != 0 ? odd_job_get_textile (job, target->textile_id) : NULL;
  const OddTreatment *levels[1] = { textile != NULL ? &textile->treatment : NULL };
  g_autoptr(OddSlot) self = odd_slot_alloc (target);
  double allowance_mm;

  odd_job_resolve (job, levels, 1, NULL, &allowance_mm);
  self->frame = ODD_PLACEMENT_IDENTITY;
  self->base_plane = (OddHalfPlane) { { 0.0, -1.0 }, 0.0 };
  self->base_allowance_mm = self->far_allowance_mm = self->seam_allowance_mm = allowance_mm;
  odd_slot_add_side (self, self->base_plane, allowance_mm);
  odd_slot_add_side (self, (OddHalfPlane) { { -1.0, 0.0 }, 0.0 }, allowance_mm);
  odd_slot_add_side (self, (OddHalfPlane) { { 1.0, 0.0 }, width_mm }, allowance_mm);

  return odd_slot_measure (self, 100.0) ? g_steal_pointer (&self) : NULL;
}

OddSlot *
odd_slot_new_row (const OddSlot *self,
                  double         width_mm,
                  gboolean       at_end)
{
  const double slant = sqrt (1.0 + self->shear * self->shear);
  const double finished_mm = self->cut_width_mm - self->left_allowance_mm - self->right_allowance_mm;
  OddSlot *row = odd_slot_alloc (&self->target);
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
