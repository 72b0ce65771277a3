/* The drawings behind OddGlyph; cairo only, so that they can be looked at without a window. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

/* Natural size in px; 0 for an unknown kind. */
void odd_symbol_get_size (const char *kind, double *out_width, double *out_height);
/* In the current source, centred in width x height px. */
void odd_symbol_paint (cairo_t *cr, const char *kind, double width, double height);
gboolean odd_symbol_exists (const char *kind);

G_END_DECLS
