/* Tables of figures that ship with Oddment: comma separated, first line names the columns. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define ODD_CSV_ERROR (odd_csv_error_quark ())
GQuark odd_csv_error_quark (void);
typedef enum { ODD_CSV_ERROR_QUOTES, ODD_CSV_ERROR_COLUMNS } OddCsvError;

typedef struct
{
  GStrv columns;
  GPtrArray *rows;            /* (element-type GStrv) as many cells as columns, "" for an empty one */
} OddCsv;

/*
 * odd_csv_parse:
 * @text: UTF-8, lines end in LF or CRLF
 *
 * RFC 4180: a cell in double quotes may hold commas, line ends and doubled quotes. Empty lines are left out.
 * Refused: a quote that is not closed or stands inside a bare cell, a row with more or fewer cells than the first line.
 *
 * Returns: (transfer full): the table, or NULL
 */
OddCsv *odd_csv_parse (const char *text, GError **error);
/* A table of data/figures by its file name, "fibres.csv"; it ships in the program, so it is there. (transfer full) */
OddCsv *odd_csv_load_figures (const char *name);
void odd_csv_free (OddCsv *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddCsv, odd_csv_free)

/* The cell of a column by the column's name; NULL when there is no such column. (transfer none) */
const char *odd_csv_get (const OddCsv *self, guint row, const char *column);
/* Its number, with a decimal point; NAN for an empty cell or a text. */
double odd_csv_get_number (const OddCsv *self, guint row, const char *column);
/* The first row with this text in this column; -1 when there is none. */
int odd_csv_find (const OddCsv *self, const char *column, const char *text);

G_END_DECLS
