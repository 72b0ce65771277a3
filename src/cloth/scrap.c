#include "config.h"

#include "cloth/scrap.h"

#include <glib/gi18n.h>

#define CORNERS_LIMIT 10000
#define COORDINATE_LIMIT_MM 10000.0
#define SEARCH_INSIDE_MM 1.0       /* what a search may give away at an edge; a seam line drawn by hand is no finer */
#define SEARCH_CORNERS 16          /* an outline of no more corners is searched as it is */

static const char *const zone_nicks[] = { "hole", "thin", "stain", "mark", "old-seam" };
static const char *const zone_names[] = { N_("hole"), N_("thin place"), N_("stain"), N_("mark"), N_("old seam") };

G_STATIC_ASSERT (G_N_ELEMENTS (zone_nicks) == G_N_ELEMENTS (zone_names));

/* Fractions lost along and across the grain. */
typedef struct { double along, across; } Shrinkage;

/* The scrap as it will be sewn, for one shrinkage; members are made when first asked for. */
typedef struct
{
  Shrinkage shrinkage;
  OddPolygon *outline;
  GPtrArray *usable;
  GPtrArray *allowance_zones;
  OddPolygon *search;
} Worn;

typedef struct
{
  OddScrap scrap;                  /* first, so that a pointer to the one is a pointer to the other */
  GMutex lock;                     /* guards worn */
  Worn worn;
} Kept;

/* --- the value --- */

/* "Scrap 12", or what to call one that has no number yet. (transfer full) */
static char *
dup_name (const OddScrap *values)
{
  return values->number > 0 ? g_strdup_printf (_("Scrap %u"), values->number) : g_strdup (_("The new scrap"));
}

/* @what: translated, "outline" or the name of a zone */
static gboolean
check_outline (const OddScrap *values,
               const char     *what,
               OddPolygon     *outline,
               GError        **error)
{
  const OddBox box = odd_polygon_get_box (outline);
  const double farthest_mm = MAX (MAX (-box.x, box.x + box.width), MAX (-box.y, box.y + box.height));
  g_autofree char *name = dup_name (values);

  if (odd_polygon_get_n_corners (outline) > CORNERS_LIMIT)
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_SHAPE,
                   _("%s: the %s has %u corners; trace it with at most %d."),
                   name, what, odd_polygon_get_n_corners (outline), CORNERS_LIMIT);
      return FALSE;
    }
  if (!(farthest_mm <= COORDINATE_LIMIT_MM))
    {
      g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
                   _("%s: the %s reaches %.0f mm from the origin; bring it within %.0f mm."),
                   name, what, farthest_mm, COORDINATE_LIMIT_MM);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_grain (const OddScrap *values,
             GError        **error)
{
  g_autofree char *name = NULL;

  if (isfinite (values->grain_deg))
    return TRUE;

  name = dup_name (values);
  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
               _("%s: the grain lies at %g degrees; write a number from 0 to 360."), name, values->grain_deg);
  return FALSE;
}

static gboolean
check_picture (const OddScrap *values,
               GError        **error)
{
  g_autofree char *name = NULL;

  if (values->picture == NULL)
    return TRUE;
  if (values->picture_mm_per_px > 0.0 && isfinite (values->picture_mm_per_px) &&
      isfinite (values->picture_at_mm.x) && isfinite (values->picture_at_mm.y))
    return TRUE;

  name = dup_name (values);
  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_RANGE,
               _("%s: the picture has a scale of %g mm per pixel at %g, %g mm; it needs a scale above 0 and a place."),
               name, values->picture_mm_per_px, values->picture_at_mm.x, values->picture_at_mm.y);
  return FALSE;
}

static gboolean
check_piece (const OddScrap *values,
             GError        **error)
{
  g_autofree char *name = NULL;

  if (values->piece == NULL || values->fabric_id == 0)
    return TRUE;

  name = dup_name (values);
  g_set_error (error, ODD_VALUE_ERROR, ODD_VALUE_ERROR_SHAPE,
               _("%s is pieced: its fabrics are those of its patches. Leave its own fabric out."), name);
  return FALSE;
}

static gboolean
check_values (const OddScrap *values,
              GError        **error)
{
  if (!check_outline (values, _("outline"), values->outline, error))
    return FALSE;
  for (guint i = 0; i < values->n_zones; i++)
    if (!check_outline (values, odd_zone_kind_get_name (values->zones[i].kind), values->zones[i].outline, error))
      return FALSE;
  return check_grain (values, error) && check_picture (values, error) && check_piece (values, error);
}

void
odd_scrap_init_values (OddScrap *values)
{
  g_return_if_fail (values != NULL);

  *values = (OddScrap) { .grain_deg = 90.0, .piece_at = ODD_PLACEMENT_IDENTITY };
}

OddScrap *
odd_scrap_new (const OddScrap *values,
               GError        **error)
{
  Kept *kept;
  OddScrap *self;

  g_return_val_if_fail (values != NULL && values->outline != NULL, NULL);
  g_return_val_if_fail (values->n_zones == 0 || values->zones != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);
  for (guint i = 0; i < values->n_zones; i++)
    g_return_val_if_fail (values->zones[i].outline != NULL && (guint) values->zones[i].kind < G_N_ELEMENTS (zone_nicks), NULL);

  if (!check_values (values, error))
    return NULL;

  kept = g_atomic_rc_box_new0 (Kept);
  g_mutex_init (&kept->lock);
  self = &kept->scrap;
  *self = *values;
  odd_polygon_ref (self->outline);
  self->zones = g_memdup2 (values->zones, sizeof *values->zones * values->n_zones);
  for (guint i = 0; i < self->n_zones; i++)
    odd_polygon_ref (self->zones[i].outline);
  if (self->piece != NULL)
    odd_panel_ref (self->piece);
  self->place = g_strdup (values->place);
  self->note = g_strdup (values->note);
  self->picture = g_strdup (values->picture);
  self->unknown_json = g_strdup (values->unknown_json);
  return self;
}

OddScrap *
odd_scrap_ref (OddScrap *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
worn_clear (Worn *worn)
{
  g_clear_pointer (&worn->outline, odd_polygon_unref);
  g_clear_pointer (&worn->usable, g_ptr_array_unref);
  g_clear_pointer (&worn->allowance_zones, g_ptr_array_unref);
  g_clear_pointer (&worn->search, odd_polygon_unref);
}

static void
clear (gpointer data)
{
  Kept *kept = data;
  OddScrap *self = &kept->scrap;

  worn_clear (&kept->worn);
  g_mutex_clear (&kept->lock);
  for (guint i = 0; i < self->n_zones; i++)
    odd_polygon_unref (self->zones[i].outline);
  g_free (self->zones);
  odd_polygon_unref (self->outline);
  g_clear_pointer (&self->piece, odd_panel_unref);
  g_free (self->place);
  g_free (self->note);
  g_free (self->picture);
  g_free (self->unknown_json);
}

void
odd_scrap_unref (OddScrap *self)
{
  g_atomic_rc_box_release_full (self, clear);
}

/* --- as it will be sewn --- */

static Shrinkage
shrinkage_to_come (const OddScrap  *self,
                   const OddFabric *fabric)
{
  if (self->washed || fabric == NULL)
    return (Shrinkage) { 0.0, 0.0 };
  return (Shrinkage) { fabric->shrink_along, fabric->shrink_across };
}

/* About the origin: the grain is turned onto x, shrunk there, turned back. */
static OddPolygon *
shrink (const OddScrap *self,
        Shrinkage       by,
        OddPolygon     *polygon)
{
  const OddPlacement to_x = { -self->grain_deg, FALSE, { 0.0, 0.0 } };
  const OddPlacement back = { self->grain_deg, FALSE, { 0.0, 0.0 } };
  g_autoptr(OddPolygon) along_x = NULL;
  g_autoptr(OddPolygon) shrunk = NULL;

  if (by.along == 0.0 && by.across == 0.0)
    return odd_polygon_ref (polygon);
  along_x = odd_polygon_place (polygon, &to_x);
  shrunk = odd_polygon_scale (along_x, 1.0 - by.along, 1.0 - by.across);
  return odd_polygon_place (shrunk, &back);
}

OddPolygon *
odd_scrap_dup_sewn (OddScrap   *self,
                    OddFabric  *fabric,
                    OddPolygon *now)
{
  g_return_val_if_fail (self != NULL && now != NULL, NULL);

  return shrink (self, shrinkage_to_come (self, fabric), now);
}

OddPolygon *
odd_scrap_dup_unwashed (OddScrap   *self,
                        OddFabric  *fabric,
                        OddPolygon *sewn)
{
  const Shrinkage by = shrinkage_to_come (self, fabric);
  const Shrinkage back = { 1.0 - 1.0 / (1.0 - by.along), 1.0 - 1.0 / (1.0 - by.across) };

  g_return_val_if_fail (self != NULL && sewn != NULL, NULL);

  return shrink (self, back, sewn);
}

OddPolygon *
odd_scrap_dup_unshrunk (OddScrap   *self,
                        OddFabric  *fabric,
                        OddPolygon *worn)
{
  const Shrinkage by = shrinkage_to_come (self, fabric);
  /* shrink() by this much more than nothing scales by 1 / (1 - by) */
  const Shrinkage back = { 1.0 - 1.0 / (1.0 - by.along), 1.0 - 1.0 / (1.0 - by.across) };

  return shrink (self, back, worn);
}

OddScrap *
odd_scrap_new_washed (OddScrap  *self,
                      OddFabric *fabric)
{
  const Shrinkage by = shrinkage_to_come (self, fabric);
  const double mean = sqrt ((1.0 - by.along) * (1.0 - by.across));
  g_autofree OddZone *zones = NULL;
  OddScrap values = *self;
  OddScrap *washed;

  g_return_val_if_fail (self != NULL, NULL);

  zones = g_memdup2 (self->zones, sizeof *self->zones * self->n_zones);
  for (guint i = 0; i < self->n_zones; i++)
    zones[i].outline = shrink (self, by, self->zones[i].outline);
  values.zones = zones;
  values.outline = shrink (self, by, self->outline);
  values.picture_mm_per_px *= mean;
  values.picture_at_mm = odd_point_scale (values.picture_at_mm, mean);
  values.washed = TRUE;
  washed = odd_scrap_new (&values, NULL); /* it was sound before, and the wash does not make it otherwise */
  odd_polygon_unref (values.outline);
  for (guint i = 0; i < self->n_zones; i++)
    odd_polygon_unref (zones[i].outline);
  return washed;
}

/* The zones of one sort after shrinkage. */
static GPtrArray *
shrink_zones (const OddScrap *self,
              Shrinkage       by,
              gboolean        allowance_only)
{
  GPtrArray *zones = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  for (guint i = 0; i < self->n_zones; i++)
    if (!self->zones[i].allowance_only == !allowance_only)
      g_ptr_array_add (zones, shrink (self, by, self->zones[i].outline));
  return zones;
}

static int
compare_by_area (gconstpointer a,
                 gconstpointer b)
{
  const double area_a = odd_polygon_get_area (*(OddPolygon *const *) a);
  const double area_b = odd_polygon_get_area (*(OddPolygon *const *) b);

  return (area_a < area_b) - (area_a > area_b);
}

/* Locks the scrap; what is kept is then for @fabric's shrinkage, its outline made. */
static Worn *
lock_worn (OddScrap  *self,
           OddFabric *fabric)
{
  const Shrinkage by = shrinkage_to_come (self, fabric);
  Kept *kept = (Kept *) self;
  Worn *worn = &kept->worn;

  g_mutex_lock (&kept->lock);
  if (worn->outline == NULL || worn->shrinkage.along != by.along || worn->shrinkage.across != by.across)
    {
      worn_clear (worn);
      worn->shrinkage = by;
      worn->outline = shrink (self, by, self->outline);
    }
  return worn;
}

static void
unlock_worn (OddScrap *self)
{
  g_mutex_unlock (&((Kept *) self)->lock);
}

/* Needs the lock. */
static GPtrArray *
worn_get_usable (OddScrap *self,
                 Worn     *worn)
{
  g_autoptr(GPtrArray) kept_out = NULL;

  if (worn->usable != NULL)
    return worn->usable;

  kept_out = shrink_zones (self, worn->shrinkage, FALSE);
  if (kept_out->len == 0)
    {
      worn->usable = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
      g_ptr_array_add (worn->usable, odd_polygon_ref (worn->outline));
      return worn->usable;
    }
  worn->usable = odd_polygon_difference_many (worn->outline, (OddPolygon *const *) kept_out->pdata, kept_out->len);
  g_ptr_array_sort (worn->usable, compare_by_area);     /* stable: pieces of one size keep their order */
  return worn->usable;
}

static gpointer
ref_polygon (gconstpointer polygon,
             gpointer      data)
{
  return odd_polygon_ref ((OddPolygon *) polygon);
}

/* Callers get an array of their own: what is kept must not change under another thread. */
static GPtrArray *
copy_polygons (GPtrArray *polygons)
{
  GPtrArray *copy = g_ptr_array_copy (polygons, ref_polygon, NULL);

  g_ptr_array_set_free_func (copy, (GDestroyNotify) odd_polygon_unref);
  return copy;
}

OddPolygon *
odd_scrap_dup_outline (OddScrap  *self,
                       OddFabric *fabric)
{
  OddPolygon *outline;

  g_return_val_if_fail (self != NULL, NULL);

  outline = odd_polygon_ref (lock_worn (self, fabric)->outline);
  unlock_worn (self);
  return outline;
}

GPtrArray *
odd_scrap_dup_usable (OddScrap  *self,
                      OddFabric *fabric)
{
  GPtrArray *usable;

  g_return_val_if_fail (self != NULL, NULL);

  usable = copy_polygons (worn_get_usable (self, lock_worn (self, fabric)));
  unlock_worn (self);
  return usable;
}

GPtrArray *
odd_scrap_dup_allowance_zones (OddScrap  *self,
                               OddFabric *fabric)
{
  GPtrArray *zones;
  Worn *worn;

  g_return_val_if_fail (self != NULL, NULL);

  worn = lock_worn (self, fabric);
  if (worn->allowance_zones == NULL)
    worn->allowance_zones = shrink_zones (self, worn->shrinkage, TRUE);
  zones = copy_polygons (worn->allowance_zones);
  unlock_worn (self);
  return zones;
}

OddPolygon *
odd_scrap_dup_search_outline (OddScrap  *self,
                              OddFabric *fabric)
{
  OddPolygon *search = NULL;
  GPtrArray *usable;
  Worn *worn;

  g_return_val_if_fail (self != NULL, NULL);

  worn = lock_worn (self, fabric);
  usable = worn_get_usable (self, worn);
  if (worn->search == NULL && usable->len > 0)
    worn->search = odd_polygon_simplify_inside (usable->pdata[0], SEARCH_INSIDE_MM, SEARCH_CORNERS);
  if (worn->search != NULL)
    search = odd_polygon_ref (worn->search);
  unlock_worn (self);
  return search;
}

OddBox
odd_scrap_get_box (OddScrap *self)
{
  g_return_val_if_fail (self != NULL, ODD_BOX_EMPTY);

  return odd_polygon_get_box (self->outline);
}

/* --- words --- */

const char *
odd_zone_kind_get_nick (OddZoneKind kind)
{
  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (zone_nicks), zone_nicks[0]);

  return zone_nicks[kind];
}

gboolean
odd_zone_kind_from_nick (const char  *nick,
                         OddZoneKind *out)
{
  g_return_val_if_fail (out != NULL, FALSE);

  for (guint i = 0; nick != NULL && i < G_N_ELEMENTS (zone_nicks); i++)
    if (g_str_equal (nick, zone_nicks[i]))
      {
        *out = i;
        return TRUE;
      }
  return FALSE;
}

const char *
odd_zone_kind_get_name (OddZoneKind kind)
{
  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (zone_names), "");

  return _(zone_names[kind]);
}
