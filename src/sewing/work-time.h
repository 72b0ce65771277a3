/* How long a plan takes: a range, as most of its figures are habits. data/figures/work_time.csv holds them with their sources; her own speeds replace them. */
#pragma once

#include "sewing/plan.h"

G_BEGIN_DECLS

typedef struct { double low, high; } OddRange;

typedef enum
{
  ODD_TIME_SEWING_SPEED,      /* stitches a minute */
  ODD_TIME_OVERLOCKER_SPEED,
  ODD_TIME_HANDLING,          /* s, each seam at either machine */
  ODD_TIME_PRESSING,          /* s a metre */
  ODD_TIME_PRESS_HANDLING,    /* s */
  ODD_TIME_FOLDING,           /* s a metre */
  ODD_TIME_TRIMMING,          /* s a metre */
  ODD_TIME_CUTTING,           /* s a patch */
  ODD_TIME_SECURING,          /* s an end */
  ODD_TIME_WALKING,           /* s, from one station to the next */
  ODD_TIME_STITCH             /* mm, length of a stitch at the sewing machine */
} OddTimeFigureKind;
#define ODD_N_TIME_FIGURES 11

typedef struct
{
  OddRange range;
  const char *name;           /* translated: "Speed at the sewing machine" */
  const char *unit;           /* translated: "stitches a minute" */
  const char *source;
  gboolean own;               /* hers, from the job's settings */
} OddTimeFigure;
OddTimeFigure odd_time_get_figure (OddTimeFigureKind kind, const OddSpeeds *speeds);

/* Needle-down time: s/m = 6000 x stitches a cm / stitches a minute; from rpm = spc x cm x 60 / s, onlineclothingstudy.com, How to calculate sewing machine RPM
 * (2012). */
double odd_time_per_metre (double stitches_per_cm, double stitches_per_min);
double odd_time_get_speed (double stitches_per_cm, double length_cm, double seconds);       /* stitches a minute */

/* One operation along a seam of so much raw length; s. @speeds: (nullable) */
OddRange odd_operation_time (const OddOperation *operation, double raw_length_mm, const OddSpeeds *speeds);
/* One task of the plan; s. */
OddRange odd_plan_task_time (OddPlan *plan, guint task, const OddSpeeds *speeds);

typedef struct { OddRange at[ODD_N_STATIONS]; OddRange all; } OddWorkTime;      /* s */
/* Of all the plan's tasks: odd_plan_new() what is left. Walking from station to station is not in it: the plan tells how often. */
OddWorkTime odd_plan_work_time (OddPlan *plan, const OddSpeeds *speeds);

/*
 * odd_time_fit:
 * @lengths_mm: (array length=n): raw lengths of seams she timed
 * @seconds: (array length=n)
 * @n: at least 1
 * @out_handling_s: (out): once a seam
 * @out_s_per_m: (out): along it
 *
 * Robust against a phone call in the middle: the slope is the median of all slopes between two seams of different length (Theil, 1950; Sen, 1968), the rest the
 * median of what remains; neither is below 0. All of one length: half of the median for each, as nothing tells them apart.
 */
void odd_time_fit (const double *lengths_mm, const double *seconds, guint n, double *out_handling_s, double *out_s_per_m);

G_END_DECLS
