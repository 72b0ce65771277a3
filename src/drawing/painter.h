/* One painter for screen tiles, pictures and paper. Everything is drawn in millimetres on a cairo context whose
 * matrix already maps millimetres to the device; marks keep their size in px whatever the zoom.
 *
 * Frames. A panel's frame is its layout's, a textile's frame its own. In the wrong-side view the painter itself mirrors what it
 * draws (x' = width - x, width: the finished width of what is painted); the caller sets the same matrix as for the right side, and
 * clip_mm is in the frame as shown.
 *
 * Scale. px_per_mm says how many device px a millimetre of cloth takes: zoom x scale factor on screen; on paper px of 0.25 mm, so
 * 4 x the scale of the drawing. One mark px is mark_px of these px, and so mark_px / px_per_mm millimetres of cloth. Level of detail goes by
 * the size of a patch in mark px.
 *
 * Threads. Every function may be called from any thread at the same time with its own cairo context; what is shared (OddSwatches, OddJob,
 * layouts) is safe to share. Nothing is kept between calls but swatches. */
#pragma once

#include <cairo.h>
#include "sewing/progress.h"

G_BEGIN_DECLS

typedef enum { ODD_SHOW_PATCHES, ODD_SHOW_SEAMS, ODD_SHOW_LIGHTNESS, ODD_SHOW_WRONG_SIDE } OddShow;
#define ODD_N_SHOWS 4
gboolean odd_show_from_nick (const char *nick, OddShow *out);   /* "patches", "seams", "lightness", "wrong-side" */
const char *odd_show_get_nick (OddShow show);

/* Swatches of prints and pictures, mip levels and weave made once and read by all threads; make one per job view, share it. */
typedef struct _OddSwatches OddSwatches;
OddSwatches *odd_swatches_new (void);
OddSwatches *odd_swatches_ref (OddSwatches *self);
void odd_swatches_unref (OddSwatches *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSwatches, odd_swatches_unref)

/* What is drawn of a patch of @size_px mark px (the root of its area). */
typedef enum
{
  ODD_DETAIL_COLOUR,           /* below 6: mean colour, no marks */
  ODD_DETAIL_DONE_OR_NOT,      /* 6 to 16: hairline or line */
  ODD_DETAIL_LINES,            /* 16 to 40: the full styles of lines */
  ODD_DETAIL_SIGNS,            /* 40 to 120: wedges, discs, ends */
  ODD_DETAIL_WORDS             /* over 120: patch number, scrap, allowances */
} OddDetail;
OddDetail odd_detail_for_size (double size_px);

typedef struct
{
  OddShow show;
  double px_per_mm;            /* device px a mm of cloth: decides the level of detail and the swatch's size */
  double mark_px;              /* length of one mark px in device px: 1 on screen, 2 at HiDPI 2 or text scale 2; 1 on paper (0.25 mm) */
  gboolean on_paper;           /* black marks without casing, no shadow, light hatching instead of colour fields */
  gboolean high_contrast;
  gboolean off_cloth;          /* marks only: no casing, drawn in ink_colour (a line of text beside them) */
  guint32 ink_colour;          /* 0xRRGGBB, used off the cloth only: the colour of the text */
  guint32 table_colour;        /* 0xRRGGBB: what lies behind the cloth */
  gboolean numbers;            /* patch numbers (else only over 120 px) */
  OddDetail most_detail;       /* nothing finer is drawn, whatever the room; at first ODD_DETAIL_WORDS: no limit */
  OddBox clip_mm;              /* only what meets this need be drawn, in the frame being painted; empty: all */
} OddPaintOptions;
/* Patches, 1 px a mm, 1 px marks, a light table, no clip. */
void odd_paint_options_init (OddPaintOptions *options);

/* A panel as it hangs, in its layout's frame, with shadow, raw-edge bands, cloth, ditches, marks of its seams and ends. The table is not painted: fill it
 * first. @textile: nullable, for joins' state at its edges. */
void odd_paint_panel (cairo_t *cr, OddSwatches *swatches, OddJob *job, const OddLayout *layout, OddTextileLayout *textile, const OddPaintOptions *options);
/* A textile joined: panels edge to edge, in the textile's frame. */
void odd_paint_textile (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddTextileLayout *textile, const OddPaintOptions *options);
/* How far paint reaches beyond raw cloth: shadow, frayed rim, signs at ends; mm. Grow a dirty box by this. */
double odd_paint_overhang_mm (const OddPaintOptions *options);
/* A scrap in its own frame: cloth, zones, outline; used cut shapes hatched when @with_uses. */
void odd_paint_scrap (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, gboolean with_uses, const OddPaintOptions *options);
/* Only cloth, filling @polygon (in the current frame), the scrap placed by @placement. */
void odd_paint_cloth (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, const OddPlacement *placement, OddPolygon *polygon, const OddPaintOptions *options);
/* The shadow of what is in the hand: under @polygon, before the cloth. */
void odd_paint_shadow_in_hand (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options);

/* Marks: one seam's line with its stage, between two points in the current frame. Casings of all first, then ink: collect, then stroke. */
typedef struct _OddMarks OddMarks;

typedef enum
{
  ODD_MARK_PLANNED, ODD_MARK_SEWN, ODD_MARK_FINISHED, ODD_MARK_PRESSED, ODD_MARK_PRESSED_OPEN, ODD_MARK_TOPSTITCHED, ODD_MARK_DONE, ODD_MARK_RAW_INSIDE
} OddMark;
#define ODD_N_MARKS 8

OddMarks *odd_marks_new (const OddPaintOptions *options);
void odd_marks_free (OddMarks *self);
/* Detail of what is added from now on; at first ODD_DETAIL_SIGNS. */
void odd_marks_set_detail (OddMarks *self, OddDetail detail);
/* @first_side_normal: unit, from the seam to the first part (the kept side of its line). */
void odd_marks_add_seam (OddMarks *self, OddSegment line, OddStage stage, OddPressed pressed, const OddFinish *finish, gboolean raw_inside, OddPoint first_side_normal);
/* A mark by its name, for keys and counts; @side: unit, where loops, wedge or stitch row lie. */
void odd_marks_add_mark (OddMarks *self, OddMark mark, OddSegment line, OddPoint side);
/* @direction: unit, from the end into the seam. Open, caught, back-stitched, cut: each its own sign; not drawn below ODD_DETAIL_SIGNS. */
void odd_marks_add_end (OddMarks *self, OddPoint at, OddPoint direction, const OddEnd *end);
void odd_marks_paint (OddMarks *self, cairo_t *cr);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddMarks, odd_marks_free)

/* In the hand: seam while dragging, raw edges, hatch for trimming, framed offcut with turn-back arrow. */
void odd_paint_trimming (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options);
void odd_paint_offcut (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options);
/* @raw: the raw edges of both parts, either side of the seam; a segment of no length is left out. @accent: 0xRRGGBB */
void odd_paint_dragged_seam (cairo_t *cr, OddSegment seam, const OddSegment raw[2], guint32 accent, const OddPaintOptions *options);
void odd_paint_bare (cairo_t *cr, const OddConvex *region, const OddPaintOptions *options);

/* Pictures without a display: PNG or SVG by the ending. @textile_id 0: the first, or the loose panels where nothing hangs in it. Longest side 1600 px for PNG. */
gboolean odd_job_write_picture (OddJob *job, OddId textile_id, OddShow show, const char *path, GError **error);
/* Thumbnail surface with what is taken of it hatched, premultiplied ARGB32, the scrap's box and a margin of 2 mark px. (transfer full) */
cairo_surface_t *odd_scrap_render (OddJob *job, OddSwatches *swatches, OddScrap *scrap, double px_per_mm, double mark_px);

G_END_DECLS
