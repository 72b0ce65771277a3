#include "config.h"

#include "cloth/shape.h"

#include <glib/gi18n.h>

#define LEAST_MM 10.0
#define MOST_MM 10000.0
#define NEXT_TO_NOTHING 0.001      /* of the area, that leaving one more edge out may add */

/* --- fewer corners --- */

/* What leaving edge @i out adds, mm2; INFINITY where its neighbours do not meet beyond it. */
static double
added_without (const GArray *points,
               guint         i,
               OddPoint     *out_tip)
{
  const guint n = points->len;
  const OddPoint before = g_array_index (points, OddPoint, (i + n - 1) % n);
  const OddPoint from = g_array_index (points, OddPoint, i);
  const OddPoint to = g_array_index (points, OddPoint, (i + 1) % n);
  const OddPoint after = g_array_index (points, OddPoint, (i + 2) % n);
  const OddPoint a = odd_point_sub (from, before);
  const OddPoint b = odd_point_sub (after, to);
  const double cross = odd_point_cross (a, b);
  double t;

  if (cross <= 1e-9 * hypot (a.x, a.y) * hypot (b.x, b.y))
    return INFINITY;
  t = odd_point_cross (odd_point_sub (to, from), b) / cross;
  *out_tip = odd_point_add (from, odd_point_scale (a, t));

  return 0.5 * fabs (odd_point_cross (odd_point_sub (*out_tip, from), odd_point_sub (to, from)));
}

static void
leave_out (GArray  *points,
           guint    i,
           OddPoint tip)
{
  g_array_index (points, OddPoint, i) = tip;
  g_array_remove_index (points, (i + 1) % points->len);
}

static void
simplify_outside (GArray *points,
                  double  area_mm2)
{
  while (points->len > 4)
    {
      double least = INFINITY;
      OddPoint best = { 0.0, 0.0 };
      guint at = 0;

      for (guint i = 0; i < points->len; i++)
        {
          OddPoint tip = { 0.0, 0.0 };
          const double added = added_without (points, i, &tip);

          if (added < least)
            {
              least = added;
              best = tip;
              at = i;
            }
        }
      if (!isfinite (least) || (points->len <= ODD_SHAPE_CORNERS && least > NEXT_TO_NOTHING * area_mm2))
        return;
      leave_out (points, at, best);
    }
}

/* --- hull and margin --- */

static OddConvex *
push_out (OddConvex *hull,
          double     margin_mm)
{
  g_autofree double *margins_mm = g_new (double, hull->n);

  for (guint i = 0; i < hull->n; i++)
    margins_mm[i] = margin_mm;

  return margin_mm > 0.0 ? odd_convex_cut_shape (hull, margins_mm) : odd_convex_ref (hull);
}

static OddConvex *
with_few_corners (OddConvex *round)
{
  g_autoptr(GArray) points = g_array_new (FALSE, FALSE, sizeof (OddPoint));
  g_autofree int *labels = NULL;
  OddBox box;

  g_array_append_vals (points, round->points, round->n);
  simplify_outside (points, odd_convex_area (round));
  labels = g_new (int, points->len);
  box = odd_box_from_points ((const OddPoint *) points->data, points->len);
  for (guint i = 0; i < points->len; i++)
    {
      OddPoint *point = &g_array_index (points, OddPoint, i);

      labels[i] = (int) i;
      *point = odd_point_sub (*point, odd_point (box.x, box.y));
    }

  return odd_convex_new ((const OddPoint *) points->data, labels, points->len);
}

OddConvex *
odd_shape_new_round (OddPolygon *outline,
                     double      margin_mm,
                     GError    **error)
{
  g_autoptr(OddConvex) hull = NULL;
  g_autoptr(OddConvex) round = NULL;
  g_autoptr(OddConvex) shape = NULL;
  OddBox box;

  g_return_val_if_fail (outline != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!(margin_mm >= 0.0 && margin_mm <= 1000.0))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("The margin is %.1f mm; it must be between 0 and 1 m."), margin_mm);
      return NULL;
    }
  hull = odd_polygon_convex_hull (outline);
  round = hull != NULL ? push_out (hull, margin_mm) : NULL;
  shape = round != NULL ? with_few_corners (round) : NULL;
  box = shape != NULL ? odd_convex_box (shape) : (OddBox) { 0.0, 0.0, 0.0, 0.0 };
  if (shape == NULL || odd_convex_min_width (shape) < LEAST_MM || MAX (box.width, box.height) > MOST_MM)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("The shape measures %.1f × %.1f mm; it must be at least %.0f mm wide and at most %.0f m long."),
                   box.width, box.height, LEAST_MM, MOST_MM / 1000.0);
      return NULL;
    }

  return g_steal_pointer (&shape);
}

OddJob *
odd_job_add_shape (OddJob             *self,
                   const char         *name,
                   OddConvex          *outline,
                   const OddTreatment *treatment,
                   OddId              *out_panel_id,
                   GError            **error)
{
  g_autoptr(OddNode) leaf = NULL;
  g_autoptr(OddPanel) plain = NULL;
  g_autoptr(OddPanel) panel = NULL;
  g_autoptr(OddJob) numbered = NULL;
  OddJob values;
  OddJob *job;

  g_return_val_if_fail (self != NULL && name != NULL && outline != NULL && treatment != NULL, NULL);

  leaf = odd_node_new_bare (self->next_id + 1);
  plain = odd_panel_new (self->next_id, name, outline, NULL, leaf);
  panel = odd_panel_with_treatment (plain, treatment);
  values = *self;
  values.next_id += 2;
  numbered = odd_job_new_take (&values, error);
  job = numbered != NULL ? odd_job_insert_panel (numbered, 0, G_MAXUINT, panel, error) : NULL;
  if (job != NULL && out_panel_id != NULL)
    *out_panel_id = panel->id;

  return job;
}

OddPolygon *
odd_job_dup_only_outline (OddJob  *list,
                          GError **error)
{
  g_return_val_if_fail (list != NULL, NULL);

  if (list->scraps->len == 1)
    return odd_polygon_ref (((OddScrap *) list->scraps->pdata[0])->outline);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("The file of a shape holds %u outlines; it must hold one, written as the only scrap of a scrap list."), list->scraps->len);

  return NULL;
}
