/* A seam or an outer edge on the move: how far it may go, what stops it, and the edit that takes it there.
 *
 * Made once when a handle is taken hold of, asked at each motion. Everything is told in the frame of the panel apart (see
 * odd_job_dup_layout_apart()), which is what the sewing table shows while piecing.
 */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_STOP_NONE,
  ODD_STOP_SCRAP,              /* a cut shape would leave its scrap */
  ODD_STOP_FLAW,               /* a zone fit for allowances only would show */
  ODD_STOP_OVERLAP,            /* two patches of one scrap would overlap */
  ODD_STOP_NARROW,             /* a patch would be narrower than the least side */
  ODD_STOP_VANISHED,           /* nothing would be left of a part */
  ODD_STOP_SEAM,               /* two seams of a strip would meet */
  ODD_STOP_CUT,                /* a patch is cut out: it can only get smaller */
  ODD_STOP_SEWN,               /* the same, as one of its seams is sewn */
  ODD_STOP_LOCKED,
  ODD_STOP_RANGE               /* the line would leave the panel, or lean too far */
} OddStopKind;

typedef struct
{
  OddStopKind kind;
  OddId leaf_id;               /* the patch that stops the line; 0 where none does */
} OddStop;

/* The ways a line can go. Shift: along its normal, away from the kept side (a seam's first part), mm. Tilt: round @pivot, positive from x towards
 * y, degrees. */
typedef struct
{
  gboolean tilt;
  OddPoint pivot;              /* on the line; tilt only */
} OddLinePath;

typedef struct
{
  double least, most;          /* least <= 0 <= most; mm or degrees */
  OddStop at_least, at_most;
} OddLineLimits;

/* A line never leans more than this in one go, degrees. */
#define ODD_MOST_TILT_DEG 60.0

typedef struct _OddLineMove OddLineMove;
/* NULL with an error: no such seam, sewn, locked, or a patch along it is locked. */
OddLineMove *odd_line_move_new_seam (OddJob *job, OddId seam_id, GError **error);
/* One end of the panel: all outer edges that face the way of @side (0 top, 2 bottom; as the panel alone lies) within 45 degrees become one
 * line. It starts square to the panel's length at the innermost point of what is there. */
OddLineMove *odd_line_move_new_end (OddJob *job, OddId panel_id, guint side, GError **error);
void odd_line_move_free (OddLineMove *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddLineMove, odd_line_move_free)

OddLayout *odd_line_move_get_layout (OddLineMove *self);       /* (transfer none) */
OddHalfPlane odd_line_move_get_line (OddLineMove *self);       /* where it stands */
/* As much of a line as lies in the region in which it may move; FALSE: nothing. */
gboolean odd_line_move_get_segment (OddLineMove *self, OddHalfPlane line, OddSegment *out);
OddHalfPlane odd_line_move_line_at (OddLineMove *self, const OddLinePath *path, double amount);
/* From the line as it stands, exact to 1e-5 mm or degrees: each patch is asked at every place where its region gains or loses a corner,
 * and between two such places it only grows or only shrinks. A patch that does not fit its scrap now is no limit, so that it can be mended. */
void odd_line_move_get_limits (OddLineMove *self, const OddLinePath *path, OddLineLimits *out);
/* How far a line that is allowed (but not the one that stands) may be pushed out, mm; -1: it is not allowed. @out_stop says what stops it. */
double odd_line_move_get_reach (OddLineMove *self, OddHalfPlane from, OddStop *out_stop);
/* May the line lie there? @out_stop (nullable) is set when not. */
gboolean odd_line_move_allows (OddLineMove *self, OddHalfPlane line, OddStop *out_stop);
/* One sentence, two at most: what stops, and what next. (transfer full) */
char *odd_line_move_dup_reason (OddLineMove *self, const OddStop *stop);
/* The job with the line there, and with what is trimmed off patches that are cut already (see odd_job_recut()); NULL with the reason. */
OddJob *odd_line_move_apply (OddLineMove *self, OddHalfPlane line, GError **error);

/* The same in one call. */
OddJob *odd_job_shift_seam (OddJob *self, OddId seam_id, double by_mm, GError **error);
OddJob *odd_job_tilt_seam (OddJob *self, OddId seam_id, double by_deg, GError **error);     /* round its middle */

G_END_DECLS
