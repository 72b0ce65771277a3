#include "config.h"

#include "trees.h"

#define NEAR 1e-6

static void
test_squares (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel = 0;
  g_autoptr(OddLayout) layout = NULL;

  g_test_summary ("Squares of 120 mm cut at 12.7 mm (common practice, no source): pitch 94.6, three in a row 309.2 raw");
  take (&job, add_squares (job, 0, 3, 3, 94.6, &panel));
  layout = odd_job_dup_layout (job, panel);
  g_assert_cmpfloat_with_epsilon (layout->box.width, 283.8, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->raw_box.width, 309.2, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->raw_box.height, 309.2, NEAR);
  g_assert_cmpuint (layout->n_patches, ==, 9);
  g_assert_cmpuint (layout->n_seams, ==, 8);
  for (guint i = 0; i < 9; i++)
    {
      const OddBox cut = odd_convex_box (layout->patches[i].cut);

      g_assert_cmpfloat_with_epsilon (cut.width, 120.0, NEAR);
      g_assert_cmpfloat_with_epsilon (cut.height, 120.0, NEAR);
    }
  g_assert_cmpfloat_with_epsilon (areas_of_regions (layout), 283.8 * 283.8, 1e-3);
}

static void
test_ends (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel = 0;
  g_autoptr(OddLayout) layout = NULL;
  guint n_caught = 0, n_open = 0;

  g_test_summary ("3 x 3: the two long seams are open at both ends, the six short ones caught by them or open at top and bottom");
  take (&job, add_squares (job, 0, 3, 3, 94.6, &panel));
  layout = odd_job_dup_layout (job, panel);
  for (guint i = 0; i < layout->n_seams; i++)
    for (guint end = 0; end < 2; end++)
      {
        n_caught += layout->seams[i].ends[end].kind == ODD_END_CAUGHT;
        n_open += layout->seams[i].ends[end].kind == ODD_END_OPEN;
        g_assert_cmpfloat_with_epsilon (layout->seams[i].ends[end].angle_deg, 90.0, 1e-6);
      }
  g_assert_cmpuint (n_caught, ==, 8);
  g_assert_cmpuint (n_open, ==, 8);
  /* A long seam runs from raw edge to raw edge, a short one through both allowances of its row. */
  g_assert_cmpfloat_with_epsilon (layout->seams[0].raw_length_mm, 309.2, NEAR);
  g_assert_cmpfloat_with_epsilon (layout->seams[2].raw_length_mm, 120.0, NEAR);
  g_assert_cmpuint (layout->seams[0].n_first, ==, 3);
  g_assert_cmpuint (layout->seams[0].second_patch, ==, 3);
}

static void
test_joined (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  const OddTreatment french = { odd_job_get_finish_by_key (job, "french")->id, NAN };
  g_autoptr(OddTextileLayout) whole = NULL;

  g_test_summary ("Two panels of 3 x 3 squares cut 120 at 12.7, joined by a French seam of 15.875: 280.625 each, 561.25, raw 586.65 (derived by hand)");
  take (&job, add_squares (job, textile, 3, 3, 94.6, NULL));
  take (&job, add_squares (job, textile, 3, 3, 94.6, NULL));
  take (&job, odd_job_set_treatment (job, ODD_LEVEL_SEAM, first_textile (job)->joins[0].id, 0, &french, TRUE, NULL));
  whole = odd_job_dup_textile_layout (job, textile);
  g_assert_cmpfloat_with_epsilon (whole->joins[0].allowance_mm, 15.875, NEAR);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_cmpfloat_with_epsilon (whole->panels[i].layout->box.width, 280.625, NEAR);
      g_assert_cmpfloat_with_epsilon (whole->panels[i].layout->alone_width_mm, 283.8, NEAR);
    }
  g_assert_cmpfloat_with_epsilon (whole->finished_width_mm, 561.25, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->raw_width_mm, 586.65, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->finished_length_mm, 283.8, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->panels[1].at.x, 280.625, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->joins[0].raw_length_mm, 309.2, NEAR);
  g_assert_cmpuint (whole->panels[0].layout->edges[1].join_id, ==, first_textile (job)->joins[0].id);
}

static void
test_unequal (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId second = 0;
  g_autoptr(OddTextileLayout) whole = NULL;
  g_autoptr(OddTextileLayout) shifted = NULL;

  g_test_summary ("Three rows beside four: the longer panel is trimmed by one pitch; offset 20 down trims the shorter at the top");
  take (&job, add_squares (job, textile, 2, 3, 94.6, NULL));
  take (&job, add_squares (job, textile, 2, 4, 94.6, &second));
  whole = odd_job_dup_textile_layout (job, textile);
  g_assert_cmpfloat_with_epsilon (whole->finished_length_mm, 283.8, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->panels[0].trim_bottom_mm, 0.0, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->panels[1].trim_bottom_mm, 94.6, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->panels[1].layout->box.height, 283.8, NEAR);

  take (&job, odd_job_set_panel_offset (job, second, 20.0, NULL));
  shifted = odd_job_dup_textile_layout (job, textile);
  g_assert_cmpfloat_with_epsilon (shifted->finished_length_mm, 263.8, NEAR);
  g_assert_cmpfloat_with_epsilon (shifted->panels[0].trim_top_mm, 20.0, NEAR);
  g_assert_cmpfloat_with_epsilon (shifted->panels[0].trim_bottom_mm, 0.0, NEAR);
  g_assert_cmpfloat_with_epsilon (shifted->panels[1].trim_bottom_mm, 114.6, NEAR);
  g_assert_cmpfloat_with_epsilon (shifted->panels[1].trim_top_mm, 0.0, NEAR);
}

static void
test_target (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  g_autoptr(OddTextileLayout) whole = NULL;

  g_test_summary ("Missing and surplus are told apart; the panels missing are whole ones");
  take (&job, add_squares (job, textile, 3, 3, 100, NULL));
  take (&job, add_squares (job, textile, 3, 3, 100, NULL));
  take (&job, odd_job_set_target (job, textile, 950, 250, NULL));
  whole = odd_job_dup_textile_layout (job, textile);
  g_assert_cmpfloat_with_epsilon (whole->missing_width_mm, 350.0, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->surplus_width_mm, 0.0, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->missing_length_mm, 0.0, NEAR);
  g_assert_cmpfloat_with_epsilon (whole->surplus_length_mm, 50.0, NEAR);
  g_assert_cmpuint (odd_textile_layout_panels_missing (whole), ==, 2);
}

static void
test_nothing_in_common (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId second = 0;
  g_autoptr(OddTextileLayout) whole = NULL;

  g_test_summary ("An offset past the first panel's end leaves no length, and no layout is lost over it");
  take (&job, add_squares (job, textile, 1, 2, 100, NULL));
  take (&job, add_squares (job, textile, 1, 2, 100, &second));
  take (&job, odd_job_set_panel_offset (job, second, 500, NULL));
  whole = odd_job_dup_textile_layout (job, textile);
  g_assert_cmpfloat (whole->finished_length_mm, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (whole->panels[1].at.y, 500, NEAR);
  g_assert_cmpuint (whole->panels[1].layout->n_patches, ==, 2);
}

static void
test_half_turn (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId panel = 0;
  g_autoptr(OddLayout) was = NULL;
  g_autoptr(OddLayout) turned = NULL;
  g_autoptr(OddLayout) back = NULL;

  g_test_summary ("Turned over end: the first patch hangs at the bottom right, twice turned all lies as before");
  take (&job, add_squares (job, textile, 2, 3, 100, &panel));
  was = odd_job_dup_layout (job, panel);
  take (&job, odd_job_turn_panel (job, panel, NULL));
  turned = odd_job_dup_layout (job, panel);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (turned->patches[0].region).x, 100, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (turned->patches[0].region).y, 200, NEAR);
  g_assert_cmpuint (turned->patches[0].number, ==, 1);
  take (&job, odd_job_turn_panel (job, panel, NULL));
  back = odd_job_dup_layout (job, panel);
  for (guint i = 0; i < was->n_patches; i++)
    g_assert_true (odd_convex_equal (was->patches[i].region, back->patches[i].region, 0.0));
}

static void
test_kept (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId first = 0, second = 0;
  g_autoptr(OddLayout) a = NULL;
  g_autoptr(OddLayout) b = NULL;
  g_autoptr(OddLayout) c = NULL;
  OddFabric fabric;

  g_test_summary ("A layout is the same pointer as long as nothing it follows from has changed");
  take (&job, add_squares (job, textile, 2, 2, 100, &first));
  take (&job, add_squares (job, textile, 2, 2, 100, &second));
  a = odd_job_dup_layout (job, first);
  take (&job, odd_job_set_panel_name (job, second, "Left sleeve", NULL));
  take (&job, odd_job_set_target (job, textile, 500, 500, NULL));
  odd_fabric_init_values (&fabric);
  fabric.name = (char *) "sail cloth";
  take (&job, odd_job_put_fabric (job, &fabric, NULL, NULL));
  b = odd_job_dup_layout (job, first);
  g_assert_true (a == b);
  set_allowance (&job, ODD_LEVEL_SEAM, first_textile (job)->joins[0].id, 15, TRUE);
  c = odd_job_dup_layout (job, first);
  g_assert_true (a != c);
}

static void
test_apart (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId longer = 0;
  g_autoptr(OddLayout) apart = NULL;
  g_autoptr(OddLayout) again = NULL;
  g_autoptr(OddLayout) turned = NULL;

  g_test_summary ("Apart, a panel has its own length and only raw edges, whatever hangs beside it; turned over end like the hung one");
  take (&job, add_squares (job, textile, 2, 3, 100, NULL));
  take (&job, add_squares (job, textile, 2, 5, 100, &longer));
  apart = odd_job_dup_layout_apart (job, longer);
  g_assert_cmpfloat_with_epsilon (apart->box.height, 500, NEAR);
  g_assert_cmpuint (apart->n_patches, ==, 10);
  for (guint i = 0; i < apart->n_edges; i++)
    g_assert_cmpuint (apart->edges[i].join_id, ==, 0);

  set_allowance (&job, ODD_LEVEL_SEAM, first_textile (job)->joins[0].id, 15, TRUE);
  again = odd_job_dup_layout_apart (job, longer);
  g_assert_true (again == apart);

  take (&job, odd_job_turn_panel (job, longer, NULL));
  turned = odd_job_dup_layout_apart (job, longer);
  g_assert_cmpfloat_with_epsilon (odd_convex_box (turned->patches[0].region).y, 400, NEAR);
}

static void
test_random_tiling (void)
{
  g_test_summary ("Law: whatever seams are sewn on at whatever tilt, the leaves tile the outline");
  for (guint round = 0; round < 60; round++)
    {
      g_autoptr(OddJob) job = odd_job_new ();
      OddId panel = 0;
      g_autoptr(OddLayout) layout = NULL;

      take (&job, add_squares (job, 0, 1 + round % 3, 1, g_test_rand_double_range (60, 140), &panel));
      for (guint step = 0; step < 6; step++)
        {
          OddPanel *p = odd_job_get_panel (job, panel, NULL, NULL);
          const int edge = odd_panel_side_edge (p, 2);
          g_autoptr(OddNode) leaf = odd_node_new_bare (job->next_id);
          const double tilt = g_test_rand_double_range (-0.15, 0.15);
          const OddPoint normal = { sin (tilt), cos (tilt) };
          const double at = odd_convex_support (p->outline, normal) - g_test_rand_double_range (-12, 4);
          const OddExtension extension = {
            .edge = edge, .seam = { normal, at },
            .outer = { { 0, 1 }, odd_convex_box (p->outline).height + g_test_rand_double_range (60, 90) },
            .part = leaf, .next_id = job->next_id + 1
          };
          OddJob *next;

          g_assert_cmpint (edge, >=, 0);
          next = odd_job_extend_panel (job, panel, &extension, NULL);
          if (next != NULL)
            take (&job, next);
        }
      layout = odd_job_dup_layout (job, panel);
      g_assert_cmpuint (layout->n_patches, >, 3);
      g_assert_cmpuint (layout->n_vanished, ==, 0);
      g_assert_cmpfloat_with_epsilon (areas_of_regions (layout), odd_convex_area (layout->outline), 1e-3);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/layout/squares", test_squares);
  g_test_add_func ("/layout/ends", test_ends);
  g_test_add_func ("/layout/joined", test_joined);
  g_test_add_func ("/layout/unequal", test_unequal);
  g_test_add_func ("/layout/target", test_target);
  g_test_add_func ("/layout/nothing-in-common", test_nothing_in_common);
  g_test_add_func ("/layout/half-turn", test_half_turn);
  g_test_add_func ("/layout/kept", test_kept);
  g_test_add_func ("/layout/apart", test_apart);
  g_test_add_func ("/layout/random-tiling", test_random_tiling);
  return g_test_run ();
}
