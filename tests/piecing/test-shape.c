/* A cloth for one shape: the region round an outline, filled in every manner, and regions that squares do not fit whole. */
#include "config.h"

#include "cloth/shape.h"
#include "piecing/proposal.h"
#include "bench/tub-of-fabrics.h"
#include "tub.h"

static OddConvex *
shape_round (const OddPoint *points,
             guint           n,
             double          margin_mm)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddPolygon) outline = odd_polygon_new (points, n, &error);
  OddConvex *shape;

  g_assert_no_error (error);
  shape = odd_shape_new_round (outline, margin_mm, &error);
  g_assert_no_error (error);

  return shape;
}

/* By hand: the notch of an L is filled by the hull; 10 mm round a rectangle of 200 x 100 is 220 x 120. */
static void
test_by_hand (void)
{
  const OddPoint l[6] = { { 50, 50 }, { 250, 50 }, { 250, 150 }, { 150, 150 }, { 150, 250 }, { 50, 250 } };
  const OddPoint box[4] = { { 0, 0 }, { 200, 0 }, { 200, 100 }, { 0, 100 } };
  g_autoptr(OddConvex) hull = shape_round (l, 6, 0.0);
  g_autoptr(OddConvex) round = shape_round (box, 4, 10.0);

  g_assert_cmpuint (hull->n, ==, 5);
  g_assert_cmpfloat_with_epsilon (odd_convex_area (hull), 40000.0 - 5000.0, 1e-6);
  g_assert_cmpuint (round->n, ==, 4);
  g_assert_cmpfloat_with_epsilon (odd_convex_area (round), 220.0 * 120.0, 1e-6);
  g_assert_cmpfloat (odd_convex_box (round).x, ==, 0.0);
}

/* A circle of 90 corners gets few, stays inside, and little cloth is added: a regular 12-gon round a circle has 1.023 of its area. */
static void
test_few_corners (void)
{
  OddPoint points[90];
  g_autoptr(OddConvex) shape = NULL;

  for (guint i = 0; i < 90; i++)
    points[i] = odd_point (300.0 + 300.0 * cos (i * G_PI / 45.0), 300.0 + 300.0 * sin (i * G_PI / 45.0));
  shape = shape_round (points, 90, 0.0);
  g_assert_cmpuint (shape->n, <=, ODD_SHAPE_CORNERS);
  g_assert_cmpfloat (odd_convex_area (shape), <, 1.05 * G_PI * 300.0 * 300.0);
  /* a ring of 90 corners is nowhere narrower than twice 300 cos 2 degrees */
  g_assert_cmpfloat (odd_convex_area (shape), >, 300.0 * 300.0 * 45.0 * sin (G_PI / 45.0));
  g_assert_cmpfloat (odd_convex_min_width (shape), >=, 600.0 * cos (G_PI / 90.0) - 1e-6);
}

static void
test_refused (void)
{
  const OddPoint thin[4] = { { 0, 0 }, { 200, 0 }, { 200, 5 }, { 0, 5 } };
  g_autoptr(OddPolygon) outline = odd_polygon_new (thin, 4, NULL);
  g_autoptr(OddJob) none = odd_job_new ();
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_shape_new_round (outline, 0.0, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_shape_new_round (outline, -1.0, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (odd_job_dup_only_outline (none, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

/* Each manner fills a hexagon that no rectangle fits: sound, next to nothing bare, the patches tile it. */
static void
test_filled (void)
{
  const OddPoint corners[6] = { { 90, 0 }, { 330, 20 }, { 420, 250 }, { 300, 480 }, { 120, 480 }, { 0, 230 } };

  for (guint manner = 0; manner < 3; manner++)
    {
      g_autoptr(OddConvex) shape = shape_round (corners, 6, 0.0);
      g_autoptr(OddJob) job = tub_of_fabrics (150, 3);
      const OddTreatment treatment = { 0, 10.0 };
      g_autoptr(OddJob) bare = NULL;
      g_autoptr(OddProposal) proposal = NULL;
      g_autoptr(OddLayout) layout = NULL;
      g_autoptr(GPtrArray) findings = NULL;
      g_autoptr(GError) error = NULL;
      OddProposalOptions options;
      OddId panel_id;
      double mm2 = 0.0;

      bare = odd_job_add_shape (job, "", shape, &treatment, &panel_id, &error);
      g_assert_no_error (error);
      odd_proposal_options_init (&options, bare, (OddPieceManner) manner);
      options.into = ODD_INTO_BARE;
      options.panel_ids = &panel_id;
      options.n_panel_ids = 1;
      proposal = odd_propose (bare, &options, NULL, NULL, NULL, &error);
      g_assert_no_error (error);
      findings = odd_job_check (proposal->job, NULL);
      for (guint i = 0; i < findings->len; i++)
        g_assert_cmpint (((OddFinding *) findings->pdata[i])->kind, ==, ODD_FINDING_BARE);
      layout = odd_job_dup_layout (proposal->job, panel_id);
      for (guint i = 0; i < layout->n_patches; i++)
        mm2 += odd_convex_area (layout->patches[i].region);
      g_assert_cmpfloat_with_epsilon (mm2, odd_convex_area (shape), 1e-3);
      g_assert_cmpuint (proposal->figures.n_patches, >, 15);
      g_assert_cmpfloat (proposal->figures.bare_mm2, <, 0.05 * odd_convex_area (shape));
      if (manner == ODD_PIECE_SQUARES)
        for (guint i = 0; i < layout->n_patches; i++)
          {
            const OddBox box = odd_convex_box (layout->patches[i].region);

            g_assert_cmpfloat (MAX (box.width, box.height), <, 80.0 + 1e-6 + (layout->patches[i].scrap == NULL ? 80.0 : 0.0));
          }
    }
}

/* A join is one straight seam along a side: a shape has none, so it stays loose; cloth that is square but for a little may hang. */
static void
test_stays_loose (void)
{
  const OddPoint hexagon[6] = { { 90, 0 }, { 330, 20 }, { 420, 250 }, { 300, 480 }, { 120, 480 }, { 0, 230 } };
  const OddPoint slanted[4] = { { 0, 0 }, { 400, 110 }, { 400, 510 }, { 0, 400 } };
  const OddPoint nearly[4] = { { 0, 0 }, { 300, 12 }, { 292, 500 }, { 6, 490 } };
  const struct { const OddPoint *points; guint n; gboolean hangs; } cases[] = { { hexagon, 6, FALSE }, { slanted, 4, FALSE }, { nearly, 4, TRUE } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(OddConvex) shape = shape_round (cases[i].points, cases[i].n, 0.0);
      g_autoptr(OddJob) empty = odd_job_new ();
      g_autoptr(OddJob) job = NULL;
      g_autoptr(OddJob) hung = NULL;
      g_autoptr(GError) error = NULL;
      OddId panel_id;

      job = odd_job_add_shape (empty, i == 0 ? "Sleeve" : "", shape, &ODD_TREATMENT_INHERIT, &panel_id, NULL);
      hung = odd_job_move_panel (job, panel_id, ((OddTextile *) job->textiles->pdata[0])->id, 0, &error);
      g_assert_true ((hung != NULL) == cases[i].hangs);
      if (cases[i].hangs)
        continue;
      g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
      g_assert_nonnull (strstr (error->message, i == 0 ? "Sleeve has a shape of its own" : "Panel 1 has a shape of its own"));
      g_assert_cmpuint (job->loose_panels->len, ==, 1);
    }
}

/* Squares in a place that slants: laid flush with it they leave nothing bare, and more of them are whole than straight ones would be. */
static void
test_squares_slanted (void)
{
  const OddPoint corners[4] = { { 0, 0 }, { 462, 124 }, { 400, 355 }, { -62, 231 } };
  g_autoptr(OddConvex) shape = shape_round (corners, 4, 0.0);
  g_autoptr(OddJob) job = tub_of_fabrics (150, 4);
  const OddTreatment treatment = { 0, 10.0 };
  g_autoptr(OddJob) bare = NULL;
  g_autoptr(OddProposal) proposal = NULL;
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GError) error = NULL;
  OddProposalOptions options;
  guint n_whole = 0;
  OddId panel_id;

  bare = odd_job_add_shape (job, "", shape, &treatment, &panel_id, NULL);
  odd_proposal_options_init (&options, bare, ODD_PIECE_SQUARES);
  options.into = ODD_INTO_BARE;
  options.panel_ids = &panel_id;
  options.n_panel_ids = 1;
  proposal = odd_propose (bare, &options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  layout = odd_job_dup_layout (proposal->job, panel_id);
  for (guint i = 0; i < layout->n_patches; i++)
    n_whole += odd_convex_area (layout->patches[i].region) > 6399.0;
  g_assert_cmpuint (proposal->figures.n_bare, ==, 0);
  /* 478 x 239 mm, at 15 degrees: six by three of 80 mm reach over it, and four inner columns of the middle row at least are whole */
  g_assert_cmpuint (n_whole, >=, 4);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddPoint normal = layout->seams[i].line.normal;

      g_assert_cmpfloat (fabs (remainder (atan2 (normal.y, normal.x) * 180.0 / G_PI - 15.0, 90.0)), <, 0.1);
    }
}

/* In sharp corners the tip between a trimmed edge and a seam reaches farther than its square does: nothing of a scrap is used twice all the same. */
static void
test_tips (void)
{
  for (guint i = 0; i < 24; i++)
    {
      const OddPoint corners[3] = { { 0, 0 }, { 260.0 + 13.0 * i, 20.0 + 7.0 * i }, { 40.0 + 9.0 * i, 330.0 - 5.0 * i } };
      g_autoptr(OddConvex) shape = shape_round (corners, 3, 0.0);
      g_autoptr(OddJob) job = tub_of_fabrics (60, i + 1);
      const OddTreatment treatment = { 0, 10.0 };
      g_autoptr(OddJob) bare = NULL;
      g_autoptr(OddProposal) proposal = NULL;
      g_autoptr(GPtrArray) findings = NULL;
      g_autoptr(GError) error = NULL;
      OddProposalOptions options;
      OddId panel_id;

      bare = odd_job_add_shape (job, "", shape, &treatment, &panel_id, &error);
      g_assert_no_error (error);
      odd_proposal_options_init (&options, bare, ODD_PIECE_SQUARES);
      options.templates[0] = (OddTemplate) { 50.0, 50.0 };
      options.into = ODD_INTO_BARE;
      options.panel_ids = &panel_id;
      options.n_panel_ids = 1;
      proposal = odd_propose (bare, &options, NULL, NULL, NULL, &error);
      g_assert_no_error (error);
      findings = odd_job_check (proposal->job, NULL);
      for (guint k = 0; k < findings->len; k++)
        g_assert_cmpint (((OddFinding *) findings->pdata[k])->kind, ==, ODD_FINDING_BARE);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/shape/by-hand", test_by_hand);
  g_test_add_func ("/shape/few-corners", test_few_corners);
  g_test_add_func ("/shape/refused", test_refused);
  g_test_add_func ("/shape/filled", test_filled);
  g_test_add_func ("/shape/tips", test_tips);
  g_test_add_func ("/shape/stays-loose", test_stays_loose);
  g_test_add_func ("/shape/squares-slanted", test_squares_slanted);

  return g_test_run ();
}
