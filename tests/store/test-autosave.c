#include "config.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#include "sample.h"
#include "store/autosave.h"
#include "store/load.h"

#define ONE "11111111-1111-4111-8111-111111111111"
#define TWO "22222222-2222-4222-8222-222222222222"

/* A process that writes a copy and is gone without taking it back. */
static void
crash_after_writing (const char *id, const char *original_path, gint64 time)
{
  g_autoptr(OddJob) job = sample_job ();
  const pid_t child = fork ();
  int status;

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    _exit (odd_autosave_write (id, job, original_path, time, NULL) ? 0 : 1);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

static void
test_nothing (void)
{
  g_autoptr(GPtrArray) list = odd_autosave_list ();

  g_assert_cmpuint (list->len, ==, 0);
  odd_autosave_discard (ONE);
}

static void
test_found_after_a_crash (void)
{
  g_autoptr(GPtrArray) list = NULL, left = NULL;
  g_autoptr(OddJob) job = NULL;
  g_autoptr(GError) error = NULL;
  const OddAutosave *first, *second;

  crash_after_writing (ONE, NULL, 1000);
  crash_after_writing (TWO, "/home/ada/Blau \xff.oddment", 2000);
  crash_after_writing (ONE, NULL, 3000);
  list = odd_autosave_list ();
  g_assert_cmpuint (list->len, ==, 2);
  first = list->pdata[0];
  second = list->pdata[1];
  g_assert_cmpstr (first->id, ==, ONE);
  g_assert_null (first->original_path);
  g_assert_cmpint (first->time, ==, 3000);
  g_assert_cmpstr (second->original_path, ==, "/home/ada/Blau \xff.oddment");
  job = odd_store_load (first->path, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (job->next_id, ==, 60);

  odd_autosave_discard (ONE);
  left = odd_autosave_list ();
  g_assert_cmpuint (left->len, ==, 1);
  odd_autosave_discard (TWO);
}

static void
test_own_is_not_offered (void)
{
  g_autoptr(OddJob) job = sample_job ();
  g_autoptr(GPtrArray) list = NULL;
  g_autoptr(GError) error = NULL;

  g_assert_true (odd_autosave_write (ONE, job, NULL, 5, &error));
  g_assert_no_error (error);
  list = odd_autosave_list ();
  g_assert_cmpuint (list->len, ==, 0);
  odd_autosave_discard (ONE);
}

static void
test_number_of_a_process_comes_again (void)
{
  g_autofree char *folder = odd_autosave_dup_folder (), *record = g_build_filename (folder, ONE ".json", NULL);
  g_autofree char *text = g_strdup_printf ("{\"time\": 7, \"pid\": %d, \"pid_start\": 1}", (int) getpid ());
  g_autoptr(GPtrArray) list = NULL;

  g_test_summary ("A living process with the number of the dead one, begun at another time, does not hide the copy");
  crash_after_writing (ONE, NULL, 7);
  g_assert_true (g_file_set_contents (record, text, -1, NULL));
  list = odd_autosave_list ();
  g_assert_cmpuint (list->len, ==, 1);
  odd_autosave_discard (ONE);
}

static void
test_rubbish_is_passed_over (void)
{
  g_autofree char *folder = odd_autosave_dup_folder ();
  static const char *const names[] = { "x.json", ONE ".json", TWO ".json", ONE ".txt", "11111111.json" };
  static const char *const texts[] = { "{}", "{", "{\"pid\": \"x\"}", "", "{\"time\": 1}" };
  g_autoptr(GPtrArray) list = NULL;

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);

      g_assert_true (g_file_set_contents (path, texts[i], -1, NULL));
    }
  list = odd_autosave_list ();
  g_assert_cmpuint (list->len, ==, 0);
}

typedef struct { GMainLoop *loop; gboolean good; } Waiting;

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Waiting *waiting = data;

  waiting->good = odd_autosave_write_finish (result, NULL);
  g_main_loop_quit (waiting->loop);
}

static void
test_async (void)
{
  g_autoptr(OddJob) job = sample_job ();
  g_autoptr(GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autofree char *folder = odd_autosave_dup_folder (), *path = g_build_filename (folder, TWO ".oddment", NULL);
  Waiting waiting = { loop, FALSE };

  odd_autosave_write_async (TWO, job, NULL, 9, written_cb, &waiting);
  g_main_loop_run (loop);
  g_assert_true (waiting.good);
  g_assert_true (g_file_test (path, G_FILE_TEST_IS_REGULAR));
  odd_autosave_discard (TWO);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, G_TEST_OPTION_ISOLATE_DIRS, NULL);
  g_test_add_func ("/autosave/nothing", test_nothing);
  g_test_add_func ("/autosave/found-after-a-crash", test_found_after_a_crash);
  g_test_add_func ("/autosave/own-is-not-offered", test_own_is_not_offered);
  g_test_add_func ("/autosave/number-of-a-process-comes-again", test_number_of_a_process_comes_again);
  g_test_add_func ("/autosave/rubbish-is-passed-over", test_rubbish_is_passed_over);
  g_test_add_func ("/autosave/async", test_async);
  return g_test_run ();
}
