#include "config.h"

#include "cloth/document.h"
#include "piecing/refit.h"
#include "piecing/straighten.h"
#include "cloth/random-trees.h"

#define ALLOWANCE 12.7

static OddId
put_box (OddJob **job, double width, double height)
{
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, width, height });
  OddScrap values;
  OddId id = 0;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.washed = TRUE;
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  return id;
}

static void
place (OddJob **job, OddId leaf_id, OddId scrap_id, double x, double y)
{
  const OddPlacement placement = { 0, FALSE, { x, y } };

  take (job, odd_job_place_scrap (*job, leaf_id, scrap_id, &placement, NULL));
}

static OddNode *
root_of (OddJob *job, OddId panel_id)
{
  return odd_job_get_panel (job, panel_id, NULL, NULL)->root;
}

static OddNode *
leaf_of (OddJob *job, OddId leaf_id)
{
  return odd_node_find (odd_job_find_panel_of (job, leaf_id, NULL, NULL)->root, leaf_id);
}

static guint
count_unsound (OddJob *job)
{
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);
  guint n = 0;

  for (guint i = 0; i < findings->len; i++)
    n += ((OddFinding *) findings->pdata[i])->kind != ODD_FINDING_BARE;
  return n;
}

/* A row of two squares of 100: cut shapes of 125.4, on scraps of 130 and 126. */
static OddJob *
row_of_two (OddId *out_a, OddId *out_b)
{
  OddJob *job = odd_job_new ();
  OddId panel_id = 0;

  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  *out_a = root_of (job, panel_id)->parts[0]->id;
  *out_b = root_of (job, panel_id)->parts[1]->id;
  place (&job, *out_a, put_box (&job, 130, 130), -ALLOWANCE, -ALLOWANCE);
  place (&job, *out_b, put_box (&job, 126, 126), 100 - ALLOWANCE, -ALLOWANCE);
  return job;
}

static void
test_swap (void)
{
  OddId a, b;
  g_autoptr(OddJob) job = row_of_two (&a, &b);
  g_autoptr(OddJob) swapped = odd_job_swap_patches (job, a, b, NULL);
  g_autoptr(OddJob) back = NULL;

  g_test_summary ("Two squares change scraps, all stays sound; swapped again, each has its own");
  g_assert_nonnull (swapped);
  g_assert_cmpuint (leaf_of (swapped, a)->scrap_id, ==, leaf_of (job, b)->scrap_id);
  g_assert_cmpuint (leaf_of (swapped, b)->scrap_id, ==, leaf_of (job, a)->scrap_id);
  g_assert_cmpuint (count_unsound (swapped), ==, 0);
  back = odd_job_swap_patches (swapped, a, b, NULL);
  g_assert_nonnull (back);
  g_assert_cmpuint (leaf_of (back, a)->scrap_id, ==, leaf_of (job, a)->scrap_id);
  g_assert_cmpuint (count_unsound (back), ==, 0);
}

static void
test_swap_with_bare (void)
{
  OddId a, b;
  g_autoptr(OddJob) job = row_of_two (&a, &b);
  g_autoptr(OddJob) swapped = NULL;
  g_autoptr(GError) error = NULL;
  const OddId scrap = leaf_of (job, a)->scrap_id;

  g_test_summary ("Swapped with a bare place, a patch moves there; two bare places have nothing to swap");
  take (&job, odd_job_make_bare (job, b, NULL));
  swapped = odd_job_swap_patches (job, a, b, NULL);
  g_assert_cmpuint (leaf_of (swapped, a)->scrap_id, ==, 0);
  g_assert_cmpuint (leaf_of (swapped, b)->scrap_id, ==, scrap);
  take (&job, odd_job_make_bare (job, a, NULL));
  g_assert_null (odd_job_swap_patches (job, a, b, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_swap_refused (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddJob) locked = NULL;
  g_autoptr(OddJob) cut = NULL;
  g_autoptr(GError) error = NULL;
  OddId panel_id = 0, wide, narrow;

  g_test_summary ("A scrap of 70 for a cut shape of 125.4 lacks 55.4 mm, and the sentence says so; a lock or a cut patch is named");
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  wide = root_of (job, panel_id)->parts[0]->id;
  take (&job, odd_job_cut_in_two (job, root_of (job, panel_id)->parts[1]->id, (OddHalfPlane) { { 1, 0 }, 140 }, NULL, NULL));
  narrow = root_of (job, panel_id)->parts[1]->id;
  place (&job, wide, put_box (&job, 130, 130), -ALLOWANCE, -ALLOWANCE);
  place (&job, narrow, put_box (&job, 70, 130), 100 - ALLOWANCE, -ALLOWANCE);
  g_assert_null (odd_job_swap_patches (job, wide, narrow, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM);
  g_assert_nonnull (strstr (error->message, "Scrap 2 is about 55.4 mm too small for patch 1"));
  g_clear_error (&error);

  locked = odd_job_set_lock (job, narrow, TRUE, NULL);
  g_assert_null (odd_job_swap_patches (locked, wide, narrow, &error));
  g_assert_nonnull (strstr (error->message, "locked"));
  g_clear_error (&error);
  cut = odd_job_set_cut (job, narrow, ODD_STATE_DONE, NULL);
  g_assert_null (odd_job_swap_patches (cut, wide, narrow, &error));
  g_assert_nonnull (strstr (error->message, "cut out"));
}

static void
test_replace (void)
{
  OddId a, b;
  g_autoptr(OddJob) job = row_of_two (&a, &b);
  const OddId large = put_box (&job, 300, 140), small = put_box (&job, 100, 300), standing = put_box (&job, 126, 200);
  g_autoptr(GArray) which = NULL;
  g_autoptr(OddJob) replaced = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("Two of three free scraps hold the cut shape, the one with less to spare first; the third is refused by number");
  which = odd_refit_which (job, a, NULL);
  g_assert_cmpuint (which->len, ==, 2);
  g_assert_cmpuint (g_array_index (which, OddId, 0), ==, standing);
  g_assert_cmpuint (g_array_index (which, OddId, 1), ==, large);
  replaced = odd_job_replace_scrap (job, a, large, 90, NULL);
  g_assert_cmpfloat_with_epsilon (leaf_of (replaced, a)->placement.turn_deg, 90, 1e-9);
  g_assert_cmpuint (count_unsound (replaced), ==, 0);
  g_assert_null (odd_job_replace_scrap (job, a, small, NAN, &error));
  g_assert_nonnull (strstr (error->message, "25.4 mm too small"));
}

static void
test_one_way_cloth (void)
{
  OddId a, b, fabric_id = 0, scrap_id = 0;
  g_autoptr(OddJob) job = row_of_two (&a, &b);
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, 150, 126 });
  g_autoptr(OddJob) replaced = NULL;
  OddFabric fabric;
  OddScrap scrap;

  g_test_summary ("Cloth with an up stands upright whatever lies flush: its grain, at 45 degrees here, along the panel; the square does not fit so");
  odd_fabric_init_values (&fabric);
  fabric.name = "nap";
  fabric.one_way = TRUE;
  take (&job, odd_job_put_fabric (job, &fabric, &fabric_id, NULL));
  odd_scrap_init_values (&scrap);
  scrap.outline = outline;
  scrap.fabric_id = fabric_id;
  scrap.washed = TRUE;
  scrap.grain_deg = 45;
  take (&job, odd_job_put_scrap (job, &scrap, &scrap_id, NULL));
  g_assert_null (odd_job_replace_scrap (job, a, scrap_id, NAN, NULL));
  scrap.id = scrap_id;
  scrap.number = odd_job_get_scrap (job, scrap_id)->number;
  scrap.grain_deg = 270;
  take (&job, odd_job_put_scrap (job, &scrap, NULL, NULL));
  replaced = odd_job_replace_scrap (job, a, scrap_id, NAN, NULL);
  g_assert_cmpfloat_with_epsilon (leaf_of (replaced, a)->placement.turn_deg, 180, 1e-9);
}

/* --- cutting in two --- */

static void
test_cut_bare (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  OddNode *root;

  g_test_summary ("A bare panel is laid out by lines: first across, then one half along; filled later");
  take (&job, odd_job_add_panel (job, 0, G_MAXUINT, "", 200, 300, &panel_id, NULL));
  take (&job, odd_job_cut_in_two (job, root_of (job, panel_id)->id, (OddHalfPlane) { { 0, 1 }, 180 }, NULL, NULL));
  take (&job, odd_job_cut_in_two (job, root_of (job, panel_id)->parts[1]->id, (OddHalfPlane) { { 1, 0 }, 80 }, NULL, NULL));
  take (&job, odd_job_cut_in_two (job, root_of (job, panel_id)->parts[0]->id, (OddHalfPlane) { { 0, 1 }, 60 }, NULL, NULL));
  root = root_of (job, panel_id);
  g_assert_cmpuint (root->n_leaves, ==, 4);
  g_assert_cmpuint (root->n_parts, ==, 3);           /* parallel lines make one strip */
  place (&job, root->parts[0]->id, put_box (&job, 230, 90), -ALLOWANCE, -ALLOWANCE);
  g_assert_cmpuint (count_unsound (job), ==, 0);
}

static void
test_cut_patch (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0, bare_id = 0, scrap;
  OddNode *root;

  g_test_summary ("A seam takes 25.4 mm: a scrap with that much to spare gives both halves; else the smaller one is left bare");
  take (&job, odd_job_add_panel (job, 0, G_MAXUINT, "", 200, 100, &panel_id, NULL));
  scrap = put_box (&job, 225.4 + 25.4 + 0.1, 126);
  place (&job, root_of (job, panel_id)->id, scrap, -ALLOWANCE - 10, -ALLOWANCE);
  {
    g_autoptr(OddJob) both = odd_job_cut_in_two (job, root_of (job, panel_id)->id, (OddHalfPlane) { { 1, 0 }, 120 }, &bare_id, NULL);

    root = root_of (both, panel_id);
    g_assert_cmpuint (bare_id, ==, 0);
    g_assert_cmpuint (root->parts[0]->scrap_id, ==, scrap);
    g_assert_cmpuint (root->parts[1]->scrap_id, ==, scrap);
    g_assert_cmpuint (count_unsound (both), ==, 0);
  }
  place (&job, root_of (job, panel_id)->id, put_box (&job, 225.4, 126), -ALLOWANCE, -ALLOWANCE);
  take (&job, odd_job_cut_in_two (job, root_of (job, panel_id)->id, (OddHalfPlane) { { 1, 0 }, 120 }, &bare_id, NULL));
  root = root_of (job, panel_id);
  g_assert_cmpuint (bare_id, ==, root->parts[1]->id);
  g_assert_cmpuint (root->parts[1]->scrap_id, ==, 0);
  g_assert_cmpuint (count_unsound (job), ==, 0);
}

static void
test_cut_refused (void)
{
  OddId a, b;
  g_autoptr(OddJob) job = row_of_two (&a, &b);
  g_autoptr(OddJob) locked = odd_job_set_lock (job, a, TRUE, NULL);
  g_autoptr(OddJob) cut = odd_job_set_cut (job, a, ODD_STATE_DONE, NULL);
  g_autoptr(GError) error = NULL;

  g_test_summary ("A line that misses, one too near the edge, a lock, a patch cut out: one sentence each");
  g_assert_null (odd_job_cut_in_two (job, a, (OddHalfPlane) { { 1, 0 }, 150 }, NULL, &error));
  g_assert_nonnull (strstr (error->message, "misses patch 1"));
  g_clear_error (&error);
  g_assert_null (odd_job_cut_in_two (job, a, (OddHalfPlane) { { 1, 0 }, 80 }, NULL, &error));
  g_assert_nonnull (strstr (error->message, "20.0 mm narrow"));
  g_clear_error (&error);
  g_assert_null (odd_job_cut_in_two (locked, a, (OddHalfPlane) { { 1, 0 }, 50 }, NULL, &error));
  g_assert_nonnull (strstr (error->message, "locked"));
  g_clear_error (&error);
  g_assert_null (odd_job_cut_in_two (cut, a, (OddHalfPlane) { { 1, 0 }, 50 }, NULL, &error));
  g_assert_nonnull (strstr (error->message, "cut out"));
}

/* --- straightening --- */

/* A row of three, 100 wide each, whose scraps reach 20, 50 and 35 mm beyond the raw edge at the bottom. */
static OddJob *
ragged_row (OddId *out_panel_id)
{
  static const double beyond[3] = { 20, 50, 35 };
  OddJob *job = odd_job_new ();

  take (&job, add_squares (job, 0, 3, 1, 100, out_panel_id));
  for (guint i = 0; i < 3; i++)
    place (&job, root_of (job, *out_panel_id)->parts[i]->id, put_box (&job, 125.4, 125.4 + beyond[i]), 100.0 * i - ALLOWANCE, -ALLOWANCE);
  return job;
}

static void
test_straighten_square (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = ragged_row (&panel_id);
  g_autoptr(OddJob) straight = NULL;
  g_autoptr(GError) error = NULL;
  double gained = 0;

  g_test_summary ("Square, the end goes out to the shortest of three scraps: 20 mm (and 0.01 that is no finding) on 300; a second time there is nothing to do");
  straight = odd_job_straighten_end (job, panel_id, 2, 0, &gained, NULL);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (odd_job_get_panel (straight, panel_id, NULL, NULL)->outline).height, 120 + ODD_FIT_TOLERANCE_MM, 1e-3);
  g_assert_cmpfloat_with_epsilon (gained, 300 * (20 + ODD_FIT_TOLERANCE_MM), 0.5);
  g_assert_cmpuint (count_unsound (straight), ==, 0);
  g_assert_null (odd_job_straighten_end (straight, panel_id, 2, 0, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_straighten_tilted (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddJob) leaning = NULL;
  g_autoptr(OddJob) square = NULL;
  const OddPoint corners[] = { { 0, 0 }, { 225.4, 0 }, { 225.4, 125.4 }, { 0, 125.4 + 225.4 * 0.2 } };
  OddScrap values;
  OddId id = 0;

  g_test_summary ("One scrap whose edge runs with slope 0.2: the end takes that slope, 12.7 off the cloth's edge; square it keeps less");
  take (&job, odd_job_add_panel (job, 0, G_MAXUINT, "", 200, 90, &panel_id, NULL));
  odd_scrap_init_values (&values);
  values.outline = odd_polygon_new (corners, 4, NULL);
  take (&job, odd_job_put_scrap (job, &values, &id, NULL));
  odd_polygon_unref (values.outline);
  place (&job, root_of (job, panel_id)->id, id, -ALLOWANCE, -ALLOWANCE);
  leaning = odd_job_straighten_end (job, panel_id, 2, 15, NULL, NULL);
  square = odd_job_straighten_end (job, panel_id, 2, 0, NULL, NULL);
  {
    OddPanel *panel = odd_job_get_panel (leaning, panel_id, NULL, NULL);
    const OddHalfPlane end = odd_convex_edge_half_plane (panel->outline, 2);
    /* in the panel the cloth's lower edge runs through (212.7, 112.7) with slope -0.2; parallel to it, one allowance in, over x = 100: */
    const double middle = 112.7 + 0.2 * 112.7 - ALLOWANCE * hypot (1, 0.2);

    g_assert_cmpfloat_with_epsilon (end.normal.x / end.normal.y, 0.2, 1e-3);
    g_assert_cmpfloat_with_epsilon ((end.offset_mm - end.normal.x * 100) / end.normal.y, middle, 0.1);
    g_assert_cmpfloat (odd_convex_area (panel->outline), >, odd_convex_area (odd_job_get_panel (square, panel_id, NULL, NULL)->outline) + 1000);
  }
  g_assert_cmpuint (count_unsound (leaning), ==, 0);
}

static void
test_straighten_trims_cut (void)
{
  OddId panel_id = 0;
  g_autoptr(OddJob) job = ragged_row (&panel_id);
  g_autoptr(OddJob) slanted = NULL;
  g_autoptr(OddJob) trimmed = NULL;
  OddId first = root_of (job, panel_id)->parts[0]->id;

  g_test_summary ("A patch that is cut out is trimmed but never grows: the slanted end goes back to where the allowance's corners still have cloth");
  slanted = odd_job_straighten_end (job, panel_id, 2, 15, NULL, NULL);
  g_assert_nonnull (slanted);
  take (&slanted, odd_job_set_cut (slanted, first, ODD_STATE_DONE, NULL));
  trimmed = odd_job_straighten_end (slanted, panel_id, 2, 0, NULL, NULL);
  g_assert_nonnull (trimmed);
  {
    const OddConvex *before = odd_job_get_panel (slanted, panel_id, NULL, NULL)->outline;
    const double box = odd_convex_box (odd_job_get_panel (trimmed, panel_id, NULL, NULL)->outline).height;

    const double slope = fabs (before->points[2].y - before->points[3].y) / fabs (before->points[2].x - before->points[3].x);

    /* Its cloth ends one allowance below the slanted edge. Over the side's allowance that is a * hypot (1, slope) - a * slope below the corner,
     * and the square end needs a there. */
    g_assert_cmpfloat_with_epsilon (box, MIN (before->points[2].y, before->points[3].y) + ALLOWANCE * (hypot (1, slope) - slope - 1), 1e-3);
  }
}

/* --- laws --- */

static void
test_random_swaps (void)
{
  GRand *random = g_rand_new_with_seed (3);
  guint n_done = 0, n_refused = 0;

  g_test_summary ("Random trees: a swap or a cut leaves everything sound or nothing changed, and undo gives the very job back");
  for (guint round = 0; round < 25; round++)
    {
      OddId panel_id = 0;
      g_autoptr(OddJob) job = random_panel (random, &panel_id);
      g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);
      g_autoptr(OddDocument) document = odd_document_new (job);

      for (guint i = 0; i + 1 < layout->n_patches; i++)
        {
          const OddPatch *patch = &layout->patches[i];
          const OddId other = layout->patches[g_rand_int_range (random, (gint32) i + 1, (gint32) layout->n_patches)].leaf->id;
          const OddPlacement turn = { g_rand_double_range (random, 0, 360), FALSE, { 0, 0 } };
          const OddPoint normal = odd_placement_apply (&turn, odd_point (1, 0));
          const OddHalfPlane line = { normal, odd_point_dot (normal, odd_convex_centroid (patch->region)) };
          g_autoptr(GError) error = NULL;
          OddJob *after = i % 2 == 0 ? odd_job_swap_patches (job, patch->leaf->id, other, &error)
                                     : odd_job_cut_in_two (job, patch->leaf->id, line, NULL, &error);

          if (after == NULL)
            {
              g_assert_nonnull (error);
              n_refused++;
              continue;
            }
          g_assert_cmpuint (count_unsound (after), ==, 0);
          odd_document_apply (document, after, "Swap");
          g_assert_true (odd_document_undo (document));
          g_assert_true (odd_document_get_job (document) == job);
          n_done++;
        }
    }
  g_assert_cmpuint (n_done, >, 30);
  g_assert_cmpuint (n_refused, >, 10);
  g_rand_free (random);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/refit/swap", test_swap);
  g_test_add_func ("/refit/swap-with-bare", test_swap_with_bare);
  g_test_add_func ("/refit/swap-refused", test_swap_refused);
  g_test_add_func ("/refit/replace", test_replace);
  g_test_add_func ("/refit/one-way-cloth", test_one_way_cloth);
  g_test_add_func ("/refit/cut-bare", test_cut_bare);
  g_test_add_func ("/refit/cut-patch", test_cut_patch);
  g_test_add_func ("/refit/cut-refused", test_cut_refused);
  g_test_add_func ("/straighten/square", test_straighten_square);
  g_test_add_func ("/straighten/tilted", test_straighten_tilted);
  g_test_add_func ("/straighten/trims-cut", test_straighten_trims_cut);
  g_test_add_func ("/refit/random", test_random_swaps);
  return g_test_run ();
}
