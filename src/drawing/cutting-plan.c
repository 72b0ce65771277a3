#include "config.h"

#include "drawing/cutting-plan.h"

#include <glib/gi18n.h>

#include "cloth/offcuts.h"
#include "drawing/colour.h"
#include "drawing/ink.h"
#include "drawing/painter-private.h"
#include "geometry/inscribed.h"

#define MARGIN_PX 6.0
#define GRAIN_PX 20.0          /* half the arrow's length */
#define GRAIN_ROOM_PX 46.0
#define VEIL 0.72

OddBox
odd_cutting_plan_get_box (OddJob *job, OddScrap *scrap, const OddPaintOptions *options)
{
  const double px = options->mark_px / options->px_per_mm;
  g_autoptr(OddPolygon) outline = odd_scrap_dup_outline (scrap, odd_job_get_scrap_fabric (job, scrap));
  OddBox box = odd_box_grow (odd_polygon_get_box (outline), MARGIN_PX * px);

  box.height += GRAIN_ROOM_PX * px;
  return box;
}

/* --- the grain --- */

static void
trace_head (cairo_t *cr, double x, double inward)
{
  cairo_move_to (cr, x + inward * 5.0, -3.2);
  cairo_line_to (cr, x, 0.0);
  cairo_line_to (cr, x + inward * 5.0, 3.2);
}

static guint32
ink_beside (const OddPaintOptions *options)
{
  if (options->on_paper)
    return 0x000000;
  return odd_colour_luminance (options->table_colour) > 0.2 ? 0x4d443a : 0xb9ae9d;
}

/* Below the cloth, so that it hides nothing. One-way cloth has one head, at the end it runs to. */
static void
paint_grain (OddPainter *self, OddScrap *scrap, OddFabric *fabric, OddBox box)
{
  const gboolean one_way = fabric != NULL && fabric->one_way;
  cairo_t *cr = self->cr;

  cairo_save (cr);
  cairo_translate (cr, box.x + 0.5 * box.width, box.y + box.height + (0.5 * GRAIN_ROOM_PX + 2.0) * self->px);
  cairo_scale (cr, self->px, self->px);
  cairo_rotate (cr, scrap->grain_deg * G_PI / 180.0);
  cairo_new_path (cr);
  cairo_move_to (cr, -GRAIN_PX, 0.0);
  cairo_line_to (cr, GRAIN_PX, 0.0);
  trace_head (cr, GRAIN_PX, -1.0);
  if (!one_way)
    trace_head (cr, -GRAIN_PX, 1.0);
  cairo_set_line_width (cr, 1.5);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  odd_set_source_rgba (cr, ink_beside (self->options), 1.0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* --- what is left --- */

static void
paint_waste (OddPainter *self, GPtrArray *waste)
{
  for (guint i = 0; i < waste->len; i++)
    odd_paint_trimming (self->cr, waste->pdata[i], self->options);
}

/* What is left runs round corners: words go where there is most room. */
static OddPoint
find_room (OddPolygon *piece)
{
  const double as_it_lies = 0.0;
  double turn_deg;
  OddBox box;

  if (!odd_polygon_largest_rectangle (piece, &as_it_lies, 1, ODD_TOLERANCE_MM, &turn_deg, &box))
    return odd_polygon_get_inside_point (piece);
  return odd_point (box.x + 0.5 * box.width, box.y + 0.5 * box.height);
}

static void
paint_piece (OddPainter *self, OddPolygon *piece, const char *number, OddUnit unit)
{
  const OddBox box = odd_polygon_get_box (piece);
  g_autofree char *size = odd_length_format_pair (box.width, box.height, unit);

  cairo_save (self->cr);
  cairo_set_line_join (self->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_new_path (self->cr);
  odd_trace_polygon (self->cr, piece);
  odd_stroke_cased (self->cr, self->options, 1.7, 2.2, ODD_INK);
  cairo_restore (self->cr);
  odd_paint_words (self, piece, find_room (piece), number, size);
}

static void
collect_less (GPtrArray *from, GPtrArray *minus, GPtrArray *into)
{
  for (guint i = 0; i < from->len; i++)
    {
      GPtrArray *parts = odd_polygon_difference_many (from->pdata[i], (OddPolygon *const *) minus->pdata, minus->len);

      g_ptr_array_extend_and_steal (into, parts);
    }
}

static GPtrArray *
polygons_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
}

static void
paint_offcuts (OddPainter *self, OddScrap *scrap, OddPolygon *outline, GPtrArray *cuts, OddUnit unit)
{
  g_autoptr(GPtrArray) offcuts = odd_job_dup_offcuts (self->job, scrap->id);
  g_autoptr(GPtrArray) outlines = polygons_new ();
  g_autoptr(GPtrArray) gone = polygons_new ();
  g_autoptr(GPtrArray) waste = NULL;

  for (guint i = 0; i < cuts->len; i++)
    g_ptr_array_add (gone, odd_polygon_ref (cuts->pdata[i]));
  for (guint i = 0; i < offcuts->len; i++)
    {
      OddPolygon *piece = odd_scrap_dup_outline (offcuts->pdata[i], odd_job_get_scrap_fabric (self->job, offcuts->pdata[i]));

      g_ptr_array_add (outlines, piece);
      g_ptr_array_add (gone, odd_polygon_ref (piece));
    }
  waste = odd_polygon_difference_many (outline, (OddPolygon *const *) gone->pdata, gone->len);
  paint_waste (self, waste);
  for (guint i = 0; i < offcuts->len; i++)
    {
      g_autofree char *number = g_strdup_printf (_("Scrap %u"), ((OddScrap *) offcuts->pdata[i])->number);

      paint_piece (self, outlines->pdata[i], number, unit);
    }
}

static void
paint_left_of (OddPainter *self, GPtrArray *cloth, GPtrArray *remains, OddUnit unit)
{
  g_autoptr(GPtrArray) waste = polygons_new ();

  collect_less (cloth, remains, waste);
  paint_waste (self, waste);
  for (guint i = 0; i < remains->len; i++)
    paint_piece (self, remains->pdata[i], _("left"), unit);
}

static void
paint_remains (OddPainter *self, OddScrap *scrap, OddUnit unit)
{
  g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (self->job, scrap);
  g_autoptr(GPtrArray) remains = odd_scrap_remains (self->job, scrap->id);

  paint_left_of (self, cloth, remains, unit);
}

/* --- the patches --- */

/* "5", or "Panel 2: 5" where patches of several panels lie on the scrap, or other pieces are numbered beside them. */
static char *
dup_number (OddJob *job, const OddUse *uses, guint n, guint i, const OddPatch *patch, gboolean aside)
{
  gboolean alone = !aside;
  g_autofree char *panel = NULL;

  for (guint k = 0; k < n; k++)
    alone = alone && uses[k].panel == uses[i].panel;
  if (alone)
    return g_strdup_printf ("%u", patch->number);
  panel = odd_job_dup_panel_name (job, uses[i].panel);
  return g_strdup_printf (_("%s: %u"), panel, patch->number);
}

static void
paint_frame (OddPainter *self, const OddConvex *cut, gboolean is_cut, const char *number, const char *size)
{
  g_autoptr(OddPolygon) shape = odd_polygon_new_from_convex (cut);

  cairo_new_path (self->cr);
  odd_trace_convex (self->cr, cut);
  cairo_set_line_join (self->cr, CAIRO_LINE_JOIN_ROUND);
  if (is_cut)
    odd_stroke_cased (self->cr, self->options, 1.7, 2.2, ODD_INK);
  else
    odd_stroke_cased_dashed (self->cr, self->options, 1.7, 2.2, ODD_INK, 7.0, 4.5);
  odd_paint_words (self, shape, odd_convex_centroid (cut), number, size);
}

/* Cloth that is spoken for, so that what could be cut stands out. */
static void
veil (OddPainter *self, const OddConvex *cut)
{
  cairo_new_path (self->cr);
  odd_trace_convex (self->cr, cut);
  odd_set_source_rgba (self->cr, self->options->on_paper ? 0xffffff : self->options->table_colour, VEIL);
  cairo_fill (self->cr);
}

static void
paint_use (OddPainter *self, const OddUse *uses, guint n, guint i, gboolean aside, OddUnit unit)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (self->job, uses[i].panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, uses[i].leaf->id);
  g_autoptr(OddConvex) cut = odd_use_dup_cut (self->job, &uses[i]);
  g_autofree char *number = NULL;
  g_autofree char *size = NULL;
  OddBox box;

  if (patch == NULL || cut == NULL)
    return;
  box = odd_convex_box (patch->cut);         /* along and across the panel, as it will be ruled */
  number = dup_number (self->job, uses, n, i, patch, aside);
  if (aside)
    veil (self, cut);
  size = odd_length_format_pair (box.width, box.height, unit);
  paint_frame (self, cut, uses[i].leaf->cut == ODD_STATE_DONE, number, size);
}

/* --- what could be cut --- */

static void
paint_left_by (OddPainter *self, OddScrap *scrap, const OddPossibleCut *cuts, guint n, OddUnit unit)
{
  g_autoptr(GPtrArray) cloth = odd_scrap_dup_cloth (self->job, scrap);
  g_autoptr(GPtrArray) shapes = polygons_new ();
  g_autoptr(GPtrArray) left = polygons_new ();
  g_autoptr(GPtrArray) remains = polygons_new ();

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (shapes, odd_polygon_new_from_convex (cuts[i].shape));
  collect_less (cloth, shapes, left);
  for (guint i = 0; i < left->len; i++)
    if (odd_piece_holds_square (left->pdata[i], self->job->settings.usable_square_mm))
      g_ptr_array_add (remains, odd_polygon_ref (left->pdata[i]));
  paint_left_of (self, left, remains, unit);
}

static void
paint_possible (OddPainter *self, const OddPossibleCut *cuts, guint n, OddUnit unit)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *size = cuts[i].width_mm == cuts[i].length_mm ? odd_length_format (cuts[i].width_mm, unit)
                                                                    : odd_length_format_pair (cuts[i].width_mm, cuts[i].length_mm, unit);

      paint_frame (self, cuts[i].shape, FALSE, number, size);
    }
}

void
odd_paint_cutting_plan (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, OddUnit unit, const OddPaintOptions *options)
{
  odd_paint_possible_cuts (cr, swatches, job, scrap, NULL, 0, unit, options);
}

void
odd_paint_possible_cuts (cairo_t *cr, OddSwatches *swatches, OddJob *job, OddScrap *scrap, const OddPossibleCut *cuts, guint n_cuts, OddUnit unit,
                         const OddPaintOptions *options)
{
  OddFabric *fabric;
  OddPainter painter;
  g_autoptr(OddPolygon) outline = NULL;
  g_autoptr(GPtrArray) taken = NULL;
  const OddUse *uses;
  OddBox box;
  guint n = 0;

  g_return_if_fail (cr != NULL && swatches != NULL && job != NULL && scrap != NULL && options != NULL);

  odd_paint_scrap (cr, swatches, job, scrap, FALSE, options);
  fabric = odd_job_get_scrap_fabric (job, scrap);
  outline = odd_scrap_dup_outline (scrap, fabric);
  box = odd_polygon_get_box (outline);
  uses = odd_job_get_uses (job, scrap->id, &n);
  taken = odd_scrap_dup_cut_shapes (job, scrap->id);
  odd_painter_init (&painter, cr, swatches, job, box.x + box.x + box.width, options);
  if (scrap->cut_out)
    paint_offcuts (&painter, scrap, outline, taken, unit);
  else if (n_cuts > 0)
    paint_left_by (&painter, scrap, cuts, n_cuts, unit);
  else if (n > 0)
    paint_remains (&painter, scrap, unit);
  for (guint i = 0; i < n; i++)
    paint_use (&painter, uses, n, i, n_cuts > 0, unit);
  paint_possible (&painter, cuts, n_cuts, unit);
  paint_grain (&painter, scrap, fabric, box);
  odd_painter_clear (&painter);
}
