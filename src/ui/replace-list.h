/* The free scraps that can take a patch's place, worked out by a worker while it is shown. */
#pragma once

#include <adwaita.h>
#include "cloth/job.h"

G_BEGIN_DECLS

/* A popover whose rows call win.replace with the patch and the scrap. */
GtkWidget *odd_replace_list_new (OddJob *job, OddId leaf_id, int unit);

G_END_DECLS
