/* What follows from a tree: regions, cut shapes, seam segments, ends. Immutable, atomically reference counted, never stored in a file.
 *
 * A layout is in the frame of the panel as it hangs: half-turn, joined allowances and trims applied, x right, y down, origin at
 * the top left of the finished box. It is kept with the panel under exactly the pointers it was made from, so the same pointer means
 * that nothing needs to be drawn again.
 */
#pragma once

#include <gio/gio.h>
#include "cloth/job.h"

G_BEGIN_DECLS

typedef enum { ODD_END_OPEN, ODD_END_CAUGHT, ODD_END_BACK_STITCHED, ODD_END_CUT } OddEndKind;
const char *odd_end_kind_get_nick (OddEndKind kind);         /* "open", "caught", "back-stitched", "cut" */

typedef struct
{
  OddEndKind kind;
  int label;                  /* >= 0: seam index in the layout; < 0: outer edge -(1 + index) */
  OddId by;                   /* seam or join that catches it, 0 when none */
  double angle_deg;           /* between the seam and what it ends on, 90 when square */
} OddEnd;

typedef struct                /* one patch or bare region */
{
  OddNode *leaf;              /* (transfer none) in the layout's root */
  guint number;               /* 1, 2, 3 ... in tree order */
  OddConvex *region;          /* finished; labels: seam index, or -(1 + edge index) */
  OddConvex *cut;             /* cut shape, same labels (G_MININT: square cut of a tip) */
  OddScrap *scrap;            /* NULL: bare */
  OddFabric *fabric;          /* NULL: unknown */
  OddPlacement placement;     /* scrap's frame to this frame */
  struct _OddLayout *piece;   /* of a pieced scrap, what it is made of; else NULL */
} OddPatch;

typedef struct
{
  const OddSeam *seam;        /* (transfer none) */
  OddNode *strip;             /* (transfer none) */
  guint index;                /* in the strip */
  OddHalfPlane line;          /* this frame; part index on its kept side */
  OddSegment finished;        /* from .. to, between finished ends */
  OddSegment raw;             /* lengthened to the raw edges of the two parts at its ends */
  double raw_length_mm;
  OddFinish *finish;
  double allowance_mm;        /* as sewn where that is known, else as planned */
  double planned_allowance_mm;
  OddEnd ends[2];
  guint first_patch, n_first; /* patches of the part on the kept side: layout->patches[first_patch .. + n_first) */
  guint second_patch, n_second;
} OddLaidSeam;

typedef struct
{
  OddSegment finished;
  OddSegment raw;
  double allowance_mm;        /* as used here: the join's, where joined */
  OddFinish *finish;
  OddId join_id;              /* join sewn along it, or 0: raw; its progress is in the textile (layout) */
  int outline_edge;           /* edge of the panel's outline alone; -1: made by a trim where the outline had no edge */
  double trimmed_mm;          /* cut off here because the panel reaches farther than its neighbours */
} OddLaidEdge;

typedef struct _OddLayout OddLayout;
struct _OddLayout             /* read only */
{
  OddNode *root;              /* as hung (in this frame) */
  OddConvex *outline;         /* finished, as hung; label i = -(1 + i) of edges[i] */
  OddConvex *raw;             /* outline with its allowances */
  OddBox box;                 /* finished: 0, 0, width, length */
  OddBox raw_box;
  OddPlacement hung;          /* panel's own frame to this frame */
  double alone_width_mm, alone_length_mm;          /* finished, alone */
  double planned_raw_width_mm, planned_raw_length_mm;   /* alone, with seams as sewn where that is known; odd_job_get_planned_raw(): as planned */
  OddPatch *patches; guint n_patches;              /* leaves with a region, in tree order */
  OddId *vanished; guint n_vanished;               /* leaves that a line or a trim left without a region */
  OddLaidSeam *seams; guint n_seams;
  OddLaidEdge *edges; guint n_edges;
  /*< private >*/
  gpointer inputs;            /* what it was made from, see layout.c */
};

OddLayout *odd_layout_ref (OddLayout *self);
void odd_layout_unref (OddLayout *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddLayout, odd_layout_unref)

/* Of a panel where it hangs, or loose: alone. (transfer full); cached. Never NULL for a panel of the job. */
OddLayout *odd_job_dup_layout (OddJob *self, OddId panel_id);
/* Of a panel as it lies apart from its neighbours: turned as it hangs, but neither joined to them nor trimmed by them; all edges raw. For a loose
 * panel it looks as odd_job_dup_layout() has it. (transfer full); cached. */
OddLayout *odd_job_dup_layout_apart (OddJob *self, OddId panel_id);
/* What a pieced scrap is made of, in the frame of its piece; NULL for plain cloth. (transfer full); cached. The two above know it by the id of the
 * piece, too. */
OddLayout *odd_job_dup_piece_layout (OddJob *self, OddScrap *scrap);
/* By id of the leaf or seam; NULL when not there. (transfer none) */
const OddPatch *odd_layout_find_patch (const OddLayout *self, OddId leaf_id);
const OddLaidSeam *odd_layout_find_seam (const OddLayout *self, OddId seam_id);
const OddPatch *odd_layout_patch_at (const OddLayout *self, OddPoint p);        /* by finished region */
const OddLaidSeam *odd_layout_seam_at (const OddLayout *self, OddPoint p, double within_mm);   /* the nearest */
/* The scrap's outline after placement, usable cloth only; (transfer full) (element-type OddPolygon); NULL for bare. */
GPtrArray *odd_patch_dup_placed_usable (const OddPatch *self);
OddPolygon *odd_patch_dup_placed_outline (const OddPatch *self);
/* Cloth is cut with a blade, not with a ruler's edge: sticking out less than this is no finding. */
#define ODD_FIT_TOLERANCE_MM 0.01
/* All cut shape inside the usable cloth, finished region clear of allowance-only zones? */
gboolean odd_patch_fits (const OddPatch *self);

/* --- textile --- */
typedef struct
{
  OddId panel_id;
  OddLayout *layout;
  OddPoint at;                /* its origin in the textile's frame (finished top left of the textile = 0,0) */
  double trim_top_mm, trim_bottom_mm;    /* raw cloth beyond the textile's rectangle */
  double eased_mm;            /* of what is beyond at the bottom: eased in, not trimmed */
} OddHungLayout;

typedef struct
{
  const OddSeam *join;        /* (transfer none) */
  OddSegment finished, raw;   /* textile's frame, from top to bottom */
  double raw_length_mm;
  OddFinish *finish;
  double allowance_mm;        /* as sewn where that is known, else as planned */
  double planned_allowance_mm;
  OddEnd ends[2];             /* top, bottom */
} OddLaidJoin;

typedef struct _OddTextileLayout OddTextileLayout;
struct _OddTextileLayout      /* read only */
{
  OddTextile *textile;        /* a reference is held */
  OddHungLayout *panels; guint n_panels;
  OddLaidJoin *joins; guint n_joins;
  double finished_width_mm, finished_length_mm;     /* 0 without panels; length 0 when offsets leave nothing in common */
  double raw_width_mm, raw_length_mm;
  double missing_width_mm, missing_length_mm;       /* against the target; 0 where enough */
  double surplus_width_mm, surplus_length_mm;
};
OddTextileLayout *odd_textile_layout_ref (OddTextileLayout *self);
void odd_textile_layout_unref (OddTextileLayout *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddTextileLayout, odd_textile_layout_unref)
OddTextileLayout *odd_job_dup_textile_layout (OddJob *self, OddId textile_id);     /* (transfer full); cheap when nothing changed */
/* How many more panels like the mean of those there are needed to reach the target width; 0 when reached or no panels. */
guint odd_textile_layout_panels_missing (const OddTextileLayout *self);

/* --- soundness --- */
typedef enum
{
  ODD_FINDING_BARE,            /* a region without a scrap */
  ODD_FINDING_TOO_SMALL,       /* a cut shape leaves its scrap's usable cloth */
  ODD_FINDING_ZONE,            /* an allowance-only zone shows in the finished region */
  ODD_FINDING_OVERLAP,         /* two patches of one scrap overlap */
  ODD_FINDING_MIRRORED,        /* placed wrong side up though not reversible */
  ODD_FINDING_VANISHED,        /* the leaf has no region left */
  ODD_FINDING_RAW_INSIDE,      /* a seam was crossed before it was finished and pressed */
  ODD_FINDING_PICTURE,         /* a picture is missing or broken */
  ODD_FINDING_NARROW_ALLOWANCE,/* below what the finish needs */
  ODD_FINDING_UPSIDE_DOWN      /* a print or nap that has an up hangs the other way */
} OddFindingKind;

typedef struct
{
  OddFindingKind kind;
  OddId textile_id, panel_id, leaf_id, seam_id, scrap_id;     /* 0 where it does not apply */
  OddPoint at;                 /* panel's layout frame */
  char *text;                  /* what, where, remedy: one or two sentences */
} OddFinding;
void odd_finding_free (OddFinding *finding);
/* Everything that is not sound, in a stable order. (transfer full) (element-type OddFinding). @cancellable may be NULL. */
GPtrArray *odd_job_check (OddJob *self, GCancellable *cancellable);

G_END_DECLS
