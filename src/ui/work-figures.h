/* How long the rest takes, how much thread it wants, and by which figures: each beside the usual one and its source. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"
#include "sewing/plan.h"

G_BEGIN_DECLS

/* @plan: (nullable): of what is left. */
void odd_work_figures_present (GtkWidget *from, OddDocument *document, OddPlan *plan, OddUnit unit);

G_END_DECLS
