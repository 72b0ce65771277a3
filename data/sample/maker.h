/* The sample job that ships with Oddment, made by the same edits that a maker makes. Built, not installed. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

/* The job as it grows. Whatever is refused ends the program: a sample that cannot be made is a bug. */
typedef struct
{
  OddJob *job;
  GError *error;              /* handed to each edit */
  GRand *random;              /* seeded: the same sample each time */
  OddId *fabrics;             /* ids, in the order of sample_add_fabrics() */
  guint n_fabrics;
} Maker;

/* Takes the next job; NULL: tells maker->error and exits. */
void sample_step (Maker *maker, OddJob *next);

/* Nineteen cottons and linens, some of which shrink. */
void sample_add_fabrics (Maker *maker);

/* Each adds a bare, loose panel, sets its finish and divides it; returns the panel's id. */
OddId sample_add_squares (Maker *maker);
OddId sample_add_bricks (Maker *maker);
OddId sample_add_crumbs (Maker *maker);
OddId sample_add_started (Maker *maker);

/* Chooses a fabric for each leaf of these panels, cuts scraps to suit, adds some that are still free, and places the first. */
void sample_fill (Maker *maker, const OddId *panels, guint n_panels, guint n_free);

/* Some seams are done, some under way. */
void sample_work (Maker *maker, const OddId *panels);

G_END_DECLS
