/* The work ticket: the sheets that go to the sewing table. Page by page on any cairo context, or as a PDF; no display needed, and any thread
 * will do. Which of its parts are wanted is said by OddTicketOptions. Black on white: everything can be told without colour. */
#pragma once

#include <cairo.h>
#include "paper/options.h"

G_BEGIN_DECLS

typedef enum { ODD_PAPER_A4, ODD_PAPER_LETTER } OddPaper;
/* "a4", "letter" */
gboolean odd_paper_from_nick (const char *nick, OddPaper *out);
void odd_paper_get_size (OddPaper paper, double *out_width_mm, double *out_height_mm);

typedef struct _OddTicket OddTicket;

/* Of the job as it is now. @title: the job's, at the head of each page; @unit: in which it is read; @options: (nullable): as first offered.
 * (transfer full) */
OddTicket *odd_ticket_new (OddJob *job, const char *title, OddPaper paper, OddUnit unit, const OddTicketOptions *options);
/* For any upright paper of at least 190 x 250 mm. */
OddTicket *odd_ticket_new_for_size (OddJob *job, const char *title, double width_mm, double height_mm, OddUnit unit, const OddTicketOptions *options);
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
