/* From a tree to shapes.
 *
 * Every region is its parent's region clipped by the parent's lines, so all regions are convex and the leaves tile the panel. The
 * labels of a region's edges say on which seam or outer edge they lie; with them a leaf finds the allowance of each of its
 * edges, and a seam finds what its ends end on.
 *
 * A layout is kept in its panel's slot. Whether it may be used again is decided by the pointers it was made from:
 * the job's finishes, scraps and fabrics (or, where those arrays changed, each value used), the levels above the panel, and how it hangs.
 * The slot holds the layout, the layout holds nodes, scraps, fabrics and finishes, and none of these holds the panel.
 */
#include "config.h"

#include "cloth/layout.h"
#include "cloth/edit-private.h"
#include "cloth/layout-slot.h"

#include <string.h>

typedef struct
{
  GPtrArray *finishes, *scraps, *fabrics;       /* refs; the arrays last found to agree */
  OddTreatment job_treatment, textile_treatment;
  OddHang hang;
} Inputs;

static void
inputs_free (Inputs *inputs)
{
  g_ptr_array_unref (inputs->finishes);
  g_ptr_array_unref (inputs->scraps);
  g_ptr_array_unref (inputs->fabrics);
  g_free (inputs);
}

static Inputs *
inputs_new (OddJob        *job,
            OddTextile    *textile,
            const OddHang *hang)
{
  Inputs *inputs = g_new0 (Inputs, 1);

  inputs->finishes = g_ptr_array_ref (job->finishes);
  inputs->scraps = g_ptr_array_ref (job->scraps);
  inputs->fabrics = g_ptr_array_ref (job->fabrics);
  inputs->job_treatment = job->treatment;
  inputs->textile_treatment = textile != NULL ? textile->treatment : ODD_TREATMENT_INHERIT;
  inputs->hang = *hang;
  return inputs;
}

/* --- making --- */

typedef struct
{
  OddJob *job;
  GArray *patches;            /* OddPatch */
  GArray *seams;              /* OddLaidSeam */
  GArray *vanished;           /* OddId */
  OddLayout *layout;
  guint n_leaves;
} Maker;

static double
label_allowance (const Maker *maker,
                 int          label)
{
  return label >= 0 ? g_array_index (maker->seams, OddLaidSeam, label).allowance_mm
                    : maker->layout->edges[-1 - label].allowance_mm;
}

static void
make_patch (Maker     *maker,
            OddNode   *leaf,
            OddConvex *region)
{
  OddPatch patch = { .leaf = leaf, .number = ++maker->n_leaves, .placement = leaf->placement };
  g_autofree double *allowances = NULL;

  if (region == NULL)
    {
      g_array_append_val (maker->vanished, leaf->id);
      return;
    }
  allowances = g_new (double, region->n);
  for (guint i = 0; i < region->n; i++)
    allowances[i] = label_allowance (maker, region->labels[i]);
  patch.region = odd_convex_ref (region);
  patch.cut = odd_convex_cut_shape (region, allowances);
  if (leaf->scrap_id != 0)
    {
      patch.scrap = odd_scrap_ref (odd_job_get_scrap (maker->job, leaf->scrap_id));
      patch.fabric = odd_job_get_scrap_fabric (maker->job, patch.scrap);
      if (patch.fabric != NULL)
        odd_fabric_ref (patch.fabric);
      patch.piece = odd_job_dup_piece_layout (maker->job, patch.scrap);
    }
  g_array_append_val (maker->patches, patch);
}

static OddHalfPlane
label_line (const Maker *maker,
            int          label,
            OddPoint     inside)
{
  OddHalfPlane line;

  if (label < 0)
    return odd_convex_edge_half_plane (maker->layout->outline, -1 - label);
  line = g_array_index (maker->seams, OddLaidSeam, label).line;
  return odd_half_plane_distance (line, inside) > 0.0 ? odd_half_plane_flip (line) : line;
}

/* One end of a seam: what it ends on, and where the stitching starts at the raw edge. */
static void
make_end (const Maker *maker,
          OddLaidSeam *laid,
          guint        which,
          int          label,
          OddPoint    *out_raw)
{
  const OddPoint middle = odd_point_lerp (laid->finished.from, laid->finished.to, 0.5);
  const OddHalfPlane border = label_line (maker, label, middle);
  const double sine = fabs (odd_point_cross (laid->line.normal, border.normal));
  OddEnd *end = &laid->ends[which];

  end->label = label;
  end->angle_deg = asin (MIN (sine, 1.0)) * 180.0 / G_PI;
  end->by = label >= 0 ? g_array_index (maker->seams, OddLaidSeam, label).seam->id
                       : maker->layout->edges[-1 - label].join_id;
  if (laid->seam->end_cut[which] && !laid->seam->end_secured[which])
    end->kind = ODD_END_CUT;
  else if (end->by != 0)
    end->kind = ODD_END_CAUGHT;
  else
    end->kind = laid->seam->end_secured[which] ? ODD_END_BACK_STITCHED : ODD_END_OPEN;
  if (!odd_half_plane_meet (laid->line, odd_half_plane_push (border, label_allowance (maker, label)), out_raw))
    *out_raw = which == 0 ? laid->finished.from : laid->finished.to;
}

static void
make_seam_segment (Maker     *maker,
                   guint      at,
                   OddConvex *region)
{
  OddLaidSeam *laid = &g_array_index (maker->seams, OddLaidSeam, at);
  guint edges[2];

  if (region == NULL || !odd_convex_chord_edges (region, laid->line, &laid->finished, &edges[0], &edges[1]))
    return;
  make_end (maker, laid, 0, region->labels[edges[0]], &laid->raw.from);
  make_end (maker, laid, 1, region->labels[edges[1]], &laid->raw.to);
  laid->raw_length_mm = odd_segment_length (laid->raw);
}

typedef struct Levels { const struct Levels *outer; const OddTreatment *treatment; } Levels;

static void
resolve_levels (OddJob       *job,
                const Levels *levels,
                OddFinish   **out_finish,
                double       *out_allowance_mm)
{
  const OddTreatment *chain[256];
  guint n = G_N_ELEMENTS (chain);

  for (; levels != NULL && n > 0; levels = levels->outer)
    chain[--n] = levels->treatment;
  odd_job_resolve (job, chain + n, G_N_ELEMENTS (chain) - n, out_finish, out_allowance_mm);
}

static void
make_node (Maker        *maker,
           OddNode      *node,
           OddConvex    *region,
           const Levels *outer)
{
  const Levels levels = { outer, &node->treatment };
  const guint first_seam = maker->seams->len;
  OddConvex *rest = NULL;

  if (node->kind == ODD_NODE_LEAF)
    {
      make_patch (maker, node, region);
      return;
    }

  rest = region != NULL ? odd_convex_ref (region) : NULL;
  for (guint i = 0; i + 1 < node->n_parts; i++)
    {
      const Levels own = { &levels, &node->seams[i].treatment };
      OddLaidSeam laid = { .seam = &node->seams[i], .strip = node, .index = i, .line = node->seams[i].line };

      resolve_levels (maker->job, &own, &laid.finish, &laid.planned_allowance_mm);
      laid.allowance_mm = laid.seam->sewn_mm > 0.0 ? laid.seam->sewn_mm : laid.planned_allowance_mm;
      odd_finish_ref (laid.finish);
      g_array_append_val (maker->seams, laid);
      make_seam_segment (maker, first_seam + i, region);
    }
  for (guint i = 0; i < node->n_parts; i++)
    {
      const guint first_patch = maker->patches->len;
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
      make_node (maker, node->parts[i], part, &levels);
      if (i + 1 < node->n_parts)
        {
          OddLaidSeam *after = &g_array_index (maker->seams, OddLaidSeam, first_seam + i);

          after->first_patch = first_patch;
          after->n_first = maker->patches->len - first_patch;
        }
      if (i > 0)
        {
          OddLaidSeam *before = &g_array_index (maker->seams, OddLaidSeam, first_seam + i - 1);

          before->second_patch = first_patch;
          before->n_second = maker->patches->len - first_patch;
        }
    }
  g_clear_pointer (&rest, odd_convex_unref);
}

/* --- the outline as it hangs --- */

static const OddPoint outward[4] = { { 0, -1 }, { 1, 0 }, { 0, 1 }, { -1, 0 } };

static void
set_side (OddLaidEdge   *edge,
          OddHalfPlane  *plane,
          OddJob        *job,
          const OddHang *hang,
          guint          side)
{
  const double raw = side == 0 || side == 3 ? -hang->raw_mm[side] : hang->raw_mm[side];

  *plane = (OddHalfPlane) { outward[side], raw - hang->allowance_mm[side] };
  edge->allowance_mm = hang->allowance_mm[side];
  edge->finish = odd_job_get_finish (job, hang->finish_id[side]);
  edge->join_id = hang->join_id[side];
  edge->trimmed_mm = hang->trimmed_mm[side];
}

/* The edges of the outline, those on a joined or trimmed side replaced; returns the planes in the turned frame. */
static OddHalfPlane *
make_edges (OddLayout     *layout,
            OddJob        *job,
            OddTextile    *textile,
            OddPanel      *panel,
            const OddHang *hang)
{
  const OddPlacement turn = { hang->half_turn ? 180.0 : 0.0, FALSE, { 0.0, 0.0 } };
  const guint n = panel->outline->n;
  OddHalfPlane *planes = g_new0 (OddHalfPlane, n + 4);

  layout->edges = g_new0 (OddLaidEdge, n + 4);
  layout->n_edges = n;
  for (guint i = 0; i < n; i++)
    {
      layout->edges[i].outline_edge = i;
      odd_panel_resolve_edge (job, textile, panel, i, &layout->edges[i].finish, &layout->edges[i].allowance_mm);
      planes[i] = odd_half_plane_place (odd_convex_edge_half_plane (panel->outline, i), &turn);
    }
  for (guint side = 0; hang->in_textile && side < 4; side++)
    {
      const int edge = odd_panel_side_edge (panel, hang->half_turn ? (side + 2) % 4 : side);
      const guint at = edge >= 0 ? (guint) edge : layout->n_edges;

      if (edge < 0)
        layout->edges[layout->n_edges++].outline_edge = -1;
      set_side (&layout->edges[at], &planes[at], job, hang, side);
    }
  return planes;
}

/* The region inside the planes, moved so that its box starts at 0,0. */
static OddConvex *
outline_from_planes (const OddHalfPlane *planes,
                     guint               n,
                     OddPoint           *out_shift)
{
  g_autofree int *labels = g_new (int, n);
  g_autoptr(OddConvex) region = NULL;
  OddBox box;

  for (guint i = 0; i < n; i++)
    labels[i] = -1 - (int) i;
  region = odd_convex_new_from_half_planes (planes, labels, n);
  if (region == NULL)
    return NULL;
  box = odd_convex_box (region);
  *out_shift = odd_point (-box.x, -box.y);
  return odd_convex_shift (region, *out_shift);
}

/* odd_convex_edge_half_plane() by edge number is by place in the ring; a trim can take an edge away, so the order is brought back. */
static void
drop_lost_edges (OddLayout *layout)
{
  OddConvex *outline = layout->outline;
  OddLaidEdge *kept = g_new0 (OddLaidEdge, outline->n);

  for (guint i = 0; i < outline->n; i++)
    {
      kept[i] = layout->edges[-1 - outline->labels[i]];
      outline->labels[i] = -1 - (int) i;      /* ours alone: just made */
    }
  g_free (layout->edges);
  layout->edges = kept;
  layout->n_edges = outline->n;
}

static void
make_outline (OddLayout     *layout,
              OddJob        *job,
              OddTextile    *textile,
              OddPanel      *panel,
              const OddHang *hang)
{
  g_autofree OddHalfPlane *planes = make_edges (layout, job, textile, panel, hang);
  g_autofree double *allowances = NULL;
  OddPoint shift = { 0.0, 0.0 };

  layout->outline = outline_from_planes (planes, layout->n_edges, &shift);
  if (layout->outline == NULL)
    {
      /* Allowances that swallow the whole panel: shown alone, the textile's sizes tell the rest. */
      const OddHang loose = { .half_turn = hang->half_turn };

      g_clear_pointer (&layout->edges, g_free);
      g_free (planes);
      planes = make_edges (layout, job, textile, panel, &loose);
      layout->outline = outline_from_planes (planes, layout->n_edges, &shift);
    }
  drop_lost_edges (layout);
  layout->hung = (OddPlacement) { hang->half_turn ? 180.0 : 0.0, FALSE, shift };
  allowances = g_new (double, layout->n_edges);
  for (guint i = 0; i < layout->n_edges; i++)
    {
      allowances[i] = layout->edges[i].allowance_mm;
      odd_finish_ref (layout->edges[i].finish);
      layout->edges[i].finished = odd_convex_edge (layout->outline, i);
    }
  layout->raw = odd_convex_cut_shape (layout->outline, allowances);
  layout->box = odd_convex_box (layout->outline);
  layout->raw_box = odd_convex_box (layout->raw);
  for (guint i = 0; i < layout->n_edges; i++)
    for (guint k = 0; k < layout->raw->n; k++)
      if (layout->raw->labels[k] == -1 - (int) i)
        layout->edges[i].raw = odd_convex_edge (layout->raw, k);
}

static gboolean
is_identity (const OddPlacement *p)
{
  return p->turn_deg == 0.0 && !p->mirror && p->shift.x == 0.0 && p->shift.y == 0.0;
}

static OddLayout *
layout_new (OddJob        *job,
            OddTextile    *textile,
            OddPanel      *panel,
            const OddHang *hang)
{
  OddLayout *self = g_atomic_rc_box_new0 (OddLayout);
  Maker maker = { .job = job, .layout = self };
  const Levels textile_level = { NULL, textile != NULL ? &textile->treatment : NULL };
  const Levels panel_level = { &textile_level, &panel->treatment };
  g_autoptr(OddConvex) raw_alone = odd_panel_dup_raw_outline (job, textile, panel);
  const OddBox alone = odd_convex_box (panel->outline);
  const OddBox raw = odd_convex_box (raw_alone);

  maker.patches = g_array_sized_new (FALSE, FALSE, sizeof (OddPatch), panel->root->n_leaves);
  maker.seams = g_array_sized_new (FALSE, FALSE, sizeof (OddLaidSeam), panel->root->n_seams);
  maker.vanished = g_array_new (FALSE, FALSE, sizeof (OddId));
  self->inputs = inputs_new (job, textile, hang);
  self->alone_width_mm = alone.width;
  self->alone_length_mm = alone.height;
  self->planned_raw_width_mm = raw.width;
  self->planned_raw_length_mm = raw.height;
  make_outline (self, job, textile, panel, hang);
  self->root = is_identity (&self->hung) ? odd_node_ref (panel->root) : odd_node_place (panel->root, &self->hung);
  make_node (&maker, self->root, self->outline, &panel_level);
  self->n_patches = maker.patches->len;
  self->patches = (OddPatch *) g_array_free (maker.patches, FALSE);
  self->n_seams = maker.seams->len;
  self->seams = (OddLaidSeam *) g_array_free (maker.seams, FALSE);
  self->n_vanished = maker.vanished->len;
  self->vanished = (OddId *) g_array_free (maker.vanished, FALSE);
  return self;
}

OddLayout *
odd_layout_ref (OddLayout *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
layout_clear (gpointer data)
{
  OddLayout *self = data;

  for (guint i = 0; i < self->n_patches; i++)
    {
      odd_convex_unref (self->patches[i].region);
      odd_convex_unref (self->patches[i].cut);
      g_clear_pointer (&self->patches[i].scrap, odd_scrap_unref);
      g_clear_pointer (&self->patches[i].fabric, odd_fabric_unref);
      g_clear_pointer (&self->patches[i].piece, odd_layout_unref);
    }
  for (guint i = 0; i < self->n_seams; i++)
    odd_finish_unref (self->seams[i].finish);
  for (guint i = 0; i < self->n_edges; i++)
    odd_finish_unref (self->edges[i].finish);
  g_free (self->patches);
  g_free (self->seams);
  g_free (self->vanished);
  g_free (self->edges);
  odd_convex_unref (self->outline);
  odd_convex_unref (self->raw);
  odd_node_unref (self->root);
  inputs_free (self->inputs);
}

void
odd_layout_unref (OddLayout *self)
{
  g_atomic_rc_box_release_full (self, layout_clear);
}

/* --- keeping --- */

static gboolean
hang_equal (const OddHang *a,
            const OddHang *b)
{
  if (a->in_textile != b->in_textile || a->half_turn != b->half_turn || a->eased_mm != b->eased_mm)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    if (a->raw_mm[i] != b->raw_mm[i] || a->allowance_mm[i] != b->allowance_mm[i] || a->join_id[i] != b->join_id[i] ||
        a->finish_id[i] != b->finish_id[i] || a->trimmed_mm[i] != b->trimmed_mm[i])
      return FALSE;
  return TRUE;
}

/* Pieces hold no cycle, so locking from the outside in cannot lock up. */
static gboolean
same_piece (const OddPatch *patch,
            OddJob         *job)
{
  g_autoptr(OddLayout) piece = odd_job_dup_piece_layout (job, patch->scrap);

  return piece == patch->piece;
}

static gboolean
same_cloth (OddLayout *layout,
            OddJob    *job)
{
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];

      if (patch->scrap == NULL)
        continue;
      if (odd_job_get_scrap (job, patch->scrap->id) != patch->scrap ||
          odd_job_get_scrap_fabric (job, patch->scrap) != patch->fabric || !same_piece (patch, job))
        return FALSE;
    }
  return TRUE;
}

static gboolean
same_finishes (OddLayout *layout,
               OddJob    *job)
{
  for (guint i = 0; i < layout->n_seams; i++)
    if (odd_job_get_finish (job, layout->seams[i].finish->id) != layout->seams[i].finish)
      return FALSE;
  for (guint i = 0; i < layout->n_edges; i++)
    if (odd_job_get_finish (job, layout->edges[i].finish->id) != layout->edges[i].finish)
      return FALSE;
  return TRUE;
}

/* Called with the slot locked: the arrays found to agree are remembered, so that the next question is answered by their pointers. */
static gboolean
layout_still_true (OddLayout     *layout,
                   OddJob        *job,
                   OddTextile    *textile,
                   const OddHang *hang)
{
  Inputs *was = layout->inputs;
  const OddTreatment textile_treatment = textile != NULL ? textile->treatment : ODD_TREATMENT_INHERIT;

  if (!odd_treatment_equal (&was->job_treatment, &job->treatment) ||
      !odd_treatment_equal (&was->textile_treatment, &textile_treatment) ||
      !hang_equal (&was->hang, hang))
    return FALSE;
  if ((was->scraps != job->scraps || was->fabrics != job->fabrics || was->finishes != job->finishes) && !same_cloth (layout, job))
    return FALSE;
  if (was->finishes != job->finishes && !same_finishes (layout, job))
    return FALSE;
  if (was->scraps != job->scraps || was->fabrics != job->fabrics || was->finishes != job->finishes)
    {
      layout->inputs = inputs_new (job, textile, hang);
      inputs_free (was);
    }
  return TRUE;
}

static OddLayout *
panel_dup_layout (OddJob        *job,
                  OddTextile    *textile,
                  OddPanel      *panel,
                  const OddHang *hang,
                  gboolean       apart)
{
  OddLayoutSlot *slot = panel->layout_slot;
  gpointer *kept = apart ? &slot->apart : &slot->layout;
  OddLayout *layout;

  g_mutex_lock (&slot->lock);
  if (*kept == NULL || !layout_still_true (*kept, job, textile, hang))
    {
      if (*kept != NULL)
        odd_layout_unref (*kept);
      *kept = layout_new (job, textile, panel, hang);
      slot->unref = (GDestroyNotify) odd_layout_unref;
    }
  layout = odd_layout_ref (*kept);
  g_mutex_unlock (&slot->lock);
  return layout;
}

OddLayout *
odd_job_dup_piece_layout (OddJob   *self,
                          OddScrap *scrap)
{
  const OddHang loose = odd_hang_loose ();

  return scrap->piece != NULL ? panel_dup_layout (self, NULL, scrap->piece, &loose, FALSE) : NULL;
}

OddLayout *
odd_job_dup_layout (OddJob *self,
                    OddId   panel_id)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_get_panel (self, panel_id, &textile, &index);
  OddScrap *pieced = panel == NULL ? odd_job_find_pieced (self, panel_id) : NULL;
  OddHang hang = odd_hang_loose ();

  if (pieced != NULL)
    return odd_job_dup_piece_layout (self, pieced);
  g_return_val_if_fail (panel != NULL, NULL);

  if (textile != NULL)
    {
      g_autofree OddHang *hangs = odd_textile_hang (self, textile);

      hang = hangs[index];
    }
  return panel_dup_layout (self, textile, panel, &hang, FALSE);
}

OddLayout *
odd_job_dup_layout_apart (OddJob *self,
                          OddId   panel_id)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_get_panel (self, panel_id, &textile, &index);
  OddScrap *pieced = panel == NULL ? odd_job_find_pieced (self, panel_id) : NULL;
  OddHang hang = odd_hang_loose ();

  if (pieced != NULL)
    return odd_job_dup_piece_layout (self, pieced);
  g_return_val_if_fail (panel != NULL, NULL);

  if (textile != NULL)
    hang.half_turn = textile->hung[index].half_turn;
  return panel_dup_layout (self, textile, panel, &hang, TRUE);
}

/* --- asking --- */

const char *
odd_end_kind_get_nick (OddEndKind kind)
{
  static const char *const nicks[] = { "open", "caught", "back-stitched", "cut" };

  return nicks[kind];
}

const OddPatch *
odd_layout_find_patch (const OddLayout *self,
                       OddId            leaf_id)
{
  for (guint i = 0; i < self->n_patches; i++)
    if (self->patches[i].leaf->id == leaf_id)
      return &self->patches[i];
  return NULL;
}

const OddLaidSeam *
odd_layout_find_seam (const OddLayout *self,
                      OddId            seam_id)
{
  for (guint i = 0; i < self->n_seams; i++)
    if (self->seams[i].seam->id == seam_id)
      return &self->seams[i];
  return NULL;
}

const OddPatch *
odd_layout_patch_at (const OddLayout *self,
                     OddPoint         p)
{
  for (guint i = 0; i < self->n_patches; i++)
    if (odd_convex_contains (self->patches[i].region, p, ODD_TOLERANCE_MM))
      return &self->patches[i];
  return NULL;
}

const OddLaidSeam *
odd_layout_seam_at (const OddLayout *self,
                    OddPoint         p,
                    double           within_mm)
{
  const OddLaidSeam *best = NULL;
  double best_mm = within_mm;

  for (guint i = 0; i < self->n_seams; i++)
    {
      const double mm = odd_segment_distance (self->seams[i].finished, p);

      if (self->seams[i].raw_length_mm > 0.0 && mm <= best_mm)
        {
          best = &self->seams[i];
          best_mm = mm;
        }
    }
  return best;
}

static GPtrArray *
place_all (GPtrArray          *polygons,
           const OddPlacement *placement)
{
  GPtrArray *placed = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);

  for (guint i = 0; i < polygons->len; i++)
    g_ptr_array_add (placed, odd_polygon_place (polygons->pdata[i], placement));
  return placed;
}

GPtrArray *
odd_patch_dup_placed_usable (const OddPatch *self)
{
  g_autoptr(GPtrArray) usable = NULL;

  if (self->scrap == NULL)
    return NULL;
  usable = odd_scrap_dup_usable (self->scrap, self->fabric);
  return place_all (usable, &self->placement);
}

OddPolygon *
odd_patch_dup_placed_outline (const OddPatch *self)
{
  g_autoptr(OddPolygon) outline = NULL;

  if (self->scrap == NULL)
    return NULL;
  outline = odd_scrap_dup_outline (self->scrap, self->fabric);
  return odd_polygon_place (outline, &self->placement);
}

OddLayout *
odd_layout_new_alone (OddJob     *job,
                      OddTextile *textile,
                      OddPanel   *panel)
{
  const OddHang loose = odd_hang_loose ();

  return layout_new (job, textile, panel, &loose);
}
