#include "config.h"

#include "ui/panel-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "ui/length-entry.h"
#include "ui/toast.h"

typedef struct
{
  GtkWidget *from;
  OddDocument *document;
  OddSelection *selection;
  OddId textile_id;
  OddLengthEntry *width;
  OddLengthEntry *length;
} Request;

static void
request_free (gpointer  data,
              GClosure *closure)
{
  Request *request = data;

  g_object_unref (request->from);
  g_object_unref (request->document);
  g_object_unref (request->selection);
  g_free (request);
}

static void
answer_cb (Request    *request,
           const char *response)
{
  g_autoptr(GError) error = NULL;
  const char *complaint = NULL;
  double width = 0.0, length = 0.0;
  OddId id = 0;

  if (!g_str_equal (response, "add"))
    return;
  if (!odd_length_entry_read (request->width, &width, &complaint) || !odd_length_entry_read (request->length, &length, &complaint))
    {
      odd_toast (request->from, complaint, NULL, NULL);
      return;
    }
  if (odd_apply (request->from, request->document,
                 odd_job_add_panel (odd_document_get_job (request->document), request->textile_id, G_MAXUINT, "",
                                    width, length, &id, &error),
                 &error, _("Add a panel")))
    odd_selection_set (request->selection, ODD_SELECTED_PANEL, id);
}

static OddLengthEntry *
add_row (GtkGrid    *grid,
         int         row,
         const char *title,
         int         unit,
         double      mm)
{
  GtkWidget *label = gtk_label_new_with_mnemonic (title);
  GtkWidget *entry = odd_length_entry_new ();

  g_object_set (entry, "unit", unit, NULL);
  odd_length_entry_set_value (ODD_LENGTH_ENTRY (entry), mm);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), entry);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  gtk_grid_attach (grid, label, 0, row, 1, 1);
  gtk_grid_attach (grid, entry, 1, row, 1, 1);
  return ODD_LENGTH_ENTRY (entry);
}

/* Offered: as wide as the job's columns, as long as the longest panel there is, or the wanted length. */
static double
offer_length (OddJob *job,
              OddId   textile_id)
{
  OddTextile *textile = odd_job_get_textile (job, textile_id);
  double length = 0.0;

  for (guint i = 0; textile != NULL && i < textile->n_hung; i++)
    length = MAX (length, odd_convex_box (textile->hung[i].panel->outline).height);
  if (length <= 0.0 && textile != NULL)
    length = textile->target_length_mm;
  return length > 0.0 ? length : 1000.0;
}

void
odd_panel_dialog_present (GtkWidget    *from,
                          OddDocument  *document,
                          OddSelection *selection,
                          OddId         textile_id,
                          int           unit)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddJob *job = odd_document_get_job (document);
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (root), _("Add a bare panel"), _("Finished size of the panel alone. Scraps are laid into it afterwards."));
  GtkWidget *grid = gtk_grid_new ();
  Request *request = g_new0 (Request, 1);

  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  request->from = g_object_ref (from);
  request->document = g_object_ref (document);
  request->selection = g_object_ref (selection);
  request->textile_id = textile_id;
  request->width = add_row (GTK_GRID (grid), 0, _("_Width"), unit, job->settings.column_width_mm);
  request->length = add_row (GTK_GRID (grid), 1, _("_Length"), unit, offer_length (job, textile_id));
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), grid);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "add", _("_Add"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "add", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "add");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_data (dialog, "response", G_CALLBACK (answer_cb), request, request_free, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}
