/* For plan*.c only: every seam and join with what waits for it. */
#pragma once

#include "sewing/plan.h"

G_BEGIN_DECLS

/* What a plan needs of a panel's cloth, kept as long as the layout is. */
typedef struct
{
  gatomicrefcount refs;
  OddLayout *layout;
  guint8 *shades;             /* OddShade, one a seam */
  guint8 *sewn;               /* one a patch: it hangs on a sewn seam, so it was cut, whether it was marked or not */
} OddSheetFacts;

typedef struct
{
  OddLayout *layout;
  OddTextileLayout *textile;  /* (nullable) */
  OddSheetFacts *facts;
  OddId panel_id;
  guint place;                /* in the textile */
  guint first;                /* works[first .. ] are its seams, in the layout's order */
  guint heights[ODD_N_MANNERS];
} OddSheet;

/* Another seam that waits for this one. */
typedef struct
{
  guint work;
  gboolean all;               /* this one ends on it: all operations first; else it need only be sewn first */
} OddWaits;

/* One seam or join. Whatever waits for it has a smaller index. */
typedef struct
{
  const OddSeam *seam;        /* NULL: nothing to sew here, a trim took it */
  const OddFinish *finish;
  int sheet;                  /* -1: a join */
  OddTextileLayout *textile;
  guint index;                /* in the layout's seams or the textile's joins */
  guint first_sew;
  guint from;                 /* first operation that is planned */
  guint round[ODD_N_MANNERS];
  OddWaits waits[4];
  guint n_waits;
  guint8 shade;
  gboolean raw_inside;
} OddSeamWork;

typedef struct
{
  OddJob *job;
  GArray *sheets;             /* OddSheet */
  GPtrArray *textiles;        /* OddTextileLayout */
  OddSeamWork *works; guint n_works;
  gboolean from_start;
  guint n_rounds[ODD_N_MANNERS];
} OddGraph;

/* @textile_id: of a textile or a loose panel, 0: all; @previous: (nullable) */
OddGraph *odd_graph_new (OddJob *job, OddId textile_id, gboolean from_start, const OddGraph *previous);
void odd_graph_free (OddGraph *self);
/* Is this operation in the plan? */
gboolean odd_graph_plans (const OddGraph *self, const OddSeamWork *work, guint operation);
/* -1 when there is none. */
int odd_graph_find (const OddGraph *self, OddId seam_id);
double odd_graph_get_length (const OddGraph *self, const OddSeamWork *work);
OddId odd_graph_get_panel_id (const OddGraph *self, const OddSeamWork *work);
OddId odd_graph_get_textile_id (const OddGraph *self, const OddSeamWork *work);

/* --- plan-stops.c: at which stop each operation is done --- */

/* An operation in its place. */
typedef struct
{
  guint32 stop;               /* index in the stations walked */
  guint32 phase;
  guint32 level;              /* in the stop: after those of lower levels */
  guint32 work;               /* index; G_MAXUINT32: not a seam's */
  guint32 operation;
} OddPlaced;

typedef struct
{
  OddGraph *graph;
  GArray *stations;           /* guint8: OddStation of each stop */
  GArray *placed;             /* OddPlaced */
  guint phase;
  guint *done;                /* by work: operations planned so far, counted from the finish's first */
  OddPlaced *start;           /* by work: not before here */
} OddWalk;

void odd_walk_init (OddWalk *self, OddGraph *graph);
void odd_walk_clear (OddWalk *self);
/* Plans the operations of the works up to (not with) @limits[i], in one go. @works: indices, falling. */
void odd_walk_add (OddWalk *self, const guint *works, const guint *limits, guint n);

/* --- plan-settings.c --- */
/* Orders the settings of each batch so that changes are fewest. @needed: (array length=n_batches): a bit for each setting needed, none of them 0.
 * Another thread is a change, and so is another stitch. Ranks: out_ranks[batch * n_settings + setting]. Returns the changes. */
guint odd_settings_order (const guint32 *needed, guint n_batches, const OddMachineSetting *settings, guint n_settings, guint8 *out_ranks);

G_END_DECLS
