/* Snap and trim: the best places for one scrap at an open edge of a panel, in a bare region, or as a new panel. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef enum { ODD_TARGET_EDGE, ODD_TARGET_BARE, ODD_TARGET_NEW_PANEL } OddTargetKind;

typedef struct
{
  OddTargetKind kind;
  OddId panel_id;              /* edge, bare */
  guint edge;                  /* edge: of the outline alone */
  OddId leaf_id;               /* bare */
  OddId textile_id;            /* new panel: where it will hang, at @index; 0: loose */
  guint index;
} OddTarget;

typedef enum { ODD_PLACE_FLUSH, ODD_PLACE_TURNED, ODD_PLACE_TILTED, ODD_PLACE_ROW, ODD_PLACE_AS_HELD } OddPlaceClass;

typedef struct
{
  OddPlaceClass kind;
  OddTarget target;
  OddId scrap_id;
  OddPlacement placement;      /* scrap's frame to the panel's layout frame (the hung one); new panel: to the new panel's frame */
  double tilt_deg;             /* of the seam against the edge */
  /* figures */
  gboolean covers_all;
  double covers_mm;            /* along the seam, finished */
  double edge_mm;              /* all that is to cover */
  double gain_mm;              /* panel grows by (finished); for a bare region: height covered */
  double trimmed_mm2;          /* cloth lost: trimmings that hold no usable square */
  guint n_offcuts;
  double offcuts_mm2;
  double offcut_width_mm, offcut_length_mm;      /* box of the largest offcut */
  double score;                /* lower is better */
  guint n_cut_ends;            /* seam ends that the tilt cuts off */
  char *warning;               /* "Covers the stain by 3 x 4 mm", or NULL */
  /* geometry to draw, panel's layout frame */
  OddSegment seam;             /* finished seam line; length 0 for a new panel */
  OddSegment raw_edges[2];     /* of the panel and of the scrap */
  OddConvex *region;           /* the patch's finished region */
  OddConvex *cut;              /* and its cut shape */
  GPtrArray *trims;            /* (element-type OddPolygon) what is cut off the scrap and does not come back */
  GPtrArray *panel_trims;      /* (element-type OddPolygon) what a tilted seam cuts off the panel */
  GPtrArray *offcuts;          /* (element-type OddPolygon) what comes back */
} OddPlace;

void odd_place_free (OddPlace *place);
OddPlace *odd_place_copy (const OddPlace *place);

typedef struct
{
  double held_turn_deg;        /* as the maker holds it; turns near it score better */
  OddPoint held_at;            /* where the middle of the scrap's box is held, panel's layout frame; NAN: not held */
  gboolean keep_angle;         /* Shift: only the held angle */
  double max_tilt_deg;         /* 0: straight seams only; first offered: 15, 7 tilts */
  gboolean mirror;             /* allowed only for reversible cloth */
  double new_width_mm;         /* new panel: wanted finished width; 0: what the scrap gives */
} OddSnapOptions;
void odd_snap_options_init (OddSnapOptions *options);

/*
 * The best place of each class first, ordered by score; empty when nothing fits, then @out_reason (nullable, transfer full)
 * says why and what next ("This scrap is 2.1 cm too narrow. Start a row with it, or turn it."). (transfer full) (element-type OddPlace)
 */
GPtrArray *odd_snap_places (OddJob *job, const OddTarget *target, OddId scrap_id, const OddSnapOptions *options, char **out_reason);
/* Shifts a place along its seam and away from it, kept valid; FALSE when that leaves the scrap. */
gboolean odd_place_nudge (OddJob *job, OddPlace *place, double along_mm, double across_mm);
/* Does it: (transfer full), NULL with error. @out_leaf_id: the new patch. */
OddJob *odd_job_apply_place (OddJob *job, const OddPlace *place, OddId *out_leaf_id, GError **error);

/* Of many scraps, those that fit the target whole, best first: for "which scraps fit here?". Cancellable; free scraps only. */
typedef struct { OddId scrap_id; double gain_mm, score; } OddFit;
GArray *odd_snap_which_fit (OddJob *job, const OddTarget *target, GCancellable *cancellable);

/* What of the scrap is left after all its patches, and of it the pieces that hold the usable square.
 * (transfer full) (element-type OddPolygon) scrap's frame. */
GPtrArray *odd_scrap_remains (OddJob *job, OddId scrap_id);

G_END_DECLS
