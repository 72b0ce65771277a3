/* A fabric: what scraps of one cloth have in common. Immutable, atomically reference counted. */
#pragma once

#include "cloth/types.h"

G_BEGIN_DECLS

typedef struct { char *name; double percent; } OddFibre;      /* name of Regulation (EU) 1007/2011, English, as in data/figures/fibres.csv; percent by mass */

typedef enum { ODD_MAKE_WOVEN, ODD_MAKE_KNIT, ODD_MAKE_UNKNOWN } OddMake;
typedef enum { ODD_BLEED_UNKNOWN, ODD_BLEED_NO, ODD_BLEED_YES } OddBleed;

/* Prints drawn by our own code (drawing/print.h); colours[0] is the ground. */
typedef enum
{
  ODD_PRINT_PLAIN, ODD_PRINT_STRIPE, ODD_PRINT_CHECK, ODD_PRINT_PLAID, ODD_PRINT_DOT, ODD_PRINT_FLOWER,
  ODD_PRINT_LATTICE, ODD_PRINT_RING, ODD_PRINT_DIAMOND, ODD_PRINT_LEAF, ODD_PRINT_FLECK, ODD_PRINT_WINDOWPANE
} OddPrintKind;
#define ODD_N_PRINT_KINDS 12

typedef struct
{
  OddPrintKind kind;
  guint32 colours[4];        /* 0xRRGGBB; ground, first, second, third ink */
  double repeat_mm;          /* size of the repeat, > 0 */
} OddPrint;

typedef struct _OddFabric OddFabric;
struct _OddFabric           /* read only */
{
  OddId id;
  char *name;
  OddFibre *fibres;         /* (array length=n_fibres); percentages sum to 100 within 0.05, or n_fibres is 0: unknown */
  guint n_fibres;
  double gsm;               /* g/m2; 0: unknown */
  double thickness_mm;      /* 0: unknown */
  OddMake make;
  gboolean one_way;         /* print or nap has an up */
  gboolean reversible;      /* no wrong side: may be mirrored */
  double grain_tolerance_deg;   /* how far the lengthwise grain may lie off a panel's length, 0: not at all .. 90: any way */
  OddBleed bleeds;
  double shrink_along, shrink_across;   /* fraction lost in the first wash along and across the grain, 0 <= s < 0.5 */
  char *care;               /* free text, may be NULL */
  double lightness;         /* CIE L* 0..100; NAN: from the print's ground and inks */
  OddPrint print;
  char *picture;            /* name of a picture of the job, or NULL */
  char *unknown_json;       /* JSON object text of members not known, or NULL */
};

#define ODD_VALUE_ERROR (odd_value_error_quark ())
GQuark odd_value_error_quark (void);
typedef enum { ODD_VALUE_ERROR_RANGE, ODD_VALUE_ERROR_NAME, ODD_VALUE_ERROR_SHAPE } OddValueError;

/* @values: copied deeply. Refuses (NULL, error names fabric and member): an unknown fibre name, a sum that is not 100, a figure out of range. */
OddFabric *odd_fabric_new (const OddFabric *values, GError **error);
OddFabric *odd_fabric_ref (OddFabric *self);
void odd_fabric_unref (OddFabric *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddFabric, odd_fabric_unref)
/* A template to fill: everything unknown, plain natural cloth, name "". Do not free; shallow. */
void odd_fabric_init_values (OddFabric *values);
/* A plain colour for cloth whose own is not known, so that the @nth fabric of a job (from 0) can be told from the others; where its lightness is known, of
 * that lightness within 1. 36 come before the first comes again. */
void odd_fabric_set_stand_in (OddFabric *values, guint nth);

/* L* of the fabric: the member, or the mean of the print's colours by the share of area each covers (sRGB D65 to CIE 1976). */
double odd_fabric_get_lightness (const OddFabric *self);
guint32 odd_fabric_get_mean_colour (const OddFabric *self);     /* 0xRRGGBB */
/* Names allowed for fibres, from data/figures/fibres.csv. (transfer none) NULL-terminated */
const char *const *odd_fibre_names (void);
/* What share of its area a print gives to the ground and to each ink; four numbers that sum to 1, as drawing/print.h draws it, within a few
 * hundredths. (transfer none) */
const double *odd_print_kind_get_shares (OddPrintKind kind);
const char *odd_print_kind_get_nick (OddPrintKind kind);
gboolean odd_print_kind_from_nick (const char *nick, OddPrintKind *out);
const char *odd_make_get_nick (OddMake make);
gboolean odd_make_from_nick (const char *nick, OddMake *out);
const char *odd_bleed_get_nick (OddBleed bleed);
gboolean odd_bleed_from_nick (const char *nick, OddBleed *out);

G_END_DECLS
