/* Panels become scraps, pieced scraps become panels again, or are cut across.
 *
 * A cut leaves each half its part of the tree: regions are clipped by the line, parts without a region drop out, and a strip of which
 * one part is left is that part. What is left of one patch of plain cloth is plain cloth. Both halves get new ids; the scrap that was cut
 * keeps its own, and is gone.
 */
#include "config.h"

#include "cloth/edit-private.h"
#include "cloth/piece.h"

#include <glib/gi18n.h>

static gpointer ref_scrap (gconstpointer p, gpointer data) { return odd_scrap_ref ((gpointer) p); }

static gboolean
refuse (GError     **error,
        const char  *format,
        ...) G_GNUC_PRINTF (2, 3);

static gboolean
refuse (GError     **error,
        const char  *format,
        ...)
{
  va_list args;
  g_autofree char *text = NULL;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, text);
  return FALSE;
}

static guint
next_number (OddJob *job)
{
  guint number = 0;

  for (guint i = 0; i < job->scraps->len; i++)
    number = MAX (number, ((OddScrap *) job->scraps->pdata[i])->number);
  return number + 1;
}

static OddScrap *
get_pieced (OddJob  *job,
            OddId    id,
            GError **error)
{
  OddScrap *scrap = odd_job_get_scrap (job, id);

  if (scrap == NULL)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no scrap %u in this job"), id);
  else if (scrap->piece == NULL)
    refuse (error, _("Scrap %u is plain cloth; only a scrap pieced of others has seams inside."), scrap->number);
  return scrap != NULL && scrap->piece != NULL ? scrap : NULL;
}

/* Pieced, on the table, and not sewn into anything. */
static OddScrap *
get_free_piece (OddJob  *job,
                OddId    id,
                GError **error)
{
  OddScrap *scrap = get_pieced (job, id, error);
  const OddUse *uses;
  guint n = 0;

  if (scrap == NULL)
    return NULL;
  uses = odd_job_get_uses (job, id, &n);
  if (n > 0)
    {
      g_autofree char *where = odd_job_dup_panel_name (job, uses[0].panel);

      refuse (error, _("Scrap %u lies in %s. Take it out there first."), scrap->number, where);
      return NULL;
    }
  if (scrap->gone)
    {
      refuse (error, _("Scrap %u is gone. Look for what was cut from it."), scrap->number);
      return NULL;
    }
  return scrap;
}

static OddJob *
with_scraps (OddJob    *job,
             GPtrArray *scraps,
             OddId      next_id)
{
  OddJob *changed = odd_edit_take_scraps (job, scraps);

  changed->next_id = next_id;
  return changed;
}

static OddJob *
swap_scrap (OddJob         *job,
            const OddScrap *values,
            GError        **error)
{
  return odd_job_put_scrap (job, values, NULL, error);
}

/* --- a panel among the scraps --- */

static gboolean
check_sewn (OddJob           *job,
            const OddLayout  *layout,
            const char       *name,
            GError          **error)
{
  guint n = 0;

  for (guint i = 0; i < layout->n_seams; i++)
    n += odd_progress_get_state (layout->seams[i].seam->progress, odd_finish_first_sew (layout->seams[i].finish)) != ODD_STATE_DONE;
  if (n == 0)
    return TRUE;
  return refuse (error, ngettext ("%u seam of %s is not sewn yet. Sew it, mark it sewn, and put it among the scraps then.",
                                  "%u seams of %s are not sewn yet. Sew them, mark them sewn, and put it among the scraps then.", n), n, name);
}

static gboolean
check_covered (OddJob           *job,
               const OddLayout  *layout,
               const char       *name,
               GError          **error)
{
  guint depth = 0;

  if (layout->n_vanished > 0)
    return refuse (error, _("Seams leave nothing of one patch of %s. Take a seam off first."), name);
  for (guint i = 0; i < layout->n_patches; i++)
    {
      if (layout->patches[i].scrap == NULL)
        return refuse (error, _("Patch %u of %s is bare. Fill it first."), layout->patches[i].number, name);
      depth = MAX (depth, odd_job_get_piece_depth (job, layout->patches[i].scrap));
    }
  if (depth >= ODD_PIECE_MAX_DEPTH)
    return refuse (error, _("%s holds pieces within pieces, %d deep already. Use it as a panel."), name, ODD_PIECE_MAX_DEPTH);
  return TRUE;
}

static gboolean
check_can_be_scrap (OddJob           *job,
                    OddPanel         *panel,
                    OddTextile       *textile,
                    const OddLayout  *layout,
                    GError          **error)
{
  g_autofree char *name = odd_job_dup_panel_name (job, panel);

  if (textile != NULL)
    return refuse (error, _("%s hangs in the textile. Take it out, then put it among the scraps."), name);
  if (panel->root->n_seams == 0)
    return refuse (error, _("%s is one patch only. Sew another scrap to it first."), name);
  return check_covered (job, layout, name, error) && check_sewn (job, layout, name, error);
}

/* Every seam and edge keeps what it was sewn with, whatever the job's finish becomes. */
static OddPanel *
pin (OddJob          *job,
     OddPanel        *panel,
     const OddLayout *layout)
{
  OddTreatment level = ODD_TREATMENT_INHERIT;
  const OddTreatment *levels[] = { &job->treatment, &panel->treatment };
  OddFinish *finish = NULL;
  OddPanel *pinned;

  odd_job_resolve (job, levels, G_N_ELEMENTS (levels), &finish, &level.allowance_mm);
  level.finish_id = finish->id;
  pinned = odd_panel_with_treatment (panel, &level);
  for (guint i = 0; i < layout->n_edges; i++)
    {
      const OddTreatment edge = { layout->edges[i].finish->id, layout->edges[i].allowance_mm };
      g_autoptr(OddPanel) before = pinned;

      pinned = odd_panel_with_edge (before, layout->edges[i].outline_edge, &edge);
    }
  for (guint i = 0; i < layout->n_seams; i++)
    {
      g_autoptr(OddPanel) before = pinned;
      g_autoptr(OddNode) root = NULL;
      OddSeam seam = *layout->seams[i].seam;

      seam.treatment = (OddTreatment) { layout->seams[i].finish->id, layout->seams[i].allowance_mm };
      root = odd_node_replace_seam (before->root, &seam);
      pinned = odd_panel_with_root (before, root);
    }
  return pinned;
}

static gboolean
all_washed (const OddLayout *layout)
{
  for (guint i = 0; i < layout->n_patches; i++)
    if (!layout->patches[i].scrap->washed)
      return FALSE;
  return TRUE;
}

OddJob *
odd_job_panel_to_scrap (OddJob  *self,
                        OddId    panel_id,
                        OddId   *out_scrap_id,
                        GError **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_edit_get_panel (self, panel_id, &textile, NULL, error);
  g_autoptr(OddLayout) layout = NULL;
  g_autoptr(OddPanel) pinned = NULL;
  g_autoptr(OddConvex) raw = NULL;
  g_autoptr(OddPolygon) outline = NULL;
  g_autoptr(OddJob) without = NULL;
  OddScrap values;

  if (panel == NULL)
    return NULL;
  layout = odd_job_dup_layout (self, panel_id);
  if (!check_can_be_scrap (self, panel, textile, layout, error))
    return NULL;
  without = odd_job_remove_panel (self, panel_id, error);
  if (without == NULL)
    return NULL;
  pinned = pin (self, panel, layout);
  raw = odd_panel_dup_raw_outline (self, NULL, pinned);
  outline = odd_polygon_new_from_convex (raw);
  odd_scrap_init_values (&values);
  values.outline = outline;
  values.piece = pinned;
  values.washed = all_washed (layout);
  return odd_job_put_scrap (without, &values, out_scrap_id, error);
}

OddJob *
odd_job_scrap_to_panel (OddJob  *self,
                        OddId    scrap_id,
                        OddId   *out_panel_id,
                        GError **error)
{
  OddScrap *scrap = get_free_piece (self, scrap_id, error);
  g_autoptr(OddJob) without = NULL;
  GPtrArray *scraps;
  OddJob *job;

  if (scrap == NULL)
    return NULL;
  if (scrap->parent_id != 0)
    {
      OddScrap *parent = odd_job_get_scrap (self, scrap->parent_id);

      refuse (error, _("Scrap %u was cut from scrap %u. Only a whole piece can become a panel again."), scrap->number, parent != NULL ? parent->number : 0);
      return NULL;
    }
  scraps = odd_edit_copy_array (self->scraps, ref_scrap);
  g_ptr_array_remove (scraps, scrap);
  without = odd_edit_take_scraps (self, scraps);
  job = odd_job_insert_panel (without, 0, G_MAXUINT, scrap->piece, error);
  if (job != NULL && out_panel_id != NULL)
    *out_panel_id = scrap->piece->id;
  return job;
}

/* --- cut across --- */

#define STITCHING_MM 1.0        /* a blade nearer than this to a seam all along it cuts its thread; our choice */
#define ON_LINE 1               /* label of what lies along the cut; all else is 0 */

/* The seam with a new id, its ends on the line cut. */
static OddSeam
cut_seam (const OddSeam *seam,
          OddConvex     *region,
          OddId          id)
{
  guint edges[2];
  OddSegment chord;
  OddSeam cut = *seam;

  cut.id = id;
  if (odd_convex_chord_edges (region, seam->line, &chord, &edges[0], &edges[1]))
    for (guint i = 0; i < 2; i++)
      if (region->labels[edges[i]] == ON_LINE)
        {
          cut.end_cut[i] = TRUE;
          cut.end_secured[i] = FALSE;
        }
  return cut;
}

static OddNode *clip_node (OddNode *node, OddConvex *region, OddId *next_id);

/* What of a strip's parts has a region: one at least, for they tile it. */
static OddNode *
clip_strip (OddNode   *strip,
            OddConvex *region,
            OddId     *next_id)
{
  g_autoptr(GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  g_autofree OddSeam *seams = g_new (OddSeam, strip->n_parts);
  OddConvex *rest = odd_convex_ref (region);
  const OddId id = (*next_id)++;
  g_autoptr(OddNode) plain = NULL;

  for (guint i = 0; i < strip->n_parts && rest != NULL; i++)
    {
      const gboolean last = i + 1 == strip->n_parts;
      g_autoptr(OddConvex) part = last ? odd_convex_ref (rest) : odd_convex_clip (rest, strip->seams[i].line, 0);
      OddConvex *beyond = last ? NULL : odd_convex_clip (rest, odd_half_plane_flip (strip->seams[i].line), 0);

      if (part != NULL)
        {
          if (parts->len > 0)
            seams[parts->len - 1] = cut_seam (&strip->seams[i - 1], region, (*next_id)++);
          g_ptr_array_add (parts, clip_node (strip->parts[i], part, next_id));
        }
      odd_convex_unref (rest);
      rest = beyond;
    }
  g_clear_pointer (&rest, odd_convex_unref);
  if (parts->len == 1)
    return odd_node_ref (parts->pdata[0]);
  plain = odd_node_new_strip (id, (OddNode *const *) parts->pdata, seams, parts->len);
  return odd_node_with_treatment (plain, &strip->treatment);
}

static OddNode *
clip_node (OddNode   *node,
           OddConvex *region,
           OddId     *next_id)
{
  g_autoptr(OddNode) patch = NULL;

  if (node->kind == ODD_NODE_STRIP)
    return clip_strip (node, region, next_id);
  patch = odd_node_new_patch ((*next_id)++, node->scrap_id, &node->placement);
  return odd_node_with_cut (patch, node->cut);
}

/* The outline with its edges, one of them the cut; the region for clip_node() in @out_region. */
static OddPanel *
clip_piece (OddPanel     *piece,
            OddHalfPlane  keep,
            OddId        *next_id)
{
  const guint n = piece->outline->n;
  g_autoptr(OddConvex) outline = odd_convex_clip (piece->outline, keep, (int) n);
  g_autofree OddEdge *edges = NULL;
  g_autofree int *labels = NULL;
  g_autoptr(OddConvex) region = NULL;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) plain = NULL;
  const OddId id = (*next_id)++;

  if (outline == NULL)
    return NULL;
  edges = g_new (OddEdge, outline->n);
  labels = g_new (int, outline->n);
  for (guint i = 0; i < outline->n; i++)
    {
      const gboolean is_cut = outline->labels[i] == (int) n;

      labels[i] = is_cut ? ON_LINE : 0;
      edges[i] = is_cut ? (OddEdge) { { 0, 0.0 }, NULL } : piece->edges[outline->labels[i]];
    }
  region = odd_convex_new (outline->points, labels, outline->n);
  root = clip_node (piece->root, region, next_id);
  plain = odd_panel_new (id, piece->name, outline, edges, root);
  return odd_panel_with_treatment (plain, &piece->treatment);
}

/* (transfer full) (element-type OddZone): those that lie in the outline; they share their outlines */
static GArray *
zones_within (OddScrap   *scrap,
              OddPolygon *outline)
{
  GArray *zones = g_array_new (FALSE, FALSE, sizeof (OddZone));

  for (guint i = 0; i < scrap->n_zones; i++)
    if (odd_polygon_overlap_area (outline, scrap->zones[i].outline) > 0.0)
      g_array_append_val (zones, scrap->zones[i]);
  return zones;
}

/* One patch of plain cloth is left: the half is cloth like that of the scrap that lay there. */
static void
become_plain (OddJob   *job,
              OddNode  *root,
              OddScrap *values)
{
  OddScrap *cloth = root->kind == ODD_NODE_LEAF ? odd_job_get_scrap (job, root->scrap_id) : NULL;
  OddPlacement placed;

  if (cloth == NULL || cloth->piece != NULL)
    return;
  placed = odd_placement_compose (&values->piece_at, &root->placement);
  values->fabric_id = cloth->fabric_id;
  values->grain_deg = odd_placement_apply_angle (&placed, cloth->grain_deg);
  values->washed = cloth->washed;
  values->piece = NULL;
  values->piece_at = ODD_PLACEMENT_IDENTITY;
}

/* One half, in the frame of the whole; %NULL with error when there is nothing to sew there. */
static OddScrap *
new_half (OddJob        *job,
          OddScrap      *scrap,
          OddHalfPlane   keep,
          guint          number,
          OddId         *next_id,
          GError       **error)
{
  const OddPlacement to_piece = odd_placement_inverse (&scrap->piece_at);
  g_autoptr(GPtrArray) outlines = odd_polygon_clip (scrap->outline, keep);
  g_autoptr(OddPanel) piece = NULL;
  g_autoptr(GArray) zones = NULL;
  const OddHalfPlane inside = odd_half_plane_place (keep, &to_piece);
  g_autoptr(OddConvex) left = odd_convex_clip (scrap->piece->outline, inside, 0);
  OddScrap values = *scrap;
  OddPlacement back = ODD_PLACEMENT_IDENTITY;
  OddBox box;

  if (outlines->len > 1)
    refuse (error, _("The line would cut scrap %u into more than two parts. Lay it where it crosses once."), scrap->number);
  else if (outlines->len == 0)
    refuse (error, _("The line misses scrap %u. Lay it across the cloth."), scrap->number);
  else if (left == NULL)
    refuse (error, _("The line would leave nothing but an allowance on one side of scrap %u. Lay it farther in."), scrap->number);
  if (outlines->len != 1 || left == NULL)
    return NULL;
  values.id = (*next_id)++;
  piece = clip_piece (scrap->piece, inside, next_id);
  box = odd_convex_box (left);
  back.shift = odd_point (box.x, box.y);
  values.number = number;
  values.outline = outlines->pdata[0];
  values.piece = piece;
  values.piece_at = odd_placement_compose (&scrap->piece_at, &back);
  values.parent_id = scrap->id;
  values.unknown_json = NULL;
  zones = zones_within (scrap, values.outline);
  values.zones = (OddZone *) zones->data;
  values.n_zones = zones->len;
  become_plain (job, piece->root, &values);
  return odd_scrap_new (&values, error);
}

/* Along the stitching nothing is cut across: the seam would fall apart, and that is unpicking. */
static gboolean
check_beside_seams (OddJob        *job,
                    OddScrap      *scrap,
                    OddHalfPlane   line,
                    GError       **error)
{
  g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);

  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddSegment seam = layout->seams[i].finished;

      if (odd_segment_length (seam) > STITCHING_MM &&
          fabs (odd_half_plane_distance (line, odd_placement_apply (&scrap->piece_at, seam.from))) < STITCHING_MM &&
          fabs (odd_half_plane_distance (line, odd_placement_apply (&scrap->piece_at, seam.to))) < STITCHING_MM)
        return refuse (error, _("The line runs along a seam of scrap %u, which would fall apart there. Lay it beside the seam, or across it."), scrap->number);
    }
  return TRUE;
}

OddJob *
odd_job_cut_piece (OddJob        *self,
                   OddId          scrap_id,
                   OddHalfPlane   line,
                   OddId          out_ids[2],
                   GError       **error)
{
  OddScrap *scrap = get_free_piece (self, scrap_id, error);
  const guint number = next_number (self);
  OddId next_id = self->next_id;
  g_autoptr(OddScrap) first = NULL;
  g_autoptr(OddScrap) second = NULL;
  g_autoptr(OddJob) numbered = NULL;
  GPtrArray *scraps;
  OddScrap gone;

  if (scrap == NULL || !check_beside_seams (self, scrap, line, error))
    return NULL;
  first = new_half (self, scrap, line, number, &next_id, error);
  second = first != NULL ? new_half (self, scrap, odd_half_plane_flip (line), number + 1, &next_id, error) : NULL;
  if (second == NULL)
    return NULL;
  scraps = odd_edit_copy_array (self->scraps, ref_scrap);
  g_ptr_array_add (scraps, odd_scrap_ref (first));
  g_ptr_array_add (scraps, odd_scrap_ref (second));
  numbered = with_scraps (self, scraps, next_id);
  if (out_ids != NULL)
    {
      out_ids[0] = first->id;
      out_ids[1] = second->id;
    }
  gone = *scrap;
  gone.gone = TRUE;
  return swap_scrap (numbered, &gone, error);
}

/* --- ends, and gone --- */

OddJob *
odd_job_set_piece_end_secured (OddJob    *self,
                               OddId      scrap_id,
                               OddId      seam_id,
                               guint      end,
                               gboolean   secured,
                               GError   **error)
{
  OddScrap *scrap = get_pieced (self, scrap_id, error);
  OddNode *strip;
  guint index = 0;
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) piece = NULL;
  OddScrap values;
  OddSeam seam;

  g_return_val_if_fail (end < 2, NULL);
  if (scrap == NULL)
    return NULL;
  strip = odd_node_find_seam (scrap->piece->root, seam_id, &index);
  if (strip == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("Scrap %u has no seam %u inside"), scrap->number, seam_id);
      return NULL;
    }
  seam = strip->seams[index];
  seam.end_secured[end] = secured;
  root = odd_node_replace_seam (scrap->piece->root, &seam);
  piece = odd_panel_with_root (scrap->piece, root);
  values = *scrap;
  values.piece = piece;
  return swap_scrap (self, &values, error);
}

OddJob *
odd_job_set_scrap_gone (OddJob    *self,
                        OddId      scrap_id,
                        gboolean   gone,
                        GError   **error)
{
  OddScrap *scrap = odd_job_get_scrap (self, scrap_id);
  OddScrap values;
  guint n = 0;

  if (scrap == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no scrap %u in this job"), scrap_id);
      return NULL;
    }
  odd_job_get_uses (self, scrap_id, &n);
  for (guint i = 0; i < self->scraps->len && n == 0 && !gone && scrap->piece != NULL; i++)
    n += ((OddScrap *) self->scraps->pdata[i])->parent_id == scrap_id;
  if (n > 0)
    {
      refuse (error, gone ? _("Scrap %u is sewn into something. Take it out there first.") : _("Scrap %u was cut; what was cut from it is there instead."),
              scrap->number);
      return NULL;
    }
  values = *scrap;
  values.gone = gone;
  return swap_scrap (self, &values, error);
}
