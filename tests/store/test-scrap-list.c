#include "config.h"

#include <string.h>
#include "sample.h"
#include "store/job-writer.h"
#include "store/load.h"
#include "store/scrap-list.h"
#include "store/store-error.h"

static const char list[] =
  "{\"fabrics\": [{\"name\": \"Denim\", \"lightness\": 30, \"gsm\": 340, \"fibres\": [{\"name\": \"cotton\", \"percent\": 100}], \"maker\": \"own\"}, {\"name\": \"Lawn\"}],\n"
  " \"scraps\": [{\"fabric\": \"Denim\", \"outline_mm\": [[0, 0], [100, 0], [100, 60], [0, 60]], \"grain_deg\": 45, \"number\": 2, \"washed\": true, \"place\": \"tub\", \"note\": \"hem\", \"id\": \"A1\", \"torn\": 1},\n"
  "  {\"outline_mm\": [[0, 60], [0, 0], [100, 0]]},\n"
  "  {\"fabric\": \"Lawn\", \"outline_mm\": [[0, 0], [10, 0], [10, 10]]}],\n"
  " \"made_with\": \"something\"}";

static OddJob *
import (OddJob *job, const char *text, GError **error)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));

  return job ? odd_job_import_scrap_list (job, bytes, "list.json", error) : odd_store_load_bytes (bytes, "list.json", NULL, NULL, error);
}

static OddJob *
import_good (OddJob *job, const char *text)
{
  g_autoptr(GError) error = NULL;
  OddJob *after = import (job, text, &error);

  g_assert_no_error (error);
  return after;
}

static void
check_refused (OddJob *job, const char *text, const char *place, const char *said)
{
  g_autoptr(GError) error = NULL;

  if (import (job, text, &error))
    g_error ("read, though it should not be: %s", said);
  g_assert_cmpint (error->domain, ==, ODD_STORE_ERROR);
  if (!strstr (error->message, "“list.json”") || !strstr (error->message, place) || !strstr (error->message, said))
    g_error ("“%s” does not name “%s” and “%s”", error->message, place, said);
}

static void
test_values (void)
{
  g_autoptr(OddJob) job = import_good (NULL, list);
  const OddScrap *first = job->scraps->pdata[0], *second = job->scraps->pdata[1], *third = job->scraps->pdata[2];
  const OddFabric *denim = odd_job_get_fabric (job, first->fabric_id);

  g_assert_cmpuint (job->fabrics->len, ==, 2);
  g_assert_cmpuint (job->scraps->len, ==, 3);
  g_assert_cmpstr (denim->name, ==, "Denim");
  g_assert_cmpfloat (denim->gsm, ==, 340);
  g_assert_cmpfloat (first->grain_deg, ==, 45);
  g_assert_true (first->washed);
  g_assert_cmpstr (first->place, ==, "tub");
  g_assert_cmpstr (first->note, ==, "hem");
  g_assert_cmpstr (first->unknown_json, ==, "{\"torn\": 1}");
  g_assert_cmpuint (first->number, ==, 2);
  g_assert_cmpuint (second->number, ==, 1);
  g_assert_cmpuint (third->number, ==, 3);
  g_assert_cmpuint (second->fabric_id, ==, 0);
  g_assert_false (second->washed);
}

static void
test_bare_minimum (void)
{
  g_autoptr(OddJob) job = import_good (NULL, "{\"scraps\":[{\"outline_mm\":[[0,0],[50,0],[50,50]]}]}");

  g_assert_cmpuint (job->scraps->len, ==, 1);
}

static void
test_as_job_file (void)
{
  g_autoptr(OddJob) job = import_good (NULL, list), again = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = odd_job_write_bytes (job, &error), second = NULL;

  g_assert_no_error (error);
  again = odd_store_load_bytes (bytes, "x", NULL, NULL, &error);
  g_assert_no_error (error);
  second = odd_job_write_bytes (again, &error);
  g_assert_true (g_bytes_equal (bytes, second));
}

static void
test_back (void)
{
  g_autoptr(OddJob) job = sample_job (), from_list = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = odd_job_write_scrap_list (job, &error), second = NULL;

  g_test_summary ("A list that was written, read and written again is the same; the scrap that is gone is not in it");
  g_assert_no_error (error);
  from_list = odd_store_load_bytes (bytes, "list.json", NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (from_list->scraps->len, ==, 2);
  second = odd_job_write_scrap_list (from_list, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), g_bytes_get_data (second, NULL), g_bytes_get_size (second));
}

static void
test_into_a_job (void)
{
  g_autoptr(OddJob) job = sample_job (), after = NULL, more = NULL;
  const guint n_scraps = job->scraps->len, n_fabrics = job->fabrics->len;
  const OddScrap *added;

  after = import_good (job, "{\"fabrics\":[{\"name\":\"Kitchen check\"},{\"name\":\"New\",\"gsm\":80}],\"scraps\":[{\"fabric\":\"Kitchen check\",\"outline_mm\":[[0,0],[50,0],[50,50]]}]}");
  g_assert_cmpuint (job->scraps->len, ==, n_scraps);
  g_assert_cmpuint (after->scraps->len, ==, n_scraps + 1);
  g_assert_cmpuint (after->fabrics->len, ==, n_fabrics + 1);
  added = after->scraps->pdata[n_scraps];
  g_assert_cmpuint (added->fabric_id, ==, 3);
  g_assert_cmpuint (added->number, ==, 3);         /* 1, 2 and 7 are taken */
  g_assert_cmpuint (added->id, >=, job->next_id);
  g_assert_cmpuint (after->next_id, >, added->id);
  /* the same fabric once more, with the same values */
  more = import_good (after, "{\"fabrics\":[{\"name\":\"New\",\"gsm\":80}],\"scraps\":[]}");
  g_assert_cmpuint (more->fabrics->len, ==, n_fabrics + 1);
  check_refused (after, "{\"fabrics\":[{\"name\":\"New\",\"gsm\":81}],\"scraps\":[]}", "fabrics[0]", "another fabric called “New”");
  check_refused (after, "{\"scraps\":[{\"number\":7,\"outline_mm\":[[0,0],[50,0],[50,50]]}]}", "scraps[0].number", "the number 7");
}

static void
test_stand_in (void)
{
  g_autoptr(OddJob) job = import_good (NULL, "{\"fabrics\":[{\"name\":\"A\"},{\"name\":\"B\"},{\"name\":\"C\",\"lightness\":30},{\"name\":\"D\",\"lightness\":92},"
                                             "{\"name\":\"E\",\"print\":{\"kind\":\"dot\",\"colours\":[\"#010203\"]}}],\"scraps\":[]}");
  g_autoptr(OddJob) again = NULL;
  const OddFabric *last = job->fabrics->pdata[4];

  g_test_summary ("Fabrics without a print can be told from one another, and keep the lightness they have");
  for (guint i = 0; i < 5; i++)
    for (guint k = 0; k < i; k++)
      g_assert_cmphex (odd_fabric_get_mean_colour (job->fabrics->pdata[i]), !=, odd_fabric_get_mean_colour (job->fabrics->pdata[k]));
  for (guint i = 2; i < 4; i++)
    {
      OddFabric values = *(OddFabric *) job->fabrics->pdata[i];
      g_autoptr(OddFabric) as_seen = NULL;

      values.lightness = NAN;
      as_seen = odd_fabric_new (&values, NULL);
      g_assert_cmpfloat_with_epsilon (odd_fabric_get_lightness (as_seen), odd_fabric_get_lightness (job->fabrics->pdata[i]), 1.0);
    }
  g_assert_cmphex (last->print.colours[0], ==, 0x010203);
  /* the list once more: the same fabrics */
  again = import_good (job, "{\"fabrics\":[{\"name\":\"C\",\"lightness\":30}],\"scraps\":[]}");
  g_assert_cmpuint (again->fabrics->len, ==, 5);
}

static void
test_refused (void)
{
  static const char *const cases[][3] = {
    { "{\"fabrics\":[]}", "the top", "“scraps” is missing" },
    { "{\"scraps\":{}}", "scraps", "a list" },
    { "{\"scraps\":[{}]}", "scraps[0]", "“outline_mm” is missing" },
    { "{\"scraps\":[{\"outline_mm\":[[0,0],[1,0],[1,1]]},7]}", "scraps[1]", "an object" },
    { "{\"scraps\":[{\"fabric\":\"Silk\",\"outline_mm\":[[0,0],[9,0],[9,9]]}]}", "scraps[0].fabric", "no fabric called “Silk”" },
    { "{\"scraps\":[{\"fabric\":1,\"outline_mm\":[[0,0],[9,0],[9,9]]}]}", "scraps[0].fabric", "text" },
    { "{\"scraps\":[{\"outline_mm\":[[0,0],[9,9],[9,0],[0,9]]}]}", "scraps[0].outline_mm", "crosses itself" },
    { "{\"scraps\":[{\"outline_mm\":[[0,0],[9,9]]}]}", "scraps[0].outline_mm", "2 corners" },
    { "{\"scraps\":[{\"outline_mm\":[]}]}", "scraps[0].outline_mm", "0 corners" },
    { "{\"scraps\":[{\"outline_mm\":[[0,0],[10001,9],[3,9]]}]}", "scraps[0].outline_mm[1]", "10000" },
    { "{\"scraps\":[{\"outline_mm\":[[0,0],[9,0],[9,9]],\"number\":1},{\"outline_mm\":[[0,0],[9,0],[9,9]],\"number\":1}]}", "scraps[1].number", "the number 1" },
    { "{\"scraps\":[{\"outline_mm\":[[0,0],[9,0],[9,9]],\"washed\":\"yes\"}]}", "scraps[0].washed", "true or false" },
    { "{\"fabrics\":[{\"name\":\"A\"},{\"name\":\"A\"}],\"scraps\":[]}", "fabrics[1]", "called “A” too" },
    { "{\"fabrics\":[{}],\"scraps\":[]}", "fabrics[0]", "“name” is missing" },
    { "{\"fabrics\":[{\"name\":\"A\",\"fibres\":[{\"name\":\"cotton\",\"percent\":99}]}],\"scraps\":[]}", "fabrics[0]", "sum to 99" },
    { "{\"format\":\"oddment-job\",\"scraps\":[]}", "format", "inside of another file" },
    { "{\"scraps\":[], \"scraps\":[]}", "line 1, column 15", "stands twice" },
    { "{\"scraps\":[", "line 1, column 12", "too early" },
    { "not json", "line 1, column 1", "a value" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    check_refused (NULL, cases[i][0], cases[i][1], cases[i][2]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scrap-list/values", test_values);
  g_test_add_func ("/scrap-list/bare-minimum", test_bare_minimum);
  g_test_add_func ("/scrap-list/as-job-file", test_as_job_file);
  g_test_add_func ("/scrap-list/back", test_back);
  g_test_add_func ("/scrap-list/into-a-job", test_into_a_job);
  g_test_add_func ("/scrap-list/stand-in", test_stand_in);
  g_test_add_func ("/scrap-list/refused", test_refused);
  return g_test_run ();
}
