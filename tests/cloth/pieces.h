/* A sewn loose panel of 2 x 2 squares, two fabrics chequered, for tests of pieced scraps. */
#pragma once

#include "cloth/piece.h"
#include "trees.h"

#define SQUARE_MM 100.0         /* finished */
#define SCRAP_MM 150.0

static inline OddId
piece_add_fabric (OddJob **job, const char *name, guint32 colour)
{
  g_autoptr(GError) error = NULL;
  OddFabric values;
  OddId id = 0;

  odd_fabric_init_values (&values);
  values.name = (char *) name;
  values.print.kind = ODD_PRINT_PLAIN;
  for (guint i = 0; i < 4; i++)
    values.print.colours[i] = colour;
  take (job, odd_job_put_fabric (*job, &values, &id, &error));
  g_assert_no_error (error);
  return id;
}

static inline OddId
piece_add_scrap (OddJob **job, OddId fabric_id)
{
  g_autoptr(OddPolygon) square = odd_polygon_new_box ((OddBox) { 0, 0, SCRAP_MM, SCRAP_MM });
  OddScrap values;
  OddId id = 0;

  odd_scrap_init_values (&values);
  values.outline = square;
  values.fabric_id = fabric_id;
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  return id;
}

/* Fills every bare patch of the panel with a scrap of its own, the fabrics in turn as on a chessboard of @columns. */
static inline void
piece_fill (OddJob **job, OddId panel_id, const OddId fabrics[2], guint columns)
{
  const guint n = odd_job_get_panel (*job, panel_id, NULL, NULL)->root->n_leaves;

  for (guint i = 0; i < n; i++)
    {
      const OddId scrap = piece_add_scrap (job, fabrics[(i / columns + i % columns) % 2]);
      g_autoptr(OddLayout) layout = odd_job_dup_layout (*job, panel_id);
      const OddBox cut = odd_convex_box (layout->patches[i].cut);
      const OddPlacement at = { 0.0, FALSE, { cut.x - 5.0, cut.y - 7.0 } };
      g_autoptr(GError) error = NULL;

      take (job, odd_job_place_scrap (*job, layout->patches[i].leaf->id, scrap, &at, &error));
      g_assert_no_error (error);
    }
}

static inline void
piece_sew (OddJob **job, OddId panel_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (*job, panel_id);

  for (guint i = 0; i < layout->n_seams; i++)
    {
      const guint n = layout->seams[i].finish->n_operations;
      g_autofree OddState *states = g_new (OddState, n);
      g_autoptr(OddProgress) done = NULL;

      for (guint k = 0; k < n; k++)
        states[k] = ODD_STATE_DONE;
      done = odd_progress_new (states, NULL, n);
      take (job, odd_job_set_progress (*job, layout->seams[i].seam->id, done, NULL));
    }
}

/* A job with fabrics red and blue and a sewn loose panel of @columns x @rows squares. */
static inline OddJob *
piece_job (guint columns, guint rows, OddId *out_panel_id)
{
  OddJob *job = odd_job_new ();
  OddId fabrics[2];

  fabrics[0] = piece_add_fabric (&job, "red", 0xcc2211);
  fabrics[1] = piece_add_fabric (&job, "blue", 0x1133bb);
  take (&job, add_squares (job, 0, columns, rows, SQUARE_MM, out_panel_id));
  piece_fill (&job, *out_panel_id, fabrics, columns);
  piece_sew (&job, *out_panel_id);
  return job;
}

/* The same with the panel put among the scraps. */
static inline OddJob *
piece_scrap_job (guint columns, guint rows, OddId *out_scrap_id)
{
  g_autoptr(GError) error = NULL;
  OddId panel_id = 0;
  OddJob *job = piece_job (columns, rows, &panel_id);

  take (&job, odd_job_panel_to_scrap (job, panel_id, out_scrap_id, &error));
  g_assert_no_error (error);
  return job;
}
