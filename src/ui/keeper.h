/* Keeps a document safe: opens and saves it, keeps copies of what is not saved yet, and notices when another program changes its file. */
#pragma once

#include "cloth/document.h"

G_BEGIN_DECLS

#define ODD_TYPE_KEEPER (odd_keeper_get_type ())
G_DECLARE_FINAL_TYPE (OddKeeper, odd_keeper, ODD, KEEPER, GObject)

/* Properties: busy (gboolean, read only): reading or writing the maker's file.
 * Signals: changed-outside (): the file on disk is not the one last read or saved. */
OddKeeper *odd_keeper_new (OddDocument *document);

typedef void (*OddKeeperDone) (OddKeeper *self, gboolean ok, const char *message, gpointer data);
/* @message: on failure one sentence; on success what the reader had to say, or NULL. @done is called once, from the main loop.
 * A scrap list becomes a new job without a file. */
void odd_keeper_open (OddKeeper *self, GFile *file, OddKeeperDone done, gpointer data);
/* Saves the job as it now is; the document is marked saved with it. */
void odd_keeper_save (OddKeeper *self, GFile *file, OddKeeperDone done, gpointer data);
/* Opens what a crash left; the document then belongs to @original_path (nullable) and is not saved. */
void odd_keeper_recover (OddKeeper *self, const char *autosave_path, const char *original_path, const char *autosave_id, OddKeeperDone done, gpointer data);
/* The maker knows and wants her own: no more is said about this change. */
void odd_keeper_keep_mine (OddKeeper *self);
/* Is the file on disk another one than was last read or saved? Looks at the disk: ask before writing over it. */
gboolean odd_keeper_is_changed_outside (OddKeeper *self);
/* Nothing is to be recovered of this document any more: it was closed on purpose. */
void odd_keeper_forget (OddKeeper *self);
/* Writes the copy now if there is something unsaved; for tests and for leaving. */
void odd_keeper_autosave_now (OddKeeper *self);

G_END_DECLS
