#include "config.h"

#include <math.h>

#include "drawing/colour.h"
#include "drawing/threads.h"

#define WEAVE_MM 3.2           /* over and under once: coarser than most cloth, so that it is still seen at half size */
#define WEAVE_DARK 0.055
#define WEAVE_LIGHT 0.07
#define SLUB_LENGTH_MM 22.0
#define YARN_MM 0.85

/* A number in [0, 1) for a place on a grid: the finaliser of Steele, Lea and Flood, "Fast splittable
 * pseudorandom number generators" (OOPSLA 2014), as published in its reference code. */
static double
chance (guint32 seed, guint32 i, guint32 j)
{
  guint64 z = ((guint64) seed << 48) ^ ((guint64) i << 24) ^ j;

  z += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  z ^= z >> 31;
  return (double) (z >> 11) * 0x1.0p-53;
}

static double
ease (double t)
{
  return t * t * (3.0 - 2.0 * t);
}

/* Seamless streaks over the unit square: noise on a grid of nu x nv cells, eased between its nodes. */
typedef struct
{
  guint nu, nv;
  double *nodes;
} Streaks;

static void
streaks_init (Streaks *self, guint32 seed, guint nu, guint nv)
{
  self->nu = nu;
  self->nv = nv;
  self->nodes = g_new (double, (gsize) nu * nv);
  for (guint j = 0; j < nv; j++)
    for (guint i = 0; i < nu; i++)
      self->nodes[j * nu + i] = 2.0 * chance (seed, i, j) - 1.0;
}

/* In [-1, 1], mostly near 0: thick yarn is rare. */
static double
streaks_get (const Streaks *self, double u, double v)
{
  const double x = u * self->nu, y = v * self->nv;
  const guint i = (guint) x % self->nu, j = (guint) y % self->nv;
  const guint next_i = i + 1 < self->nu ? i + 1 : 0, next_j = j + 1 < self->nv ? j + 1 : 0;
  const double s = ease (x - (guint) x), t = ease (y - (guint) y);
  const double *row = self->nodes + (gsize) j * self->nu, *next_row = self->nodes + (gsize) next_j * self->nu;
  const double top = row[i] + (row[next_i] - row[i]) * s, bottom = next_row[i] + (next_row[next_i] - next_row[i]) * s;
  const double value = top + (bottom - top) * t;

  return value * fabs (value);
}

/* The yarns of both directions. */
typedef struct
{
  Streaks warp, weft;
} Yarns;

static guint
cells (double side_mm, double cell_mm)
{
  return MAX (1u, (guint) floor (side_mm / cell_mm + 0.5));
}

static void
yarns_init (Yarns *self, guint32 seed, double side_mm)
{
  const guint n = cells (side_mm, YARN_MM), slubs = cells (side_mm, SLUB_LENGTH_MM);

  streaks_init (&self->warp, seed, n, slubs);
  streaks_init (&self->weft, seed + 1, slubs, n);
}

static void
yarns_clear (Yarns *self)
{
  g_free (self->warp.nodes);
  g_free (self->weft.nodes);
}

static guint32
shade (guint32 pixel, double light)
{
  return 0xff000000u | odd_colour_mix (pixel & 0xffffffu, light < 0.0 ? 0x000000u : 0xffffffu, fabs (light));
}

/* Crests of warp and weft, in [-1, 1]. A twill shifts one thread a pick. */
static void
crests (double *across, double *slanting, guint side_px, guint n)
{
  for (guint i = 0; i < side_px; i++)
    {
      across[i] = cos (2.0 * G_PI * n * (i + 0.5) / side_px);
      slanting[i] = sin (2.0 * G_PI * n * (i + 0.5) / side_px);
    }
}

void
odd_threads_weave (guint32 *pixels, guint side_px, double side_mm, OddThreads threads, guint32 seed)
{
  const double strength = threads == ODD_THREADS_SLUBBED ? 0.115 : threads == ODD_THREADS_TWO_COLOURED ? 0.05 : 0.05;
  g_autofree double *across = g_new (double, side_px), *slanting = g_new (double, side_px);
  Yarns yarns;

  crests (across, slanting, side_px, cells (side_mm, WEAVE_MM));
  yarns_init (&yarns, seed, side_mm);
  for (guint y = 0; y < side_px; y++)
    for (guint x = 0; x < side_px; x++)
      {
        const double u = (x + 0.5) / side_px, v = (y + 0.5) / side_px;
        const double plain = across[x] * across[y];
        const double wave = threads == ODD_THREADS_TWILL ? 0.25 * plain + 0.75 * slanting[(x + y) % side_px] : plain;
        const double yarn = streaks_get (&yarns.warp, u, v) + streaks_get (&yarns.weft, u, v);
        const double light = (wave < 0.0 ? WEAVE_DARK : WEAVE_LIGHT) * wave + strength * yarn;

        pixels[y * side_px + x] = shade (pixels[y * side_px + x], light);
      }
  yarns_clear (&yarns);
}

void
odd_threads_cross (guint32 *pixels, guint side_px, double side_mm, const guint32 colours[2], guint32 seed)
{
  Yarns yarns;

  yarns_init (&yarns, seed, side_mm);
  for (guint y = 0; y < side_px; y++)
    for (guint x = 0; x < side_px; x++)
      {
        const double u = (x + 0.5) / side_px, v = (y + 0.5) / side_px;
        const double share = 0.30 + 0.55 * streaks_get (&yarns.warp, u, v) + 0.45 * streaks_get (&yarns.weft, u, v);

        pixels[y * side_px + x] = 0xff000000u | odd_colour_mix (colours[0], colours[1], CLAMP (share, 0.0, 1.0));
      }
  yarns_clear (&yarns);
}

/* Nested lozenges; each yarn has slipped a little along itself, and the dye has run a little into the tied places. */
void
odd_threads_tie_diamonds (guint32 *pixels, guint side_px, guint n_repeats, const guint32 colours[4])
{
  static const struct { double until; guint colour; } rings[] = { { 0.13, 3 }, { 0.20, 2 }, { 0.27, 3 }, { 0.36, 2 }, { 0.50, 1 }, { 2.0, 0 } };
  const guint yarns = n_repeats * 46;

  for (guint x = 0; x < side_px; x++)
    {
      const double u = (x + 0.5) / side_px;
      const guint yarn = (guint) (u * yarns);
      const double slip = 0.085 * (chance (31, yarn, 0) - 0.5) + 0.06 * (chance (32, yarn / 3, 0) - 0.5);

      for (guint y = 0; y < side_px; y++)
        {
          const double v = (y + 0.5) / side_px;
          const double across = fabs (u * n_repeats - floor (u * n_repeats) - 0.5);
          const double along = v * n_repeats + slip;
          const double down = fabs (along - floor (along) - 0.5);
          const double run = 0.022 * (chance (33, yarn, (guint) (v * yarns)) - 0.5);
          const double distance = across * 1.06 + down * 0.94 + run;
          guint32 colour = colours[0];

          for (guint i = 0; i < G_N_ELEMENTS (rings); i++)
            if (distance < rings[i].until)
              {
                const double soft = CLAMP ((rings[i].until - distance) / 0.02, 0.0, 1.0);

                colour = i + 1 < G_N_ELEMENTS (rings) ? odd_colour_mix (colours[rings[i + 1].colour], colours[rings[i].colour], soft) : colours[rings[i].colour];
                break;
              }
          pixels[y * side_px + x] = 0xff000000u | colour;
        }
    }
}
