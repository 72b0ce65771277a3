/* How a convex cut shape can lie in a piece of cloth: the kernel under crumbs. */
#pragma once

#include "geometry/inscribed.h"
#include "piecing/random.h"

G_BEGIN_DECLS

/* Turns of a scrap at which it may be laid, by grain and print. */
typedef struct
{
  double turn_deg[2];         /* lays the grain along the panel's length */
  guint n;                    /* 1: one way up only; 2: and upside down; 0: any turn will do */
  double within_deg;
} OddTurnLimits;

/* Is it allowed to turn so far? */
gboolean odd_turn_limits_allow (const OddTurnLimits *self, double turn_deg);

/* The convex parts of a piece, ready to be asked; never changed, so threads share it. */
typedef struct _OddLies OddLies;
/* @mirror: of the piece seen from its other side (x -> -x). */
OddLies *odd_lies_new (OddPolygon *piece, gboolean mirror);
void odd_lies_free (OddLies *self);

/*
 * odd_lies_find:
 * @cut: the shape, panel's frame
 * @limits: of the piece as it is seen from the side asked for
 * @random: decides which of the places that there are; moved on by one or two numbers
 * @out: (out): places the piece (its frame, mirrored if @self is) in the panel's frame; untouched when there is none
 *
 * A place lays an edge of the shape flush with one of the piece (or the piece straight to its grain where it has to be), and pushes it into a
 * corner of what room it then has. By half-planes: shifts t keep a shape inside n . p <= c when n . t <= c - h (n), h the support of the
 * turned shape (Minkowski difference of convex sets). Never a false one; for cloth that is not convex some can be missed.
 */
gboolean odd_lies_find (const OddLies *self, const OddConvex *cut, const OddTurnLimits *limits, OddRandom *random, OddPlacement *out);

G_END_DECLS
