#include "config.h"

#include "piecing/rows.h"

#define TOUCH_MM 0.5               /* cells that share less border than this do not look like neighbours */

static void
row_free (gpointer data)
{
  OddRow *row = data;

  g_array_unref (row->cells);
  g_free (row);
}

GPtrArray *
odd_rows_new (void)
{
  return g_ptr_array_new_with_free_func (row_free);
}

OddRow *
odd_rows_add (GPtrArray *rows,
              double     height_mm)
{
  OddRow *row = g_new0 (OddRow, 1);

  row->height_mm = height_mm;
  row->cells = g_array_new (FALSE, FALSE, sizeof (OddCell));
  g_ptr_array_add (rows, row);

  return row;
}

double
odd_rows_length (const GPtrArray *rows)
{
  double length = 0.0;

  for (guint i = 0; i < rows->len; i++)
    length += ((OddRow *) rows->pdata[i])->height_mm;

  return length;
}

static OddNode *
build_leaf (const OddCell    *cell,
            const OddSources *sources,
            OddPoint          at,
            double            allowance_mm,
            OddId            *next_id)
{
  const OddPlacement placement = {
    cell->turn_deg, FALSE,
    { at.x - allowance_mm - cell->at.x, at.y - allowance_mm - cell->at.y }
  };

  if (cell->scrap == ODD_CELL_BARE)
    return odd_node_new_bare ((*next_id)++);

  return odd_node_new_patch ((*next_id)++, g_array_index (sources->scraps, OddSourceScrap, cell->scrap).id, &placement);
}

/* Takes the parts. @at: where each but the first begins, along @normal. */
static OddNode *
build_strip (GPtrArray *parts,
             OddPoint   normal,
             GArray    *at,
             OddId     *next_id)
{
  g_autofree OddSeam *seams = NULL;
  const OddId id = (*next_id)++;
  OddNode *strip;

  if (parts->len == 1)
    return odd_node_ref (parts->pdata[0]);

  seams = g_new0 (OddSeam, parts->len - 1);
  for (guint i = 0; i + 1 < parts->len; i++)
    odd_seam_init (&seams[i], (*next_id)++, (OddHalfPlane) { normal, g_array_index (at, double, i) });
  strip = odd_node_new_strip (id, (OddNode *const *) parts->pdata, seams, parts->len);

  return strip;
}

static OddNode *
build_row (const OddRow     *row,
           const OddSources *sources,
           double            y,
           double            allowance_mm,
           OddId            *next_id)
{
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  g_autoptr(GArray) at = g_array_new (FALSE, FALSE, sizeof (double));
  double x = row->from_mm;

  for (guint i = 0; i < row->cells->len; i++)
    {
      const OddCell *cell = &g_array_index (row->cells, OddCell, i);

      g_ptr_array_add (parts, build_leaf (cell, sources, odd_point (x, y), allowance_mm, next_id));
      x += cell->width_mm;
      g_array_append_val (at, x);
    }

  return build_strip (parts, odd_point (1.0, 0.0), at, next_id);
}

OddPanel *
odd_rows_build_panel (const GPtrArray    *rows,
                      const OddSources   *sources,
                      double              width_mm,
                      double              allowance_mm,
                      const OddTreatment *treatment,
                      OddId              *next_id)
{
  static const int LABELS[4] = { 0, 1, 2, 3 };
  const OddId id = (*next_id)++;
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  g_autoptr(GArray) at = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr(OddConvex) outline = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, width_mm, odd_rows_length (rows) }, LABELS);
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) plain = NULL;
  double y = 0.0;

  for (guint i = 0; i < rows->len; i++)
    {
      const OddRow *row = rows->pdata[i];

      g_ptr_array_add (parts, build_row (row, sources, y, allowance_mm, next_id));
      y += row->height_mm;
      g_array_append_val (at, y);
    }
  root = build_strip (parts, odd_point (0.0, 1.0), at, next_id);
  plain = odd_panel_new (id, "", outline, NULL, root);

  return odd_panel_with_treatment (plain, treatment);
}

/* --- within a region --- */

static OddConvex *
clip_between (OddConvex *region,
              OddPoint   along,
              double     from_mm,
              double     to_mm)
{
  const OddHalfPlane beyond = { { -along.x, -along.y }, -from_mm };
  g_autoptr(OddConvex) rest = odd_convex_clip (region, beyond, 0);

  return rest != NULL ? odd_convex_clip (rest, (OddHalfPlane) { along, to_mm }, 0) : NULL;
}

static OddNode *
build_row_within (const OddRow     *row,
                  const OddSources *sources,
                  OddConvex        *band,
                  double            y,
                  double            allowance_mm,
                  OddId            *next_id)
{
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  g_autoptr(GArray) at = g_array_new (FALSE, FALSE, sizeof (double));
  double x = row->from_mm;

  for (guint i = 0; i < row->cells->len; i++)
    {
      const OddCell *cell = &g_array_index (row->cells, OddCell, i);
      g_autoptr(OddConvex) shows = clip_between (band, odd_point (1.0, 0.0), x, x + cell->width_mm);

      if (shows != NULL)
        {
          if (parts->len > 0)
            g_array_append_val (at, x);
          g_ptr_array_add (parts, build_leaf (cell, sources, odd_point (x, y), allowance_mm, next_id));
        }
      x += cell->width_mm;
    }

  return parts->len > 0 ? build_strip (parts, odd_point (1.0, 0.0), at, next_id) : NULL;
}

OddNode *
odd_rows_build_within (const GPtrArray  *rows,
                       const OddSources *sources,
                       OddConvex        *region,
                       double            allowance_mm,
                       OddId            *next_id)
{
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  g_autoptr(GArray) at = g_array_new (FALSE, FALSE, sizeof (double));
  double y = 0.0;

  for (guint i = 0; i < rows->len; i++)
    {
      const OddRow *row = rows->pdata[i];
      g_autoptr(OddConvex) band = clip_between (region, odd_point (0.0, 1.0), y, y + row->height_mm);
      OddNode *part = band != NULL ? build_row_within (row, sources, band, y, allowance_mm, next_id) : NULL;

      if (part != NULL)
        {
          if (parts->len > 0)
            g_array_append_val (at, y);
          g_ptr_array_add (parts, part);
        }
      y += row->height_mm;
    }

  return parts->len > 0 ? build_strip (parts, odd_point (0.0, 1.0), at, next_id) : NULL;
}

/* --- neighbours --- */

static void
lay_panel (GPtrArray *rows,
           double     left,
           double     width_mm,
           GPtrArray *cells,
           GArray    *boxes)
{
  double y = 0.0;

  for (guint i = 0; i < rows->len; i++)
    {
      OddRow *row = rows->pdata[i];
      double x = row->from_mm;

      for (guint k = 0; k < row->cells->len; k++)
        {
          OddCell *cell = &g_array_index (row->cells, OddCell, k);
          const double from = MAX (x, 0.0);
          const OddBox box = { left + from, y, MIN (x + cell->width_mm, width_mm) - from, row->height_mm };

          g_ptr_array_add (cells, cell);
          g_array_append_val (boxes, box);
          x += cell->width_mm;
        }
      y += row->height_mm;
    }
}

static gboolean
touch (const OddBox *a,
       const OddBox *b)
{
  const double across = MIN (a->x + a->width, b->x + b->width) - MAX (a->x, b->x);
  const double along = MIN (a->y + a->height, b->y + b->height) - MAX (a->y, b->y);

  return MAX (across, along) > TOUCH_MM && MIN (across, along) > -TOUCH_MM / 2.0 && MIN (across, along) < TOUCH_MM / 2.0;
}

static int
compare_by_y (gconstpointer a,
              gconstpointer b,
              gpointer      data)
{
  const OddBox *boxes = data;
  const guint i = *(const guint *) a;
  const guint k = *(const guint *) b;

  if (boxes[i].y != boxes[k].y)
    return boxes[i].y < boxes[k].y ? -1 : 1;

  return i < k ? -1 : i > k;
}

/* Pairs by a sweep down the length: only boxes whose heights meet are compared. */
static GArray *
find_pairs (const OddBox *boxes,
            guint         n)
{
  GArray *pairs = g_array_new (FALSE, FALSE, 2 * sizeof (guint));
  g_autofree guint *order = g_new (guint, n);

  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, n, sizeof (guint), compare_by_y, (gpointer) boxes);
  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n && boxes[order[k]].y <= boxes[order[i]].y + boxes[order[i]].height + TOUCH_MM; k++)
      if (touch (&boxes[order[i]], &boxes[order[k]]))
        {
          const guint pair[2] = { order[i], order[k] };

          g_array_append_val (pairs, pair);
        }

  return pairs;
}

static void
take_pairs (OddCellGraph *self,
            const GArray *pairs)
{
  const guint *ends = (const guint *) pairs->data;
  g_autofree guint *filled = g_new0 (guint, self->n);

  self->starts = g_new0 (guint, self->n + 1);
  self->neighbours = g_new (guint, 2 * pairs->len);
  for (guint i = 0; i < 2 * pairs->len; i++)
    self->starts[ends[i] + 1]++;
  for (guint i = 0; i < self->n; i++)
    self->starts[i + 1] += self->starts[i];
  for (guint i = 0; i < 2 * pairs->len; i++)
    {
      const guint cell = ends[i];

      self->neighbours[self->starts[cell] + filled[cell]++] = ends[i ^ 1];
    }
}

OddCellGraph *
odd_cell_graph_new (GPtrArray *const *panels,
                    guint             n_panels,
                    double            width_mm)
{
  OddCellGraph *self = g_new0 (OddCellGraph, 1);
  g_autoptr(GPtrArray) cells = g_ptr_array_new ();
  g_autoptr(GArray) boxes = g_array_new (FALSE, FALSE, sizeof (OddBox));
  g_autoptr(GArray) pairs = NULL;

  for (guint i = 0; i < n_panels; i++)
    lay_panel (panels[i], i * width_mm, width_mm, cells, boxes);
  self->n = cells->len;
  self->middles = g_new (OddPoint, MAX (self->n, 1));
  for (guint i = 0; i < self->n; i++)
    {
      const OddBox *box = &g_array_index (boxes, OddBox, i);

      self->middles[i] = odd_point (box->x + box->width / 2.0, box->y + box->height / 2.0);
    }
  pairs = find_pairs ((const OddBox *) boxes->data, self->n);
  take_pairs (self, pairs);
  self->cells = (OddCell **) g_ptr_array_free (g_steal_pointer (&cells), FALSE);

  return self;
}

void
odd_cell_graph_free (OddCellGraph *self)
{
  g_free (self->cells);
  g_free (self->middles);
  g_free (self->starts);
  g_free (self->neighbours);
  g_free (self);
}
