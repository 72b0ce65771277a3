#include "config.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include "sample.h"
#include "store/job-writer.h"
#include "store/load.h"
#include "store/save.h"
#include "store/store-error.h"

typedef struct
{
  char *folder, *path;
  GBytes *old;                /* what lies at path */
} Fixture;

static void
set_up (Fixture *self, gconstpointer data)
{
  g_autoptr(OddJob) empty = odd_job_new ();
  g_autoptr(GError) error = NULL;

  self->folder = g_dir_make_tmp ("oddment-XXXXXX", &error);
  g_assert_no_error (error);
  self->path = g_build_filename (self->folder, "tub.oddment", NULL);
  self->old = odd_job_write_bytes (empty, &error);
  g_assert_no_error (error);
  g_assert_true (odd_store_save_bytes (self->old, self->path, &error));
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  sample_remove_folder (self->folder);
  g_free (self->folder);
  g_free (self->path);
  g_bytes_unref (self->old);
}

static gboolean
holds (const char *path, GBytes *bytes)
{
  g_autofree char *data = NULL;
  gsize length;

  return g_file_get_contents (path, &data, &length, NULL) && length == g_bytes_get_size (bytes)
         && memcmp (data, g_bytes_get_data (bytes, NULL), length) == 0;
}

/* Nothing but the old file in its folder. */
static void
check_untouched (Fixture *self)
{
  g_assert_true (holds (self->path, self->old));
  g_assert_cmpuint (sample_count_files (self->folder), ==, 1);
}

static void
check_error (const GError *error, OddStoreError code, const char *name, const char *said)
{
  g_assert_error (error, ODD_STORE_ERROR, (int) code);
  if (!strstr (error->message, name) || !strstr (error->message, said))
    g_error ("“%s” does not name “%s” and “%s”", error->message, name, said);
}

static void
test_save_and_load (Fixture *self, gconstpointer data)
{
  g_autoptr(OddJob) job = sample_job (), again = NULL;
  g_autoptr(GBytes) bytes = sample_file ();
  g_autoptr(GPtrArray) warnings = NULL;
  g_autoptr(GError) error = NULL;

  g_assert_true (odd_store_save (job, self->path, &error));
  g_assert_no_error (error);
  g_assert_true (holds (self->path, bytes));
  again = odd_store_load (self->path, &warnings, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (warnings->len, ==, 0);
  g_assert_cmpuint (again->next_id, ==, job->next_id);
}

static void
test_permissions (Fixture *self, gconstpointer data)
{
  g_autoptr(GBytes) bytes = sample_file ();
  g_autofree char *fresh = g_build_filename (self->folder, "new.oddment", NULL);
  const mode_t mask = umask (027);
  struct stat info;

  g_assert_cmpint (g_chmod (self->path, 0640), ==, 0);
  g_assert_true (odd_store_save_bytes (bytes, self->path, NULL));
  g_assert_cmpint (stat (self->path, &info), ==, 0);
  g_assert_cmpint (info.st_mode & 07777, ==, 0640);
  g_assert_true (odd_store_save_bytes (bytes, fresh, NULL));
  umask (mask);
  g_assert_cmpint (stat (fresh, &info), ==, 0);
  g_assert_cmpint (info.st_mode & 07777, ==, 0640);
}

static void
test_link (Fixture *self, gconstpointer data)
{
  g_autoptr(GBytes) bytes = sample_file ();
  g_autofree char *link = g_build_filename (self->folder, "link", NULL), *lost = g_build_filename (self->folder, "lost", NULL);
  g_autofree char *target = g_build_filename (self->folder, "not-yet", NULL), *ring = g_build_filename (self->folder, "ring", NULL);
  g_autoptr(GError) error = NULL;

  g_assert_cmpint (symlink ("tub.oddment", link), ==, 0);
  g_assert_cmpint (symlink ("not-yet", lost), ==, 0);
  g_assert_cmpint (symlink ("ring", ring), ==, 0);
  g_assert_true (odd_store_save_bytes (bytes, link, NULL));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (holds (self->path, bytes));
  g_assert_true (odd_store_save_bytes (bytes, lost, NULL));
  g_assert_true (g_file_test (lost, G_FILE_TEST_IS_SYMLINK) && holds (target, bytes));
  g_assert_false (odd_store_save_bytes (bytes, ring, &error));
  check_error (error, ODD_STORE_ERROR_WRITE, "ring", "cannot be saved");
}

static void
test_wrong_target (Fixture *self, gconstpointer data)
{
  g_autoptr(GBytes) bytes = sample_file ();
  g_autofree char *nowhere = g_build_filename (self->folder, "no", "such.oddment", NULL);
  static const char *const names[] = { "/dev/full", "/dev/null" };

  for (guint i = 0; i < 4; i++)
    {
      g_autoptr(GError) error = NULL;
      const char *path = i < 2 ? names[i] : i == 2 ? self->folder : nowhere;

      g_assert_false (odd_store_save_bytes (bytes, path, &error));
      check_error (error, ODD_STORE_ERROR_WRITE, "“", i < 3 ? "a folder or a device" : "is not there");
    }
  check_untouched (self);
}

/* A child in which @func says whether all is well. */
static void
check_in_child (gboolean (*func) (Fixture *), Fixture *self)
{
  const pid_t child = fork ();
  int status;

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    _exit (func (self) ? 0 : 1);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
}

static gboolean
refused_with (Fixture *self, const char *path, const char *said)
{
  g_autoptr(GBytes) bytes = g_bytes_new_take (g_malloc0 (300000), 300000);
  g_autoptr(GError) error = NULL;

  return !odd_store_save_bytes (bytes, path, &error) && error->domain == ODD_STORE_ERROR && strstr (error->message, said) != NULL;
}

static gboolean
save_without_room (Fixture *self)
{
  const struct rlimit most = { 100000, 100000 };

  signal (SIGXFSZ, SIG_IGN);
  return setrlimit (RLIMIT_FSIZE, &most) == 0 && refused_with (self, self->path, "There is no room");
}

static void
test_full_disk (Fixture *self, gconstpointer data)
{
  g_test_summary ("No room after a third of the file: refused, the old file whole, nothing left behind");
  check_in_child (save_without_room, self);
  check_untouched (self);
}

/* Root may write everywhere, so the child becomes nobody (65534 on Debian) first. */
static gboolean
become_plain (void)
{
  return geteuid () != 0 || (setgid (65534) == 0 && setuid (65534) == 0);
}

static gboolean
save_in_closed_folder (Fixture *self)
{
  g_autofree char *fresh = g_build_filename (self->folder, "new.oddment", NULL);

  return become_plain () && refused_with (self, self->path, "no right to save") && refused_with (self, fresh, "no right to save");
}

static void
test_read_only_folder (Fixture *self, gconstpointer data)
{
  g_assert_cmpint (g_chmod (self->path, 0666), ==, 0);
  g_assert_cmpint (g_chmod (self->folder, 0555), ==, 0);
  check_in_child (save_in_closed_folder, self);
  g_assert_cmpint (g_chmod (self->folder, 0700), ==, 0);
  check_untouched (self);
}

static gboolean
save_over_protected (Fixture *self)
{
  return become_plain () && refused_with (self, self->path, "no right to save");
}

static void
test_protected_file (Fixture *self, gconstpointer data)
{
  g_test_summary ("A write-protected file in an open folder is not replaced");
  g_assert_cmpint (g_chmod (self->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (self->folder, 0777), ==, 0);
  check_in_child (save_over_protected, self);
  check_untouched (self);
}

static gboolean
load_secret (Fixture *self)
{
  g_autoptr(GError) error = NULL;

  return become_plain () && !odd_store_load (self->path, NULL, &error) && error->code == ODD_STORE_ERROR_READ
         && strstr (error->message, "no right to read") != NULL;
}

static void
test_bad_files (Fixture *self, gconstpointer data)
{
  g_autofree char *empty = g_build_filename (self->folder, "empty.oddment", NULL), *pipe = g_build_filename (self->folder, "pipe", NULL);
  g_autofree char *large = g_build_filename (self->folder, "large", NULL), *missing = g_build_filename (self->folder, "missing", NULL);
  const struct { const char *path, *said; } cases[] = {
    { self->folder, "is a folder" }, { empty, "is empty" }, { pipe, "is not a file" }, { "/dev/null", "is not a file" }, { large, "larger than 256 MB" }, { missing, "is not there" },
  };

  g_assert_true (g_file_set_contents (empty, "", 0, NULL) && g_file_set_contents (large, "x", 1, NULL));
  g_assert_cmpint (truncate (large, 256 * 1024 * 1024 + 1), ==, 0);
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(GError) error = NULL;

      g_assert_null (odd_store_load (cases[i].path, NULL, &error));
      check_error (error, ODD_STORE_ERROR_READ, "“", cases[i].said);
    }
  g_assert_cmpint (g_chmod (self->path, 0), ==, 0);
  g_assert_cmpint (g_chmod (self->folder, 0777), ==, 0);
  check_in_child (load_secret, self);
}

static void
test_fingerprint (Fixture *self, gconstpointer data)
{
  g_autofree char *first = odd_store_fingerprint (self->path), *same = odd_store_fingerprint (self->path), *second = NULL;
  g_autofree char *missing = g_build_filename (self->folder, "missing", NULL);

  g_assert_nonnull (first);
  g_assert_cmpstr (first, ==, same);
  g_assert_true (odd_store_save_bytes (self->old, self->path, NULL));
  second = odd_store_fingerprint (self->path);
  g_assert_cmpstr (first, !=, second);
  g_assert_null (odd_store_fingerprint (missing));
}

/* Saves @data over and over, a large and a small job in turn, until it is killed. */
static void G_GNUC_NORETURN
save_for_ever (const char *path, GBytes *one, GBytes *other)
{
  for (;;)
    {
      odd_store_save_bytes (one, path, NULL);
      odd_store_save_bytes (other, path, NULL);
    }
}

static void
test_killed (Fixture *self, gconstpointer data)
{
  g_autofree char *noise = g_malloc (3000000);
  g_autoptr(GBytes) large = NULL;

  g_test_summary ("Killed at 25 moments in the middle of saving: what lies there is the one job or the other, whole");
  for (guint i = 0; i < 3000000; i++)
    noise[i] = (char) g_test_rand_int ();
  large = g_bytes_new (noise, 3000000);
  for (guint round = 0; round < 25; round++)
    {
      const pid_t child = fork ();
      int status;

      g_assert_cmpint (child, >=, 0);
      if (child == 0)
        save_for_ever (self->path, large, self->old);
      g_usleep ((gulong) g_test_rand_int_range (1000, 30000));
      g_assert_cmpint (kill (child, SIGKILL), ==, 0);
      g_assert_cmpint (waitpid (child, &status, 0), ==, child);
      g_assert_true (holds (self->path, self->old) || holds (self->path, large));
    }
}

/* --- in a thread --- */

typedef struct
{
  GMainLoop *loop;
  GAsyncResult *result;
} Waiting;

static void
finished_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Waiting *waiting = data;

  waiting->result = g_object_ref (result);
  g_main_loop_quit (waiting->loop);
}

static GAsyncResult *
wait_for (Waiting *waiting)
{
  g_main_loop_run (waiting->loop);
  return g_steal_pointer (&waiting->result);
}

static void
test_async (Fixture *self, gconstpointer data)
{
  g_autoptr(OddJob) job = sample_job (), again = NULL;
  g_autoptr(GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr(GCancellable) cancelled = g_cancellable_new ();
  g_autoptr(GAsyncResult) saved = NULL, not_saved = NULL, loaded = NULL, not_loaded = NULL;
  g_autoptr(GPtrArray) warnings = NULL;
  g_autoptr(GError) error = NULL;
  g_autofree char *missing = g_build_filename (self->folder, "missing", NULL);
  Waiting waiting = { loop, NULL };
  OddStoreKind kind = ODD_STORE_SCRAP_LIST;

  g_cancellable_cancel (cancelled);
  odd_store_save_async (job, self->path, cancelled, finished_cb, &waiting);
  not_saved = wait_for (&waiting);
  g_assert_false (odd_store_save_finish (not_saved, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  check_untouched (self);

  odd_store_save_async (job, self->path, NULL, finished_cb, &waiting);
  saved = wait_for (&waiting);
  g_assert_true (odd_store_save_finish (saved, &error));
  g_assert_no_error (error);

  odd_store_load_async (self->path, NULL, finished_cb, &waiting);
  loaded = wait_for (&waiting);
  again = odd_store_load_finish (loaded, &kind, &warnings, &error);
  g_assert_no_error (error);
  g_assert_cmpint (kind, ==, ODD_STORE_JOB);
  g_assert_cmpuint (again->next_id, ==, job->next_id);
  g_assert_nonnull (warnings);

  odd_store_load_async (missing, NULL, finished_cb, &waiting);
  not_loaded = wait_for (&waiting);
  g_assert_null (odd_store_load_finish (not_loaded, NULL, NULL, &error));
  check_error (error, ODD_STORE_ERROR_READ, "missing", "is not there");
}

#define ADD(path, func) g_test_add (path, Fixture, NULL, set_up, func, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/save/and-load", test_save_and_load);
  ADD ("/save/permissions", test_permissions);
  ADD ("/save/link", test_link);
  ADD ("/save/wrong-target", test_wrong_target);
  ADD ("/save/full-disk", test_full_disk);
  ADD ("/save/read-only-folder", test_read_only_folder);
  ADD ("/save/protected-file", test_protected_file);
  ADD ("/save/bad-files", test_bad_files);
  ADD ("/save/fingerprint", test_fingerprint);
  ADD ("/save/killed", test_killed);
  ADD ("/save/async", test_async);
  return g_test_run ();
}
