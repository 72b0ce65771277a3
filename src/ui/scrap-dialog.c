#include "config.h"

#include "ui/scrap-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/fabric-dialog.h"
#include "ui/length-entry.h"
#include "ui/toast.h"

#define ODD_TYPE_SCRAP_DIALOG (odd_scrap_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapDialog, odd_scrap_dialog, ODD, SCRAP_DIALOG, AdwWindow)

struct _OddScrapDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddSelection *selection;
  int unit;
  OddLengthEntry *width;
  OddLengthEntry *length;
  AdwComboRow *fabric;
  GtkSpinButton *count;
  GtkSwitch *washed;
  GtkEditable *place;
  GtkLabel *complaint;
};

G_DEFINE_FINAL_TYPE (OddScrapDialog, odd_scrap_dialog, ADW_TYPE_WINDOW)

static void
fill_fabrics (OddScrapDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);
  const guint selected = adw_combo_row_get_selected (self->fabric);

  gtk_string_list_append (names, _("unknown cloth"));
  for (guint i = 0; i < job->fabrics->len; i++)
    gtk_string_list_append (names, ((OddFabric *) g_ptr_array_index (job->fabrics, i))->name);
  adw_combo_row_set_model (self->fabric, G_LIST_MODEL (names));
  if (selected != GTK_INVALID_LIST_POSITION && selected <= job->fabrics->len)
    adw_combo_row_set_selected (self->fabric, selected);
}

static OddId
chosen_fabric (OddScrapDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  const guint i = adw_combo_row_get_selected (self->fabric);

  return i == 0 || i == GTK_INVALID_LIST_POSITION ? 0 : ((OddFabric *) g_ptr_array_index (job->fabrics, i - 1))->id;
}

static OddJob *
add (OddScrapDialog *self,
     OddBox          box,
     OddId          *out_id,
     GError        **error)
{
  const guint n = gtk_spin_button_get_value_as_int (self->count);
  const char *place = gtk_editable_get_text (self->place);
  g_autoptr(OddPolygon) outline = odd_polygon_new_box (box);
  OddJob *job = odd_job_ref (odd_document_get_job (self->document));
  OddScrap values;

  odd_scrap_init_values (&values);
  values.outline = outline;
  values.fabric_id = chosen_fabric (self);
  values.washed = gtk_switch_get_active (self->washed);
  values.place = *place != '\0' ? (char *) place : NULL;
  for (guint i = 0; i < n && job != NULL; i++)
    {
      OddJob *next = odd_job_put_scrap (job, &values, i == 0 ? out_id : NULL, error);

      odd_job_unref (job);
      job = next;
    }
  return job;
}

static void
add_cb (OddScrapDialog *self)
{
  const char *complaint = NULL;
  double width = NAN, length = NAN;
  g_autoptr(GError) error = NULL;
  OddId id = 0;
  OddJob *job;

  if (!odd_length_entry_read (self->width, &width, &complaint) || !odd_length_entry_read (self->length, &length, &complaint))
    {
      gtk_label_set_text (self->complaint, complaint);
      return;
    }
  if (isnan (width) || isnan (length))
    {
      gtk_label_set_text (self->complaint, _("Give both measures, width and length."));
      gtk_widget_grab_focus (isnan (width) ? GTK_WIDGET (self->width) : GTK_WIDGET (self->length));
      return;
    }
  if (width <= 0.0 || length <= 0.0)
    {
      gtk_label_set_text (self->complaint, _("Both measures must be more than nothing."));
      return;
    }
  job = add (self, (OddBox) { 0.0, 0.0, width, length }, &id, &error);
  if (job == NULL)
    {
      gtk_label_set_text (self->complaint, error->message);
      return;
    }
  odd_document_apply (self->document, job, _("Add a scrap"));
  odd_selection_set (self->selection, ODD_SELECTED_SCRAP, id);
  gtk_window_close (GTK_WINDOW (self));
}

static void
new_fabric_cb (OddScrapDialog *self)
{
  odd_fabric_dialog_present (GTK_WIDGET (self), self->document, 0, self->unit);
}

/* A fabric that was just added is the one she wants. */
static void
document_changed_cb (OddScrapDialog *self,
                     OddJob         *before,
                     OddJob         *after)
{
  if (before->fabrics == after->fabrics)
    return;
  fill_fabrics (self);
  if (after->fabrics->len > before->fabrics->len)
    adw_combo_row_set_selected (self->fabric, after->fabrics->len);
}

static void
odd_scrap_dialog_dispose (GObject *object)
{
  OddScrapDialog *self = ODD_SCRAP_DIALOG (object);

  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  G_OBJECT_CLASS (odd_scrap_dialog_parent_class)->dispose (object);
}

static void
odd_scrap_dialog_class_init (OddScrapDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_scrap_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/scrap-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, width);
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, length);
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, fabric);
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, count);
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, washed);
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, place);
  gtk_widget_class_bind_template_child (widget_class, OddScrapDialog, complaint);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_bind_template_callback (widget_class, new_fabric_cb);
}

static void
odd_scrap_dialog_init (OddScrapDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_scrap_dialog_present (GtkWidget    *from,
                          OddDocument  *document,
                          OddSelection *selection,
                          int           unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddScrapDialog *self = g_object_new (ODD_TYPE_SCRAP_DIALOG, "transient-for", root, "modal", TRUE, NULL);

  self->document = g_object_ref (document);
  self->selection = g_object_ref (selection);
  self->unit = unit;
  g_object_set (self->width, "unit", unit, NULL);
  g_object_set (self->length, "unit", unit, NULL);
  fill_fabrics (self);
  g_signal_connect_object (document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
  gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->width));
  gtk_window_present (GTK_WINDOW (self));
}
