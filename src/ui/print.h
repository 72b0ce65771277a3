/* The print dialogue of the work ticket. */
#pragma once

#include <gtk/gtk.h>
#include "paper/options.h"

G_BEGIN_DECLS

/* @title: of the print job, and in the head of each page; @options: copied. The ticket is laid out in a worker thread once the paper is known. */
void odd_print_run (GtkWindow *parent, OddJob *job, const char *title, int unit, const OddTicketOptions *options);

G_END_DECLS
