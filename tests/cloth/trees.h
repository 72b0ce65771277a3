/* Small panels for tests, made through the public calls only. */
#pragma once

#include "cloth/edit.h"

/* @columns x @rows of equal squares, rows sewn first; every leaf bare. Ids from job->next_id on; added last to the textile. */
static inline OddJob *
add_squares (OddJob *job, OddId textile_id, guint columns, guint rows, double finished_mm, OddId *out_panel_id)
{
  OddId id = job->next_id;
  const OddId panel_id = id++;
  g_autofree OddNode **row_nodes = g_new0 (OddNode *, rows);
  g_autofree OddSeam *row_seams = g_new0 (OddSeam, rows);
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) panel = NULL;
  g_autoptr(OddConvex) outline = NULL;
  const int labels[4] = { 0, 1, 2, 3 };
  OddJob *copy, *numbered;
  OddJob values = *job;

  for (guint r = 0; r < rows; r++)
    {
      g_autofree OddNode **cells = g_new0 (OddNode *, columns);
      g_autofree OddSeam *seams = g_new0 (OddSeam, columns);

      for (guint c = 0; c < columns; c++)
        {
          cells[c] = odd_node_new_bare (id++);
          if (c + 1 < columns)
            odd_seam_init (&seams[c], id++, (OddHalfPlane) { { 1, 0 }, finished_mm * (c + 1) });
        }
      row_nodes[r] = columns > 1 ? odd_node_new_strip (id++, cells, seams, columns) : odd_node_ref (cells[0]);
      for (guint c = 0; c < columns; c++)
        odd_node_unref (cells[c]);
      if (r + 1 < rows)
        odd_seam_init (&row_seams[r], id++, (OddHalfPlane) { { 0, 1 }, finished_mm * (r + 1) });
    }
  root = rows > 1 ? odd_node_new_strip (id++, row_nodes, row_seams, rows) : odd_node_ref (row_nodes[0]);
  for (guint r = 0; r < rows; r++)
    odd_node_unref (row_nodes[r]);
  outline = odd_convex_new_rectangle ((OddBox) { 0, 0, finished_mm * columns, finished_mm * rows }, labels);
  panel = odd_panel_new (panel_id, "", outline, NULL, root);
  values.next_id = id;
  numbered = odd_job_new_take (&values, NULL);
  g_assert_nonnull (numbered);
  copy = odd_job_insert_panel (numbered, textile_id, G_MAXUINT, panel, NULL);
  g_assert_nonnull (copy);
  odd_job_unref (numbered);
  if (out_panel_id != NULL)
    *out_panel_id = panel_id;
  return copy;
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
