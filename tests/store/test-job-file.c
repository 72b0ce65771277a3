#include "config.h"

#include <gio/gio.h>
#include <string.h>
#include "cloth/cutting.h"
#include "cloth/zones.h"
#include "../cloth/trees.h"
#include "sample.h"
#include "store/job-reader.h"
#include "store/job-writer.h"
#include "store/load.h"
#include "store/zip.h"
#include "store/json-guard.h"

static OddJob *
read_good (GBytes *bytes)
{
  g_autoptr(GError) error = NULL;
  OddJob *job = odd_job_read_bytes (bytes, "x.oddment", NULL, &error);

  g_assert_no_error (error);
  return job;
}

static GBytes *
write_good (OddJob *job)
{
  g_autoptr(GError) error = NULL;
  GBytes *bytes = odd_job_write_bytes (job, &error);

  g_assert_no_error (error);
  return bytes;
}

static void
test_values (void)
{
  g_autoptr(OddJob) job = sample_job ();
  const OddFabric *fabric = odd_job_get_fabric (job, 3);
  const OddScrap *scrap = odd_job_get_scrap (job, 10);
  const OddTextile *textile = odd_job_get_textile (job, 30);
  const OddPanel *panel = textile->hung[0].panel;
  const OddNode *strip = panel->root;

  g_assert_cmpuint (job->next_id, ==, 60);
  g_assert_cmpfloat (job->treatment.allowance_mm, ==, 12.7);
  g_assert_cmpstr (fabric->fibres[1].name, ==, "silk");
  g_assert_cmpfloat (fabric->fibres[1].percent, ==, 40);
  g_assert_cmpint (fabric->bleeds, ==, ODD_BLEED_NO);
  g_assert_cmpint (fabric->print.kind, ==, ODD_PRINT_CHECK);
  g_assert_cmphex (fabric->print.colours[1], ==, 0x335577);
  g_assert_cmpfloat (fabric->shrink_across, ==, 0.025);
  g_assert_cmpuint (scrap->n_zones, ==, 2);
  g_assert_true (scrap->zones[0].allowance_only);
  g_assert_cmpint (scrap->zones[1].kind, ==, ODD_ZONE_HOLE);
  g_assert_cmpfloat (scrap->grain_deg, ==, 88.5);
  g_assert_cmpfloat (scrap->picture_at_mm.y, ==, -6.5);
  g_assert_cmpuint (odd_job_get_scrap (job, 11)->parent_id, ==, 10);
  g_assert_true (odd_job_get_scrap (job, 12)->gone);
  g_assert_cmpuint (textile->n_hung, ==, 2);
  g_assert_cmpfloat (textile->target_length_mm, ==, 900);
  g_assert_true (textile->hung[1].half_turn);
  g_assert_cmpfloat (textile->hung[1].offset_mm, ==, -7.5);
  g_assert_cmpfloat (textile->hung[1].ease_mm, ==, 4.5);
  g_assert_true (job->settings.fold_loss_mm == 0.8 && job->settings.scatter_mm == 0.6 && job->settings.bias_mm == 0.25);
  g_assert_cmpfloat (job->settings.ease_percent, ==, 1.5);
  g_assert_cmpfloat (job->settings.mass_ratio, ==, 2.5);
  g_assert_cmpfloat (job->settings.shrink_gap_mm, ==, 4.0);
  g_assert_cmpfloat (job->settings.light_from, ==, 65.0);
  g_assert_true (job->settings.stay_from_deg == 30.0 && job->settings.stay_from_mm == 90.0);
  g_assert_cmpuint (textile->joins[0].id, ==, 53);
  g_assert_cmpint (odd_progress_get_state (textile->joins[0].progress, 0), ==, ODD_STATE_DONE);
  g_assert_cmpuint (panel->edges[0].treatment.finish_id, ==, 2);
  g_assert_cmpuint (strip->n_parts, ==, 3);
  g_assert_cmpint (strip->seams[0].pressed_to, ==, ODD_PRESSED_OPEN);
  g_assert_cmpint (odd_progress_get_state (strip->seams[0].progress, 1), ==, ODD_STATE_SKIPPED);
  g_assert_cmpstr (odd_progress_get_reason (strip->seams[0].progress, 1), ==, "iron is broken");
  g_assert_true (strip->seams[0].end_secured[0] && !strip->seams[0].end_secured[1] && strip->seams[0].end_cut[1]);
  g_assert_true (strip->seams[0].sewn_mm == 12.25 && strip->seams[0].squared && strip->seams[1].sewn_mm == 0.0 && !strip->seams[1].squared);
  g_assert_true (strip->parts[1]->measure->seam_to_seam && isnan (strip->parts[1]->measure->lengths_mm[1]));
  g_assert_cmpfloat (strip->parts[1]->measure->diagonals_mm[0], ==, 390);
  g_assert_true (panel->measure->widths_mm[1] == 262 && panel->measure->off_width_mm == 2 && panel->measure->planned_length_mm == 324);
  g_assert_cmpfloat (textile->measure->lengths_mm[2], ==, 899.5);
  g_assert_cmpfloat (strip->seams[1].line.normal.x, ==, 0.6);
  g_assert_true (strip->parts[0]->placement.mirror);
  g_assert_cmpint (strip->parts[0]->cut, ==, ODD_STATE_DONE);
  g_assert_true (job->pictures->len == 1 && ((OddPicture *) job->pictures->pdata[0])->bytes);
}

static void
test_same_bytes (void)
{
  g_autoptr(GBytes) first = sample_file ();
  g_autoptr(OddJob) again = read_good (first), empty = odd_job_new (), empty_again = NULL;
  g_autoptr(GBytes) second = write_good (again), third = write_good (empty), fourth = NULL;

  g_assert_true (g_bytes_equal (first, second));
  empty_again = read_good (third);
  fourth = write_good (empty_again);
  g_assert_true (g_bytes_equal (third, fourth));
}

/* A scrap cut out, its offcut, and a stain found on the patch since: written, read, and put together again as if it had never been away. */
static void
test_cut_out (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(OddPolygon) outline = odd_polygon_new_box ((OddBox) { 0, 0, 300, 200 });
  g_autoptr(OddPolygon) stain = odd_polygon_new_box ((OddBox) { 20, 20, 15, 15 });
  g_autoptr(OddJob) again = NULL;
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(GBytes) bytes_again = NULL;
  OddScrap values;
  OddId panel_id = 0, scrap_id = 0, leaf_id;

  odd_scrap_init_values (&values);
  values.outline = outline;
  take (&job, odd_job_put_scrap (job, &values, &scrap_id, NULL));
  take (&job, add_squares (job, 0, 1, 1, 100, &panel_id));
  leaf_id = odd_job_get_panel (job, panel_id, NULL, NULL)->root->id;
  take (&job, odd_job_place_scrap (job, leaf_id, scrap_id, &(OddPlacement) { 0, FALSE, { -20, -20 } }, NULL));
  take (&job, odd_job_set_cut (job, leaf_id, ODD_STATE_DONE, NULL));
  take (&job, odd_job_add_zone (job, scrap_id, ODD_ZONE_STAIN, FALSE, stain, NULL));
  bytes = write_good (job);
  again = read_good (bytes);
  bytes_again = write_good (again);
  g_assert_true (g_bytes_equal (bytes, bytes_again));
  g_assert_true (odd_job_get_scrap (again, scrap_id)->cut_out);
  g_assert_cmpuint (odd_job_get_scrap (again, scrap_id)->n_zones, ==, 1);
  g_assert_cmpuint (again->scraps->len, ==, 2);
  take (&again, odd_job_set_cut (again, leaf_id, ODD_STATE_OPEN, NULL));
  g_assert_false (odd_job_get_scrap (again, scrap_id)->cut_out);
  g_assert_cmpuint (again->scraps->len, ==, 1);
}

static void
test_same_bytes_anywhere (void)
{
  g_autoptr(GBytes) here = sample_file (), there = NULL;
  g_autofree char *zone = g_strdup (g_getenv ("TZ"));

  g_test_summary ("The time zone is not in the file");
  g_setenv ("TZ", "Pacific/Auckland", TRUE);
  tzset ();
  there = sample_file ();
  if (zone)
    g_setenv ("TZ", zone, TRUE);
  else
    g_unsetenv ("TZ");
  tzset ();
  g_assert_true (g_bytes_equal (here, there));
}

/* Is everything of @a somewhere at the same place in @b? */
static void
check_within (JsonNode *a, JsonNode *b, const char *place)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  if (!b)
    g_error ("%s got lost", place);
  if (JSON_NODE_HOLDS_OBJECT (a))
    {
      json_object_iter_init (&iter, json_node_get_object (a));
      while (json_object_iter_next (&iter, &name, &node))
        {
          g_autofree char *inner = g_strdup_printf ("%s.%s", place, name);

          check_within (node, json_object_get_member (json_node_get_object (b), name), inner);
        }
    }
  else if (JSON_NODE_HOLDS_ARRAY (a))
    {
      g_assert_cmpuint (json_array_get_length (json_node_get_array (a)), ==, json_array_get_length (json_node_get_array (b)));
      for (guint i = 0; i < json_array_get_length (json_node_get_array (a)); i++)
        {
          g_autofree char *inner = g_strdup_printf ("%s[%u]", place, i);

          check_within (json_array_get_element (json_node_get_array (a), i), json_array_get_element (json_node_get_array (b), i), inner);
        }
    }
  else if (JSON_NODE_HOLDS_VALUE (a) && json_node_get_value_type (a) != G_TYPE_STRING && json_node_get_value_type (a) != G_TYPE_BOOLEAN)
    g_assert_cmpfloat (json_node_get_double (a), ==, json_node_get_double (b));
  else if (!json_node_equal (a, b))
    g_error ("%s changed", place);
}

static void
test_unknown_kept (void)
{
  g_autofree char *before = sample_text ();
  g_autoptr(OddJob) job = sample_job ();
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = odd_job_write_json (job, &error);
  g_autoptr(JsonNode) a = NULL, b = NULL;
  JsonArray *nodes;

  g_test_summary ("Every member of the hand-written sample, known or not, is in what is written");
  g_assert_no_error (error);
  a = odd_json_parse_object (before, strlen (before), "before", &error);
  b = odd_json_parse_object (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), "after", &error);
  g_assert_no_error (error);
  /* The nodes are written in tree order, which the sample does not keep: its second and third change places. */
  nodes = json_object_get_array_member (json_array_get_object_element (json_object_get_array_member (
            json_array_get_object_element (json_object_get_array_member (json_node_get_object (b), "textiles"), 0), "panels"), 0), "nodes");
  g_assert_cmpint (json_object_get_int_member (json_array_get_object_element (nodes, 1), "id"), ==, 41);
  {
    g_autofree char *in_tree_order = NULL, *patch = NULL;
    const char *from = strstr (before, "      {\"id\": 42, \"kind\": \"strip\""), *to = strchr (from, '\n') + 1, *end = strchr (to, '\n') + 1;
    GString *text = g_string_new_len (before, from - before);

    g_string_append_len (text, to, end - to);
    g_string_append_len (text, from, to - from);
    g_string_append (text, end);
    in_tree_order = g_string_free (text, FALSE);
    json_node_unref (a);
    a = odd_json_parse_object (in_tree_order, strlen (in_tree_order), "before", &error);
    g_assert_no_error (error);
  }
  check_within (a, b, "job");
}

static void
test_unknown_through_edits (void)
{
  g_autoptr(OddJob) job = sample_job (), edited = NULL, again = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = NULL;
  static const char *const kept[] = { "written_by", "theme", "\"since\": 1.1", "\"grown\": \"here\"", "moth", "hint", "lace", "glue", "\"pin\": 3", "diary", "tape", "\"rule\": \"steel\"" };
  static const char *const gone[] = { "\"by\": \"me\"" };

  g_test_summary ("What a program does not know survives an edit elsewhere, and goes with the thing it belongs to");
  edited = odd_job_set_progress (job, 50, NULL, &error);
  g_assert_no_error (error);
  bytes = odd_job_write_json (edited, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    if (!g_strstr_len (g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes), kept[i]))
      g_error ("%s got lost", kept[i]);
  for (guint i = 0; i < G_N_ELEMENTS (gone); i++)
    g_assert_null (g_strstr_len (g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes), gone[i]));
  again = odd_job_read_json (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), "again", NULL, NULL, &error);
  g_assert_no_error (error);
}

static OddJob *
read_pictures (GBytes *picture, GPtrArray **out_warnings)
{
  g_autofree char *text = sample_text (), *name = sample_picture_name (), *entry_name = g_strconcat ("pictures/", name, NULL);
  g_autoptr(GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_zip_entry_free);
  g_autoptr(GBytes) json = g_bytes_new (text, strlen (text)), zip = NULL;
  g_autoptr(GError) error = NULL;
  OddJob *job;

  g_ptr_array_add (entries, odd_zip_entry_new ("job.json", json));
  if (picture)
    g_ptr_array_add (entries, odd_zip_entry_new (entry_name, picture));
  zip = odd_zip_write (entries, &error);
  g_assert_no_error (error);
  job = odd_job_read_bytes (zip, "tub.oddment", out_warnings, &error);
  g_assert_no_error (error);
  return job;
}

static void
check_picture (GBytes *picture, const char *said)
{
  g_autoptr(GPtrArray) warnings = NULL;
  g_autoptr(OddJob) job = read_pictures (picture, &warnings);
  const OddPicture *read = job->pictures->pdata[0];

  g_assert_cmpuint (job->pictures->len, ==, 1);
  g_assert_cmpuint (warnings->len, ==, said ? 1 : 0);
  g_assert_true ((read->bytes == NULL) == (said != NULL));
  if (said && !strstr (warnings->pdata[0], said))
    g_error ("“%s” does not say “%s”", (char *) warnings->pdata[0], said);
}

static void
test_pictures (void)
{
  g_autoptr(GBytes) good = sample_picture (), no_picture = g_bytes_new_static ("not a picture", 13);
  g_autoptr(GBytes) cut_short = g_bytes_new_from_bytes (good, 0, g_bytes_get_size (good) - 5);

  check_picture (good, NULL);
  check_picture (NULL, "is missing");
  check_picture (no_picture, "neither PNG nor JPEG");
  check_picture (cut_short, "not what its name says");
}

static void
test_unknown_entry (void)
{
  g_autofree char *text = sample_text ();
  g_autoptr(GBytes) zip = sample_zip ("job.json", text, "notes.txt", "hello", NULL);
  g_autoptr(GPtrArray) warnings = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = odd_job_read_bytes (zip, "tub.oddment", &warnings, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (warnings->len, ==, 2);       /* and the picture is missing */
  g_assert_nonnull (strstr (warnings->pdata[0], "notes.txt"));
}

static GBytes *
mutate (GBytes *bytes)
{
  gsize size;
  guint8 *copy = g_bytes_unref_to_data (g_bytes_new (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes)), &size);
  const guint n = (guint) g_test_rand_int_range (1, 6);

  for (guint i = 0; i < n; i++)
    copy[g_test_rand_int_range (0, (int) size)] = (guint8) g_test_rand_int_range (0, 256);
  if (g_test_rand_int_range (0, 4) == 0)
    size = (gsize) g_test_rand_int_range (1, (int) size);
  return g_bytes_new_take (copy, size);
}

/* Either an error and nothing, or a whole job that is written and read again to the same bytes. */
static gboolean
check_whole_or_nothing (OddJob *job, GError *error)
{
  g_autoptr(OddJob) taken = job, again = NULL;
  g_autoptr(GBytes) first = NULL, second = NULL;

  g_assert_true ((job == NULL) == (error != NULL));
  if (error)
    g_assert_cmpuint (strlen (error->message), >, 20);
  if (!job)
    return FALSE;
  first = write_good (job);
  again = read_good (first);
  second = write_good (again);
  g_assert_true (g_bytes_equal (first, second));
  return TRUE;
}

static void
test_mutated_archive (void)
{
  g_autoptr(GBytes) bytes = sample_file ();

  g_test_summary ("300 damaged files: never a crash, never half a job");
  for (guint round = 0; round < 300; round++)
    {
      g_autoptr(GBytes) bad = mutate (bytes);
      g_autoptr(GError) error = NULL;
      OddJob *job = odd_store_load_bytes (bad, "x.oddment", NULL, NULL, &error);

      check_whole_or_nothing (job, error);
    }
}

static void
test_mutated_text (void)
{
  g_autofree char *text = sample_text ();
  guint n_good = 0;

  g_test_summary ("1,000 texts with a few other digits and letters: what is still a job is a whole one");
  for (guint round = 0; round < 1000; round++)
    {
      g_autofree char *bad = g_strdup (text);
      g_autoptr(GError) error = NULL;
      OddJob *job;

      for (int i = g_test_rand_int_range (1, 4); i > 0; i--)
        {
          char *at = bad + g_test_rand_int_range (0, (int) strlen (bad));

          if (g_ascii_isdigit (*at))
            *at = (char) ('0' + g_test_rand_int_range (0, 10));
          else if (g_ascii_isalpha (*at))
            *at = (char) ('a' + g_test_rand_int_range (0, 26));
        }
      job = odd_job_read_json (bad, strlen (bad), "x", NULL, NULL, &error);
      n_good += check_whole_or_nothing (job, error);
    }
  g_assert_cmpuint (n_good, >, 50);
  g_assert_cmpuint (n_good, <, 950);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-file/values", test_values);
  g_test_add_func ("/job-file/same-bytes", test_same_bytes);
  g_test_add_func ("/job-file/cut-out", test_cut_out);
  g_test_add_func ("/job-file/same-bytes-anywhere", test_same_bytes_anywhere);
  g_test_add_func ("/job-file/unknown-kept", test_unknown_kept);
  g_test_add_func ("/job-file/unknown-through-edits", test_unknown_through_edits);
  g_test_add_func ("/job-file/pictures", test_pictures);
  g_test_add_func ("/job-file/unknown-entry", test_unknown_entry);
  g_test_add_func ("/job-file/mutated-archive", test_mutated_archive);
  g_test_add_func ("/job-file/mutated-text", test_mutated_text);
  return g_test_run ();
}
