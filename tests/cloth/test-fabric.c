#include "config.h"

#include "cloth/csv.h"
#include "cloth/fabric.h"

#include <lcms2.h>
#include <string.h>

static OddFabric
named (const char *name)
{
  OddFabric values;

  odd_fabric_init_values (&values);
  values.name = (char *) name;
  return values;
}

static void
test_copied_deeply (void)
{
  char name[] = "Blue poplin", cotton[] = "cotton", flax[] = "flax (or linen)", care[] = "Wash at 40";
  OddFibre fibres[] = { { cotton, 60 }, { flax, 40 } };
  OddFabric values = named (name);
  g_autoptr(OddFabric) self = NULL;
  g_autoptr(GError) error = NULL;

  values.id = 7;
  values.fibres = fibres;
  values.n_fibres = 2;
  values.care = care;
  values.shrink_along = 0.04;
  self = odd_fabric_new (&values, &error);
  g_assert_no_error (error);

  memset (name, 'x', sizeof name - 1);
  memset (cotton, 'x', sizeof cotton - 1);
  memset (care, 'x', sizeof care - 1);
  fibres[1].percent = 0;
  g_assert_cmpstr (self->name, ==, "Blue poplin");
  g_assert_cmpstr (self->fibres[0].name, ==, "cotton");
  g_assert_cmpfloat (self->fibres[1].percent, ==, 40);
  g_assert_cmpstr (self->care, ==, "Wash at 40");
  g_assert_cmpuint (self->id, ==, 7);
  g_assert_cmpfloat (self->shrink_along, ==, 0.04);
}

static void
assert_refused (const OddFabric *values,
                int              code,
                const char      *says)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (odd_fabric_new (values, &error));
  g_assert_error (error, ODD_VALUE_ERROR, code);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, says));
}

static void
test_fibres_refused (void)
{
  OddFibre fibres[] = { { (char *) "cotton", 60 }, { (char *) "moonlight", 40 }, { (char *) "silk", 0 } };
  OddFabric values = named ("Blue poplin");

  values.fibres = fibres;
  values.n_fibres = 2;
  assert_refused (&values, ODD_VALUE_ERROR_NAME, "moonlight");
  fibres[1].name = (char *) "cotton";
  assert_refused (&values, ODD_VALUE_ERROR_NAME, "twice");
  fibres[1].name = NULL;
  assert_refused (&values, ODD_VALUE_ERROR_NAME, "Blue poplin");
  fibres[1] = (OddFibre) { (char *) "silk", 39.9 };
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "99.9");
  fibres[1].percent = 40.1;
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "100.1");
  fibres[1].percent = NAN;
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "silk");
  fibres[0].percent = 140;
  fibres[1].percent = -40;
  assert_refused (&values, ODD_VALUE_ERROR_RANGE, "140");
}

static void
test_sum_within_tolerance (void)
{
  OddFibre thirds[] = { { (char *) "cotton", 33.33 }, { (char *) "silk", 33.33 }, { (char *) "wool", 33.33 } };
  OddFabric values = named ("Three thirds");
  g_autoptr(OddFabric) self = NULL;
  g_autoptr(GError) error = NULL;

  values.fibres = thirds;
  values.n_fibres = 3;
  self = odd_fabric_new (&values, &error);
  g_assert_no_error (error);
  thirds[2].percent = 33.29;   /* 99.95: the last sum that is taken */
  odd_fabric_unref (g_steal_pointer (&self));
  self = odd_fabric_new (&values, &error);
  g_assert_no_error (error);
}

#define assert_member_refused(member, number, code, says)    \
  G_STMT_START                                               \
    {                                                        \
      OddFabric values_ = named ("Grey felt");               \
      values_.member = (number);                             \
      assert_refused (&values_, (code), (says));             \
    }                                                        \
  G_STMT_END

static void
test_figures_refused (void)
{
  assert_member_refused (name, (char *) "", ODD_VALUE_ERROR_NAME, "name");
  assert_member_refused (gsm, -1, ODD_VALUE_ERROR_RANGE, "-1");
  assert_member_refused (gsm, INFINITY, ODD_VALUE_ERROR_RANGE, "Grey felt");
  assert_member_refused (gsm, NAN, ODD_VALUE_ERROR_RANGE, "Grey felt");
  assert_member_refused (thickness_mm, 101, ODD_VALUE_ERROR_RANGE, "101");
  assert_member_refused (shrink_along, 0.5, ODD_VALUE_ERROR_RANGE, "50 %");
  assert_member_refused (shrink_across, -0.01, ODD_VALUE_ERROR_RANGE, "-1 %");
  assert_member_refused (shrink_across, NAN, ODD_VALUE_ERROR_RANGE, "Grey felt");
  assert_member_refused (lightness, 100.5, ODD_VALUE_ERROR_RANGE, "100.5");
  assert_member_refused (print.repeat_mm, 0, ODD_VALUE_ERROR_RANGE, "0 mm");
  assert_member_refused (print.colours[2], 0x1000000, ODD_VALUE_ERROR_RANGE, "Colour 3");
  assert_member_refused (print.kind, (OddPrintKind) 99, ODD_VALUE_ERROR_NAME, "99");
}

static double
plain_lightness (guint32 colour)
{
  OddFabric values = named ("Plain");
  g_autoptr(OddFabric) self = NULL;

  values.print.colours[0] = colour;
  self = odd_fabric_new (&values, NULL);
  g_assert_cmphex (odd_fabric_get_mean_colour (self), ==, colour);
  return odd_fabric_get_lightness (self);
}

/* sRGB 128 200 255 has Y = 53.11601 (white 100): documentation of the R package munsellinterpol, srgb2xyz. Its white
 * is 95.04559 100 108.9058, a little finer than ours; 0.02 allowed. Solved for Y here: Y = ((L* + 16) / 116)^3. */
static void
test_lightness_published (void)
{
  const double root = (plain_lightness (0x80C8FF) + 16.0) / 116.0;

  g_assert_cmpfloat_with_epsilon (100.0 * root * root * root, 53.11601, 0.02);
}

/* Greys do not depend on how the white is adapted, so Little CMS must say the same. */
static void
test_lightness_little_cms (void)
{
  cmsHPROFILE srgb = cmsCreate_sRGBProfile ();
  cmsHPROFILE lab = cmsCreateLab4Profile (NULL);
  cmsHTRANSFORM to_lab = cmsCreateTransform (srgb, TYPE_RGB_8, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);

  for (guint32 grey = 0; grey < 256; grey++)
    {
      const guint8 rgb[3] = { grey, grey, grey };
      cmsCIELab expected;

      cmsDoTransform (to_lab, rgb, &expected, 1);
      g_assert_cmpfloat_with_epsilon (plain_lightness (grey << 16 | grey << 8 | grey), expected.L, 0.02);
    }
  cmsDeleteTransform (to_lab);
  cmsCloseProfile (lab);
  cmsCloseProfile (srgb);
}

/* Every print lies between its darkest and its lightest colour, and equal colours leave nothing to mix. */
static void
test_lightness_of_prints (void)
{
  for (guint kind = 0; kind < ODD_N_PRINT_KINDS; kind++)
    {
      const double *shares = odd_print_kind_get_shares (kind);
      OddFabric values = named ("Print");
      g_autoptr(OddFabric) two = NULL;
      g_autoptr(OddFabric) one = NULL;

      g_assert_cmpfloat_with_epsilon (shares[0] + shares[1] + shares[2] + shares[3], 1.0, 1e-9);
      values.print = (OddPrint) { kind, { 0x102030, 0xF0F0E0, 0xF0F0E0, 0xF0F0E0 }, 20 };
      two = odd_fabric_new (&values, NULL);
      g_assert_cmpfloat (odd_fabric_get_lightness (two), >=, plain_lightness (0x102030));
      g_assert_cmpfloat (odd_fabric_get_lightness (two), <, plain_lightness (0xF0F0E0));
      values.print.colours[0] = 0xF0F0E0;
      one = odd_fabric_new (&values, NULL);
      g_assert_cmphex (odd_fabric_get_mean_colour (one), ==, 0xF0F0E0);
    }
}

static void
test_lightness_measured (void)
{
  OddFabric values = named ("Measured");
  g_autoptr(OddFabric) self = NULL;

  values.lightness = 42.5;
  self = odd_fabric_new (&values, NULL);
  g_assert_cmpfloat (odd_fabric_get_lightness (self), ==, 42.5);
}

/* Names of Regulation (EU) 1007/2011, Annex I; which of them were seen and which are from memory stands in the table. */
static void
test_fibre_names (void)
{
  const char *const *names = odd_fibre_names ();
  const char *const wanted[] = { "cotton", "flax (or linen)", "polyamide (or nylon)", "hemp (true hemp)", "elastane", "viscose" };

  g_assert_true (names == odd_fibre_names ());
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    g_assert_true (g_strv_contains (names, wanted[i]));
  g_assert_false (g_strv_contains (names, "name"));
  for (guint i = 0; names[i] != NULL; i++)
    for (guint j = 0; j < i; j++)
      g_assert_cmpstr (names[i], !=, names[j]);
}

static void
test_csv (void)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(OddCsv) table = odd_csv_parse ("what,n,source\r\n"
                                           "\"a, \"\"b\"\"\nc\",1.5,\n"
                                           "\n"
                                           "plain,x,\"\"", &error);

  g_assert_no_error (error);
  g_assert_cmpuint (table->rows->len, ==, 2);
  g_assert_cmpstr (odd_csv_get (table, 0, "what"), ==, "a, \"b\"\nc");
  g_assert_cmpfloat (odd_csv_get_number (table, 0, "n"), ==, 1.5);
  g_assert_cmpstr (odd_csv_get (table, 0, "source"), ==, "");
  g_assert_cmpstr (odd_csv_get (table, 1, "source"), ==, "");
  g_assert_true (isnan (odd_csv_get_number (table, 1, "n")));
  g_assert_null (odd_csv_get (table, 1, "nothing"));
  g_assert_cmpint (odd_csv_find (table, "what", "plain"), ==, 1);
  g_assert_cmpint (odd_csv_find (table, "what", "c"), ==, -1);
}

static void
test_csv_refused (void)
{
  const struct { const char *text; OddCsvError code; } cases[] = {
    { "a,b\n1,\"2\n", ODD_CSV_ERROR_QUOTES },
    { "a,b\n1,2\"3\"\n", ODD_CSV_ERROR_QUOTES },
    { "a,b\n1,\"2\"3\n", ODD_CSV_ERROR_QUOTES },
    { "a,b\n1\n", ODD_CSV_ERROR_COLUMNS },
    { "a,b\n1,2,\n", ODD_CSV_ERROR_COLUMNS },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(GError) error = NULL;

      g_assert_null (odd_csv_parse (cases[i].text, &error));
      g_assert_error (error, ODD_CSV_ERROR, (int) cases[i].code);
      g_assert_nonnull (strstr (error->message, "2"));   /* the line */
    }
}

static void
test_nicks (void)
{
  OddPrintKind kind = ODD_PRINT_RING;
  OddMake make = ODD_MAKE_KNIT;
  OddBleed bleed = ODD_BLEED_NO;

  for (guint i = 0; i < ODD_N_PRINT_KINDS; i++)
    {
      g_assert_true (odd_print_kind_from_nick (odd_print_kind_get_nick (i), &kind));
      g_assert_cmpuint (kind, ==, i);
    }
  for (guint i = 0; i < 3; i++)
    {
      g_assert_true (odd_make_from_nick (odd_make_get_nick (i), &make));
      g_assert_cmpuint (make, ==, i);
      g_assert_true (odd_bleed_from_nick (odd_bleed_get_nick (i), &bleed));
      g_assert_cmpuint (bleed, ==, i);
    }
  g_assert_false (odd_print_kind_from_nick ("tartan moon", &kind));
  g_assert_false (odd_make_from_nick (NULL, &make));
  g_assert_cmpuint (kind, ==, ODD_N_PRINT_KINDS - 1);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fabric/copied-deeply", test_copied_deeply);
  g_test_add_func ("/fabric/fibres-refused", test_fibres_refused);
  g_test_add_func ("/fabric/sum-within-tolerance", test_sum_within_tolerance);
  g_test_add_func ("/fabric/figures-refused", test_figures_refused);
  g_test_add_func ("/fabric/lightness-published", test_lightness_published);
  g_test_add_func ("/fabric/lightness-little-cms", test_lightness_little_cms);
  g_test_add_func ("/fabric/lightness-of-prints", test_lightness_of_prints);
  g_test_add_func ("/fabric/lightness-measured", test_lightness_measured);
  g_test_add_func ("/fabric/fibre-names", test_fibre_names);
  g_test_add_func ("/fabric/nicks", test_nicks);
  g_test_add_func ("/csv/parse", test_csv);
  g_test_add_func ("/csv/refused", test_csv_refused);
  return g_test_run ();
}
