#include "config.h"

#include "store/zip.h"

#include <archive.h>
#include <archive_entry.h>
#include <glib/gi18n.h>
#include <string.h>
#include "store/store-error.h"

typedef struct archive Reader;
typedef struct archive Writer;
typedef struct archive_entry Header;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Header, archive_entry_free)

OddZipEntry *
odd_zip_entry_new (const char *name, GBytes *bytes)
{
  OddZipEntry *self = g_new0 (OddZipEntry, 1);

  self->name = g_strdup (name);
  self->bytes = g_bytes_ref (bytes);
  return self;
}

void
odd_zip_entry_free (OddZipEntry *self)
{
  g_free (self->name);
  g_bytes_unref (self->bytes);
  g_free (self);
}

gboolean
odd_zip_sniff (GBytes *bytes)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);

  return size >= 4 && (memcmp (data, "PK\3\4", 4) == 0 || memcmp (data, "PK\5\6", 4) == 0);
}

/* --- reading --- */

typedef struct
{
  Reader *archive;
  const char *name;
  GPtrArray *entries;
  GHashTable *names;          /* of entries, not owned */
  guint64 unpacked;
  GError *error;
} Unpacking;

static gboolean G_GNUC_PRINTF (2, 3)
fail (Unpacking *self, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (&self->error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN, _("“%s” cannot be opened: %s."), self->name, what);
  return FALSE;
}

static gboolean
fail_broken (Unpacking *self)
{
  return fail (self, _("its ZIP archive is damaged or cut off; open an earlier copy"));
}

static gboolean
fail_size (Unpacking *self)
{
  return fail (self, _("unpacked it is larger than 256 MB; take pictures out or make them smaller"));
}

/* Relative, inside the archive, and the same on every system. */
static gboolean
name_is_plain (const char *name)
{
  g_auto(GStrv) parts = NULL;

  if (name[0] == '\0' || strlen (name) > 255 || strchr (name, '\\') || strchr (name, ':') || !g_utf8_validate (name, -1, NULL))
    return FALSE;
  for (const char *p = name; *p; p++)
    if ((guchar) *p < 0x20)
      return FALSE;
  parts = g_strsplit (name, "/", -1);
  for (guint i = 0; parts[i]; i++)
    if (parts[i][0] == '\0' || strcmp (parts[i], ".") == 0 || strcmp (parts[i], "..") == 0)
      return FALSE;
  return TRUE;
}

static gboolean
check_header (Unpacking *self, Header *header, const char *name)
{
  if (!name || !name_is_plain (name))
    return fail (self, _("the archive names a path outside of itself, “%s”; take that entry out"), name ? name : "?");
  if (archive_entry_filetype (header) != AE_IFREG || archive_entry_hardlink (header))
    return fail (self, _("the entry “%s” is a link or a device; take it out"), name);
  if (archive_entry_is_encrypted (header))
    return fail (self, _("the entry “%s” is encrypted; save it again without a password"), name);
  if (g_hash_table_contains (self->names, name))
    return fail (self, _("the entry “%s” stands twice in the archive; take one out"), name);
  if (self->entries->len >= ODD_ZIP_MAX_ENTRIES)
    return fail (self, _("the archive has more than %d entries; take pictures out"), ODD_ZIP_MAX_ENTRIES);
  if (archive_entry_size_is_set (header)
      && (archive_entry_size (header) < 0 || (guint64) archive_entry_size (header) > ODD_ZIP_MAX_UNPACKED - self->unpacked))
    return fail_size (self);
  return TRUE;
}

/* (transfer full): what the entry holds, or NULL */
static GBytes *
unpack_data (Unpacking *self)
{
  g_autoptr(GByteArray) data = g_byte_array_new ();
  guint8 buffer[16384];
  la_ssize_t n;

  while ((n = archive_read_data (self->archive, buffer, sizeof buffer)) > 0)
    {
      self->unpacked += (guint64) n;
      if (self->unpacked > ODD_ZIP_MAX_UNPACKED)
        return fail_size (self), NULL;
      g_byte_array_append (data, buffer, (guint) n);
    }
  if (n < 0)
    return fail_broken (self), NULL;
  return g_byte_array_free_to_bytes (g_steal_pointer (&data));
}

static gboolean
unpack_entry (Unpacking *self, Header *header)
{
  const char *name = archive_entry_pathname_utf8 (header);
  g_autoptr(GBytes) bytes = NULL;
  OddZipEntry *entry;

  if (!name)
    name = archive_entry_pathname (header);
  if (name && g_str_has_suffix (name, "/") && archive_entry_filetype (header) == AE_IFDIR)
    {
      g_autofree char *folder = g_strndup (name, strlen (name) - 1);

      return name_is_plain (folder) || fail (self, _("the archive names a path outside of itself, “%s”; take that entry out"), name);
    }
  if (!check_header (self, header, name))
    return FALSE;
  bytes = unpack_data (self);
  if (!bytes)
    return FALSE;
  entry = odd_zip_entry_new (name, bytes);
  g_ptr_array_add (self->entries, entry);
  g_hash_table_add (self->names, entry->name);
  return TRUE;
}

static gboolean
unpack_all (Unpacking *self, GBytes *bytes)
{
  g_autoptr(Header) header = archive_entry_new ();
  gsize size;
  const void *data = g_bytes_get_data (bytes, &size);
  int status;

  /* The central directory counts, not what lies about before it. */
  archive_read_support_format_zip_seekable (self->archive);
  if (archive_read_open_memory (self->archive, data, size) != ARCHIVE_OK)
    return fail_broken (self);
  while ((status = archive_read_next_header2 (self->archive, header)) == ARCHIVE_OK)
    if (!unpack_entry (self, header))
      return FALSE;
  return status == ARCHIVE_EOF || fail_broken (self);
}

GPtrArray *
odd_zip_read (GBytes *bytes, const char *name, GError **error)
{
  Unpacking self = { .name = name };
  g_autoptr(GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_zip_entry_free);
  gboolean good;

  g_return_val_if_fail (bytes != NULL && name != NULL, NULL);

  self.archive = archive_read_new ();
  self.entries = entries;
  self.names = g_hash_table_new (g_str_hash, g_str_equal);
  good = unpack_all (&self, bytes);
  archive_read_free (self.archive);
  g_hash_table_unref (self.names);
  if (good)
    return g_steal_pointer (&entries);
  g_propagate_error (error, self.error);
  return NULL;
}

/* --- writing --- */

static la_ssize_t
write_cb (Writer *archive, void *data, const void *buffer, size_t length)
{
  g_byte_array_append (data, buffer, (guint) length);
  return (la_ssize_t) length;
}

static gboolean
pack_entry (Writer *archive, const OddZipEntry *entry)
{
  g_autoptr(Header) header = archive_entry_new ();
  gsize size;
  const void *data = g_bytes_get_data (entry->bytes, &size);

  if (g_str_has_suffix (entry->name, ".json"))
    archive_write_zip_set_compression_deflate (archive);
  else
    archive_write_zip_set_compression_store (archive);
  archive_entry_set_pathname (header, entry->name);
  archive_entry_set_filetype (header, AE_IFREG);
  archive_entry_set_perm (header, 0644);
  archive_entry_set_size (header, (la_int64_t) size);
  /* Before 1980: libarchive then says 1 January 1980 in every time zone, where a time in 1980 would be made local. */
  archive_entry_set_mtime (header, 0, 0);
  return archive_write_header (archive, header) == ARCHIVE_OK
         && (size == 0 || archive_write_data (archive, data, size) == (la_ssize_t) size);
}

static gboolean
pack_all (Writer *archive, GPtrArray *entries, GByteArray *out)
{
  archive_write_set_format_zip (archive);
  archive_write_set_bytes_in_last_block (archive, 1);
  if (archive_write_open (archive, out, NULL, write_cb, NULL) != ARCHIVE_OK)
    return FALSE;
  for (guint i = 0; i < entries->len; i++)
    if (!pack_entry (archive, g_ptr_array_index (entries, i)))
      return FALSE;
  return archive_write_close (archive) == ARCHIVE_OK;
}

GBytes *
odd_zip_write (GPtrArray *entries, GError **error)
{
  g_autoptr(GByteArray) out = g_byte_array_new ();
  Writer *archive = archive_write_new ();
  const gboolean good = pack_all (archive, entries, out);

  if (!good)
    g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE, _("The job could not be packed: %s"), archive_error_string (archive));
  archive_write_free (archive);
  return good ? g_byte_array_free_to_bytes (g_steal_pointer (&out)) : NULL;
}
