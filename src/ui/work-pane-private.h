/* Shared by the files that make up OddWorkPane. */
#pragma once

#include "sewing/own-time.h"
#include "ui/glyph.h"
#include "ui/planner.h"
#include "ui/work-pane.h"
#include "ui/work-row.h"

G_BEGIN_DECLS

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

/* --- what is shown (work-pane-show.c) --- */
OddPlan *odd_work_pane_get_plan (OddWorkPane *self);
guint odd_work_pane_get_stop (OddWorkPane *self);
void odd_work_pane_show_stops (OddWorkPane *self, OddPlan *plan);
void odd_work_pane_show_progress (OddWorkPane *self);
void odd_work_pane_show_timer (OddWorkPane *self);
void odd_work_pane_show_plan (OddWorkPane *self);
void odd_work_pane_show_if_fresh (OddWorkPane *self);
gboolean odd_work_pane_rest_cb (gpointer data);
void odd_work_pane_planned_cb (OddWorkPane *self);

/* --- what the maker does (work-pane-acts.c) --- */
void odd_work_pane_ticked_cb (OddWorkPane *self, OddWorkRow *row);
void odd_work_pane_select_task (OddWorkPane *self);
gboolean odd_work_pane_key_cb (OddWorkPane *self, guint keyval, guint code, GdkModifierType state);
/* Actions and callbacks of the template. */
void odd_work_pane_class_add_acts (GtkWidgetClass *widget_class);

G_END_DECLS
