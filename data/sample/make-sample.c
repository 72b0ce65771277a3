/* Writes the sample job: make-sample OUT. The same bytes each time; tests/commands compares them with data/sample.oddment.
 *
 * The scene is made up: a maker wants 98 by 110 cm of cloth for a short coat. Three columns are whole and hang side by side, each
 * pieced in another manner, and a fourth lies on the table with its lower end open.
 */
#include "config.h"

#include <stdlib.h>

#include "maker.h"
#include "store/save.h"

#define SEED 20260
#define N_FREE 36
#define TARGET_WIDTH_MM 980.0
#define TARGET_LENGTH_MM 1100.0

void
sample_step (Maker *maker, OddJob *next)
{
  if (next == NULL)
    {
      g_printerr ("make-sample: %s\n", maker->error->message);
      exit (1);
    }
  odd_job_unref (maker->job);
  maker->job = next;
}

static void
hang (Maker *maker, const OddId *panels, guint n_panels)
{
  const OddTreatment french = { odd_job_get_finish_by_key (maker->job, "french")->id, NAN };
  OddTextile *textile = maker->job->textiles->pdata[0];
  const OddId textile_id = textile->id;

  for (guint i = 0; i < n_panels; i++)
    sample_step (maker, odd_job_move_panel (maker->job, panels[i], textile_id, G_MAXUINT, &maker->error));
  sample_step (maker, odd_job_set_textile_name (maker->job, textile_id, "Cloth for a short coat", &maker->error));
  sample_step (maker, odd_job_set_target (maker->job, textile_id, TARGET_WIDTH_MM, TARGET_LENGTH_MM, &maker->error));
  for (guint i = 0; i + 1 < n_panels; i++)
    {
      textile = odd_job_get_textile (maker->job, textile_id);
      sample_step (maker, odd_job_set_treatment (maker->job, ODD_LEVEL_SEAM, textile->joins[i].id, 0, &french, TRUE, &maker->error));
    }
}

int
main (int argc, char **argv)
{
  Maker maker = { odd_job_new (), NULL, g_rand_new_with_seed (SEED) };
  OddId panels[4];

  if (argc != 2)
    {
      g_printerr ("Usage: make-sample OUT\n");
      return 2;
    }
  sample_add_fabrics (&maker);
  panels[0] = sample_add_squares (&maker);
  panels[1] = sample_add_bricks (&maker);
  panels[2] = sample_add_crumbs (&maker);
  panels[3] = sample_add_started (&maker);
  sample_fill (&maker, panels, G_N_ELEMENTS (panels), N_FREE);
  hang (&maker, panels, 3);
  sample_work (&maker, panels);
  if (!odd_store_save (maker.job, argv[1], &maker.error))
    sample_step (&maker, NULL);
  odd_job_unref (maker.job);
  g_rand_free (maker.random);
  g_free (maker.fabrics);
  return 0;
}
