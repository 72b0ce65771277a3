#include "config.h"

#include "ui/operation-row.h"

#include <glib/gi18n.h>

struct _OddOperationRow
{
  GtkListBoxRow parent_instance;
  OddOperation was;            /* what the row does not show is kept from it; its strings are not used */
  GtkDropDown *kind;
  GtkDropDown *station;
  GtkDropDown *face;
  GtkEditable *stitch;
  GtkEditable *text;
  GtkCheckButton *before;
};

G_DEFINE_FINAL_TYPE (OddOperationRow, odd_operation_row, GTK_TYPE_LIST_BOX_ROW)

enum { LIFT, LOWER, DROP, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
lift_cb (OddOperationRow *self)
{
  g_signal_emit (self, signals[LIFT], 0);
}

static void
lower_cb (OddOperationRow *self)
{
  g_signal_emit (self, signals[LOWER], 0);
}

static void
drop_cb (OddOperationRow *self)
{
  g_signal_emit (self, signals[DROP], 0);
}

static void
odd_operation_row_class_init (OddOperationRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  signals[LIFT] = g_signal_new ("lift", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[LOWER] = g_signal_new ("lower", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[DROP] = g_signal_new ("drop", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/operation-row.ui");
  gtk_widget_class_bind_template_child (widget_class, OddOperationRow, kind);
  gtk_widget_class_bind_template_child (widget_class, OddOperationRow, station);
  gtk_widget_class_bind_template_child (widget_class, OddOperationRow, face);
  gtk_widget_class_bind_template_child (widget_class, OddOperationRow, stitch);
  gtk_widget_class_bind_template_child (widget_class, OddOperationRow, text);
  gtk_widget_class_bind_template_child (widget_class, OddOperationRow, before);
  gtk_widget_class_bind_template_callback (widget_class, lift_cb);
  gtk_widget_class_bind_template_callback (widget_class, lower_cb);
  gtk_widget_class_bind_template_callback (widget_class, drop_cb);
}

static void
odd_operation_row_init (OddOperationRow *self)
{
  g_autoptr(GtkStringList) kinds = gtk_string_list_new (NULL);
  g_autoptr(GtkStringList) stations = gtk_string_list_new (NULL);

  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = 0; i < ODD_N_OPERATION_KINDS; i++)
    gtk_string_list_append (kinds, odd_operation_kind_get_name (i));
  for (guint i = 0; i < ODD_N_STATIONS; i++)
    gtk_string_list_append (stations, odd_station_get_name (i));
  gtk_drop_down_set_model (self->kind, G_LIST_MODEL (kinds));
  gtk_drop_down_set_model (self->station, G_LIST_MODEL (stations));
}

GtkWidget *
odd_operation_row_new (const OddOperation *operation)
{
  OddOperationRow *self = g_object_new (ODD_TYPE_OPERATION_ROW, NULL);

  self->was = *operation;
  self->was.stitch = self->was.text = NULL;
  gtk_drop_down_set_selected (self->kind, operation->kind);
  gtk_drop_down_set_selected (self->station, operation->station);
  gtk_drop_down_set_selected (self->face, operation->face);
  gtk_editable_set_text (self->stitch, operation->stitch != NULL ? operation->stitch : "");
  gtk_editable_set_text (self->text, operation->text);
  gtk_check_button_set_active (self->before, operation->before_joining);
  return GTK_WIDGET (self);
}

void
odd_operation_row_read (OddOperationRow *self,
                        OddOperation    *out)
{
  const char *stitch = gtk_editable_get_text (self->stitch);

  g_return_if_fail (ODD_IS_OPERATION_ROW (self));

  *out = self->was;
  out->kind = gtk_drop_down_get_selected (self->kind);
  out->station = gtk_drop_down_get_selected (self->station);
  out->face = gtk_drop_down_get_selected (self->face);
  out->stitch = *stitch != '\0' ? (char *) stitch : NULL;
  out->text = (char *) gtk_editable_get_text (self->text);
  out->before_joining = gtk_check_button_get_active (self->before);
  /* A distance belongs to the kind of step it was told for. */
  if (out->kind != self->was.kind)
    out->at_mm = 0.0;
}
