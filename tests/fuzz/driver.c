/* Runs a fuzz target without libFuzzer, for every day: DRIVER CORPUS ROUNDS
 *
 * First each file of the corpus as it is, then ROUNDS times one of them spoilt: bytes changed, pieces taken out, said twice or taken
 * from another file, words of JSON put in. The seed is GLib's (--seed), so that what was found can be found again; the input at hand is
 * written to a file when the target dies (FUZZ_KEEP).
 */
#include "config.h"

#include "fuzz.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

static GPtrArray *corpus;       /* (element-type GByteArray), by name */
static guint n_rounds;

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

static void
read_corpus (const char *folder)
{
  g_autoptr(GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  corpus = g_ptr_array_new_with_free_func ((GDestroyNotify) g_byte_array_unref);
  while (dir && (name = g_dir_read_name (dir)))
    g_ptr_array_add (names, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      char *data;
      gsize length;

      if (g_file_get_contents (names->pdata[i], &data, &length, NULL))
        g_ptr_array_add (corpus, g_byte_array_new_take ((guint8 *) data, length));
    }
}

static guint
below (guint n)
{
  return n > 0 ? (guint) g_test_rand_int_range (0, (int) n) : 0;
}

/* At least 1, at most @most, and no more than @there. */
static guint
some (guint most, guint there)
{
  const guint n = 1 + below (most);

  return MIN (n, there);
}

static void
insert (GByteArray *bytes, guint at, const void *data, guint length)
{
  const guint tail = bytes->len - at;

  g_byte_array_set_size (bytes, bytes->len + length);
  memmove (bytes->data + at + length, bytes->data + at, tail);
  memcpy (bytes->data + at, data, length);
}

static void
put_in_word (GByteArray *bytes)
{
  static const char *const words[] = {
    "0", "-1", "1", "2", "10", "40", "0.5", "-0.0", "1e308", "1e-320", "1e999", "4294967295", "4294967296", "9999.5", "null", "true", "false", "[]", "{}", "\"\"",
    "[", "]", "{", "}", ",", ":", "\"", "\\u0000", "\\ud800", "[0, 0]", "[[0, 0], [1, 0], [1, 1]]", "\"done\"", "\"bare\"", "\"strip\"", "\"patch\"", "-", ".", "\xff",
  };
  const char *word = words[below (G_N_ELEMENTS (words))];

  insert (bytes, below (bytes->len + 1), word, (guint) strlen (word));
}

/* A number gives way to another one, the most telling thing to do to a text that is mostly numbers. */
static void
change_number (GByteArray *bytes)
{
  static const char *const numbers[] = { "0", "1", "-1", "3", "11", "42", "1000", "0.1", "1e-7", "-9999", "60", "12.7", "100.00000000001" };
  const char *number = numbers[below (G_N_ELEMENTS (numbers))];
  guint start = below (bytes->len), end;

  while (start < bytes->len && !g_ascii_isdigit (bytes->data[start]))
    start++;
  for (end = start; end < bytes->len && (g_ascii_isdigit (bytes->data[end]) || bytes->data[end] == '.'); )
    end++;
  if (end > start)
    g_byte_array_remove_range (bytes, start, end - start);
  insert (bytes, start, number, (guint) strlen (number));
}

static void
spoil_once (GByteArray *bytes)
{
  const guint at = below (bytes->len), length = some (below (4) == 0 ? 400 : 12, bytes->len - at);
  const GByteArray *other = g_ptr_array_index (corpus, below (corpus->len));
  const guint from = below (other->len);
  g_autofree guint8 *piece = NULL;

  switch (bytes->len == 0 ? 3 : below (10))
    {
    case 0:
      bytes->data[at] = (guint8) below (256);
      break;
    case 1:
      g_byte_array_remove_range (bytes, at, length);
      break;
    case 2:
      piece = g_memdup2 (bytes->data + at, length);
      insert (bytes, below (bytes->len + 1), piece, length);
      break;
    case 3:
      insert (bytes, below (bytes->len + 1), other->data + from, some (60, other->len - from));
      break;
    case 4:
      put_in_word (bytes);
      break;
    default:
      change_number (bytes);
    }
}

/* Without GLib's care for the disk, which would take most of the time. */
static void
keep (const char *path, const GByteArray *bytes)
{
  FILE *file = fopen (path, "wb");

  g_assert_nonnull (file);
  fwrite (bytes->data, 1, bytes->len, file);
  fclose (file);
}

static void
run_target (const GByteArray *bytes)
{
  if (g_getenv ("FUZZ_KEEP"))
    keep (g_getenv ("FUZZ_KEEP"), bytes);
  LLVMFuzzerTestOneInput (bytes->data, bytes->len);
}

static void
test_corpus (void)
{
  g_assert_cmpuint (corpus->len, >, 3);
  for (guint i = 0; i < corpus->len; i++)
    run_target (corpus->pdata[i]);
}

static void
test_spoilt (void)
{
  for (guint round = 0; round < n_rounds; round++)
    {
      const GByteArray *whole = g_ptr_array_index (corpus, below (corpus->len));
      g_autoptr(GByteArray) bytes = g_byte_array_new ();

      g_byte_array_append (bytes, whole->data, whole->len);
      /* Half of them stay JSON, so that what lies behind the guard is reached too. */
      for (guint i = 1 + below (3); i > 0; i--)
        if (round % 2 == 0)
          change_number (bytes);
        else
          spoil_once (bytes);
      run_target (bytes);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 3);
  read_corpus (argv[1]);
  n_rounds = (guint) g_ascii_strtoull (argv[2], NULL, 10);
  g_test_add_func ("/fuzz/corpus", test_corpus);
  g_test_add_func ("/fuzz/spoilt", test_spoilt);
  return g_test_run ();
}
