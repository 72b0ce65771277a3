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
/* GTK asks again and again whether the pages are counted. */
#define WAIT_US 5000

typedef struct
{
  OddJob *job;
  char *title;
  int unit;
  OddTicketOptions options;
  OddTaskKey *pins;            /* those of the options */
  double width_mm, height_mm;  /* known when printing begins */
  OddTicket *ticket;           /* NULL until the worker has laid it out */
} Printing;

static void
printing_clear (gpointer data)
{
  Printing *printing = data;

  g_clear_pointer (&printing->ticket, odd_ticket_free);
  odd_job_unref (printing->job);
  g_free (printing->title);
  g_free (printing->pins);
}

static void
printing_unref (gpointer data)
{
  g_atomic_rc_box_release_full (data, printing_clear);
}

static void
release_cb (gpointer  data,
            GClosure *closure)
{
  printing_unref (data);
}

static void
lay_out_cb (GTask        *task,
            gpointer      source,
            gpointer      data,
            GCancellable *cancellable)
{
  const Printing *printing = data;

  g_task_return_pointer (task, odd_ticket_new_for_size (printing->job, printing->title, printing->width_mm, printing->height_mm, printing->unit, &printing->options),
                         (GDestroyNotify) odd_ticket_free);
}

static void
laid_out_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  Printing *printing = g_task_get_task_data (G_TASK (result));

  g_clear_pointer (&printing->ticket, odd_ticket_free);
  printing->ticket = g_task_propagate_pointer (G_TASK (result), NULL);
}

static void
begin_cb (Printing        *printing,
          GtkPrintContext *context)
{
  g_autoptr(GTask) task = g_task_new (NULL, NULL, laid_out_cb, NULL);

  printing->width_mm = MAX (gtk_print_context_get_width (context), MIN_WIDTH_MM);
  printing->height_mm = MAX (gtk_print_context_get_height (context), MIN_HEIGHT_MM);
  g_clear_pointer (&printing->ticket, odd_ticket_free);
  g_task_set_task_data (task, g_atomic_rc_box_acquire (printing), printing_unref);
  g_task_run_in_thread (task, lay_out_cb);
}

static gboolean
paginate_cb (Printing          *printing,
             GtkPrintContext   *context,
             GtkPrintOperation *operation)
{
  if (printing->ticket == NULL)
    {
      g_usleep (WAIT_US);
      return FALSE;
    }
  gtk_print_operation_set_n_pages (operation, odd_ticket_get_n_pages (printing->ticket));
  return TRUE;
}

static void
draw_page_cb (Printing        *printing,
              GtkPrintContext *context,
              int              page)
{
  odd_ticket_draw_page (printing->ticket, gtk_print_context_get_cairo_context (context), page);
}

void
odd_print_run (GtkWindow              *parent,
               OddJob                 *job,
               const char             *title,
               int                     unit,
               const OddTicketOptions *options)
{
  g_autoptr(GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr(GError) error = NULL;
  Printing *printing = g_atomic_rc_box_new0 (Printing);

  printing->job = odd_job_ref (job);
  printing->title = g_strdup (title);
  printing->unit = unit;
  printing->options = *options;
  printing->options.pins = printing->pins = g_memdup2 (options->pins, options->n_pins * sizeof (OddTaskKey));
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_use_full_page (operation, TRUE); /* the ticket has margins of its own */
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_show_progress (operation, TRUE);
  g_signal_connect_swapped (operation, "begin-print", G_CALLBACK (begin_cb), printing);
  g_signal_connect_swapped (operation, "paginate", G_CALLBACK (paginate_cb), printing);
  g_signal_connect_data (operation, "draw-page", G_CALLBACK (draw_page_cb), printing, release_cb, G_CONNECT_SWAPPED);
  if (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, &error) == GTK_PRINT_OPERATION_RESULT_ERROR)
    odd_toast (adw_application_window_get_content (ADW_APPLICATION_WINDOW (parent)), error->message, NULL, NULL);
}
