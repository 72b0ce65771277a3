/* A slot: the opening in which a patch is to lie, bounded by straight lines with an allowance each.
 *
 *        far line (free: outer edge, or a seam that leaves a bare rest)
 *      +----------------------+
 *      |                      |   y      The slot's frame: x along the base, y away from what stands. The sides run
 *      |                      |   ^      along (shear, 1); they are upright where the seam is square to the panel.
 *      +----------------------+   +-> x
 *        base (the new seam, or a seam that is there)
 */
#pragma once

#include "piecing/snap.h"

G_BEGIN_DECLS

typedef struct
{
  OddHalfPlane plane;             /* kept side: the patch; panel's layout frame */
  double allowance_mm;
} OddSlotSide;

typedef struct
{
  OddTarget target;
  OddLayout *layout;              /* NULL: new panel */
  OddPlacement frame;             /* slot's frame to the panel's layout frame */
  double tilt_deg;
  guint base;                     /* bare: edge of the region on which it stands */
  GArray *sides;                  /* OddSlotSide: all but the far line */
  OddHalfPlane base_plane;        /* kept side: the patch */
  double base_allowance_mm, far_allowance_mm;
  double seam_allowance_mm;       /* of a seam made between the patch and a bare rest */
  double max_height_mm;           /* INFINITY: open end */
  double closed_top_mm;           /* y to which the cut shape of the whole slot reaches; INFINITY: open end */
  double edge_mm;                 /* length of the base, finished */
  /* what the scrap must span, sheared frame (x' = x - y * shear) */
  double shear;
  double cut_left_mm, cut_width_mm;
  double left_allowance_mm, right_allowance_mm;   /* along x */
  /* a row: the patch takes part of the width only */
  double row_width_mm;            /* 0: no row */
  gboolean row_at_end;            /* patch at the larger x */
  /* edge: what the new seam does to the panel that stands */
  OddPoint axis;                  /* the way in which the panel's box grows: the axis nearest to y */
  double reach_mm;                /* how far the panel alone reaches that way now, finished */
  OddSegment raw_edge;            /* of the panel, at the new seam */
  double panel_trimmed_mm2;
  guint n_cut_ends, n_near;
  GPtrArray *panel_trims;         /* (element-type OddPolygon) */
} OddSlot;

void odd_slot_free (OddSlot *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSlot, odd_slot_free)

/* The slot at an open edge, its seam tilted; NULL when a patch would vanish, or get narrower than the job's least side. */
OddSlot *odd_slot_new_edge (OddJob *job, const OddTarget *target, double tilt_deg);
/* The slot in a bare region, standing on its edge @base. */
OddSlot *odd_slot_new_bare (OddJob *job, const OddTarget *target, guint base);
OddSlot *odd_slot_new_panel (OddJob *job, const OddTarget *target, double width_mm);
/* @self narrowed to the first patch of a row. */
OddSlot *odd_slot_new_row (const OddSlot *self, double width_mm, gboolean at_end);
/* The one in which the place was found. */
OddSlot *odd_slot_for_place (OddJob *job, const OddPlace *place);
/* Bare: the edges it can stand on, best first: those on which its row grows, else its short ends. (transfer full) GArray of guint */
GArray *odd_slot_bases (OddJob *job, const OddTarget *target, OddPoint held_at);

OddHalfPlane odd_slot_far_line (const OddSlot *self, double height_mm);
/* Between the patch and the bare rest of its row; kept side: the patch. */
OddHalfPlane odd_slot_row_line (const OddSlot *self);
/* Finished region up to @height_mm; all of a bare slot where that is its whole height. NULL when empty. */
OddConvex *odd_slot_region (const OddSlot *self, double height_mm, OddConvex **out_cut);
/* The region of all that is new: patch and bare rest of a row. */
OddConvex *odd_slot_part (const OddSlot *self, double height_mm);
/* Is the whole slot a parallelogram, so that a channel measures it exactly? */
gboolean odd_slot_is_plain (const OddSlot *self);
gboolean odd_slot_is_whole (const OddSlot *self, double height_mm);
/* Finished height that a channel of the cut height gives: capped, and leaving a bare rest of at least @min_rest_mm; 0: none. */
double odd_slot_height (const OddSlot *self, double channel_mm, double min_rest_mm);
/* Seam ends of the panel nearer than this to p. */
guint odd_slot_count_near (const OddSlot *self, OddPoint p);

/* A new junction nearer than this to an old one makes a lump and looks like a mistake; common practice, no source. */
#define ODD_NEAR_JUNCTION_MM 15.0

G_END_DECLS
