/* A scrap: a piece of cloth on hand. Immutable, atomically reference counted. */
#pragma once

#include "cloth/fabric.h"
#include "cloth/panel.h"
#include "geometry/polygon.h"

G_BEGIN_DECLS

typedef enum { ODD_ZONE_HOLE, ODD_ZONE_THIN, ODD_ZONE_STAIN, ODD_ZONE_MARK, ODD_ZONE_OLD_SEAM } OddZoneKind;

typedef struct
{
  OddZoneKind kind;
  OddPolygon *outline;        /* scrap's frame, mm */
  gboolean allowance_only;    /* may lie in an allowance, must stay clear of the finished region; else kept out altogether */
} OddZone;

typedef struct _OddScrap OddScrap;
struct _OddScrap              /* read only */
{
  OddId id;
  guint number;               /* the maker's number, on the sticker; > 0, unique in a job; 0 only before it enters one */
  OddPolygon *outline;        /* as it lies on the table, mm */
  OddZone *zones; guint n_zones;
  OddId fabric_id;            /* 0: unknown cloth, or pieced */
  OddPanel *piece;            /* pieced: the seam tree it is sewn from; NULL: plain cloth. The outline is its raw outline, or what a cut left of that */
  OddPlacement piece_at;      /* piece's frame to the scrap's frame; shifts and turns only */
  double grain_deg;           /* direction of the lengthwise grain in the scrap's frame, from x towards y; 90: along y */
  gboolean washed;
  char *place;                /* bag, tub; may be NULL */
  char *note;                 /* may be NULL */
  char *picture;              /* name of a picture of the job, or NULL */
  double picture_mm_per_px; OddPoint picture_at_mm;   /* where the picture's top left lies in the scrap's frame */
  OddId parent_id;            /* scrap it was cut from, or 0 */
  gboolean gone;              /* given away, used up elsewhere */
  gboolean cut_out;           /* its patches are cut out of it; what was left and worth keeping are scraps of their own, with it as parent */
  char *unknown_json;
};

void odd_scrap_init_values (OddScrap *values);
OddScrap *odd_scrap_new (const OddScrap *values, GError **error);      /* deep copy; ODD_VALUE_ERROR */
OddScrap *odd_scrap_ref (OddScrap *self);
void odd_scrap_unref (OddScrap *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddScrap, odd_scrap_unref)

/*
 * The outline as it will be when it is sewn: an unwashed scrap is shrunk about its frame's origin by @fabric's shrinkage, along and across
 * the grain; washed, or @fabric %NULL: as it is. Lent; kept with the scrap for the last shrinkage asked for, safe to call from threads.
 */
OddPolygon *odd_scrap_dup_outline (OddScrap *self, OddFabric *fabric);            /* (transfer full) */
/* The way back, for a shape found on the scrap as it will be sewn: where it lies on the scrap as it is. (transfer full) */
OddPolygon *odd_scrap_dup_unshrunk (OddScrap *self, OddFabric *fabric, OddPolygon *worn);
/*
 * odd_scrap_new_washed:
 * @fabric: (nullable): the scrap's cloth
 *
 * The scrap after its first wash: outline and zones as they then are, marked washed. A picture has one scale only: it takes the mean of both
 * shrinkages.
 *
 * Returns: (transfer full): the washed scrap
 */
OddScrap *odd_scrap_new_washed (OddScrap *self, OddFabric *fabric);
/* What lies at @now on the scrap as it lies on the table, as it will be sewn. (transfer full) */
OddPolygon *odd_scrap_dup_sewn (OddScrap *self, OddFabric *fabric, OddPolygon *now);
/* The way back from there: what lies at @sewn in the scrap as it will be sewn, as it lies on the table now. (transfer full) */
OddPolygon *odd_scrap_dup_unwashed (OddScrap *self, OddFabric *fabric, OddPolygon *sewn);
/* Outline less kept-out zones, the largest first; usually one polygon. (transfer full) (element-type OddPolygon) */
GPtrArray *odd_scrap_dup_usable (OddScrap *self, OddFabric *fabric);
/* Allowance-only zones after shrinkage. (transfer full) (element-type OddPolygon) */
GPtrArray *odd_scrap_dup_allowance_zones (OddScrap *self, OddFabric *fabric);
/* The simplified, largest usable polygon (1 mm inside, at most about 16 corners) to search on; NULL when nothing is left. (transfer full) */
OddPolygon *odd_scrap_dup_search_outline (OddScrap *self, OddFabric *fabric);
OddBox odd_scrap_get_box (OddScrap *self);                                        /* as it lies on the table */
const char *odd_zone_kind_get_nick (OddZoneKind kind);
gboolean odd_zone_kind_from_nick (const char *nick, OddZoneKind *out);
const char *odd_zone_kind_get_name (OddZoneKind kind);                            /* translated: "stain" */

G_END_DECLS
