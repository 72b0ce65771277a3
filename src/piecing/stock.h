/* What is left of each scrap while patches are cut from it and given back: kept as values, so that a move can be undone and several
 * searches can go on side by side. */
#pragma once

#include "piecing/lie.h"
#include "piecing/sources.h"

G_BEGIN_DECLS

/* One connected piece of cloth. Immutable, atomically reference counted. */
typedef struct
{
  gatomicrefcount ref_count;
  OddPolygon *polygon;        /* scrap's frame */
  double area_mm2, perimeter_mm;
  gboolean usable;            /* holds the usable square: comes back as an offcut */
  OddLies *lies[2];           /* as it is; from the other side (reversible cloth only); both NULL until odd_cloth_prepare() */
} OddStockPiece;

/* One scrap. Immutable but for odd_cloth_prepare(), atomically reference counted. */
typedef struct
{
  gatomicrefcount ref_count;
  GPtrArray *pieces;          /* (element-type OddStockPiece) */
  GPtrArray *cuts;            /* (element-type OddConvex) cut shapes, scrap's frame */
  GArray *owners;             /* guint: whose each of them is */
  double used_mm2;            /* cloth gone: all of it less what comes back; 0 without cuts; and something for ragged offcuts */
} OddCloth;

typedef struct
{
  const OddSources *sources;
  double usable_square_mm;
  OddCloth **whole;           /* by scrap: before anything is cut; prepared */
  double *areas_mm2;          /* by scrap */
  double *perimeters_mm;
} OddStock;

/* Prepares all scraps, by several threads. NULL when cancelled. */
OddStock *odd_stock_new (const OddSources *sources, double usable_square_mm, guint n_threads, GCancellable *cancellable, GError **error);
void odd_stock_free (OddStock *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddStock, odd_stock_free)

OddCloth *odd_cloth_ref (OddCloth *self);
void odd_cloth_unref (OddCloth *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddCloth, odd_cloth_unref)

/* The cut shape @cut (scrap's frame) taken out for @owner; not prepared. (transfer full) */
OddCloth *odd_cloth_cut (const OddStock *stock, guint scrap, OddCloth *self, OddConvex *cut, guint owner);
/* The same where the cut need not keep out of slits that others have made. NULL: the cloth is not there, or cut already. (transfer full) */
OddCloth *odd_cloth_cut_as_before (const OddStock *stock, guint scrap, OddCloth *self, OddConvex *cut, guint owner);
/* What @owner had taken given back; prepared when nothing else is cut. (transfer full) */
OddCloth *odd_cloth_give_back (const OddStock *stock, guint scrap, OddCloth *self, guint owner);
/* Makes its pieces ready for odd_lies_find(). To be called before another thread can see it. */
void odd_cloth_prepare (const OddStock *stock, guint scrap, OddCloth *self);

G_END_DECLS
