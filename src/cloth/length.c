#include "config.h"

#include "cloth/length.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define LIMIT_MM 10000.0           /* nothing on a sewing table is longer; same limit as in the job file */
#define MM_PER_INCH 25.4           /* exact, international yard and pound agreement of 1959 */
#define MM_PER_FOOT (12.0 * MM_PER_INCH)
#define SHOWN_TEXT 40              /* characters of a refused entry that an error repeats */

G_DEFINE_QUARK (odd-length-error-quark, odd_length_error)

typedef struct { const char *word; double mm; } UnitWord;

static const UnitWord unit_words[] = {
  { "cm", 10.0 }, { "mm", 1.0 }, { "m", 1000.0 },
  { "in", MM_PER_INCH }, { "inch", MM_PER_INCH }, { "inches", MM_PER_INCH },
  { "\"", MM_PER_INCH }, { "″", MM_PER_INCH }, { "”", MM_PER_INCH }, { "''", MM_PER_INCH },
  { "ft", MM_PER_FOOT }, { "foot", MM_PER_FOOT }, { "feet", MM_PER_FOOT }, { "'", MM_PER_FOOT }, { "′", MM_PER_FOOT },
};

typedef struct { gunichar sign; double value; } FractionSign;

static const FractionSign fraction_signs[] = {
  { 0x00BD, 1.0 / 2 }, { 0x00BC, 1.0 / 4 }, { 0x00BE, 3.0 / 4 },
  { 0x215B, 1.0 / 8 }, { 0x215C, 3.0 / 8 }, { 0x215D, 5.0 / 8 }, { 0x215E, 7.0 / 8 },
  { 0x2153, 1.0 / 3 }, { 0x2154, 2.0 / 3 },
};

static void
skip_spaces (const char **at)
{
  while (**at != '\0' && g_unichar_isspace (g_utf8_get_char (*at)))
    *at = g_utf8_next_char (*at);
}

static gboolean
take_char (const char **at,
           gunichar     wanted)
{
  if (g_utf8_get_char (*at) != wanted)
    return FALSE;
  *at = g_utf8_next_char (*at);
  return TRUE;
}

static gboolean
take_sign (const char **at)
{
  return take_char (at, '-') || take_char (at, 0x2212 /* minus sign */);
}

/* Digits with at most one decimal mark; the copy for g_ascii_strtod() has a point. */
static gboolean
take_number (const char **at,
             gboolean     comma,
             double      *out,
             gboolean    *out_whole)
{
  g_autoptr(GString) digits = g_string_new (NULL);
  gboolean marked = FALSE;
  guint n_digits = 0;
  const char *p;

  for (p = *at; g_ascii_isdigit (*p) || *p == '.' || (comma && *p == ','); p++)
    {
      const gboolean mark = !g_ascii_isdigit (*p);

      if (mark && marked)
        return FALSE;
      marked |= mark;
      n_digits += !mark;
      g_string_append_c (digits, mark ? '.' : *p);
    }
  if (n_digits == 0)
    return FALSE;

  *out = g_ascii_strtod (digits->str, NULL);
  *out_whole = !marked;
  *at = p;
  return TRUE;
}

static gboolean
take_fraction_sign (const char **at,
                    double      *out)
{
  for (guint i = 0; i < G_N_ELEMENTS (fraction_signs); i++)
    if (take_char (at, fraction_signs[i].sign))
      {
        *out = fraction_signs[i].value;
        return TRUE;
      }
  return FALSE;
}

/* What follows the numerator of a fraction: a slash and the denominator. */
static gboolean
take_denominator (const char **at,
                  double       numerator,
                  double      *out)
{
  const char *p = *at;
  double denominator;
  gboolean whole;

  skip_spaces (&p);
  if (!take_char (&p, '/') && !take_char (&p, 0x2044 /* fraction slash */))
    return FALSE;
  skip_spaces (&p);
  if (!take_number (&p, FALSE, &denominator, &whole) || !whole || denominator == 0.0)
    return FALSE;

  *out = numerator / denominator;
  *at = p;
  return TRUE;
}

/* "1/2" or "½", after a whole number or on its own. */
static gboolean
take_fraction (const char **at,
               double      *out)
{
  const char *p = *at;
  double numerator;
  gboolean whole;

  if (take_fraction_sign (at, out))
    return TRUE;
  if (!take_number (&p, FALSE, &numerator, &whole) || !whole || !take_denominator (&p, numerator, out))
    return FALSE;
  *at = p;
  return TRUE;
}

/* "12", "12.5", "12 1/2", "12-1/2", "12½", "1/2", "½" */
static gboolean
take_quantity (const char **at,
               gboolean     comma,
               double      *out)
{
  double number, fraction;
  gboolean whole;
  const char *p;

  if (take_fraction (at, out))
    return TRUE;
  if (!take_number (at, comma, &number, &whole))
    return FALSE;

  p = *at;
  skip_spaces (&p);
  take_char (&p, '-');
  if (whole && take_fraction (&p, &fraction))
    {
      number += fraction;
      *at = p;
    }
  *out = number;
  return TRUE;
}

static double
unit_mm (OddUnit unit)
{
  switch (unit)
    {
    case ODD_UNIT_CM:
      return 10.0;
    case ODD_UNIT_INCH:
      return MM_PER_INCH;
    case ODD_UNIT_MM:
    default:
      return 1.0;
    }
}

/* @word: what stands behind the number, without spaces around it; empty: @bare. 0 for an unknown unit. */
static double
find_unit (const char *word,
           OddUnit     bare)
{
  g_autofree char *lower = g_utf8_strdown (word, -1);

  if (*word == '\0')
    return unit_mm (bare);
  for (guint i = 0; i < G_N_ELEMENTS (unit_words); i++)
    if (g_str_equal (lower, unit_words[i].word))
      return unit_words[i].mm;
  return 0.0;
}

/* The entry as an error repeats it: always valid, never a whole page. */
static char *
shown_text (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *start = NULL;

  if (g_utf8_strlen (valid, -1) <= SHOWN_TEXT)
    return g_steal_pointer (&valid);
  start = g_utf8_substring (valid, 0, SHOWN_TEXT);
  return g_strconcat (start, "…", NULL);
}

/* Splits @text in sign, quantity and unit. */
static gboolean
read_entry (const char *text,
            gboolean    comma,
            double     *out_quantity,
            char      **out_unit)
{
  const char *at = text;
  gboolean negative;

  if (!g_utf8_validate (text, -1, NULL))
    return FALSE;
  skip_spaces (&at);
  negative = take_sign (&at);
  skip_spaces (&at);
  if (!take_quantity (&at, comma, out_quantity))
    return FALSE;
  if (negative && *out_quantity != 0.0)
    *out_quantity = -*out_quantity;
  skip_spaces (&at);
  *out_unit = g_strdup (at);
  while (**out_unit != '\0')
    {
      char *last = g_utf8_find_prev_char (*out_unit, *out_unit + strlen (*out_unit));

      if (!g_unichar_isspace (g_utf8_get_char (last)))
        break;
      *last = '\0';
    }
  return TRUE;
}

gboolean
odd_length_parse (const char *text,
                  OddUnit     bare,
                  gboolean    locale,
                  gboolean    allow_negative,
                  double     *out_mm,
                  GError    **error)
{
  g_autofree char *shown = NULL;
  g_autofree char *unit = NULL;
  double quantity, factor, mm;

  g_return_val_if_fail (text != NULL && out_mm != NULL, FALSE);
  g_return_val_if_fail (error == NULL || *error == NULL, FALSE);

  shown = shown_text (text);
  if (!read_entry (text, locale, &quantity, &unit))
    {
      g_set_error (error, ODD_LENGTH_ERROR, ODD_LENGTH_ERROR_SYNTAX,
                   _("“%s” is not a length; write it like “30 cm” or “12 1/2 in”."), shown);
      return FALSE;
    }
  factor = find_unit (unit, bare);
  if (factor == 0.0)
    {
      /* A decimal comma on the command line ends up here too: "30,5 cm" leaves ",5 cm". */
      g_set_error (error, ODD_LENGTH_ERROR, ODD_LENGTH_ERROR_SYNTAX,
                   _("The length “%s” does not end in a known unit; write cm, mm, m, in or ft behind a plain number."), shown);
      return FALSE;
    }
  mm = quantity * factor;
  if (!isfinite (mm) || fabs (mm) > LIMIT_MM)
    {
      g_set_error (error, ODD_LENGTH_ERROR, ODD_LENGTH_ERROR_RANGE,
                   _("The length “%s” is beyond %g m; check the number and its unit."), shown, LIMIT_MM / 1000.0);
      return FALSE;
    }
  if (mm < 0.0 && !allow_negative)
    {
      g_set_error (error, ODD_LENGTH_ERROR, ODD_LENGTH_ERROR_RANGE,
                   _("The length “%s” is below zero; leave out the minus."), shown);
      return FALSE;
    }
  *out_mm = mm;
  return TRUE;
}

/* printf() writes "-0.0" for what rounds to nothing from below. */
static char *
format_decimals (double value,
                 int    decimals)
{
  const double unit = pow (10.0, -decimals);

  return g_strdup_printf ("%.*f", decimals, fabs (value) < 0.5 * unit ? 0.0 : value);
}

/* Centimetres to the tenth of a millimetre that all figures are shown to; a nought in its place is left out:
 * "98.4", "9.46", "63.0". */
static char *
format_cm (double mm)
{
  char *text = format_decimals (mm / 10.0, 2);
  const gsize length = strlen (text);

  if (text[length - 1] == '0')
    text[length - 1] = '\0';
  return text;
}

/* Does format_cm() leave the last nought out? */
static gboolean
is_to_the_mm (double mm)
{
  g_autofree char *text = format_decimals (mm / 10.0, 2);

  return text[strlen (text) - 1] == '0';
}

static guint
greatest_common_divisor (guint a,
                         guint b)
{
  while (b != 0)
    {
      const guint rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

/* To the nearest eighth: "38 3/4", "5/8", "12", "-1 1/2". */
static char *
format_inches (double mm)
{
  const double eighths = nearbyint (mm / MM_PER_INCH * 8.0);
  const char *sign = eighths < 0.0 ? "-" : "";
  const double whole = floor (fabs (eighths) / 8.0);
  const guint rest = (guint) (fabs (eighths) - whole * 8.0);
  const guint divisor = greatest_common_divisor (rest, 8);

  if (rest == 0)
    return g_strdup_printf ("%s%.0f", sign, whole);
  if (whole == 0.0)
    return g_strdup_printf ("%s%u/%u", sign, rest / divisor, 8 / divisor);
  return g_strdup_printf ("%s%.0f %u/%u", sign, whole, rest / divisor, 8 / divisor);
}

const char *
odd_unit_get_symbol (OddUnit unit)
{
  switch (unit)
    {
    case ODD_UNIT_CM:
      return _("cm");
    case ODD_UNIT_INCH:
      return _("in");
    case ODD_UNIT_MM:
    default:
      return _("mm");
    }
}

char *
odd_length_format_bare (double  mm,
                        OddUnit unit)
{
  switch (unit)
    {
    case ODD_UNIT_CM:
      return format_cm (mm);
    case ODD_UNIT_INCH:
      return format_inches (mm);
    case ODD_UNIT_MM:
    default:
      return format_decimals (mm, 1);
    }
}

char *
odd_length_format (double  mm,
                   OddUnit unit)
{
  g_autofree char *number = odd_length_format_bare (mm, unit);

  /* Translators: a length and its unit, "98.4 cm" */
  return g_strdup_printf (_("%s %s"), number, odd_unit_get_symbol (unit));
}

char *
odd_length_format_pair (double  width_mm,
                        double  length_mm,
                        OddUnit unit)
{
  g_autofree char *width = odd_length_format_bare (width_mm, unit);
  g_autofree char *length = odd_length_format_bare (length_mm, unit);

  /* "75.71 × 113.00": two figures side by side are told equally finely. */
  if (unit == ODD_UNIT_CM)
    {
      char **shorter = is_to_the_mm (width_mm) ? &width : &length;

      if (is_to_the_mm (width_mm) != is_to_the_mm (length_mm))
        {
          g_autofree char *bare = *shorter;

          *shorter = g_strconcat (bare, "0", NULL);
        }
    }
  /* Translators: width, length and their unit, "98.4 × 63.0 cm" */
  return g_strdup_printf (_("%s × %s %s"), width, length, odd_unit_get_symbol (unit));
}

/* Whole units, tenths where whole ones would say too little. */
static char *
format_small (double value)
{
  return format_decimals (value, fabs (value) < 9.95 ? 1 : 0);
}

char *
odd_area_format (double  mm2,
                 OddUnit unit)
{
  g_autofree char *number = NULL;

  if (unit == ODD_UNIT_INCH)
    {
      number = format_small (mm2 / (MM_PER_INCH * MM_PER_INCH));
      return g_strdup_printf (_("%s in²"), number);
    }
  if (fabs (mm2) >= 1e6)
    {
      number = format_decimals (mm2 / 1e6, 2);
      return g_strdup_printf (_("%s m²"), number);
    }
  number = format_small (mm2 / 100.0);
  return g_strdup_printf (_("%s cm²"), number);
}

char *
odd_run_format (double  mm,
                OddUnit unit)
{
  g_autofree char *number = NULL;

  if (unit == ODD_UNIT_INCH)
    {
      number = format_small (mm / MM_PER_FOOT);
      return g_strdup_printf (_("%s ft"), number);
    }
  number = format_decimals (mm / 1000.0, 1);
  return g_strdup_printf (_("%s m"), number);
}
