#include "config.h"

#include "ui/fabric-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/length.h"
#include "ui/length-entry.h"
#include "ui/toast.h"

#define ODD_TYPE_FABRIC_DIALOG (odd_fabric_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddFabricDialog, odd_fabric_dialog, ODD, FABRIC_DIALOG, AdwWindow)

struct _OddFabricDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddFabric *fabric;         /* as it was, or NULL: new */
  GtkEditable *name;
  GtkListBox *fibres;
  GtkLabel *sum;
  GtkSpinButton *gsm;
  OddLengthEntry *thickness;
  AdwComboRow *make;
  AdwComboRow *bleeds;
  GtkSwitch *one_way;
  GtkSwitch *reversible;
  GtkSpinButton *grain_tolerance;
  GtkSpinButton *shrink_along;
  GtkSpinButton *shrink_across;
  GtkEditable *care;
  AdwComboRow *print;
  OddLengthEntry *repeat;
  GtkColorButton *colours[4];
  GtkLabel *complaint;
};

G_DEFINE_FINAL_TYPE (OddFabricDialog, odd_fabric_dialog, ADW_TYPE_WINDOW)

/* --- fibres: one row each, a name and its percent --- */

static GtkWidget *
row_part (GtkListBoxRow *row,
          const char    *part)
{
  return g_object_get_data (G_OBJECT (row), part);
}

static void
show_sum (OddFabricDialog *self)
{
  double sum = 0.0;
  guint n = 0;
  GtkListBoxRow *row;

  for (; (row = gtk_list_box_get_row_at_index (self->fibres, n)) != NULL; n++)
    sum += gtk_spin_button_get_value (GTK_SPIN_BUTTON (row_part (row, "percent")));
  gtk_widget_set_visible (GTK_WIDGET (self->fibres), n > 0);
  if (n == 0)
    gtk_label_set_text (self->sum, _("Fibres unknown"));
  else
    {
      g_autofree char *text = g_strdup_printf (_("%.1f %% in all"), sum);

      gtk_label_set_text (self->sum, text);
    }
  if (n > 0 && fabs (sum - 100.0) > 0.05)
    gtk_widget_add_css_class (GTK_WIDGET (self->sum), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->sum), "error");
}

static void
remove_fibre_cb (GtkWidget       *button,
                 OddFabricDialog *self)
{
  gtk_list_box_remove (self->fibres, gtk_widget_get_ancestor (button, GTK_TYPE_LIST_BOX_ROW));
  show_sum (self);
}

static void
add_fibre (OddFabricDialog *self,
           guint            name,
           double           percent)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *names = gtk_drop_down_new_from_strings (odd_fibre_names ());
  GtkWidget *spin = gtk_spin_button_new_with_range (0.0, 100.0, 1.0);
  GtkWidget *remove = gtk_button_new_from_icon_name ("list-remove-symbolic");

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (spin), 1);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), percent);
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (names), TRUE);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (names), name);
  gtk_widget_set_hexpand (names, TRUE);
  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_tooltip_text (remove, _("Remove this fibre"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (names), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Fibre"), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Percent by mass"), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Remove this fibre"), -1);
  gtk_widget_set_margin_top (box, 6);
  gtk_widget_set_margin_bottom (box, 6);
  gtk_widget_set_margin_start (box, 9);
  gtk_widget_set_margin_end (box, 6);
  gtk_box_append (GTK_BOX (box), names);
  gtk_box_append (GTK_BOX (box), spin);
  gtk_box_append (GTK_BOX (box), gtk_label_new ("%"));
  gtk_box_append (GTK_BOX (box), remove);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  g_object_set_data (G_OBJECT (row), "name", names);
  g_object_set_data (G_OBJECT (row), "percent", spin);
  g_signal_connect (remove, "clicked", G_CALLBACK (remove_fibre_cb), self);
  g_signal_connect_swapped (spin, "value-changed", G_CALLBACK (show_sum), self);
  gtk_list_box_append (self->fibres, row);
  show_sum (self);
}

static void
add_fibre_cb (OddFabricDialog *self)
{
  double sum = 0.0;
  GtkListBoxRow *row;

  for (guint i = 0; (row = gtk_list_box_get_row_at_index (self->fibres, i)) != NULL; i++)
    sum += gtk_spin_button_get_value (GTK_SPIN_BUTTON (row_part (row, "percent")));
  add_fibre (self, 0, CLAMP (100.0 - sum, 0.0, 100.0));
}

static guint
find_fibre (const char *name)
{
  const char *const *names = odd_fibre_names ();

  for (guint i = 0; names[i] != NULL; i++)
    if (g_str_equal (names[i], name))
      return i;
  return 0;
}

/* --- values to widgets and back --- */

static GdkRGBA
to_rgba (guint32 colour)
{
  return (GdkRGBA) { ((colour >> 16) & 0xff) / 255.0f, ((colour >> 8) & 0xff) / 255.0f, (colour & 0xff) / 255.0f, 1.0f };
}

static guint32
from_rgba (const GdkRGBA *rgba)
{
  return ((guint32) lroundf (rgba->red * 255.0f) << 16) | ((guint32) lroundf (rgba->green * 255.0f) << 8) | (guint32) lroundf (rgba->blue * 255.0f);
}

static void
show (OddFabricDialog *self,
      const OddFabric *fabric)
{
  gtk_editable_set_text (self->name, fabric->name != NULL ? fabric->name : "");
  for (guint i = 0; i < fabric->n_fibres; i++)
    add_fibre (self, find_fibre (fabric->fibres[i].name), fabric->fibres[i].percent);
  gtk_spin_button_set_value (self->gsm, fabric->gsm);
  odd_length_entry_set_value (self->thickness, fabric->thickness_mm > 0.0 ? fabric->thickness_mm : NAN);
  adw_combo_row_set_selected (self->make, fabric->make);
  adw_combo_row_set_selected (self->bleeds, fabric->bleeds);
  gtk_switch_set_active (self->one_way, fabric->one_way);
  gtk_switch_set_active (self->reversible, fabric->reversible);
  gtk_spin_button_set_value (self->grain_tolerance, fabric->grain_tolerance_deg);
  gtk_spin_button_set_value (self->shrink_along, fabric->shrink_along * 100.0);
  gtk_spin_button_set_value (self->shrink_across, fabric->shrink_across * 100.0);
  gtk_editable_set_text (self->care, fabric->care != NULL ? fabric->care : "");
  adw_combo_row_set_selected (self->print, fabric->print.kind);
  odd_length_entry_set_value (self->repeat, fabric->print.repeat_mm);
  for (guint i = 0; i < 4; i++)
    {
      const GdkRGBA rgba = to_rgba (fabric->print.colours[i]);

      gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (self->colours[i]), &rgba);
    }
  show_sum (self);
}

static GArray *
read_fibres (OddFabricDialog *self)
{
  GArray *fibres = g_array_new (FALSE, FALSE, sizeof (OddFibre));
  GtkListBoxRow *row;

  for (guint i = 0; (row = gtk_list_box_get_row_at_index (self->fibres, i)) != NULL; i++)
    {
      const OddFibre fibre = {
        (char *) odd_fibre_names ()[gtk_drop_down_get_selected (GTK_DROP_DOWN (row_part (row, "name")))],
        gtk_spin_button_get_value (GTK_SPIN_BUTTON (row_part (row, "percent"))),
      };

      g_array_append_val (fibres, fibre);
    }
  return fibres;
}

static void
read_print (OddFabricDialog *self,
            double           repeat_mm,
            OddPrint        *print)
{
  print->kind = adw_combo_row_get_selected (self->print);
  if (repeat_mm > 0.0)
    print->repeat_mm = repeat_mm;
  for (guint i = 0; i < 4; i++)
    {
      GdkRGBA rgba;

      gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (self->colours[i]), &rgba);
      print->colours[i] = from_rgba (&rgba);
    }
}

static void
save_cb (OddFabricDialog *self)
{
  g_autoptr(GArray) fibres = read_fibres (self);
  g_autoptr(GError) error = NULL;
  const char *care = gtk_editable_get_text (self->care);
  const char *complaint = NULL;
  double thickness = NAN, repeat = NAN;
  OddFabric values;
  OddJob *job;

  if (!odd_length_entry_read (self->thickness, &thickness, &complaint) || !odd_length_entry_read (self->repeat, &repeat, &complaint))
    {
      gtk_label_set_text (self->complaint, complaint);
      return;
    }

  if (self->fabric != NULL)
    values = *self->fabric;
  else
    odd_fabric_init_values (&values);
  values.name = (char *) gtk_editable_get_text (self->name);
  values.fibres = (OddFibre *) (gpointer) fibres->data;
  values.n_fibres = fibres->len;
  values.gsm = gtk_spin_button_get_value (self->gsm);
  values.thickness_mm = isnan (thickness) ? 0.0 : thickness;
  values.make = adw_combo_row_get_selected (self->make);
  values.bleeds = adw_combo_row_get_selected (self->bleeds);
  values.one_way = gtk_switch_get_active (self->one_way);
  values.reversible = gtk_switch_get_active (self->reversible);
  values.grain_tolerance_deg = gtk_spin_button_get_value (self->grain_tolerance);
  values.shrink_along = gtk_spin_button_get_value (self->shrink_along) / 100.0;
  values.shrink_across = gtk_spin_button_get_value (self->shrink_across) / 100.0;
  values.care = *care != '\0' ? (char *) care : NULL;
  read_print (self, repeat, &values.print);
  if (*values.name == '\0')
    {
      gtk_label_set_text (self->complaint, _("Give the fabric a name."));
      gtk_widget_grab_focus (GTK_WIDGET (self->name));
      return;
    }
  job = odd_job_put_fabric (odd_document_get_job (self->document), &values, NULL, &error);
  if (job == NULL)
    {
      gtk_label_set_text (self->complaint, error->message);
      return;
    }
  odd_document_apply (self->document, job, self->fabric != NULL ? _("Change a fabric") : _("Add a fabric"));
  gtk_window_close (GTK_WINDOW (self));
}

static void
odd_fabric_dialog_dispose (GObject *object)
{
  OddFabricDialog *self = ODD_FABRIC_DIALOG (object);

  g_clear_object (&self->document);
  g_clear_pointer (&self->fabric, odd_fabric_unref);
  G_OBJECT_CLASS (odd_fabric_dialog_parent_class)->dispose (object);
}

static void
odd_fabric_dialog_class_init (OddFabricDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_fabric_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/fabric-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, name);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, fibres);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, sum);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, gsm);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, thickness);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, make);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, bleeds);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, one_way);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, reversible);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, grain_tolerance);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, shrink_along);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, shrink_across);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, care);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, print);
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, repeat);
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *id = g_strdup_printf ("colour_%u", i);

      gtk_widget_class_bind_template_child_full (widget_class, id, FALSE, G_STRUCT_OFFSET (OddFabricDialog, colours) + i * sizeof (gpointer));
    }
  gtk_widget_class_bind_template_child (widget_class, OddFabricDialog, complaint);
  gtk_widget_class_bind_template_callback (widget_class, add_fibre_cb);
  gtk_widget_class_bind_template_callback (widget_class, save_cb);
}

static void
odd_fabric_dialog_init (OddFabricDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_fabric_dialog_present (GtkWidget   *from,
                           OddDocument *document,
                           OddId        fabric_id,
                           int          unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddFabricDialog *self = g_object_new (ODD_TYPE_FABRIC_DIALOG, "transient-for", root, "modal", TRUE, NULL);
  OddFabric *fabric = odd_job_get_fabric (odd_document_get_job (document), fabric_id);
  OddFabric values;

  self->document = g_object_ref (document);
  self->fabric = fabric != NULL ? odd_fabric_ref (fabric) : NULL;
  odd_fabric_init_values (&values);
  g_object_set (self->repeat, "unit", unit, NULL);
  g_object_set (self->thickness, "unit", ODD_UNIT_MM, NULL);
  gtk_window_set_title (GTK_WINDOW (self), fabric != NULL ? _("Fabric") : _("New fabric"));
  show (self, fabric != NULL ? fabric : &values);
  gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->name));
  gtk_window_present (GTK_WINDOW (self));
}
