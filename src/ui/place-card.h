/* Figures of the place that a scrap would take: a card beside it, or a strip along the top of a narrow window. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/length.h"
#include "ui/held.h"

G_BEGIN_DECLS

#define ODD_TYPE_PLACE_CARD (odd_place_card_get_type ())
G_DECLARE_FINAL_TYPE (OddPlaceCard, odd_place_card, ODD, PLACE_CARD, GtkWidget)

/* Signal: next: another place is asked for. */
GtkWidget *odd_place_card_new (void);
/* @by_key: no pointer holds the scrap, so that Enter sews on; @keys: keys reach the canvas. */
void odd_place_card_show (OddPlaceCard *self, OddHeld *hand, OddUnit unit, gboolean by_key, gboolean keys);
void odd_place_card_set_narrow (OddPlaceCard *self, gboolean narrow);

G_END_DECLS
