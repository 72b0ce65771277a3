/* Edit + undo in a job of 10,000 patches, and a layout made anew; beside a calibration loop of the same run. */
#include "config.h"

#include "cloth/document.h"
#include "../cloth/trees.h"

#include <stdio.h>

static double
calibrate_ms (void)
{
  const gint64 start = g_get_monotonic_time ();
  volatile double sum = 0.0;

  for (guint i = 1; i < 20 * 1000 * 1000; i++)
    sum += 1.0 / i;
  return (g_get_monotonic_time () - start) / 1000.0;
}

int
main (void)
{
  OddJob *job = odd_job_new ();
  const OddId textile = first_textile (job)->id;
  OddId panels[100];
  const guint n_rounds = 200;
  gint64 start;
  double edit_ms, undo_ms, layout_ms;
  g_autoptr(OddDocument) document = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (panels); i++)
    take (&job, add_squares (job, textile, 10, 10, 80, &panels[i]));
  document = odd_document_new (job);

  start = g_get_monotonic_time ();
  for (guint i = 0; i < n_rounds; i++)
    {
      OddJob *now = odd_document_get_job (document);
      OddPanel *panel = odd_job_get_panel (now, panels[(i * 37) % 100], NULL, NULL);
      OddId leaf = panel->root->parts[i % 10]->parts[(i * 7) % 10]->id;

      odd_document_apply (document, odd_job_set_lock (now, leaf, TRUE, NULL), "Lock");
    }
  edit_ms = (g_get_monotonic_time () - start) / 1000.0 / n_rounds;
  start = g_get_monotonic_time ();
  while (odd_document_undo (document))
    ;
  undo_ms = (g_get_monotonic_time () - start) / 1000.0 / n_rounds;
  start = g_get_monotonic_time ();
  for (guint i = 0; i < G_N_ELEMENTS (panels); i++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (odd_document_get_job (document), panels[i]);
    }
  layout_ms = (g_get_monotonic_time () - start) / 1000.0;
  printf ("calibration %.1f ms; 10,000 patches: edit %.3f ms, undo %.3f ms (goal 2 ms both), all layouts anew %.1f ms\n",
          calibrate_ms (), edit_ms, undo_ms, layout_ms);
  odd_job_unref (job);
  return 0;
}
