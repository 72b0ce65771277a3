/* The operations of a seam as a row of round buttons, in their order. */
#pragma once

#include <gtk/gtk.h>
#include "sewing/progress.h"

G_BEGIN_DECLS

#define ODD_TYPE_STEPS (odd_steps_get_type ())
G_DECLARE_FINAL_TYPE (OddSteps, odd_steps, ODD, STEPS, GtkWidget)

/* Signal toggled (guint operation, gboolean done): the maker wants this operation, and with it all before it, done; or it and all after it open. */
GtkWidget *odd_steps_new (void);
void odd_steps_show (OddSteps *self, OddFinish *finish, OddProgress *progress);
/* "Overlock", "Press": the operation in one word; translated. */
const char *odd_operation_get_short_name (const OddOperation *operation);
const char *odd_operation_get_symbol (const OddOperation *operation);

G_END_DECLS
