/* Strip sets.
 *
 *   level 3 ----------/\------      Between two corner levels the edges that pass do not cross, so their order from
 *                    /  \           left to right is sorted once, when the set is made. Two by two they bound a
 *   level 2 ---*----/----\----      trapezoid of cloth. An upright line over the whole slab stays in a trapezoid from
 *              |\  /      \         its larger left end to its smaller right end. A strip asks each slab it meets and
 *   level 1 ---*-\/--------*--      keeps what all of them allow.
 *
 * Corners nearer than the tolerance share a level, and slabs thinner than it are passed over, so a strip
 * that starts a rounding error below the cloth still counts.
 */
#include "config.h"

#include "geometry/strips-private.h"

#include <stdlib.h>
#include <string.h>

#define CHANNEL_STEP_MM 0.01

typedef struct
{
  double top_x, top_y;
  double bottom_x, bottom_y;
  double slope;                  /* of x over y */
  guint first_level;
  guint last_level;
} Edge;

typedef struct
{
  OddInterval *data;
  guint n;
  guint capacity;
} Intervals;

struct _OddStrips
{
  OddBox box;
  double *levels;
  guint n_levels;
  Edge *edges;
  guint n_edges;
  guint *crossing;               /* edges that pass each slab, from left to right */
  guint *starts;                 /* n_levels: where a slab's edges start in @crossing, and the end */
  Intervals now;                 /* room to work in */
  Intervals then;
};

static int
compare_doubles (const void *a,
                 const void *b)
{
  const double x = *(const double *) a;
  const double y = *(const double *) b;

  return (x > y) - (x < y);
}

static void
find_levels (OddStrips      *self,
             const OddPoint *points,
             guint           n)
{
  self->levels = g_new (double, n);
  for (guint i = 0; i < n; i++)
    self->levels[i] = points[i].y;
  qsort (self->levels, n, sizeof (double), compare_doubles);

  self->n_levels = 1;
  for (guint i = 1; i < n; i++)
    if (self->levels[i] - self->levels[self->n_levels - 1] > ODD_TOLERANCE_MM)
      self->levels[self->n_levels++] = self->levels[i];
}

/* The highest level not below @y; every corner lies on its level or within the tolerance under it. */
static guint
level_of (const OddStrips *self,
          double           y)
{
  guint low = 0;
  guint high = self->n_levels;

  while (high - low > 1)
    {
      const guint middle = (low + high) / 2;

      if (self->levels[middle] <= y)
        low = middle;
      else
        high = middle;
    }

  return low;
}

static void
add_edge (OddStrips *self,
          OddPoint   a,
          OddPoint   b)
{
  Edge edge;

  if (a.y > b.y)
    {
      const OddPoint p = a;

      a = b;
      b = p;
    }
  edge.first_level = level_of (self, a.y);
  edge.last_level = level_of (self, b.y);
  if (edge.first_level == edge.last_level)
    return;

  edge.top_x = a.x;
  edge.top_y = a.y;
  edge.bottom_x = b.x;
  edge.bottom_y = b.y;
  edge.slope = (b.x - a.x) / (b.y - a.y);
  self->edges[self->n_edges++] = edge;
}

static inline double
edge_x (const Edge *edge,
        double      y)
{
  if (y >= edge->bottom_y)
    return edge->bottom_x;
  if (y <= edge->top_y)
    return edge->top_x;

  return edge->top_x + (y - edge->top_y) * edge->slope;
}

/* Keeps @crossing[from..to) sorted by x half-way down the slab; insertion, for slabs are passed by few edges. */
static void
insert_crossing (OddStrips *self,
                 guint      from,
                 guint      to,
                 guint      edge,
                 double     y)
{
  const double x = edge_x (&self->edges[edge], y);
  guint at = to;

  while (at > from && edge_x (&self->edges[self->crossing[at - 1]], y) > x)
    {
      self->crossing[at] = self->crossing[at - 1];
      at--;
    }
  self->crossing[at] = edge;
}

static void
sort_slabs (OddStrips *self)
{
  guint n = 0;

  for (guint i = 0; i < self->n_edges; i++)
    n += self->edges[i].last_level - self->edges[i].first_level;
  self->crossing = g_new (guint, n);
  self->starts = g_new (guint, self->n_levels);

  n = 0;
  for (guint k = 0; k + 1 < self->n_levels; k++)
    {
      const double middle = (self->levels[k] + self->levels[k + 1]) / 2.0;

      self->starts[k] = n;
      for (guint i = 0; i < self->n_edges; i++)
        if (self->edges[i].first_level <= k && self->edges[i].last_level > k)
          insert_crossing (self, self->starts[k], n++, i, middle);
    }
  self->starts[self->n_levels - 1] = n;
}

static void
add_ring (OddStrips      *self,
          const OddPoint *points,
          guint           n)
{
  for (guint i = 0; i < n; i++)
    add_edge (self, points[i], points[i + 1 == n ? 0 : i + 1]);
}

/* The corners of all rings as placed and sheared. */
static OddPoint *
place_corners (const OddPolygon   *polygon,
               const OddPlacement *placement,
               double              shear)
{
  const guint n = polygon->starts[polygon->n_rings];
  OddPoint *points = g_new (OddPoint, n);
  double c, s;

  odd_turn_cos_sin (placement->turn_deg, &c, &s);
  for (guint i = 0; i < n; i++)
    {
      const OddPoint p = polygon->points[i];
      const double x = placement->mirror ? -p.x : p.x;

      points[i] = odd_point (c * x - s * p.y + placement->shift.x, s * x + c * p.y + placement->shift.y);
      points[i].x -= points[i].y * shear;
    }

  return points;
}

OddStrips *
odd_strips_new (OddPolygon         *polygon,
                const OddPlacement *placement,
                double              shear)
{
  g_autofree OddPoint *points = NULL;
  OddStrips *self;
  guint n;

  g_return_val_if_fail (polygon != NULL && placement != NULL, NULL);

  n = odd_polygon_get_n_corners (polygon);
  points = place_corners (polygon, placement, shear);

  self = g_new0 (OddStrips, 1);
  self->box = odd_box_from_points (points, n);
  find_levels (self, points, n);
  self->edges = g_new (Edge, n);
  for (guint r = 0; r < polygon->n_rings; r++)
    add_ring (self, points + polygon->starts[r], polygon->starts[r + 1] - polygon->starts[r]);
  sort_slabs (self);

  return self;
}

void
odd_strips_free (OddStrips *self)
{
  if (self == NULL)
    return;

  g_free (self->levels);
  g_free (self->edges);
  g_free (self->crossing);
  g_free (self->starts);
  g_free (self->now.data);
  g_free (self->then.data);
  g_free (self);
}

OddBox
odd_strips_get_box (const OddStrips *self)
{
  return self->box;
}

const double *
odd_strips_get_levels (const OddStrips *self,
                       guint           *out_n)
{
  *out_n = self->n_levels;

  return self->levels;
}

static inline void
append (Intervals *intervals,
        double     from,
        double     to)
{
  if (intervals->n == intervals->capacity)
    {
      intervals->capacity = MAX (8, 2 * intervals->capacity);
      intervals->data = g_renew (OddInterval, intervals->data, intervals->capacity);
    }
  intervals->data[intervals->n++] = (OddInterval) { from, to };
}

static void
swap (Intervals *a,
      Intervals *b)
{
  const Intervals c = *a;

  *a = *b;
  *b = c;
}

/* What the slab @k between the levels @y0 and @y1 leaves of @before; nothing shorter than @least is kept.
 * Both lists run from left to right. */
static void
meet_slab (const OddStrips *self,
           guint            k,
           double           y0,
           double           y1,
           double           least,
           const Intervals *before,
           Intervals       *after)
{
  guint i = 0;

  after->n = 0;
  for (guint c = self->starts[k]; c + 1 < self->starts[k + 1]; c += 2)
    {
      const Edge *left = &self->edges[self->crossing[c]];
      const Edge *right = &self->edges[self->crossing[c + 1]];
      const double from = MAX (edge_x (left, y0), edge_x (left, y1));
      const double to = MIN (edge_x (right, y0), edge_x (right, y1));

      if (to - from < least)
        continue;
      while (i < before->n && before->data[i].to <= from)
        i++;
      for (guint b = i; b < before->n && before->data[b].from < to; b++)
        {
          const double meet_from = MAX (from, before->data[b].from);
          const double meet_to = MIN (to, before->data[b].to);

          if (meet_to - meet_from >= least)
            append (after, meet_from, meet_to);
        }
    }
}

static inline void
start_with_all (Intervals *intervals)
{
  intervals->n = 0;
  append (intervals, -G_MAXDOUBLE, G_MAXDOUBLE);
}

static gboolean
lies_in_box (const OddStrips *self,
             double           y0,
             double           y1)
{
  return y0 <= y1
         && y0 >= self->levels[0] - ODD_TOLERANCE_MM
         && y1 <= self->levels[self->n_levels - 1] + ODD_TOLERANCE_MM;
}

/* The first slab that a strip from @y0 meets by more than the tolerance. */
static guint
first_slab (const OddStrips *self,
            double           y0)
{
  return MIN (level_of (self, y0 + ODD_TOLERANCE_MM), self->n_levels - 2);
}

/* Leaves the set in self->now. */
static void
query (OddStrips *self,
       double     y0,
       double     y1,
       double     least)
{
  self->now.n = 0;
  if (self->n_levels < 2 || !lies_in_box (self, y0, y1))
    return;

  start_with_all (&self->now);
  for (guint k = first_slab (self, y0); self->now.n > 0; k++)
    {
      meet_slab (self, k, MAX (y0, self->levels[k]), MIN (y1, self->levels[k + 1]), least, &self->now, &self->then);
      swap (&self->now, &self->then);
      if (k + 2 >= self->n_levels || self->levels[k + 1] >= y1 - ODD_TOLERANCE_MM)
        return;
    }
}

static gboolean
longest (const Intervals *intervals,
         OddInterval     *out)
{
  if (intervals->n == 0)
    return FALSE;

  *out = intervals->data[0];
  for (guint i = 1; i < intervals->n; i++)
    if (intervals->data[i].to - intervals->data[i].from > out->to - out->from)
      *out = intervals->data[i];

  return TRUE;
}

guint
odd_strips_query (const OddStrips *self,
                  double           y0,
                  double           y1,
                  OddInterval     *out,
                  guint            max)
{
  OddStrips *room = (OddStrips *) self;

  g_return_val_if_fail (self != NULL && (out != NULL || max == 0), 0);

  query (room, y0, y1, ODD_TOLERANCE_MM);
  if (max > 0 && room->now.n > 0)
    memcpy (out, room->now.data, MIN (room->now.n, max) * sizeof (OddInterval));

  return room->now.n;
}

gboolean
odd_strips_widest (const OddStrips *self,
                   double           y0,
                   double           y1,
                   OddInterval     *out)
{
  OddStrips *room = (OddStrips *) self;

  g_return_val_if_fail (self != NULL && out != NULL, FALSE);

  query (room, y0, y1, ODD_TOLERANCE_MM);

  return longest (&room->now, out);
}

gboolean
odd_strips_holds (const OddStrips *self,
                  double           y0,
                  double           y1,
                  double           width)
{
  OddStrips *room = (OddStrips *) self;

  query (room, y0, y1, MAX (width - ODD_TOLERANCE_MM, ODD_TOLERANCE_MM));

  return room->now.n > 0;
}

/* The slab @k stops the channel: how deep it still goes, with self->now the set above the slab. */
static double
bisect_slab (OddStrips   *self,
             guint        k,
             double       y0,
             double       least,
             OddInterval *found)
{
  const double top = MAX (y0, self->levels[k]);
  double open = top;
  double shut = self->levels[k + 1];

  while (shut - open > CHANNEL_STEP_MM)
    {
      const double middle = (open + shut) / 2.0;

      meet_slab (self, k, top, middle, least, &self->now, &self->then);
      if (longest (&self->then, found))
        open = middle;
      else
        shut = middle;
    }

  return open;
}

double
odd_strips_channel (const OddStrips *self,
                    double           y0,
                    double           width,
                    OddInterval     *out)
{
  OddStrips *room = (OddStrips *) self;
  const double least = MAX (width - ODD_TOLERANCE_MM, ODD_TOLERANCE_MM);
  OddInterval found = { 0.0, 0.0 };
  double y1 = y0;

  g_return_val_if_fail (self != NULL && out != NULL, 0.0);

  if (self->n_levels < 2 || !lies_in_box (self, y0, y0))
    return 0.0;

  start_with_all (&room->now);
  for (guint k = first_slab (self, y0); k + 1 < self->n_levels; k++)
    {
      meet_slab (self, k, MAX (y0, self->levels[k]), self->levels[k + 1], least, &room->now, &room->then);
      if (!longest (&room->then, &found))
        {
          y1 = bisect_slab (room, k, y0, least, &found);
          break;
        }
      swap (&room->now, &room->then);
      y1 = self->levels[k + 1];
    }

  if (y1 - y0 <= ODD_TOLERANCE_MM)
    return 0.0;
  *out = found;

  return y1 - y0;
}
