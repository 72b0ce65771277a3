#include "config.h"

#include "ui/ticket-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "paper/ticket.h"
#include "ui/print.h"
#include "ui/toast.h"

#define ODD_TYPE_TICKET_DIALOG (odd_ticket_dialog_get_type ())
G_DECLARE_FINAL_TYPE (OddTicketDialog, odd_ticket_dialog, ODD, TICKET_DIALOG, AdwWindow)

struct _OddTicketDialog
{
  AdwWindow parent_instance;
  GSettings *settings;         /* or NULL */
  OddJob *job;
  char *title;
  int unit;
  gboolean filling;
  GCancellable *counting;      /* or NULL */
  GtkCheckButton *checks[ODD_N_TICKET_PARTS];
  AdwPreferencesGroup *sheets;
  GArray *pins;                  /* OddTaskKey */
  AdwComboRow *manner;
  AdwComboRow *templates;
  AdwComboRow *stickers;
  AdwComboRow *paper;
  GtkLabel *count;
  GtkWidget *save;
  GtkWidget *print;
};

G_DEFINE_FINAL_TYPE (OddTicketDialog, odd_ticket_dialog, ADW_TYPE_WINDOW)

/* What a worker needs, and the file it writes; path NULL: it only counts the pages. */
typedef struct
{
  OddJob *job;
  char *title;
  int unit;
  OddPaper paper;
  OddTicketOptions options;
  GArray *pins;                /* those of the options */
  char *path;
  GtkWindow *parent;           /* a reference, to say there how it went */
} Work;

static void
work_free (gpointer data)
{
  Work *work = data;

  odd_job_unref (work->job);
  g_free (work->title);
  g_free (work->path);
  g_array_unref (work->pins);
  g_clear_object (&work->parent);
  g_free (work);
}

/* The pins are lent by the dialog. */
static void
read_options (OddTicketDialog  *self,
              OddTicketOptions *out)
{
  odd_ticket_options_init (out);
  out->parts = 0;
  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    if (gtk_check_button_get_active (self->checks[i]))
      out->parts |= 1u << i;
  out->manner = adw_combo_row_get_selected (self->manner);
  out->pins = (const OddTaskKey *) (gpointer) self->pins->data;
  out->n_pins = self->pins->len;
  out->templates = adw_combo_row_get_selected (self->templates);
  out->stickers = adw_combo_row_get_selected (self->stickers);
}

static Work *
create_work (OddTicketDialog *self,
             const char      *path)
{
  Work *work = g_new0 (Work, 1);

  work->job = odd_job_ref (self->job);
  work->title = g_strdup (self->title);
  work->unit = self->unit;
  work->paper = adw_combo_row_get_selected (self->paper);
  read_options (self, &work->options);
  work->pins = g_array_ref (self->pins);
  work->path = g_strdup (path);
  work->parent = g_object_ref (gtk_window_get_transient_for (GTK_WINDOW (self)));
  return work;
}

/* --- how many pages --- */

static void
count_cb (GTask        *task,
          gpointer      source,
          gpointer      data,
          GCancellable *cancellable)
{
  const Work *work = data;
  OddTicket *ticket;

  if (g_task_return_error_if_cancelled (task))
    return;
  ticket = odd_ticket_new (work->job, work->title, work->paper, work->unit, &work->options);
  g_task_return_int (task, odd_ticket_get_n_pages (ticket));
  odd_ticket_free (ticket);
}

static void
counted_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  OddTicketDialog *self = ODD_TICKET_DIALOG (source);
  g_autoptr(GError) error = NULL;
  const int n = g_task_propagate_int (G_TASK (result), &error);
  g_autofree char *text = NULL;

  if (error != NULL)
    return;
  text = g_strdup_printf (ngettext ("%d page", "%d pages", n), n);
  gtk_label_set_label (self->count, text);
}

static void
stop_counting (OddTicketDialog *self)
{
  if (self->counting != NULL)
    g_cancellable_cancel (self->counting);
  g_clear_object (&self->counting);
}

static void
count (OddTicketDialog *self)
{
  g_autoptr(GTask) task = NULL;

  stop_counting (self);
  self->counting = g_cancellable_new ();
  task = g_task_new (self, self->counting, counted_cb, NULL);
  g_task_set_task_data (task, create_work (self, NULL), work_free);
  g_task_run_in_thread (task, count_cb);
}

/* --- keeping the choice --- */

static char *
dup_parts_text (guint parts)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    if (parts & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? "," : "", odd_ticket_part_get_nick (i));
  return g_string_free (text, FALSE);
}

static void
keep (OddTicketDialog *self)
{
  OddTicketOptions options;
  g_autofree char *parts = NULL;

  read_options (self, &options);
  parts = dup_parts_text (options.parts);
  if (self->settings == NULL)
    return;
  g_settings_set_string (self->settings, "ticket-sheets", parts);
  g_settings_set_string (self->settings, "ticket-templates", odd_template_choice_get_nick (options.templates));
  g_settings_set_string (self->settings, "ticket-stickers", odd_sticker_size_get_nick (options.stickers));
}

static void
recall (OddTicketDialog  *self,
        OddTicketOptions *options)
{
  g_autofree char *parts = NULL, *templates = NULL, *stickers = NULL;

  if (self->settings == NULL)
    return;
  parts = g_settings_get_string (self->settings, "ticket-sheets");
  templates = g_settings_get_string (self->settings, "ticket-templates");
  stickers = g_settings_get_string (self->settings, "ticket-stickers");
  odd_ticket_parts_from_text (parts, &options->parts, NULL);
  odd_template_choice_from_nick (templates, &options->templates);
  odd_sticker_size_from_nick (stickers, &options->stickers);
}

/* --- what is chosen --- */

static void
changed_cb (OddTicketDialog *self)
{
  OddTicketOptions options;

  if (self->filling)
    return;
  read_options (self, &options);
  gtk_widget_set_visible (GTK_WIDGET (self->manner), (options.parts & (1u << ODD_TICKET_PART_STOPS | 1u << ODD_TICKET_PART_COVER)) != 0);
  gtk_widget_set_visible (GTK_WIDGET (self->templates), (options.parts & (1u << ODD_TICKET_PART_TEMPLATES)) != 0);
  gtk_widget_set_visible (GTK_WIDGET (self->stickers), (options.parts & (1u << ODD_TICKET_PART_STICKERS)) != 0);
  gtk_widget_set_sensitive (self->save, options.parts != 0);
  gtk_widget_set_sensitive (self->print, options.parts != 0);
  if (options.parts != 0)
    {
      count (self);
      return;
    }
  stop_counting (self);
  gtk_label_set_label (self->count, _("Choose a sheet"));
}

static void
print_cb (OddTicketDialog *self)
{
  g_autoptr(OddJob) job = odd_job_ref (self->job);
  g_autofree char *title = g_strdup (self->title);
  g_autoptr(GArray) pins = g_array_ref (self->pins);
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (self));
  const int unit = self->unit;
  OddTicketOptions options;

  keep (self);
  read_options (self, &options);
  gtk_window_destroy (GTK_WINDOW (self));
  odd_print_run (parent, job, title, unit, &options);
}

/* --- PDF --- */

static void
write_cb (GTask        *task,
          gpointer      source,
          gpointer      data,
          GCancellable *cancellable)
{
  const Work *work = data;
  OddTicket *ticket = odd_ticket_new (work->job, work->title, work->paper, work->unit, &work->options);
  GError *error = NULL;

  if (odd_ticket_write_pdf (ticket, work->path, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
  odd_ticket_free (ticket);
}

static void
written_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  const Work *work = g_task_get_task_data (G_TASK (result));
  g_autofree char *name = g_filename_display_basename (work->path);
  g_autofree char *text = g_strdup_printf (_("Saved “%s”"), name);
  g_autoptr(GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  if (error != NULL)
    odd_toast (GTK_WIDGET (work->parent), error->message, NULL, NULL);
  else
    odd_note (GTK_WIDGET (work->parent), text);
}

static void
save_response_cb (OddTicketDialog *self,
                  int              response,
                  GtkNativeDialog *chooser)
{
  g_autoptr(GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_autoptr(GTask) task = NULL;

  gtk_native_dialog_destroy (chooser);
  if (path == NULL)
    return;
  keep (self);
  task = g_task_new (NULL, NULL, written_cb, NULL);
  g_task_set_task_data (task, create_work (self, path), work_free);
  g_task_run_in_thread (task, write_cb);
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
save_cb (OddTicketDialog *self)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (_("Save the work ticket"), GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), _("_Cancel"));
  g_autofree char *name = g_strdup_printf ("%s.pdf", self->title);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  g_signal_connect_object (chooser, "response", G_CALLBACK (save_response_cb), self, G_CONNECT_SWAPPED);
  g_object_set_data_full (G_OBJECT (self), "chooser", chooser, g_object_unref);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* --- the dialog --- */

static void
odd_ticket_dialog_dispose (GObject *object)
{
  OddTicketDialog *self = ODD_TICKET_DIALOG (object);

  stop_counting (self);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->pins, g_array_unref);
  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->title, g_free);
  G_OBJECT_CLASS (odd_ticket_dialog_parent_class)->dispose (object);
}

static void
odd_ticket_dialog_class_init (OddTicketDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = odd_ticket_dialog_dispose;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/io/github/oddment/Oddment/ui/ticket-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, sheets);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, manner);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, templates);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, stickers);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, paper);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, count);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, save);
  gtk_widget_class_bind_template_child (widget_class, OddTicketDialog, print);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, print_cb);
  gtk_widget_class_bind_template_callback (widget_class, save_cb);
}

static void
add_part (OddTicketDialog *self,
          OddTicketPart    part)
{
  GtkWidget *row = adw_action_row_new (), *check = gtk_check_button_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), odd_ticket_part_get_name (part));
  gtk_widget_set_valign (check, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, odd_ticket_part_get_name (part), -1);
  adw_action_row_add_prefix (ADW_ACTION_ROW (row), check);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), check);
  self->checks[part] = GTK_CHECK_BUTTON (check);
  g_signal_connect_swapped (check, "toggled", G_CALLBACK (changed_cb), self);
  adw_preferences_group_add (self->sheets, row);
}

static void
fill (AdwComboRow *row,
      guint        n,
      const char  *(*get_name) (guint i))
{
  g_autoptr(GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; i < n; i++)
    gtk_string_list_append (names, get_name (i));
  adw_combo_row_set_model (row, G_LIST_MODEL (names));
}

static const char *get_manner_name (guint i) { return odd_manner_get_name (i); }
static const char *get_choice_name (guint i) { return odd_template_choice_get_name (i); }
static const char *get_size_name (guint i) { return odd_sticker_size_get_name (i); }

static void
odd_ticket_dialog_init (OddTicketDialog *self)
{
  self->filling = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    add_part (self, i);
  fill (self->manner, ODD_N_MANNERS, get_manner_name);
  fill (self->templates, ODD_N_TEMPLATE_CHOICES, get_choice_name);
  fill (self->stickers, ODD_N_STICKER_SIZES, get_size_name);
}

void
odd_ticket_dialog_present (GtkWindow  *parent,
                           GSettings  *settings,
                           OddJob     *job,
                           const char *title,
                           int         unit,
                           int         manner,
                           GArray     *pins)
{
  OddTicketDialog *self = g_object_new (ODD_TYPE_TICKET_DIALOG, "transient-for", parent, "modal", TRUE, NULL);
  OddTicketOptions options;

  self->settings = settings != NULL ? g_object_ref (settings) : NULL;
  self->job = odd_job_ref (job);
  self->title = g_strdup (title);
  self->unit = unit;
  odd_ticket_options_init (&options);
  recall (self, &options);
  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    gtk_check_button_set_active (self->checks[i], (options.parts & (1u << i)) != 0);
  self->pins = pins != NULL ? g_array_copy (pins) : g_array_new (FALSE, FALSE, sizeof (OddTaskKey));
  adw_combo_row_set_selected (self->manner, manner);
  adw_combo_row_set_selected (self->templates, options.templates);
  adw_combo_row_set_selected (self->stickers, options.stickers);
  adw_combo_row_set_selected (self->paper, g_str_equal (gtk_paper_size_get_default (), GTK_PAPER_NAME_LETTER) ? ODD_PAPER_LETTER : ODD_PAPER_A4);
  self->filling = FALSE;
  changed_cb (self);
  gtk_window_present (GTK_WINDOW (self));
}
