/* The intersection of half-planes.
 *
 * Sorted by the direction of their normals, the half-planes are taken one after the other; a new one throws out those
 * at either end of the row whose corner it cuts off. O(n log n); the method is in every textbook of computational
 * geometry (from memory).
 */
#include "config.h"

#include "geometry/convex.h"

typedef struct
{
  OddHalfPlane plane;
  int label;
  double angle;
  guint index;
} Side;

typedef struct
{
  Side *sides;
  guint first;
  guint end;      /* one past the last */
} Row;

static int
compare_sides (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const Side *p = a;
  const Side *q = b;

  if (p->angle != q->angle)
    return p->angle < q->angle ? -1 : 1;

  return p->index < q->index ? -1 : 1;
}

static Side *
sort_sides (const OddHalfPlane *planes,
            const int          *labels,
            guint               n)
{
  Side *sides = g_new (Side, n);

  for (guint i = 0; i < n; i++)
    {
      sides[i].plane = planes[i];
      sides[i].label = labels[i];
      /* + 0.0 makes one zero of two, so that the left-hand side has one angle */
      sides[i].angle = atan2 (planes[i].normal.y + 0.0, planes[i].normal.x + 0.0);
      sides[i].index = i;
    }
  g_qsort_with_data (sides, (int) n, sizeof (Side), compare_sides, NULL);

  return sides;
}

static gboolean
same_direction (const Side *a,
                const Side *b)
{
  return fabs (odd_point_cross (a->plane.normal, b->plane.normal)) <= 1e-12
         && odd_point_dot (a->plane.normal, b->plane.normal) > 0.0;
}

static gboolean
cuts_corner (const Side *cutter,
             const Side *a,
             const Side *b)
{
  OddPoint corner;

  return odd_half_plane_meet (a->plane, b->plane, &corner)
         && odd_half_plane_distance (cutter->plane, corner) > 0.0;
}

static void
trim_row (Row        *row,
          const Side *cutter)
{
  Side *s = row->sides;

  while (row->end - row->first >= 2 && cuts_corner (cutter, &s[row->end - 2], &s[row->end - 1]))
    row->end--;
  while (row->end - row->first >= 2 && cuts_corner (cutter, &s[row->first], &s[row->first + 1]))
    row->first++;
}

/* The row is kept at the start of @sides: it is never longer than what has been read. */
static Row
keep_needed (Side *sides,
             guint n)
{
  Row row = { sides, 0, 0 };

  for (guint i = 0; i < n; i++)
    {
      const Side side = sides[i];

      if (row.end > row.first && same_direction (&sides[row.end - 1], &side))
        {
          if (side.plane.offset_mm >= sides[row.end - 1].plane.offset_mm)
            continue;
          row.end--;
        }
      trim_row (&row, &side);
      sides[row.end++] = side;
    }

  if (row.end - row.first >= 2 && same_direction (&sides[row.first], &sides[row.end - 1]))
    {
      if (sides[row.first].plane.offset_mm <= sides[row.end - 1].plane.offset_mm)
        row.end--;
      else
        row.first++;
    }
  while (row.end - row.first > 2 && cuts_corner (&sides[row.first], &sides[row.end - 2], &sides[row.end - 1]))
    row.end--;
  while (row.end - row.first > 2 && cuts_corner (&sides[row.end - 1], &sides[row.first], &sides[row.first + 1]))
    row.first++;

  return row;
}

/* FALSE where the row is open: unbounded, or nothing is left. */
static gboolean
find_corners (const Row *row,
              OddPoint  *corners,
              int       *labels)
{
  const guint n = row->end - row->first;

  for (guint i = 0; i < n; i++)
    {
      const Side *side = &row->sides[row->first + i];
      const Side *before = &row->sides[row->first + (i + n - 1) % n];

      if (odd_point_cross (before->plane.normal, side->plane.normal) <= 0.0
          || !odd_half_plane_meet (before->plane, side->plane, &corners[i]))
        return FALSE;
      labels[i] = side->label;
    }

  return TRUE;
}

/* An empty intersection leaves a row too, but its corners lie outside. */
static gboolean
lie_inside (const OddPoint     *corners,
            guint               n_corners,
            const OddHalfPlane *planes,
            guint               n_planes)
{
  for (guint i = 0; i < n_corners; i++)
    for (guint k = 0; k < n_planes; k++)
      if (odd_half_plane_distance (planes[k], corners[i]) > ODD_TOLERANCE_MM)
        return FALSE;

  return TRUE;
}

OddConvex *
odd_convex_new_from_half_planes (const OddHalfPlane *planes,
                                 const int          *labels,
                                 guint               n)
{
  g_autofree Side *sides = NULL;
  g_autofree OddPoint *corners = NULL;
  g_autofree int *corner_labels = NULL;
  Row row;

  g_return_val_if_fail (n == 0 || (planes != NULL && labels != NULL), NULL);

  if (n < 3)
    return NULL;

  sides = sort_sides (planes, labels, n);
  row = keep_needed (sides, n);
  if (row.end - row.first < 3)
    return NULL;

  corners = g_new (OddPoint, row.end - row.first);
  corner_labels = g_new (int, row.end - row.first);
  if (!find_corners (&row, corners, corner_labels)
      || !lie_inside (corners, row.end - row.first, planes, n))
    return NULL;

  return odd_convex_new (corners, corner_labels, row.end - row.first);
}
