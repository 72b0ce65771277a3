/* Which scrap a leaf lies on, and how. */
#include "config.h"

#include "piecing/crumbs-private.h"

#define N_PLACES 3                 /* ways to lie in one piece that are looked at */


typedef struct
{
  guint scrap;
  OddPlacement placement;
  OddCloth *cloth;                 /* after the cut */
  double cost_mm2;
} Lay;

static void
lay_clear (Lay *lay)
{
  g_clear_pointer (&lay->cloth, odd_cloth_unref);
}

/* The cloth that it would take, and what it looks like there: the cheaper of both lays is kept. */
static void
keep_better (Lay *best,
             Lay *lay)
{
  if (best->cloth != NULL && best->cost_mm2 <= lay->cost_mm2)
    {
      lay_clear (lay);
      return;
    }
  lay_clear (best);
  *best = *lay;
}

static OddConvex *
cut_in_scrap (const OddCrumb     *leaf,
              const OddPlacement *placement)
{
  const OddPlacement back = odd_placement_inverse (placement);

  return odd_convex_place (leaf->cut, &back);
}

static gboolean
try_placement (const OddCrumbs    *self,
               guint               at,
               guint               scrap,
               const OddPlacement *placement,
               double              look_mm2,
               Lay                *best)
{
  g_autoptr(OddConvex) cut = cut_in_scrap (odd_crumbs_node (self, at), placement);
  Lay lay = { scrap, *placement, NULL, look_mm2 };

  if (cut == NULL)
    return FALSE;
  lay.cloth = odd_cloth_cut (self->stock, scrap, self->cloths[scrap], cut, at);
  lay.cost_mm2 += lay.cloth->used_mm2 - self->cloths[scrap]->used_mm2;
  keep_better (best, &lay);

  return TRUE;
}

/* Nothing can come back of a piece that is hardly larger than the shape: then one place is as good as another. */
static guint
places_worth_trying (const OddCrumbs     *self,
                     const OddStockPiece *piece,
                     double               cut_mm2)
{
  return piece->area_mm2 - cut_mm2 < self->stock->usable_square_mm * self->stock->usable_square_mm ? 1 : N_PLACES;
}

static gboolean
try_piece (const OddCrumbs     *self,
           guint                at,
           guint                scrap,
           const OddStockPiece *piece,
           double               look_mm2,
           OddRandom           *random,
           Lay                 *best)
{
  const OddSourceScrap *source = odd_crumbs_scrap (self, scrap);
  const OddConvex *shape = odd_crumbs_node (self, at)->cut;
  const guint n = places_worth_trying (self, piece, odd_convex_area (shape));
  const guint side = piece->lies[1] != NULL ? odd_random_below (random, 2) : 0;
  gboolean found = FALSE;

  for (guint i = 0; i < n; i++)
    {
      OddPlacement placement;

      if (!odd_lies_find (piece->lies[side], shape, &source->limits[side], random, &placement)
          && (piece->lies[1 - side] == NULL || !odd_lies_find (piece->lies[1 - side], shape, &source->limits[1 - side], random, &placement)))
        break;
      found |= try_placement (self, at, scrap, &placement, look_mm2, best);
    }

  return found;
}

static gboolean
try_scrap (const OddCrumbs *self,
           guint            at,
           guint            scrap,
           const OddAround *around,
           OddRandom       *random,
           Lay             *best)
{
  const double cut_mm2 = odd_convex_area (odd_crumbs_node (self, at)->cut);
  OddCloth *cloth = self->cloths[scrap];
  double look_mm2 = NAN;
  gboolean found = FALSE;

  for (guint i = 0; i < cloth->pieces->len; i++)
    {
      OddStockPiece *piece = cloth->pieces->pdata[i];

      if (piece->area_mm2 < cut_mm2 - 1.0)
        continue;
      if (piece->lies[0] == NULL)
        odd_cloth_prepare (self->stock, scrap, cloth);
      if (isnan (look_mm2))
        look_mm2 = odd_crumbs_look_with (self, at, scrap, around);
      /* it takes as much cloth as the shape has, if not more */
      if (best->cloth != NULL && best->cost_mm2 <= look_mm2 + cut_mm2)
        return found;
      found |= try_piece (self, at, scrap, piece, look_mm2, random, best);
    }

  return found;
}

/* Takes the lay's cloth. The node has been saved. */
static void
take_lay (OddCrumbs *self,
          guint      at,
          Lay       *lay)
{
  OddCrumb *leaf = odd_crumbs_node (self, at);

  leaf->scrap = lay->scrap;
  leaf->placement = lay->placement;
  self->fabric_mm2[odd_crumbs_scrap (self, lay->scrap)->fabric] += leaf->area_mm2;
  odd_crumbs_set_cloth (self, lay->scrap, g_steal_pointer (&lay->cloth));
}

void
odd_crumbs_take_off (OddCrumbs *self,
                     guint      at)
{
  OddCrumb *leaf = odd_crumbs_node (self, at);

  if (leaf->scrap == ODD_NO_SCRAP)
    return;
  odd_crumbs_set_cloth (self, leaf->scrap, odd_cloth_give_back (self->stock, leaf->scrap, self->cloths[leaf->scrap], at));
  self->fabric_mm2[odd_crumbs_scrap (self, leaf->scrap)->fabric] -= leaf->area_mm2;
  leaf->scrap = ODD_NO_SCRAP;
}

gboolean
odd_crumbs_lay (OddCrumbs *self,
                guint      at,
                guint      scrap,
                OddRandom *random)
{
  Lay best = { .cloth = NULL };
  OddAround around;

  odd_crumbs_look_around (self, at, &around);
  if (!try_scrap (self, at, scrap, &around, random, &best))
    return FALSE;
  take_lay (self, at, &best);

  return TRUE;
}

gboolean
odd_crumbs_lay_as (OddCrumbs          *self,
                   guint               at,
                   guint               scrap,
                   const OddPlacement *placement)
{
  g_autoptr(OddConvex) cut = cut_in_scrap (odd_crumbs_node (self, at), placement);
  Lay lay = { scrap, *placement, NULL, 0.0 };

  if (cut != NULL)
    lay.cloth = odd_cloth_cut_as_before (self->stock, scrap, self->cloths[scrap], cut, at);
  if (lay.cloth == NULL)
    return FALSE;
  take_lay (self, at, &lay);

  return TRUE;
}

/* --- which scraps to try --- */

/* The first in by_area whose whole cloth is as large as that. */
static guint
first_as_large (const OddCrumbs *self,
                double           mm2)
{
  guint low = 0, high = self->stock->sources->scraps->len;

  while (low < high)
    {
      const guint middle = (low + high) / 2;

      if (self->stock->areas_mm2[self->by_area[middle]] < mm2)
        low = middle + 1;
      else
        high = middle;
    }

  return low;
}

typedef struct { double area_mm2; guint scrap; } Candidate;

static gint
compare_candidates (gconstpointer a,
                    gconstpointer b)
{
  const Candidate *p = a;
  const Candidate *q = b;

  if (p->area_mm2 != q->area_mm2)
    return p->area_mm2 < q->area_mm2 ? -1 : 1;

  return p->scrap < q->scrap ? -1 : p->scrap > q->scrap;
}

/* Scraps by the smallest of their pieces that is as large as the shape. */
static GArray *
candidates_for (const OddCrumbs *self,
                double           cut_mm2)
{
  const guint n = self->stock->sources->scraps->len;
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Candidate));

  for (guint i = first_as_large (self, cut_mm2 - 1.0); i < n; i++)
    {
      const OddCloth *cloth = self->cloths[self->by_area[i]];
      Candidate candidate = { INFINITY, self->by_area[i] };

      for (guint k = 0; k < cloth->pieces->len; k++)
        {
          const double mm2 = ((OddStockPiece *) cloth->pieces->pdata[k])->area_mm2;

          if (mm2 >= cut_mm2 - 1.0)
            candidate.area_mm2 = MIN (candidate.area_mm2, mm2);
        }
      if (isfinite (candidate.area_mm2))
        g_array_append_val (found, candidate);
    }
  g_array_sort (found, compare_candidates);

  return found;
}

gboolean
odd_crumbs_lay_best (OddCrumbs *self,
                     guint      at,
                     guint      n_fits,
                     OddRandom *random)
{
  g_autoptr(GArray) candidates = candidates_for (self, odd_convex_area (odd_crumbs_node (self, at)->cut));
  Lay best = { .cloth = NULL };
  OddAround around;
  guint tight = 0;

  odd_crumbs_look_around (self, at, &around);
  for (guint found = 0; tight < candidates->len && found < n_fits; tight++)
    found += try_scrap (self, at, g_array_index (candidates, Candidate, tight).scrap, &around, random, &best);
  for (guint i = 0, found = 0; tight < candidates->len && i < 2 * n_fits && found < n_fits; i++)
    {
      const guint k = tight + odd_random_below (random, candidates->len - tight);

      found += try_scrap (self, at, g_array_index (candidates, Candidate, k).scrap, &around, random, &best);
    }
  if (best.cloth == NULL)
    return FALSE;
  take_lay (self, at, &best);

  return TRUE;
}

gboolean
odd_crumbs_lay_some (OddCrumbs *self,
                     guint      at,
                     guint      own,
                     guint      n_tries,
                     OddRandom *random)
{
  const guint n = self->stock->sources->scraps->len;
  const guint first = first_as_large (self, odd_convex_area (odd_crumbs_node (self, at)->cut) - 1.0);
  Lay best = { .cloth = NULL };
  OddAround around;
  guint last = own;

  odd_crumbs_look_around (self, at, &around);
  if (own != ODD_NO_SCRAP)
    try_scrap (self, at, own, &around, random, &best);
  for (guint i = 0; i < n_tries && first < n; i++)
    {
      const double u = odd_random_unit (random);
      const guint scrap = self->by_area[first + (guint) (u * u * (n - first))];

      /* of few scraps, the same comes up again and again */
      if (scrap != last)
        try_scrap (self, at, scrap, &around, random, &best);
      last = scrap;
    }
  if (best.cloth == NULL)
    return FALSE;
  take_lay (self, at, &best);

  return TRUE;
}
