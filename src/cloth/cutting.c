/* What comes of cutting: marks on patches, offcuts of their scrap, and the way back. */
#include "config.h"

#include "cloth/cutting.h"

#include <glib/gi18n.h>

#include "cloth/edit-private.h"
#include "cloth/offcuts.h"

/* A line on the move stops where cloth ends, exact to 1e-5 mm: see odd_line_move_get_limits(). */
#define AT_LIMIT_MM 2e-5

static GPtrArray *
polygons_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
}

static int
compare_areas (gconstpointer a,
               gconstpointer b)
{
  const double p = odd_polygon_get_area (*(OddPolygon **) a);
  const double q = odd_polygon_get_area (*(OddPolygon **) b);

  return (p < q) - (p > q);
}

/* --- the slit --- */

/* Which opening was cut, not there before, and lies nearest to the edge? %FALSE: none was cut. */
static gboolean
find_opening (OddPolygon *piece,
              GPtrArray  *cuts,
              OddSegment *out_slit)
{
  double least_mm = G_MAXDOUBLE;

  for (guint h = 0; h < odd_polygon_get_n_holes (piece); h++)
    {
      gsize n = 0;
      const OddPoint *ring = odd_polygon_get_hole (piece, h, &n);
      g_autoptr(OddPolygon) opening = odd_polygon_new (ring, n, NULL);
      const OddSegment slit = odd_polygon_find_slit (piece, h);
      gboolean was_cut = FALSE;

      for (guint i = 0; i < cuts->len && !was_cut && opening != NULL; i++)
        was_cut = odd_polygon_overlap_area (opening, cuts->pdata[i]) > 0.0;
      if (!was_cut || odd_segment_length (slit) >= least_mm)
        continue;
      least_mm = odd_segment_length (slit);
      *out_slit = slit;
    }
  return least_mm < G_MAXDOUBLE;
}

/* Nobody cuts a patch out of the middle of a piece without cutting into it. Takes @piece; adds what it becomes to @pieces. */
static void
slit_open (OddPolygon *piece,
           GPtrArray  *cuts,
           GPtrArray  *pieces)
{
  OddSegment line = { { 0.0, 0.0 }, { 0.0, 0.0 } };
  g_autoptr(GPtrArray) parts = NULL;

  if (!find_opening (piece, cuts, &line))
    {
      g_ptr_array_add (pieces, piece);
      return;
    }
  parts = odd_polygon_cut_slit (piece, line);
  for (guint i = 0; i < parts->len; i++)
    slit_open (odd_polygon_ref (parts->pdata[i]), cuts, pieces);
  odd_polygon_unref (piece);
}

/* Into what the scrap falls along the cut shapes, as it will be sewn, the largest first. */
static GPtrArray *
fall_apart (OddPolygon *outline,
            GPtrArray  *cuts)
{
  g_autoptr(GPtrArray) left = odd_polygon_difference_many (outline, (OddPolygon *const *) cuts->pdata, cuts->len);
  GPtrArray *pieces = polygons_new ();

  for (guint i = 0; i < left->len; i++)
    slit_open (odd_polygon_ref (left->pdata[i]), cuts, pieces);
  g_ptr_array_sort (pieces, compare_areas);
  return pieces;
}

/* --- offcuts --- */

/* The parent's zones as far as they lie in the piece. */
static GArray *
dup_zones_in (OddScrap   *parent,
              OddPolygon *piece)
{
  GArray *zones = g_array_new (FALSE, FALSE, sizeof (OddZone));

  for (guint i = 0; i < parent->n_zones; i++)
    {
      g_autoptr(GPtrArray) parts = odd_polygon_intersection (parent->zones[i].outline, piece);

      for (guint k = 0; k < parts->len; k++)
        {
          OddZone zone = parent->zones[i];

          zone.outline = odd_polygon_ref (parts->pdata[k]);
          g_array_append_val (zones, zone);
        }
    }
  return zones;
}

static void
free_zones (GArray *zones)
{
  for (guint i = 0; i < zones->len; i++)
    odd_polygon_unref (g_array_index (zones, OddZone, i).outline);
  g_array_unref (zones);
}

/* (transfer full) (nullable) The piece as a scrap without id and number; %NULL when its good cloth does not hold the usable square. */
static OddScrap *
offcut_new (OddJob     *job,
            OddScrap   *parent,
            OddPolygon *sewn)
{
  OddFabric *fabric = odd_job_get_scrap_fabric (job, parent);
  g_autoptr(OddPolygon) outline = odd_scrap_dup_unwashed (parent, fabric, sewn);
  g_autoptr(GPtrArray) usable = NULL;
  GArray *zones = dup_zones_in (parent, outline);
  OddScrap values = *parent;
  OddScrap *offcut;

  values.id = 0;
  values.number = 0;
  values.parent_id = parent->id;
  values.outline = outline;
  values.zones = (OddZone *) zones->data;
  values.n_zones = zones->len;
  values.note = NULL;
  values.unknown_json = NULL;
  values.cut_out = FALSE;
  offcut = odd_scrap_new (&values, NULL);
  free_zones (zones);
  if (offcut == NULL)
    return NULL;
  usable = odd_scrap_dup_usable (offcut, fabric);
  for (guint i = 0; i < usable->len; i++)
    if (odd_piece_holds_square (usable->pdata[i], job->settings.usable_square_mm))
      return offcut;
  odd_scrap_unref (offcut);
  return NULL;
}

/* @pieces: as they will be sewn. (transfer full) */
static OddJob *
add_offcuts (OddJob    *job,
             OddScrap  *parent,
             GPtrArray *pieces,
             GError   **error)
{
  g_autoptr(GPtrArray) offcuts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);

  for (guint i = 0; i < pieces->len; i++)
    {
      OddScrap *offcut = offcut_new (job, parent, pieces->pdata[i]);

      if (offcut != NULL)
        g_ptr_array_add (offcuts, offcut);
    }
  return odd_job_put_scraps (job, offcuts, error);
}

static OddJob *
with_cut_out (OddJob    *job,
              OddScrap  *scrap,
              gboolean   cut_out,
              GError   **error)
{
  OddScrap values = *scrap;

  values.cut_out = cut_out;
  return odd_job_put_scrap (job, &values, NULL, error);
}

/* The scrap's patches are all marked. */
static OddJob *
cut_out (OddJob    *job,
         OddScrap  *scrap,
         GError   **error)
{
  g_autoptr(OddPolygon) outline = odd_scrap_dup_outline (scrap, odd_job_get_scrap_fabric (job, scrap));
  g_autoptr(GPtrArray) cuts = odd_scrap_dup_cut_shapes (job, scrap->id);
  g_autoptr(GPtrArray) pieces = fall_apart (outline, cuts);
  g_autoptr(OddJob) marked = with_cut_out (job, scrap, TRUE, error);

  return marked != NULL ? add_offcuts (marked, scrap, pieces, error) : NULL;
}

GPtrArray *
odd_job_dup_offcuts (OddJob *self,
                     OddId   scrap_id)
{
  GPtrArray *offcuts = g_ptr_array_new ();

  for (guint i = 0; i < self->scraps->len; i++)
    if (((OddScrap *) self->scraps->pdata[i])->parent_id == scrap_id)
      g_ptr_array_add (offcuts, self->scraps->pdata[i]);
  return offcuts;
}

/* --- the way back --- */

static gboolean
check_unused (OddJob    *job,
              OddScrap  *scrap,
              OddScrap  *offcut,
              GError   **error)
{
  if (odd_job_get_scrap_state (job, offcut->id) == ODD_SCRAP_FREE)
    return TRUE;
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("Scrap %u is an offcut of scrap %u and is used already. Take it out of its panel first."), offcut->number, scrap->number);
  return FALSE;
}

static OddJob *
put_together (OddJob    *job,
              OddScrap  *scrap,
              GError   **error)
{
  g_autoptr(GPtrArray) offcuts = odd_job_dup_offcuts (job, scrap->id);
  g_autoptr(OddJob) next = NULL;

  for (guint i = 0; i < offcuts->len; i++)
    if (!check_unused (job, scrap, offcuts->pdata[i], error))
      return NULL;
  next = with_cut_out (job, scrap, FALSE, error);
  for (guint i = 0; i < offcuts->len && next != NULL; i++)
    {
      OddJob *without = odd_job_remove_scrap (next, ((OddScrap *) offcuts->pdata[i])->id, error);

      odd_job_unref (next);
      next = without;
    }
  return g_steal_pointer (&next);
}

/* --- the acts --- */

/* Marks every patch of the scrap that is not marked so. */
static OddJob *
mark_all (OddJob    *self,
          OddId      scrap_id,
          OddState   cut,
          GError   **error)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (self, scrap_id, &n);
  g_autoptr(OddJob) job = odd_job_ref (self);

  for (guint i = 0; i < n && job != NULL; i++)
    {
      OddJob *marked;

      if (uses[i].leaf->cut == cut)
        continue;
      marked = odd_edit_mark_cut (job, uses[i].leaf->id, cut, error);
      odd_job_unref (job);
      job = marked;
    }
  return g_steal_pointer (&job);
}

static gboolean
is_all_cut (OddJob *job,
            OddId   scrap_id)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap_id, &n);

  for (guint i = 0; i < n; i++)
    if (uses[i].leaf->cut != ODD_STATE_DONE)
      return FALSE;
  return TRUE;
}

/* A piece is cut across on purpose, never by the way: its seams must be secured. */
static gboolean
falls_apart (OddScrap *scrap)
{
  return !scrap->cut_out && scrap->piece == NULL;
}

OddJob *
odd_job_set_cut (OddJob    *self,
                 OddId      leaf_id,
                 OddState   cut,
                 GError   **error)
{
  g_autoptr(OddJob) marked = odd_edit_mark_cut (self, leaf_id, cut, error);
  OddPanel *panel = marked != NULL ? odd_job_find_panel_of (marked, leaf_id, NULL, NULL) : NULL;
  OddScrap *scrap;

  if (panel == NULL)
    return NULL;
  scrap = odd_job_get_scrap (marked, odd_node_find (panel->root, leaf_id)->scrap_id);
  if (cut == ODD_STATE_DONE && falls_apart (scrap) && is_all_cut (marked, scrap->id))
    return cut_out (marked, scrap, error);
  if (cut != ODD_STATE_DONE && scrap->cut_out)
    return put_together (marked, scrap, error);
  return g_steal_pointer (&marked);
}

static OddScrap *
get_scrap (OddJob  *job,
           OddId    scrap_id,
           GError **error)
{
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);

  if (scrap == NULL)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no scrap %u in this job"), scrap_id);
  return scrap;
}

OddJob *
odd_job_cut_scrap (OddJob  *self,
                   OddId    scrap_id,
                   GError **error)
{
  OddScrap *scrap = get_scrap (self, scrap_id, error);
  g_autoptr(OddJob) marked = NULL;
  guint n = 0;

  if (scrap == NULL)
    return NULL;
  odd_job_get_uses (self, scrap_id, &n);
  if (scrap->cut_out || n == 0)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                   scrap->cut_out ? _("Scrap %u is cut out already.") : _("Nothing is planned on scrap %u. Place a patch of it first."), scrap->number);
      return NULL;
    }
  marked = mark_all (self, scrap_id, ODD_STATE_DONE, error);
  if (marked == NULL || !falls_apart (scrap))
    return g_steal_pointer (&marked);
  return cut_out (marked, scrap, error);
}

OddJob *
odd_job_uncut_scrap (OddJob  *self,
                     OddId    scrap_id,
                     GError **error)
{
  OddScrap *scrap = get_scrap (self, scrap_id, error);
  g_autoptr(OddJob) marked = scrap != NULL ? mark_all (self, scrap_id, ODD_STATE_OPEN, error) : NULL;

  if (marked == NULL)
    return NULL;
  return scrap->cut_out ? put_together (marked, scrap, error) : g_steal_pointer (&marked);
}

/* --- cut again, smaller --- */

/* (transfer full) (nullable) Cut shape of a patch marked cut, in its scrap's frame; %NULL when it is not. */
static OddConvex *
dup_cut_of (OddJob *job,
            OddId   leaf_id)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  OddNode *leaf = panel != NULL ? odd_node_find (panel->root, leaf_id) : NULL;
  const OddUse use = { panel, leaf };

  if (leaf == NULL || leaf->kind != ODD_NODE_LEAF || leaf->scrap_id == 0 || leaf->cut != ODD_STATE_DONE)
    return NULL;
  return odd_use_dup_cut (job, &use);
}

static gboolean
lies_in (const OddConvex *inner,
         const OddConvex *outer)
{
  for (guint i = 0; i < inner->n; i++)
    if (!odd_convex_contains (outer, inner->points[i], AT_LIMIT_MM))
      return FALSE;
  return TRUE;
}

/* The patch's number on the cloth. */
static guint
number_of (OddJob *job,
           OddId   leaf_id)
{
  OddPanel *panel = odd_job_find_panel_of (job, leaf_id, NULL, NULL);
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, leaf_id);

  return patch != NULL ? patch->number : 0;
}

static gboolean
check_smaller (const OddConvex  *has,
               const OddConvex  *cut,
               guint             number,
               GError          **error)
{
  if (lies_in (cut, has))
    return TRUE;
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("Patch %u is cut out and can only be cut smaller. Move the seam the other way, or give it another scrap."), number);
  return FALSE;
}

gboolean
odd_job_may_recut (OddJob           *self,
                   OddId             leaf_id,
                   const OddConvex  *cut,
                   GError          **error)
{
  g_autoptr(OddConvex) has = dup_cut_of (self, leaf_id);

  g_return_val_if_fail (cut != NULL, FALSE);

  return has == NULL || check_smaller (has, cut, number_of (self, leaf_id), error);
}

/* What cutting the patch again, smaller, leaves of it. @was, @is: cut shapes in the scrap's frame. */
static OddJob *
add_trimmed_off (OddJob           *after,
                 OddScrap         *scrap,
                 const OddConvex  *was,
                 const OddConvex  *is,
                 GError          **error)
{
  g_autoptr(OddPolygon) whole = odd_polygon_new_from_convex (was);
  g_autoptr(GPtrArray) shapes = polygons_new ();
  g_autoptr(GPtrArray) pieces = NULL;

  g_ptr_array_add (shapes, odd_polygon_new_from_convex (is));
  pieces = fall_apart (whole, shapes);
  return pieces->len > 0 ? add_offcuts (after, scrap, pieces, error) : odd_job_ref (after);
}

static OddConvex *
dup_in_scrap (const OddPatch *patch)
{
  const OddPlacement back = odd_placement_inverse (&patch->placement);

  return odd_convex_place (patch->cut, &back);
}

/* A patch marked cut, before and after. (transfer full): @job or the one after it */
static OddJob *
recut (OddJob          *job,
       const OddPatch  *was,
       const OddPatch  *is,
       GError         **error)
{
  g_autoptr(OddConvex) had = dup_in_scrap (was);
  g_autoptr(OddConvex) has = dup_in_scrap (is);
  OddScrap *scrap = odd_job_get_scrap (job, is->leaf->scrap_id);

  if (odd_convex_equal (had, has, ODD_TOLERANCE_MM))
    return odd_job_ref (job);
  if (!check_smaller (had, has, was->number, error))
    return NULL;
  return scrap->cut_out ? add_trimmed_off (job, scrap, had, has, error) : odd_job_ref (job);
}

static gboolean
was_cut (const OddPatch *patch)
{
  return patch != NULL && patch->cut != NULL && patch->leaf->scrap_id != 0 && patch->leaf->cut == ODD_STATE_DONE;
}

OddJob *
odd_job_recut (OddJob  *self,
               OddJob  *after,
               OddId    panel_id,
               GError **error)
{
  g_autoptr(OddLayout) before = odd_job_dup_layout_apart (self, panel_id);
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (after, panel_id);
  g_autoptr(OddJob) job = odd_job_ref (after);

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *is = &layout->patches[i];
      const OddPatch *was = was_cut (is) ? odd_layout_find_patch (before, is->leaf->id) : NULL;
      OddJob *next;

      if (!was_cut (was))
        continue;
      next = recut (job, was, is, error);
      if (next == NULL)
        return NULL;
      odd_job_unref (job);
      job = next;
    }
  return g_steal_pointer (&job);
}

/* --- told --- */

static double
total_area (GPtrArray *polygons)
{
  double area_mm2 = 0.0;

  for (guint i = 0; i < polygons->len; i++)
    area_mm2 += odd_polygon_get_area (polygons->pdata[i]);
  return area_mm2;
}

double
odd_job_get_waste_mm2 (OddJob *self,
                       OddId   scrap_id)
{
  OddScrap *scrap = odd_job_get_scrap (self, scrap_id);
  g_autoptr(OddPolygon) outline = NULL;
  g_autoptr(GPtrArray) gone = NULL;
  g_autoptr(GPtrArray) offcuts = NULL;
  g_autoptr(GPtrArray) waste = NULL;

  g_return_val_if_fail (scrap != NULL, 0.0);

  if (!scrap->cut_out)
    return 0.0;
  outline = odd_scrap_dup_outline (scrap, odd_job_get_scrap_fabric (self, scrap));
  gone = odd_scrap_dup_cut_shapes (self, scrap_id);
  offcuts = odd_job_dup_offcuts (self, scrap_id);
  for (guint i = 0; i < offcuts->len; i++)
    g_ptr_array_add (gone, odd_scrap_dup_outline (offcuts->pdata[i], odd_job_get_scrap_fabric (self, offcuts->pdata[i])));
  waste = odd_polygon_difference_many (outline, (OddPolygon *const *) gone->pdata, gone->len);
  return total_area (waste);
}

static char *
dup_back_text (GPtrArray *offcuts,
               guint      n_before,
               OddUnit    unit)
{
  const guint n = offcuts->len - n_before;
  const OddScrap *largest = n > 0 ? offcuts->pdata[n_before] : NULL;
  const OddBox box = largest != NULL ? odd_polygon_get_box (largest->outline) : ODD_BOX_EMPTY;
  g_autofree char *size = n > 0 ? odd_length_format_pair (box.width, box.height, unit) : NULL;

  if (n == 0)
    return g_strdup (_("Cut. No offcut came back"));
  if (n == 1)
    return g_strdup_printf (_("Cut. One offcut of %s came back as scrap %u"), size, largest->number);
  return g_strdup_printf (ngettext ("Cut. %u offcut came back, the largest %s: scrap %u", "Cut. %u offcuts came back, the largest %s: scrap %u", n),
                          n, size, largest->number);
}

char *
odd_job_dup_cut_text (OddJob  *before,
                      OddJob  *after,
                      OddId    scrap_id,
                      OddUnit  unit)
{
  OddScrap *was = odd_job_get_scrap (before, scrap_id), *is = odd_job_get_scrap (after, scrap_id);
  g_autoptr(GPtrArray) offcuts_before = odd_job_dup_offcuts (before, scrap_id);
  g_autoptr(GPtrArray) offcuts = odd_job_dup_offcuts (after, scrap_id);
  const double waste_mm2 = odd_job_get_waste_mm2 (after, scrap_id);
  g_autofree char *back = NULL;
  g_autofree char *waste = NULL;

  g_return_val_if_fail (was != NULL && is != NULL, NULL);

  if (was->cut_out && !is->cut_out)
    return g_strdup_printf (_("Not cut. Scrap %u is whole again"), is->number);
  if (is->piece != NULL)
    return g_strdup_printf (_("Cut. What is left stays with scrap %u"), is->number);
  if (!is->cut_out || offcuts->len < offcuts_before->len)
    return g_strdup_printf (_("Cut. More is planned on scrap %u"), is->number);
  back = dup_back_text (offcuts, offcuts_before->len, unit);
  if (waste_mm2 < 100.0)
    return g_steal_pointer (&back);
  waste = odd_area_format (waste_mm2, unit);
  /* Translators: "Cut. One offcut of 7 × 9 cm came back as scrap 31; 12 cm² are waste" */
  return g_strdup_printf (_("%s; %s are waste"), back, waste);
}
