/* What is wanted of a work ticket. */
#pragma once

#include "cloth/length.h"
#include "sewing/plan.h"

G_BEGIN_DECLS

/* In the order in which they lie in the ticket. */
typedef enum
{
  ODD_TICKET_PART_COVER,       /* each textile: picture, sizes, totals; on the first a square to test the printer with, and cautions */
  ODD_TICKET_PART_PANELS,      /* each panel from its right side and its wrong side, with patch numbers and measures */
  ODD_TICKET_PART_SCRAPS,      /* the cutting plan of each scrap that is used */
  ODD_TICKET_PART_CUT_LIST,    /* every cut shape, panel by panel */
  ODD_TICKET_PART_STOPS,       /* the order of work with boxes to tick */
  ODD_TICKET_PART_FINISHING    /* what finish each seam gets, and what is left, by station */
} OddTicketPart;
#define ODD_N_TICKET_PARTS 6
const char *odd_ticket_part_get_nick (OddTicketPart part);       /* "cover", "panels", "scraps", "cut-list", "stops", "finishing" */
const char *odd_ticket_part_get_name (OddTicketPart part);       /* translated: "Cutting plans of the scraps" */

typedef struct
{
  guint parts;                 /* 1 << OddTicketPart */
  OddManner manner;            /* of the stops */
} OddTicketOptions;
/* All parts but the cut list, whose measures stand in the cutting plans too; chain piecing. */
void odd_ticket_options_init (OddTicketOptions *self);

/*
 * odd_ticket_parts_from_text:
 * @text: nicks of parts with commas between them, "all", or "usual": as first offered
 * @out_parts: (out): left alone on error
 *
 * Returns: %FALSE with %G_IO_ERROR_INVALID_ARGUMENT, which names the word that is not known and those that are
 */
gboolean odd_ticket_parts_from_text (const char *text, guint *out_parts, GError **error);

G_END_DECLS
