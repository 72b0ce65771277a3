/* Says something at the foot of the window a widget is in, and takes edits to the document. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"

G_BEGIN_DECLS

/* @action: detailed name of an action for the button, or NULL. */
void odd_toast (GtkWidget *from, const char *text, const char *button, const char *action);

/* That something went as asked: "Saved". It gives way to whatever else is said, and waits until what was said before has been read. */
void odd_note (GtkWidget *from, const char *text);

/*
 * odd_apply:
 * @from: any widget of the window
 * @job: (transfer full) (nullable): what an edit gave back
 * @error: (inout): address of the error the same edit was called with; freed and cleared here
 * @label: the step's name for undo
 *
 * Takes the edit, or says why there is none. A pointer to the error is asked for, so that edit and call fit in one expression.
 *
 * Returns: %TRUE if there was a job to take
 */
gboolean odd_apply (GtkWidget *from, OddDocument *document, OddJob *job, GError **error, const char *label);

G_END_DECLS
