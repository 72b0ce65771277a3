#include "config.h"

#include "cloth/zones.h"

#include <glib/gi18n.h>

#include "cloth/edit.h"
#include "cloth/offcuts.h"

/* Less cloth than this is none: a thread's width along a finger. */
#define NOTHING_MM2 1.0

static OddScrap *
get_scrap (OddJob  *job,
           OddId    id,
           GError **error)
{
  OddScrap *scrap = odd_job_get_scrap (job, id);

  if (scrap == NULL)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no scrap %u in this job"), id);
  return scrap;
}

/* Cloth of the scrap as it lies on the table: its outline, or once it is cut out, its patches. (transfer full) (element-type OddPolygon) */
static GPtrArray *
dup_cloth (OddJob   *job,
           OddScrap *scrap)
{
  GPtrArray *cloth = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  g_autoptr(GPtrArray) cut = NULL;

  if (!scrap->cut_out)
    {
      g_ptr_array_add (cloth, odd_polygon_ref (scrap->outline));
      return cloth;
    }
  cut = odd_scrap_dup_cut_shapes (job, scrap->id);
  for (guint i = 0; i < cut->len; i++)
    g_ptr_array_add (cloth, odd_scrap_dup_unwashed (scrap, odd_job_get_scrap_fabric (job, scrap), cut->pdata[i]));
  return cloth;
}

/* The zone as far as there is cloth. (transfer full) (element-type OddPolygon) */
static GPtrArray *
clip_zone (OddJob     *job,
           OddScrap   *scrap,
           OddPolygon *outline)
{
  g_autoptr(GPtrArray) cloth = dup_cloth (job, scrap);
  GPtrArray *parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  for (guint i = 0; i < cloth->len; i++)
    g_ptr_array_extend_and_steal (parts, odd_polygon_intersection (outline, cloth->pdata[i]));
  return parts;
}

/* Is there cloth outside all zones, of whatever sort? */
static gboolean
leaves_cloth (OddScrap      *scrap,
              const OddZone *zones,
              guint          n)
{
  g_autofree OddPolygon **minus = g_new (OddPolygon *, n);
  g_autoptr(GPtrArray) left = NULL;
  double area_mm2 = 0.0;

  for (guint i = 0; i < n; i++)
    minus[i] = zones[i].outline;
  left = odd_polygon_difference_many (scrap->outline, minus, n);
  for (guint i = 0; i < left->len; i++)
    area_mm2 += odd_polygon_get_area (left->pdata[i]);
  return area_mm2 >= NOTHING_MM2;
}

static OddJob *
with_zones (OddJob        *job,
            OddScrap      *scrap,
            const OddZone *zones,
            guint          n,
            GError       **error)
{
  OddScrap values = *scrap;

  values.zones = (OddZone *) zones;
  values.n_zones = n;
  return odd_job_put_scrap (job, &values, NULL, error);
}

OddJob *
odd_job_add_zone (OddJob       *self,
                  OddId         scrap_id,
                  OddZoneKind   kind,
                  gboolean      allowance_only,
                  OddPolygon   *outline,
                  GError      **error)
{
  OddScrap *scrap = get_scrap (self, scrap_id, error);
  g_autoptr(GPtrArray) parts = NULL;
  g_autofree OddZone *zones = NULL;

  g_return_val_if_fail (outline != NULL, NULL);

  if (scrap == NULL)
    return NULL;
  parts = clip_zone (self, scrap, outline);
  if (parts->len == 0)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   scrap->cut_out ? _("Scrap %u is cut out already. Draw the zone on one of its patches, or mark it on one of its offcuts.")
                                  : _("The zone lies beside scrap %u. Draw it on the cloth."), scrap->number);
      return NULL;
    }
  zones = g_new0 (OddZone, scrap->n_zones + parts->len);
  for (guint i = 0; i < scrap->n_zones; i++)
    zones[i] = scrap->zones[i];
  for (guint i = 0; i < parts->len; i++)
    zones[scrap->n_zones + i] = (OddZone) { kind, parts->pdata[i], allowance_only };
  if (!leaves_cloth (scrap, zones, scrap->n_zones + parts->len))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("Nothing good would be left of scrap %u. Draw the zone smaller, or remove the scrap from the tub."), scrap->number);
      return NULL;
    }
  return with_zones (self, scrap, zones, scrap->n_zones + parts->len, error);
}

OddJob *
odd_job_remove_zone (OddJob  *self,
                     OddId    scrap_id,
                     guint    index,
                     GError **error)
{
  OddScrap *scrap = get_scrap (self, scrap_id, error);
  g_autofree OddZone *zones = NULL;
  guint n = 0;

  if (scrap == NULL)
    return NULL;
  g_return_val_if_fail (index < scrap->n_zones, NULL);

  zones = g_new0 (OddZone, scrap->n_zones);
  for (guint i = 0; i < scrap->n_zones; i++)
    if (i != index)
      zones[n++] = scrap->zones[i];
  return with_zones (self, scrap, zones, n, error);
}

guint
odd_job_count_misfits (OddJob *self,
                       OddId   scrap_id)
{
  guint n = 0, n_misfits = 0;
  const OddUse *uses = odd_job_get_uses (self, scrap_id, &n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (self, uses[i].panel->id);
      const OddPatch *patch = odd_layout_find_patch (layout, uses[i].leaf->id);

      n_misfits += patch != NULL && !odd_patch_fits (patch);
    }
  return n_misfits;
}
