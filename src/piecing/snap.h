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
  /* how the part is made: a patch that takes the whole opening, or a patch and a bare rest beside it */
  double height_mm;            /* finished, away from the edge (bare: along the row; new panel: its length) */
  double row_width_mm;         /* edge, new panel: width of a row's first patch, finished; 0: the patch takes the whole width */
  gboolean row_at_end;         /* the row's patch lies to the right as seen with the panel above the seam */
  guint base_edge;             /* bare: edge of the region on which the patch stands */
  double tilt_deg;             /* of the seam against the edge */
  /* figures */
  gboolean covers_all;
  double covers_mm;            /* finished: along the seam; bare: along the row */
  double edge_mm;              /* all that is to cover there */
  double gain_mm;              /* panel grows by (finished box); bare: height of the row covered; new panel: its length */
  double trimmed_mm2;          /* cloth lost: trimmings that hold no usable square */
  guint n_offcuts;
  double offcuts_mm2;
  double offcut_width_mm, offcut_length_mm;      /* box of the largest offcut */
  double score;                /* lower is better */
  guint n_cut_ends;            /* seam ends that the tilt cuts off */
  char *warning;               /* "Covers the stain by 3 x 4 mm", or NULL */
  /* geometry to draw, panel's layout frame */
  OddSegment seam;             /* finished line of the seam that sews it on, or that parts it from a bare rest; length 0: none new */
  OddSegment row_seam;         /* between the patch and the bare rest of its row; length 0: none */
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
  double new_width_mm;         /* new panel: wanted finished width; 0: the job's column width */
} OddSnapOptions;
void odd_snap_options_init (OddSnapOptions *options);

/*
 * odd_snap_places:
 * @options: (nullable): %NULL: as from odd_snap_options_init()
 * @out_reason: (out) (nullable) (transfer full): set when no place covers all (the array may then still hold rows): why, and what next
 *   ("This scrap is 2.1 cm too narrow. Start a row with it, or turn it."); else %NULL
 *
 * At most twelve places: the best of each class first, by score, then further ones that differ in turn, tilt or mirror. Rows (and
 * patches that leave a bare rest) only where nothing covers all.
 *
 * Returns: (transfer full) (element-type OddPlace)
 */
GPtrArray *odd_snap_places (OddJob *job, const OddTarget *target, OddId scrap_id, const OddSnapOptions *options, char **out_reason);
/*
 * Shifts the scrap along the seam (to the right as seen with the panel above it) and away from it, the seam kept. Moved away, less is
 * trimmed at the seam and the patch gets taller by as much; nearer, lower. FALSE, and nothing changed, when the cut shape would leave
 * the cloth or the patch get too low.
 */
gboolean odd_place_nudge (OddJob *job, OddPlace *place, double along_mm, double across_mm);
/* Does it: (transfer full), NULL with error. @out_leaf_id: the new patch. */
OddJob *odd_job_apply_place (OddJob *job, const OddPlace *place, OddId *out_leaf_id, GError **error);

/* Of many scraps, those that fit the target whole, best first: for "which scraps fit here?". Cancellable; free scraps only. */
typedef struct { OddId scrap_id; double gain_mm, score; } OddFit;
GArray *odd_snap_which_fit (OddJob *job, const OddTarget *target, GCancellable *cancellable);

G_END_DECLS
