#include "config.h"

#include "sewing/expected.h"

#define SURE 0.95
#define LONGEST_REACH 8.0       /* standard deviations beyond which nothing counts */
#define N_STEPS 2000

OddTake
odd_take_of_seams (guint              n_seams,
                   const OddSettings *settings)
{
  const double fold = settings->fold_loss_mm, scatter = settings->scatter_mm, bias = n_seams * settings->bias_mm;

  return (OddTake) { n_seams * fold / 2.0, sqrt (n_seams * (fold * fold / 12.0 + scatter * scatter) + bias * bias) };
}

double
odd_normal_below (double z)
{
  return 0.5 * erfc (-z * M_SQRT1_2);
}

double
odd_normal_quantile (double p)
{
  double low = -40.0, high = 40.0;

  g_return_val_if_fail (p > 0.0 && p < 1.0, NAN);

  for (guint i = 0; i < 100; i++)
    {
      const double middle = (low + high) / 2.0;

      if (odd_normal_below (middle) < p)
        low = middle;
      else
        high = middle;
    }
  return (low + high) / 2.0;
}

/* --- lines that all have to be long enough --- */

typedef struct { double mean_mm, sd_mm; } Line;

/* The chance that every line is at least @mm. */
static double
chance_of (GArray *lines,
           double  mm)
{
  double chance = 1.0;

  for (guint i = 0; i < lines->len; i++)
    {
      const Line *line = &g_array_index (lines, Line, i);

      if (line->sd_mm > ODD_TOLERANCE_MM)
        chance *= odd_normal_below ((line->mean_mm - mm) / line->sd_mm);
      else if (line->mean_mm < mm - ODD_TOLERANCE_MM)
        chance = 0.0;
    }
  return chance;
}

/* Below @out_low all are sure to be longer, beyond @out_high one is sure to be shorter. */
static void
reach_of (GArray *lines,
          double *out_low,
          double *out_high)
{
  *out_low = *out_high = G_MAXDOUBLE;
  for (guint i = 0; i < lines->len; i++)
    {
      const Line *line = &g_array_index (lines, Line, i);

      *out_low = MIN (*out_low, line->mean_mm - LONGEST_REACH * line->sd_mm);
      *out_high = MIN (*out_high, line->mean_mm + LONGEST_REACH * line->sd_mm);
    }
}

/* The length that all reach with this chance. */
static double
length_with_chance (GArray *lines,
                    double  chance)
{
  double low, high;

  reach_of (lines, &low, &high);
  high += 1.0;
  for (guint i = 0; i < 100; i++)
    {
      const double middle = (low + high) / 2.0;

      if (chance_of (lines, middle) >= chance)
        low = middle;
      else
        high = middle;
    }
  return low;
}

/* Mean of the shortest: low + the area under the chance to be longer, by the trapezium rule. */
static double
mean_of_shortest (GArray *lines)
{
  double low, high, area = 0.0;

  reach_of (lines, &low, &high);
  if (high - low <= ODD_TOLERANCE_MM)
    return low;
  for (guint i = 0; i <= N_STEPS; i++)
    area += chance_of (lines, low + (high - low) * i / N_STEPS) * (i == 0 || i == N_STEPS ? 0.5 : 1.0);
  return low + area * (high - low) / N_STEPS;
}

/* --- of the job --- */

static guint
count_uncertain (OddJob   *job,
                 OddId     id,
                 gboolean  across,
                 guint    *out_crossed)
{
  static const double at[3] = { 0.1, 0.5, 0.9 };
  guint most = 0;

  *out_crossed = 0;
  for (guint i = 0; i < 3; i++)
    {
      g_autoptr(GArray) crossings = odd_job_find_crossings (job, id, across, at[i]);
      guint n = 0;

      for (guint c = 0; crossings != NULL && c < crossings->len; c++)
        n += !g_array_index (crossings, OddCrossing, c).known;
      *out_crossed = MAX (*out_crossed, crossings != NULL ? crossings->len : 0);
      most = MAX (most, n);
    }
  return most;
}

static void
add_line (GArray      *lines,
          OddJob      *job,
          double       planned_mm,
          guint        n_seams,
          OddExpected *out)
{
  const OddTake take = odd_take_of_seams (n_seams, &job->settings);
  const Line line = { planned_mm - take.mean_mm, take.sd_mm };

  g_array_append_val (lines, line);
  out->n_seams = MAX (out->n_seams, n_seams);
  out->sd_mm = MAX (out->sd_mm, take.sd_mm);
}

/* Lengths of a textile: each panel has its own, before what is trimmed of it. */
static guint
add_panels (GArray      *lines,
            OddJob      *job,
            OddId        textile_id,
            OddExpected *out)
{
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (job, textile_id);
  guint crossed = 0;

  for (guint i = 0; i < layout->n_panels; i++)
    {
      const OddHungLayout *hung = &layout->panels[i];
      guint n_crossed = 0;
      const guint n = count_uncertain (job, hung->panel_id, FALSE, &n_crossed);

      crossed = MAX (crossed, n_crossed);
      add_line (lines, job, layout->finished_length_mm + hung->trim_top_mm + hung->trim_bottom_mm + hung->eased_mm, n, out);
    }
  out->planned_mm = layout->finished_length_mm;
  return crossed;
}

static guint
add_whole (GArray      *lines,
           OddJob      *job,
           OddId        id,
           gboolean     across,
           OddExpected *out)
{
  OddMeasure none;
  OddMeasured measured;
  guint crossed = 0;
  const guint n = count_uncertain (job, id, across, &crossed);

  odd_measure_init (&none);
  none.seam_to_seam = TRUE;
  if (!odd_job_evaluate_measure (job, id, &none, &measured, NULL))
    return 0;
  out->planned_mm = across ? measured.width.now_mm : measured.length.now_mm;
  add_line (lines, job, out->planned_mm, n, out);
  return crossed;
}

gboolean
odd_job_expect (OddJob      *self,
                OddId        id,
                gboolean     across,
                OddExpected *out)
{
  g_autoptr(GArray) lines = g_array_new (FALSE, FALSE, sizeof (Line));
  OddTextile *textile = odd_job_get_textile (self, id);
  OddExpected expected = { 0 };
  guint crossed;

  if (textile != NULL && !across)
    crossed = add_panels (lines, self, id, &expected);
  else
    crossed = add_whole (lines, self, id, across, &expected);
  if (crossed == 0 || lines->len == 0)
    return FALSE;
  expected.mean_mm = mean_of_shortest (lines);
  expected.least_95_mm = length_with_chance (lines, SURE);
  expected.add_mm = MAX (expected.planned_mm - expected.least_95_mm, 0.0);
  expected.wanted_mm = expected.planned_mm;
  if (textile != NULL && (across ? textile->target_width_mm : textile->target_length_mm) > 0.0)
    expected.wanted_mm = across ? textile->target_width_mm : textile->target_length_mm;
  expected.chance_short = 1.0 - chance_of (lines, expected.wanted_mm);
  *out = expected;
  return TRUE;
}

gboolean
odd_settings_calibrate (OddSettings       *settings,
                        const OddMeasured *measured)
{
  const guint n = measured->length.n_seams + measured->width.n_seams;
  const double scatter = settings->scatter_mm;
  double fold;

  if (isnan (measured->deeper_mm) || n == 0)
    return FALSE;
  fold = CLAMP (4.0 * measured->deeper_mm, 0.0, 20.0);      /* a seam takes 2 x deeper_mm on the mean, an even spread twice its mean */
  settings->fold_loss_mm = fold;
  settings->bias_mm = MIN (sqrt ((fold * fold / 12.0 + scatter * scatter) / n), 20.0);
  return TRUE;
}
