/* Cloth to draw from: the pieces of free scraps, with what the look must know of them. */
#pragma once

#include "piecing/colour-difference.h"
#include "piecing/lie.h"
#include "piecing/proposal.h"

G_BEGIN_DECLS

typedef struct
{
  guint scrap;                /* in OddSources.scraps */
  OddPolygon *piece;          /* cloth that may lie in a patch, scrap's frame */
  OddPolygon *search;         /* the same with few corners, never outside */
} OddSource;

/* One scrap. */
typedef struct
{
  OddId id;
  guint fabric;               /* in OddSources.fabrics */
  gboolean reversible;        /* may be mirrored */
  OddTurnLimits limits[2];    /* as it is, and mirrored */
} OddSourceScrap;

/* Scraps of unknown cloth count as one fabric each. */
typedef struct
{
  OddId id;                   /* 0: unknown cloth */
  OddLab colour;
} OddSourceFabric;

typedef struct
{
  GArray *scraps;             /* OddSourceScrap */
  GArray *fabrics;            /* OddSourceFabric */
  GArray *pieces;             /* OddSource; appended to when offcuts come back */
  double area_mm2;
} OddSources;

GArray *odd_sources_pieces_new (void);      /* of OddSource, freeing what they hold */
/* Of the finished area, how much each of the sources' fabrics may have. (transfer full) array by fabric; 1: as it comes */
double *odd_sources_dup_shares (const OddSources *self, const OddProposalOptions *options);
/* And how much each should have. (transfer full) array by fabric; 0: as it comes */
double *odd_sources_dup_least (const OddSources *self, const OddProposalOptions *options);
OddSources *odd_sources_new (OddJob *job, const OddProposalOptions *options);
/* The same, and what came free between the two jobs whether it is among those wanted or not: it was in the cloth that is pieced anew. */
OddSources *odd_sources_new_freed (OddJob *before, OddJob *job, const OddProposalOptions *options);
void odd_sources_free (OddSources *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddSources, odd_sources_free)

static inline OddSource *
odd_sources_piece (const OddSources *self,
                   guint             i)
{
  return &g_array_index (self->pieces, OddSource, i);
}

static inline OddSourceScrap *
odd_sources_scrap_of (const OddSources *self,
                      guint             piece)
{
  return &g_array_index (self->scraps, OddSourceScrap, odd_sources_piece (self, piece)->scrap);
}

/* Takes @piece. */
void odd_sources_add_piece (OddSources *self, guint scrap, OddPolygon *piece);

/*
 * odd_scrap_allowed_turns:
 * @half: %TRUE: turns in [0, 180), for what looks the same after half a turn; %FALSE: in [0, 90), for squares
 *
 * The turns at which a patch may be cut from the scrap: those that lay an edge of @piece along the panel, as far as its cloth allows; and for cloth that
 * must keep to its grain, or a print with an up, the one that lays it straight.
 *
 * Returns: (transfer full): GArray of double, degrees
 */
GArray *odd_scrap_allowed_turns (const OddSourceScrap *scrap, OddPolygon *piece, gboolean half);

G_END_DECLS
