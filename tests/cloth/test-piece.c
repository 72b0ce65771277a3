/* Pieced scraps. Sizes are worked by hand: 2 x 2 squares of 100 mm, all allowances 12.7 mm, are 225.4 mm raw. */
#include "config.h"

#include "pieces.h"

#include "cloth/document.h"

#define RAW_MM 225.4

/* @error: what the edit that gave @job left; a place, for it is set while the arguments are worked out */
static void
assert_refused (OddJob *job, GError **place, const char *said)
{
  GError *error = *place;

  g_assert_null (job);
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  if (strstr (error->message, said) == NULL)
    g_error ("“%s” does not say “%s”", error->message, said);
}

static void
test_to_scrap (void)
{
  OddId panel_id = 0, scrap_id = 0;
  g_autoptr(OddJob) before = piece_job (2, 2, &panel_id);
  g_autoptr(OddJob) job = odd_job_panel_to_scrap (before, panel_id, &scrap_id, NULL);
  g_autoptr(GPtrArray) findings = NULL;
  OddScrap *scrap;
  guint n = 0;

  g_assert_nonnull (job);
  scrap = odd_job_get_scrap (job, scrap_id);
  g_assert_cmpuint (job->loose_panels->len, ==, 0);
  g_assert_cmpuint (scrap->piece->id, ==, panel_id);
  g_assert_cmpuint (scrap->number, ==, 5);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (scrap->outline), RAW_MM * RAW_MM, 1e-6);
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap_id), ==, ODD_SCRAP_FREE);
  for (guint i = 0; i < 4; i++)
    {
      OddScrap *inner = job->scraps->pdata[i];
      const OddUse *uses = odd_job_get_uses (job, inner->id, &n);
      g_autofree char *name = NULL;

      g_assert_cmpuint (n, ==, 1);
      name = odd_job_dup_panel_name (job, uses[0].panel);
      g_assert_cmpstr (name, ==, "Piece 5");
      g_assert_cmpint (odd_job_get_scrap_state (job, inner->id), ==, ODD_SCRAP_SEWN);
      g_assert_null (odd_job_remove_scrap (job, inner->id, NULL));
    }
  findings = odd_job_check (job, NULL);
  g_assert_cmpuint (findings->len, ==, 0);
  /* the job before is untouched: undo is that job */
  g_assert_cmpuint (before->loose_panels->len, ==, 1);
  g_assert_cmpuint (before->scraps->len, ==, 4);
}

static void
test_refused (void)
{
  OddId panel_id = 0, one_id = 0, scrap_id = 0;
  g_autoptr(OddJob) job = piece_job (2, 2, &panel_id);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel_id);
  g_autoptr(OddJob) unsewn = odd_job_set_progress (job, layout->seams[0].seam->id, NULL, NULL);
  g_autoptr(OddJob) bare = odd_job_make_bare (unsewn, layout->patches[0].leaf->id, NULL);
  g_autoptr(OddJob) hung = odd_job_move_panel (job, panel_id, first_textile (job)->id, 0, NULL);
  g_autoptr(OddJob) one = odd_job_add_panel (job, 0, 0, "One", 100, 100, &one_id, NULL);
  g_autoptr(OddJob) locked = odd_job_set_lock (job, panel_id, TRUE, NULL);

  assert_refused (odd_job_panel_to_scrap (unsewn, panel_id, &scrap_id, &error), &error, "1 seam of Panel 1 is not sewn");
  g_clear_error (&error);
  assert_refused (odd_job_panel_to_scrap (hung, panel_id, &scrap_id, &error), &error, "Take it out");
  g_clear_error (&error);
  assert_refused (odd_job_panel_to_scrap (one, one_id, &scrap_id, &error), &error, "one patch only");
  g_clear_error (&error);
  assert_refused (odd_job_panel_to_scrap (locked, panel_id, &scrap_id, &error), &error, "locked");
  if (bare != NULL)
    {
      g_clear_error (&error);
      assert_refused (odd_job_panel_to_scrap (bare, panel_id, &scrap_id, &error), &error, "bare");
    }
  g_assert_cmpuint (scrap_id, ==, 0);
}

static void
test_back_to_panel (void)
{
  OddId scrap_id = 0, panel_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  OddPanel *piece = odd_job_get_scrap (job, scrap_id)->piece;
  g_autoptr(OddJob) back = odd_job_scrap_to_panel (job, scrap_id, &panel_id, NULL);

  g_assert_nonnull (back);
  g_assert_true (odd_job_get_panel (back, panel_id, NULL, NULL) == piece);
  g_assert_null (odd_job_get_scrap (back, scrap_id));
  g_assert_cmpuint (back->next_id, ==, job->next_id);
}

static void
test_pinned (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  g_autoptr(OddLayout) was = odd_job_dup_piece_layout (job, odd_job_get_scrap (job, scrap_id));
  g_autoptr(OddLayout) is = NULL;

  g_test_summary ("The job's allowance has no say in cloth that is sewn already");
  set_allowance (&job, ODD_LEVEL_JOB, 0, 20.0, TRUE);
  is = odd_job_dup_piece_layout (job, odd_job_get_scrap (job, scrap_id));
  g_assert_true (odd_convex_equal (was->raw, is->raw, 1e-9));
  for (guint i = 0; i < is->n_patches; i++)
    g_assert_true (odd_convex_equal (was->patches[i].cut, is->patches[i].cut, 1e-9));
}

/* A loose panel of one bare square that the pieced scrap fills. */
static OddId
place_piece (OddJob **job, OddId scrap_id, double mm, double turn_deg, OddId *out_panel_id)
{
  const OddPlacement at = { turn_deg, FALSE, { 0.0, 0.0 } };
  g_autoptr(GError) error = NULL;
  OddId leaf_id;

  take (job, odd_job_add_panel (*job, 0, 0, "Holder", mm, mm, out_panel_id, NULL));
  leaf_id = odd_job_get_panel (*job, *out_panel_id, NULL, NULL)->root->id;
  take (job, odd_job_place_scrap (*job, leaf_id, scrap_id, &at, &error));
  g_assert_no_error (error);
  return leaf_id;
}

static void
test_placed (void)
{
  OddId scrap_id = 0, holder_id = 0, fabric_id;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  const OddId leaf_id = place_piece (&job, scrap_id, 200.0, 0.0, &holder_id);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, holder_id);
  g_autoptr(OddLayout) again = NULL, other = NULL;
  g_autoptr(GPtrArray) findings = odd_job_check (job, NULL);
  g_autoptr(GError) error = NULL;
  OddFabric values;

  g_assert_cmpint (odd_job_get_scrap_state (job, scrap_id), ==, ODD_SCRAP_PLACED);
  g_assert_cmpuint (odd_layout_find_patch (layout, leaf_id)->piece->n_patches, ==, 4);
  g_assert_true (odd_patch_fits (odd_layout_find_patch (layout, leaf_id)));
  g_assert_cmpuint (findings->len, ==, 0);
  assert_refused (odd_job_scrap_to_panel (job, scrap_id, NULL, &error), &error, "lies in Holder");
  g_clear_error (&error);
  assert_refused (odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 100 }, NULL, &error), &error, "lies in Holder");

  /* shown through: an inner fabric that changes makes another layout, one elsewhere does not */
  again = odd_job_dup_layout (job, holder_id);
  g_assert_true (again == layout);
  values = *(OddFabric *) job->fabrics->pdata[0];
  fabric_id = values.id;
  values.gsm = 130.0;
  take (&job, odd_job_put_fabric (job, &values, &fabric_id, NULL));
  other = odd_job_dup_layout (job, holder_id);
  g_assert_true (other != layout);
}

static void
test_cut (void)
{
  OddId scrap_id = 0, ids[2] = { 0, 0 };
  g_autoptr(OddJob) before = piece_scrap_job (2, 2, &scrap_id);
  g_autoptr(OddJob) job = odd_job_cut_piece (before, scrap_id, (OddHalfPlane) { { 0, 1 }, 150 }, ids, NULL);
  g_autoptr(OddLayout) upper = NULL, lower = NULL;
  OddScrap *first, *second;
  OddBox box;

  g_assert_nonnull (job);
  first = odd_job_get_scrap (job, ids[0]);
  second = odd_job_get_scrap (job, ids[1]);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (first->outline), RAW_MM * 162.7, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (second->outline), RAW_MM * 62.7, 1e-6);
  g_assert_cmpuint (first->parent_id, ==, scrap_id);
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap_id), ==, ODD_SCRAP_GONE);
  g_assert_cmpint (odd_job_get_scrap_state (job, ((OddScrap *) job->scraps->pdata[0])->id), ==, ODD_SCRAP_SEWN);

  upper = odd_job_dup_piece_layout (job, first);
  lower = odd_job_dup_piece_layout (job, second);
  g_assert_cmpuint (upper->n_patches, ==, 4);
  g_assert_cmpuint (upper->n_seams, ==, 3);
  g_assert_cmpuint (upper->n_vanished, ==, 0);
  g_assert_cmpuint (lower->n_patches, ==, 2);
  g_assert_cmpuint (lower->n_seams, ==, 1);
  g_assert_cmpuint (lower->n_vanished, ==, 0);
  /* cut to size: the raw edge is the line, so the raw outline is the scrap's */
  box = upper->raw_box;
  g_assert_cmpfloat_with_epsilon (box.height, 162.7, 1e-9);
  g_assert_cmpfloat_with_epsilon (lower->raw_box.height, 62.7, 1e-9);
  /* both in the frame of the whole */
  g_assert_cmpfloat_with_epsilon (second->piece_at.shift.y, 150.0, 1e-9);
  box = odd_scrap_get_box (second);
  g_assert_cmpfloat_with_epsilon (box.y, 150.0, 1e-9);
}

static guint
count_cut_ends (const OddLayout *layout)
{
  guint n = 0;

  for (guint i = 0; i < layout->n_seams; i++)
    for (guint k = 0; k < 2; k++)
      n += layout->seams[i].ends[k].kind == ODD_END_CUT;
  return n;
}

static void
test_cut_ends (void)
{
  OddId scrap_id = 0, ids[2] = { 0, 0 };
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  g_autoptr(OddLayout) upper = NULL, lower = NULL, secured = NULL;
  OddId seam_id;
  guint end = 0;

  g_test_summary ("Only the seam between the lower squares is crossed at 150 mm; the upper one ends on the row's seam");
  take (&job, odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 150 }, ids, NULL));
  upper = odd_job_dup_piece_layout (job, odd_job_get_scrap (job, ids[0]));
  lower = odd_job_dup_piece_layout (job, odd_job_get_scrap (job, ids[1]));
  g_assert_cmpuint (count_cut_ends (upper), ==, 1);
  g_assert_cmpuint (count_cut_ends (lower), ==, 1);
  for (guint k = 0; k < 2; k++)
    if (lower->seams[0].ends[k].kind == ODD_END_CUT)
      {
        const OddPoint at = k == 0 ? lower->seams[0].finished.from : lower->seams[0].finished.to;

        g_assert_cmpfloat_with_epsilon (at.x, 100.0, 1e-9);
        g_assert_cmpfloat_with_epsilon (at.y, 0.0, 1e-9);
        end = k;
      }
  seam_id = lower->seams[0].seam->id;
  take (&job, odd_job_set_piece_end_secured (job, ids[1], seam_id, end, TRUE, NULL));
  secured = odd_job_dup_piece_layout (job, odd_job_get_scrap (job, ids[1]));
  g_assert_cmpuint (count_cut_ends (secured), ==, 0);
}

static void
test_cut_refused (void)
{
  OddId scrap_id = 0, ids[2] = { 0, 0 };
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  g_autoptr(GError) error = NULL;

  assert_refused (odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 500 }, ids, &error), &error, "misses");
  g_clear_error (&error);
  assert_refused (odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 205 }, ids, &error), &error, "nothing but an allowance");
  g_clear_error (&error);
  assert_refused (odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 0, 1 }, 100.5 }, ids, &error), &error, "along a seam");
  g_clear_error (&error);
  assert_refused (odd_job_cut_piece (job, ((OddScrap *) job->scraps->pdata[0])->id, (OddHalfPlane) { { 0, 1 }, 100 }, ids, &error), &error, "plain cloth");
  g_assert_cmpuint (ids[0], ==, 0);
}

static void
test_cut_to_plain (void)
{
  OddId scrap_id = 0, ids[2] = { 0, 0 };
  g_autoptr(OddJob) job = piece_scrap_job (2, 1, &scrap_id);
  OddScrap *first;

  g_test_summary ("What is left of one patch only is a plain scrap of its cloth");
  take (&job, odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 1, 0 }, 60 }, ids, NULL));
  first = odd_job_get_scrap (job, ids[0]);
  g_assert_null (first->piece);
  g_assert_cmpuint (first->fabric_id, ==, ((OddFabric *) job->fabrics->pdata[0])->id);
  g_assert_cmpfloat (first->grain_deg, ==, 90.0);
  g_assert_nonnull (odd_job_get_scrap (job, ids[1])->piece);
}

static void
test_cloth (void)
{
  OddId scrap_id = 0;
  g_autoptr(OddJob) job = piece_scrap_job (3, 1, &scrap_id);
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  g_autoptr(GArray) shares = odd_job_dup_scrap_cloth (job, scrap);
  const double red = odd_fabric_get_lightness (job->fabrics->pdata[0]), blue = odd_fabric_get_lightness (job->fabrics->pdata[1]);
  g_autofree char *name = odd_job_dup_scrap_cloth_name (job, scrap);

  g_assert_cmpuint (shares->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (g_array_index (shares, OddClothShare, 0).area_mm2, 20000.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (g_array_index (shares, OddClothShare, 1).area_mm2, 10000.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_job_get_scrap_lightness (job, scrap), (2.0 * red + blue) / 3.0, 1e-9);
  g_assert_cmpstr (name, ==, "pieced, 2 fabrics");
  {
    OddId holder_id = 0;
    const OddId leaf_id = place_piece (&job, scrap_id, 80.0, 0.0, &holder_id);
    g_autoptr(OddLayout) layout = odd_job_dup_layout (job, holder_id);

    g_assert_cmpfloat_with_epsilon (odd_patch_get_lightness (odd_layout_find_patch (layout, leaf_id)), (2.0 * red + blue) / 3.0, 1e-9);
  }
}

/* --- laws --- */

static double
area_of_patches (OddJob *job, OddId scrap_id)
{
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);

  return layout != NULL ? areas_of_regions (layout) : NAN;
}

static void
check_distinct (OddNode *node, GHashTable *ids)
{
  g_assert_true (g_hash_table_add (ids, GUINT_TO_POINTER (node->id)));
  for (guint i = 0; i + 1 < node->n_parts; i++)
    g_assert_true (g_hash_table_add (ids, GUINT_TO_POINTER (node->seams[i].id)));
  for (guint i = 0; i < node->n_parts; i++)
    check_distinct (node->parts[i], ids);
}

/* Any line through a piece: halves make up the whole, every seam end on the line is cut, ids are new, and a reader takes the job. */
static void
test_cut_laws (void)
{
  g_autoptr(GRand) random = g_rand_new_with_seed (41);

  for (guint round = 0; round < 300; round++)
    {
      OddId scrap_id = 0, ids[2];
      g_autoptr(OddJob) before = piece_scrap_job (3, 2, &scrap_id);
      OddScrap *whole = odd_job_get_scrap (before, scrap_id);
      const double angle = g_rand_double_range (random, 0, 2 * G_PI);
      const OddPoint normal = { cos (angle), sin (angle) };
      const OddPoint through = { g_rand_double_range (random, 20, 280), g_rand_double_range (random, 20, 180) };
      const OddHalfPlane line = { normal, odd_point_dot (normal, through) };
      g_autoptr(GError) error = NULL;
      g_autoptr(OddJob) job = odd_job_cut_piece (before, scrap_id, line, ids, &error);
      g_autoptr(OddJob) read = NULL;
      g_autoptr(GHashTable) seen = g_hash_table_new (NULL, NULL);
      double cloth = 0.0;

      g_assert_no_error (error);
      check_distinct (whole->piece->root, seen);
      for (guint half = 0; half < 2; half++)
        {
          OddScrap *scrap = odd_job_get_scrap (job, ids[half]);
          const OddHalfPlane keep = half == 0 ? line : odd_half_plane_flip (line);
          g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);

          cloth += odd_polygon_get_area (scrap->outline);
          if (layout == NULL)
            continue;
          g_assert_cmpfloat_with_epsilon (areas_of_regions (layout), odd_convex_area (layout->outline), 1e-6);
          g_assert_cmpuint (layout->n_vanished, ==, 0);
          check_distinct (scrap->piece->root, seen);
          for (guint i = 0; i < layout->n_seams; i++)
            for (guint k = 0; k < 2; k++)
              {
                const OddPoint end = k == 0 ? layout->seams[i].finished.from : layout->seams[i].finished.to;
                const gboolean on_line = fabs (odd_half_plane_distance (keep, odd_placement_apply (&scrap->piece_at, end))) < 1e-6;

                g_assert_cmpint (layout->seams[i].ends[k].kind == ODD_END_CUT, ==, on_line);
              }
        }
      g_assert_cmpfloat_with_epsilon (cloth, odd_polygon_get_area (whole->outline), 1e-6);
      if (odd_job_get_scrap (job, ids[0])->piece != NULL && odd_job_get_scrap (job, ids[1])->piece != NULL)
        g_assert_cmpfloat_with_epsilon (area_of_patches (job, ids[0]) + area_of_patches (job, ids[1]), area_of_patches (job, scrap_id), 1e-6);
      read = odd_job_new_take (job, &error);
      g_assert_no_error (error);
    }
}

static void
test_nested (void)
{
  OddId scrap_id = 0, holder_id = 0, outer_id = 0, fabric;
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  OddId fabrics[2];
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(GArray) shares = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("A piece within a piece, and its cloth looked at through both");
  fabric = piece_add_fabric (&job, "green", 0x228833);
  fabrics[0] = fabrics[1] = fabric;
  take (&job, add_squares (job, 0, 2, 1, SQUARE_MM, &holder_id));
  layout = odd_job_dup_layout (job, holder_id);
  take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, scrap_id, &ODD_PLACEMENT_IDENTITY, NULL));
  {
    const OddId plain = piece_add_scrap (&job, fabrics[0]);
    const OddPlacement at = { 0.0, FALSE, { 80.0, -20.0 } };

    take (&job, odd_job_place_scrap (job, layout->patches[1].leaf->id, plain, &at, NULL));
  }
  piece_sew (&job, holder_id);
  take (&job, odd_job_panel_to_scrap (job, holder_id, &outer_id, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (odd_job_get_piece_depth (job, odd_job_get_scrap (job, outer_id)), ==, 2);
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap_id), ==, ODD_SCRAP_SEWN);
  shares = odd_job_dup_scrap_cloth (job, odd_job_get_scrap (job, outer_id));
  g_assert_cmpuint (shares->len, ==, 3);
  /* half of 100 x 100 red, half blue, 100 x 100 green */
  g_assert_cmpfloat_with_epsilon (g_array_index (shares, OddClothShare, 0).area_mm2, 5000.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (g_array_index (shares, OddClothShare, 2).area_mm2, 10000.0, 1e-6);
}

static void
test_gone (void)
{
  OddId scrap_id = 0, ids[2];
  g_autoptr(OddJob) job = piece_scrap_job (2, 2, &scrap_id);
  const OddId inner = ((OddScrap *) job->scraps->pdata[0])->id;
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_job_remove_scrap (job, scrap_id, &error));
  g_assert_nonnull (strstr (error->message, "mark it gone"));
  g_clear_error (&error);
  take (&job, odd_job_set_scrap_gone (job, scrap_id, TRUE, NULL));
  g_assert_cmpint (odd_job_get_scrap_state (job, inner), ==, ODD_SCRAP_GONE);
  take (&job, odd_job_set_scrap_gone (job, scrap_id, FALSE, NULL));
  g_assert_cmpint (odd_job_get_scrap_state (job, inner), ==, ODD_SCRAP_SEWN);
  take (&job, odd_job_cut_piece (job, scrap_id, (OddHalfPlane) { { 1, 0 }, 50 }, ids, NULL));
  assert_refused (odd_job_set_scrap_gone (job, scrap_id, FALSE, &error), &error, "was cut");
}

/* Undo takes a piece and its ids back. */
static void
test_undo (void)
{
  OddId panel_id = 0, scrap_id = 0;
  g_autoptr(OddJob) before = piece_job (2, 2, &panel_id);
  g_autoptr(OddDocument) document = odd_document_new (before);

  odd_document_apply (document, odd_job_panel_to_scrap (before, panel_id, &scrap_id, NULL), "Put among the scraps");
  odd_document_apply (document, odd_job_cut_piece (odd_document_get_job (document), scrap_id, (OddHalfPlane) { { 1, 0 }, 50 }, NULL, NULL), "Cut across");
  g_assert_true (odd_document_undo (document));
  g_assert_true (odd_document_undo (document));
  g_assert_true (odd_document_get_job (document) == before);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/piece/to-scrap", test_to_scrap);
  g_test_add_func ("/piece/refused", test_refused);
  g_test_add_func ("/piece/back-to-panel", test_back_to_panel);
  g_test_add_func ("/piece/pinned", test_pinned);
  g_test_add_func ("/piece/placed", test_placed);
  g_test_add_func ("/piece/cut", test_cut);
  g_test_add_func ("/piece/cut-ends", test_cut_ends);
  g_test_add_func ("/piece/cut-refused", test_cut_refused);
  g_test_add_func ("/piece/cut-to-plain", test_cut_to_plain);
  g_test_add_func ("/piece/cloth", test_cloth);
  g_test_add_func ("/piece/cut-laws", test_cut_laws);
  g_test_add_func ("/piece/nested", test_nested);
  g_test_add_func ("/piece/gone", test_gone);
  g_test_add_func ("/piece/undo", test_undo);
  return g_test_run ();
}
