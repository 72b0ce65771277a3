/* Random jobs as planned, and random acts on them. */
#pragma once

#include "cloth/document.h"
#include "sewing/act.h"
#include "sewing/progress.h"
#include "../cloth/trees.h"

#define FIRST_CLOCK_S 1764000000

static inline OddJob *
lot_scrap (OddJob *job, guint number)
{
  OddScrap values;
  const double w = g_test_rand_double_range (60, 300), h = g_test_rand_double_range (60, 300);
  const OddPoint corners[] = { { 0, 0 }, { w, g_test_rand_double_range (0, 20) }, { w, h }, { g_test_rand_double_range (0, 20), h } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (corners, 4, NULL);

  odd_scrap_init_values (&values);
  values.number = number;
  values.outline = outline;
  values.fabric_id = job->fabrics->len > 0 ? ((OddFabric *) job->fabrics->pdata[0])->id : 0;
  return odd_job_put_scrap (job, &values, NULL, NULL);
}

static inline OddJob *
lot_extension (OddJob *job, OddPanel *panel)
{
  const int edge = odd_panel_side_edge (panel, 2);
  const double tilt = g_test_rand_double_range (-0.1, 0.1);
  const OddPoint normal = { sin (tilt), cos (tilt) };
  g_autoptr(OddNode) leaf = odd_node_new_bare (job->next_id);
  OddExtension extension = { 0, { normal, odd_convex_support (panel->outline, normal) - 8.0 }, { { 0, 1 }, odd_convex_box (panel->outline).height + 70 },
                             leaf, job->next_id + 1 };

  if (edge < 0)
    return NULL;
  extension.edge = edge;
  return odd_job_extend_panel (job, panel->id, &extension, NULL);
}

static inline void
take_if (OddJob **job, OddJob *next)
{
  if (next != NULL)
    take (job, next);
}

/* A loose panel of two scraps, sewn, that can become a piece. */
static inline void
add_sewn (OddJob **job)
{
  OddId panel_id = 0;
  g_autoptr(OddLayout) layout = NULL;

  take (job, add_squares (*job, 0, 2, 1, 80, &panel_id));
  layout = odd_job_dup_layout (*job, panel_id);
  for (guint i = 0; i < 2; i++)
    take (job, odd_job_place_scrap (*job, layout->patches[i].leaf->id, ((OddScrap *) (*job)->scraps->pdata[i])->id, &ODD_PLACEMENT_IDENTITY, NULL));
  take (job, odd_job_mark_panel (*job, panel_id, ODD_WORK_SEW, NULL, NULL, NULL));
}

/* A few panels of squares and tilted rows, the leaves filled by lot. */
static inline OddJob *
lot_job (void)
{
  OddJob *job = odd_job_new ();
  OddFabric fabric;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) "plain";
  fabric.shrink_along = 0.04;
  fabric.shrink_across = 0.02;
  take (&job, odd_job_put_fabric (job, &fabric, NULL, NULL));
  for (guint i = 0; i < 6; i++)
    take (&job, lot_scrap (job, 0));
  add_sewn (&job);
  for (int i = g_test_rand_int_range (1, 4); i > 0; i--)
    {
      OddId panel_id = 0;
      g_autoptr(OddLayout) layout = NULL;

      take (&job, add_squares (job, g_test_rand_int_range (0, 4) > 0 ? first_textile (job)->id : 0, g_test_rand_int_range (1, 4), g_test_rand_int_range (1, 4), 80, &panel_id));
      for (int rows = g_test_rand_int_range (0, 4); rows > 0; rows--)
        take_if (&job, lot_extension (job, odd_job_get_panel (job, panel_id, NULL, NULL)));
      layout = odd_job_dup_layout (job, panel_id);
      for (guint p = 0; p < layout->n_patches; p++)
        if (g_test_rand_int_range (0, 3) > 0)
          {
            OddScrap *scrap = job->scraps->pdata[g_test_rand_int_range (0, job->scraps->len)];
            const OddPlacement placement = { g_test_rand_double_range (0, 360), FALSE, { g_test_rand_double_range (-50, 50), 10 } };

            take_if (&job, odd_job_place_scrap (job, layout->patches[p].leaf->id, scrap->id, &placement, NULL));
          }
    }
  return job;
}

static inline OddPanel *
lot_panel (OddJob *job)
{
  const guint n_hung = first_textile (job)->n_hung;
  const guint at = g_test_rand_int_range (0, n_hung + job->loose_panels->len);

  return at < n_hung ? first_textile (job)->hung[at].panel : job->loose_panels->pdata[at - n_hung];
}

static inline OddId
lot_seam (OddJob *job, OddPanel *panel)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
  OddTextile *textile = first_textile (job);

  if (textile->n_hung > 1 && g_test_rand_int_range (0, 5) == 0)
    return textile->joins[g_test_rand_int_range (0, textile->n_hung - 1)].id;
  return layout->n_seams > 0 ? layout->seams[g_test_rand_int_range (0, layout->n_seams)].seam->id : 0;
}

/* One act drawn by lot; NULL when the job refuses it. */
static inline OddJob *
lot_act (OddJob *job, gint64 clock_s)
{
  OddPanel *panel = lot_panel (job);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
  OddScrap *scrap = job->scraps->pdata[g_test_rand_int_range (0, job->scraps->len)];
  double figure = g_test_rand_double_range (0.5, 4.0);
  const double angle = g_test_rand_double_range (0, 2 * G_PI);
  double line[3] = { cos (angle), sin (angle), g_test_rand_double_range (0, 100) };
  double timed[5] = { g_test_rand_int_range (1, 9), g_test_rand_double_range (0, 9000), g_test_rand_int_range (1, 900), 30.0, 80.0 };
  double measured[9] = { layout->planned_raw_length_mm - figure, 0, 0, layout->planned_raw_width_mm + g_test_rand_double_range (-1, 1) };
  OddAct act = { .kind = g_test_rand_int_range (0, 3) > 0 ? ODD_ACT_MARK : g_test_rand_int_range (0, ODD_N_ACT_KINDS), .clock_s = clock_s };

  act.operation = ODD_ACT_NEXT;
  act.state = g_test_rand_int_range (0, 4) > 0 ? ODD_STATE_DONE : ODD_STATE_OPEN;
  act.anyway = g_test_rand_bit ();
  act.seam_id = lot_seam (job, panel);
  act.end = g_test_rand_int_range (0, 2);
  act.reason = (char *) (g_test_rand_bit () ? "because" : NULL);
  switch (act.kind)
    {
    case ODD_ACT_MARK_PANEL:
      act = (OddAct) { .kind = act.kind, .panel_id = panel->id, .operation = g_test_rand_int_range (0, 4) };
      break;
    case ODD_ACT_TRIM:
      act = (OddAct) { .kind = act.kind, .panel_id = panel->id, .end = g_test_rand_int_range (0, panel->outline->n), .figures = &figure, .n_figures = 1 };
      break;
    case ODD_ACT_UNPICK:
      act.figures = &figure;
      act.n_figures = g_test_rand_bit ();
      break;
    case ODD_ACT_RELEASE:
      act = (OddAct) { .kind = act.kind, .node_id = layout->patches[0].leaf->id };
      for (guint i = 0; i < layout->n_patches; i++)
        if (layout->patches[i].leaf->cut == ODD_STATE_DONE)
          act.node_id = layout->patches[i].leaf->id;
      break;
    case ODD_ACT_MEASURE:
      act = (OddAct) { .kind = act.kind, .panel_id = panel->id, .figures = measured, .n_figures = G_N_ELEMENTS (measured) };
      break;
    case ODD_ACT_SQUARE_UP:
      act = (OddAct) { .kind = act.kind, .panel_id = panel->id };
      break;
    case ODD_ACT_CUT_LEVEL:
      act = (OddAct) { .kind = act.kind, .textile_id = first_textile (job)->id };
      break;
    case ODD_ACT_STAY:
    case ODD_ACT_CUT:
      act = (OddAct) { .kind = act.kind, .node_id = layout->patches[g_test_rand_int_range (0, layout->n_patches)].leaf->id, .state = act.state };
      break;
    case ODD_ACT_PIECE:
      /* one panel at least stays, for the next act to be about */
      scrap = job->scraps->pdata[job->scraps->len - 1];
      if (job->loose_panels->len > 0 && first_textile (job)->n_hung > 0)
        act.panel_id = ((OddPanel *) job->loose_panels->pdata[0])->id;
      act = (OddAct) { .kind = act.kind, .state = act.state, .scrap_id = scrap->id, .panel_id = act.panel_id };
      break;
    case ODD_ACT_CUT_PIECE:
      scrap = job->scraps->pdata[job->scraps->len - 1];
      act = (OddAct) { .kind = act.kind, .scrap_id = scrap->id, .figures = line, .n_figures = 3 };
      break;
    case ODD_ACT_TASK:
      act.operation = g_test_rand_int_range (0, 3);
      act.state = g_test_rand_int_range (0, 3);
      break;
    case ODD_ACT_TIME:
      act = (OddAct) { .kind = act.kind, .operation = g_test_rand_int_range (0, 4), .figures = timed, .n_figures = 5 };
      break;
    case ODD_ACT_WASH:
    case ODD_ACT_GONE:
      act = (OddAct) { .kind = act.kind, .scrap_id = scrap->id, .state = act.state };
      break;
    default:
      break;
    }
  return odd_job_do (job, &act, NULL);
}

/* A patch cut out and released at once, before anything is sewn to it: by lot that is rare. NULL when no patch may be. */
static inline OddJob *
cut_and_release (OddJob *job, gint64 clock_s)
{
  OddPanel *panel = lot_panel (job);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddId leaf_id = layout->patches[i].leaf->id;
      const OddAct cut = { .kind = ODD_ACT_CUT, .node_id = leaf_id, .state = ODD_STATE_DONE, .clock_s = clock_s };
      const OddAct release = { .kind = ODD_ACT_RELEASE, .node_id = leaf_id, .clock_s = clock_s };
      g_autoptr(OddJob) out = odd_job_do (job, &cut, NULL);
      OddJob *released = out != NULL ? odd_job_do (out, &release, NULL) : NULL;

      if (released != NULL)
        return released;
    }
  return NULL;
}
