/* How much thread a plan takes, by stitch. Figures with their sources: data/figures/thread_consumption.csv. */
#pragma once

#include "sewing/plan.h"

G_BEGIN_DECLS

#define ODD_THREAD_WASTE 1.15      /* 10 to 15 % is added for ends and trials: A&E, Estimating Thread Consumption; apparelscience.com */
#define ODD_SPOOL_M 200.0          /* first offered; common practice, no source */
#define ODD_CONE_M 2500.0          /* the same */

/* Metres of thread in one metre of stitching, without waste. */
typedef struct
{
  const char *stitch;         /* number of ISO 4915 */
  double m_per_m;             /* the figure best vouched for: read at its source, else repeated elsewhere, else from memory */
  double low, high;           /* the least and the most that any source says; for 504 the two published formulas too */
  double needle_share;        /* 0 .. 1, of all its thread; NAN: the sources disagree or are silent */
  const char *source;
} OddThreadFigure;

/* NULL for a stitch nothing is known of. (transfer none) */
const OddThreadFigure *odd_thread_get_figure (const char *stitch);

/*
 * odd_thread_by_formula:
 * @stitch: "101", "301", "401", "504" or "514"
 * @thickness: of the seam
 * @density: stitches in one unit of length
 * @width: of the overedge; 0 for the others
 *
 * Thread in one unit of seam, all in one unit of length: 3 + 2TS, 2 + 2TS, 4 + 2TS, 3 + 4WS + 4TS, 5 + 2S(3T + 2W).
 * textilecalculation blog, Consumption formula for single needle lockstitch (2015); textilecalculations.com; 514: textiletechinsight.com.
 *
 * Returns: the length, or NAN for a stitch without a formula
 */
double odd_thread_by_formula (const char *stitch, double thickness, double density, double width);
/* The other formula published for 504, with 5 in the place of 3: textiletechinsight.com. */
double odd_thread_by_formula_504_high (double thickness, double density, double width);

typedef struct
{
  const OddThreadFigure *figure;   /* NULL: its stitch is not known, no thread is told */
  char *stitch;               /* as the finish has it */
  OddStation station;
  double seam_mm;             /* stitched length; both edges where each is neatened on its own */
  double thread_mm;           /* with waste */
  double low_mm, high_mm;     /* the same by the least and the most figure */
  double needle_mm, under_mm; /* with waste; under: bobbin, or loopers together; NAN: only the sum is known */
} OddThreadUse;
void odd_thread_use_free (OddThreadUse *use);

/* What the plan's tasks take: odd_plan_new() what is left, odd_plan_new_from_start() everything. A stitch that a finish does not name is 301 at the sewing
 * machine and 504 at the overlocker. By stitch, in their order. @waste: factor. (transfer full) (element-type OddThreadUse) */
GPtrArray *odd_plan_thread (OddPlan *plan, double waste);
/* Stitched length of those without a figure: it has to be told wherever thread is summed up. mm */
double odd_thread_sum_untold (const GPtrArray *uses);
/* Whole spools or cones that hold so much. */
guint odd_thread_count_spools (double thread_mm, double spool_m);
/* How often an operation's line is stitched: 2 where each edge is neatened on its own. */
guint odd_operation_count_lines (const OddOperation *operation);

G_END_DECLS
