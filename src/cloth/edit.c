/* What the edits share, and the edits of fabrics, finishes, scraps and settings. */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

/* --- shared --- */

GPtrArray *
odd_edit_copy_array (GPtrArray *array,
                     GCopyFunc  ref)
{
  return g_ptr_array_copy (array, ref, NULL);
}

static gpointer ref_fabric (gconstpointer p, gpointer data) { return odd_fabric_ref ((gpointer) p); }
static gpointer ref_finish (gconstpointer p, gpointer data) { return odd_finish_ref ((gpointer) p); }
static gpointer ref_scrap (gconstpointer p, gpointer data) { return odd_scrap_ref ((gpointer) p); }
static gpointer ref_panel (gconstpointer p, gpointer data) { return odd_panel_ref ((gpointer) p); }
static gpointer ref_textile (gconstpointer p, gpointer data) { return odd_textile_ref ((gpointer) p); }
static gpointer ref_picture (gconstpointer p, gpointer data) { return odd_picture_ref ((gpointer) p); }

static void
take_array (GPtrArray **member,
            GPtrArray  *array)
{
  g_ptr_array_unref (*member);
  *member = array;
}

static OddJob *
copy_sharing (OddJob *job)
{
  OddJob *copy = odd_job_copy (job);

  odd_job_share_index (copy, job);
  return copy;
}

OddJob *
odd_edit_take_fabrics (OddJob    *job,
                       GPtrArray *fabrics)
{
  OddJob *copy = copy_sharing (job);

  take_array (&copy->fabrics, fabrics);
  return copy;
}

OddJob *
odd_edit_take_finishes (OddJob    *job,
                        GPtrArray *finishes)
{
  OddJob *copy = copy_sharing (job);

  take_array (&copy->finishes, finishes);
  return copy;
}

OddJob *
odd_edit_take_scraps (OddJob    *job,
                      GPtrArray *scraps)
{
  OddJob *copy = odd_job_copy (job);

  take_array (&copy->scraps, scraps);
  return copy;
}

static void
array_set (GPtrArray      *array,
           guint           at,
           gpointer        value,
           GDestroyNotify  unref)
{
  unref (array->pdata[at]);
  array->pdata[at] = value;
}

OddJob *
odd_edit_with_textile (OddJob     *job,
                       OddTextile *textile)
{
  OddJob *copy = copy_sharing (job);

  take_array (&copy->textiles, odd_edit_copy_array (job->textiles, ref_textile));
  for (guint i = 0; i < copy->textiles->len; i++)
    if (((OddTextile *) copy->textiles->pdata[i])->id == textile->id)
      array_set (copy->textiles, i, odd_textile_ref (textile), (GDestroyNotify) odd_textile_unref);
  return copy;
}

OddJob *
odd_edit_with_panel (OddJob   *job,
                     OddPanel *panel)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddJob *copy;

  if (odd_job_get_panel (job, panel->id, &textile, &index) == NULL)
    g_return_val_if_reached (odd_job_ref (job));
  if (textile != NULL)
    {
      g_autoptr(OddTextile) changed = odd_textile_with_panel (textile, index, panel);

      return odd_edit_with_textile (job, changed);
    }
  copy = copy_sharing (job);
  take_array (&copy->loose_panels, odd_edit_copy_array (job->loose_panels, ref_panel));
  array_set (copy->loose_panels, index, odd_panel_ref (panel), (GDestroyNotify) odd_panel_unref);
  return copy;
}

static gboolean
refuse_locked (OddJob    *job,
               OddPanel  *panel,
               GError   **error)
{
  g_autofree char *name = NULL;

  if (!panel->locked)
    return TRUE;
  name = odd_job_dup_panel_name (job, panel);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("%s is locked. Unlock it first."), name);
  return FALSE;
}

OddPanel *
odd_edit_get_panel (OddJob      *job,
                    OddId        panel_id,
                    OddTextile **out_textile,
                    guint       *out_index,
                    GError     **error)
{
  OddPanel *panel = odd_job_get_panel (job, panel_id, out_textile, out_index);

  if (panel == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no panel %u in this job"), panel_id);
      return NULL;
    }
  return refuse_locked (job, panel, error) ? panel : NULL;
}

OddPanel *
odd_edit_get_panel_of (OddJob  *job,
                       OddId    id,
                       GError **error)
{
  OddPanel *panel = odd_job_find_panel_of (job, id, NULL, NULL);

  if (panel == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no patch or seam %u in this job"), id);
      return NULL;
    }
  return refuse_locked (job, panel, error) ? panel : NULL;
}

OddHalfPlane *
odd_edit_outline_planes (OddPanel *panel)
{
  OddHalfPlane *planes = g_new (OddHalfPlane, panel->outline->n);

  for (guint i = 0; i < panel->outline->n; i++)
    planes[i] = odd_convex_edge_half_plane (panel->outline, i);
  return planes;
}

OddPanel *
odd_edit_panel_from_planes (OddPanel           *panel,
                            const OddHalfPlane *planes,
                            OddNode            *root)
{
  const guint n = panel->outline->n;
  g_autofree int *labels = g_new (int, n);
  g_autofree OddEdge *edges = NULL;
  g_autofree OddPoint *points = NULL;
  g_autoptr(OddConvex) ring = NULL;
  g_autoptr(OddConvex) outline = NULL;
  guint first = 0;

  for (guint i = 0; i < n; i++)
    labels[i] = i;
  ring = odd_convex_new_from_half_planes (planes, labels, n);
  if (ring == NULL)
    return NULL;

  /* The ring may start anywhere: begin with the lowest edge number, so that edges keep theirs where none was lost. */
  for (guint i = 0; i < ring->n; i++)
    if (ring->labels[i] < ring->labels[first])
      first = i;
  points = g_new (OddPoint, ring->n);
  edges = g_new (OddEdge, ring->n);
  for (guint i = 0; i < ring->n; i++)
    {
      const guint from = (first + i) % ring->n;

      points[i] = ring->points[from];
      labels[i] = i;
      edges[i] = panel->edges[ring->labels[from]];
    }
  outline = odd_convex_new (points, labels, ring->n);
  return outline != NULL ? odd_panel_with_shape (panel, outline, edges, root) : NULL;
}

/* --- fabrics --- */

static int
find_index (GPtrArray *array,
            OddId      id,
            OddId    (*get_id) (gpointer value))
{
  for (guint i = 0; i < array->len; i++)
    if (get_id (array->pdata[i]) == id)
      return i;
  return -1;
}

static OddId fabric_id (gpointer value) { return ((OddFabric *) value)->id; }
static OddId finish_id (gpointer value) { return ((OddFinish *) value)->id; }
static OddId scrap_id_of (gpointer value) { return ((OddScrap *) value)->id; }

static gboolean
not_found (GError     **error,
           const char  *what,
           OddId        id)
{
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no %s %u in this job"), what, id);
  return FALSE;
}

OddJob *
odd_job_put_fabric (OddJob           *self,
                    const OddFabric  *values,
                    OddId            *out_id,
                    GError          **error)
{
  OddFabric numbered = *values;
  g_autoptr(OddFabric) fabric = NULL;
  const int at = values->id != 0 ? find_index (self->fabrics, values->id, fabric_id) : -1;
  GPtrArray *fabrics;
  OddJob *job;

  if (values->id != 0 && at < 0)
    {
      not_found (error, _("fabric"), values->id);
      return NULL;
    }
  if (at < 0)
    numbered.id = self->next_id;
  fabric = odd_fabric_new (&numbered, error);
  if (fabric == NULL)
    return NULL;
  fabrics = odd_edit_copy_array (self->fabrics, ref_fabric);
  if (at < 0)
    g_ptr_array_add (fabrics, odd_fabric_ref (fabric));
  else
    array_set (fabrics, at, odd_fabric_ref (fabric), (GDestroyNotify) odd_fabric_unref);
  job = odd_edit_take_fabrics (self, fabrics);
  if (at < 0)
    job->next_id++;
  if (out_id != NULL)
    *out_id = fabric->id;
  return job;
}

OddJob *
odd_job_remove_fabric (OddJob  *self,
                       OddId    id,
                       GError **error)
{
  const int at = find_index (self->fabrics, id, fabric_id);
  GPtrArray *fabrics;

  if (at < 0)
    {
      not_found (error, _("fabric"), id);
      return NULL;
    }
  for (guint i = 0; i < self->scraps->len; i++)
    {
      OddScrap *scrap = self->scraps->pdata[i];

      if (scrap->fabric_id == id)
        {
          g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                       _("Scrap %u is cut from this fabric. Give it another fabric first."), scrap->number);
          return NULL;
        }
    }
  fabrics = odd_edit_copy_array (self->fabrics, ref_fabric);
  g_ptr_array_remove_index (fabrics, at);
  return odd_edit_take_fabrics (self, fabrics);
}

/* --- scraps --- */

static guint
next_number (GPtrArray *scraps)
{
  guint number = 0;

  for (guint i = 0; i < scraps->len; i++)
    number = MAX (number, ((OddScrap *) scraps->pdata[i])->number);
  return number + 1;
}

static gboolean
check_scrap (OddJob          *self,
             const OddScrap  *scrap,
             GError         **error)
{
  OddScrap *other = odd_job_get_scrap_by_number (self, scrap->number);

  if (other != NULL && other->id != scrap->id)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("There is a scrap %u already. Choose another number; %u is free."), scrap->number, next_number (self->scraps));
      return FALSE;
    }
  if (scrap->fabric_id != 0 && odd_job_get_fabric (self, scrap->fabric_id) == NULL)
    return not_found (error, _("fabric"), scrap->fabric_id);
  return TRUE;
}

OddJob *
odd_job_put_scrap (OddJob          *self,
                   const OddScrap  *values,
                   OddId           *out_id,
                   GError         **error)
{
  OddScrap numbered = *values;
  g_autoptr(OddScrap) scrap = NULL;
  const int at = values->id != 0 ? find_index (self->scraps, values->id, scrap_id_of) : -1;
  GPtrArray *scraps;
  OddJob *job;

  if (values->id != 0 && at < 0)
    {
      not_found (error, _("scrap"), values->id);
      return NULL;
    }
  if (at < 0)
    numbered.id = self->next_id;
  if (numbered.number == 0)
    numbered.number = next_number (self->scraps);
  if (!check_scrap (self, &numbered, error))
    return NULL;
  scrap = odd_scrap_new (&numbered, error);
  if (scrap == NULL)
    return NULL;
  scraps = odd_edit_copy_array (self->scraps, ref_scrap);
  if (at < 0)
    g_ptr_array_add (scraps, odd_scrap_ref (scrap));
  else
    array_set (scraps, at, odd_scrap_ref (scrap), (GDestroyNotify) odd_scrap_unref);
  job = odd_edit_take_scraps (self, scraps);
  if (at < 0)
    job->next_id++;
  if (out_id != NULL)
    *out_id = scrap->id;
  return job;
}

OddJob *
odd_job_put_scraps (OddJob     *self,
                    GPtrArray  *scraps,
                    GError    **error)
{
  g_autoptr(GHashTable) taken = g_hash_table_new (NULL, NULL);
  g_autoptr(GPtrArray) all = odd_edit_copy_array (self->scraps, ref_scrap);
  guint number = next_number (self->scraps);
  OddId next_id = self->next_id;
  OddJob *job;

  for (guint i = 0; i < self->scraps->len; i++)
    g_hash_table_add (taken, GUINT_TO_POINTER (((OddScrap *) self->scraps->pdata[i])->number));
  for (guint i = 0; i < scraps->len; i++)
    number = MAX (number, ((OddScrap *) scraps->pdata[i])->number + 1);
  for (guint i = 0; i < scraps->len; i++)
    {
      OddScrap numbered = *(OddScrap *) scraps->pdata[i];
      OddScrap *scrap;

      numbered.id = next_id++;
      /* A number that is taken is given anew: two stickers alike would be worse than a new sticker. */
      if (numbered.number == 0 || !g_hash_table_add (taken, GUINT_TO_POINTER (numbered.number)))
        {
          numbered.number = number++;
          g_hash_table_add (taken, GUINT_TO_POINTER (numbered.number));
        }
      if (numbered.fabric_id != 0 && odd_job_get_fabric (self, numbered.fabric_id) == NULL)
        {
      not_found (error, _("fabric"), numbered.fabric_id);
      return NULL;
    }
      scrap = odd_scrap_new (&numbered, error);
      if (scrap == NULL)
        return NULL;
      g_ptr_array_add (all, scrap);
    }
  job = odd_edit_take_scraps (self, g_steal_pointer (&all));
  job->next_id = next_id;
  return job;
}

OddJob *
odd_job_remove_scrap (OddJob  *self,
                      OddId    id,
                      GError **error)
{
  const int at = find_index (self->scraps, id, scrap_id_of);
  guint n_uses = 0;
  GPtrArray *scraps;

  if (at < 0)
    {
      not_found (error, _("scrap"), id);
      return NULL;
    }
  if (((OddScrap *) self->scraps->pdata[at])->piece != NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("Scrap %u holds other scraps that are sewn into it. Take it apart to a panel again, or mark it gone."),
                   ((OddScrap *) self->scraps->pdata[at])->number);
      return NULL;
    }
  odd_job_get_uses (self, id, &n_uses);
  if (n_uses > 0)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   _("Scrap %u lies in a panel. Take its patch out first."), ((OddScrap *) self->scraps->pdata[at])->number);
      return NULL;
    }
  scraps = odd_edit_copy_array (self->scraps, ref_scrap);
  g_ptr_array_remove_index (scraps, at);
  return odd_edit_take_scraps (self, scraps);
}

/* %NULL with error when it is not there. (transfer none) */
static OddScrap *
find_scrap (OddJob  *self,
            OddId    id,
            GError **error)
{
  OddScrap *scrap = odd_job_get_scrap (self, id);

  if (scrap == NULL)
    not_found (error, _("scrap"), id);
  return scrap;
}

/* What is cut is washed by itself: its patches and offcuts have their sizes already. */
static gboolean
refuse_cut (OddJob    *self,
            OddScrap  *scrap,
            GError   **error)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (self, scrap->id, &n);
  gboolean cut = scrap->cut_out;

  for (guint i = 0; i < n; i++)
    cut = cut || uses[i].leaf->cut == ODD_STATE_DONE;
  if (cut)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                 _("Patches of scrap %u are cut already, so it can no longer be washed whole. Take their marks back first if it is not so."), scrap->number);
  return !cut;
}

OddJob *
odd_job_wash_scrap (OddJob    *self,
                    OddId      id,
                    gboolean   washed,
                    GError   **error)
{
  OddScrap *scrap = find_scrap (self, id, error);
  g_autoptr(OddScrap) shrunk = NULL;
  OddScrap values;

  if (scrap == NULL)
    return NULL;
  if (!refuse_cut (self, scrap, error))
    return NULL;
  if (washed && !scrap->washed)
    shrunk = odd_scrap_new_washed (scrap, odd_job_get_scrap_fabric (self, scrap));
  values = shrunk != NULL ? *shrunk : *scrap;
  values.washed = washed;
  return odd_job_put_scrap (self, &values, NULL, error);
}

/* --- settings, pictures, record --- */

static gpointer ref_act (gconstpointer p, gpointer data) { return odd_act_ref ((gpointer) p); }

OddJob *
odd_job_append_act (OddJob *self,
                    OddAct *act)
{
  OddJob *job = copy_sharing (self);

  take_array (&job->record, odd_edit_copy_array (self->record, ref_act));
  g_ptr_array_add (job->record, odd_act_ref (act));
  return job;
}

static gboolean
is_speed (double value)
{
  return value == 0.0 || (value >= 1.0 && value <= 10000.0);
}

OddJob *
odd_job_set_settings (OddJob             *self,
                      const OddSettings  *settings,
                      GError            **error)
{
  OddJob *job;

  if (!(settings->usable_square_mm >= 5.0 && settings->usable_square_mm <= 1000.0) ||
      !(settings->min_side_mm >= 1.0 && settings->min_side_mm <= 1000.0) ||
      !(settings->column_width_mm >= 10.0 && settings->column_width_mm <= 10000.0))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                           _("An offcut worth keeping is 5 mm to 1 m, the least side 1 mm to 1 m, a column 1 cm to 10 m wide"));
      return NULL;
    }
  if (!(settings->fold_loss_mm >= 0.0 && settings->fold_loss_mm <= 20.0) ||
      !(settings->scatter_mm >= 0.0 && settings->scatter_mm <= 20.0) ||
      !(settings->bias_mm >= 0.0 && settings->bias_mm <= 20.0) ||
      !(settings->ease_percent >= 0.0 && settings->ease_percent <= 10.0))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                           _("Loss in the fold and scatter are 0 to 2 cm a seam, ease 0 to 10 percent"));
      return NULL;
    }
  if (!(settings->mass_ratio >= 1.0 && settings->mass_ratio <= 100.0) || !(settings->shrink_gap_mm >= 0.0 && settings->shrink_gap_mm <= 1000.0) ||
      !(settings->light_from >= 0.0 && settings->light_from <= 100.0))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                           _("Fabrics may be 1 to 100 times as heavy, shrink 0 mm to 1 m apart, and are light from 0 to 100"));
      return NULL;
    }
  if (!(settings->stay_from_deg >= 0.0 && settings->stay_from_deg <= 45.0) || !(settings->stay_from_mm >= 0.0 && settings->stay_from_mm <= 10000.0))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN, _("An edge is on the bias from 0 to 45 degrees off the threads, and stayed from 0 mm to 10 m on"));
      return NULL;
    }
  if (!is_speed (settings->speeds.sewing_per_min) || !is_speed (settings->speeds.overlocker_per_min) ||
      !is_speed (settings->speeds.handling_s) || !is_speed (settings->speeds.pressing_s_per_m) || !is_speed (settings->speeds.stitch_mm) ||
      !is_speed (settings->speeds.walk_s))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                           _("A speed of your own lies between 1 and 10,000; leave it at 0 to go by the usual figures"));
      return NULL;
    }
  job = copy_sharing (self);
  job->settings = *settings;
  return job;
}

OddJob *
odd_job_put_picture (OddJob     *self,
                     OddPicture *picture)
{
  OddJob *job = copy_sharing (self);

  take_array (&job->pictures, odd_edit_copy_array (self->pictures, ref_picture));
  for (guint i = 0; i < job->pictures->len; i++)
    if (g_str_equal (((OddPicture *) job->pictures->pdata[i])->name, picture->name))
      {
        array_set (job->pictures, i, odd_picture_ref (picture), (GDestroyNotify) odd_picture_unref);
        return job;
      }
  g_ptr_array_add (job->pictures, odd_picture_ref (picture));
  return job;
}

/* --- finishes: adding and removing; changing one is in edit-finish.c, it moves cloth --- */

OddJob *
odd_edit_add_finish (OddJob           *self,
                     const OddFinish  *values,
                     OddId            *out_id,
                     GError          **error)
{
  OddFinish numbered = *values;
  g_autoptr(OddFinish) finish = NULL;
  GPtrArray *finishes;
  OddJob *job;

  if (odd_job_get_finish_by_key (self, values->key) != NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN, _("There is a finish “%s” already. Give this one another name."), values->key);
      return NULL;
    }
  numbered.id = self->next_id;
  finish = odd_finish_new (&numbered, error);
  if (finish == NULL)
    return NULL;
  finishes = odd_edit_copy_array (self->finishes, ref_finish);
  g_ptr_array_add (finishes, odd_finish_ref (finish));
  job = odd_edit_take_finishes (self, finishes);
  job->next_id++;
  if (out_id != NULL)
    *out_id = finish->id;
  return job;
}

OddJob *
odd_edit_swap_finish (OddJob    *self,
                      OddFinish *finish)
{
  GPtrArray *finishes = odd_edit_copy_array (self->finishes, ref_finish);
  const int at = find_index (finishes, finish->id, finish_id);

  array_set (finishes, at, odd_finish_ref (finish), (GDestroyNotify) odd_finish_unref);
  return odd_edit_take_finishes (self, finishes);
}

OddJob *
odd_edit_drop_finish (OddJob *self,
                      OddId   id)
{
  GPtrArray *finishes = odd_edit_copy_array (self->finishes, ref_finish);

  g_ptr_array_remove_index (finishes, find_index (finishes, id, finish_id));
  return odd_edit_take_finishes (self, finishes);
}
