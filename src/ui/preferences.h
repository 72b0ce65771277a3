/* Preferences: what belongs to the maker (unit) and what belongs to the job (column width, usable offcut, finish). */
#pragma once

#include <adwaita.h>
#include "cloth/document.h"

G_BEGIN_DECLS

void odd_preferences_present (GtkWindow *parent, GSettings *settings, OddDocument *document);

G_END_DECLS
