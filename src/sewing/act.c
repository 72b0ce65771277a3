#include "config.h"

#include "sewing/act.h"

#include <glib/gi18n.h>

#include "cloth/piece.h"
#include "sewing/act-measure.h"
#include "sewing/bias.h"
#include "sewing/found.h"
#include "sewing/own-time.h"
#include "sewing/plan.h"
#include "sewing/progress.h"
#include "sewing/unpick.h"

static OddJob *
refuse (GError     **error,
        const char  *sentence)
{
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN, sentence);
  return NULL;
}

static void
name_scrap (OddAct *act,
            OddJob *job)
{
  OddScrap *scrap = odd_job_get_scrap (job, act->scrap_id);

  if (scrap != NULL)
    odd_act_take_name (act, g_strdup_printf (_("Scrap %u"), scrap->number));
}

static void
name_panel (OddAct *act,
            OddJob *job)
{
  OddPanel *panel = odd_job_get_panel (job, act->panel_id, NULL, NULL);

  if (panel != NULL)
    odd_act_take_name (act, odd_job_dup_panel_name (job, panel));
}

/* "Panel 2, patch 7"; its panel and scrap are put down too. */
static void
name_patch (OddAct *act,
            OddJob *job)
{
  OddPanel *panel = odd_job_find_panel_of (job, act->node_id, NULL, NULL);
  g_autoptr(OddLayout) layout = panel != NULL ? odd_job_dup_layout (job, panel->id) : NULL;
  const OddPatch *patch = layout != NULL ? odd_layout_find_patch (layout, act->node_id) : NULL;
  g_autofree char *name = NULL;

  if (patch == NULL)
    return;
  name = odd_job_dup_panel_name (job, panel);
  act->panel_id = panel->id;
  act->scrap_id = patch->leaf->scrap_id;
  /* Translators: a panel's name and a patch's number: "Panel 2, patch 7" */
  odd_act_take_name (act, g_strdup_printf (_("%s, patch %u"), name, patch->number));
}

/* "Panel 2, seam 7, 8 to 9"; "Join of Panel 2 to Panel 3" */
static void
name_seam (OddAct         *act,
           const OddFound *found,
           OddJob         *job)
{
  g_autofree char *sides = odd_found_dup_name (found, job);
  g_autofree char *panel = found->panel != NULL ? odd_job_dup_panel_name (job, found->panel) : NULL;

  act->panel_id = found->panel != NULL ? found->panel->id : 0;
  act->textile_id = found->textile != NULL ? found->textile->textile->id : 0;
  if (panel != NULL)
    /* Translators: a panel and the patches on both sides of a seam: "Panel 2, seam 7, 8 to 9" */
    odd_act_take_name (act, g_strdup_printf (_("%s, seam %s"), panel, sides));
  else
    /* Translators: the join of two panels: "Join of Panel 2 to Panel 3" */
    odd_act_take_name (act, g_strdup_printf (_("Join of %s"), sides));
}

static void
name_step (OddAct         *act,
           const OddFound *found,
           guint           operation)
{
  act->operation = operation;
  if (operation < found->finish->n_operations)
    odd_act_take_step (act, g_strdup (found->finish->operations[operation].text));
}

/* --- seams --- */

/* seam_id; operation: ODD_ACT_NEXT or the one that is next; anyway: even if raw ends are enclosed */
static OddJob *
do_mark (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  g_auto(OddFound) found = { 0 };
  OddJob *after;
  guint next;

  if (!odd_found_init (&found, job, act->seam_id, error))
    return NULL;
  odd_seam_get_next (found.seam, found.finish, &next);
  if (act->operation != ODD_ACT_NEXT && act->operation != next)
    return refuse (error, _("Another operation of this seam comes first. Mark that one before."));
  after = odd_job_mark_next (job, act->seam_id, act->anyway, error);
  if (after == NULL)
    return NULL;
  name_seam (act, &found, job);
  name_step (act, &found, next);
  return after;
}

static char *
say_mark (const OddAct *act,
          OddUnit       unit)
{
  if (act->anyway)
    /* Translators: a seam's name and an operation */
    return g_strdup_printf (_("%s: %s, over raw ends"), act->name, act->step);
  return g_strdup_printf (_("%s: %s"), act->name, act->step);
}

static guint
last_marked (const OddSeam *seam)
{
  guint last = ODD_ACT_NEXT;

  for (guint i = 0; i < odd_progress_get_n (seam->progress); i++)
    if (odd_progress_get_state (seam->progress, i) != ODD_STATE_OPEN)
      last = i;
  return last;
}

/* seam_id; operation: ODD_ACT_NEXT: the last one, else that and all after it */
static OddJob *
do_unmark (OddJob  *job,
           OddAct  *act,
           GError **error)
{
  g_auto(OddFound) found = { 0 };
  g_autoptr(OddProgress) progress = NULL;
  guint last, first;

  if (!odd_found_init (&found, job, act->seam_id, error))
    return NULL;
  last = last_marked (found.seam);
  if (last == ODD_ACT_NEXT)
    return odd_job_unmark_last (job, act->seam_id, error);
  first = act->operation == ODD_ACT_NEXT ? last : act->operation;
  if (first > last)
    return refuse (error, _("This operation is not marked. Mark it before taking it back."));
  progress = odd_progress_ref (found.seam->progress);
  for (guint i = first; i <= last; i++)
    {
      OddProgress *with = odd_progress_with (progress, i, ODD_STATE_OPEN, NULL);

      odd_progress_unref (progress);
      progress = with;
    }
  name_seam (act, &found, job);
  name_step (act, &found, first);
  return odd_job_set_progress (job, act->seam_id, progress, error);
}

static char *
say_unmark (const OddAct *act,
            OddUnit       unit)
{
  return g_strdup_printf (_("%s: mark taken back, %s"), act->name, act->step);
}

/* seam_id, reason */
static OddJob *
do_skip (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  g_auto(OddFound) found = { 0 };
  OddJob *after = odd_job_skip_next (job, act->seam_id, act->reason, error);
  guint next;

  if (after == NULL)
    return NULL;
  if (odd_found_init (&found, job, act->seam_id, NULL))
    {
      odd_seam_get_next (found.seam, found.finish, &next);
      name_seam (act, &found, job);
      name_step (act, &found, next);
    }
  return after;
}

static char *
say_skip (const OddAct *act,
          OddUnit       unit)
{
  return g_strdup_printf (_("%s: left out, %s"), act->name, act->step);
}

/* scrap_id, seam_id, end, state */
static OddJob *
do_secure_in_piece (OddJob  *job,
                    OddAct  *act,
                    GError **error)
{
  OddScrap *scrap = odd_job_get_scrap (job, act->scrap_id);

  if (scrap != NULL)
    odd_act_take_name (act, g_strdup_printf (_("Seam of piece %u"), scrap->number));
  return odd_job_set_piece_end_secured (job, act->scrap_id, act->seam_id, act->end, act->state == ODD_STATE_DONE, error);
}

/* seam_id, end, state; scrap_id where the seam lies in a pieced scrap */
static OddJob *
do_secure (OddJob  *job,
           OddAct  *act,
           GError **error)
{
  g_auto(OddFound) found = { 0 };

  if (act->scrap_id != 0 && act->end <= 1)
    return do_secure_in_piece (job, act, error);
  if (!odd_found_init (&found, job, act->seam_id, error))
    return NULL;
  if (act->end > 1)
    return refuse (error, _("A seam has two ends, 0 and 1."));
  name_seam (act, &found, job);
  return odd_job_set_end_secured (job, act->seam_id, act->end, act->state == ODD_STATE_DONE, error);
}

static char *
say_secure (const OddAct *act,
            OddUnit       unit)
{
  if (act->state == ODD_STATE_DONE)
    return g_strdup_printf (_("%s: an end back-stitched"), act->name);
  return g_strdup_printf (_("%s: back-stitch taken back"), act->name);
}

/* seam_id, reason, figures: mm lost at each raw edge; then a second figure: mm of stitching; ids then: what went with it */
static OddJob *
do_unpick (OddJob  *job,
           OddAct  *act,
           GError **error)
{
  g_auto(OddFound) found = { 0 };
  g_autoptr(OddUnpicking) plan = odd_job_plan_unpicking (job, act->seam_id, error);
  const double lost_mm = act->n_figures > 0 ? act->figures[0] : 0.0;

  if (plan == NULL || !odd_found_init (&found, job, act->seam_id, error))
    return NULL;
  name_seam (act, &found, job);
  odd_act_set_figures (act, (double[]) { lost_mm, plan->stitching_mm }, 2);
  odd_act_set_ids (act, (const OddId *) plan->seams->data, plan->seams->len - 1);
  return odd_job_unpick (job, act->seam_id, lost_mm, error);
}

static char *
say_unpick (const OddAct *act,
            OddUnit       unit)
{
  const double lost_mm = act->n_figures > 0 ? act->figures[0] : 0.0;
  const double stitching_mm = act->n_figures > 1 ? act->figures[1] : 0.0;
  g_autofree char *lost = odd_length_format (lost_mm, unit);
  g_autoptr(GString) text = g_string_new (NULL);

  if (act->n_ids > 0)
    /* Translators: a seam, a number of other seams, metres */
    g_string_printf (text, ngettext ("%s: unpicked with %u more, %.2f m of stitching", "%s: unpicked with %u more, %.2f m of stitching", act->n_ids),
                     act->name, act->n_ids, stitching_mm / 1000.0);
  else
    g_string_printf (text, _("%s: unpicked, %.2f m of stitching"), act->name, stitching_mm / 1000.0);
  if (lost_mm > 0.0)
    g_string_append_printf (text, _(", %s of cloth lost"), lost);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* seam_id, operation, state: done, skipped (with a reason) or open again; anyway: sewn even if raw ends are enclosed */
static OddJob *
do_task (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  const OddTaskKey key = { ODD_TASK_OPERATION, act->seam_id, act->operation };
  g_auto(OddFound) found = { 0 };

  if (!odd_found_init (&found, job, act->seam_id, error))
    return NULL;
  name_seam (act, &found, job);
  name_step (act, &found, act->operation);
  switch (act->state)
    {
    case ODD_STATE_DONE: return odd_job_do_task (job, &key, act->anyway, error);
    case ODD_STATE_SKIPPED: return odd_job_skip_task (job, &key, act->reason, error);
    default: return odd_job_undo_task (job, &key, error);
    }
}

static char *
say_task (const OddAct *act,
          OddUnit       unit)
{
  switch (act->state)
    {
    case ODD_STATE_DONE: return say_mark (act, unit);
    case ODD_STATE_SKIPPED: return say_skip (act, unit);
    default: return say_unmark (act, unit);
    }
}

/* --- panels --- */

/* panel_id, operation: OddWork; figures then: seams marked, seams left because they would enclose raw ends */
static OddJob *
do_mark_panel (OddJob  *job,
               OddAct  *act,
               GError **error)
{
  guint marked = 0, left = 0;
  OddJob *after;

  if (act->operation >= ODD_WORK_NONE)
    return refuse (error, _("A panel can be marked sewn, finished, pressed or topstitched."));
  after = odd_job_mark_panel (job, act->panel_id, act->operation, &marked, &left, error);
  if (after == NULL)
    return NULL;
  odd_act_set_figures (act, (double[]) { marked, left }, 2);
  name_panel (act, job);
  return after;
}

static char *
say_mark_panel (const OddAct *act,
                OddUnit       unit)
{
  const guint n = act->n_figures > 0 ? (guint) CLAMP (act->figures[0], 0, G_MAXINT) : 0;

  switch (act->operation)
    {
    case ODD_WORK_SEW: return g_strdup_printf (ngettext ("%s: %u seam sewn", "%s: %u seams sewn", n), act->name, n);
    case ODD_WORK_FINISH: return g_strdup_printf (ngettext ("%s: %u seam finished", "%s: %u seams finished", n), act->name, n);
    case ODD_WORK_PRESS: return g_strdup_printf (ngettext ("%s: %u seam pressed", "%s: %u seams pressed", n), act->name, n);
    default: return g_strdup_printf (ngettext ("%s: %u seam topstitched", "%s: %u seams topstitched", n), act->name, n);
    }
}

/* panel_id, end: number of the outline's edge, figures: mm cut off */
static OddJob *
do_trim (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  if (act->n_figures < 1)
    return refuse (error, _("It is not said how much was trimmed off."));
  name_panel (act, job);
  return odd_job_trim_edge (job, act->panel_id, act->end, act->figures[0], error);
}

static char *
say_trim (const OddAct *act,
          OddUnit       unit)
{
  g_autofree char *off = odd_length_format (act->n_figures > 0 ? act->figures[0] : 0.0, unit);

  return g_strdup_printf (_("%s: %s trimmed off"), act->name, off);
}

/* --- patches and scraps --- */

/* node_id; 0: scrap_id, cut out as a whole; state */
static OddJob *
do_cut (OddJob  *job,
        OddAct  *act,
        GError **error)
{
  if (act->node_id != 0)
    {
      name_patch (act, job);
      return odd_job_set_cut (job, act->node_id, act->state, error);
    }
  name_scrap (act, job);
  return act->state == ODD_STATE_DONE ? odd_job_cut_scrap (job, act->scrap_id, error) : odd_job_uncut_scrap (job, act->scrap_id, error);
}

static char *
say_cut (const OddAct *act,
         OddUnit       unit)
{
  if (act->state == ODD_STATE_DONE)
    return g_strdup_printf (_("%s: cut out"), act->name);
  return g_strdup_printf (_("%s: mark taken back, not cut out"), act->name);
}

/* node_id, state */
static OddJob *
do_stay (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  name_patch (act, job);
  return odd_job_set_stayed (job, act->node_id, act->state, error);
}

static char *
say_stay (const OddAct *act,
          OddUnit       unit)
{
  return g_strdup_printf (act->state == ODD_STATE_DONE ? _("%s: edges on the bias stayed")
                          : act->state == ODD_STATE_SKIPPED ? _("%s: edges on the bias left as they are")
                                                            : _("%s: mark taken back, not stayed"), act->name);
}

/* node_id; ids then: the piece's scrap */
static OddJob *
do_release (OddJob  *job,
            OddAct  *act,
            GError **error)
{
  OddId scrap_id = 0;
  OddJob *after;

  name_patch (act, job);
  after = odd_job_release_patch (job, act->node_id, &scrap_id, error);
  if (after == NULL)
    return NULL;
  odd_act_set_ids (act, &scrap_id, 1);
  odd_act_take_step (act, g_strdup_printf (_("scrap %u"), odd_job_get_scrap (after, scrap_id)->number));
  return after;
}

static char *
say_release (const OddAct *act,
             OddUnit       unit)
{
  /* Translators: a patch, and the scrap it is now: "Panel 2, patch 7: released, scrap 41 now" */
  return g_strdup_printf (_("%s: released, %s now"), act->name, act->step);
}

/* scrap_id, state */
static OddJob *
do_wash (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  name_scrap (act, job);
  return odd_job_wash_scrap (job, act->scrap_id, act->state == ODD_STATE_DONE, error);
}

static char *
say_wash (const OddAct *act,
          OddUnit       unit)
{
  if (act->state == ODD_STATE_DONE)
    return g_strdup_printf (_("%s: washed"), act->name);
  return g_strdup_printf (_("%s: mark taken back, not washed"), act->name);
}

/* scrap_id, state */
static OddJob *
do_gone (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  name_scrap (act, job);
  return odd_job_set_scrap_gone (job, act->scrap_id, act->state == ODD_STATE_DONE, error);
}

static char *
say_gone (const OddAct *act,
          OddUnit       unit)
{
  if (act->state == ODD_STATE_DONE)
    return g_strdup_printf (_("%s: given away or used up"), act->name);
  return g_strdup_printf (_("%s: here again"), act->name);
}

/* --- pieces --- */

/* state done: panel_id; open: scrap_id. ids then: what it became */
static OddJob *
do_piece (OddJob  *job,
          OddAct  *act,
          GError **error)
{
  OddId id = 0;
  OddJob *after;

  if (act->state == ODD_STATE_DONE)
    {
      name_panel (act, job);
      after = odd_job_panel_to_scrap (job, act->panel_id, &id, error);
    }
  else
    {
      name_scrap (act, job);
      after = odd_job_scrap_to_panel (job, act->scrap_id, &id, error);
    }
  if (after != NULL)
    odd_act_set_ids (act, &id, 1);
  return after;
}

static char *
say_piece (const OddAct *act,
           OddUnit       unit)
{
  if (act->state == ODD_STATE_DONE)
    return g_strdup_printf (_("%s: put among the scraps"), act->name);
  return g_strdup_printf (_("%s: made a panel again"), act->name);
}

/* scrap_id, figures: normal and offset of the line, scrap's frame. ids then: the halves */
static OddJob *
do_cut_piece (OddJob  *job,
              OddAct  *act,
              GError **error)
{
  OddHalfPlane line;
  OddId ids[2];
  OddJob *after;

  if (act->n_figures < 3 || fabs (hypot (act->figures[0], act->figures[1]) - 1.0) > 1e-6)
    return refuse (error, _("It is not said where the piece was cut. Name the direction and the place of the line."));
  name_scrap (act, job);
  line = (OddHalfPlane) { { act->figures[0], act->figures[1] }, act->figures[2] };
  after = odd_job_cut_piece (job, act->scrap_id, line, ids, error);
  if (after != NULL)
    odd_act_set_ids (act, ids, 2);
  return after;
}

static char *
say_cut_piece (const OddAct *act,
               OddUnit       unit)
{
  return g_strdup_printf (_("%s: cut across"), act->name);
}

/* --- time --- */

/* operation: the station; figures: see OddTiming */
static OddJob *
do_time (OddJob  *job,
         OddAct  *act,
         GError **error)
{
  OddTiming timing;

  if (!odd_timing_from_act (act, &timing))
    return refuse (error, _("This cannot be a timing: it needs a station, one task or more, and the seconds they took, at most a day. Time it again."));
  odd_act_take_name (act, g_strdup (odd_station_get_name (timing.station)));
  return odd_job_ref (job);
}

static char *
say_time (const OddAct *act,
          OddUnit       unit)
{
  g_autofree char *length = NULL;
  OddTiming timing;

  if (!odd_timing_from_act (act, &timing))
    return g_strdup_printf (_("Timed at the %s"), act->name);
  length = odd_run_format (timing.length_mm, unit);
  /* Translators: station, number of tasks, length, minutes: "Timed at the iron: 5 tasks, 1.4 m, in 6.2 min" */
  return g_strdup_printf (ngettext ("Timed at the %s: %u task, %s, in %.1f min", "Timed at the %s: %u tasks, %s, in %.1f min", timing.n), act->name, timing.n,
                          length, timing.seconds / 60.0);
}

/* --- all kinds --- */

static const struct
{
  const char *nick;
  OddJob *(*act) (OddJob *job, OddAct *act, GError **error);       /* completes @act; on failure nobody will see it */
  char *(*say) (const OddAct *act, OddUnit unit);                   /* name and step are never NULL here */
}
kinds[] =
{
  [ODD_ACT_MARK] = { "mark", do_mark, say_mark },
  [ODD_ACT_MARK_PANEL] = { "mark-panel", do_mark_panel, say_mark_panel },
  [ODD_ACT_UNMARK] = { "unmark", do_unmark, say_unmark },
  [ODD_ACT_SKIP] = { "skip", do_skip, say_skip },
  [ODD_ACT_SECURE] = { "secure", do_secure, say_secure },
  [ODD_ACT_CUT] = { "cut", do_cut, say_cut },
  [ODD_ACT_WASH] = { "wash", do_wash, say_wash },
  [ODD_ACT_TRIM] = { "trim", do_trim, say_trim },
  [ODD_ACT_GONE] = { "gone", do_gone, say_gone },
  [ODD_ACT_PIECE] = { "piece", do_piece, say_piece },
  [ODD_ACT_CUT_PIECE] = { "cut-piece", do_cut_piece, say_cut_piece },
  [ODD_ACT_UNPICK] = { "unpick", do_unpick, say_unpick },
  [ODD_ACT_RELEASE] = { "release", do_release, say_release },
  [ODD_ACT_MEASURE] = { "measure", odd_act_do_measure, odd_act_say_measure },
  [ODD_ACT_SQUARE_UP] = { "square-up", odd_act_do_square_up, odd_act_say_square_up },
  [ODD_ACT_TASK] = { "task", do_task, say_task },
  [ODD_ACT_STAY] = { "stay", do_stay, say_stay },
  [ODD_ACT_TIME] = { "time", do_time, say_time },
  [ODD_ACT_CUT_LEVEL] = { "cut-level", odd_act_do_cut_level, odd_act_say_cut_level },
};
G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == ODD_N_ACT_KINDS);

OddJob *
odd_job_do (OddJob        *job,
            const OddAct  *act,
            GError       **error)
{
  g_autoptr(OddAct) completed = NULL;
  g_autoptr(OddJob) after = NULL;

  g_return_val_if_fail (job != NULL && act != NULL && (guint) act->kind < ODD_N_ACT_KINDS, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  completed = odd_act_new (act);
  after = kinds[act->kind].act (job, completed, error);
  if (after == NULL)
    return NULL;
  if (completed->operation == ODD_ACT_NEXT)
    completed->operation = 0;         /* of a kind that knows no operations */
  return odd_job_append_act (after, completed);
}

OddJob *
odd_job_replay (OddJob   *planned,
                OddJob   *done,
                GError  **error)
{
  g_autoptr(OddJob) job = NULL;

  g_return_val_if_fail (planned != NULL && done != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  for (guint i = 0; i < planned->record->len; i++)
    if (i >= done->record->len || !odd_act_equal (planned->record->pdata[i], done->record->pdata[i]))
      return refuse (error, _("The record does not begin with what was done already. Choose the plan that it belongs to."));
  job = odd_job_ref (planned);
  for (guint i = planned->record->len; i < done->record->len; i++)
    {
      OddJob *next = odd_job_do (job, done->record->pdata[i], error);

      if (next == NULL)
        {
          /* Translators: the number of an entry in the record of what was done */
          g_prefix_error (error, _("Entry %u of the record: "), i + 1);
          return NULL;
        }
      odd_job_unref (job);
      job = next;
    }
  return g_steal_pointer (&job);
}

char *
odd_act_dup_text (const OddAct *act,
                  OddUnit       unit)
{
  OddAct named = *act;

  g_return_val_if_fail ((guint) act->kind < ODD_N_ACT_KINDS, NULL);

  if (named.name == NULL)
    named.name = (char *) "?";
  if (named.step == NULL)
    named.step = (char *) "?";
  return kinds[act->kind].say (&named, unit);
}

const char *
odd_act_kind_get_nick (OddActKind kind)
{
  g_return_val_if_fail ((guint) kind < ODD_N_ACT_KINDS, "");

  return kinds[kind].nick;
}

gboolean
odd_act_kind_from_nick (const char *nick,
                        OddActKind *out)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (g_str_equal (kinds[i].nick, nick))
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}
