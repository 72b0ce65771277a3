#include "config.h"

#include "ui/preferences.h"

#include <glib/gi18n.h>

#include "ui/length-entry.h"
#include "ui/toast.h"

#define ODD_TYPE_PREFERENCES (odd_preferences_get_type ())
G_DECLARE_FINAL_TYPE (OddPreferences, odd_preferences, ODD, PREFERENCES, AdwPreferencesWindow)

struct _OddPreferences
{
  AdwPreferencesWindow parent_instance;
  GSettings *settings;
  OddDocument *document;
  gboolean showing;
  AdwComboRow *unit;
  OddLengthEntry *column_width;
  OddLengthEntry *usable_square;
  OddLengthEntry *min_side;
  AdwComboRow *finish;
  OddLengthEntry *allowance;
  GtkSpinButton *fold_loss;
  GtkSpinButton *scatter;
  GtkSpinButton *bias;
  GtkSpinButton *stay_deg;
  OddLengthEntry *stay_from;
};

G_DEFINE_FINAL_TYPE (OddPreferences, odd_preferences, ADW_TYPE_PREFERENCES_WINDOW)

static void
take (OddPreferences  *self,
      OddJob          *job,
      GError         **error,
      const char      *label)
{
  if (job != NULL)
    {
      odd_document_apply (self->document, job, label);
      return;
    }
  adw_preferences_window_add_toast (ADW_PREFERENCES_WINDOW (self), adw_toast_new ((*error)->message));
  g_clear_error (error);
}

static void
show (OddPreferences *self)
{
  OddJob *job = odd_document_get_job (self->document);
  const int unit = g_settings_get_enum (self->settings, "unit");
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);
  OddLengthEntry *const entries[] = { self->column_width, self->usable_square, self->min_side, self->allowance };
  guint selected = 0;

  self->showing = TRUE;
  adw_combo_row_set_selected (self->unit, unit);
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    g_object_set (entries[i], "unit", unit, NULL);
  odd_length_entry_set_value (self->column_width, job->settings.column_width_mm);
  odd_length_entry_set_value (self->usable_square, job->settings.usable_square_mm);
  odd_length_entry_set_value (self->min_side, job->settings.min_side_mm);
  odd_length_entry_set_value (self->allowance, job->treatment.allowance_mm);
  gtk_spin_button_set_value (self->fold_loss, job->settings.fold_loss_mm);
  gtk_spin_button_set_value (self->scatter, job->settings.scatter_mm);
  gtk_spin_button_set_value (self->bias, job->settings.bias_mm);
  gtk_spin_button_set_value (self->stay_deg, job->settings.stay_from_deg);
  odd_length_entry_set_value (self->stay_from, job->settings.stay_from_mm);
  for (guint i = 0; i < job->finishes->len; i++)
    {
      OddFinish *finish = g_ptr_array_index (job->finishes, i);

      gtk_string_list_append (names, finish->name);
      if (finish->id == job->treatment.finish_id)
        selected = i;
    }
  adw_combo_row_set_model (self->finish, G_LIST_MODEL (names));
  adw_combo_row_set_selected (self->finish, selected);
  self->showing = FALSE;
}

static void
unit_cb (OddPreferences *self)
{
  if (!self->showing && self->settings != NULL)
    {
      g_settings_set_enum (self->settings, "unit", adw_combo_row_get_selected (self->unit));
      show (self);
    }
}

static void
settings_cb (OddPreferences *self)
{
  g_autoptr(GError) error = NULL;
  OddSettings settings;

  if (self->showing || self->document == NULL)
    return;
  settings = odd_document_get_job (self->document)->settings;
  settings.column_width_mm = odd_length_entry_get_value (self->column_width);
  settings.usable_square_mm = odd_length_entry_get_value (self->usable_square);
  settings.min_side_mm = odd_length_entry_get_value (self->min_side);
  settings.stay_from_deg = gtk_spin_button_get_value (self->stay_deg);
  settings.stay_from_mm = odd_length_entry_get_value (self->stay_from);
  take (self, odd_job_set_settings (odd_document_get_job (self->document), &settings, &error), &error, _("Change the job's settings"));
  show (self);
}

static void
expected_cb (OddPreferences *self)
{
  g_autoptr(GError) error = NULL;
  OddSettings settings;

  if (self->showing || self->document == NULL)
    return;
  settings = odd_document_get_job (self->document)->settings;
  settings.fold_loss_mm = gtk_spin_button_get_value (self->fold_loss);
  settings.scatter_mm = gtk_spin_button_get_value (self->scatter);
  settings.bias_mm = gtk_spin_button_get_value (self->bias);
  take (self, odd_job_set_settings (odd_document_get_job (self->document), &settings, &error), &error, _("Change the job's settings"));
}

static void
set_treatment (OddPreferences *self,
               OddTreatment    treatment)
{
  g_autoptr(GError) error = NULL;

  take (self, odd_job_set_treatment (odd_document_get_job (self->document), ODD_LEVEL_JOB, 0, 0, &treatment, TRUE, &error), &error,
        _("Change the job's finish"));
  show (self);
}

static void
finish_cb (OddPreferences *self)
{
  OddJob *job;
  OddFinish *finish;

  if (self->showing || self->document == NULL)
    return;
  job = odd_document_get_job (self->document);
  finish = g_ptr_array_index (job->finishes, adw_combo_row_get_selected (self->finish));
  if (finish->id != job->treatment.finish_id)
    set_treatment (self, (OddTreatment) { finish->id, finish->allowance_mm });
}

static void
allowance_cb (OddPreferences *self,
              double          mm)
{
  if (self->document != NULL)
    set_treatment (self, (OddTreatment) { odd_document_get_job (self->document)->treatment.finish_id, mm });
}

static void
odd_preferences_dispose (GObject *object)
{
  OddPreferences *self = ODD_PREFERENCES (object);

  g_clear_object (&self->settings);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (odd_preferences_parent_class)->dispose (object);
}

static void
odd_preferences_class_init (OddPreferencesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_preferences_dispose;
  g_type_ensure (ODD_TYPE_LENGTH_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/preferences.ui");
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, unit);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, column_width);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, usable_square);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, min_side);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, finish);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, allowance);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, fold_loss);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, scatter);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, bias);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, stay_deg);
  gtk_widget_class_bind_template_child (widget_class, OddPreferences, stay_from);
  gtk_widget_class_bind_template_callback (widget_class, expected_cb);
  gtk_widget_class_bind_template_callback (widget_class, unit_cb);
  gtk_widget_class_bind_template_callback (widget_class, settings_cb);
  gtk_widget_class_bind_template_callback (widget_class, finish_cb);
  gtk_widget_class_bind_template_callback (widget_class, allowance_cb);
}

static void
odd_preferences_init (OddPreferences *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
odd_preferences_present (GtkWindow    *parent,
                         GSettings    *settings,
                         OddDocument  *document)
{
  OddPreferences *self = g_object_new (ODD_TYPE_PREFERENCES, "transient-for", parent, "modal", TRUE, NULL);

  self->settings = g_object_ref (settings);
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
  gtk_window_present (GTK_WINDOW (self));
}
