/* Zones drawn on a scrap: clipped, refused where they make no sense, and what they spoil. */
#include "config.h"

#include "cloth/cutting.h"
#include "cloth/zones.h"
#include "trees.h"

#define NEAR 1e-4

static OddId
put_scrap (OddJob **job)
{
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, 200, 150 });
  OddScrap values;
  OddId id = 0;

  odd_scrap_init_values (&values);
  values.outline = outline;
  take (job, odd_job_put_scrap (*job, &values, &id, NULL));
  return id;
}

static OddJob *
add (OddJob *job, OddId scrap, gboolean allowance_only, OddBox box, GError **error)
{
  g_autoptr(OddPolygon) zone = odd_polygon_new_box (box);

  return odd_job_add_zone (job, scrap, ODD_ZONE_STAIN, allowance_only, zone, error);
}

static void
test_clipped (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId scrap = put_scrap (&job);
  OddScrap *value;

  g_test_summary ("A stain of 50 x 40 drawn over the corner of 200 x 150, 20 x 10 of it on the cloth: that is the zone");
  take (&job, add (job, scrap, FALSE, (OddBox) { 180, 140, 50, 40 }, NULL));
  value = odd_job_get_scrap (job, scrap);
  g_assert_cmpuint (value->n_zones, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (value->zones[0].outline), 20.0 * 10, NEAR);
  take (&job, odd_job_remove_zone (job, scrap, 0, NULL));
  g_assert_cmpuint (odd_job_get_scrap (job, scrap)->n_zones, ==, 0);
}

static void
test_refused (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId scrap = put_scrap (&job);
  g_autoptr(GError) error = NULL;

  g_test_summary ("Beside the scrap, over all of it, and over all that another zone left: refused");
  g_assert_null (add (job, scrap, FALSE, (OddBox) { 300, 0, 50, 50 }, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_null (add (job, scrap, TRUE, (OddBox) { -10, -10, 300, 300 }, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  g_clear_error (&error);
  take (&job, add (job, scrap, FALSE, (OddBox) { 0, 0, 100, 150 }, NULL));
  g_assert_null (add (job, scrap, FALSE, (OddBox) { 100, 0, 100, 150 }, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
}

static void
test_misfits (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  OddId panel_id = 0;
  const OddId scrap = put_scrap (&job);
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddJob) kept_out = NULL;
  g_autoptr(OddJob) within = NULL;
  const OddPlacement at = { 0, FALSE, { -12.7, -12.7 } };

  g_test_summary ("A patch of 100 x 100 with allowances of 12.7 mm: a stain in its allowance spoils it when kept out, not when allowed there; in the middle always");
  take (&job, add_squares (job, 0, 2, 1, 100, &panel_id));
  layout = odd_job_dup_layout (job, panel_id);
  take (&job, odd_job_place_scrap (job, layout->patches[0].leaf->id, scrap, &at, NULL));
  g_assert_cmpuint (odd_job_count_misfits (job, scrap), ==, 0);
  kept_out = add (job, scrap, FALSE, (OddBox) { 0, 0, 12, 150 }, NULL);
  g_assert_cmpuint (odd_job_count_misfits (kept_out, scrap), ==, 1);
  within = add (job, scrap, TRUE, (OddBox) { 0, 0, 12, 150 }, NULL);
  g_assert_cmpuint (odd_job_count_misfits (within, scrap), ==, 0);
  take (&within, add (within, scrap, TRUE, (OddBox) { 50, 50, 10, 10 }, NULL));
  g_assert_cmpuint (odd_job_count_misfits (within, scrap), ==, 1);
}

static void
test_found_late (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  const OddId scrap = put_scrap (&job);
  g_autoptr(GError) error = NULL;
  OddScrap *value;
  OddId panel_id = 0, leaf;

  g_test_summary ("The scrap is cut out, 120 x 120 of it a patch: a stain across the patch's edge counts on the patch alone; on the offcut it is refused");
  take (&job, add_squares (job, 0, 1, 1, 100, &panel_id));
  set_allowance (&job, ODD_LEVEL_JOB, 0, 10, FALSE);
  leaf = odd_job_get_panel (job, panel_id, NULL, NULL)->root->id;
  take (&job, odd_job_place_scrap (job, leaf, scrap, &(OddPlacement) { 0, FALSE, { -10, -10 } }, NULL));
  take (&job, odd_job_set_cut (job, leaf, ODD_STATE_DONE, NULL));
  g_assert_true (odd_job_get_scrap (job, scrap)->cut_out);
  g_assert_cmpuint (odd_job_count_misfits (job, scrap), ==, 0);

  g_assert_null (add (job, scrap, FALSE, (OddBox) { 130, 20, 30, 30 }, &error));
  g_assert_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED);
  take (&job, add (job, scrap, FALSE, (OddBox) { 100, 50, 40, 30 }, NULL));
  value = odd_job_get_scrap (job, scrap);
  g_assert_cmpuint (value->n_zones, ==, 1);
  g_assert_cmpfloat_with_epsilon (odd_polygon_get_area (value->zones[0].outline), 20.0 * 30, NEAR);
  g_assert_cmpuint (odd_job_count_misfits (job, scrap), ==, 1);
  take (&job, odd_job_remove_zone (job, scrap, 0, NULL));
  g_assert_cmpuint (odd_job_count_misfits (job, scrap), ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/zones/clipped", test_clipped);
  g_test_add_func ("/zones/refused", test_refused);
  g_test_add_func ("/zones/misfits", test_misfits);
  g_test_add_func ("/zones/found-late", test_found_late);
  return g_test_run ();
}
