#include "config.h"

#include "paper/ticket-private.h"

#include <cairo-pdf.h>
#include <glib/gi18n.h>
#include "store/save.h"

#define HEADER_MM 10.0            /* top of the line of type above each page */

gboolean
odd_paper_from_nick (const char *nick, OddPaper *out)
{
  if (g_str_equal (nick, "a4"))
    *out = ODD_PAPER_A4;
  else if (g_str_equal (nick, "letter"))
    *out = ODD_PAPER_LETTER;
  else
    return FALSE;
  return TRUE;
}

/* ISO 216; 8 1/2 x 11 in. */
void
odd_paper_get_size (OddPaper paper, double *out_width_mm, double *out_height_mm)
{
  *out_width_mm = paper == ODD_PAPER_A4 ? 210.0 : 215.9;
  *out_height_mm = paper == ODD_PAPER_A4 ? 297.0 : 279.4;
}

/* --- pages and lines --- */

static void
line_free (gpointer data)
{
  OddLine *line = data;

  g_free (line->text);
  g_clear_pointer (&line->layout, odd_layout_unref);
  g_clear_pointer (&line->textile, odd_textile_layout_unref);
  if (line->free_data != NULL)
    line->free_data (line->data);
  g_free (line);
}

static void
page_free (gpointer data)
{
  OddPage *page = data;

  g_free (page->heading);
  g_clear_pointer (&page->lines, g_ptr_array_unref);
  if (page->free_data != NULL)
    page->free_data (page->data);
  g_free (page);
}

OddPage *
odd_ticket_add_page (OddTicket *self, void (*draw) (OddTicket *, OddPen *, const OddPage *))
{
  OddPage *page = g_new0 (OddPage, 1);

  page->draw = draw;
  g_ptr_array_add (self->pages, page);
  return page;
}

OddLine *
odd_line_new (double height_mm, void (*draw) (OddTicket *, OddPen *, const OddLine *, OddBox))
{
  OddLine *line = g_new0 (OddLine, 1);

  line->draw = draw;
  line->height_mm = height_mm;
  return line;
}

static void
draw_heading (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  odd_pen_write (pen, odd_point (box.x, box.y + 2.0), box.width, ODD_TYPE_HEADING, line->text);
}

OddLine *
odd_line_new_heading (OddTicket *ticket, const char *text)
{
  OddLine *line = odd_line_new (9.0, draw_heading);

  line->text = g_strdup (text);
  line->with_next = TRUE;
  return line;
}

static void
draw_text (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box)
{
  odd_pen_write (pen, odd_point (box.x, box.y), box.width, ODD_TYPE_SMALL, line->text);
}

OddLine *
odd_line_new_text (double width_mm, const char *text)
{
  g_auto(OddPen) pen = { NULL, NULL };
  OddLine *line;

  odd_pen_init (&pen, NULL);
  line = odd_line_new (odd_pen_measure (&pen, width_mm, ODD_TYPE_SMALL, text) + 1.0, draw_text);
  line->text = g_strdup (text);
  line->with_next = TRUE;
  return line;
}

double
odd_ticket_column_width (const OddTicket *self, guint n_columns)
{
  return (self->width_mm - 2 * ODD_MARGIN_MM - ODD_GAP_MM * (n_columns - 1)) / n_columns;
}

static void
draw_lines (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM - 4.0), ticket->width_mm - 2 * ODD_MARGIN_MM, ODD_TYPE_HEADING, page->heading);
  for (guint i = 0; i < page->lines->len; i++)
    {
      const OddLine *line = page->lines->pdata[i];

      line->draw (ticket, pen, line, line->box);
    }
}

/* "Cut list", or "Cut list: Crumbs" where a list goes on in the middle of a part. */
static char *
dup_page_heading (const char *heading, const OddLine *first, const char *part)
{
  return first->draw == draw_heading || part == NULL ? g_strdup (heading) : g_strdup_printf ("%s: %s", heading, part);
}

/* How much must fit so that @i may stand here: itself and what it may not be parted from. */
static double
height_with_next (GPtrArray *lines, guint i)
{
  double height_mm = 0.0;

  for (; i < lines->len; i++)
    {
      const OddLine *line = lines->pdata[i];

      height_mm += line->height_mm;
      if (!line->with_next)
        break;
    }
  return height_mm;
}

void
odd_ticket_flow (OddTicket *self, const char *heading, GPtrArray *lines, guint n_columns)
{
  const double top_mm = ODD_HEAD_MM + 6.0, bottom_mm = self->height_mm - ODD_MARGIN_MM;
  const double width_mm = odd_ticket_column_width (self, n_columns);
  const char *part = NULL;
  OddPage *page = NULL;
  guint column = 0;
  double y = top_mm;

  for (guint i = 0; i < lines->len; i++)
    {
      OddLine *line = lines->pdata[i];

      if (page != NULL && y > top_mm && y + height_with_next (lines, i) > bottom_mm)
        {
          y = top_mm;
          column = (column + 1) % n_columns;
        }
      if (page == NULL || (y == top_mm && column == 0))
        {
          page = odd_ticket_add_page (self, draw_lines);
          page->heading = dup_page_heading (heading, line, part);
          page->lines = g_ptr_array_new_with_free_func (line_free);
        }
      line->box = (OddBox) { ODD_MARGIN_MM + column * (width_mm + ODD_GAP_MM), y, width_mm, line->height_mm };
      y += line->height_mm;
      part = line->draw == draw_heading ? line->text : part;
      g_ptr_array_add (page->lines, line);
    }
  g_ptr_array_unref (lines);
}

/* --- what the parts ask for --- */

void
odd_ticket_foreach_panel (OddTicket *self, OddPanelFunc func, gpointer data)
{
  for (guint t = 0; t < self->job->textiles->len; t++)
    {
      OddTextile *textile = self->job->textiles->pdata[t];
      g_autoptr(OddTextileLayout) laid = odd_job_dup_textile_layout (self->job, textile->id);

      for (guint i = 0; i < laid->n_panels; i++)
        func (self, textile->hung[i].panel, laid->panels[i].layout, laid, data);
    }
  for (guint i = 0; i < self->job->loose_panels->len; i++)
    {
      OddPanel *panel = self->job->loose_panels->pdata[i];
      g_autoptr(OddLayout) layout = odd_job_dup_layout (self->job, panel->id);

      func (self, panel, layout, NULL, data);
    }
}

double
odd_ticket_choose_scale (OddBox box, double width_mm, double height_mm)
{
  static const double scales[] = { 1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100 };

  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    if (box.width <= width_mm * scales[i] && box.height <= height_mm * scales[i])
      return scales[i];
  return 200;
}

void
odd_ticket_init_paint (OddPaintOptions *options, double scale)
{
  odd_paint_options_init (options);
  options->on_paper = TRUE;
  options->mark_px = 1.0;
  options->px_per_mm = 1.0 / (ODD_PAPER_PX_MM * scale);
  options->table_colour = 0xffffff;
}

/* --- the ticket --- */

static void (*const adders[ODD_N_TICKET_PARTS]) (OddTicket *) = {
  [ODD_TICKET_PART_COVER] = odd_ticket_add_covers,
  [ODD_TICKET_PART_PANELS] = odd_ticket_add_panels,
  [ODD_TICKET_PART_SCRAPS] = odd_ticket_add_scraps,
  [ODD_TICKET_PART_CUT_LIST] = odd_ticket_add_cut_list,
  [ODD_TICKET_PART_STOPS] = odd_ticket_add_stops,
  [ODD_TICKET_PART_FINISHING] = odd_ticket_add_finishing,
  [ODD_TICKET_PART_ENDS] = odd_ticket_add_ends,
  [ODD_TICKET_PART_TEMPLATES] = odd_ticket_add_templates,
  [ODD_TICKET_PART_STICKERS] = odd_ticket_add_stickers,
};

static void
draw_nothing (OddTicket *ticket, OddPen *pen, const OddPage *page)
{
  odd_pen_write (pen, odd_point (ODD_MARGIN_MM, ODD_HEAD_MM), ticket->width_mm - 2 * ODD_MARGIN_MM, ODD_TYPE_BODY,
                 _("There is nothing yet for the sheets that were chosen."));
}

OddTicket *
odd_ticket_new_for_size (OddJob *job, const char *title, double width_mm, double height_mm, OddUnit unit, const OddTicketOptions *options)
{
  OddTicket *self;

  g_return_val_if_fail (job != NULL && title != NULL && width_mm >= 190.0 && height_mm >= 250.0, NULL);

  self = g_new0 (OddTicket, 1);
  self->job = odd_job_ref (job);
  self->title = g_strdup (title);
  self->unit = unit;
  odd_ticket_options_init (&self->options);
  if (options != NULL)
    self->options = *options;
  self->options.pins = self->pins = g_memdup2 (self->options.pins, self->options.n_pins * sizeof (OddTaskKey));
  self->width_mm = width_mm;
  self->height_mm = height_mm;
  self->swatches = odd_swatches_new ();
  self->pages = g_ptr_array_new_with_free_func (page_free);
  for (guint i = 0; i < ODD_N_TICKET_PARTS; i++)
    if (self->options.parts & (1u << i))
      adders[i] (self);
  if (self->pages->len == 0)
    odd_ticket_add_page (self, draw_nothing);
  return self;
}

OddTicket *
odd_ticket_new (OddJob *job, const char *title, OddPaper paper, OddUnit unit, const OddTicketOptions *options)
{
  double width_mm, height_mm;

  odd_paper_get_size (paper, &width_mm, &height_mm);
  return odd_ticket_new_for_size (job, title, width_mm, height_mm, unit, options);
}

void
odd_ticket_free (OddTicket *self)
{
  odd_job_unref (self->job);
  odd_swatches_unref (self->swatches);
  g_ptr_array_unref (self->pages);
  g_clear_pointer (&self->templates, g_ptr_array_unref);
  g_free (self->pins);
  g_free (self->title);
  g_free (self);
}

guint
odd_ticket_get_n_pages (const OddTicket *self)
{
  return self->pages->len;
}

static void
draw_header (OddTicket *self, OddPen *pen, guint page)
{
  const double width_mm = self->width_mm - 2 * ODD_MARGIN_MM;
  const OddPoint at = odd_point (ODD_MARGIN_MM, HEADER_MM);
  const OddType left = { 8.0, TRUE, PANGO_ALIGN_LEFT, TRUE }, right = { 8.0, FALSE, PANGO_ALIGN_RIGHT, TRUE };
  g_autofree char *number = g_strdup_printf (_("Page %u of %u"), page + 1, self->pages->len);

  odd_pen_write (pen, at, width_mm - 40.0, left, self->title);
  odd_pen_write (pen, odd_point (at.x + width_mm - 40.0, at.y), 40.0, right, number);
  odd_pen_line (pen, odd_point (at.x, at.y + 4.6), odd_point (at.x + width_mm, at.y + 4.6), ODD_LINE_MM);
}

void
odd_ticket_draw_page (OddTicket *self, cairo_t *cr, guint page)
{
  const OddPage *what;
  g_auto(OddPen) pen = { NULL, NULL };

  g_return_if_fail (self != NULL && cr != NULL && page < self->pages->len);

  odd_pen_init (&pen, cr);
  cairo_save (cr);
  draw_header (self, &pen, page);
  what = self->pages->pdata[page];
  what->draw (self, &pen, what);
  cairo_restore (cr);
}

/* --- PDF --- */

static cairo_status_t
append_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* A ZIP's earliest time, as in our job files; or what whoever builds reproducibly asks for. */
static char *
dup_date (void)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds;
  g_autoptr(GDateTime) time = NULL;

  if (epoch != NULL && g_ascii_string_to_signed (epoch, 10, 0, G_MAXINT32, &seconds, NULL))
    time = g_date_time_new_from_unix_utc (seconds);
  return time != NULL ? g_date_time_format (time, "%Y-%m-%dT%H:%M:%SZ") : g_strdup ("1980-01-01T00:00:00Z");
}

static cairo_status_t
draw_pdf (OddTicket *self, GByteArray *out)
{
  const double points_per_mm = 72.0 / 25.4;
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_cb, out, self->width_mm * points_per_mm, self->height_mm * points_per_mm);
  cairo_t *cr = cairo_create (surface);
  g_autofree char *date = dup_date ();
  cairo_status_t status;

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, self->title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Oddment");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
  cairo_scale (cr, points_per_mm, points_per_mm);
  for (guint i = 0; i < self->pages->len; i++)
    {
      odd_ticket_draw_page (self, cr, i);
      cairo_show_page (cr);
    }
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return status;
}

gboolean
odd_ticket_write_pdf (OddTicket *self, const char *path, GError **error)
{
  g_autoptr(GByteArray) data = g_byte_array_new ();
  g_autoptr(GBytes) bytes = NULL;
  cairo_status_t status;

  g_return_val_if_fail (self != NULL && path != NULL, FALSE);

  status = draw_pdf (self, data);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _("The ticket “%s” cannot be drawn: %s. Close other programs and try again."), path,
                   cairo_status_to_string (status));
      return FALSE;
    }
  bytes = g_byte_array_free_to_bytes (g_steal_pointer (&data));
  return odd_store_save_bytes (bytes, path, error);
}
