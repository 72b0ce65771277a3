#include "config.h"

#include "ui/work-pane.h"

#include <glib/gi18n.h>

#include "sewing/ends.h"
#include "sewing/own-time.h"
#include "sewing/piece-ends.h"
#include "ui/glyph.h"
#include "ui/planner.h"
#include "ui/pull-list.h"
#include "ui/deed.h"
#include "ui/toast.h"
#include "ui/work-ends.h"
#include "ui/work-figures.h"
#include "ui/work-row.h"

#define MOST_STOPS_SHOWN 7
#define MOST_STOPS_NARROW 4
/* How long a tick is seen before its row goes. */
#define TICK_MS 700

struct _OddWorkPane
{
  OddPane parent_instance;
  OddPlanner *planner;
  GListStore *items;
  GtkSingleSelection *choice;
  GArray *done;               /* OddTaskKey: ticked at this stop, in that order */
  GPtrArray *done_items;      /* OddWorkItem, as they were when they were ticked */
  GArray *ticks;              /* OddTaskKey: all ticks of this sitting, to take back one by one */
  gboolean narrow;
  OddStation station;         /* of the stop at which those were ticked */
  guint shown_stop;           /* index in the plan, 0 unless she looks ahead */
  GArray *marks;              /* OddWorkMark */
  guint rest_timer;           /* a tick is being shown */
  OddWorkTimer *timer;        /* NULL unless she wants one */
  guint second_id;            /* it is shown as it runs */
  gboolean wants_keys;        /* as soon as there is a task: a foot switch must not have to look for the list */
  gboolean filling;

  GtkStack *stack;
  AdwStatusPage *empty;
  OddGlyph *station_glyph;
  GtkLabel *stop_label;
  GtkLabel *station_label;
  GtkBox *stops;
  GtkDropDown *manner;
  GtkLabel *done_label;
  GtkProgressBar *bar;
  GtkLabel *setting_label;
  GtkButton *ends;
  GtkLabel *time_label;
  GtkButton *timer_button;
  GtkButton *pause;
  GtkToggleButton *show_done;
  GtkListView *list;
  GtkWidget *then_box;
  OddGlyph *then_glyph;
  GtkLabel *then_label;
  GtkWidget *unpin;
};

G_DEFINE_FINAL_TYPE (OddWorkPane, odd_work_pane, ODD_TYPE_PANE)

enum { PROP_0, PROP_NARROW, N_PROPS };
enum { MARKS_CHANGED, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

/* --- the plan --- */

static OddPlan *
get_plan (OddWorkPane *self)
{
  OddPlan *plan = odd_planner_get_plan (self->planner);

  return plan != NULL && plan->n_stops > 0 ? plan : NULL;
}

static guint
get_stop (OddWorkPane *self)
{
  OddPlan *plan = get_plan (self);

  return plan != NULL && self->shown_stop < plan->n_stops ? self->shown_stop : 0;
}

static const char *
station_symbol (OddStation station)
{
  switch (station)
    {
    case ODD_STATION_OVERLOCKER: return "overlock";
    case ODD_STATION_IRON: return "press";
    case ODD_STATION_TABLE: return "trim";
    default: return "sew";
    }
}

static const char *
station_title (OddStation station)
{
  switch (station)
    {
    case ODD_STATION_OVERLOCKER: return _("At the overlocker");
    case ODD_STATION_IRON: return _("At the iron");
    case ODD_STATION_TABLE: return _("At the table");
    default: return _("At the sewing machine");
    }
}

static gboolean
is_open (OddPlan          *plan,
         const OddTaskKey *key)
{
  const int at = odd_plan_find (plan, key);

  return at >= 0 && plan->tasks[at].state == ODD_STATE_OPEN;
}

/* What was ticked and is open again, by undo or otherwise, or lies at another station than the stop that is on now, is no more of this stop. */
static void
forget_done (OddWorkPane *self)
{
  OddPlan *plan = get_plan (self);

  if (plan == NULL || plan->stops[0].station != self->station)
    g_array_set_size (self->done, 0);
  if (plan != NULL)
    self->station = plan->stops[0].station;
  for (guint i = self->done->len; i > 0; i--)
    if (is_open (plan, &g_array_index (self->done, OddTaskKey, i - 1)))
      {
        g_array_remove_index (self->done, i - 1);
        g_ptr_array_remove_index (self->done_items, i - 1);
      }
  if (self->done->len == 0)
    g_ptr_array_set_size (self->done_items, 0);
  for (guint i = self->ticks->len; i > 0 && plan != NULL; i--)
    if (is_open (plan, &g_array_index (self->ticks, OddTaskKey, i - 1)))
      g_array_remove_index (self->ticks, i - 1);
}

/* --- what is shown --- */

static void
remove_children (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
stop_cb (OddWorkPane *self,
         GtkWidget   *button)
{
  self->shown_stop = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "stop"));
  odd_pane_refresh (ODD_PANE (self));
}

static void
add_passed (OddWorkPane *self,
            guint        n)
{
  GtkWidget *mark = odd_glyph_new ("check");
  g_autofree char *tip = g_strdup_printf (ngettext ("%u stop is behind you", "%u stops are behind you", n), n);

  gtk_widget_add_css_class (mark, "work-stop");
  gtk_widget_add_css_class (mark, "done");
  gtk_widget_set_tooltip_text (mark, tip);
  gtk_box_append (self->stops, mark);
}

static void
add_stop (OddWorkPane *self,
          OddPlan     *plan,
          guint        at)
{
  const OddStop *stop = &plan->stops[at];
  GtkWidget *button = gtk_button_new ();
  g_autofree char *tip = g_strdup_printf (ngettext ("%s, %u task", "%s, %u tasks", stop->n), station_title (stop->station), stop->n);

  gtk_button_set_child (GTK_BUTTON (button), odd_glyph_new (station_symbol (stop->station)));
  gtk_widget_add_css_class (button, "work-stop");
  gtk_widget_add_css_class (button, "flat");
  if (at == get_stop (self))
    gtk_widget_add_css_class (button, "shown");
  gtk_widget_set_tooltip_text (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  g_object_set_data (G_OBJECT (button), "stop", GUINT_TO_POINTER (at));
  g_signal_connect_object (button, "clicked", G_CALLBACK (stop_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->stops, button);
}

static void
show_stops (OddWorkPane *self,
            OddPlan     *plan)
{
  const guint n_passed = odd_planner_get_n_passed (self->planner);
  const guint most = self->narrow ? MOST_STOPS_NARROW : MOST_STOPS_SHOWN;

  remove_children (self->stops);
  for (guint i = 0; i < MIN (n_passed, self->narrow ? 1 : 2); i++)
    add_passed (self, n_passed);
  for (guint i = 0; i < MIN (plan->n_stops, most); i++)
    add_stop (self, plan, i);
  if (plan->n_stops > most)
    gtk_box_append (self->stops, gtk_label_new ("…"));
}

static void
show_head (OddWorkPane *self,
           OddPlan     *plan)
{
  const OddStop *stop = &plan->stops[get_stop (self)];
  const guint n_passed = odd_planner_get_n_passed (self->planner);

  odd_glyph_set_kind (self->station_glyph, station_symbol (stop->station));
  odd_label_take (self->stop_label, stop->number == 0 ? g_strdup (_("Before the first stop"))
                                                      : g_strdup_printf (_("Stop %u of %u"), n_passed + stop->number, n_passed + plan->n_walks));
  gtk_label_set_text (self->station_label, station_title (stop->station));
}

/* Thread and stitch, as far as they are the same for the whole stop. */
static void
show_setting (OddWorkPane *self,
              OddPlan     *plan)
{
  const OddStop *stop = &plan->stops[get_stop (self)];
  const OddMachineSetting *setting = &plan->settings[plan->tasks[stop->first].setting];
  guint n_changes = 0;
  g_autoptr(GString) text = g_string_new (NULL);

  for (guint i = 1; i < stop->n; i++)
    n_changes += plan->tasks[stop->first + i].setting != plan->tasks[stop->first + i - 1].setting;
  if (setting->stitch != NULL)
    g_string_append_printf (text, _("Stitch %s, %s"), setting->stitch, odd_shade_get_name (setting->shade));
  if (n_changes > 0)
    g_string_append_printf (text, ngettext ("; %u change on the way", "; %u changes on the way", n_changes), n_changes);
  gtk_label_set_text (self->setting_label, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->setting_label), text->len > 0);
}

static void
show_progress (OddWorkPane *self)
{
  guint done, all;

  odd_work_pane_get_progress (self, &done, &all);
  odd_label_take (self->done_label, g_strdup_printf (_("%u of %u done"), done, all));
  gtk_progress_bar_set_fraction (self->bar, all > 0 ? (double) done / all : 0.0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->show_done), self->done->len > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "work.untick", self->ticks->len > 0);
  gtk_widget_set_visible (self->unpin, odd_planner_has_pins (self->planner));
}

static void
show_ends_left (OddWorkPane *self)
{
  OddJob *job = odd_pane_get_job (ODD_PANE (self));
  const guint n = odd_job_count_ends_to_secure (job, odd_pane_get_textile_id (ODD_PANE (self))) + odd_job_count_piece_ends (job);
  g_autofree char *text = g_strdup_printf (ngettext ("%u end to secure", "%u ends to secure", n), n);

  gtk_button_set_label (self->ends, text);
  gtk_widget_set_visible (GTK_WIDGET (self->ends), n > 0);
}

static void
show_time_left (OddWorkPane *self,
                OddPlan     *plan)
{
  OddJob *job = odd_planner_get_job (self->planner);
  g_autofree char *all = odd_range_dup_text (odd_job_plan_time (job, plan).all);
  g_autofree char *here = odd_range_dup_text (odd_job_stop_time (job, plan, get_stop (self)));

  /* translators: ranges of time: "Left: 40 to 70 min, here 3 to 6 min" */
  odd_label_take (self->time_label, g_strdup_printf (_("Left: %s, here %s"), all, here));
}

static void
show_timer (OddWorkPane *self)
{
  const gint64 s = self->timer != NULL ? odd_work_timer_get_seconds (self->timer, odd_now_s ()) : 0;
  g_autofree char *text = self->timer != NULL ? g_strdup_printf (_("Stop, %d:%02d"), (int) (s / 60), (int) (s % 60)) : g_strdup (_("Time it"));

  gtk_button_set_label (self->timer_button, text);
  gtk_widget_set_visible (GTK_WIDGET (self->pause), self->timer != NULL);
  if (self->timer != NULL)
    gtk_button_set_label (self->pause, odd_work_timer_is_running (self->timer) ? _("Pause") : _("Go on"));
}

static void
show_then (OddWorkPane *self,
           OddPlan     *plan)
{
  const guint next = get_stop (self) + 1;

  gtk_widget_set_visible (self->then_box, next < plan->n_stops);
  if (next >= plan->n_stops)
    return;
  odd_glyph_set_kind (self->then_glyph, station_symbol (plan->stops[next].station));
  odd_label_take (self->then_label, g_strdup_printf (ngettext ("Then: %s, %u task", "Then: %s, %u tasks", plan->stops[next].n),
                                                     odd_station_get_name (plan->stops[next].station), plan->stops[next].n));
}

static void
add_mark (OddWorkPane *self,
          OddWorkItem *item)
{
  const OddWorkMark mark = { odd_work_item_get_key (item)->id, item->number, item->done };

  g_array_append_val (self->marks, mark);
}

/* The chosen task keeps its place where it is still there; after a tick the next one stands in it. */
static gboolean
holds_focus (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && (focus == widget || gtk_widget_is_ancestor (focus, widget));
}

static void
fill_items (OddWorkPane *self,
            OddPlan     *plan)
{
  const OddStop *stop = &plan->stops[get_stop (self)];
  const gboolean now = get_stop (self) == 0;
  const guint was = gtk_single_selection_get_selected (self->choice);
  OddWorkItem *chosen = gtk_single_selection_get_selected_item (self->choice);
  const OddTaskKey key = chosen != NULL ? *odd_work_item_get_key (chosen) : (OddTaskKey) { 0 };
  const guint n_done = now ? self->done->len : 0;
  const guint n_shown = gtk_toggle_button_get_active (self->show_done) ? n_done : 0;
  g_autoptr(GPtrArray) fresh = g_ptr_array_new_with_free_func (g_object_unref);
  guint at = was == GTK_INVALID_LIST_POSITION ? n_shown : was;

  g_array_set_size (self->marks, 0);
  for (guint i = 0; i < n_done; i++)
    {
      OddWorkItem *item = self->done_items->pdata[i];

      add_mark (self, item);
      if (n_shown > 0)
        g_ptr_array_add (fresh, g_object_ref (item));
    }
  for (guint i = 0; i < stop->n; i++)
    {
      OddWorkItem *item = odd_work_item_new (odd_planner_get_job (self->planner), plan, stop->first + i, n_done + i + 1, FALSE);

      if (chosen != NULL && odd_task_key_equal (&key, odd_work_item_get_key (item)))
        at = fresh->len;
      add_mark (self, item);
      g_ptr_array_add (fresh, item);
    }
  self->filling = TRUE;
  /* a row that goes takes the focus with it, and the next key would press whatever gets it */
  self->wants_keys |= fresh->len > 0 && holds_focus (GTK_WIDGET (self->list));
  g_list_store_splice (self->items, 0, g_list_model_get_n_items (G_LIST_MODEL (self->items)), fresh->pdata, fresh->len);
  gtk_single_selection_set_selected (self->choice, MIN (MAX (at, n_shown), fresh->len > 0 ? fresh->len - 1 : 0));
  self->filling = FALSE;
}

static void
show_nothing (OddWorkPane *self)
{
  const OddWorkCount count = odd_job_count_work (odd_pane_get_job (ODD_PANE (self)), odd_pane_get_textile_id (ODD_PANE (self)));
  const gboolean had_focus = holds_focus (GTK_WIDGET (self->list));

  gtk_stack_set_visible_child_name (self->stack, "empty");
  if (had_focus)
    gtk_widget_grab_focus (GTK_WIDGET (self->empty));
  adw_status_page_set_title (self->empty, count.n_seams > 0 ? _("Every seam is done") : _("Nothing to sew"));
  adw_status_page_set_description (self->empty, count.n_seams > 0 ? _("Every operation of this textile is done or skipped.") : _("Join two scraps first."));
  adw_status_page_set_icon_name (self->empty, count.n_seams > 0 ? "object-select-symbolic" : "odd-work-symbolic");
  g_array_set_size (self->marks, 0);
  self->filling = TRUE;
  g_list_store_remove_all (self->items);
  self->filling = FALSE;
}

static void
show_plan (OddWorkPane *self)
{
  OddPlan *plan = get_plan (self);

  forget_done (self);
  if (plan == NULL)
    {
      if (odd_planner_get_plan (self->planner) != NULL)
        show_nothing (self);
    }
  else
    {
      gtk_stack_set_visible_child_name (self->stack, "work");
      show_stops (self, plan);
      show_head (self, plan);
      show_setting (self, plan);
      show_ends_left (self);
      show_time_left (self, plan);
      show_timer (self);
      fill_items (self, plan);
      show_progress (self);
      show_then (self, plan);
      if (self->wants_keys && gtk_widget_get_mapped (GTK_WIDGET (self)))
        self->wants_keys = !gtk_widget_grab_focus (GTK_WIDGET (self->list));
    }
  g_signal_emit (self, signals[MARKS_CHANGED], 0);
}

/* An older plan still holds as open what was ticked since: it waits for its successor. */
static void
show_if_fresh (OddWorkPane *self)
{
  if (self->rest_timer == 0 && odd_planner_get_job (self->planner) == odd_pane_get_job (ODD_PANE (self)))
    show_plan (self);
}

static gboolean
rest_cb (gpointer data)
{
  OddWorkPane *self = data;

  self->rest_timer = 0;
  show_if_fresh (self);
  return G_SOURCE_REMOVE;
}

static void
planned_cb (OddWorkPane *self)
{
  show_if_fresh (self);
}

/* --- what the maker does --- */

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
    self->rest_timer = g_timeout_add (TICK_MS, rest_cb, self);
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
  show_timer (data);
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
  show_timer (self);
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
  show_timer (self);
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
      show_plan (self);
      return FALSE;
    }
  job = time_tick (self, item, job);
  g_array_append_val (self->ticks, key);
  if (get_stop (self) == 0)
    {
      g_array_append_val (self->done, key);
      g_ptr_array_add (self->done_items, g_object_ref (done));
    }
  rest (self);
  odd_document_apply (odd_pane_get_document (pane), job, _("Tick a task"));
  show_progress (self);
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

static void
ticked_cb (OddWorkPane *self,
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

  odd_work_figures_present (widget, odd_pane_get_document (pane), get_plan (ODD_WORK_PANE (widget)), odd_pane_get_unit (pane));
}

static void
select_task (OddWorkPane *self)
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
  select_task (ODD_WORK_PANE (widget));
  gtk_widget_activate_action (widget, "win.unpick", NULL);
}

static void
measure (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  select_task (ODD_WORK_PANE (widget));
  gtk_widget_activate_action (widget, "win.measure", NULL);
}

static void
select_previous_stop (OddWorkPane *self,
                      int          step)
{
  OddPlan *plan = get_plan (self);
  const int at = (int) get_stop (self) + step;

  if (plan == NULL || at < 0 || at >= (int) plan->n_stops)
    return;
  self->shown_stop = (guint) at;
  show_plan (self);
}

/* What a hand, or a second foot switch that sends a key, may press. */
static gboolean
key_cb (OddWorkPane     *self,
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
  show_plan (self);
}

/* --- rows --- */

static void
setup_cb (OddWorkPane *self,
          GtkListItem *list_item)
{
  GtkWidget *row = odd_work_row_new ();

  g_signal_connect_object (row, "ticked", G_CALLBACK (ticked_cb), self, G_CONNECT_SWAPPED);
  g_object_bind_property (list_item, "selected", row, "chosen", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "narrow", row, "narrow", G_BINDING_SYNC_CREATE);
  gtk_list_item_set_child (list_item, row);
}

static void
bind_cb (OddWorkPane *self,
         GtkListItem *list_item)
{
  odd_work_row_show (ODD_WORK_ROW (gtk_list_item_get_child (list_item)), gtk_list_item_get_item (list_item), odd_pane_get_unit (ODD_PANE (self)));
}

static void
map_cb (OddWorkPane *self)
{
  self->wants_keys = TRUE;
  if (get_plan (self) != NULL)
    self->wants_keys = !gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

/* --- life --- */

static void
odd_work_pane_refresh (OddPane *pane)
{
  OddWorkPane *self = ODD_WORK_PANE (pane);
  OddDocument *document = NULL;
  OddId textile_id = 0;
  gboolean active = FALSE;

  g_object_get (self->planner, "document", &document, "textile-id", &textile_id, "active", &active, NULL);
  if (document != odd_pane_get_document (pane))
    g_object_set (self->planner, "document", odd_pane_get_document (pane), NULL);
  if (textile_id != odd_pane_get_textile_id (pane))
    g_object_set (self->planner, "textile-id", odd_pane_get_textile_id (pane), NULL);
  if (!active)
    g_object_set (self->planner, "active", TRUE, NULL);
  show_if_fresh (self);
  g_clear_object (&document);
}

static void
odd_work_pane_dispose (GObject *object)
{
  OddWorkPane *self = ODD_WORK_PANE (object);

  g_clear_handle_id (&self->rest_timer, g_source_remove);
  g_clear_handle_id (&self->second_id, g_source_remove);
  g_clear_pointer (&self->timer, odd_work_timer_free);
  if (self->planner != NULL)
    g_object_set (self->planner, "active", FALSE, NULL);
  g_clear_object (&self->planner);
  G_OBJECT_CLASS (odd_work_pane_parent_class)->dispose (object);
}

static void
odd_work_pane_finalize (GObject *object)
{
  OddWorkPane *self = ODD_WORK_PANE (object);

  g_array_unref (self->done);
  g_array_unref (self->marks);
  g_array_unref (self->ticks);
  g_ptr_array_unref (self->done_items);
  g_object_unref (self->items);
  g_object_unref (self->choice);
  G_OBJECT_CLASS (odd_work_pane_parent_class)->finalize (object);
}

static void
odd_work_pane_get_property (GObject    *object,
                            guint       prop_id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  if (prop_id == PROP_NARROW)
    g_value_set_boolean (value, ODD_WORK_PANE (object)->narrow);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_work_pane_set_property (GObject      *object,
                            guint         prop_id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  OddWorkPane *self = ODD_WORK_PANE (object);

  if (prop_id != PROP_NARROW)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
      return;
    }
  if (self->narrow == g_value_get_boolean (value))
    return;
  self->narrow = g_value_get_boolean (value);
  (self->narrow ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (GTK_WIDGET (self), "narrow");
  gtk_widget_set_visible (GTK_WIDGET (self->manner), !self->narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->station_glyph), !self->narrow);
  if (get_plan (self) != NULL)
    show_stops (self, get_plan (self));
  g_object_notify_by_pspec (object, pspec);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, stack);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, empty);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, station_glyph);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, stop_label);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, station_label);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, stops);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, manner);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, done_label);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, bar);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, setting_label);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, ends);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, time_label);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, timer_button);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, pause);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, show_done);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, list);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, then_box);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, then_glyph);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, then_label);
  gtk_widget_class_bind_template_child (widget_class, OddWorkPane, unpin);
}

static void
odd_work_pane_class_init (OddWorkPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_work_pane_dispose;
  G_OBJECT_CLASS (klass)->finalize = odd_work_pane_finalize;
  G_OBJECT_CLASS (klass)->get_property = odd_work_pane_get_property;
  G_OBJECT_CLASS (klass)->set_property = odd_work_pane_set_property;
  ODD_PANE_CLASS (klass)->refresh = odd_work_pane_refresh;
  props[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
  signals[MARKS_CHANGED] = g_signal_new ("marks-changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (ODD_TYPE_GLYPH);
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
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/work-pane.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, manner_cb);
  gtk_widget_class_bind_template_callback (widget_class, show_done_cb);
  gtk_widget_class_bind_template_callback (widget_class, setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, bind_cb);
}

static void
odd_work_pane_init (OddWorkPane *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  const char *manners[ODD_N_MANNERS + 1] = { NULL };
  g_autoptr(GtkStringList) names = NULL;

  for (guint i = 0; i < ODD_N_MANNERS; i++)
    manners[i] = odd_manner_get_name (i);
  names = gtk_string_list_new (manners);
  self->done = g_array_new (FALSE, FALSE, sizeof (OddTaskKey));
  self->done_items = g_ptr_array_new_with_free_func (g_object_unref);
  self->ticks = g_array_new (FALSE, FALSE, sizeof (OddTaskKey));
  self->marks = g_array_new (FALSE, FALSE, sizeof (OddWorkMark));
  self->items = g_list_store_new (ODD_TYPE_WORK_ITEM);
  self->choice = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->items)));
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drop_down_set_model (self->manner, G_LIST_MODEL (names));
  self->planner = odd_planner_new ();
  g_signal_connect_object (self->planner, "planned", G_CALLBACK (planned_cb), self, G_CONNECT_SWAPPED);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->choice));
  g_signal_connect_object (self->choice, "notify::selected-item", G_CALLBACK (select_task), self, G_CONNECT_SWAPPED);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
}

int
odd_work_pane_get_manner (OddWorkPane *self)
{
  g_return_val_if_fail (ODD_IS_WORK_PANE (self), ODD_MANNER_CHAIN);

  return (int) gtk_drop_down_get_selected (self->manner);
}

GArray *
odd_work_pane_get_pins (OddWorkPane *self)
{
  g_return_val_if_fail (ODD_IS_WORK_PANE (self), NULL);

  return odd_planner_get_pins (self->planner);
}

GArray *
odd_work_pane_get_marks (OddWorkPane *self)
{
  g_return_val_if_fail (ODD_IS_WORK_PANE (self), NULL);

  return self->marks;
}

void
odd_work_pane_get_progress (OddWorkPane *self,
                            guint       *out_done,
                            guint       *out_all)
{
  OddPlan *plan = get_plan (self);
  guint n_open = 0;

  g_return_if_fail (ODD_IS_WORK_PANE (self));

  *out_done = get_stop (self) == 0 ? self->done->len : 0;
  for (guint i = 0; plan != NULL && i < plan->stops[get_stop (self)].n; i++)
    {
      const OddTaskKey *key = &plan->tasks[plan->stops[get_stop (self)].first + i].key;
      gboolean ticked = FALSE;

      for (guint d = 0; d < *out_done && !ticked; d++)
        ticked = odd_task_key_equal (key, &g_array_index (self->done, OddTaskKey, d));
      n_open += !ticked;
    }
  *out_all = *out_done + n_open;
}
