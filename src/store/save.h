/* Saving without ever losing what was there: a temporary file beside the target, flushed to the disk, then renamed over it. */
#pragma once

#include "cloth/job.h"
#include <gio/gio.h>

G_BEGIN_DECLS

/*
 * odd_store_save_bytes:
 * @path: in the file system's encoding; a link is followed, the file it leads to is replaced
 *
 * Keeps the old file's permissions and, where the user may, its group. When it fails nothing has changed and nothing is left behind; when the
 * machine stops in the middle the old file is whole, and at most a hidden “.oddment-save-XXXXXX” lies beside it.
 *
 * Returns: %TRUE when the bytes are on the disk; else %FALSE with ODD_STORE_ERROR_WRITE: no room, no right to write, a folder
 */
gboolean odd_store_save_bytes (GBytes *bytes, const char *path, GError **error);

/* The whole job as a job file. */
gboolean odd_store_save (OddJob *job, const char *path, GError **error);

/* In a thread, of the job as it is now; edits may go on. A save that is cancelled before it begins to write gives G_IO_ERROR_CANCELLED and has
 * changed nothing. */
void odd_store_save_async (OddJob *job, const char *path, GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data);
gboolean odd_store_save_finish (GAsyncResult *result, GError **error);

G_END_DECLS
