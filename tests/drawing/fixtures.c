#include "fixtures.h"

const OddPrint sample_prints[] = {
  { ODD_PRINT_PLAIN, { 0xa8492f }, 20.0 },
  { ODD_PRINT_FLOWER, { 0xf0e6d4, 0xb23b35, 0xe08a78, 0x5d7550 }, 38.0 },
  { ODD_PRINT_RING, { 0x2f4a80, 0xcfd6df, 0x8ea3c4 }, 20.0 },
  { ODD_PRINT_CHECK, { 0xeef0e2, 0x7d9470 }, 12.0 },
  { ODD_PRINT_FLOWER, { 0x23283f, 0xe39a8c, 0xe9dfca, 0x4f7264 }, 34.0 },
  { ODD_PRINT_PLAIN, { 0xc9913a }, 20.0 },
  { ODD_PRINT_LATTICE, { 0x283c66, 0xb9c3d3, 0xe2e4e6 }, 30.0 },
  { ODD_PRINT_PLAIN, { 0xd2c4a6 }, 20.0 },
  { ODD_PRINT_PLAIN, { 0x2d4373 }, 20.0 },
  { ODD_PRINT_STRIPE, { 0xe9dec8, 0x344a77, 0xa3a4ac }, 34.0 },
  { ODD_PRINT_FLECK, { 0xa3b9d3, 0xd8e2ec }, 20.0 },
  { ODD_PRINT_DIAMOND, { 0x7e2a26, 0xe5d0bb, 0x3f5180, 0xc79037 }, 38.0 },
  { ODD_PRINT_STRIPE, { 0xefe0bd, 0xcb9137, 0x9a6b3a }, 22.0 },
  { ODD_PRINT_DOT, { 0xeee2cd, 0xc78f2e }, 11.0 },
  { ODD_PRINT_CHECK, { 0xf1e9da, 0xb84c47 }, 14.0 },
  { ODD_PRINT_PLAID, { 0x8f9478, 0x4f6349, 0xe6dcb9, 0xb2543a }, 46.0 },
  { ODD_PRINT_LEAF, { 0xdfe3d6, 0x4d6b52, 0x8aa386, 0xb0563d }, 40.0 },
  { ODD_PRINT_FLECK, { 0x59606c, 0x9aa2ab }, 20.0 },
  { ODD_PRINT_WINDOWPANE, { 0xe9dfcd, 0x8b6446, 0xc9a27d }, 30.0 },
  { ODD_PRINT_PLAIN, { 0xdfaa9d }, 20.0 },
};
const guint n_sample_prints = G_N_ELEMENTS (sample_prints);

/* --- jobs --- */

typedef struct
{
  GPtrArray *fabrics, *scraps;
  OddId next_id;
  guint number;
} Maker;

static void
maker_init (Maker *self)
{
  self->fabrics = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_fabric_unref);
  self->scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  self->next_id = 1000;
  self->number = 1;
  for (guint i = 0; i < n_sample_prints; i++)
    {
      OddFabric values;
      g_autofree char *name = g_strdup_printf ("Cloth %u", i + 1);

      odd_fabric_init_values (&values);
      values.id = 100 + i;
      values.name = name;
      values.print = sample_prints[i];
      g_ptr_array_add (self->fabrics, odd_fabric_new (&values, NULL));
    }
}

/* A patch of cloth number @print about @middle, from a square scrap of its own that is turned by @turn_deg. */
static OddNode *
patch (Maker *self, guint print, OddPoint middle, double reach_mm, double turn_deg)
{
  const double side = 2.0 * reach_mm + 60.0;
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0.0, 0.0, side, side });
  OddPlacement placement = { turn_deg, FALSE, { 0.0, 0.0 } };
  OddScrap values;

  odd_scrap_init_values (&values);
  values.id = self->next_id++;
  values.number = self->number++;
  values.outline = outline;
  values.fabric_id = 100 + print % n_sample_prints;
  values.grain_deg = 90.0;
  values.washed = TRUE;
  g_ptr_array_add (self->scraps, odd_scrap_new (&values, NULL));
  placement.shift = odd_point_sub (middle, odd_placement_apply (&placement, odd_point (0.5 * side, 0.5 * side)));
  return odd_node_new_patch (self->next_id++, values.id, &placement);
}

static OddProgress *
progress_of (guint n_done)
{
  OddState states[16];

  for (guint i = 0; i < n_done; i++)
    states[i] = ODD_STATE_DONE;
  return n_done > 0 ? odd_progress_new (states, NULL, n_done) : NULL;
}

/* Takes the parts over. @across: seams run down, parts lie left to right. @n_done: one a seam. */
static OddNode *
strip (Maker *self, OddNode **parts, const double *lines, guint n_parts, gboolean across, const guint *n_done, OddId finish_id)
{
  g_autofree OddSeam *seams = g_new (OddSeam, n_parts);
  const OddTreatment treatment = { finish_id, NAN };
  OddNode *node, *treated;

  for (guint i = 0; i + 1 < n_parts; i++)
    {
      odd_seam_init (&seams[i], self->next_id++, (OddHalfPlane) { across ? odd_point (1.0, 0.0) : odd_point (0.0, 1.0), lines[i] });
      seams[i].progress = progress_of (n_done[i]);
    }
  node = odd_node_new_strip (self->next_id++, parts, seams, n_parts);
  treated = odd_node_with_treatment (node, &treatment);
  odd_node_unref (node);
  for (guint i = 0; i < n_parts; i++)
    odd_node_unref (parts[i]);
  for (guint i = 0; i + 1 < n_parts; i++)
    odd_seam_clear (&seams[i]);
  return treated;
}

static OddNode *
squares (Maker *self, guint columns, guint rows, double side, guint seed, const guint *row_done, const guint *column_done)
{
  g_autofree OddNode **row_nodes = g_new (OddNode *, rows), **patches = g_new (OddNode *, columns);
  g_autofree double *lines = g_new (double, MAX (rows, columns));
  g_autofree guint *done = g_new (guint, MAX (rows, columns));

  for (guint i = 0; i < MAX (rows, columns); i++)
    lines[i] = (i + 1) * side;
  for (guint row = 0; row < rows; row++)
    {
      for (guint column = 0; column < columns; column++)
        {
          patches[column] = patch (self, (row * columns + column) * 7 + seed + row * row, odd_point ((column + 0.5) * side, (row + 0.5) * side), 0.75 * side, (row + column) % 3 == 0 ? 90.0 : 0.0);
          done[column] = column_done[row];
        }
      row_nodes[row] = strip (self, patches, lines, columns, TRUE, done, 0);
    }
  return strip (self, row_nodes, lines, rows, FALSE, row_done, 0);
}

/* Cuts the region across its longer side until the parts are small. */
static OddNode *
crumbs (Maker *self, OddConvex *region, GRand *rand, guint depth)
{
  const OddBox box = odd_convex_box (region);
  const OddPoint middle = odd_convex_centroid (region);
  const gboolean tall = box.height > box.width;
  const double tilt = g_rand_double_range (rand, -0.26, 0.26) + (tall ? G_PI / 2.0 : 0.0);
  const OddPoint normal = odd_point (cos (tilt), sin (tilt));
  const OddHalfPlane line = { normal, odd_point_dot (normal, middle) + g_rand_double_range (rand, -0.1, 0.1) * MAX (box.width, box.height) };
  g_autoptr(OddConvex) one = NULL, other = NULL;
  OddNode *parts[2], *node;
  OddSeam seam;

  if (odd_convex_area (region) < 11000.0)
    return patch (self, (guint) g_rand_int_range (rand, 0, (gint32) n_sample_prints), middle, 0.6 * hypot (box.width, box.height), tilt * 180.0 / G_PI);
  one = odd_convex_clip (region, line, 0);
  other = odd_convex_clip (region, odd_half_plane_flip (line), 0);
  parts[0] = crumbs (self, one, rand, depth + 1);
  parts[1] = crumbs (self, other, rand, depth + 1);
  odd_seam_init (&seam, self->next_id++, line);
  seam.progress = progress_of (depth == 0 ? 0 : depth == 1 ? 1 : depth == 2 ? 2 : 3);
  node = odd_node_new_strip (self->next_id++, parts, &seam, 2);
  odd_seam_clear (&seam);
  odd_node_unref (parts[0]);
  odd_node_unref (parts[1]);
  return node;
}

static OddPanel *
panel (Maker *self, const char *name, double width, double length, OddNode *root)
{
  g_autoptr(OddConvex) outline = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, width, length }, (const int[4]) { 0, 1, 2, 3 });
  OddPanel *made = odd_panel_new (self->next_id++, name, outline, NULL, root);

  odd_node_unref (root);
  return made;
}

static OddNode *
rectangles (Maker *self, OddId topstitched)
{
  OddNode *rows[7];
  const double heights[] = { 150.0, 330.0, 460.0, 640.0, 770.0, 950.0 };
  const guint done[] = { 1, 2, 3, 0, 2, 3 };

  for (guint i = 0; i < 7; i++)
    {
      const double top = i > 0 ? heights[i - 1] : 0.0, bottom = i < 6 ? heights[i] : 1120.0, split[] = { 80.0 + 14.0 * i };
      const guint inner[] = { i < 3 ? 3 : i == 4 ? 1 : i == 5 ? 4 : 2 };
      OddNode *pair[2] = { patch (self, 3 * i + 4, odd_point (0.5 * split[0], 0.5 * (top + bottom)), 140.0, i % 2 == 0 ? 90.0 : 0.0),
                           patch (self, 5 * i + 1, odd_point (0.5 * (split[0] + 236.0), 0.5 * (top + bottom)), 150.0, i % 2 == 0 ? 0.0 : 90.0) };

      rows[i] = i == 3 ? odd_node_new_bare (self->next_id++) : strip (self, pair, split, 2, TRUE, inner, topstitched);
      if (i == 3)
        {
          odd_node_unref (pair[0]);
          odd_node_unref (pair[1]);
        }
    }
  return strip (self, rows, heights, 7, FALSE, done, 0);
}

/* Takes the panels over. */
static OddJob *
job_of (Maker *self, OddPanel **panels, guint n)
{
  g_autoptr(OddJob) base = odd_job_new ();
  g_autoptr(OddTextile) empty = odd_textile_new (self->next_id++, "Sample"), textile = NULL;
  g_autofree OddHung *hung = g_new0 (OddHung, n);
  g_autofree OddSeam *joins = g_new (OddSeam, n);
  GError *error = NULL;
  OddJob values = *base, *job;

  for (guint i = 0; i < n; i++)
    {
      hung[i].panel = panels[i];
      odd_seam_init (&joins[i], self->next_id++, (OddHalfPlane) { { 1.0, 0.0 }, 0.0 });
    }
  textile = odd_textile_with_panels (empty, hung, n, joins);
  values.fabrics = self->fabrics;
  values.scraps = self->scraps;
  values.textiles = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_textile_unref);
  g_ptr_array_add (values.textiles, odd_textile_ref (textile));
  values.next_id = self->next_id;
  job = odd_job_new_take (&values, &error);
  g_assert_no_error (error);
  g_ptr_array_unref (values.textiles);
  for (guint i = 0; i < n; i++)
    {
      odd_panel_unref (panels[i]);
      odd_seam_clear (&joins[i]);
    }
  g_ptr_array_unref (self->fabrics);
  g_ptr_array_unref (self->scraps);
  return job;
}

OddJob *
sample_job_new (void)
{
  static const guint row_done[] = { 3, 3, 3, 3, 3, 3, 3, 2, 2, 2, 2 }, column_done[] = { 3, 3, 3, 3, 3, 3, 3, 3, 3, 2, 2, 2 };
  static const guint all_done[] = { 3, 3, 3, 3, 3, 3, 3, 3, 3, 3 };
  g_autoptr(OddConvex) crumb_region = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, 220.0, 1120.0 }, (const int[4]) { 0, 0, 0, 0 });
  GRand *rand = g_rand_new_with_seed (7);
  OddPanel *panels[4];
  Maker maker;

  maker_init (&maker);
  panels[0] = panel (&maker, "", 3 * 94.0, 12 * 94.0, squares (&maker, 3, 12, 94.0, 0, row_done, column_done));
  panels[1] = panel (&maker, "", 236.0, 1120.0, rectangles (&maker, 3));
  panels[2] = panel (&maker, "", 220.0, 1120.0, crumbs (&maker, crumb_region, rand, 0));
  panels[3] = panel (&maker, "", 2 * 120.0, 10 * 120.0, squares (&maker, 2, 10, 120.0, 11, all_done, all_done));
  g_rand_free (rand);
  return job_of (&maker, panels, G_N_ELEMENTS (panels));
}

OddJob *
sample_squares_new (guint columns, guint rows, double side_mm, guint n_done)
{
  g_autofree guint *done = g_new (guint, MAX (rows, columns));
  OddPanel *made;
  Maker maker;

  for (guint i = 0; i < MAX (rows, columns); i++)
    done[i] = n_done;
  maker_init (&maker);
  made = panel (&maker, "", columns * side_mm, rows * side_mm, squares (&maker, columns, rows, side_mm, 0, done, done));
  return job_of (&maker, &made, 1);
}
