/* The print dialogue of the work ticket. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/job.h"

G_BEGIN_DECLS

/* @title: of the print job, and in the head of each page. */
void odd_print_run (GtkWindow *parent, OddJob *job, const char *title, int unit);

G_END_DECLS
