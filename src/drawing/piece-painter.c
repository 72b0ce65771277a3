/* Pieced scraps are shown through: what is painted where one lies is its own tree, as far as the shape to be filled goes.
 *
 *      +---------+-----+        The shape may reach over the finished outline of the piece into its raw edges: there the cloth of the
 *      |    .....|.....|...     patches goes on, as it does at the edges of a panel.
 *      |    :  A |  B  |  :
 *      +----:----+-----+  :
 *           :.............:
 */
#include "config.h"

#include "drawing/cloth.h"
#include "drawing/colour.h"
#include "drawing/ink.h"

#define BEYOND_MM 1e3            /* farther than any allowance: the shape that is filled ends the cloth */

/* The patch's region, going on beyond the outer edges it lies on, placed. (transfer full) (nullable) */
static OddConvex *
dup_shape (const OddPatch *patch, const OddPlacement *placement)
{
  const OddConvex *region = patch->region;
  g_autofree OddHalfPlane *planes = g_new (OddHalfPlane, region->n);
  g_autoptr(OddConvex) wide = NULL;

  for (guint i = 0; i < region->n; i++)
    planes[i] = odd_half_plane_push (odd_convex_edge_half_plane (region, i), region->labels[i] < 0 ? BEYOND_MM : 0.0);
  wide = odd_convex_new_from_half_planes (planes, region->labels, region->n);
  return wide != NULL ? odd_convex_place (wide, placement) : NULL;
}

/* A seam inside is sewn; like all that is done it is a hairline, and the ditch tells the rest. */
static void
paint_seams (cairo_t *cr, const OddLayout *layout, const OddPlacement *placement, const OddPaintOptions *options)
{
  for (guint i = 0; i < layout->n_seams; i++)
    {
      const OddLaidSeam *seam = &layout->seams[i];
      const OddPoint from = odd_placement_apply (placement, seam->raw.from), to = odd_placement_apply (placement, seam->raw.to);

      cairo_move_to (cr, from.x, from.y);
      cairo_line_to (cr, to.x, to.y);
    }
  odd_set_source_rgba (cr, options->on_paper ? 0x8c8c8c : ODD_INK, options->on_paper ? 1.0 : 0.55);
  cairo_set_line_width (cr, (options->on_paper ? 0.6 : 0.85) * options->mark_px / options->px_per_mm);
  cairo_stroke (cr);
}

void
odd_piece_fill (OddPalette *palette, cairo_t *cr, OddJob *job, OddScrap *scrap, const OddPlacement *placement, gboolean flat, const OddPaintOptions *options)
{
  g_autoptr(OddLayout) layout = odd_job_dup_piece_layout (job, scrap);
  const OddPlacement to_frame = odd_placement_compose (placement, &scrap->piece_at);
  double x1, y1, x2, y2;
  OddBox shown;

  cairo_save (cr);
  cairo_clip (cr);
  cairo_clip_extents (cr, &x1, &y1, &x2, &y2);
  shown = (OddBox) { x1, y1, x2 - x1, y2 - y1 };
  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      g_autoptr(OddConvex) shape = dup_shape (patch, &to_frame);
      const OddPlacement placed = odd_placement_compose (&to_frame, &patch->placement);

      if (shape == NULL || !odd_box_meets (odd_convex_box (shape), shown))
        continue;
      cairo_new_path (cr);
      odd_trace_convex (cr, shape);
      odd_cloth_fill (palette, cr, job, patch->scrap, patch->fabric, &placed, flat, options);
      if (!flat)
        odd_cloth_ditch (cr, shape->points, shape->n, options->show == ODD_SHOW_WRONG_SIDE, options);
    }
  if (!flat)
    paint_seams (cr, layout, &to_frame, options);
  cairo_restore (cr);
  cairo_new_path (cr);
}
