/* The job file: a ZIP of job.json and pictures/<sha256>.png or .jpg. */
#pragma once

#include "cloth/job.h"

G_BEGIN_DECLS

#define ODD_JOB_FORMAT "oddment-job"
#define ODD_JOB_MAJOR 1
#define ODD_JOB_MINOR 0
#define ODD_JOB_ENTRY "job.json"
#define ODD_JOB_PICTURES "pictures/"

/*
 * odd_job_read_bytes:
 * @bytes: a whole job file
 * @name: its name for messages
 * @out_warnings: (out) (nullable) (element-type utf8) (transfer full): sentences about what was opened all the same, such as a picture that
 *   is missing or broken and is drawn as plain fill; untouched on error
 *
 * Everything is checked before the job is built: the archive (zip.h), the JSON (json-guard.h), every member's type and range, ids, the trees,
 * the outlines. A broken file never gives a half-read job.
 *
 * Returns: (transfer full): the job, or NULL with an #OddStoreError whose message is one sentence with file, place and remedy
 */
OddJob *odd_job_read_bytes (GBytes *bytes, const char *name, GPtrArray **out_warnings, GError **error);

/* The same for the text of job.json alone and what lies in pictures/: (nullable) (element-type OddPicture). */
OddJob *odd_job_read_json (const char *text, gsize length, const char *name, GPtrArray *pictures, GPtrArray **out_warnings, GError **error);

G_END_DECLS
