/* Doing acts: each goes through a plain edit, and is put down in the job's record.
 *
 * A new kind: one word in OddActKind (cloth/record.h), one row in the table of act.c with its word in the file, what it does and what it says.
 */
#pragma once

#include "cloth/edit.h"
#include "cloth/length.h"

G_BEGIN_DECLS

/*
 * odd_job_do:
 * @act: what was done: a draft on the stack will do. Which members count is told by kind at the table in act.c; the clock is the caller's
 *
 * Does it, and puts it down at the end of the record, completed by the name of what it was about and by what came of it.
 *
 * Returns: (transfer full): the job after it, or %NULL with the error of the plain edit
 */
OddJob *odd_job_do (OddJob *job, const OddAct *act, GError **error);

/*
 * odd_job_replay:
 * @planned: the job before any of the acts of @done that it does not hold in its own record
 * @done: the job whose record is replayed
 *
 * Does again what was done to @planned. Where @done came from @planned by acts alone, the outcome is @done, down to the bytes of its file.
 *
 * Returns: (transfer full): the outcome, or %NULL with an error that says at which act it stopped
 */
OddJob *odd_job_replay (OddJob *planned, OddJob *done, GError **error);

/* "Panel 1, seam 3 to 5: Overlock both edges together". (transfer full) */
char *odd_act_dup_text (const OddAct *act, OddUnit unit);
/* The file's word for the kind: "mark-panel". */
const char *odd_act_kind_get_nick (OddActKind kind);
gboolean odd_act_kind_from_nick (const char *nick, OddActKind *out);

G_END_DECLS
