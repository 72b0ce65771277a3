#include "config.h"
#include "paths.h"

#include "ui/application.h"

#include <glib/gi18n.h>

#include "store/autosave.h"
#include "ui/settings.h"
#include "ui/toast.h"
#include "ui/window.h"

struct _OddApplication
{
  AdwApplication parent_instance;
  GSettings *settings;
  gboolean looked_for_copies;
};

G_DEFINE_FINAL_TYPE (OddApplication, odd_application, ADW_TYPE_APPLICATION)

static OddWindow *
make_window (OddApplication *self)
{
  return odd_window_new (GTK_APPLICATION (self), self->settings);
}

/* --- what a crash left --- */

typedef struct
{
  OddApplication *application;
  OddAutosave *copy;
} Offer;

static void
offer_free (gpointer  data,
            GClosure *closure)
{
  Offer *offer = data;

  odd_autosave_free (offer->copy);
  g_free (offer);
}

static void
recover_answer_cb (Offer      *offer,
                   const char *response)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (offer->application));
  OddWindow *window;

  if (g_str_equal (response, "discard"))
    odd_autosave_discard (offer->copy->id);
  if (!g_str_equal (response, "recover"))
    return;
  window = ODD_IS_WINDOW (active) && odd_window_is_unused (ODD_WINDOW (active)) ? ODD_WINDOW (active) : make_window (offer->application);
  odd_window_recover (window, offer->copy->path, offer->copy->original_path, offer->copy->id);
  gtk_window_present (GTK_WINDOW (window));
}

static void
offer_copy (OddApplication *self,
            GtkWindow      *parent,
            OddAutosave    *copy)
{
  g_autoptr(GDateTime) when = g_date_time_new_from_unix_local (copy->time);
  g_autofree char *time = when != NULL ? g_date_time_format (when, "%x %H:%M") : g_strdup ("");
  g_autofree char *name = copy->original_path != NULL ? g_path_get_basename (copy->original_path) : g_strdup (_("a job that was never saved"));
  GtkWidget *dialog = adw_message_dialog_new (parent, _("Unsaved work was found"), NULL);
  AdwMessageDialog *message = ADW_MESSAGE_DIALOG (dialog);
  Offer *offer = g_new0 (Offer, 1);

  offer->application = self;
  offer->copy = copy;
  adw_message_dialog_format_body (message, _("Oddment stopped before %s was saved. A copy of %s is there."), name, time);
  adw_message_dialog_add_responses (message, "later", _("_Later"), "discard", _("_Throw away"), "recover", _("_Recover"), NULL);
  adw_message_dialog_set_response_appearance (message, "recover", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_response_appearance (message, "discard", ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (message, "recover");
  adw_message_dialog_set_close_response (message, "later");
  g_signal_connect_data (message, "response", G_CALLBACK (recover_answer_cb), offer, offer_free, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
offer_copies (OddApplication *self,
              GtkWindow      *parent)
{
  g_autoptr(GPtrArray) copies = NULL;

  if (self->looked_for_copies)
    return;
  self->looked_for_copies = TRUE;
  copies = odd_autosave_list ();
  g_ptr_array_set_free_func (copies, NULL); /* each goes over to its question */
  for (guint i = copies->len; i > 0; i--)
    offer_copy (self, parent, g_ptr_array_index (copies, i - 1));
}

/* --- start --- */

static void
odd_application_activate (GApplication *application)
{
  OddApplication *self = ODD_APPLICATION (application);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window == NULL)
    window = GTK_WINDOW (make_window (self));
  gtk_window_present (window);
  offer_copies (self, window);
}

static void
odd_application_open (GApplication  *application,
                      GFile        **files,
                      int            n_files,
                      const char    *hint)
{
  OddApplication *self = ODD_APPLICATION (application);
  OddWindow *window = NULL;

  for (int i = 0; i < n_files; i++)
    {
      GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));

      window = i == 0 && ODD_IS_WINDOW (active) && odd_window_is_unused (ODD_WINDOW (active)) ? ODD_WINDOW (active) : make_window (self);
      gtk_window_present (GTK_WINDOW (window));
      odd_window_open (window, files[i]);
    }
  if (window != NULL)
    offer_copies (self, GTK_WINDOW (window));
}

static void
new_window (GSimpleAction *action,
            GVariant      *parameter,
            gpointer       data)
{
  gtk_window_present (GTK_WINDOW (make_window (data)));
}

/* Each window asks for itself; those that stay keep the program running. */
static void
quit (GSimpleAction *action,
      GVariant      *parameter,
      gpointer       data)
{
  g_autoptr(GList) windows = g_list_copy (gtk_application_get_windows (data));

  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_close (l->data);
}

static void
help_shown_cb (GObject      *source,
               GAsyncResult *result,
               gpointer      data)
{
  g_autoptr(GError) error = NULL;
  GtkWindow *parent = GTK_WINDOW (source);

  if (gtk_show_uri_full_finish (parent, result, &error) || !ADW_IS_APPLICATION_WINDOW (parent))
    return;
  odd_toast (adw_application_window_get_content (ADW_APPLICATION_WINDOW (parent)),
             _("No help viewer is installed here. Install Yelp to read the help."), _("Shortcuts"), "win.show-help-overlay");
}

static void
help (GSimpleAction *action,
      GVariant      *parameter,
      gpointer       data)
{
  g_autofree char *built = g_build_filename (ODD_SOURCEDIR, "help", "C", NULL);
  g_autofree char *installed = g_build_filename (ODD_PKGDATADIR, "..", "help", "C", "oddment", "index.page", NULL);
  g_autofree char *uri = NULL;

  if (g_file_test (installed, G_FILE_TEST_EXISTS) || !g_file_test (built, G_FILE_TEST_IS_DIR))
    uri = g_strdup ("help:oddment");
  else
    uri = g_strconcat ("ghelp:", built, NULL);
  gtk_show_uri_full (gtk_application_get_active_window (data), uri, GDK_CURRENT_TIME, NULL, help_shown_cb, data);
}

static void
about (GSimpleAction *action,
       GVariant      *parameter,
       gpointer       data)
{
  GtkWidget *window = adw_about_window_new ();

  g_object_set (window, "transient-for", gtk_application_get_active_window (data), "modal", TRUE, "application-name", "Oddment",
                "application-icon", ODD_APP_ID, "version", ODD_VERSION, "developer-name", _("The Oddment makers"),
                "comments", _("Sew new cloth out of scraps"), "license-type", GTK_LICENSE_GPL_3_0, NULL);
  gtk_window_present (GTK_WINDOW (window));
}

static const struct { const char *action; const char *keys[3]; } accels[] = {
  { "win.new", { "<Control>n" } },
  { "win.open", { "<Control>o" } },
  { "win.save", { "<Control>s" } },
  { "win.save-as", { "<Control><Shift>s" } },
  { "win.import", { "<Control><Shift>o" } },
  { "win.export-picture", { "<Control>e" } },
  { "win.print", { "<Control>p" } },
  { "win.preferences", { "<Control>comma" } },
  { "window.close", { "<Control>w" } },
  { "app.quit", { "<Control>q" } },
  { "app.help", { "F1" } },
  { "win.show-help-overlay", { "<Control>question" } },
  { "win.undo", { "<Control>z" } },
  { "win.redo", { "<Control><Shift>z", "<Control>y" } },
  { "win.mark-next", { "<Control>m" } },
  { "win.record", { "<Control>h" } },
  { "win.unmark-last", { "<Control><Shift>m" } },
  { "win.add-scrap", { "<Control><Shift>n" } },
  { "win.add-fabric", { "<Control><Shift>f" } },
  { "win.finishes", { "<Control><Shift>t" } },
  { "win.compare-finishes", { "<Control>t" } },
  { "win.pressing", { "<Control>b" } },
  { "win.remedies(uint32 0)", { "<Control>u" } },
  { "win.add-panel", { "<Control><Shift>p" } },
  { "win.propose", { "<Control>k" } },
  { "win.estimate", { "<Control>i" } },
  { "win.groups", { "<Control><Shift>k" } },
  { "win.stage::scraps", { "<Alt>1" } },
  { "win.stage::piecing", { "<Alt>2" } },
  { "win.stage::work", { "<Alt>3" } },
  { "win.stage::textile", { "<Alt>4" } },
  { "win.next-pane", { "F6" } },
  { "win.previous-pane", { "<Shift>F6" } },
  { "win.find", { "<Control>f" } },
  { "win.findings", { "<Control>g" } },
  { "win.next-finding", { "<Shift><Control>g" } },
  { "win.locate", { "<Control>l" } },
  { "win.ends", { "<Shift><Control>e" } },
  { "win.toggle-tray", { "F9" } },
  { "win.toggle-detail", { "<Shift>F9" } },
  { "win.fit", { "<Control>0" } },
  { "win.zoom-in", { "<Control>plus", "<Control>equal" } },
  { "win.zoom-out", { "<Control>minus" } },
  { "win.show::patches", { "<Control>1" } },
  { "win.show::seams", { "<Control>2" } },
  { "win.show::lightness", { "<Control>3" } },
  { "win.show::wrong-side", { "<Control>4" } },
  { "win.bulk", { "<Control>5" } },
  { "win.unfinished::all", { "<Control>6" } },
};

static void
odd_application_startup (GApplication *application)
{
  static const GActionEntry entries[] = {
    { "new-window", new_window }, { "quit", quit }, { "help", help }, { "about", about },
  };
  OddApplication *self = ODD_APPLICATION (application);

  G_APPLICATION_CLASS (odd_application_parent_class)->startup (application);
  self->settings = odd_settings_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  for (guint i = 0; i < G_N_ELEMENTS (accels); i++)
    {
      const char *const keys[] = { accels[i].keys[0], accels[i].keys[1], NULL };

      gtk_application_set_accels_for_action (GTK_APPLICATION (application), accels[i].action, keys);
    }
}

static void
odd_application_shutdown (GApplication *application)
{
  g_clear_object (&ODD_APPLICATION (application)->settings);
  G_APPLICATION_CLASS (odd_application_parent_class)->shutdown (application);
}

static void
odd_application_class_init (OddApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->activate = odd_application_activate;
  application_class->open = odd_application_open;
  application_class->startup = odd_application_startup;
  application_class->shutdown = odd_application_shutdown;
}

static void
odd_application_init (OddApplication *self)
{
}

OddApplication *
odd_application_new (void)
{
  return g_object_new (ODD_TYPE_APPLICATION, "application-id", ODD_APP_ID, "flags", G_APPLICATION_HANDLES_OPEN,
                       "resource-base-path", "/io/github/oddment/Oddment", NULL);
}
