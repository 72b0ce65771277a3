/* What a line on the move touches.
 *
 *     +-----------------+        Only the two parts beside a seam change with it. Their patches are found anew in the region that both parts
 *     |  first part     |        share, as if the seam were not there: that is a patch's base. Wherever the seam lies, the patch's
 *     +-----seam--------+        region is its base clipped by it.
 *     |  second part    |
 *     +-----------------+        An end of the panel is the same with one part only, open on its far side.
 */
#include "config.h"

#include "cloth/edit-private.h"
#include "cloth/cutting.h"
#include "cloth/line-move-private.h"

#include <glib/gi18n.h>

#define OPEN_MM 5000.0            /* so far an end may grow; no scrap is longer */
#define BARE_LEAST_MM 1.0         /* a bare region thinner than that is a mistake */

static void
add_meetings (OddLineMove *self,
              OddNode     *strip,
              OddConvex   *region,
              gboolean     first)
{
  for (guint i = 0; i + 2 < strip->n_parts; i++)
    {
      OddMeeting meeting = { .first = first };

      if (odd_half_plane_meet (strip->seams[i].line, strip->seams[i + 1].line, &meeting.at) &&
          odd_convex_contains (region, meeting.at, ODD_TOLERANCE_MM))
        g_array_append_val (self->meetings, meeting);
    }
}

static OddStopKind
is_cloth (const OddLineMove *self,
          const OddPatch    *patch)
{
  if (patch->leaf->cut == ODD_STATE_DONE)
    return ODD_STOP_CUT;
  for (guint i = 0; i < patch->region->n; i++)
    {
      const int label = patch->region->labels[i];

      if (label >= 0 && label != self->label && odd_seam_is_touched (self->layout->seams[label].seam))
        return ODD_STOP_SEWN;
    }
  return ODD_STOP_NONE;
}

static void
add_patch (OddLineMove    *self,
           const OddPatch *patch,
           OddConvex      *base,
           gboolean        first,
           gboolean        locked)
{
  const double least = patch->scrap != NULL ? self->job->settings.min_side_mm : BARE_LEAST_MM;
  OddReached reached = {
    .patch = patch, .base = odd_convex_ref (base), .first = first, .locked = locked, .fixed = is_cloth (self, patch),
    .least_width_mm = MIN (least, odd_convex_min_width (patch->region))
  };

  g_array_append_val (self->reached, reached);
}

typedef struct
{
  OddLineMove *move;
  guint patch;                   /* the next one of the layout, in tree order */
  gboolean first;
} Gathering;

static void
gather (Gathering *gathering,
        OddNode   *node,
        OddConvex *base,
        guint      first_seam,
        gboolean   locked)
{
  OddLineMove *self = gathering->move;
  const OddLayout *layout = self->layout;
  g_autoptr(OddConvex) rest = base != NULL ? odd_convex_ref (base) : NULL;
  guint next_seam;

  locked = locked || node->locked;
  if (node->kind == ODD_NODE_LEAF)
    {
      const OddPatch *patch = gathering->patch < layout->n_patches ? &layout->patches[gathering->patch] : NULL;

      if (patch == NULL || patch->leaf != node)
        return;
      gathering->patch++;
      if (base != NULL)
        add_patch (self, patch, base, gathering->first, locked);
      return;
    }
  next_seam = first_seam + node->n_parts - 1;
  if (base != NULL)
    add_meetings (self, node, base, gathering->first);
  for (guint i = 0; i < node->n_parts; i++)
    {
      g_autoptr(OddConvex) part = NULL;

      if (i + 1 < node->n_parts && rest != NULL)
        {
          OddConvex *beyond = odd_convex_clip (rest, odd_half_plane_flip (node->seams[i].line), first_seam + i);

          part = odd_convex_clip (rest, node->seams[i].line, first_seam + i);
          odd_convex_unref (rest);
          rest = beyond;
        }
      else
        part = g_steal_pointer (&rest);
      gather (gathering, node->parts[i], part, next_seam, locked);
      next_seam += node->parts[i]->n_seams;
    }
}

/* The region of the strip that holds the seam at @label. */
static OddConvex *
find_region (OddNode   *node,
             OddConvex *region,
             guint      first_seam,
             guint      label)
{
  guint next_seam = first_seam + node->n_parts - 1, i = 0;
  g_autoptr(OddConvex) part = NULL;

  if (label < next_seam)
    return odd_convex_ref (region);
  while (label >= next_seam + node->parts[i]->n_seams)
    next_seam += node->parts[i++]->n_seams;
  part = i + 1 < node->n_parts ? odd_convex_clip (region, node->seams[i].line, first_seam + i) : odd_convex_ref (region);
  if (i > 0 && part != NULL)
    {
      OddConvex *beyond = odd_convex_clip (part, odd_half_plane_flip (node->seams[i - 1].line), first_seam + i - 1);

      odd_convex_unref (part);
      part = beyond;
    }
  return part != NULL ? find_region (node->parts[i], part, next_seam, label) : NULL;
}

static OddLineMove *
line_move_new (OddJob   *job,
               OddPanel *panel)
{
  OddLineMove *self = g_new0 (OddLineMove, 1);

  self->job = odd_job_ref (job);
  self->panel = panel;
  self->layout = odd_job_dup_layout_apart (job, panel->id);
  self->reached = g_array_new (FALSE, FALSE, sizeof (OddReached));
  g_array_set_clear_func (self->reached, (GDestroyNotify) odd_reached_clear);
  self->meetings = g_array_new (FALSE, FALSE, sizeof (OddMeeting));
  return self;
}

void
odd_line_move_free (OddLineMove *self)
{
  g_array_unref (self->reached);
  g_array_unref (self->meetings);
  g_clear_pointer (&self->region, odd_convex_unref);
  g_free (self->end_edges);
  odd_layout_unref (self->layout);
  odd_job_unref (self->job);
  g_free (self);
}

/* --- a seam --- */

static void
gather_beside_seam (OddLineMove       *self,
                    const OddLaidSeam *laid)
{
  OddNode *strip = laid->strip;
  const guint i = laid->index, strip_seam = self->label - i;
  guint next_seam = strip_seam + strip->n_parts - 1;
  g_autoptr(OddConvex) both = odd_convex_ref (self->region);
  Gathering gathering = { self, laid->first_patch, TRUE };

  for (guint k = 0; k < i; k++)
    next_seam += strip->parts[k]->n_seams;
  if (i > 0)
    self->neighbours[self->n_neighbours++] = odd_half_plane_flip (strip->seams[i - 1].line);
  if (i + 2 < strip->n_parts)
    self->neighbours[self->n_neighbours++] = strip->seams[i + 1].line;
  for (guint k = 0; k < self->n_neighbours && both != NULL; k++)
    {
      const int label = k == 0 && i > 0 ? (int) (strip_seam + i - 1) : (int) (strip_seam + i + 1);
      OddConvex *clipped = odd_convex_clip (both, self->neighbours[k], label);

      odd_convex_unref (both);
      both = clipped;
    }
  gather (&gathering, strip->parts[i], both, next_seam, FALSE);
  gathering = (Gathering) { self, laid->second_patch, FALSE };
  gather (&gathering, strip->parts[i + 1], both, next_seam + strip->parts[i]->n_seams, FALSE);
}

static gboolean
refuse (GError     **error,
        const char  *text)
{
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, text);
  return FALSE;
}

/* A patch along the line, not one that only a long way would reach. */
static gboolean
check_locks (OddLineMove  *self,
             GError      **error)
{
  for (guint i = 0; i < self->reached->len; i++)
    {
      const OddReached *reached = &g_array_index (self->reached, OddReached, i);

      for (guint k = 0; reached->locked && k < reached->patch->region->n; k++)
        if (reached->patch->region->labels[k] == self->label)
          return odd_edit_check_lock (self->job, self->panel, reached->patch->leaf->id, error);
    }
  return TRUE;
}

OddLineMove *
odd_line_move_new_seam (OddJob   *job,
                        OddId     seam_id,
                        GError  **error)
{
  OddPanel *panel = odd_edit_get_panel_of (job, seam_id, error);
  g_autoptr(OddLineMove) self = NULL;
  const OddLaidSeam *laid;

  if (panel == NULL || !odd_edit_check_lock (job, panel, seam_id, error))
    return NULL;
  self = line_move_new (job, panel);
  laid = odd_layout_find_seam (self->layout, seam_id);
  if (laid == NULL || laid->raw_length_mm <= 0.0)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no patch or seam %u in this job"), seam_id);
      return NULL;
    }
  if (odd_seam_is_touched (laid->seam))
    {
      refuse (error, _("This seam is sewn. Unpick it to move it, or trim a patch beside it at another seam."));
      return NULL;
    }
  self->seam_id = seam_id;
  self->label = (int) (laid - self->layout->seams);
  self->line = laid->line;
  self->region = find_region (self->layout->root, self->layout->outline, 0, (guint) self->label);
  gather_beside_seam (self, laid);
  return check_locks (self, error) ? g_steal_pointer (&self) : NULL;
}

/* --- an end of the panel --- */

static gboolean
faces (OddPoint normal,
       OddPoint way)
{
  return odd_point_dot (normal, way) > M_SQRT1_2;
}

OddLineMove *
odd_line_move_new_end (OddJob   *job,
                       OddId     panel_id,
                       guint     side,
                       GError  **error)
{
  OddPanel *panel = odd_edit_get_panel (job, panel_id, NULL, NULL, error);
  g_autoptr(OddLineMove) self = NULL;
  g_autofree OddHalfPlane *planes = NULL;
  g_autofree int *labels = NULL;
  Gathering gathering = { NULL, 0, TRUE };
  OddPoint way;
  guint n;

  g_return_val_if_fail (side == 0 || side == 2, NULL);
  if (panel == NULL)
    return NULL;
  self = line_move_new (job, panel);
  n = self->layout->outline->n;
  way = self->layout->hung.turn_deg == 180.0 ? odd_point (0.0, side == 0 ? 1.0 : -1.0) : odd_point (0.0, side == 0 ? -1.0 : 1.0);
  planes = g_new (OddHalfPlane, n);
  labels = g_new (int, n);
  self->end_edges = g_new (guint, n);
  self->line = (OddHalfPlane) { way, INFINITY };
  for (guint i = 0; i < n; i++)
    {
      labels[i] = -1 - (int) i;
      planes[i] = odd_convex_edge_half_plane (self->layout->outline, i);
      if (!faces (planes[i].normal, way))
        continue;
      self->label = labels[i];
      self->end_edges[self->n_end_edges++] = (guint) self->layout->edges[i].outline_edge;
      self->line.offset_mm = MIN (self->line.offset_mm, odd_point_dot (way, self->layout->outline->points[i]));
      self->line.offset_mm = MIN (self->line.offset_mm, odd_point_dot (way, self->layout->outline->points[(i + 1) % n]));
      planes[i] = (OddHalfPlane) { way, OPEN_MM };
    }
  if (self->n_end_edges > 0)
    self->region = odd_convex_new_from_half_planes (planes, labels, n);
  if (self->region == NULL)
    {
      refuse (error, _("This panel has no free end. Sew something on first."));
      return NULL;
    }
  gathering.move = self;
  gather (&gathering, self->layout->root, self->region, 0, FALSE);
  return check_locks (self, error) ? g_steal_pointer (&self) : NULL;
}

OddLayout *
odd_line_move_get_layout (OddLineMove *self)
{
  return self->layout;
}

OddHalfPlane
odd_line_move_get_line (OddLineMove *self)
{
  return self->line;
}

gboolean
odd_line_move_get_segment (OddLineMove  *self,
                           OddHalfPlane  line,
                           OddSegment   *out)
{
  return odd_convex_chord (self->region, line, out);
}

/* --- in words --- */

char *
odd_line_move_dup_reason (OddLineMove   *self,
                          const OddStop *stop)
{
  const OddPatch *patch = odd_layout_find_patch (self->layout, stop->leaf_id);
  const guint number = patch != NULL ? patch->number : 0, scrap = patch != NULL && patch->scrap != NULL ? patch->scrap->number : 0;
  g_autofree char *least = NULL;

  switch (stop->kind)
    {
    case ODD_STOP_SCRAP:
      return g_strdup_printf (_("Scrap %u ends here: patch %u cannot grow farther. Give it a larger scrap to go on."), scrap, number);
    case ODD_STOP_FLAW:
      return g_strdup_printf (_("A flaw of scrap %u would show in patch %u. Shift the scrap to go on."), scrap, number);
    case ODD_STOP_OVERLAP:
      return g_strdup_printf (_("Patch %u would overlap another patch on scrap %u. Give one of them another scrap to go on."), number, scrap);
    case ODD_STOP_NARROW:
      least = g_strdup_printf ("%.0f", self->job->settings.min_side_mm);
      return patch->scrap == NULL ? g_strdup_printf (_("Nothing would be left of patch %u."), number)
                                  : g_strdup_printf (_("Patch %u would be narrower than %s mm, the least side in the preferences."), number, least);
    case ODD_STOP_VANISHED:
      return g_strdup_printf (_("Nothing would be left of patch %u."), number);
    case ODD_STOP_SEAM:
      return g_strdup (_("Two seams would meet here. Move or tilt the other one first."));
    case ODD_STOP_CUT:
      return g_strdup_printf (_("Patch %u is cut out and cannot grow. Move the seam into it to cut it smaller, or take its mark back."), number);
    case ODD_STOP_SEWN:
      return g_strdup_printf (_("A seam of patch %u is sewn, so it cannot grow. Unpick that seam, or move this one into the patch to trim it."), number);
    case ODD_STOP_LOCKED:
      return g_strdup_printf (_("Patch %u is locked. Unlock it first."), number);
    case ODD_STOP_RANGE:
    case ODD_STOP_NONE:
    default:
      return g_strdup (_("This line would leave the panel."));
    }
}

/* --- the edit --- */

/* A nested seam that ends on the line loses its back-stitch where it is trimmed. */
static OddNode *
trim_ends (OddLineMove  *self,
           OddNode      *root,
           OddHalfPlane  line)
{
  OddNode *trimmed = odd_node_ref (root);

  for (guint i = 0; i < self->layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &self->layout->seams[i];

      for (guint end = 0; end < 2 && laid->raw_length_mm > 0.0; end++)
        {
          const OddPoint at = end == 0 ? laid->finished.from : laid->finished.to;
          const OddPoint inside = end == 0 ? laid->finished.to : laid->finished.from;
          const gboolean first = odd_half_plane_distance (self->line, inside) < 0.0;
          guint index;
          OddNode *strip, *next;
          OddSeam seam;

          if (laid->ends[end].label != self->label || !laid->seam->end_secured[end] ||
              odd_half_plane_distance (odd_line_move_side (line, first), at) <= ODD_TOLERANCE_MM)
            continue;
          strip = odd_node_find_seam (trimmed, laid->seam->id, &index);
          seam = strip->seams[index];
          seam.end_secured[end] = FALSE;
          seam.end_cut[end] = self->seam_id == 0;
          next = odd_node_replace_seam (trimmed, &seam);
          odd_node_unref (trimmed);
          trimmed = next;
        }
    }
  return trimmed;
}

static OddPanel *
with_seam_at (OddLineMove  *self,
              OddNode      *root,
              OddHalfPlane  own)
{
  guint index = 0;
  OddNode *strip = odd_node_find_seam (root, self->seam_id, &index);
  OddSeam seam = strip->seams[index];
  g_autoptr(OddNode) changed = NULL;

  seam.line = own;
  changed = odd_node_replace_seam (root, &seam);
  return odd_panel_with_root (self->panel, changed);
}

/* The first of the end's edges becomes the line, the others go far out and with that away. */
static OddPanel *
with_end_at (OddLineMove  *self,
             OddNode      *root,
             OddHalfPlane  own)
{
  g_autofree OddHalfPlane *planes = odd_edit_outline_planes (self->panel);

  for (guint i = 0; i < self->n_end_edges; i++)
    planes[self->end_edges[i]] = i == 0 ? own : odd_half_plane_push (planes[self->end_edges[i]], OPEN_MM);
  return odd_edit_panel_from_planes (self->panel, planes, root);
}

OddJob *
odd_line_move_apply (OddLineMove   *self,
                     OddHalfPlane   line,
                     GError       **error)
{
  const OddPlacement back = odd_placement_inverse (&self->layout->hung);
  const OddHalfPlane own = odd_half_plane_place (line, &back);
  g_autoptr(OddNode) root = NULL;
  g_autoptr(OddPanel) panel = NULL;
  g_autoptr(OddJob) after = NULL;
  OddStop stop;

  if (!odd_line_move_allows (self, line, &stop))
    {
      g_autofree char *reason = odd_line_move_dup_reason (self, &stop);

      g_set_error_literal (error, ODD_JOB_ERROR, stop.kind == ODD_STOP_CUT || stop.kind == ODD_STOP_SEWN || stop.kind == ODD_STOP_LOCKED
                                                   ? ODD_JOB_ERROR_REFUSED : ODD_JOB_ERROR_NO_ROOM, reason);
      return NULL;
    }
  root = trim_ends (self, self->panel->root, line);
  panel = self->seam_id != 0 ? with_seam_at (self, root, own) : with_end_at (self, root, own);
  g_return_val_if_fail (panel != NULL, NULL);
  after = odd_edit_with_panel (self->job, panel);
  return after != NULL ? odd_job_recut (self->job, after, panel->id, error) : NULL;
}

OddJob *
odd_job_shift_seam (OddJob   *self,
                    OddId     seam_id,
                    double    by_mm,
                    GError  **error)
{
  g_autoptr(OddLineMove) move = odd_line_move_new_seam (self, seam_id, error);

  return move != NULL ? odd_line_move_apply (move, odd_half_plane_push (move->line, by_mm), error) : NULL;
}

OddJob *
odd_job_tilt_seam (OddJob   *self,
                   OddId     seam_id,
                   double    by_deg,
                   GError  **error)
{
  g_autoptr(OddLineMove) move = odd_line_move_new_seam (self, seam_id, error);
  const OddSegment finished = move != NULL ? odd_layout_find_seam (move->layout, seam_id)->finished : (OddSegment) { { 0, 0 }, { 0, 0 } };
  const OddLinePath path = { TRUE, odd_point_lerp (finished.from, finished.to, 0.5) };

  return move != NULL ? odd_line_move_apply (move, odd_line_move_line_at (move, &path, by_deg), error) : NULL;
}
