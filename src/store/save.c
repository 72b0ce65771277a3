#include "config.h"

#include "store/save.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include "store/job-writer.h"
#include "store/store-error.h"

#define MOST_LINKS 16

static gboolean
fail (int code, const char *path, GError **error)
{
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *parent = g_path_get_dirname (path), *folder = g_filename_display_name (parent);

  if (code == ENOSPC || code == EDQUOT || code == EFBIG)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE,
                 _("There is no room to save “%s” in “%s”; free some space or save it elsewhere."), name, folder);
  else if (code == EACCES || code == EPERM || code == EROFS)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE,
                 _("You have no right to save “%s” in “%s”; save it elsewhere or change the permissions."), name, folder);
  else if (code == ENOENT || code == ENOTDIR)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE,
                 _("“%s” cannot be saved, for the folder “%s” is not there; make it or save elsewhere."), name, folder);
  else if (code == EISDIR)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE,
                 _("“%s” in “%s” is a folder or a device; save under another name."), name, folder);
  else
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE,
                 _("“%s” cannot be saved in “%s”: %s; save it elsewhere."), name, folder, g_strerror (code));
  return FALSE;
}

/* (transfer full): where the links from @path lead, also when nothing is there yet; NULL with errno set */
static char *
follow_links (const char *path)
{
  char *target = g_strdup (path);

  for (guint i = 0; i < MOST_LINKS; i++)
    {
      g_autofree char *link = g_file_read_link (target, NULL), *folder = NULL, *from = target;

      if (!link)
        return g_steal_pointer (&from);
      folder = g_path_get_dirname (from);
      target = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
    }
  g_free (target);
  errno = ELOOP;
  return NULL;
}

/* What is to be replaced may be replaced? @out_there: whether there is a file. 0, or an errno */
static int
look_at_target (const char *target, struct stat *out_info, gboolean *out_there)
{
  *out_there = stat (target, out_info) == 0;
  if (!*out_there)
    return errno == ENOENT ? 0 : errno;
  if (!S_ISREG (out_info->st_mode))
    return EISDIR;
  /* Renaming would go past a write-protected file; whoever protected it did not mean that. */
  return access (target, W_OK) == 0 ? 0 : errno;
}

static int
write_all (int fd, GBytes *bytes)
{
  gsize left;
  const char *data = g_bytes_get_data (bytes, &left);

  while (left > 0)
    {
      const ssize_t n = write (fd, data, left);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return errno;
      if (n == 0)
        return ENOSPC;
      data += n;
      left -= (gsize) n;
    }
  return fsync (fd) == 0 ? 0 : errno;
}

static int
copy_permissions (int fd, const struct stat *old)
{
  /* The owner stays who saves; a group the user is in can be kept. Changing it drops bits, so it comes first. */
  if (fchown (fd, (uid_t) -1, old->st_gid) != 0 && errno != EPERM && errno != EINVAL)
    return errno;
  return fchmod (fd, old->st_mode & 07777) == 0 ? 0 : errno;
}

static void
flush_folder (const char *folder)
{
  const int fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  /* Some file systems cannot; the file itself is safe by then. */
  if (fd < 0)
    return;
  fsync (fd);
  close (fd);
}

/* 0, or an errno; the descriptor is closed either way */
static int
fill_file (int fd, GBytes *bytes, const struct stat *old)
{
  int code = write_all (fd, bytes);

  if (code == 0 && old)
    code = copy_permissions (fd, old);
  if (close (fd) != 0 && code == 0)
    code = errno;
  return code;
}

/* 0, or an errno */
static int
replace_file (const char *target, GBytes *bytes, const struct stat *old)
{
  g_autofree char *folder = g_path_get_dirname (target);
  g_autofree char *temporary = g_build_filename (folder, ".oddment-save-XXXXXX", NULL);
  const int fd = g_mkstemp_full (temporary, O_WRONLY | O_CLOEXEC, old ? 0600 : 0666);
  int code;

  if (fd < 0)
    return errno;
  code = fill_file (fd, bytes, old);
  if (code == 0 && g_rename (temporary, target) != 0)
    code = errno;
  if (code != 0)
    g_unlink (temporary);
  else
    flush_folder (folder);
  return code;
}

gboolean
odd_store_save_bytes (GBytes *bytes, const char *path, GError **error)
{
  g_autofree char *target = NULL;
  struct stat old;
  gboolean there;
  int code;

  g_return_val_if_fail (bytes != NULL && path != NULL, FALSE);

  target = follow_links (path);
  if (!target)
    return fail (errno, path, error);
  code = look_at_target (target, &old, &there);
  if (code == 0)
    code = replace_file (target, bytes, there ? &old : NULL);
  return code == 0 || fail (code, target, error);
}

gboolean
odd_store_save (OddJob *job, const char *path, GError **error)
{
  g_autoptr(GBytes) bytes = odd_job_write_bytes (job, error);

  return bytes && odd_store_save_bytes (bytes, path, error);
}

/* --- in a thread --- */

typedef struct
{
  OddJob *job;
  char *path;
} Saving;

static void
saving_free (Saving *self)
{
  odd_job_unref (self->job);
  g_free (self->path);
  g_free (self);
}

static void
save_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Saving *saving = data;
  GError *error = NULL;
  g_autoptr(GBytes) bytes = odd_job_write_bytes (saving->job, &error);

  if (g_task_return_error_if_cancelled (task))
    g_clear_error (&error);
  else if (!bytes || !odd_store_save_bytes (bytes, saving->path, &error))
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

void
odd_store_save_async (OddJob *job, const char *path, GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr(GTask) task = g_task_new (NULL, cancellable, callback, data);
  Saving *saving;

  g_return_if_fail (job != NULL && path != NULL);

  saving = g_new0 (Saving, 1);
  saving->job = odd_job_ref (job);
  saving->path = g_strdup (path);
  g_task_set_source_tag (task, odd_store_save_async);
  /* What was written is written, whether or not somebody cancelled meanwhile. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, saving, (GDestroyNotify) saving_free);
  g_task_run_in_thread (task, save_thread);
}

gboolean
odd_store_save_finish (GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_async_result_is_tagged (result, odd_store_save_async), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}
