#include "config.h"

#include "sewing/bulk-private.h"

#include <glib/gi18n.h>

#define MEET_MM 1.0

/* --- layers --- */

/* Layers of a seam's allowances that lie on one side of it: of the part there, of the other part, and what is neither (binding). */
typedef struct { guint near, far, flat; } Lie;

static Lie
lie_on (const OddFinish *finish,
        OddPressed       pressed,
        guint            side)
{
  const guint all = finish->plies[0] + finish->plies[1];

  if (pressed == ODD_PRESSED_OPEN)
    return (Lie) { 1, 0, MAX (finish->plies[side], 1) - 1 };
  if ((pressed == ODD_PRESSED_TO_SECOND) != (side == 1))
    return (Lie) { 0, 0, 0 };
  if (finish->may_open)
    return (Lie) { 1, 1, MAX (all, 2) - 2 };
  return (Lie) { (all + 1) / 2, all / 2, 0 };
}

guint
odd_finish_count_plies (const OddFinish *finish,
                        OddPressed       pressed,
                        guint            side)
{
  Lie lie;

  g_return_val_if_fail (finish != NULL && side < 2, 0);

  lie = lie_on (finish, odd_pressed_resolve (pressed, finish), side);
  return 1 + lie.near + lie.far + lie.flat;
}

guint
odd_crossing_count_plies (const OddFinish *over,
                          OddPressed       pressed,
                          const guint      part[2])
{
  guint most = 0;

  g_return_val_if_fail (over != NULL, 0);

  pressed = odd_pressed_resolve (pressed, over);
  for (guint side = 0; side < 2; side++)
    {
      const Lie lie = lie_on (over, pressed, side);

      most = MAX (most, part[side] * (1 + lie.near) + part[1 - side] * lie.far + lie.flat);
    }
  return most;
}

double
odd_meeting_offset (double allowance_mm,
                    double angle_deg)
{
  const double tilt = fabs (90.0 - angle_deg) * G_PI / 180.0;

  return tilt < 1e-9 ? 0.0 : 2.0 * allowance_mm * tan (tilt);
}

/* --- the seams as lines, and what ends on them --- */

static void
clear_line (gpointer data)
{
  g_array_unref (((OddBulkLine *) data)->feet);
}

static gboolean
is_pressed (const OddSeam   *seam,
            const OddFinish *finish)
{
  for (guint i = finish->n_operations; i-- > 0; )
    if (finish->operations[i].kind == ODD_OPERATION_PRESS)
      return odd_progress_get_state (seam->progress, i) == ODD_STATE_DONE;
  return FALSE;
}

static guint
add_line (OddWeb          *web,
          OddId            textile_id,
          OddId            panel_id,
          const OddSeam   *seam,
          const OddFinish *finish,
          OddSegment       at,
          OddPoint         normal,
          gboolean         also_set)
{
  const double length = odd_segment_length (at);
  OddBulkLine line = { .id = seam->id, .panel_id = panel_id, .textile_id = textile_id, .from = at.from, .normal = normal, .finish = finish,
                .pressed = odd_pressed_resolve (seam->pressed_to, finish), .may_open = finish->may_open, .darker = -1, .ends = { -1, -1 } };

  line.along = length > 0.0 ? odd_point_scale (odd_point_sub (at.to, at.from), 1.0 / length) : odd_point (1, 0);
  line.middle = odd_point_lerp (at.from, at.to, 0.5);
  line.free = (also_set || seam->pressed_to == ODD_PRESSED_BY_RULE) && !is_pressed (seam, finish);
  line.feet = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (web->lines, line);
  return web->lines->len - 1;
}

/* Mean L* of the patches of one part that touch the seam, NAN when none is known. */
static double
get_lightness (const OddLayout *layout,
               guint            first,
               guint            n,
               int              label)
{
  double sum = 0.0, weight = 0.0;

  for (guint i = first; i < first + n; i++)
    for (guint e = 0; e < layout->patches[i].region->n; e++)
      if (layout->patches[i].region->labels[e] == label && layout->patches[i].fabric != NULL)
        {
          const double length = odd_segment_length (odd_convex_edge (layout->patches[i].region, e));

          sum += length * odd_fabric_get_lightness (layout->patches[i].fabric);
          weight += length;
        }
  return weight > 0.0 ? sum / weight : NAN;
}

static int
find_darker (double first,
             double second)
{
  return isnan (first) || isnan (second) || fabs (first - second) < 1e-9 ? -1 : second < first;
}

/* Mean thickness of the cloth that meets a seam's end; NAN: unknown. */
static double
get_thickness (const OddLayout   *layout,
               const OddLaidSeam *laid,
               OddPoint           at)
{
  const guint last = MAX (laid->first_patch + laid->n_first, laid->second_patch + laid->n_second);
  double sum = 0.0;
  guint n = 0;

  for (guint i = MIN (laid->first_patch, laid->second_patch); i < last; i++)
    if (layout->patches[i].fabric != NULL && layout->patches[i].fabric->thickness_mm > 0.0 &&
        odd_convex_contains (layout->patches[i].region, at, 0.01))
      {
        sum += layout->patches[i].fabric->thickness_mm;
        n++;
      }
  return n > 0 ? sum / n : NAN;
}

/* Puts @foot down where it ends, together with one that meets it from the other side. */
static void
add_foot (OddWeb            *web,
          guint              on,
          const OddBulkFoot *foot,
          guint              end,
          OddPoint           end_at,
          double             thickness_mm)
{
  OddBulkLine *line = odd_web_get_line (web, on);
  OddBulkCross cross = { .line = on, .feet = { *foot }, .n_feet = 1, .thickness_mm = thickness_mm };

  cross.end_panel_id = odd_web_get_line (web, foot->line)->panel_id;
  cross.end_at = end_at;
  for (guint i = 0; i < line->feet->len; i++)
    {
      const guint index = g_array_index (line->feet, guint, i);
      OddBulkCross *other = &g_array_index (web->crosses, OddBulkCross, index);

      if (other->n_feet == 2 || other->feet[0].side == foot->side || fabs (other->feet[0].at - foot->at) > MEET_MM)
        continue;
      other->feet[other->n_feet++] = *foot;
      if (!isnan (thickness_mm))
        other->thickness_mm = isnan (other->thickness_mm) ? thickness_mm : (other->thickness_mm + thickness_mm) / 2;
      odd_web_get_line (web, foot->line)->ends[end] = index;
      return;
    }
  g_array_append_val (line->feet, web->crosses->len);
  odd_web_get_line (web, foot->line)->ends[end] = web->crosses->len;
  g_array_append_val (web->crosses, cross);
}

/* @shift: from the frame of the seam that ends there to that of the line. */
static void
add_end (OddWeb            *web,
         const OddLayout   *layout,
         const OddLaidSeam *laid,
         guint              line,
         guint              end,
         guint              on,
         OddPoint           shift)
{
  const OddPoint at = end == 0 ? laid->finished.from : laid->finished.to;
  const OddPoint far = odd_point_add (end == 0 ? laid->finished.to : laid->finished.from, shift);
  const OddBulkLine *over = odd_web_get_line (web, on);
  const OddPoint rel = odd_point_sub (odd_point_add (at, shift), over->from);
  const double sine = fabs (sin (laid->ends[end].angle_deg * G_PI / 180.0));
  const OddBulkFoot foot = {
    .line = line,
    .side = odd_point_dot (odd_point_sub (far, over->from), over->normal) > 0.0,
    .at = odd_point_dot (rel, over->along),
    .first_is_high = odd_point_dot (laid->line.normal, over->along) < 0.0,
    .width = laid->finish->width_kept_mm / MAX (sine, 0.05),
  };

  add_foot (web, on, &foot, end, at, get_thickness (layout, laid, at));
}

/* Which row of the strip around it each strip is, or which panel of the textile: seams of neighbours then lie alternately. */
static guint
find_row (const OddLayout *layout,
          guint            index,
          guint            place)
{
  const OddLaidSeam *laid = &layout->seams[index];
  const gboolean across = laid->ends[0].label < 0 && laid->ends[1].label < 0;
  guint row = across ? place : 0;

  for (guint e = 0; e < 2; e++)
    if (laid->ends[e].label >= 0)
      {
        const OddLaidSeam *over = &layout->seams[laid->ends[e].label];
        const gboolean beyond = odd_half_plane_distance (over->line, odd_point_lerp (laid->finished.from, laid->finished.to, 0.5)) > 0.0;

        row = MAX (row, over->index + (beyond ? 1 : 0));
      }
  return row;
}

/* Lines of a panel's seams, in the layout's order. */
static guint
add_panel_lines (OddWeb          *web,
                 const OddLayout *layout,
                 OddId            textile_id,
                 OddId            panel_id,
                 guint            place,
                 gboolean         also_set)
{
  const guint first = web->lines->len;

  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *laid = &layout->seams[i];
      OddBulkLine *line = odd_web_get_line (web, add_line (web, textile_id, panel_id, laid->seam, laid->finish, laid->finished, laid->line.normal, also_set));

      line->row = find_row (layout, i, place);
      line->darker = find_darker (get_lightness (layout, laid->first_patch, laid->n_first, i), get_lightness (layout, laid->second_patch, laid->n_second, i));
    }
  return first;
}

static void
add_panel_ends (OddWeb          *web,
                const OddLayout *layout,
                guint            first)
{
  for (guint i = 0; i < layout->n_seams; i++)
    for (guint e = 0; e < 2; e++)
      if (layout->seams[i].raw_length_mm > 0.0 && layout->seams[i].ends[e].label >= 0)
        add_end (web, layout, &layout->seams[i], first + i, e, first + layout->seams[i].ends[e].label, odd_point (0, 0));
}

static void
add_joined_ends (OddWeb              *web,
                 const OddHungLayout *hung,
                 guint                first,
                 guint                first_join,
                 guint                n_joins)
{
  const OddLayout *layout = hung->layout;

  for (guint i = 0; i < layout->n_seams; i++)
    for (guint e = 0; e < 2; e++)
      for (guint j = first_join; layout->seams[i].ends[e].by != 0 && layout->seams[i].ends[e].label < 0 && j < first_join + n_joins; j++)
        if (odd_web_get_line (web, j)->id == layout->seams[i].ends[e].by)
          add_end (web, layout, &layout->seams[i], first + i, e, j, hung->at);
}

static void
add_textile (OddWeb     *web,
             OddTextile *textile,
             gboolean    also_set)
{
  OddTextileLayout *layout = odd_job_dup_textile_layout (web->job, textile->id);
  g_autofree guint *firsts = g_new (guint, layout->n_panels + 1);
  guint first_join;

  g_ptr_array_add (web->textiles, layout);
  for (guint i = 0; i < layout->n_panels; i++)
    firsts[i] = add_panel_lines (web, layout->panels[i].layout, textile->id, layout->panels[i].panel_id, i, also_set);
  first_join = web->lines->len;
  for (guint i = 0; i < layout->n_joins; i++)
    odd_web_get_line (web, add_line (web, textile->id, 0, layout->joins[i].join, layout->joins[i].finish, layout->joins[i].finished, odd_point (1, 0), also_set))->row = i;
  for (guint i = 0; i < layout->n_panels; i++)
    {
      add_panel_ends (web, layout->panels[i].layout, firsts[i]);
      add_joined_ends (web, &layout->panels[i], firsts[i], first_join, layout->n_joins);
    }
}

static void
add_loose (OddWeb   *web,
           OddPanel *panel,
           gboolean  also_set)
{
  OddLayout *layout = odd_job_dup_layout (web->job, panel->id);

  g_ptr_array_add (web->layouts, layout);
  add_panel_ends (web, layout, add_panel_lines (web, layout, 0, panel->id, 0, also_set));
}

OddWeb *
odd_web_new (OddJob   *job,
             OddId     textile_id,
             gboolean  also_set)
{
  OddWeb *web = g_new0 (OddWeb, 1);

  web->job = job;
  web->layouts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_layout_unref);
  web->textiles = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_textile_layout_unref);
  web->lines = g_array_new (FALSE, TRUE, sizeof (OddBulkLine));
  web->crosses = g_array_new (FALSE, TRUE, sizeof (OddBulkCross));
  g_array_set_clear_func (web->lines, clear_line);
  for (guint i = 0; i < job->textiles->len; i++)
    if (textile_id == 0 || ((OddTextile *) job->textiles->pdata[i])->id == textile_id)
      add_textile (web, job->textiles->pdata[i], also_set);
  for (guint i = 0; i < job->loose_panels->len; i++)
    if (textile_id == 0 || ((OddPanel *) job->loose_panels->pdata[i])->id == textile_id)
      add_loose (web, job->loose_panels->pdata[i], also_set);
  return web;
}

void
odd_web_free (OddWeb *web)
{
  g_ptr_array_unref (web->layouts);
  g_ptr_array_unref (web->textiles);
  g_array_unref (web->lines);
  g_array_unref (web->crosses);
  g_free (web);
}
/* --- counting --- */

/* Layers of the part on @side at a place @at, which is no end of an allowance. */
static guint
count_part (OddWeb             *web,
            const OddBulkCross *cross,
            guint               side,
            double              at)
{
  guint plies = 1;

  for (guint i = 0; i < cross->n_feet; i++)
    {
      const OddBulkFoot *foot = &cross->feet[i];
      const OddBulkLine *line = odd_web_get_line (web, foot->line);
      const gboolean high = at > foot->at;

      if (foot->side == side && fabs (at - foot->at) <= foot->width)
        plies += odd_finish_count_plies (line->finish, line->pressed, high == foot->first_is_high ? 0 : 1) - 1;
    }
  return plies;
}

static int
compare_doubles (gconstpointer a,
                 gconstpointer b)
{
  const double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* The most on either side of the crossed seam, between all places where an allowance begins or ends. */
guint
odd_web_count (OddWeb             *web,
               const OddBulkCross *cross)
{
  const OddBulkLine *over = odd_web_get_line (web, cross->line);
  double ends[6];
  guint n = 0, most = 0;

  for (guint i = 0; i < cross->n_feet; i++)
    {
      ends[n++] = cross->feet[i].at - cross->feet[i].width;
      ends[n++] = cross->feet[i].at;
      ends[n++] = cross->feet[i].at + cross->feet[i].width;
    }
  qsort (ends, n, sizeof ends[0], compare_doubles);
  for (guint i = 0; i + 1 < n; i++)
    /* two seams that meet, but for a hair, leave no room for layers between them */
    if (ends[i + 1] - ends[i] > MEET_MM)
      {
        const double at = (ends[i] + ends[i + 1]) / 2;
        const guint part[2] = { count_part (web, cross, 0, at), count_part (web, cross, 1, at) };

        most = MAX (most, odd_crossing_count_plies (over->finish, over->pressed, part));
      }
  return most;
}

/* The fewest of all pressings of the seams that meet here. */
static guint
count_least (OddWeb             *web,
             const OddBulkCross *cross)
{
  guint lines[3] = { cross->line, cross->feet[0].line, cross->n_feet > 1 ? cross->feet[1].line : cross->line };
  OddPressed was[3];
  guint least = G_MAXUINT;

  for (guint i = 0; i < 3; i++)
    was[i] = odd_web_get_line (web, lines[i])->pressed;
  for (guint k = 0; k < 27; k++)
    {
      const guint choice[3] = { k % 3, k / 3 % 3, k / 9 };
      gboolean possible = TRUE;

      for (guint i = 0; i < 3; i++)
        {
          possible &= choice[i] < 2 || odd_web_get_line (web, lines[i])->may_open;
          odd_web_get_line (web, lines[i])->pressed = odd_bulk_sides[choice[i]];
        }
      if (possible)
        least = MIN (least, odd_web_count (web, cross));
    }
  for (guint i = 0; i < 3; i++)
    odd_web_get_line (web, lines[i])->pressed = was[i];
  return least;
}

GArray *
odd_job_dup_crossings (OddJob *job,
                       OddId   textile_id)
{
  GArray *crossings = g_array_new (FALSE, TRUE, sizeof (OddCrossing));
  g_autoptr(OddWeb) web = NULL;

  g_return_val_if_fail (job != NULL, crossings);

  web = odd_web_new (job, textile_id, FALSE);
  for (guint l = 0; l < web->lines->len; l++)
    for (guint i = 0; i < odd_web_get_line (web, l)->feet->len; i++)
      {
        const OddBulkLine *line = odd_web_get_line (web, l);
        const OddBulkCross *cross = &g_array_index (web->crosses, OddBulkCross, g_array_index (line->feet, guint, i));
        OddCrossing crossing = { .seam_id = line->id, .panel_id = line->panel_id, .textile_id = line->textile_id };

        crossing.at = odd_point_add (line->from, odd_point_scale (line->along, cross->feet[0].at));
        crossing.end_panel_id = cross->end_panel_id;
        crossing.end_at = cross->end_at;
        crossing.plies = odd_web_count (web, cross);
        crossing.least = count_least (web, cross);
        crossing.thickness_mm = crossing.plies * cross->thickness_mm;
        g_array_append_val (crossings, crossing);
      }
  return crossings;
}

GArray *
odd_job_dup_pressings (OddJob *job,
                       OddId   textile_id)
{
  GArray *pressings = g_array_new (FALSE, TRUE, sizeof (OddPressing));
  g_autoptr(OddWeb) web = NULL;

  g_return_val_if_fail (job != NULL, pressings);

  web = odd_web_new (job, textile_id, FALSE);
  for (guint i = 0; i < web->lines->len; i++)
    {
      const OddBulkLine *line = odd_web_get_line (web, i);
      const OddPressing pressing = { line->id, line->panel_id, line->middle, line->pressed == ODD_PRESSED_TO_FIRST ? odd_point_scale (line->normal, -1.0) : line->normal,
                                     line->pressed == ODD_PRESSED_OPEN };

      g_array_append_val (pressings, pressing);
    }
  return pressings;
}

OddBulkSum
odd_crossings_sum (const GArray *crossings)
{
  OddBulkSum sum = { .n = crossings->len, .most_mm = NAN };

  for (guint i = 0; i < crossings->len; i++)
    {
      const OddCrossing *crossing = &g_array_index (crossings, OddCrossing, i);

      if (crossing->plies > sum.most)
        {
          sum.most = crossing->plies;
          sum.n_most = 0;
        }
      sum.n_most += crossing->plies == sum.most;
      sum.n_thicker += crossing->plies > crossing->least;
      if (!isnan (crossing->thickness_mm) && !(crossing->thickness_mm <= sum.most_mm))
        sum.most_mm = crossing->thickness_mm;
    }
  return sum;
}

char *
odd_bulk_sum_dup_text (const OddBulkSum *sum)
{
  g_autofree char *at = NULL;
  g_autofree char *thick = NULL;

  g_return_val_if_fail (sum != NULL, NULL);

  if (sum->n == 0)
    return g_strdup (_("No seams meet here."));
  at = g_strdup_printf (ngettext ("at %u of %u crossing", "at %u of %u crossings", sum->n), sum->n_most, sum->n);
  if (!isnan (sum->most_mm))
    thick = g_strdup_printf (_(", %.1f mm thick"), sum->most_mm);
  /* Translators: number of layers, "at 3 of 12 crossings", ", 2.7 mm thick" or nothing */
  return g_strdup_printf (ngettext ("%u layer %s%s", "%u layers %s%s", sum->most), sum->most, at, thick != NULL ? thick : "");
}
