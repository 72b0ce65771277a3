/* Opening a file, whatever it is: a job or a scrap list. */
#pragma once

#include "cloth/job.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define ODD_STORE_MAX_FILE (256 * 1024 * 1024)        /* bytes */

typedef enum { ODD_STORE_JOB, ODD_STORE_SCRAP_LIST } OddStoreKind;

/*
 * odd_store_load:
 * @path: in the file system's encoding
 * @out_warnings: (out) (nullable) (element-type utf8) (transfer full): what was opened all the same; untouched on error
 *
 * A ZIP is a job, anything else must be a scrap list, of which a new job is made.
 *
 * Returns: (transfer full): the job, or NULL with an #OddStoreError
 */
OddJob *odd_store_load (const char *path, GPtrArray **out_warnings, GError **error);
/* The same for bytes that are there already; @out_kind: (out) (nullable). */
OddJob *odd_store_load_bytes (GBytes *bytes, const char *name, OddStoreKind *out_kind, GPtrArray **out_warnings, GError **error);

/* In a thread. A cancelled load gives G_IO_ERROR_CANCELLED. @out_kind: a scrap list is not to be saved over. */
void odd_store_load_async (const char *path, GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data);
OddJob *odd_store_load_finish (GAsyncResult *result, OddStoreKind *out_kind, GPtrArray **out_warnings, GError **error);

/* (transfer full): the file's bytes; refused with ODD_STORE_ERROR_READ: not there, a folder, no plain file, no right to read, empty, over
 * ODD_STORE_MAX_FILE. */
GBytes *odd_store_read_file (const char *path, GError **error);

/*
 * odd_store_fingerprint:
 *
 * What changes when another program saves the file: size, time of change, inode. Compare with g_strcmp0() against the one taken after loading or
 * saving.
 *
 * Returns: (transfer full): the fingerprint, or NULL when there is no such file
 */
char *odd_store_fingerprint (const char *path);

G_END_DECLS
