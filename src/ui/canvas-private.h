/* What the files of the canvas share: canvas.c (the widget), canvas-view.c (what is seen), canvas-card.c (figures), canvas-input.c. */
#pragma once

#include "sewing/unfinished.h"
#include "ui/bulk-map.h"
#include "ui/canvas-input.h"
#include "ui/canvas.h"
#include "ui/tiles.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define NARROW_PX 480                 /* a narrower canvas has no rulers, and the figures of a place as a strip */

struct _OddCanvas
{
  GtkWidget parent_instance;
  OddScene scene;
  OddId textile_id;
  gboolean joined;
  OddTiles *tiles;
  GHashTable *sheets;                 /* id -> itself: those that the tiles hold */
  OddTool *select_tool, *change_tool, *hand_tool;
  OddCanvasInput *input;
  GtkWidget *card;
  AdwAnimation *glide;                /* to a fitted view */
  double glide_zoom[2];
  OddPoint glide_mm, glide_px[2];
  gboolean fitted;                    /* stays fitted when the window's size changes */
  gboolean fit_wanted;                /* as soon as there is a size */
  guint rest_source;
  gboolean resting;
  guint tick;
  OddId told_in_hand;                 /* what was last notified */
  double told_zoom;
  GArray *work;                       /* OddWorkMark */
  gboolean bulk;                      /* crossings are shown */
  OddBulkMap *bulk_map;
  OddUnfinishedKind unfinished;       /* all else is dimmed */
  gboolean reveal_hand;               /* the place by key may lie outside the view */
};

gboolean odd_canvas_is_in_hand (OddCanvas *self);

/* canvas-view.c */
void odd_canvas_init_view (OddCanvas *self);
gboolean odd_canvas_has_rulers (OddCanvas *self);
double odd_canvas_get_level (OddCanvas *self);                  /* px per mm at which cloth is to be drawn now */
void odd_canvas_reveal_box (OddCanvas *self, OddBox box_px);    /* moves the table until the box is seen */

/* canvas-card.c */
void odd_canvas_update_card (OddCanvas *self);
void odd_canvas_allocate_card (OddCanvas *self, int width, int height);

G_END_DECLS
