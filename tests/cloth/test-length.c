#include "config.h"

#include "cloth/length.h"
#include "cloth/types.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const char *text;
  OddUnit bare;
  gboolean locale;
  double mm;
} Read;

/* Sums by hand; an inch is 25.4 mm. */
static const Read reads[] = {
  { "30", ODD_UNIT_CM, TRUE, 300 },
  { "30", ODD_UNIT_MM, FALSE, 30 },
  { "30", ODD_UNIT_INCH, TRUE, 762 },
  { " 30 cm ", ODD_UNIT_INCH, TRUE, 300 },
  { "30cm", ODD_UNIT_MM, TRUE, 300 },
  { "30\302\240cm", ODD_UNIT_MM, TRUE, 300 },
  { "12,5cm", ODD_UNIT_MM, TRUE, 125 },
  { "12.5cm", ODD_UNIT_MM, TRUE, 125 },
  { "12.5cm", ODD_UNIT_MM, FALSE, 125 },
  { ".5 m", ODD_UNIT_MM, FALSE, 500 },
  { "305 mm", ODD_UNIT_CM, TRUE, 305 },
  { "1 m", ODD_UNIT_CM, TRUE, 1000 },
  { "12 1/2 in", ODD_UNIT_CM, TRUE, 317.5 },
  { "12-1/2 in", ODD_UNIT_CM, TRUE, 317.5 },
  { "12½\"", ODD_UNIT_CM, TRUE, 317.5 },
  { "12 ½ inches", ODD_UNIT_CM, TRUE, 317.5 },
  { "12 1⁄2″", ODD_UNIT_CM, TRUE, 317.5 },
  { "5/8 in", ODD_UNIT_CM, FALSE, 15.875 },
  { "⅝ IN", ODD_UNIT_CM, FALSE, 15.875 },
  { "3/8", ODD_UNIT_INCH, TRUE, 9.525 },
  { "3 ft", ODD_UNIT_CM, TRUE, 914.4 },
  { "3'", ODD_UNIT_CM, TRUE, 914.4 },
  { "0", ODD_UNIT_CM, TRUE, 0 },
  { "-0", ODD_UNIT_CM, TRUE, 0 },
  { "10 m", ODD_UNIT_CM, TRUE, 10000 },
  { "10000", ODD_UNIT_MM, FALSE, 10000 },
};

static void
test_read (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (reads); i++)
    {
      g_autoptr(GError) error = NULL;
      double mm = NAN;

      g_test_message ("%s", reads[i].text);
      g_assert_true (odd_length_parse (reads[i].text, reads[i].bare, reads[i].locale, FALSE, &mm, &error));
      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (mm, reads[i].mm, 1e-9);
      g_assert_false (signbit (mm));
    }
}

typedef struct
{
  const char *text;
  gboolean locale;
  OddLengthError code;
} Refused;

static const Refused refused[] = {
  { "", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "   ", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "cm", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "-", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { ".", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { ", cm", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "nan", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "inf cm", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "0x10", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "1e3", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "3 yards", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "30 cm 5", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "12,5 cm", FALSE, ODD_LENGTH_ERROR_SYNTAX },
  { "1.234,5 mm", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "12.5 1/2 in", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "1/0 in", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "1/ in", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "1/1.5 in", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "--5", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "30 \377\376", TRUE, ODD_LENGTH_ERROR_SYNTAX },
  { "-5 cm", TRUE, ODD_LENGTH_ERROR_RANGE },
  { "−1/2 in", TRUE, ODD_LENGTH_ERROR_RANGE },
  { "10.001 m", TRUE, ODD_LENGTH_ERROR_RANGE },
  { "33 ft", TRUE, ODD_LENGTH_ERROR_RANGE },
  { "100000000000000000000000000000000000000000", TRUE, ODD_LENGTH_ERROR_RANGE },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr(GError) error = NULL;
      double mm = -1;

      g_test_message ("case %u", i);
      g_assert_false (odd_length_parse (refused[i].text, ODD_UNIT_CM, refused[i].locale, FALSE, &mm, &error));
      g_assert_error (error, ODD_LENGTH_ERROR, (int) refused[i].code);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_cmpfloat (mm, ==, -1);
    }
}

/* Four hundred digits overflow a double; the error must not repeat them all. */
static void
test_overflow (void)
{
  g_autofree char *digits = g_strnfill (400, '9');
  g_autoptr(GError) error = NULL;
  double mm = -1;

  g_assert_false (odd_length_parse (digits, ODD_UNIT_CM, TRUE, TRUE, &mm, &error));
  g_assert_error (error, ODD_LENGTH_ERROR, ODD_LENGTH_ERROR_RANGE);
  g_assert_cmpuint (strlen (error->message), <, 200);
  g_assert_cmpfloat (mm, ==, -1);
}

static void
test_negative (void)
{
  double mm = 0;

  g_assert_true (odd_length_parse ("-12 1/2 in", ODD_UNIT_CM, TRUE, TRUE, &mm, NULL));
  g_assert_cmpfloat_with_epsilon (mm, -317.5, 1e-9);
  g_assert_true (odd_length_parse ("−3,5", ODD_UNIT_CM, TRUE, TRUE, &mm, NULL));
  g_assert_cmpfloat_with_epsilon (mm, -35, 1e-9);
  g_assert_false (odd_length_parse ("-10.1 m", ODD_UNIT_CM, TRUE, TRUE, &mm, NULL));
}

#define assert_text(expression, expected)             \
  G_STMT_START                                        \
    {                                                 \
      g_autofree char *text_ = (expression);          \
      g_assert_cmpstr (text_, ==, (expected));        \
    }                                                 \
  G_STMT_END

static void
test_format (void)
{
  assert_text (odd_length_format (984, ODD_UNIT_CM), "98.4 cm");
  assert_text (odd_length_format (94.6, ODD_UNIT_CM), "9.46 cm");
  assert_text (odd_length_format (12.7, ODD_UNIT_CM), "1.27 cm");
  assert_text (odd_length_format (630, ODD_UNIT_CM), "63.0 cm");
  assert_text (odd_length_format (984, ODD_UNIT_MM), "984.0 mm");
  assert_text (odd_length_format (984.25, ODD_UNIT_INCH), "38 3/4 in");
  assert_text (odd_length_format (15.875, ODD_UNIT_INCH), "5/8 in");
  assert_text (odd_length_format (304.8, ODD_UNIT_INCH), "12 in");
  assert_text (odd_length_format (304.0, ODD_UNIT_INCH), "12 in");
  assert_text (odd_length_format (0, ODD_UNIT_INCH), "0 in");
  assert_text (odd_length_format (-38.1, ODD_UNIT_INCH), "-1 1/2 in");
  assert_text (odd_length_format (-0.001, ODD_UNIT_CM), "0.0 cm");
  assert_text (odd_length_format (-0.001, ODD_UNIT_MM), "0.0 mm");
  assert_text (odd_length_format (-0.001, ODD_UNIT_INCH), "0 in");
  assert_text (odd_length_format_bare (984, ODD_UNIT_CM), "98.4");
  assert_text (odd_length_format_pair (984, 630, ODD_UNIT_CM), "98.4 × 63.0 cm");
  assert_text (odd_length_format_pair (757.1, 1130, ODD_UNIT_CM), "75.71 × 113.00 cm");
  assert_text (odd_length_format_pair (1130, 757.1, ODD_UNIT_CM), "113.00 × 75.71 cm");
  assert_text (odd_length_format_pair (984.25, 609.6, ODD_UNIT_INCH), "38 3/4 × 24 in");
  assert_text (odd_area_format (15700, ODD_UNIT_CM), "157 cm²");
  assert_text (odd_area_format (15700, ODD_UNIT_MM), "157 cm²");
  assert_text (odd_area_format (270, ODD_UNIT_CM), "2.7 cm²");
  assert_text (odd_area_format (1240000, ODD_UNIT_CM), "1.24 m²");
  assert_text (odd_area_format (24 * 645.16, ODD_UNIT_INCH), "24 in²");
  assert_text (odd_run_format (4200, ODD_UNIT_CM), "4.2 m");
  assert_text (odd_run_format (4267.2, ODD_UNIT_INCH), "14 ft");
}

/* What is shown can be typed again, to half of the last figure shown. */
static void
test_there_and_back (void)
{
  const double step[] = { 0.1, 0.1, 25.4 / 8 };

  for (guint i = 0; i < 1000; i++)
    {
      const double mm = g_test_rand_double_range (-10000, 10000);
      const OddUnit unit = i % 3;
      g_autofree char *text = odd_length_format (mm, unit);
      double back = NAN;

      g_test_message ("%.17g %s", mm, text);
      g_assert_true (odd_length_parse (text, ODD_UNIT_MM, TRUE, TRUE, &back, NULL) || mm < -9998 || mm > 9998);
      if (!isnan (back))
        g_assert_cmpfloat_with_epsilon (back, mm, step[unit] / 2 + 1e-9);
    }
}

#define assert_nicks(Type, name, n)                                           \
  G_STMT_START                                                                \
    {                                                                         \
      Type back_ = (Type) 0;                                                  \
      for (guint i_ = 0; i_ < (n); i_++)                                      \
        {                                                                     \
          g_assert_true (odd_##name##_from_nick (odd_##name##_get_nick ((Type) i_), &back_)); \
          g_assert_cmpuint (back_, ==, i_);                                   \
        }                                                                     \
      g_assert_false (odd_##name##_from_nick ("nonsense", &back_));           \
      g_assert_false (odd_##name##_from_nick (NULL, &back_));                 \
      g_assert_cmpuint (back_, ==, (n) - 1);                                  \
    }                                                                         \
  G_STMT_END

static void
test_nicks (void)
{
  assert_nicks (OddStation, station, ODD_N_STATIONS);
  assert_nicks (OddOperationKind, operation_kind, ODD_N_OPERATION_KINDS);
  assert_nicks (OddState, state, 3u);
  assert_nicks (OddFace, face, 3u);
  assert_nicks (OddPressed, pressed, 4u);
  g_assert_cmpstr (odd_station_get_nick (ODD_STATION_SEWING_MACHINE), ==, "sewing-machine");
  g_assert_cmpstr (odd_operation_kind_get_name (ODD_OPERATION_NEATEN), ==, "Neaten");
  g_assert_cmpstr (odd_station_get_name (ODD_STATION_IRON), ==, "iron");
}

static void
test_treatment (void)
{
  const OddTreatment inherit = ODD_TREATMENT_INHERIT;
  const OddTreatment finish = { 3, NAN };
  const OddTreatment wide = { 3, 15.875 };

  g_assert_true (odd_treatment_equal (&inherit, &ODD_TREATMENT_INHERIT));
  g_assert_true (odd_treatment_equal (&wide, &wide));
  g_assert_false (odd_treatment_equal (&inherit, &finish));
  g_assert_false (odd_treatment_equal (&finish, &wide));
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/length/read", test_read);
  g_test_add_func ("/length/refused", test_refused);
  g_test_add_func ("/length/overflow", test_overflow);
  g_test_add_func ("/length/negative", test_negative);
  g_test_add_func ("/length/format", test_format);
  g_test_add_func ("/length/there-and-back", test_there_and_back);
  g_test_add_func ("/types/nicks", test_nicks);
  g_test_add_func ("/types/treatment", test_treatment);
  return g_test_run ();
}
