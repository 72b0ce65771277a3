/* How far a seam is, what comes next, and what was enclosed raw. Derived from layouts; nothing of it is stored. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_STAGE_PLANNED,        /* not joined yet */
  ODD_STAGE_SEWN,           /* joined, edges still raw */
  ODD_STAGE_FINISHED,       /* edges made fast, not pressed */
  ODD_STAGE_PRESSED,        /* pressed, something (topstitching) left */
  ODD_STAGE_DONE            /* nothing left to do */
} OddStage;

typedef enum { ODD_WORK_SEW, ODD_WORK_FINISH, ODD_WORK_PRESS, ODD_WORK_TOPSTITCH, ODD_WORK_NONE } OddWork;

/* @finish: that of the laid seam or join. */
OddStage odd_seam_get_stage (const OddSeam *seam, const OddFinish *finish);
/* The next operation that is open, its index in @out_operation; ODD_WORK_NONE and index n when all is done. Each seam is counted under its next
 * operation only. Edges neatened before joining and second passes count as finishing. */
OddWork odd_seam_get_next (const OddSeam *seam, const OddFinish *finish, guint *out_operation);
/* Stage word translated: "planned", "sewn", "finished", "pressed", "every operation done". */
const char *odd_stage_get_name (OddStage stage);
const char *odd_stage_get_nick (OddStage stage);

typedef struct
{
  guint n_seams;
  guint n[4];               /* by OddWork: to sew, to finish, to press, to topstitch: seams counted under their next operation */
  double run_mm[4];         /* raw lengths of the same */
  guint n_done;
  guint n_raw_inside;
  guint operations_open[ODD_N_STATIONS];
} OddWorkCount;
/* Of a textile with its joins, or @textile_id 0: of all panels and joins of the job. */
OddWorkCount odd_job_count_work (OddJob *job, OddId textile_id);
OddWorkCount odd_layout_count_work (const OddLayout *layout);          /* of the panel alone: no join counts as sewn */

/* TRUE when the seam that crosses this one's end is sewn while this one is not finished and pressed. */
gboolean odd_job_seam_is_raw_inside (OddJob *job, OddId seam_id);
/* For a whole layout at once: bit per laid seam. @textile: where the panel hangs; NULL: no join counts as sewn. (transfer full) (array length = layout->n_seams) */
gboolean *odd_layout_raw_inside (const OddLayout *layout, OddTextileLayout *textile);

/* Seams that end on this seam (or join) and are not finished and pressed: they would be enclosed raw. (transfer full) (element-type guint) ids. */
GArray *odd_job_would_enclose (OddJob *job, OddId seam_id);

/* Marks the next operation of a seam done. With @even_if_raw FALSE and seams that would be enclosed raw: NULL, ODD_JOB_ERROR_REFUSED. */
OddJob *odd_job_mark_next (OddJob *job, OddId seam_id, gboolean even_if_raw, GError **error);
/* Takes the last mark back. */
OddJob *odd_job_unmark_last (OddJob *job, OddId seam_id, GError **error);
OddJob *odd_job_skip_next (OddJob *job, OddId seam_id, const char *reason, GError **error);
/* One kind of work for all seams of a panel whose next operation it is, inner seams first so that none is enclosed raw by the marking itself; seams that would enclose a raw one are
 * left and counted in @out_left. */
OddJob *odd_job_mark_panel (OddJob *job, OddId panel_id, OddWork work, guint *out_marked, guint *out_left, GError **error);

/* "Overlock this seam before the next scrap goes on, while both ends are still open." (transfer full), or NULL when there is nothing to say. */
char *odd_job_seam_advice (OddJob *job, OddId seam_id);
/* "7, 8 to 9": patch numbers on both sides; "Panel 2 to panel 3" for a join. (transfer full) */
char *odd_job_dup_seam_name (OddJob *job, OddId seam_id);

G_END_DECLS
