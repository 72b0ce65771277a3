#include "config.h"

#include "cloth/offcuts.h"
#include "piecing/parallel.h"
#include "piecing/stock.h"

#define SEARCH_TOLERANCE_MM 1.0    /* as in sources.c */
#define SEARCH_CORNERS 16
#define INSIDE_MM 1e-3             /* rounding, of what lay there before */
#define OVERLAP_MM2 0.1
#define RAGGED_MM 3.0              /* an offcut's border beyond what the scrap had costs a strip so wide: thin tails are of little use */

static OddStockPiece *
piece_new (OddPolygon *polygon,
           double      usable_square_mm)
{
  OddStockPiece *self = g_new0 (OddStockPiece, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->polygon = odd_polygon_ref (polygon);
  self->area_mm2 = odd_polygon_get_area (polygon);
  self->perimeter_mm = odd_polygon_get_perimeter (polygon);
  self->usable = odd_piece_holds_square (polygon, usable_square_mm);

  return self;
}

static OddStockPiece *
piece_ref (OddStockPiece *self)
{
  g_atomic_ref_count_inc (&self->ref_count);

  return self;
}

static void
piece_unref (gpointer data)
{
  OddStockPiece *self = data;

  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  odd_polygon_unref (self->polygon);
  odd_lies_free (self->lies[0]);
  odd_lies_free (self->lies[1]);
  g_free (self);
}

static OddCloth *
cloth_new (void)
{
  OddCloth *self = g_new0 (OddCloth, 1);

  g_atomic_ref_count_init (&self->ref_count);
  self->pieces = g_ptr_array_new_with_free_func (piece_unref);
  self->cuts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_convex_unref);
  self->owners = g_array_new (FALSE, FALSE, sizeof (guint));

  return self;
}

OddCloth *
odd_cloth_ref (OddCloth *self)
{
  g_atomic_ref_count_inc (&self->ref_count);

  return self;
}

void
odd_cloth_unref (OddCloth *self)
{
  if (!g_atomic_ref_count_dec (&self->ref_count))
    return;
  g_ptr_array_unref (self->pieces);
  g_ptr_array_unref (self->cuts);
  g_array_unref (self->owners);
  g_free (self);
}

/* --- all scraps --- */

static void
prepare_piece (const OddStock *stock,
               guint           scrap,
               OddStockPiece  *piece)
{
  const gboolean may_mirror = g_array_index (stock->sources->scraps, OddSourceScrap, scrap).reversible;
  g_autoptr(OddPolygon) search = NULL;

  if (piece->lies[0] != NULL)
    return;
  search = odd_polygon_simplify_inside (piece->polygon, SEARCH_TOLERANCE_MM, SEARCH_CORNERS);
  piece->lies[0] = odd_lies_new (search != NULL ? search : piece->polygon, FALSE);
  if (may_mirror)
    piece->lies[1] = odd_lies_new (search != NULL ? search : piece->polygon, TRUE);
}

void
odd_cloth_prepare (const OddStock *stock,
                   guint           scrap,
                   OddCloth       *self)
{
  for (guint i = 0; i < self->pieces->len; i++)
    prepare_piece (stock, scrap, self->pieces->pdata[i]);
}

static void
prepare_cb (guint    item,
            gpointer data)
{
  OddStock *self = data;
  const OddSources *sources = self->sources;
  OddCloth *cloth = cloth_new ();

  for (guint i = 0; i < sources->pieces->len; i++)
    {
      const OddSource *source = odd_sources_piece (sources, i);

      if (source->scrap != item)
        continue;
      g_ptr_array_add (cloth->pieces, piece_new (source->piece, self->usable_square_mm));
      self->areas_mm2[item] += odd_polygon_get_area (source->piece);
      self->perimeters_mm[item] += odd_polygon_get_perimeter (source->piece);
    }
  odd_cloth_prepare (self, item, cloth);
  self->whole[item] = cloth;
}

OddStock *
odd_stock_new (const OddSources *sources,
               double            usable_square_mm,
               guint             n_threads,
               GCancellable     *cancellable,
               GError          **error)
{
  g_autoptr(OddStock) self = g_new0 (OddStock, 1);

  self->sources = sources;
  self->usable_square_mm = usable_square_mm;
  self->whole = g_new0 (OddCloth *, MAX (sources->scraps->len, 1));
  self->areas_mm2 = g_new0 (double, MAX (sources->scraps->len, 1));
  self->perimeters_mm = g_new0 (double, MAX (sources->scraps->len, 1));
  if (!odd_for_each_item (sources->scraps->len, n_threads, prepare_cb, self, cancellable, error))
    return NULL;

  return g_steal_pointer (&self);
}

void
odd_stock_free (OddStock *self)
{
  for (guint i = 0; i < self->sources->scraps->len; i++)
    g_clear_pointer (&self->whole[i], odd_cloth_unref);
  g_free (self->whole);
  g_free (self->areas_mm2);
  g_free (self->perimeters_mm);
  g_free (self);
}

/* --- one scrap --- */

static void
measure (const OddStock *stock,
         guint           scrap,
         OddCloth       *self)
{
  double border_mm = -stock->perimeters_mm[scrap];

  if (self->cuts->len == 0)
    return;
  self->used_mm2 = stock->areas_mm2[scrap];
  for (guint i = 0; i < self->pieces->len; i++)
    {
      const OddStockPiece *piece = self->pieces->pdata[i];

      if (!piece->usable)
        continue;
      self->used_mm2 -= piece->area_mm2;
      border_mm += piece->perimeter_mm;
    }
  self->used_mm2 += RAGGED_MM * MAX (border_mm, 0.0);
}

/* What holds no usable square is of no use to a patch either, save a scrap that was small from the start. */
static void
add_usable (const OddStock *stock,
            OddCloth       *self,
            OddPolygon     *polygon)
{
  OddStockPiece *rest;

  if (odd_polygon_get_area (polygon) < stock->usable_square_mm * stock->usable_square_mm)
    return;
  rest = piece_new (polygon, stock->usable_square_mm);
  if (rest->usable)
    g_ptr_array_add (self->pieces, rest);
  else
    piece_unref (rest);
}

/* Nobody cuts a patch out of the middle without cutting into the cloth. Slit, the outline is one ring, too: with openings, each further question about it
 * takes ten times as long. An opening that @whole has is a stain, and good cloth round it stays whole. */
static void
add_rest (const OddStock *stock,
          OddCloth       *self,
          OddPolygon     *whole,
          OddPolygon     *rest)
{
  const guint n_holes = odd_polygon_get_n_holes (rest);
  g_autoptr(GPtrArray) slit = NULL;

  if (n_holes > 0 && odd_polygon_get_n_holes (whole) == 0)
    slit = odd_polygon_cut_slit (rest, odd_polygon_find_slit (rest, 0));
  for (guint i = 0; slit != NULL && i < slit->len; i++)
    if (odd_polygon_get_n_holes (slit->pdata[i]) < n_holes)
      add_rest (stock, self, whole, slit->pdata[i]);
    else
      add_usable (stock, self, slit->pdata[i]);
  if (slit == NULL)
    add_usable (stock, self, rest);
}

static void
add_left (const OddStock *stock,
          OddCloth       *self,
          OddStockPiece  *piece,
          OddConvex      *cut)
{
  g_autoptr(GPtrArray) left = NULL;

  if (!odd_box_meets (odd_polygon_get_box (piece->polygon), odd_convex_box (cut)))
    {
      g_ptr_array_add (self->pieces, piece_ref (piece));
      return;
    }
  if (piece->area_mm2 - odd_convex_area (cut) < stock->usable_square_mm * stock->usable_square_mm)
    return;
  left = odd_polygon_difference_convex (piece->polygon, cut);
  for (guint i = 0; i < left->len; i++)
    if (odd_polygon_get_area (left->pdata[i]) > piece->area_mm2 - 0.01)
      g_ptr_array_add (self->pieces, piece_ref (piece));
    else
      add_rest (stock, self, piece->polygon, left->pdata[i]);
}

static void
add_cut (OddCloth  *self,
         OddConvex *cut,
         guint      owner)
{
  g_ptr_array_add (self->cuts, odd_convex_ref (cut));
  g_array_append_val (self->owners, owner);
}

OddCloth *
odd_cloth_cut (const OddStock *stock,
               guint           scrap,
               OddCloth       *self,
               OddConvex      *cut,
               guint           owner)
{
  OddCloth *next = cloth_new ();

  for (guint i = 0; i < self->cuts->len; i++)
    add_cut (next, self->cuts->pdata[i], g_array_index (self->owners, guint, i));
  add_cut (next, cut, owner);
  for (guint i = 0; i < self->pieces->len; i++)
    add_left (stock, next, self->pieces->pdata[i], cut);
  measure (stock, scrap, next);

  return next;
}

/* What all cuts leave of a piece as it was from the start, in one go: each by itself would look at every rest between. */
static void
add_left_of_all (const OddStock *stock,
                 OddCloth       *self,
                 OddStockPiece  *piece)
{
  const OddBox box = odd_polygon_get_box (piece->polygon);
  g_autoptr(GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_polygon_unref);
  g_autoptr(GPtrArray) left = NULL;

  for (guint i = 0; i < self->cuts->len; i++)
    if (odd_box_meets (box, odd_convex_box (self->cuts->pdata[i])))
      g_ptr_array_add (cuts, odd_polygon_new_from_convex (self->cuts->pdata[i]));
  if (cuts->len == 0)
    {
      g_ptr_array_add (self->pieces, piece_ref (piece));
      return;
    }
  left = odd_polygon_difference_many (piece->polygon, (OddPolygon *const *) cuts->pdata, cuts->len);
  for (guint i = 0; i < left->len; i++)
    add_rest (stock, self, piece->polygon, left->pdata[i]);
}

/* Slits are made anew, so none that was made for one cut runs through the next. */
static void
cut_all (const OddStock *stock,
         guint           scrap,
         OddCloth       *self)
{
  const OddCloth *whole = stock->whole[scrap];

  for (guint i = 0; i < whole->pieces->len; i++)
    add_left_of_all (stock, self, whole->pieces->pdata[i]);
  measure (stock, scrap, self);
}

static gboolean
is_free (const OddStock *stock,
         guint           scrap,
         const OddCloth *self,
         OddConvex      *cut)
{
  const OddCloth *whole = stock->whole[scrap];
  g_autoptr(OddPolygon) shape = odd_polygon_new_from_convex (cut);
  gboolean inside = FALSE;

  for (guint i = 0; i < whole->pieces->len && !inside; i++)
    inside = odd_polygon_contains_convex (((OddStockPiece *) whole->pieces->pdata[i])->polygon, cut, INSIDE_MM);
  for (guint i = 0; i < self->cuts->len && inside; i++)
    if (odd_box_meets (odd_convex_box (self->cuts->pdata[i]), odd_convex_box (cut)))
      {
        g_autoptr(OddPolygon) other = odd_polygon_new_from_convex (self->cuts->pdata[i]);

        inside = odd_polygon_overlap_area (other, shape) <= OVERLAP_MM2;
      }

  return inside;
}

OddCloth *
odd_cloth_cut_as_before (const OddStock *stock,
                         guint           scrap,
                         OddCloth       *self,
                         OddConvex      *cut,
                         guint           owner)
{
  OddCloth *next;

  if (!is_free (stock, scrap, self, cut))
    return NULL;
  next = cloth_new ();
  for (guint i = 0; i < self->cuts->len; i++)
    add_cut (next, self->cuts->pdata[i], g_array_index (self->owners, guint, i));
  add_cut (next, cut, owner);
  cut_all (stock, scrap, next);

  return next;
}

OddCloth *
odd_cloth_give_back (const OddStock *stock,
                     guint           scrap,
                     OddCloth       *self,
                     guint           owner)
{
  OddCloth *next;

  if (self->cuts->len == 1 && g_array_index (self->owners, guint, 0) == owner)
    return odd_cloth_ref (stock->whole[scrap]);
  next = cloth_new ();
  for (guint i = 0; i < self->cuts->len; i++)
    if (g_array_index (self->owners, guint, i) != owner)
      add_cut (next, self->cuts->pdata[i], g_array_index (self->owners, guint, i));
  cut_all (stock, scrap, next);

  return next;
}
