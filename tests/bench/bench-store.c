/* Writing and reading the file of a job of 10,000 patches and 10,000 scraps, beside bare json-glib over the same text. The best of five
 * goes each; goal: at most twice json-glib, the ZIP apart. */
#include "config.h"

#include <json-glib/json-glib.h>
#include <stdio.h>
#include <string.h>

#include "../cloth/trees.h"
#include "heap.h"
#include "store/job-reader.h"
#include "store/job-writer.h"

#define ROUNDS 5

typedef void (*Work) (gpointer data);

static double
best_ms (Work     work,
         gpointer data)
{
  double best = G_MAXDOUBLE;

  for (guint i = 0; i < ROUNDS; i++)
    {
      const gint64 start = g_get_monotonic_time ();

      work (data);
      best = MIN (best, (g_get_monotonic_time () - start) / 1000.0);
    }
  return best;
}

static void
calibrate (gpointer data)
{
  volatile double sum = 0.0;

  for (guint i = 1; i < 20 * 1000 * 1000; i++)
    sum += 1.0 / i;
}

static void
write_text (gpointer data)
{
  g_autoptr(GBytes) bytes = odd_job_write_json (data, NULL);
}

static void
write_file (gpointer data)
{
  g_autoptr(GBytes) bytes = odd_job_write_bytes (data, NULL);
}

static void
read_text (gpointer data)
{
  gsize size = 0;
  const char *text = g_bytes_get_data (data, &size);
  g_autoptr(GPtrArray) pictures = g_ptr_array_new ();
  g_autoptr(OddJob) job = odd_job_read_json (text, size, "bench", pictures, NULL, NULL);

  g_assert_nonnull (job);
}

static void
read_file (gpointer data)
{
  g_autoptr(OddJob) job = odd_job_read_bytes (data, "bench", NULL, NULL);

  g_assert_nonnull (job);
}

static void
parse_bare (gpointer data)
{
  gsize size = 0;
  const char *text = g_bytes_get_data (data, &size);
  g_autoptr(JsonParser) parser = json_parser_new_immutable ();

  g_assert_true (json_parser_load_from_data (parser, text, size, NULL));
}

static void
generate_bare (gpointer data)
{
  g_autoptr(JsonGenerator) generator = json_generator_new ();
  g_autofree char *text = NULL;

  json_generator_set_root (generator, data);
  text = json_generator_to_data (generator, NULL);
}

int
main (void)
{
  OddJob *job = heap_add_scraps (odd_job_new (), 10000, 1);
  const OddId textile = first_textile (job)->id;
  g_autoptr(GBytes) text = NULL;
  g_autoptr(GBytes) file = NULL;
  g_autoptr(JsonParser) parser = json_parser_new ();
  double bare_read, bare_write;

  for (guint i = 0; i < 100; i++)
    take (&job, add_squares (job, textile, 10, 10, 80, NULL));
  text = odd_job_write_json (job, NULL);
  file = odd_job_write_bytes (job, NULL);
  json_parser_load_from_data (parser, g_bytes_get_data (text, NULL), g_bytes_get_size (text), NULL);
  bare_read = best_ms (parse_bare, text);
  bare_write = best_ms (generate_bare, json_parser_get_root (parser));

  printf ("calibration %.1f ms; text %.1f MB, file %.1f MB\n", best_ms (calibrate, NULL),
          g_bytes_get_size (text) / 1e6, g_bytes_get_size (file) / 1e6);
  printf ("read: bare json-glib %.0f ms, text %.0f ms (%.2f x, goal 2), file %.0f ms\n", bare_read, best_ms (read_text, text),
          best_ms (read_text, text) / bare_read, best_ms (read_file, file));
  printf ("write: bare json-glib %.0f ms, text %.0f ms (%.2f x, goal 2), file %.0f ms\n", bare_write, best_ms (write_text, job),
          best_ms (write_text, job) / bare_write, best_ms (write_file, job));
  odd_job_unref (job);
  return 0;
}
