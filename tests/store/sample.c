#include "config.h"

#include "sample.h"

#include <archive.h>
#include <archive_entry.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <string.h>
#include "store/job-reader.h"
#include "store/job-writer.h"
#include "store/picture-file.h"

GBytes *
sample_picture (void)
{
  g_autoptr(GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 3, 2);
  g_autoptr(GError) error = NULL;
  char *data;
  gsize size;

  gdk_pixbuf_fill (pixbuf, 0x336699ff);
  gdk_pixbuf_save_to_buffer (pixbuf, &data, &size, "png", &error, NULL);
  g_assert_no_error (error);
  return g_bytes_new_take (data, size);
}

char *
sample_picture_name (void)
{
  g_autoptr(GBytes) bytes = sample_picture ();
  g_autoptr(GError) error = NULL;
  OddPicture *picture = odd_picture_new_checked (bytes, "sample", &error);
  char *name;

  g_assert_no_error (error);
  name = g_strdup (picture->name);
  odd_picture_unref (picture);
  return name;
}

char *
sample_text (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "store", "sample-job.json", NULL);
  g_autofree char *text = NULL, *name = sample_picture_name ();
  g_autoptr(GError) error = NULL;
  GString *named;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  named = g_string_new (text);
  g_assert_cmpuint (g_string_replace (named, "PICTURE.png", name, 0), ==, 2);
  return g_string_free (named, FALSE);
}

OddJob *
sample_job (void)
{
  g_autofree char *text = sample_text (), *name = sample_picture_name ();
  g_autoptr(GBytes) bytes = sample_picture ();
  g_autoptr(GPtrArray) pictures = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_picture_unref);
  g_autoptr(GError) error = NULL;
  OddJob *job;

  g_ptr_array_add (pictures, odd_picture_new (name, bytes));
  job = odd_job_read_json (text, strlen (text), "sample-job.json", pictures, NULL, &error);
  g_assert_no_error (error);
  return job;
}

GBytes *
sample_file (void)
{
  g_autoptr(OddJob) job = sample_job ();
  g_autoptr(GError) error = NULL;
  GBytes *bytes = odd_job_write_bytes (job, &error);

  g_assert_no_error (error);
  return bytes;
}

char *
sample_with (const char *text, const char *from, const char *to)
{
  GString *changed = g_string_new (text);
  const char *found = strstr (text, from);

  if (!found || strstr (found + 1, from))
    g_error ("“%s” does not stand once in the sample", from);
  g_string_replace (changed, from, to, 1);
  return g_string_free (changed, FALSE);
}

static void
add_entry (struct archive *archive, const char *name, const char *text)
{
  struct archive_entry *entry = archive_entry_new ();

  archive_entry_set_pathname (entry, name);
  archive_entry_set_filetype (entry, AE_IFREG);
  archive_entry_set_perm (entry, 0644);
  archive_entry_set_size (entry, (la_int64_t) strlen (text));
  g_assert_cmpint (archive_write_header (archive, entry), ==, ARCHIVE_OK);
  g_assert_cmpint (archive_write_data (archive, text, strlen (text)), ==, (la_ssize_t) strlen (text));
  archive_entry_free (entry);
}

GBytes *
sample_zip (const char *first_name, ...)
{
  struct archive *archive = archive_write_new ();
  const gsize room = 4 * 1024 * 1024;
  g_autofree char *buffer = g_malloc (room);
  gsize used = 0;
  va_list args;

  archive_write_set_format_zip (archive);
  g_assert_cmpint (archive_write_open_memory (archive, buffer, room, &used), ==, ARCHIVE_OK);
  va_start (args, first_name);
  for (const char *name = first_name; name; name = va_arg (args, const char *))
    add_entry (archive, name, va_arg (args, const char *));
  va_end (args);
  g_assert_cmpint (archive_write_close (archive), ==, ARCHIVE_OK);
  archive_write_free (archive);
  return g_bytes_new (buffer, used);
}

void
sample_remove_folder (const char *folder)
{
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

guint
sample_count_files (const char *folder)
{
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir))
    n++;
  return n;
}
