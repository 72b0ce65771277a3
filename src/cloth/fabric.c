#include "config.h"

#include "cloth/fabric.h"

#include "cloth/csv.h"

#include <glib/gi18n.h>
#include <string.h>

#define SUM_TOLERANCE 0.05         /* percent: three thirds written as 33.33 */
#define GSM_LIMIT 5000.0           /* a felt carpet; above it somebody has typed grams */
#define THICKNESS_LIMIT_MM 100.0
#define SHRINK_LIMIT 0.5
#define REPEAT_LIMIT_MM 10000.0

G_DEFINE_QUARK (odd-value-error-quark, odd_value_error)

static const char *const print_nicks[] = {
  "plain", "stripe", "check", "plaid", "dot", "flower", "lattice", "ring", "diamond", "leaf", "fleck", "windowpane"
};
static const char *const make_nicks[] = { "woven", "knit", "unknown" };
static const char *const bleed_nicks[] = { "unknown", "no", "yes" };

G_STATIC_ASSERT (G_N_ELEMENTS (print_nicks) == ODD_N_PRINT_KINDS);

static gboolean
find_nick (const char        *nick,
           const char *const *nicks,
           guint              n,
           guint             *out)
{
  for (guint i = 0; nick != NULL && i < n; i++)
    if (g_str_equal (nick, nicks[i]))
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}

/* --- fibres --- */

const char *const *
odd_fibre_names (void)
{
  static char **names = NULL;

  if (g_once_init_enter (&names))
    {
      g_autoptr(OddCsv) table = odd_csv_load_figures ("fibres.csv");
      char **list = g_new0 (char *, table->rows->len + 1);

      for (guint i = 0; i < table->rows->len; i++)
        list[i] = g_strdup (odd_csv_get (table, i, "name"));
      g_once_init_leave (&names, list);
    }
  return (const char *const *) names;
}

static gboolean
check_fibre (const OddFabric *values,
             guint            index,
             GError         **error)
{
  const OddFibre *fibre = &values->fibres[index];

  if (fibre->name == NULL || !g_strv_contains (odd_fibre_names (), fibre->name))
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                   _("Fabric “%s” has a fibre “%s” that the list of fibre names does not know; choose one from the list."),
                   values->name, fibre->name != NULL ? fibre->name : "");
      return FALSE;
    }
  for (guint i = 0; i < index; i++)
    if (g_str_equal (values->fibres[i].name, fibre->name))
      {
        g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                     _("Fabric “%s” names %s twice; add the two shares up."), values->name, fibre->name);
        return FALSE;
      }
  if (!(fibre->percent > 0.0 && fibre->percent <= 100.0 + SUM_TOLERANCE))
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                   _("Fabric “%s” has %g %% of %s; write a share above 0 and up to 100."),
                   values->name, fibre->percent, fibre->name);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_fibres (const OddFabric *values,
              GError         **error)
{
  double sum = 0.0;

  for (guint i = 0; i < values->n_fibres; i++)
    {
      if (!check_fibre (values, i, error))
        return FALSE;
      sum += values->fibres[i].percent;
    }
  /* the last bit of a sum like 99.95 must not decide */
  if (values->n_fibres > 0 && fabs (sum - 100.0) > SUM_TOLERANCE + 1e-9)
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                   _("The fibres of fabric “%s” sum to %g %%; correct the shares until they sum to 100."),
                   values->name, sum);
      return FALSE;
    }
  return TRUE;
}

/* --- the value --- */

/* @what: translated, "mass" */
static gboolean
check_range (const OddFabric *values,
             const char      *what,
             double           number,
             double           most,
             GError         **error)
{
  if (number >= 0.0 && number <= most)
    return TRUE;

  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
               _("The %s of fabric “%s” is %g; write a number from 0 to %g."), what, values->name, number, most);
  return FALSE;
}

static gboolean
check_shrinkage (const OddFabric *values,
                 double           fraction,
                 GError         **error)
{
  if (fraction >= 0.0 && fraction < SHRINK_LIMIT)
    return TRUE;

  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
               _("Fabric “%s” would shrink by %g %%; write a share from 0 to below %g %%."),
               values->name, fraction * 100.0, SHRINK_LIMIT * 100.0);
  return FALSE;
}

static gboolean
check_print (const OddFabric *values,
             GError         **error)
{
  if ((guint) values->print.kind >= ODD_N_PRINT_KINDS)
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
                   _("Fabric “%s” has a print number %d that is not known; choose a print from the list."),
                   values->name, (int) values->print.kind);
      return FALSE;
    }
  if (!(values->print.repeat_mm > 0.0 && values->print.repeat_mm <= REPEAT_LIMIT_MM))
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                   _("The print of fabric “%s” repeats every %g mm; write a length above 0 and up to %g mm."),
                   values->name, values->print.repeat_mm, REPEAT_LIMIT_MM);
      return FALSE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (values->print.colours); i++)
    if (values->print.colours[i] > 0xFFFFFF)
      {
        g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                     _("Colour %u of fabric “%s” is %#x; write it as six hexadecimal digits."),
                     i + 1, values->name, values->print.colours[i]);
        return FALSE;
      }
  return TRUE;
}

static gboolean
check_name (const OddFabric *values,
            GError         **error)
{
  if (values->name != NULL && *values->name != '\0')
    return TRUE;

  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_NAME,
               _("Fabric number %u has no name; give it one."), values->id);
  return FALSE;
}

static gboolean
check_values (const OddFabric *values,
              GError         **error)
{
  return check_name (values, error) &&
         check_fibres (values, error) &&
         check_range (values, _("mass in g/m²"), values->gsm, GSM_LIMIT, error) &&
         check_range (values, _("thickness in mm"), values->thickness_mm, THICKNESS_LIMIT_MM, error) &&
         (isnan (values->lightness) || check_range (values, _("lightness"), values->lightness, 100.0, error)) &&
         check_range (values, _("grain tolerance in degrees"), values->grain_tolerance_deg, 90.0, error) &&
         check_shrinkage (values, values->shrink_along, error) &&
         check_shrinkage (values, values->shrink_across, error) &&
         check_print (values, error);
}

void
odd_fabric_init_values (OddFabric *values)
{
  g_return_if_fail (values != NULL);

  *values = (OddFabric) {
    .name = (char *) "",
    .make = ODD_MAKE_UNKNOWN,
    .bleeds = ODD_BLEED_UNKNOWN,
    .grain_tolerance_deg = 90.0,
    .lightness = NAN,
    .print = { ODD_PRINT_PLAIN, { 0xE6DECC, 0xE6DECC, 0xE6DECC, 0xE6DECC }, 20.0 },
  };
}

OddFabric *
odd_fabric_new (const OddFabric *values,
                GError         **error)
{
  OddFabric *self;

  g_return_val_if_fail (values != NULL, NULL);
  g_return_val_if_fail (values->n_fibres == 0 || values->fibres != NULL, NULL);
  g_return_val_if_fail ((guint) values->make <= ODD_MAKE_UNKNOWN && (guint) values->bleeds <= ODD_BLEED_YES, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!check_values (values, error))
    return NULL;

  self = g_atomic_rc_box_dup (sizeof *values, (OddFabric *) values);
  self->name = g_strdup (values->name);
  self->fibres = g_new (OddFibre, values->n_fibres);
  for (guint i = 0; i < values->n_fibres; i++)
    self->fibres[i] = (OddFibre) { g_strdup (values->fibres[i].name), values->fibres[i].percent };
  self->care = g_strdup (values->care);
  self->picture = g_strdup (values->picture);
  self->unknown_json = g_strdup (values->unknown_json);
  return self;
}

OddFabric *
odd_fabric_ref (OddFabric *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
clear (gpointer data)
{
  OddFabric *self = data;

  for (guint i = 0; i < self->n_fibres; i++)
    g_free (self->fibres[i].name);
  g_free (self->fibres);
  g_free (self->name);
  g_free (self->care);
  g_free (self->picture);
  g_free (self->unknown_json);
}

void
odd_fabric_unref (OddFabric *self)
{
  g_atomic_rc_box_release_full (self, clear);
}

/* --- colour --- */

/* What the prints as drawn cover, rounded to hundredths; tests/drawing/test-print.c measures it. A colour of share 0 is not used. */
static const double print_shares[ODD_N_PRINT_KINDS][4] = {
  [ODD_PRINT_PLAIN] = { 1.0, 0.0, 0.0, 0.0 },
  [ODD_PRINT_STRIPE] = { 0.48, 0.29, 0.23, 0.0 },
  [ODD_PRINT_CHECK] = { 0.47, 0.53, 0.0, 0.0 },
  [ODD_PRINT_PLAID] = { 0.63, 0.25, 0.08, 0.04 },
  [ODD_PRINT_DOT] = { 0.90, 0.10, 0.0, 0.0 },
  [ODD_PRINT_FLOWER] = { 0.80, 0.09, 0.07, 0.04 },
  [ODD_PRINT_LATTICE] = { 0.84, 0.15, 0.01, 0.0 },
  [ODD_PRINT_RING] = { 0.89, 0.10, 0.01, 0.0 },
  [ODD_PRINT_DIAMOND] = { 0.52, 0.24, 0.15, 0.09 },
  [ODD_PRINT_LEAF] = { 0.88, 0.06, 0.05, 0.01 },
  [ODD_PRINT_FLECK] = { 0.69, 0.31, 0.0, 0.0 },
  [ODD_PRINT_WINDOWPANE] = { 0.91, 0.07, 0.02, 0.0 },
};

const double *
odd_print_kind_get_shares (OddPrintKind kind)
{
  g_return_val_if_fail ((guint) kind < ODD_N_PRINT_KINDS, print_shares[0]);

  return print_shares[kind];
}

typedef struct { double red, green, blue; } Linear;      /* sRGB without its transfer curve, 0..1 */

/* IEC 61966-2-1: threshold 0.04045, slope 12.92, a 0.055, gamma 2.4. */
static double
decode (guint32 byte)
{
  const double encoded = byte / 255.0;

  return encoded <= 0.04045 ? encoded / 12.92 : pow ((encoded + 0.055) / 1.055, 2.4);
}

static guint32
encode (double linear)
{
  const double encoded = linear <= 0.0031308 ? linear * 12.92 : 1.055 * pow (linear, 1.0 / 2.4) - 0.055;

  return (guint32) CLAMP (floor (encoded * 255.0 + 0.5), 0.0, 255.0);
}

/* From a distance the eye mixes light, so the mean is taken of linear values. */
static Linear
mean_light (const OddPrint *print)
{
  const double *shares = print_shares[print->kind];
  Linear mean = { 0.0, 0.0, 0.0 };

  for (guint i = 0; i < G_N_ELEMENTS (print->colours); i++)
    {
      mean.red += shares[i] * decode (print->colours[i] >> 16 & 0xFF);
      mean.green += shares[i] * decode (print->colours[i] >> 8 & 0xFF);
      mean.blue += shares[i] * decode (print->colours[i] & 0xFF);
    }
  return mean;
}

/* CIE 15: L* = 116 f (Y) - 16; Y of the white is 1. Luminance: the Y row of IEC 61966-2-1. */
static double
lightness_of (Linear light)
{
  const double y = 0.2126 * light.red + 0.7152 * light.green + 0.0722 * light.blue;
  const double epsilon = 216.0 / 24389.0;
  const double kappa = 24389.0 / 27.0;

  return y > epsilon ? 116.0 * cbrt (y) - 16.0 : kappa * y;
}

double
odd_fabric_get_lightness (const OddFabric *self)
{
  g_return_val_if_fail (self != NULL, NAN);

  return isnan (self->lightness) ? lightness_of (mean_light (&self->print)) : self->lightness;
}

/* Towards white (1) or black (-1). */
static guint32
shade (guint32 colour,
       double  by)
{
  guint32 shaded = 0;

  for (guint shift = 0; shift < 24; shift += 8)
    {
      const double byte = colour >> shift & 0xFF;

      shaded |= (guint32) (by > 0.0 ? byte + by * (255.0 - byte) : byte * (1.0 + by)) << shift;
    }

  return shaded;
}

static double
lightness_of_colour (guint32 colour)
{
  const OddPrint plain = { ODD_PRINT_PLAIN, { colour, colour, colour, colour }, 1.0 };

  return lightness_of (mean_light (&plain));
}

/* Lightness rises with the shade, so halving finds it. */
static guint32
shade_to (guint32 colour,
          double  lightness)
{
  double low = -1.0, high = 1.0;

  for (guint i = 0; i < 12; i++)
    {
      const double middle = (low + high) / 2.0;

      if (lightness_of_colour (shade (colour, middle)) < lightness)
        low = middle;
      else
        high = middle;
    }

  return shade (colour, (low + high) / 2.0);
}

void
odd_fabric_set_stand_in (OddFabric *values,
                         guint      nth)
{
  static const guint32 colours[] = {
    0x3F6690, 0xD8B45A, 0x8C3F3A, 0x8DA37A, 0xEFE7D8, 0x2F3547, 0xC07F5E, 0x86AEB4, 0x6D4A63, 0xD3B2A8, 0x55614C, 0xA79C8C,
  };
  static const double rounds[] = { 0.0, 0.35, -0.3 };
  guint32 colour;

  g_return_if_fail (values != NULL);

  colour = shade (colours[nth % G_N_ELEMENTS (colours)], rounds[nth / G_N_ELEMENTS (colours) % G_N_ELEMENTS (rounds)]);
  if (!isnan (values->lightness))
    colour = shade_to (colour, values->lightness);
  values->print.kind = ODD_PRINT_PLAIN;
  for (guint i = 0; i < G_N_ELEMENTS (values->print.colours); i++)
    values->print.colours[i] = colour;
}

guint32
odd_fabric_get_mean_colour (const OddFabric *self)
{
  Linear mean;

  g_return_val_if_fail (self != NULL, 0);

  mean = mean_light (&self->print);
  return encode (mean.red) << 16 | encode (mean.green) << 8 | encode (mean.blue);
}

/* --- words --- */

const char *
odd_print_kind_get_nick (OddPrintKind kind)
{
  g_return_val_if_fail ((guint) kind < ODD_N_PRINT_KINDS, print_nicks[0]);

  return print_nicks[kind];
}

gboolean
odd_print_kind_from_nick (const char   *nick,
                          OddPrintKind *out)
{
  return find_nick (nick, print_nicks, G_N_ELEMENTS (print_nicks), (guint *) out);
}

const char *
odd_make_get_nick (OddMake make)
{
  g_return_val_if_fail ((guint) make < G_N_ELEMENTS (make_nicks), "unknown");

  return make_nicks[make];
}

gboolean
odd_make_from_nick (const char *nick,
                    OddMake    *out)
{
  return find_nick (nick, make_nicks, G_N_ELEMENTS (make_nicks), (guint *) out);
}

const char *
odd_bleed_get_nick (OddBleed bleed)
{
  g_return_val_if_fail ((guint) bleed < G_N_ELEMENTS (bleed_nicks), "unknown");

  return bleed_nicks[bleed];
}

gboolean
odd_bleed_from_nick (const char *nick,
                     OddBleed   *out)
{
  return find_nick (nick, bleed_nicks, G_N_ELEMENTS (bleed_nicks), (guint *) out);
}
