#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter-private.h"

/* Leaves @hole out of what is painted from here on; @all holds everything painted. */
static void
clip_out (cairo_t *cr, OddPolygon *hole, OddBox all)
{
  cairo_new_path (cr);
  cairo_rectangle (cr, all.x, all.y, all.width, all.height);
  odd_trace_polygon (cr, hole);
  cairo_clip (cr);
}

/* Holes are left out of the cloth, so that what lies behind is seen through them. */
static void
paint_holed_cloth (OddPainter *self, OddScrap *scrap, OddFabric *fabric, OddPolygon *outline)
{
  const OddPlacement identity = ODD_PLACEMENT_IDENTITY;
  const OddBox all = odd_box_grow (odd_box_union (odd_polygon_get_box (outline), odd_scrap_get_box (scrap)), 1000.0);
  const gboolean flat = sqrt (odd_polygon_get_area (outline)) < 6.0 * self->px;
  cairo_matrix_t wash, before;

  odd_cloth_get_wash (scrap, fabric, &wash);
  cairo_save (self->cr);
  cairo_set_fill_rule (self->cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_get_matrix (self->cr, &before);
  cairo_transform (self->cr, &wash);
  for (guint i = 0; i < scrap->n_zones; i++)
    if (scrap->zones[i].kind == ODD_ZONE_HOLE)
      clip_out (self->cr, scrap->zones[i].outline, all);
  cairo_set_matrix (self->cr, &before);
  cairo_new_path (self->cr);
  odd_trace_polygon (self->cr, outline);
  odd_cloth_fill (self->palette, self->cr, self->job, scrap, fabric, &identity, flat, self->options);
  cairo_restore (self->cr);
}

static void
paint_zone (OddPainter *self, const OddZone *zone)
{
  cairo_t *cr = self->cr;

  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_new_path (cr);
  odd_trace_polygon (cr, zone->outline);
  if (zone->kind != ODD_ZONE_HOLE && !self->options->on_paper)
    {
      odd_set_source_rgba (cr, zone->kind == ODD_ZONE_STAIN ? 0x7a4a00 : ODD_CASING, 0.40);
      cairo_fill_preserve (cr);
    }
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  odd_stroke_cased_dashed (cr, self->options, 1.3, 2.2, ODD_INK, zone->allowance_only ? 2.0 : 4.0, zone->allowance_only ? 2.4 : 2.6);
  cairo_restore (cr);
}

/* A cross over cloth that is kept out altogether tells it from what may lie in an allowance, in shape as well as in dash. */
static void
cross_out (OddPainter *self, const OddZone *zone)
{
  const OddPoint at = odd_polygon_get_inside_point (zone->outline);
  const double arm = 3.0 * self->px;

  if (zone->allowance_only || odd_polygon_get_area (zone->outline) < 100.0 * self->px * self->px)
    return;
  cairo_move_to (self->cr, at.x - arm, at.y - arm);
  cairo_line_to (self->cr, at.x + arm, at.y + arm);
  cairo_move_to (self->cr, at.x - arm, at.y + arm);
  cairo_line_to (self->cr, at.x + arm, at.y - arm);
  odd_stroke_cased (self->cr, self->options, 1.3, 2.2, ODD_INK);
}

/* (transfer full) (nullable) The cut shape of a use, back in the scrap's frame. */
static OddPolygon *
dup_used (OddJob *job, const OddUse *use)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, use->panel->id);
  const OddPatch *patch = layout != NULL ? odd_layout_find_patch (layout, use->leaf->id) : NULL;
  g_autoptr(OddPolygon) cut = NULL;
  OddPlacement back;

  if (patch == NULL || patch->cut == NULL)
    return NULL;
  back = odd_placement_inverse (&patch->placement);
  cut = odd_polygon_new_from_convex (patch->cut);
  return cut != NULL ? odd_polygon_place (cut, &back) : NULL;
}

static void
paint_zones (OddPainter *self, OddScrap *scrap, OddFabric *fabric)
{
  cairo_matrix_t wash;

  odd_cloth_get_wash (scrap, fabric, &wash);
  cairo_save (self->cr);
  cairo_transform (self->cr, &wash);
  for (guint i = 0; i < scrap->n_zones; i++)
    {
      paint_zone (self, &scrap->zones[i]);
      if (scrap->zones[i].kind != ODD_ZONE_HOLE)
        cross_out (self, &scrap->zones[i]);
    }
  cairo_restore (self->cr);
}

static void
paint_uses (OddPainter *self, OddScrap *scrap)
{
  guint n;
  const OddUse *uses = odd_job_get_uses (self->job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddPolygon) used = dup_used (self->job, &uses[i]);

      if (used == NULL)
        continue;
      odd_paint_trimming (self->cr, used, self->options);
      cairo_new_path (self->cr);
      odd_trace_polygon (self->cr, used);
      odd_stroke_cased (self->cr, self->options, 1.3, 1.6, ODD_INK);
    }
}

static void
paint_outline (OddPainter *self, OddPolygon *outline)
{
  cairo_new_path (self->cr);
  odd_trace_polygon (self->cr, outline);
  cairo_set_line_join (self->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (self->cr, 1.1 * self->px);
  odd_set_source_rgba (self->cr, self->options->on_paper ? 0x000000 : odd_colour_luminance (self->options->table_colour) > 0.2 ? 0x4d443a : 0xb9ae9d, 1.0);
  cairo_stroke (self->cr);
}

void
odd_paint_scrap (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, gboolean with_uses, const OddPaintOptions *options)
{
  g_autoptr(OddPolygon) outline = NULL;
  OddFabric *fabric;
  OddPainter painter;
  OddBox box;

  g_return_if_fail (cr != NULL && swatches != NULL && job != NULL && scrap != NULL && options != NULL);

  fabric = odd_job_get_scrap_fabric (job, scrap);
  outline = odd_scrap_dup_outline (scrap, fabric);
  box = odd_polygon_get_box (outline);
  odd_painter_init (&painter, cr, swatches, job, box.x + box.x + box.width, options);
  cairo_new_path (cr);
  odd_trace_polygon (cr, outline);
  if (!options->on_paper)
    odd_cloth_shadow (cr, FALSE);
  paint_holed_cloth (&painter, scrap, fabric, outline);
  paint_zones (&painter, scrap, fabric);
  if (with_uses)
    paint_uses (&painter, scrap);
  paint_outline (&painter, outline);
  odd_painter_clear (&painter);
}

void
odd_paint_cloth (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, const OddPlacement *placement, OddPolygon *polygon, const OddPaintOptions *options)
{
  g_autoptr(OddPalette) palette = NULL;

  g_return_if_fail (cr != NULL && swatches != NULL && job != NULL && scrap != NULL && placement != NULL && polygon != NULL && options != NULL);

  palette = odd_palette_new (swatches, options);
  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_new_path (cr);
  odd_trace_polygon (cr, polygon);
  odd_cloth_fill (palette, cr, job, scrap, odd_job_get_scrap_fabric (job, scrap), placement, FALSE, options);
  cairo_restore (cr);
}

void
odd_paint_shadow_in_hand (cairo_t *cr, OddPolygon *polygon, const OddPaintOptions *options)
{
  g_return_if_fail (cr != NULL && polygon != NULL && options != NULL);

  if (options->on_paper)
    return;
  cairo_new_path (cr);
  odd_trace_polygon (cr, polygon);
  odd_cloth_shadow (cr, TRUE);
  cairo_new_path (cr);
}

cairo_surface_t *
odd_scrap_render (OddJob *job, OddSwatches *swatches, OddScrap *scrap, double px_per_mm, double mark_px)
{
  const double margin_px = 2.0 * mark_px;
  g_autoptr(OddPolygon) outline = NULL;
  cairo_surface_t *surface;
  OddPaintOptions options;
  cairo_t *cr;
  OddBox box;

  g_return_val_if_fail (job != NULL && swatches != NULL && scrap != NULL && px_per_mm > 0.0 && mark_px > 0.0, NULL);

  outline = odd_scrap_dup_outline (scrap, odd_job_get_scrap_fabric (job, scrap));
  box = odd_polygon_get_box (outline);
  odd_paint_options_init (&options);
  options.px_per_mm = px_per_mm;
  options.mark_px = mark_px;
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) ceil (box.width * px_per_mm + 2.0 * margin_px), (int) ceil (box.height * px_per_mm + 2.0 * margin_px));
  cr = cairo_create (surface);
  cairo_translate (cr, margin_px, margin_px);
  cairo_scale (cr, px_per_mm, px_per_mm);
  cairo_translate (cr, -box.x, -box.y);
  odd_paint_scrap (cr, swatches, job, scrap, TRUE, &options);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}
