/* One loose panel of random seams, every patch on a scrap a little larger than its cut shape. */
#pragma once

#include "trees.h"

static inline OddNode *
random_node (GRand *random, OddConvex *region, guint depth, OddId *next_id)
{
  const OddPlacement turn = { (depth % 2 ? 90.0 : 0.0) + g_rand_double_range (random, -12.0, 12.0), FALSE, { 0.0, 0.0 } };
  const OddPoint normal = odd_placement_apply (&turn, odd_point (0.0, 1.0));
  const double to = odd_convex_support (region, normal), from = -odd_convex_support (region, odd_point (-normal.x, -normal.y));
  const guint n = depth < 4 && (depth < 2 || g_rand_double (random) < 0.6) ? MIN ((guint) ((to - from) / 70.0), 3) : 0;
  g_autoptr(OddConvex) rest = odd_convex_ref (region);
  OddNode *parts[4];
  OddSeam seams[3];
  OddNode *strip;

  if (n < 2)
    return odd_node_new_bare ((*next_id)++);
  for (guint i = 0; i < n; i++)
    {
      const OddHalfPlane line = { normal, from + (to - from) * (i + 1 + g_rand_double_range (random, -0.2, 0.2)) / n };
      g_autoptr(OddConvex) part = i + 1 < n ? odd_convex_clip (rest, line, 0) : odd_convex_ref (rest);
      OddConvex *beyond = i + 1 < n ? odd_convex_clip (rest, odd_half_plane_flip (line), 0) : odd_convex_ref (rest);

      parts[i] = random_node (random, part, depth + 1, next_id);
      if (i + 1 < n)
        odd_seam_init (&seams[i], (*next_id)++, line);
      odd_convex_unref (rest);
      rest = beyond;
    }
  strip = odd_node_new_strip ((*next_id)++, parts, seams, n);
  for (guint i = 0; i < n; i++)
    odd_node_unref (parts[i]);
  return strip;
}

/* Some scraps have a notch, so that not all are convex. */
static inline OddPolygon *
random_cloth (GRand *random, OddConvex *cut)
{
  g_autofree OddHalfPlane *planes = g_new (OddHalfPlane, cut->n);
  g_autofree int *labels = g_new0 (int, cut->n);
  g_autoptr(OddConvex) outline = NULL;
  g_autoptr(OddPolygon) cloth = NULL;
  g_autoptr(OddPolygon) notch = NULL;
  g_autoptr(GPtrArray) left = NULL;
  OddBox box;

  for (guint i = 0; i < cut->n; i++)
    planes[i] = odd_half_plane_push (odd_convex_edge_half_plane (cut, i), g_rand_double_range (random, 0.5, 25.0));
  outline = odd_convex_new_from_half_planes (planes, labels, cut->n);
  cloth = odd_polygon_new_from_convex (outline);
  if (g_rand_boolean (random))
    return g_steal_pointer (&cloth);
  box = odd_convex_box (outline);
  notch = odd_polygon_new_box ((OddBox) { box.x + box.width * 0.3, box.y - 1.0, 9.0, 1.0 + g_rand_double_range (random, 1.0, 20.0) });
  left = odd_polygon_difference (cloth, notch);
  return odd_polygon_contains_convex (left->pdata[0], cut, 0) ? odd_polygon_ref (left->pdata[0]) : g_steal_pointer (&cloth);
}

static inline OddJob *
random_panel (GRand *random, OddId *out_panel_id)
{
  OddJob *job = odd_job_new ();
  g_autoptr(OddConvex) region = odd_convex_new_rectangle ((OddBox) { 0.0, 0.0, 300.0, 420.0 }, (int[4]) { 0, 1, 2, 3 });
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddLayout) layout = NULL;
  OddId next_id;

  take (&job, odd_job_add_panel (job, 0, G_MAXUINT, "", 300.0, 420.0, out_panel_id, NULL));
  next_id = job->next_id;
  root = random_node (random, region, 0, &next_id);
  take (&job, odd_job_replace_leaf (job, odd_job_get_panel (job, *out_panel_id, NULL, NULL)->root->id, root, next_id, NULL));
  layout = odd_job_dup_layout_apart (job, *out_panel_id);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      g_autoptr(OddPolygon) outline = random_cloth (random, layout->patches[i].cut);
      OddScrap values;
      OddId scrap_id = 0;

      odd_scrap_init_values (&values);
      values.outline = outline;
      take (&job, odd_job_put_scrap (job, &values, &scrap_id, NULL));
      take (&job, odd_job_place_scrap (job, layout->patches[i].leaf->id, scrap_id, &ODD_PLACEMENT_IDENTITY, NULL));
    }
  return job;
}
