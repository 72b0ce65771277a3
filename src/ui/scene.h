/* What the canvas lends to its tools and layers: where things lie and how they are to look. Owned by the canvas. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/length.h"
#include "drawing/painter.h"
#include "ui/held.h"
#include "ui/openings.h"

G_BEGIN_DECLS

typedef struct _OddScene OddScene;
struct _OddScene
{
  GtkWidget *widget;            /* the canvas */
  OddDocument *document;        /* or NULL */
  OddSelection *selection;      /* or NULL */
  OddHeld *hand;                /* or NULL */
  OddViewport *viewport;
  OddTable *table;              /* or NULL */
  OddSwatches *swatches;
  OddUnit unit;
  OddShow show;
  GdkRGBA table_colour, accent, text, dim;     /* off the cloth: they follow the theme */
  GdkRGBA mark;                 /* the accent on cloth, which never changes with the theme */
  gboolean high_contrast;
  double text_scale;            /* 1 at the usual text size; marks grow with it */
  gboolean touch;               /* the last pointer was a finger */
  void (*announce) (OddScene *scene, const char *text);
};

/* Options for the painters of drawing/, for a picture of this many device px per mm. */
void odd_scene_init_options (const OddScene *scene, double device_px_per_mm, int scale_factor, OddPaintOptions *options);
guint32 odd_rgba_to_rgb (const GdkRGBA *rgba);                 /* 0xRRGGBB */
/* Reach of a seam: 12 px, for a finger 22 px. */
double odd_scene_get_reach (const OddScene *scene);

/* Outlines over the cloth, drawn per frame: a path in px, stroked in cairo into one node as large as the path. */
void odd_snapshot_path (GtkSnapshot *snapshot, GArray *points, gboolean closed, const GdkRGBA *colour, double width_px, const double *dash, int n_dash);

G_END_DECLS
