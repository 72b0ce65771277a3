/* How far one seam is, and the seams of one layout.
 *
 * A finish has one operation that joins, the first seam it sews, and one after which the seam may be crossed:
 *
 *      neaten?   SEW   trim   fold   second pass   topstitch?   PRESS   topstitch?
 *                 |                                               |
 *            joins the parts                        ready to be crossed
 *
 * Whatever lies before the last press and is not pressing makes the edges fast; what lies behind it may wait.
 */
#include "config.h"

#include "sewing/progress.h"
#include "sewing/stage.h"

#include <glib/gi18n.h>

static const char *const stage_nicks[] = { "planned", "sewn", "finished", "pressed", "done" };
static const char *const stage_names[] = {
  /* Translators: how far a seam is */
  N_("planned"), N_("sewn"), N_("finished"), N_("pressed"), N_("every operation done")
};

static gboolean
is_settled (const OddSeam *seam,
            guint          operation)
{
  return odd_progress_get_state (seam->progress, operation) != ODD_STATE_OPEN;
}

gboolean
odd_seam_is_sewn (const OddSeam   *seam,
                  const OddFinish *finish)
{
  g_return_val_if_fail (seam != NULL && finish != NULL, FALSE);

  return is_settled (seam, odd_finish_first_sew (finish));
}

gboolean
odd_seam_is_ready_to_cross (const OddSeam   *seam,
                            const OddFinish *finish)
{
  g_return_val_if_fail (seam != NULL && finish != NULL, FALSE);

  for (guint i = 0; i <= odd_finish_ready_to_cross (finish); i++)
    if (!is_settled (seam, i))
      return FALSE;
  return TRUE;
}

/* Have the edges been made fast? FALSE too where the finish leaves them raw. */
static gboolean
is_made_fast (const OddSeam   *seam,
              const OddFinish *finish)
{
  const guint joins = odd_finish_first_sew (finish);
  const guint ready = odd_finish_ready_to_cross (finish);
  gboolean any = FALSE;

  for (guint i = 0; i <= ready; i++)
    {
      if (i == joins || finish->operations[i].kind == ODD_OPERATION_PRESS)
        continue;
      if (!is_settled (seam, i))
        return FALSE;
      any = TRUE;
    }
  return any;
}

OddStage
odd_seam_get_stage (const OddSeam   *seam,
                    const OddFinish *finish)
{
  g_return_val_if_fail (seam != NULL && finish != NULL, ODD_STAGE_PLANNED);

  if (!odd_seam_is_sewn (seam, finish))
    return ODD_STAGE_PLANNED;
  if (odd_seam_get_next (seam, finish, NULL) == ODD_WORK_NONE)
    return ODD_STAGE_DONE;
  if (odd_seam_is_ready_to_cross (seam, finish))
    return ODD_STAGE_PRESSED;
  return is_made_fast (seam, finish) ? ODD_STAGE_FINISHED : ODD_STAGE_SEWN;
}

static OddWork
work_of (const OddFinish *finish,
         guint            operation)
{
  switch (finish->operations[operation].kind)
    {
    case ODD_OPERATION_SEW:
      return operation == odd_finish_first_sew (finish) ? ODD_WORK_SEW : ODD_WORK_FINISH;
    case ODD_OPERATION_PRESS:
      return ODD_WORK_PRESS;
    case ODD_OPERATION_TOPSTITCH:
      return ODD_WORK_TOPSTITCH;
    case ODD_OPERATION_NEATEN:
    case ODD_OPERATION_TRIM:
    case ODD_OPERATION_FOLD:
    default:
      return ODD_WORK_FINISH;
    }
}

OddWork
odd_seam_get_next (const OddSeam   *seam,
                   const OddFinish *finish,
                   guint           *out_operation)
{
  guint i = 0;

  g_return_val_if_fail (seam != NULL && finish != NULL, ODD_WORK_NONE);

  while (i < finish->n_operations && is_settled (seam, i))
    i++;
  if (out_operation != NULL)
    *out_operation = i;
  return i < finish->n_operations ? work_of (finish, i) : ODD_WORK_NONE;
}

const char *
odd_stage_get_name (OddStage stage)
{
  g_return_val_if_fail ((guint) stage < G_N_ELEMENTS (stage_names), "");

  return _(stage_names[stage]);
}

const char *
odd_stage_get_nick (OddStage stage)
{
  g_return_val_if_fail ((guint) stage < G_N_ELEMENTS (stage_nicks), stage_nicks[0]);

  return stage_nicks[stage];
}

/* --- of a layout --- */

/* A join's progress is in the textile only: a panel's layout does not change when the panel is joined. */
static gboolean
is_join_sewn (OddTextileLayout *textile,
              OddId             join_id)
{
  for (guint i = 0; textile != NULL && join_id != 0 && i < textile->n_joins; i++)
    if (textile->joins[i].join->id == join_id)
      return odd_seam_is_sewn (textile->joins[i].join, textile->joins[i].finish);
  return FALSE;
}

static gboolean
is_sewn_over (const OddLayout  *layout,
              OddTextileLayout *textile,
              const OddEnd     *end)
{
  if (end->label >= 0)
    return odd_seam_is_sewn (layout->seams[end->label].seam, layout->seams[end->label].finish);
  return is_join_sewn (textile, layout->edges[-1 - end->label].join_id);
}

gboolean *
odd_layout_raw_inside (const OddLayout  *layout,
                       OddTextileLayout *textile)
{
  gboolean *raw_inside;

  g_return_val_if_fail (layout != NULL, NULL);

  raw_inside = g_new0 (gboolean, layout->n_seams + 1);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];

      /* trimmed away where it hangs, it has no ends there */
      raw_inside[i] = laid->raw_length_mm > 0.0 && !odd_seam_is_ready_to_cross (laid->seam, laid->finish) &&
                      (is_sewn_over (layout, textile, &laid->ends[0]) || is_sewn_over (layout, textile, &laid->ends[1]));
    }
  return raw_inside;
}

void
odd_work_count_add_seam (OddWorkCount    *count,
                         const OddSeam   *seam,
                         const OddFinish *finish,
                         double           run_mm)
{
  guint next;
  OddWork work;

  g_return_if_fail (count != NULL && seam != NULL && finish != NULL);

  work = odd_seam_get_next (seam, finish, &next);
  count->n_seams++;
  if (work == ODD_WORK_NONE)
    {
      count->n_done++;
      return;
    }
  count->n[work]++;
  count->run_mm[work] += run_mm;
  for (guint i = next; i < finish->n_operations; i++)
    if (!is_settled (seam, i))
      count->operations_open[finish->operations[i].station]++;
}

void
odd_work_count_add_layout (OddWorkCount     *count,
                           const OddLayout  *layout,
                           OddTextileLayout *textile)
{
  g_autofree gboolean *raw_inside = NULL;

  g_return_if_fail (count != NULL && layout != NULL);

  raw_inside = odd_layout_raw_inside (layout, textile);
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];

      odd_work_count_add_seam (count, laid->seam, laid->finish, laid->raw_length_mm);
      count->n_raw_inside += raw_inside[i];
    }
}

OddWorkCount
odd_layout_count_work (const OddLayout *layout)
{
  OddWorkCount count = { 0 };

  odd_work_count_add_layout (&count, layout, NULL);
  return count;
}
