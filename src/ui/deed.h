/* Acts from the window: the clock is read here and nowhere else. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"
#include "sewing/act.h"
#include "ui/selection.h"

G_BEGIN_DECLS

/* Seconds since 1970 began, UTC. */
gint64 odd_now_s (void);
/* odd_job_do() and odd_apply() in one, with the clock read. */
gboolean odd_do (GtkWidget *from, OddDocument *document, const OddAct *act, const char *label);
/* Does it without taking it: for several acts that are one step. (transfer full), NULL with error */
OddJob *odd_job_do_now (OddJob *job, const OddAct *act, GError **error);

/* What of it is still there to be looked at, the nearest first: seam, patch, scrap, panel, textile. FALSE when nothing is. */
gboolean odd_act_find (const OddAct *act, OddJob *job, OddSelected *out_kind, OddId *out_id);
/* "14:05" today, "25 Nov, 14:05" before, "" when not known; the maker's own time. (transfer full) */
char *odd_act_dup_time (const OddAct *act);

G_END_DECLS
