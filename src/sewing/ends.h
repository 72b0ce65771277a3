/* Every seam end: what holds its stitching, and what is still to be secured. Derived; see OddEndKind. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef struct
{
  OddId seam_id, panel_id;    /* panel 0: a join */
  guint end;                  /* 0: at from, 1: at to */
  OddEndKind kind;
  gboolean sewn;              /* else it is secured as the seam is sewn */
  OddPoint at;                /* finished end; panel's layout frame, a join: textile's frame */
} OddSeamEnd;

/* Open at a raw outer edge: back-stitch or baste it. Cut by trimming: stitch and back-stitch it at the cut (common practice, no source). */
gboolean odd_end_wants_securing (OddEndKind kind);
/* All ends of a textile's seams and joins, or @textile_id 0: of everything on the table; panels in order, joins last. (transfer full) (element-type OddSeamEnd) */
GArray *odd_job_dup_ends (OddJob *job, OddId textile_id);
guint odd_job_count_ends_to_secure (OddJob *job, OddId textile_id);

G_END_DECLS
