#include "config.h"

#include "ui/work-pane-private.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (OddWorkPane, odd_work_pane, ODD_TYPE_PANE)

enum { PROP_0, PROP_NARROW, N_PROPS };
enum { MARKS_CHANGED, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

/* --- rows --- */

static void
setup_cb (OddWorkPane *self,
          GtkListItem *list_item)
{
  GtkWidget *row = odd_work_row_new ();

  g_signal_connect_object (row, "ticked", G_CALLBACK (odd_work_pane_ticked_cb), self, G_CONNECT_SWAPPED);
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
  if (odd_work_pane_get_plan (self) != NULL)
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
  odd_work_pane_show_if_fresh (self);
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
  if (odd_work_pane_get_plan (self) != NULL)
    odd_work_pane_show_stops (self, odd_work_pane_get_plan (self));
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
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/work-pane.ui");
  bind_children (widget_class);
  odd_work_pane_class_add_acts (widget_class);
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
  g_signal_connect_object (self->planner, "planned", G_CALLBACK (odd_work_pane_planned_cb), self, G_CONNECT_SWAPPED);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->choice));
  g_signal_connect_object (self->choice, "notify::selected-item", G_CALLBACK (odd_work_pane_select_task), self, G_CONNECT_SWAPPED);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (odd_work_pane_key_cb), self);
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
  OddPlan *plan = odd_work_pane_get_plan (self);
  guint n_open = 0;

  g_return_if_fail (ODD_IS_WORK_PANE (self));

  *out_done = odd_work_pane_get_stop (self) == 0 ? self->done->len : 0;
  for (guint i = 0; plan != NULL && i < plan->stops[odd_work_pane_get_stop (self)].n; i++)
    {
      const OddTaskKey *key = &plan->tasks[plan->stops[odd_work_pane_get_stop (self)].first + i].key;
      gboolean ticked = FALSE;

      for (guint d = 0; d < *out_done && !ticked; d++)
        ticked = odd_task_key_equal (key, &g_array_index (self->done, OddTaskKey, d));
      n_open += !ticked;
    }
  *out_all = *out_done + n_open;
}
