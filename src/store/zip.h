/* ZIP archives in memory, through libarchive: read with limits, written so that the same entries are the same bytes. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

#define ODD_ZIP_MAX_UNPACKED (256 * 1024 * 1024)      /* of all entries together, bytes */
#define ODD_ZIP_MAX_ENTRIES 20000

typedef struct
{
  char *name;                 /* relative, with forward slashes */
  GBytes *bytes;
} OddZipEntry;

OddZipEntry *odd_zip_entry_new (const char *name, GBytes *bytes);   /* copies the name, refs the bytes */
void odd_zip_entry_free (OddZipEntry *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddZipEntry, odd_zip_entry_free)

/* Does it begin like a ZIP? */
gboolean odd_zip_sniff (GBytes *bytes);

/*
 * odd_zip_read:
 * @bytes: the archive
 * @name: the file's name for messages
 *
 * Refuses, with ODD_STORE_ERROR_BROKEN: a broken or cut off archive, entries that are encrypted, have no plain relative name
 * (absolute, "..", backslash, control characters), are no plain files, or stand there twice, and more than
 * ODD_ZIP_MAX_UNPACKED bytes or ODD_ZIP_MAX_ENTRIES entries. Sizes are checked before memory is taken, and again while unpacking,
 * because an archive may lie about them. Folders are passed over.
 *
 * Returns: (transfer full) (element-type OddZipEntry): the files in the archive's order, or NULL
 */
GPtrArray *odd_zip_read (GBytes *bytes, const char *name, GError **error);

/*
 * odd_zip_write:
 * @entries: (element-type OddZipEntry): in this order; names ending in .json are deflated, all else is stored as it is (pictures
 *   are packed already)
 *
 * Every entry carries 1 January 1980, the earliest time a ZIP can say, and no owner.
 *
 * Returns: (transfer full): the archive, or NULL with ODD_STORE_ERROR_WRITE
 */
GBytes *odd_zip_write (GPtrArray *entries, GError **error);

G_END_DECLS
