/* Any bytes as a scrap list. The job made of one is written as a job file and read back to the same bytes, and written as a list again. */
#include "config.h"

#include "fuzz.h"

#include "store/job-reader.h"
#include "store/job-writer.h"
#include "store/scrap-list.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr(GBytes) bytes = g_bytes_new (data, size), first = NULL, second = NULL, list = NULL;
  g_autoptr(OddJob) job = NULL, again = NULL, from_list = NULL;
  g_autoptr(GError) error = NULL;

  job = odd_job_new_from_scrap_list (bytes, "fuzz", &error);
  g_assert_true ((job == NULL) == (error != NULL));
  if (!job)
    return 0;
  first = odd_job_write_json (job, NULL);
  g_assert_nonnull (first);
  again = odd_job_read_json (g_bytes_get_data (first, NULL), g_bytes_get_size (first), "again", NULL, NULL, NULL);
  g_assert_nonnull (again);
  second = odd_job_write_json (again, NULL);
  g_assert_true (g_bytes_equal (first, second));
  list = odd_job_write_scrap_list (job, NULL);
  g_assert_nonnull (list);
  from_list = odd_job_new_from_scrap_list (list, "again", NULL);
  g_assert_nonnull (from_list);
  return 0;
}
