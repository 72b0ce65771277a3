#include "config.h"

#include "sewing/own-time.h"

#include <glib/gi18n.h>

/* A day at one station without a pause is no timing. */
#define MOST_S 86400.0
#define MOST_TASKS 100000
#define MAD_TO_SD 1.4826

/* --- as acts --- */

OddAct
odd_timing_to_act (const OddTiming *self,
                   double           figures[ODD_TIMING_N_FIGURES])
{
  figures[0] = self->n;
  figures[1] = self->length_mm;
  figures[2] = self->seconds;
  figures[3] = self->usual.low;
  figures[4] = self->usual.high;
  return (OddAct) { .kind = ODD_ACT_TIME, .operation = self->station, .state = ODD_STATE_DONE, .figures = figures, .n_figures = ODD_TIMING_N_FIGURES };
}

gboolean
odd_timing_from_act (const OddAct *act,
                     OddTiming    *out)
{
  const double *f = act->figures;

  if (act->kind != ODD_ACT_TIME || act->operation >= ODD_N_STATIONS || act->n_figures != ODD_TIMING_N_FIGURES)
    return FALSE;
  if (!(f[0] >= 1.0 && f[0] <= MOST_TASKS && f[0] == floor (f[0])) || !(f[1] >= 0.0) || !(f[2] > 0.0 && f[2] <= MOST_S))
    return FALSE;
  if (!(f[3] > 0.0 && f[3] <= f[4]))
    return FALSE;
  *out = (OddTiming) { act->operation, (guint) f[0], f[1], f[2], { f[3], f[4] } };
  return TRUE;
}

/* --- the fit --- */

static int
compare_doubles (gconstpointer a,
                 gconstpointer b)
{
  const double p = *(const double *) a, q = *(const double *) b;

  return (p > q) - (p < q);
}

static double
sort_to_median (GArray *values)
{
  g_array_sort (values, compare_doubles);
  return (g_array_index (values, double, (values->len - 1) / 2) + g_array_index (values, double, values->len / 2)) / 2.0;
}

OddOwnTime
odd_own_time_fit (const double *ratios,
                  guint         n)
{
  g_autoptr(GArray) values = g_array_new (FALSE, FALSE, sizeof (double));
  OddOwnTime own = { n, 0.0, 0.0 };

  if (n == 0)
    return own;
  g_array_append_vals (values, ratios, n);
  own.ratio = sort_to_median (values);
  for (guint i = 0; i < n; i++)
    g_array_index (values, double, i) = fabs (ratios[i] - own.ratio);
  own.scatter = MAD_TO_SD * sort_to_median (values) / own.ratio;
  return own;
}

void
odd_job_fit_own_times (OddJob     *job,
                       OddOwnTime  out[ODD_N_STATIONS])
{
  for (guint s = 0; s < ODD_N_STATIONS; s++)
    {
      g_autoptr(GArray) ratios = g_array_new (FALSE, FALSE, sizeof (double));
      OddTiming timing;

      for (guint i = 0; i < job->record->len; i++)
        if (odd_timing_from_act (job->record->pdata[i], &timing) && timing.station == s)
          {
            const double ratio = 2.0 * timing.seconds / (timing.usual.low + timing.usual.high);

            g_array_append_val (ratios, ratio);
          }
      out[s] = odd_own_time_fit ((const double *) (gpointer) ratios->data, ratios->len);
    }
}

OddRange
odd_own_time_apply (const OddOwnTime *self,
                    OddRange          usual)
{
  const double middle = (usual.low + usual.high) / 2.0;
  double w;

  if (self->n == 0 || middle <= 0.0)
    return usual;
  w = (usual.high - usual.low) / 2.0 / middle;
  w = MIN (w, sqrt (w * w + self->n * self->scatter * self->scatter) / (self->n + 1));
  return (OddRange) { self->ratio * middle * (1.0 - w), self->ratio * middle * (1.0 + w) };
}

/* --- of a plan --- */

static void
add_to (OddRange *sum,
        OddRange  more)
{
  sum->low += more.low;
  sum->high += more.high;
}

/* What is known of each station, and what so many tasks usually take there. */
typedef struct { OddOwnTime own[ODD_N_STATIONS]; OddRange usual[ODD_N_STATIONS]; } Reckoning;

static void
add_task (Reckoning *self,
          OddJob    *job,
          OddPlan   *plan,
          guint      task)
{
  const OddStation station = plan->tasks[task].station;

  add_to (&self->usual[station], odd_plan_task_time (plan, task, self->own[station].n > 0 ? NULL : &job->settings.speeds));
}

static OddWorkTime
reckon (const Reckoning *self)
{
  OddWorkTime time = { 0 };

  for (guint s = 0; s < ODD_N_STATIONS; s++)
    {
      time.at[s] = odd_own_time_apply (&self->own[s], self->usual[s]);
      add_to (&time.all, time.at[s]);
    }
  return time;
}

OddRange
odd_job_tasks_time (OddJob      *job,
                    OddPlan     *plan,
                    const guint *tasks,
                    guint        n)
{
  Reckoning reckoning = { 0 };

  odd_job_fit_own_times (job, reckoning.own);
  for (guint i = 0; i < n; i++)
    add_task (&reckoning, job, plan, tasks[i]);
  return reckon (&reckoning).all;
}

OddWorkTime
odd_job_plan_time (OddJob  *job,
                   OddPlan *plan)
{
  const OddRange walk = odd_time_get_figure (ODD_TIME_WALKING, &job->settings.speeds).range;
  Reckoning reckoning = { 0 };
  OddWorkTime time;

  odd_job_fit_own_times (job, reckoning.own);
  for (guint i = 0; i < plan->n_tasks; i++)
    add_task (&reckoning, job, plan, i);
  time = reckon (&reckoning);
  add_to (&time.all, (OddRange) { plan->n_walks * walk.low, plan->n_walks * walk.high });
  return time;
}

char *
odd_range_dup_text (OddRange range)
{
  if (range.high > 7200.0)
    return g_strdup_printf (_("%.1f to %.1f h"), range.low / 3600.0, range.high / 3600.0);
  return g_strdup_printf (_("%.0f to %.0f min"), floor (range.low / 60.0), ceil (range.high / 60.0));
}

OddRange
odd_job_stop_time (OddJob  *job,
                   OddPlan *plan,
                   guint    stop)
{
  Reckoning reckoning = { 0 };

  g_return_val_if_fail (stop < plan->n_stops, ((OddRange) { 0.0, 0.0 }));

  odd_job_fit_own_times (job, reckoning.own);
  for (guint i = 0; i < plan->stops[stop].n; i++)
    add_task (&reckoning, job, plan, plan->stops[stop].first + i);
  return reckon (&reckoning).all;
}

/* --- the timer --- */

typedef struct { OddTaskKey key; double length_mm; OddRange usual; } Timed;

struct _OddWorkTimer
{
  gboolean running;
  gint64 since_s;             /* it runs since then, or stands */
  gint64 before_s;            /* and ran so long before */
  gint64 from_s;              /* of its own seconds: where the span begins */
  gint64 last_s;              /* and its last tick */
  OddStation station;         /* of the span, where it has tasks */
  GArray *tasks;              /* Timed */
};

OddWorkTimer *
odd_work_timer_new (gint64 now_s)
{
  OddWorkTimer *self = g_new0 (OddWorkTimer, 1);

  self->running = TRUE;
  self->since_s = now_s;
  self->tasks = g_array_new (FALSE, FALSE, sizeof (Timed));
  return self;
}

void
odd_work_timer_free (OddWorkTimer *self)
{
  g_array_unref (self->tasks);
  g_free (self);
}

gint64
odd_work_timer_get_seconds (OddWorkTimer *self,
                            gint64        now_s)
{
  /* clocks may be set back */
  return self->before_s + (self->running ? MAX (now_s - self->since_s, 0) : 0);
}

void
odd_work_timer_pause (OddWorkTimer *self,
                      gint64        now_s)
{
  self->before_s = odd_work_timer_get_seconds (self, now_s);
  self->running = FALSE;
}

void
odd_work_timer_go_on (OddWorkTimer *self,
                      gint64        now_s)
{
  if (self->running)
    return;
  self->running = TRUE;
  self->since_s = now_s;
}

gboolean
odd_work_timer_is_running (OddWorkTimer *self)
{
  return self->running;
}

gboolean
odd_work_timer_close (OddWorkTimer *self,
                      OddTiming    *out)
{
  OddTiming timing = { self->station, self->tasks->len, 0.0, (double) (self->last_s - self->from_s), { 0.0, 0.0 } };

  self->from_s = self->last_s;
  for (guint i = 0; i < self->tasks->len; i++)
    {
      timing.length_mm += g_array_index (self->tasks, Timed, i).length_mm;
      add_to (&timing.usual, g_array_index (self->tasks, Timed, i).usual);
    }
  g_array_set_size (self->tasks, 0);
  if (timing.n == 0 || timing.seconds <= 0.0 || timing.seconds > MOST_S || timing.usual.low <= 0.0)
    return FALSE;
  *out = timing;
  return TRUE;
}

gboolean
odd_work_timer_tick (OddWorkTimer *self,
                     OddPlan      *plan,
                     guint         task,
                     gint64        now_s,
                     OddTiming    *out_closed)
{
  Timed timed = { plan->tasks[task].key, 0.0, odd_plan_task_time (plan, task, NULL) };
  gboolean closed = FALSE;
  OddTaskFacts facts;

  if (!self->running)
    return FALSE;
  odd_plan_get_facts (plan, task, &facts);
  timed.length_mm = facts.seam != NULL ? facts.length_mm : 0.0;
  if (self->tasks->len > 0 && self->station != plan->tasks[task].station)
    closed = odd_work_timer_close (self, out_closed);
  self->station = plan->tasks[task].station;
  self->last_s = odd_work_timer_get_seconds (self, now_s);
  g_array_append_val (self->tasks, timed);
  return closed;
}

void
odd_work_timer_untick (OddWorkTimer     *self,
                       const OddTaskKey *key)
{
  for (guint i = self->tasks->len; i > 0; i--)
    if (odd_task_key_equal (key, &g_array_index (self->tasks, Timed, i - 1).key))
      {
        g_array_remove_index (self->tasks, i - 1);
        return;
      }
}
