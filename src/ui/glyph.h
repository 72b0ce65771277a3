/* A small drawing beside words: a seam's mark, an end, a way of pressing, a step of the work. Drawn in the text's colour. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define ODD_TYPE_GLYPH (odd_glyph_get_type ())
G_DECLARE_FINAL_TYPE (OddGlyph, odd_glyph, ODD, GLYPH, GtkWidget)

/* Property scale (double, construct only): times its natural size. Property kind (string), one of
 *   seams: planned sewn finished pressed pressed-open topstitched done raw-inside
 *   ends:  left-open left-caught left-back-stitched left-cut right-open ... (at which end of the short line)
 *   ways:  to-first to-second to-both
 *   steps: check sew overlock zigzag trim fold press topstitch
 *   links: link-open link-done (fills its width)
 *   scale: scale (a bar with end ticks, as wide as the widget) */
GtkWidget *odd_glyph_new (const char *kind);
void odd_glyph_set_kind (OddGlyph *self, const char *kind);
const char *odd_glyph_get_kind (OddGlyph *self);

G_END_DECLS
