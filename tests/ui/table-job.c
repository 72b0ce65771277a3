#include "table-job.h"

#define SIDE_MM 94.6
#define N_FABRICS 10

typedef struct { const char *name; OddPrintKind kind; guint32 colours[4]; double repeat_mm; } Cloth;

static const Cloth cloths[N_FABRICS] = {
  { "Indigo ring", ODD_PRINT_RING, { 0x27386b, 0xdfe3ee, 0x8d9cc8, 0x27386b }, 14 },
  { "Rust plain", ODD_PRINT_PLAIN, { 0x9c4a30, 0x9c4a30, 0x9c4a30, 0x9c4a30 }, 10 },
  { "Meadow check", ODD_PRINT_CHECK, { 0xeef0e4, 0x8fae7d, 0xb7cba9, 0x8fae7d }, 12 },
  { "Night flower", ODD_PRINT_FLOWER, { 0x1d2238, 0xe0dccb, 0xb94a3c, 0x6d8a58 }, 28 },
  { "Mustard stripe", ODD_PRINT_STRIPE, { 0xd69a2d, 0xf4e7c6, 0x8a5a1d, 0xd69a2d }, 16 },
  { "Flax", ODD_PRINT_FLECK, { 0xcfc3a5, 0xb9ab88, 0xe2d9c2, 0xcfc3a5 }, 20 },
  { "Sky lattice", ODD_PRINT_LATTICE, { 0xa9bfd9, 0xf2f5f9, 0x6f8fb8, 0xa9bfd9 }, 22 },
  { "Brick diamond", ODD_PRINT_DIAMOND, { 0x7d2430, 0xe5c98d, 0x2f3a5f, 0x7d2430 }, 34 },
  { "Cream dot", ODD_PRINT_DOT, { 0xf3ead6, 0xd08f2c, 0xa33b35, 0xf3ead6 }, 12 },
  { "Moss plaid", ODD_PRINT_PLAID, { 0x66754f, 0x39462f, 0xb7935a, 0xdcd2b0 }, 40 },
};

static OddJob *
take (OddJob **job, OddJob *next, GError *error)
{
  g_assert_no_error (error);
  odd_job_unref (*job);
  return *job = next;
}

static void
add_fabrics (OddJob **job, OddId ids[N_FABRICS])
{
  for (guint i = 0; i < N_FABRICS; i++)
    {
      OddFabric values;
      GError *error = NULL;

      odd_fabric_init_values (&values);
      values.name = (char *) cloths[i].name;
      values.print.kind = cloths[i].kind;
      memcpy (values.print.colours, cloths[i].colours, sizeof values.print.colours);
      values.print.repeat_mm = cloths[i].repeat_mm;
      take (job, odd_job_put_fabric (*job, &values, &ids[i], &error), error);
    }
}

static OddScrap *
new_scrap (OddId fabric_id, const OddPoint *points, guint n)
{
  g_autoptr(GError) error = NULL;
  OddScrap values;
  OddScrap *scrap;

  odd_scrap_init_values (&values);
  values.fabric_id = fabric_id;
  values.washed = TRUE;
  values.outline = odd_polygon_new (points, n, &error);
  g_assert_no_error (error);
  scrap = odd_scrap_new (&values, &error);
  g_assert_no_error (error);
  odd_polygon_unref (values.outline);
  return scrap;
}

static guint
fabric_of (guint panel, guint column, guint row)
{
  return (panel * 3 + column * 7 + row * 4 + (row / 3) * column) % N_FABRICS;
}

static void
add_scraps (OddJob **job, const OddId fabrics[N_FABRICS], guint n_panels, guint columns, guint rows, guint n_free)
{
  g_autoptr(GPtrArray) scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  const OddPoint square[] = { { 0, 0 }, { 420, 0 }, { 420, 420 }, { 0, 420 } };
  GError *error = NULL;

  for (guint p = 0; p < n_panels; p++)
    for (guint r = 0; r < rows; r++)
      for (guint c = 0; c < columns; c++)
        g_ptr_array_add (scraps, new_scrap (fabrics[fabric_of (p, c, r)], square, 4));
  for (guint i = 0; i < n_free; i++)
    {
      const double w = 330 - 12 * (i % 6), h = 150 + 20 * (i % 4);
      const OddPoint odd[] = { { 8, 0 }, { w - 30, 0 }, { w, h * 0.5 }, { w - 22, h }, { w / 2, h - 14 }, { 0, h - 4 } };

      g_ptr_array_add (scraps, new_scrap (fabrics[(i * 3 + 4) % N_FABRICS], odd, 6));
    }
  take (job, odd_job_put_scraps (*job, scraps, &error), error);
}

typedef struct { OddId next, scrap; } Ids;

static OddNode *
new_row (Ids *ids, guint columns, double y)
{
  g_autofree OddNode **parts = g_new (OddNode *, columns);
  g_autofree OddSeam *seams = g_new0 (OddSeam, columns);
  OddNode *row;

  for (guint c = 0; c < columns; c++)
    {
      const OddPlacement placement = { 0, FALSE, { c * SIDE_MM - 60, y - 60 } };

      parts[c] = odd_node_new_patch (ids->next++, ids->scrap++, &placement);
    }
  if (columns == 1)
    return parts[0];
  for (guint c = 0; c + 1 < columns; c++)
    odd_seam_init (&seams[c], ids->next++, (OddHalfPlane) { { 1, 0 }, (c + 1) * SIDE_MM });
  row = odd_node_new_strip (ids->next++, parts, seams, columns);
  for (guint c = 0; c < columns; c++)
    odd_node_unref (parts[c]);
  for (guint c = 0; c + 1 < columns; c++)
    odd_seam_clear (&seams[c]);
  return row;
}

static double
row_height (guint row, gboolean uneven)
{
  return uneven ? SIDE_MM * (0.7 + 0.2 * (row % 4)) : SIDE_MM;
}

static OddNode *
new_root (Ids *ids, guint columns, guint rows, gboolean uneven)
{
  g_autofree OddNode **parts = g_new (OddNode *, rows);
  g_autofree OddSeam *seams = g_new0 (OddSeam, rows);
  OddNode *root;
  double y = 0;

  for (guint r = 0; r < rows; r++)
    {
      parts[r] = new_row (ids, columns, y);
      y += row_height (r, uneven);
      if (r + 1 < rows)
        odd_seam_init (&seams[r], ids->next++, (OddHalfPlane) { { 0, 1 }, y });
    }
  root = rows > 1 ? odd_node_new_strip (ids->next++, parts, seams, rows) : odd_node_ref (parts[0]);
  for (guint r = 0; r < rows; r++)
    odd_node_unref (parts[r]);
  for (guint r = 0; r + 1 < rows; r++)
    odd_seam_clear (&seams[r]);
  return root;
}

static void
add_panel (OddJob **job, Ids *ids, guint columns, guint rows, gboolean uneven)
{
  const OddTextile *textile = g_ptr_array_index ((*job)->textiles, 0);
  g_autoptr(OddNode) root = NULL;
  GError *error = NULL;
  OddId panel_id = 0;
  double length = 0;

  for (guint r = 0; r < rows; r++)
    length += row_height (r, uneven);
  take (job, odd_job_add_panel (*job, textile->id, G_MAXUINT, "", columns * SIDE_MM, length, &panel_id, &error), error);
  ids->next = (*job)->next_id;
  root = new_root (ids, columns, rows, uneven);
  take (job, odd_job_replace_leaf (*job, odd_job_get_panel (*job, panel_id, NULL, NULL)->root->id, root, ids->next, &error), error);
}

OddJob *
table_job_new (guint n_panels, guint columns, guint rows, guint n_free, OddId *out_first_free)
{
  OddJob *job = odd_job_new ();
  OddId fabrics[N_FABRICS];
  Ids ids;

  add_fabrics (&job, fabrics);
  ids.scrap = job->next_id;
  add_scraps (&job, fabrics, n_panels, columns, rows, n_free);
  if (out_first_free != NULL)
    *out_first_free = ids.scrap + n_panels * columns * rows;
  for (guint p = 0; p < n_panels; p++)
    {
      const guint n = p % 4 == 3 ? MAX (rows / 2, 1) : rows;

      add_panel (&job, &ids, columns, n, p % 3 == 1);
      ids.scrap += columns * (rows - n);
    }
  return job;
}

OddJob *
table_job_new_sewn (guint n_panels, guint columns, guint rows, guint n_free, OddId *out_first_free)
{
  OddJob *job = table_job_new (n_panels, columns, rows, n_free, out_first_free);
  const OddTextile *textile = g_ptr_array_index (job->textiles, 0);
  g_autoptr(GArray) ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  for (guint p = 0; p < textile->n_hung; p++)
    g_array_append_val (ids, textile->hung[p].panel->id);
  for (guint p = 0; p + 1 < ids->len; p++)
    for (guint step = 0; step < (p % 3 == 0 ? 6u : p % 3 == 1 ? 3u : 1u); step++)
      {
        guint marked = 0, left = 0;
        GError *error = NULL;
        OddJob *next = odd_job_mark_panel (job, g_array_index (ids, OddId, p), (OddWork) (step % 3), &marked, &left, &error);

        if (next != NULL)
          take (&job, next, error);
        g_clear_error (&error);
      }
  return job;
}
