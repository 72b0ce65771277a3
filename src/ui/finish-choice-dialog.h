/* The finishes beside each other, with what each would come to on this cloth; one of them is taken from here. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* @scopes: (element-type OddScope): how far the change may reach, the first one chosen; see ui/scopes.h
 * @pins: (nullable) (element-type OddTaskKey): what she wants first in the order of work */
void odd_finish_choice_dialog_present (GtkWidget *from, OddDocument *document, GArray *scopes, GArray *pins, int unit);

G_END_DECLS
