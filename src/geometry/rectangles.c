/* Rectangles and squares inside a polygon, searched over strip sets.
 *
 * An exact search costs O(n^3 log n) (Choi, Lee, Ahn 2019, arXiv 1910.08686); scraps have few corners and scissors are
 * no lasers, so the lower and upper side are tried at corner levels and some between, then moved a little. */
#include "config.h"

#include "geometry/strips-private.h"

#include <stdlib.h>

#define N_UNIFORM_LEVELS 12       /* between the corner levels of a rectangle; more gained under 1 % of area */
#define N_UNIFORM_STANDS 5        /* places a square is stood on between corner levels */
#define FINEST_STEP_MM 0.02
#define WORTH_REFINING 0.9        /* of the best so far: moving the sides seldom gains more than a tenth */
#define N_REFINED 3               /* a turn; one alone is 7 % short now and then, all of them cost three times as much */
#define MERGE_DEG 0.05
#define SHORT_EDGE 0.05           /* of the box's width + height: shorter edges do not carry a square */

typedef struct
{
  double y0, y1;
  OddInterval x;
  double area_mm2;
} Rectangle;

static int
compare_doubles (gconstpointer a,
                 gconstpointer b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

static GArray *
candidate_levels (const OddStrips *strips)
{
  const OddBox box = odd_strips_get_box (strips);
  guint n;
  const double *corners = odd_strips_get_levels (strips, &n);
  GArray *levels = g_array_new (FALSE, FALSE, sizeof (double));

  g_array_append_vals (levels, corners, n);
  for (guint i = 1; i < N_UNIFORM_LEVELS; i++)
    {
      const double y = box.y + box.height * i / N_UNIFORM_LEVELS;

      g_array_append_val (levels, y);
    }
  g_array_sort (levels, compare_doubles);

  return levels;
}

static gboolean
measure (const OddStrips *strips,
         double           y0,
         double           y1,
         double           min_side_mm,
         Rectangle       *out)
{
  OddInterval x;

  if (y1 - y0 < min_side_mm || y1 - y0 <= ODD_TOLERANCE_MM
      || !odd_strips_widest (strips, y0, y1, &x) || x.to - x.from < min_side_mm)
    return FALSE;

  *out = (Rectangle) { y0, y1, x, (x.to - x.from) * (y1 - y0) };

  return TRUE;
}

/* The best rectangle under the level @top, all zero when none beats @to_beat_mm2. Deeper strips are narrower, so the
 * width here bounds what the rest of the depth can give. */
static Rectangle
search_below (const OddStrips *strips,
              const GArray    *levels,
              guint            top,
              double           min_side_mm,
              double           to_beat_mm2)
{
  const double y0 = g_array_index (levels, double, top);
  const double deepest = g_array_index (levels, double, levels->len - 1) - y0;
  Rectangle best = { 0 };

  for (guint i = top + 1; i < levels->len; i++)
    {
      const double y1 = g_array_index (levels, double, i);
      Rectangle r;

      if (y1 - y0 < min_side_mm || y1 - y0 <= ODD_TOLERANCE_MM)
        continue;
      if (!measure (strips, y0, y1, min_side_mm, &r)
          || (r.x.to - r.x.from) * deepest <= MAX (best.area_mm2, to_beat_mm2))
        break;
      if (r.area_mm2 > MAX (best.area_mm2, to_beat_mm2))
        best = r;
    }

  return best;
}

/* Moves the lower and the upper side, alone and together, while it gains. */
static void
refine (const OddStrips *strips,
        double           min_side_mm,
        Rectangle       *best)
{
  static const int MOVES[][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 }, { -1, -1 }, { 1, 1 }, { -1, 1 }, { 1, -1 } };
  double step = odd_strips_get_box (strips).height / N_UNIFORM_LEVELS / 2.0;

  while (step > FINEST_STEP_MM)
    {
      const double before = best->area_mm2;

      for (guint i = 0; i < G_N_ELEMENTS (MOVES); i++)
        {
          Rectangle r;

          if (measure (strips, best->y0 + step * MOVES[i][0], best->y1 + step * MOVES[i][1], min_side_mm, &r)
              && r.area_mm2 > best->area_mm2)
            *best = r;
        }
      if (best->area_mm2 <= before)
        step /= 2.0;
    }
}

/* Puts @r in its place among the @n largest, the earlier first of equals. */
static void
keep_largest (Rectangle *largest,
              guint      n,
              Rectangle  r)
{
  for (guint i = 0; i < n; i++)
    if (r.area_mm2 > largest[i].area_mm2)
      {
        const Rectangle smaller = largest[i];

        largest[i] = r;
        r = smaller;
      }
}

static Rectangle
search_turn (const OddStrips *strips,
             double           min_side_mm,
             double           to_beat_mm2)
{
  g_autoptr(GArray) levels = candidate_levels (strips);
  Rectangle rough[N_REFINED] = { 0 };
  Rectangle best = { 0 };

  for (guint i = 0; i + 1 < levels->len; i++)
    keep_largest (rough, N_REFINED,
                  search_below (strips, levels, i, min_side_mm,
                                MAX (rough[N_REFINED - 1].area_mm2, WORTH_REFINING * MAX (to_beat_mm2, rough[0].area_mm2))));

  for (guint i = 0; i < N_REFINED; i++)
    {
      if (rough[i].area_mm2 <= WORTH_REFINING * MAX (to_beat_mm2, rough[0].area_mm2))
        break;
      refine (strips, min_side_mm, &rough[i]);
      if (rough[i].area_mm2 > best.area_mm2)
        best = rough[i];
    }

  return best;
}

/* Half a turn on lies the same rectangle. */
static gboolean
is_tried (const double *turns_deg,
          guint         i)
{
  for (guint k = 0; k < i; k++)
    if (fmod (turns_deg[i] - turns_deg[k], 180.0) == 0.0)
      return TRUE;

  return FALSE;
}

gboolean
odd_polygon_largest_rectangle (OddPolygon   *self,
                               const double *turns_deg,
                               guint         n_turns,
                               double        min_side_mm,
                               double       *out_turn_deg,
                               OddBox       *out_box)
{
  double best_mm2 = 0.0;

  g_return_val_if_fail (self != NULL && (turns_deg != NULL || n_turns == 0), FALSE);
  g_return_val_if_fail (out_turn_deg != NULL && out_box != NULL, FALSE);

  for (guint i = 0; i < n_turns; i++)
    {
      const OddPlacement placement = { turns_deg[i], FALSE, { 0.0, 0.0 } };
      g_autoptr(OddStrips) strips = NULL;
      Rectangle r;

      if (is_tried (turns_deg, i))
        continue;
      strips = odd_strips_new (self, &placement, 0.0);
      r = search_turn (strips, min_side_mm, best_mm2);
      if (r.area_mm2 <= best_mm2)
        continue;
      best_mm2 = r.area_mm2;
      *out_turn_deg = turns_deg[i];
      *out_box = (OddBox) { r.x.from, r.y0, r.x.to - r.x.from, r.y1 - r.y0 };
    }

  return best_mm2 > 0.0;
}

/* The turn in [0, 90) that lays the edge a -> b along x or y. */
static double
quarter_turn_of (OddPoint a,
                 OddPoint b)
{
  double turn = fmod (-atan2 (b.y - a.y, b.x - a.x) * (180.0 / G_PI), 90.0);

  if (turn < 0.0)
    turn += 90.0;
  if (turn < 1e-9 || turn > 90.0 - 1e-9)    /* rounding must not tilt an upright edge */
    turn = 0.0;

  return turn;
}

/* Drops what is nearer than MERGE_DEG to the one before; 0 and 90 are the same. */
static void
merge_near (GArray *turns)
{
  guint n = 0;

  for (guint i = 0; i < turns->len; i++)
    {
      const double turn = g_array_index (turns, double, i);

      if (n == 0 || turn - g_array_index (turns, double, n - 1) >= MERGE_DEG)
        g_array_index (turns, double, n++) = turn;
    }
  if (n > 1 && g_array_index (turns, double, 0) + 90.0 - g_array_index (turns, double, n - 1) < MERGE_DEG)
    n--;
  g_array_set_size (turns, n);
}

/* Turns in [0, 90), ascending. */
static GArray *
flush_quarter_turns (OddPolygon *self,
                     double      min_edge_mm)
{
  GArray *turns = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint r = 0; r < self->n_rings; r++)
    {
      OddPoint a = self->points[self->starts[r + 1] - 1];

      for (guint i = self->starts[r]; i < self->starts[r + 1]; i++)
        {
          const OddPoint b = self->points[i];

          if (odd_point_distance (a, b) >= min_edge_mm)
            {
              const double turn = quarter_turn_of (a, b);

              g_array_append_val (turns, turn);
            }
          a = b;
        }
    }
  g_array_sort (turns, compare_doubles);
  merge_near (turns);

  return turns;
}

GArray *
odd_polygon_flush_turns (OddPolygon *self,
                         double      min_edge_mm)
{
  g_autoptr(GArray) quarter = NULL;
  GArray *turns;

  g_return_val_if_fail (self != NULL, NULL);

  quarter = flush_quarter_turns (self, min_edge_mm);
  turns = g_array_sized_new (FALSE, FALSE, sizeof (double), 4 * quarter->len);
  for (guint k = 0; k < 4; k++)
    for (guint i = 0; i < quarter->len; i++)
      {
        const double turn = g_array_index (quarter, double, i) + 90.0 * k;

        g_array_append_val (turns, turn);
      }

  return turns;
}

/* Stood on or hung from each corner level, and at some levels between. */
static gboolean
holds_square (const OddStrips *strips,
              double           side)
{
  const OddBox box = odd_strips_get_box (strips);
  guint n;
  const double *levels = odd_strips_get_levels (strips, &n);

  if (side > box.width || side > box.height)
    return FALSE;

  for (guint i = 0; i < n; i++)
    if (odd_strips_holds (strips, levels[i], levels[i] + side, side)
        || odd_strips_holds (strips, levels[i] - side, levels[i], side))
      return TRUE;
  for (guint i = 1; i <= N_UNIFORM_STANDS; i++)
    {
      const double y = box.y + (box.height - side) * i / (N_UNIFORM_STANDS + 1);

      if (odd_strips_holds (strips, y, y + side, side))
        return TRUE;
    }

  return FALSE;
}

/* The largest side above @least; @least itself when there is none. */
static double
grow_square (const OddStrips *strips,
             double           least,
             double           most)
{
  if (least + FINEST_STEP_MM > most || !holds_square (strips, least + FINEST_STEP_MM))
    return least;
  if (holds_square (strips, most))
    return most;

  while (most - least > FINEST_STEP_MM)
    {
      const double middle = (least + most) / 2.0;

      if (holds_square (strips, middle))
        least = middle;
      else
        most = middle;
    }

  return least;
}

double
odd_polygon_largest_square (OddPolygon *self,
                            double      enough_mm)
{
  g_autoptr(GArray) turns = NULL;
  const double upright = 0.0;
  double best = 0.0;

  g_return_val_if_fail (self != NULL, 0.0);

  turns = flush_quarter_turns (self, SHORT_EDGE * (self->box.width + self->box.height));
  if (turns->len == 0)
    g_array_append_val (turns, upright);

  for (guint i = 0; i < turns->len; i++)
    {
      const OddPlacement placement = { g_array_index (turns, double, i), FALSE, { 0.0, 0.0 } };
      g_autoptr(OddStrips) strips = odd_strips_new (self, &placement, 0.0);
      const OddBox box = odd_strips_get_box (strips);
      double most = MIN (MIN (box.width, box.height), sqrt (self->area_mm2));

      if (enough_mm > 0.0 && holds_square (strips, enough_mm))
        return enough_mm;
      if (enough_mm > 0.0)
        most = MIN (most, enough_mm);
      best = grow_square (strips, best, most);
    }

  return best;
}
