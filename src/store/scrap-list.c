#include "config.h"

#include "store/scrap-list.h"

#include <glib/gi18n.h>
#include <string.h>
#include "store/json-guard.h"
#include "store/store-error.h"
#include "store/value-reader.h"
#include "store/value-writer.h"

/* --- reading --- */

typedef struct
{
  OddReading reading;
  OddJob values;              /* the job that grows; its two lists are our own */
  GHashTable *known;          /* name -> fabric that the job had before, not owned */
  GHashTable *fabrics;        /* name in the list -> id */
  GHashTable *numbers;        /* of scraps, given out */
  guint next_number;
} Import;

/* The job's own lists belong to other jobs too. */
static GPtrArray *
copy_list (GPtrArray *list, gpointer (*ref) (gpointer), GDestroyNotify unref)
{
  GPtrArray *copy = g_ptr_array_new_full (list->len, unref);

  for (guint i = 0; i < list->len; i++)
    g_ptr_array_add (copy, ref (list->pdata[i]));
  return copy;
}

static gpointer
ref_fabric (gpointer fabric)
{
  return odd_fabric_ref (fabric);
}

static gpointer
ref_scrap (gpointer scrap)
{
  return odd_scrap_ref (scrap);
}

static void
import_init (Import *self, OddJob *job, const char *name)
{
  *self = (Import) { .values = *job, .next_number = 1 };
  odd_reading_init (&self->reading, name);
  self->values.fabrics = copy_list (job->fabrics, ref_fabric, (GDestroyNotify) odd_fabric_unref);
  self->values.scraps = copy_list (job->scraps, ref_scrap, (GDestroyNotify) odd_scrap_unref);
  self->fabrics = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->numbers = g_hash_table_new (NULL, NULL);
  self->known = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < job->fabrics->len; i++)
    g_hash_table_insert (self->known, ((OddFabric *) job->fabrics->pdata[i])->name, job->fabrics->pdata[i]);
  for (guint i = 0; i < job->scraps->len; i++)
    g_hash_table_add (self->numbers, GUINT_TO_POINTER (((OddScrap *) job->scraps->pdata[i])->number));
}

static void
import_clear (Import *self)
{
  g_ptr_array_unref (self->values.fabrics);
  g_ptr_array_unref (self->values.scraps);
  g_ptr_array_unref (self->reading.warnings);
  g_hash_table_unref (self->fabrics);
  g_hash_table_unref (self->numbers);
  g_hash_table_unref (self->known);
  g_clear_error (&self->reading.error);
}

static OddId
take_id (Import *self, OddCursor *cursor)
{
  if (self->values.next_id < G_MAXUINT32)
    return self->values.next_id++;
  odd_cursor_fail (cursor, NULL, _("the job has no ids left; start a new one"));
  return 0;
}

static char *
dup_fabric_text (const OddFabric *fabric)
{
  g_autoptr(OddPrinter) printer = odd_printer_new ();
  g_autoptr(GBytes) bytes = NULL;

  odd_print_fabric (printer, fabric, 0);
  bytes = odd_printer_finish (printer, NULL);
  return bytes ? g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes)) : NULL;
}

static gboolean
fabrics_say_the_same (const OddFabric *a, const OddFabric *b)
{
  g_autofree char *a_text = dup_fabric_text (a), *b_text = dup_fabric_text (b);

  return g_strcmp0 (a_text, b_text) == 0;
}

/* Takes @fabric. @only_named: the list says nothing of it but its name. */
static void
take_fabric (Import *self, OddCursor *top, guint i, OddFabric *fabric, gboolean only_named)
{
  OddFabric *known = g_hash_table_lookup (self->known, fabric->name);
  const OddId id = known ? known->id : fabric->id;

  if (g_hash_table_contains (self->fabrics, fabric->name))
    odd_cursor_fail_element (top, "fabrics", i, _("another fabric of the list is called “%s” too; rename one of the two"), fabric->name);
  else if (known && !only_named && !fabrics_say_the_same (known, fabric))
    odd_cursor_fail_element (top, "fabrics", i, _("the job has another fabric called “%s”; rename this one in the list"), fabric->name);
  g_hash_table_insert (self->fabrics, g_strdup (fabric->name), GUINT_TO_POINTER (id));
  if (known)
    odd_fabric_unref (fabric);
  else
    g_ptr_array_add (self->values.fabrics, fabric);
}

/* A list that says nothing of the print leaves it as the job has it; a new fabric gets one by which it can be told from the others. */
static OddFabric *
give_print (Import *self, OddFabric *fabric)
{
  const OddFabric *known = g_hash_table_lookup (self->known, fabric->name);
  OddFabric values = *fabric;
  OddFabric *printed;

  if (known)
    values.print = known->print;
  else
    odd_fabric_set_stand_in (&values, self->values.fabrics->len);
  printed = odd_fabric_new (&values, NULL);
  odd_fabric_unref (fabric);
  return printed;
}

static void
read_fabrics (Import *self, OddCursor *top)
{
  JsonArray *array = odd_cursor_get_array (top, "fabrics");
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "fabrics", array, i, &cursor))
      {
        const gboolean only_named = json_object_get_size (cursor.object) == 1;
        gboolean has_print;
        OddFabric *fabric;

        odd_cursor_require (&cursor, "name");
        if (odd_cursor_has (&cursor, "picture"))
          odd_cursor_fail (&cursor, "picture", _("a scrap list holds no pictures; take this out"));
        has_print = odd_cursor_has (&cursor, "print");
        fabric = odd_read_fabric (&cursor, take_id (self, &cursor));
        if (fabric && !has_print)
          fabric = give_print (self, fabric);
        if (fabric)
          take_fabric (self, top, i, fabric, only_named);
      }
}

static guint
take_number (Import *self, OddCursor *cursor)
{
  guint number;

  if (odd_cursor_has (cursor, "number"))
    {
      number = odd_cursor_uint (cursor, "number", 1, 1, G_MAXINT32);
      if (!g_hash_table_add (self->numbers, GUINT_TO_POINTER (number)))
        odd_cursor_fail (cursor, "number", _("another scrap has the number %u; write a free one or leave it out"), number);
      return number;
    }
  while (g_hash_table_contains (self->numbers, GUINT_TO_POINTER (self->next_number)))
    self->next_number++;
  g_hash_table_add (self->numbers, GUINT_TO_POINTER (self->next_number));
  return self->next_number;
}

static OddId
read_fabric_name (Import *self, OddCursor *cursor)
{
  const char *name = odd_cursor_string (cursor, "fabric", NULL);

  if (name && !g_hash_table_contains (self->fabrics, name))
    odd_cursor_fail (cursor, "fabric", _("the list has no fabric called “%s”; add it to “fabrics” or mend the name"), name);
  return name ? GPOINTER_TO_UINT (g_hash_table_lookup (self->fabrics, name)) : 0;
}

/* Numbers that are written come before those that are given, whatever the order. */
static void
claim_written_numbers (Import *self, OddCursor *top, JsonArray *array, guint *numbers)
{
  OddCursor cursor;

  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < json_array_get_length (array); i++)
      if (odd_cursor_enter_element (top, "scraps", array, i, &cursor) && odd_cursor_has (&cursor, "number") == (pass == 0))
        numbers[i] = take_number (self, &cursor);
}

static void
read_scraps (Import *self, OddCursor *top)
{
  JsonArray *array;
  g_autofree guint *numbers = NULL;
  OddCursor cursor;

  odd_cursor_require (top, "scraps");
  array = odd_cursor_get_array (top, "scraps");
  if (!array)
    return;
  numbers = g_new0 (guint, json_array_get_length (array) + 1);
  claim_written_numbers (self, top, array, numbers);
  for (guint i = 0; i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "scraps", array, i, &cursor))
      {
        const OddId fabric_id = read_fabric_name (self, &cursor);
        OddScrap *scrap;

        odd_cursor_has (&cursor, "number");
        scrap = odd_read_scrap (&cursor, take_id (self, &cursor), numbers[i], fabric_id, 0, NULL, FALSE);
        if (scrap)
          g_ptr_array_add (self->values.scraps, scrap);
      }
}

/* (transfer full), or NULL with the reading's error set */
static OddJob *
build_job (Import *self)
{
  g_autoptr(GError) why = NULL;
  OddJob *job;

  if (odd_reading_failed (&self->reading))
    return NULL;
  job = odd_job_new_take (&self->values, &why);
  if (!job)
    g_set_error (&self->reading.error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN, _("“%s” cannot be read: %s"), self->reading.name, why->message);
  return job;
}

static void
read_top (Import *self, JsonObject *object)
{
  OddCursor top;

  odd_cursor_init (&top, &self->reading, object);
  if (json_object_has_member (object, "format"))
    odd_cursor_fail (&top, "format", _("this is the inside of another file, not a scrap list; open the file that it was taken from"));
  read_fabrics (self, &top);
  read_scraps (self, &top);
  if (top.left_over)
    json_object_unref (top.left_over);
}

OddJob *
odd_job_import_scrap_list (OddJob *self, GBytes *bytes, const char *name, GError **error)
{
  g_autoptr(JsonNode) root = NULL;
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  Import import;
  OddJob *job;

  g_return_val_if_fail (self != NULL && name != NULL, NULL);

  root = odd_json_parse_object (text ? text : "", length, name, error);
  if (!root)
    return NULL;
  import_init (&import, self, name);
  read_top (&import, json_node_get_object (root));
  job = build_job (&import);
  if (!job)
    g_propagate_error (error, g_steal_pointer (&import.reading.error));
  import_clear (&import);
  return job;
}

OddJob *
odd_job_new_from_scrap_list (GBytes *bytes, const char *name, GError **error)
{
  g_autoptr(OddJob) empty = odd_job_new ();

  return odd_job_import_scrap_list (empty, bytes, name, error);
}

/* --- writing --- */

/* A name for each fabric that no other one has, NULL where none is needed: id -> name */
static GHashTable *
name_fabrics (OddJob *self)
{
  GHashTable *names = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  g_autoptr(GHashTable) taken = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < self->fabrics->len; i++)
    {
      const OddFabric *fabric = self->fabrics->pdata[i];
      char *name = g_strdup (fabric->name);

      for (guint n = 2; g_hash_table_contains (taken, name); n++)
        {
          g_free (name);
          name = g_strdup_printf ("%s %u", fabric->name, n);
        }
      g_hash_table_add (taken, name);
      g_hash_table_insert (names, GUINT_TO_POINTER (fabric->id), name);
    }
  return names;
}

static void
print_named_fabric (OddPrinter *printer, const OddFabric *fabric, char *name)
{
  OddFabric renamed = *fabric;

  renamed.name = name;
  renamed.picture = NULL;
  odd_print_fabric (printer, &renamed, 0);
}

static GHashTable *
find_used_fabrics (OddJob *self, guint *out_n_scraps)
{
  GHashTable *used = g_hash_table_new (NULL, NULL);

  *out_n_scraps = 0;
  for (guint i = 0; i < self->scraps->len; i++)
    {
      const OddScrap *scrap = self->scraps->pdata[i];

      if (scrap->gone || scrap->cut_out)
        continue;
      ++*out_n_scraps;
      if (scrap->fabric_id != 0)
        g_hash_table_add (used, GUINT_TO_POINTER (scrap->fabric_id));
    }
  return used;
}

GBytes *
odd_job_write_scrap_list (OddJob *self, GError **error)
{
  guint n_scraps;
  g_autoptr(GHashTable) names = name_fabrics (self), used = find_used_fabrics (self, &n_scraps);
  g_autoptr(OddPrinter) printer = odd_printer_new ();

  odd_printer_begin_object (printer, NULL, NULL);
  odd_printer_begin_array (printer, "fabrics", g_hash_table_size (used), TRUE);
  for (guint i = 0; i < self->fabrics->len; i++)
    {
      const OddFabric *fabric = self->fabrics->pdata[i];

      if (g_hash_table_contains (used, GUINT_TO_POINTER (fabric->id)))
        print_named_fabric (printer, fabric, g_hash_table_lookup (names, GUINT_TO_POINTER (fabric->id)));
    }
  odd_printer_end_array (printer);
  odd_printer_begin_array (printer, "scraps", n_scraps, TRUE);
  for (guint i = 0; i < self->scraps->len; i++)
    {
      const OddScrap *scrap = self->scraps->pdata[i];

      if (!scrap->gone && !scrap->cut_out)
        odd_print_scrap (printer, scrap, TRUE, g_hash_table_lookup (names, GUINT_TO_POINTER (scrap->fabric_id)));
    }
  odd_printer_end_array (printer);
  odd_printer_end_object (printer);
  return odd_printer_finish (printer, error);
}
