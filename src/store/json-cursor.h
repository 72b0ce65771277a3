/* Reading an object of a JSON document, with its place for messages and with what nobody asked for kept.
 *
 * A cursor stands in one object. The first thing that is wrong is kept in the reading and names file and place
 * ("textiles[0].panels[2].outline_mm"); from then on every question is answered with its fallback, so that a reader asks for
 * all its members in a row and looks once, at the end, whether the reading failed.
 *
 * Members that were not asked for are left over. The left-overs of an object have the document's own shape: members not known as they
 * are, under a known member the left-overs of the object or array there, with null for an element that has none.
 */
#pragma once

#include <json-glib/json-glib.h>
#include "geometry/point.h"

G_BEGIN_DECLS

#define ODD_CURSOR_MAX_MEMBERS 32
#define ODD_JSON_MAX_CORNERS 10000
#define ODD_JSON_MAX_MM 10000.0          /* coordinates: within 10 m */

typedef struct
{
  const char *name;           /* the file's, for messages */
  GError *error;              /* the first thing that was wrong */
  GPtrArray *warnings;        /* (element-type utf8) */
} OddReading;

typedef struct _OddCursor OddCursor;
struct _OddCursor
{
  OddReading *reading;
  OddCursor *parent;          /* NULL at the top */
  const char *member;         /* of the parent */
  int index;                  /* element of that member, or -1 */
  guint n_elements;
  JsonObject *object;         /* (transfer none) */
  const char *asked[ODD_CURSOR_MAX_MEMBERS];
  guint n_asked, n_found;
  JsonObject *left_over;      /* from the objects below */
};

void odd_reading_init (OddReading *self, const char *name);
void odd_reading_warn (OddReading *self, const char *format, ...) G_GNUC_PRINTF (2, 3);
static inline gboolean odd_reading_failed (const OddReading *self) { return self->error != NULL; }

void odd_cursor_init (OddCursor *self, OddReading *reading, JsonObject *object);
/* Into the object under @member. FALSE when there is none, or when the reading failed. */
gboolean odd_cursor_enter (OddCursor *self, const char *member, OddCursor *out_child);
/* (transfer none): the array under @member; NULL when there is none. */
JsonArray *odd_cursor_get_array (OddCursor *self, const char *member);
/* Into an element of the array under @member; FALSE when the reading failed. */
gboolean odd_cursor_enter_element (OddCursor *self, const char *member, JsonArray *array, guint i, OddCursor *out_child);
/* To be called for each cursor that was entered, once: hands what is left over to the parent. */
void odd_cursor_leave (OddCursor *self);
/* The same for an object whose value keeps what is left over: (transfer full) JSON text of an object, or NULL. */
char *odd_cursor_leave_with_unknown (OddCursor *self);

/* What is wrong at @member (NULL: with the object), as the end of a sentence that begins with file and place, with its remedy. */
void odd_cursor_fail (OddCursor *self, const char *member, const char *format, ...) G_GNUC_PRINTF (3, 4);
/* The same, after the message of another room's error, which is taken. */
void odd_cursor_fail_with (OddCursor *self, const char *member, GError *error);
void odd_cursor_fail_element (OddCursor *self, const char *member, guint i, const char *format, ...) G_GNUC_PRINTF (4, 5);
/* "textiles[0].panels[2]" (transfer full); "the top" when @member is NULL there. */
char *odd_cursor_dup_place (OddCursor *self, const char *member, int index);

/* These members (NULL-terminated) mean nothing here but something elsewhere: refused, for @what ("a bare node"), or dropped. */
void odd_cursor_refuse (OddCursor *self, const char *const *members, const char *what);
void odd_cursor_drop (OddCursor *self, const char *const *members);
gboolean odd_cursor_has (OddCursor *self, const char *member);
void odd_cursor_require (OddCursor *self, const char *member);
double odd_cursor_double (OddCursor *self, const char *member, double fallback, double min, double max);
guint odd_cursor_uint (OddCursor *self, const char *member, guint fallback, guint min, guint max);
gboolean odd_cursor_bool (OddCursor *self, const char *member, gboolean fallback);
const char *odd_cursor_string (OddCursor *self, const char *member, const char *fallback);    /* (transfer none) */
/* [x, y], each within @limit */
OddPoint odd_cursor_pair (OddCursor *self, const char *member, OddPoint fallback, double limit);
/* [[x, y], ...]: at least three corners, at most ODD_JSON_MAX_CORNERS, within ODD_JSON_MAX_MM. (transfer full) (element-type OddPoint);
 * NULL when it is not there or the reading failed. */
GArray *odd_cursor_points (OddCursor *self, const char *member);
/* The same for a ring that is an element of the array under @member. */
GArray *odd_cursor_element_points (OddCursor *self, const char *member, JsonArray *array, guint i);
/* An element of an array of plain values; the fallback when it is of another type, which fails the reading. */
guint odd_cursor_element_uint (OddCursor *self, const char *member, JsonArray *array, guint i, guint min, guint max);
double odd_cursor_element_double (OddCursor *self, const char *member, JsonArray *array, guint i, double min, double max);
gboolean odd_cursor_element_bool (OddCursor *self, const char *member, JsonArray *array, guint i);
const char *odd_cursor_element_string (OddCursor *self, const char *member, JsonArray *array, guint i);

G_END_DECLS
