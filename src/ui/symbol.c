#include "config.h"

#include "ui/symbol.h"

#include "drawing/painter.h"

/* Seams' marks are the painter's own, used as a mask so that they take the text's colour; steps and ways of pressing are drawn on
 * a grid of 18 px. */

typedef void (*Draw) (cairo_t *cr, double width, double height);

static void
line (cairo_t *cr,
      double   x0,
      double   y0,
      double   x1,
      double   y1)
{
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
}

/* --- seams, by the painter --- */

static void
seam (cairo_t *cr,
      double   width,
      double   height,
      OddMark  mark)
{
  OddPaintOptions options;
  g_autoptr(OddMarks) marks = NULL;
  cairo_pattern_t *mask;

  odd_paint_options_init (&options);
  options.px_per_mm = 1.0;
  options.mark_px = 1.0;
  options.on_paper = TRUE; /* ink without casing */
  marks = odd_marks_new (&options);
  odd_marks_add_mark (marks, mark, (OddSegment) { { 1.0, height / 2.0 }, { width - 1.0, height / 2.0 } }, odd_point (0.0, 1.0));
  cairo_push_group_with_content (cr, CAIRO_CONTENT_ALPHA);
  odd_marks_paint (marks, cr);
  mask = cairo_pop_group (cr);
  cairo_mask (cr, mask);
  cairo_pattern_destroy (mask);
}

static void planned (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_PLANNED); }
static void sewn (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_SEWN); }
static void finished (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_FINISHED); }
static void pressed (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_PRESSED); }
static void pressed_open (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_PRESSED_OPEN); }
static void done (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_DONE); }
static void raw_inside (cairo_t *cr, double w, double h) { seam (cr, w, h, ODD_MARK_RAW_INSIDE); }

/* --- ends: a short line and what is at its end; drawn for the left end, mirrored for the right --- */

static void
end_open (cairo_t *cr)
{
  cairo_arc (cr, 5.5, 7.0, 4.2, 0.0, 2.0 * G_PI);
  line (cr, 9.7, 7.0, 29.0, 7.0);
  cairo_stroke (cr);
}

static void
end_caught (cairo_t *cr)
{
  line (cr, 10.0, 2.5, 2.0, 2.5);
  cairo_line_to (cr, 2.0, 11.5);
  cairo_line_to (cr, 10.0, 11.5);
  line (cr, 2.0, 7.0, 29.0, 7.0);
  cairo_stroke (cr);
}

static void
end_back_stitched (cairo_t *cr)
{
  line (cr, 2.0, 7.0, 29.0, 7.0);
  line (cr, 2.0, 3.5, 14.0, 3.5);
  line (cr, 2.0, 10.5, 14.0, 10.5);
  cairo_stroke (cr);
}

static void
end_cut (cairo_t *cr)
{
  line (cr, 7.0, 7.0, 29.0, 7.0);
  line (cr, 2.0, 13.0, 8.0, 1.0);
  cairo_stroke (cr);
  cairo_arc (cr, 5.0, 7.0, 3.1, 0.0, 2.0 * G_PI);
  cairo_fill (cr);
}

static void
mirrored (cairo_t *cr,
          double   width,
          void   (*draw) (cairo_t *cr))
{
  cairo_translate (cr, width, 0.0);
  cairo_scale (cr, -1.0, 1.0);
  draw (cr);
}

static void left_open (cairo_t *cr, double w, double h) { end_open (cr); }
static void left_caught (cairo_t *cr, double w, double h) { end_caught (cr); }
static void left_back_stitched (cairo_t *cr, double w, double h) { end_back_stitched (cr); }
static void left_cut (cairo_t *cr, double w, double h) { end_cut (cr); }
static void right_open (cairo_t *cr, double w, double h) { mirrored (cr, w, end_open); }
static void right_caught (cairo_t *cr, double w, double h) { mirrored (cr, w, end_caught); }
static void right_back_stitched (cairo_t *cr, double w, double h) { mirrored (cr, w, end_back_stitched); }
static void right_cut (cairo_t *cr, double w, double h) { mirrored (cr, w, end_cut); }

/* --- ways of pressing --- */

static void
wedge (cairo_t *cr,
       double   x,
       double   y,
       double   up)
{
  cairo_move_to (cr, x - 5.5, y);
  cairo_line_to (cr, x + 5.5, y);
  cairo_line_to (cr, x, y - up * 6.3);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
to_first (cairo_t *cr, double w, double h)
{
  wedge (cr, 9.0, 10.2, 1.0);
  line (cr, 2.0, 12.4, 16.0, 12.4);
  cairo_stroke (cr);
}

static void
to_second (cairo_t *cr, double w, double h)
{
  wedge (cr, 9.0, 7.8, -1.0);
  line (cr, 2.0, 5.6, 16.0, 5.6);
  cairo_stroke (cr);
}

static void
to_both (cairo_t *cr, double w, double h)
{
  wedge (cr, 9.0, 7.2, 0.9);
  wedge (cr, 9.0, 10.8, -0.9);
  line (cr, 2.0, 9.0, 16.0, 9.0);
  cairo_stroke (cr);
}

/* --- steps --- */

static void
check (cairo_t *cr, double w, double h)
{
  cairo_set_line_width (cr, 2.2);
  cairo_move_to (cr, 3.5, 9.6);
  cairo_line_to (cr, 7.3, 13.2);
  cairo_line_to (cr, 14.6, 5.2);
  cairo_stroke (cr);
}

static void
step_sew (cairo_t *cr, double w, double h)
{
  const double dash[] = { 3.4, 2.3 };

  cairo_set_line_width (cr, 1.7);
  cairo_set_dash (cr, dash, 2, 0.0);
  line (cr, 1.5, 12.0, 16.5, 12.0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
  line (cr, 9.0, 1.8, 9.0, 9.8);
  cairo_stroke (cr);
  cairo_arc (cr, 9.0, 3.2, 1.6, 0.0, 2.0 * G_PI);
  cairo_stroke (cr);
}

static void
step_overlock (cairo_t *cr, double w, double h)
{
  cairo_set_line_width (cr, 1.5);
  for (int i = 0; i < 3; i++)
    {
      const double x = 2.4 + 4.4 * i;

      cairo_move_to (cr, x, 13.0);
      cairo_curve_to (cr, x - 0.4, 2.6, x + 4.8, 2.6, x + 4.4, 13.0);
    }
  line (cr, 1.2, 13.0, 16.8, 13.0);
  cairo_stroke (cr);
}

static void
step_zigzag (cairo_t *cr, double w, double h)
{
  cairo_set_line_width (cr, 1.6);
  cairo_move_to (cr, 1.5, 12.5);
  for (int i = 1; i < 7; i++)
    cairo_line_to (cr, 1.5 + 2.5 * i, i % 2 ? 5.5 : 12.5);
  cairo_stroke (cr);
}

static void
step_trim (cairo_t *cr, double w, double h)
{
  cairo_set_line_width (cr, 1.5);
  line (cr, 5.4, 11.4, 14.5, 2.5);
  line (cr, 12.6, 11.4, 3.5, 2.5);
  cairo_stroke (cr);
  cairo_arc (cr, 4.3, 13.3, 2.3, 0.0, 2.0 * G_PI);
  cairo_new_sub_path (cr);
  cairo_arc (cr, 13.7, 13.3, 2.3, 0.0, 2.0 * G_PI);
  cairo_stroke (cr);
}

static void
step_fold (cairo_t *cr, double w, double h)
{
  cairo_set_line_width (cr, 1.7);
  cairo_move_to (cr, 2.0, 13.0);
  cairo_line_to (cr, 12.5, 13.0);
  cairo_curve_to (cr, 17.0, 13.0, 17.0, 6.6, 12.5, 6.6);
  cairo_line_to (cr, 6.0, 6.6);
  cairo_move_to (cr, 9.0, 3.6);
  cairo_line_to (cr, 6.0, 6.6);
  cairo_line_to (cr, 9.0, 9.6);
  cairo_stroke (cr);
}

/* With cord and steam, so that nobody takes it for a care sign. */
static void
step_press (cairo_t *cr, double w, double h)
{
  cairo_move_to (cr, 1.2, 13.0);
  cairo_curve_to (cr, 2.0, 9.6, 4.4, 8.2, 7.4, 8.0);
  cairo_line_to (cr, 13.0, 8.0);
  cairo_line_to (cr, 12.4, 6.6);
  cairo_line_to (cr, 7.2, 6.6);
  cairo_line_to (cr, 7.2, 5.0);
  cairo_line_to (cr, 13.4, 5.0);
  cairo_line_to (cr, 15.6, 13.0);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_set_line_width (cr, 1.1);
  cairo_move_to (cr, 13.2, 5.4);
  cairo_curve_to (cr, 14.0, 1.6, 16.6, 5.0, 17.0, 1.4);
  for (int i = 0; i < 3; i++)
    {
      const double x = 3.6 + 4.2 * i;

      cairo_move_to (cr, x, 14.4);
      cairo_curve_to (cr, x - 1.0, 15.3, x + 1.0, 16.0, x, 17.0);
    }
  cairo_stroke (cr);
}

static void
step_topstitch (cairo_t *cr, double w, double h)
{
  const double dash[] = { 4.2, 2.4 };

  cairo_set_line_width (cr, 1.6);
  line (cr, 1.5, 11.4, 16.5, 11.4);
  cairo_stroke (cr);
  cairo_set_dash (cr, dash, 2, 0.0);
  line (cr, 1.5, 6.6, 16.5, 6.6);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
}

/* --- links, scale --- */

static void
link_done (cairo_t *cr, double w, double h)
{
  cairo_set_line_width (cr, 1.8);
  line (cr, 0.0, h / 2.0, w, h / 2.0);
  cairo_stroke (cr);
}

static void
link_open (cairo_t *cr, double w, double h)
{
  const double dash[] = { 3.0, 3.0 };

  cairo_set_dash (cr, dash, 2, 0.0);
  link_done (cr, w, h);
  cairo_set_dash (cr, NULL, 0, 0.0);
}

static void
scale (cairo_t *cr, double w, double h)
{
  line (cr, 0.75, h / 2.0, w - 0.75, h / 2.0);
  line (cr, 0.75, h / 2.0 - 5.0, 0.75, h / 2.0 + 5.0);
  line (cr, w - 0.75, h / 2.0 - 5.0, w - 0.75, h / 2.0 + 5.0);
  cairo_stroke (cr);
}

static const struct { const char *kind; double width, height; Draw draw; } symbols[] = {
  { "planned", 28, 18, planned }, { "sewn", 28, 18, sewn }, { "finished", 28, 18, finished }, { "pressed", 28, 18, pressed },
  { "pressed-open", 28, 18, pressed_open }, { "done", 28, 18, done }, { "raw-inside", 28, 18, raw_inside },
  { "left-open", 30, 14, left_open }, { "left-caught", 30, 14, left_caught },
  { "left-back-stitched", 30, 14, left_back_stitched }, { "left-cut", 30, 14, left_cut },
  { "right-open", 30, 14, right_open }, { "right-caught", 30, 14, right_caught },
  { "right-back-stitched", 30, 14, right_back_stitched }, { "right-cut", 30, 14, right_cut },
  { "to-first", 18, 18, to_first }, { "to-second", 18, 18, to_second }, { "to-both", 18, 18, to_both },
  { "check", 18, 18, check }, { "sew", 18, 18, step_sew }, { "overlock", 18, 18, step_overlock },
  { "zigzag", 18, 18, step_zigzag }, { "trim", 18, 18, step_trim }, { "fold", 18, 18, step_fold },
  { "press", 18, 18, step_press }, { "topstitch", 18, 18, step_topstitch },
  { "link-open", 3, 4, link_open }, { "link-done", 3, 4, link_done }, { "scale", 2, 12, scale },
};

static int
find (const char *kind)
{
  for (guint i = 0; i < G_N_ELEMENTS (symbols); i++)
    if (g_strcmp0 (symbols[i].kind, kind) == 0)
      return i;
  return -1;
}

gboolean
odd_symbol_exists (const char *kind)
{
  return find (kind) >= 0;
}

void
odd_symbol_get_size (const char *kind,
                     double     *out_width,
                     double     *out_height)
{
  const int i = find (kind);

  *out_width = i >= 0 ? symbols[i].width : 0.0;
  *out_height = i >= 0 ? symbols[i].height : 0.0;
}

void
odd_symbol_paint (cairo_t    *cr,
                  const char *kind,
                  double      width,
                  double      height)
{
  const int i = find (kind);
  gboolean fills;

  if (i < 0)
    return;
  fills = g_str_has_prefix (kind, "link-") || g_str_equal (kind, "scale");
  cairo_save (cr);
  if (!fills)
    cairo_translate (cr, floor ((width - symbols[i].width) / 2.0), floor ((height - symbols[i].height) / 2.0));
  cairo_set_line_width (cr, 1.6);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  symbols[i].draw (cr, fills ? width : symbols[i].width, fills ? height : symbols[i].height);
  cairo_restore (cr);
}
