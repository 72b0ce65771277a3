#include "config.h"

#include "ui/panel-dialog.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/shape.h"
#include "store/load.h"
#include "ui/length-entry.h"
#include "ui/toast.h"

#define FIRST_MARGIN_MM 20.0       /* our choice */

typedef struct
{
  GtkWidget *from;
  OddDocument *document;
  OddSelection *selection;
  OddId textile_id;
  OddLengthEntry *width;
  OddLengthEntry *length;
  OddLengthEntry *margin;
} Request;

/* Waiting for the file of a shape. */
typedef struct
{
  GtkWidget *from;
  OddDocument *document;
  OddSelection *selection;
  double margin_mm;
} ShapeRequest;

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
shape_request_free (gpointer  data,
                    GClosure *closure)
{
  ShapeRequest *request = data;

  g_object_unref (request->from);
  g_object_unref (request->document);
  g_object_unref (request->selection);
  g_free (request);
}

/* The job with a bare panel round the one outline in the file. */
static OddJob *
add_shape (OddJob      *job,
           const char  *path,
           double       margin_mm,
           OddId       *out_id,
           GError     **error)
{
  g_autoptr(OddJob) list = path != NULL ? odd_store_load (path, NULL, error) : NULL;
  g_autoptr(OddPolygon) outline = list != NULL ? odd_job_dup_only_outline (list, error) : NULL;
  g_autoptr(OddConvex) shape = outline != NULL ? odd_shape_new_round (outline, margin_mm, error) : NULL;

  return shape != NULL ? odd_job_add_shape (job, "", shape, &ODD_TREATMENT_INHERIT, out_id, error) : NULL;
}

static void
shape_chosen_cb (ShapeRequest  *request,
                 int            response,
                 GtkFileChooser *chooser)
{
  g_autoptr(GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (chooser) : NULL;

  if (file != NULL)
    odd_panel_dialog_add_shape (request->from, request->document, request->selection, g_file_peek_path (file), request->margin_mm);
  g_object_unref (chooser);
}

gboolean
odd_panel_dialog_add_shape (GtkWidget    *from,
                            OddDocument  *document,
                            OddSelection *selection,
                            const char   *path,
                            double        margin_mm)
{
  g_autoptr(GError) error = NULL;
  OddId id = 0;

  if (!odd_apply (from, document, add_shape (odd_document_get_job (document), path, margin_mm, &id, &error), &error, _("Add a panel round a shape")))
    return FALSE;
  odd_selection_set (selection, ODD_SELECTED_PANEL, id);
  odd_toast (from, _("A bare panel lies on the table. Press Ctrl K to have it pieced."), NULL, NULL);
  return TRUE;
}

static void
choose_shape (Request *request)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (_("The outline, as a scrap list of one"), GTK_WINDOW (gtk_widget_get_root (request->from)),
                                                               GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"), _("_Cancel"));
  ShapeRequest *shape = g_new (ShapeRequest, 1);
  const char *complaint = NULL;

  *shape = (ShapeRequest) { g_object_ref (request->from), g_object_ref (request->document), g_object_ref (request->selection), 0.0 };
  if (!odd_length_entry_read (request->margin, &shape->margin_mm, &complaint))
    {
      odd_toast (request->from, complaint, NULL, NULL);
      shape_request_free (shape, NULL);
      g_object_unref (chooser);
      return;
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect_data (chooser, "response", G_CALLBACK (shape_chosen_cb), shape, shape_request_free, G_CONNECT_SWAPPED);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
answer_cb (Request    *request,
           const char *response)
{
  g_autoptr(GError) error = NULL;
  const char *complaint = NULL;
  double width = 0.0, length = 0.0;
  OddId id = 0;

  if (g_str_equal (response, "shape"))
    choose_shape (request);
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
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (root), _("Add a bare panel"), _("Finished size of the panel alone, or an outline from a file with finished cloth all round it. Scraps are laid into it afterwards."));
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
  request->margin = add_row (GTK_GRID (grid), 2, _("_Margin of a shape"), unit, FIRST_MARGIN_MM);
  adw_message_dialog_set_extra_child (ADW_MESSAGE_DIALOG (dialog), grid);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Cancel"), "shape", _("Round a _shape…"), "add", _("_Add"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "add", ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "add");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_data (dialog, "response", G_CALLBACK (answer_cb), request, request_free, G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}
