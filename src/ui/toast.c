#include "config.h"

#include "ui/toast.h"

#include <adwaita.h>

#define TOAST_S 6
#define NOTE_S 2

static GtkWidget *
find_overlay_in (GtkWidget *widget)
{
  GtkWidget *child, *found = NULL;

  if (ADW_IS_TOAST_OVERLAY (widget))
    return widget;
  for (child = gtk_widget_get_first_child (widget); child != NULL && found == NULL; child = gtk_widget_get_next_sibling (child))
    found = find_overlay_in (child);
  return found;
}

/* The overlay lies over the middle of the window, so that the line below it stays to be read; panes and dialogs are not inside it. */
static GtkWidget *
find_overlay_of (GtkWidget *from)
{
  GtkRoot *root = gtk_widget_get_root (from);

  while (GTK_IS_WINDOW (root) && gtk_window_get_transient_for (GTK_WINDOW (root)) != NULL)
    root = GTK_ROOT (gtk_window_get_transient_for (GTK_WINDOW (root)));
  return root != NULL ? find_overlay_in (GTK_WIDGET (root)) : NULL;
}

/* A sentence says what and what next: its end must not be cut off. A toast gives its title the natural width whatever there is, so that is
 * made to fit beside the buttons; bold letters are wider than the approximate ones. */
static GtkWidget *
new_title (GtkWidget  *overlay,
           const char *text,
           gboolean    has_button)
{
  GtkWidget *label = gtk_label_new (text);
  PangoFontMetrics *metrics = pango_context_get_metrics (gtk_widget_get_pango_context (label), NULL, NULL);
  const int char_px = MAX (PANGO_PIXELS (pango_font_metrics_get_approximate_char_width (metrics)), 1);
  const int room_px = gtk_widget_get_width (overlay) - (has_button ? 220 : 130);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), CLAMP (room_px * 85 / 100 / char_px, 12, 70));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "heading");
  pango_font_metrics_unref (metrics);
  return label;
}

/* The note that is shown, or waits to be, on an overlay. */
static const char NOTE[] = "odd-note";

static void
forget_note_cb (AdwToast *note,
                gpointer  overlay)
{
  if (g_object_get_data (overlay, NOTE) == note)
    g_object_set_data (overlay, NOTE, NULL);
}

static void
dismiss_note (GtkWidget *overlay)
{
  AdwToast *note = g_object_get_data (G_OBJECT (overlay), NOTE);

  if (note != NULL)
    adw_toast_dismiss (note);
}

/* NULL: there is nowhere to say it, so it is in the log. Lent until it is gone. */
static AdwToast *
add_toast (GtkWidget  *overlay,
           const char *text,
           const char *button,
           const char *action,
           guint       timeout_s)
{
  g_autofree char *markup = g_markup_escape_text (text, -1);
  AdwToast *toast;

  if (overlay == NULL)
    {
      g_message ("%s", text);
      return NULL;
    }
  dismiss_note (overlay);
  toast = adw_toast_new (markup);
  adw_toast_set_custom_title (toast, new_title (overlay, text, action != NULL));
  if (action != NULL)
    {
      adw_toast_set_button_label (toast, button);
      adw_toast_set_detailed_action_name (toast, action);
    }
  adw_toast_set_timeout (toast, timeout_s);
  adw_toast_overlay_add_toast (ADW_TOAST_OVERLAY (overlay), toast);
  return toast;
}

void
odd_toast (GtkWidget  *from,
           const char *text,
           const char *button,
           const char *action)
{
  add_toast (find_overlay_of (from), text, button, action, TOAST_S);
}

void
odd_note (GtkWidget  *from,
          const char *text)
{
  GtkWidget *overlay = find_overlay_of (from);
  AdwToast *note = add_toast (overlay, text, NULL, NULL, NOTE_S);

  if (note == NULL)
    return;
  g_object_set_data (G_OBJECT (overlay), NOTE, note);
  g_signal_connect_object (note, "dismissed", G_CALLBACK (forget_note_cb), overlay, 0);
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
