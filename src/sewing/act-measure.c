#include "config.h"

#include "sewing/act-measure.h"

#include <glib/gi18n.h>

#include "cloth/measured.h"

void
odd_measure_to_figures (const OddMeasure *measure,
                        double            figures[ODD_N_MEASURE_FIGURES])
{
  for (guint i = 0; i < 3; i++)
    {
      figures[i] = isnan (measure->lengths_mm[i]) ? 0.0 : measure->lengths_mm[i];
      figures[3 + i] = isnan (measure->widths_mm[i]) ? 0.0 : measure->widths_mm[i];
    }
  for (guint i = 0; i < 2; i++)
    figures[6 + i] = isnan (measure->diagonals_mm[i]) ? 0.0 : measure->diagonals_mm[i];
  figures[8] = measure->seam_to_seam ? 1.0 : 0.0;
}

static double
figure_or_nan (double mm)
{
  return mm != 0.0 ? mm : NAN;
}

static void
figures_to_measure (const double *figures,
                    OddMeasure   *measure)
{
  odd_measure_init (measure);
  for (guint i = 0; i < 3; i++)
    {
      measure->lengths_mm[i] = figure_or_nan (figures[i]);
      measure->widths_mm[i] = figure_or_nan (figures[3 + i]);
    }
  for (guint i = 0; i < 2; i++)
    measure->diagonals_mm[i] = figure_or_nan (figures[6 + i]);
  measure->seam_to_seam = figures[8] != 0.0;
}

OddAct
odd_act_about_part (OddJob     *job,
                    OddActKind  kind,
                    OddId       part_id)
{
  OddAct act = { .kind = kind };

  if (odd_job_get_textile (job, part_id) != NULL)
    act.textile_id = part_id;
  else if (odd_job_get_panel (job, part_id, NULL, NULL) != NULL)
    act.panel_id = part_id;
  else
    act.node_id = part_id;
  return act;
}

/* Which part it is about, its name put down. */
static OddId
name_part (OddAct *act,
           OddJob *job)
{
  OddPanel *panel = odd_job_get_panel (job, act->panel_id, NULL, NULL);
  OddTextile *textile = odd_job_get_textile (job, act->textile_id);
  OddPanel *holder = act->node_id != 0 ? odd_job_find_panel_of (job, act->node_id, NULL, NULL) : NULL;
  g_autofree char *name = NULL;

  if (holder != NULL)
    {
      name = odd_job_dup_panel_name (job, holder);
      act->panel_id = holder->id;
      odd_act_take_name (act, g_strdup_printf (_("A strip of %s"), name));
      return act->node_id;
    }
  if (panel != NULL)
    odd_act_take_name (act, odd_job_dup_panel_name (job, panel));
  else if (textile != NULL)
    odd_act_take_name (act, odd_job_dup_textile_name (job, textile));
  return act->node_id != 0 ? act->node_id : act->panel_id != 0 ? act->panel_id : act->textile_id;
}

/* node_id (a strip), panel_id or textile_id; figures: odd_measure_to_figures(); anyway: doubtful figures were confirmed */
OddJob *
odd_act_do_measure (OddJob  *job,
                    OddAct  *act,
                    GError **error)
{
  const OddId id = name_part (act, job);
  OddMeasure measure;

  if (act->n_figures < ODD_N_MEASURE_FIGURES)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN, _("It is not said what was measured."));
      return NULL;
    }
  figures_to_measure (act->figures, &measure);
  return odd_job_measure (job, id, &measure, act->anyway, error);
}

char *
odd_act_say_measure (const OddAct *act,
                     OddUnit       unit)
{
  OddTriple length, width;
  OddMeasure measure;
  g_autofree char *down = NULL;
  g_autofree char *across = NULL;

  odd_measure_init (&measure);
  if (act->n_figures >= ODD_N_MEASURE_FIGURES)
    figures_to_measure (act->figures, &measure);
  length = odd_triple_of (measure.lengths_mm);
  width = odd_triple_of (measure.widths_mm);
  down = odd_length_format (length.n > 0 ? length.mean_mm : 0.0, unit);
  across = odd_length_format (width.n > 0 ? width.mean_mm : 0.0, unit);
  if (length.n > 0 && width.n > 0)
    return g_strdup_printf (_("%s: measured, %s wide and %s long"), act->name, across, down);
  if (length.n > 0)
    return g_strdup_printf (_("%s: measured, %s long"), act->name, down);
  if (width.n > 0)
    return g_strdup_printf (_("%s: measured, %s wide"), act->name, across);
  return odd_measure_is_empty (&measure) ? g_strdup_printf (_("%s: measure taken back"), act->name) : g_strdup_printf (_("%s: diagonals measured"), act->name);
}

/* node_id (a strip), panel_id or textile_id */
OddJob *
odd_act_do_square_up (OddJob  *job,
                      OddAct  *act,
                      GError **error)
{
  return odd_job_square_up (job, name_part (act, job), error);
}

char *
odd_act_say_square_up (const OddAct *act,
                       OddUnit       unit)
{
  return g_strdup_printf (_("%s: squared up"), act->name);
}

/* textile_id */
OddJob *
odd_act_do_cut_level (OddJob  *job,
                      OddAct  *act,
                      GError **error)
{
  return odd_job_trim_to_shortest (job, name_part (act, job), error);
}

char *
odd_act_say_cut_level (const OddAct *act,
                       OddUnit       unit)
{
  return g_strdup_printf (_("%s: all panels trimmed to the shortest"), act->name);
}
