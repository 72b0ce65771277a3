/* Each thing that a job file may get wrong: one place of the sample is spoilt, and the message must name file and place. */
#include "config.h"

#include <string.h>
#include "sample.h"
#include "store/job-reader.h"
#include "store/store-error.h"

typedef struct { const char *from, *to, *place, *said; } Case;

static void
check_message (const char *text, const char *place, const char *said)
{
  GPtrArray *warnings = (GPtrArray *) 1;
  g_autoptr(GError) error = NULL;

  if (odd_job_read_json (text, strlen (text), "tub.oddment", NULL, &warnings, &error))
    g_error ("read, though it should not be: %s", said);
  g_assert_true (warnings == (GPtrArray *) 1);       /* untouched */
  g_assert_cmpint (error->domain, ==, ODD_STORE_ERROR);
  if (!strstr (error->message, "“tub.oddment”") || !strstr (error->message, place) || !strstr (error->message, said))
    g_error ("“%s” does not name the file, “%s” and “%s”", error->message, place, said);
  g_assert_null (strchr (error->message, '\n'));
}

static void
check_cases (const Case *cases, guint n)
{
  g_autofree char *text = sample_text ();

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *bad = sample_with (text, cases[i].from, cases[i].to);

      check_message (bad, cases[i].place, cases[i].said);
    }
}

static void
test_head (void)
{
  const Case cases[] = {
    { "\"oddment-job\"", "\"other\"", "at format", "“other”" },
    { "\"format\": \"oddment-job\",", "", "at the top", "“format” is missing" },
    { "\"major\": 1", "\"major\": 2", "version 2.0", "newer Oddment" },
    { "\"major\": 1", "\"major\": \"1\"", "at version.major", "a number" },
    { "\"major\": 1,", "", "at version", "“major” is missing" },
    { "\"next_id\": 60", "\"next_id\": 59.5", "at next_id", "whole number" },
    { "\"next_id\": 60", "\"next_id\": 53", "textiles[0].joins[0].id", "not below next_id" },
    { "\"next_id\": 60", "\"next_id\": -1", "at next_id", "out of range" },
    { "\"next_id\": 60", "\"next_id\": 99999999999", "at next_id", "out of range" },
    { " \"finish\": 1,\n", "", "at the top", "“finish” is missing" },
    { " \"finish\": 1,\n", " \"finish\": 9,\n", "at finish", "no finish has the id 9" },
    { "\"allowance_mm\": 12.7,\n", "\"allowance_mm\": 1270,\n", "at allowance_mm", "out of range" },
    { "\"allowance_mm\": 12.7,\n", "\"allowance_mm\": 0,\n", "at allowance_mm", "out of range" },
    { "\"allowance_mm\": 12.7,\n", "\"allowance_mm\": 1e999,\n", "line 6, column 18", "too large" },
    { "\"min_side_mm\": 30", "\"min_side_mm\": null", "at settings.min_side_mm", "a number" },
  };

  check_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_values (void)
{
  const Case cases[] = {
    { "\"percent\": 60", "\"percent\": 50", "at fabrics[0]", "sum to 90" },
    { "\"name\": \"cotton\"", "\"name\": \"cloud\"", "at fabrics[0]", "“cloud”" },
    { "\"percent\": 60", "\"percent\": \"60\"", "at fabrics[0].fibres[0].percent", "a number" },
    { "\"gsm\": 142.5", "\"gsm\": -1", "at fabrics[0]", "-1" },
    { "\"make\": \"woven\"", "\"make\": \"felt\"", "at fabrics[0].make", "“felt”" },
    { "\"one_way\": true", "\"one_way\": 1", "at fabrics[0].one_way", "true or false" },
    { "\"#aa3322\"", "\"red\"", "at fabrics[0].print.colours[2]", "six hexadecimal digits" },
    { "\"repeat_mm\": 18", "\"repeat_mm\": 0", "at fabrics[0]", "repeats" },
    { "\"shrink_along\": 0.04", "\"shrink_along\": 0.5", "at fabrics[0]", "50" },
    { "\"lightness\": 61.2", "\"lightness\": 161.2", "at fabrics[0].lightness", "out of range" },
    { "\"name\": \"Plain\"", "\"name\": 5", "at fabrics[1].name", "text" },
    { "{\"id\": 4, \"name\"", "{\"id\": 3, \"name\"", "at fabrics[1].id", "used twice" },
    { "{\"id\": 4, \"name\"", "{\"id\": 1, \"name\"", "at fabrics[1].id", "used twice" },
    { "{\"id\": 4, \"name\"", "{\"name\"", "at fabrics[1]", "“id” is missing" },
    { "{\"id\": 4, \"name\"", "{\"id\": 0, \"name\"", "at fabrics[1].id", "out of range" },
    { "\"key\": \"pressed-open\"", "\"key\": \"overlocked\"", "", "overlocked" },
    { "\"allowance_mm\": 15.9", "\"allowance_mm\": 0", "at finishes[1].allowance_mm", "out of range" },
    { "\"plies\": [1, 1]", "\"plies\": [1]", "at finishes[1].plies", "two numbers" },
    { "\"kind\": \"neaten\"", "\"kind\": \"glue\"", "at finishes[0].operations[1].kind", "“glue”" },
  };

  check_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_scraps (void)
{
  const Case cases[] = {
    { "\"outline_mm\": [[0, 0], [260, 0.1], [255, 180.33333333333334], [3, 176]]", "\"outline_mm\": [[0, 0], [260, 0.1]]", "at scraps[0].outline_mm", "2 corners" },
    { "\"outline_mm\": [[0, 0], [260, 0.1], [255, 180.33333333333334], [3, 176]]", "\"outline_mm\": [[0, 0], [100, 100], [100, 0], [0, 100]]", "at scraps[0].outline_mm", "50" },
    { "\"outline_mm\": [[0, 0], [260, 0.1], [255, 180.33333333333334], [3, 176]]", "\"outline_mm\": [[0, 0], [100, 0], [200, 0]]", "at scraps[0].outline_mm", "" },
    { "\"outline_mm\": [[0, 0], [260, 0.1], [255, 180.33333333333334], [3, 176]],", "", "at scraps[0]", "“outline_mm” is missing" },
    { "[260, 0.1]", "[10000.5, 0.1]", "at scraps[0].outline_mm[1]", "10000" },
    { "[260, 0.1]", "[260]", "at scraps[0].outline_mm[1]", "[x, y]" },
    { "[260, 0.1]", "[260, \"0.1\"]", "at scraps[0].outline_mm[1]", "[x, y]" },
    { "[260, 0.1]", "[260, NaN]", "line 29", "a value is expected" },
    { "[[10, 10], [20, 10], [20, 18]]", "[[10, 10], [20, 10]]", "at scraps[0].zones[0].outline_mm", "2 corners" },
    { "\"kind\": \"stain\"", "\"kind\": \"jam\"", "at scraps[0].zones[0].kind", "“jam”" },
    { "\"number\": 2", "\"number\": 7", "at scraps[2]", "the number 7 too" },
    { "\"number\": 2", "\"number\": 0", "at scraps[1].number", "out of range" },
    { "\"fabric\": 4", "\"fabric\": 10", "at scraps[1].fabric", "no fabric has the id 10" },
    { "\"parent\": 10", "\"parent\": 12", "at scraps[1].parent", "younger" },
    { "\"gone\": true", "\"picture\": \"../../etc/passwd\"", "at scraps[2].picture", "not a picture's name" },
    { "\"scraps\": [", "\"scraps\": [5, ", "at scraps[0]", "an object" },
    { "\"number\": 2,", "\"number\": 2, \"number\": 3,", "line 33", "stands twice" },
  };

  check_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_trees (void)
{
  const Case cases[] = {
    { "\"scrap\": 11", "\"scrap\": 13", "textiles[0].panels[0].nodes[3].scrap", "no scrap has the id 13" },
    { "\"scrap\": 11", "\"scrap\": 3", "textiles[0].panels[0].nodes[3].scrap", "no scrap has the id 3" },
    { "\"parts\": [43, 44]", "\"parts\": [43, 40]", "textiles[0].panels[0].nodes[1].parts", "no cycles" },
    { "\"parts\": [43, 44]", "\"parts\": [43, 42]", "textiles[0].panels[0].nodes[1].parts", "no cycles" },
    { "\"parts\": [43, 44]", "\"parts\": [43, 43]", "textiles[0].panels[0].nodes[1].parts", "used twice" },
    { "\"parts\": [43, 44]", "\"parts\": [43, 41]", "textiles[0].panels[0].nodes[1].parts", "used twice" },
    { "\"parts\": [43, 44]", "\"parts\": [43, 46]", "textiles[0].panels[0].nodes[1].parts", "no node with the id 46" },
    { "\"parts\": [43, 44]", "\"parts\": [43]", "textiles[0].panels[0].nodes[1].parts", "at least two" },
    { "\"parts\": [43, 44]", "\"parts\": [43, 44.5]", "textiles[0].panels[0].nodes[1].parts[1]", "whole number" },
    { "\"root\": 40", "\"root\": 42", "textiles[0].panels[0].nodes[0]", "hangs nowhere" },
    { "\"root\": 40", "\"root\": 99", "textiles[0].panels[0].root", "no node with the id 99" },
    { "\"root\": 46,", "", "textiles[0].panels[1]", "“root” is missing" },
    { "{\"id\": 44, \"kind\": \"bare\"}", "{\"id\": 43, \"kind\": \"bare\"}", "textiles[0].panels[0].nodes[4].id", "used twice" },
    { "{\"id\": 44, \"kind\": \"bare\"}", "{\"id\": 44, \"kind\": \"bare\", \"cut\": \"done\"}", "textiles[0].panels[0].nodes[4].cut", "take it out" },
    { "{\"id\": 44, \"kind\": \"bare\"}", "{\"id\": 44, \"kind\": \"sock\"}", "textiles[0].panels[0].nodes[4].kind", "“sock”" },
    { "\"seams\": [{\"id\": 52, \"normal\": [1, 0], \"at_mm\": 130.25, \"finish\": 1, \"progress\": [\"done\", \"done\", \"done\"]}]", "\"seams\": []", "textiles[0].panels[0].nodes[1].seams", "one seam less" },
    { "\"normal\": [0.6, 0.8]", "\"normal\": [0.6, 0.80001]", "textiles[0].panels[0].nodes[0].seams[1].normal", "length 1" },
    { "\"normal\": [0.6, 0.8]", "\"normal\": [0, 0]", "textiles[0].panels[0].nodes[0].seams[1].normal", "length 1" },
    { "\"at_mm\": 250", "\"at_mm\": 1e9", "textiles[0].panels[0].nodes[0].seams[1].at_mm", "out of range" },
    { "\"allowance_mm\": 11", "\"allowance_mm\": -11", "textiles[0].panels[0].nodes[0].seams[0].allowance_mm", "out of range" },
    { "\"allowance_mm\": 11", "\"allowance_mm\": 250", "textiles[0].panels[0].nodes[0].seams[0].allowance_mm", "out of range" },
    { "\"allowance_mm\": 11", "\"finish\": 3", "textiles[0].panels[0].nodes[0].seams[0].finish", "no finish has the id 3" },
    { "[\"done\", \"done\", \"done\"]", "[\"done\", \"done\", \"done\", \"done\"]", "textiles[0].panels[0].nodes[1].seams[0].progress", "only 3" },
    { "\"finish\": 1, \"progress\"", "\"progress\"", "textiles[0].panels[0].nodes[1].seams[0].progress", "only 2" },
    { "[\"done\", \"done\", \"done\"]", "[\"sewn\"]", "textiles[0].panels[0].nodes[1].seams[0].progress[0]", "“sewn”" },
    { "\"progress\": [\"done\"], \"lace\"", "\"progress\": [\"done\", \"open\", \"open\"], \"lace\"", "textiles[0].joins[0].progress", "only 2" },
    { "\"secured\": [true, false]", "\"secured\": [true]", "textiles[0].panels[0].nodes[0].seams[0].secured", "twice" },
    { "\"pressed\": \"open\"", "\"pressed\": \"flat\"", "textiles[0].panels[0].nodes[0].seams[0].pressed", "“flat”" },
    { "\"ease_mm\": 4.5", "\"ease_mm\": -4.5", "textiles[0].panels[1].ease_mm", "out of range" },
    { "\"scatter_mm\": 0.6", "\"scatter_mm\": 21", "settings.scatter_mm", "out of range" },
    { "\"sewn_mm\": 12.25", "\"sewn_mm\": 0", "textiles[0].panels[0].nodes[0].seams[0].sewn_mm", "out of range" },
    { "\"sewn_mm\": 12.25", "\"sewn_mm\": \"deep\"", "textiles[0].panels[0].nodes[0].seams[0].sewn_mm", "number" },
    { "\"squared\": true", "\"squared\": 1", "textiles[0].panels[0].nodes[0].seams[0].squared", "true or false" },
    { "[301.5, null, 300]", "[301.5, null]", "textiles[0].panels[0].nodes[1].measure.lengths_mm", "3 measures" },
    { "[301.5, null, 300]", "[301.5, -1, 300]", "textiles[0].panels[0].nodes[1].measure.lengths_mm[1]", "null where nothing" },
    { "[301.5, null, 300]", "[301.5, \"long\", 300]", "textiles[0].panels[0].nodes[1].measure.lengths_mm[1]", "in mm is expected" },
    { "[null, 262, null]", "[null, null, null]", "textiles[0].panels[0].measure", "holds no figure" },
    { "\"taken_off_mm\": [2, 0]", "\"taken_off_mm\": [-2, 0]", "textiles[0].panels[0].measure.taken_off_mm", "negative" },
    { "\"planned_raw_mm\": [264, 324]", "\"planned_raw_mm\": [264, -324]", "textiles[0].panels[0].measure.planned_raw_mm", "negative" },
    { "{\"id\": 44, \"kind\": \"bare\"}", "{\"id\": 44, \"kind\": \"bare\", \"measure\": {}}", "textiles[0].panels[0].nodes[4].measure", "take it out" },
    { "\"cut\": \"done\"", "\"cut\": \"torn\"", "textiles[0].panels[0].nodes[2].cut", "“torn”" },
    { "\"shift_mm\": [12.5, -3]", "\"shift_mm\": [12.5]", "textiles[0].panels[0].nodes[2].shift_mm", "[x, y]" },
  };

  check_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_panels (void)
{
  const Case cases[] = {
    { "[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[0, 0], [120, 0], [10, 10], [0, 80]]", "loose_panels[0].outline_mm", "convex" },
    { "[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[0, 0], [0, 80], [120, 80], [120, 0]]", "loose_panels[0].outline_mm", "clockwise" },
    { "[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[0, 0], [120, 0], [120, 0], [120, 80], [0, 80]]", "loose_panels[0].outline_mm", "needless corners" },
    { "[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[0, 0], [120, 0]]", "loose_panels[0].outline_mm", "2 corners" },
    { "[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[0, 0], [120, 0], [120, 80], [0, 8e4]]", "loose_panels[0].outline_mm[3]", "10000" },
    { "[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[1, 0], [120, 0], [120, 80], [1, 80]]", "loose_panels[0].outline_mm", "at 0, 0" },
    { "\"name\": \"Spare\"", "\"name\": \"Spare\", \"offset_mm\": 3", "at loose_panels[0]", "no offset" },
    { "\"edges\": [{\"finish\": 2},", "\"edges\": [", "textiles[0].panels[0].edges", "4 edges, but 3" },
    { "\"allowance_mm\": 14", "\"allowance_mm\": 1400", "textiles[0].panels[0].edges[1].allowance_mm", "out of range" },
    { "\"offset_mm\": -7.5", "\"offset_mm\": 1e5", "textiles[0].panels[1].offset_mm", "out of range" },
    { "\"target_mm\": [560, 900]", "\"target_mm\": [560, -900]", "textiles[0].target_mm", "negative" },
    { "\"joins\": [{\"id\": 53, \"finish\": 2, \"progress\": [\"done\"], \"lace\": \"yes\"}]", "\"joins\": []", "textiles[0].joins", "one seam less" },
    { "{\"id\": 53", "{\"id\": 51", "textiles[0].joins[0].id", "used twice" },
    { "\"textiles\": [", "\"textiles\": {}, \"more\": [", "at textiles", "a list" },
  };

  check_cases (cases, G_N_ELEMENTS (cases));
}

static void
test_too_many_corners (void)
{
  g_autofree char *text = sample_text (), *bad = NULL, *good = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = NULL;

  for (guint round = 0; round < 2; round++)
    {
      GString *ring = g_string_new ("[[200, 200], [-100, 200]");
      g_autofree char *outline = NULL;

      for (guint i = 0; i < 9998 + round; i++)
        {
          g_string_append_printf (ring, ", [%u.%02u, ", i / 100, i % 100);
          g_string_append_printf (ring, "%u]", i % 2);
        }
      g_string_append (ring, "], \"parent\": 10");
      outline = g_string_free (ring, FALSE);
      *(round == 0 ? &good : &bad) = sample_with (text, "[[0, 0], [300, 0], [300, 200], [0, 200]], \"parent\": 10", outline);
    }
  job = odd_job_read_json (good, strlen (good), "x", NULL, NULL, &error);
  g_assert_no_error (error);
  check_message (bad, "at scraps[1].outline_mm", "10001 corners");
}

static void
test_deep (void)
{
  GString *nodes = g_string_new ("[");
  g_autofree char *text = sample_text (), *bad = NULL, *unknown = NULL, *nested = NULL;
  guint id = 100;

  g_test_summary ("A chain of 30,000 strips is refused before anything walks it");
  for (guint i = 0; i < 30000; i++, id += 3)
    g_string_append_printf (nodes, "{\"id\": %u, \"kind\": \"strip\", \"parts\": [%u, %u], \"seams\": [{\"id\": %u, \"normal\": [1, 0], \"at_mm\": 1}]}, {\"id\": %u, \"kind\": \"bare\"}, ",
                            id, id + 1, id + 3, id + 2, id + 1);
  g_string_append_printf (nodes, "{\"id\": %u, \"kind\": \"bare\"}]", id);
  unknown = g_strdup_printf ("\"root\": 100, \"nodes\": %s", nodes->str);
  g_string_free (nodes, TRUE);
  nested = sample_with (text, "\"next_id\": 60", "\"next_id\": 1000000");
  bad = sample_with (nested, "\"root\": 46, \"nodes\": [{\"id\": 46, \"kind\": \"bare\"}]", unknown);
  check_message (bad, "textiles[0].panels[1].nodes[", "2000 deep");
}

static void
test_files (void)
{
  static const struct { const char *text, *said; } cases[] = {
    { "5", "not an object" }, { "[]", "not an object" }, { "null", "not an object" }, { "{}", "“format” is missing" }, { "{\"format\": \"oddment-job\"", "line 1" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    check_message (cases[i].text, "", cases[i].said);
}

static void
test_no_job_in_archive (void)
{
  g_autoptr(GBytes) zip = sample_zip ("readme.txt", "hello", NULL);
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_job_read_bytes (zip, "tub.oddment", NULL, &error));
  g_assert_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN);
  g_assert_nonnull (strstr (error->message, "no job.json"));
}

static void
test_lost_parent (void)
{
  g_autofree char *text = sample_text (), *lost = sample_with (text, "\"parent\": 10", "\"parent\": 5");
  g_autoptr(GPtrArray) warnings = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_job_read_json (lost, strlen (lost), "tub.oddment", NULL, &warnings, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (warnings->len, ==, 2);       /* and the picture is missing */
  g_assert_nonnull (strstr (warnings->pdata[0], "scrap 2"));
  g_assert_cmpuint (odd_job_get_scrap (job, 11)->parent_id, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bad-input/head", test_head);
  g_test_add_func ("/bad-input/values", test_values);
  g_test_add_func ("/bad-input/scraps", test_scraps);
  g_test_add_func ("/bad-input/trees", test_trees);
  g_test_add_func ("/bad-input/panels", test_panels);
  g_test_add_func ("/bad-input/too-many-corners", test_too_many_corners);
  g_test_add_func ("/bad-input/deep", test_deep);
  g_test_add_func ("/bad-input/files", test_files);
  g_test_add_func ("/bad-input/no-job-in-archive", test_no_job_in_archive);
  g_test_add_func ("/bad-input/lost-parent", test_lost_parent);
  return g_test_run ();
}
