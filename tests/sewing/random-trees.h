/* Jobs of panels whose trees are random: strips of up to five parts at any angle, nested, finishes mixed. */
#pragma once

#include "cloth/edit.h"

/* Bounds of a region along a direction. */
static inline void
random_trees_extent (OddConvex *region,
                     OddPoint   normal,
                     double    *out_low,
                     double    *out_high)
{
  *out_high = odd_convex_support (region, normal);
  *out_low = -odd_convex_support (region, odd_point (-normal.x, -normal.y));
}

static inline OddTreatment
random_trees_treatment (GRand  *rand,
                        OddJob *job)
{
  OddTreatment treatment = ODD_TREATMENT_INHERIT;

  if (g_rand_int_range (rand, 0, 4) == 0)
    treatment.finish_id = ((OddFinish *) job->finishes->pdata[g_rand_int_range (rand, 0, job->finishes->len)])->id;
  return treatment;
}

/* At most @patches leaves in the region; ids from @next_id on. (transfer full) */
static inline OddNode *
random_trees_node (GRand     *rand,
                   OddJob    *job,
                   OddConvex *region,
                   guint      patches,
                   OddId     *next_id)
{
  const double angle = g_rand_int_range (rand, 0, 2) * G_PI / 2 + (g_rand_boolean (rand) ? g_rand_double_range (rand, -0.4, 0.4) : 0.0);
  const OddPoint normal = odd_point (cos (angle), sin (angle));
  const guint n = MIN (patches, (guint) g_rand_int_range (rand, 2, 6));
  OddNode *parts[5];
  OddSeam seams[5];
  g_autoptr(OddConvex) rest = odd_convex_ref (region);
  double low, high;
  OddNode *strip;

  if (patches < 2)
    return odd_node_new_bare ((*next_id)++);
  random_trees_extent (region, normal, &low, &high);
  for (guint i = 0; i < n; i++)
    {
      const OddHalfPlane line = { normal, low + (high - low) * (i + 1) / n };
      g_autoptr(OddConvex) part = i + 1 < n ? odd_convex_clip (rest, line, 0) : odd_convex_ref (rest);
      OddConvex *beyond = i + 1 < n ? odd_convex_clip (rest, odd_half_plane_flip (line), 0) : odd_convex_ref (rest);

      g_assert (part != NULL && beyond != NULL);
      parts[i] = random_trees_node (rand, job, part, g_rand_int_range (rand, 1, MAX (2, (int) (2 * patches / n))), next_id);
      odd_seam_init (&seams[i], (*next_id)++, line);
      seams[i].treatment = random_trees_treatment (rand, job);
      odd_convex_unref (rest);
      rest = beyond;
    }
  strip = odd_node_new_strip ((*next_id)++, parts, seams, n);
  for (guint i = 0; i < n; i++)
    {
      odd_node_unref (parts[i]);
      odd_seam_clear (&seams[i]);
    }
  return strip;
}

/* @empty with so many panels of them, side by side in the job's textile, about @patches each at most. (transfer full) */
static inline OddJob *
random_trees_new (OddJob *empty,
                  GRand  *rand,
                  guint   panels,
                  guint   patches)
{
  OddJob *job = odd_job_ref (empty);

  for (guint i = 0; i < panels; i++)
    {
      const OddId textile_id = ((OddTextile *) job->textiles->pdata[0])->id;
      g_autoptr(OddJob) before = job;
      g_autoptr(OddJob) bare = NULL;
      g_autoptr(OddNode) root = NULL;
      OddPanel *panel;
      OddId id, next_id;

      bare = odd_job_add_panel (before, textile_id, G_MAXUINT, "", 900, 1500, &id, NULL);
      panel = odd_job_get_panel (bare, id, NULL, NULL);
      next_id = bare->next_id;
      root = random_trees_node (rand, bare, panel->outline, g_rand_int_range (rand, 2, patches), &next_id);
      job = odd_job_replace_leaf (bare, panel->root->id, root, next_id, NULL);
      g_assert_nonnull (job);
    }
  return job;
}
