/* write-sample FOLDER SRCDIR: what the program writes, for checks from outside: sample.oddment, empty.oddment, list.json. */
#include "config.h"

#include "sample.h"
#include "store/save.h"
#include "store/scrap-list.h"

int
main (int argc, char **argv)
{
  g_autoptr(OddJob) sample = NULL, empty = odd_job_new ();
  g_autoptr(GBytes) list = NULL;
  g_autofree char *sample_path = NULL, *empty_path = NULL, *list_path = NULL;

  g_setenv ("G_TEST_SRCDIR", argv[2], TRUE);
  g_test_init (&argc, &argv, NULL);
  sample = sample_job ();
  list = odd_job_write_scrap_list (sample, NULL);
  sample_path = g_build_filename (argv[1], "sample.oddment", NULL);
  empty_path = g_build_filename (argv[1], "empty.oddment", NULL);
  list_path = g_build_filename (argv[1], "list.json", NULL);
  return odd_store_save (sample, sample_path, NULL) && odd_store_save (empty, empty_path, NULL) && odd_store_save_bytes (list, list_path, NULL) ? 0 : 1;
}
