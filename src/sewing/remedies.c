/* Short panels.
 *
 *      wanted  - - - - +---+ - - +---+ - - gap     trim       the others down to the shortest
 *      shortest +---+  |   |     |   |             ease       as trim, but the cloth is held in and not cut
 *               |   |  |   |     |   |             patch      raw L - a + (cut - a) = L + gap, hence cut = gap + 2a
 *               |   |  |   |     |   |             seams      n seams at a': cut sum C = L + 2 n a (other seams as they are),
 *                                                            C - 2 n a' = need, hence a' = (C - need) / 2n
 *
 * Wanted is the next longer length there is: one short panel among long ones is the common case. Where the short panels have no seam left to sew
 * narrower, the longer ones may be sewn deeper, down to the shortest. Derived here; worked through in tests/sewing/test-remedies.c.
 */
#include "config.h"

#include "sewing/remedies.h"

#include "cloth/edit.h"
#include "cloth/length.h"

#include <glib/gi18n.h>

#define EQUAL_MM 0.5                 /* nobody sees it, nobody cuts it */

/* Minutes: our own estimates for a steady hand, no source; they are there to compare remedies, not to bill by. */
#define CUT_MINUTES 2.0              /* measure, rule and cut one end */
#define PIN_MINUTES 3.0              /* spread and pin one join with ease */
#define PATCH_MINUTES 4.0            /* choose and cut a patch */
#define SEAM_MINUTES 2.0             /* pin, sew, finish and press, beside its length */
#define SEAM_MINUTES_PER_M 3.0
#define REMARK_MINUTES 0.5           /* set another guide or mark another line for a seam */

void
odd_unequal_free (OddUnequal *self)
{
  g_array_unref (self->short_panels);
  for (guint i = 0; i < ODD_N_REMEDIES; i++)
    g_free (self->remedies[i].text);
  g_free (self);
}

const char *
odd_remedy_kind_get_name (OddRemedyKind kind)
{
  switch (kind)
    {
    case ODD_REMEDY_TRIM: return _("Trim to the shortest");
    case ODD_REMEDY_EASE: return _("Ease the longer ones in");
    case ODD_REMEDY_PATCH: return _("Add a patch");
    default: return _("Sew seams at another depth");
    }
}

static double
hung_length (const OddTextileLayout *layout,
             guint                   i)
{
  const OddHungLayout *hung = &layout->panels[i];

  return layout->raw_length_mm + hung->trim_top_mm + hung->trim_bottom_mm + hung->eased_mm;
}

/* --- trim, ease --- */

static void
price_trim (OddUnequal             *self,
            const OddTextileLayout *layout,
            OddUnit                 unit)
{
  OddRemedy *remedy = &self->remedies[ODD_REMEDY_TRIM];
  g_autofree char *length = odd_length_format (self->shortest_mm, unit);
  guint n = 0;

  for (guint i = 0; i < layout->n_panels; i++)
    {
      const double over = hung_length (layout, i) - self->shortest_mm;

      remedy->cloth_mm2 += over * layout->panels[i].layout->raw_box.width;
      n += over > ODD_TOLERANCE_MM;
    }
  remedy->minutes = n * CUT_MINUTES;
  remedy->possible = TRUE;
  remedy->text = g_strdup_printf (ngettext ("Cuts %u panel down to %s, raw.", "Cuts %u panels down to %s, raw.", n), n, length);
}

static gboolean
any_joined (const OddTextile *textile)
{
  for (guint i = 0; i + 1 < textile->n_hung; i++)
    if (odd_seam_is_touched (&textile->joins[i]))
      return TRUE;
  return FALSE;
}

static void
price_ease (OddUnequal             *self,
            OddJob                 *job,
            const OddTextileLayout *layout,
            OddUnit                 unit)
{
  OddRemedy *remedy = &self->remedies[ODD_REMEDY_EASE];
  g_autofree char *over = odd_length_format (self->longest_mm - self->shortest_mm, unit);

  remedy->ease_percent = 100.0 * (self->longest_mm - self->shortest_mm) / self->shortest_mm;
  remedy->minutes = layout->n_joins * PIN_MINUTES;
  if (any_joined (layout->textile))
    remedy->text = g_strdup (_("Panels are already sewn together: there is nothing left to ease them into."));
  else if (remedy->ease_percent > job->settings.ease_percent)
    remedy->text = g_strdup_printf (_("%s is %.1f %% of the length; more than %.1f %% puckers."), over, remedy->ease_percent, job->settings.ease_percent);
  else
    {
      remedy->possible = TRUE;
      remedy->text = g_strdup_printf (_("Holds %s in, %.1f %% of the length."), over, remedy->ease_percent);
    }
}

/* --- patch --- */

typedef struct { guint edge; OddHalfPlane plane; double edge_allowance_mm, seam_allowance_mm; } End;

static OddPanel *
get_hung (OddJob   *job,
          OddId     panel_id,
          gboolean *out_joined,
          gboolean *out_half_turn)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_get_panel (job, panel_id, &textile, &index);

  *out_joined = (index > 0 && odd_seam_is_touched (&textile->joins[index - 1])) ||
                (index + 1 < textile->n_hung && odd_seam_is_touched (&textile->joins[index]));
  *out_half_turn = textile->hung[index].half_turn;
  return panel;
}

/* The end that hangs at the bottom. */
static gboolean
find_end (OddJob *job,
          OddId   panel_id,
          End    *out)
{
  gboolean joined, half_turn;
  OddTextile *textile = NULL;
  OddPanel *panel = get_hung (job, panel_id, &joined, &half_turn);
  const int edge = odd_panel_side_edge (panel, half_turn ? 0 : 2);
  const OddTreatment *levels[3];

  if (joined || edge < 0)
    return FALSE;
  odd_job_get_panel (job, panel_id, &textile, NULL);
  levels[0] = &textile->treatment;
  levels[1] = &panel->treatment;
  levels[2] = &panel->edges[edge].treatment;
  out->edge = edge;
  out->plane = odd_convex_edge_half_plane (panel->outline, edge);
  odd_job_resolve (job, levels, 2, NULL, &out->seam_allowance_mm);
  odd_job_resolve (job, levels, 3, NULL, &out->edge_allowance_mm);
  return TRUE;
}

static void
price_patch (OddUnequal *self,
             OddJob     *job,
             OddUnit     unit)
{
  OddRemedy *remedy = &self->remedies[ODD_REMEDY_PATCH];
  g_autofree char *height = NULL;

  remedy->possible = TRUE;
  for (guint i = 0; i < self->short_panels->len; i++)
    {
      const OddId id = g_array_index (self->short_panels, OddId, i);
      g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, id);
      End end = { 0 };

      if (!find_end (job, id, &end))
        {
          g_autofree char *name = odd_job_dup_panel_name (job, odd_job_get_panel (job, id, NULL, NULL));

          remedy->possible = FALSE;
          remedy->text = g_strdup_printf (_("%s is already sewn to its neighbour; unpick that join first."), name);
          return;
        }
      if (i == 0)
        remedy->cut_height_mm = self->gap_mm + end.seam_allowance_mm + end.seam_allowance_mm;
      remedy->cloth_mm2 += layout->raw_box.width * (self->gap_mm + 2.0 * end.seam_allowance_mm);
      remedy->minutes += PATCH_MINUTES + SEAM_MINUTES + SEAM_MINUTES_PER_M * layout->raw_box.width / 1000.0;
    }
  height = odd_length_format (remedy->cut_height_mm, unit);
  remedy->text = g_strdup_printf (ngettext ("Sews a patch, cut %2$s high, to the lower end of %1$u panel.",
                                            "Sews patches, cut %2$s high, to the lower ends of %1$u panels.", self->short_panels->len),
                                  self->short_panels->len, height);
}

static OddJob *
add_patch (OddJob  *job,
           OddId    panel_id,
           double   gap_mm,
           GError **error)
{
  g_autoptr(OddNode) leaf = odd_node_new_bare (job->next_id);
  OddExtension extension = { .part = leaf, .next_id = job->next_id + 1 };
  End end;

  if (!find_end (job, panel_id, &end))
    g_return_val_if_reached (NULL);
  extension.edge = end.edge;
  extension.seam = odd_half_plane_push (end.plane, end.edge_allowance_mm - end.seam_allowance_mm);
  extension.outer = odd_half_plane_push (end.plane, gap_mm);
  return odd_job_extend_panel (job, panel_id, &extension, error);
}

/* --- seams --- */

typedef struct { guint n; double sum_mm, narrowest_mm, deepest_mm; } Unsewn;

static Unsewn
count_unsewn (OddJob *job,
              OddId   panel_id)
{
  g_autoptr(GArray) crossings = odd_job_find_crossings (job, panel_id, FALSE, 0.5);
  Unsewn unsewn = { 0 };

  for (guint i = 0; crossings != NULL && i < crossings->len; i++)
    {
      const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i);

      if (crossing->sewn)
        continue;
      unsewn.n++;
      unsewn.sum_mm += crossing->allowance_mm;
      unsewn.narrowest_mm = MAX (unsewn.narrowest_mm, crossing->min_allowance_mm);
      unsewn.deepest_mm = MAX (unsewn.deepest_mm, 2.0 * crossing->allowance_mm);
    }
  return unsewn;
}

/* a' = (cut sum - need) / 2n; FALSE when there is no seam, or none can be sewn like that. */
static gboolean
depth_for (OddJob *job,
           OddId   panel_id,
           double  length_mm,
           double  need_mm,
           guint  *out_n,
           double *out_mm)
{
  const Unsewn unsewn = count_unsewn (job, panel_id);

  *out_n = unsewn.n;
  if (unsewn.n == 0)
    return FALSE;
  *out_mm = (length_mm + 2.0 * unsewn.sum_mm - need_mm) / (2.0 * unsewn.n);
  return *out_mm >= unsewn.narrowest_mm && *out_mm <= unsewn.deepest_mm;
}

typedef gboolean (*PanelFunc) (OddId panel_id, double depth_mm, gpointer data);

/* Every panel that is to change, with its new depth; FALSE when one cannot, or @func says so. @narrower: the short ones up, else the longer ones down. */
static gboolean
foreach_depth (OddJob                 *job,
               const OddTextileLayout *layout,
               const OddUnequal       *self,
               gboolean                narrower,
               OddRemedy              *out,
               PanelFunc               func,
               gpointer                data)
{
  const double need_mm = narrower ? self->wanted_mm : self->shortest_mm;

  for (guint i = 0; i < layout->n_panels; i++)
    {
      const double length_mm = hung_length (layout, i);
      guint n = 0;
      double depth_mm = 0.0;

      if (narrower ? length_mm > self->wanted_mm - EQUAL_MM : length_mm <= self->shortest_mm + EQUAL_MM)
        continue;
      if (!depth_for (job, layout->panels[i].panel_id, length_mm, need_mm, &n, &depth_mm))
        return FALSE;
      if (out != NULL && out->n_seams == 0)
        {
          out->n_seams = n;
          out->allowance_mm = depth_mm;
        }
      if (out != NULL)
        out->minutes += n * REMARK_MINUTES;
      if (func != NULL && !func (layout->panels[i].panel_id, depth_mm, data))
        return FALSE;
    }
  return TRUE;
}

static void
price_seams (OddUnequal             *self,
             OddJob                 *job,
             const OddTextileLayout *layout,
             OddUnit                 unit)
{
  OddRemedy *remedy = &self->remedies[ODD_REMEDY_SEAMS];
  gboolean narrower = TRUE;
  g_autofree char *depth = NULL;

  remedy->possible = foreach_depth (job, layout, self, TRUE, remedy, NULL, NULL);
  if (!remedy->possible)
    {
      narrower = FALSE;
      *remedy = (OddRemedy) { 0 };
      remedy->possible = foreach_depth (job, layout, self, FALSE, remedy, NULL, NULL);
    }
  if (!remedy->possible)
    {
      *remedy = (OddRemedy) { .text = g_strdup (_("Too few seams across are left to sew. Unpick some of the short panel to sew them narrower.")) };
      return;
    }
  depth = odd_length_format (remedy->allowance_mm, ODD_UNIT_MM);
  remedy->text = narrower ? g_strdup_printf (ngettext ("Sews %u seam of the short panel narrower, at %s.", "Sews %u seams of the short panel narrower, at %s.", remedy->n_seams),
                                             remedy->n_seams, depth)
                          : g_strdup_printf (ngettext ("Sews the longer panels deeper: %u seam at %s.", "Sews the longer panels deeper: %u seams each at %s.", remedy->n_seams),
                                             remedy->n_seams, depth);
}

typedef struct { OddJob *job; GError **error; } Sewing;

static gboolean
set_depth (OddId    panel_id,
           double   depth_mm,
           gpointer data)
{
  Sewing *sewing = data;
  g_autoptr(GArray) crossings = odd_job_find_crossings (sewing->job, panel_id, FALSE, 0.5);

  for (guint i = 0; i < crossings->len; i++)
    {
      const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i);
      const OddTreatment treatment = { 0, depth_mm };
      OddJob *next;

      if (crossing->sewn)
        continue;
      next = odd_job_set_treatment (sewing->job, ODD_LEVEL_SEAM, crossing->seam_id, 0, &treatment, TRUE, sewing->error);
      if (next == NULL)
        return FALSE;
      odd_job_unref (sewing->job);
      sewing->job = next;
    }
  return TRUE;
}

static OddJob *
resew (OddJob                 *job,
       const OddTextileLayout *layout,
       const OddUnequal       *self,
       GError                **error)
{
  const gboolean narrower = foreach_depth (job, layout, self, TRUE, NULL, NULL, NULL);
  Sewing sewing = { odd_job_ref (job), error };

  if (foreach_depth (job, layout, self, narrower, NULL, set_depth, &sewing))
    return sewing.job;
  odd_job_unref (sewing.job);
  return NULL;
}

/* --- all of it --- */

static void
find_lengths (OddUnequal             *self,
              const OddTextileLayout *layout)
{
  self->shortest_mm = G_MAXDOUBLE;
  self->wanted_mm = G_MAXDOUBLE;
  for (guint i = 0; i < layout->n_panels; i++)
    {
      self->shortest_mm = MIN (self->shortest_mm, hung_length (layout, i));
      self->longest_mm = MAX (self->longest_mm, hung_length (layout, i));
    }
  for (guint i = 0; i < layout->n_panels; i++)
    if (hung_length (layout, i) > self->shortest_mm + EQUAL_MM)
      self->wanted_mm = MIN (self->wanted_mm, hung_length (layout, i));
  for (guint i = 0; i < layout->n_panels; i++)
    if (hung_length (layout, i) <= self->shortest_mm + EQUAL_MM)
      g_array_append_val (self->short_panels, layout->panels[i].panel_id);
  self->gap_mm = self->wanted_mm - self->shortest_mm;
}

OddUnequal *
odd_job_find_unequal (OddJob *self,
                      OddId   textile_id,
                      int     unit)
{
  g_autoptr(OddTextileLayout) layout = NULL;
  g_autoptr(OddUnequal) unequal = NULL;

  g_return_val_if_fail (odd_job_get_textile (self, textile_id) != NULL, NULL);

  layout = odd_job_dup_textile_layout (self, textile_id);
  if (layout->n_panels < 2 || layout->finished_length_mm <= 0.0)
    return NULL;
  unequal = g_new0 (OddUnequal, 1);
  unequal->textile_id = textile_id;
  unequal->short_panels = g_array_new (FALSE, FALSE, sizeof (OddId));
  find_lengths (unequal, layout);
  if (unequal->longest_mm <= unequal->shortest_mm + EQUAL_MM)
    return NULL;
  price_trim (unequal, layout, unit);
  price_ease (unequal, self, layout, unit);
  price_patch (unequal, self, unit);
  price_seams (unequal, self, layout, unit);
  return g_steal_pointer (&unequal);
}

OddJob *
odd_job_remedy (OddJob         *self,
                OddId           textile_id,
                OddRemedyKind   kind,
                GError        **error)
{
  g_autoptr(OddUnequal) unequal = odd_job_find_unequal (self, textile_id, ODD_UNIT_CM);
  g_autoptr(OddTextileLayout) layout = odd_job_dup_textile_layout (self, textile_id);
  g_autoptr(OddJob) job = odd_job_ref (self);

  if (unequal == NULL || !unequal->remedies[kind].possible)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                           unequal != NULL ? unequal->remedies[kind].text : _("The panels are equally long already."));
      return NULL;
    }
  if (kind == ODD_REMEDY_TRIM)
    return odd_job_trim_to_shortest (self, textile_id, error);
  if (kind == ODD_REMEDY_EASE)
    return odd_job_accept_ease (self, textile_id, error);
  if (kind == ODD_REMEDY_SEAMS)
    return resew (self, layout, unequal, error);
  for (guint i = 0; i < unequal->short_panels->len; i++)
    {
      OddJob *next = add_patch (job, g_array_index (unequal->short_panels, OddId, i), unequal->gap_mm, error);

      if (next == NULL)
        return NULL;
      odd_job_unref (job);
      job = next;
    }
  return g_steal_pointer (&job);
}
