/* What is sewn and still wants something: to be made fast, pressed, topstitched, or it was sewn over raw. For looking for it on the cloth. */
#pragma once

#include "sewing/progress.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_UNFINISHED_NOTHING,     /* no seam at all */
  ODD_UNFINISHED_ALL,         /* all of those below */
  ODD_UNFINISHED_FINISH,      /* sewn, the edges next */
  ODD_UNFINISHED_PRESS,       /* the iron next */
  ODD_UNFINISHED_TOPSTITCH,   /* topstitching next */
  ODD_UNFINISHED_RAW_INSIDE   /* sewn over while it was not finished and pressed */
} OddUnfinishedKind;
#define ODD_N_UNFINISHED_KINDS 6
/* "nothing", "all", "finish", "press", "topstitch", "raw-inside"; FALSE for another word */
const char *odd_unfinished_kind_get_nick (OddUnfinishedKind kind);
gboolean odd_unfinished_kind_from_nick (const char *nick, OddUnfinishedKind *out);

typedef struct
{
  OddId seam_id;              /* seam or join */
  OddId panel_id;             /* 0: a join */
  OddSegment line;            /* finished, panel's layout frame; a join: textile's frame */
  OddUnfinishedKind kind;     /* raw inside before what comes next */
} OddUnfinishedSeam;

typedef struct
{
  OddUnfinishedKind kind;     /* that was asked for */
  GArray *seams;              /* OddUnfinishedSeam, in the order of panels and seams, joins last */
  double run_mm;              /* raw lengths of them all */
  guint n_open[ODD_N_STATIONS];      /* operations of theirs that are open, by station */
  double open_mm[ODD_N_STATIONS];    /* raw lengths along which these are done */
} OddUnfinished;
void odd_unfinished_clear (OddUnfinished *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OddUnfinished, odd_unfinished_clear)

/* Of everything on the table. */
void odd_unfinished_init (OddUnfinished *self, OddJob *job, OddUnfinishedKind kind);
/* "To be pressed: 3 seams · iron 3, 2.1 m"; of all kinds without the first words; @unit: OddUnit. (transfer full) */
char *odd_unfinished_dup_text (const OddUnfinished *self, int unit);

G_END_DECLS
