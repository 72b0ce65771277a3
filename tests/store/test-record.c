/* The record in the file, and the two laws of acts. */
#include "config.h"

#include <string.h>
#include "sample.h"
#include "store/job-reader.h"
#include "store/job-writer.h"
#include "table-acts.h"

static GBytes *
bytes_of (OddJob *job)
{
  g_autoptr(GError) error = NULL;
  GBytes *bytes = odd_job_write_bytes (job, &error);

  g_assert_no_error (error);
  return bytes;
}

static void
assert_same (OddJob *a, OddJob *b)
{
  g_autoptr(GBytes) of_a = bytes_of (a);
  g_autoptr(GBytes) of_b = bytes_of (b);

  g_assert_true (g_bytes_equal (of_a, of_b));
}

static void
test_laws (void)
{
  const guint all_kinds = (1u << ODD_N_ACT_KINDS) - 1;
  guint n_acts = 0, kinds_seen = 0;

  g_test_summary ("Random acts on random trees: replayed, written and read, and undone, they give the same bytes");
  /* some kinds are so rare that now and then one is not drawn in 240 rounds */
  for (guint round = 0; round < 240 || (kinds_seen != all_kinds && round < 2400); round++)
    {
      g_autoptr(OddJob) planned = lot_job ();
      g_autoptr(OddDocument) document = odd_document_new (planned);
      g_autoptr(OddJob) done = NULL;
      g_autoptr(OddJob) again = NULL;
      g_autoptr(OddJob) read = NULL;
      g_autoptr(OddJob) again_from_file = NULL;
      g_autoptr(GBytes) bytes = NULL;
      g_autoptr(GError) error = NULL;

      for (guint i = 0; i < 30; i++)
        {
          OddJob *next = i == 0 ? cut_and_release (odd_document_get_job (document), FIRST_CLOCK_S)
                                : lot_act (odd_document_get_job (document), FIRST_CLOCK_S + 60 * i);

          if (next != NULL)
            odd_document_apply (document, next, "Act");
        }
      done = odd_job_ref (odd_document_get_job (document));
      n_acts += done->record->len;
      for (guint i = 0; i < done->record->len; i++)
        kinds_seen |= 1u << ((OddAct *) done->record->pdata[i])->kind;
      again = odd_job_replay (planned, done, &error);
      g_assert_no_error (error);
      assert_same (again, done);

      bytes = bytes_of (done);
      read = odd_job_read_bytes (bytes, "law", NULL, &error);
      g_assert_no_error (error);
      assert_same (read, done);
      again_from_file = odd_job_replay (planned, read, &error);
      g_assert_no_error (error);
      assert_same (again_from_file, done);

      while (odd_document_undo (document))
        ;
      assert_same (odd_document_get_job (document), planned);
      while (odd_document_redo (document))
        ;
      assert_same (odd_document_get_job (document), done);
    }
  g_assert_cmpuint (n_acts, >, 2000);
  g_assert_cmphex (kinds_seen, ==, all_kinds);
}

static void
test_empty (void)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(GBytes) text = odd_job_write_json (job, NULL);

  g_test_summary ("A job in which nothing was done says nothing of it");
  g_assert_null (g_strstr_len (g_bytes_get_data (text, NULL), g_bytes_get_size (text), "record"));
}

static OddJob *
read_with (const char *record, GError **error)
{
  g_autoptr(OddJob) job = odd_job_new ();
  g_autoptr(GBytes) bytes = odd_job_write_json (job, NULL);
  g_autofree char *text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  g_autofree char *member = g_strdup_printf ("{\"record\": %s,", record);
  g_autofree char *with = g_strconcat (member, strchr (text, '{') + 1, NULL);

  return odd_job_read_json (with, strlen (with), "law", NULL, NULL, error);
}

static void
test_gone_and_unknown (void)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = read_with ("[{\"act\": \"cut\", \"node\": 5, \"name\": \"Panel 9, patch 2\", \"state\": \"done\", \"mood\": [1, 2]}]", &error);
  g_autoptr(GBytes) bytes = NULL;
  g_autofree char *text = NULL;
  g_autofree char *said = NULL;

  g_test_summary ("What the record names may be gone; what we do not know in it is kept");
  g_assert_no_error (error);
  g_assert_cmpuint (job->record->len, ==, 1);
  said = odd_act_dup_text (job->record->pdata[0], ODD_UNIT_CM);
  g_assert_cmpstr (said, ==, "Panel 9, patch 2: cut out");
  bytes = odd_job_write_json (job, NULL);
  text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  g_assert_nonnull (strstr (text, "\"mood\""));
}

static void
test_bad (void)
{
  const struct { const char *record, *says; } cases[] = {
    { "{}", "record" },
    { "[7]", "record[0]" },
    { "[{}]", "act" },
    { "[{\"act\": \"dance\"}]", "“dance”" },
    { "[{\"act\": \"mark\", \"seam\": 4000000000}]", "record[0].seam" },
    { "[{\"act\": \"mark\", \"seam\": -1}]", "record[0].seam" },
    { "[{\"act\": \"mark\", \"state\": \"perhaps\"}]", "“perhaps”" },
    { "[{\"act\": \"mark\"}, {\"act\": \"trim\", \"figures\": [1e300]}]", "record[1].figures[0]" },
    { "[{\"act\": \"trim\", \"figures\": [\"wide\"]}]", "record[0].figures[0]" },
    { "[{\"act\": \"mark\", \"ids\": [1, 0]}]", "record[0].ids[1]" },
    { "[{\"act\": \"mark\", \"clock_s\": -5}]", "record[0].clock_s" },
    { "[{\"act\": \"mark\", \"operation\": 1.5}]", "record[0].operation" },
    /* tasks, length, seconds, usual from and to */
    { "[{\"act\": \"time\"}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, 700, 90, 60]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, 700, 90, 60, 100, 1]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [2.5, 700, 90, 60, 100]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [0, 700, 90, 60, 100]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, -1, 90, 60, 100]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, 700, 0, 60, 100]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, 700, 90, 100, 60]}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, 700, 90, 60, 100], \"operation\": 4}]", "record[0].figures" },
    { "[{\"act\": \"time\", \"figures\": [3, 700, \"90\", 60, 100]}]", "record[0].figures[2]" },
  };

  g_test_summary ("A record that cannot be is refused in one sentence that names the place");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(GError) error = NULL;
      g_autoptr(OddJob) job = read_with (cases[i].record, &error);

      g_assert_null (job);
      g_assert_nonnull (error);
      if (strstr (error->message, cases[i].says) == NULL)
        g_error ("%s does not say %s", error->message, cases[i].says);
    }
}

static void
test_timing (void)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddJob) job = read_with ("[{\"act\": \"time\", \"figures\": [3, 700, 90, 60, 100], \"operation\": 3}]", &error);
  g_autoptr(OddJob) broken = NULL;

  g_test_summary ("A timing is read; a broken one is refused in one sentence that says what to do");
  g_assert_no_error (error);
  g_assert_cmpuint (job->record->len, ==, 1);
  broken = read_with ("[{\"act\": \"time\", \"figures\": [3, 700, 90, 100, 60], \"operation\": 3}]", &error);
  g_assert_null (broken);
  g_assert_nonnull (strstr (error->message, "leave the entry out"));
  g_assert_null (strchr (error->message, '\n'));
}

static void
test_replay_of_nonsense (void)
{
  const char *records[] = {
    "[{\"act\": \"mark\", \"seam\": 1}]", "[{\"act\": \"mark-panel\", \"panel\": 1, \"operation\": 99}]", "[{\"act\": \"unmark\"}]", "[{\"act\": \"skip\"}]",
    "[{\"act\": \"secure\", \"end\": 7}]", "[{\"act\": \"cut\", \"node\": 3}]", "[{\"act\": \"wash\", \"scrap\": 1}]", "[{\"act\": \"trim\", \"panel\": 2}]", "[{\"act\": \"gone\"}]",
    "[{\"act\": \"unpick\", \"seam\": 3}]", "[{\"act\": \"release\", \"node\": 3}]"
  };

  g_test_summary ("Every kind of act that names nothing there is refused when replayed, and the entry is told");
  for (guint i = 0; i < G_N_ELEMENTS (records); i++)
    {
      g_autoptr(OddJob) planned = odd_job_new ();
      g_autoptr(GError) error = NULL;
      g_autoptr(OddJob) done = read_with (records[i], &error);
      g_autofree char *said = NULL;

      g_assert_no_error (error);
      said = odd_act_dup_text (done->record->pdata[0], ODD_UNIT_CM);
      g_assert_nonnull (said);
      g_assert_null (odd_job_replay (planned, done, &error));
      g_assert_nonnull (error);
      g_assert_true (g_str_has_prefix (error->message, "Entry 1 of the record: "));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/record/laws", test_laws);
  g_test_add_func ("/record/empty", test_empty);
  g_test_add_func ("/record/gone-and-unknown", test_gone_and_unknown);
  g_test_add_func ("/record/bad", test_bad);
  g_test_add_func ("/record/timing", test_timing);
  g_test_add_func ("/record/replay-of-nonsense", test_replay_of_nonsense);
  return g_test_run ();
}
