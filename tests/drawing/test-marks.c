#include "config.h"

#include "drawing/painter.h"

#define WIDTH 240
#define HEIGHT 60
#define MIDDLE (HEIGHT / 2)

typedef struct
{
  cairo_surface_t *surface;
  const guint32 *pixels;
  OddPaintOptions options;
  double mm_per_px;
} Paper;

/* A ground of one colour, 240 x 60 px, the frame in mm. */
static void
paper_init (Paper *self, double px_per_mm, double mark_px)
{
  odd_paint_options_init (&self->options);
  self->options.px_per_mm = px_per_mm;
  self->options.mark_px = mark_px;
  self->mm_per_px = 1.0 / px_per_mm;
  self->surface = NULL;
}

static void
paper_clear (Paper *self)
{
  g_clear_pointer (&self->surface, cairo_surface_destroy);
}

static OddSegment
across (const Paper *self)
{
  return (OddSegment) { { 0.0, MIDDLE * self->mm_per_px }, { WIDTH * self->mm_per_px, MIDDLE * self->mm_per_px } };
}

static void
paper_paint (Paper *self, guint32 ground, OddMarks *marks)
{
  cairo_t *cr;

  paper_clear (self);
  self->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cr = cairo_create (self->surface);
  cairo_set_source_rgb (cr, (ground >> 16) / 255.0, ((ground >> 8) & 0xff) / 255.0, (ground & 0xff) / 255.0);
  cairo_paint (cr);
  cairo_scale (cr, self->options.px_per_mm, self->options.px_per_mm);
  odd_marks_paint (marks, cr);
  cairo_destroy (cr);
  cairo_surface_flush (self->surface);
  self->pixels = (const guint32 *) cairo_image_surface_get_data (self->surface);
}

static void
paint_mark (Paper *self, guint32 ground, OddMark mark, OddDetail detail)
{
  g_autoptr(OddMarks) marks = odd_marks_new (&self->options);

  odd_marks_set_detail (marks, detail);
  odd_marks_add_mark (marks, mark, across (self), odd_point (0.0, 1.0));
  paper_paint (self, ground, marks);
}

static guint
grey (const Paper *self, int x, int y)
{
  const guint32 p = self->pixels[y * WIDTH + x];

  return (((p >> 16) & 0xff) * 2 + ((p >> 8) & 0xff) * 5 + (p & 0xff)) / 8;
}

/* Sum of darkness, 0 to 255 a pixel, of rows from .. to (both counted), over a pale ground. */
static guint
darkness (const Paper *self, int from, int to)
{
  guint sum = 0;

  for (int y = from; y <= to; y++)
    for (int x = 0; x < WIDTH; x++)
      sum += 255 - grey (self, x, y);
  return sum;
}

static guint
count_dark_runs (const Paper *self, int y)
{
  guint runs = 0;

  for (int x = 1; x < WIDTH; x++)
    runs += grey (self, x, y) < 110 && grey (self, x - 1, y) >= 110;
  return runs;
}

static void
test_planned_is_broken (void)
{
  Paper paper;

  g_test_summary ("Planned: dashes of 7 px every 11.5; sewn: no gap");
  paper_init (&paper, 2.0, 1.0);
  paint_mark (&paper, 0xffffff, ODD_MARK_PLANNED, ODD_DETAIL_SIGNS);
  g_assert_cmpuint (count_dark_runs (&paper, MIDDLE), >=, 19);
  g_assert_cmpuint (count_dark_runs (&paper, MIDDLE), <=, 22);
  paint_mark (&paper, 0xffffff, ODD_MARK_SEWN, ODD_DETAIL_SIGNS);
  for (int x = 1; x < WIDTH - 1; x++)
    g_assert_cmpuint (grey (&paper, x, MIDDLE), <, 110);
  paper_clear (&paper);
}

static void
test_sewn_has_ticks (void)
{
  Paper paper;

  g_test_summary ("Sewn: a tick each 5 px on both sides; finished: loops on the side named only");
  paper_init (&paper, 1.0, 1.0);
  paint_mark (&paper, 0xffffff, ODD_MARK_SEWN, ODD_DETAIL_SIGNS);
  g_assert_cmpuint (darkness (&paper, MIDDLE - 4, MIDDLE - 3), >, 48 * 60);
  g_assert_cmpuint (darkness (&paper, MIDDLE + 2, MIDDLE + 3), >, 48 * 60);
  paint_mark (&paper, 0xffffff, ODD_MARK_FINISHED, ODD_DETAIL_SIGNS);
  g_assert_cmpuint (darkness (&paper, MIDDLE + 3, MIDDLE + 5), >, 34 * 200);
  g_assert_cmpuint (darkness (&paper, MIDDLE - 6, MIDDLE - 4), <, 34 * 30);
  paper_clear (&paper);
}

static void
test_done_is_quiet (void)
{
  Paper paper;
  guint done, other;

  g_test_summary ("What has nothing left to do is fainter than any other mark, by half at least");
  paper_init (&paper, 1.0, 1.0);
  paint_mark (&paper, 0xffffff, ODD_MARK_DONE, ODD_DETAIL_SIGNS);
  done = darkness (&paper, 0, HEIGHT - 1);
  g_assert_cmpuint (done, >, WIDTH * 100);
  for (OddMark mark = 0; mark < ODD_N_MARKS; mark++)
    {
      if (mark == ODD_MARK_DONE)
        continue;
      paint_mark (&paper, 0xffffff, mark, ODD_DETAIL_SIGNS);
      other = darkness (&paper, 0, HEIGHT - 1);
      if (mark != ODD_MARK_PLANNED)
        g_assert_cmpuint (other, >, done * 3 / 2);
      else
        g_assert_cmpuint (count_dark_runs (&paper, MIDDLE), >, 15);
    }
  paper_clear (&paper);
}

static void
test_told_apart_in_grey (void)
{
  static const guint32 grounds[] = { 0xf0e6d4, 0x23283f, 0x808080 };

  g_test_summary ("Without colour, every mark differs from every other on light, dark and middling cloth");
  for (guint g = 0; g < G_N_ELEMENTS (grounds); g++)
    for (OddMark a = 0; a < ODD_N_MARKS; a++)
      for (OddMark b = 0; b < a; b++)
        {
          Paper one, other;
          guint differ = 0;

          paper_init (&one, 1.0, 1.0);
          paper_init (&other, 1.0, 1.0);
          paint_mark (&one, grounds[g], a, ODD_DETAIL_SIGNS);
          paint_mark (&other, grounds[g], b, ODD_DETAIL_SIGNS);
          for (int y = 0; y < HEIGHT; y++)
            for (int x = 0; x < WIDTH; x++)
              differ += ABS ((int) grey (&one, x, y) - (int) grey (&other, x, y)) > 60;
          g_assert_cmpuint (differ, >, 40);
          paper_clear (&one);
          paper_clear (&other);
        }
}

static guint
count_red (const Paper *self)
{
  guint red = 0;

  for (int i = 0; i < WIDTH * HEIGHT; i++)
    {
      const guint32 p = self->pixels[i];

      red += ((p >> 16) & 0xff) > 130 && ((p >> 8) & 0xff) < 60 && (p & 0xff) < 70;
    }
  return red;
}

static void
test_raw_inside_is_red (void)
{
  Paper paper;

  g_test_summary ("Locked in raw: red, with a disc in the middle and a white cross in it; no other mark is red");
  paper_init (&paper, 1.0, 1.0);
  for (OddMark mark = 0; mark < ODD_N_MARKS; mark++)
    {
      paint_mark (&paper, 0xd0d0d0, mark, ODD_DETAIL_SIGNS);
      if (mark == ODD_MARK_RAW_INSIDE)
        g_assert_cmpuint (count_red (&paper), >, 300);
      else
        g_assert_cmpuint (count_red (&paper), ==, 0);
    }
  paint_mark (&paper, 0xd0d0d0, ODD_MARK_RAW_INSIDE, ODD_DETAIL_SIGNS);
  g_assert_cmpuint (grey (&paper, WIDTH / 2, MIDDLE), >, 200);
  g_assert_cmpuint (grey (&paper, WIDTH / 2 - 5, MIDDLE), <, 100);
  paper_clear (&paper);
}

static void
test_casing_on_dark (void)
{
  Paper paper;
  guint pale = 0;

  g_test_summary ("On dark cloth a pale casing runs beside the ink, at 84 %; on paper there is none and the ink is black");
  paper_init (&paper, 1.0, 1.0);
  paint_mark (&paper, 0x101020, ODD_MARK_SEWN, ODD_DETAIL_LINES);
  for (int y = MIDDLE - 3; y <= MIDDLE + 3; y++)
    pale += grey (&paper, WIDTH / 2, y) > 140;
  g_assert_cmpuint (pale, >=, 1);
  paper.options.on_paper = TRUE;
  paint_mark (&paper, 0xffffff, ODD_MARK_SEWN, ODD_DETAIL_LINES);
  for (int i = 0; i < WIDTH * HEIGHT; i++)
    {
      const guint32 p = paper.pixels[i] & 0xffffff;

      g_assert_cmphex (p >> 16, ==, p & 0xff);
    }
  paint_mark (&paper, 0x101020, ODD_MARK_SEWN, ODD_DETAIL_LINES);
  for (int i = 0; i < WIDTH * HEIGHT; i++)
    g_assert_cmpuint (paper.pixels[i] & 0xff, <=, 0x20);
  paper_clear (&paper);
}

static void
test_never_cuts_itself (void)
{
  Paper paper;

  g_test_summary ("Two seams that cross: the later casing does not cut the earlier ink");
  paper_init (&paper, 1.0, 1.0);
  {
    g_autoptr(OddMarks) marks = odd_marks_new (&paper.options);

    odd_marks_add_mark (marks, ODD_MARK_TOPSTITCHED, across (&paper), odd_point (0.0, 1.0));
    odd_marks_add_mark (marks, ODD_MARK_TOPSTITCHED, (OddSegment) { { 120.0, 0.0 }, { 120.0, 60.0 } }, odd_point (1.0, 0.0));
    paper_paint (&paper, 0x8090a0, marks);
  }
  for (int x = 1; x < WIDTH - 1; x++)
    g_assert_cmpuint (MIN (grey (&paper, x, MIDDLE), grey (&paper, x, MIDDLE - 1)), <, 110);
  for (int y = 1; y < HEIGHT - 1; y++)
    g_assert_cmpuint (MIN (grey (&paper, 120, y), grey (&paper, 119, y)), <, 110);
  paper_clear (&paper);
}

static void
test_same_size_at_any_zoom (void)
{
  Paper near_by, far_off, doubled;
  guint near_sum, far_sum, doubled_sum;

  g_test_summary ("A mark has its size in px at any zoom, and twice that at twice the mark px");
  paper_init (&near_by, 8.0, 1.0);
  paper_init (&far_off, 0.25, 1.0);
  paper_init (&doubled, 1.0, 2.0);
  paint_mark (&near_by, 0xffffff, ODD_MARK_SEWN, ODD_DETAIL_LINES);
  paint_mark (&far_off, 0xffffff, ODD_MARK_SEWN, ODD_DETAIL_LINES);
  paint_mark (&doubled, 0xffffff, ODD_MARK_SEWN, ODD_DETAIL_LINES);
  near_sum = darkness (&near_by, 0, HEIGHT - 1);
  far_sum = darkness (&far_off, 0, HEIGHT - 1);
  doubled_sum = darkness (&doubled, 0, HEIGHT - 1);
  g_assert_cmpuint (near_sum, <, far_sum + far_sum / 50);
  g_assert_cmpuint (near_sum, >, far_sum - far_sum / 50);
  g_assert_cmpuint (doubled_sum, >, near_sum * 18 / 10);
  g_assert_cmpuint (doubled_sum, <, near_sum * 22 / 10);
  paper_clear (&near_by);
  paper_clear (&far_off);
  paper_clear (&doubled);
}

static void
test_wedge_side (void)
{
  Paper paper;
  OddFinish finish = { 0 };

  g_test_summary ("The wedge points to the side the allowances are pressed to; open points to both");
  paper_init (&paper, 1.0, 1.0);
  for (OddPressed pressed = ODD_PRESSED_BY_RULE; pressed <= ODD_PRESSED_OPEN; pressed++)
    {
      g_autoptr(OddMarks) marks = odd_marks_new (&paper.options);
      const gboolean above = pressed != ODD_PRESSED_TO_SECOND, below = pressed == ODD_PRESSED_TO_SECOND || pressed == ODD_PRESSED_OPEN;

      odd_marks_add_seam (marks, (OddSegment) { { 60.0, MIDDLE }, { 180.0, MIDDLE } }, ODD_STAGE_PRESSED, pressed, &finish, FALSE, odd_point (0.0, -1.0));
      paper_paint (&paper, 0xffffff, marks);
      g_assert_true ((grey (&paper, 120, MIDDLE - 5) < 60) == above);
      g_assert_true ((grey (&paper, 120, MIDDLE + 5) < 60) == below);
    }
  finish.may_open = TRUE;
  g_assert_cmpint (odd_pressed_resolve (ODD_PRESSED_BY_RULE, &finish), ==, ODD_PRESSED_OPEN);
  g_assert_cmpint (odd_pressed_resolve (ODD_PRESSED_TO_SECOND, &finish), ==, ODD_PRESSED_TO_SECOND);
  paper_clear (&paper);
}

static void
test_ends (void)
{
  static const OddEndKind kinds[] = { ODD_END_OPEN, ODD_END_CAUGHT, ODD_END_BACK_STITCHED, ODD_END_CUT };
  guint sums[G_N_ELEMENTS (kinds)];
  Paper paper;

  g_test_summary ("Ends: an open one is a ring with a pale middle, the others have none; all four differ");
  paper_init (&paper, 1.0, 1.0);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const OddEnd end = { kinds[i], 0, 0, 90.0 };
      g_autoptr(OddMarks) marks = odd_marks_new (&paper.options);

      odd_marks_add_end (marks, odd_point (120.0, MIDDLE), odd_point (1.0, 0.0), &end);
      paper_paint (&paper, 0x707070, marks);
      sums[i] = darkness (&paper, 0, HEIGHT - 1);
      for (guint j = 0; j < i; j++)
        g_assert_cmpuint (sums[j], !=, sums[i]);
      if (kinds[i] == ODD_END_OPEN)
        {
          g_assert_cmpuint (grey (&paper, 120, MIDDLE), >, 240);
          g_assert_cmpuint (grey (&paper, 124, MIDDLE), <, 90);
        }
      if (kinds[i] == ODD_END_CAUGHT)
        g_assert_cmpuint (grey (&paper, 125, MIDDLE + 5), <, 110);
    }
  paper_clear (&paper);
}

static void
test_detail (void)
{
  static const struct { double size_px; OddDetail detail; } steps[] = {
    { 0.5, ODD_DETAIL_COLOUR }, { 5.9, ODD_DETAIL_COLOUR }, { 6.0, ODD_DETAIL_DONE_OR_NOT }, { 15.9, ODD_DETAIL_DONE_OR_NOT }, { 16.0, ODD_DETAIL_LINES },
    { 39.9, ODD_DETAIL_LINES }, { 40.0, ODD_DETAIL_SIGNS }, { 119.0, ODD_DETAIL_SIGNS }, { 120.0, ODD_DETAIL_WORDS },
  };
  Paper paper;
  guint planned;

  g_test_summary ("Far off only colour, then done or not done, then lines, then signs, then words");
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    g_assert_cmpint (odd_detail_for_size (steps[i].size_px), ==, steps[i].detail);
  paper_init (&paper, 1.0, 1.0);
  paint_mark (&paper, 0xffffff, ODD_MARK_PLANNED, ODD_DETAIL_COLOUR);
  g_assert_cmpuint (darkness (&paper, 0, HEIGHT - 1), ==, 0);
  paint_mark (&paper, 0xffffff, ODD_MARK_PLANNED, ODD_DETAIL_DONE_OR_NOT);
  planned = darkness (&paper, 0, HEIGHT - 1);
  paint_mark (&paper, 0xffffff, ODD_MARK_FINISHED, ODD_DETAIL_DONE_OR_NOT);
  g_assert_cmpuint (darkness (&paper, 0, HEIGHT - 1), ==, planned);
  paint_mark (&paper, 0xffffff, ODD_MARK_DONE, ODD_DETAIL_DONE_OR_NOT);
  g_assert_cmpuint (darkness (&paper, 0, HEIGHT - 1), <, planned * 3 / 4);
  paint_mark (&paper, 0xffffff, ODD_MARK_PRESSED, ODD_DETAIL_LINES);
  planned = darkness (&paper, 0, HEIGHT - 1);
  paint_mark (&paper, 0xffffff, ODD_MARK_PRESSED, ODD_DETAIL_SIGNS);
  g_assert_cmpuint (darkness (&paper, 0, HEIGHT - 1), >, planned + 20 * 255);
  paper_clear (&paper);
}

static void
test_off_cloth (void)
{
  Paper paper;

  g_test_summary ("Beside a line of text a mark takes the text's colour and no casing");
  paper_init (&paper, 1.0, 1.0);
  paper.options.off_cloth = TRUE;
  paper.options.ink_colour = 0xeeeeee;
  paint_mark (&paper, 0x202020, ODD_MARK_FINISHED, ODD_DETAIL_SIGNS);
  g_assert_cmpuint (grey (&paper, WIDTH / 2, MIDDLE), >, 150);
  for (int i = 0; i < WIDTH * HEIGHT; i++)
    g_assert_cmpuint (paper.pixels[i] & 0xff, <=, 0xee);
  paper_clear (&paper);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/marks/planned-is-broken", test_planned_is_broken);
  g_test_add_func ("/drawing/marks/sewn-has-ticks", test_sewn_has_ticks);
  g_test_add_func ("/drawing/marks/done-is-quiet", test_done_is_quiet);
  g_test_add_func ("/drawing/marks/told-apart-in-grey", test_told_apart_in_grey);
  g_test_add_func ("/drawing/marks/raw-inside-is-red", test_raw_inside_is_red);
  g_test_add_func ("/drawing/marks/casing", test_casing_on_dark);
  g_test_add_func ("/drawing/marks/never-cuts-itself", test_never_cuts_itself);
  g_test_add_func ("/drawing/marks/any-zoom", test_same_size_at_any_zoom);
  g_test_add_func ("/drawing/marks/wedge-side", test_wedge_side);
  g_test_add_func ("/drawing/marks/ends", test_ends);
  g_test_add_func ("/drawing/marks/detail", test_detail);
  g_test_add_func ("/drawing/marks/off-cloth", test_off_cloth);
  return g_test_run ();
}
