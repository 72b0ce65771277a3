/* Acts: what really happened at the table, as against what is planned. A job keeps them in the order in which they were done.
 *
 * What each kind means, does and says is in the table of sewing/act.c; here an act is only a value. It may name things that are gone by
 * now: so it keeps the words for them too.
 */
#pragma once

#include "cloth/types.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_ACT_MARK,               /* an operation of a seam is done */
  ODD_ACT_MARK_PANEL,         /* one kind of work is done on a whole panel */
  ODD_ACT_UNMARK,             /* the last mark of a seam, or all from one on, taken back: it was not so */
  ODD_ACT_SKIP,               /* an operation of a seam is left out */
  ODD_ACT_SECURE,             /* an end of a seam is back-stitched */
  ODD_ACT_CUT,                /* a patch is cut out */
  ODD_ACT_WASH,               /* a scrap is washed */
  ODD_ACT_TRIM,               /* cloth is cut off a panel's edge */
  ODD_ACT_GONE,               /* a scrap is given away */
  ODD_ACT_PIECE,              /* a sewn panel is put among the scraps, or made a panel again */
  ODD_ACT_CUT_PIECE,          /* a pieced scrap is cut across */
  ODD_ACT_UNPICK,             /* a seam is opened, with those that must go with it */
  ODD_ACT_RELEASE,            /* a patch that was cut out goes back among the scraps */
  ODD_ACT_MEASURE,            /* a strip, panel or textile is measured */
  ODD_ACT_SQUARE_UP,          /* one of those is trimmed to the rectangle of its least measures */
  ODD_ACT_CUT_LEVEL,          /* all panels of a textile are trimmed to the shortest */
  ODD_ACT_TASK,               /* one operation of a seam, in whatever order: done, left out or open again */
  ODD_ACT_STAY,               /* the edges of a patch that are on the bias are stayed, or left as they are */
  ODD_ACT_TIME,               /* tasks at one station were timed */
  ODD_N_ACT_KINDS
} OddActKind;

#define ODD_ACT_NEXT G_MAXUINT /* for OddAct.operation: whichever comes next (or was last) */

typedef struct _OddAct OddAct;
struct _OddAct                /* read only; on the stack, zeroed and filled in by name, it is a draft for odd_job_do() */
{
  OddActKind kind;
  OddId seam_id;              /* seam or join; 0, here and below: none */
  OddId node_id;              /* patch, bare region or strip */
  OddId scrap_id;
  OddId panel_id;
  OddId textile_id;
  guint end;                  /* of a seam: 0 or 1; of a panel: number of its outline's edge */
  guint operation;            /* index in the seam's finish; for a whole panel: OddWork */
  OddState state;             /* ODD_STATE_OPEN where an act takes something back */
  gboolean anyway;            /* done though the program had warned */
  double *figures; guint n_figures;     /* meaning by kind */
  OddId *ids; guint n_ids;    /* more of what it was about, or what came of it; meaning by kind */
  char *reason;               /* the maker's own words, or NULL */
  char *name;                 /* what it was about, as it was called then; NULL in a draft */
  char *step;                 /* which operation, as it was called then, or NULL */
  gint64 clock_s;             /* seconds since 1970 began, UTC; 0: not known */
  char *unknown_json;
};

/* A deep copy. Figures must be finite. */
OddAct *odd_act_new (const OddAct *values);
OddAct *odd_act_ref (OddAct *self);
void odd_act_unref (OddAct *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddAct, odd_act_unref)

/* For who is making an act and alone holds it. */
void odd_act_set_figures (OddAct *self, const double *figures, guint n);
void odd_act_set_ids (OddAct *self, const OddId *ids, guint n);
void odd_act_take_name (OddAct *self, char *name);            /* kept only where there is none yet; takes @name */
void odd_act_take_step (OddAct *self, char *step);            /* likewise */

/* Does it name this id, whatever as? */
gboolean odd_act_is_about (const OddAct *self, OddId id);
gboolean odd_act_equal (const OddAct *a, const OddAct *b);

G_END_DECLS
