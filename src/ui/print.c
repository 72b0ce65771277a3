/* The print dialogue: the work ticket, laid out for the paper she chose. */
#include "config.h"

#include "ui/print.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "paper/ticket.h"
#include "ui/toast.h"

/* The smallest paper the ticket can be laid out for. */
#define MIN_WIDTH_MM 190.0
#define MIN_HEIGHT_MM 250.0

typedef struct
{
  OddJob *job;
  char *title;
  int unit;
  OddTicket *ticket;         /* made when the paper is known */
} Printing;

static void
printing_free (gpointer  data,
               GClosure *closure)
{
  Printing *printing = data;

  g_clear_pointer (&printing->ticket, odd_ticket_free);
  odd_job_unref (printing->job);
  g_free (printing->title);
  g_free (printing);
}

static void
begin_cb (Printing          *printing,
          GtkPrintContext   *context,
          GtkPrintOperation *operation)
{
  const double width_mm = MAX (gtk_print_context_get_width (context), MIN_WIDTH_MM);
  const double height_mm = MAX (gtk_print_context_get_height (context), MIN_HEIGHT_MM);

  g_clear_pointer (&printing->ticket, odd_ticket_free);
  printing->ticket = odd_ticket_new_for_size (printing->job, printing->title, width_mm, height_mm, printing->unit, NULL);
  gtk_print_operation_set_n_pages (operation, odd_ticket_get_n_pages (printing->ticket));
}

static void
draw_page_cb (Printing        *printing,
              GtkPrintContext *context,
              int              page)
{
  odd_ticket_draw_page (printing->ticket, gtk_print_context_get_cairo_context (context), page);
}

void
odd_print_run (GtkWindow  *parent,
               OddJob     *job,
               const char *title,
               int         unit)
{
  g_autoptr(GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr(GError) error = NULL;
  Printing *printing = g_new0 (Printing, 1);

  printing->job = odd_job_ref (job);
  printing->title = g_strdup (title);
  printing->unit = unit;
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_use_full_page (operation, TRUE); /* the ticket has margins of its own */
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_signal_connect_swapped (operation, "begin-print", G_CALLBACK (begin_cb), printing);
  g_signal_connect_data (operation, "draw-page", G_CALLBACK (draw_page_cb), printing, printing_free, G_CONNECT_SWAPPED);
  if (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, &error) == GTK_PRINT_OPERATION_RESULT_ERROR)
    odd_toast (adw_application_window_get_content (ADW_APPLICATION_WINDOW (parent)), error->message, NULL, NULL);
}
