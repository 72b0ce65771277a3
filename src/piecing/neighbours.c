#include "config.h"

#include "geometry/box-grid.h"
#include "piecing/neighbours.h"

#define TOUCH_MM 0.5               /* neighbours share at least so much border */
#define SAME_LINE_MM 0.01

static void
clear_laid (gpointer data)
{
  g_clear_pointer (&((OddLaidPatch *) data)->region, odd_convex_unref);
}

void
odd_neighbours_free (OddNeighbours *self)
{
  g_array_unref (self->laid);
  g_array_unref (self->pairs);
  g_ptr_array_unref (self->layouts);
  g_free (self);
}

gboolean
odd_was_there (OddJob *before,
               OddId   id)
{
  OddTextile *textile = NULL;
  const OddPanel *panel = odd_job_find_panel_of (before, id, &textile, NULL);
  const OddNode *node = panel != NULL ? odd_node_find (panel->root, id) : NULL;

  return node != NULL && node->kind == ODD_NODE_LEAF ? node->scrap_id != 0 : panel != NULL || textile != NULL;
}

gboolean
odd_patches_are_of_one_cloth (const OddPatch *a,
                              const OddPatch *b)
{
  return a->fabric != NULL && b->fabric != NULL ? a->fabric->id == b->fabric->id : a->scrap->id == b->scrap->id;
}

/* Where the panel hangs; loose: its own frame. */
static OddPoint
hanging_at (OddJob *job,
            OddId   panel_id)
{
  OddTextile *textile = NULL;
  OddPoint at = { 0.0, 0.0 };
  guint index = 0;

  odd_job_get_panel (job, panel_id, &textile, &index);
  if (textile != NULL)
    {
      OddTextileLayout *layout = odd_job_dup_textile_layout (job, textile->id);

      at = layout->panels[index].at;
      odd_textile_layout_unref (layout);
    }

  return at;
}

static double
shared_border (OddSegment a,
               OddSegment b)
{
  const double length = odd_segment_length (a);
  const OddPoint along = odd_point_scale (odd_point_sub (a.to, a.from), 1.0 / length);
  const OddPoint from = odd_point_sub (b.from, a.from);
  const OddPoint to = odd_point_sub (b.to, a.from);
  const double s = odd_point_dot (along, from);
  const double t = odd_point_dot (along, to);

  if (fabs (odd_point_cross (along, from)) > SAME_LINE_MM || fabs (odd_point_cross (along, to)) > SAME_LINE_MM)
    return 0.0;

  return MIN (length, MAX (s, t)) - MAX (0.0, MIN (s, t));
}

static gboolean
are_neighbours (const OddLaidPatch *a,
                const OddLaidPatch *b)
{
  if (!odd_box_meets (odd_box_grow (a->box, SAME_LINE_MM), b->box))
    return FALSE;
  for (guint i = 0; i < a->region->n; i++)
    for (guint k = 0; k < b->region->n; k++)
      if (shared_border (odd_convex_edge (a->region, i), odd_convex_edge (b->region, k)) > TOUCH_MM)
        return TRUE;

  return FALSE;
}

static int
compare_laid (gconstpointer a,
              gconstpointer b)
{
  const OddLaidPatch *p = a;
  const OddLaidPatch *q = b;

  if (p->box.y != q->box.y)
    return p->box.y < q->box.y ? -1 : 1;

  return (p->box.x > q->box.x) - (p->box.x < q->box.x);
}

static void
lay_panel (OddNeighbours *self,
           OddJob        *before,
           OddJob        *after,
           OddId          panel_id)
{
  OddLayout *layout = odd_job_dup_layout (after, panel_id);
  const OddPoint at = hanging_at (after, panel_id);

  g_ptr_array_add (self->layouts, layout);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      OddLaidPatch laid = { patch, NULL, ODD_BOX_EMPTY, FALSE };

      if (patch->scrap == NULL)
        continue;
      laid.region = odd_convex_shift (patch->region, at);
      laid.box = odd_convex_box (laid.region);
      laid.was_there = odd_was_there (before, patch->leaf->id);
      g_array_append_val (self->laid, laid);
    }
}

/* Cells about as large as a patch. */
static OddBoxGrid *
grid_of (const OddLaidPatch *laid,
         guint               n)
{
  OddBox all = ODD_BOX_EMPTY;
  OddBoxGrid *grid;

  for (guint i = 0; i < n; i++)
    all = odd_box_union (all, laid[i].box);
  grid = odd_box_grid_new (all, sqrt (MAX (all.width * all.height, 1.0) / MAX (n, 1)));
  for (guint i = 0; i < n; i++)
    odd_box_grid_add (grid, i, laid[i].box);

  return grid;
}

static void
find_pairs (OddNeighbours *self)
{
  const OddLaidPatch *laid = (const OddLaidPatch *) self->laid->data;
  const guint n = self->laid->len;
  g_autoptr(OddBoxGrid) grid = grid_of (laid, n);
  g_autoptr(GArray) near = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < n; i++)
    {
      odd_box_grid_find (grid, odd_box_grow (laid[i].box, SAME_LINE_MM), near);
      for (guint at = 0; at < near->len; at++)
        {
          const OddPair pair = { i, g_array_index (near, guint, at) };

          if (pair.b > i && are_neighbours (&laid[i], &laid[pair.b]))
            g_array_append_val (self->pairs, pair);
        }
    }
}

OddNeighbours *
odd_neighbours_new (OddJob      *before,
                    OddJob      *after,
                    const OddId *panels,
                    guint        n_panels)
{
  OddNeighbours *self = g_new (OddNeighbours, 1);

  self->layouts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_layout_unref);
  self->laid = g_array_new (FALSE, FALSE, sizeof (OddLaidPatch));
  self->pairs = g_array_new (FALSE, FALSE, sizeof (OddPair));
  g_array_set_clear_func (self->laid, clear_laid);
  for (guint i = 0; i < n_panels; i++)
    lay_panel (self, before, after, panels[i]);
  g_array_sort (self->laid, compare_laid);
  find_pairs (self);

  return self;
}
