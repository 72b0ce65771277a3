#include "config.h"

#include "cloth/csv.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <math.h>

G_DEFINE_QUARK (odd-csv-error-quark, odd_csv_error)

typedef struct
{
  const char *at;
  guint line;                 /* from 1, for errors */
} Reader;

/* A cell in quotes, up to behind its closing quote. */
static char *
read_quoted (Reader  *reader,
             GError **error)
{
  g_autoptr(GString) cell = g_string_new (NULL);
  const guint first_line = reader->line;

  for (reader->at++; *reader->at != '\0'; reader->at++)
    {
      if (*reader->at == '"' && reader->at[1] != '"')
        {
          reader->at++;
          return g_string_free (g_steal_pointer (&cell), FALSE);
        }
      reader->at += *reader->at == '"';
      reader->line += *reader->at == '\n';
      g_string_append_c (cell, *reader->at);
    }
  g_set_error (error, ODD_CSV_ERROR, ODD_CSV_ERROR_QUOTES,
               _("The quote opened in line %u is not closed; add a quote at the end of its text."), first_line);
  return NULL;
}

static gboolean
at_cell_end (const char *at)
{
  return *at == '\0' || *at == ',' || *at == '\n' || (at[0] == '\r' && at[1] == '\n');
}

static char *
read_bare (Reader *reader)
{
  const char *start = reader->at;

  while (!at_cell_end (reader->at) && *reader->at != '"')
    reader->at++;
  return g_strndup (start, reader->at - start);
}

/* One row, up to behind its line end; empty for an empty line. */
static GStrv
read_row (Reader  *reader,
          GError **error)
{
  g_autoptr(GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  gboolean more = !at_cell_end (reader->at) || *reader->at == ',';

  while (more)
    {
      char *cell = *reader->at == '"' ? read_quoted (reader, error) : read_bare (reader);

      if (cell == NULL)
        return NULL;
      g_ptr_array_add (cells, cell);
      if (!at_cell_end (reader->at))
        {
          g_set_error (error, ODD_CSV_ERROR, ODD_CSV_ERROR_QUOTES,
                       _("Cell %u of line %u has a quote in its middle; put the whole cell in quotes and double those inside."),
                       cells->len, reader->line);
          return NULL;
        }
      more = *reader->at == ',';
      reader->at += more;
    }
  reader->at += *reader->at == '\r';
  if (*reader->at == '\n')
    {
      reader->at++;
      reader->line++;
    }
  g_ptr_array_add (cells, NULL);
  return (GStrv) g_ptr_array_free (g_steal_pointer (&cells), FALSE);
}

OddCsv *
odd_csv_parse (const char *text,
               GError    **error)
{
  g_autoptr(OddCsv) self = g_new0 (OddCsv, 1);
  Reader reader = { text, 1 };

  g_return_val_if_fail (text != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  self->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);
  while (*reader.at != '\0')
    {
      const guint line = reader.line;
      g_auto(GStrv) row = read_row (&reader, error);

      if (row == NULL)
        return NULL;
      if (row[0] == NULL)
        continue;
      if (self->columns == NULL)
        self->columns = g_steal_pointer (&row);
      else if (g_strv_length (row) == g_strv_length (self->columns))
        g_ptr_array_add (self->rows, g_steal_pointer (&row));
      else
        {
          g_set_error (error, ODD_CSV_ERROR, ODD_CSV_ERROR_COLUMNS,
                       _("Line %u has %u cells and the first line %u columns; make them equal."),
                       line, g_strv_length (row), g_strv_length (self->columns));
          return NULL;
        }
    }
  if (self->columns == NULL)
    self->columns = g_new0 (char *, 1);
  return g_steal_pointer (&self);
}

OddCsv *
odd_csv_load_figures (const char *name)
{
  g_autofree char *path = g_strconcat ("/io/github/oddment/Oddment/figures/", name, NULL);
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(GError) error = NULL;
  OddCsv *self = NULL;

  /* A resource of text ends in a NUL that its size does not count. */
  bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  if (bytes != NULL)
    self = odd_csv_parse (g_bytes_get_data (bytes, NULL), &error);
  if (self == NULL)
    g_error ("%s: %s", path, error->message);
  return self;
}

void
odd_csv_free (OddCsv *self)
{
  if (self == NULL)
    return;
  g_strfreev (self->columns);
  g_ptr_array_unref (self->rows);
  g_free (self);
}

static int
find_column (const OddCsv *self,
             const char   *column)
{
  for (int i = 0; self->columns[i] != NULL; i++)
    if (g_str_equal (self->columns[i], column))
      return i;
  return -1;
}

const char *
odd_csv_get (const OddCsv *self,
             guint         row,
             const char   *column)
{
  int index;

  g_return_val_if_fail (self != NULL && row < self->rows->len && column != NULL, NULL);

  index = find_column (self, column);
  return index < 0 ? NULL : ((GStrv) g_ptr_array_index (self->rows, row))[index];
}

double
odd_csv_get_number (const OddCsv *self,
                    guint         row,
                    const char   *column)
{
  const char *text = odd_csv_get (self, row, column);
  char *end = NULL;
  double number;

  if (text == NULL || *text == '\0')
    return NAN;
  number = g_ascii_strtod (text, &end);
  return *end == '\0' ? number : NAN;
}

int
odd_csv_find (const OddCsv *self,
              const char   *column,
              const char   *text)
{
  g_return_val_if_fail (self != NULL && column != NULL && text != NULL, -1);

  for (guint row = 0; row < self->rows->len; row++)
    if (g_strcmp0 (odd_csv_get (self, row, column), text) == 0)
      return (int) row;
  return -1;
}
