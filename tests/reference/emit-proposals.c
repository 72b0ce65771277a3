/* Pieces heaps and prints what came out, one JSON object a line, for check-proposals.py to measure again. Usage: emit-proposals SEED CASES */
#include "bench/tub-of-fabrics.h"
#include "cloth/offcuts.h"
#include "geometry/inscribed.h"
#include "cloth/shape.h"
#include "piecing/cut-plan.h"
#include "piecing/snap.h"

#include <stdio.h>
#include <stdlib.h>

#define ALLOWANCE_MM 10.0

static void
print_ring (const OddPoint *points,
            gsize           n)
{
  printf ("[");
  for (gsize i = 0; i < n; i++)
    printf ("%s[%.17g,%.17g]", i > 0 ? "," : "", points[i].x, points[i].y);
  printf ("]");
}

static void
print_polygon (OddPolygon *polygon)
{
  gsize n = 0;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  printf ("[");
  print_ring (ring, n);
  for (guint i = 0; i < odd_polygon_get_n_holes (polygon); i++)
    {
      ring = odd_polygon_get_hole (polygon, i, &n);
      printf (",");
      print_ring (ring, n);
    }
  printf ("]");
}

static void
print_patch (const OddPatch *patch)
{
  printf ("{\"scrap\":%u,\"fabric\":%u,\"turn\":%.17g,\"mirror\":%s,\"shift\":[%.17g,%.17g],\"region\":", patch->scrap != NULL ? patch->scrap->id : 0,
          patch->fabric != NULL ? patch->fabric->id : 0, patch->placement.turn_deg, patch->placement.mirror ? "true" : "false",
          patch->placement.shift.x, patch->placement.shift.y);
  print_ring (patch->region->points, patch->region->n);
  printf (",\"cut\":");
  print_ring (patch->cut->points, patch->cut->n);
  printf ("}");
}

static void
print_panel (const OddLayout *layout,
             OddPoint         at)
{
  printf ("{\"at\":[%.17g,%.17g],\"outline\":", at.x, at.y);
  print_ring (layout->outline->points, layout->outline->n);
  printf (",\"patches\":[");
  for (guint k = 0; k < layout->n_patches; k++)
    {
      printf ("%s", k > 0 ? "," : "");
      print_patch (&layout->patches[k]);
    }
  printf ("]}");
}

static void
print_panels (const OddProposal *proposal)
{
  g_autoptr(OddTextileLayout) textile = odd_job_dup_textile_layout (proposal->job, ((OddTextile *) proposal->job->textiles->pdata[0])->id);

  printf ("\"panels\":[");
  for (guint i = 0; i < textile->n_panels; i++)
    {
      const OddHungLayout *hung = &textile->panels[i];

      printf ("%s", i > 0 ? "," : "");
      print_panel (hung->layout, hung->at);
    }
  printf ("],");
}

static void
print_scraps (OddJob *job)
{
  printf ("\"scraps\":[");
  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddScrap *scrap = job->scraps->pdata[i];
      g_autoptr(GPtrArray) remains = odd_scrap_remains (job, scrap->id);

      printf ("%s{\"id\":%u,\"outline\":", i > 0 ? "," : "", scrap->id);
      print_polygon (scrap->outline);
      printf (",\"remains\":[");
      for (guint k = 0; k < remains->len; k++)
        {
          printf ("%s", k > 0 ? "," : "");
          print_polygon (remains->pdata[k]);
        }
      printf ("]}");
    }
  printf ("],");
}

static void
print_figures (const OddFigures *figures)
{
  printf ("\"figures\":{\"patches\":%u,\"bare\":%u,\"finished\":%.17g,\"cut\":%.17g,\"used\":%.17g,\"heap\":%.17g,\"net_yield\":%.17g,\"own_bound\":%.17g,"
          "\"fit\":%.17g,\"of_heap\":%.17g,\"smallest\":%.17g,\"contacts\":%u,\"scraps\":%u,\"offcuts\":%u,\"offcuts_area\":%.17g}",
          figures->n_patches, figures->n_bare, figures->finished_mm2, figures->cut_mm2, figures->used_mm2, figures->heap_mm2, figures->net_yield,
          figures->own_bound, figures->fit, figures->of_heap, figures->smallest_side_mm, figures->n_contacts, figures->n_scraps_used, figures->n_offcuts,
          figures->offcuts_mm2);
}

static OddProposal *
improved (OddProposal              *first,
          const OddProposalOptions *options)
{
  OddProposal *better = odd_improve (first->job, (const OddId *) first->panels->data, first->panels->len, options, NULL, NULL, NULL, NULL);

  g_assert (better != NULL);
  odd_proposal_free (first);

  return better;
}

/* Manner, sizes and number of panels by turns; every fourth wants more than there is. Crumbs are bettered a little. */
static void
emit_proposal (guint seed,
               guint round)
{
  g_autoptr(OddJob) job = tub_of_fabrics (round % 4 == 3 ? 25 : 90, seed + round);
  g_autoptr(OddProposal) proposal = NULL;
  static const char *const NAMES[] = { "squares", "columns", "crumbs" };
  OddProposalOptions options;

  odd_proposal_options_init (&options, job, (OddPieceManner) (round % 3));
  options.treatment.allowance_mm = ALLOWANCE_MM;
  options.width_mm = 200.0 + 50.0 * (round % 4);
  options.length_mm = 700.0;
  options.n_panels = 1 + round / 3 % 3;
  options.n_templates = 1 + round / 2 % 3;
  options.templates[1] = (OddTemplate) { 70.0, 70.0 };
  options.templates[2] = (OddTemplate) { 90.0, 60.0 };
  options.liveliness = (round % 5) / 4.0;
  options.seed = seed + round;
  options.moves = options.manner == ODD_PIECE_CRUMBS ? 1500 : 0;
  proposal = odd_propose (job, &options, NULL, NULL, NULL, NULL);
  g_assert (proposal != NULL);
  if (options.manner == ODD_PIECE_CRUMBS)
    proposal = improved (g_steal_pointer (&proposal), &options);

  printf ("{\"kind\":\"%s\",\"allowance\":%.17g,\"width\":%.17g,\"length\":%.17g,\"least\":%.17g,", NAMES[options.manner], ALLOWANCE_MM,
          options.width_mm, options.length_mm, options.smallest_mm);
  print_panels (proposal);
  print_scraps (proposal->job);
  print_figures (&proposal->figures);
  printf ("}\n");
}

/* Places that are no rectangle: a hexagon, one that slants, half a bodice, a long triangle with its tip cut off. */
static void
emit_in_shape (guint          seed,
               guint          round,
               OddPieceManner manner)
{
  static const OddPoint SHAPES[4][6] = {
    { { 90, 0 }, { 330, 20 }, { 420, 250 }, { 300, 480 }, { 120, 480 }, { 0, 230 } },
    { { 0, 0 }, { 400, 110 }, { 400, 260 }, { 400, 510 }, { 0, 400 }, { 0, 200 } },
    { { 0, 60 }, { 70, 0 }, { 200, 10 }, { 320, 190 }, { 300, 600 }, { 0, 620 } },
    { { 150, 0 }, { 260, 0 }, { 330, 400 }, { 360, 620 }, { 0, 560 }, { 80, 260 } },
  };
  static const char *const NAMES[] = { "squares in a shape", "columns in a shape", "crumbs in a shape" };
  const OddTreatment treatment = { 0, ALLOWANCE_MM };
  g_autoptr(OddJob) job = tub_of_fabrics (160, seed + round);
  g_autoptr(OddPolygon) outline = odd_polygon_new (SHAPES[round % 4], 6, NULL);
  g_autoptr(OddConvex) shape = odd_shape_new_round (outline, 0.0, NULL);
  g_autoptr(OddJob) bare = NULL;
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(OddLayout) layout = NULL;
  OddProposalOptions options;
  OddId panel_id = 0;

  bare = odd_job_add_shape (job, "", shape, &treatment, &panel_id, NULL);
  g_assert (bare != NULL);
  odd_proposal_options_init (&options, bare, manner);
  options.into = ODD_INTO_BARE;
  options.panel_ids = &panel_id;
  options.n_panel_ids = 1;
  options.seed = seed + round;
  proposal = odd_propose (bare, &options, NULL, NULL, NULL, NULL);
  g_assert (proposal != NULL);
  layout = odd_job_dup_layout (proposal->job, panel_id);
  printf ("{\"kind\":\"%s\",\"allowance\":%.17g,\"least\":%.17g,\"panels\":[", NAMES[manner], ALLOWANCE_MM, options.smallest_mm);
  print_panel (layout, odd_point (0.0, 0.0));
  printf ("],");
  print_scraps (proposal->job);
  print_figures (&proposal->figures);
  printf ("}\n");
}

/* Cloth on a lattice of 40 mm, its right border stepped at random, and squares of two steps: small enough to be packed at its best by others. */
static void
emit_lattice (GRand *rand)
{
  const guint n_rows = (guint) g_rand_int_range (rand, 3, 8);
  const OddTemplate template = { 80.0, 80.0 };
  const double turn_deg = 0.0;
  g_autoptr(GArray) points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  g_autoptr(OddPolygon) cloth = NULL;
  g_autoptr(OddCutPlan) plan = NULL;
  OddPoint p = { 0.0, 0.0 };

  g_array_append_val (points, p);
  for (guint i = 0; i < n_rows; i++)
    {
      p.x = 40.0 * g_rand_int_range (rand, 2, 8);
      p.y = 40.0 * i;
      g_array_append_val (points, p);
      p.y += 40.0;
      g_array_append_val (points, p);
    }
  p.x = 0.0;
  g_array_append_val (points, p);
  cloth = odd_polygon_new ((const OddPoint *) points->data, points->len, NULL);
  g_assert (cloth != NULL);
  plan = odd_cut_plan_new (cloth, &turn_deg, 1, &template, 1, ALLOWANCE_MM);
  printf ("{\"kind\":\"lattice\",\"step\":40,\"outline\":");
  print_polygon (cloth);
  printf (",\"count\":%u}\n", plan->pieces->len);
}

int
main (int    argc,
      char **argv)
{
  const guint seed = argc > 1 ? (guint) atoi (argv[1]) : 1;
  const guint n = argc > 2 ? (guint) atoi (argv[2]) : 12;
  g_autoptr(GRand) rand = g_rand_new_with_seed (seed);

  for (guint i = 0; i < n; i++)
    emit_proposal (seed, i);
  for (guint i = 0; i < n; i++)
    emit_in_shape (seed, i, i % 3 == 2 ? ODD_PIECE_SQUARES : ODD_PIECE_COLUMNS);
  for (guint i = 0; i < 2 * n; i++)
    emit_lattice (rand);

  return 0;
}
