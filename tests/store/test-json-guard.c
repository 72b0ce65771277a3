#include "config.h"

#include <math.h>
#include <string.h>
#include "store/json-guard.h"
#include "store/json-printer.h"
#include "store/store-error.h"

static void
check_refused (const char *text, gsize length, const char *said)
{
  g_autoptr(GError) error = NULL;

  g_assert_false (odd_json_guard (text, length, "tub.json", &error));
  g_assert_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN);
  g_assert_nonnull (strstr (error->message, "“tub.json”"));
  if (!strstr (error->message, said))
    g_error ("“%s” does not say “%s”, for %.60s", error->message, said, text);
}

static void
test_refused (void)
{
  static const char *const cases[][2] = {
    { "", "ends too early" },
    { "  ", "ends too early" },
    { "{", "line 1, column 2" },
    { "[1, 2", "a comma or a closing bracket" },
    { "[1,]", "a value is expected" },
    { "{\"a\": 1,}", "double quotes" },
    { "{\"a\" 1}", "a colon" },
    { "{a: 1}", "double quotes" },
    { "[1] x", "follows after the end" },
    { "[1][2]", "follows after the end" },
    { "[NaN]", "a value is expected" },
    { "[Infinity]", "a value is expected" },
    { "[-Infinity]", "a value is expected" },
    { "[1e999]", "too large" },
    { "[-1e999]", "too large" },
    { "[1E99999]", "too large" },
    { "[9223372036854775808]", "whole number is too large" },
    { "[01]", "a comma or a closing bracket" },
    { "[1.]", "after the decimal point" },
    { "[1e]", "in the exponent" },
    { "[.5]", "a value is expected" },
    { "[+1]", "a value is expected" },
    { "[0x10]", "a comma or a closing bracket" },
    { "[truE]", "a value is expected" },
    { "[nul", "a value is expected" },
    { "/* c */ {}", "a value is expected" },
    { "[1] // c", "follows after the end" },
    { "[\"a\nb\"]", "line breaks" },
    { "[\"abc", "ends inside a string" },
    { "[\"\\x\"]", "not known in JSON" },
    { "[\"\\u12\"]", "four hexadecimal digits" },
    { "[\"\\u0000\"]", "character zero" },
    { "[\"\\ud800\"]", "without its second" },
    { "[\"\\udc00\"]", "without its first" },
    { "[\"\\ud800\\u0041\"]", "without its second" },
    { "[\"\xff\"]", "not UTF-8" },
    { "[\"\xc3\"]", "not UTF-8" },
    { "{\"a\": 1, \"b\": 2, \"a\": 3}", "line 1, column 18: this key stands twice" },
    { "{\"a\": 1, \"\\u0061\": 3}", "this key stands twice" },
    { "{\"o\": {\"\": 1, \"\": 1}}", "this key stands twice" },
    { "{\n \"a\": 1,\n \"b\": x}", "line 3, column 7" },
    { "{\"é\": 1, \"ü\": x}", "line 1, column 15" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    check_refused (cases[i][0], strlen (cases[i][0]), cases[i][1]);
  check_refused ("[1\0]", 4, "not UTF-8");
}

static void
test_let_through (void)
{
  static const char *const cases[] = {
    "{}", "[]", "0", "-0", "-0.5e-3", "1E+5", "9223372036854775807", "-9223372036854775808", "5e-324", "1.7976931348623157e308",
    "\"\\ud83d\\ude00\\n\\/\"", " { \"a\" : [ true , false , null ] } ", "\xEF\xBB\xBF{}", "{\"a\": {\"a\": 1}, \"b\": {\"a\": 1}}",
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(GError) error = NULL;

      g_assert_true (odd_json_guard (cases[i], strlen (cases[i]), "x", &error));
      g_assert_no_error (error);
    }
}

static char *
nest (guint depth)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < depth; i++)
    g_string_append (text, i % 2 ? "{\"a\":" : "[");
  g_string_append_c (text, '1');
  for (guint i = depth; i > 0; i--)
    g_string_append_c (text, (i - 1) % 2 ? '}' : ']');
  return g_string_free (text, FALSE);
}

static void
test_nesting (void)
{
  g_autofree char *deepest = nest (64), *deeper = nest (65), *endless = g_strnfill (1000000, '[');
  g_autoptr(GError) error = NULL;

  g_assert_true (odd_json_guard (deepest, strlen (deepest), "x", &error));
  g_assert_no_error (error);
  check_refused (deeper, strlen (deeper), "more than 64 deep");
  check_refused (endless, strlen (endless), "more than 64 deep");
}

static void
test_many_keys (void)
{
  GString *text = g_string_new ("{");

  g_test_summary ("Two equal keys among 200,000 are found, and in no more than a moment");
  for (guint i = 0; i < 200000; i++)
    g_string_append_printf (text, "\"k%u\":0,", i * 7919 % 200003);
  g_string_append (text, "\"k7919\":0}");
  check_refused (text->str, text->len, "this key stands twice");
  g_string_free (text, TRUE);
}

static void
test_many_values (void)
{
  GString *text = g_string_new ("[0");

  for (guint i = 0; i < ODD_JSON_MAX_VALUES; i++)
    g_string_append_len (text, ",0", 2);
  g_string_append_c (text, ']');
  check_refused (text->str, text->len, "five million values");
  g_string_free (text, TRUE);
}

static void
test_agrees_with_json_glib (void)
{
  static const char alphabet[] = "{}[]\",:0123456789.eE+-truefalsn \n\\u";

  g_test_summary ("Whatever passes is read by json-glib, over random texts");
  for (guint round = 0; round < 20000; round++)
    {
      char text[13];
      const gsize length = (gsize) g_test_rand_int_range (1, sizeof text);
      g_autoptr(JsonParser) parser = json_parser_new ();
      g_autoptr(GError) error = NULL;

      for (gsize i = 0; i < length; i++)
        text[i] = alphabet[g_test_rand_int_range (0, sizeof alphabet - 1)];
      if (!odd_json_guard (text, length, "x", NULL))
        continue;
      json_parser_load_from_data (parser, text, (gssize) length, &error);
      g_assert_no_error (error);
    }
}

static void
test_doubles (void)
{
  static const struct { double value; const char *text; } cases[] = {
    { 0.1, "0.1" }, { 12.7, "12.7" }, { 1.0 / 3.0, "0.3333333333333333" }, { 120, "120" }, { -3, "-3" }, { 0.0, "0" }, { -0.0, "0" },
    { 1e15, "1e+15" }, { 1e300, "1e+300" }, { 5e-324, "4.94065645841247e-324" }, { 94.6, "94.6" }, { 0.1 + 0.2, "0.30000000000000004" },
  };
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpstr (odd_double_to_text (cases[i].value, buffer), ==, cases[i].text);
}

static void
test_doubles_come_back (void)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_test_summary ("Any finite bit pattern is the same bits after text, guard and json-glib");
  for (guint round = 0; round < 20000; round++)
    {
      union { guint64 bits; double value; } in = { .bits = (guint64) (guint32) g_test_rand_int () << 32 | (guint32) g_test_rand_int () }, out;
      g_autofree char *text = NULL;
      g_autoptr(JsonNode) root = NULL;

      if (!isfinite (in.value))
        continue;
      text = g_strdup_printf ("{\"v\": %s}", odd_double_to_text (in.value, buffer));
      root = odd_json_parse_object (text, strlen (text), "x", NULL);
      g_assert_nonnull (root);
      out.value = json_object_get_double_member (json_node_get_object (root), "v");
      g_assert_cmphex (in.bits, ==, out.bits);
    }
}

static void
test_strings_come_back (void)
{
  g_autoptr(OddPrinter) printer = odd_printer_new ();
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(JsonNode) root = NULL;
  g_autoptr(GError) error = NULL;
  const char *text = "\"quoted\" \\ / \b\f\n\r\t\001\037 é 😀";

  odd_printer_begin_object (printer, NULL, NULL);
  odd_printer_string (printer, "s", text);
  odd_printer_end_object (printer);
  bytes = odd_printer_finish (printer, &error);
  g_assert_no_error (error);
  root = odd_json_parse_object (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), "x", &error);
  g_assert_no_error (error);
  g_assert_cmpstr (json_object_get_string_member (json_node_get_object (root), "s"), ==, text);
}

static void
test_nothing_half_printed (void)
{
  const double values[] = { NAN, INFINITY, -INFINITY };

  for (guint i = 0; i <= G_N_ELEMENTS (values); i++)
    {
      g_autoptr(OddPrinter) printer = odd_printer_new ();
      g_autoptr(GError) error = NULL;

      odd_printer_begin_object (printer, NULL, NULL);
      if (i < G_N_ELEMENTS (values))
        odd_printer_double (printer, "width", values[i]);
      else
        odd_printer_string (printer, "width", "\xff");
      odd_printer_end_object (printer);
      g_assert_null (odd_printer_finish (printer, &error));
      g_assert_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_WRITE);
      g_assert_nonnull (strstr (error->message, "“width”"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json-guard/refused", test_refused);
  g_test_add_func ("/json-guard/let-through", test_let_through);
  g_test_add_func ("/json-guard/nesting", test_nesting);
  g_test_add_func ("/json-guard/many-keys", test_many_keys);
  g_test_add_func ("/json-guard/many-values", test_many_values);
  g_test_add_func ("/json-guard/agrees-with-json-glib", test_agrees_with_json_glib);
  g_test_add_func ("/json-printer/doubles", test_doubles);
  g_test_add_func ("/json-printer/doubles-come-back", test_doubles_come_back);
  g_test_add_func ("/json-printer/strings-come-back", test_strings_come_back);
  g_test_add_func ("/json-printer/nothing-half-printed", test_nothing_half_printed);
  return g_test_run ();
}
