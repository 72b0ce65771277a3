/* Worked examples, through the report as programs read it. */
#include "config.h"

#include <json-glib/json-glib.h>
#include "cloth/measured.h"
#include "cloth/trees.h"
#include "commands/report-json.h"

/* Half an inch, and the French seam of 3/8 + 1/4 in = 5/8 in: Oklahoma Cooperative Extension, 4-H Construction Card No. 810. Squares of
 * 120 mm sewn at 12.7 mm: common practice, no source. */
#define FRENCH_MM 15.875
#define PITCH_MM 94.6

static JsonNode *
read_report (OddJob *job)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) text = odd_report_json (job, &error);
  JsonNode *node;

  g_assert_no_error (error);
  node = json_from_string (g_bytes_get_data (text, NULL), &error);
  g_assert_no_error (error);
  return node;
}

static JsonObject *
get_textile (JsonNode *report)
{
  return json_array_get_object_element (json_object_get_array_member (json_node_get_object (report), "textiles"), 0);
}

static JsonObject *
get_panel (JsonNode *report, guint i)
{
  return json_array_get_object_element (json_object_get_array_member (get_textile (report), "panels"), i);
}

static void
assert_pair (JsonObject *object, const char *member, double x, double y)
{
  JsonArray *pair = json_object_get_array_member (object, member);

  g_assert_cmpfloat_with_epsilon (json_array_get_double_element (pair, 0), x, 1e-6);
  g_assert_cmpfloat_with_epsilon (json_array_get_double_element (pair, 1), y, 1e-6);
}

static void
test_three_squares (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(JsonNode) report = NULL;

  g_test_summary ("Three squares of 120 mm at 12.7: three in a row are 309.2 raw, eleven rows 1066.0");
  take (&job, add_squares (job, first_textile (job)->id, 3, 11, PITCH_MM, NULL));
  report = read_report (job);
  assert_pair (get_textile (report), "raw_mm", 309.2, 1066.0);
  assert_pair (get_panel (report, 0), "finished_mm", 283.8, 1040.6);
  odd_job_unref (job);
}

static void
test_french_join (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(JsonNode) report = NULL;
  OddTreatment french = { 0, NAN };

  g_test_summary ("Two panels of 3 x 3 squares, joined by a French seam: 280.625 each, 561.25 finished, 586.65 raw");
  take (&job, add_squares (job, first_textile (job)->id, 3, 3, PITCH_MM, NULL));
  take (&job, add_squares (job, first_textile (job)->id, 3, 3, PITCH_MM, NULL));
  french.finish_id = odd_job_get_finish_by_key (job, "french")->id;
  take (&job, odd_job_set_treatment (job, ODD_LEVEL_SEAM, first_textile (job)->joins[0].id, 0, &french, TRUE, NULL));
  report = read_report (job);
  assert_pair (get_textile (report), "finished_mm", 561.25, 283.8);
  assert_pair (get_textile (report), "raw_mm", 586.65, 309.2);
  for (guint i = 0; i < 2; i++)
    {
      assert_pair (get_panel (report, i), "finished_mm", 280.625, 283.8);
      assert_pair (get_panel (report, i), "alone_mm", 283.8, 283.8);
      assert_pair (get_panel (report, i), "planned_raw_mm", 309.2, 309.2);
    }
  assert_pair (get_panel (report, 1), "at_mm", 280.625, 0.0);
  odd_job_unref (job);
}

static void
test_keep_the_cut (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(JsonNode) report = NULL;
  const OddTreatment edges = { 0, 12.7 };
  OddId panel_id = 0;

  g_test_summary ("All inner seams from 12.7 to 15.875, the cut kept: pitch 88.25, finished 271.1, raw 296.5");
  take (&job, add_squares (job, first_textile (job)->id, 3, 3, PITCH_MM, &panel_id));
  for (guint edge = 0; edge < 4; edge++)
    take (&job, odd_job_set_treatment (job, ODD_LEVEL_EDGE, panel_id, edge, &edges, TRUE, NULL));
  set_allowance (&job, ODD_LEVEL_PANEL, panel_id, FRENCH_MM, TRUE);
  report = read_report (job);
  assert_pair (get_panel (report, 0), "finished_mm", 271.1, 271.1);
  assert_pair (get_panel (report, 0), "raw_mm", 296.5, 296.5);
  odd_job_unref (job);
}

static void
test_missing (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(JsonNode) report = NULL;

  g_test_summary ("Missing and surplus are told apart, per direction, and never negative");
  take (&job, add_squares (job, first_textile (job)->id, 3, 3, PITCH_MM, NULL));
  take (&job, odd_job_set_target (job, first_textile (job)->id, 300.0, 250.0, NULL));
  report = read_report (job);
  assert_pair (get_textile (report), "missing_mm", 16.2, 0.0);
  assert_pair (get_textile (report), "surplus_mm", 0.0, 33.8);
  odd_job_unref (job);
}

static void
test_as_sewn (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(JsonNode) planned = NULL;
  g_autoptr(JsonNode) report = NULL;
  const OddState done = ODD_STATE_DONE;
  g_autoptr(OddProgress) progress = odd_progress_new (&done, NULL, 1);
  OddMeasure measure;
  OddId panel_id = 0;

  g_test_summary ("A column of three, 3 x 120 - 2 x 25.4 = 309.2 raw, measured 305.2: sewn 13.7 deep; plan and cloth are told apart");
  take (&job, add_squares (job, first_textile (job)->id, 1, 3, PITCH_MM, &panel_id));
  for (guint i = 0; i < 2; i++)
    take (&job, odd_job_set_progress (job, odd_job_get_panel (job, panel_id, NULL, NULL)->root->seams[i].id, progress, NULL));
  planned = read_report (job);
  g_assert_true (json_object_get_null_member (get_panel (planned, 0), "sewn_raw_mm"));
  odd_measure_init (&measure);
  measure.lengths_mm[1] = 305.2;
  take (&job, odd_job_measure (job, panel_id, &measure, FALSE, NULL));
  report = read_report (job);
  assert_pair (get_panel (report, 0), "planned_raw_mm", 120.0, 309.2);
  assert_pair (get_panel (report, 0), "sewn_raw_mm", 120.0, 305.2);
  assert_pair (get_panel (report, 0), "finished_mm", 94.6, 279.8);
  odd_job_unref (job);
}

static void
test_loose (void)
{
  OddJob *job = odd_job_new ();
  g_autoptr(JsonNode) report = NULL;
  JsonObject *panel;

  g_test_summary ("A panel that hangs nowhere stands under loose_panels, alone");
  take (&job, add_squares (job, 0, 2, 2, PITCH_MM, NULL));
  report = read_report (job);
  panel = json_array_get_object_element (json_object_get_array_member (json_node_get_object (report), "loose_panels"), 0);
  assert_pair (panel, "finished_mm", 189.2, 189.2);
  assert_pair (panel, "at_mm", 0.0, 0.0);
  assert_pair (get_textile (report), "finished_mm", 0.0, 0.0);
  g_assert_true (json_object_get_null_member (panel, "sewn_raw_mm"));
  odd_job_unref (job);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/three-squares", test_three_squares);
  g_test_add_func ("/report/french-join", test_french_join);
  g_test_add_func ("/report/keep-the-cut", test_keep_the_cut);
  g_test_add_func ("/report/missing", test_missing);
  g_test_add_func ("/report/loose", test_loose);
  g_test_add_func ("/report/as-sewn", test_as_sewn);
  return g_test_run ();
}
