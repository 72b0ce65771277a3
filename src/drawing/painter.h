/* One painter for screen tiles, pictures and paper. Everything is drawn in millimetres on a cairo context whose
 * matrix already maps millimetres to the device; marks keep their size in px whatever the zoom. */
#pragma once

#include <cairo.h>
#include "sewing/progress.h"

G_BEGIN_DECLS

typedef enum { ODD_SHOW_PATCHES, ODD_SHOW_SEAMS, ODD_SHOW_LIGHTNESS, ODD_SHOW_WRONG_SIDE } OddShow;
gboolean odd_show_from_nick (const char *nick, OddShow *out);

/* Swatches of prints and pictures, mip levels and weave made once and read by all threads; make one per job view, share it. */
typedef struct _OddSwatches OddSwatches;
OddSwatches *odd_swatches_new (void);
OddSwatches *odd_swatches_ref (OddSwatches *self);
void odd_swatches_unref (OddSwatches *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSwatches, odd_swatches_unref)

typedef struct
{
  OddShow show;
  double px_per_mm;            /* zoom: decides the level of detail */
  double mark_px;              /* length of one mark px in device units: 1 on screen, 2 at HiDPI 2 or text scale 2, 0.25 mm on paper */
  gboolean on_paper;           /* black marks without casing, no shadow, light hatching instead of colour fields */
  gboolean high_contrast;
  guint32 table_colour;        /* 0xRRGGBB: what lies behind the cloth */
  gboolean numbers;            /* patch numbers (else only over 120 px) */
  OddBox clip_mm;              /* only what meets this need be drawn, in the frame being painted; empty: all */
} OddPaintOptions;
void odd_paint_options_init (OddPaintOptions *options);

/* A panel as it hangs, in its layout's frame, with raw-edge bands, cloth, ditches, marks of its seams and ends. @textile: nullable, for joins' state at its edges. */
void odd_paint_panel (cairo_t *cr, OddSwatches *swatches, OddJob *job, const OddLayout *layout, OddTextileLayout *textile, const OddPaintOptions *options);
/* A textile joined: panels edge to edge, in the textile's frame. */
void odd_paint_textile (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddTextileLayout *textile, const OddPaintOptions *options);
/* A scrap in its own frame: cloth, zones, outline; used cut shapes hatched when @with_uses. */
void odd_paint_scrap (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, gboolean with_uses, const OddPaintOptions *options);
/* Only cloth, filling the current path's shape: @polygon in the current frame, the scrap placed by @placement. */
void odd_paint_cloth (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, const OddPlacement *placement, OddPolygon *polygon, const OddPaintOptions *options);

/* Marks: one seam's line with its stage, between two points in the current frame. Casings of all first, then ink: collect, then stroke. */
typedef struct _OddMarks OddMarks;
OddMarks *odd_marks_new (const OddPaintOptions *options);
void odd_marks_free (OddMarks *self);
void odd_marks_add_seam (OddMarks *self, OddSegment line, OddStage stage, OddPressed pressed, const OddFinish *finish, gboolean raw_inside, OddPoint first_side_normal);
void odd_marks_add_end (OddMarks *self, OddPoint at, OddPoint direction, const OddEnd *end);
void odd_marks_paint (OddMarks *self, cairo_t *cr);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddMarks, odd_marks_free)

/* In the hand: seam while dragging, raw edges, hatch for trimming, framed offcut with turn-back arrow. */
void odd_paint_trimming (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options);
void odd_paint_offcut (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options);
void odd_paint_dragged_seam (cairo_t *cr, OddSegment seam, const OddSegment raw[2], guint32 accent, const OddPaintOptions *options);
void odd_paint_bare (cairo_t *cr, const OddConvex *region, const OddPaintOptions *options);

/* Pictures without a display: PNG or SVG by the ending. @textile_id 0: the first. Longest side 1600 px for PNG. */
gboolean odd_job_write_picture (OddJob *job, OddId textile_id, OddShow show, const char *path, GError **error);
/* Thumbnail surface, premultiplied ARGB32. (transfer full) */
cairo_surface_t *odd_scrap_render (OddJob *job, OddSwatches *swatches, OddScrap *scrap, double px_per_mm, double mark_px);

G_END_DECLS
