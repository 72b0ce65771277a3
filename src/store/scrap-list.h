/* The scrap list, a plain JSON form in which tubs of scraps travel between programs:
 *
 *   {"fabrics": [{"name", "lightness", "gsm", ...}],
 *    "scraps": [{"fabric", "outline_mm": [[x, y], ...], "grain_deg", "number", "washed", "place", "note"}]}
 *
 * Only outline_mm is required. A fabric is named, not numbered; absent means unknown cloth. Fabrics and scraps may say everything
 * that those of a job file may, save ids, pictures and parents.
 */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

/*
 * odd_job_import_scrap_list:
 * @self: the job that takes the scraps
 * @name: the list's name for messages
 *
 * Adds fabrics and scraps in the list's order. A fabric that the job has already, the same in all that the list says, is used and not
 * added again; a new one without a print gets a plain colour to tell it by; with other values it is refused, and so is a scrap number that the job has given out. A scrap without a number gets the next
 * free one.
 *
 * Returns: (transfer full): a new job, or NULL with an #OddStoreError and nothing changed
 */
OddJob *odd_job_import_scrap_list (OddJob *self, GBytes *bytes, const char *name, GError **error);

/* The same into an empty job. */
OddJob *odd_job_new_from_scrap_list (GBytes *bytes, const char *name, GError **error);

/* (transfer full): all scraps that are neither gone nor cut out, with the fabrics they name; fabrics of one name are told apart by a number behind it.
 * NULL with ODD_STORE_ERROR_WRITE. */
GBytes *odd_job_write_scrap_list (OddJob *self, GError **error);

G_END_DECLS
