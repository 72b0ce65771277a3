/* One page a textile, as large as the paper allows: the picture with the size below it. */
#include "config.h"

#include "ui/print.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/length.h"
#include "drawing/painter.h"
#include "ui/thumbnails.h"
#include "ui/toast.h"

#define MARGIN_MM 6.0
#define HEAD_MM 14.0

typedef struct
{
  OddJob *job;
  char *title;
  int unit;
} Ticket;

static void
ticket_free (Ticket *ticket)
{
  odd_job_unref (ticket->job);
  g_free (ticket->title);
  g_free (ticket);
}

static void
head (cairo_t         *cr,
      GtkPrintContext *context,
      const char      *text)
{
  g_autoptr(PangoLayout) layout = gtk_print_context_create_pango_layout (context);
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell 11");

  pango_font_description_set_absolute_size (font, 4.2 * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  cairo_move_to (cr, MARGIN_MM, MARGIN_MM);
  pango_cairo_show_layout (cr, layout);
  pango_font_description_free (font);
}

static void
draw_page_cb (GtkPrintOperation *operation,
              GtkPrintContext   *context,
              int                page,
              Ticket            *ticket)
{
  cairo_t *cr = gtk_print_context_get_cairo_context (context);
  const double width = gtk_print_context_get_width (context) - 2.0 * MARGIN_MM;
  const double height = gtk_print_context_get_height (context) - 2.0 * MARGIN_MM - HEAD_MM;
  OddTextile *textile = g_ptr_array_index (ticket->job->textiles, page);
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (ticket->job, textile->id);
  g_autofree char *name = odd_job_dup_textile_name (ticket->job, textile);
  g_autofree char *size = odd_length_format_pair (layout->finished_width_mm, layout->finished_length_mm, ticket->unit);
  g_autofree char *text = g_strdup_printf ("%s: %s, %s", ticket->title, name, size);
  const double scale = MIN (width / MAX (layout->raw_width_mm, 1.0), height / MAX (layout->raw_length_mm, 1.0));
  OddPaintOptions options;

  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  head (cr, context, text);
  if (layout->n_panels == 0)
    return;
  odd_paint_options_init (&options);
  options.on_paper = TRUE;
  options.px_per_mm = scale / 0.25;
  options.mark_px = 0.25;
  options.numbers = TRUE;
  cairo_translate (cr, MARGIN_MM + (layout->raw_width_mm - layout->finished_width_mm) / 2.0 * scale,
                   MARGIN_MM + HEAD_MM + (layout->raw_length_mm - layout->finished_length_mm) / 2.0 * scale);
  cairo_scale (cr, scale, scale);
  odd_paint_textile (cr, odd_swatches_get_shared (), ticket->job, layout, &options);
}

static void
begin_cb (GtkPrintOperation *operation,
          GtkPrintContext   *context,
          Ticket            *ticket)
{
  gtk_print_operation_set_n_pages (operation, MAX (1, (int) ticket->job->textiles->len));
}

void
odd_print_run (GtkWindow  *parent,
               OddJob     *job,
               const char *title,
               int         unit)
{
  g_autoptr(GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr(GError) error = NULL;
  Ticket *ticket = g_new0 (Ticket, 1);

  ticket->job = odd_job_ref (job);
  ticket->title = g_strdup (title);
  ticket->unit = unit;
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_object_set_data_full (G_OBJECT (operation), "ticket", ticket, (GDestroyNotify) ticket_free);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_cb), ticket);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), ticket);
  if (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, &error) == GTK_PRINT_OPERATION_RESULT_ERROR)
    odd_toast (adw_application_window_get_content (ADW_APPLICATION_WINDOW (parent)), error->message, NULL, NULL);
}
