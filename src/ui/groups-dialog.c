#include "config.h"

#include "ui/groups-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/length.h"
#include "piecing/groups.h"
#include "ui/length-entry.h"

#define ODD_TYPE_GROUPS_DIALOG (odd_groups_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddGroupsDialog, odd_groups_dialog, ODD, GROUPS_DIALOG, AdwWindow)

struct _OddGroupsDialog
{
  AdwWindow parent_instance;
  OddDocument *document;
  OddGroups *groups;
  OddUnit unit;
  gboolean showing;
  GtkLabel *hint;
  GtkListBox *list;
  GtkGrid *table;
  GtkLabel *reason;
  GtkSpinButton *mass_ratio;
  OddLengthEntry *shrink_gap;
  GtkSpinButton *light_from;
};

G_DEFINE_FINAL_TYPE (OddGroupsDialog, odd_groups_dialog, ADW_TYPE_WINDOW)

/* --- groups --- */

static void
add_group (OddGroupsDialog *self,
           guint            group)
{
  g_autoptr(GString) names = g_string_new (NULL);
  g_autofree char *title = NULL;
  g_autofree char *size = NULL;
  GtkWidget *row = adw_action_row_new ();
  double mm2 = 0.0;
  guint n_free = 0;

  for (guint i = 0; i < self->groups->n; i++)
    if (self->groups->group[i] == group)
      {
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", self->groups->fabrics[i]->name);
        mm2 += self->groups->free_mm2[i];
        n_free += self->groups->n_free[i];
      }
  title = g_strdup_printf (_("Group %u"), group + 1);
  {
    g_autofree char *area = odd_area_format (mm2, self->unit);

    size = g_strdup_printf (ngettext ("%u free scrap, %s", "%u free scraps, %s", n_free), n_free, area);
  }
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), names->str);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 0);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_label_new (size));
  gtk_list_box_append (self->list, row);
}

/* --- the table --- */

static void
explain (OddGroupsDialog *self,
         guint            a,
         guint            b)
{
  g_autofree char *reason = odd_groups_dup_reason (self->groups, a, b);
  g_autofree char *text = NULL;

  if (reason == NULL)
    text = g_strdup_printf (_("“%s” and “%s” go together."), self->groups->fabrics[a]->name, self->groups->fabrics[b]->name);
  else
    text = g_strdup_printf (_("“%s” and “%s” do not mix: %s"), self->groups->fabrics[a]->name, self->groups->fabrics[b]->name, reason);
  gtk_label_set_text (self->reason, text);
}

static void
pair_cb (OddGroupsDialog *self,
         GtkWidget       *button)
{
  explain (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "a")), GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "b")));
}

/* A tick or a cross: the state is told by its shape first. */
static GtkWidget *
pair_new (OddGroupsDialog *self,
          guint            a,
          guint            b)
{
  const gboolean mix = odd_groups_pair (self->groups, a, b)->misfits == 0;
  g_autofree char *name = g_strdup_printf (mix ? _("%s and %s: go together") : _("%s and %s: do not mix"), self->groups->fabrics[a]->name,
                                           self->groups->fabrics[b]->name);
  GtkWidget *button = gtk_button_new_with_label (mix ? "✓" : "✕");

  gtk_widget_add_css_class (button, "pair");
  gtk_widget_add_css_class (button, mix ? "mixes" : "parts");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (button), "a", GUINT_TO_POINTER (a));
  g_object_set_data (G_OBJECT (button), "b", GUINT_TO_POINTER (b));
  g_signal_connect_object (button, "clicked", G_CALLBACK (pair_cb), self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
head_new (const char *text,
          gboolean    row)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), row ? 0.0 : 0.5);
  gtk_label_set_ellipsize (GTK_LABEL (label), row ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  gtk_label_set_width_chars (GTK_LABEL (label), row ? 18 : 2);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 20);
  gtk_widget_add_css_class (label, "second");
  return label;
}

static void
fill_table (OddGroupsDialog *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->table))) != NULL)
    gtk_grid_remove (self->table, child);
  for (guint a = 0; a < self->groups->n; a++)
    {
      g_autofree char *number = g_strdup_printf ("%u", a + 1);
      g_autofree char *name = g_strdup_printf ("%u  %s", a + 1, self->groups->fabrics[a]->name);

      gtk_grid_attach (self->table, head_new (number, FALSE), (int) a + 1, 0, 1, 1);
      gtk_grid_attach (self->table, head_new (name, TRUE), 0, (int) a + 1, 1, 1);
      for (guint b = 0; b < self->groups->n; b++)
        gtk_grid_attach (self->table, a != b ? pair_new (self, a, b) : head_new ("·", FALSE), (int) b + 1, (int) a + 1, 1, 1);
    }
}

static void
show (OddGroupsDialog *self)
{
  OddJob *job = odd_document_get_job (self->document);
  GtkListBoxRow *row;

  g_clear_pointer (&self->groups, odd_groups_free);
  self->groups = odd_groups_new (job);
  self->showing = TRUE;
  gtk_spin_button_set_value (self->mass_ratio, job->settings.mass_ratio);
  gtk_spin_button_set_value (self->light_from, job->settings.light_from);
  odd_length_entry_set_value (self->shrink_gap, job->settings.shrink_gap_mm);
  self->showing = FALSE;
  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; i < self->groups->n_groups; i++)
    add_group (self, i);
  gtk_widget_set_visible (GTK_WIDGET (self->list), self->groups->n > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->hint), self->groups->n < 2);
  fill_table (self);
  gtk_label_set_text (self->reason, self->groups->n > 1 ? _("Choose a sign to read why.") : "");
}

/* --- limits --- */

static void
take_limits (OddGroupsDialog *self,
             double           shrink_gap_mm)
{
  OddJob *job = odd_document_get_job (self->document);
  OddSettings settings = job->settings;
  g_autoptr(GError) error = NULL;
  OddJob *changed;

  settings.mass_ratio = gtk_spin_button_get_value (self->mass_ratio);
  settings.light_from = gtk_spin_button_get_value (self->light_from);
  settings.shrink_gap_mm = shrink_gap_mm;
  changed = odd_job_set_settings (job, &settings, &error);
  if (changed == NULL)
    {
      gtk_label_set_text (self->reason, error->message);
      return;
    }
  odd_document_apply_merging (self->document, changed, _("Change what goes together"), "groups");
  show (self);
}

static void
limit_cb (OddGroupsDialog *self)
{
  if (!self->showing && self->document != NULL)
    take_limits (self, odd_document_get_job (self->document)->settings.shrink_gap_mm);
}

static void
shrink_cb (OddGroupsDialog *self,
           double           mm)
{
  if (!self->showing && self->document != NULL)
    take_limits (self, mm);
}

/* --- life --- */

static void
odd_groups_dialog_dispose (GObject *object)
{
  OddGroupsDialog *self = ODD_GROUPS_DIALOG (object);

  if (self->document != NULL)
    odd_document_end_merging (self->document);
  g_clear_object (&self->document);
  g_clear_pointer (&self->groups, odd_groups_free);
  G_OBJECT_CLASS (odd_groups_dialog_parent_class)->dispose (object);
}

static void
odd_groups_dialog_class_init (OddGroupsDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_groups_dialog_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/groups-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, hint);
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, list);
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, table);
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, reason);
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, mass_ratio);
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, shrink_gap);
  gtk_widget_class_bind_template_child (widget_class, OddGroupsDialog, light_from);
  gtk_widget_class_bind_template_callback (widget_class, limit_cb);
  gtk_widget_class_bind_template_callback (widget_class, shrink_cb);
}

static void
odd_groups_dialog_init (OddGroupsDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_groups_dialog_present (GtkWidget   *from,
                           OddDocument *document,
                           int          unit)
{
  OddGroupsDialog *self = g_object_new (ODD_TYPE_GROUPS_DIALOG, "transient-for", gtk_widget_get_root (from), "modal", TRUE, NULL);

  self->document = g_object_ref (document);
  self->unit = (OddUnit) unit;
  g_object_set (self->shrink_gap, "unit", ODD_UNIT_MM, NULL);
  show (self);
  gtk_window_present (GTK_WINDOW (self));
}
