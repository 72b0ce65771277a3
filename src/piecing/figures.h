/* A place with all its figures, made from a slot and a placement. */
#pragma once

#include "piecing/slot.h"

G_BEGIN_DECLS

/* A scrap as it is asked about: cloth left, and what to search on. */
typedef struct
{
  OddJob *job;
  OddScrap *scrap;
  GPtrArray *pieces;        /* (element-type OddPolygon) cloth not yet taken; scrap's frame */
  GPtrArray *search;        /* (element-type OddPolygon) the largest few, with few corners, never outside; then the same clear of zones */
  GArray *of_piece;         /* guint: the piece each of them lies in */
  guint n_plain;            /* how many of them are not clear of zones */
  GPtrArray *zones;         /* (element-type OddPolygon) only for allowances */
  gboolean may_mirror;
} OddHand;

OddHand *odd_hand_new (OddJob *job, OddScrap *scrap);
void odd_hand_free (OddHand *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddHand, odd_hand_free)

/*
 * odd_place_new:
 * @piece: the one of the hand's pieces in which the cut shape lies
 * @options: (nullable): %NULL: the score does not know how the scrap is held
 *
 * Returns: (transfer full) (nullable): %NULL when the cut shape does not lie in the piece, or the patch is narrower than the job's least side
 */
OddPlace *odd_place_new (const OddHand *hand, const OddSlot *slot, guint piece, const OddPlacement *placement, double height_mm, const OddSnapOptions *options);

G_END_DECLS
