/* The texts of the finishes that ship, untranslated. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

extern const char *const odd_finish_texts[];      /* NULL-terminated */

G_END_DECLS
