/* How large something is likely to come out, before it is sewn.
 *
 * At each seam the fold takes anything from 0 to F, the hand strays by a standard deviation s, and all seams of a day stray together by b.
 * Of n seams the cloth comes out shorter by n F / 2 on the mean, with variance n (F² / 12 + s²) + (n b)². Derived here: F² / 12 is the variance
 * of an even spread over F, and what is shared by all seams adds up before it is squared.
 */
#pragma once

#include "cloth/measured.h"

G_BEGIN_DECLS

typedef struct { double mean_mm, sd_mm; } OddTake;         /* what n seams take beyond plan */
OddTake odd_take_of_seams (guint n_seams, const OddSettings *settings);

/* Standard normal: the part below @z, and the z below which a part @p lies (0 < p < 1). */
double odd_normal_below (double z);
double odd_normal_quantile (double p);

typedef struct
{
  guint n_seams;              /* that are still uncertain: neither measured nor squared up; the most of one panel */
  double planned_mm;          /* finished, as the figures have it now */
  double mean_mm;             /* expected; of several panels the shortest rules */
  double sd_mm;               /* of one panel, the least certain */
  double least_95_mm;         /* not shorter than this in 95 of 100 */
  double add_mm;              /* to be added, to each panel, so that 95 of 100 are not shorter than planned */
  double wanted_mm;           /* the textile's target, or planned_mm where there is none */
  double chance_short;        /* 0 to 1: comes out shorter than wanted */
} OddExpected;

/* @id: strip, panel or textile. FALSE when there is nothing, or no seam lies across. */
gboolean odd_job_expect (OddJob *self, OddId id, gboolean across, OddExpected *out);

/* Settings as one measured part shows them: F = twice the mean loss of a seam (0 where the seams took less than planned), and b = what n seams leave unknown
 * of that mean, sqrt ((F² / 12 + s²) / n). FALSE without a loss over seams. Derived here. */
gboolean odd_settings_calibrate (OddSettings *settings, const OddMeasured *measured);

G_END_DECLS
