/* The report for people. */
#pragma once

#include "cloth/job.h"
#include "cloth/length.h"

G_BEGIN_DECLS

/* The figures of odd_report_json() in words. @title: the job's; @file: for the hint at `check`. (transfer full) */
char *odd_report_text (OddJob *job, const char *title, const char *file, OddUnit unit);

G_END_DECLS
