#include "config.h"

#include "sewing/bulk.h"

#include <glib/gi18n.h>

#include "cloth/finish.h"

#define MEET_MM 1.0
/* A sweep over all seams that still finds something to better is followed by another, so often. */
#define SWEEPS 12

const char *
odd_press_rule_get_name (OddPressRule rule)
{
  switch (rule)
    {
    case ODD_PRESS_DARKER: return _("Towards the darker cloth");
    case ODD_PRESS_ALTERNATE: return _("Alternately in rows");
    default: return _("Least bulk");
    }
}

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

typedef struct
{
  OddId id, panel_id, textile_id;
  OddPoint from, along;       /* of the seam; frame: panel's, a join's: textile's */
  OddPoint normal;            /* out of the first part */
  OddPoint middle;
  const OddFinish *finish;
  OddPressed pressed;         /* resolved */
  gboolean free;              /* its side may be changed */
  gboolean may_open;
  int darker;                 /* side with the darker cloth, -1: no telling */
  guint row;                  /* index of its strip in the strip around it */
  GArray *feet;               /* guint: crossings on it */
  int ends[2];                /* crossings at its own ends, -1: none */
} Line;

/* A seam that ends on a line. */
typedef struct
{
  guint line;                 /* the one that ends there */
  guint side;                 /* of the line it ends on */
  double at;                  /* along it */
  gboolean first_is_high;     /* its first part lies farther along */
  double width;               /* its allowance, measured along the line it ends on */
} Foot;

typedef struct
{
  guint line;
  Foot feet[2]; guint n_feet;
  double thickness_mm;
  OddId end_panel_id;         /* where the first one ends, in its panel */
  OddPoint end_at;
} Cross;

typedef struct
{
  OddJob *job;
  GPtrArray *layouts, *textiles;
  GArray *lines;              /* Line */
  GArray *crosses;            /* Cross */
} Web;

static Line *
get_line (Web   *web,
          guint  i)
{
  return &g_array_index (web->lines, Line, i);
}

static void
clear_line (gpointer data)
{
  g_array_unref (((Line *) data)->feet);
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
add_line (Web             *web,
          OddId            textile_id,
          OddId            panel_id,
          const OddSeam   *seam,
          const OddFinish *finish,
          OddSegment       at,
          OddPoint         normal,
          gboolean         also_set)
{
  const double length = odd_segment_length (at);
  Line line = { .id = seam->id, .panel_id = panel_id, .textile_id = textile_id, .from = at.from, .normal = normal, .finish = finish,
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
add_foot (Web         *web,
          guint        on,
          const Foot  *foot,
          guint        end,
          OddPoint     end_at,
          double       thickness_mm)
{
  Line *line = get_line (web, on);
  Cross cross = { .line = on, .feet = { *foot }, .n_feet = 1, .thickness_mm = thickness_mm };

  cross.end_panel_id = get_line (web, foot->line)->panel_id;
  cross.end_at = end_at;
  for (guint i = 0; i < line->feet->len; i++)
    {
      const guint index = g_array_index (line->feet, guint, i);
      Cross *other = &g_array_index (web->crosses, Cross, index);

      if (other->n_feet == 2 || other->feet[0].side == foot->side || fabs (other->feet[0].at - foot->at) > MEET_MM)
        continue;
      other->feet[other->n_feet++] = *foot;
      if (!isnan (thickness_mm))
        other->thickness_mm = isnan (other->thickness_mm) ? thickness_mm : (other->thickness_mm + thickness_mm) / 2;
      get_line (web, foot->line)->ends[end] = index;
      return;
    }
  g_array_append_val (line->feet, web->crosses->len);
  get_line (web, foot->line)->ends[end] = web->crosses->len;
  g_array_append_val (web->crosses, cross);
}

/* @shift: from the frame of the seam that ends there to that of the line. */
static void
add_end (Web               *web,
         const OddLayout   *layout,
         const OddLaidSeam *laid,
         guint              line,
         guint              end,
         guint              on,
         OddPoint           shift)
{
  const OddPoint at = end == 0 ? laid->finished.from : laid->finished.to;
  const OddPoint far = odd_point_add (end == 0 ? laid->finished.to : laid->finished.from, shift);
  const Line *over = get_line (web, on);
  const OddPoint rel = odd_point_sub (odd_point_add (at, shift), over->from);
  const double sine = fabs (sin (laid->ends[end].angle_deg * G_PI / 180.0));
  const Foot foot = {
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
add_panel_lines (Web             *web,
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
      Line *line = get_line (web, add_line (web, textile_id, panel_id, laid->seam, laid->finish, laid->finished, laid->line.normal, also_set));

      line->row = find_row (layout, i, place);
      line->darker = find_darker (get_lightness (layout, laid->first_patch, laid->n_first, i), get_lightness (layout, laid->second_patch, laid->n_second, i));
    }
  return first;
}

static void
add_panel_ends (Web             *web,
                const OddLayout *layout,
                guint            first)
{
  for (guint i = 0; i < layout->n_seams; i++)
    for (guint e = 0; e < 2; e++)
      if (layout->seams[i].raw_length_mm > 0.0 && layout->seams[i].ends[e].label >= 0)
        add_end (web, layout, &layout->seams[i], first + i, e, first + layout->seams[i].ends[e].label, odd_point (0, 0));
}

static void
add_joined_ends (Web                 *web,
                 const OddHungLayout *hung,
                 guint                first,
                 guint                first_join,
                 guint                n_joins)
{
  const OddLayout *layout = hung->layout;

  for (guint i = 0; i < layout->n_seams; i++)
    for (guint e = 0; e < 2; e++)
      for (guint j = first_join; layout->seams[i].ends[e].by != 0 && layout->seams[i].ends[e].label < 0 && j < first_join + n_joins; j++)
        if (get_line (web, j)->id == layout->seams[i].ends[e].by)
          add_end (web, layout, &layout->seams[i], first + i, e, j, hung->at);
}

static void
add_textile (Web        *web,
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
    get_line (web, add_line (web, textile->id, 0, layout->joins[i].join, layout->joins[i].finish, layout->joins[i].finished, odd_point (1, 0), also_set))->row = i;
  for (guint i = 0; i < layout->n_panels; i++)
    {
      add_panel_ends (web, layout->panels[i].layout, firsts[i]);
      add_joined_ends (web, &layout->panels[i], firsts[i], first_join, layout->n_joins);
    }
}

static void
add_loose (Web      *web,
           OddPanel *panel,
           gboolean  also_set)
{
  OddLayout *layout = odd_job_dup_layout (web->job, panel->id);

  g_ptr_array_add (web->layouts, layout);
  add_panel_ends (web, layout, add_panel_lines (web, layout, 0, panel->id, 0, also_set));
}

static Web *
web_new (OddJob   *job,
         OddId     textile_id,
         gboolean  also_set)
{
  Web *web = g_new0 (Web, 1);

  web->job = job;
  web->layouts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_layout_unref);
  web->textiles = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_textile_layout_unref);
  web->lines = g_array_new (FALSE, TRUE, sizeof (Line));
  web->crosses = g_array_new (FALSE, TRUE, sizeof (Cross));
  g_array_set_clear_func (web->lines, clear_line);
  for (guint i = 0; i < job->textiles->len; i++)
    if (textile_id == 0 || ((OddTextile *) job->textiles->pdata[i])->id == textile_id)
      add_textile (web, job->textiles->pdata[i], also_set);
  for (guint i = 0; textile_id == 0 && i < job->loose_panels->len; i++)
    add_loose (web, job->loose_panels->pdata[i], also_set);
  return web;
}

static void
web_free (Web *web)
{
  g_ptr_array_unref (web->layouts);
  g_ptr_array_unref (web->textiles);
  g_array_unref (web->lines);
  g_array_unref (web->crosses);
  g_free (web);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Web, web_free)

/* --- counting --- */

/* Layers of the part on @side at a place @at, which is no end of an allowance. */
static guint
count_part (Web         *web,
            const Cross *cross,
            guint        side,
            double       at)
{
  guint plies = 1;

  for (guint i = 0; i < cross->n_feet; i++)
    {
      const Foot *foot = &cross->feet[i];
      const Line *line = get_line (web, foot->line);
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
static guint
count_cross (Web         *web,
             const Cross *cross)
{
  const Line *over = get_line (web, cross->line);
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

static const OddPressed sides[] = { ODD_PRESSED_TO_FIRST, ODD_PRESSED_TO_SECOND, ODD_PRESSED_OPEN };

/* The fewest of all pressings of the seams that meet here. */
static guint
count_least (Web         *web,
             const Cross *cross)
{
  guint lines[3] = { cross->line, cross->feet[0].line, cross->n_feet > 1 ? cross->feet[1].line : cross->line };
  OddPressed was[3];
  guint least = G_MAXUINT;

  for (guint i = 0; i < 3; i++)
    was[i] = get_line (web, lines[i])->pressed;
  for (guint k = 0; k < 27; k++)
    {
      const guint choice[3] = { k % 3, k / 3 % 3, k / 9 };
      gboolean possible = TRUE;

      for (guint i = 0; i < 3; i++)
        {
          possible &= choice[i] < 2 || get_line (web, lines[i])->may_open;
          get_line (web, lines[i])->pressed = sides[choice[i]];
        }
      if (possible)
        least = MIN (least, count_cross (web, cross));
    }
  for (guint i = 0; i < 3; i++)
    get_line (web, lines[i])->pressed = was[i];
  return least;
}

GArray *
odd_job_dup_crossings (OddJob *job,
                       OddId   textile_id)
{
  GArray *crossings = g_array_new (FALSE, TRUE, sizeof (OddCrossing));
  g_autoptr(Web) web = NULL;

  g_return_val_if_fail (job != NULL, crossings);

  web = web_new (job, textile_id, FALSE);
  for (guint l = 0; l < web->lines->len; l++)
    for (guint i = 0; i < get_line (web, l)->feet->len; i++)
      {
        const Line *line = get_line (web, l);
        const Cross *cross = &g_array_index (web->crosses, Cross, g_array_index (line->feet, guint, i));
        OddCrossing crossing = { .seam_id = line->id, .panel_id = line->panel_id, .textile_id = line->textile_id };

        crossing.at = odd_point_add (line->from, odd_point_scale (line->along, cross->feet[0].at));
        crossing.end_panel_id = cross->end_panel_id;
        crossing.end_at = cross->end_at;
        crossing.plies = count_cross (web, cross);
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
  g_autoptr(Web) web = NULL;

  g_return_val_if_fail (job != NULL, pressings);

  web = web_new (job, textile_id, FALSE);
  for (guint i = 0; i < web->lines->len; i++)
    {
      const Line *line = get_line (web, i);
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

/* --- sides by rule --- */

/* Rows that lie the same way are pressed the same way whichever part is called the first: even ones to the right or down. */
static OddPressed
press_alternately (const Line *line)
{
  const gboolean second_is_on = fabs (line->normal.x) > fabs (line->normal.y) ? line->normal.x > 0.0 : line->normal.y > 0.0;

  return (line->row % 2 == 0) == second_is_on ? ODD_PRESSED_TO_SECOND : ODD_PRESSED_TO_FIRST;
}

static void
press_all (Web          *web,
           OddPressRule  rule)
{
  for (guint i = 0; i < web->lines->len; i++)
    {
      Line *line = get_line (web, i);

      if (!line->free)
        continue;
      if (line->may_open)
        line->pressed = ODD_PRESSED_OPEN;
      else if (rule == ODD_PRESS_DARKER && line->darker >= 0)
        line->pressed = line->darker == 1 ? ODD_PRESSED_TO_SECOND : ODD_PRESSED_TO_FIRST;
      else
        line->pressed = press_alternately (line);
    }
}

static guint64
get_square (Web   *web,
            guint  cross)
{
  const guint plies = count_cross (web, &g_array_index (web->crosses, Cross, cross));

  return (guint64) plies * plies;
}

/* Of all crossings that a line has a part in. */
static guint64
get_cost (Web   *web,
          guint  line)
{
  const Line *self = get_line (web, line);
  guint64 cost = 0;

  for (guint i = 0; i < self->feet->len; i++)
    cost += get_square (web, g_array_index (self->feet, guint, i));
  for (guint e = 0; e < 2; e++)
    if (self->ends[e] >= 0)
      cost += get_square (web, self->ends[e]);
  return cost;
}

static gboolean
better_line (Web   *web,
             guint  line)
{
  Line *self = get_line (web, line);
  OddPressed best = self->pressed;
  guint64 cost = get_cost (web, line);
  const guint64 was = cost;

  for (guint k = 0; k < (self->may_open ? 3u : 2u); k++)
    {
      guint64 now;

      self->pressed = sides[k];
      now = get_cost (web, line);
      if (now < cost)
        {
          cost = now;
          best = sides[k];
        }
    }
  self->pressed = best;
  return cost < was;
}

/* FALSE when cancelled. */
static gboolean
better_all (Web           *web,
            GCancellable  *cancellable,
            GError       **error)
{
  gboolean any = TRUE;

  for (guint sweep = 0; any && sweep < SWEEPS; sweep++)
    {
      any = FALSE;
      for (guint i = 0; i < web->lines->len; i++)
        if (get_line (web, i)->free)
          any |= better_line (web, i);
      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
    }
  return TRUE;
}

static guint64
get_sum (Web *web)
{
  guint64 sum = 0;

  for (guint i = 0; i < web->crosses->len; i++)
    sum += get_square (web, i);
  return sum;
}

static void
press_one_way (Web        *web,
               OddPressed  way)
{
  for (guint i = 0; i < web->lines->len; i++)
    if (get_line (web, i)->free)
      get_line (web, i)->pressed = way;
}

/* From what is there, from each rule in turn, and from all one way: so the outcome is never more than any of these. */
static gboolean
press_least (Web           *web,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autofree OddPressed *best = g_new (OddPressed, web->lines->len + 1);
  guint64 least = G_MAXUINT64;

  for (guint start = 0; start < 5; start++)
    {
      if (start == 1 || start == 2)
        press_all (web, start == 1 ? ODD_PRESS_ALTERNATE : ODD_PRESS_DARKER);
      else if (start > 2)
        press_one_way (web, start == 3 ? ODD_PRESSED_TO_FIRST : ODD_PRESSED_TO_SECOND);
      if (!better_all (web, cancellable, error))
        return FALSE;
      if (get_sum (web) >= least)
        continue;
      least = get_sum (web);
      for (guint i = 0; i < web->lines->len; i++)
        best[i] = get_line (web, i)->pressed;
    }
  for (guint i = 0; i < web->lines->len; i++)
    get_line (web, i)->pressed = best[i];
  return TRUE;
}

static OddPressed
get_pressed (OddJob     *job,
             const Line *line)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_job_find_panel_of (job, line->id, &textile, NULL);
  OddNode *strip = panel != NULL ? odd_node_find_seam (panel->root, line->id, &index) : NULL;

  if (strip != NULL)
    return strip->seams[index].pressed_to;
  for (guint i = 0; textile != NULL && i + 1 < textile->n_hung; i++)
    if (textile->joins[i].id == line->id)
      return textile->joins[i].pressed_to;
  return ODD_PRESSED_BY_RULE;
}

OddJob *
odd_job_press_by (OddJob        *job,
                  OddId          textile_id,
                  OddPressRule   rule,
                  gboolean       also_set,
                  GCancellable  *cancellable,
                  GError       **error)
{
  g_autoptr(Web) web = NULL;
  g_autoptr(OddJob) after = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  web = web_new (job, textile_id, also_set);
  if (rule != ODD_PRESS_LEAST)
    press_all (web, rule);
  else if (!press_least (web, cancellable, error))
    return NULL;
  after = odd_job_ref (job);
  for (guint i = 0; i < web->lines->len; i++)
    {
      const Line *line = get_line (web, i);
      const OddPressed was = get_pressed (job, line);
      OddJob *next;

      if (!line->free || odd_pressed_resolve (was, line->finish) == line->pressed)
        continue;
      next = odd_job_set_pressed (after, line->id, line->pressed, error);
      if (next == NULL)
        return NULL;
      odd_job_unref (after);
      after = next;
    }
  return g_steal_pointer (&after);
}
