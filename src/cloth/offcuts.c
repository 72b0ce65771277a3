/* What remains of a scrap, and which pieces of it are worth keeping. */
#include "config.h"

#include "cloth/offcuts.h"
#include "geometry/channel.h"

/* Edges shorter than this are no guide for a ruler. */
#define SHORT_EDGE_MM 5.0

static GPtrArray *
polygons_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
}

OddConvex *
odd_use_dup_cut (OddJob       *job,
                 const OddUse *use)
{
  /* apart: what a shorter neighbour would trim off is cut from the scrap all the same */
  g_autoptr(OddLayout) layout = odd_job_dup_layout_apart (job, use->panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, use->leaf->id);
  OddPlacement back;

  if (patch == NULL || patch->cut == NULL)
    return NULL;
  back = odd_placement_inverse (&patch->placement);
  return odd_convex_place (patch->cut, &back);
}

GPtrArray *
odd_scrap_dup_cut_shapes (OddJob *job,
                          OddId   scrap_id)
{
  GPtrArray *shapes = polygons_new ();
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap_id, &n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddConvex) cut = odd_use_dup_cut (job, &uses[i]);

      if (cut != NULL)
        g_ptr_array_add (shapes, odd_polygon_new_from_convex (cut));
    }
  return shapes;
}

static int
compare_areas (gconstpointer a,
               gconstpointer b)
{
  const double p = odd_polygon_get_area (*(OddPolygon **) a);
  const double q = odd_polygon_get_area (*(OddPolygon **) b);

  return (p < q) - (p > q);
}

GPtrArray *
odd_scrap_dup_cloth (OddJob   *job,
                     OddScrap *scrap)
{
  g_autoptr(GPtrArray) usable = NULL;
  g_autoptr(GPtrArray) taken = NULL;
  GPtrArray *left;

  if (scrap->cut_out)
    return polygons_new ();
  usable = odd_scrap_dup_usable (scrap, odd_job_get_scrap_fabric (job, scrap));
  taken = odd_scrap_dup_cut_shapes (job, scrap->id);
  if (taken->len == 0)
    return g_steal_pointer (&usable);

  left = polygons_new ();
  for (guint i = 0; i < usable->len; i++)
    {
      GPtrArray *pieces = odd_polygon_difference_many (usable->pdata[i], (OddPolygon *const *) taken->pdata, taken->len);

      g_ptr_array_extend_and_steal (left, pieces);
    }
  g_ptr_array_sort (left, compare_areas);

  return left;
}

/* Cheap ways to see that a piece is too small. */
static gboolean
is_surely_smaller (OddPolygon *piece,
                   double      side_mm)
{
  const OddBox box = odd_polygon_get_box (piece);

  return odd_polygon_get_area (piece) < side_mm * side_mm - ODD_TOLERANCE_MM
         || MIN (box.width, box.height) < side_mm - ODD_TOLERANCE_MM;
}

/* The turn that lays the edge along x, in [0, 90): a square has four such turns. */
static double
quarter_turn (OddPoint from,
              OddPoint to)
{
  double turn_deg = fmod (-atan2 (to.y - from.y, to.x - from.x) * 180.0 / G_PI, 90.0);

  if (turn_deg < 0.0)
    turn_deg += 90.0;

  return turn_deg > 90.0 - 1e-9 ? 0.0 : turn_deg;
}

/* Surely: the largest circle inside a region has at least the radius area / perimeter. R. Osserman, Bonnesen-style isoperimetric inequalities, Amer. Math. Monthly
 * 86 (1979), 1-29; from memory. */
static gboolean
holds_circle (OddPolygon *piece,
              double      diameter_mm)
{
  return 2.0 * odd_polygon_get_area (piece) >= diameter_mm * odd_polygon_get_perimeter (piece);
}

gboolean
odd_piece_holds_square (OddPolygon *piece,
                        double      side_mm)
{
  gsize n = 0;
  const OddPoint *ring = odd_polygon_get_ring (piece, &n);
  g_autoptr(OddSlabs) slabs = NULL;
  double last = NAN;

  if (is_surely_smaller (piece, side_mm))
    return FALSE;
  if (holds_circle (piece, side_mm * G_SQRT2))
    return TRUE;

  for (gsize i = 0; i < n; i++)
    {
      const OddPoint next = ring[(i + 1) % n];
      double turn_deg;

      if (odd_point_distance (ring[i], next) < SHORT_EDGE_MM)
        continue;
      turn_deg = quarter_turn (ring[i], next);
      if (fabs (turn_deg - last) < 0.01)
        continue;
      last = turn_deg;
      if (slabs == NULL)
        slabs = odd_slabs_new (piece, turn_deg, FALSE);
      else
        odd_slabs_set (slabs, piece, turn_deg, FALSE);
      if (odd_slabs_hold_square (slabs, side_mm))
        return TRUE;
    }

  return FALSE;
}

GPtrArray *
odd_scrap_remains (OddJob *job,
                   OddId   scrap_id)
{
  OddScrap *scrap = odd_job_get_scrap (job, scrap_id);
  GPtrArray *remains = polygons_new ();
  g_autoptr(GPtrArray) cloth = NULL;

  g_return_val_if_fail (scrap != NULL, remains);

  cloth = odd_scrap_dup_cloth (job, scrap);
  for (guint i = 0; i < cloth->len; i++)
    if (odd_piece_holds_square (cloth->pdata[i], job->settings.usable_square_mm))
      g_ptr_array_add (remains, odd_polygon_ref (cloth->pdata[i]));

  return remains;
}
