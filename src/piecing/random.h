/* A small seeded generator, passed in wherever chance decides: same seed, same cloth.
 *
 * SplitMix64: G. L. Steele, D. Lea, C. H. Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014, figure 14.
 * Chosen because one word of state makes it cheap to give every scrap or column a stream of its own, so the
 * number of threads cannot change what comes out.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct { guint64 state; } OddRandom;

static inline guint64
odd_random_next (OddRandom *self)
{
  guint64 z = (self->state += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15));

  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);

  return z ^ (z >> 31);
}

/* In [0, 1). */
static inline double
odd_random_unit (OddRandom *self)
{
  return (double) (odd_random_next (self) >> 11) * 0x1.0p-53;
}

static inline double
odd_random_range (OddRandom *self,
                  double     from,
                  double     to)
{
  return from + (to - from) * odd_random_unit (self);
}

/* 0 .. n - 1; @n at least 1. */
static inline guint
odd_random_below (OddRandom *self,
                  guint      n)
{
  return (guint) (((odd_random_next (self) >> 32) * (guint64) n) >> 32);
}

/* A stream of its own for the @index-th of something. */
static inline OddRandom
odd_random_stream (guint64 seed,
                   guint64 index)
{
  OddRandom mix = { seed ^ (index * G_GUINT64_CONSTANT (0xd1342543de82ef95)) };

  return (OddRandom) { odd_random_next (&mix) };
}

G_END_DECLS
