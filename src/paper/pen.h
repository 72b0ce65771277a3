/* Words and lines on paper; millimetres, sizes of type in points. */
#pragma once

#include <pango/pangocairo.h>
#include "geometry/convex.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_t *cr;                 /* NULL: only measures */
  PangoLayout *layout;
} OddPen;

typedef struct
{
  double points;
  gboolean bold;
  PangoAlignment align;        /* inside the width */
  gboolean one_line;           /* cut short with an ellipsis; else it is broken into lines */
} OddType;

#define ODD_TYPE_TITLE ((OddType) { 21.0, TRUE, PANGO_ALIGN_LEFT, TRUE })
#define ODD_TYPE_HEADING ((OddType) { 12.0, TRUE, PANGO_ALIGN_LEFT, TRUE })
#define ODD_TYPE_BODY ((OddType) { 9.0, FALSE, PANGO_ALIGN_LEFT, FALSE })
#define ODD_TYPE_STRONG ((OddType) { 9.0, TRUE, PANGO_ALIGN_LEFT, TRUE })
#define ODD_TYPE_SMALL ((OddType) { 7.5, FALSE, PANGO_ALIGN_LEFT, FALSE })

#define ODD_LINE_MM 0.2

void odd_pen_init (OddPen *self, cairo_t *cr);
void odd_pen_clear (OddPen *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OddPen, odd_pen_clear)

/* Writes @text from its top left corner into a column of this width. Returns the height that it takes; mm. */
double odd_pen_write (OddPen *self, OddPoint at, double width_mm, OddType type, const char *text);
double odd_pen_measure (OddPen *self, double width_mm, OddType type, const char *text);
/* Its middle at @middle, on one line; @halo: white round the letters so that they stand out. */
void odd_pen_write_centred (OddPen *self, OddPoint middle, double points, gboolean bold, gboolean halo, const char *text);
/* The same upright, small and plain, on a white ground that breaks the line under it. */
void odd_pen_write_measure (OddPen *self, OddPoint middle, double points, const char *text);
/* Width of one line; mm. */
double odd_pen_get_width (OddPen *self, double points, gboolean bold, const char *text);

void odd_pen_line (OddPen *self, OddPoint from, OddPoint to, double width_mm);
void odd_pen_convex (OddPen *self, const OddConvex *convex, double width_mm);
/* A box to tick; ticked when it is done already, a dash in it when it is left out. */
void odd_pen_box (OddPen *self, OddPoint at, double side_mm, gboolean done, gboolean skipped);

G_END_DECLS
