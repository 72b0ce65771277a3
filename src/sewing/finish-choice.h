/* Which finish? Each one tried on the job itself, so that sizes, thread, time, walks, layers and what no longer fits are true of this cloth. */
#pragma once

#include "sewing/bulk.h"
#include "sewing/work-time.h"

G_BEGIN_DECLS

/* What becomes of the raw edges; told from the finish's operations, so that a maker's own finishes have it too. */
typedef enum
{
  ODD_EDGES_RAW,              /* left as they are: for lined work */
  ODD_EDGES_NEATENED,         /* overlocked or zigzagged */
  ODD_EDGES_BOUND,            /* each edge stitched into a tape */
  ODD_EDGES_FELLED,           /* folded under and stitched down */
  ODD_EDGES_ENCLOSED          /* sewn wrong sides together first: French */
} OddEdges;
OddEdges odd_finish_get_edges (const OddFinish *finish);
/* Is the wrong side fit to be seen, too? */
gboolean odd_edges_fit_to_be_seen (OddEdges edges);

typedef enum { ODD_GOOD_FOR_SHEER = 1 << 0, ODD_GOOD_FOR_GARMENTS = 1 << 1, ODD_GOOD_FOR_LINED = 1 << 2 } OddGoodFor;
/* @out_why: (nullable): one sentence with its source, translated, not owned */
OddGoodFor odd_finish_get_good_for (const OddFinish *finish, const char **out_why);

/* What a job comes to, before or after a choice. */
typedef struct
{
  double width_mm, length_mm; /* finished, of the textile, or of the panel where the reach is one; 0 where several lie in reach */
  double area_mm2;            /* the same: of all that lies in reach */
  double thread_mm;           /* of what is left to sew, with waste */
  double untold_mm;           /* stitching that is not in it: no figure is known for its stitch */
  OddRange time_s;            /* likewise */
  guint stops;                /* likewise, in few walks */
  guint rounds;               /* likewise, chain pieced */
  OddBulkSum bulk;
} OddChoiceFigures;

typedef struct
{
  OddFinish *finish;          /* a reference */
  gboolean present;           /* what the reach has now */
  OddJob *job;                /* as it would be; NULL: refused */
  char *refusal;              /* why, where refused */
  OddChoiceFigures figures;   /* all 0 where refused */
  double width_lost_mm, length_lost_mm;    /* against now; negative: gained */
  OddEdges inside;            /* the least of all seams there are then, whatever their finish */
  double lining_mm2;          /* raw rectangles of the textiles and panels in which a seam is left raw then; 0: none is needed */
  GPtrArray *broken;          /* (element-type OddFinding): not sound then, and sound now */
  GArray *misfits;            /* (element-type guint): numbers of scraps that no longer fit, rising, each once */
} OddFinishChoice;
void odd_finish_choice_free (OddFinishChoice *self);

typedef struct
{
  OddLevel level;             /* job, textile, panel, strip or seam */
  OddId id;
  gboolean keep_cut;
  gboolean all_within;        /* levels within that have a finish of their own follow, too */
  const OddTaskKey *pins; guint n_pins;    /* (nullable): what she wants first; stops and rounds are counted in her order */
} OddFinishReach;

/* The job with @finish_id in reach, with the allowance the finish brings. (transfer full), NULL with error when refused. One edit, one undo. */
OddJob *odd_job_choose_finish (OddJob *job, const OddFinishReach *reach, OddId finish_id, GError **error);

typedef void (*OddChoiceProgress) (double done, gpointer data);
/*
 * odd_job_compare_finishes:
 * @out_now: (out): what the job comes to now
 * @progress: (nullable): told 0 .. 1, in this thread, before each step; once cancelled, no further step is begun
 *
 * Tries each of the job's finishes, in their order. Long work: meant for a worker thread. What is counted is the textile or loose panel in which the reach lies;
 * of the whole job, all that lies on the table.
 *
 * Returns: (transfer full) (element-type OddFinishChoice): NULL with error when cancelled
 */
GPtrArray *odd_job_compare_finishes (OddJob *job, const OddFinishReach *reach, OddChoiceFigures *out_now, OddChoiceProgress progress, gpointer data,
                                     GCancellable *cancellable, GError **error);

G_END_DECLS
