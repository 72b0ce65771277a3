#include "config.h"

#include "piecing/straighten.h"
#include "cloth/line-move.h"

#include <glib/gi18n.h>

#define GOLDEN 0.6180339887498949
#define SLOPE_EXACT 1e-5
#define WORTH_SEEING_MM 0.05
/* Allowances that a corner can lack, between two lines that lean by 60 degrees at most. */
#define CORNERS 3.0

typedef struct
{
  OddLineMove *move;
  const OddConvex *outline;
  double middle_x;
  double allowance_mm;       /* the largest of the panel's edges */
} End;

/* The line of this slope, pushed out as far as the cloth allows; its height over the middle, -INFINITY: it cannot lie there. */
static double
push_out (const End    *end,
          double        slope,
          OddHalfPlane *out,
          OddStop      *out_stop)
{
  const OddPoint way = odd_line_move_get_line (end->move).normal;
  const double length = hypot (slope, 1.0);
  OddHalfPlane line = { { -slope * way.y / length, way.y / length }, INFINITY };
  double by_mm;

  for (guint i = 0; i < end->outline->n; i++)
    if (odd_point_dot (odd_convex_edge_half_plane (end->outline, i).normal, way) > M_SQRT1_2)
      {
        line.offset_mm = MIN (line.offset_mm, odd_point_dot (line.normal, end->outline->points[i]));
        line.offset_mm = MIN (line.offset_mm, odd_point_dot (line.normal, end->outline->points[(i + 1) % end->outline->n]));
      }
  by_mm = odd_line_move_get_reach (end->move, line, out_stop);
  if (by_mm < 0.0 && out_stop->kind == ODD_STOP_CUT)
    {
      /* what is cut slanting lacks the corners of a square end's allowance */
      line.offset_mm -= CORNERS * end->allowance_mm;
      by_mm = odd_line_move_get_reach (end->move, line, out_stop);
    }
  if (by_mm < 0.0)
    return -INFINITY;
  *out = odd_half_plane_push (line, by_mm);
  return (out->offset_mm - out->normal.x * end->middle_x) / fabs (out->normal.y);
}

/* Golden section, as the height is concave in the slope. */
static double
find_best (const End    *end,
           double        most_slope,
           OddHalfPlane *out)
{
  double from = -most_slope, to = most_slope, best;
  OddStop stop;
  OddHalfPlane line;
  double best_slope = 0.0;

  while (to - from > SLOPE_EXACT)
    {
      const double low = to - GOLDEN * (to - from), high = from + GOLDEN * (to - from);

      if (push_out (end, low, &line, &stop) < push_out (end, high, &line, &stop))
        from = low;
      else
        to = high;
    }
  best_slope = (from + to) / 2.0;
  best = push_out (end, best_slope, out, &stop);
  /* ends may be better by a hair, and the square line where all are alike */
  for (int i = -1; i <= 1; i++)
    {
      const double height = push_out (end, i * most_slope, &line, &stop);

      if (height > best + (i == 0 ? -WORTH_SEEING_MM : WORTH_SEEING_MM))
        {
          best = height;
          *out = line;
        }
    }
  return best;
}

static gboolean
is_there_already (const End    *end,
                  OddHalfPlane  line)
{
  guint n_alike = 0, n_end = 0;

  for (guint i = 0; i < end->outline->n; i++)
    {
      const OddSegment edge = odd_convex_edge (end->outline, i);
      const OddPoint way = odd_line_move_get_line (end->move).normal;

      if (odd_point_dot (odd_convex_edge_half_plane (end->outline, i).normal, way) <= M_SQRT1_2)
        continue;
      n_end++;
      n_alike += fabs (odd_half_plane_distance (line, edge.from)) < WORTH_SEEING_MM && fabs (odd_half_plane_distance (line, edge.to)) < WORTH_SEEING_MM;
    }
  return n_end == 1 && n_alike == 1;
}

static double
area_of (OddJob *job,
         OddId   panel_id)
{
  return odd_convex_area (odd_job_get_panel (job, panel_id, NULL, NULL)->outline);
}

OddJob *
odd_job_straighten_end (OddJob  *self,
                        OddId    panel_id,
                        guint    side,
                        double   most_tilt_deg,
                        double  *out_gained_mm2,
                        GError **error)
{
  g_autoptr(OddLineMove) move = odd_line_move_new_end (self, panel_id, side, error);
  End end = { move, NULL, 0.0, 0.0 };
  OddStop stop = { ODD_STOP_NONE, 0 };
  OddHalfPlane line;
  OddJob *job;
  double height;

  if (move == NULL)
    return NULL;
  end.outline = odd_line_move_get_layout (move)->outline;
  end.middle_x = odd_line_move_get_layout (move)->box.width / 2.0;
  for (guint i = 0; i < end.outline->n; i++)
    end.allowance_mm = MAX (end.allowance_mm, odd_line_move_get_layout (move)->edges[i].allowance_mm);
  height = push_out (&end, 0.0, &line, &stop);
  if (most_tilt_deg > 0.0)
    height = find_best (&end, tan (most_tilt_deg * G_PI / 180.0), &line);
  if (!isfinite (height))
    {
      g_autofree char *reason = odd_line_move_dup_reason (move, &stop);

      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, reason);
      return NULL;
    }
  if (is_there_already (&end, line))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("This end is straight, and its cloth reaches no farther. Sew something on, or choose the other end."));
      return NULL;
    }
  job = odd_line_move_apply (move, line, error);
  if (job != NULL && out_gained_mm2 != NULL)
    *out_gained_mm2 = area_of (job, panel_id) - area_of (self, panel_id);
  return job;
}
