#include "config.h"

#include "drawing/colour.h"
#include "drawing/ink.h"

/* A mark is a few shapes. Each is drawn in a frame of its own, in mark px: x runs along the seam from 0 to its length, y to the side
 * that matters (loops, wedge, stitch row). A shape knows only how to lay its path; pale casing and dark ink are two strokes of
 * that path. The casings of all shapes are stroked before the ink of any: a mark must never cut its neighbour's ink or its own. That
 * order, and not the colours, is what keeps marks legible on busy cloth.
 *
 *      loops       ∩∩∩∩∩∩∩∩       here side is up for the loops, down for the wedge
 *      line     ──────────────
 *      wedge          ▼
 */

typedef enum { LINE, TICKS, LOOPS, WEDGE, STITCHES, DISC, CROSS, BRACKET, RING, BAR, TRIPLED } Form;

typedef struct
{
  Form form;
  OddPoint from;              /* mm */
  OddPoint along, side;       /* unit vectors */
  double length_px;
  double at_px;               /* where along the seam a sign sits */
  double size;                /* of a sign: 1 or smaller */
  double width_px;            /* of the ink; 0: filled */
  double casing_px;           /* added to the width, both sides together; 0: none */
  double casing_alpha;
  double dash_px[2];          /* 0: solid */
  guint32 colour;
  gboolean on_top;            /* filled in the casing's colour within */
} Shape;

struct _OddMarks
{
  OddPaintOptions options;
  OddDetail detail;
  double mm_per_px;
  GArray *shapes;             /* (element-type Shape) */
};

OddMarks *
odd_marks_new (const OddPaintOptions *options)
{
  OddMarks *self;

  g_return_val_if_fail (options != NULL && options->px_per_mm > 0.0 && options->mark_px > 0.0, NULL);

  self = g_new0 (OddMarks, 1);
  self->options = *options;
  self->detail = ODD_DETAIL_SIGNS;
  self->mm_per_px = options->mark_px / options->px_per_mm;
  self->shapes = g_array_new (FALSE, FALSE, sizeof (Shape));
  return self;
}

void
odd_marks_free (OddMarks *self)
{
  g_array_unref (self->shapes);
  g_free (self);
}

void
odd_marks_set_detail (OddMarks *self, OddDetail detail)
{
  g_return_if_fail (self != NULL);

  self->detail = detail;
}

OddDetail
odd_detail_for_size (double size_px)
{
  if (size_px < 6.0)
    return ODD_DETAIL_COLOUR;
  if (size_px < 16.0)
    return ODD_DETAIL_DONE_OR_NOT;
  if (size_px < 40.0)
    return ODD_DETAIL_LINES;
  return size_px < 120.0 ? ODD_DETAIL_SIGNS : ODD_DETAIL_WORDS;
}

/* --- paths, in the shape's own frame --- */

/* Of n things that stand @pitch apart from @start on, the first that may be seen and the one after the last: a seam may be metres
 * long and only a hand's breadth of it lie in the tile. */
static void
seen_range (cairo_t *cr, double start, double pitch, guint n, guint *out_from, guint *out_to)
{
  double x1, y1, x2, y2;

  cairo_clip_extents (cr, &x1, &y1, &x2, &y2);
  *out_from = (guint) CLAMP (floor ((x1 - start) / pitch) - 1.0, 0.0, (double) n);
  *out_to = (guint) CLAMP (ceil ((x2 - start) / pitch) + 2.0, 0.0, (double) n);
}

static void
path_ticks (cairo_t *cr, const Shape *shape)
{
  const double half = 3.6, lean = 1.5, pitch = 5.0;
  const guint n = MAX (1u, (guint) floor (shape->length_px / pitch));
  const double start = 0.5 * (shape->length_px - (n - 1) * pitch);
  guint from, to;

  seen_range (cr, start, pitch, n, &from, &to);
  /* every other one leans the other way, like threads that have sprung loose */
  for (guint i = from; i < to; i++)
    {
      const double x = start + i * pitch, tilt = (i % 2 == 0) ? lean : -lean;

      cairo_move_to (cr, x - tilt, half);
      cairo_line_to (cr, x + tilt, -half);
    }
}

static void
path_loops (cairo_t *cr, const Shape *shape)
{
  const double high = 5.0, wide = 7.0;
  const guint n = MAX (1u, (guint) floor (shape->length_px / wide));
  const double step = MIN (wide, shape->length_px / n), start = 0.5 * (shape->length_px - n * step);
  guint from, to;

  seen_range (cr, start, step, n, &from, &to);
  for (guint i = from; i < to; i++)
    {
      const double x = start + i * step;

      cairo_move_to (cr, x, 0.0);
      cairo_curve_to (cr, x, high * 4.0 / 3.0, x + step, high * 4.0 / 3.0, x + step, 0.0);
    }
}

static void
path_wedge (cairo_t *cr, const Shape *shape)
{
  const double off = 2.1, half = 5.5 * shape->size, high = 6.3 * shape->size;

  cairo_move_to (cr, shape->at_px - half, off);
  cairo_line_to (cr, shape->at_px + half, off);
  cairo_line_to (cr, shape->at_px, off + high);
  cairo_close_path (cr);
}

static void
path_cross (cairo_t *cr, const Shape *shape)
{
  const double arm = 2.6 * shape->size;

  cairo_move_to (cr, shape->at_px - arm, -arm);
  cairo_line_to (cr, shape->at_px + arm, arm);
  cairo_move_to (cr, shape->at_px - arm, arm);
  cairo_line_to (cr, shape->at_px + arm, -arm);
}

/* Its back lies on the seam that catches the end, its arms hold the end. */
static void
path_bracket (cairo_t *cr, const Shape *shape)
{
  cairo_move_to (cr, 9.0, -5.0);
  cairo_line_to (cr, 0.0, -5.0);
  cairo_line_to (cr, 0.0, 5.0);
  cairo_line_to (cr, 9.0, 5.0);
}

static void
path_tripled (cairo_t *cr, const Shape *shape)
{
  for (int i = -1; i <= 1; i++)
    {
      cairo_move_to (cr, 0.0, 3.2 * i);
      cairo_line_to (cr, 12.0, 3.2 * i);
    }
}

static void
path_round (cairo_t *cr, double x, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, 0.0, radius, 0.0, 2.0 * G_PI);
}

static void
path_straight (cairo_t *cr, double from, double to, double y)
{
  cairo_move_to (cr, from, y);
  cairo_line_to (cr, to, y);
}

static void
lay_path (cairo_t *cr, const Shape *shape)
{
  switch (shape->form)
    {
    case LINE:
      path_straight (cr, 0.0, shape->length_px, 0.0);
      break;
    case STITCHES:
      path_straight (cr, 0.0, shape->length_px, 4.4);
      break;
    case TICKS:
      path_ticks (cr, shape);
      break;
    case LOOPS:
      path_loops (cr, shape);
      break;
    case WEDGE:
      path_wedge (cr, shape);
      break;
    case DISC:
      path_round (cr, shape->at_px, 7.0 * shape->size);
      break;
    case CROSS:
      path_cross (cr, shape);
      break;
    case BRACKET:
      path_bracket (cr, shape);
      break;
    case RING:
      path_round (cr, 0.0, 4.2);
      break;
    case BAR:
      cairo_move_to (cr, -3.0, -3.0);
      cairo_line_to (cr, 3.0, 3.0);
      break;
    case TRIPLED:
      path_tripled (cr, shape);
      break;
    default:
      g_assert_not_reached ();
    }
}

static void
enter_frame (const OddMarks *self, cairo_t *cr, const Shape *shape)
{
  const double k = self->mm_per_px;
  const cairo_matrix_t matrix = { k * shape->along.x, k * shape->along.y, k * shape->side.x, k * shape->side.y, shape->from.x, shape->from.y };

  cairo_save (cr);
  cairo_transform (cr, &matrix);
  cairo_new_path (cr);
  lay_path (cr, shape);
}

static void
paint_casing (const OddMarks *self, cairo_t *cr, const Shape *shape)
{
  if (shape->casing_px <= 0.0)
    return;
  enter_frame (self, cr, shape);
  odd_set_source_rgba (cr, ODD_CASING, shape->casing_alpha);
  cairo_set_line_width (cr, shape->width_px + shape->casing_px);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
paint_ink (const OddMarks *self, cairo_t *cr, const Shape *shape)
{
  enter_frame (self, cr, shape);
  if (shape->on_top)
    {
      odd_set_source_rgba (cr, self->options.off_cloth ? self->options.table_colour : ODD_CASING, 1.0);
      cairo_fill_preserve (cr);
    }
  odd_set_source_rgba (cr, shape->colour, 1.0);
  if (shape->width_px > 0.0)
    {
      cairo_set_line_width (cr, shape->width_px);
      cairo_set_dash (cr, shape->dash_px, shape->dash_px[0] > 0.0 ? 2 : 0, 0.0);
      cairo_stroke (cr);
    }
  else
    cairo_fill (cr);
  cairo_restore (cr);
}

void
odd_marks_paint (OddMarks *self, cairo_t *cr)
{
  g_return_if_fail (self != NULL && cr != NULL);

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  for (guint i = 0; i < self->shapes->len; i++)
    paint_casing (self, cr, &g_array_index (self->shapes, Shape, i));
  for (guint i = 0; i < self->shapes->len; i++)
    paint_ink (self, cr, &g_array_index (self->shapes, Shape, i));
  cairo_restore (cr);
}

/* --- from seams to shapes --- */

static guint32
ink_of (const OddMarks *self, guint32 on_cloth)
{
  if (self->options.off_cloth)
    return on_cloth == ODD_INK ? self->options.ink_colour : on_cloth;
  return self->options.on_paper ? 0x000000 : on_cloth;
}

static Shape *
add (OddMarks *self, const Shape *base, Form form, double width_px)
{
  const gboolean bare = self->options.on_paper || self->options.off_cloth;
  Shape shape = *base;

  shape.form = form;
  shape.width_px = width_px;
  shape.casing_px = bare ? 0.0 : self->options.high_contrast ? 3.2 : 2.2;
  shape.casing_alpha = self->options.high_contrast ? 1.0 : 0.84;
  g_array_append_val (self->shapes, shape);
  return &g_array_index (self->shapes, Shape, self->shapes->len - 1);
}

static void
set_dash (Shape *shape, double on_px, double off_px)
{
  shape->dash_px[0] = on_px;
  shape->dash_px[1] = off_px;
}

static void
add_hairline (OddMarks *self, const Shape *base)
{
  Shape *line = add (self, base, LINE, self->options.high_contrast ? 1.4 : 0.85);

  if (line->casing_px > 0.0 && !self->options.high_contrast)
    {
      line->casing_px = 1.5;
      line->casing_alpha = 0.5;
    }
}

static void
add_wedge_at (OddMarks *self, const Shape *base, double at_px, gboolean both)
{
  Shape sign = *base;

  sign.at_px = at_px;
  sign.size = base->length_px < 40.0 ? 0.72 : 1.0;
  add (self, &sign, WEDGE, 0.0);
  if (!both)
    return;
  sign.side = odd_point_scale (sign.side, -1.0);
  add (self, &sign, WEDGE, 0.0);
}

static void
add_wedges (OddMarks *self, const Shape *base, gboolean both)
{
  if (base->length_px > 190.0)
    {
      add_wedge_at (self, base, 0.25 * base->length_px, both);
      add_wedge_at (self, base, 0.75 * base->length_px, both);
    }
  else if (base->length_px > 12.0)
    add_wedge_at (self, base, 0.5 * base->length_px, both);
}

static void
add_disc (OddMarks *self, const Shape *base)
{
  Shape sign = *base;

  sign.at_px = 0.5 * base->length_px;
  /* small where there is little room, but always there: colour alone must not tell it */
  sign.size = self->detail < ODD_DETAIL_SIGNS ? 0.6 : base->length_px < 24.0 ? 0.72 : 1.0;
  add (self, &sign, DISC, 0.0);
  sign.colour = ODD_CASING;
  add (self, &sign, CROSS, 1.9 * sign.size)->casing_px = 0.0;
}

static void
add_full_mark (OddMarks *self, OddMark mark, Shape *base)
{
  const gboolean signs = self->detail >= ODD_DETAIL_SIGNS;

  switch (mark)
    {
    case ODD_MARK_PLANNED:
      set_dash (add (self, base, LINE, 1.7), 7.0, 4.5);
      break;
    case ODD_MARK_SEWN:
      add (self, base, TICKS, 0.95);
      add (self, base, LINE, 1.7);
      break;
    case ODD_MARK_FINISHED:
      add (self, base, LOOPS, 1.15);
      add (self, base, LINE, 1.7);
      break;
    case ODD_MARK_PRESSED:
    case ODD_MARK_PRESSED_OPEN:
      add (self, base, LINE, 1.35);
      if (signs)
        add_wedges (self, base, mark == ODD_MARK_PRESSED_OPEN);
      break;
    case ODD_MARK_TOPSTITCHED:
      add (self, base, LINE, 1.35);
      set_dash (add (self, base, STITCHES, 1.3), 4.2, 2.4);
      break;
    case ODD_MARK_DONE:
      add_hairline (self, base);
      break;
    case ODD_MARK_RAW_INSIDE:
      base->colour = ink_of (self, ODD_RED_INK);
      add (self, base, TICKS, 0.95);
      add (self, base, LINE, 1.9);
      add_disc (self, base);
      break;
    default:
      g_assert_not_reached ();
    }
}

void
odd_marks_add_mark (OddMarks *self, OddMark mark, OddSegment line, OddPoint side)
{
  const double length_mm = odd_segment_length (line);
  Shape base = { 0 };

  g_return_if_fail (self != NULL && mark < ODD_N_MARKS);

  if (self->detail == ODD_DETAIL_COLOUR || length_mm < 0.25 * self->mm_per_px)
    return;
  base.from = line.from;
  base.along = odd_point_scale (odd_point_sub (line.to, line.from), 1.0 / length_mm);
  base.side = odd_point (-base.along.y, base.along.x);
  if (odd_point_dot (base.side, side) < 0.0)
    base.side = odd_point_scale (base.side, -1.0);
  base.length_px = length_mm / self->mm_per_px;
  base.size = 1.0;
  base.colour = ink_of (self, ODD_INK);
  if (self->detail >= ODD_DETAIL_LINES)
    add_full_mark (self, mark, &base);
  else if (mark == ODD_MARK_DONE)
    add_hairline (self, &base);
  else
    {
      base.colour = ink_of (self, mark == ODD_MARK_RAW_INSIDE ? ODD_RED_INK : ODD_INK);
      add (self, &base, LINE, 1.7);
    }
}

static OddMark
mark_of_stage (OddStage stage, OddPressed pressed)
{
  switch (stage)
    {
    case ODD_STAGE_SEWN:
      return ODD_MARK_SEWN;
    case ODD_STAGE_FINISHED:
      return ODD_MARK_FINISHED;
    case ODD_STAGE_PRESSED:
      return pressed == ODD_PRESSED_OPEN ? ODD_MARK_PRESSED_OPEN : ODD_MARK_PRESSED;
    case ODD_STAGE_DONE:
      return ODD_MARK_DONE;
    case ODD_STAGE_PLANNED:
    default:
      return ODD_MARK_PLANNED;
    }
}

void
odd_marks_add_seam (OddMarks *self, OddSegment line, OddStage stage, OddPressed pressed, const OddFinish *finish, gboolean raw_inside, OddPoint first_side_normal)
{
  const OddPressed to = odd_pressed_resolve (pressed, finish);
  const OddPoint side = to == ODD_PRESSED_TO_SECOND ? odd_point_scale (first_side_normal, -1.0) : first_side_normal;

  g_return_if_fail (self != NULL);

  odd_marks_add_mark (self, raw_inside ? ODD_MARK_RAW_INSIDE : mark_of_stage (stage, to), line, side);
}

void
odd_marks_add_end (OddMarks *self, OddPoint at, OddPoint direction, const OddEnd *end)
{
  Shape base = { 0 };

  g_return_if_fail (self != NULL && end != NULL);

  if (self->detail < ODD_DETAIL_SIGNS)
    return;
  base.from = at;
  base.along = direction;
  base.side = odd_point (-direction.y, direction.x);
  base.size = 1.0;
  base.colour = ink_of (self, ODD_INK);
  switch (end->kind)
    {
    case ODD_END_CAUGHT:
      add (self, &base, BRACKET, 2.0);
      break;
    case ODD_END_BACK_STITCHED:
      add (self, &base, TRIPLED, 1.5);
      break;
    case ODD_END_CUT:
      add (self, &base, RING, 1.7)->on_top = TRUE;
      add (self, &base, BAR, 1.7)->casing_px = 0.0;
      break;
    case ODD_END_OPEN:
    default:
      add (self, &base, RING, 1.7)->on_top = TRUE;
      break;
    }
}
