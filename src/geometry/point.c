#include "config.h"

#include "geometry/point.h"

/* The angle in [0, 360); a tiny negative angle would round to 360 itself. */
static double
normalize_angle (double angle_deg)
{
  double a = fmod (angle_deg, 360.0);

  if (a < 0.0)
    a += 360.0;

  return a >= 360.0 ? 0.0 : a + 0.0;
}

void
odd_turn_cos_sin (double  turn_deg,
                  double *out_cos,
                  double *out_sin)
{
  const double turn = normalize_angle (turn_deg);
  const int quarters = (int) lround (turn / 90.0);
  const double rest = (turn - 90.0 * quarters) * (G_PI / 180.0);
  const double c = cos (rest);
  const double s = sin (rest);

  switch (quarters % 4)
    {
    case 0: *out_cos = c; *out_sin = s; break;
    case 1: *out_cos = -s; *out_sin = c; break;
    case 2: *out_cos = -c; *out_sin = -s; break;
    default: *out_cos = s; *out_sin = -c; break;
    }
}

static OddPoint
turn_point (OddPoint p,
            double   turn_deg)
{
  double c, s;

  odd_turn_cos_sin (turn_deg, &c, &s);

  return odd_point (c * p.x - s * p.y, s * p.x + c * p.y);
}

static OddPoint
mirror_point (OddPoint p,
              gboolean mirror)
{
  return mirror ? odd_point (-p.x, p.y) : p;
}

/* What a placement does to a direction. */
static OddPoint
place_direction (const OddPlacement *placement,
                 OddPoint            d)
{
  return turn_point (mirror_point (d, placement->mirror), placement->turn_deg);
}

OddHalfPlane
odd_half_plane_from_edge (OddPoint a,
                          OddPoint b)
{
  const double length = odd_point_distance (a, b);
  OddHalfPlane h;

  g_return_val_if_fail (length > 0.0, ((OddHalfPlane) { { 0.0, 1.0 }, 0.0 }));

  h.normal = odd_point ((b.y - a.y) / length, (a.x - b.x) / length);
  h.offset_mm = odd_point_dot (h.normal, a);

  return h;
}

OddHalfPlane
odd_half_plane_shift (OddHalfPlane h,
                      OddPoint     by)
{
  return odd_half_plane_push (h, odd_point_dot (h.normal, by));
}

OddHalfPlane
odd_half_plane_place (OddHalfPlane        h,
                      const OddPlacement *placement)
{
  h.normal = place_direction (placement, h.normal);

  return odd_half_plane_shift (h, placement->shift);
}

gboolean
odd_half_plane_meet (OddHalfPlane  a,
                     OddHalfPlane  b,
                     OddPoint     *out)
{
  const double sine = odd_point_cross (a.normal, b.normal);

  if (fabs (sine) <= 1e-12)
    return FALSE;

  *out = odd_point ((a.offset_mm * b.normal.y - b.offset_mm * a.normal.y) / sine,
                    (a.normal.x * b.offset_mm - b.normal.x * a.offset_mm) / sine);

  return TRUE;
}

OddPoint
odd_placement_apply (const OddPlacement *self,
                     OddPoint            p)
{
  return odd_point_add (place_direction (self, p), self->shift);
}

OddPoint
odd_placement_undo (const OddPlacement *self,
                    OddPoint            p)
{
  const OddPoint turned = turn_point (odd_point_sub (p, self->shift), -self->turn_deg);

  return mirror_point (turned, self->mirror);
}

OddPlacement
odd_placement_compose (const OddPlacement *outer,
                       const OddPlacement *inner)
{
  OddPlacement both;

  /* A mirror that comes after a turn makes it a turn the other way. */
  both.turn_deg = normalize_angle (outer->turn_deg + (outer->mirror ? -inner->turn_deg : inner->turn_deg));
  both.mirror = !outer->mirror != !inner->mirror;
  both.shift = odd_placement_apply (outer, inner->shift);

  return both;
}

OddPlacement
odd_placement_inverse (const OddPlacement *self)
{
  OddPlacement inverse;

  inverse.turn_deg = normalize_angle (self->mirror ? self->turn_deg : -self->turn_deg);
  inverse.mirror = self->mirror;
  inverse.shift = odd_point (0.0, 0.0);
  inverse.shift = odd_point_scale (odd_placement_apply (&inverse, self->shift), -1.0);

  return inverse;
}

double
odd_placement_apply_angle (const OddPlacement *self,
                           double              angle_deg)
{
  const double mirrored = self->mirror ? 180.0 - angle_deg : angle_deg;

  return normalize_angle (mirrored + self->turn_deg);
}

OddBox
odd_box_from_points (const OddPoint *points,
                     gsize           n)
{
  double left, right, top, bottom;

  if (n == 0)
    return ODD_BOX_EMPTY;

  left = right = points[0].x;
  top = bottom = points[0].y;
  for (gsize i = 1; i < n; i++)
    {
      left = MIN (left, points[i].x);
      right = MAX (right, points[i].x);
      top = MIN (top, points[i].y);
      bottom = MAX (bottom, points[i].y);
    }

  return (OddBox) { left, top, right - left, bottom - top };
}

OddBox
odd_box_union (OddBox a,
               OddBox b)
{
  double left, top;

  if (odd_box_is_empty (a))
    return b;
  if (odd_box_is_empty (b))
    return a;

  left = MIN (a.x, b.x);
  top = MIN (a.y, b.y);

  return (OddBox) { left, top,
                    MAX (a.x + a.width, b.x + b.width) - left,
                    MAX (a.y + a.height, b.y + b.height) - top };
}

OddBox
odd_box_grow (OddBox b,
              double by_mm)
{
  if (odd_box_is_empty (b))
    return b;

  return (OddBox) { b.x - by_mm, b.y - by_mm, b.width + 2.0 * by_mm, b.height + 2.0 * by_mm };
}

gboolean
odd_box_meets (OddBox a,
               OddBox b)
{
  if (odd_box_is_empty (a) || odd_box_is_empty (b))
    return FALSE;

  return a.x <= b.x + b.width && b.x <= a.x + a.width
         && a.y <= b.y + b.height && b.y <= a.y + a.height;
}

gboolean
odd_box_contains (OddBox   b,
                  OddPoint p)
{
  return !odd_box_is_empty (b)
         && p.x >= b.x && p.x <= b.x + b.width
         && p.y >= b.y && p.y <= b.y + b.height;
}

double
odd_segment_length (OddSegment s)
{
  return odd_point_distance (s.from, s.to);
}

double
odd_segment_distance (OddSegment s,
                      OddPoint   p)
{
  const OddPoint along = odd_point_sub (s.to, s.from);
  const double length2 = odd_point_dot (along, along);
  double t = 0.0;

  if (length2 > 0.0)
    t = CLAMP (odd_point_dot (odd_point_sub (p, s.from), along) / length2, 0.0, 1.0);

  return odd_point_distance (p, odd_point_lerp (s.from, s.to, t));
}

double
odd_ring_area (const OddPoint *points,
               gsize           n)
{
  double twice = 0.0;

  /* Taken from the first corner, so that a small ring far from the origin loses no digits. */
  for (gsize i = 1; i + 1 < n; i++)
    twice += odd_point_cross (odd_point_sub (points[i], points[0]), odd_point_sub (points[i + 1], points[0]));

  return twice / 2.0;
}
