/* Her own times: what she timed at the table, kept in the record, and the estimate that follows from it.
 *
 * A timing is a span at one station: some tasks, their raw length, and the seconds they took. It is put down with what they would have taken by the usual
 * figures, so that short and long seams, and all kinds of work of a station, can be compared by one ratio.
 */
#pragma once

#include "sewing/act.h"
#include "sewing/work-time.h"

G_BEGIN_DECLS

typedef struct
{
  OddStation station;
  guint n;                    /* tasks, at least 1 */
  double length_mm;           /* their raw lengths together */
  double seconds;             /* pauses not counted */
  OddRange usual;             /* the same tasks by the usual figures; s */
} OddTiming;

#define ODD_TIMING_N_FIGURES 5
/* An act ODD_ACT_TIME over @figures, which must live as long as it does. */
OddAct odd_timing_to_act (const OddTiming *self, double figures[ODD_TIMING_N_FIGURES]);
/* FALSE where the act's figures are none that a timing can have. */
gboolean odd_timing_from_act (const OddAct *act, OddTiming *out);

typedef struct
{
  guint n;                    /* timings; 0: nothing timed, the rest is 0 */
  double ratio;               /* her time over the middle of the usual range: median of all timings */
  double scatter;             /* relative: 1.4826 x median absolute deviation of the ratios, over their median */
} OddOwnTime;

/*
 * odd_own_time_fit:
 * @ratios: (array length=n): seconds over the middle of the usual range, of each timing
 *
 * Median and median absolute deviation: half of the timings may be spoiled by the telephone without moving them far. 1.4826 makes the deviation a standard
 * deviation for normal scatter: Hampel, The influence curve and its role in robust estimation, J. Am. Statist. Ass. 69 (1974), 383-393; from memory.
 */
OddOwnTime odd_own_time_fit (const double *ratios, guint n);
/* By station, from the record. */
void odd_job_fit_own_times (OddJob *job, OddOwnTime out[ODD_N_STATIONS]);

/*
 * odd_own_time_apply:
 * @usual: a range by the usual figures
 *
 * The middle is moved by the ratio. Half the width w0 of the usual range, relative to its middle, counts as the scatter of one timing beside n of her own
 * with scatter s: w = sqrt (w0^2 + n s^2) / (n + 1), and no more than w0. So it narrows with each timing that agrees. Our choice.
 */
OddRange odd_own_time_apply (const OddOwnTime *self, OddRange usual);

/* Time that a plan's tasks take, walks between stations included: at a station that she timed by her own times, else by her speeds, else by the usual
 * figures. The walks are in the sum only. */
OddWorkTime odd_job_plan_time (OddJob *job, OddPlan *plan);
/* Of these tasks alone, walks left out. @tasks: (array length=n): indices in the plan */
OddRange odd_job_tasks_time (OddJob *job, OddPlan *plan, const guint *tasks, guint n);
/* "12 to 20 min", over two hours "2.1 to 3.4 h". (transfer full) */
char *odd_range_dup_text (OddRange range);
/* One stop of it. */
OddRange odd_job_stop_time (OddJob *job, OddPlan *plan, guint stop);

/* --- the timer: knows no clock, each call says what time it is; s --- */

typedef struct _OddWorkTimer OddWorkTimer;
OddWorkTimer *odd_work_timer_new (gint64 now_s);            /* running */
void odd_work_timer_free (OddWorkTimer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddWorkTimer, odd_work_timer_free)
void odd_work_timer_pause (OddWorkTimer *self, gint64 now_s);
void odd_work_timer_go_on (OddWorkTimer *self, gint64 now_s);
gboolean odd_work_timer_is_running (OddWorkTimer *self);
gint64 odd_work_timer_get_seconds (OddWorkTimer *self, gint64 now_s);      /* since it was started, pauses not counted */
/* A task of the plan is done. TRUE: the one before was at another station, and @out_closed is what was timed there, up to its last tick. */
gboolean odd_work_timer_tick (OddWorkTimer *self, OddPlan *plan, guint task, gint64 now_s, OddTiming *out_closed);
/* It was not so: it does not count. */
void odd_work_timer_untick (OddWorkTimer *self, const OddTaskKey *key);
/* What is timed and not yet told, up to the last tick; FALSE: nothing. */
gboolean odd_work_timer_close (OddWorkTimer *self, OddTiming *out);

G_END_DECLS
