#include "config.h"

#include "store/load.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <sys/stat.h>
#include <unistd.h>
#include "store/job-reader.h"
#include "store/scrap-list.h"
#include "store/store-error.h"
#include "store/zip.h"

/* --- the file --- */

static void
set_open_error (int code, const char *name, GError **error)
{
  if (code == ENOENT || code == ENOTDIR)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("“%s” is not there; check its name and folder."), name);
  else if (code == EACCES || code == EPERM)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("You have no right to read “%s”; change its permissions or copy it."), name);
  else
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("“%s” cannot be read: %s; try again or copy it to another place."), name, g_strerror (code));
}

static gboolean
check_kind (const struct stat *info, const char *name, GError **error)
{
  if (S_ISDIR (info->st_mode))
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("“%s” is a folder; choose a file in it."), name);
  else if (!S_ISREG (info->st_mode))
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("“%s” is not a file; choose another one."), name);
  else if (info->st_size == 0)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("“%s” is empty; open an earlier copy."), name);
  else if (info->st_size > ODD_STORE_MAX_FILE)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_READ, _("“%s” is larger than 256 MB, which no job is; choose another file."), name);
  else
    return TRUE;
  return FALSE;
}

/* Read, not mapped: a file that another program cuts short must not take us down with it. */
static GBytes *
read_open_file (int fd, const char *name, GError **error)
{
  g_autoptr(GByteArray) bytes = NULL;
  struct stat info;
  guint8 buffer[65536];
  ssize_t n;

  if (fstat (fd, &info) != 0)
    return set_open_error (errno, name, error), NULL;
  if (!check_kind (&info, name, error))
    return NULL;
  bytes = g_byte_array_sized_new ((guint) info.st_size);
  while ((n = read (fd, buffer, sizeof buffer)) != 0)
    {
      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return set_open_error (errno, name, error), NULL;
      if (bytes->len + (gsize) n > ODD_STORE_MAX_FILE)
        return set_open_error (EFBIG, name, error), NULL;
      g_byte_array_append (bytes, buffer, (guint) n);
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

GBytes *
odd_store_read_file (const char *path, GError **error)
{
  g_autofree char *name = g_filename_display_basename (path);
  const int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);   /* a pipe must not make us wait */
  GBytes *bytes;

  g_return_val_if_fail (path != NULL, NULL);

  if (fd < 0)
    return set_open_error (errno, name, error), NULL;
  bytes = read_open_file (fd, name, error);
  close (fd);
  return bytes;
}

char *
odd_store_fingerprint (const char *path)
{
  struct stat info;

  g_return_val_if_fail (path != NULL, NULL);

  if (stat (path, &info) != 0)
    return NULL;
  return g_strdup_printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT ".%09ld %" G_GUINT64_FORMAT, (gint64) info.st_size,
                          (gint64) info.st_mtim.tv_sec, info.st_mtim.tv_nsec, (guint64) info.st_ino);
}

/* --- the job in it --- */

OddJob *
odd_store_load_bytes (GBytes *bytes, const char *name, OddStoreKind *out_kind, GPtrArray **out_warnings, GError **error)
{
  const OddStoreKind kind = odd_zip_sniff (bytes) ? ODD_STORE_JOB : ODD_STORE_SCRAP_LIST;
  OddJob *job;

  if (kind == ODD_STORE_JOB)
    job = odd_job_read_bytes (bytes, name, out_warnings, error);
  else
    job = odd_job_new_from_scrap_list (bytes, name, error);
  if (!job)
    return NULL;
  if (kind == ODD_STORE_SCRAP_LIST && out_warnings)
    *out_warnings = g_ptr_array_new_with_free_func (g_free);
  if (out_kind)
    *out_kind = kind;
  return job;
}

static OddJob *
load (const char *path, OddStoreKind *out_kind, GPtrArray **out_warnings, GError **error)
{
  g_autofree char *name = g_filename_display_basename (path);
  g_autoptr(GBytes) bytes = odd_store_read_file (path, error);

  return bytes ? odd_store_load_bytes (bytes, name, out_kind, out_warnings, error) : NULL;
}

OddJob *
odd_store_load (const char *path, GPtrArray **out_warnings, GError **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  return load (path, NULL, out_warnings, error);
}

/* --- in a thread --- */

typedef struct
{
  OddStoreKind kind;
  GPtrArray *warnings;
} Loaded;

static void
loaded_free (Loaded *self)
{
  g_clear_pointer (&self->warnings, g_ptr_array_unref);
  g_free (self);
}

static void
load_thread (GTask *task, gpointer source, gpointer path, GCancellable *cancellable)
{
  Loaded *loaded = g_new0 (Loaded, 1);
  GError *error = NULL;
  OddJob *job = load (path, &loaded->kind, &loaded->warnings, &error);

  g_object_set_data_full (G_OBJECT (task), "loaded", loaded, (GDestroyNotify) loaded_free);
  if (job)
    g_task_return_pointer (task, job, (GDestroyNotify) odd_job_unref);
  else
    g_task_return_error (task, error);
}

void
odd_store_load_async (const char *path, GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr(GTask) task = g_task_new (NULL, cancellable, callback, data);

  g_return_if_fail (path != NULL);

  g_task_set_source_tag (task, odd_store_load_async);
  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, load_thread);
}

OddJob *
odd_store_load_finish (GAsyncResult *result, OddStoreKind *out_kind, GPtrArray **out_warnings, GError **error)
{
  Loaded *loaded;
  OddJob *job;

  g_return_val_if_fail (g_async_result_is_tagged (result, odd_store_load_async), NULL);

  job = g_task_propagate_pointer (G_TASK (result), error);
  if (!job)
    return NULL;
  loaded = g_object_get_data (G_OBJECT (result), "loaded");
  if (out_kind)
    *out_kind = loaded->kind;
  if (out_warnings)
    *out_warnings = g_steal_pointer (&loaded->warnings);
  return job;
}
