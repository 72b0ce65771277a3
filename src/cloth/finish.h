/* A finish: how raw edges are treated, as an ordered list of operations. Immutable, atomically reference counted.
 *
 * Both sides of a seam give the same allowance; a French or felled seam takes its whole total from each piece.
 */
#pragma once

#include "cloth/types.h"

G_BEGIN_DECLS

typedef struct
{
  OddOperationKind kind;
  OddStation station;
  char *stitch;             /* stitch type number of ISO 4915, "301", "504" ..., or NULL */
  OddFace face;
  gboolean before_joining;  /* done to each edge on its own, before the seam is sewn */
  double at_mm;             /* sew: distance of this pass from the raw edge as it then is; trim: what is left; topstitch: distance from the seam; 0: not said */
  char *text;               /* imperative, translated when it ships with Oddment: "Overlock both edges together"; never NULL */
} OddOperation;

typedef struct _OddFinish OddFinish;
struct _OddFinish           /* read only */
{
  OddId id;
  char *key;                /* stable word for the command line and the file: "overlocked", "french" ...; unique in a job */
  char *name;               /* as shown, maker's own language */
  double allowance_mm;      /* taken from each of both edges; > 0 */
  double min_allowance_mm;  /* common practice, no source */
  double width_kept_mm;     /* allowance left in the cloth per side after trimming, <= allowance */
  guint plies[2];           /* layers lying on the seam's two sides when pressed to side 0: cloth's own ply not counted */
  gboolean may_open;        /* may be pressed open */
  OddOperation *operations; guint n_operations;   /* at least one ODD_OPERATION_SEW */
  char *note;               /* for whom, may be NULL */
  char *source;             /* where the figures come from; "common practice, no source" */
  char *unknown_json;
};

OddFinish *odd_finish_new (const OddFinish *values, GError **error);   /* ODD_VALUE_ERROR; deep copy */
OddFinish *odd_finish_ref (OddFinish *self);
void odd_finish_unref (OddFinish *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddFinish, odd_finish_unref)

/* The finishes that ship with Oddment, read from data/finishes.json in the resources, ids 1, 2, 3 ... in their order.
 * (transfer full) (element-type OddFinish). Keys: pressed-open, overlocked, overlocked-topstitched, zigzagged, french, felled, bound. */
GPtrArray *odd_finish_shipped (void);

/* Index of the first ODD_OPERATION_SEW; of the last operation that must be done before the seam may be crossed (last press, else last
 * neaten/sew); used by sewing/progress. */
guint odd_finish_first_sew (const OddFinish *self);
guint odd_finish_ready_to_cross (const OddFinish *self);

/* To which side a seam's allowances go: by what the maker says, or by rule (open where the finish may be opened, else to the first side). Never BY_RULE. */
OddPressed odd_pressed_resolve (OddPressed pressed, const OddFinish *finish);

G_END_DECLS
