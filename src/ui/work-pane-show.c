/* What the order of work shows: the plan, its stop, what is left, how long. */
#include "config.h"

#include "ui/work-pane-private.h"

#include <glib/gi18n.h>

#include "sewing/ends.h"
#include "sewing/piece-ends.h"
#include "ui/deed.h"

#define MOST_STOPS_SHOWN 7
#define MOST_STOPS_NARROW 4

/* --- the plan --- */

OddPlan *
odd_work_pane_get_plan (OddWorkPane *self)
{
  OddPlan *plan = odd_planner_get_plan (self->planner);

  return plan != NULL && plan->n_stops > 0 ? plan : NULL;
}

guint
odd_work_pane_get_stop (OddWorkPane *self)
{
  OddPlan *plan = odd_work_pane_get_plan (self);

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
  OddPlan *plan = odd_work_pane_get_plan (self);

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
  if (at == odd_work_pane_get_stop (self))
    gtk_widget_add_css_class (button, "shown");
  gtk_widget_set_tooltip_text (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  g_object_set_data (G_OBJECT (button), "stop", GUINT_TO_POINTER (at));
  g_signal_connect_object (button, "clicked", G_CALLBACK (stop_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->stops, button);
}

void
odd_work_pane_show_stops (OddWorkPane *self,
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
  const OddStop *stop = &plan->stops[odd_work_pane_get_stop (self)];
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
  const OddStop *stop = &plan->stops[odd_work_pane_get_stop (self)];
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

void
odd_work_pane_show_progress (OddWorkPane *self)
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
  g_autofree char *here = odd_range_dup_text (odd_job_stop_time (job, plan, odd_work_pane_get_stop (self)));

  /* translators: ranges of time: "Left: 40 to 70 min, here 3 to 6 min" */
  odd_label_take (self->time_label, g_strdup_printf (_("Left: %s, here %s"), all, here));
}

void
odd_work_pane_show_timer (OddWorkPane *self)
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
  const guint next = odd_work_pane_get_stop (self) + 1;

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
  const OddStop *stop = &plan->stops[odd_work_pane_get_stop (self)];
  const gboolean now = odd_work_pane_get_stop (self) == 0;
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

void
odd_work_pane_show_plan (OddWorkPane *self)
{
  OddPlan *plan = odd_work_pane_get_plan (self);

  forget_done (self);
  if (plan == NULL)
    {
      if (odd_planner_get_plan (self->planner) != NULL)
        show_nothing (self);
    }
  else
    {
      gtk_stack_set_visible_child_name (self->stack, "work");
      odd_work_pane_show_stops (self, plan);
      show_head (self, plan);
      show_setting (self, plan);
      show_ends_left (self);
      show_time_left (self, plan);
      odd_work_pane_show_timer (self);
      fill_items (self, plan);
      odd_work_pane_show_progress (self);
      show_then (self, plan);
      if (self->wants_keys && gtk_widget_get_mapped (GTK_WIDGET (self)))
        self->wants_keys = !gtk_widget_grab_focus (GTK_WIDGET (self->list));
    }
  g_signal_emit_by_name (self, "marks-changed");
}

/* An older plan still holds as open what was ticked since: it waits for its successor. */
void
odd_work_pane_show_if_fresh (OddWorkPane *self)
{
  if (self->rest_timer == 0 && odd_planner_get_job (self->planner) == odd_pane_get_job (ODD_PANE (self)))
    odd_work_pane_show_plan (self);
}

gboolean
odd_work_pane_rest_cb (gpointer data)
{
  OddWorkPane *self = data;

  self->rest_timer = 0;
  odd_work_pane_show_if_fresh (self);
  return G_SOURCE_REMOVE;
}

void
odd_work_pane_planned_cb (OddWorkPane *self)
{
  odd_work_pane_show_if_fresh (self);
}
