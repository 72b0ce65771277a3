/* What the maker does at the order of work: ticks, skips, pins, times. */
#include "config.h"

#include "ui/work-pane-private.h"

#include <glib/gi18n.h>

#include "sewing/ends.h"
#include "ui/deed.h"
#include "ui/pull-list.h"
#include "ui/toast.h"
#include "ui/work-ends.h"
#include "ui/work-figures.h"

/* How long a tick is seen before its row goes. */
#define TICK_MS 700

static OddWorkItem *
get_chosen (OddWorkPane *self)
{
  return gtk_single_selection_get_selected_item (self->choice);
}

static void
rest (OddWorkPane *self)
{
  gboolean animate = TRUE;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animate, NULL);
  g_clear_handle_id (&self->rest_timer, g_source_remove);
  if (animate && gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->rest_timer = g_timeout_add (TICK_MS, odd_work_pane_rest_cb, self);
}

/* A task as an act: whatever is ticked, unticked or left out here is put down. */
static OddAct
act_of (const OddTaskKey *key,
        OddState          state,
        const char       *reason)
{
  switch (key->kind)
    {
    case ODD_TASK_CUT: return (OddAct) { .kind = ODD_ACT_CUT, .node_id = key->id, .state = state, .reason = (char *) reason };
    case ODD_TASK_SECURE: return (OddAct) { .kind = ODD_ACT_SECURE, .seam_id = key->id, .end = key->index, .state = state };
    default: return (OddAct) { .kind = ODD_ACT_TASK, .seam_id = key->id, .operation = key->index, .state = state, .reason = (char *) reason };
    }
}

static gboolean
second_cb (gpointer data)
{
  odd_work_pane_show_timer (data);
  return G_SOURCE_CONTINUE;
}

/* (transfer full) the job with what was timed put down in it. */
static OddJob *
put_down (OddJob          *job,
          const OddTiming *timing,
          GError         **error)
{
  double figures[ODD_TIMING_N_FIGURES];
  const OddAct act = odd_timing_to_act (timing, figures);

  return odd_job_do_now (job, &act, error);
}

/* What is ticked at another station than before closes what was timed there; both are one step. Takes and returns @job. */
static OddJob *
time_tick (OddWorkPane *self,
           OddWorkItem *item,
           OddJob      *job)
{
  OddTiming timing;
  OddJob *timed;

  if (self->timer == NULL || !odd_work_timer_tick (self->timer, item->plan, item->task, odd_now_s (), &timing))
    return job;
  timed = put_down (job, &timing, NULL);
  if (timed == NULL)
    return job;
  odd_job_unref (job);
  return timed;
}

static void
stop_timer (OddWorkPane *self)
{
  OddPane *pane = ODD_PANE (self);
  g_autoptr(GError) error = NULL;
  OddTiming timing;

  g_clear_handle_id (&self->second_id, g_source_remove);
  if (odd_work_timer_close (self->timer, &timing))
    odd_pane_apply (pane, put_down (odd_pane_get_job (pane), &timing, &error), &error, _("Time the work"));
  else
    odd_toast (GTK_WIDGET (self), _("Nothing was ticked while the timer ran, so nothing is put down. Tick tasks as you do them."), NULL, NULL);
  g_clear_pointer (&self->timer, odd_work_timer_free);
}

static void
toggle_timer (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddWorkPane *self = ODD_WORK_PANE (widget);

  if (self->timer != NULL)
    stop_timer (self);
  else
    {
      self->timer = odd_work_timer_new (odd_now_s ());
      self->second_id = g_timeout_add_seconds (1, second_cb, self);
    }
  odd_work_pane_show_timer (self);
}

static void
toggle_pause (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddWorkPane *self = ODD_WORK_PANE (widget);

  if (self->timer == NULL)
    return;
  if (odd_work_timer_is_running (self->timer))
    odd_work_timer_pause (self->timer, odd_now_s ());
  else
    odd_work_timer_go_on (self->timer, odd_now_s ());
  odd_work_pane_show_timer (self);
}

static gboolean
tick_item (OddWorkPane *self,
           OddWorkItem *item)
{
  OddPane *pane = ODD_PANE (self);
  const OddTaskKey key = *odd_work_item_get_key (item);
  g_autoptr(OddWorkItem) done = odd_work_item_new (item->job, item->plan, item->task, item->number, TRUE);
  g_autoptr(GError) error = NULL;
  const OddAct act = act_of (&key, ODD_STATE_DONE, NULL);
  OddJob *job = odd_job_do_now (odd_pane_get_job (pane), &act, &error);

  if (job == NULL)
    {
      odd_toast (GTK_WIDGET (self), error->message, NULL, NULL);
      odd_work_pane_show_plan (self);
      return FALSE;
    }
  job = time_tick (self, item, job);
  g_array_append_val (self->ticks, key);
  if (odd_work_pane_get_stop (self) == 0)
    {
      g_array_append_val (self->done, key);
      g_ptr_array_add (self->done_items, g_object_ref (done));
    }
  rest (self);
  odd_document_apply (odd_pane_get_document (pane), job, _("Tick a task"));
  odd_work_pane_show_progress (self);
  return TRUE;
}

static gboolean
untick_item (OddWorkPane      *self,
             const OddTaskKey *key)
{
  const OddAct act = act_of (key, ODD_STATE_OPEN, NULL);

  if (self->timer != NULL)
    odd_work_timer_untick (self->timer, key);
  return odd_pane_do (ODD_PANE (self), &act, _("Take a tick off"));
}

gboolean
odd_work_pane_tick (OddWorkPane *self)
{
  OddWorkItem *item;
  guint at;

  g_return_val_if_fail (ODD_IS_WORK_PANE (self), FALSE);

  item = get_chosen (self);
  if (item == NULL)
    return FALSE;
  if (item->done)
    return untick_item (self, odd_work_item_get_key (item));
  at = gtk_single_selection_get_selected (self->choice);
  if (!tick_item (self, item))
    return FALSE;
  /* while the tick is seen, the next task is chosen already: the foot need not wait */
  if (self->rest_timer != 0 && at + 1 < g_list_model_get_n_items (G_LIST_MODEL (self->items)))
    gtk_single_selection_set_selected (self->choice, at + 1);
  return TRUE;
}

gboolean
odd_work_pane_untick_last (OddWorkPane *self)
{
  g_return_val_if_fail (ODD_IS_WORK_PANE (self), FALSE);

  return self->ticks->len > 0 && untick_item (self, &g_array_index (self->ticks, OddTaskKey, self->ticks->len - 1));
}

void
odd_work_pane_ticked_cb (OddWorkPane *self,
                         OddWorkRow  *row)
{
  OddWorkItem *item = odd_work_row_get_item (row);

  if (item->done)
    untick_item (self, odd_work_item_get_key (item));
  else
    tick_item (self, item);
}

static void
untick (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  odd_work_pane_untick_last (ODD_WORK_PANE (widget));
}

static void
skip_answer_cb (OddWorkPane      *self,
                const char       *response,
                AdwMessageDialog *dialog)
{
  const char *reason = gtk_editable_get_text (GTK_EDITABLE (adw_message_dialog_get_extra_child (dialog)));
  OddWorkItem *item = get_chosen (self);
  OddAct act;

  if (item == NULL || !g_str_equal (response, "skip"))
    return;
  if (odd_work_item_get_key (item)->kind == ODD_TASK_SECURE)
    {
      odd_toast (GTK_WIDGET (self), _("A cut end comes undone when it is left. Stitch it down, then tick it."), NULL, NULL);
      return;
    }
  act = act_of (odd_work_item_get_key (item), ODD_STATE_SKIPPED, *reason != '\0' ? reason : NULL);
  odd_pane_do (ODD_PANE (self), &act, _("Skip a task"));
}

static void
skip (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  OddWorkPane *self = ODD_WORK_PANE (widget);
  OddWorkItem *item = get_chosen (self);
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *entry = gtk_entry_new ();
  g_autofree char *text = NULL;
  AdwMessageDialog *dialog;

  if (item == NULL || item->done)
    return;
  text = odd_plan_dup_text (item->plan, item->task, odd_pane_get_unit (ODD_PANE (self)));
  dialog = ADW_MESSAGE_DIALOG (adw_message_dialog_new (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, _("Skip this task?"), text));
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _("Why: selvedge, does not fray"));
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Reason"), -1);
  adw_message_dialog_set_extra_child (dialog, entry);
  adw_message_dialog_add_responses (dialog, "cancel", _("_Cancel"), "skip", _("_Skip"), NULL);
  adw_message_dialog_set_default_response (dialog, "skip");
  adw_message_dialog_set_close_response (dialog, "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (skip_answer_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
first (GtkWidget  *widget,
       const char *action,
       GVariant   *parameter)
{
  OddWorkPane *self = ODD_WORK_PANE (widget);
  OddWorkItem *item = get_chosen (self);

  if (item == NULL || item->done)
    return;
  self->shown_stop = 0;
  odd_planner_pin (self->planner, odd_work_item_get_key (item));
}

static void
as_planned (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  odd_planner_pin (ODD_WORK_PANE (widget)->planner, NULL);
}

static void
show_fetch (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);

  odd_pull_list_present (widget, odd_pane_get_document (pane), odd_pane_get_textile_id (pane));
}

static void
show_ends (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);
  GtkRoot *root = gtk_widget_get_root (widget);

  odd_work_ends_present (GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, odd_pane_get_document (pane), odd_pane_get_selection (pane),
                         odd_pane_get_textile_id (pane));
}

static void
show_figures (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  OddPane *pane = ODD_PANE (widget);

  odd_work_figures_present (widget, odd_pane_get_document (pane), odd_work_pane_get_plan (ODD_WORK_PANE (widget)), odd_pane_get_unit (pane));
}

void
odd_work_pane_select_task (OddWorkPane *self)
{
  OddWorkItem *item = get_chosen (self);
  const OddTaskKey *key;

  if (self->filling || item == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  key = odd_work_item_get_key (item);
  odd_pane_select (ODD_PANE (self), key->kind == ODD_TASK_CUT ? ODD_SELECTED_PATCH : ODD_SELECTED_SEAM, key->id);
}

/* The window acts on what is selected, and a task that was chosen for her is not yet. */
static void
unpick (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  odd_work_pane_select_task (ODD_WORK_PANE (widget));
  gtk_widget_activate_action (widget, "win.unpick", NULL);
}

static void
measure (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  odd_work_pane_select_task (ODD_WORK_PANE (widget));
  gtk_widget_activate_action (widget, "win.measure", NULL);
}

static void
select_previous_stop (OddWorkPane *self,
                      int          step)
{
  OddPlan *plan = odd_work_pane_get_plan (self);
  const int at = (int) odd_work_pane_get_stop (self) + step;

  if (plan == NULL || at < 0 || at >= (int) plan->n_stops)
    return;
  self->shown_stop = (guint) at;
  odd_work_pane_show_plan (self);
}

/* What a hand, or a second foot switch that sends a key, may press. */
gboolean
odd_work_pane_key_cb (OddWorkPane     *self,
                      guint            keyval,
                      guint            code,
                      GdkModifierType  state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_space:
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_Page_Down:
      odd_work_pane_tick (self);
      return TRUE;
    case GDK_KEY_BackSpace:
    case GDK_KEY_Page_Up:
      odd_work_pane_untick_last (self);
      return TRUE;
    case GDK_KEY_k:
      skip (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_f:
      first (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_t:
      toggle_timer (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_p:
      toggle_pause (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_h:
      show_figures (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_e:
      show_ends (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_u:
      unpick (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_m:
      measure (GTK_WIDGET (self), NULL, NULL);
      return TRUE;
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      select_previous_stop (self, keyval == GDK_KEY_Left ? -1 : 1);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
manner_cb (OddWorkPane *self)
{
  if (self->planner != NULL)
    g_object_set (self->planner, "manner", (int) gtk_drop_down_get_selected (self->manner), NULL);
}

static void
show_done_cb (OddWorkPane *self)
{
  odd_work_pane_show_plan (self);
}

/* --- for the class --- */

void
odd_work_pane_class_add_acts (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "work.untick", NULL, untick);
  gtk_widget_class_install_action (widget_class, "work.skip", NULL, skip);
  gtk_widget_class_install_action (widget_class, "work.first", NULL, first);
  gtk_widget_class_install_action (widget_class, "work.unpick", NULL, unpick);
  gtk_widget_class_install_action (widget_class, "work.measure", NULL, measure);
  gtk_widget_class_install_action (widget_class, "work.as-planned", NULL, as_planned);
  gtk_widget_class_install_action (widget_class, "work.fetch", NULL, show_fetch);
  gtk_widget_class_install_action (widget_class, "work.ends", NULL, show_ends);
  gtk_widget_class_install_action (widget_class, "work.timer", NULL, toggle_timer);
  gtk_widget_class_install_action (widget_class, "work.pause", NULL, toggle_pause);
  gtk_widget_class_install_action (widget_class, "work.figures", NULL, show_figures);
  gtk_widget_class_bind_template_callback (widget_class, manner_cb);
  gtk_widget_class_bind_template_callback (widget_class, show_done_cb);
}
