#include "config.h"
#include "ui/table.h"

static void
clear_table (gpointer data)
{
  OddTable *self = data;

  for (guint i = 0; i < self->n_items; i++)
    odd_layout_unref (self->items[i].layout);
  g_free (self->items);
  g_clear_pointer (&self->textile, odd_textile_layout_unref);
  odd_job_unref (self->job);
}

OddTable *
odd_table_ref (OddTable *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
odd_table_unref (OddTable *self)
{
  g_atomic_rc_box_release_full (self, clear_table);
}

static OddTextile *
pick_textile (OddJob *job, OddId id)
{
  OddTextile *textile = id != 0 ? odd_job_get_textile (job, id) : NULL;

  if (textile == NULL && job->textiles->len > 0)
    textile = g_ptr_array_index (job->textiles, 0);
  return textile;
}

static void
add_item (GArray *items, OddJob *job, OddId panel_id, OddId textile_id, guint index, gboolean joined)
{
  OddTableItem item = { .panel_id = panel_id, .textile_id = textile_id, .index = index };
  g_autoptr(OddLayout) hung = odd_job_dup_layout (job, panel_id);

  item.layout = joined ? odd_layout_ref (hung) : odd_job_dup_layout_apart (job, panel_id);
  /* both are turned alike, so that only a shift lies between them */
  item.hung_at_mm = odd_point_sub (item.layout->hung.shift, hung->hung.shift);
  g_array_append_val (items, item);
}

static void
lay_apart (OddTable *self)
{
  double x_mm = 0;

  for (guint i = 0; i < self->n_items; i++)
    {
      OddTableItem *item = &self->items[i];

      item->at_mm = odd_point (x_mm, 0);
      item->n_gaps = i;
      x_mm += item->layout->raw_box.width;
    }
}

static void
lay_joined (OddTable *self)
{
  for (guint i = 0; i < self->n_items; i++)
    {
      OddTableItem *item = &self->items[i];
      const OddPoint at = self->textile->panels[item->index].at;
      const OddBox raw = item->layout->raw_box;
      const double left = at.x + raw.x;

      item->at_mm = odd_point (self->wrong_side ? self->textile->finished_width_mm - left - raw.width : left, at.y + raw.y);
    }
}

static void
turn_over (GArray *items)
{
  for (guint i = 0; i < items->len / 2; i++)
    {
      OddTableItem *a = &g_array_index (items, OddTableItem, i), *b = &g_array_index (items, OddTableItem, items->len - 1 - i);
      const OddTableItem kept = *a;

      *a = *b;
      *b = kept;
    }
}

OddTable *
odd_table_new (OddJob *job, OddId textile_id, gboolean joined, gboolean wrong_side)
{
  OddTable *self;
  OddTextile *textile;
  GArray *items;

  g_return_val_if_fail (job != NULL, NULL);

  self = g_atomic_rc_box_new0 (OddTable);
  self->job = odd_job_ref (job);
  self->wrong_side = wrong_side;
  items = g_array_new (FALSE, FALSE, sizeof (OddTableItem));
  textile = pick_textile (job, textile_id);
  if (textile != NULL)
    {
      self->textile_id = textile->id;
      self->textile = odd_job_dup_textile_layout (job, textile->id);
      for (guint i = 0; i < textile->n_hung; i++)
        add_item (items, job, textile->hung[i].panel->id, textile->id, i, joined);
    }
  self->joined = joined && items->len > 0;
  if (!self->joined)
    {
      for (guint i = 0; i < job->loose_panels->len; i++)
        add_item (items, job, ((OddPanel *) g_ptr_array_index (job->loose_panels, i))->id, 0, i, FALSE);
    }
  if (wrong_side)
    turn_over (items);
  self->n_items = items->len;
  self->items = (OddTableItem *) (void *) g_array_free (items, FALSE);
  if (self->joined)
    lay_joined (self);
  else
    lay_apart (self);
  return self;
}

OddBox
odd_table_get_box (OddTable *self, double *out_gaps_px)
{
  OddBox box = ODD_BOX_EMPTY;

  for (guint i = 0; i < self->n_items; i++)
    {
      const OddTableItem *item = &self->items[i];

      box = odd_box_union (box, (OddBox) { item->at_mm.x, item->at_mm.y, item->layout->raw_box.width, item->layout->raw_box.height });
    }
  if (self->joined)
    {
      const OddTextile *textile = self->textile->textile;

      box = odd_box_union (box, (OddBox) { self->wrong_side ? self->textile->finished_width_mm - textile->target_width_mm : 0, 0,
                                           textile->target_width_mm, textile->target_length_mm });
    }
  if (out_gaps_px != NULL)
    *out_gaps_px = self->joined || self->n_items == 0 ? 0 : (self->n_items - 1) * ODD_PANEL_GAP_PX;
  return box;
}

OddPoint
odd_table_get_new_panel_px (OddTable *self, OddViewport *viewport)
{
  double gaps_px;
  const OddBox box = odd_table_get_box (self, &gaps_px);
  OddPoint px;

  if (odd_box_is_empty (box))
    return odd_viewport_to_px (viewport, odd_point (0, 0));
  px = odd_viewport_to_px (viewport, odd_point (box.x + box.width, 0));
  px.x += gaps_px + ODD_PANEL_GAP_PX;
  return px;
}

/* Origin of the layout's frame in px; on the wrong side that of its mirrored frame, x to the left. */
static OddPoint
origin_px (OddTable *self, OddViewport *viewport, guint i)
{
  const OddTableItem *item = &self->items[i];
  const OddBox raw = item->layout->raw_box;
  const double dx = self->wrong_side ? raw.x + raw.width : -raw.x;
  OddPoint px = odd_viewport_to_px (viewport, odd_point (item->at_mm.x + dx, item->at_mm.y - raw.y));

  px.x += item->n_gaps * ODD_PANEL_GAP_PX;
  return px;
}

OddPoint
odd_table_to_px (OddTable *self, OddViewport *viewport, guint i, OddPoint p_mm)
{
  const double zoom = odd_viewport_get_zoom (viewport);

  g_return_val_if_fail (i < self->n_items, p_mm);
  return odd_point_add (origin_px (self, viewport, i), odd_point ((self->wrong_side ? -p_mm.x : p_mm.x) * zoom, p_mm.y * zoom));
}

OddPoint
odd_table_to_mm (OddTable *self, OddViewport *viewport, guint i, OddPoint px)
{
  OddPoint p;

  g_return_val_if_fail (i < self->n_items, px);
  p = odd_point_scale (odd_point_sub (px, origin_px (self, viewport, i)), 1 / odd_viewport_get_zoom (viewport));
  if (self->wrong_side)
    p.x = -p.x;
  return p;
}

OddBox
odd_table_get_raw_px (OddTable *self, OddViewport *viewport, guint i)
{
  const double zoom = odd_viewport_get_zoom (viewport);
  const OddTableItem *item;
  OddPoint px;

  g_return_val_if_fail (i < self->n_items, ODD_BOX_EMPTY);
  item = &self->items[i];
  px = odd_viewport_to_px (viewport, item->at_mm);
  return (OddBox) { px.x + item->n_gaps * ODD_PANEL_GAP_PX, px.y, item->layout->raw_box.width * zoom, item->layout->raw_box.height * zoom };
}

static guint
nearest_item (OddTable *self, OddViewport *viewport, double x_px)
{
  guint best = 0;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < self->n_items; i++)
    {
      const OddBox box = odd_table_get_raw_px (self, viewport, i);
      const double away = MAX (MAX (box.x - x_px, x_px - box.x - box.width), 0);

      if (away < least)
        {
          least = away;
          best = i;
        }
    }
  return best;
}

void
odd_table_zoom_at (OddTable *self, OddViewport *viewport, OddPoint px, double zoom)
{
  OddPoint kept, now;
  guint item;

  if (self->n_items == 0)
    {
      odd_viewport_zoom_at (viewport, px, zoom);
      return;
    }
  item = nearest_item (self, viewport, px.x);
  kept = odd_table_to_mm (self, viewport, item, px);
  zoom = CLAMP (zoom, ODD_ZOOM_LEAST, ODD_ZOOM_MOST);
  /* where the cloth would go, gaps and all, if the table's point under the pointer stayed */
  now = odd_table_to_px (self, viewport, item, kept);
  now = odd_viewport_to_mm (viewport, odd_point (now.x - self->items[item].n_gaps * ODD_PANEL_GAP_PX, now.y));
  odd_viewport_place (viewport, zoom, now, odd_point (px.x - self->items[item].n_gaps * ODD_PANEL_GAP_PX, px.y));
}

int
odd_table_find_panel (OddTable *self, OddId panel_id)
{
  for (guint i = 0; i < self->n_items; i++)
    {
      if (self->items[i].panel_id == panel_id)
        return (int) i;
    }
  return -1;
}

const OddPatch *
odd_table_find_patch (OddTable *self, OddId leaf_id, guint *out_item)
{
  for (guint i = 0; i < self->n_items; i++)
    {
      const OddPatch *patch = odd_layout_find_patch (self->items[i].layout, leaf_id);

      if (patch == NULL)
        continue;
      if (out_item != NULL)
        *out_item = i;
      return patch;
    }
  return NULL;
}

const OddLaidSeam *
odd_table_find_seam (OddTable *self, OddId seam_id, guint *out_item)
{
  for (guint i = 0; i < self->n_items; i++)
    {
      const OddLaidSeam *seam = odd_layout_find_seam (self->items[i].layout, seam_id);

      if (seam == NULL)
        continue;
      if (out_item != NULL)
        *out_item = i;
      return seam;
    }
  return NULL;
}

/* --- hits --- */

static OddPoint
textile_to_px (OddTable *self, OddViewport *viewport, OddPoint p)
{
  if (self->wrong_side)
    p.x = self->textile->finished_width_mm - p.x;
  return odd_viewport_to_px (viewport, p);
}

static const OddLaidJoin *
join_at (OddTable *self, OddViewport *viewport, OddPoint px, double reach_px)
{
  for (guint i = 0; self->joined && i < self->textile->n_joins; i++)
    {
      const OddLaidJoin *join = &self->textile->joins[i];
      const OddSegment line = { textile_to_px (self, viewport, join->finished.from), textile_to_px (self, viewport, join->finished.to) };

      if (odd_segment_distance (line, px) <= reach_px)
        return join;
    }
  return NULL;
}

static OddHit
hit_item (OddTable *self, OddViewport *viewport, guint i, OddPoint px, double reach_px)
{
  const double zoom = odd_viewport_get_zoom (viewport);
  const OddLayout *layout = self->items[i].layout;
  const OddPoint p = odd_table_to_mm (self, viewport, i, px);
  const OddPatch *patch = odd_layout_patch_at (layout, p);
  const OddLaidSeam *seam;

  if (patch != NULL)
    reach_px = MIN (reach_px, odd_convex_min_width (patch->region) * zoom / 4);
  seam = odd_layout_seam_at (layout, p, reach_px / zoom);
  if (seam != NULL)
    return (OddHit) { ODD_SELECTED_SEAM, seam->seam->id, i, FALSE };
  if (patch != NULL)
    return (OddHit) { ODD_SELECTED_PATCH, patch->leaf->id, i, FALSE };
  return (OddHit) { ODD_SELECTED_PANEL, self->items[i].panel_id, i, FALSE };
}

OddHit
odd_table_hit (OddTable *self, OddViewport *viewport, OddPoint px, double reach_px)
{
  const OddLaidJoin *join = join_at (self, viewport, px, reach_px);

  if (join != NULL)
    return (OddHit) { ODD_SELECTED_SEAM, join->join->id, 0, FALSE };
  for (guint i = 0; i < self->n_items; i++)
    {
      OddBox box = odd_table_get_raw_px (self, viewport, i);

      if (odd_box_contains (box, px))
        return hit_item (self, viewport, i, px, reach_px);
      box.y -= ODD_PANEL_TITLE_PX;
      if (!self->joined && odd_box_contains (box, px))
        return (OddHit) { ODD_SELECTED_PANEL, self->items[i].panel_id, i, TRUE };
    }
  return (OddHit) { ODD_SELECTED_NOTHING, 0, 0, FALSE };
}

/* --- what is selected --- */

static GArray *
convex_px (OddTable *self, OddViewport *viewport, guint item, const OddConvex *convex)
{
  GArray *points = g_array_sized_new (FALSE, FALSE, sizeof (OddPoint), convex->n);

  for (guint i = 0; i < convex->n; i++)
    {
      const OddPoint px = odd_table_to_px (self, viewport, item, convex->points[i]);

      g_array_append_val (points, px);
    }
  return points;
}

static GArray *
two_points (OddPoint a, OddPoint b)
{
  GArray *points = g_array_sized_new (FALSE, FALSE, sizeof (OddPoint), 2);

  g_array_append_val (points, a);
  g_array_append_val (points, b);
  return points;
}

static GArray *
seam_px (OddTable *self, OddViewport *viewport, OddId id)
{
  guint item;
  const OddLaidSeam *seam = odd_table_find_seam (self, id, &item);

  if (seam != NULL)
    return two_points (odd_table_to_px (self, viewport, item, seam->finished.from), odd_table_to_px (self, viewport, item, seam->finished.to));
  for (guint i = 0; self->joined && i < self->textile->n_joins; i++)
    {
      const OddLaidJoin *join = &self->textile->joins[i];

      if (join->join->id == id)
        return two_points (textile_to_px (self, viewport, join->finished.from), textile_to_px (self, viewport, join->finished.to));
    }
  return NULL;
}

GArray *
odd_table_get_outline_px (OddTable *self, OddViewport *viewport, OddSelected kind, OddId id)
{
  guint item;
  int found;
  const OddPatch *patch;

  switch (kind)
    {
    case ODD_SELECTED_PATCH:
      patch = odd_table_find_patch (self, id, &item);
      return patch != NULL && patch->region != NULL ? convex_px (self, viewport, item, patch->region) : NULL;
    case ODD_SELECTED_SEAM:
      return seam_px (self, viewport, id);
    case ODD_SELECTED_PANEL:
      found = odd_table_find_panel (self, id);
      return found >= 0 ? convex_px (self, viewport, (guint) found, self->items[found].layout->raw) : NULL;
    case ODD_SELECTED_SCRAP:
    case ODD_SELECTED_TEXTILE:
    case ODD_SELECTED_NOTHING:
    default:
      return NULL;
    }
}

static gboolean
middle_px (OddTable *self, OddViewport *viewport, OddSelected kind, OddId id, OddPoint *out)
{
  g_autoptr(GArray) outline = odd_table_get_outline_px (self, viewport, kind, id);
  OddPoint sum = { 0, 0 };

  if (outline == NULL)
    return FALSE;
  for (guint i = 0; i < outline->len; i++)
    sum = odd_point_add (sum, g_array_index (outline, OddPoint, i));
  *out = odd_point_scale (sum, 1.0 / outline->len);
  return TRUE;
}

OddId
odd_table_get_neighbour (OddTable *self, OddViewport *viewport, OddSelected kind, OddId id, int dx, int dy)
{
  OddId best = 0;
  double least = G_MAXDOUBLE;
  OddPoint from;

  if (!middle_px (self, viewport, kind, id, &from))
    return 0;
  for (guint i = 0; i < self->n_items; i++)
    for (guint k = 0; k < self->items[i].layout->n_patches; k++)
      {
        const OddPatch *patch = &self->items[i].layout->patches[k];
        OddPoint to;
        double along, aside;

        if (patch->leaf->id == id || patch->region == NULL)       /* a vanished patch has none */
          continue;
        to = odd_table_to_px (self, viewport, i, odd_convex_centroid (patch->region));
        along = (to.x - from.x) * dx + (to.y - from.y) * dy;
        aside = fabs ((to.x - from.x) * dy) + fabs ((to.y - from.y) * dx);
        if (along < 1 || along + 2 * aside >= least)
          continue;
        least = along + 2 * aside;
        best = patch->leaf->id;
      }
  return best;
}

static OddId
next_round_patch (const OddLayout *layout, const OddPatch *patch, int step)
{
  const OddConvex *region = patch->region;
  const guint start = step > 0 ? 0 : region->n - 1;

  for (guint k = 0; k < region->n; k++)
    {
      const int label = region->labels[step > 0 ? start + k : start - k];

      if (label >= 0 && (guint) label < layout->n_seams)
        return layout->seams[label].seam->id;
    }
  return 0;
}

OddId
odd_table_get_next_seam (OddTable *self, OddSelected kind, OddId id, int step)
{
  guint item;
  const OddPatch *patch;
  const OddLaidSeam *seam;

  if (kind == ODD_SELECTED_PATCH && (patch = odd_table_find_patch (self, id, &item)) != NULL && patch->region != NULL)
    return next_round_patch (self->items[item].layout, patch, step);
  if (kind == ODD_SELECTED_SEAM && (seam = odd_table_find_seam (self, id, &item)) != NULL)
    {
      const OddLayout *layout = self->items[item].layout;
      const guint at = (guint) (seam - layout->seams);

      return layout->seams[(at + layout->n_seams + (guint) step) % layout->n_seams].seam->id;
    }
  if (kind == ODD_SELECTED_PANEL)
    {
      const int found = odd_table_find_panel (self, id);

      if (found >= 0 && self->items[found].layout->n_seams > 0)
        return self->items[found].layout->seams[0].seam->id;
    }
  return 0;
}
