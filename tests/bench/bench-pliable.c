/* A seam handle dragged in a panel of 500 patches, with all limits; beside a calibration loop of the same run. */
#include "config.h"

#include "cloth/line-move.h"
#include "piecing/refit.h"
#include "../cloth/trees.h"

#include <stdio.h>

#define COLUMNS 20
#define ROWS 25
#define SIDE_MM 80.0
#define N_ROUNDS 100

static double
calibrate_ms (void)
{
  const gint64 start = g_get_monotonic_time ();
  volatile double sum = 0.0;

  for (guint i = 1; i < 20 * 1000 * 1000; i++)
    sum += 1.0 / i;
  return (g_get_monotonic_time () - start) / 1000.0;
}

/* Scraps of eight corners, one a patch, with 4 to 20 mm to spare. */
static OddJob *
new_panel (OddId *out_panel_id)
{
  OddJob *job = odd_job_new ();
  g_autoptr(OddLayout) layout = NULL;

  take (&job, add_squares (job, 0, COLUMNS, ROWS, SIDE_MM, out_panel_id));
  layout = odd_job_dup_layout_apart (job, *out_panel_id);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddBox box = odd_box_grow (odd_convex_box (layout->patches[i].cut), 4.0 + i % 17);
      const double right = box.x + box.width, bottom = box.y + box.height;
      const OddPoint corners[] = { { box.x + 2, box.y }, { right - 2, box.y }, { right, box.y + 2 }, { right, bottom - 2 },
                                   { right - 2, bottom }, { box.x + 2, bottom }, { box.x, bottom - 2 }, { box.x, box.y + 2 } };
      g_autoptr(OddPolygon) outline = odd_polygon_new (corners, G_N_ELEMENTS (corners), NULL);
      OddScrap values;
      OddId scrap_id = 0;

      odd_scrap_init_values (&values);
      values.outline = outline;
      take (&job, odd_job_put_scrap (job, &values, &scrap_id, NULL));
      take (&job, odd_job_place_scrap (job, layout->patches[i].leaf->id, scrap_id, &ODD_PLACEMENT_IDENTITY, NULL));
    }
  return job;
}

int
main (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = new_panel (&panel_id);
  OddNode *root = odd_job_get_panel (job, panel_id, NULL, NULL)->root;
  const OddLinePath shift = { FALSE, { 0, 0 } }, left = { TRUE, { 0, SIDE_MM * 12 } }, right = { TRUE, { SIDE_MM * COLUMNS, SIDE_MM * 12 } };
  double begin_ms, apply_ms, layout_ms, swap_ms;
  OddLineLimits limits;
  gint64 start;

  start = g_get_monotonic_time ();
  for (guint i = 0; i < N_ROUNDS; i++)
    {
      g_autoptr(OddLineMove) move = odd_line_move_new_seam (job, root->seams[11].id, NULL);

      odd_line_move_get_limits (move, &shift, &limits);
      odd_line_move_get_limits (move, &left, &limits);
      odd_line_move_get_limits (move, &right, &limits);
    }
  begin_ms = (g_get_monotonic_time () - start) / 1000.0 / N_ROUNDS;
  apply_ms = layout_ms = 0.0;
  for (guint i = 0; i < N_ROUNDS; i++)
    {
      g_autoptr(OddJob) after = NULL;
      g_autoptr(OddLayout) layout = NULL;

      start = g_get_monotonic_time ();
      after = odd_job_shift_seam (job, root->seams[11].id, 0.03 * (i + 1), NULL);
      apply_ms += (g_get_monotonic_time () - start) / 1000.0 / N_ROUNDS;
      start = g_get_monotonic_time ();
      layout = odd_job_dup_layout_apart (after, panel_id);
      layout_ms += (g_get_monotonic_time () - start) / 1000.0 / N_ROUNDS;
    }
  start = g_get_monotonic_time ();
  for (guint i = 0; i < N_ROUNDS; i++)
    {
      g_autoptr(OddJob) after = odd_job_swap_patches (job, root->parts[3]->parts[i % COLUMNS]->id, root->parts[9]->parts[(i * 7) % COLUMNS]->id, NULL);
    }
  swap_ms = (g_get_monotonic_time () - start) / 1000.0 / N_ROUNDS;
  printf ("calibration %.1f ms; 500 patches, a seam with 40 of them: all limits of its three handles %.2f ms, move %.2f ms, layout anew %.2f ms "
          "(goal 4 ms an event with all limits); swap two patches %.2f ms\n",
          calibrate_ms (), begin_ms, apply_ms, layout_ms, swap_ms);
  return 0;
}
