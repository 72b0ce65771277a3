/* What was measured against what was planned.
 *
 *      +--|------|------|--+      A measure is a line through the part. Its plan is what the cut shapes (raw) or the regions (seam to seam)
 *      |  |      |      |  |      cover of that line, with every sewn seam put back to its planned allowance. It crosses n seams; a seam
 *      |--+------+------+--|      sewn d deeper takes 2 d of the line, so a loss shared equally means d = loss / 2n.
 *      |  |      |      |  |      A seam that leans takes 2 d / cos: it counts 1 / cos.
 *      +--|------|------|--+
 *        10 %   50 %   90 %
 *
 * Derived here; worked through in tests/cloth/test-measure.c.
 */
#include "config.h"

#include "cloth/measured.h"
#include "cloth/edit-private.h"

#include <glib/gi18n.h>

static const double line_at[3] = { 0.1, 0.5, 0.9 };

#define NUDGE_MM 1e-3           /* off seams and corners that lie exactly on a line */
#define LEAST_COSINE 0.5        /* a seam that a line hardly crosses tells nothing of its depth */
#define DOUBTFUL_TIMES 10.0

/* --- the body that is measured --- */

typedef struct
{
  OddTextileLayout *textile;    /* or NULL */
  OddLayout *layout;            /* or NULL */
  OddNode *strip;               /* only what lies in it; or NULL */
  OddBox box;                   /* finished: lines keep clear of the allowances at its edges */
  OddMeasure *before;           /* (transfer none): the last measure of it, or NULL */
} Body;

static void
body_clear (Body *body)
{
  g_clear_pointer (&body->textile, odd_textile_layout_unref);
  g_clear_pointer (&body->layout, odd_layout_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Body, body_clear)

static gboolean
is_joined (OddTextile *textile,
           guint       index)
{
  return textile != NULL && ((index > 0 && odd_seam_is_touched (&textile->joins[index - 1])) ||
                             (index + 1 < textile->n_hung && odd_seam_is_touched (&textile->joins[index])));
}

static guint
body_n_layouts (const Body *body)
{
  return body->textile != NULL ? body->textile->n_panels : 1;
}

static OddLayout *
body_layout (const Body *body,
             guint       i,
             OddPoint   *out_at)
{
  *out_at = body->textile != NULL ? body->textile->panels[i].at : odd_point (0.0, 0.0);
  return body->textile != NULL ? body->textile->panels[i].layout : body->layout;
}

static gboolean
body_has_leaf (const Body *body,
               OddId       leaf_id)
{
  return body->strip == NULL || odd_node_find (body->strip, leaf_id) != NULL;
}

static OddBox
body_box (const Body *body)
{
  OddBox box = ODD_BOX_EMPTY;

  for (guint i = 0; i < body_n_layouts (body); i++)
    {
      OddPoint at;
      const OddLayout *layout = body_layout (body, i, &at);

      for (guint p = 0; p < layout->n_patches; p++)
        if (body_has_leaf (body, layout->patches[p].leaf->id))
          {
            OddBox one = odd_convex_box (layout->patches[p].region);

            one.x += at.x;
            one.y += at.y;
            box = odd_box_union (box, one);
          }
    }
  return box;
}

static gboolean
body_init (Body    *body,
           OddJob  *job,
           OddId    id,
           GError **error)
{
  OddTextile *textile = odd_job_get_textile (job, id);
  guint index = 0;
  OddPanel *panel;

  *body = (Body) { .before = odd_job_get_measure (job, id) };
  if (textile != NULL)
    body->textile = odd_job_dup_textile_layout (job, id);
  else
    {
      panel = odd_job_get_panel (job, id, &textile, &index);
      if (panel == NULL)
        {
          panel = odd_job_find_panel_of (job, id, &textile, &index);
          body->strip = panel != NULL ? odd_node_find (panel->root, id) : NULL;
        }
      if (panel != NULL && (panel->id == id || (body->strip != NULL && body->strip->kind == ODD_NODE_STRIP)))
        body->layout = is_joined (textile, index) ? odd_job_dup_layout (job, panel->id) : odd_job_dup_layout_apart (job, panel->id);
    }
  if (body->textile == NULL && body->layout == NULL)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no strip, panel or textile %u in this job to measure"), id);
      return FALSE;
    }
  body->box = body_box (body);
  if (odd_box_is_empty (body->box))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("There is no cloth here to measure yet. Add a panel first."));
      body_clear (body);
      return FALSE;
    }
  return TRUE;
}

/* --- one line --- */

/* As a half-plane whose border is the line. */
static OddHalfPlane
make_line (const Body *body,
           gboolean    across,
           double      at)
{
  if (across)
    return (OddHalfPlane) { { 0.0, 1.0 }, body->box.y + at * body->box.height + NUDGE_MM };
  return (OddHalfPlane) { { 1.0, 0.0 }, body->box.x + at * body->box.width + NUDGE_MM };
}

static void
widen (double   at,
       double  *least,
       double  *most)
{
  *least = MIN (*least, at);
  *most = MAX (*most, at);
}

/* How much of the line lies in cloth, first edge to last. */
static double
line_extent (const Body   *body,
             gboolean      across,
             OddHalfPlane  line,
             gboolean      seam_to_seam)
{
  double least = G_MAXDOUBLE, most = -G_MAXDOUBLE;

  for (guint i = 0; i < body_n_layouts (body); i++)
    {
      OddPoint at;
      const OddLayout *layout = body_layout (body, i, &at);
      const OddHalfPlane own = odd_half_plane_shift (line, odd_point_scale (at, -1.0));
      const double by = across ? at.x : at.y;

      for (guint p = 0; p < layout->n_patches; p++)
        {
          const OddPatch *patch = &layout->patches[p];
          OddSegment chord;

          if (!body_has_leaf (body, patch->leaf->id) || !odd_convex_chord (seam_to_seam ? patch->region : patch->cut, own, &chord))
            continue;
          widen (by + (across ? chord.from.x : chord.from.y), &least, &most);
          widen (by + (across ? chord.to.x : chord.to.y), &least, &most);
        }
    }
  return MAX (most - least, 0.0);
}

static gboolean
progress_is_sewn (const OddSeam   *seam,
                  const OddFinish *finish)
{
  return odd_progress_get_state (seam->progress, odd_finish_first_sew (finish)) == ODD_STATE_DONE;
}

gboolean
odd_layout_seam_is_sewn (const OddLaidSeam *seam)
{
  return progress_is_sewn (seam->seam, seam->finish);
}

/* TRUE when the segment reaches from one side of the line to the other, steeply enough. */
static gboolean
crosses (OddSegment    segment,
         OddHalfPlane  line,
         double       *out_slant)
{
  const double from = odd_half_plane_distance (line, segment.from);
  const double to = odd_half_plane_distance (line, segment.to);
  const double length = odd_segment_length (segment);
  double cosine;

  if ((from < 0.0) == (to < 0.0) || length <= ODD_TOLERANCE_MM)
    return FALSE;
  cosine = fabs (to - from) / length;
  *out_slant = 1.0 / cosine;
  return cosine >= LEAST_COSINE;
}

static void
find_in_layout (const Body   *body,
                guint         i,
                OddHalfPlane  line,
                GArray       *crossings)
{
  OddPoint at;
  const OddLayout *layout = body_layout (body, i, &at);
  const OddHalfPlane own = odd_half_plane_shift (line, odd_point_scale (at, -1.0));

  for (guint s = 0; s < layout->n_seams; s++)
    {
      const OddLaidSeam *laid = &layout->seams[s];
      OddCrossing crossing = { laid->seam->id, laid->seam->squared, laid->allowance_mm, laid->planned_allowance_mm, 1.0, laid->finish->min_allowance_mm,
                               laid->raw_length_mm, odd_layout_seam_is_sewn (laid), laid->seam->sewn_mm > 0.0 || laid->seam->squared };

      if ((body->strip == NULL || odd_node_find (body->strip, laid->strip->id) != NULL) && crosses (laid->finished, own, &crossing.slant))
        g_array_append_val (crossings, crossing);
    }
}

static GArray *
find_crossings (const Body   *body,
                OddHalfPlane  line)
{
  GArray *crossings = g_array_new (FALSE, FALSE, sizeof (OddCrossing));

  for (guint i = 0; i < body_n_layouts (body); i++)
    find_in_layout (body, i, line, crossings);
  for (guint i = 0; body->textile != NULL && i < body->textile->n_joins; i++)
    {
      const OddLaidJoin *laid = &body->textile->joins[i];
      OddCrossing crossing = { laid->join->id, laid->join->squared, laid->allowance_mm, laid->planned_allowance_mm, 1.0, laid->finish->min_allowance_mm,
                               laid->raw_length_mm, progress_is_sewn (laid->join, laid->finish), laid->join->sewn_mm > 0.0 || laid->join->squared };

      if (crosses (laid->finished, line, &crossing.slant))
        g_array_append_val (crossings, crossing);
    }
  return crossings;
}

GArray *
odd_job_find_crossings (OddJob   *self,
                        OddId     id,
                        gboolean  across,
                        double    at)
{
  g_auto(Body) body = { NULL };

  if (!body_init (&body, self, id, NULL))
    return NULL;
  return find_crossings (&body, make_line (&body, across, at));
}

/* A seam that takes a share of a loss. */
static gboolean
takes_share (const OddCrossing *crossing)
{
  return crossing->sewn && !crossing->squared;
}

/* What the plan has more than what is known to be sewn, along the line. */
static double
sewn_deeper (GArray *crossings)
{
  double mm = 0.0;

  for (guint i = 0; i < crossings->len; i++)
    {
      const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i);

      if (!crossing->squared)
        mm += 2.0 * (crossing->allowance_mm - crossing->planned_allowance_mm) * crossing->slant;
    }
  return mm;
}

/* --- one direction --- */

typedef struct { double planned, raw, now, loss, slants, allowances; guint n_lines, n_shares, n_seams, n_unsewn; } Sums;

static void
add_line (const Body       *body,
          const OddMeasure *measure,
          gboolean          across,
          double            measured_mm,
          double            at,
          Sums             *sums)
{
  const OddHalfPlane line = make_line (body, across, at);
  g_autoptr(GArray) crossings = find_crossings (body, line);
  const double deeper = sewn_deeper (crossings);
  const double now = line_extent (body, across, line, measure->seam_to_seam);
  guint n_seams = 0, n_unsewn = 0;

  for (guint i = 0; i < crossings->len; i++)
    {
      const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i);

      n_unsewn += !crossing->sewn;
      if (!takes_share (crossing))
        continue;
      n_seams++;
      sums->slants += crossing->slant;
      sums->allowances += crossing->planned_allowance_mm;
    }
  sums->n_lines++;
  sums->n_shares += n_seams;
  sums->n_seams = MAX (sums->n_seams, n_seams);
  sums->n_unsewn = MAX (sums->n_unsewn, n_unsewn);
  sums->now += now;
  sums->planned += now + deeper;
  sums->raw += line_extent (body, across, line, FALSE) + deeper;
  sums->loss += now + deeper - measured_mm;     /* NAN where not measured */
}

static OddMeasuredWay
measure_way (const Body       *body,
             const OddMeasure *measure,
             gboolean          across)
{
  const double *values = across ? measure->widths_mm : measure->lengths_mm;
  OddMeasuredWay way = { .spread = odd_triple_of (values), .loss_mm = NAN, .deeper_mm = NAN, .allowance_mm = NAN, .implied_mm = NAN };
  const double off = body->before == NULL ? 0.0 : across ? body->before->off_width_mm : body->before->off_length_mm;
  Sums sums = { 0 };

  for (guint i = 0; i < 3; i++)
    if (way.spread.n == 0 || !isnan (values[i]))
      add_line (body, measure, across, values[i], line_at[i], &sums);
  way.planned_mm = sums.planned / sums.n_lines + off;
  way.planned_raw_mm = sums.raw / sums.n_lines + off;
  way.now_mm = sums.now / sums.n_lines;
  way.n_seams = sums.n_seams;
  way.n_unsewn = sums.n_unsewn;
  if (sums.n_shares > 0)
    way.allowance_mm = sums.allowances / sums.n_shares;
  if (way.spread.n == 0)
    return way;
  way.loss_mm = sums.loss / sums.n_lines + off;
  if (sums.n_shares == 0)
    return way;
  way.deeper_mm = sums.loss / (2.0 * sums.slants);
  way.implied_mm = way.allowance_mm + way.deeper_mm;
  return way;
}

static void
combine_ways (OddMeasured *measured)
{
  const OddMeasuredWay *ways[] = { &measured->length, &measured->width };
  double deeper = 0.0, allowance = 0.0;
  guint n = 0;

  measured->deeper_mm = measured->implied_mm = NAN;
  for (guint i = 0; i < 2; i++)
    if (!isnan (ways[i]->deeper_mm))
      {
        deeper += ways[i]->deeper_mm * ways[i]->n_seams;
        allowance += ways[i]->allowance_mm * ways[i]->n_seams;
        n += ways[i]->n_seams;
      }
  if (n == 0)
    return;
  measured->deeper_mm = deeper / n;
  measured->implied_mm = (allowance + deeper) / n;
}

static void
evaluate (const Body       *body,
          const OddMeasure *measure,
          OddMeasured      *out)
{
  out->length = measure_way (body, measure, FALSE);
  out->width = measure_way (body, measure, TRUE);
  out->out_of_square_mm = odd_out_of_square_mm (measure->diagonals_mm[0], measure->diagonals_mm[1],
                                                out->width.spread.n > 0 ? out->width.spread.mean_mm : out->width.planned_mm);
  combine_ways (out);
}

GArray *
odd_job_find_shares (OddJob           *self,
                     OddId             id,
                     const OddMeasure *measure,
                     gboolean          across)
{
  const double *values = across ? measure->widths_mm : measure->lengths_mm;
  const gboolean all = odd_measure_is_empty (measure);
  GArray *shares = g_array_new (FALSE, FALSE, sizeof (OddCrossing));
  g_auto(Body) body = { NULL };

  if (!body_init (&body, self, id, NULL))
    return shares;
  for (guint i = 0; i < 3; i++)
    if (all || !isnan (values[i]))
      {
        g_autoptr(GArray) crossings = find_crossings (&body, make_line (&body, across, line_at[i]));

        for (guint c = 0; c < crossings->len; c++)
          if (takes_share (&g_array_index (crossings, OddCrossing, c)))
            g_array_append_val (shares, g_array_index (crossings, OddCrossing, c));
      }
  return shares;
}

gboolean
odd_job_evaluate_measure (OddJob            *self,
                          OddId              id,
                          const OddMeasure  *measure,
                          OddMeasured       *out,
                          GError           **error)
{
  g_auto(Body) body = { NULL };

  if (!body_init (&body, self, id, error))
    return FALSE;
  evaluate (&body, measure, out);
  return TRUE;
}

/* --- doubts --- */

static char *
doubt_of (double    mm,
          double    planned_mm,
          gboolean *out_impossible)
{
  if (isnan (mm))
    return NULL;
  if (mm <= 0.0)
    {
      *out_impossible = TRUE;
      return g_strdup_printf (_("Is it really %.1f cm? What is sewn has some length; leave the field empty where you did not measure."), mm / 10.0);
    }
  if (mm >= DOUBTFUL_TIMES * planned_mm || mm <= planned_mm / DOUBTFUL_TIMES)
    return g_strdup_printf (_("Is it really %.1f cm? The plan says %.1f cm."), mm / 10.0, planned_mm / 10.0);
  return NULL;
}

char *
odd_measure_doubt (const OddMeasure  *measure,
                   const OddMeasured *measured,
                   gboolean          *out_impossible)
{
  const double diagonal = hypot (measured->width.planned_mm, measured->length.planned_mm);
  gboolean impossible = FALSE;
  char *doubtful = NULL;

  for (guint i = 0; i < 8 && !impossible; i++)
    {
      const double mm = i < 3 ? measure->lengths_mm[i] : i < 6 ? measure->widths_mm[i - 3] : measure->diagonals_mm[i - 6];
      const double planned = i < 3 ? measured->length.planned_mm : i < 6 ? measured->width.planned_mm : diagonal;
      char *doubt = doubt_of (mm, planned, &impossible);

      /* The impossible one is told before the doubtful one. */
      if (doubt != NULL && (doubtful == NULL || impossible))
        {
          g_free (doubtful);
          doubtful = doubt;
        }
      else
        g_free (doubt);
    }
  if (out_impossible != NULL)
    *out_impossible = impossible;
  return doubtful;
}

/* --- what the edits ask --- */

OddMeasure *
odd_job_get_measure (OddJob *self,
                     OddId   id)
{
  OddTextile *textile = odd_job_get_textile (self, id);
  OddPanel *panel = odd_job_get_panel (self, id, NULL, NULL);
  OddNode *node;

  if (textile != NULL)
    return textile->measure;
  if (panel != NULL)
    return panel->measure;
  panel = odd_job_find_panel_of (self, id, NULL, NULL);
  node = panel != NULL ? odd_node_find (panel->root, id) : NULL;
  return node != NULL ? node->measure : NULL;
}

static gboolean
node_is_planned (OddNode  *node,
                 gpointer  data)
{
  if (node->measure != NULL)
    return FALSE;
  for (guint i = 0; i + 1 < node->n_parts; i++)
    if (node->seams[i].sewn_mm > 0.0)
      return FALSE;
  return TRUE;
}

gboolean
odd_panel_is_as_sewn (const OddPanel *panel)
{
  return panel->measure != NULL || !odd_node_foreach (panel->root, node_is_planned, NULL);
}

gboolean
odd_textile_is_as_sewn (const OddTextile *textile)
{
  if (textile->measure != NULL)
    return TRUE;
  for (guint i = 0; i < textile->n_hung; i++)
    if (odd_panel_is_as_sewn (textile->hung[i].panel) || (i + 1 < textile->n_hung && textile->joins[i].sewn_mm > 0.0))
      return TRUE;
  return FALSE;
}

static double
planned_deeper (const Body *body,
                gboolean    across)
{
  g_autoptr(GArray) crossings = find_crossings (body, make_line (body, across, 0.5));

  return sewn_deeper (crossings);
}

void
odd_job_get_planned_raw (OddJob *self,
                         OddId   panel_id,
                         double *out_width_mm,
                         double *out_length_mm)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (self, panel_id);
  const Body body = { .layout = layout, .box = layout->box };
  const OddMeasure *measure = odd_job_get_measure (self, panel_id);

  *out_width_mm = layout->planned_raw_width_mm + planned_deeper (&body, TRUE) + (measure != NULL ? measure->off_width_mm : 0.0);
  *out_length_mm = layout->planned_raw_length_mm + planned_deeper (&body, FALSE) + (measure != NULL ? measure->off_length_mm : 0.0);
}
