/* What has been sewn so far. */
#include "config.h"

#include "maker.h"
#include "sewing/progress.h"

static void
mark (Maker *maker, OddId seam_id, guint times)
{
  for (guint i = 0; i < times; i++)
    sample_step (maker, odd_job_mark_next (maker->job, seam_id, FALSE, &maker->error));
}

/* All seams under @node, inner ones first. */
static void
mark_inside (Maker *maker, OddNode *node, guint times)
{
  for (guint i = 0; i < node->n_parts; i++)
    mark_inside (maker, node->parts[i], times);
  for (guint i = 0; i + 1 < node->n_parts; i++)
    mark (maker, node->seams[i].id, times);
}

/* The rows' own seams, then the seams between the rows: from the top, @steps[i] operations each. */
static void
mark_panel (Maker *maker, OddId panel_id, guint inside, const guint *steps, guint n_steps)
{
  g_autoptr(OddNode) root = odd_node_ref (odd_job_get_panel (maker->job, panel_id, NULL, NULL)->root);

  for (guint i = 0; i < root->n_parts; i++)
    mark_inside (maker, root->parts[i], inside);
  for (guint i = 0; i < n_steps && i + 1 < root->n_parts; i++)
    mark (maker, root->seams[i].id, steps[i]);
}

void
sample_work (Maker *maker, const OddId *panels)
{
  static const guint squares[] = { 4, 4, 4, 4, 4, 4, 3, 3, 3, 3, 2 };
  static const guint bricks[] = { 3, 3, 3, 3, 3, 3, 2, 2 };
  static const guint crumbs[] = { 2, 2, 2, 2, 1, 1, 0, 0, 0 };
  static const guint started[] = { 4, 4, 4, 1, 0 };
  OddNode *root;

  mark_panel (maker, panels[0], 4, squares, G_N_ELEMENTS (squares));
  mark_panel (maker, panels[1], 3, bricks, G_N_ELEMENTS (bricks));
  mark_panel (maker, panels[2], 2, crumbs, G_N_ELEMENTS (crumbs));
  mark_panel (maker, panels[3], 4, started, G_N_ELEMENTS (started));
  root = odd_job_get_panel (maker->job, panels[3], NULL, NULL)->root;
  sample_step (maker, odd_job_set_end_secured (maker->job, root->seams[2].id, 0, TRUE, &maker->error));
}
