/* Writing JSON text: members in the order they are given, doubles in the shortest form that reads back as the same number, one record a
 * line where asked, members that the program does not know put back where they were (json-cursor.h says what they look like).
 *
 * What is wrong with a value (not finite, not UTF-8) is kept until the end: half a document never comes out.
 */
#pragma once

#include <json-glib/json-glib.h>
#include "geometry/point.h"

G_BEGIN_DECLS

typedef struct _OddPrinter OddPrinter;

OddPrinter *odd_printer_new (void);
void odd_printer_free (OddPrinter *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddPrinter, odd_printer_free)
/* (transfer full): the text with a line break at its end, or NULL with ODD_STORE_ERROR_WRITE. Everything opened must be closed. */
GBytes *odd_printer_finish (OddPrinter *self, GError **error);

/* @member: NULL inside an array. @unknown_json: object text of members to put back, or NULL. */
void odd_printer_begin_object (OddPrinter *self, const char *member, const char *unknown_json);
void odd_printer_end_object (OddPrinter *self);
/* A list or object that is known but not written this time: what was left over in it goes with it. */
void odd_printer_absent (OddPrinter *self, const char *member);
/* @n: how many elements will come; @lines: each on a line of its own */
void odd_printer_begin_array (OddPrinter *self, const char *member, guint n, gboolean lines);
void odd_printer_end_array (OddPrinter *self);
void odd_printer_string (OddPrinter *self, const char *member, const char *text);
void odd_printer_double (OddPrinter *self, const char *member, double value);
void odd_printer_uint (OddPrinter *self, const char *member, guint value);
void odd_printer_bool (OddPrinter *self, const char *member, gboolean value);
void odd_printer_null (OddPrinter *self, const char *member);
void odd_printer_point (OddPrinter *self, const char *member, OddPoint p);        /* [x, y] */
void odd_printer_points (OddPrinter *self, const char *member, const OddPoint *points, gsize n);

/* (transfer full): on one line. json-glib 1.6's own generator writes 1e300 as "1e+300.0", which is no JSON. */
char *odd_json_object_to_text (JsonObject *object);
/* The same number in the fewest digits, with a point as decimal mark; @buffer holds at least G_ASCII_DTOSTR_BUF_SIZE. */
const char *odd_double_to_text (double value, char *buffer);

G_END_DECLS
