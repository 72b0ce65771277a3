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
  ODD_TICKET_PART_FINISHING,   /* what finish each seam gets, and what is left, by station */
  ODD_TICKET_PART_ENDS,        /* seam ends to secure, with their places */
  ODD_TICKET_PART_TEMPLATES,   /* cut shapes in true size; what is larger than the paper goes over several sheets */
  ODD_TICKET_PART_STICKERS     /* for the scraps that lie in the tub */
} OddTicketPart;
#define ODD_N_TICKET_PARTS 9
/* "cover", "panels", "scraps", "cut-list", "stops", "finishing", "ends", "templates", "stickers" */
const char *odd_ticket_part_get_nick (OddTicketPart part);
const char *odd_ticket_part_get_name (OddTicketPart part);       /* translated: "Cutting plans of the scraps" */

/* Nobody wants a hundred templates of a hundred crumbs: each of those has its measures in a cutting plan. */
typedef enum
{
  ODD_TEMPLATES_SHARED,        /* cut shapes that two patches or more have */
  ODD_TEMPLATES_RECTANGLES,    /* and one of each size of square and rectangle */
  ODD_TEMPLATES_ALL            /* every cut shape */
} OddTemplateChoice;
#define ODD_N_TEMPLATE_CHOICES 3
const char *odd_template_choice_get_nick (OddTemplateChoice choice);      /* "shared", "rectangles", "all" */
gboolean odd_template_choice_from_nick (const char *nick, OddTemplateChoice *out);
const char *odd_template_choice_get_name (OddTemplateChoice choice);      /* translated: "Shapes that two patches share" */

/* 60, 36 or 18 to a sheet. */
typedef enum { ODD_STICKERS_SMALL, ODD_STICKERS_MIDDLE, ODD_STICKERS_LARGE } OddStickerSize;
#define ODD_N_STICKER_SIZES 3
const char *odd_sticker_size_get_nick (OddStickerSize size);              /* "small", "middle", "large" */
gboolean odd_sticker_size_from_nick (const char *nick, OddStickerSize *out);
const char *odd_sticker_size_get_name (OddStickerSize size);              /* translated: "Small, 60 to a sheet" */

typedef struct
{
  guint parts;                 /* 1 << OddTicketPart */
  OddManner manner;            /* of the stops */
  const OddTaskKey *pins; guint n_pins;      /* (nullable): tasks she wants first, in this order; lent, a ticket takes a copy */
  OddTemplateChoice templates;
  OddStickerSize stickers;
} OddTicketOptions;
/* All parts but the stickers and the cut list, whose measures stand in the cutting plans too; chain piecing; templates of shared shapes; small stickers. */
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
