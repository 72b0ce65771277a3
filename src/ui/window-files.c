/* New, open, save, recent, import, export, and what happens when the file changes outside or the window is closed. */
#include "config.h"

#include "ui/window-private.h"

#include <glib/gi18n.h>

#include "store/load.h"
#include "store/save.h"
#include "store/scrap-list.h"
#include "ui/toast.h"

#define MOST_RECENT 8

/* --- choosing a file --- */

static GtkFileFilter *
make_filter (const char *name,
             const char *first,
             const char *second)
{
  GtkFileFilter *filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, first);
  if (second != NULL)
    gtk_file_filter_add_pattern (filter, second);
  return filter;
}

static void
add_filter (GtkFileChooser *chooser,
            GtkFileFilter  *filter)
{
  gtk_file_chooser_add_filter (chooser, filter);
  g_object_unref (filter);
}

static void
start_in_last_folder (OddWindow      *self,
                      GtkFileChooser *chooser)
{
  g_autofree char *uri = self->settings != NULL ? g_settings_get_string (self->settings, "last-folder") : g_strdup ("");
  g_autoptr(GFile) folder = *uri != '\0' ? g_file_new_for_uri (uri) : NULL;

  if (folder != NULL && g_file_query_exists (folder, NULL))
    gtk_file_chooser_set_current_folder (chooser, folder, NULL);
}

static void
remember_folder (OddWindow *self,
                 GFile     *file)
{
  g_autoptr(GFile) folder = g_file_get_parent (file);
  g_autofree char *uri = folder != NULL ? g_file_get_uri (folder) : NULL;

  if (self->settings != NULL && uri != NULL)
    g_settings_set_string (self->settings, "last-folder", uri);
}

typedef void (*Chosen) (OddWindow *self, GFile *file);
typedef struct { OddWindow *window; Chosen chosen; } Choice;

static void
choice_response_cb (GtkNativeDialog *dialog,
                    int              response,
                    Choice          *choice)
{
  g_autoptr(GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;

  if (file != NULL)
    {
      remember_folder (choice->window, file);
      choice->chosen (choice->window, file);
    }
  g_object_unref (choice->window);
  g_free (choice);
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
}

static GtkFileChooser *
choose (OddWindow            *self,
        const char           *title,
        GtkFileChooserAction  action,
        const char           *accept,
        Chosen                chosen)
{
  GtkFileChooserNative *native = gtk_file_chooser_native_new (title, GTK_WINDOW (self), action, accept, _("_Cancel"));
  Choice *choice = g_new0 (Choice, 1);

  choice->window = g_object_ref (self);
  choice->chosen = chosen;
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  start_in_last_folder (self, GTK_FILE_CHOOSER (native));
  g_signal_connect (native, "response", G_CALLBACK (choice_response_cb), choice);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
  return GTK_FILE_CHOOSER (native);
}

/* --- recent --- */

static int
compare_recent (gconstpointer a,
                gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b), gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

void
odd_window_fill_recent (OddWindow *self)
{
  GList *infos = g_list_sort (gtk_recent_manager_get_items (gtk_recent_manager_get_default ()), compare_recent);
  guint n = 0;

  g_menu_remove_all (self->recent_menu);
  for (GList *l = infos; l != NULL && n < MOST_RECENT; l = l->next)
    {
      g_autoptr(GMenuItem) item = NULL;
      const char *uri = gtk_recent_info_get_uri (l->data);

      if (!gtk_recent_info_has_application (l->data, "Oddment") || !g_str_has_suffix (uri, ".oddment") || !gtk_recent_info_exists (l->data))
        continue;
      item = g_menu_item_new (gtk_recent_info_get_display_name (l->data), NULL);
      g_menu_item_set_action_and_target (item, "win.open-recent", "s", uri);
      g_menu_append_item (self->recent_menu, item);
      n++;
    }
  g_list_free_full (infos, (GDestroyNotify) gtk_recent_info_unref);
}

static void
remember_recent (OddWindow *self)
{
  GFile *file = odd_document_get_file (self->document);
  g_autofree char *uri = file != NULL ? g_file_get_uri (file) : NULL;
  const GtkRecentData data = {
    .mime_type = (char *) "application/x-oddment+zip",
    .app_name = (char *) "Oddment",
    .app_exec = (char *) "oddment %f",
  };

  if (uri != NULL)
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
  odd_window_fill_recent (self);
}

/* --- open --- */

static void
opened_cb (OddKeeper  *keeper,
           gboolean    ok,
           const char *message,
           gpointer    data)
{
  g_autoptr(OddWindow) self = data;

  if (message != NULL)
    odd_toast (GTK_WIDGET (self->canvas), message, NULL, NULL);
  if (!ok)
    return;
  gtk_revealer_set_reveal_child (self->info_revealer, FALSE);
  remember_recent (self);
  odd_selection_set (self->selection, ODD_SELECTED_NOTHING, 0);
  odd_canvas_fit (self->canvas, FALSE);
}

void
odd_window_open (OddWindow *self,
                 GFile     *file)
{
  g_return_if_fail (ODD_IS_WINDOW (self) && G_IS_FILE (file));

  odd_keeper_open (self->keeper, file, opened_cb, g_object_ref (self));
}

void
odd_window_recover (OddWindow  *self,
                    const char *autosave_path,
                    const char *original_path,
                    const char *autosave_id)
{
  g_return_if_fail (ODD_IS_WINDOW (self));

  odd_keeper_recover (self->keeper, autosave_path, original_path, autosave_id, opened_cb, g_object_ref (self));
}

/* Here when nothing is lost by it, else in a window of its own. */
static void
open_somewhere (OddWindow *self,
                GFile     *file)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));

  if (odd_window_is_unused (self) || application == NULL)
    odd_window_open (self, file);
  else
    g_application_open (G_APPLICATION (application), &file, 1, "");
}

static void
open_file (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  GtkFileChooser *chooser = choose (ODD_WINDOW (widget), _("Open a job"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"), open_somewhere);

  add_filter (chooser, make_filter (_("Jobs and scrap lists"), "*.oddment", "*.json"));
  add_filter (chooser, make_filter (_("All files"), "*", NULL));
}

static void
open_recent (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  g_autoptr(GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));

  open_somewhere (ODD_WINDOW (widget), file);
}

static void
new_job (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  g_action_group_activate_action (G_ACTION_GROUP (gtk_window_get_application (GTK_WINDOW (widget))), "new-window", NULL);
}

/* --- save --- */

static void
saved_cb (OddKeeper  *keeper,
          gboolean    ok,
          const char *message,
          gpointer    data)
{
  g_autoptr(OddWindow) self = data;

  if (!ok)
    {
      self->closing = FALSE;
      odd_toast (GTK_WIDGET (self->canvas), message, _("Save as…"), "win.save-as");
      return;
    }
  remember_recent (self);
  gtk_revealer_set_reveal_child (self->info_revealer, FALSE);
  if (self->closing)
    gtk_window_close (GTK_WINDOW (self));
  else
    odd_note (GTK_WIDGET (self->canvas), _("Saved"));
}

/* What is being typed is taken when its entry is left, so it is left for a moment. */
static void
take_typed (OddWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (focus == NULL || !GTK_IS_TEXT (focus))
    return;
  g_object_ref (focus);
  gtk_window_set_focus (GTK_WINDOW (self), NULL);
  gtk_widget_grab_focus (focus);
  g_object_unref (focus);
}

static void
save_to (OddWindow *self,
         GFile     *file)
{
  odd_keeper_save (self->keeper, file, saved_cb, g_object_ref (self));
}

static void
overwrite_answer_cb (OddWindow  *self,
                     const char *response)
{
  if (g_str_equal (response, "overwrite"))
    save_to (self, odd_document_get_file (self->document));
  else
    self->closing = FALSE;
  if (g_str_equal (response, "save-as"))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.save-as", NULL);
}

static void
ask_overwrite (OddWindow *self)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self), _("The file was changed by another program"),
                                              _("Saving now replaces what that program wrote."));
  AdwMessageDialog *message = ADW_MESSAGE_DIALOG (dialog);

  adw_message_dialog_add_responses (message, "cancel", _("_Cancel"), "overwrite", _("_Replace it"), "save-as", _("_Save as…"), NULL);
  adw_message_dialog_set_response_appearance (message, "overwrite", ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (message, "save-as", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (message, "save-as");
  adw_message_dialog_set_close_response (message, "cancel");
  g_signal_connect_object (message, "response", G_CALLBACK (overwrite_answer_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
save_chosen (OddWindow *self,
             GFile     *file)
{
  g_autofree char *name = g_file_get_basename (file);

  if (g_str_has_suffix (name, ".oddment"))
    save_to (self, file);
  else
    {
      g_autofree char *uri = g_file_get_uri (file);
      g_autofree char *whole = g_strconcat (uri, ".oddment", NULL);
      g_autoptr(GFile) named = g_file_new_for_uri (whole);

      save_to (self, named);
    }
}

static void
save_as (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  OddWindow *self = ODD_WINDOW (widget);
  g_autofree char *name = g_strconcat (odd_document_get_title (self->document), ".oddment", NULL);
  GtkFileChooser *chooser;

  take_typed (self);
  chooser = choose (self, _("Save the job"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), save_chosen);
  add_filter (chooser, make_filter (_("Jobs"), "*.oddment", NULL));
  gtk_file_chooser_set_current_name (chooser, name);
}

static void
save (GtkWidget  *widget,
      const char *action,
      GVariant   *parameter)
{
  OddWindow *self = ODD_WINDOW (widget);
  GFile *file;

  take_typed (self);
  file = odd_document_get_file (self->document);
  if (file == NULL)
    save_as (widget, action, parameter);
  else if (odd_keeper_is_changed_outside (self->keeper))
    ask_overwrite (self);
  else
    save_to (self, file);
}

/* --- import and export --- */

static void
import_chosen (OddWindow *self,
               GFile     *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_autofree char *name = g_file_get_basename (file);
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = odd_store_read_file (path != NULL ? path : name, &error);
  OddJob *before = odd_document_get_job (self->document);
  OddJob *after = bytes != NULL ? odd_job_import_scrap_list (before, bytes, name, &error) : NULL;
  const guint n = after != NULL ? after->scraps->len - before->scraps->len : 0;

  if (odd_apply (GTK_WIDGET (self->canvas), self->document, after, &error, _("Import a scrap list")))
    {
      g_autofree char *text = g_strdup_printf (ngettext ("%u scrap came in", "%u scraps came in", n), n);

      odd_toast (GTK_WIDGET (self->canvas), text, _("Undo"), "win.undo");
    }
}

static void
import_list (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  GtkFileChooser *chooser = choose (ODD_WINDOW (widget), _("Import a scrap list"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Import"), import_chosen);

  add_filter (chooser, make_filter (_("Scrap lists"), "*.json", NULL));
  add_filter (chooser, make_filter (_("All files"), "*", NULL));
}

static void
list_chosen (OddWindow *self,
             GFile     *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_autofree char *name = path == NULL || g_str_has_suffix (path, ".json") ? g_strdup (path) : g_strconcat (path, ".json", NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = odd_job_write_scrap_list (odd_document_get_job (self->document), &error);

  if (name == NULL)
    odd_toast (GTK_WIDGET (self->canvas), _("A scrap list can only be written to a folder of this computer."), NULL, NULL);
  else if (bytes == NULL || !odd_store_save_bytes (bytes, name, &error))
    odd_toast (GTK_WIDGET (self->canvas), error->message, NULL, NULL);
  else
    odd_note (GTK_WIDGET (self->canvas), _("The scrap list is written"));
}

static void
export_list (GtkWidget  *widget,
             const char *action,
             GVariant   *parameter)
{
  OddWindow *self = ODD_WINDOW (widget);
  g_autofree char *name = g_strconcat (odd_document_get_title (self->document), ".json", NULL);
  GtkFileChooser *chooser = choose (self, _("Export the scraps as a list"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Export"), list_chosen);

  add_filter (chooser, make_filter (_("Scrap lists"), "*.json", NULL));
  gtk_file_chooser_set_current_name (chooser, name);
}

typedef struct { OddJob *job; guint textile_id; int show; char *path; } Export;

static void
export_free (Export *export)
{
  odd_job_unref (export->job);
  g_free (export->path);
  g_free (export);
}

static void
export_in_thread (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  Export *export = data;
  GError *error = NULL;

  if (odd_job_write_picture (export->job, export->textile_id, export->show, export->path, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
exported_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  OddWindow *self = ODD_WINDOW (source);
  g_autoptr(GError) error = NULL;

  if (g_task_propagate_boolean (G_TASK (result), &error))
    odd_note (GTK_WIDGET (self->canvas), _("The picture is written"));
  else
    odd_toast (GTK_WIDGET (self->canvas), error->message, NULL, NULL);
}

static void
export_chosen (OddWindow *self,
               GFile     *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_autoptr(GTask) task = NULL;
  Export *export;

  if (path == NULL)
    {
      odd_toast (GTK_WIDGET (self->canvas), _("A picture can only be written to a folder of this computer."), NULL, NULL);
      return;
    }
  export = g_new0 (Export, 1);
  export->job = odd_job_ref (odd_document_get_job (self->document));
  export->textile_id = self->textile_id;
  export->path = g_str_has_suffix (path, ".png") || g_str_has_suffix (path, ".svg") ? g_strdup (path) : g_strconcat (path, ".png", NULL);
  g_object_get (self->canvas, "show", &export->show, NULL);
  task = g_task_new (self, NULL, exported_cb, NULL);
  g_task_set_task_data (task, export, (GDestroyNotify) export_free);
  g_task_run_in_thread (task, export_in_thread);
}

static void
export_picture (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  OddWindow *self = ODD_WINDOW (widget);
  g_autofree char *name = g_strconcat (odd_document_get_title (self->document), ".png", NULL);
  GtkFileChooser *chooser = choose (self, _("Export a picture"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Export"), export_chosen);

  add_filter (chooser, make_filter (_("Pictures (PNG, SVG)"), "*.png", "*.svg"));
  gtk_file_chooser_set_current_name (chooser, name);
}

/* --- dropped, changed outside, closing --- */

void
odd_window_dropped_file (OddWindow *self,
                         GFile     *file)
{
  g_autofree char *name = g_file_get_basename (file);

  if (g_str_has_suffix (name, ".json") && !odd_window_is_unused (self))
    import_chosen (self, file);
  else
    open_somewhere (self, file);
}

void
odd_window_changed_outside (OddWindow *self)
{
  gtk_label_set_text (self->info_text, odd_document_get_modified (self->document)
                                         ? _("Another program changed this job's file. What you changed here is not in it.")
                                         : _("Another program changed this job's file."));
  gtk_revealer_set_reveal_child (self->info_revealer, TRUE);
}

void
odd_window_reload (OddWindow *self)
{
  GFile *file = odd_document_get_file (self->document);

  if (file != NULL)
    odd_window_open (self, file);
}

static void
close_answer_cb (OddWindow  *self,
                 const char *response)
{
  if (g_str_equal (response, "discard"))
    {
      self->closing = TRUE;
      gtk_window_close (GTK_WINDOW (self));
    }
  else if (g_str_equal (response, "save"))
    {
      self->closing = TRUE;
      gtk_widget_activate_action (GTK_WIDGET (self), "win.save", NULL);
      /* without a file yet she is asked for one; should she not name it, closing must ask again */
      if (odd_document_get_file (self->document) == NULL)
        self->closing = FALSE;
    }
}

gboolean
odd_window_ask_before_closing (OddWindow *self)
{
  GtkWidget *dialog;
  AdwMessageDialog *message;

  take_typed (self);
  if (!odd_document_get_modified (self->document))
    return FALSE;
  dialog = adw_message_dialog_new (GTK_WINDOW (self), _("Save the changes?"), NULL);
  message = ADW_MESSAGE_DIALOG (dialog);
  adw_message_dialog_format_body (message, _("“%s” has changes that are not saved. Without saving they are lost."), odd_document_get_title (self->document));
  adw_message_dialog_add_responses (message, "cancel", _("_Cancel"), "discard", _("_Discard"), "save", _("_Save"), NULL);
  adw_message_dialog_set_response_appearance (message, "discard", ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (message, "save", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (message, "save");
  adw_message_dialog_set_close_response (message, "cancel");
  g_signal_connect_object (message, "response", G_CALLBACK (close_answer_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
  return TRUE;
}

void
odd_window_install_file_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.new", NULL, new_job);
  gtk_widget_class_install_action (widget_class, "win.open", NULL, open_file);
  gtk_widget_class_install_action (widget_class, "win.open-recent", "s", open_recent);
  gtk_widget_class_install_action (widget_class, "win.save", NULL, save);
  gtk_widget_class_install_action (widget_class, "win.save-as", NULL, save_as);
  gtk_widget_class_install_action (widget_class, "win.import", NULL, import_list);
  gtk_widget_class_install_action (widget_class, "win.export-list", NULL, export_list);
  gtk_widget_class_install_action (widget_class, "win.export-picture", NULL, export_picture);
}
