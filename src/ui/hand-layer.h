/* Pictures of what is in the hand: the scrap as it is held, or the place that it would take, each drawn once and moved per frame. */
#pragma once

#include "ui/scene.h"

G_BEGIN_DECLS

typedef struct _OddHandLayer OddHandLayer;

OddHandLayer *odd_hand_layer_new (OddScene *scene);
void odd_hand_layer_free (OddHandLayer *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddHandLayer, odd_hand_layer_free)

/* Draws anew what changed; before the frame, never in it. @held_px: the middle of the scrap, or NAN when no pointer holds it. */
void odd_hand_layer_update (OddHandLayer *self, OddPoint held_px);
void odd_hand_layer_snapshot (OddHandLayer *self, GtkSnapshot *snapshot);
/* The scrap goes back to @px in 180 ms. */
void odd_hand_layer_fly_back (OddHandLayer *self, OddPoint px);
/* What the place, or else the scrap, covers on the canvas; empty for an empty hand. */
OddBox odd_hand_layer_get_box_px (OddHandLayer *self);

G_END_DECLS
