/* The finishes of the job: how each treats its raw edges, step by step; one can be added, changed, removed. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* @finish_id: shown first; 0: the first one. */
void odd_finish_dialog_present (GtkWidget *from, OddDocument *document, OddId finish_id, int unit);

G_END_DECLS
