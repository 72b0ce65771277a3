/* Where the figures of a place go: never under the pointer, off the place that they tell of. */
#include "config.h"
#include "ui/canvas-private.h"

#include "ui/place-card.h"
#include "ui/ruler.h"

#define CARD_GAP_PX 10.0
#define POINTER_PX 24.0               /* kept clear round the pointer */

static double
overlap (OddBox a, OddBox b)
{
  const double width = MIN (a.x + a.width, b.x + b.width) - MAX (a.x, b.x);
  const double height = MIN (a.y + a.height, b.y + b.height) - MAX (a.y, b.y);

  return width > 0 && height > 0 ? width * height : 0;
}

/* Beside the place and clear of it and of the pointer; where nothing is clear, what covers least. */
static OddPoint
find_card_spot (OddCanvas *self, double card_width, double card_height, double width, double height)
{
  const double rim = odd_canvas_has_rulers (self) ? ODD_RULER_PX : 0;
  const OddBox place = odd_hand_tool_get_box_px (ODD_HAND_TOOL (self->hand_tool));
  const OddPoint held = odd_hand_tool_get_held_px (ODD_HAND_TOOL (self->hand_tool));
  const OddPoint spots[] = {
    { place.x + place.width / 2 - card_width / 2, fmax (place.y + place.height, held.y + POINTER_PX) + CARD_GAP_PX },
    { place.x + place.width + CARD_GAP_PX, place.y + place.height / 2 - card_height / 2 },
    { place.x - card_width - CARD_GAP_PX, place.y + place.height / 2 - card_height / 2 },
    { place.x + place.width / 2 - card_width / 2, place.y - card_height - CARD_GAP_PX },
    { width, height }, { width, rim }, { rim, height }, { rim, rim },
  };
  OddPoint best = { width, height };
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < G_N_ELEMENTS (spots); i++)
    {
      const OddPoint at = { CLAMP (spots[i].x, rim + CARD_GAP_PX, MAX (width - card_width - CARD_GAP_PX, rim + CARD_GAP_PX)),
                            CLAMP (spots[i].y, rim + CARD_GAP_PX, MAX (height - card_height - CARD_GAP_PX, rim + CARD_GAP_PX)) };
      const OddBox card = { at.x, at.y, card_width, card_height };
      double bad = odd_box_is_empty (place) ? i : overlap (card, place) + i * 0.1;

      if (isfinite (held.x) && odd_box_contains (odd_box_grow (card, POINTER_PX), held))
        bad += 1e6;
      if (bad < least)
        {
          least = bad;
          best = at;
        }
    }
  return best;
}

void
odd_canvas_allocate_card (OddCanvas *self, int width, int height)
{
  GtkRequisition size;
  int natural_width, natural_height;
  OddPoint at;

  if (!gtk_widget_get_child_visible (self->card))
    return;
  gtk_widget_get_preferred_size (self->card, NULL, &size);
  natural_width = MIN (size.width, width);
  if (width < NARROW_PX)
    {
      gtk_widget_size_allocate (self->card, &(GtkAllocation) { 10, 10, MAX (width - 20, 1), size.height }, -1);
      return;
    }
  gtk_widget_measure (self->card, GTK_ORIENTATION_VERTICAL, natural_width, NULL, &natural_height, NULL, NULL);
  at = find_card_spot (self, natural_width, natural_height, width, height);
  gtk_widget_size_allocate (self->card, &(GtkAllocation) { (int) at.x, (int) at.y, natural_width, natural_height }, -1);
}

void
odd_canvas_update_card (OddCanvas *self)
{
  gtk_widget_set_child_visible (self->card, odd_canvas_is_in_hand (self));
  if (!odd_canvas_is_in_hand (self))
    return;
  odd_place_card_set_narrow (ODD_PLACE_CARD (self->card), gtk_widget_get_width (GTK_WIDGET (self)) < NARROW_PX);
  odd_place_card_show (ODD_PLACE_CARD (self->card), self->scene.hand, self->scene.unit,
                       !odd_hand_tool_is_held (ODD_HAND_TOOL (self->hand_tool)), odd_hand_tool_has_keys (ODD_HAND_TOOL (self->hand_tool)));
}
