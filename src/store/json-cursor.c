#include "config.h"

#include "store/json-cursor.h"

#include <glib/gi18n.h>
#include <string.h>
#include "store/json-printer.h"
#include "store/store-error.h"

void
odd_reading_init (OddReading *self, const char *name)
{
  *self = (OddReading) { .name = name, .warnings = g_ptr_array_new_with_free_func (g_free) };
}

void
odd_reading_warn (OddReading *self, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_ptr_array_add (self->warnings, g_strdup_vprintf (format, args));
  va_end (args);
}

void
odd_cursor_init (OddCursor *self, OddReading *reading, JsonObject *object)
{
  *self = (OddCursor) { .reading = reading, .object = object, .index = -1 };
}

/* --- places and failures --- */

static void
append_place (const OddCursor *self, GString *place)
{
  if (!self->parent)
    return;
  append_place (self->parent, place);
  if (place->len > 0)
    g_string_append_c (place, '.');
  g_string_append (place, self->member);
  if (self->index >= 0)
    g_string_append_printf (place, "[%d]", self->index);
}

char *
odd_cursor_dup_place (OddCursor *self, const char *member, int index)
{
  GString *place = g_string_new (NULL);

  append_place (self, place);
  if (member)
    g_string_append_printf (place, "%s%s", place->len > 0 ? "." : "", member);
  if (member && index >= 0)
    g_string_append_printf (place, "[%d]", index);
  if (place->len == 0)
    g_string_append (place, _("the top"));
  return g_string_free (place, FALSE);
}

static void
fail_at (OddCursor *self, const char *member, int index, const char *what)
{
  g_autofree char *place = NULL;
  const char *stop;

  if (self->reading->error)
    return;
  place = odd_cursor_dup_place (self, member, index);
  stop = g_str_has_suffix (what, ".") ? "" : ".";
  g_set_error (&self->reading->error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN,
               /* Translators: file name, place in it such as scraps[3].outline_mm, what is wrong there, full stop where missing */
               _("“%s” cannot be read, at %s: %s%s"), self->reading->name, place, what, stop);
}

void
odd_cursor_fail (OddCursor *self, const char *member, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  fail_at (self, member, -1, what);
}

void
odd_cursor_fail_element (OddCursor *self, const char *member, guint i, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  fail_at (self, member, (int) i, what);
}

void
odd_cursor_fail_with (OddCursor *self, const char *member, GError *error)
{
  g_autoptr(GError) why = error;

  fail_at (self, member, -1, why ? why->message : "?");
}

/* --- going down and up --- */

static void
remember_asked (OddCursor *self, const char *member)
{
  for (guint i = 0; i < self->n_asked; i++)
    if (self->asked[i] == member || strcmp (self->asked[i], member) == 0)
      return;
  g_assert (self->n_asked < ODD_CURSOR_MAX_MEMBERS);
  self->asked[self->n_asked++] = member;
  if (json_object_has_member (self->object, member))
    self->n_found++;
}

/* NULL when it is not there, or when nothing matters any more. */
static JsonNode *
ask (OddCursor *self, const char *member)
{
  remember_asked (self, member);
  return odd_reading_failed (self->reading) ? NULL : json_object_get_member (self->object, member);
}

static void
fail_object (OddCursor *self, const char *member, int index)
{
  fail_at (self, member, index, _("an object in braces is expected here"));
}

gboolean
odd_cursor_enter (OddCursor *self, const char *member, OddCursor *out_child)
{
  JsonNode *node = ask (self, member);

  if (!node)
    return FALSE;
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return fail_object (self, member, -1), FALSE;
  odd_cursor_init (out_child, self->reading, json_node_get_object (node));
  out_child->parent = self;
  out_child->member = member;
  return TRUE;
}

JsonArray *
odd_cursor_get_array (OddCursor *self, const char *member)
{
  JsonNode *node = ask (self, member);

  if (!node)
    return NULL;
  if (JSON_NODE_HOLDS_ARRAY (node))
    return json_node_get_array (node);
  odd_cursor_fail (self, member, _("a list in brackets is expected here"));
  return NULL;
}

gboolean
odd_cursor_enter_element (OddCursor *self, const char *member, JsonArray *array, guint i, OddCursor *out_child)
{
  JsonNode *node = json_array_get_element (array, i);

  if (odd_reading_failed (self->reading))
    return FALSE;
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return fail_object (self, member, (int) i), FALSE;
  odd_cursor_init (out_child, self->reading, json_node_get_object (node));
  out_child->parent = self;
  out_child->member = member;
  out_child->index = (int) i;
  out_child->n_elements = json_array_get_length (array);
  return TRUE;
}

static gboolean
was_asked (const OddCursor *self, const char *member)
{
  for (guint i = 0; i < self->n_asked; i++)
    if (strcmp (self->asked[i], member) == 0)
      return TRUE;
  return FALSE;
}

/* (transfer full): members nobody asked for and what the objects below left over; NULL when there is nothing */
static JsonObject *
take_left_over (OddCursor *self)
{
  JsonObjectIter iter;
  const char *member;
  JsonNode *node;

  if (self->n_found == json_object_get_size (self->object))
    return g_steal_pointer (&self->left_over);
  if (!self->left_over)
    self->left_over = json_object_new ();
  json_object_iter_init_ordered (&iter, self->object);
  while (json_object_iter_next_ordered (&iter, &member, &node))
    if (!was_asked (self, member))
      json_object_set_member (self->left_over, member, json_node_copy (node));
  return g_steal_pointer (&self->left_over);
}

/* An array as long as the document's, null where nothing is left over. */
static JsonArray *
ensure_array (JsonObject *object, const char *member, guint n)
{
  JsonArray *array;

  if (json_object_has_member (object, member))
    return json_object_get_array_member (object, member);
  array = json_array_sized_new (n);
  for (guint i = 0; i < n; i++)
    json_array_add_null_element (array);
  json_object_set_array_member (object, member, array);
  return array;
}

static void
replace_element (JsonArray *array, guint index, JsonObject *object)
{
  JsonNode *node = json_array_get_element (array, index);

  json_node_init_object (node, object);
}

void
odd_cursor_leave (OddCursor *self)
{
  g_autoptr(JsonObject) left_over = take_left_over (self);

  if (!left_over || !self->parent)
    return;
  if (!self->parent->left_over)
    self->parent->left_over = json_object_new ();
  if (self->index < 0)
    json_object_set_object_member (self->parent->left_over, self->member, g_steal_pointer (&left_over));
  else
    replace_element (ensure_array (self->parent->left_over, self->member, self->n_elements), (guint) self->index, left_over);
}

char *
odd_cursor_leave_with_unknown (OddCursor *self)
{
  g_autoptr(JsonObject) left_over = take_left_over (self);

  if (!left_over || odd_reading_failed (self->reading))
    return NULL;
  return odd_json_object_to_text (left_over);
}

/* --- plain values --- */

gboolean
odd_cursor_has (OddCursor *self, const char *member)
{
  return ask (self, member) != NULL;
}

void
odd_cursor_refuse (OddCursor *self, const char *const *members, const char *what)
{
  for (guint i = 0; members[i]; i++)
    if (odd_cursor_has (self, members[i]))
      odd_cursor_fail (self, members[i], _("%s has no “%s”; take it out"), what, members[i]);
}

void
odd_cursor_drop (OddCursor *self, const char *const *members)
{
  for (guint i = 0; members[i]; i++)
    remember_asked (self, members[i]);
}

void
odd_cursor_require (OddCursor *self, const char *member)
{
  if (!ask (self, member))
    odd_cursor_fail (self, NULL, _("“%s” is missing here; put it in"), member);
}

/* FALSE when it is no number */
static gboolean
node_to_double (JsonNode *node, double *out)
{
  GType type;

  if (!JSON_NODE_HOLDS_VALUE (node))
    return FALSE;
  type = json_node_get_value_type (node);
  if (type != G_TYPE_INT64 && type != G_TYPE_DOUBLE)
    return FALSE;
  *out = json_node_get_double (node);
  return TRUE;
}

static double
check_double (OddCursor *self, const char *member, int index, JsonNode *node, double fallback, double min, double max)
{
  g_autofree char *what = NULL;
  double value = fallback;

  if (!node_to_double (node, &value))
    fail_at (self, member, index, _("a number is expected here"));
  else if (value >= min && value <= max)
    return value;
  else
    {
      what = g_strdup_printf (_("%g is out of range; it must lie between %g and %g"), value, min, max);
      fail_at (self, member, index, what);
    }
  return fallback;
}

double
odd_cursor_double (OddCursor *self, const char *member, double fallback, double min, double max)
{
  JsonNode *node = ask (self, member);

  return node ? check_double (self, member, -1, node, fallback, min, max) : fallback;
}

static guint
check_uint (OddCursor *self, const char *member, int index, JsonNode *node, guint fallback, guint min, guint max)
{
  const double value = check_double (self, member, index, node, fallback, min, max);

  if (value == floor (value))
    return (guint) value;
  fail_at (self, member, index, _("a whole number is expected here"));
  return fallback;
}

guint
odd_cursor_uint (OddCursor *self, const char *member, guint fallback, guint min, guint max)
{
  JsonNode *node = ask (self, member);

  return node ? check_uint (self, member, -1, node, fallback, min, max) : fallback;
}

static gboolean
check_bool (OddCursor *self, const char *member, int index, JsonNode *node, gboolean fallback)
{
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    return json_node_get_boolean (node);
  fail_at (self, member, index, _("true or false is expected here"));
  return fallback;
}

gboolean
odd_cursor_bool (OddCursor *self, const char *member, gboolean fallback)
{
  JsonNode *node = ask (self, member);

  return node ? check_bool (self, member, -1, node, fallback) : fallback;
}

static const char *
check_string (OddCursor *self, const char *member, int index, JsonNode *node, const char *fallback)
{
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    return json_node_get_string (node);
  fail_at (self, member, index, _("text in double quotes is expected here"));
  return fallback;
}

const char *
odd_cursor_string (OddCursor *self, const char *member, const char *fallback)
{
  JsonNode *node = ask (self, member);

  return node ? check_string (self, member, -1, node, fallback) : fallback;
}

guint
odd_cursor_element_uint (OddCursor *self, const char *member, JsonArray *array, guint i, guint min, guint max)
{
  return check_uint (self, member, (int) i, json_array_get_element (array, i), min, min, max);
}

double
odd_cursor_element_double (OddCursor *self, const char *member, JsonArray *array, guint i, double min, double max)
{
  return check_double (self, member, (int) i, json_array_get_element (array, i), 0.0, min, max);
}

gboolean
odd_cursor_element_bool (OddCursor *self, const char *member, JsonArray *array, guint i)
{
  return check_bool (self, member, (int) i, json_array_get_element (array, i), FALSE);
}

const char *
odd_cursor_element_string (OddCursor *self, const char *member, JsonArray *array, guint i)
{
  return check_string (self, member, (int) i, json_array_get_element (array, i), "");
}

/* --- points --- */

/* [x, y] */
static gboolean
node_to_point (JsonNode *node, double limit, OddPoint *out)
{
  JsonArray *pair;
  OddPoint p;

  if (!JSON_NODE_HOLDS_ARRAY (node))
    return FALSE;
  pair = json_node_get_array (node);
  if (json_array_get_length (pair) != 2
      || !node_to_double (json_array_get_element (pair, 0), &p.x)
      || !node_to_double (json_array_get_element (pair, 1), &p.y)
      || fabs (p.x) > limit || fabs (p.y) > limit)
    return FALSE;
  *out = p;
  return TRUE;
}

static void
fail_point (OddCursor *self, const char *member, int index, double limit)
{
  g_autofree char *what = g_strdup_printf (_("[x, y] is expected here, each between -%g and %g"), limit, limit);

  fail_at (self, member, index, what);
}

OddPoint
odd_cursor_pair (OddCursor *self, const char *member, OddPoint fallback, double limit)
{
  JsonNode *node = ask (self, member);
  OddPoint p = fallback;

  if (node && !node_to_point (node, limit, &p))
    fail_point (self, member, -1, limit);
  return p;
}

static gboolean
count_is_good (OddCursor *self, const char *member, int index, guint n)
{
  g_autofree char *what = NULL;

  if (n < 3)
    what = g_strdup_printf (ngettext ("the outline has %u corner; it needs at least three", "the outline has %u corners; it needs at least three", n), n);
  else if (n > ODD_JSON_MAX_CORNERS)
    what = g_strdup_printf (_("the outline has %u corners; simplify it to at most %d"), n, ODD_JSON_MAX_CORNERS);
  else
    return TRUE;
  fail_at (self, member, index, what);
  return FALSE;
}

/* @index: of the ring in an array of rings, or -1 */
static GArray *
read_points (OddCursor *self, const char *member, int index, JsonArray *array)
{
  const guint n = json_array_get_length (array);
  g_autoptr(GArray) points = NULL;

  if (odd_reading_failed (self->reading) || !count_is_good (self, member, index, n))
    return NULL;
  points = g_array_sized_new (FALSE, FALSE, sizeof (OddPoint), n);
  g_array_set_size (points, n);
  for (guint i = 0; i < n; i++)
    if (!node_to_point (json_array_get_element (array, i), ODD_JSON_MAX_MM, &g_array_index (points, OddPoint, i)))
      return fail_point (self, member, index < 0 ? (int) i : index, ODD_JSON_MAX_MM), NULL;
  return g_steal_pointer (&points);
}

GArray *
odd_cursor_points (OddCursor *self, const char *member)
{
  JsonArray *array = odd_cursor_get_array (self, member);

  return array ? read_points (self, member, -1, array) : NULL;
}

GArray *
odd_cursor_element_points (OddCursor *self, const char *member, JsonArray *array, guint i)
{
  JsonNode *node = json_array_get_element (array, i);

  if (JSON_NODE_HOLDS_ARRAY (node))
    return read_points (self, member, (int) i, json_node_get_array (node));
  fail_at (self, member, (int) i, _("a list of corners in brackets is expected here"));
  return NULL;
}
