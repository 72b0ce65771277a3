#include "config.h"

#include "store/json-printer.h"

#include <glib/gi18n.h>
#include <string.h>
#include "store/json-guard.h"
#include "store/store-error.h"

typedef struct
{
  gboolean lines;             /* what is inside stands on lines of its own */
  guint n;                    /* printed so far */
  JsonObject *unknown;        /* of an object: what is to be put back, or NULL */
  JsonArray *unknown_array;   /* of an array */
  GHashTable *printed;        /* members, only where there is something to put back */
} Frame;

struct _OddPrinter
{
  GString *text;
  Frame frames[ODD_JSON_MAX_NESTING];
  guint depth;
  char *wrong;                /* the first value that cannot be written */
};

static void
frame_clear (Frame *frame)
{
  g_clear_pointer (&frame->unknown, json_object_unref);
  g_clear_pointer (&frame->unknown_array, json_array_unref);
  g_clear_pointer (&frame->printed, g_hash_table_unref);
}

OddPrinter *
odd_printer_new (void)
{
  OddPrinter *self = g_new0 (OddPrinter, 1);

  self->text = g_string_sized_new (4096);
  return self;
}

void
odd_printer_free (OddPrinter *self)
{
  for (guint i = 0; i < self->depth; i++)
    frame_clear (&self->frames[i]);
  if (self->text)
    g_string_free (self->text, TRUE);
  g_free (self->wrong);
  g_free (self);
}

GBytes *
odd_printer_finish (OddPrinter *self, GError **error)
{
  g_return_val_if_fail (self->depth == 0, NULL);

  if (self->wrong)
    {
      g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE, _("The job cannot be written: %s; nothing was saved."), self->wrong);
      return NULL;
    }
  g_string_append_c (self->text, '\n');
  return g_string_free_to_bytes (g_steal_pointer (&self->text));
}

static void
set_wrong (OddPrinter *self, const char *member, const char *what)
{
  if (!self->wrong)
    self->wrong = g_strdup_printf (_("“%s” %s"), member ? member : "?", what);
}

/* --- plain text --- */

/* Fewest digits of the three forms that %g knows; whole numbers without a point, which is how people write them. */
const char *
odd_double_to_text (double value, char *buffer)
{
  static const char *const formats[] = { "%.15g", "%.16g", "%.17g" };

  if (value == 0.0)
    return "0";      /* a sign of zero means nothing in cloth, and would differ after reading */
  if (fabs (value) < 1e15 && value == rint (value))
    {
      g_snprintf (buffer, G_ASCII_DTOSTR_BUF_SIZE, "%" G_GINT64_FORMAT, (gint64) value);
      return buffer;
    }
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      g_ascii_formatd (buffer, G_ASCII_DTOSTR_BUF_SIZE, formats[i], value);
      if (i == 2 || g_ascii_strtod (buffer, NULL) == value)
        break;
    }
  return buffer;
}

static void
append_double (OddPrinter *self, const char *member, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value))
    set_wrong (self, member, _("is not a number"));
  else
    g_string_append (self->text, odd_double_to_text (value, buffer));
}

static void
append_char (GString *text, char c)
{
  static const char from[] = "\"\\\b\f\n\r\t", to[] = "\"\\bfnrt";
  const char *found = c == '\0' ? NULL : strchr (from, c);

  if (found)
    {
      g_string_append_c (text, '\\');
      g_string_append_c (text, to[found - from]);
    }
  else if ((guchar) c < 0x20)
    g_string_append_printf (text, "\\u%04x", (guint) (guchar) c);
  else
    g_string_append_c (text, c);
}

static void
append_string (OddPrinter *self, const char *member, const char *string)
{
  if (!g_utf8_validate (string, -1, NULL))
    {
      set_wrong (self, member, _("holds text that is not UTF-8"));
      return;
    }
  g_string_append_c (self->text, '"');
  for (const char *p = string; *p; p++)
    append_char (self->text, *p);
  g_string_append_c (self->text, '"');
}

/* --- structure --- */

static Frame *
top (OddPrinter *self)
{
  return self->depth > 0 ? &self->frames[self->depth - 1] : NULL;
}

static void
begin_value (OddPrinter *self, const char *member)
{
  Frame *frame = top (self);

  if (!frame)
    return;
  if (frame->n++ > 0)
    g_string_append_c (self->text, ',');
  if (frame->lines)
    {
      g_string_append_c (self->text, '\n');
      for (guint i = 0; i < self->depth; i++)
        g_string_append_c (self->text, ' ');
    }
  else if (frame->n > 1)
    g_string_append_c (self->text, ' ');
  if (!member)
    return;
  append_string (self, NULL, member);
  g_string_append (self->text, ": ");
  if (frame->printed)
    g_hash_table_add (frame->printed, g_strdup (member));
}

static Frame *
push (OddPrinter *self, char bracket, gboolean lines)
{
  Frame *frame;

  g_assert (self->depth < ODD_JSON_MAX_NESTING);
  frame = &self->frames[self->depth++];
  *frame = (Frame) { .lines = lines };
  g_string_append_c (self->text, bracket);
  return frame;
}

static void
pop (OddPrinter *self, char bracket)
{
  Frame *frame = top (self);

  self->depth--;
  if (frame->lines && frame->n > 0)
    {
      g_string_append_c (self->text, '\n');
      for (guint i = 0; i < self->depth; i++)
        g_string_append_c (self->text, ' ');
    }
  g_string_append_c (self->text, bracket);
  frame_clear (frame);
}

/* What is to be put back into the value that begins now; (transfer none) */
static JsonNode *
find_unknown (OddPrinter *self, const char *member)
{
  Frame *frame = top (self);

  if (!frame)
    return NULL;
  if (member)
    return frame->unknown ? json_object_get_member (frame->unknown, member) : NULL;
  if (frame->unknown_array && frame->n < json_array_get_length (frame->unknown_array))
    return json_array_get_element (frame->unknown_array, frame->n);
  return NULL;
}

/* (transfer full), or NULL */
static JsonObject *
parse_unknown (OddPrinter *self, const char *member, const char *unknown_json)
{
  g_autoptr(JsonNode) node = odd_json_parse_object (unknown_json, strlen (unknown_json), "", NULL);

  if (node)
    return json_object_ref (json_node_get_object (node));
  set_wrong (self, member, _("has members from elsewhere that are no JSON"));
  return NULL;
}

void
odd_printer_begin_object (OddPrinter *self, const char *member, const char *unknown_json)
{
  JsonNode *node = find_unknown (self, member);
  JsonObject *unknown = NULL;
  Frame *frame;

  if (unknown_json)
    unknown = parse_unknown (self, member, unknown_json);
  else if (node && JSON_NODE_HOLDS_OBJECT (node))
    unknown = json_object_ref (json_node_get_object (node));

  begin_value (self, member);
  frame = push (self, '{', self->depth == 0);
  frame->unknown = unknown;
  if (unknown)
    frame->printed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

static void append_node (OddPrinter *self, const char *member, JsonNode *node);

static void
append_unknown (OddPrinter *self, const Frame *frame)
{
  JsonObjectIter iter;
  const char *member;
  JsonNode *node;

  json_object_iter_init_ordered (&iter, frame->unknown);
  while (json_object_iter_next_ordered (&iter, &member, &node))
    if (!g_hash_table_contains (frame->printed, member))
      append_node (self, member, node);
}

void
odd_printer_end_object (OddPrinter *self)
{
  Frame *frame = top (self);

  if (frame->unknown)
    append_unknown (self, frame);
  pop (self, '}');
}

void
odd_printer_absent (OddPrinter *self, const char *member)
{
  Frame *frame = top (self);

  if (frame->printed)
    g_hash_table_add (frame->printed, g_strdup (member));
}

void
odd_printer_begin_array (OddPrinter *self, const char *member, guint n, gboolean lines)
{
  JsonNode *node = find_unknown (self, member);
  Frame *frame;

  begin_value (self, member);
  frame = push (self, '[', lines);
  /* When elements came or went since, nobody can say which of them the left-overs belong to. */
  if (node && JSON_NODE_HOLDS_ARRAY (node) && json_array_get_length (json_node_get_array (node)) == n)
    frame->unknown_array = json_array_ref (json_node_get_array (node));
}

void
odd_printer_end_array (OddPrinter *self)
{
  pop (self, ']');
}

/* --- what is not known, as it is --- */

static void
append_array (OddPrinter *self, const char *member, JsonArray *array)
{
  const guint n = json_array_get_length (array);

  odd_printer_begin_array (self, member, n, FALSE);
  for (guint i = 0; i < n; i++)
    append_node (self, NULL, json_array_get_element (array, i));
  odd_printer_end_array (self);
}

static void
append_object (OddPrinter *self, const char *member, JsonObject *object)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  begin_value (self, member);
  push (self, '{', FALSE);
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &name, &node))
    append_node (self, name, node);
  pop (self, '}');
}

static void
append_scalar (OddPrinter *self, const char *member, JsonNode *node)
{
  const GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;

  begin_value (self, member);
  if (type == G_TYPE_STRING)
    append_string (self, member, json_node_get_string (node));
  else if (type == G_TYPE_INT64)
    g_string_append_printf (self->text, "%" G_GINT64_FORMAT, json_node_get_int (node));
  else if (type == G_TYPE_DOUBLE)
    append_double (self, member, json_node_get_double (node));
  else if (type == G_TYPE_BOOLEAN)
    g_string_append (self->text, json_node_get_boolean (node) ? "true" : "false");
  else
    g_string_append (self->text, "null");
}

static void
append_node (OddPrinter *self, const char *member, JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    append_object (self, member, json_node_get_object (node));
  else if (JSON_NODE_HOLDS_ARRAY (node))
    append_array (self, member, json_node_get_array (node));
  else
    append_scalar (self, member, node);
}

char *
odd_json_object_to_text (JsonObject *object)
{
  g_autoptr(OddPrinter) printer = odd_printer_new ();

  append_object (printer, NULL, object);
  return g_string_free (g_steal_pointer (&printer->text), FALSE);
}

/* --- plain values --- */

void
odd_printer_string (OddPrinter *self, const char *member, const char *text)
{
  begin_value (self, member);
  append_string (self, member, text);
}

void
odd_printer_double (OddPrinter *self, const char *member, double value)
{
  begin_value (self, member);
  append_double (self, member, value);
}

void
odd_printer_uint (OddPrinter *self, const char *member, guint value)
{
  begin_value (self, member);
  g_string_append_printf (self->text, "%u", value);
}

void
odd_printer_bool (OddPrinter *self, const char *member, gboolean value)
{
  begin_value (self, member);
  g_string_append (self->text, value ? "true" : "false");
}

void
odd_printer_null (OddPrinter *self, const char *member)
{
  begin_value (self, member);
  g_string_append (self->text, "null");
}

static void
append_point (OddPrinter *self, const char *member, OddPoint p)
{
  g_string_append_c (self->text, '[');
  append_double (self, member, p.x);
  g_string_append (self->text, ", ");
  append_double (self, member, p.y);
  g_string_append_c (self->text, ']');
}

void
odd_printer_point (OddPrinter *self, const char *member, OddPoint p)
{
  begin_value (self, member);
  append_point (self, member, p);
}

void
odd_printer_points (OddPrinter *self, const char *member, const OddPoint *points, gsize n)
{
  begin_value (self, member);
  g_string_append_c (self->text, '[');
  for (gsize i = 0; i < n; i++)
    {
      if (i > 0)
        g_string_append (self->text, ", ");
      append_point (self, member, points[i]);
    }
  g_string_append_c (self->text, ']');
}
