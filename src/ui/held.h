/* What is in the hand: one scrap, where it is held, the places that it may take at one target. Knows no widget. */
#pragma once

#include "cloth/document.h"
#include "piecing/snap.h"

G_BEGIN_DECLS

#define ODD_TYPE_HELD (odd_held_get_type ())
G_DECLARE_FINAL_TYPE (OddHeld, odd_held, ODD, HELD, GObject)

/* Signal: changed: scrap, target, places, or which of them is shown. */
OddHeld *odd_held_new (OddDocument *document);

/* Only a scrap that is free, or placed but not gone, can be taken; else FALSE. */
gboolean odd_held_take (OddHeld *self, OddId scrap_id);
void odd_held_put_back (OddHeld *self);
OddId odd_held_get_scrap_id (OddHeld *self);                          /* 0: empty */

/* @target NULL: over no opening. */
void odd_held_set_target (OddHeld *self, const OddTarget *target);
const OddTarget *odd_held_get_target (OddHeld *self);                 /* or NULL */
/* Where the middle of the scrap's box is held, in the target panel's layout frame; NAN: not held. The place shown stays until another is clearly better. */
void odd_held_hold (OddHeld *self, OddPoint at_mm, gboolean keep_angle);
void odd_held_turn (OddHeld *self, double by_deg);
double odd_held_get_turn (OddHeld *self);                             /* degrees, as held */

void odd_held_step (OddHeld *self, int step);                         /* next, previous place; round and round */
gboolean odd_held_nudge (OddHeld *self, double along_mm, double across_mm);
const OddPlace *odd_held_get_place (OddHeld *self);                   /* the place shown, or NULL */
guint odd_held_get_n_places (OddHeld *self);
guint odd_held_get_index (OddHeld *self);
guint odd_held_get_serial (OddHeld *self);                            /* another one after each change */
const char *odd_held_get_refusal (OddHeld *self);                     /* why nothing fits here, or NULL */

/* Does what is shown as one step of the document, and empties the hand. @out_text (nullable): what to tell, or NULL. */
gboolean odd_held_sew_on (OddHeld *self, OddId *out_leaf_id, char **out_text, GError **error);

/* "Flush edge", "Turned", "Tilted", "Starts a row", "As held". */
const char *odd_place_class_get_name (OddPlaceClass kind);

G_END_DECLS
