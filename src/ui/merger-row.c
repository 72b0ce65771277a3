#include "config.h"

#include "ui/merger-row.h"

#include <glib/gi18n.h>

#include "ui/length-entry.h"

struct _OddMergerRow
{
  GtkListBoxRow parent_instance;
  guint index;
  OddId panel_id;
  GtkLabel *name;
  GtkLabel *size;
  GtkLabel *trims;
  GtkWidget *offset_box;
  OddLengthEntry *offset;
};

G_DEFINE_FINAL_TYPE (OddMergerRow, odd_merger_row, GTK_TYPE_LIST_BOX_ROW)

enum { MOVE, TURN, OFFSET, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
earlier (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  g_signal_emit (widget, signals[MOVE], 0, (int) ODD_MERGER_ROW (widget)->index - 1);
}

static void
later (GtkWidget  *widget,
       const char *action,
       GVariant   *parameter)
{
  g_signal_emit (widget, signals[MOVE], 0, (int) ODD_MERGER_ROW (widget)->index + 1);
}

static void
turn (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  g_signal_emit (widget, signals[TURN], 0);
}

static void
offset_cb (OddMergerRow *self,
           double        mm)
{
  g_signal_emit (self, signals[OFFSET], 0, mm);
}

static GdkContentProvider *
drag_prepare_cb (OddMergerRow *self)
{
  return gdk_content_provider_new_typed (ODD_TYPE_MERGER_ROW, self);
}

static void
drag_begin_cb (OddMergerRow  *self,
               GdkDrag       *drag,
               GtkDragSource *source)
{
  g_autoptr(GdkPaintable) picture = gtk_widget_paintable_new (GTK_WIDGET (self));

  gtk_drag_source_set_icon (source, picture, 20, 20);
}

static gboolean
drop_cb (OddMergerRow *self,
         const GValue *value,
         double        x,
         double        y)
{
  OddMergerRow *dragged = g_value_get_object (value);

  if (dragged == NULL || dragged == self)
    return FALSE;
  g_signal_emit (dragged, signals[MOVE], 0, (int) self->index);
  return TRUE;
}

/* Eased: a trim beside it is told in the panel's own pane. */
static char *
dup_eased (const OddHungLayout *hung,
           OddUnit              unit)
{
  g_autofree char *eased = odd_length_format (hung->eased_mm, unit);

  return g_strdup_printf (_("%s eased in"), eased);
}

static char *
dup_trims (const OddHungLayout *hung,
           OddUnit              unit)
{
  g_autofree char *top = odd_length_format (hung->trim_top_mm, unit);
  g_autofree char *bottom = odd_length_format (hung->trim_bottom_mm, unit);
  const gboolean at_top = hung->trim_top_mm > 0.05, at_bottom = hung->trim_bottom_mm > 0.05;

  if (hung->eased_mm > 0.05)
    return dup_eased (hung, unit);
  if (at_top && at_bottom)
    return g_strdup_printf (_("%s trimmed at the top, %s at the bottom"), top, bottom);
  if (at_top)
    return g_strdup_printf (_("%s trimmed at the top"), top);
  if (at_bottom)
    return g_strdup_printf (_("%s trimmed at the bottom"), bottom);
  return g_strdup (_("nothing trimmed"));
}

void
odd_merger_row_show (OddMergerRow     *self,
                     OddJob           *job,
                     OddTextileLayout *textile,
                     guint             index,
                     OddUnit           unit)
{
  const OddHungLayout *hung = &textile->panels[index];
  const OddHung *values = &textile->textile->hung[index];
  g_autofree char *name = NULL;
  g_autofree char *size = NULL;

  g_return_if_fail (ODD_IS_MERGER_ROW (self) && index < textile->n_panels);

  self->index = index;
  self->panel_id = hung->panel_id;
  name = odd_job_dup_panel_name (job, values->panel);
  size = odd_length_format_pair (hung->layout->box.width, hung->layout->box.height, unit);
  gtk_label_set_text (self->name, name);
  odd_label_take (self->size, values->half_turn ? g_strdup_printf (_("%s, turned"), size) : g_strdup (size));
  odd_label_take (self->trims, dup_trims (hung, unit));
  gtk_widget_set_visible (self->offset_box, index > 0);
  g_object_set (self->offset, "unit", (int) unit, NULL);
  odd_length_entry_set_value (self->offset, values->offset_mm);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "row.earlier", index > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "row.later", index + 1 < textile->n_panels);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, gtk_label_get_text (self->trims), -1);
}

guint
odd_merger_row_get_index (OddMergerRow *self)
{
  return self->index;
}

OddId
odd_merger_row_get_panel_id (OddMergerRow *self)
{
  return self->panel_id;
}

static void
odd_merger_row_class_init (OddMergerRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  signals[MOVE] = g_signal_new ("move", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[TURN] = g_signal_new ("turn", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[OFFSET] = g_signal_new ("offset", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_install_action (widget_class, "row.earlier", NULL, earlier);
  gtk_widget_class_install_action (widget_class, "row.later", NULL, later);
  gtk_widget_class_install_action (widget_class, "row.turn", NULL, turn);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Up, GDK_CONTROL_MASK, "row.earlier", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Down, GDK_CONTROL_MASK, "row.later", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/merger-row.ui");
  gtk_widget_class_bind_template_child (widget_class, OddMergerRow, name);
  gtk_widget_class_bind_template_child (widget_class, OddMergerRow, size);
  gtk_widget_class_bind_template_child (widget_class, OddMergerRow, trims);
  gtk_widget_class_bind_template_child (widget_class, OddMergerRow, offset_box);
  gtk_widget_class_bind_template_child (widget_class, OddMergerRow, offset);
  gtk_widget_class_bind_template_callback (widget_class, offset_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_prepare_cb);
  gtk_widget_class_bind_template_callback (widget_class, drag_begin_cb);
}

static void
odd_merger_row_init (OddMergerRow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (ODD_TYPE_MERGER_ROW, GDK_ACTION_MOVE);

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (target, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

GtkWidget *
odd_merger_row_new (void)
{
  return g_object_new (ODD_TYPE_MERGER_ROW, NULL);
}
