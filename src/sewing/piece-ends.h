/* Seam ends that a cut across a pieced scrap opened: the stitching runs out there until it is back-stitched. */
#pragma once

#include "cloth/piece.h"

G_BEGIN_DECLS

typedef struct
{
  OddId scrap_id, seam_id;
  guint end;                   /* 0: at from, 1: at to */
  OddPoint at;                 /* scrap's frame, on the cut */
  char *text;                  /* "Between patches 2 and 3"; patches are numbered as on the picture of the piece */
} OddPieceEnd;

/* Ends to secure inside one pieced scrap, seam by seam in the order of its layout; empty for plain cloth, and for a scrap that is gone. (transfer full)
 * (element-type OddPieceEnd) */
GArray *odd_job_dup_piece_ends (OddJob *job, OddScrap *scrap);
/* How many there are in all pieced scraps that are not gone. */
guint odd_job_count_piece_ends (OddJob *job);

G_END_DECLS
