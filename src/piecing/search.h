/* The search for places: all turns of a scrap against all slots, the poorer ones never tried in full. */
#pragma once

#include "geometry/channel.h"
#include "piecing/figures.h"

G_BEGIN_DECLS

typedef struct
{
  guint slot;               /* which of the slots asked about */
  guint piece;              /* which of the hand's search outlines */
  double turn_deg;          /* in the slot's frame */
  gboolean mirror;
  gboolean as_held;         /* not flush with anything: the turn at which the scrap is held */
  double height_mm;         /* finished */
  double worth_mm2;         /* finished area covered: what the search goes by */
  double row_width_mm;
  OddPlacement placement;
} OddFind;

typedef struct
{
  double held_turn_deg;     /* panel's layout frame; NAN: not held */
  gboolean only_held;
  gboolean mirror;
  guint keep;               /* how many of each class */
  double min_height_mm;     /* finished */
} OddSearch;

/* The tallest places of each class that take the slot's whole width, the best first.
 * (transfer full) (element-type OddFind) */
GArray *odd_search_whole (const OddHand *hand, OddSlot *const *slots, guint n_slots, const OddSearch *search);
/* The largest first patches of a row in the slot, one a turn, the best first. */
GArray *odd_search_rows (const OddHand *hand, OddSlot *slot, const OddSearch *search, gboolean at_end);
/* Placements in which the scrap covers all of a bare region of any shape, nearest to the hand's angle first. */
GArray *odd_search_shape (const OddHand *hand, const OddSlot *slot, const OddSearch *search);
/* Every search outline, mirrored or not, in every turn that lays one of its edges along or across a line of this direction. */
typedef void (*OddTurnFunc) (const OddFind *turn, gpointer data);
void odd_search_foreach_turn (const OddHand *hand, double frame_turn_deg, const OddSearch *search, OddTurnFunc func, gpointer data);
/* What the scrap is short of in width, mm, at the least height; 0 when nothing is missing. */
double odd_search_shortage (const OddHand *hand, const OddSlot *slot, const OddSearch *search);
/* Fits it anew on the piece itself, where the search went by a simpler outline. FALSE: does not fit. */
gboolean odd_search_refit (const OddHand *hand, const OddSlot *slot, const OddSearch *search, OddFind *find);

G_END_DECLS
