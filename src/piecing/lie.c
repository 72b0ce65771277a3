#include "config.h"

#include "piecing/lie.h"

#define MOST_CORNERS 48            /* of a part or a shape; what has more is not tried */
#define BEYOND_MM 5e-7             /* half the tolerance: a shape as large as the piece fits */
#define DEEPER_MM 1e-4             /* far above what BEYOND_MM lets pass */
#define FAR_MM 1e5
#define RAD (180.0 / G_PI)

typedef struct
{
  guint n;
  OddHalfPlane sides[MOST_CORNERS];
  double deep_mm[MOST_CORNERS];    /* how far it reaches back from each side */
  double area_mm2, width_mm;
} Part;

struct _OddLies
{
  Part *parts;
  guint n;
  gboolean mirror;
};

typedef struct { OddPoint points[2 * MOST_CORNERS + 8]; guint n; } Room;

gboolean
odd_turn_limits_allow (const OddTurnLimits *self,
                       double               turn_deg)
{
  for (guint i = 0; i < self->n; i++)
    if (fabs (remainder (turn_deg - self->turn_deg[i], 360.0)) <= self->within_deg + 1e-7)
      return TRUE;

  return self->n == 0;
}

/* How far the shape reaches back from one of its edges. */
static double
depth (const OddConvex *shape,
       OddHalfPlane     edge)
{
  double most_mm = 0.0;

  for (guint i = 0; i < shape->n; i++)
    most_mm = MAX (most_mm, -odd_half_plane_distance (edge, shape->points[i]));

  return most_mm;
}

static void
set_part (Part            *part,
          const OddConvex *convex,
          gboolean         mirror)
{
  part->n = convex->n;
  part->area_mm2 = odd_convex_area (convex);
  part->width_mm = odd_convex_min_width (convex);
  for (guint i = 0; i < convex->n; i++)
    {
      part->sides[i] = odd_convex_edge_half_plane (convex, i);
      part->deep_mm[i] = depth (convex, part->sides[i]);
      if (mirror)
        part->sides[i].normal.x = -part->sides[i].normal.x;
    }
}

OddLies *
odd_lies_new (OddPolygon *piece,
              gboolean    mirror)
{
  g_autoptr(OddConvexParts) parts = odd_convex_parts_new (piece);
  OddLies *self = g_new0 (OddLies, 1);

  self->parts = g_new (Part, MAX (odd_convex_parts_get_n (parts), 1));
  self->mirror = mirror;
  for (guint i = 0; i < odd_convex_parts_get_n (parts); i++)
    {
      const OddConvex *convex = odd_convex_parts_get (parts, i);

      if (convex->n <= MOST_CORNERS)
        set_part (&self->parts[self->n++], convex, mirror);
    }

  return self;
}

void
odd_lies_free (OddLies *self)
{
  if (self == NULL)
    return;
  g_free (self->parts);
  g_free (self);
}

/* --- one turn --- */

/* @turn: its cosine and sine. */
static OddPoint
turned_back (OddPoint turn,
             OddPoint p)
{
  return odd_point (turn.x * p.x + turn.y * p.y, turn.x * p.y - turn.y * p.x);
}

static double
support (const OddConvex *shape,
         OddPoint         normal)
{
  double most = -INFINITY;

  for (guint i = 0; i < shape->n; i++)
    most = MAX (most, odd_point_dot (shape->points[i], normal));

  return most;
}

/* Into @left, which is not cleared: only what counts of it is ever touched. */
static void
clip_room (const Room  *room,
           OddHalfPlane keep,
           Room        *left)
{
  double before = odd_half_plane_distance (keep, room->points[room->n - 1]);
  OddPoint from = room->points[room->n - 1];

  left->n = 0;
  for (guint i = 0; i < room->n; i++)
    {
      const OddPoint to = room->points[i];
      const double after = odd_half_plane_distance (keep, to);

      if ((before < 0.0) != (after < 0.0) && before != after)
        left->points[left->n++] = odd_point_lerp (from, to, before / (before - after));
      if (after <= 0.0)
        left->points[left->n++] = to;
      before = after;
      from = to;
    }
}

static void
set_far_room (Room *room)
{
  room->n = 4;
  room->points[0] = odd_point (-FAR_MM, -FAR_MM);
  room->points[1] = odd_point (FAR_MM, -FAR_MM);
  room->points[2] = odd_point (FAR_MM, FAR_MM);
  room->points[3] = odd_point (-FAR_MM, FAR_MM);
}

/* All shifts that keep the turned shape inside the part: in one of the two rooms, or NULL. */
static const Room *
find_room (const Part      *part,
           const OddConvex *shape,
           OddPoint         turn,
           Room             rooms[2])
{
  Room *room = &rooms[0], *left = &rooms[1];

  set_far_room (room);
  for (guint i = 0; i < part->n && room->n > 0; i++)
    {
      const OddHalfPlane side = part->sides[i];
      const double h = support (shape, turned_back (turn, side.normal));
      Room *clipped = left;

      clip_room (room, (OddHalfPlane) { side.normal, side.offset_mm - h + BEYOND_MM }, clipped);
      left = room;
      room = clipped;
    }

  return room->n > 0 ? room : NULL;
}

/* q = turn p + shift in the piece's frame; the placement is the way back. */
static void
set_placement (OddPlacement *out,
               OddPoint      turn,
               OddPoint      shift,
               gboolean      mirror)
{
  double c, s;

  *out = (OddPlacement) { -atan2 (turn.y, turn.x) * RAD, mirror, { 0.0, 0.0 } };
  if (out->turn_deg < 0.0)
    out->turn_deg += 360.0;
  odd_turn_cos_sin (out->turn_deg, &c, &s);
  out->shift = odd_point (-(c * shift.x - s * shift.y), -(s * shift.x + c * shift.y));
}

/* --- all turns --- */

typedef struct
{
  const OddLies *lies;
  const OddConvex *shape;
  const OddTurnLimits *limits;
  OddPoint normals[MOST_CORNERS];
  double deep_mm[MOST_CORNERS];
  double area_mm2, width_mm;
} Search;

static gboolean
try_turn (const Search *self,
          const Part   *part,
          OddPoint      turn,
          OddRandom    *random,
          OddPlacement *out)
{
  Room rooms[2];
  const Room *room;

  if (self->limits->n > 0 && !odd_turn_limits_allow (self->limits, -atan2 (turn.y, turn.x) * RAD))
    return FALSE;
  room = find_room (part, self->shape, turn, rooms);
  if (room == NULL)
    return FALSE;
  set_placement (out, turn, room->points[odd_random_below (random, room->n)], self->lies->mirror);

  return TRUE;
}

/* The turns that are wanted rather than flush: straight to the grain, and as far from it as may be. */
static gboolean
try_grain (const Search *self,
           const Part   *part,
           OddRandom    *random,
           OddPlacement *out)
{
  const OddTurnLimits *limits = self->limits;
  const double away[3] = { 0.0, limits->within_deg, -limits->within_deg };

  for (guint i = 0; i < limits->n; i++)
    for (guint k = 0; k < (limits->within_deg > 0.0 ? 3 : 1); k++)
      {
        double c, s;

        odd_turn_cos_sin (-(limits->turn_deg[i] + away[k]), &c, &s);
        if (try_turn (self, part, odd_point (c, s), random, out))
          return TRUE;
      }

  return FALSE;
}

static gboolean
try_part (const Search *self,
          const Part   *part,
          OddRandom    *random,
          OddPlacement *out)
{
  const guint n_turns = self->shape->n * part->n;
  const guint first = odd_random_below (random, n_turns);

  if (part->area_mm2 < self->area_mm2 - 1.0 || part->width_mm < self->width_mm - 1e-3)
    return FALSE;
  for (guint i = 0; i < n_turns; i++)
    {
      const guint at = (first + i) % n_turns;
      const OddPoint from = self->normals[at % self->shape->n];
      const OddPoint to = part->sides[at / self->shape->n].normal;

      /* flush with that side it would come out at the other: seen at once */
      if (self->deep_mm[at % self->shape->n] > part->deep_mm[at / self->shape->n] + DEEPER_MM)
        continue;
      if (try_turn (self, part, odd_point (odd_point_dot (from, to), odd_point_cross (from, to)), random, out))
        return TRUE;
    }

  return try_grain (self, part, random, out);
}

gboolean
odd_lies_find (const OddLies       *self,
               const OddConvex     *cut,
               const OddTurnLimits *limits,
               OddRandom           *random,
               OddPlacement        *out)
{
  Search search = { .lies = self, .shape = cut, .limits = limits };
  const guint first = self->n > 1 ? odd_random_below (random, self->n) : 0;

  if (cut->n > MOST_CORNERS)
    return FALSE;
  search.area_mm2 = odd_convex_area (cut);
  search.width_mm = odd_convex_min_width (cut);
  for (guint i = 0; i < cut->n; i++)
    {
      const OddHalfPlane edge = odd_convex_edge_half_plane (cut, i);

      search.normals[i] = edge.normal;
      search.deep_mm[i] = depth (cut, edge);
    }
  for (guint i = 0; i < self->n; i++)
    if (try_part (&search, &self->parts[(first + i) % self->n], random, out))
      return TRUE;

  return FALSE;
}
