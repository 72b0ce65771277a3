/*
 * What lies where on the sewing table: the panels of a textile (and loose ones), apart or joined. Knows no widget.
 *
 *   apart:   +-----+ gap +----+ gap +------+     The gap is in px whatever the zoom, so places on the table
 *            |  0  |     |  1 |     | loose|     are asked for with the zoom. Raw top edges lie on y = 0.
 *            +-----+     +----+     |      |
 *                                   +------+     joined: the textile's frame, no gaps.
 *
 * Immutable; made anew after each edit, which costs nothing as layouts are cached. On the wrong side everything is
 * seen mirrored, the first panel on the right.
 */
#pragma once

#include "cloth/layout.h"
#include "ui/selection.h"
#include "ui/viewport.h"

G_BEGIN_DECLS

#define ODD_PANEL_GAP_PX 21.0
#define ODD_PANEL_TITLE_PX 30.0       /* above the raw top edge; takes a hit too */
#define ODD_NEW_PANEL_PX 92.0         /* kept free at the right for a new panel */

typedef struct
{
  OddId panel_id;
  OddId textile_id;                   /* 0: loose */
  guint index;                        /* in its textile */
  OddLayout *layout;                  /* apart: that of the panel apart, whose raw edges no neighbour trims */
  OddPoint hung_at_mm;                /* where the origin of odd_job_dup_layout()'s frame, in which places are told, lies in that of @layout */
  OddPoint at_mm;                     /* top left of its raw box, gaps left out */
  guint n_gaps;                       /* to its left */
} OddTableItem;

typedef struct _OddTable OddTable;
struct _OddTable                      /* read only */
{
  OddJob *job;
  OddId textile_id;                   /* that on the table; 0: none */
  OddTextileLayout *textile;          /* or NULL */
  gboolean joined, wrong_side;
  OddTableItem *items; guint n_items; /* from left to right */
};

/* @textile_id: 0, or one that is not there: the job's first. */
OddTable *odd_table_new (OddJob *job, OddId textile_id, gboolean joined, gboolean wrong_side);
OddTable *odd_table_ref (OddTable *self);
void odd_table_unref (OddTable *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddTable, odd_table_unref)

/* All raw cloth (joined: and the target), mm; the gaps in px are told apart. Empty when there is nothing. */
OddBox odd_table_get_box (OddTable *self, double *out_gaps_px);
/* Where a new panel's raw top left would lie, in px. */
OddPoint odd_table_get_new_panel_px (OddTable *self, OddViewport *viewport);

/* Between a panel's layout frame and the canvas. */
OddPoint odd_table_to_px (OddTable *self, OddViewport *viewport, guint item, OddPoint p_mm);
OddPoint odd_table_to_mm (OddTable *self, OddViewport *viewport, guint item, OddPoint px);
OddBox odd_table_get_raw_px (OddTable *self, OddViewport *viewport, guint item);
/* Zooms so that the cloth under @px stays there though gaps do not grow. */
void odd_table_zoom_at (OddTable *self, OddViewport *viewport, OddPoint px, double zoom);

int odd_table_find_panel (OddTable *self, OddId panel_id);               /* item, or -1 */

typedef struct
{
  OddSelected kind;
  OddId id;
  guint item;                         /* kind is not nothing */
  gboolean on_title;
} OddHit;
/* What lies under a point; seams take a hit within @reach_px, less in small patches. */
OddHit odd_table_hit (OddTable *self, OddViewport *viewport, OddPoint px, double reach_px);

/* Outline of a patch, or a panel's raw outline, or a seam's two ends (joins too), in px; NULL when not on the table. (transfer full) (element-type OddPoint) */
GArray *odd_table_get_outline_px (OddTable *self, OddViewport *viewport, OddSelected kind, OddId id);
/* The patch next to what is selected in a direction (dx, dy each -1, 0 or 1); 0: none. */
OddId odd_table_get_neighbour (OddTable *self, OddViewport *viewport, OddSelected kind, OddId id, int dx, int dy);
/* The seam @step further round a patch, or along its panel's seams for a seam; 0: none. */
OddId odd_table_get_next_seam (OddTable *self, OddSelected kind, OddId id, int step);
/* The patch or seam in its layout; NULL when not on the table. @out_item may be NULL. */
const OddPatch *odd_table_find_patch (OddTable *self, OddId leaf_id, guint *out_item);
const OddLaidSeam *odd_table_find_seam (OddTable *self, OddId seam_id, guint *out_item);

G_END_DECLS
