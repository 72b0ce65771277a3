#include "config.h"

#include <archive.h>
#include <archive_entry.h>
#include <string.h>
#include "sample.h"
#include "store/store-error.h"
#include "store/zip.h"

static void
check_refused (GBytes *bytes, const char *said)
{
  g_autoptr(GError) error = NULL;

  if (odd_zip_read (bytes, "tub.oddment", &error))
    g_error ("read, though it should not be: %s", said);
  g_assert_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN);
  g_assert_nonnull (strstr (error->message, "“tub.oddment”"));
  if (!strstr (error->message, said))
    g_error ("“%s” does not say “%s”", error->message, said);
}

static void
test_back (void)
{
  g_autoptr(GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_zip_entry_free), back = NULL;
  g_autoptr(GBytes) text = g_bytes_new_static ("{}", 2), none = g_bytes_new_static ("", 0), zip = NULL, again = NULL;
  g_autoptr(GError) error = NULL;

  g_ptr_array_add (entries, odd_zip_entry_new ("job.json", text));
  g_ptr_array_add (entries, odd_zip_entry_new ("pictures/a.png", none));
  zip = odd_zip_write (entries, &error);
  g_assert_no_error (error);
  g_assert_true (odd_zip_sniff (zip));
  again = odd_zip_write (entries, &error);
  g_assert_true (g_bytes_equal (zip, again));
  back = odd_zip_read (zip, "x", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (back->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const OddZipEntry *before = entries->pdata[i], *after = back->pdata[i];

      g_assert_cmpstr (before->name, ==, after->name);
      g_assert_true (g_bytes_equal (before->bytes, after->bytes));
    }
}

static void
test_paths (void)
{
  static const char *const names[] = { "../job.json", "/job.json", "a/../../b", "a/b\\c", "..\\a", "C:x", "a//b", "./a", "a/..", "a\nb" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr(GBytes) zip = sample_zip ("job.json", "{}", names[i], "x", NULL);

      g_test_message ("%s", names[i]);
      check_refused (zip, "a path outside of itself");
    }
}

static void
test_twice (void)
{
  g_autoptr(GBytes) zip = sample_zip ("job.json", "{}", "job.json", "{}", NULL);

  check_refused (zip, "“job.json” stands twice");
}

static void
test_damaged (void)
{
  g_autoptr(GBytes) zip = sample_zip ("job.json", "{\"a\": 1, \"b\": 2}", NULL), nothing = g_bytes_new_static ("PK\3\4", 4);
  const gsize size = g_bytes_get_size (zip);

  check_refused (nothing, "damaged or cut off");
  for (gsize length = 4; length < size; length += 7)
    {
      g_autoptr(GBytes) cut_off = g_bytes_new_from_bytes (zip, 0, length);

      check_refused (cut_off, "damaged or cut off");
    }
}

static void
test_wrong_sum (void)
{
  g_autoptr(GPtrArray) entries = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_zip_entry_free);
  g_autoptr(GBytes) text = g_bytes_new_static ("0123456789", 10), zip = NULL, bad = NULL;
  gsize size;
  char *data;

  g_test_summary ("A flipped bit in a stored entry is noticed by the archive's own check sum");
  g_ptr_array_add (entries, odd_zip_entry_new ("a.png", text));
  zip = odd_zip_write (entries, NULL);
  data = g_bytes_unref_to_data (g_steal_pointer (&zip), &size);
  for (gsize i = 0; i + 10 < size; i++)
    if (memcmp (data + i, "0123456789", 10) == 0)
      data[i] ^= 1;
  bad = g_bytes_new_take (data, size);
  check_refused (bad, "damaged or cut off");
}

/* An archive that libarchive writes with a password, a link, or a very large entry. */
static GBytes *
odd_archive (const char *passphrase, mode_t type, gsize length)
{
  struct archive *archive = archive_write_new ();
  struct archive_entry *entry = archive_entry_new ();
  const gsize room = 2 * 1024 * 1024;
  g_autofree char *buffer = g_malloc (room), *block = g_malloc0 (65536);
  gsize used = 0;

  archive_write_set_format_zip (archive);
  if (passphrase)
    {
      g_assert_cmpint (archive_write_set_options (archive, "zip:encryption=traditional"), ==, ARCHIVE_OK);
      g_assert_cmpint (archive_write_set_passphrase (archive, passphrase), ==, ARCHIVE_OK);
    }
  g_assert_cmpint (archive_write_open_memory (archive, buffer, room, &used), ==, ARCHIVE_OK);
  archive_entry_set_pathname (entry, "job.json");
  archive_entry_set_filetype (entry, type);
  archive_entry_set_perm (entry, 0644);
  archive_entry_set_size (entry, (la_int64_t) length);
  if (type == AE_IFLNK)
    archive_entry_set_symlink (entry, "/etc/hostname");
  g_assert_cmpint (archive_write_header (archive, entry), ==, ARCHIVE_OK);
  for (gsize done = 0; done < length; done += 65536)
    g_assert_cmpint (archive_write_data (archive, block, MIN (65536, length - done)), >=, 0);
  archive_entry_free (entry);
  g_assert_cmpint (archive_write_close (archive), ==, ARCHIVE_OK);
  archive_write_free (archive);
  return g_bytes_new (buffer, used);
}

static void
test_encrypted (void)
{
  g_autoptr(GBytes) zip = odd_archive ("secret", AE_IFREG, 20);

  check_refused (zip, "is encrypted");
}

static void
test_link (void)
{
  g_autoptr(GBytes) zip = odd_archive (NULL, AE_IFLNK, 0);

  check_refused (zip, "is a link");
}

/* The central directory's (and the local header's) uncompressed size says @claimed. */
static GBytes *
lie_about_size (GBytes *zip, guint32 claimed)
{
  gsize size;
  guint8 *data = g_memdup2 (g_bytes_get_data (zip, &size), g_bytes_get_size (zip));

  for (gsize i = 0; i + 46 <= size; i++)
    if (memcmp (data + i, "PK\1\2", 4) == 0)
      {
        const guint32 little = GUINT32_TO_LE (claimed);

        memcpy (data + i + 24, &little, 4);
      }
  return g_bytes_new_take (data, size);
}

static void
test_too_large (void)
{
  g_autoptr(GBytes) bomb = odd_archive (NULL, AE_IFREG, (gsize) ODD_ZIP_MAX_UNPACKED + 1), lying = lie_about_size (bomb, 100);
  g_autoptr(GError) error = NULL;

  g_test_summary ("A quarter megabyte that unpacks to 256 MB and a byte is refused, also when it lies about that");
  g_assert_cmpuint (g_bytes_get_size (bomb), <, 1024 * 1024);
  check_refused (bomb, "larger than 256 MB");
  g_assert_null (odd_zip_read (lying, "tub.oddment", &error));
  g_assert_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/zip/back", test_back);
  g_test_add_func ("/zip/paths", test_paths);
  g_test_add_func ("/zip/twice", test_twice);
  g_test_add_func ("/zip/damaged", test_damaged);
  g_test_add_func ("/zip/wrong-sum", test_wrong_sum);
  g_test_add_func ("/zip/encrypted", test_encrypted);
  g_test_add_func ("/zip/link", test_link);
  g_test_add_func ("/zip/too-large", test_too_large);
  return g_test_run ();
}
