#include "config.h"

#include "ui/work-row.h"

#include <glib/gi18n.h>

#include "ui/glyph.h"
#include "ui/seam-picture.h"

struct _OddWorkRow
{
  GtkWidget parent_instance;
  GtkWidget *box;
  OddSeamPicture *picture;
  GtkLabel *number;
  GtkLabel *title;
  GtkLabel *place;
  GtkLabel *text;
  GtkToggleButton *tick;
  OddWorkItem *item;
  gboolean chosen;
  gboolean narrow;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (OddWorkRow, odd_work_row, GTK_TYPE_WIDGET)

enum { PROP_0, PROP_CHOSEN, PROP_NARROW, N_PROPS };
enum { TICKED, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

static void
tick_cb (OddWorkRow *self)
{
  if (!self->showing)
    g_signal_emit (self, signals[TICKED], 0);
}

static void
show_chosen (OddWorkRow *self)
{
  if (self->chosen)
    gtk_widget_add_css_class (GTK_WIDGET (self), "chosen");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "chosen");
  g_object_set (self->picture, "small", !self->chosen || self->narrow, NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->number), !self->narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->text), self->chosen);
}

static void
odd_work_row_dispose (GObject *object)
{
  OddWorkRow *self = ODD_WORK_ROW (object);

  g_clear_object (&self->item);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (odd_work_row_parent_class)->dispose (object);
}

static void
odd_work_row_get_property (GObject    *object,
                           guint       prop_id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  if (prop_id == PROP_CHOSEN)
    g_value_set_boolean (value, ODD_WORK_ROW (object)->chosen);
  else if (prop_id == PROP_NARROW)
    g_value_set_boolean (value, ODD_WORK_ROW (object)->narrow);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_work_row_set_property (GObject      *object,
                           guint         prop_id,
                           const GValue *value,
                           GParamSpec   *pspec)
{
  OddWorkRow *self = ODD_WORK_ROW (object);

  switch (prop_id)
    {
    case PROP_CHOSEN: self->chosen = g_value_get_boolean (value); break;
    case PROP_NARROW: self->narrow = g_value_get_boolean (value); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
  show_chosen (self);
}

static void
odd_work_row_class_init (OddWorkRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = odd_work_row_dispose;
  object_class->get_property = odd_work_row_get_property;
  object_class->set_property = odd_work_row_set_property;
  props[PROP_CHOSEN] = g_param_spec_boolean ("chosen", NULL, NULL, FALSE, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[TICKED] = g_signal_new ("ticked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (ODD_TYPE_SEAM_PICTURE);
  g_type_ensure (ODD_TYPE_GLYPH);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "workrow");
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/work-row.ui");
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, box);
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, picture);
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, number);
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, title);
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, place);
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, text);
  gtk_widget_class_bind_template_child (widget_class, OddWorkRow, tick);
  gtk_widget_class_bind_template_callback (widget_class, tick_cb);
}

static void
odd_work_row_init (OddWorkRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  show_chosen (self);
}

GtkWidget *
odd_work_row_new (void)
{
  return g_object_new (ODD_TYPE_WORK_ROW, NULL);
}

static void
show_picture (OddWorkRow *self)
{
  const OddTask *task = &self->item->plan->tasks[self->item->task];
  OddTaskFacts facts;

  odd_plan_get_facts (self->item->plan, self->item->task, &facts);
  if (facts.join != NULL)
    odd_seam_picture_show_join (self->picture, self->item->job, facts.textile, (guint) (facts.join - facts.textile->joins));
  else if (facts.layout != NULL)
    odd_seam_picture_show (self->picture, self->item->job, facts.layout, facts.textile, task->key.id);
}

void
odd_work_row_show (OddWorkRow  *self,
                   OddWorkItem *item,
                   OddUnit      unit)
{
  const OddTask *task = &item->plan->tasks[item->task];
  g_autofree char *number = g_strdup_printf ("%u", item->number);
  g_autofree char *title = odd_work_item_dup_title (item);
  g_autofree char *place = odd_work_item_dup_place (item, unit);
  g_autofree char *sentence = odd_plan_dup_text (item->plan, item->task, unit);
  g_autofree char *pressing = odd_plan_dup_pressing (item->plan, item->task);
  /* Translators: what to do, "Allowances towards 3" */
  g_autofree char *text = pressing != NULL ? g_strdup_printf (_("%s. %s"), sentence, pressing) : g_strdup (sentence);
  g_autofree char *tip = NULL;

  g_return_if_fail (ODD_IS_WORK_ROW (self));

  self->showing = TRUE;
  g_set_object (&self->item, item);
  gtk_label_set_text (self->number, number);
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->place, place);
  gtk_label_set_text (self->text, text);
  gtk_toggle_button_set_active (self->tick, item->done);
  tip = g_strdup_printf (item->done ? _("Take the tick off: %s") : _("Tick: %s"), text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->tick), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->tick), GTK_ACCESSIBLE_PROPERTY_LABEL, tip, -1);
  /* she sews and presses looking at the wrong side, and topstitches from the right */
  g_object_set (self->picture, "wrong-side", task->work != ODD_WORK_TOPSTITCH && task->key.kind != ODD_TASK_CUT, NULL);
  show_picture (self);
  self->showing = FALSE;
}

OddWorkItem *
odd_work_row_get_item (OddWorkRow *self)
{
  g_return_val_if_fail (ODD_IS_WORK_ROW (self), NULL);

  return self->item;
}
