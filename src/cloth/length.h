/* Lengths as people type and read them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum { ODD_UNIT_CM, ODD_UNIT_MM, ODD_UNIT_INCH } OddUnit;

#define ODD_LENGTH_ERROR (odd_length_error_quark ())
GQuark odd_length_error_quark (void);
typedef enum { ODD_LENGTH_ERROR_SYNTAX, ODD_LENGTH_ERROR_RANGE } OddLengthError;

/*
 * odd_length_parse:
 * @text: "30", "30 cm", "12,5cm", "305 mm", "12 1/2 in", "12½\"", "1 m", "5/8 in", "3 ft"
 * @bare: the unit of a number without one
 * @locale: %TRUE: comma or point is the decimal mark; %FALSE (command line): only the point
 * @out_mm: (out): millimetres; untouched on error
 *
 * Refused: empty, unknown unit, not finite, negative unless @allow_negative, beyond 10 m.
 */
gboolean odd_length_parse (const char *text, OddUnit bare, gboolean locale, gboolean allow_negative, double *out_mm, GError **error);

/* "98.4 cm", "984.0 mm", "38 3/4 in" (nearest eighth). The decimal mark follows the locale. */
char *odd_length_format (double mm, OddUnit unit);
/* The same without the unit: "98.4". */
char *odd_length_format_bare (double mm, OddUnit unit);
/* "98.4 × 63.0 cm" */
char *odd_length_format_pair (double width_mm, double length_mm, OddUnit unit);
/* "157 cm²", "1.24 m²" (from 1 m2 on), "24 in²" */
char *odd_area_format (double mm2, OddUnit unit);
/* "4.2 m", "14 ft": for seams and thread */
char *odd_run_format (double mm, OddUnit unit);
const char *odd_unit_get_symbol (OddUnit unit);

G_END_DECLS
