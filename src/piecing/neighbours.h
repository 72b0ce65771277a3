/* Patches of a proposal as they lie side by side, and which of them share a border. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef struct
{
  const OddPatch *patch;           /* with a scrap; lent by OddNeighbours.layouts */
  OddConvex *region;               /* textile's frame */
  OddBox box;
  gboolean was_there;              /* a neighbour only */
} OddLaidPatch;

typedef struct { guint a, b; } OddPair;

typedef struct
{
  GPtrArray *layouts;              /* (element-type OddLayout) kept alive */
  GArray *laid;                    /* OddLaidPatch, from the top down */
  GArray *pairs;                   /* OddPair, a < b: in laid; they share at least 0.5 mm of border */
} OddNeighbours;

/* @panels: (array length=n_panels): of @after; @before: what lay there before, by id. (transfer full) */
OddNeighbours *odd_neighbours_new (OddJob *before, OddJob *after, const OddId *panels, guint n_panels);
void odd_neighbours_free (OddNeighbours *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddNeighbours, odd_neighbours_free)

/* A seam, a join, or a patch that lies on a scrap. */
gboolean odd_was_there (OddJob *before, OddId id);
/* Cloth that nobody named is one fabric with itself only. */
gboolean odd_patches_are_of_one_cloth (const OddPatch *a, const OddPatch *b);

G_END_DECLS
