/* The tallest channel of a given width in a turned piece of cloth.
 *
 *        ______                 Part the cloth at the levels of its corners: between two levels it is a row of trapezoids.
 *       /      \ _ _ _ level 1  Take the width w off each trapezoid's right side: what is left are the places at which
 *      /        |               a horizontal line of length w has its left end in the cloth (the cloth eroded by that
 *     /_ _ _ _ _|_ _ _ level 2  line). A channel w wide and h tall is then an upright segment of length h in the eroded
 *      \       /                cloth; the longest one has a corner of it in its way, so only the corners' x are tried.
 *       \_____/
 *
 * A channel with slanting sides is upright after the shear x' = x - y * shear, which leaves levels and widths as they are; so a
 * turn is parted once and asked for every tilt. All derived here.
 *
 * Before, each base level was tried and its top found by bisection over strip sets: some ten times slower, and never exact.
 */
#include "config.h"

#include "geometry/channel.h"

/* Corners nearer than this in height share a level: turned edges that should be level differ by rounding. */
#define SAME_LEVEL_MM 1e-7
/* A channel may stick out by this much: what rounding costs a scrap that fits exactly. */
#define SLACK_MM 1e-7

typedef struct
{
  double top_left, top_right;         /* x at the slab's upper level (smaller y) */
  double bottom_left, bottom_right;
} Trapezoid;

/* A corner of the eroded cloth: the longest upright run goes through one. */
typedef struct
{
  double x, y;
  guint slab, trapezoid;
} Start;

typedef struct
{
  double top, bottom;                 /* y */
  guint first, n;                     /* its trapezoids, left to right */
} Slab;

typedef struct
{
  double x, y;
  guint level;
} Corner;

typedef struct
{
  Corner upper, lower;                /* upper: smaller y */
} Side;

/* Plain arrays: this is the innermost loop of snapping. */
struct _OddSlabs
{
  guint room;                         /* for so many corners */
  Corner *corners; guint n_corners;   /* ring after ring */
  guint *order;                       /* corners by height */
  double *levels; guint n_levels;
  Side *sides; guint n_sides;         /* level ones left out */
  Slab *slabs; guint n_slabs;
  guint room_trapezoids;
  Trapezoid *trapezoids; guint n_trapezoids;   /* as turned */
  Trapezoid *eroded;                  /* sheared and eroded */
  Start *starts; guint n_starts;      /* at most four a trapezoid */
};

OddSlabs *
odd_slabs_new (OddPolygon *polygon,
               double      turn_deg,
               gboolean    mirror)
{
  OddSlabs *self = g_new0 (OddSlabs, 1);

  odd_slabs_set (self, polygon, turn_deg, mirror);

  return self;
}

void
odd_slabs_free (OddSlabs *self)
{
  g_free (self->corners);
  g_free (self->order);
  g_free (self->levels);
  g_free (self->sides);
  g_free (self->slabs);
  g_free (self->trapezoids);
  g_free (self->eroded);
  g_free (self->starts);
  g_free (self);
}

static void
make_room (OddSlabs *self,
           guint     n_corners)
{
  if (n_corners <= self->room)
    return;
  self->room = n_corners;
  self->corners = g_renew (Corner, self->corners, n_corners);
  self->order = g_renew (guint, self->order, n_corners);
  self->levels = g_renew (double, self->levels, n_corners);
  self->sides = g_renew (Side, self->sides, n_corners);
  self->slabs = g_renew (Slab, self->slabs, n_corners);
}

static void
add_trapezoid (OddSlabs *self,
               Trapezoid trapezoid)
{
  if (self->n_trapezoids == self->room_trapezoids)
    {
      self->room_trapezoids = MAX (32, 2 * self->room_trapezoids);
      self->trapezoids = g_renew (Trapezoid, self->trapezoids, self->room_trapezoids);
      self->eroded = g_renew (Trapezoid, self->eroded, self->room_trapezoids);
      self->starts = g_renew (Start, self->starts, 4 * self->room_trapezoids);
    }
  self->trapezoids[self->n_trapezoids++] = trapezoid;
}

static void
add_ring (OddSlabs       *self,
          const OddPoint *points,
          gsize           n,
          double          turn_deg,
          gboolean        mirror)
{
  double c, s;

  odd_turn_cos_sin (turn_deg, &c, &s);
  for (gsize i = 0; i < n; i++)
    {
      const double x = mirror ? -points[i].x : points[i].x;
      const double y = points[i].y;

      self->corners[self->n_corners++] = (Corner) { c * x - s * y, s * x + c * y, 0 };
    }
}

/* By height, ties by index. Few and half in order: insertion is the quickest. */
static void
sort_by_height (OddSlabs *self)
{
  for (guint i = 0; i < self->n_corners; i++)
    {
      guint at = i;

      for (; at > 0 && self->corners[self->order[at - 1]].y > self->corners[i].y; at--)
        self->order[at] = self->order[at - 1];
      self->order[at] = i;
    }
}

static void
set_levels (OddSlabs *self)
{
  self->n_levels = 0;
  for (guint i = 0; i < self->n_corners; i++)
    {
      Corner *corner = &self->corners[self->order[i]];

      if (self->n_levels == 0 || corner->y - self->levels[self->n_levels - 1] > SAME_LEVEL_MM)
        self->levels[self->n_levels++] = corner->y;
      corner->level = self->n_levels - 1;
      corner->y = self->levels[corner->level];
    }
}

static void
add_sides (OddSlabs *self,
           guint     first,
           guint     n)
{
  for (guint i = 0; i < n; i++)
    {
      const Corner *a = &self->corners[first + i];
      const Corner *b = &self->corners[first + (i + 1 < n ? i + 1 : 0)];

      if (a->level != b->level)
        self->sides[self->n_sides++] = a->level < b->level ? (Side) { *a, *b } : (Side) { *b, *a };
    }
}

static double
side_at (const Side *side,
         double      y)
{
  const double t = (y - side->upper.y) / (side->lower.y - side->upper.y);

  return side->upper.x + t * (side->lower.x - side->upper.x);
}

/* Cuts one slab: the sides that run through it, sorted, pair up to trapezoids. */
static void
add_slab (OddSlabs *self,
          guint     level)
{
  Slab *slab = &self->slabs[self->n_slabs++];
  struct { double top, bottom; } *cut = g_newa (typeof (*cut), self->n_sides);
  guint n = 0;

  *slab = (Slab) { self->levels[level], self->levels[level + 1], self->n_trapezoids, 0 };
  for (guint i = 0; i < self->n_sides; i++)
    {
      const Side *side = &self->sides[i];
      double top, bottom;
      guint at;

      if (side->upper.level > level || side->lower.level <= level)
        continue;
      top = side_at (side, slab->top);
      bottom = side_at (side, slab->bottom);
      for (at = n; at > 0 && cut[at - 1].top + cut[at - 1].bottom > top + bottom; at--)
        cut[at] = cut[at - 1];
      cut[at].top = top;
      cut[at].bottom = bottom;
      n++;
    }
  for (guint i = 0; i + 1 < n; i += 2)
    add_trapezoid (self, (Trapezoid) { cut[i].top, cut[i + 1].top, cut[i].bottom, cut[i + 1].bottom });
  slab->n = self->n_trapezoids - slab->first;
}

void
odd_slabs_set (OddSlabs   *self,
               OddPolygon *polygon,
               double      turn_deg,
               gboolean    mirror)
{
  const guint n_holes = odd_polygon_get_n_holes (polygon);
  gsize n = 0;
  const OddPoint *ring = odd_polygon_get_ring (polygon, &n);
  guint first = n;

  make_room (self, odd_polygon_get_n_corners (polygon));
  self->n_corners = self->n_sides = self->n_slabs = self->n_trapezoids = 0;

  add_ring (self, ring, n, turn_deg, mirror);
  for (guint i = 0; i < n_holes; i++)
    {
      gsize n_hole = 0;
      const OddPoint *hole = odd_polygon_get_hole (polygon, i, &n_hole);

      add_ring (self, hole, n_hole, turn_deg, mirror);
    }
  sort_by_height (self);
  set_levels (self);

  add_sides (self, 0, n);
  for (guint i = 0; i < n_holes; i++)
    {
      gsize n_hole = 0;

      odd_polygon_get_hole (polygon, i, &n_hole);
      add_sides (self, first, n_hole);
      first += n_hole;
    }
  for (guint i = 0; i + 1 < self->n_levels; i++)
    add_slab (self, i);
}

double
odd_slabs_get_height (const OddSlabs *self)
{
  return self->levels[self->n_levels - 1] - self->levels[0];
}

double
odd_slabs_get_width (const OddSlabs *self)
{
  double widest = 0.0;

  for (guint i = 0; i < self->n_trapezoids; i++)
    {
      const Trapezoid *t = &self->trapezoids[i];

      widest = MAX (widest, MAX (t->top_right - t->top_left, t->bottom_right - t->bottom_left));
    }

  return widest;
}

/* How far down from its upper level a trapezoid of these two spare widths holds the channel: @from .. @to in parts of its height. */
static gboolean
spare_span (double  top,
            double  bottom,
            double *from,
            double *to)
{
  if (top < 0.0 && bottom < 0.0)
    return FALSE;

  *from = top >= 0.0 ? 0.0 : top / (top - bottom);
  *to = bottom >= 0.0 ? 1.0 : top / (top - bottom);

  return TRUE;
}

double
odd_slabs_bound (const OddSlabs *self,
                 double          width_mm)
{
  double best = 0.0, run = 0.0;

  for (guint i = 0; i < self->n_slabs; i++)
    {
      const Slab *slab = &self->slabs[i];
      double first = 1.0, last = 0.0;

      for (guint k = 0; k < slab->n; k++)
        {
          const Trapezoid *t = &self->trapezoids[slab->first + k];
          double from, to;

          if (!spare_span (t->top_right - t->top_left - width_mm + SLACK_MM, t->bottom_right - t->bottom_left - width_mm + SLACK_MM, &from, &to))
            continue;
          first = MIN (first, from);
          last = MAX (last, to);
        }
      if (first > last)
        {
          run = 0.0;
          continue;
        }
      run = (first > 0.0 ? 0.0 : run) + (last - first) * (slab->bottom - slab->top);
      best = MAX (best, run);
      if (last < 1.0)
        run = 0.0;
    }

  return best;
}

static void
add_start (OddSlabs *self,
           guint     slab,
           guint     trapezoid,
           double    part)
{
  const Trapezoid *e = &self->eroded[trapezoid];
  const Slab *s = &self->slabs[slab];
  Start start = { e->top_left + part * (e->bottom_left - e->top_left), s->top + part * (s->bottom - s->top), slab, trapezoid };

  self->starts[self->n_starts++] = start;
  start.x = e->top_right + part * (e->bottom_right - e->top_right);
  self->starts[self->n_starts++] = start;
}

/* Does the slab above end in the very corners in which this trapezoid begins? Then they are tried from there. */
static gboolean
goes_on (const OddSlabs *self,
         guint           slab,
         guint           trapezoid)
{
  const Trapezoid *e = &self->trapezoids[trapezoid];

  for (guint k = slab > 0 ? self->slabs[slab - 1].first : 0; slab > 0 && k < self->slabs[slab].first; k++)
    {
      const Trapezoid *above = &self->trapezoids[k];

      if (fabs (above->bottom_left - e->top_left) < SLACK_MM && fabs (above->bottom_right - e->top_right) < SLACK_MM)
        return TRUE;
    }

  return FALSE;
}

/* Shears the trapezoids, takes the width off, and notes all corners of what is left. */
static void
erode (OddSlabs *self,
       double    shear,
       double    width_mm)
{
  self->n_starts = 0;
  for (guint i = 0; i < self->n_slabs; i++)
    {
      const Slab *slab = &self->slabs[i];

      for (guint k = slab->first; k < slab->first + slab->n; k++)
        {
          const Trapezoid *t = &self->trapezoids[k];
          Trapezoid *e = &self->eroded[k];
          double from, to;

          e->top_left = t->top_left - shear * slab->top;
          e->top_right = t->top_right - shear * slab->top - width_mm + SLACK_MM;
          e->bottom_left = t->bottom_left - shear * slab->bottom;
          e->bottom_right = t->bottom_right - shear * slab->bottom - width_mm + SLACK_MM;
          if (!spare_span (e->top_right - e->top_left, e->bottom_right - e->bottom_left, &from, &to))
            continue;
          if (from > 0.0 || !goes_on (self, i, k))
            add_start (self, i, k, from);
          add_start (self, i, k, to);
        }
    }
}

/* Narrows @from .. @to (parts of the slab's height) to where top + t * (bottom - top) >= -SLACK_MM. */
static void
narrow (double  top,
        double  bottom,
        double *from,
        double *to)
{
  const double t = top + SLACK_MM;
  const double b = bottom + SLACK_MM;

  if (t < 0.0)
    *from = MAX (*from, b < 0.0 ? 2.0 : t / (t - b));
  if (b < 0.0)
    *to = MIN (*to, t < 0.0 ? -1.0 : t / (t - b));
}

static gboolean
span_at (const OddSlabs *self,
         guint           trapezoid,
         double          x,
         double         *from,
         double         *to)
{
  const Trapezoid *e = &self->eroded[trapezoid];

  *from = 0.0;
  *to = 1.0;
  narrow (x - e->top_left, x - e->bottom_left, from, to);
  narrow (e->top_right - x, e->bottom_right - x, from, to);

  return *from <= *to;
}

/* The y to which a run at @x goes on above the slab; its upper level when it does not. */
static double
reach_up (const OddSlabs *self,
          guint           slab,
          double          x)
{
  double y = self->slabs[slab].top;

  while (slab-- > 0)
    {
      const Slab *s = &self->slabs[slab];
      double from = 1.0, to = 0.0;

      for (guint k = s->first; k < s->first + s->n && !(span_at (self, k, x, &from, &to) && to >= 1.0); k++)
        from = to = -1.0;
      if (to < 1.0)
        return y;
      y = s->top + from * (s->bottom - s->top);
      if (from > 0.0)
        return y;
    }

  return y;
}

static double
reach_down (const OddSlabs *self,
            guint           slab,
            double          x)
{
  double y = self->slabs[slab].bottom;

  while (++slab < self->n_slabs)
    {
      const Slab *s = &self->slabs[slab];
      double from = 1.0, to = 0.0;

      for (guint k = s->first; k < s->first + s->n && !(span_at (self, k, x, &from, &to) && from <= 0.0); k++)
        from = to = 2.0;
      if (from > 0.0)
        return y;
      y = s->top + to * (s->bottom - s->top);
      if (to < 1.0)
        return y;
    }

  return y;
}

/* The upright run through a corner of the eroded cloth. */
static double
run_through (const OddSlabs *self,
             const Start    *start,
             double         *out_y)
{
  const Slab *slab = &self->slabs[start->slab];
  double from, to, bottom;

  if (!span_at (self, start->trapezoid, start->x, &from, &to))
    return 0.0;
  *out_y = from > 0.0 ? slab->top + from * (slab->bottom - slab->top) : reach_up (self, start->slab, start->x);
  bottom = to < 1.0 ? slab->top + to * (slab->bottom - slab->top) : reach_down (self, start->slab, start->x);

  return bottom - *out_y;
}

gboolean
odd_slabs_tallest (OddSlabs   *self,
                   double      shear,
                   double      width_mm,
                   OddChannel *out)
{
  OddChannel best = { 0.0, 0.0, 0.0 };

  erode (self, shear, width_mm);
  for (guint i = 0; i < self->n_starts; i++)
    {
      const Start *start = &self->starts[i];
      double y = 0.0;
      const double height = run_through (self, start, &y);
      /* equal but for rounding: the leftmost, so that every processor finds the same */
      const gboolean equal = fabs (height - best.height) <= SAME_LEVEL_MM;

      if ((equal && start->x < best.x - SAME_LEVEL_MM) || (!equal && height > best.height))
        best = (OddChannel) { start->x, y, height };
    }
  if (best.height <= 0.0)
    return FALSE;

  *out = best;

  return TRUE;
}

gboolean
odd_slabs_hold_square (OddSlabs *self,
                       double    side_mm)
{
  OddChannel channel;

  return odd_slabs_bound (self, side_mm) >= side_mm - SAME_LEVEL_MM
         && odd_slabs_tallest (self, 0.0, side_mm, &channel)
         && channel.height >= side_mm - SAME_LEVEL_MM;
}
