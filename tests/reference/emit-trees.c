/* Random jobs with sewn trees, each as a line of JSON: emit-trees SEED CASES. check-trees.py works their geometry out again.
 *
 * A case holds the report as programs read it, the allowance of outer edges, and which patches `check` calls too small. Half of the jobs hang
 * two or three panels in a textile, some turned, with joins of another allowance; the others leave one panel loose. */
#include "config.h"

#include <stdlib.h>
#include "cloth/trees.h"
#include "commands/report-json.h"

#define LEAST_PART_MM 45.0
#define MOST_PARTS 4
#define MOST_DEPTH 4

typedef struct
{
  OddJob *job;
  GRand *random;
  OddId next_id, fabric_id;
} Case;

static double
between (Case *self, double from, double to)
{
  return g_rand_double_range (self->random, from, to);
}

static gboolean
chance (Case *self, double share)
{
  return g_rand_double (self->random) < share;
}

/* --- trees --- */

static OddNode *grow (Case *self, OddConvex *region, guint depth);

/* Parallel lines a good way apart, so that they cannot meet; the tilt is the strip's. */
static guint
draw_lines (Case *self, const OddConvex *region, OddHalfPlane *lines)
{
  const OddPlacement turn = { (chance (self, 0.5) ? 90.0 : 0.0) + (chance (self, 0.5) ? between (self, -14.0, 14.0) : 0.0), FALSE, { 0.0, 0.0 } };
  const OddPoint normal = odd_placement_apply (&turn, odd_point (1.0, 0.0));
  const double to = odd_convex_support (region, normal), from = -odd_convex_support (region, odd_point (-normal.x, -normal.y));
  const guint most = MIN ((guint) ((to - from) / LEAST_PART_MM), MOST_PARTS);
  const guint n = most < 2 ? 0 : (guint) g_rand_int_range (self->random, 1, (gint32) most);

  for (guint i = 0; i < n; i++)
    lines[i] = (OddHalfPlane) { normal, from + (to - from) * (i + 1 + between (self, -0.2, 0.2)) / (n + 1) };
  return n;
}

static OddNode *
grow_strip (Case *self, OddConvex *region, const OddHalfPlane *lines, guint n_lines, guint depth)
{
  OddNode *parts[MOST_PARTS];
  OddSeam seams[MOST_PARTS];
  g_autoptr(OddConvex) rest = odd_convex_ref (region);
  OddNode *strip;

  for (guint i = 0; i <= n_lines; i++)
    {
      g_autoptr(OddConvex) part = i < n_lines ? odd_convex_clip (rest, lines[i], 0) : odd_convex_ref (rest);
      OddConvex *beyond;

      parts[i] = grow (self, part, depth + 1);
      if (i == n_lines)
        break;
      odd_seam_init (&seams[i], self->next_id++, lines[i]);
      if (chance (self, 0.2))
        seams[i].treatment.allowance_mm = between (self, 6.0, 16.0);
      beyond = odd_convex_clip (rest, odd_half_plane_flip (lines[i]), 0);
      odd_convex_unref (rest);
      rest = beyond;
    }
  strip = odd_node_new_strip (self->next_id++, parts, seams, n_lines + 1);
  for (guint i = 0; i <= n_lines; i++)
    odd_node_unref (parts[i]);
  for (guint i = 0; i < n_lines; i++)
    odd_seam_clear (&seams[i]);
  return strip;
}

static OddNode *
grow (Case *self, OddConvex *region, guint depth)
{
  OddHalfPlane lines[MOST_PARTS];
  const guint n_lines = depth < MOST_DEPTH && (depth == 0 || chance (self, 0.6)) ? draw_lines (self, region, lines) : 0;

  return n_lines == 0 ? odd_node_new_bare (self->next_id++) : grow_strip (self, region, lines, n_lines, depth);
}

static OddId
add_panel (Case *self)
{
  const double width_mm = between (self, 150.0, 320.0), length_mm = between (self, 400.0, 460.0);
  g_autoptr(OddConvex) region = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, width_mm, length_mm }, (int[4]) { 0, 1, 2, 3 });
  g_autoptr(OddNode) root = NULL;
  OddId panel_id = 0;

  take (&self->job, odd_job_add_panel (self->job, 0, G_MAXUINT, "", width_mm, length_mm, &panel_id, NULL));
  self->next_id = self->job->next_id;
  root = grow (self, region, 0);
  take (&self->job, odd_job_replace_leaf (self->job, odd_job_get_panel (self->job, panel_id, NULL, NULL)->root->id, root, self->next_id, NULL));
  return panel_id;
}

/* --- scraps --- */

/* Round the cut shape, with cloth to spare; a fifth of them lack some on one side. */
static OddConvex *
draw_outline (Case *self, const OddConvex *cut)
{
  g_autofree OddHalfPlane *planes = g_new (OddHalfPlane, cut->n);
  g_autofree int *labels = g_new0 (int, cut->n);
  const guint lacking = chance (self, 0.2) ? (guint) g_rand_int_range (self->random, 0, (gint32) cut->n) : G_MAXUINT;

  for (guint i = 0; i < cut->n; i++)
    planes[i] = odd_half_plane_push (odd_convex_edge_half_plane (cut, i), i == lacking ? between (self, -4.0, -0.5) : between (self, 0.5, 25.0));
  return odd_convex_new_from_half_planes (planes, labels, cut->n);
}

static void
place_scrap (Case *self, const OddLayout *layout, const OddPatch *patch)
{
  OddPlacement placement = { between (self, 0.0, 360.0), chance (self, 0.3), { between (self, -500.0, 500.0), between (self, -500.0, 500.0) } };
  const OddPlacement from_layout = odd_placement_inverse (&layout->hung), to_scrap = odd_placement_inverse (&placement);
  g_autoptr(OddConvex) own = odd_convex_place (patch->cut, &from_layout);
  g_autoptr(OddConvex) outline = draw_outline (self, own);
  g_autoptr(OddConvex) lying = odd_convex_place (outline, &to_scrap);
  OddScrap values;
  OddId scrap_id = 0;

  odd_scrap_init_values (&values);
  values.outline = odd_polygon_new_from_convex (lying);
  values.fabric_id = self->fabric_id;
  values.grain_deg = 90.0;
  values.washed = TRUE;
  take (&self->job, odd_job_put_scrap (self->job, &values, &scrap_id, NULL));
  take (&self->job, odd_job_place_scrap (self->job, patch->leaf->id, scrap_id, &placement, NULL));
  odd_polygon_unref (values.outline);
}

static void
fill_panel (Case *self, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (self->job, panel_id);

  for (guint i = 0; i < layout->n_patches; i++)
    if (chance (self, 0.9))
      place_scrap (self, layout, &layout->patches[i]);
}

/* --- cases --- */

static void
add_fabric (Case *self)
{
  OddFabric values;

  odd_fabric_init_values (&values);
  values.name = (char *) "Both sides alike";
  values.reversible = TRUE;
  take (&self->job, odd_job_put_fabric (self->job, &values, &self->fabric_id, NULL));
}

static void
build (Case *self)
{
  const guint n_panels = chance (self, 0.5) ? 1 : (guint) g_rand_int_range (self->random, 2, 4);
  const OddId textile_id = first_textile (self->job)->id;
  OddId panels[3];

  add_fabric (self);
  set_allowance (&self->job, ODD_LEVEL_JOB, 0, between (self, 8.0, 14.0), FALSE);
  for (guint i = 0; i < n_panels; i++)
    panels[i] = add_panel (self);
  for (guint i = 0; i < n_panels && n_panels > 1; i++)
    {
      take (&self->job, odd_job_move_panel (self->job, panels[i], textile_id, G_MAXUINT, NULL));
      if (chance (self, 0.3))
        take (&self->job, odd_job_turn_panel (self->job, panels[i], NULL));
    }
  for (guint i = 0; i + 1 < n_panels; i++)
    if (chance (self, 0.6))
      set_allowance (&self->job, ODD_LEVEL_SEAM, first_textile (self->job)->joins[i].id, between (self, 8.0, 18.0), TRUE);
  for (guint i = 0; i < n_panels; i++)
    fill_panel (self, panels[i]);
}

static void
print_case (Case *self)
{
  g_autoptr(GPtrArray) findings = odd_job_check (self->job, NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) report = odd_report_json (self->job, &error);
  g_autofree char *text = NULL;
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  const char *comma = "";

  g_assert_no_error (error);
  text = g_strndup (g_bytes_get_data (report, NULL), g_bytes_get_size (report));
  g_strdelimit (text, "\n", ' ');
  g_print ("{\"allowance_mm\": %s, \"too_small\": [", g_ascii_dtostr (buffer, sizeof buffer, self->job->treatment.allowance_mm));
  for (guint i = 0; i < findings->len; i++)
    {
      const OddFinding *finding = findings->pdata[i];

      if (finding->kind != ODD_FINDING_TOO_SMALL)
        continue;
      g_print ("%s%u", comma, finding->leaf_id);
      comma = ", ";
    }
  g_print ("], \"report\": %s}\n", text);
}

int
main (int argc, char **argv)
{
  const guint32 seed = argc == 3 ? (guint32) atoi (argv[1]) : 0;
  const guint n = argc == 3 ? (guint) atoi (argv[2]) : 0;

  for (guint i = 0; i < n; i++)
    {
      Case self = { odd_job_new (), g_rand_new_with_seed (seed * 1000003u + i) };

      build (&self);
      print_case (&self);
      odd_job_unref (self.job);
      g_rand_free (self.random);
    }
  return n > 0 ? 0 : 2;
}
