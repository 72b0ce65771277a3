/* What the tests of the store share: a job file that uses every member, written by hand, and ways to spoil it. */
#pragma once

#include "cloth/job.h"

/* Of sample-job.json, with the sample's picture named. (transfer full) */
char *sample_text (void);
/* A PNG that is one. (transfer full) */
GBytes *sample_picture (void);
char *sample_picture_name (void);
/* The job read from it, with its picture. (transfer full) */
OddJob *sample_job (void);
/* Its job file. (transfer full) */
GBytes *sample_file (void);
/* @text with the one place that says @from saying @to. (transfer full) */
char *sample_with (const char *text, const char *from, const char *to);
/* A ZIP of these names and texts (NULL-terminated pairs), made with libarchive as it is, without our checks. (transfer full) */
GBytes *sample_zip (const char *first_name, ...) G_GNUC_NULL_TERMINATED;
/* Removes a folder that g_dir_make_tmp() made, with the files in it. */
void sample_remove_folder (const char *folder);
guint sample_count_files (const char *folder);
