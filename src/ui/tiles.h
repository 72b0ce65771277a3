/*
 * Cloth as tiles: pictures of 256 x 256 device px, drawn by worker threads, kept as long as the byte limit allows.
 *
 * What is shown is a number of sheets (a panel, a joined textile). A sheet is an immutable content and the box that it
 * fills in its own millimetres:
 *
 *        pad  box_mm at this level
 *       +----+----------------+        level: device px per mm. Tiles of many levels live side by side; the one asked
 *       |0,0 |1,0   |2,0      |        for is drawn by the workers, and until it is there the nearest that is lies in its
 *       |    +------+---------+        place, scaled. One overview of the whole sheet (at most 1024 px) is always kept.
 *       |0,1 |1,1   |2,1      |
 *
 * Nothing is ever drawn inside odd_tiles_snapshot(). When a sheet gets a new content, tiles that meet the damage are stale: they stay
 * on screen until their successor is there, and what the workers still bring of the old content is dropped.
 *
 * The painter runs in several threads at once: contents must not change and their functions must be safe for threads.
 */
#pragma once

#include <gtk/gtk.h>
#include "geometry/point.h"

G_BEGIN_DECLS

#define ODD_TILE_PX 256
#define ODD_OVERVIEW_PX 1024
/* px round each sheet, so that marks and shadows on its rim are not cut off; under half of the gap between panels. */
#define ODD_TILE_PAD_PX 10

typedef struct
{
  /* @cr maps the sheet's millimetres to the device; @clip_mm is the part that is looked at. */
  void (*paint) (cairo_t *cr, gpointer content, double device_px_per_mm, int scale_factor, OddBox clip_mm);
  gpointer (*ref) (gpointer content);
  void (*unref) (gpointer content);
} OddTileContent;

#define ODD_TYPE_TILES (odd_tiles_get_type ())
G_DECLARE_FINAL_TYPE (OddTiles, odd_tiles, ODD, TILES, GObject)

/* Signal: ready: new tiles are there, draw again. @functions must outlive the object. */
OddTiles *odd_tiles_new (const OddTileContent *functions, guint n_threads);

/* @content: referenced. @damage_mm: (array length=n_damage): what changed since the last content; %NULL: all of it. A box that
 * begins elsewhere than before is damaged whole. */
void odd_tiles_set_sheet (OddTiles *self, guint id, gpointer content, OddBox box_mm, const OddBox *damage_mm, guint n_damage);
void odd_tiles_remove_sheet (OddTiles *self, guint id);
gpointer odd_tiles_get_content (OddTiles *self, guint id);          /* (transfer none) (nullable) */
void odd_tiles_set_limit (OddTiles *self, gsize bytes);             /* at least what one frame needs is kept all the same */

/*
 * odd_tiles_snapshot:
 * @at_px: where the origin of the sheet's millimetres lies in the widget
 * @zoom: px per mm
 * @level: device px per mm that is wanted: @zoom * @scale_factor at rest, a half octave while the zoom moves
 * @visible_px: the part of the widget that is seen
 *
 * Lays down what there is and asks the workers for what is missing.
 * Returns: %TRUE when everything visible is there at @level
 */
gboolean odd_tiles_snapshot (OddTiles *self, GtkSnapshot *snapshot, guint id, OddPoint at_px, double zoom, double level, int scale_factor, OddBox visible_px);
/* After the last sheet of a frame: what this frame did not ask for any more is taken from the workers' list. */
void odd_tiles_end_frame (OddTiles *self);

/* For tests and benchmarks. */
gsize odd_tiles_get_bytes (OddTiles *self);
guint odd_tiles_get_n_tiles (OddTiles *self);
guint odd_tiles_get_n_pending (OddTiles *self);
guint odd_tiles_get_n_painted (OddTiles *self);
guint odd_tiles_get_n_dropped (OddTiles *self);

G_END_DECLS
