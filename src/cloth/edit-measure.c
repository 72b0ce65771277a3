/* Taking a measure, and squaring up.
 *
 * A measure moves the parts across the seams that its lines cross (the cut is kept). Where no seam is left to take the loss, the part's own edges
 * move: there the cloth was cut smaller. Squaring up is a cut: it replaces the outer edges by those of the rectangle that is left.
 */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

#define LEAST_SEWN_MM 0.1
#define MOST_SEWN_MM 100.0

enum { TOP, RIGHT, BOTTOM, LEFT };

static const OddPoint outward[4] = { { 0, -1 }, { 1, 0 }, { 0, 1 }, { -1, 0 } };

/* --- seams --- */

typedef struct { double sewn_mm; gboolean squared; } Sewn;
/* The tables below: seam id -> Sewn. */

static GHashTable *
sewn_table_new (void)
{
  return g_hash_table_new_full (NULL, NULL, NULL, g_free);
}

static void
sewn_table_put (GHashTable *table,
                OddId      seam_id,
                double     sewn_mm,
                gboolean   squared)
{
  Sewn *sewn = g_new (Sewn, 1);

  *sewn = (Sewn) { sewn_mm, squared };
  g_hash_table_insert (table, GUINT_TO_POINTER (seam_id), sewn);
}

/* TRUE when the seam is in the table and something of it changes. */
static gboolean
change_seam (OddSeam   *seam,
             GHashTable *table)
{
  const Sewn *sewn = g_hash_table_lookup (table, GUINT_TO_POINTER (seam->id));

  if (sewn == NULL || (seam->sewn_mm == sewn->sewn_mm && seam->squared == sewn->squared))
    return FALSE;
  seam->sewn_mm = sewn->sewn_mm;
  seam->squared = sewn->squared;
  return TRUE;
}

/* (transfer full): the subtree with its seams changed */
static OddNode *
change_node (OddNode   *node,
             GHashTable *table,
             gboolean  *changed)
{
  g_autoptr(GPtrArray) parts = NULL;
  g_autofree OddSeam *seams = NULL;

  if (node->kind == ODD_NODE_LEAF)
    return odd_node_ref (node);
  parts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_node_unref);
  seams = g_memdup2 (node->seams, sizeof (OddSeam) * (node->n_parts - 1));     /* lent: the new strip copies them */
  for (guint i = 0; i < node->n_parts; i++)
    {
      g_ptr_array_add (parts, change_node (node->parts[i], table, changed));
      if (i + 1 < node->n_parts)
        *changed |= change_seam (&seams[i], table);
    }
  return odd_node_with_parts (node, (OddNode *const *) parts->pdata, seams, node->n_parts);
}

static void
replace_job (OddJob **job,
             OddJob  *with)
{
  odd_job_unref (*job);
  *job = with;
}

/* The panel's seams changed and its parts moved; FALSE and error when that leaves nothing. */
static gboolean
change_panel (OddJob     **job,
              OddId        panel_id,
              GHashTable   *table,
              GError     **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_get_panel (*job, panel_id, &textile, NULL);
  gboolean changed = FALSE;
  g_autoptr(OddNode) root = change_node (panel->root, table, &changed);
  g_autoptr(OddPanel) marked = NULL, moved = NULL;
  g_autoptr(OddLayout) was = NULL, is = NULL, settled = NULL;
  g_autofree char *name = NULL;

  if (!changed)
    return TRUE;
  marked = odd_panel_with_root (panel, root);
  was = odd_layout_new_alone (*job, textile, panel);
  is = odd_layout_new_alone (*job, textile, marked);
  moved = odd_panel_reassemble (marked, was, is);
  settled = moved != NULL ? odd_layout_new_alone (*job, textile, moved) : NULL;
  if (settled != NULL && settled->n_vanished <= was->n_vanished)
    return replace_job (job, odd_edit_with_panel (*job, moved)), TRUE;
  name = odd_job_dup_panel_name (*job, panel);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
               _("Sewn that deep, the seams would take whole patches of %s. Measure again."), name);
  return FALSE;
}

static void
change_joins (OddJob    **job,
              OddId       textile_id,
              GHashTable  *table)
{
  OddTextile *textile = odd_job_get_textile (*job, textile_id);
  g_autofree OddSeam *joins = g_memdup2 (textile->joins, sizeof (OddSeam) * MAX (textile->n_hung, 1) - sizeof (OddSeam));
  g_autoptr(OddTextile) marked = NULL;
  gboolean changed = FALSE;

  for (guint i = 0; i + 1 < textile->n_hung; i++)
    changed |= change_seam (&joins[i], table);
  if (!changed)
    return;
  marked = odd_textile_with_panels (textile, textile->hung, textile->n_hung, joins);
  replace_job (job, odd_edit_with_textile (*job, marked));
}

/* (transfer full): the job with the seams of the table changed, wherever they are */
static OddJob *
change_seams (OddJob     *self,
              GHashTable  *table,
              GError    **error)
{
  g_autoptr(OddJob) job = odd_job_ref (self);

  for (guint t = 0; t < self->textiles->len; t++)
    {
      OddTextile *textile = self->textiles->pdata[t];

      change_joins (&job, textile->id, table);
      for (guint i = 0; i < textile->n_hung; i++)
        if (!change_panel (&job, textile->hung[i].panel->id, table, error))
          return NULL;
    }
  for (guint i = 0; i < self->loose_panels->len; i++)
    if (!change_panel (&job, ((OddPanel *) self->loose_panels->pdata[i])->id, table, error))
      return NULL;
  return g_steal_pointer (&job);
}

OddJob *
odd_job_forget_sewn (OddJob       *self,
                     const OddId  *seam_ids,
                     guint         n_ids,
                     GError      **error)
{
  g_autoptr(GHashTable) table = sewn_table_new ();

  for (guint i = 0; i < n_ids; i++)
    sewn_table_put (table, seam_ids[i], 0.0, FALSE);
  return change_seams (self, table, error);
}

OddJob *
odd_edit_forget_unsewn (OddJob  *job,
                        OddId    seam_id,
                        GError **error)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_find_panel_of (job, seam_id, &textile, &index);
  g_autoptr(OddJob) before = job;
  const OddLaidSeam *laid;
  g_autoptr(OddLayout) layout = NULL;
  OddNode *strip = panel != NULL ? odd_node_find_seam (panel->root, seam_id, &index) : NULL;
  const OddSeam *seam = strip != NULL ? &strip->seams[index] : &textile->joins[index];

  if (seam->sewn_mm <= 0.0 && !seam->squared)
    return g_steal_pointer (&before);
  if (strip == NULL)
    return odd_seam_is_touched (seam) ? g_steal_pointer (&before) : odd_job_forget_sewn (before, &seam_id, 1, error);
  layout = odd_job_dup_layout_apart (job, panel->id);
  laid = odd_layout_find_seam (layout, seam_id);
  if (laid != NULL && odd_layout_seam_is_sewn (laid))
    return g_steal_pointer (&before);
  return odd_job_forget_sewn (before, &seam_id, 1, error);
}

/* --- edges --- */

/* Moves the sides of a panel alone inwards; @square: they become upright or level first, at their innermost end. */
static gboolean
trim_panel (OddJob       **job,
            OddId          panel_id,
            const double   by_mm[4],
            gboolean       square,
            GError       **error)
{
  OddPanel *panel = odd_job_get_panel (*job, panel_id, NULL, NULL);
  g_autofree OddHalfPlane *planes = odd_edit_outline_planes (panel);
  g_autoptr(OddPanel) trimmed = NULL;
  g_autofree char *name = NULL;

  for (guint side = 0; side < 4; side++)
    {
      const int edge = odd_panel_side_edge (panel, side);

      if (edge < 0 || (by_mm[side] == 0.0 && !square))
        continue;
      if (square)
        {
          const OddSegment s = odd_convex_edge (panel->outline, edge);

          planes[edge] = (OddHalfPlane) { outward[side], MIN (odd_point_dot (outward[side], s.from), odd_point_dot (outward[side], s.to)) };
        }
      planes[edge].offset_mm -= by_mm[side];
    }
  trimmed = odd_edit_panel_from_planes (panel, planes, panel->root);
  if (trimmed != NULL)
    return replace_job (job, odd_edit_with_panel (*job, trimmed)), TRUE;
  name = odd_job_dup_panel_name (*job, panel);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("Nothing would be left of %s. Measure again."), name);
  return FALSE;
}

/* Trims all panels to the textile's rectangle less @by_width_mm and @by_length_mm, half on each side; none is offset any more. */
static gboolean
trim_textile (OddJob **job,
              OddId    textile_id,
              double   by_width_mm,
              double   by_length_mm,
              gboolean square,
              GError **error)
{
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (*job, textile_id);
  g_autofree OddHung *hung = NULL;
  OddTextile *textile;
  g_autoptr(OddTextile) level = NULL;

  for (guint i = 0; i < layout->n_panels; i++)
    {
      const gboolean turned = layout->textile->hung[i].half_turn;
      const double by_mm[4] = { layout->panels[i].trim_top_mm + by_length_mm / 2.0, i + 1 == layout->n_panels ? by_width_mm / 2.0 : 0.0,
                                layout->panels[i].trim_bottom_mm + by_length_mm / 2.0, i == 0 ? by_width_mm / 2.0 : 0.0 };
      const double own_mm[4] = { by_mm[turned ? BOTTOM : TOP], by_mm[turned ? LEFT : RIGHT],
                                 by_mm[turned ? TOP : BOTTOM], by_mm[turned ? RIGHT : LEFT] };

      if (!trim_panel (job, layout->panels[i].panel_id, own_mm, square, error))
        return FALSE;
    }
  textile = odd_job_get_textile (*job, textile_id);
  hung = g_memdup2 (textile->hung, sizeof (OddHung) * textile->n_hung);
  for (guint i = 0; i < textile->n_hung; i++)
    hung[i].offset_mm = 0.0;
  level = odd_textile_with_panels (textile, hung, textile->n_hung, textile->joins);
  replace_job (job, odd_edit_with_textile (*job, level));
  return TRUE;
}

static OddTextile *
get_textile (OddJob  *job,
             OddId    id,
             GError **error)
{
  OddTextile *textile = odd_job_get_textile (job, id);

  if (textile == NULL)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no textile %u in this job"), id);
  return textile;
}

OddJob *
odd_job_trim_to_shortest (OddJob  *self,
                          OddId    textile_id,
                          GError **error)
{
  g_autoptr(OddJob) job = odd_job_ref (self);

  if (get_textile (self, textile_id, error) == NULL || !trim_textile (&job, textile_id, 0.0, 0.0, FALSE, error))
    return NULL;
  return g_steal_pointer (&job);
}

OddJob *
odd_job_accept_ease (OddJob  *self,
                     OddId    textile_id,
                     GError **error)
{
  OddTextile *textile = get_textile (self, textile_id, error);
  g_autoptr(OddTextileLayout) layout = NULL;
  g_autoptr(OddTextile) eased = NULL;
  g_autofree OddHung *hung = NULL;

  if (textile == NULL)
    return NULL;
  layout = odd_job_dup_textile_layout (self, textile_id);
  hung = g_memdup2 (textile->hung, sizeof (OddHung) * textile->n_hung);
  for (guint i = 0; i < textile->n_hung; i++)
    hung[i].ease_mm = layout->panels[i].trim_bottom_mm + layout->panels[i].eased_mm;
  eased = odd_textile_with_panels (textile, hung, textile->n_hung, textile->joins);
  return odd_edit_with_textile (self, eased);
}

/* --- keeping the measure --- */

static void
keep_measure (OddJob     **job,
              OddId        id,
              OddMeasure  *measure)
{
  OddTextile *textile = odd_job_get_textile (*job, id);
  OddPanel *panel = odd_job_get_panel (*job, id, NULL, NULL);
  g_autoptr(OddTextile) measured_textile = NULL;
  g_autoptr(OddPanel) measured_panel = NULL;

  if (textile != NULL)
    {
      measured_textile = odd_textile_with_measure (textile, measure);
      replace_job (job, odd_edit_with_textile (*job, measured_textile));
      return;
    }
  if (panel != NULL)
    measured_panel = odd_panel_with_measure (panel, measure);
  else
    {
      g_autoptr(OddNode) strip = NULL, root = NULL;

      panel = odd_job_find_panel_of (*job, id, NULL, NULL);
      strip = odd_node_with_measure (odd_node_find (panel->root, id), measure);
      root = odd_node_replace (panel->root, id, strip);
      measured_panel = odd_panel_with_root (panel, root);
    }
  replace_job (job, odd_edit_with_panel (*job, measured_panel));
}

/* --- measuring --- */

static gboolean
check_way (const OddMeasuredWay  *way,
           GError               **error)
{
  if (way->spread.n > 0 && way->n_seams == 0 && way->n_unsewn > 0)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                           _("None of the seams across this measure is marked sewn. Mark what is sewn first, then measure."));
      return FALSE;
    }
  if (!isnan (way->implied_mm) && !(way->implied_mm >= LEAST_SEWN_MM && way->implied_mm <= MOST_SEWN_MM))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                   ngettext ("This would make %u seam %.1f mm deep, which cannot be. Measure again, or look which patch was cut in another size.",
                             "This would make %u seams %.1f mm deep each, which cannot be. Measure again, or look which patch was cut in another size.",
                             way->n_seams), way->n_seams, way->implied_mm);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_measure (const OddMeasure   *measure,
               const OddMeasured  *measured,
               gboolean            sure,
               GError            **error)
{
  gboolean impossible = FALSE;
  g_autofree char *doubt = odd_measure_doubt (measure, measured, &impossible);

  if (doubt != NULL && (impossible || !sure))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, doubt);
      return FALSE;
    }
  return check_way (&measured->length, error) && check_way (&measured->width, error);
}

static void
put_shares (GHashTable  *table,
            GArray     *shares,
            double      deeper_mm)
{
  for (guint i = 0; i < shares->len; i++)
    {
      const OddCrossing *share = &g_array_index (shares, OddCrossing, i);

      if (!g_hash_table_contains (table, GUINT_TO_POINTER (share->seam_id)))
        sewn_table_put (table, share->seam_id, isnan (deeper_mm) ? 0.0 : share->planned_allowance_mm + deeper_mm, FALSE);
    }
}

/* What is to come off the part itself, as no seam takes a share; negative: what an earlier measure took too much. */
static double
way_off (const OddMeasuredWay *way,
         double                off_before_mm)
{
  if (way->n_seams > 0)
    return -off_before_mm;
  if (way->spread.n == 0)
    return 0.0;
  return MAX (way->now_mm - way->spread.mean_mm, -off_before_mm);
}

/* An empty measure gives back what the last one took. */
static void
way_offs (const OddMeasure  *measure,
          const OddMeasured *measured,
          const OddMeasure  *before,
          double             offs_mm[2])
{
  const double before_mm[2] = { before != NULL ? before->off_width_mm : 0.0, before != NULL ? before->off_length_mm : 0.0 };

  offs_mm[0] = odd_measure_is_empty (measure) ? -before_mm[0] : way_off (&measured->width, before_mm[0]);
  offs_mm[1] = odd_measure_is_empty (measure) ? -before_mm[1] : way_off (&measured->length, before_mm[1]);
}

static gboolean
take_off (OddJob       **job,
          OddId          id,
          const double   offs_mm[2],
          GError       **error)
{
  const double by_mm[4] = { offs_mm[1] / 2.0, offs_mm[0] / 2.0, offs_mm[1] / 2.0, offs_mm[0] / 2.0 };

  if (offs_mm[0] == 0.0 && offs_mm[1] == 0.0)
    return TRUE;
  if (odd_job_get_panel (*job, id, NULL, NULL) != NULL)
    return trim_panel (job, id, by_mm, FALSE, error);
  if (odd_job_get_textile (*job, id) != NULL)
    return trim_textile (job, id, offs_mm[0], offs_mm[1], FALSE, error);
  return TRUE;
}

OddJob *
odd_job_measure (OddJob            *self,
                 OddId              id,
                 const OddMeasure  *measure,
                 gboolean           sure,
                 GError           **error)
{
  const OddMeasure *before = odd_job_get_measure (self, id);
  const gboolean is_strip = odd_job_get_panel (self, id, NULL, NULL) == NULL && odd_job_get_textile (self, id) == NULL;
  g_autoptr(GHashTable) table = sewn_table_new ();
  g_autoptr(GArray) down = NULL, across = NULL;
  g_autoptr(OddMeasure) kept = NULL;
  OddMeasured measured;
  OddMeasure values = *measure;
  double offs_mm[2];
  g_autoptr(OddJob) job = NULL;

  if (!odd_job_evaluate_measure (self, id, measure, &measured, error) || !check_measure (measure, &measured, sure, error))
    return NULL;
  down = odd_job_find_shares (self, id, measure, FALSE);
  across = odd_job_find_shares (self, id, measure, TRUE);
  put_shares (table, down, measured.length.deeper_mm);
  put_shares (table, across, measured.width.deeper_mm);
  way_offs (measure, &measured, before, offs_mm);
  if (is_strip)
    offs_mm[0] = offs_mm[1] = 0.0;
  values.planned_width_mm = measured.width.planned_raw_mm;
  values.planned_length_mm = measured.length.planned_raw_mm;
  values.off_width_mm = (before != NULL ? before->off_width_mm : 0.0) + offs_mm[0];
  values.off_length_mm = (before != NULL ? before->off_length_mm : 0.0) + offs_mm[1];
  job = change_seams (self, table, error);
  if (job == NULL || !take_off (&job, id, offs_mm, error))
    return NULL;
  kept = odd_measure_is_empty (measure) ? NULL : odd_measure_new (&values);
  keep_measure (&job, id, kept);
  return g_steal_pointer (&job);
}

/* --- squaring up --- */

typedef struct { GHashTable *table; OddLayout *layout; } Squaring;

static gboolean
square_node (OddNode  *node,
             gpointer  data)
{
  Squaring *squaring = data;

  for (guint i = 0; i + 1 < node->n_parts; i++)
    {
      const OddLaidSeam *laid = odd_layout_find_seam (squaring->layout, node->seams[i].id);

      if (laid != NULL && odd_layout_seam_is_sewn (laid))
        sewn_table_put (squaring->table, node->seams[i].id, node->seams[i].sewn_mm, TRUE);
    }
  return TRUE;
}

static void
square_seams_of (OddJob    *job,
                 OddId      panel_id,
                 OddNode   *root,
                 GHashTable *table)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel_id);
  Squaring squaring = { table, layout };

  odd_node_foreach (root, square_node, &squaring);
}

/* All seams of the part that are sewn. */
static GHashTable *
find_squared (OddJob *job,
              OddId   id)
{
  GHashTable *table = sewn_table_new ();
  OddTextile *textile = odd_job_get_textile (job, id);
  OddPanel *panel = odd_job_get_panel (job, id, NULL, NULL);

  for (guint i = 0; textile != NULL && i < textile->n_hung; i++)
    {
      square_seams_of (job, textile->hung[i].panel->id, textile->hung[i].panel->root, table);
      if (i + 1 < textile->n_hung && odd_seam_is_touched (&textile->joins[i]))
        sewn_table_put (table, textile->joins[i].id, textile->joins[i].sewn_mm, TRUE);
    }
  if (panel != NULL)
    square_seams_of (job, id, panel->root, table);
  else if (textile == NULL)
    {
      panel = odd_job_find_panel_of (job, id, NULL, NULL);
      square_seams_of (job, panel->id, odd_node_find (panel->root, id), table);
    }
  return table;
}

/* A strip whose outer edges are sewn to its neighbours cannot be trimmed any more. */
static gboolean
strip_is_enclosed (OddJob   *job,
                   OddPanel *panel,
                   OddNode  *strip)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, panel->id);

  for (guint p = 0; p < layout->n_patches; p++)
    for (guint e = 0; odd_node_find (strip, layout->patches[p].leaf->id) != NULL && e < layout->patches[p].region->n; e++)
      {
        const int label = layout->patches[p].region->labels[e];

        if (label >= 0 && odd_node_find (strip, layout->seams[label].strip->id) == NULL && odd_layout_seam_is_sewn (&layout->seams[label]))
          return TRUE;
      }
  return FALSE;
}

static gboolean
check_may_square (OddJob  *self,
                  OddId    id,
                  GError **error)
{
  const OddMeasure *measure = odd_job_get_measure (self, id);
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_get_panel (self, id, &textile, &index);

  if (measure == NULL || odd_triple_of (measure->lengths_mm).n + odd_triple_of (measure->widths_mm).n == 0)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("Nothing is measured here yet. Measure a length or a width first, then square up."));
      return FALSE;
    }
  if (odd_job_get_textile (self, id) != NULL)
    return TRUE;
  if (panel == NULL && odd_edit_get_panel_of (self, id, error) == NULL)
    return FALSE;
  if (panel != NULL && odd_edit_get_panel (self, id, NULL, NULL, error) == NULL)
    return FALSE;
  if (panel != NULL && textile != NULL && ((index > 0 && odd_seam_is_touched (&textile->joins[index - 1])) ||
                                           (index + 1 < textile->n_hung && odd_seam_is_touched (&textile->joins[index]))))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("This panel is sewn to its neighbour. Square up the whole textile instead."));
      return FALSE;
    }
  panel = odd_job_find_panel_of (self, id, NULL, NULL);
  if (panel != NULL && panel->id != id && strip_is_enclosed (self, panel, odd_node_find (panel->root, id)))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("This strip is sewn to its neighbours. Square up the whole panel instead."));
      return FALSE;
    }
  return TRUE;
}

/* What is over the least in one direction. */
static double
way_surplus (const OddMeasuredWay *way)
{
  return way->spread.n > 0 ? MAX (way->now_mm - way->spread.least_mm, 0.0) : 0.0;
}

static gboolean
square_strip (OddJob       **job,
              OddId          id,
              const double   by_mm[4],
              GError       **error)
{
  OddTextile *textile = NULL;
  OddPanel *panel = odd_job_find_panel_of (*job, id, &textile, NULL);
  g_autoptr(OddLayout) layout = odd_layout_new_alone (*job, textile, panel);
  g_autoptr(OddPanel) trimmed = odd_panel_reassemble_trimmed (panel, layout, layout, id, by_mm);

  if (trimmed != NULL)
    return replace_job (job, odd_edit_with_panel (*job, trimmed)), TRUE;
  g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("Nothing would be left of this strip. Measure again."));
  return FALSE;
}

/* A panel with slanting ends is squared first; then what is over the least counts anew. */
static gboolean
square_panel (OddJob           **job,
              OddId              id,
              const OddMeasure  *measure,
              GError           **error)
{
  const double none[4] = { 0.0, 0.0, 0.0, 0.0 };
  OddMeasured measured;
  double across, down;

  if (!trim_panel (job, id, none, TRUE, error) || !odd_job_evaluate_measure (*job, id, measure, &measured, error))
    return FALSE;
  across = way_surplus (&measured.width) / 2.0;
  down = way_surplus (&measured.length) / 2.0;
  return trim_panel (job, id, (const double[4]) { down, across, down, across }, FALSE, error);
}

OddJob *
odd_job_square_up (OddJob  *self,
                   OddId    id,
                   GError **error)
{
  g_autoptr(OddJob) job = odd_job_ref (self);
  g_autoptr(GHashTable) table = NULL;
  g_autoptr(OddMeasure) kept = NULL;
  OddMeasured measured;
  OddMeasure values;
  gboolean ok;
  double across, down;

  if (!check_may_square (self, id, error))
    return NULL;
  values = *odd_job_get_measure (self, id);
  if (!odd_job_evaluate_measure (self, id, &values, &measured, error))
    return NULL;
  across = way_surplus (&measured.width);
  down = way_surplus (&measured.length);
  if (odd_job_get_panel (self, id, NULL, NULL) != NULL)
    ok = square_panel (&job, id, &values, error);
  else if (odd_job_get_textile (self, id) != NULL)
    ok = trim_textile (&job, id, across, down, TRUE, error);
  else
    ok = square_strip (&job, id, (const double[4]) { down / 2.0, across / 2.0, down / 2.0, across / 2.0 }, error);
  if (!ok)
    return NULL;
  table = find_squared (job, id);
  replace_job (&job, change_seams (job, table, NULL));
  values.off_width_mm = values.off_length_mm = 0.0;
  kept = odd_measure_new (&values);
  keep_measure (&job, id, kept);
  return g_steal_pointer (&job);
}
