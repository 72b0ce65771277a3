/* Small panels for tests, made through the public calls only. */
#pragma once

#include "cloth/edit.h"
#include "../grid.h"

/* @columns x @rows of equal squares, rows sewn first; every leaf bare. Hangs last in the textile; 0: loose. */
static inline OddJob *
add_squares (OddJob *job, OddId textile_id, guint columns, guint rows, double finished_mm, OddId *out_panel_id)
{
  OddId id = 0, next_id;
  g_autoptr(OddJob) bare = odd_job_add_panel (job, textile_id, G_MAXUINT, NULL, finished_mm * columns, finished_mm * rows, &id, NULL);
  g_autoptr(OddNode) root = NULL;
  OddJob *after;

  g_assert_nonnull (bare);
  next_id = bare->next_id;
  root = grid_rows (columns, rows, finished_mm, finished_mm, &next_id);
  after = odd_job_replace_leaf (bare, odd_job_get_panel (bare, id, NULL, NULL)->root->id, root, next_id, NULL);
  g_assert_nonnull (after);
  if (out_panel_id != NULL)
    *out_panel_id = id;
  return after;
}

static inline OddTextile *
first_textile (OddJob *job)
{
  return job->textiles->pdata[0];
}

/* Replaces *job by the edit's result. */
static inline void
take (OddJob **job, OddJob *next)
{
  g_assert_nonnull (next);
  odd_job_unref (*job);
  *job = next;
}

static inline void
set_allowance (OddJob **job, OddLevel level, OddId id, double mm, gboolean keep_cut)
{
  const OddTreatment treatment = { 0, mm };
  g_autoptr(GError) error = NULL;
  OddJob *next = odd_job_set_treatment (*job, level, id, 0, &treatment, keep_cut, &error);

  g_assert_no_error (error);
  take (job, next);
}

static inline double
areas_of_regions (const OddLayout *layout)
{
  double area = 0.0;

  for (guint i = 0; i < layout->n_patches; i++)
    area += odd_convex_area (layout->patches[i].region);
  return area;
}
