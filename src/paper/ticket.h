/* The work ticket: the sheets that go to the sewing table. Page by page on any cairo context, or as a PDF; no display needed.
 *
 * A cover for each textile (size, what is left to do, a square to test the printer with, cautions), a page for each panel with its patches
 * numbered, the cut list, and the seam list with boxes to tick. Black on white: everything can be told without colour. */
#pragma once

#include <cairo.h>
#include "cloth/job.h"
#include "cloth/length.h"

G_BEGIN_DECLS

typedef enum { ODD_PAPER_A4, ODD_PAPER_LETTER } OddPaper;
/* "a4", "letter" */
gboolean odd_paper_from_nick (const char *nick, OddPaper *out);
void odd_paper_get_size (OddPaper paper, double *out_width_mm, double *out_height_mm);

typedef struct _OddTicket OddTicket;

/* Of the job as it is now. @title: the job's, at the head of each page; @unit: in which it is read. (transfer full) */
OddTicket *odd_ticket_new (OddJob *job, const char *title, OddPaper paper, OddUnit unit);
/* For any upright paper of at least 190 x 250 mm. */
OddTicket *odd_ticket_new_for_size (OddJob *job, const char *title, double width_mm, double height_mm, OddUnit unit);
void odd_ticket_free (OddTicket *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddTicket, odd_ticket_free)

guint odd_ticket_get_n_pages (const OddTicket *self);
/* @cr: one unit is 1 mm, 0,0 is the paper's top left corner, margins included. @page: from 0. */
void odd_ticket_draw_page (OddTicket *self, cairo_t *cr, guint page);

/*
 * odd_ticket_write_pdf:
 * @path: replaced at once when the PDF is whole, else left as it was
 *
 * The same ticket is the same bytes: the PDF says that it was made on 1 January 1980, or at SOURCE_DATE_EPOCH where that is set.
 *
 * Returns: %TRUE when it is on the disk
 */
gboolean odd_ticket_write_pdf (OddTicket *self, const char *path, GError **error);

G_END_DECLS
