#include "config.h"
#include "ui/openings.h"

/* No patch narrower than this is offered, so no edge shorter than it either. */
#define LEAST_EDGE_MM 30.0

gboolean
odd_target_equal (const OddTarget *a, const OddTarget *b)
{
  if (a->kind != b->kind)
    return FALSE;
  switch (a->kind)
    {
    case ODD_TARGET_EDGE:
      return a->panel_id == b->panel_id && a->edge == b->edge;
    case ODD_TARGET_BARE:
      return a->leaf_id == b->leaf_id;
    case ODD_TARGET_NEW_PANEL:
    default:
      return a->textile_id == b->textile_id;
    }
}

static void
add_bare (GArray *openings, const OddTableItem *item, guint index)
{
  for (guint i = 0; i < item->layout->n_patches; i++)
    {
      const OddPatch *patch = &item->layout->patches[i];
      const OddOpening opening = {
        .target = { .kind = ODD_TARGET_BARE, .panel_id = item->panel_id, .leaf_id = patch->leaf->id },
        .item = index,
        .region = patch->region,
      };

      if (patch->scrap == NULL && patch->region != NULL)
        g_array_append_val (openings, opening);
    }
}

/* Which way an edge looks: 0 down, 1 up, 2 to the sides. */
static guint
rank_of (OddPoint outward)
{
  if (fabs (outward.y) < fabs (outward.x))
    return 2;
  return outward.y > 0 ? 0 : 1;
}

static void
add_edges (GArray *openings, const OddTableItem *item, guint index, guint rank)
{
  for (guint i = 0; i < item->layout->n_edges; i++)
    {
      const OddLaidEdge *edge = &item->layout->edges[i];
      const OddHalfPlane inside = odd_half_plane_from_edge (edge->finished.from, edge->finished.to);
      const OddOpening opening = {
        .target = { .kind = ODD_TARGET_EDGE, .panel_id = item->panel_id, .edge = (guint) MAX (edge->outline_edge, 0) },
        .item = index,
        .edge = edge->finished,
        .outward = inside.normal,
      };

      if (edge->outline_edge >= 0 && rank_of (inside.normal) == rank && odd_segment_length (edge->finished) >= LEAST_EDGE_MM)
        g_array_append_val (openings, opening);
    }
}

GArray *
odd_openings_new (OddTable *table)
{
  GArray *openings = g_array_new (FALSE, FALSE, sizeof (OddOpening));
  const OddOpening loose = { .target = { .kind = ODD_TARGET_NEW_PANEL, .index = G_MAXUINT } };
  OddOpening fresh = { .target = { .kind = ODD_TARGET_NEW_PANEL, .textile_id = table->textile_id } };

  for (guint i = 0; i < table->n_items; i++)
    {
      const OddTableItem *item = &table->items[i];

      add_bare (openings, item, i);
      for (guint rank = 0; rank < 3; rank++)
        {
          if (rank == 2 && table->joined)
            continue;                       /* sides belong to the joins there */
          add_edges (openings, item, i, rank);
        }
      if (item->textile_id != 0)
        fresh.target.index = MAX (fresh.target.index, item->index + 1);
    }
  if (table->textile_id != 0)
    g_array_append_val (openings, loose);
  g_array_append_val (openings, fresh);
  return openings;
}

int
odd_openings_find (GArray *openings, const OddTarget *target)
{
  for (guint i = 0; i < openings->len; i++)
    {
      if (odd_target_equal (&g_array_index (openings, OddOpening, i).target, target))
        return (int) i;
    }
  return -1;
}

static OddId
panel_of_selection (OddTable *table, OddSelection *selection)
{
  const OddSelected kind = selection != NULL ? odd_selection_get_kind (selection) : ODD_SELECTED_NOTHING;
  const OddId id = selection != NULL ? odd_selection_get_id (selection) : 0;
  guint item;

  if (kind == ODD_SELECTED_PANEL)
    return id;
  if ((kind == ODD_SELECTED_PATCH && odd_table_find_patch (table, id, &item) != NULL)
      || (kind == ODD_SELECTED_SEAM && odd_table_find_seam (table, id, &item) != NULL))
    return table->items[item].panel_id;
  return 0;
}

guint
odd_openings_likely (GArray *openings, OddTable *table, OddSelection *selection)
{
  OddId panel_id = panel_of_selection (table, selection);

  if (panel_id == 0 && table->n_items > 0)
    panel_id = table->items[table->wrong_side ? 0 : table->n_items - 1].panel_id;
  for (guint i = 0; i < openings->len; i++)
    {
      const OddOpening *opening = &g_array_index (openings, OddOpening, i);

      /* a bare patch that is itself selected is meant before any other */
      if (opening->target.kind == ODD_TARGET_BARE && selection != NULL
          && odd_selection_get_kind (selection) == ODD_SELECTED_PATCH && odd_selection_get_id (selection) == opening->target.leaf_id)
        return i;
    }
  for (guint i = 0; i < openings->len; i++)
    {
      if (panel_id != 0 && g_array_index (openings, OddOpening, i).target.panel_id == panel_id)
        return i;
    }
  return openings->len - 1;
}

static double
distance_px (const OddOpening *opening, OddTable *table, OddViewport *viewport, OddPoint px)
{
  const double zoom = odd_viewport_get_zoom (viewport);
  OddPoint p;

  if (opening->target.kind == ODD_TARGET_NEW_PANEL)
    {
      const OddPoint at = odd_table_get_new_panel_px (table, viewport);

      return MAX (at.x - px.x, 0) + MAX (at.y - px.y, 0) / 2;
    }
  p = odd_table_to_mm (table, viewport, opening->item, px);
  if (opening->target.kind == ODD_TARGET_BARE)
    return odd_convex_contains (opening->region, p, 0) ? 0 : odd_point_distance (p, odd_convex_centroid (opening->region)) * zoom;
  /* cloth is held beyond the edge: well inside the panel is farther than it looks */
  {
    const double away = odd_segment_distance (opening->edge, p) * zoom;
    const double inside = -odd_point_dot (opening->outward, odd_point_sub (p, opening->edge.from)) * zoom;

    return away + MAX (inside, 0);
  }
}

int
odd_openings_nearest (GArray *openings, OddTable *table, OddViewport *viewport, OddPoint px, double reach_px, int current)
{
  int best = -1;
  double least = reach_px;

  for (guint i = 0; i < openings->len; i++)
    {
      const OddOpening *opening = &g_array_index (openings, OddOpening, i);
      double away = distance_px (opening, table, viewport, px);

      /* a loose piece has no place of its own on the table: it is asked for by key or button, and the pointer leaves it alone */
      if (opening->target.kind == ODD_TARGET_NEW_PANEL && opening->target.textile_id != table->textile_id && (int) i != current)
        continue;
      if ((int) i == current)
        away -= ODD_OPENING_STAY_PX;
      if (away < least)
        {
          least = away;
          best = (int) i;
        }
    }
  return best;
}
