/* The order of work: which operation comes when, in rounds and stops. A plan follows from the job as it is, the tasks she pinned, and the manner;
 * nothing of it is stored, and marking anything done makes the next plan from there.
 *
 * What a plan never does: sew a seam before every seam that ends on it has all its operations done, and before the seams of the parts on its
 * two sides are sewn. Seams of a strip do not wait for one another.
 *
 * Immutable, atomically reference counted; may be made in a worker thread.
 */
#pragma once

#include "cloth/length.h"
#include "sewing/progress.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_MANNER_CHAIN,           /* fewest rounds: all seams of a round in one chain, each round finished and pressed before the next */
  ODD_MANNER_WALKS            /* fewest stops: a strip is sewn on whole, from its first part on, then all is finished, all pressed */
} OddManner;
#define ODD_N_MANNERS 2
const char *odd_manner_get_nick (OddManner manner);              /* "chain", "walks" */
gboolean odd_manner_from_nick (const char *nick, OddManner *out);
const char *odd_manner_get_name (OddManner manner);              /* translated: "Chain piecing", "Few walks" */

typedef enum
{
  ODD_TASK_OPERATION,         /* of a seam's finish */
  ODD_TASK_CUT,               /* a patch cut out of its scrap; at the table, before the first stop */
  ODD_TASK_SECURE             /* an end of a sewn seam that is open at an outer edge, or cut: back-stitched; at the sewing machine */
} OddTaskKind;

/* Names a task for good, whatever is done meanwhile. */
typedef struct
{
  OddTaskKind kind;
  OddId id;                   /* seam or join; ODD_TASK_CUT: the leaf */
  guint index;                /* the finish's operation; ODD_TASK_SECURE: end 0 (from) or 1 (to); else 0 */
} OddTaskKey;
gboolean odd_task_key_equal (const OddTaskKey *a, const OddTaskKey *b);
/* "seam-12-0", "cut-7", "end-12-1": for settings and the file; (transfer full), and the way back. */
char *odd_task_key_dup_text (const OddTaskKey *key);
gboolean odd_task_key_from_text (const char *text, OddTaskKey *out);

/* Thread is told by shade, as a job knows its cloths but no spools: one pale, one middle, one dark thread sew anything (common practice, no
 * source). By the mean lightness L* of the cloth along the seam: pale from 70, dark below 40 (our choice); unknown cloth: middle. */
typedef enum { ODD_SHADE_PALE, ODD_SHADE_MIDDLE, ODD_SHADE_DARK } OddShade;
const char *odd_shade_get_name (OddShade shade);                 /* translated: "pale thread" */

/* What a machine is set to. Iron and table have none: stitch NULL, shade middle. */
typedef struct
{
  OddStation station;
  const char *stitch;         /* (transfer none) "301", or NULL when the finish does not say */
  gboolean topstitch;         /* seen from the right side: longer stitches */
  OddShade shade;
} OddMachineSetting;

typedef struct
{
  OddTaskKey key;
  OddStation station;
  OddWork work;               /* ODD_WORK_NONE for a patch to cut and an end to secure */
  OddState state;             /* open, save in a plan from the start */
  OddId textile_id, panel_id; /* 0: loose; 0: a join */
  guint round;                /* of the seam, from 1 on; 0 for a patch to cut */
  guint stop;                 /* index in plan->stops */
  guint setting;              /* index in plan->settings */
  guint secure;               /* sewing: bit e set: end e lies at an outer edge and is back-stitched while sewing */
  gboolean raw_inside;        /* it was sewn over already: unpick the seam across its end to get at it */
  /*< private >*/
  guint at;
} OddTask;

typedef struct
{
  OddStation station;
  guint number;               /* 1, 2, 3 ... as one walks; 0: cutting out, before the first */
  guint first, n;             /* plan->tasks[first .. first + n) */
  guint first_round, last_round;
  double length_mm;           /* raw lengths of all its tasks' seams */
} OddStop;

typedef struct _OddPlan OddPlan;
struct _OddPlan               /* read only */
{
  OddManner manner;
  OddTask *tasks; guint n_tasks;            /* in the order of work */
  OddStop *stops; guint n_stops;
  guint n_walks;                            /* numbered stops */
  guint n_rounds;                           /* from the beginning, rounds behind her included */
  guint n_rounds_left;                      /* rounds that still hold an open operation */
  OddMachineSetting *settings; guint n_settings;
  guint n_setting_changes;                  /* thread or stitch changes on the way, both machines together */
  guint n_left[ODD_N_STATIONS];             /* open operations of seams, by station */
  /*< private >*/
  gpointer graph;
};

/*
 * odd_plan_new:
 * @textile_id: a textile, a loose panel, or 0: every textile and loose panel
 * @pins: (array length=n_pins) (nullable): tasks she wants first, in this order; what they wait for comes before them; one that is done or gone is passed over
 * @previous: (nullable): an earlier plan of the same job: what it found out about panels that did not change is used again
 *
 * The plan of what is left to do. In a manner the number of rounds (chain) is the least possible; that of stops (walks) too, unless the finishes
 * are so mixed that 20,000 ways did not settle it: then it is a good one.
 *
 * Returns: (transfer full)
 */
OddPlan *odd_plan_new (OddJob *job, OddId textile_id, OddManner manner, const OddTaskKey *pins, guint n_pins, OddPlan *previous);
/* The plan from the start, as if nothing were done; tasks tell their true state. For paper. (transfer full) */
OddPlan *odd_plan_new_from_start (OddJob *job, OddId textile_id, OddManner manner, const OddTaskKey *pins, guint n_pins);
OddPlan *odd_plan_ref (OddPlan *self);
void odd_plan_unref (OddPlan *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddPlan, odd_plan_unref)

/* -1 when it is not in the plan. */
int odd_plan_find (const OddPlan *self, const OddTaskKey *key);

/* All that a task's line says. Lent by the plan. */
typedef struct
{
  OddLayout *layout;          /* the panel's; NULL for a join */
  OddTextileLayout *textile;  /* NULL: loose */
  const OddLaidSeam *laid;    /* NULL for a join and a patch to cut */
  const OddLaidJoin *join;    /* NULL but for a join */
  const OddPatch *patch;      /* to cut; else NULL */
  const OddSeam *seam;        /* NULL for a patch to cut */
  const OddFinish *finish;
  const OddOperation *operation;    /* NULL for cut and secure */
  double allowance_mm;        /* of the seam */
  double distance_mm;         /* this line of stitching from the raw edge (sew), from the seam (topstitch), what is left (trim); 0: not said */
  double length_mm;           /* raw */
  OddFace face;
  OddPressed pressed_to;      /* what the seam says; ODD_PRESSED_BY_RULE: open where the finish may be opened, else to the first side */
} OddTaskFacts;
void odd_plan_get_facts (const OddPlan *self, guint task, OddTaskFacts *out);

/* Numbers of the patches that lie on the seam, of its first or second part (@side 0, 1); of a join: the panel's name. "3–5". (transfer full) */
char *odd_plan_dup_part (OddPlan *self, guint task, guint side);
/* "3 to 5": both parts; a patch to cut: "7". (transfer full) */
char *odd_plan_dup_name (OddPlan *self, guint task);
/* "Sew 3 to 5, right sides together, 12.7 mm; back-stitch at the outer edge". (transfer full) */
char *odd_plan_dup_text (OddPlan *self, guint task, OddUnit unit);
/* "Allowances towards 3–5", "Allowances open": at the last press of a seam; NULL where the step says it already, and for other steps. (transfer full) */
char *odd_plan_dup_pressing (OddPlan *self, guint task);

/*
 * odd_job_do_task:
 * @even_if_raw: sew it though that locks in a raw seam
 *
 * Marks one task done (skipped with odd_job_skip_task(), open again with odd_job_undo_task()), whether or not it is the seam's next one.
 *
 * Returns: (transfer full): the next job, or %NULL with ODD_JOB_ERROR
 */
OddJob *odd_job_do_task (OddJob *job, const OddTaskKey *key, gboolean even_if_raw, GError **error);
OddJob *odd_job_skip_task (OddJob *job, const OddTaskKey *key, const char *reason, GError **error);
OddJob *odd_job_undo_task (OddJob *job, const OddTaskKey *key, GError **error);

G_END_DECLS
