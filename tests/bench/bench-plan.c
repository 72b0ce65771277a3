/* The order of work of 5,000 seams, and again after one tick; beside a calibration loop of the same run. */
#include "config.h"

#include "sewing/plan.h"
#include "tests/grid.h"

#include <stdio.h>
#include <time.h>

/* Processor time of this thread, so that what else runs does not count. */
static gint64
now_us (void)
{
  struct timespec time;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &time);
  return time.tv_sec * G_USEC_PER_SEC + time.tv_nsec / 1000;
}

static double
calibrate_ms (void)
{
  const gint64 start = now_us ();
  volatile double sum = 0.0;

  for (guint i = 1; i < 20 * 1000 * 1000; i++)
    sum += 1.0 / i;
  return (now_us () - start) / 1000.0;
}

int
main (void)
{
  static const char *const manners[] = { "chain", "walks" };
  OddJob *job = odd_job_new ();
  const guint n_ticks = 50;
  OddId id;

  for (guint i = 0; i < 8; i++)          /* 8 columns of 25 x 25: 8 x 624 seams, 7 joins */
    job = grid_add_panel (job, 25, 25, 60, 60, &id);
  for (guint manner = 0; manner < ODD_N_MANNERS; manner++)
    {
      g_autoptr(OddJob) now = odd_job_ref (job);
      OddPlan *plan;
      gint64 start, ticking = 0, laying = 0;
      double plan_ms, again_ms;

      plan = odd_plan_new (now, 0, manner, NULL, 0, NULL);      /* layouts are made here */
      odd_plan_unref (plan);
      start = now_us ();
      plan = odd_plan_new (now, 0, manner, NULL, 0, NULL);
      plan_ms = (now_us () - start) / 1000.0;
      for (guint i = 0; i < n_ticks; i++)
        {
          g_autoptr(GError) error = NULL;
          OddPlan *next;

          grid_take (&now, odd_job_do_task (now, &plan->tasks[0].key, FALSE, &error), error);
          start = now_us ();
          odd_layout_unref (odd_job_dup_layout (now, plan->tasks[0].panel_id));
          laying += now_us () - start;
          start = now_us ();
          next = odd_plan_new (now, 0, manner, NULL, 0, plan);
          ticking += now_us () - start;
          odd_plan_unref (plan);
          plan = next;
        }
      again_ms = ticking / 1000.0 / n_ticks;
      printf ("calibration %.1f ms; %s, 4,999 seams, %u tasks: plan %.2f ms (goal 50), after a tick %.2f ms (goal 5), the panel's layout before it %.2f ms\n",
              calibrate_ms (), manners[manner], plan->n_tasks + n_ticks, plan_ms, again_ms, laying / 1000.0 / n_ticks);
      odd_plan_unref (plan);
    }
  odd_job_unref (job);
  return 0;
}
