/* Panels of bare squares for tests: a strip of rows, each a strip of squares. */
#pragma once

#include "cloth/edit.h"

/* Columns of one row, @width_mm each. Ids are taken from @next_id on. (transfer full) */
static inline OddNode *
grid_row (guint   columns,
          double  width_mm,
          OddId  *next_id)
{
  g_autofree OddNode **parts = g_new0 (OddNode *, columns);
  g_autofree OddSeam *seams = g_new0 (OddSeam, columns);
  OddNode *row;

  for (guint i = 0; i < columns; i++)
    parts[i] = odd_node_new_bare ((*next_id)++);
  if (columns == 1)
    return parts[0];
  for (guint i = 0; i + 1 < columns; i++)
    odd_seam_init (&seams[i], (*next_id)++, (OddHalfPlane) { { 1, 0 }, width_mm * (i + 1) });
  row = odd_node_new_strip ((*next_id)++, parts, seams, columns);
  for (guint i = 0; i < columns; i++)
    odd_node_unref (parts[i]);
  return row;
}

static inline OddNode *
grid_rows (guint   columns,
           guint   rows,
           double  width_mm,
           double  length_mm,
           OddId  *next_id)
{
  g_autofree OddNode **parts = g_new0 (OddNode *, rows);
  g_autofree OddSeam *seams = g_new0 (OddSeam, rows);
  OddNode *root;

  for (guint i = 0; i < rows; i++)
    parts[i] = grid_row (columns, width_mm, next_id);
  if (rows == 1)
    return parts[0];
  for (guint i = 0; i + 1 < rows; i++)
    odd_seam_init (&seams[i], (*next_id)++, (OddHalfPlane) { { 0, 1 }, length_mm * (i + 1) });
  root = odd_node_new_strip ((*next_id)++, parts, seams, rows);
  for (guint i = 0; i < rows; i++)
    odd_node_unref (parts[i]);
  return root;
}

/* Hangs one more panel into a textile, or lays it beside (0); @job is taken. The patches are @width_mm x @length_mm, finished. */
static inline OddJob *
grid_add_panel_to (OddJob *job,
                   OddId   textile_id,
                   guint   columns,
                   guint   rows,
                   double  width_mm,
                   double  length_mm,
                   OddId  *out_panel_id)
{
  g_autoptr(OddJob) before = job;
  g_autoptr(OddJob) bare = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(GError) error = NULL;
  OddJob *after;
  OddId next_id;

  bare = odd_job_add_panel (before, textile_id, G_MAXUINT, "", columns * width_mm, rows * length_mm, out_panel_id, &error);
  g_assert_no_error (error);
  next_id = bare->next_id;
  root = grid_rows (columns, rows, width_mm, length_mm, &next_id);
  after = odd_job_replace_leaf (bare, odd_job_get_panel (bare, *out_panel_id, NULL, NULL)->root->id, root, next_id, &error);
  g_assert_no_error (error);
  return after;
}

/* Into the job's first textile. */
static inline OddJob *
grid_add_panel (OddJob *job,
                guint   columns,
                guint   rows,
                double  width_mm,
                double  length_mm,
                OddId  *out_panel_id)
{
  return grid_add_panel_to (job, ((OddTextile *) job->textiles->pdata[0])->id, columns, rows, width_mm, length_mm, out_panel_id);
}

/* Takes the job on to what an edit of it returned; a failed edit ends the test. */
static inline void
grid_take (OddJob **job,
           OddJob  *after,
           GError  *error)
{
  g_assert_no_error (error);
  g_assert_nonnull (after);
  odd_job_unref (*job);
  *job = after;
}
