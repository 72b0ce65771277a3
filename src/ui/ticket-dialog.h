/* Which sheets of the work ticket are wanted; then they go to the printer or into a PDF. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/job.h"

G_BEGIN_DECLS

/* @settings: (nullable): where her choice is kept; @manner: OddManner of the stops, as it is chosen in the order of work;
 * @pins: (nullable) (element-type OddTaskKey): what she wants first there. */
void odd_ticket_dialog_present (GtkWindow *parent, GSettings *settings, OddJob *job, const char *title, int unit, int manner, GArray *pins);

G_END_DECLS
