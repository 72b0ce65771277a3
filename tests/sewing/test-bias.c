/* Edges on the bias, by hand: angles to the threads, lengths, and what holds them. */
#include "config.h"

#include "sewing/act.h"
#include "sewing/bias.h"

/* A panel of 200 x 100 with one patch, cut 220 x 120 at 10, from a scrap of 400 x 400 whose grain lies at @grain_deg. */
static OddJob *
job_with_patch (double  grain_deg,
                OddMake make,
                OddId  *out_leaf_id)
{
  const OddPoint corners[4] = { { 0, 0 }, { 400, 0 }, { 400, 400 }, { 0, 400 } };
  const OddPlacement placement = { 0.0, FALSE, { -100.0, -100.0 } };
  const OddTreatment treatment = { 0, 10.0 };
  g_autoptr(OddPolygon) outline = odd_polygon_new (corners, 4, NULL);
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(OddJob) with_fabric = NULL, with_scrap = NULL, with_panel = NULL, treated = NULL;
  g_autoptr(GError) error = NULL;
  OddFabric fabric;
  OddScrap scrap;
  OddId fabric_id, scrap_id, panel_id;

  odd_fabric_init_values (&fabric);
  fabric.name = (char *) "Cloth";
  fabric.make = make;
  with_fabric = odd_job_put_fabric (empty, &fabric, &fabric_id, &error);
  g_assert_no_error (error);
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.fabric_id = fabric_id;
  scrap.grain_deg = grain_deg;
  scrap.washed = TRUE;
  with_scrap = odd_job_put_scrap (with_fabric, &scrap, &scrap_id, &error);
  g_assert_no_error (error);
  with_panel = odd_job_add_panel (with_scrap, 0, 0, "", 200.0, 100.0, &panel_id, &error);
  g_assert_no_error (error);
  treated = odd_job_set_treatment (with_panel, ODD_LEVEL_PANEL, panel_id, 0, &treatment, FALSE, &error);
  g_assert_no_error (error);
  *out_leaf_id = odd_job_get_panel (treated, panel_id, NULL, NULL)->root->id;

  return odd_job_place_scrap (treated, *out_leaf_id, scrap_id, &placement, &error);
}

static GArray *
edges_of (OddJob *job,
          OddId   leaf_id)
{
  const OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);

  return odd_layout_dup_bias_edges (layout, odd_layout_find_patch (layout, leaf_id), &job->settings);
}

static guint
count_edges (OddJob *job,
             OddId   leaf_id)
{
  g_autoptr(GArray) edges = edges_of (job, leaf_id);

  return edges->len;
}

/* Straight and crosswise grain: none. 30 degrees off: the two edges of 220 are longer than 150, those of 120 are not. */
static void
test_angles (void)
{
  static const struct { double grain_deg; guint n; double off_deg; } CASES[] = {
    { 90.0, 0, 0.0 }, { 0.0, 0, 0.0 }, { 60.0, 2, 30.0 }, { 45.0, 2, 45.0 }, { 135.0, 2, 45.0 }, { 20.0, 0, 0.0 }, { 21.0, 2, 21.0 }, { 250.0, 0, 0.0 }, { 249.0, 2, 21.0 }
  };

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++)
    {
      OddId leaf_id;
      g_autoptr(OddJob) job = job_with_patch (CASES[i].grain_deg, ODD_MAKE_WOVEN, &leaf_id);
      g_autoptr(GArray) edges = edges_of (job, leaf_id);

      g_assert_cmpuint (edges->len, ==, CASES[i].n);
      for (guint k = 0; k < edges->len; k++)
        {
          g_assert_cmpfloat_with_epsilon (g_array_index (edges, OddBiasEdge, k).off_deg, CASES[i].off_deg, 1e-9);
          g_assert_cmpfloat_with_epsilon (g_array_index (edges, OddBiasEdge, k).length_mm, 220.0, 1e-9);
          g_assert_cmpfloat_with_epsilon (odd_segment_length (g_array_index (edges, OddBiasEdge, k).finished), 200.0, 1e-9);
        }
    }
}

static void
test_settings (void)
{
  OddId leaf_id;
  g_autoptr(OddJob) job = job_with_patch (60.0, ODD_MAKE_UNKNOWN, &leaf_id);
  OddSettings settings = job->settings;
  g_autoptr(OddJob) shorter = NULL, farther = NULL;
  g_autoptr(GError) error = NULL;

  settings.stay_from_mm = 119.0;
  shorter = odd_job_set_settings (job, &settings, NULL);
  g_assert_cmpuint (count_edges (shorter, leaf_id), ==, 4);
  settings.stay_from_deg = 31.0;
  farther = odd_job_set_settings (job, &settings, NULL);
  g_assert_cmpuint (count_edges (farther, leaf_id), ==, 0);
  settings.stay_from_deg = 46.0;
  g_assert_null (odd_job_set_settings (job, &settings, &error));
  g_assert_nonnull (error);
}

/* A knit has no bias. */
static void
test_knit (void)
{
  OddId leaf_id;
  g_autoptr(OddJob) job = job_with_patch (45.0, ODD_MAKE_KNIT, &leaf_id);
  g_autoptr(GArray) patches = odd_job_dup_bias (job, 0);

  g_assert_cmpuint (count_edges (job, leaf_id), ==, 0);
  g_assert_cmpuint (patches->len, ==, 0);
}

/* The tick is an act; it can be taken back, and goes when the patch gets another place. */
static void
test_stayed (void)
{
  OddId leaf_id;
  g_autoptr(OddJob) job = job_with_patch (45.0, ODD_MAKE_WOVEN, &leaf_id);
  OddAct act = { .kind = ODD_ACT_STAY, .node_id = leaf_id, .state = ODD_STATE_DONE };
  g_autoptr(OddJob) stayed = odd_job_do (job, &act, NULL);
  g_autoptr(OddJob) open = NULL, elsewhere = NULL, bare = NULL;
  g_autoptr(GArray) before = odd_job_dup_bias (job, 0);
  g_autoptr(GError) error = NULL;
  const OddPlacement placement = { 0.0, FALSE, { -110.0, -100.0 } };
  const OddNode *leaf;
  g_autofree char *text = NULL;

  g_assert_cmpuint (before->len, ==, 1);
  g_assert_cmpuint (g_array_index (before, OddBiasPatch, 0).n_edges, ==, 2);
  g_assert_cmpfloat_with_epsilon (g_array_index (before, OddBiasPatch, 0).length_mm, 440.0, 1e-9);
  g_assert_nonnull (stayed);
  g_assert_cmpuint (count_edges (stayed, leaf_id), ==, 0);
  text = odd_act_dup_text (stayed->record->pdata[0], ODD_UNIT_CM);
  g_assert_cmpstr (text, ==, "Panel 1, patch 1: edges on the bias stayed");
  act.state = ODD_STATE_OPEN;
  open = odd_job_do (stayed, &act, NULL);
  g_assert_cmpuint (count_edges (open, leaf_id), ==, 2);

  leaf = odd_job_find_panel_of (stayed, leaf_id, NULL, NULL)->root;
  elsewhere = odd_job_place_scrap (stayed, leaf_id, leaf->scrap_id, &placement, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (count_edges (elsewhere, leaf_id), ==, 2);
  bare = odd_job_make_bare (stayed, leaf_id, NULL);
  g_assert_cmpuint (count_edges (bare, leaf_id), ==, 0);
  g_assert_null (odd_job_do (bare, &act, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND);
}

/* A seam that is begun holds the edge along it. Two patches of 200 x 50: the seam takes one edge of each off the list. */
static void
test_held_by_seam (void)
{
  OddId leaf_id;
  g_autoptr(OddJob) job = job_with_patch (45.0, ODD_MAKE_WOVEN, &leaf_id);
  const OddNode *leaf = odd_job_find_panel_of (job, leaf_id, NULL, NULL)->root;
  g_autoptr(OddNode) first = odd_node_new_patch (job->next_id, leaf->scrap_id, &leaf->placement);
  const OddPlacement lower = { 0.0, FALSE, { -100.0, -200.0 } };
  g_autoptr(OddNode) second = odd_node_new_patch (job->next_id + 1, leaf->scrap_id, &lower);
  g_autoptr(OddJob) parted = odd_job_split_leaf (job, leaf_id, (OddHalfPlane) { { 0.0, 1.0 }, 50.0 }, first, second, job->next_id + 2, NULL);
  const OddPanel *panel;
  g_autoptr(OddProgress) progress = NULL;
  g_autoptr(OddJob) sewn = NULL;
  const OddState done[1] = { ODD_STATE_DONE };

  g_assert_nonnull (parted);
  g_assert_cmpuint (count_edges (parted, first->id) + count_edges (parted, second->id), ==, 4);
  panel = odd_job_find_panel_of (parted, first->id, NULL, NULL);
  progress = odd_progress_new (done, NULL, 1);
  sewn = odd_job_set_progress (parted, panel->root->seams[0].id, progress, NULL);
  g_assert_cmpuint (count_edges (sewn, first->id) + count_edges (sewn, second->id), ==, 2);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/bias/angles", test_angles);
  g_test_add_func ("/bias/settings", test_settings);
  g_test_add_func ("/bias/knit", test_knit);
  g_test_add_func ("/bias/stayed", test_stayed);
  g_test_add_func ("/bias/held-by-seam", test_held_by_seam);

  return g_test_run ();
}
