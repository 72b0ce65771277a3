#include "config.h"
#include "ui/sheet.h"

/* Marks and shadows reach this far beyond the patch that they belong to. */
#define SPILL_MM 12.0

struct _OddSheet
{
  OddJob *job;
  OddLayout *layout;            /* one of the two */
  OddTextileLayout *textile;
  OddSwatches *swatches;
  OddPaintOptions options;
};

static void
clear_sheet (gpointer data)
{
  OddSheet *self = data;

  g_clear_pointer (&self->layout, odd_layout_unref);
  g_clear_pointer (&self->textile, odd_textile_layout_unref);
  odd_swatches_unref (self->swatches);
  odd_job_unref (self->job);
}

OddSheet *
odd_sheet_new (OddJob *job, OddLayout *layout, OddTextileLayout *textile, OddSwatches *swatches, const OddPaintOptions *options)
{
  OddSheet *self;

  g_return_val_if_fail ((layout == NULL) != (textile == NULL), NULL);

  self = g_atomic_rc_box_new0 (OddSheet);
  self->job = odd_job_ref (job);
  self->layout = layout != NULL ? odd_layout_ref (layout) : NULL;
  self->textile = textile != NULL ? odd_textile_layout_ref (textile) : NULL;
  self->swatches = odd_swatches_ref (swatches);
  self->options = *options;
  return self;
}

OddSheet *
odd_sheet_ref (OddSheet *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
odd_sheet_unref (OddSheet *self)
{
  g_atomic_rc_box_release_full (self, clear_sheet);
}

/* Seen from the wrong side, x runs to the left from the finished right edge. */
static OddBox
turn_box (OddSheet *self, OddBox box, double width_mm)
{
  if (self->options.show == ODD_SHOW_WRONG_SIDE)
    box.x = width_mm - box.x - box.width;
  return box;
}

OddBox
odd_sheet_get_box (OddSheet *self)
{
  OddBox box = ODD_BOX_EMPTY;

  if (self->layout != NULL)
    return turn_box (self, self->layout->raw_box, self->layout->box.width);
  for (guint i = 0; i < self->textile->n_panels; i++)
    {
      const OddHungLayout *hung = &self->textile->panels[i];
      const OddBox raw = hung->layout->raw_box;

      box = odd_box_union (box, (OddBox) { hung->at.x + raw.x, hung->at.y + raw.y, raw.width, raw.height });
    }
  box = odd_box_union (box, (OddBox) { 0, 0, self->textile->textile->target_width_mm, self->textile->textile->target_length_mm });
  return turn_box (self, box, self->textile->finished_width_mm);
}

/* --- what differs --- */

static gboolean
same_look (const OddPaintOptions *a, const OddPaintOptions *b)
{
  return a->show == b->show && a->high_contrast == b->high_contrast && a->table_colour == b->table_colour
         && a->numbers == b->numbers && a->mark_px == b->mark_px;
}

static gboolean
same_patch (const OddPatch *a, const OddPatch *b)
{
  return a->number == b->number && a->scrap == b->scrap && a->fabric == b->fabric && a->piece == b->piece
         && a->leaf->cut == b->leaf->cut && a->leaf->stayed == b->leaf->stayed && a->leaf->locked == b->leaf->locked
         && a->region != NULL && b->region != NULL && odd_convex_equal (a->region, b->region, 1e-9)
         && a->cut != NULL && b->cut != NULL && odd_convex_equal (a->cut, b->cut, 1e-9)
         && a->placement.turn_deg == b->placement.turn_deg && a->placement.mirror == b->placement.mirror
         && odd_point_distance (a->placement.shift, b->placement.shift) < 1e-9;
}

static gboolean
same_seam (const OddLaidSeam *a, const OddLaidSeam *b)
{
  return a->finish == b->finish && a->seam->progress == b->seam->progress && a->seam->pressed_to == b->seam->pressed_to
         && a->allowance_mm == b->allowance_mm
         && a->ends[0].kind == b->ends[0].kind && a->ends[1].kind == b->ends[1].kind
         && odd_point_distance (a->raw.from, b->raw.from) < 1e-9 && odd_point_distance (a->raw.to, b->raw.to) < 1e-9;
}

static void
add_convex (GArray *damage, const OddConvex *convex)
{
  OddBox box;

  if (convex == NULL)
    return;
  box = odd_box_grow (odd_convex_box (convex), SPILL_MM);
  g_array_append_val (damage, box);
}

static void
add_segment (GArray *damage, OddSegment segment)
{
  const OddPoint ends[2] = { segment.from, segment.to };
  const OddBox box = odd_box_grow (odd_box_from_points (ends, 2), SPILL_MM);

  g_array_append_val (damage, box);
}

/* Patch by patch; only panels of the same outline and as many patches and seams are worth it. */
static GArray *
compare_layouts (const OddLayout *now, const OddLayout *before)
{
  GArray *damage;

  if (now->n_patches != before->n_patches || now->n_seams != before->n_seams || !odd_convex_equal (now->raw, before->raw, 1e-9)
      || !odd_convex_equal (now->outline, before->outline, 1e-9))
    return NULL;
  damage = g_array_new (FALSE, FALSE, sizeof (OddBox));
  for (guint i = 0; i < now->n_patches; i++)
    {
      if (same_patch (&now->patches[i], &before->patches[i]))
        continue;
      add_convex (damage, now->patches[i].cut);
      add_convex (damage, before->patches[i].cut);
    }
  for (guint i = 0; i < now->n_seams; i++)
    {
      if (same_seam (&now->seams[i], &before->seams[i]))
        continue;
      add_segment (damage, now->seams[i].raw);
      add_segment (damage, before->seams[i].raw);
    }
  return damage;
}

static gboolean
same_joined (OddTextileLayout *a, OddTextileLayout *b)
{
  if (a == b)
    return TRUE;
  if (a->n_panels != b->n_panels || a->textile->target_width_mm != b->textile->target_width_mm
      || a->textile->target_length_mm != b->textile->target_length_mm)
    return FALSE;
  for (guint i = 0; i < a->n_panels; i++)
    {
      if (a->panels[i].layout != b->panels[i].layout || odd_point_distance (a->panels[i].at, b->panels[i].at) > 1e-9)
        return FALSE;
    }
  for (guint i = 0; i < a->n_joins; i++)
    {
      if (a->joins[i].join->progress != b->joins[i].join->progress || a->joins[i].finish != b->joins[i].finish
          || a->joins[i].join->pressed_to != b->joins[i].join->pressed_to)
        return FALSE;
    }
  return TRUE;
}

/* On the wrong side all boxes are turned over. */
static GArray *
turn_damage (OddSheet *self, GArray *damage)
{
  for (guint i = 0; damage != NULL && i < damage->len; i++)
    g_array_index (damage, OddBox, i) = turn_box (self, g_array_index (damage, OddBox, i), self->layout->box.width);
  return damage;
}

GArray *
odd_sheet_compare (OddSheet *self, OddSheet *before)
{
  if ((self->layout == NULL) != (before->layout == NULL) || !same_look (&self->options, &before->options))
    return NULL;
  if (self->layout == NULL)
    return same_joined (self->textile, before->textile) ? g_array_new (FALSE, FALSE, sizeof (OddBox)) : NULL;
  if (self->layout == before->layout)
    return g_array_new (FALSE, FALSE, sizeof (OddBox));
  return turn_damage (self, compare_layouts (self->layout, before->layout));
}

/* --- painting, in the workers --- */

/* The strip of the target that no panel reaches, as bare paper, under the cloth; and the target's outline above it all. */
static void
paint_missing (OddSheet *self, cairo_t *cr, const OddPaintOptions *options)
{
  const OddTextile *textile = self->textile->textile;
  const int labels[4] = { 0, 0, 0, 0 };
  g_autoptr(OddConvex) target = NULL;

  if (textile->target_width_mm <= 0 || textile->target_length_mm <= 0)
    return;
  target = odd_convex_new_rectangle ((OddBox) { 0, 0, textile->target_width_mm, textile->target_length_mm }, labels);
  odd_paint_bare (cr, target, options);
}

static void
paint_target (OddSheet *self, cairo_t *cr, const OddPaintOptions *options)
{
  const OddTextile *textile = self->textile->textile;
  const double px = options->mark_px / options->px_per_mm;
  const double dash[2] = { 7 * px, 4.5 * px };

  if (textile->target_width_mm <= 0 || textile->target_length_mm <= 0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, textile->target_width_mm, textile->target_length_mm);
  cairo_set_line_width (cr, 3.9 * px);
  cairo_set_source_rgba (cr, 1.0, 253 / 255.0, 248 / 255.0, 0.84);
  cairo_stroke_preserve (cr);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_line_width (cr, 1.7 * px);
  cairo_set_source_rgb (cr, 23 / 255.0, 18 / 255.0, 14 / 255.0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
paint_joined (OddSheet *self, cairo_t *cr, const OddPaintOptions *options)
{
  OddPaintOptions plain = *options;
  const gboolean mirrored = options->show == ODD_SHOW_WRONG_SIDE;

  plain.clip_mm = turn_box (self, options->clip_mm, self->textile->finished_width_mm);
  cairo_save (cr);
  if (mirrored)
    {
      cairo_translate (cr, self->textile->finished_width_mm, 0);
      cairo_scale (cr, -1, 1);
    }
  paint_missing (self, cr, &plain);
  cairo_restore (cr);
  odd_paint_textile (cr, self->swatches, self->job, self->textile, options);
  cairo_save (cr);
  if (mirrored)
    {
      cairo_translate (cr, self->textile->finished_width_mm, 0);
      cairo_scale (cr, -1, 1);
    }
  paint_target (self, cr, &plain);
  cairo_restore (cr);
}

static void
paint_sheet (cairo_t *cr, gpointer content, double device_px_per_mm, int scale_factor, OddBox clip_mm)
{
  OddSheet *self = content;
  OddPaintOptions options = self->options;

  options.px_per_mm = device_px_per_mm;
  options.mark_px = self->options.mark_px * scale_factor;
  options.clip_mm = clip_mm;
  cairo_set_source_rgb (cr, (options.table_colour >> 16) / 255.0, (options.table_colour >> 8 & 0xff) / 255.0, (options.table_colour & 0xff) / 255.0);
  cairo_paint (cr);
  if (self->layout == NULL)
    paint_joined (self, cr, &options);
  else
    odd_paint_panel (cr, self->swatches, self->job, self->layout, NULL, &options);
}

static gpointer
ref_sheet (gpointer content)
{
  return odd_sheet_ref (content);
}

static void
unref_sheet (gpointer content)
{
  odd_sheet_unref (content);
}

const OddTileContent odd_sheet_tile_content = { paint_sheet, ref_sheet, unref_sheet };
