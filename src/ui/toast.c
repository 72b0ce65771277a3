#include "config.h"

#include "ui/toast.h"

#include <adwaita.h>

void
odd_toast (GtkWidget  *from,
           const char *text,
           const char *button,
           const char *action)
{
  GtkWidget *overlay = ADW_IS_TOAST_OVERLAY (from) ? from : gtk_widget_get_ancestor (from, ADW_TYPE_TOAST_OVERLAY);
  g_autofree char *markup = g_markup_escape_text (text, -1);
  AdwToast *toast;

  if (overlay == NULL)
    {
      GtkRoot *root = gtk_widget_get_root (from);
      GtkWindow *parent = GTK_IS_WINDOW (root) ? gtk_window_get_transient_for (GTK_WINDOW (root)) : NULL;

      if (parent != NULL && ADW_IS_APPLICATION_WINDOW (parent))
        overlay = adw_application_window_get_content (ADW_APPLICATION_WINDOW (parent));
    }
  if (overlay == NULL || !ADW_IS_TOAST_OVERLAY (overlay))
    {
      g_message ("%s", text);
      return;
    }
  toast = adw_toast_new (markup);
  if (action != NULL)
    {
      adw_toast_set_button_label (toast, button);
      adw_toast_set_detailed_action_name (toast, action);
    }
  adw_toast_set_timeout (toast, 6);
  adw_toast_overlay_add_toast (ADW_TOAST_OVERLAY (overlay), toast);
}

gboolean
odd_apply (GtkWidget    *from,
           OddDocument  *document,
           OddJob       *job,
           GError      **error,
           const char   *label)
{
  if (job != NULL)
    {
      odd_document_apply (document, job, label);
      return TRUE;
    }
  if (*error != NULL)
    odd_toast (from, (*error)->message, NULL, NULL);
  g_clear_error (error);
  return FALSE;
}
