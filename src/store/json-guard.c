/* A recursive-descent scan of RFC 8259, bounded by ODD_JSON_MAX_NESTING levels of recursion.
 *
 * Keys of all objects that are open lie on one stack; each object remembers where its own begin, and looks for a pair of
 * equal ones when it closes: by sorting, so that an object of a million keys costs no more than a sort.
 */
#include "config.h"

#include "store/json-guard.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>
#include "store/store-error.h"

#define LONGEST_NUMBER 400   /* the longest double in plain digits has fewer before the point */

typedef struct
{
  const char *at;            /* in the text, for the message */
  const char *name;          /* in the text, or decoded */
  gsize length;
} Key;

typedef struct
{
  const char *text, *end, *p;
  guint depth;
  guint n_values;
  GArray *keys;              /* (element-type Key) */
  GPtrArray *decoded;        /* keys that had escapes */
  const char *wrong_at;
  const char *wrong;         /* translated */
} Scan;

static gboolean scan_value (Scan *scan);

static gboolean
fail (Scan *scan, const char *at, const char *what)
{
  scan->wrong_at = at;
  scan->wrong = what;
  return FALSE;
}

static void
skip_space (Scan *scan)
{
  while (scan->p < scan->end && (*scan->p == ' ' || *scan->p == '\t' || *scan->p == '\n' || *scan->p == '\r'))
    scan->p++;
}

static gboolean
skip_char (Scan *scan, char c)
{
  if (scan->p >= scan->end || *scan->p != c)
    return FALSE;
  scan->p++;
  return TRUE;
}

static gboolean
read_hex (const char *p, const char *end, guint *out)
{
  guint value = 0;

  if (end - p < 4)
    return FALSE;
  for (int i = 0; i < 4; i++)
    {
      const int digit = g_ascii_xdigit_value (p[i]);
      if (digit < 0)
        return FALSE;
      value = value * 16 + (guint) digit;
    }
  *out = value;
  return TRUE;
}

/* At the u of an escape. Appends what it means to @decoded when that is not NULL. */
static gboolean
scan_unicode_escape (Scan *scan, GString *decoded)
{
  const char *start = scan->p - 1;
  guint high, low;
  gunichar c;

  if (!read_hex (scan->p + 1, scan->end, &high))
    return fail (scan, start, _("a \\u escape needs four hexadecimal digits"));
  scan->p += 5;
  c = high;
  if (high == 0)
    return fail (scan, start, _("text may not hold the character zero"));
  if (high >= 0xDC00 && high <= 0xDFFF)
    return fail (scan, start, _("this \\u escape is the second half of a pair without its first"));
  if (high >= 0xD800 && high <= 0xDBFF)
    {
      if (scan->end - scan->p < 6 || scan->p[0] != '\\' || scan->p[1] != 'u'
          || !read_hex (scan->p + 2, scan->end, &low) || low < 0xDC00 || low > 0xDFFF)
        return fail (scan, start, _("this \\u escape is the first half of a pair without its second"));
      scan->p += 6;
      c = 0x10000 + ((high - 0xD800) << 10) + (low - 0xDC00);
    }
  if (decoded)
    g_string_append_unichar (decoded, c);
  return TRUE;
}

static gboolean
scan_escape (Scan *scan, GString *decoded)
{
  static const char from[] = "\"\\/bfnrt", to[] = "\"\\/\b\f\n\r\t";
  const char *found;

  scan->p++;
  if (scan->p >= scan->end)
    return fail (scan, scan->end, _("the text ends inside a string"));
  if (*scan->p == 'u')
    return scan_unicode_escape (scan, decoded);
  found = *scan->p == '\0' ? NULL : strchr (from, *scan->p);
  if (!found)
    return fail (scan, scan->p - 1, _("this escape is not known in JSON"));
  if (decoded)
    g_string_append_c (decoded, to[found - from]);
  scan->p++;
  return TRUE;
}

/* @out_escaped: whether there was an escape, so that the bytes are not the text yet. */
static gboolean
scan_string (Scan *scan, gboolean *out_escaped)
{
  const char *start = scan->p;

  *out_escaped = FALSE;
  if (!skip_char (scan, '"'))
    return fail (scan, scan->p, _("a string in double quotes is expected here"));
  while (scan->p < scan->end)
    {
      if (*scan->p == '"')
        {
          scan->p++;
          return TRUE;
        }
      if ((guchar) *scan->p < 0x20)
        return fail (scan, scan->p, _("a string may not hold line breaks or control characters as they are"));
      if (*scan->p != '\\')
        scan->p++;
      else if (*out_escaped = TRUE, !scan_escape (scan, NULL))
        return FALSE;
    }
  return fail (scan, start, _("the text ends inside a string that begins here"));
}

static gboolean
skip_digits (Scan *scan)
{
  const char *start = scan->p;

  while (scan->p < scan->end && g_ascii_isdigit (*scan->p))
    scan->p++;
  return scan->p > start;
}

static gboolean
check_size (Scan *scan, const char *start, gboolean whole, gboolean exponent)
{
  char digits[LONGEST_NUMBER + 1];
  const gsize length = (gsize) (scan->p - start);

  if (!exponent && length <= 18)
    return TRUE;
  if (length > LONGEST_NUMBER)
    return fail (scan, start, _("this number has too many digits"));
  memcpy (digits, start, length);
  digits[length] = '\0';
  errno = 0;
  if (!whole)
    return isfinite (g_ascii_strtod (digits, NULL)) || fail (scan, start, _("this number is too large"));
  g_ascii_strtoll (digits, NULL, 10);
  return errno != ERANGE || fail (scan, start, _("this whole number is too large"));
}

static gboolean
scan_number (Scan *scan)
{
  const char *start = scan->p;
  gboolean whole = TRUE, exponent = FALSE;

  skip_char (scan, '-');
  if (scan->p < scan->end && *scan->p == '0')
    scan->p++;
  else if (!skip_digits (scan))
    return fail (scan, start, _("a value is expected here"));
  if (skip_char (scan, '.'))
    {
      whole = FALSE;
      if (!skip_digits (scan))
        return fail (scan, start, _("digits are missing after the decimal point"));
    }
  if (skip_char (scan, 'e') || skip_char (scan, 'E'))
    {
      whole = FALSE;
      exponent = TRUE;
      if (!skip_char (scan, '+'))
        skip_char (scan, '-');
      if (!skip_digits (scan))
        return fail (scan, start, _("digits are missing in the exponent"));
    }
  return check_size (scan, start, whole, exponent);
}

static gboolean
scan_word (Scan *scan, const char *word)
{
  const gsize length = strlen (word);

  if ((gsize) (scan->end - scan->p) < length || memcmp (scan->p, word, length) != 0)
    return fail (scan, scan->p, _("a value is expected here"));
  scan->p += length;
  return TRUE;
}

/* The key's text with its escapes resolved; kept by the scan. */
static void
decode_key (Scan *scan, Key *key)
{
  GString *decoded = g_string_new (NULL);
  Scan inner = *scan;

  inner.p = key->at + 1;
  while (*inner.p != '"')
    {
      if (*inner.p == '\\')
        scan_escape (&inner, decoded);
      else
        g_string_append_c (decoded, *inner.p++);
    }
  key->length = decoded->len;
  key->name = g_string_free (decoded, FALSE);
  g_ptr_array_add (scan->decoded, (char *) key->name);
}

static gboolean
scan_key (Scan *scan)
{
  Key key = { .at = scan->p };
  gboolean escaped;

  if (!scan_string (scan, &escaped))
    return FALSE;
  key.name = key.at + 1;
  key.length = (gsize) (scan->p - key.name) - 1;
  if (escaped)
    decode_key (scan, &key);
  g_array_append_val (scan->keys, key);
  return TRUE;
}

static int
compare_names (const Key *a, const Key *b)
{
  if (a->length != b->length)
    return a->length < b->length ? -1 : 1;
  return memcmp (a->name, b->name, a->length);
}

static int
compare_keys (const void *pa, const void *pb)
{
  const Key *a = pa, *b = pb;
  const int order = compare_names (a, b);

  return order != 0 ? order : (a->at > b->at) - (a->at < b->at);
}

static gboolean
check_keys (Scan *scan, guint first)
{
  Key *keys = &g_array_index (scan->keys, Key, first);
  const guint n = scan->keys->len - first;

  if (n > 12)
    qsort (keys, n, sizeof *keys, compare_keys);
  for (guint i = 1; i < n; i++)
    for (guint k = n > 12 ? i - 1 : 0; k < i; k++)
      if (compare_names (&keys[i], &keys[k]) == 0)
        return fail (scan, keys[i].at, _("this key stands twice in the same object"));
  g_array_set_size (scan->keys, first);
  return TRUE;
}

static gboolean
scan_member (Scan *scan)
{
  skip_space (scan);
  if (!scan_key (scan))
    return FALSE;
  skip_space (scan);
  if (!skip_char (scan, ':'))
    return fail (scan, scan->p, _("a colon is expected here"));
  return scan_value (scan);
}

static gboolean
enter (Scan *scan)
{
  if (++scan->depth > ODD_JSON_MAX_NESTING)
    return fail (scan, scan->p, _("brackets are nested more than 64 deep"));
  scan->p++;
  skip_space (scan);
  return TRUE;
}

static gboolean
scan_object (Scan *scan)
{
  const guint first = scan->keys->len;

  if (!enter (scan))
    return FALSE;
  if (!skip_char (scan, '}'))
    {
      do
        if (!scan_member (scan))
          return FALSE;
      while (skip_char (scan, ','));
      if (!skip_char (scan, '}'))
        return fail (scan, scan->p, _("a comma or a closing brace is expected here"));
    }
  scan->depth--;
  return scan->keys->len == first || check_keys (scan, first);
}

static gboolean
scan_array (Scan *scan)
{
  if (!enter (scan))
    return FALSE;
  if (!skip_char (scan, ']'))
    {
      do
        if (!scan_value (scan))
          return FALSE;
      while (skip_char (scan, ','));
      if (!skip_char (scan, ']'))
        return fail (scan, scan->p, _("a comma or a closing bracket is expected here"));
    }
  scan->depth--;
  return TRUE;
}

static gboolean
scan_any (Scan *scan)
{
  gboolean escaped;

  switch (scan->p < scan->end ? *scan->p : '\0')
    {
    case '{': return scan_object (scan);
    case '[': return scan_array (scan);
    case '"': return scan_string (scan, &escaped);
    case 't': return scan_word (scan, "true");
    case 'f': return scan_word (scan, "false");
    case 'n': return scan_word (scan, "null");
    default: return scan_number (scan);
    }
}

/* With the space before and after it. */
static gboolean
scan_value (Scan *scan)
{
  skip_space (scan);
  if (++scan->n_values > ODD_JSON_MAX_VALUES)
    return fail (scan, scan->p, _("there are more than five million values"));
  if (scan->p >= scan->end)
    return fail (scan, scan->end, _("the text ends too early"));
  if (!scan_any (scan))
    return FALSE;
  skip_space (scan);
  return TRUE;
}

static gboolean
scan_text (Scan *scan)
{
  const char *bad;

  if (!g_utf8_validate_len (scan->p, (gsize) (scan->end - scan->p), &bad))
    return fail (scan, bad, _("the text is not UTF-8"));
  if (scan->end - scan->p >= 3 && memcmp (scan->p, "\xEF\xBB\xBF", 3) == 0)
    scan->p += 3;
  if (!scan_value (scan))
    return FALSE;
  return scan->p == scan->end || fail (scan, scan->p, _("something follows after the end"));
}

static void
set_error (const Scan *scan, const char *name, GError **error)
{
  guint line = 1, column = 1;

  for (const char *p = scan->text; p < scan->wrong_at; p++)
    {
      if (*p == '\n')
        line++, column = 1;
      else if ((*p & 0xC0) != 0x80)   /* characters, not bytes */
        column++;
    }
  g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN,
               _("“%s” cannot be read, line %u, column %u: %s; mend it there or open an earlier copy."), name, line, column, scan->wrong);
}

gboolean
odd_json_guard (const char *text, gsize length, const char *name, GError **error)
{
  Scan scan = { .text = text, .p = text, .end = text + length };
  gboolean good;

  g_return_val_if_fail (text != NULL && name != NULL, FALSE);

  scan.keys = g_array_new (FALSE, FALSE, sizeof (Key));
  scan.decoded = g_ptr_array_new_with_free_func (g_free);
  good = scan_text (&scan);
  if (!good)
    set_error (&scan, name, error);
  g_array_unref (scan.keys);
  g_ptr_array_unref (scan.decoded);
  return good;
}

JsonNode *
odd_json_parse_object (const char *text, gsize length, const char *name, GError **error)
{
  g_autoptr(JsonParser) parser = NULL;
  g_autoptr(GError) why = NULL;
  JsonNode *root;

  if (!odd_json_guard (text, length, name, error))
    return NULL;
  if (length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    text += 3, length -= 3;

  parser = json_parser_new_immutable ();
  if (!json_parser_load_from_data (parser, text, (gssize) length, &why))
    {
      g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN, _("“%s” cannot be read as JSON: %s"), name, why->message);
      return NULL;
    }
  root = json_parser_steal_root (parser);
  if (root && JSON_NODE_HOLDS_OBJECT (root))
    return root;
  g_clear_pointer (&root, json_node_unref);
  g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN,
               _("“%s” holds no job and no scrap list: its JSON is not an object in braces; open another file."), name);
  return NULL;
}
