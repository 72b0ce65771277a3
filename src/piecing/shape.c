/* Filling a bare region that is no parallelogram: between two tilted seams, or in a corner.
 *
 * The channel kernel knows upright parallelograms only, and would ask for the box about such a region. Here the cut shape itself is
 * laid into the convex parts of the cloth, in every turn that lays an edge of the scrap along one of its edges. Never a false fit;
 * for concave cloth some are missed.
 */
#include "config.h"

#include "geometry/inscribed.h"
#include "piecing/search.h"

typedef struct
{
  const OddHand *hand;
  const OddSearch *search;
  const OddConvex *cut;
  double edge_turn_deg;
  OddConvexParts **parts;       /* of each search outline; made when first asked for */
  double worth_mm2;
  GArray *finds;                /* OddFind, nearest to the hand's angle first */
  GArray *away;                 /* double: how far each is turned from it */
} Filling;

static gboolean
lay (Filling       *self,
     const OddFind *find,
     OddPlacement  *out)
{
  const OddPlacement turned = { find->turn_deg, find->mirror, { 0.0, 0.0 } };
  const OddPlacement back = odd_placement_inverse (&turned);
  g_autoptr(OddConvex) in_scrap = odd_convex_place ((OddConvex *) self->cut, &back);
  OddPoint shift;

  if (self->parts[find->piece] == NULL)
    self->parts[find->piece] = odd_convex_parts_new (self->hand->search->pdata[find->piece]);
  if (!odd_convex_parts_fit (self->parts[find->piece], in_scrap, &shift))
    return FALSE;
  shift = odd_placement_apply (&turned, shift);
  *out = (OddPlacement) { find->turn_deg, find->mirror, { -shift.x, -shift.y } };

  return TRUE;
}

static gboolean
is_known (const Filling *self,
          const OddFind *find)
{
  for (guint i = 0; i < self->finds->len; i++)
    {
      const OddFind *known = &g_array_index (self->finds, OddFind, i);

      if (known->piece == find->piece && known->mirror == find->mirror && fabs (remainder (known->turn_deg - find->turn_deg, 360.0)) < 0.05)
        return TRUE;
    }

  return FALSE;
}

static void
fill_turn (const OddFind *template,
           gpointer       data)
{
  Filling *self = data;
  OddFind find = *template;
  double away;
  guint at = 0;

  find.turn_deg = fmod (template->turn_deg + self->edge_turn_deg + 720.0, 360.0);
  away = isnan (self->search->held_turn_deg) ? find.turn_deg : fabs (remainder (find.turn_deg - self->search->held_turn_deg, 360.0));
  while (at < self->away->len && g_array_index (self->away, double, at) <= away)
    at++;
  if (at >= self->search->keep || is_known (self, &find) || !lay (self, &find, &find.placement))
    return;

  find.worth_mm2 = self->worth_mm2;
  find.height_mm = INFINITY;
  g_array_insert_val (self->away, at, away);
  g_array_insert_val (self->finds, at, find);
  if (self->finds->len > self->search->keep)
    {
      g_array_set_size (self->finds, self->search->keep);
      g_array_set_size (self->away, self->search->keep);
    }
}

GArray *
odd_search_shape (const OddHand   *hand,
                  const OddSlot   *slot,
                  const OddSearch *search)
{
  g_autoptr(OddConvex) cut = NULL;
  g_autoptr(OddConvex) region = odd_slot_region (slot, INFINITY, &cut);
  g_autofree OddConvexParts **parts = g_new0 (OddConvexParts *, hand->search->len);
  g_autoptr(GArray) away = g_array_new (FALSE, FALSE, sizeof (double));
  Filling filling = { hand, search, cut, 0.0, parts, 0.0, g_array_new (FALSE, FALSE, sizeof (OddFind)), away };

  if (region == NULL || cut == NULL)
    return filling.finds;

  filling.worth_mm2 = odd_convex_area (region);
  for (guint i = 0; i < cut->n; i++)
    {
      const OddPoint d = odd_convex_edge_half_plane (cut, i).normal;

      filling.edge_turn_deg = atan2 (d.y, d.x) * 180.0 / G_PI;
      odd_search_foreach_turn (hand, filling.edge_turn_deg, search, fill_turn, &filling);
    }
  for (guint i = 0; i < hand->search->len; i++)
    g_clear_pointer (&parts[i], odd_convex_parts_free);

  return filling.finds;
}
