#include "config.h"

#include "commands/report-work.h"

#include "sewing/ends.h"
#include "sewing/thread.h"
#include "sewing/own-time.h"

static double
round_to (double value, double step)
{
  return rint (value / step) * step;
}

static void
print_plan (OddPrinter *out, const OddPlan *plan)
{
  odd_printer_begin_object (out, odd_manner_get_nick (plan->manner), NULL);
  odd_printer_uint (out, "rounds", plan->n_rounds);
  odd_printer_uint (out, "stops", plan->n_walks);
  odd_printer_end_object (out);
}

static void
print_thread (OddPrinter *out, OddPlan *plan)
{
  g_autoptr(GPtrArray) uses = odd_plan_thread (plan, ODD_THREAD_WASTE);

  odd_printer_begin_object (out, "thread_m", NULL);
  for (guint i = 0; i < uses->len; i++)
    {
      const OddThreadUse *use = uses->pdata[i];

      if (use->figure != NULL)
        odd_printer_double (out, use->stitch, round_to (use->thread_mm, 1.0) / 1000.0);
    }
  odd_printer_end_object (out);
}

static void
print_minutes (OddPrinter *out, OddJob *job, OddPlan *plan)
{
  const OddWorkTime time = odd_job_plan_time (job, plan);

  odd_printer_begin_object (out, "minutes", NULL);
  odd_printer_double (out, "low", rint (time.all.low / 6.0) / 10.0);
  odd_printer_double (out, "high", rint (time.all.high / 6.0) / 10.0);
  odd_printer_end_object (out);
}

void
odd_report_print_work (OddPrinter *out, OddJob *job, OddId textile_id)
{
  g_autoptr(OddPlan) chain = odd_plan_new (job, textile_id, ODD_MANNER_CHAIN, NULL, 0, NULL);
  g_autoptr(OddPlan) walks = odd_plan_new (job, textile_id, ODD_MANNER_WALKS, NULL, 0, chain);

  odd_printer_begin_object (out, "plans", NULL);
  print_plan (out, chain);
  print_plan (out, walks);
  odd_printer_end_object (out);
  odd_printer_begin_object (out, "operations_left", NULL);
  for (guint i = 0; i < ODD_N_STATIONS; i++)
    odd_printer_uint (out, odd_station_get_nick (i), walks->n_left[i]);
  odd_printer_end_object (out);
  print_thread (out, walks);
  print_minutes (out, job, walks);
  odd_printer_uint (out, "ends_to_secure", odd_job_count_ends_to_secure (job, textile_id));
}
