#include "config.h"

#include "store/value-reader.h"

#include <glib/gi18n.h>
#include <string.h>
#include "store/picture-file.h"

#define ANY 1e9      /* the value's own room says what is sensible; this only keeps sums finite */

/* --- ids --- */

void
odd_id_book_init (OddIdBook *self, OddId next_id)
{
  self->kinds = g_hash_table_new (NULL, NULL);
  self->finishes = g_hash_table_new (NULL, NULL);
  self->next_id = next_id;
}

void
odd_id_book_clear (OddIdBook *self)
{
  g_clear_pointer (&self->kinds, g_hash_table_unref);
  g_clear_pointer (&self->finishes, g_hash_table_unref);
}

OddId
odd_id_book_claim (OddIdBook *self, OddCursor *cursor, OddIdKind kind)
{
  OddId id;

  odd_cursor_require (cursor, "id");
  id = odd_cursor_uint (cursor, "id", 0, 1, G_MAXUINT32);
  if (odd_reading_failed (cursor->reading))
    return 0;
  if (id >= self->next_id)
    odd_cursor_fail (cursor, "id", _("the id %u is not below next_id, %u; raise next_id"), id, self->next_id);
  else if (!g_hash_table_insert (self->kinds, GUINT_TO_POINTER (id), GINT_TO_POINTER (kind)))
    odd_cursor_fail (cursor, "id", _("the id %u is used twice; give one of the two a new one"), id);
  return id;
}

static const char *
get_missing_text (OddIdKind kind)
{
  switch (kind)
    {
    case ODD_ID_FABRIC: return _("no fabric has the id %u; add it or take the mention out");
    case ODD_ID_FINISH: return _("no finish has the id %u; add it or take the mention out");
    case ODD_ID_SCRAP: return _("no scrap has the id %u; add it or take the mention out");
    default: return _("nothing has the id %u; add it or take the mention out");
    }
}

OddId
odd_id_book_look_up (OddIdBook *self, OddCursor *cursor, const char *member, OddIdKind kind)
{
  const OddId id = odd_cursor_uint (cursor, member, 0, 1, G_MAXUINT32);
  const OddIdKind found = (OddIdKind) GPOINTER_TO_INT (g_hash_table_lookup (self->kinds, GUINT_TO_POINTER (id)));
  g_autofree char *what = NULL;

  if (id == 0 || found == kind)
    return id;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
  what = g_strdup_printf (get_missing_text (kind), id);
#pragma GCC diagnostic pop
  odd_cursor_fail (cursor, member, "%s", what);
  return 0;
}

OddTreatment
odd_read_treatment (OddCursor *cursor, OddIdBook *book)
{
  OddTreatment treatment = ODD_TREATMENT_INHERIT;

  treatment.finish_id = odd_id_book_look_up (book, cursor, "finish", ODD_ID_FINISH);
  treatment.allowance_mm = odd_cursor_double (cursor, "allowance_mm", NAN, G_MINDOUBLE, 200.0);
  return treatment;
}

/* --- words --- */

/* The enums' own rooms know their words; @words lists them for the message. */
#define READ_WORD(cursor, member, from_nick, out, words) \
  G_STMT_START { \
    const char *nick_ = odd_cursor_string (cursor, member, NULL); \
    if (nick_ && !from_nick (nick_, out)) \
      odd_cursor_fail (cursor, member, _("“%s” is not known here; write one of: %s"), nick_, words); \
  } G_STMT_END

/* --- fabrics --- */

static void
read_fibre (OddCursor *cursor, OddFibre *out)
{
  odd_cursor_require (cursor, "name");
  odd_cursor_require (cursor, "percent");
  out->name = (char *) odd_cursor_string (cursor, "name", "");
  out->percent = odd_cursor_double (cursor, "percent", 0, -ANY, ANY);
}

static GArray *
read_fibres (OddCursor *cursor)
{
  GArray *fibres = g_array_new (FALSE, TRUE, sizeof (OddFibre));
  JsonArray *array = odd_cursor_get_array (cursor, "fibres");
  OddCursor child;

  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (cursor, "fibres", array, i, &child))
      {
        OddFibre fibre = { NULL, 0 };

        read_fibre (&child, &fibre);
        odd_cursor_leave (&child);
        g_array_append_val (fibres, fibre);
      }
  return fibres;
}

/* "#rrggbb" */
static guint32
read_colour (OddCursor *cursor, JsonArray *array, guint i)
{
  const char *text = odd_cursor_element_string (cursor, "colours", array, i);

  if (strlen (text) == 7 && text[0] == '#' && strspn (text + 1, "0123456789abcdefABCDEF") == 6)
    return (guint32) g_ascii_strtoull (text + 1, NULL, 16);
  odd_cursor_fail_element (cursor, "colours", i, _("a colour is written as “#” and six hexadecimal digits"));
  return 0;
}

static void
read_print (OddCursor *cursor, OddPrint *print)
{
  JsonArray *colours = odd_cursor_get_array (cursor, "colours");

  READ_WORD (cursor, "kind", odd_print_kind_from_nick, &print->kind,
             "plain, stripe, check, plaid, dot, flower, lattice, ring, diamond, leaf, fleck, windowpane");
  print->repeat_mm = odd_cursor_double (cursor, "repeat_mm", print->repeat_mm, -ANY, ANY);
  if (!colours)
    return;
  if (json_array_get_length (colours) < 1 || json_array_get_length (colours) > G_N_ELEMENTS (print->colours))
    odd_cursor_fail (cursor, "colours", _("a print has one to four colours"));
  for (guint i = 0; i < MIN (json_array_get_length (colours), G_N_ELEMENTS (print->colours)); i++)
    print->colours[i] = read_colour (cursor, colours, i);
}

/* Borrowed; NULL when none */
static char *
read_picture_name (OddCursor *cursor)
{
  const char *name = odd_cursor_string (cursor, "picture", NULL);

  if (name && !odd_picture_name_is_good (name))
    odd_cursor_fail (cursor, "picture", _("“%s” is not a picture's name; it is the SHA-256 in 64 digits and .png or .jpg"), name);
  return (char *) name;
}

static void
read_fabric_members (OddCursor *cursor, OddFabric *values)
{
  OddCursor child;

  values->name = (char *) odd_cursor_string (cursor, "name", "");
  values->gsm = odd_cursor_double (cursor, "gsm", 0, -ANY, ANY);
  values->thickness_mm = odd_cursor_double (cursor, "thickness_mm", 0, -ANY, ANY);
  READ_WORD (cursor, "make", odd_make_from_nick, &values->make, "woven, knit, unknown");
  values->one_way = odd_cursor_bool (cursor, "one_way", FALSE);
  values->reversible = odd_cursor_bool (cursor, "reversible", FALSE);
  values->grain_tolerance_deg = odd_cursor_double (cursor, "grain_tolerance_deg", 90, 0, 90);
  READ_WORD (cursor, "bleeds", odd_bleed_from_nick, &values->bleeds, "unknown, no, yes");
  values->shrink_along = odd_cursor_double (cursor, "shrink_along", 0, -ANY, ANY);
  values->shrink_across = odd_cursor_double (cursor, "shrink_across", 0, -ANY, ANY);
  values->care = (char *) odd_cursor_string (cursor, "care", NULL);
  values->lightness = odd_cursor_double (cursor, "lightness", NAN, 0, 100);
  values->picture = read_picture_name (cursor);
  if (odd_cursor_enter (cursor, "print", &child))
    {
      read_print (&child, &values->print);
      odd_cursor_leave (&child);
    }
}

OddFabric *
odd_read_fabric (OddCursor *cursor, OddId id)
{
  g_autoptr(GArray) fibres = read_fibres (cursor);
  g_autofree char *unknown = NULL;
  g_autoptr(GError) error = NULL;
  OddFabric values, *fabric;

  odd_fabric_init_values (&values);
  read_fabric_members (cursor, &values);
  unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  values.id = id;
  values.fibres = (OddFibre *) fibres->data;
  values.n_fibres = fibres->len;
  values.unknown_json = unknown;
  fabric = odd_fabric_new (&values, &error);
  if (!fabric)
    odd_cursor_fail_with (cursor, NULL, g_steal_pointer (&error));
  return fabric;
}

/* --- finishes --- */

static void
read_operation (OddCursor *cursor, OddOperation *operation)
{
  odd_cursor_require (cursor, "kind");
  READ_WORD (cursor, "kind", odd_operation_kind_from_nick, &operation->kind, "sew, neaten, trim, fold, press, topstitch");
  READ_WORD (cursor, "station", odd_station_from_nick, &operation->station, "sewing-machine, overlocker, iron, table");
  operation->stitch = (char *) odd_cursor_string (cursor, "stitch", NULL);
  READ_WORD (cursor, "face", odd_face_from_nick, &operation->face, "right-sides, wrong-sides, one-layer");
  operation->before_joining = odd_cursor_bool (cursor, "before_joining", FALSE);
  operation->at_mm = odd_cursor_double (cursor, "at_mm", 0, 0, 1000);
  operation->text = (char *) odd_cursor_string (cursor, "text", "");
}

static GArray *
read_operations (OddCursor *cursor)
{
  GArray *operations = g_array_new (FALSE, TRUE, sizeof (OddOperation));
  JsonArray *array = odd_cursor_get_array (cursor, "operations");
  OddCursor child;

  if (array && json_array_get_length (array) > 100)
    odd_cursor_fail (cursor, "operations", _("a finish has at most 100 operations"));
  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (cursor, "operations", array, i, &child))
      {
        OddOperation operation = { 0 };

        read_operation (&child, &operation);
        odd_cursor_leave (&child);
        g_array_append_val (operations, operation);
      }
  return operations;
}

static void
read_plies (OddCursor *cursor, guint plies[2])
{
  JsonArray *array = odd_cursor_get_array (cursor, "plies");

  if (!array)
    return;
  if (json_array_get_length (array) != 2)
    odd_cursor_fail (cursor, "plies", _("two numbers are expected here, one for each side"));
  else
    for (guint i = 0; i < 2; i++)
      plies[i] = odd_cursor_element_uint (cursor, "plies", array, i, 0, 100);
}

static void
read_finish_members (OddCursor *cursor, OddFinish *values)
{
  odd_cursor_require (cursor, "key");
  odd_cursor_require (cursor, "allowance_mm");
  values->key = (char *) odd_cursor_string (cursor, "key", "");
  values->name = (char *) odd_cursor_string (cursor, "name", values->key);
  values->allowance_mm = odd_cursor_double (cursor, "allowance_mm", 0, G_MINDOUBLE, 200);
  values->min_allowance_mm = odd_cursor_double (cursor, "min_allowance_mm", 0, 0, 200);
  values->width_kept_mm = odd_cursor_double (cursor, "width_kept_mm", values->allowance_mm, 0, 200);
  read_plies (cursor, values->plies);
  values->may_open = odd_cursor_bool (cursor, "may_open", FALSE);
  values->note = (char *) odd_cursor_string (cursor, "note", NULL);
  values->source = (char *) odd_cursor_string (cursor, "source", NULL);
}

OddFinish *
odd_read_finish (OddCursor *cursor, OddId id)
{
  g_autoptr(GArray) operations = read_operations (cursor);
  g_autofree char *unknown = NULL;
  g_autoptr(GError) error = NULL;
  OddFinish values = { .id = id }, *finish;

  read_finish_members (cursor, &values);
  unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  values.operations = (OddOperation *) operations->data;
  values.n_operations = operations->len;
  values.unknown_json = unknown;
  finish = odd_finish_new (&values, &error);
  if (!finish)
    odd_cursor_fail_with (cursor, NULL, g_steal_pointer (&error));
  return finish;
}

/* --- scraps --- */

static GPtrArray *
read_holes (OddCursor *cursor)
{
  JsonArray *array = odd_cursor_get_array (cursor, "holes_mm");
  GPtrArray *holes;

  if (!array)
    return NULL;
  holes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  for (guint i = 0; i < json_array_get_length (array) && !odd_reading_failed (cursor->reading); i++)
    {
      GArray *hole = odd_cursor_element_points (cursor, "holes_mm", array, i);

      if (hole)
        g_ptr_array_add (holes, hole);
    }
  return holes;
}

/* "outline_mm" and "holes_mm"; NULL when the reading failed */
static OddPolygon *
read_polygon (OddCursor *cursor)
{
  g_autoptr(GArray) points = NULL;
  g_autoptr(GPtrArray) holes = NULL;
  g_autoptr(GError) error = NULL;
  OddPolygon *polygon;

  odd_cursor_require (cursor, "outline_mm");
  points = odd_cursor_points (cursor, "outline_mm");
  holes = read_holes (cursor);
  if (!points || odd_reading_failed (cursor->reading))
    return NULL;
  polygon = odd_polygon_new_with_holes ((const OddPoint *) points->data, points->len, holes, &error);
  if (!polygon)
    odd_cursor_fail_with (cursor, "outline_mm", g_steal_pointer (&error));
  return polygon;
}

static void
zone_clear (OddZone *zone)
{
  g_clear_pointer (&zone->outline, odd_polygon_unref);
}

static void
read_zone (OddCursor *cursor, OddZone *zone)
{
  odd_cursor_require (cursor, "kind");
  READ_WORD (cursor, "kind", odd_zone_kind_from_nick, &zone->kind, "hole, thin, stain, mark, old-seam");
  zone->allowance_only = odd_cursor_bool (cursor, "allowance_only", FALSE);
  zone->outline = read_polygon (cursor);
}

static GArray *
read_zones (OddCursor *cursor)
{
  GArray *zones = g_array_new (FALSE, TRUE, sizeof (OddZone));
  JsonArray *array = odd_cursor_get_array (cursor, "zones");
  OddCursor child;

  g_array_set_clear_func (zones, (GDestroyNotify) zone_clear);
  for (guint i = 0; array && i < json_array_get_length (array); i++)
    if (odd_cursor_enter_element (cursor, "zones", array, i, &child))
      {
        OddZone zone = { 0 };

        read_zone (&child, &zone);
        odd_cursor_leave (&child);
        g_array_append_val (zones, zone);
      }
  return zones;
}

static void
read_scrap_picture (OddCursor *cursor, OddScrap *values)
{
  values->picture = read_picture_name (cursor);
  values->picture_mm_per_px = odd_cursor_double (cursor, "picture_mm_per_px", values->picture_mm_per_px, 0, 1000);
  values->picture_at_mm = odd_cursor_pair (cursor, "picture_at_mm", values->picture_at_mm, ODD_JSON_MAX_MM);
}

/* Where the piece lies; without one the members mean nothing. */
static void
read_piece_at (OddCursor *cursor, OddPanel *piece, OddScrap *values)
{
  static const char *const members[] = { "piece_turn_deg", "piece_at_mm", NULL };

  if (!piece)
    {
      odd_cursor_refuse (cursor, members, _("a scrap without a piece"));
      return;
    }
  values->piece = piece;
  values->piece_at.turn_deg = odd_cursor_double (cursor, "piece_turn_deg", 0, -ANY, ANY);
  values->piece_at.shift = odd_cursor_pair (cursor, "piece_at_mm", odd_point (0, 0), 3.0 * ODD_JSON_MAX_MM);
}

OddScrap *
odd_read_scrap (OddCursor *cursor, OddId id, guint number, OddId fabric_id, OddId parent_id, OddPanel *piece, gboolean with_picture)
{
  static const char *const job_only[] = { "id", "parent", "cut_out", "picture", "picture_mm_per_px", "picture_at_mm", "piece", "piece_turn_deg", "piece_at_mm", NULL };
  g_autoptr(OddPolygon) outline = read_polygon (cursor);
  g_autoptr(GArray) zones = read_zones (cursor);
  g_autofree char *unknown = NULL;
  g_autoptr(GError) error = NULL;
  OddScrap values, *scrap;

  odd_scrap_init_values (&values);
  values.grain_deg = odd_cursor_double (cursor, "grain_deg", values.grain_deg, -ANY, ANY);
  values.washed = odd_cursor_bool (cursor, "washed", values.washed);
  values.place = (char *) odd_cursor_string (cursor, "place", NULL);
  values.note = (char *) odd_cursor_string (cursor, "note", NULL);
  values.gone = odd_cursor_bool (cursor, "gone", FALSE);
  values.cut_out = with_picture && odd_cursor_bool (cursor, "cut_out", FALSE);
  if (with_picture)
    {
      read_scrap_picture (cursor, &values);
      read_piece_at (cursor, piece, &values);
    }
  else
    odd_cursor_drop (cursor, job_only);
  unknown = odd_cursor_leave_with_unknown (cursor);
  if (odd_reading_failed (cursor->reading))
    return NULL;
  values.id = id;
  values.number = number;
  values.fabric_id = fabric_id;
  values.parent_id = parent_id;
  values.outline = outline;
  values.zones = (OddZone *) zones->data;
  values.n_zones = zones->len;
  values.unknown_json = unknown;
  scrap = odd_scrap_new (&values, &error);
  if (!scrap)
    odd_cursor_fail_with (cursor, NULL, g_steal_pointer (&error));
  return scrap;
}
