/* What the files of a line on the move share: line-move.c (what it touches, and the edit), line-limits.c (how far). */
#pragma once

#include "cloth/line-move.h"

G_BEGIN_DECLS

/* One patch that the line can reach. */
typedef struct
{
  const OddPatch *patch;
  OddConvex *base;             /* its region if the line were not there */
  gboolean first;              /* on the line's kept side */
  gboolean locked;
  OddStopKind fixed;           /* ODD_STOP_CUT or ODD_STOP_SEWN: may only get smaller; else ODD_STOP_NONE */
  double least_width_mm;
  /* made when first asked for */
  gboolean prepared;
  gboolean fits;               /* as it lies now; else its scrap does not limit it */
  GPtrArray *usable, *zones;   /* (element-type OddPolygon) placed; NULL: bare */
  GPtrArray *others;           /* (element-type OddPolygon) cut shapes of other patches on its scrap that stay, in the scrap's frame; or NULL */
  GArray *moving;              /* guint: patches on its scrap that the line can reach too; or NULL */
} OddReached;

/* Where two seams of a part would meet: the part must not grow to there. */
typedef struct { OddPoint at; gboolean first; } OddMeeting;

struct _OddLineMove
{
  OddJob *job;
  OddPanel *panel;             /* lent by the job */
  OddLayout *layout;
  OddId seam_id;               /* 0: an end of the panel */
  int label;                   /* of the line in the layout */
  guint *end_edges; guint n_end_edges;   /* of the outline alone that the line stands for */
  OddHalfPlane line;
  OddConvex *region;           /* in which it may lie */
  OddHalfPlane neighbours[2]; guint n_neighbours;   /* kept side: where the line may be */
  GArray *reached;             /* OddReached */
  GArray *meetings;            /* OddMeeting */
};

/* line-limits.c */
void odd_reached_clear (OddReached *reached);
OddHalfPlane odd_line_move_side (OddHalfPlane line, gboolean first);

G_END_DECLS
