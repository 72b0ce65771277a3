/* What was done: the record in a window of its own, newest first, to be searched; Enter shows the thing on the canvas. */
#pragma once

#include <adwaita.h>
#include "ui/selection.h"

G_BEGIN_DECLS

#define ODD_TYPE_RECORD_WINDOW (odd_record_window_get_type ())
G_DECLARE_FINAL_TYPE (OddRecordWindow, odd_record_window, ODD, RECORD_WINDOW, AdwWindow)

/* One a window: shown again when it is there already. @parent has the action win.locate. */
void odd_record_window_present (GtkWindow *parent, OddDocument *document, OddSelection *selection, int unit);

G_END_DECLS
