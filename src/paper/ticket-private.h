/* What the parts of a ticket share. */
#pragma once

#include "drawing/painter.h"
#include "paper/pen.h"
#include "paper/ticket.h"

G_BEGIN_DECLS

#define ODD_MARGIN_MM 15.0
#define ODD_HEAD_MM 24.0          /* where what is on a page begins */
#define ODD_GAP_MM 6.0            /* between columns */
#define ODD_PAPER_PX_MM 0.25      /* one px of a mark on paper */

typedef struct _OddPage OddPage;

struct _OddTicket
{
  OddJob *job;
  char *title;
  OddUnit unit;
  OddTicketOptions options;
  OddTaskKey *pins;               /* those of the options */
  double width_mm, height_mm;
  OddSwatches *swatches;
  GPtrArray *templates;           /* (element-type OddTemplate) or NULL: not asked for */
  GPtrArray *pages;               /* (element-type OddPage) */
};

/* A line of a list that flows over columns and pages. */
typedef struct _OddLine OddLine;
struct _OddLine
{
  void (*draw) (OddTicket *ticket, OddPen *pen, const OddLine *line, OddBox box);
  double height_mm;
  gboolean with_next;             /* never the last in a column */
  char *text;                     /* or NULL */
  OddLayout *layout;              /* or NULL */
  OddTextileLayout *textile;      /* or NULL */
  guint index;                    /* of the patch, seam or join */
  gpointer data;                  /* or NULL: what this kind of line needs besides */
  GDestroyNotify free_data;       /* or NULL: it is lent */
  OddBox box;                     /* where it came to stand */
};
OddLine *odd_line_new (double height_mm, void (*draw) (OddTicket *, OddPen *, const OddLine *, OddBox));
OddLine *odd_line_new_heading (OddTicket *ticket, const char *text);
/* Running text over the width of a column. */
OddLine *odd_line_new_text (double width_mm, const char *text);

struct _OddPage
{
  void (*draw) (OddTicket *ticket, OddPen *pen, const OddPage *page);
  OddId textile_id, panel_id;     /* 0 where it does not apply */
  char *heading;                  /* or NULL */
  GPtrArray *lines;               /* (element-type OddLine) or NULL */
  gpointer data;                  /* or NULL: what this kind of page needs besides */
  GDestroyNotify free_data;       /* or NULL: it is lent */
};
/* Added last; lent. */
OddPage *odd_ticket_add_page (OddTicket *self, void (*draw) (OddTicket *, OddPen *, const OddPage *));
/* As many pages as the lines need; takes them. (element-type OddLine) */
void odd_ticket_flow (OddTicket *self, const char *heading, GPtrArray *lines, guint n_columns);
double odd_ticket_column_width (const OddTicket *self, guint n_columns);

/* Each adds its pages. */
void odd_ticket_add_covers (OddTicket *self);
void odd_ticket_add_panels (OddTicket *self);
void odd_ticket_add_scraps (OddTicket *self);
void odd_ticket_add_stops (OddTicket *self);
void odd_ticket_add_finishing (OddTicket *self);
void odd_ticket_add_cut_list (OddTicket *self);
void odd_ticket_add_ends (OddTicket *self);
void odd_ticket_add_templates (OddTicket *self);
void odd_ticket_add_stickers (OddTicket *self);

/* Calls for each panel: those that hang, with their textile's layout, then the loose ones. */
typedef void (*OddPanelFunc) (OddTicket *ticket, OddPanel *panel, OddLayout *layout, OddTextileLayout *textile, gpointer data);
void odd_ticket_foreach_panel (OddTicket *self, OddPanelFunc func, gpointer data);

/* The least reduction out of a list of round ones at which the box fits: 5 means 1 : 5. */
double odd_ticket_choose_scale (OddBox box, double width_mm, double height_mm);
void odd_ticket_init_paint (OddPaintOptions *options, double scale);

/* Its outer edges are exactly so far apart. */
#define ODD_TEST_SQUARE_MM 50.0
void odd_ticket_draw_test_square (OddPen *pen, OddPoint at);

/* Width and length; or the sides clockwise from the first corner, the dot, and how far the corners between lie from it, which fixes the shape. (transfer full) */
char *odd_cut_shape_describe (const OddConvex *cut, OddUnit unit);
gboolean odd_cut_shape_is_rectangle (const OddConvex *cut);

G_END_DECLS
