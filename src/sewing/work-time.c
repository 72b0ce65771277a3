#include "config.h"

#include "sewing/work-time.h"

#include "cloth/csv.h"
#include "sewing/thread.h"

#include <glib/gi18n.h>

static const struct { const char *key, *name, *unit; } figures[ODD_N_TIME_FIGURES] = {
  { "sewing-speed", N_("Speed at the sewing machine"), N_("stitches a minute") },
  { "overlocker-speed", N_("Speed at the overlocker"), N_("stitches a minute") },
  { "handling", N_("Picking up and laying together, each seam"), N_("seconds") },
  { "pressing", N_("Pressing"), N_("seconds a metre") },
  { "press-handling", N_("Laying on the board, each seam"), N_("seconds") },
  { "folding", N_("Folding an edge under"), N_("seconds a metre") },
  { "trimming", N_("Trimming"), N_("seconds a metre") },
  { "cutting", N_("Cutting a patch"), N_("seconds") },
  { "securing", N_("Securing an end"), N_("seconds") },
  { "walking", N_("Walking to the next station"), N_("seconds") },
  { "stitch-length", N_("Length of a stitch at the sewing machine"), N_("mm") },
};

static gpointer
load_table (gpointer data)
{
  return odd_csv_load_figures (data);
}

static const OddCsv *
get_times (void)
{
  static GOnce once = G_ONCE_INIT;

  return g_once (&once, load_table, (gpointer) "work_time.csv");
}

static const OddCsv *
get_stitches (void)
{
  static GOnce once = G_ONCE_INIT;

  return g_once (&once, load_table, (gpointer) "stitch_classes.csv");
}

/* 0: she did not say. */
static double
get_own (OddTimeFigureKind  kind,
         const OddSpeeds   *speeds)
{
  if (speeds == NULL)
    return 0.0;
  switch (kind)
    {
    case ODD_TIME_SEWING_SPEED:
      return speeds->sewing_per_min;
    case ODD_TIME_OVERLOCKER_SPEED:
      return speeds->overlocker_per_min;
    case ODD_TIME_HANDLING:
      return speeds->handling_s;
    case ODD_TIME_PRESSING:
      return speeds->pressing_s_per_m;
    case ODD_TIME_WALKING:
      return speeds->walk_s;
    case ODD_TIME_STITCH:
      return speeds->stitch_mm;
    case ODD_TIME_PRESS_HANDLING:
    case ODD_TIME_FOLDING:
    case ODD_TIME_TRIMMING:
    case ODD_TIME_CUTTING:
    case ODD_TIME_SECURING:
    default:
      return 0.0;
    }
}

OddTimeFigure
odd_time_get_figure (OddTimeFigureKind  kind,
                     const OddSpeeds   *speeds)
{
  const double own = get_own (kind, speeds);
  const OddCsv *table = get_times ();
  const int row = odd_csv_find (table, "key", figures[kind].key);
  OddTimeFigure figure = { { own, own }, _(figures[kind].name), _(figures[kind].unit), NULL, own > 0.0 };

  if (figure.own)
    {
      figure.source = _("your own");
      return figure;
    }
  figure.range = (OddRange) { odd_csv_get_number (table, row, "low"), odd_csv_get_number (table, row, "high") };
  figure.source = odd_csv_get (table, row, "source");
  return figure;
}

/* --- arithmetic --- */

double
odd_time_per_metre (double stitches_per_cm,
                    double stitches_per_min)
{
  g_return_val_if_fail (stitches_per_min > 0.0, NAN);

  return 6000.0 * stitches_per_cm / stitches_per_min;
}

double
odd_time_get_speed (double stitches_per_cm,
                    double length_cm,
                    double seconds)
{
  g_return_val_if_fail (seconds > 0.0, NAN);

  return stitches_per_cm * length_cm * 60.0 / seconds;
}

/* Stitches a centimetre; where the table is silent, as for a lockstitch. */
static OddRange
get_density (const char *stitch)
{
  const OddCsv *table = get_stitches ();
  int row = stitch != NULL ? odd_csv_find (table, "code", stitch) : -1;

  if (row < 0 || isnan (odd_csv_get_number (table, row, "spc_min")))
    row = odd_csv_find (table, "code", "301");
  return (OddRange) { odd_csv_get_number (table, row, "spc_min"), odd_csv_get_number (table, row, "spc_max") };
}

static OddRange
stitching_time (const OddOperation *operation,
                double              metres,
                const OddSpeeds    *speeds)
{
  const gboolean overlocker = operation->station == ODD_STATION_OVERLOCKER;
  const OddRange speed = odd_time_get_figure (overlocker ? ODD_TIME_OVERLOCKER_SPEED : ODD_TIME_SEWING_SPEED, speeds).range;
  const OddRange handling = odd_time_get_figure (ODD_TIME_HANDLING, speeds).range;
  const double own_mm = get_own (ODD_TIME_STITCH, speeds);
  const OddRange density = overlocker || own_mm <= 0.0 ? get_density (operation->stitch) : (OddRange) { 10.0 / own_mm, 10.0 / own_mm };
  const guint lines = odd_operation_count_lines (operation);

  return (OddRange) { lines * (handling.low + metres * odd_time_per_metre (density.low, speed.high)),
                      lines * (handling.high + metres * odd_time_per_metre (density.high, speed.low)) };
}

static OddRange
along (OddTimeFigureKind  kind,
       OddTimeFigureKind  once,
       double             metres,
       const OddSpeeds   *speeds)
{
  const OddRange each = odd_time_get_figure (once, speeds).range;
  const OddRange per_m = odd_time_get_figure (kind, speeds).range;

  return (OddRange) { each.low + metres * per_m.low, each.high + metres * per_m.high };
}

OddRange
odd_operation_time (const OddOperation *operation,
                    double              raw_length_mm,
                    const OddSpeeds    *speeds)
{
  const double metres = raw_length_mm / 1000.0;

  g_return_val_if_fail (operation != NULL, ((OddRange) { 0.0, 0.0 }));

  switch (operation->kind)
    {
    case ODD_OPERATION_PRESS:
      return along (ODD_TIME_PRESSING, ODD_TIME_PRESS_HANDLING, metres, speeds);
    case ODD_OPERATION_FOLD:
      return along (ODD_TIME_FOLDING, ODD_TIME_PRESS_HANDLING, metres, speeds);
    case ODD_OPERATION_TRIM:
      return along (ODD_TIME_TRIMMING, ODD_TIME_PRESS_HANDLING, metres, speeds);
    case ODD_OPERATION_SEW:
    case ODD_OPERATION_NEATEN:
    case ODD_OPERATION_TOPSTITCH:
    default:
      return stitching_time (operation, metres, speeds);
    }
}

OddRange
odd_plan_task_time (OddPlan         *plan,
                    guint            task,
                    const OddSpeeds *speeds)
{
  OddTaskFacts facts;

  g_return_val_if_fail (plan != NULL && task < plan->n_tasks, ((OddRange) { 0.0, 0.0 }));

  if (plan->tasks[task].key.kind == ODD_TASK_CUT)
    return odd_time_get_figure (ODD_TIME_CUTTING, speeds).range;
  if (plan->tasks[task].key.kind == ODD_TASK_SECURE)
    return odd_time_get_figure (ODD_TIME_SECURING, speeds).range;
  odd_plan_get_facts (plan, task, &facts);
  return odd_operation_time (facts.operation, facts.length_mm, speeds);
}

OddWorkTime
odd_plan_work_time (OddPlan         *plan,
                    const OddSpeeds *speeds)
{
  OddWorkTime time = { 0 };

  g_return_val_if_fail (plan != NULL, time);

  for (guint i = 0; i < plan->n_tasks; i++)
    {
      const OddRange one = odd_plan_task_time (plan, i, speeds);
      OddRange *at = &time.at[plan->tasks[i].station];

      at->low += one.low;
      at->high += one.high;
      time.all.low += one.low;
      time.all.high += one.high;
    }
  return time;
}

/* --- her own times --- */

static int
compare_doubles (gconstpointer a,
                 gconstpointer b)
{
  const double p = *(const double *) a, q = *(const double *) b;

  return p < q ? -1 : p > q;
}

static double
get_median (GArray *values)
{
  g_array_sort (values, compare_doubles);
  return (g_array_index (values, double, (values->len - 1) / 2) + g_array_index (values, double, values->len / 2)) / 2.0;
}

static double
get_median_slope (const double *lengths_mm,
                  const double *seconds,
                  guint         n)
{
  g_autoptr(GArray) slopes = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n; k++)
      if (fabs (lengths_mm[i] - lengths_mm[k]) > 1.0)
        {
          const double slope = (seconds[i] - seconds[k]) / (lengths_mm[i] - lengths_mm[k]) * 1000.0;

          g_array_append_val (slopes, slope);
        }
  return slopes->len > 0 ? get_median (slopes) : NAN;
}

void
odd_time_fit (const double *lengths_mm,
              const double *seconds,
              guint         n,
              double       *out_handling_s,
              double       *out_s_per_m)
{
  g_autoptr(GArray) rest = g_array_new (FALSE, FALSE, sizeof (double));
  double slope;

  g_return_if_fail (lengths_mm != NULL && seconds != NULL && n > 0);

  g_array_append_vals (rest, seconds, n);
  slope = get_median_slope (lengths_mm, seconds, n);
  if (isnan (slope))
    slope = lengths_mm[0] > 0.0 ? get_median (rest) / 2.0 / lengths_mm[0] * 1000.0 : 0.0;
  slope = MAX (slope, 0.0);
  for (guint i = 0; i < n; i++)
    g_array_index (rest, double, i) = seconds[i] - slope * lengths_mm[i] / 1000.0;
  *out_handling_s = MAX (get_median (rest), 0.0);
  *out_s_per_m = slope;
}
