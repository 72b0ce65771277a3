/* Cutting at the table: what remains of a scrap, what comes back of it, and the way back. Sizes are worked out by hand beside each check. */
#include "config.h"

#include "cloth/line-move.h"
#include "cloth/offcuts.h"
#include "trees.h"

#define NEAR 1e-4       /* mm2; areas of a few 10,000 mm2 on a grid of 1e-7 mm */

static OddPolygon *
rectangle (double x, double y, double width, double height)
{
  return odd_polygon_new_box ((OddBox) { x, y, width, height });
}

static OddId
put_scrap (OddJob **job, OddPolygon *outline, OddZone *zones, guint n_zones)
{
  OddScrap values;
  OddId id = 0;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.zones = zones;
  values.n_zones = n_zones;
  values.washed = TRUE;
  values.place = (char *) "bag 2";
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  return id;
}

/* Two squares of 100 mm finished, allowance 10: cut 120 x 120 each. */
static OddLayout *
two_squares (OddJob **job)
{
  OddId panel_id = 0;

  take (job, add_squares (*job, 0, 2, 1, 100, &panel_id));
  set_allowance (job, ODD_LEVEL_JOB, 0, 10, FALSE);
  return odd_job_dup_layout (*job, panel_id);
}

/* Lays the scrap so that the patch's cut shape begins at @x, @y of the scrap. */
static void
place (OddJob **job, const OddLayout *layout, guint patch, OddId scrap, double x, double y)
{
  const OddBox cut = odd_convex_box (layout->patches[patch].cut);
  const OddPlacement at = { 0, FALSE, { cut.x - x, cut.y - y } };

  take (job, odd_job_place_scrap (*job, layout->patches[patch].leaf->id, scrap, &at, NULL));
}

static OddScrap *
only_offcut (OddJob *job, OddId scrap)
{
  g_autoptr(GPtrArray) offcuts = odd_job_dup_offcuts (job, scrap);

  g_assert_cmpuint (offcuts->len, ==, 1);
  return offcuts->pdata[0];
}

static double
area_of (GPtrArray *polygons)
{
  double area = 0.0;

  for (guint i = 0; i < polygons->len; i++)
    area += odd_polygon_get_area (polygons->pdata[i]);
  return area;
}

static void
test_last_patch (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 300, 120);
  const OddId scrap = put_scrap (&job, outline, NULL, 0);
  g_autoptr(GPtrArray) planned = NULL;
  g_autoptr(GPtrArray) after = NULL;
  OddScrap *offcut;

  g_test_summary ("300 x 120 with two patches cut 120 x 120: 60 x 120 remains, and becomes a scrap with the second mark, not the first");
  place (&job, layout, 0, scrap, 0, 0);
  place (&job, layout, 1, scrap, 120, 0);
  planned = odd_scrap_remains (job, scrap);
  g_assert_cmpuint (planned->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (area_of (planned), 60.0 * 120, NEAR);

  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  g_assert_cmpuint (job->scraps->len, ==, 1);
  take (&job, odd_job_set_cut (job, layout->patches[1].leaf->id, ODD_STATE_DONE, NULL));
  g_assert_cmpuint (job->scraps->len, ==, 2);
  offcut = only_offcut (job, scrap);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (offcut->outline), 60.0 * 120, NEAR);
  g_assert_cmpuint (offcut->number, ==, 2);
  g_assert_cmpstr (offcut->place, ==, "bag 2");
  g_assert_true (offcut->washed);
  g_assert_cmpint (odd_job_get_scrap_state (job, offcut->id), ==, ODD_SCRAP_FREE);
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap), ==, ODD_SCRAP_PLACED);
  after = odd_scrap_remains (job, scrap);
  g_assert_cmpuint (after->len, ==, 0);
  g_assert_cmpfloat_with_epsilon (odd_job_get_waste_mm2 (job, scrap), 0, NEAR);
}

static void
test_waste (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 165, 180);
  const OddId scrap = put_scrap (&job, outline, NULL, 0);
  g_autoptr(OddJob) before = NULL;
  g_autofree char *told = NULL;

  g_test_summary ("165 x 180 less 120 x 120 in its corner: an L whose foot is 60 high holds the square; with the patch at 45, 30 nothing does: waste");
  place (&job, layout, 0, scrap, 45, 30);
  before = odd_job_ref (job);
  take (&job, odd_job_cut_scrap (job, scrap, NULL));
  g_assert_cmpuint (job->scraps->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_job_get_waste_mm2 (job, scrap), 165.0 * 180 - 14400, NEAR);
  told = odd_job_dup_cut_text (before, job, scrap, ODD_UNIT_CM);
  g_assert_cmpstr (told, ==, "Cut. No offcut came back; 153 cm² are waste");

  take (&job, odd_job_uncut_scrap (job, scrap, NULL));
  take (&job, odd_job_make_bare (job, layout->patches[0].leaf->id, NULL));
  place (&job, layout, 0, scrap, 0, 0);
  take (&job, odd_job_cut_scrap (job, scrap, NULL));
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (only_offcut (job, scrap)->outline), 165.0 * 180 - 14400, NEAR);
}

static void
test_slit (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 400, 300);
  const OddId scrap = put_scrap (&job, outline, NULL, 0);
  OddScrap *offcut;

  g_test_summary ("A patch out of the middle of 400 x 300, nearest to the lower edge: the rest is slit there, 60 mm long, and is one simple outline");
  place (&job, layout, 0, scrap, 150, 120);
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  offcut = only_offcut (job, scrap);
  g_assert_cmpuint (odd_polygon_get_n_holes (offcut->outline), ==, 0);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (offcut->outline), 400.0 * 300 - 14400 - 60 * 0.02, 1e-3);
  g_assert_false (odd_polygon_contains_point (offcut->outline, odd_point (150, 270)) && odd_polygon_contains_point (offcut->outline, odd_point (270, 270)));
}

static void
test_zones (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 300, 120);
  g_autoptr(OddPolygon) hole = rectangle (200, 40, 40, 40);
  g_autoptr(OddPolygon) stain = rectangle (100, 0, 40, 10);
  OddZone zones[] = { { ODD_ZONE_HOLE, hole, FALSE }, { ODD_ZONE_STAIN, stain, TRUE } };
  const OddId scrap = put_scrap (&job, outline, zones, 2);
  OddScrap *offcut;

  g_test_summary ("300 x 120 less 120 x 120: the offcut of 180 x 120 keeps the hole whole and the half of the stain that lies in it");
  place (&job, layout, 0, scrap, 0, 0);
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  offcut = only_offcut (job, scrap);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (offcut->outline), 180.0 * 120, NEAR);
  g_assert_cmpuint (offcut->n_zones, ==, 2);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (offcut->zones[0].outline), 1600, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (offcut->zones[1].outline), 20.0 * 10, NEAR);
  g_assert_true (offcut->zones[1].allowance_only);
}

static void
test_unwashed (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 400, 200);
  OddFabric fabric_values;
  OddScrap values;
  OddId fabric = 0, scrap = 0;
  OddScrap *offcut;
  g_autoptr(OddPolygon) sewn = NULL;

  g_test_summary ("5 % along y, 10 % across: 400 x 200 will be 360 x 190; the offcut is what is left of that, and lies there larger until it is washed");
  odd_fabric_init_values (&fabric_values);
  fabric_values.name = (char *) "raw calico";
  fabric_values.shrink_along = 0.05;
  fabric_values.shrink_across = 0.10;
  take (&job, odd_job_put_fabric (job, &fabric_values, &fabric, NULL));
  odd_scrap_init_values (&values);
  values.outline = outline;
  values.fabric_id = fabric;
  take (&job, odd_job_put_scrap (job, &values, &scrap, NULL));
  place (&job, layout, 0, scrap, 0, 0);
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  offcut = only_offcut (job, scrap);
  sewn = odd_scrap_dup_outline (offcut, odd_job_get_fabric (job, fabric));
  g_assert_false (offcut->washed);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (sewn), 360.0 * 190 - 14400, 1e-3);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (offcut->outline), (360.0 * 190 - 14400) / (0.95 * 0.9), 1e-3);
  g_assert_cmpfloat_with_epsilon (odd_scrap_get_box (offcut).height, 200, 1e-6);
}

static void
test_way_back (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 300, 120);
  const OddId scrap = put_scrap (&job, outline, NULL, 0);
  g_autoptr(GError) error = NULL;
  OddId offcut;

  g_test_summary ("The mark comes off while no offcut is used: then they vanish; else it is refused and names the offcut");
  place (&job, layout, 0, scrap, 0, 0);
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  offcut = only_offcut (job, scrap)->id;
  g_assert_null (odd_job_place_scrap (job, layout->patches[1].leaf->id, scrap, &ODD_PLACEMENT_IDENTITY, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);

  place (&job, layout, 1, offcut, 120, 0);
  g_assert_null (odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_OPEN, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "Scrap 2 is an offcut of scrap 1"));

  take (&job, odd_job_make_bare (job, layout->patches[1].leaf->id, NULL));
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_OPEN, NULL));
  g_assert_cmpuint (job->scraps->len, ==, 1);
  g_assert_false (odd_job_get_scrap (job, scrap)->cut_out);
  g_assert_cmpuint (job->next_id, >, offcut); /* ids are never used twice */
}

static void
test_whole_scrap (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 300, 120);
  const OddId scrap = put_scrap (&job, outline, NULL, 0);
  g_autoptr(GError) error = NULL;
  guint n = 0;
  const OddUse *uses;

  g_test_summary ("Cut out as a whole: all patches are marked; refused with nothing planned, and twice");
  g_assert_null (odd_job_cut_scrap (job, scrap, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  place (&job, layout, 0, scrap, 0, 0);
  place (&job, layout, 1, scrap, 120, 0);
  take (&job, odd_job_cut_scrap (job, scrap, NULL));
  uses = odd_job_get_uses (job, scrap, &n);
  g_assert_cmpuint (n, ==, 2);
  g_assert_true (uses[0].leaf->cut == ODD_STATE_DONE && uses[1].leaf->cut == ODD_STATE_DONE);
  g_assert_null (odd_job_cut_scrap (job, scrap, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  take (&job, odd_job_uncut_scrap (job, scrap, NULL));
  uses = odd_job_get_uses (job, scrap, &n);
  g_assert_true (uses[0].leaf->cut == ODD_STATE_OPEN && uses[1].leaf->cut == ODD_STATE_OPEN);
}

static void
test_recut (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddJob) smaller = NULL;
  g_autoptr(OddJob) larger = NULL;
  g_autoptr(OddJob) next = NULL;
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 220, 220);
  g_autoptr(GError) error = NULL;
  OddId panel_id = 0, scrap, leaf;
  guint edge;

  g_test_summary ("A patch cut 220 x 220 whose lower edge moves up by 60: allowed, and the strip of 220 x 60 trimmed off is a scrap; moved down: refused");
  take (&job, odd_job_add_panel (job, 0, 0, NULL, 200, 200, &panel_id, NULL));
  set_allowance (&job, ODD_LEVEL_JOB, 0, 10, FALSE);
  layout = odd_job_dup_layout (job, panel_id);
  leaf = layout->patches[0].leaf->id;
  scrap = put_scrap (&job, outline, NULL, 0);
  place (&job, layout, 0, scrap, 0, 0);
  take (&job, odd_job_set_cut (job, leaf, ODD_STATE_DONE, NULL));
  g_assert_cmpuint (job->scraps->len, ==, 1);
  edge = odd_panel_side_edge (odd_job_get_panel (job, panel_id, NULL, NULL), 2);

  smaller = odd_job_move_edge (job, panel_id, edge, -60, NULL);
  next = odd_job_recut (job, smaller, panel_id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (next->scraps->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (only_offcut (next, scrap)->outline), 220.0 * 60, NEAR);

  larger = odd_job_move_edge (job, panel_id, edge, 5, NULL);
  g_assert_null (odd_job_recut (job, larger, panel_id, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_recut_by_seam (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddLayout) layout = two_squares (&job);
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 120, 120);
  const OddId scrap = put_scrap (&job, outline, NULL, 0);
  const OddId seam = layout->seams[0].seam->id;
  g_autoptr(OddJob) moved = NULL;
  g_autoptr(OddJob) back = NULL;
  g_autoptr(GError) error = NULL;

  g_test_summary ("The seam of a patch cut 120 x 120 moves 60 into it: 60 x 120 comes back as a scrap; 5 the other way: refused; 0.5 in: nothing comes back");
  place (&job, layout, 0, scrap, 0, 0);
  take (&job, odd_job_set_cut (job, layout->patches[0].leaf->id, ODD_STATE_DONE, NULL));
  g_assert_cmpuint (job->scraps->len, ==, 1);

  moved = odd_job_shift_seam (job, seam, -60, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (moved->scraps->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (only_offcut (moved, scrap)->outline), 60.0 * 120, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_job_get_waste_mm2 (moved, scrap), 0, NEAR);

  back = odd_job_shift_seam (job, seam, -0.5, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (back->scraps->len, ==, 1);
  g_assert_null (odd_job_shift_seam (job, seam, 5, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

/* Three squares, each cut 120 x 120, on a scrap of 400 x 120: at 0, in the middle, and at 280. */
static OddJob *
three_in_a_row (gboolean    last_too,
                OddId      *out_scrap,
                OddLayout **out_layout)
{
  OddJob *job = odd_job_new ();
  g_autoptr(OddPolygon) outline = rectangle (0, 0, 400, 120);
  OddId panel_id = 0;

  take (&job, add_squares (job, 0, 3, 1, 100, &panel_id));
  set_allowance (&job, ODD_LEVEL_JOB, 0, 10, FALSE);
  *out_layout = odd_job_dup_layout (job, panel_id);
  *out_scrap = put_scrap (&job, outline, NULL, 0);
  place (&job, *out_layout, 0, *out_scrap, 0, 0);
  place (&job, *out_layout, 1, *out_scrap, 140, 0);
  if (last_too)
    place (&job, *out_layout, 2, *out_scrap, 280, 0);
  take (&job, odd_job_set_cut (job, (*out_layout)->patches[1].leaf->id, ODD_STATE_DONE, NULL));
  return job;
}

static void
test_release_in_the_middle (void)
{
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddLayout) full = NULL;
  OddId scrap = 0, piece = 0;
  g_autoptr(OddJob) job = three_in_a_row (FALSE, &scrap, &layout);
  g_autoptr(OddJob) crowded = NULL;
  g_autoptr(GError) error = NULL;
  double area = 0.0;

  g_test_summary ("400 x 120 without its middle 120: 140 x 120 stay the scrap, as a patch is planned there, 140 x 120 become one; planned on both: refused");
  take (&job, odd_job_release_patch (job, layout->patches[1].leaf->id, &piece, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (job->scraps->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    area += odd_polygon_get_area (((OddScrap *) job->scraps->pdata[i])->outline);
  g_assert_cmpfloat_with_epsilon (area, 400.0 * 120, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (odd_job_get_scrap (job, piece)->outline), 14400, NEAR);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_box (odd_job_get_scrap (job, scrap)->outline).x, 0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_box (odd_job_get_scrap (job, scrap)->outline).width, 140, 1e-6);
  g_assert_cmpint (odd_job_get_scrap_state (job, scrap), ==, ODD_SCRAP_PLACED);

  crowded = three_in_a_row (TRUE, &scrap, &full);
  g_assert_null (odd_job_release_patch (crowded, full->patches[1].leaf->id, NULL, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

/* --- laws --- */

/* A ragged ring round the middle: simple by construction, as it is star-shaped. */
static OddPolygon *
random_outline (void)
{
  const guint n = g_test_rand_int_range (4, 14);
  g_autofree OddPoint *points = g_new (OddPoint, n);

  for (guint i = 0; i < n; i++)
    {
      const double angle = (i + g_test_rand_double_range (0.1, 0.9)) * 2.0 * G_PI / n;
      const double r = g_test_rand_double_range (120, 320);

      points[i] = odd_point (350 + r * cos (angle), 350 + r * sin (angle));
    }
  return odd_polygon_new (points, n, NULL);
}

static void
check_nothing_lost (OddJob *job, OddId id)
{
  OddScrap *scrap = odd_job_get_scrap (job, id);
  g_autoptr(GPtrArray) cuts = odd_scrap_dup_cut_shapes (job, id);
  g_autoptr(GPtrArray) offcuts = odd_job_dup_offcuts (job, id);
  g_autoptr(GPtrArray) covered = odd_polygon_union ((OddPolygon *const *) cuts->pdata, cuts->len);
  double in_scrap = 0.0;

  for (guint i = 0; i < covered->len; i++)
    in_scrap += odd_polygon_overlap_area (covered->pdata[i], scrap->outline);
  for (guint i = 0; i < offcuts->len; i++)
    {
      OddScrap *offcut = offcuts->pdata[i];

      in_scrap += odd_polygon_get_area (offcut->outline);
      g_assert_cmpfloat (odd_polygon_outside_area (scrap->outline, offcut->outline), <, 1e-3);
      g_assert_cmpuint (odd_polygon_get_n_holes (offcut->outline), ==, 0);
      for (guint k = 0; k < cuts->len; k++)
        g_assert_cmpfloat (odd_polygon_overlap_area (offcut->outline, cuts->pdata[k]), <, 1e-3);
      for (guint k = 0; k < i; k++)
        g_assert_cmpfloat (odd_polygon_overlap_area (offcut->outline, ((OddScrap *) offcuts->pdata[k])->outline), <, 1e-3);
    }
  g_assert_cmpfloat_with_epsilon (in_scrap + odd_job_get_waste_mm2 (job, id), odd_polygon_get_area (scrap->outline), 0.1);
}

static void
test_law_of_areas (void)
{
  g_test_summary ("Ragged scraps, two patches anywhere on each: the scrap is its cut shapes, offcuts and waste, and these are disjoint; taken back, all is as planned");
  for (guint i = 0; i < 100; i++)
    {
      g_autoptr(OddJob) job = odd_job_new ();
      g_autoptr(OddLayout) layout = two_squares (&job);
      g_autoptr(OddPolygon) outline = random_outline ();
      const OddId scrap = put_scrap (&job, outline, NULL, 0);
      g_autoptr(GPtrArray) before = NULL;
      g_autoptr(GPtrArray) back = NULL;

      place (&job, layout, 0, scrap, g_test_rand_double_range (100, 400), g_test_rand_double_range (100, 400));
      place (&job, layout, 1, scrap, g_test_rand_double_range (100, 400), g_test_rand_double_range (100, 400));
      before = odd_scrap_dup_cloth (job, odd_job_get_scrap (job, scrap));
      take (&job, odd_job_cut_scrap (job, scrap, NULL));
      check_nothing_lost (job, scrap);
      take (&job, odd_job_uncut_scrap (job, scrap, NULL));
      back = odd_scrap_dup_cloth (job, odd_job_get_scrap (job, scrap));
      g_assert_cmpuint (back->len, ==, before->len);
      g_assert_cmpfloat (area_of (back), ==, area_of (before));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cutting/last-patch", test_last_patch);
  g_test_add_func ("/cutting/waste", test_waste);
  g_test_add_func ("/cutting/slit", test_slit);
  g_test_add_func ("/cutting/zones", test_zones);
  g_test_add_func ("/cutting/unwashed", test_unwashed);
  g_test_add_func ("/cutting/way-back", test_way_back);
  g_test_add_func ("/cutting/whole-scrap", test_whole_scrap);
  g_test_add_func ("/cutting/recut", test_recut);
  g_test_add_func ("/cutting/recut-by-seam", test_recut_by_seam);
  g_test_add_func ("/cutting/release-in-the-middle", test_release_in_the_middle);
  g_test_add_func ("/cutting/law-of-areas", test_law_of_areas);
  return g_test_run ();
}
