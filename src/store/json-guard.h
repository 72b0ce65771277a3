/* A strict look at JSON text before json-glib sees it.
 *
 * json-glib 1.6.6 recurses without a bound, takes comments and other things that are no JSON, lets the last of two equal
 * keys win, and turns a whole number over 64 bits into another one. Whatever passes here is RFC 8259 and none of that.
 */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

#define ODD_JSON_MAX_NESTING 64
/* A job of 10,000 patches has under a million values; json-glib takes about 100 bytes for each. */
#define ODD_JSON_MAX_VALUES 5000000

/*
 * odd_json_guard:
 * @text: (array length=length): the text; need not end with a zero; a byte order mark at its start is let through
 * @name: the file's name for the message
 *
 * Refuses, naming line and column: anything that is not JSON, text that is not UTF-8, nesting over
 * ODD_JSON_MAX_NESTING, more than ODD_JSON_MAX_VALUES values, two equal keys in one object (escapes resolved), numbers that
 * are not finite or whole numbers that 64 bits cannot hold, zero characters in strings, anything after the value.
 *
 * Returns: %TRUE when the text may be handed to json-glib; else %FALSE with ODD_STORE_ERROR_BROKEN
 */
gboolean odd_json_guard (const char *text, gsize length, const char *name, GError **error);

/* Guards, then parses. (transfer full): the value, immutable; NULL with ODD_STORE_ERROR_BROKEN, also when it is not an object. */
JsonNode *odd_json_parse_object (const char *text, gsize length, const char *name, GError **error);

G_END_DECLS
