/* Any bytes as a job: an archive when they begin like one, else the text of job.json. What is read must be a whole job: it can be laid out
 * and checked, and is written and read again to the same bytes. */
#include "config.h"

#include "fuzz.h"

#include "cloth/layout.h"
#include "store/job-reader.h"
#include "store/job-writer.h"
#include "store/zip.h"

static OddJob *
read_any (GBytes *bytes)
{
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  GPtrArray *warnings = NULL;
  GError *error = NULL;
  OddJob *job;

  if (odd_zip_sniff (bytes))
    job = odd_job_read_bytes (bytes, "fuzz", &warnings, &error);
  else
    job = odd_job_read_json (data ? data : "", length, "fuzz", NULL, &warnings, &error);
  g_assert_true ((job == NULL) == (error != NULL));
  g_assert_true ((job == NULL) == (warnings == NULL));
  g_clear_error (&error);
  g_clear_pointer (&warnings, g_ptr_array_unref);
  return job;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr(GBytes) bytes = g_bytes_new (data, size), first = NULL, second = NULL;
  g_autoptr(OddJob) job = read_any (bytes), again = NULL;
  g_autoptr(GPtrArray) findings = NULL;

  if (!job)
    return 0;
  findings = odd_job_check (job, NULL);
  first = odd_job_write_json (job, NULL);
  g_assert_nonnull (first);
  again = odd_job_read_json (g_bytes_get_data (first, NULL), g_bytes_get_size (first), "again", job->pictures, NULL, NULL);
  g_assert_nonnull (again);
  second = odd_job_write_json (again, NULL);
  g_assert_nonnull (second);
  g_assert_true (g_bytes_equal (first, second));
  return 0;
}
