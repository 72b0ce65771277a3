#include "config.h"

#include "ui/zone-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/zones.h"
#include "ui/length-entry.h"
#include "ui/scrap-view.h"
#include "ui/toast.h"

#define ODD_TYPE_ZONE_DIALOG (odd_zone_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddZoneDialog, odd_zone_dialog, ODD, ZONE_DIALOG, AdwWindow)

struct _OddZoneDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddId scrap_id;
  int unit;
  OddPolygon *zone;            /* being drawn, as it lies on the table; or NULL */
  OddScrapView *view;
  GtkWidget *wash_note;
  GtkToggleButton *rectangle;
  GtkToggleButton *freehand;
  AdwComboRow *kind;
  GtkSwitch *allowance_only;
  OddLengthEntry *x;
  OddLengthEntry *y;
  OddLengthEntry *width;
  OddLengthEntry *height;
  GtkWidget *zones_title;
  GtkListBox *zones;
  GtkLabel *complaint;
  GtkWidget *add;
};

G_DEFINE_FINAL_TYPE (OddZoneDialog, odd_zone_dialog, ADW_TYPE_WINDOW)

static OddScrap *
get_scrap (OddZoneDialog *self)
{
  return odd_job_get_scrap (odd_document_get_job (self->document), self->scrap_id);
}

static void
set_zone (OddZoneDialog *self,
          OddPolygon    *zone)
{
  if (zone != NULL)
    odd_polygon_ref (zone);
  g_clear_pointer (&self->zone, odd_polygon_unref);
  self->zone = zone;
  gtk_widget_set_sensitive (self->add, zone != NULL);
  gtk_label_set_text (self->complaint, "");
}

/* Measured from the top left of the box round the scrap: where a ruler is laid. */
static void
show_measures (OddZoneDialog *self)
{
  const OddBox scrap = odd_scrap_get_box (get_scrap (self));
  OddBox box;

  if (self->zone == NULL)
    return;
  box = odd_polygon_get_box (self->zone);
  odd_length_entry_set_value (self->x, box.x - scrap.x);
  odd_length_entry_set_value (self->y, box.y - scrap.y);
  odd_length_entry_set_value (self->width, box.width);
  odd_length_entry_set_value (self->height, box.height);
}

static void
drawn_cb (OddZoneDialog *self,
          OddPolygon    *zone)
{
  set_zone (self, zone);
  if (zone == NULL && gtk_toggle_button_get_active (self->freehand))
    gtk_label_set_text (self->complaint, _("The line crosses itself. Draw round the place once."));
  show_measures (self);
}

static void
measure_cb (OddZoneDialog *self)
{
  const OddBox scrap = odd_scrap_get_box (get_scrap (self));
  const OddBox box = {
    scrap.x + odd_length_entry_get_value (self->x), scrap.y + odd_length_entry_get_value (self->y),
    odd_length_entry_get_value (self->width), odd_length_entry_get_value (self->height)
  };
  g_autoptr(OddPolygon) zone = NULL;

  if (isnan (box.x) || isnan (box.y) || !(box.width > 0.0) || !(box.height > 0.0))
    return;
  zone = odd_polygon_new_box (box);
  set_zone (self, zone);
  odd_scrap_view_set_zone (self->view, zone);
}

static void
draw_cb (OddZoneDialog *self)
{
  odd_scrap_view_set_draw (self->view, gtk_toggle_button_get_active (self->rectangle) ? ODD_DRAW_RECTANGLE : ODD_DRAW_FREEHAND);
}

/* What the zone spoils is told by the findings, and looked at on the canvas: this window steps aside. */
static void
tell_outcome (OddZoneDialog *self)
{
  if (odd_job_count_misfits (odd_document_get_job (self->document), self->scrap_id) == 0)
    gtk_label_set_text (self->complaint, _("Added. Draw the next one, or close."));
  else
    gtk_window_close (GTK_WINDOW (self));
}

static gboolean
read_measures (OddZoneDialog *self)
{
  OddLengthEntry *const entries[] = { self->x, self->y, self->width, self->height };
  const char *complaint = NULL;
  double mm;

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    if (!odd_length_entry_read (entries[i], &mm, &complaint))
      {
        gtk_label_set_text (self->complaint, complaint);
        return FALSE;
      }
  return TRUE;
}

static void
add_cb (OddZoneDialog *self)
{
  OddJob *job;
  g_autoptr(GError) error = NULL;

  if (!read_measures (self) || self->zone == NULL)
    return;
  job = odd_job_add_zone (odd_document_get_job (self->document), self->scrap_id, adw_combo_row_get_selected (self->kind),
                          gtk_switch_get_active (self->allowance_only), self->zone, &error);
  if (job == NULL)
    {
      gtk_label_set_text (self->complaint, error->message);
      return;
    }
  odd_scrap_view_set_zone (self->view, NULL);
  set_zone (self, NULL);
  odd_document_apply (self->document, job, _("Mark a zone on a scrap"));
  tell_outcome (self);
}

static void
remove_cb (OddZoneDialog *self,
           GtkButton     *button)
{
  const guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "zone"));
  g_autoptr(GError) error = NULL;
  OddJob *job = odd_job_remove_zone (odd_document_get_job (self->document), self->scrap_id, index, &error);

  if (job == NULL)
    gtk_label_set_text (self->complaint, error->message);
  else
    odd_document_apply (self->document, job, _("Remove a zone from a scrap"));
}

/* --- what is there --- */

static GtkWidget *
new_zone_row (OddZoneDialog *self,
              const OddZone *zone,
              guint          index)
{
  const OddBox box = odd_polygon_get_box (zone->outline);
  g_autofree char *size = odd_length_format_pair (box.width, box.height, self->unit);
  g_autofree char *about = g_strdup_printf (zone->allowance_only ? _("%s, allowed inside an allowance") : _("%s, kept out"), size);
  g_autofree char *name = g_strdup_printf (_("Remove: %s, %s"), odd_zone_kind_get_name (zone->kind), about);
  GtkWidget *row = adw_action_row_new (), *remove = gtk_button_new_from_icon_name ("user-trash-symbolic");

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), odd_zone_kind_get_name (zone->kind));
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), about);
  gtk_widget_set_valign (remove, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_tooltip_text (remove, _("Remove this zone"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (remove), "zone", GUINT_TO_POINTER (index));
  g_signal_connect_swapped (remove, "clicked", G_CALLBACK (remove_cb), self);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), remove);
  return row;
}

static void
refresh (OddZoneDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  OddScrap *scrap = get_scrap (self);
  OddFabric *fabric;
  GtkListBoxRow *row;
  g_autofree char *title = NULL;

  if (scrap == NULL)
    {
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  title = g_strdup_printf (_("Zones of scrap %u"), scrap->number);
  gtk_window_set_title (GTK_WINDOW (self), title);
  fabric = odd_job_get_scrap_fabric (job, scrap);
  gtk_widget_set_visible (self->wash_note, !scrap->washed && fabric != NULL && (fabric->shrink_along > 0.0 || fabric->shrink_across > 0.0));
  odd_scrap_view_show (self->view, job, scrap, self->unit);
  while ((row = gtk_list_box_get_row_at_index (self->zones, 0)) != NULL)
    gtk_list_box_remove (self->zones, GTK_WIDGET (row));
  for (guint i = 0; i < scrap->n_zones; i++)
    gtk_list_box_append (self->zones, new_zone_row (self, &scrap->zones[i], i));
  gtk_widget_set_visible (GTK_WIDGET (self->zones), scrap->n_zones > 0);
  gtk_widget_set_visible (self->zones_title, scrap->n_zones > 0);
}

static void
odd_zone_dialog_dispose (GObject *object)
{
  OddZoneDialog *self = ODD_ZONE_DIALOG (object);

  g_clear_object (&self->document);
  g_clear_pointer (&self->zone, odd_polygon_unref);
  G_OBJECT_CLASS (odd_zone_dialog_parent_class)->dispose (object);
}

static void
odd_zone_dialog_class_init (OddZoneDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_zone_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  g_type_ensure (ODD_TYPE_SCRAP_VIEW);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/zone-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, view);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, wash_note);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, rectangle);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, freehand);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, kind);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, allowance_only);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, x);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, y);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, width);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, height);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, zones_title);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, zones);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, complaint);
  gtk_widget_class_bind_template_child (widget_class, OddZoneDialog, add);
  gtk_widget_class_bind_template_callback (widget_class, drawn_cb);
  gtk_widget_class_bind_template_callback (widget_class, measure_cb);
  gtk_widget_class_bind_template_callback (widget_class, draw_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
}

static void
odd_zone_dialog_init (OddZoneDialog *self)
{
  g_autoptr(GtkStringList) kinds = gtk_string_list_new (NULL);

  gtk_widget_init_template (GTK_WIDGET (self));
  for (int kind = ODD_ZONE_HOLE; kind <= ODD_ZONE_OLD_SEAM; kind++)
    gtk_string_list_append (kinds, odd_zone_kind_get_name (kind));
  adw_combo_row_set_model (self->kind, G_LIST_MODEL (kinds));
  adw_combo_row_set_selected (self->kind, ODD_ZONE_STAIN);
  odd_scrap_view_set_draw (self->view, ODD_DRAW_RECTANGLE);
  odd_scrap_view_set_least (self->view, 300, 200);
  gtk_widget_set_sensitive (self->add, FALSE);
}

void
odd_zone_dialog_present (GtkWidget   *from,
                         OddDocument *document,
                         OddId        scrap_id,
                         int          unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddZoneDialog *self = g_object_new (ODD_TYPE_ZONE_DIALOG, "transient-for", root, "modal", TRUE, NULL);
  OddLengthEntry *const entries[] = { self->x, self->y, self->width, self->height };

  self->document = g_object_ref (document);
  self->scrap_id = scrap_id;
  self->unit = unit;
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    g_object_set (entries[i], "unit", unit, "allow-empty", TRUE, NULL);
  g_signal_connect_object (document, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
  gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->view));
  gtk_window_present (GTK_WINDOW (self));
}
