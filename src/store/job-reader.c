#include "config.h"

#include "store/job-reader.h"

#include <glib/gi18n.h>
#include <string.h>
#include "store/json-guard.h"
#include "store/picture-file.h"
#include "store/record-file.h"
#include "store/store-error.h"
#include "store/tree-reader.h"
#include "store/zip.h"

/* A job as it is put together. */
typedef struct
{
  OddReading reading;
  OddIdBook book;
  OddJob values;
  char *unknown;
} Building;

static void
building_init (Building *self, const char *name, GPtrArray *pictures)
{
  *self = (Building) { .values.treatment = ODD_TREATMENT_INHERIT };
  odd_reading_init (&self->reading, name);
  odd_id_book_init (&self->book, 1);
  self->values.fabrics = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_fabric_unref);
  self->values.finishes = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_finish_unref);
  self->values.scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  self->values.loose_panels = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_panel_unref);
  self->values.textiles = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_textile_unref);
  self->values.pictures = pictures ? g_ptr_array_ref (pictures) : g_ptr_array_new_with_free_func ((GDestroyNotify) odd_picture_unref);
}

static void
building_clear (Building *self)
{
  g_ptr_array_unref (self->values.fabrics);
  g_ptr_array_unref (self->values.finishes);
  g_ptr_array_unref (self->values.scraps);
  g_ptr_array_unref (self->values.loose_panels);
  g_ptr_array_unref (self->values.textiles);
  g_ptr_array_unref (self->values.pictures);
  g_clear_pointer (&self->values.record, g_ptr_array_unref);
  odd_id_book_clear (&self->book);
  g_clear_pointer (&self->reading.warnings, g_ptr_array_unref);
  g_clear_error (&self->reading.error);
  g_free (self->unknown);
}

/* --- head --- */

static void
set_newer (Building *self, guint major, guint minor)
{
  if (!self->reading.error)
    g_set_error (&self->reading.error, ODD_STORE_ERROR, ODD_STORE_ERROR_VERSION,
                 _("“%s” was saved by a newer Oddment, in version %u.%u of the job file; this one reads up to %d: install the newer Oddment to open it."),
                 self->reading.name, major, minor, ODD_JOB_MAJOR);
}

static void
read_version (Building *self, OddCursor *top)
{
  OddCursor cursor;
  guint major, minor;

  odd_cursor_require (top, "version");
  if (!odd_cursor_enter (top, "version", &cursor))
    return;
  odd_cursor_require (&cursor, "major");
  major = odd_cursor_uint (&cursor, "major", 0, 1, G_MAXUINT32);
  minor = odd_cursor_uint (&cursor, "minor", 0, 0, G_MAXUINT32);
  odd_cursor_leave (&cursor);
  if (major > ODD_JOB_MAJOR)
    set_newer (self, major, minor);
}

static void
read_head (Building *self, OddCursor *top)
{
  const char *format;

  odd_cursor_require (top, "format");
  format = odd_cursor_string (top, "format", ODD_JOB_FORMAT);
  if (!g_str_equal (format, ODD_JOB_FORMAT))
    odd_cursor_fail (top, "format", _("this is “%s”, not “%s”; open it with the program that wrote it"), format, ODD_JOB_FORMAT);
  read_version (self, top);
  odd_cursor_require (top, "next_id");
  self->values.next_id = odd_cursor_uint (top, "next_id", 1, 1, G_MAXUINT32);
  self->book.next_id = self->values.next_id;
}

static double
read_speed (OddCursor *cursor, const char *member)
{
  const double value = odd_cursor_double (cursor, member, 0.0, 0.0, 10000.0);

  if (value > 0.0 && value < 1.0)
    odd_cursor_fail (cursor, member, _("a speed of %g is too little; make it 1 or more, or leave it out"), value);
  return value;
}

static void
read_speeds (OddSpeeds *speeds, OddCursor *settings)
{
  OddCursor cursor;

  if (!odd_cursor_enter (settings, "speeds", &cursor))
    return;
  speeds->sewing_per_min = read_speed (&cursor, "sewing_per_min");
  speeds->overlocker_per_min = read_speed (&cursor, "overlocker_per_min");
  speeds->handling_s = read_speed (&cursor, "handling_s");
  speeds->pressing_s_per_m = read_speed (&cursor, "pressing_s_per_m");
  speeds->stitch_mm = read_speed (&cursor, "stitch_mm");
  speeds->walk_s = read_speed (&cursor, "walk_s");
  odd_cursor_leave (&cursor);
}

/* What the program offers at first holds for a file that does not say; see OddSettings. */
static void
read_settings (Building *self, OddCursor *top)
{
  OddSettings *settings = &self->values.settings;
  OddCursor cursor;

  *settings = ODD_SETTINGS_FIRST;
  if (!odd_cursor_enter (top, "settings", &cursor))
    return;
  settings->usable_square_mm = odd_cursor_double (&cursor, "usable_square_mm", settings->usable_square_mm, 0, ODD_JSON_MAX_MM);
  settings->min_side_mm = odd_cursor_double (&cursor, "min_side_mm", settings->min_side_mm, 0, ODD_JSON_MAX_MM);
  settings->column_width_mm = odd_cursor_double (&cursor, "column_width_mm", settings->column_width_mm, 0, ODD_JSON_MAX_MM);
  settings->fold_loss_mm = odd_cursor_double (&cursor, "fold_loss_mm", settings->fold_loss_mm, 0, 20);
  settings->scatter_mm = odd_cursor_double (&cursor, "scatter_mm", settings->scatter_mm, 0, 20);
  settings->bias_mm = odd_cursor_double (&cursor, "bias_mm", settings->bias_mm, 0, 20);
  settings->ease_percent = odd_cursor_double (&cursor, "ease_percent", settings->ease_percent, 0, 10);
  settings->mass_ratio = odd_cursor_double (&cursor, "mass_ratio", settings->mass_ratio, 1, 100);
  settings->shrink_gap_mm = odd_cursor_double (&cursor, "shrink_gap_mm", settings->shrink_gap_mm, 0, 1000);
  settings->light_from = odd_cursor_double (&cursor, "light_from", settings->light_from, 0, 100);
  read_speeds (&settings->speeds, &cursor);
  settings->stay_from_deg = odd_cursor_double (&cursor, "stay_from_deg", settings->stay_from_deg, 0, 45);
  settings->stay_from_mm = odd_cursor_double (&cursor, "stay_from_mm", settings->stay_from_mm, 0, 10000);
  odd_cursor_leave (&cursor);
}

/* --- lists --- */

static void
read_fabrics (Building *self, OddCursor *top)
{
  JsonArray *array = odd_cursor_get_array (top, "fabrics");
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "fabrics", array, i, &cursor))
      {
        OddFabric *fabric = odd_read_fabric (&cursor, odd_id_book_claim (&self->book, &cursor, ODD_ID_FABRIC));

        if (fabric)
          g_ptr_array_add (self->values.fabrics, fabric);
      }
}

static void
add_finish (Building *self, OddFinish *finish)
{
  g_ptr_array_add (self->values.finishes, finish);
  g_hash_table_insert (self->book.finishes, GUINT_TO_POINTER (finish->id), finish);
}

static void
read_finishes (Building *self, OddCursor *top)
{
  JsonArray *array;
  OddCursor cursor;

  odd_cursor_require (top, "finishes");
  array = odd_cursor_get_array (top, "finishes");
  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "finishes", array, i, &cursor))
      {
        OddFinish *finish = odd_read_finish (&cursor, odd_id_book_claim (&self->book, &cursor, ODD_ID_FINISH));

        if (finish)
          add_finish (self, finish);
      }
}

/* A parent that was thrown away leaves its children without one, which is told, not refused. */
static OddScrap *
read_scrap (Building *self, OddCursor *cursor)
{
  const OddId id = odd_cursor_uint (cursor, "id", 0, 1, G_MAXUINT32);
  g_autoptr(OddPanel) piece = NULL;
  guint number;
  OddId fabric_id, parent_id;
  OddCursor child;

  odd_cursor_require (cursor, "number");
  number = odd_cursor_uint (cursor, "number", 1, 1, G_MAXUINT32);
  fabric_id = odd_id_book_look_up (&self->book, cursor, "fabric", ODD_ID_FABRIC);
  parent_id = odd_cursor_uint (cursor, "parent", 0, 1, G_MAXUINT32);
  if (parent_id >= id && parent_id > 0)
    odd_cursor_fail (cursor, "parent", _("a scrap is younger than the one it was cut from, so its id, %u, must be above %u"), id, parent_id);
  if (odd_cursor_enter (cursor, "piece", &child))
    piece = odd_read_panel (&child, &self->book, self->values.treatment.finish_id, NULL);
  return odd_read_scrap (cursor, id, number, fabric_id, parent_id, piece, TRUE);
}

/* Ids of all scraps before any is read: pieces may name scraps that come later in the list. */
static void
claim_scraps (Building *self, OddCursor *top)
{
  JsonArray *array = odd_cursor_get_array (top, "scraps");
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "scraps", array, i, &cursor))
      odd_id_book_claim (&self->book, &cursor, ODD_ID_SCRAP);
}

static void
read_scraps (Building *self, OddCursor *top)
{
  JsonArray *array = odd_cursor_get_array (top, "scraps");
  g_autoptr(GHashTable) numbers = g_hash_table_new (NULL, NULL);
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "scraps", array, i, &cursor))
      {
        OddScrap *scrap = read_scrap (self, &cursor);

        if (!scrap)
          return;
        g_ptr_array_add (self->values.scraps, scrap);
        if (!g_hash_table_add (numbers, GUINT_TO_POINTER (scrap->number)))
          odd_cursor_fail_element (top, "scraps", i, _("another scrap has the number %u too; give one of the two a new one"), scrap->number);
      }
}

static void
drop_lost_parents (Building *self)
{
  for (guint i = 0; i < self->values.scraps->len; i++)
    {
      OddScrap *scrap = g_ptr_array_index (self->values.scraps, i);
      OddScrap orphan = *scrap;

      if (scrap->parent_id == 0
          || g_hash_table_lookup (self->book.kinds, GUINT_TO_POINTER (scrap->parent_id)) == GINT_TO_POINTER (ODD_ID_SCRAP))
        continue;
      odd_reading_warn (&self->reading, _("“%s”: the scrap that scrap %u was cut from is not in the job any more."), self->reading.name, scrap->number);
      orphan.parent_id = 0;
      self->values.scraps->pdata[i] = odd_scrap_new (&orphan, NULL);
      odd_scrap_unref (scrap);
    }
}

static void
read_treatment (Building *self, OddCursor *top)
{
  odd_cursor_require (top, "finish");
  odd_cursor_require (top, "allowance_mm");
  self->values.treatment = odd_read_treatment (top, &self->book);
}

static void
read_loose_panels (Building *self, OddCursor *top)
{
  JsonArray *array = odd_cursor_get_array (top, "loose_panels");
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "loose_panels", array, i, &cursor))
      {
        OddPanel *panel = odd_read_panel (&cursor, &self->book, self->values.treatment.finish_id, NULL);

        if (panel)
          g_ptr_array_add (self->values.loose_panels, panel);
      }
}

static void
read_textiles (Building *self, OddCursor *top)
{
  JsonArray *array = odd_cursor_get_array (top, "textiles");
  OddCursor cursor;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (top, "textiles", array, i, &cursor))
      {
        OddTextile *textile = odd_read_textile (&cursor, &self->book, self->values.treatment.finish_id);

        if (textile)
          g_ptr_array_add (self->values.textiles, textile);
      }
}

static void
read_top (Building *self, JsonObject *object)
{
  OddCursor top;

  odd_cursor_init (&top, &self->reading, object);
  read_head (self, &top);
  read_settings (self, &top);
  read_finishes (self, &top);
  read_fabrics (self, &top);
  read_treatment (self, &top);
  claim_scraps (self, &top);
  read_scraps (self, &top);
  read_loose_panels (self, &top);
  read_textiles (self, &top);
  self->values.record = odd_read_record (&top, self->values.next_id);
  self->unknown = odd_cursor_leave_with_unknown (&top);
  self->values.unknown_json = self->unknown;
}

/* --- pictures --- */

static int
compare_pictures (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(OddPicture *const *) a)->name, (*(OddPicture *const *) b)->name);
}

static void
need_picture (Building *self, GHashTable *there, const char *name, const char *whose)
{
  OddPicture *missing;

  if (!name || g_hash_table_contains (there, name))
    return;
  odd_reading_warn (&self->reading, _("“%s”: the picture of %s is missing; it is shown as plain cloth."), self->reading.name, whose);
  missing = odd_picture_new (name, NULL);
  g_ptr_array_add (self->values.pictures, missing);
  g_hash_table_add (there, missing->name);
}

/* Adds a picture without bytes for each that is named and not there. */
static void
add_missing_pictures (Building *self)
{
  g_autoptr(GHashTable) there = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < self->values.pictures->len; i++)
    g_hash_table_add (there, ((OddPicture *) self->values.pictures->pdata[i])->name);
  for (guint i = 0; i < self->values.fabrics->len; i++)
    {
      const OddFabric *fabric = self->values.fabrics->pdata[i];
      g_autofree char *whose = g_strdup_printf (_("fabric “%s”"), fabric->name);

      need_picture (self, there, fabric->picture, whose);
    }
  for (guint i = 0; i < self->values.scraps->len; i++)
    {
      const OddScrap *scrap = self->values.scraps->pdata[i];
      g_autofree char *whose = g_strdup_printf (_("scrap %u"), scrap->number);

      need_picture (self, there, scrap->picture, whose);
    }
  g_ptr_array_sort (self->values.pictures, compare_pictures);
}

/* --- the whole --- */

/* (transfer full), or NULL with the reading's error set */
static OddJob *
build_job (Building *self)
{
  g_autoptr(GError) why = NULL;
  OddJob *job;

  if (odd_reading_failed (&self->reading))
    return NULL;
  drop_lost_parents (self);
  add_missing_pictures (self);
  job = odd_job_new_take (&self->values, &why);
  if (!job)
    g_set_error (&self->reading.error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN, _("“%s” cannot be read: %s"), self->reading.name, why->message);
  return job;
}

OddJob *
odd_job_read_json (const char *text, gsize length, const char *name, GPtrArray *pictures, GPtrArray **out_warnings, GError **error)
{
  g_autoptr(JsonNode) root = odd_json_parse_object (text, length, name, error);
  Building building;
  OddJob *job;

  if (!root)
    return NULL;
  building_init (&building, name, pictures);
  read_top (&building, json_node_get_object (root));
  job = build_job (&building);
  if (job && out_warnings)
    *out_warnings = g_steal_pointer (&building.reading.warnings);
  if (!job)
    g_propagate_error (error, g_steal_pointer (&building.reading.error));
  building_clear (&building);
  return job;
}

/* An entry of the archive that is not job.json. */
static void
take_entry (GPtrArray *pictures, GPtrArray *warnings, const OddZipEntry *entry, const char *name)
{
  const char *picture = entry->name + strlen (ODD_JOB_PICTURES);
  const char *reason = NULL;

  if (!g_str_has_prefix (entry->name, ODD_JOB_PICTURES) || !odd_picture_name_is_good (picture))
    g_ptr_array_add (warnings, g_strdup_printf (_("“%s”: the entry “%s” is not known and will not be saved again."), name, entry->name));
  else if (odd_picture_bytes_are_good (picture, entry->bytes, &reason))
    g_ptr_array_add (pictures, odd_picture_new (picture, entry->bytes));
  else
    {
      g_ptr_array_add (warnings, g_strdup_printf (_("“%s”: the picture “%s” is broken, %s; it is shown as plain cloth and will not be saved again."),
                                                  name, picture, reason));
      g_ptr_array_add (pictures, odd_picture_new (picture, NULL));
    }
}

OddJob *
odd_job_read_bytes (GBytes *bytes, const char *name, GPtrArray **out_warnings, GError **error)
{
  g_autoptr(GPtrArray) entries = odd_zip_read (bytes, name, error);
  g_autoptr(GPtrArray) pictures = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_picture_unref);
  g_autoptr(GPtrArray) warnings = g_ptr_array_new_with_free_func (g_free), more = NULL;
  const OddZipEntry *text = NULL;
  OddJob *job;
  gsize length;
  const char *data;

  if (!entries)
    return NULL;
  for (guint i = 0; i < entries->len; i++)
    {
      const OddZipEntry *entry = g_ptr_array_index (entries, i);

      if (g_str_equal (entry->name, ODD_JOB_ENTRY))
        text = entry;
      else
        take_entry (pictures, warnings, entry, name);
    }
  if (!text)
    {
      g_set_error (error, ODD_STORE_ERROR, ODD_STORE_ERROR_BROKEN,
                   _("“%s” is a ZIP archive but no job: it has no job.json; open another file."), name);
      return NULL;
    }
  data = g_bytes_get_data (text->bytes, &length);
  job = odd_job_read_json (data ? data : "", length, name, pictures, &more, error);
  if (!job)
    return NULL;
  g_ptr_array_extend_and_steal (warnings, g_steal_pointer (&more));
  if (out_warnings)
    *out_warnings = g_steal_pointer (&warnings);
  return job;
}
