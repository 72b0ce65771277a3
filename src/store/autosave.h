/* Copies of unsaved work in the user's state folder, offered again after a crash.
 *
 * Each open job has an id of its own (g_uuid_string_random()) and, under oddment/autosave/ in the state folder, ID.oddment beside ID.json, which
 * says whose copy it is, when it was made and by which process. A copy whose process is gone is what a crash left.
 */
#pragma once

#include "cloth/job.h"
#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct
{
  char *id;
  char *path;                 /* of the copy, for odd_store_load() */
  char *original_path;        /* of the job's own file, or NULL: never saved */
  gint64 time;                /* seconds since 1970 */
} OddAutosave;
void odd_autosave_free (OddAutosave *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddAutosave, odd_autosave_free)

/*
 * odd_autosave_write:
 * @id: a UUID
 * @original_path: (nullable)
 * @time: seconds since 1970
 *
 * Replaces the copy of that id, whole or not at all.
 */
gboolean odd_autosave_write (const char *id, OddJob *job, const char *original_path, gint64 time, GError **error);
/* In a thread; begin the next one for the same id only when it has finished. */
void odd_autosave_write_async (const char *id, OddJob *job, const char *original_path, gint64 time, GAsyncReadyCallback callback, gpointer data);
gboolean odd_autosave_write_finish (GAsyncResult *result, GError **error);

/* (transfer full) (element-type OddAutosave): copies whose process is gone, the latest first; empty when there are none. */
GPtrArray *odd_autosave_list (void);
/* Away with it: the job was saved, closed, or is not wanted. No harm when there is none. */
void odd_autosave_discard (const char *id);
/* (transfer full): where the copies lie */
char *odd_autosave_dup_folder (void);

G_END_DECLS
