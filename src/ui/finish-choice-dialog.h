/* The finishes beside each other, with what each would come to on this cloth; one of them is taken from here. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* @scopes: (element-type OddScope): how far the change may reach, the first one chosen; see ui/scopes.h */
void odd_finish_choice_dialog_present (GtkWidget *from, OddDocument *document, GArray *scopes, int unit);

G_END_DECLS
