#include "config.h"

#include "store/autosave.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>
#include "store/json-cursor.h"
#include "store/json-guard.h"
#include "store/json-printer.h"
#include "store/load.h"
#include "store/save.h"
#include "store/store-error.h"

void
odd_autosave_free (OddAutosave *self)
{
  g_free (self->id);
  g_free (self->path);
  g_free (self->original_path);
  g_free (self);
}

char *
odd_autosave_dup_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "oddment", "autosave", NULL);
}

static char *
dup_path (const char *id, const char *ending)
{
  g_autofree char *folder = odd_autosave_dup_folder (), *name = g_strconcat (id, ending, NULL);

  return g_build_filename (folder, name, NULL);
}

/* --- processes --- */

/* When the process began, in the kernel's ticks (proc(5), field 22 of stat): numbers of processes come again. 0: not there. */
static guint64
process_start (gint64 pid)
{
  g_autofree char *path = g_strdup_printf ("/proc/%" G_GINT64_FORMAT "/stat", pid);
  g_autofree char *text = NULL;
  g_auto(GStrv) fields = NULL;
  const char *after_name;

  if (!g_file_get_contents (path, &text, NULL, NULL))
    return 0;
  after_name = strrchr (text, ')');            /* the name may hold spaces and brackets */
  if (!after_name)
    return 0;
  fields = g_strsplit (after_name + 1, " ", -1);
  return g_strv_length (fields) > 20 ? g_ascii_strtoull (fields[20], NULL, 10) : 0;
}

static gboolean
process_lives (gint64 pid, guint64 start)
{
  const guint64 now = process_start (pid);

  if (now != 0 && start != 0)
    return now == start;
  return kill ((pid_t) pid, 0) == 0 || errno == EPERM;
}

/* --- the record beside the copy --- */

static GBytes *
print_record (const char *original_path, gint64 time, GError **error)
{
  g_autoptr(OddPrinter) printer = odd_printer_new ();

  odd_printer_begin_object (printer, NULL, NULL);
  if (original_path)
    {
      /* As a URI, which is UTF-8 whatever the file system holds. */
      g_autofree char *full = g_canonicalize_filename (original_path, NULL), *uri = g_filename_to_uri (full, NULL, error);

      if (!uri)
        return NULL;
      odd_printer_string (printer, "original", uri);
    }
  odd_printer_double (printer, "time", (double) time);
  odd_printer_double (printer, "pid", (double) getpid ());
  odd_printer_double (printer, "pid_start", (double) process_start (getpid ()));
  odd_printer_end_object (printer);
  return odd_printer_finish (printer, error);
}

/* (transfer full), or NULL when the record is broken or its process lives */
static OddAutosave *
take_record (OddCursor *cursor, const char *id)
{
  const char *uri = odd_cursor_string (cursor, "original", NULL);
  const double time = odd_cursor_double (cursor, "time", 0, 0, 1e15), pid = odd_cursor_double (cursor, "pid", 0, 1, G_MAXINT32);
  const double start = odd_cursor_double (cursor, "pid_start", 0, 0, 1e15);
  OddAutosave *self;

  if (odd_reading_failed (cursor->reading) || (pid > 0 && process_lives ((gint64) pid, (guint64) start)))
    return NULL;
  self = g_new0 (OddAutosave, 1);
  self->id = g_strdup (id);
  self->path = dup_path (id, ".oddment");
  self->original_path = uri ? g_filename_from_uri (uri, NULL, NULL) : NULL;
  self->time = (gint64) time;
  return self;
}

static OddAutosave *
read_record (const char *id)
{
  g_autofree char *path = dup_path (id, ".json");
  g_autoptr(GBytes) bytes = odd_store_read_file (path, NULL);
  g_autoptr(JsonNode) root = NULL;
  OddReading reading;
  OddCursor cursor;
  OddAutosave *self;

  if (bytes)
    root = odd_json_parse_object (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), id, NULL);
  if (!root)
    return NULL;
  odd_reading_init (&reading, id);
  odd_cursor_init (&cursor, &reading, json_node_get_object (root));
  self = take_record (&cursor, id);
  odd_cursor_leave (&cursor);
  g_ptr_array_unref (reading.warnings);
  g_clear_error (&reading.error);
  return self;
}

/* --- writing --- */

gboolean
odd_autosave_write (const char *id, OddJob *job, const char *original_path, gint64 time, GError **error)
{
  g_autofree char *folder = odd_autosave_dup_folder (), *path = NULL, *record_path = NULL;
  g_autoptr(GBytes) record = NULL;

  g_return_val_if_fail (id != NULL && g_uuid_string_is_valid (id) && job != NULL, FALSE);

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE,
                   _("Unsaved work cannot be kept in “%s”: %s; save the job often."), folder, g_strerror (errno));
      return FALSE;
    }
  record = print_record (original_path, time, error);
  path = dup_path (id, ".oddment");
  record_path = dup_path (id, ".json");
  /* The record first: a copy without one would not be found, a record without a copy does not matter. */
  return record && odd_store_save_bytes (record, record_path, error) && odd_store_save (job, path, error);
}

typedef struct
{
  char *id;
  OddJob *job;
  char *original_path;
  gint64 time;
} Writing;

static void
writing_free (Writing *self)
{
  g_free (self->id);
  odd_job_unref (self->job);
  g_free (self->original_path);
  g_free (self);
}

static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Writing *writing = data;
  GError *error = NULL;

  if (odd_autosave_write (writing->id, writing->job, writing->original_path, writing->time, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

void
odd_autosave_write_async (const char *id, OddJob *job, const char *original_path, gint64 time, GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr(GTask) task = g_task_new (NULL, NULL, callback, data);
  Writing *writing;

  g_return_if_fail (id != NULL && job != NULL);

  writing = g_new0 (Writing, 1);
  writing->id = g_strdup (id);
  writing->job = odd_job_ref (job);
  writing->original_path = g_strdup (original_path);
  writing->time = time;
  g_task_set_source_tag (task, odd_autosave_write_async);
  g_task_set_task_data (task, writing, (GDestroyNotify) writing_free);
  g_task_run_in_thread (task, write_thread);
}

gboolean
odd_autosave_write_finish (GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_async_result_is_tagged (result, odd_autosave_write_async), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}

/* --- afterwards --- */

static int
compare_autosaves (gconstpointer pa, gconstpointer pb)
{
  const OddAutosave *a = *(OddAutosave *const *) pa, *b = *(OddAutosave *const *) pb;

  if (a->time != b->time)
    return a->time > b->time ? -1 : 1;
  return strcmp (a->id, b->id);
}

GPtrArray *
odd_autosave_list (void)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_autosave_free);
  g_autofree char *folder = odd_autosave_dup_folder ();
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *id = g_strndup (name, MIN (strlen (name), 36));
      g_autoptr(OddAutosave) found = NULL;

      if (!g_uuid_string_is_valid (id) || strcmp (name + 36, ".json") != 0)
        continue;
      found = read_record (id);
      if (found && g_file_test (found->path, G_FILE_TEST_IS_REGULAR))
        g_ptr_array_add (list, g_steal_pointer (&found));
    }
  g_ptr_array_sort (list, compare_autosaves);
  return list;
}

void
odd_autosave_discard (const char *id)
{
  g_autofree char *path = NULL, *record_path = NULL;

  g_return_if_fail (id != NULL && g_uuid_string_is_valid (id));

  path = dup_path (id, ".oddment");
  record_path = dup_path (id, ".json");
  g_unlink (path);
  g_unlink (record_path);
}
