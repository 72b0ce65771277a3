#include "config.h"

#include <cairo.h>

#include "drawing/colour.h"
#include "drawing/print.h"
#include "drawing/threads.h"

/* Every kind is drawn once a repeat, in a frame in which the repeat is the unit square and y runs along the grain. A motif may
 * stick out of its square: one more square is drawn all round the tile, so what leaves on one side comes in on the other.
 *
 * What was tried and dropped: turning each motif a little by a random number. It looks hand printed, but then a repeat can no
 * longer be measured with a ruler, and printed cloth repeats exactly. */

#define LEAST_TILE_MM 90.0     /* shorter, and the eye finds the same slub again */
#define MOST_REPEATS 48        /* a repeat under 2 mm is only a tone: drawing more of it costs its square in time */
#define PX_PER_MM 5.0          /* a 3.2 mm weave has 16 px; doubles memory fourfold when doubled */
#define LEAST_TILE_PX 128
#define LARGEST_TILE_PX 1024

typedef struct
{
  cairo_t *cr;
  const guint32 *colours;
} Ink;

static void
use (const Ink *ink, guint colour)
{
  odd_set_source_rgba (ink->cr, ink->colours[colour], 1.0);
}

static void
use_mix (const Ink *ink, guint a, guint b, double share_of_b)
{
  odd_set_source_rgba (ink->cr, odd_colour_mix (ink->colours[a], ink->colours[b], share_of_b), 1.0);
}

static void
use_pale (const Ink *ink, guint colour, double alpha)
{
  odd_set_source_rgba (ink->cr, ink->colours[colour], alpha);
}

static void
fill_rectangle (const Ink *ink, double x, double y, double width, double height)
{
  cairo_rectangle (ink->cr, x, y, width, height);
  cairo_fill (ink->cr);
}

static void
disc (const Ink *ink, double x, double y, double radius)
{
  cairo_new_sub_path (ink->cr);
  cairo_arc (ink->cr, x, y, radius, 0.0, 2.0 * G_PI);
}

/* --- woven in: these prints are threads of another colour, so crossing bands mix --- */

static void
draw_stripe (const Ink *ink)
{
  static const struct { double at, width; guint colour; } bands[] = {
    { 0.02, 0.13, 1 }, { 0.19, 0.025, 2 }, { 0.24, 0.025, 2 }, { 0.31, 0.055, 1 },
    { 0.52, 0.055, 1 }, { 0.60, 0.18, 2 }, { 0.81, 0.055, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (bands); i++)
    {
      use (ink, bands[i].colour);
      fill_rectangle (ink, bands[i].at, 0.0, bands[i].width, 1.0);
    }
}

static void
draw_check (const Ink *ink)
{
  use_mix (ink, 0, 1, 0.56);
  fill_rectangle (ink, 0.0, 0.0, 0.5, 1.0);
  fill_rectangle (ink, 0.0, 0.0, 1.0, 0.5);
  use (ink, 1);
  fill_rectangle (ink, 0.0, 0.0, 0.5, 0.5);
}

static void
draw_plaid (const Ink *ink)
{
  static const struct { double at, width, alpha; guint colour; } bands[] = {
    { 0.06, 0.30, 0.28, 1 }, { 0.11, 0.20, 0.26, 1 }, { 0.58, 0.10, 0.26, 1 },
    { 0.445, 0.024, 0.72, 2 }, { 0.80, 0.036, 0.72, 2 }, { 0.875, 0.024, 0.75, 3 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (bands); i++)
    {
      use_pale (ink, bands[i].colour, bands[i].alpha);
      fill_rectangle (ink, bands[i].at, 0.0, bands[i].width, 1.0);
      fill_rectangle (ink, 0.0, bands[i].at, 1.0, bands[i].width);
    }
}

static void
draw_windowpane (const Ink *ink)
{
  use_pale (ink, 1, 0.8);
  fill_rectangle (ink, 0.48, 0.0, 0.042, 1.0);
  fill_rectangle (ink, 0.0, 0.48, 1.0, 0.042);
  use_pale (ink, 2, 0.55);
  fill_rectangle (ink, 0.55, 0.0, 0.02, 1.0);
  fill_rectangle (ink, 0.0, 0.55, 1.0, 0.02);
}

/* --- printed on --- */

static void
draw_dot (const Ink *ink)
{
  use (ink, 1);
  disc (ink, 0.25, 0.25, 0.125);
  disc (ink, 0.75, 0.75, 0.125);
  cairo_fill (ink->cr);
}

static void
draw_ring (const Ink *ink)
{
  use (ink, 1);
  cairo_set_line_width (ink->cr, 0.062);
  disc (ink, 0.25, 0.25, 0.125);
  disc (ink, 0.75, 0.75, 0.125);
  cairo_stroke (ink->cr);
  use (ink, 2);
  disc (ink, 0.75, 0.25, 0.034);
  disc (ink, 0.25, 0.75, 0.034);
  cairo_fill (ink->cr);
}

static void
leaf (const Ink *ink, double length, double width)
{
  cairo_move_to (ink->cr, 0.0, 0.0);
  cairo_curve_to (ink->cr, width, -0.25 * length, width, -0.7 * length, 0.0, -length);
  cairo_curve_to (ink->cr, -width, -0.7 * length, -width, -0.25 * length, 0.0, 0.0);
  cairo_fill (ink->cr);
}

static void
leaf_at (const Ink *ink, double x, double y, double turn_deg, double length, double width)
{
  cairo_save (ink->cr);
  cairo_translate (ink->cr, x, y);
  cairo_rotate (ink->cr, turn_deg * G_PI / 180.0);
  leaf (ink, length, width);
  cairo_restore (ink->cr);
}

/* A flower of five petals, its two leaves behind it. */
static void
flower_at (const Ink *ink, double x, double y, double turn_deg, double size, guint petal)
{
  use (ink, 3);
  leaf_at (ink, x, y, turn_deg + 118.0, 1.75 * size, 0.42 * size);
  leaf_at (ink, x, y, turn_deg + 242.0, 1.65 * size, 0.42 * size);
  use (ink, petal);
  for (guint i = 0; i < 5; i++)
    {
      const double angle = (turn_deg + 72.0 * i) * G_PI / 180.0;

      disc (ink, x + 0.58 * size * sin (angle), y - 0.58 * size * cos (angle), 0.50 * size);
    }
  cairo_set_fill_rule (ink->cr, CAIRO_FILL_RULE_WINDING);
  cairo_fill (ink->cr);
  use_mix (ink, petal, 3, 0.22);
  cairo_set_line_width (ink->cr, 0.09 * size);
  for (guint i = 0; i < 5; i++)
    {
      const double angle = (turn_deg + 36.0 + 72.0 * i) * G_PI / 180.0;

      cairo_move_to (ink->cr, x, y);
      cairo_line_to (ink->cr, x + 0.75 * size * sin (angle), y - 0.75 * size * cos (angle));
    }
  cairo_stroke (ink->cr);
  use (ink, 0);
  disc (ink, x, y, 0.27 * size);
  cairo_fill (ink->cr);
  use_mix (ink, petal, 3, 0.5);
  disc (ink, x, y, 0.13 * size);
  cairo_fill (ink->cr);
}

static void
draw_flower (const Ink *ink)
{
  flower_at (ink, 0.24, 0.23, 12.0, 0.122, 1);
  flower_at (ink, 0.74, 0.26, -34.0, 0.110, 2);
  flower_at (ink, 0.27, 0.74, 160.0, 0.110, 2);
  flower_at (ink, 0.76, 0.76, 64.0, 0.122, 1);
  use (ink, 2);
  disc (ink, 0.5, 0.5, 0.024);
  disc (ink, 0.0, 0.48, 0.020);
  disc (ink, 0.52, 0.0, 0.020);
  disc (ink, 0.0, 0.0, 0.024);
  cairo_fill (ink->cr);
}

/* Circles that link, in a running stitch of a heavy thread. */
static void
draw_lattice (const Ink *ink)
{
  static const double centres[][2] = { { 0.0, 0.0 }, { 0.5, 0.5 } };
  const double radius = 0.5, stitch = 2.0 * G_PI * radius / 24.0;
  const double dashes[] = { 0.64 * stitch, 0.36 * stitch };

  use (ink, 1);
  cairo_set_line_width (ink->cr, 0.032);
  cairo_set_line_cap (ink->cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_dash (ink->cr, dashes, 2, 0.32 * stitch);
  for (guint i = 0; i < G_N_ELEMENTS (centres); i++)
    disc (ink, centres[i][0], centres[i][1], radius);
  cairo_stroke (ink->cr);
  cairo_set_dash (ink->cr, NULL, 0, 0.0);
  use (ink, 2);
  cairo_set_line_width (ink->cr, 0.028);
  for (guint i = 0; i < G_N_ELEMENTS (centres); i++)
    {
      cairo_move_to (ink->cr, centres[i][0] - 0.055, centres[i][1]);
      cairo_line_to (ink->cr, centres[i][0] + 0.055, centres[i][1]);
      cairo_move_to (ink->cr, centres[i][0], centres[i][1] - 0.055);
      cairo_line_to (ink->cr, centres[i][0], centres[i][1] + 0.055);
    }
  cairo_stroke (ink->cr);
  cairo_set_line_cap (ink->cr, CAIRO_LINE_CAP_BUTT);
}

static void
sprig_at (const Ink *ink, double x, double y, double lean, guint colour)
{
  cairo_save (ink->cr);
  cairo_translate (ink->cr, x, y);
  use (ink, colour);
  cairo_set_line_width (ink->cr, 0.018);
  cairo_move_to (ink->cr, 0.0, 0.21);
  cairo_curve_to (ink->cr, lean, 0.08, -lean, -0.06, 0.0, -0.14);
  cairo_stroke (ink->cr);
  for (int i = 0; i < 3; i++)
    {
      const double up = 0.13 - 0.10 * i, size = 0.155 - 0.018 * i;

      leaf_at (ink, 0.25 * lean, up, -54.0, size, 0.055);
      leaf_at (ink, 0.25 * lean, up - 0.03, 54.0, size, 0.055);
    }
  leaf_at (ink, 0.0, -0.12, 0.0, 0.14, 0.05);
  cairo_restore (ink->cr);
}

static void
draw_leaf (const Ink *ink)
{
  sprig_at (ink, 0.25, 0.25, 0.06, 1);
  sprig_at (ink, 0.75, 0.75, -0.06, 2);
  use (ink, 3);
  disc (ink, 0.72, 0.16, 0.026);
  disc (ink, 0.79, 0.24, 0.022);
  disc (ink, 0.22, 0.68, 0.026);
  disc (ink, 0.29, 0.76, 0.022);
  cairo_fill (ink->cr);
}

static void
draw_nothing (const Ink *ink)
{
}

static const struct
{
  void (*draw) (const Ink *ink);
  OddThreads threads;
} kinds[ODD_N_PRINT_KINDS] = {
  [ODD_PRINT_PLAIN] = { draw_nothing, ODD_THREADS_SLUBBED },
  [ODD_PRINT_STRIPE] = { draw_stripe, ODD_THREADS_EVEN },
  [ODD_PRINT_CHECK] = { draw_check, ODD_THREADS_EVEN },
  [ODD_PRINT_PLAID] = { draw_plaid, ODD_THREADS_TWILL },
  [ODD_PRINT_DOT] = { draw_dot, ODD_THREADS_EVEN },
  [ODD_PRINT_FLOWER] = { draw_flower, ODD_THREADS_EVEN },
  [ODD_PRINT_LATTICE] = { draw_lattice, ODD_THREADS_SLUBBED },
  [ODD_PRINT_RING] = { draw_ring, ODD_THREADS_EVEN },
  [ODD_PRINT_DIAMOND] = { draw_nothing, ODD_THREADS_TIED },
  [ODD_PRINT_LEAF] = { draw_leaf, ODD_THREADS_EVEN },
  [ODD_PRINT_FLECK] = { draw_nothing, ODD_THREADS_TWO_COLOURED },
  [ODD_PRINT_WINDOWPANE] = { draw_windowpane, ODD_THREADS_EVEN },
};

static guint
count_repeats (const OddPrint *print)
{
  return (guint) CLAMP (ceil (LEAST_TILE_MM / print->repeat_mm - 1e-9), 1.0, MOST_REPEATS);
}

double
odd_print_tile_mm (const OddPrint *print)
{
  g_return_val_if_fail (print != NULL && print->repeat_mm > 0.0, LEAST_TILE_MM);

  return count_repeats (print) * print->repeat_mm;
}

guint
odd_print_tile_px (const OddPrint *print)
{
  const double wanted_px = PX_PER_MM * odd_print_tile_mm (print);
  guint px = LEAST_TILE_PX;

  /* the power of two that is nearest: at most 30 % coarser than wanted */
  while (px < LARGEST_TILE_PX && px * G_SQRT2 < wanted_px)
    px *= 2;
  return px;
}

static void
draw_inks (const OddPrint *print, guint32 *pixels, guint side_px)
{
  const int n = (int) count_repeats (print);
  cairo_surface_t *surface = cairo_image_surface_create_for_data ((guchar *) pixels, CAIRO_FORMAT_ARGB32, (int) side_px, (int) side_px, 4 * (int) side_px);
  cairo_t *cr = cairo_create (surface);
  const Ink ink = { cr, print->colours };

  use (&ink, 0);
  cairo_paint (cr);
  cairo_scale (cr, (double) side_px / n, (double) side_px / n);
  for (int row = -1; row <= n; row++)
    for (int column = -1; column <= n; column++)
      {
        cairo_save (cr);
        cairo_translate (cr, column, row);
        kinds[print->kind].draw (&ink);
        cairo_restore (cr);
      }
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  cairo_surface_destroy (surface);
}

/* Two cloths of one kind must not share their slubs; the seed is small, as it stands beside two grid places in one word. */
static guint32
yarn_seed (const OddPrint *print)
{
  const guint32 ground = print->colours[0];

  return 2 * ((ground ^ ground >> 9 ^ ground >> 17 ^ (guint32) print->kind * 37) & 0xfff);
}

void
odd_print_render (const OddPrint *print, guint32 *pixels, guint side_px, gboolean threads)
{
  guint32 seed;

  g_return_if_fail (print != NULL && pixels != NULL && side_px > 0);
  g_return_if_fail ((guint) print->kind < ODD_N_PRINT_KINDS && print->repeat_mm > 0.0);

  seed = yarn_seed (print);
  draw_inks (print, pixels, side_px);
  if (kinds[print->kind].threads == ODD_THREADS_TIED)
    odd_threads_tie_diamonds (pixels, side_px, count_repeats (print), print->colours);
  if (kinds[print->kind].threads == ODD_THREADS_TWO_COLOURED)
    odd_threads_cross (pixels, side_px, odd_print_tile_mm (print), print->colours, seed ^ 0x5a);
  if (threads)
    odd_threads_weave (pixels, side_px, odd_print_tile_mm (print), kinds[print->kind].threads, seed);
}
