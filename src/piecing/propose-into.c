/* Regions of panels that are there, pieced by themselves: what is bare, or all but what is kept. */
#include "config.h"

#include "piecing/propose-private.h"

#include <glib/gi18n.h>

#define WHOLE_MM 0.05              /* so near to whole squares counts as whole */
#define LEAST_SQUARE_MM 10.0       /* finished */
#define SLANTS_DEG 0.5
#define SLIVER 0.35                /* of the side of a square: trimmed narrower, nobody wants to sew it */
#define OVERLAP_MM2 1e-3
#define LESS_BARE_MM2 1.0          /* less than this is no reason to lay squares otherwise */

static void
add_once (GArray *ids,
          OddId   id)
{
  for (guint i = 0; i < ids->len; i++)
    if (g_array_index (ids, OddId, i) == id)
      return;
  g_array_append_val (ids, id);
}

/* Panels to piece into: those named, those of the parts named, or all of the textile. (transfer full) GArray of OddId */
static GArray *
dup_panels (OddJob                   *job,
            const OddProposalOptions *options,
            const OddTextile         *textile)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  if (options->panel_ids != NULL)
    g_array_append_vals (ids, options->panel_ids, options->n_panel_ids);
  else if (options->part_ids != NULL)
    for (guint i = 0; i < options->n_part_ids; i++)
      {
        const OddPanel *panel = odd_job_find_panel_of (job, options->part_ids[i], NULL, NULL);

        if (panel != NULL)
          add_once (ids, panel->id);
      }
  else
    for (guint i = 0; textile != NULL && i < textile->n_hung; i++)
      g_array_append_val (ids, textile->hung[i].panel->id);

  return ids;
}

/* --- rows --- */

static gboolean
is_whole (double length_mm,
          double side_mm)
{
  return fabs (remainder (length_mm, side_mm)) <= WHOLE_MM;
}

static double
finished_across (const OddProposalOptions *options,
                 const OddField           *field)
{
  return options->templates[0].width_mm - 2.0 * field->seam_allowance_mm;
}

static double
finished_down (const OddProposalOptions *options,
               const OddField           *field)
{
  return options->templates[0].length_mm - 2.0 * field->seam_allowance_mm;
}

/* A rectangle with one allowance all round. */
static gboolean
is_plain (const OddField *field)
{
  const OddBox box = odd_convex_box (field->region);

  if (field->region->n != 4 || odd_convex_area (field->region) < box.width * box.height - 0.01)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    if (fabs (field->allowances_mm[i] - field->seam_allowance_mm) > ODD_TOLERANCE_MM)
      return FALSE;

  return TRUE;
}

static gboolean
takes_whole_squares (const OddProposalOptions *options,
                     const OddField           *field)
{
  const OddBox box = odd_convex_box (field->region);

  return is_plain (field) && options->n_templates == 1 && is_whole (box.width, finished_across (options, field))
         && is_whole (box.height, finished_down (options, field));
}

/* Squares cover any region and are trimmed at its edges; columns fill by rectangles what is one, and other regions as crumbs in rows. */
static gboolean
takes_rows (const OddProposalOptions *options,
            const OddField           *field)
{
  const OddBox box = odd_convex_box (field->region);

  if (options->manner == ODD_PIECE_SQUARES)
    return TRUE;

  return options->manner == ODD_PIECE_COLUMNS && is_plain (field) && box.width >= options->smallest_mm && box.height >= options->row_least_mm;
}

static gboolean
check_squares (const OddProposalOptions *options,
               const OddField           *field,
               GError                  **error)
{
  if (options->manner != ODD_PIECE_SQUARES || MIN (finished_across (options, field), finished_down (options, field)) >= LEAST_SQUARE_MM)
    return TRUE;
  g_set_error (error, ODD_PIECING_ERROR, ODD_PIECING_ERROR_RANGE,
               _("The seams there have %.1f mm allowance, which leaves less than %.0f mm of a template of %.1f mm. Take a larger template."),
               field->seam_allowance_mm, LEAST_SQUARE_MM, MIN (options->templates[0].width_mm, options->templates[0].length_mm));

  return FALSE;
}

/* How a grid of squares lies in a place that it does not fill whole: turned, and begun so much of a square earlier. */
typedef struct { double turn_deg, across, down; } Laying;

/* Where the first row begins: whole rows reach over the cut shape alike at both ends. */
static OddPoint
origin_of_rows (const OddProposalOptions *options,
                const OddField           *field,
                const OddConvex          *cut,
                const Laying             *laying)
{
  const double a = field->seam_allowance_mm;
  const double down_mm = finished_down (options, field);
  const OddBox box = odd_convex_box (cut);
  const double wanted_mm = box.height - 2.0 * a;
  const double n = MAX (1.0, ceil ((wanted_mm - WHOLE_MM) / down_mm));

  return odd_point (box.x + a, box.y + a - (n * down_mm - wanted_mm) / 2.0 - laying->down * down_mm);
}

static OddConvex *
cut_in_scrap (const OddPatch *patch)
{
  const OddPlacement back = odd_placement_inverse (&patch->placement);

  return odd_convex_place (patch->cut, &back);
}

static gboolean
share_cloth (const OddPatch *a,
             const OddPatch *b)
{
  g_autoptr(OddConvex) common = cut_in_scrap (a);
  g_autoptr(OddConvex) other = cut_in_scrap (b);

  for (guint i = 0; common != NULL && i < other->n; i++)
    {
      OddConvex *clipped = odd_convex_clip (common, odd_convex_edge_half_plane (other, i), 0);

      odd_convex_unref (common);
      common = clipped;
    }

  return common != NULL && odd_convex_area (common) > OVERLAP_MM2;
}

/* The tip lies where the next square of the scrap is cut; of the two it is the smaller one that was trimmed. */
static gboolean
reaches_into_another (const OddLayout *layout,
                      const OddPatch  *patch)
{
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *other = &layout->patches[i];
      const double larger_mm2 = odd_convex_area (other->region) - odd_convex_area (patch->region);

      if (other != patch && other->scrap != NULL && other->scrap->id == patch->scrap->id && (larger_mm2 > 0.0 || (larger_mm2 == 0.0 && other < patch))
          && share_cloth (patch, other))
        return TRUE;
    }

  return FALSE;
}

/* A tip between a trimmed edge and a seam may reach farther than its square: that place is left bare. */
static OddJob *
without_misfits (OddJob         *job,
                 const OddField *field,
                 OddId           first_id)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, field->panel_id);

  for (guint i = 0; i < layout->n_patches; i++)
    if (layout->patches[i].leaf->id >= first_id && layout->patches[i].scrap != NULL
        && (!odd_patch_fits (&layout->patches[i]) || reaches_into_another (layout, &layout->patches[i])))
      {
        OddJob *bare = odd_job_make_bare (job, layout->patches[i].leaf->id, NULL);

        if (bare == NULL)
          continue;
        odd_job_unref (job);
        job = bare;
      }

  return job;
}

/* Grain and print keep to the panel, not to the rows. */
static void
turn_limits (OddSources *sources,
             double      turn_deg)
{
  for (guint i = 0; i < sources->scraps->len; i++)
    for (guint side = 0; side < 2; side++)
      for (guint k = 0; k < 2; k++)
        g_array_index (sources->scraps, OddSourceScrap, i).limits[side].turn_deg[k] -= turn_deg;
}

/* The field filled with rows that lie so; what was filled before it is taken from the sources. NULL with an error. */
static OddJob *
fill_with_rows (const OddProposing *self,
                OddJob             *job,
                const OddField     *field,
                const Laying       *laying,
                GError            **error)
{
  const gboolean trimmed = self->options->manner == ODD_PIECE_SQUARES && !takes_whole_squares (self->options, field);
  const OddPlacement spin = { laying->turn_deg, FALSE, { 0.0, 0.0 } };
  const OddPlacement spin_back = odd_placement_inverse (&spin);
  g_autoptr(OddConvex) straight_cut = odd_convex_cut_shape (field->region, field->allowances_mm);
  g_autoptr(OddConvex) cut = odd_convex_place (straight_cut, &spin_back);
  g_autoptr(OddConvex) spun = odd_convex_place (field->region, &spin_back);
  const OddBox box = odd_convex_box (spun);
  const OddPoint origin = trimmed ? origin_of_rows (self->options, field, cut, laying) : odd_point (box.x, box.y);
  const OddPoint back = odd_point (-origin.x, -origin.y);
  const OddPlacement shift = { 0.0, FALSE, origin };
  const OddPlacement to_field = odd_placement_compose (&spin, &shift);
  const OddPlacement to_own = odd_placement_compose (&field->to_own, &to_field);
  OddProposalOptions options = *self->options;
  g_autoptr(OddConvex) within = trimmed ? odd_convex_shift (cut, back) : NULL;
  g_autoptr(OddConvex) region = trimmed ? odd_convex_shift (spun, back) : NULL;
  g_autoptr(OddSources) sources = NULL;
  g_autoptr(GPtrArray) rows = odd_rows_new ();
  g_autoptr(OddPanel) panel = NULL;
  g_autoptr(OddNode) plain = NULL;
  g_autoptr(OddNode) root = NULL;
  OddProposing proposing = *self;
  OddId next_id = job->next_id;
  OddJob *filled;

  if (!check_squares (&options, field, error))
    return NULL;
  options.width_mm = box.width;
  options.length_mm = box.height;
  options.n_panels = 1;
  options.n_templates = MIN (options.n_templates, trimmed ? 1 : options.n_templates);
  sources = odd_sources_new_freed (self->before, job, &options);
  if (!odd_sources_check (job, sources, error))
    return NULL;
  turn_limits (sources, laying->turn_deg);
  proposing.job = job;
  proposing.options = &options;
  proposing.sources = sources;
  proposing.allowance_mm = field->seam_allowance_mm;
  proposing.width_mm = box.width;
  proposing.within = within;
  proposing.earlier = laying->across;
  if (!(options.manner == ODD_PIECE_SQUARES ? odd_propose_squares (&proposing, &rows, error) : odd_propose_columns (&proposing, &rows, error)))
    return NULL;
  if (trimmed)
    plain = odd_rows_build_within (rows, sources, region, proposing.allowance_mm, &next_id);
  else
    {
      panel = odd_rows_build_panel (rows, sources, proposing.width_mm, proposing.allowance_mm, &self->options->treatment, &next_id);
      plain = odd_node_ref (panel->root);
    }
  root = plain != NULL ? odd_node_place (plain, &to_own) : odd_node_new_bare (next_id++);
  filled = odd_job_replace_leaf (job, field->leaf_id, root, next_id, error);

  return filled != NULL && trimmed ? without_misfits (filled, field, job->next_id) : filled;
}

/* --- squares in a place they do not fill whole: which way they lie best --- */

typedef struct { double bare_mm2; guint n_slivers, n_whole; } Worth;

static Worth
worth_of (const OddProposing *self,
          OddJob             *job,
          const OddField     *field,
          OddId               first_id)
{
  const double whole_mm2 = finished_across (self->options, field) * finished_down (self->options, field);
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, field->panel_id);
  const double sliver_mm = SLIVER * MIN (finished_across (self->options, field), finished_down (self->options, field));
  Worth worth = { 0.0, 0, 0 };

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      const double mm2 = odd_convex_area (patch->region);

      if (patch->leaf->id < first_id)
        continue;
      worth.bare_mm2 += patch->scrap == NULL ? mm2 : 0.0;
      worth.n_slivers += odd_convex_min_width (patch->region) < sliver_mm;
      worth.n_whole += patch->scrap != NULL && mm2 > whole_mm2 - 1.0;
    }

  return worth;
}

/* Least bare first, then the fewest slivers, then the most whole squares. */
static gboolean
is_worth_more (const Worth *a,
               const Worth *b)
{
  if (fabs (a->bare_mm2 - b->bare_mm2) > LESS_BARE_MM2)
    return a->bare_mm2 < b->bare_mm2;
  if (a->n_slivers != b->n_slivers)
    return a->n_slivers < b->n_slivers;

  return a->n_whole > b->n_whole;
}

/* What turns its longest side straight. */
static double
slant_of (const OddConvex *region)
{
  OddSegment longest = odd_convex_edge (region, 0);

  for (guint i = 1; i < region->n; i++)
    if (odd_segment_length (odd_convex_edge (region, i)) > odd_segment_length (longest) + ODD_TOLERANCE_MM)
      longest = odd_convex_edge (region, i);

  return remainder (atan2 (longest.to.y - longest.from.y, longest.to.x - longest.from.x) * 180.0 / G_PI, 90.0);
}

/* Takes what is missing along with the best. */
static OddJob *
fill_trying (const OddProposing *self,
             OddJob             *job,
             const OddField     *field,
             GError            **error)
{
  const double turns_deg[2] = { 0.0, slant_of (field->region) };
  const guint n = fabs (turns_deg[1]) > SLANTS_DEG ? 8 : 4;
  g_autoptr(OddJob) best = NULL;
  g_autoptr(GString) missing = g_string_new (NULL);
  Worth best_worth = { INFINITY, 0, 0 };

  for (guint i = 0; i < n; i++)
    {
      const Laying laying = { turns_deg[i / 4], i % 2 * 0.5, i / 2 % 2 * 0.5 };
      g_autoptr(GString) own_missing = g_string_new (NULL);
      OddProposing trying = *self;
      g_autoptr(OddJob) filled = NULL;
      Worth worth;

      trying.missing = own_missing;
      filled = fill_with_rows (&trying, job, field, &laying, error);
      if (filled == NULL)
        return NULL;
      worth = worth_of (self, filled, field, job->next_id);
      if (!is_worth_more (&worth, &best_worth))
        continue;
      best_worth = worth;
      g_clear_pointer (&best, odd_job_unref);
      best = odd_job_ref (filled);
      g_string_assign (missing, own_missing->str);
    }
  if (missing->len > 0)
    odd_sentence_add (self->missing, "%s", missing->str);

  return g_steal_pointer (&best);
}

static OddJob *
fill_field (const OddProposing *self,
            OddJob             *job,
            const OddField     *field,
            GError            **error)
{
  static const Laying PLAIN = { 0.0, 0.0, 0.0 };

  if (self->options->manner == ODD_PIECE_SQUARES && !takes_whole_squares (self->options, field))
    return fill_trying (self, job, field, error);

  return fill_with_rows (self, job, field, &PLAIN, error);
}

static OddJob *
fill_all_rows (const OddProposing *self,
               const OddFields    *fields,
               GError            **error)
{
  OddJob *job = odd_job_ref (fields->job);

  for (guint i = 0; job != NULL && i < fields->fields->len; i++)
    if (takes_rows (self->options, fields->fields->pdata[i]))
      {
        OddJob *filled = fill_field (self, job, fields->fields->pdata[i], error);

        odd_job_unref (job);
        job = filled;
      }

  return job;
}

/* --- crumbs for the rest --- */

static gboolean
needs_crumbs (const OddProposing *self,
              const OddFields    *fields)
{
  for (guint i = 0; i < fields->fields->len; i++)
    if (!takes_rows (self->options, fields->fields->pdata[i]))
      return TRUE;

  return FALSE;
}

/* The fields that are bare still: nothing else that is bare is meant. */
static GArray *
dup_places (const OddFields *fields,
            OddJob          *job)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (OddId));

  for (guint i = 0; i < fields->fields->len; i++)
    {
      const OddField *field = fields->fields->pdata[i];

      if (odd_job_find_panel_of (job, field->leaf_id, NULL, NULL) != NULL)
        g_array_append_val (ids, field->leaf_id);
    }

  return ids;
}

/* Regions that rectangles cannot fill; their seams lean only where the manner has it so. */
static OddJob *
fill_with_crumbs (const OddProposing *self,
                  OddJob             *job,
                  const OddFields    *fields,
                  GError            **error)
{
  OddProposalOptions options = *self->options;
  g_autoptr(GArray) panels = odd_fields_dup_panels (fields);
  g_autoptr(GArray) places = dup_places (fields, job);
  g_autoptr(OddFields) left = odd_fields_new (job, (const OddId *) panels->data, panels->len, (const OddId *) places->data, places->len, FALSE, error);
  g_autoptr(OddSources) sources = odd_sources_new_freed (self->before, job, &options);
  OddProposing proposing = *self;

  if (left == NULL)
    return NULL;
  if (sources->pieces->len == 0 || left->fields->len == 0)
    return odd_job_ref (job);
  if (options.manner != ODD_PIECE_CRUMBS)
    options.tilt_deg = 0.0;
  proposing.job = job;
  proposing.options = &options;
  proposing.sources = sources;

  return odd_propose_crumbs (&proposing, left, error);
}

static void
nothing_to_fill (const OddProposalOptions *options,
                 GError                  **error)
{
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                       options->into == ODD_INTO_BARE ? _("Nothing is bare in these panels. Take a patch off, or piece all that is not locked anew.")
                                                      : _("Everything here is locked, cut out or sewn. Unlock what may change."));
}

static OddFields *
find_fields (OddJob                   *job,
             const OddProposalOptions *options,
             const GArray             *panels,
             GError                  **error)
{
  return odd_fields_new (job, (const OddId *) panels->data, panels->len, options->part_ids, options->n_part_ids,
                         options->into == ODD_INTO_UNLOCKED, error);
}

static gboolean
count_patch (OddNode *node,
             gpointer data)
{
  if (node->kind == ODD_NODE_LEAF && node->scrap_id != 0)
    (*(guint *) data)++;

  return TRUE;
}

OddRoom
odd_proposal_measure_room (OddJob                   *job,
                           const OddProposalOptions *options)
{
  OddTextile *textile = options->textile_id != 0 ? odd_job_get_textile (job, options->textile_id)
                        : job->textiles->len > 0 ? job->textiles->pdata[0] : NULL;
  g_autoptr(GArray) panels = dup_panels (job, options, textile);
  g_autoptr(OddFields) fields = find_fields (job, options, panels, NULL);
  OddRoom room = { 0, 0, 0.0 };

  for (guint i = 0; fields != NULL && i < fields->fields->len; i++)
    {
      const OddField *field = fields->fields->pdata[i];

      room.n_places++;
      room.area_mm2 += odd_convex_area (field->region);
      odd_node_foreach (field->before, count_patch, &room.n_patches);
    }

  return room;
}

static OddNode *
find_in_place (OddNode *was,
               OddNode *is,
               OddId    leaf_id)
{
  OddNode *found = NULL;

  if (was->id == leaf_id)
    return is;
  for (guint i = 0; was->kind == ODD_NODE_STRIP && found == NULL && i < was->n_parts; i++)
    found = find_in_place (was->parts[i], is->parts[i], leaf_id);

  return found;
}

/* But for the fields both jobs have the same trees. */
void
odd_proposal_note_parts (OddProposal     *self,
                         const OddFields *fields)
{
  g_clear_pointer (&self->parts, g_array_unref);
  self->parts = g_array_new (FALSE, FALSE, sizeof (OddId));
  for (guint i = 0; i < fields->fields->len; i++)
    {
      const OddField *field = fields->fields->pdata[i];
      const OddPanel *was = odd_job_get_panel (fields->job, field->panel_id, NULL, NULL);
      const OddPanel *is = odd_job_get_panel (self->job, field->panel_id, NULL, NULL);
      const OddNode *part = find_in_place (was->root, is->root, field->leaf_id);

      g_array_append_val (self->parts, part->id);
    }
}

OddProposal *
odd_propose_into (const OddProposing *self,
                  const OddTextile   *textile,
                  GError            **error)
{
  g_autoptr(GArray) panels = dup_panels (self->job, self->options, textile);
  g_autoptr(OddFields) fields = find_fields (self->job, self->options, panels, error);
  OddProposal *proposal;
  g_autoptr(OddSources) sources = NULL;
  g_autoptr(OddJob) filled = NULL;
  OddProposing proposing = *self;

  if (fields == NULL)
    return NULL;
  if (fields->fields->len == 0)
    {
      nothing_to_fill (self->options, error);
      return NULL;
    }
  sources = odd_sources_new_freed (self->job, fields->job, self->options);
  if (!odd_sources_check (fields->job, sources, error))
    return NULL;
  proposing.before = self->job;
  proposing.job = fields->job;
  proposing.sources = sources;
  proposing.allowance_mm = ((OddField *) fields->fields->pdata[0])->seam_allowance_mm;
  filled = fill_all_rows (&proposing, fields, error);
  if (filled != NULL && needs_crumbs (self, fields))
    {
      OddJob *all = fill_with_crumbs (&proposing, filled, fields, error);

      odd_job_unref (filled);
      filled = all;
    }
  if (filled == NULL)
    return NULL;

  proposal = odd_proposal_new (&proposing, fields->job, g_steal_pointer (&filled), (const OddId *) panels->data, panels->len, error);
  if (proposal != NULL)
    odd_proposal_note_parts (proposal, fields);

  return proposal;
}
