/* The tree of crumbs: regions from lines, which leaves lie where, and what a move changed. */
#include "config.h"

#include "piecing/crumbs-private.h"
#include "piecing/parallel.h"

#include <string.h>

#define MOST_ALLOWANCES 64

typedef struct { guint at; OddCrumb node; } SavedNode;
typedef struct { guint at; OddCloth *cloth; } SavedCloth;

/* --- nodes --- */

void
odd_crumb_clear (OddCrumb *node)
{
  g_clear_pointer (&node->region, odd_convex_unref);
  g_clear_pointer (&node->cut, odd_convex_unref);
}

static OddCrumb
copy_node (const OddCrumb *node)
{
  OddCrumb copy = *node;

  if (copy.region != NULL)
    odd_convex_ref (copy.region);
  if (copy.cut != NULL)
    odd_convex_ref (copy.cut);

  return copy;
}

gboolean
odd_crumb_is_leaf (const OddCrumb *node)
{
  return !node->gone && node->kids[0] < 0;
}

static guint
add_node (OddCrumbs *self,
          int        parent,
          guint      field,
          OddConvex *region)
{
  const OddCrumb node = { .parent = parent, .kids = { -1, -1 }, .field = field, .region = region, .scrap = ODD_NO_SCRAP };

  g_array_append_val (self->nodes, node);

  return self->nodes->len - 1;
}

static gint
compare_areas (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  const double *areas_mm2 = data;
  const guint i = *(const guint *) a;
  const guint k = *(const guint *) b;

  if (areas_mm2[i] != areas_mm2[k])
    return areas_mm2[i] < areas_mm2[k] ? -1 : 1;

  return i < k ? -1 : i > k;
}

static void
set_kept_fabrics (OddCrumbs *self)
{
  const OddSources *sources = self->stock->sources;

  self->kept_fabrics = g_new (guint, MAX (self->fields->kept->len, 1));
  for (guint i = 0; i < self->fields->kept->len; i++)
    {
      const OddId id = g_array_index (self->fields->kept, OddKept, i).fabric_id;

      self->kept_fabrics[i] = ODD_NO_SCRAP;
      for (guint k = 0; id != 0 && k < sources->fabrics->len; k++)
        if (g_array_index (sources->fabrics, OddSourceFabric, k).id == id)
          self->kept_fabrics[i] = k;
    }
}

static void
clear_saved_node (gpointer data)
{
  odd_crumb_clear (&((SavedNode *) data)->node);
}

static void
clear_saved_cloth (gpointer data)
{
  g_clear_pointer (&((SavedCloth *) data)->cloth, odd_cloth_unref);
}

/* --- which leaves lie where --- */

static void
list_leaf (OddCrumbs *self,
           guint      at)
{
  OddCrumb *leaf = odd_crumbs_node (self, at);

  odd_box_grid_add (self->grid, at, leaf->box);
  leaf->listed = TRUE;
}

static void
unlist (OddCrumbs *self,
        guint      at)
{
  OddCrumb *node = odd_crumbs_node (self, at);

  if (node->listed)
    odd_box_grid_remove (self->grid, at, node->box);
  node->listed = FALSE;
}

static void
make_grid (OddCrumbs *self)
{
  OddBox all = ODD_BOX_EMPTY;

  for (guint i = 0; i < self->fields->fields->len; i++)
    all = odd_box_union (all, odd_convex_box (((OddField *) self->fields->fields->pdata[i])->region));
  self->grid = odd_box_grid_new (all, self->rules->scale_mm);
  for (guint i = 0; i < self->fields->kept->len; i++)
    odd_box_grid_add (self->grid, ODD_KEPT_FROM + i, g_array_index (self->fields->kept, OddKept, i).box);
  self->near = g_array_new (FALSE, FALSE, sizeof (guint));
}

const GArray *
odd_crumbs_find_near (const OddCrumbs *self,
                      OddBox           box)
{
  odd_box_grid_find (self->grid, box, self->near);

  return self->near;
}

static OddCrumbs *
crumbs_alloc (const OddFields     *fields,
              const OddStock      *stock,
              const OddCrumbRules *rules)
{
  const guint n_scraps = stock->sources->scraps->len;
  OddCrumbs *self = g_new0 (OddCrumbs, 1);

  self->fields = fields;
  self->stock = stock;
  self->rules = rules;
  self->nodes = g_array_new (FALSE, FALSE, sizeof (OddCrumb));
  g_array_set_clear_func (self->nodes, (GDestroyNotify) odd_crumb_clear);
  self->roots = g_array_new (FALSE, FALSE, sizeof (guint));
  self->cloths = g_new0 (OddCloth *, n_scraps + 1);
  self->fabric_mm2 = g_new0 (double, stock->sources->fabrics->len + 1);
  self->by_area = g_new (guint, n_scraps + 1);
  for (guint i = 0; i < n_scraps; i++)
    self->by_area[i] = i;
  g_qsort_with_data (self->by_area, n_scraps, sizeof (guint), compare_areas, stock->areas_mm2);
  self->old_nodes = g_array_new (FALSE, FALSE, sizeof (SavedNode));
  g_array_set_clear_func (self->old_nodes, clear_saved_node);
  self->old_cloths = g_array_new (FALSE, FALSE, sizeof (SavedCloth));
  g_array_set_clear_func (self->old_cloths, clear_saved_cloth);
  set_kept_fabrics (self);
  make_grid (self);

  return self;
}

OddCrumbs *
odd_crumbs_new (const OddFields     *fields,
                const OddStock      *stock,
                const OddCrumbRules *rules)
{
  OddCrumbs *self = crumbs_alloc (fields, stock, rules);

  for (guint i = 0; i < stock->sources->scraps->len; i++)
    self->cloths[i] = odd_cloth_ref (stock->whole[i]);
  for (guint i = 0; i < fields->fields->len; i++)
    {
      const OddField *field = fields->fields->pdata[i];
      const guint root = add_node (self, -1, i, odd_convex_ref (field->region));

      g_array_append_val (self->roots, root);
      self->area_mm2 += odd_convex_area (field->region);
      odd_crumbs_reshape (self, root);
    }

  return self;
}

OddCrumbs *
odd_crumbs_copy (OddCrumbs *from)
{
  OddCrumbs *self = crumbs_alloc (from->fields, from->stock, from->rules);

  for (guint i = 0; i < from->nodes->len; i++)
    {
      const OddCrumb node = copy_node (odd_crumbs_node (from, i));

      g_array_append_val (self->nodes, node);
      if (node.listed)
        list_leaf (self, i);
    }
  g_array_append_vals (self->roots, from->roots->data, from->roots->len);
  for (guint i = 0; i < from->stock->sources->scraps->len; i++)
    self->cloths[i] = odd_cloth_ref (from->cloths[i]);
  memcpy (self->fabric_mm2, from->fabric_mm2, sizeof (double) * from->stock->sources->fabrics->len);
  self->area_mm2 = from->area_mm2;
  self->used_mm2 = from->used_mm2;

  return self;
}

void
odd_crumbs_free (OddCrumbs *self)
{
  for (guint i = 0; i < self->stock->sources->scraps->len; i++)
    g_clear_pointer (&self->cloths[i], odd_cloth_unref);
  g_array_unref (self->nodes);
  g_array_unref (self->roots);
  g_array_unref (self->old_nodes);
  g_array_unref (self->old_cloths);
  odd_box_grid_free (self->grid);
  g_array_unref (self->near);
  g_free (self->cloths);
  g_free (self->fabric_mm2);
  g_free (self->by_area);
  g_free (self->kept_fabrics);
  g_free (self);
}

static void
settle_cb (guint    item,
           gpointer data)
{
  const OddCrumbs *self = data;

  odd_cloth_prepare (self->stock, item, self->cloths[item]);
}

gboolean
odd_crumbs_settle (OddCrumbs    *self,
                   guint         n_threads,
                   GCancellable *cancellable)
{
  odd_crumbs_begin (self);

  return odd_for_each_item (self->stock->sources->scraps->len, n_threads, settle_cb, self, cancellable, NULL);
}

guint
odd_crumbs_count_leaves (const OddCrumbs *self,
                         guint           *out_bare)
{
  guint n = 0;

  *out_bare = 0;
  for (guint i = 0; i < self->nodes->len; i++)
    if (odd_crumb_is_leaf (odd_crumbs_node (self, i)))
      {
        n++;
        *out_bare += odd_crumbs_node (self, i)->scrap == ODD_NO_SCRAP;
      }

  return n;
}

double
odd_crumbs_get_laid_mm2 (const OddCrumbs *self)
{
  double mm2 = 0.0;

  for (guint i = 0; i < self->nodes->len; i++)
    if (odd_crumb_is_leaf (odd_crumbs_node (self, i)) && odd_crumbs_node (self, i)->scrap != ODD_NO_SCRAP)
      mm2 += odd_crumbs_node (self, i)->area_mm2;

  return mm2;
}

/* --- what a move changed --- */

void
odd_crumbs_begin (OddCrumbs *self)
{
  g_array_set_size (self->old_nodes, 0);
  g_array_set_size (self->old_cloths, 0);
  self->n_nodes_before = self->nodes->len;
  self->used_before_mm2 = self->used_mm2;
}

void
odd_crumbs_save (OddCrumbs *self,
                 guint      node)
{
  const SavedNode saved = { node, copy_node (odd_crumbs_node (self, node)) };

  g_array_append_val (self->old_nodes, saved);
}

void
odd_crumbs_set_cloth (OddCrumbs *self,
                      guint      scrap,
                      OddCloth  *cloth)
{
  const SavedCloth saved = { scrap, self->cloths[scrap] };

  self->used_mm2 += cloth->used_mm2 - saved.cloth->used_mm2;
  self->cloths[scrap] = cloth;
  g_array_append_val (self->old_cloths, saved);
}

static void
count_fabric (OddCrumbs      *self,
              const OddCrumb *node,
              double          sign)
{
  if (odd_crumb_is_leaf (node) && node->scrap != ODD_NO_SCRAP)
    self->fabric_mm2[odd_crumbs_scrap (self, node->scrap)->fabric] += sign * node->area_mm2;
}

/* Backwards, so that what was saved first is left. */
void
odd_crumbs_undo (OddCrumbs *self)
{
  for (guint i = self->old_nodes->len; i-- > 0;)
    {
      SavedNode *saved = &g_array_index (self->old_nodes, SavedNode, i);
      OddCrumb *node = odd_crumbs_node (self, saved->at);

      count_fabric (self, node, -1.0);
      unlist (self, saved->at);
      odd_crumb_clear (node);
      *node = saved->node;
      saved->node = (OddCrumb) { .region = NULL };
      count_fabric (self, node, 1.0);
      if (node->listed)
        list_leaf (self, saved->at);
    }
  for (guint i = self->nodes->len; i-- > self->n_nodes_before;)
    {
      count_fabric (self, odd_crumbs_node (self, i), -1.0);
      unlist (self, i);
    }
  g_array_set_size (self->nodes, self->n_nodes_before);
  for (guint i = self->old_cloths->len; i-- > 0;)
    {
      SavedCloth *saved = &g_array_index (self->old_cloths, SavedCloth, i);

      odd_cloth_unref (self->cloths[saved->at]);
      self->cloths[saved->at] = g_steal_pointer (&saved->cloth);
    }
  self->used_mm2 = self->used_before_mm2;
  odd_crumbs_begin (self);
}

/* --- shapes --- */

gboolean
odd_crumb_shape_is_good (const OddCrumbRules *rules,
                         const OddConvex     *region)
{
  for (guint i = 0; i < region->n; i++)
    {
      const OddPoint in = odd_point_sub (region->points[i], region->points[(i + region->n - 1) % region->n]);
      const OddPoint out = odd_point_sub (region->points[(i + 1) % region->n], region->points[i]);
      const double length = hypot (out.x, out.y);

      if (length < rules->shortest_mm || -odd_point_dot (in, out) > rules->sharpest_cos * length * hypot (in.x, in.y))
        return FALSE;
    }

  return odd_convex_min_width (region) >= rules->smallest_mm;
}

static void
set_cut (OddCrumbs *self,
         OddCrumb  *leaf)
{
  const OddField *field = self->fields->fields->pdata[leaf->field];
  double allowances_mm[MOST_ALLOWANCES];

  for (guint i = 0; i < leaf->region->n && i < MOST_ALLOWANCES; i++)
    allowances_mm[i] = leaf->region->labels[i] >= 0 ? odd_crumbs_node (self, leaf->region->labels[i])->allowance_mm
                                                    : field->allowances_mm[-1 - leaf->region->labels[i]];
  g_clear_pointer (&leaf->cut, odd_convex_unref);
  leaf->cut = odd_convex_cut_shape (leaf->region, allowances_mm);
  leaf->area_mm2 = odd_convex_area (leaf->region);
}

static void
take_region (OddCrumb  *node,
             OddConvex *region)
{
  g_clear_pointer (&node->region, odd_convex_unref);
  node->region = region;
}

static gboolean
part_regions (OddCrumbs *self,
              guint      at)
{
  const OddCrumb *node = odd_crumbs_node (self, at);
  OddConvex *first = odd_convex_clip (node->region, node->line, at);
  OddConvex *second = odd_convex_clip (node->region, odd_half_plane_flip (node->line), at);

  if (first != NULL && second != NULL && first->n <= MOST_ALLOWANCES && second->n <= MOST_ALLOWANCES)
    {
      take_region (odd_crumbs_node (self, node->kids[0]), first);
      take_region (odd_crumbs_node (self, node->kids[1]), second);
      return TRUE;
    }
  g_clear_pointer (&first, odd_convex_unref);
  g_clear_pointer (&second, odd_convex_unref);

  return FALSE;
}

gboolean
odd_crumbs_reshape (OddCrumbs *self,
                    guint      at)
{
  OddCrumb *node = odd_crumbs_node (self, at);

  unlist (self, at);
  node->box = odd_convex_box (node->region);
  if (node->kids[0] < 0)
    {
      list_leaf (self, at);
      set_cut (self, node);
      return node->parent < 0 || odd_crumb_shape_is_good (self->rules, node->region);
    }
  if (!part_regions (self, at))
    return FALSE;

  return odd_crumbs_reshape (self, node->kids[0]) && odd_crumbs_reshape (self, node->kids[1]);
}

gboolean
odd_crumbs_part (OddCrumbs   *self,
                 guint        at,
                 OddHalfPlane line)
{
  const OddField *field = self->fields->fields->pdata[odd_crumbs_node (self, at)->field];
  const guint field_index = odd_crumbs_node (self, at)->field;
  g_autoptr(OddConvex) first = odd_convex_clip (odd_crumbs_node (self, at)->region, line, at);
  g_autoptr(OddConvex) second = odd_convex_clip (odd_crumbs_node (self, at)->region, odd_half_plane_flip (line), at);
  OddCrumb *node;
  guint kids[2];

  if (first == NULL || second == NULL || !odd_crumb_shape_is_good (self->rules, first) || !odd_crumb_shape_is_good (self->rules, second))
    return FALSE;
  kids[0] = add_node (self, at, field_index, NULL);
  kids[1] = add_node (self, at, field_index, NULL);
  node = odd_crumbs_node (self, at);
  node->kids[0] = kids[0];
  node->kids[1] = kids[1];
  node->line = line;
  node->allowance_mm = field->seam_allowance_mm;
  g_clear_pointer (&node->cut, odd_convex_unref);

  return odd_crumbs_reshape (self, at);
}

guint
odd_crumbs_leaves_below (const OddCrumbs *self,
                         guint            at,
                         guint           *out,
                         guint            most)
{
  const OddCrumb *node = odd_crumbs_node (self, at);
  guint n, more;

  if (node->kids[0] < 0)
    {
      if (most > 0)
        out[0] = at;
      return 1;
    }
  n = odd_crumbs_leaves_below (self, node->kids[0], out, most);
  if (n > most)
    return most + 1;
  more = odd_crumbs_leaves_below (self, node->kids[1], out + n, most - n);

  return MIN (n + more, most + 1);
}

void
odd_crumbs_join_bare (OddCrumbs *self)
{
  /* kids come after their parent, so from the end all is joined in one go */
  for (guint i = self->nodes->len; i-- > 0;)
    {
      OddCrumb *node = odd_crumbs_node (self, i);
      OddCrumb *kids[2];

      if (node->gone || node->kids[0] < 0)
        continue;
      kids[0] = odd_crumbs_node (self, node->kids[0]);
      kids[1] = odd_crumbs_node (self, node->kids[1]);
      if (kids[0]->kids[0] >= 0 || kids[1]->kids[0] >= 0 || kids[0]->scrap != ODD_NO_SCRAP || kids[1]->scrap != ODD_NO_SCRAP)
        continue;
      unlist (self, node->kids[0]);
      unlist (self, node->kids[1]);
      kids[0]->gone = kids[1]->gone = TRUE;
      node->kids[0] = node->kids[1] = -1;
      odd_crumbs_reshape (self, i);
    }
}
