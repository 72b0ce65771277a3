/* Which fabrics can live in one cloth, and why two cannot. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_MISFIT_MASS = 1 << 0,        /* one is too heavy for the other */
  ODD_MISFIT_SHRINKAGE = 1 << 1,   /* unwashed, one pulls the seam in more than the limit */
  ODD_MISFIT_WASHED = 1 << 2,      /* one is washed, the other not, and how it shrinks is unknown */
  ODD_MISFIT_MAKE = 1 << 3,        /* woven and knit */
  ODD_MISFIT_BLEEDING = 1 << 4,    /* one bleeds and the other is light */
  ODD_MISFIT_CARE = 1 << 5         /* one asks for other care */
} OddMisfit;

typedef struct
{
  guint misfits;                   /* of OddMisfit; 0: they mix */
  double mass_ratio;               /* heavier / lighter; 0: unknown */
  double shrink_mm;                /* difference over a seam as long as a column is wide, along or across the grain */
  double contact_mm;               /* of seams where both are laid side by side, within panels */
} OddPairing;

typedef struct
{
  OddJob *job;                     /* a reference is held */
  guint n;                         /* fabrics that have scraps, in the job's order */
  OddFabric **fabrics;             /* lent by the job */
  guint *n_free;                   /* free scraps of each */
  double *free_mm2;                /* their outlines */
  OddPairing *pairs;               /* n x n, symmetric */
  guint *group;                    /* of each fabric: 0 .. n_groups - 1, the group with most free cloth first */
  guint n_groups;
} OddGroups;

/*
 * odd_groups_new:
 *
 * Fabrics are put together one by one, those with most free cloth first, each into the first group with all of which it mixes; so any two
 * of a group mix. Limits are the job's settings. Scraps of unknown cloth belong to no group.
 */
OddGroups *odd_groups_new (OddJob *job);
void odd_groups_free (OddGroups *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddGroups, odd_groups_free)

static inline const OddPairing *
odd_groups_pair (const OddGroups *self,
                 guint            a,
                 guint            b)
{
  return &self->pairs[a * self->n + b];
}

/* Sentences that say why the two do not mix; NULL when they do. (transfer full) */
char *odd_groups_dup_reason (const OddGroups *self, guint a, guint b);
/* Free scraps of one group, in the job's order. (transfer full) (element-type OddId) */
GArray *odd_groups_dup_scraps (const OddGroups *self, guint group);

G_END_DECLS
