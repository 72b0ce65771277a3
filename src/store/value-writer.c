/* Members that say what holds anyway are left out; lists and objects inside a value are always written, so that what an unknown
 * program left in them finds its place again. */
#include "config.h"

#include "store/value-writer.h"

#include "store/job-writer.h"

static void
print_text (OddPrinter *printer, const char *member, const char *text)
{
  if (text)
    odd_printer_string (printer, member, text);
}

static void
print_positive (OddPrinter *printer, const char *member, double value)
{
  if (value != 0.0)
    odd_printer_double (printer, member, value);
}

static void
print_true (OddPrinter *printer, const char *member, gboolean value)
{
  if (value)
    odd_printer_bool (printer, member, TRUE);
}

static void
print_id (OddPrinter *printer, const char *member, OddId id)
{
  if (id != 0)
    odd_printer_uint (printer, member, id);
}

void
odd_print_treatment (OddPrinter *printer, const OddTreatment *self)
{
  print_id (printer, "finish", self->finish_id);
  if (!isnan (self->allowance_mm))
    odd_printer_double (printer, "allowance_mm", self->allowance_mm);
}

static void
print_fibres (OddPrinter *printer, const OddFabric *self)
{
  odd_printer_begin_array (printer, "fibres", self->n_fibres, FALSE);
  for (guint i = 0; i < self->n_fibres; i++)
    {
      odd_printer_begin_object (printer, NULL, NULL);
      odd_printer_string (printer, "name", self->fibres[i].name);
      odd_printer_double (printer, "percent", self->fibres[i].percent);
      odd_printer_end_object (printer);
    }
  odd_printer_end_array (printer);
}

static void
print_print (OddPrinter *printer, const OddPrint *print)
{
  odd_printer_begin_object (printer, "print", NULL);
  odd_printer_string (printer, "kind", odd_print_kind_get_nick (print->kind));
  odd_printer_begin_array (printer, "colours", G_N_ELEMENTS (print->colours), FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (print->colours); i++)
    {
      char colour[16];

      g_snprintf (colour, sizeof colour, "#%06x", print->colours[i]);
      odd_printer_string (printer, NULL, colour);
    }
  odd_printer_end_array (printer);
  odd_printer_double (printer, "repeat_mm", print->repeat_mm);
  odd_printer_end_object (printer);
}

void
odd_print_fabric (OddPrinter *printer, const OddFabric *self, OddId id)
{
  odd_printer_begin_object (printer, NULL, self->unknown_json);
  print_id (printer, "id", id);
  odd_printer_string (printer, "name", self->name);
  print_fibres (printer, self);
  print_positive (printer, "gsm", self->gsm);
  print_positive (printer, "thickness_mm", self->thickness_mm);
  odd_printer_string (printer, "make", odd_make_get_nick (self->make));
  print_true (printer, "one_way", self->one_way);
  print_true (printer, "reversible", self->reversible);
  if (self->grain_tolerance_deg < 90.0)
    odd_printer_double (printer, "grain_tolerance_deg", self->grain_tolerance_deg);
  odd_printer_string (printer, "bleeds", odd_bleed_get_nick (self->bleeds));
  print_positive (printer, "shrink_along", self->shrink_along);
  print_positive (printer, "shrink_across", self->shrink_across);
  print_text (printer, "care", self->care);
  if (!isnan (self->lightness))
    odd_printer_double (printer, "lightness", self->lightness);
  print_print (printer, &self->print);
  print_text (printer, "picture", self->picture);
  odd_printer_end_object (printer);
}

static void
print_operation (OddPrinter *printer, const OddOperation *operation)
{
  odd_printer_begin_object (printer, NULL, NULL);
  odd_printer_string (printer, "kind", odd_operation_kind_get_nick (operation->kind));
  odd_printer_string (printer, "station", odd_station_get_nick (operation->station));
  print_text (printer, "stitch", operation->stitch);
  odd_printer_string (printer, "face", odd_face_get_nick (operation->face));
  print_true (printer, "before_joining", operation->before_joining);
  print_positive (printer, "at_mm", operation->at_mm);
  odd_printer_string (printer, "text", operation->text);
  odd_printer_end_object (printer);
}

void
odd_print_finish (OddPrinter *printer, const OddFinish *self)
{
  odd_printer_begin_object (printer, NULL, self->unknown_json);
  odd_printer_uint (printer, "id", self->id);
  odd_printer_string (printer, "key", self->key);
  odd_printer_string (printer, "name", self->name);
  odd_printer_double (printer, "allowance_mm", self->allowance_mm);
  odd_printer_double (printer, "min_allowance_mm", self->min_allowance_mm);
  odd_printer_double (printer, "width_kept_mm", self->width_kept_mm);
  odd_printer_begin_array (printer, "plies", 2, FALSE);
  odd_printer_uint (printer, NULL, self->plies[0]);
  odd_printer_uint (printer, NULL, self->plies[1]);
  odd_printer_end_array (printer);
  print_true (printer, "may_open", self->may_open);
  odd_printer_begin_array (printer, "operations", self->n_operations, FALSE);
  for (guint i = 0; i < self->n_operations; i++)
    print_operation (printer, &self->operations[i]);
  odd_printer_end_array (printer);
  print_text (printer, "note", self->note);
  print_text (printer, "source", self->source);
  odd_printer_end_object (printer);
}

/* The ring, then its holes, where it has some. */
static void
print_polygon (OddPrinter *printer, OddPolygon *polygon)
{
  const guint n_holes = odd_polygon_get_n_holes (polygon);
  gsize n;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);

  odd_printer_points (printer, "outline_mm", ring, n);
  if (n_holes == 0)
    return;
  odd_printer_begin_array (printer, "holes_mm", n_holes, FALSE);
  for (guint i = 0; i < n_holes; i++)
    {
      ring = odd_polygon_get_hole (polygon, i, &n);
      odd_printer_points (printer, NULL, ring, n);
    }
  odd_printer_end_array (printer);
}

static void
print_zones (OddPrinter *printer, const OddScrap *self)
{
  odd_printer_begin_array (printer, "zones", self->n_zones, FALSE);
  for (guint i = 0; i < self->n_zones; i++)
    {
      odd_printer_begin_object (printer, NULL, NULL);
      odd_printer_string (printer, "kind", odd_zone_kind_get_nick (self->zones[i].kind));
      print_true (printer, "allowance_only", self->zones[i].allowance_only);
      print_polygon (printer, self->zones[i].outline);
      odd_printer_end_object (printer);
    }
  odd_printer_end_array (printer);
}

static void
print_scrap_picture (OddPrinter *printer, const OddScrap *self)
{
  if (!self->picture)
    return;
  odd_printer_string (printer, "picture", self->picture);
  odd_printer_double (printer, "picture_mm_per_px", self->picture_mm_per_px);
  odd_printer_point (printer, "picture_at_mm", self->picture_at_mm);
}

/* What the scrap is made of, and where that lies in its frame. */
static void
print_piece (OddPrinter *printer, const OddScrap *self)
{
  const OddPlacement *at = &self->piece_at;

  if (!self->piece)
    {
      odd_printer_absent (printer, "piece");
      return;
    }
  odd_print_panel (printer, "piece", self->piece, NULL);
  if (at->turn_deg != 0.0)
    odd_printer_double (printer, "piece_turn_deg", at->turn_deg);
  if (at->shift.x != 0.0 || at->shift.y != 0.0)
    odd_printer_point (printer, "piece_at_mm", at->shift);
}

void
odd_print_scrap (OddPrinter *printer, const OddScrap *self, gboolean in_list, const char *fabric_name)
{
  odd_printer_begin_object (printer, NULL, self->unknown_json);
  if (!in_list)
    odd_printer_uint (printer, "id", self->id);
  odd_printer_uint (printer, "number", self->number);
  if (in_list)
    print_text (printer, "fabric", fabric_name);
  else
    print_id (printer, "fabric", self->fabric_id);
  print_polygon (printer, self->outline);
  print_zones (printer, self);
  odd_printer_double (printer, "grain_deg", self->grain_deg);
  odd_printer_bool (printer, "washed", self->washed);
  print_text (printer, "place", self->place);
  print_text (printer, "note", self->note);
  if (!in_list)
    {
      print_scrap_picture (printer, self);
      print_id (printer, "parent", self->parent_id);
      print_piece (printer, self);
      print_true (printer, "cut_out", self->cut_out);
    }
  print_true (printer, "gone", self->gone);
  odd_printer_end_object (printer);
}
