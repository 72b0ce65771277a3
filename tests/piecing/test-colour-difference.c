/* CIEDE2000 against the 34 pairs of G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula", Color Research and
 * Application 30(1), 2005, table 1; kept in data/figures/ciede2000_sharma2005.csv. */
#include "config.h"
#include "paths.h"

#include "cloth/csv.h"
#include "piecing/colour-difference.h"
#include "piecing/random.h"

#include <math.h>

static void
test_published_pairs (void)
{
  g_autofree char *text = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(OddCsv) table = NULL;

  g_file_get_contents (ODD_SOURCEDIR "/data/figures/ciede2000_sharma2005.csv", &text, NULL, &error);
  g_assert_no_error (error);
  table = odd_csv_parse (text, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (table->rows->len, ==, 34);

  for (guint i = 0; i < table->rows->len; i++)
    {
      const OddLab a = { odd_csv_get_number (table, i, "L1"), odd_csv_get_number (table, i, "a1"), odd_csv_get_number (table, i, "b1") };
      const OddLab b = { odd_csv_get_number (table, i, "L2"), odd_csv_get_number (table, i, "a2"), odd_csv_get_number (table, i, "b2") };
      const double expected = odd_csv_get_number (table, i, "dE00");

      g_assert_cmpfloat_with_epsilon (odd_lab_difference (a, b), expected, 0.5e-4 + 1e-9);
      g_assert_cmpfloat_with_epsilon (odd_lab_difference (b, a), expected, 0.5e-4 + 1e-9);
    }
}

/* L*, a*, b* of sRGB red: 53.24, 80.09, 67.20; printed so in many tables (Lindbloom's calculator among them), from memory. */
static void
test_from_rgb (void)
{
  const OddLab white = odd_lab_from_rgb (0xffffff);
  const OddLab black = odd_lab_from_rgb (0x000000);
  const OddLab red = odd_lab_from_rgb (0xff0000);
  const OddLab grey = odd_lab_from_rgb (0x808080);

  g_assert_cmpfloat_with_epsilon (white.l, 100.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (hypot (white.a, white.b), 0.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (black.l, 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (hypot (grey.a, grey.b), 0.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (red.l, 53.24, 0.01);
  g_assert_cmpfloat_with_epsilon (red.a, 80.09, 0.05);
  g_assert_cmpfloat_with_epsilon (red.b, 67.20, 0.05);
}

/* First values from seed 1234567: as printed for "Pseudo-random numbers/Splitmix64" on Rosetta Code, from memory. */
static void
test_random (void)
{
  static const guint64 EXPECTED[] = {
    G_GUINT64_CONSTANT (6457827717110365317), G_GUINT64_CONSTANT (3203168211198807973), G_GUINT64_CONSTANT (9817491932198370423),
    G_GUINT64_CONSTANT (4593380528125082431), G_GUINT64_CONSTANT (16408922859458223821),
  };
  OddRandom random = { 1234567 };
  guint counts[7] = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (EXPECTED); i++)
    g_assert_cmpuint (odd_random_next (&random), ==, EXPECTED[i]);
  for (guint i = 0; i < 70000; i++)
    {
      const double unit = odd_random_unit (&random);

      g_assert_true (unit >= 0.0 && unit < 1.0);
      counts[odd_random_below (&random, 7)]++;
    }
  /* each face of 7: 10,000 expected, sd 93 */
  for (guint i = 0; i < 7; i++)
    g_assert_cmpint (ABS ((int) counts[i] - 10000), <, 500);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/colour-difference/published-pairs", test_published_pairs);
  g_test_add_func ("/colour-difference/from-rgb", test_from_rgb);
  g_test_add_func ("/colour-difference/random", test_random);

  return g_test_run ();
}
