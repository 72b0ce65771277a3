/* The seam tree: strips of parts, patches (or bare regions) at the leaves. Immutable, atomically reference counted.
 *
 *      strip               line 0        line 1          A seam's line is a half-plane in the panel's frame (the panel
 *      +-------------------+-------------+-----------+    alone): part i lies on its kept side, part i + 1 beyond.
 *      |      part 0       |   part 1    |  part 2   |    Lines of a strip do not meet inside its region.
 *      +-------------------+-------------+-----------+
 */
#pragma once

#include "cloth/measure.h"
#include "cloth/types.h"

G_BEGIN_DECLS

/* What was done to a seam: one state an operation of its finish. Immutable; NULL means nothing is done yet. */
typedef struct _OddProgress OddProgress;
OddProgress *odd_progress_new (const OddState *states, char *const *reasons, guint n);   /* @reasons: array of n, elements may be NULL, or NULL */
OddProgress *odd_progress_ref (OddProgress *self);                                      /* NULL-safe */
void odd_progress_unref (OddProgress *self);                                            /* NULL-safe */
guint odd_progress_get_n (const OddProgress *self);                                      /* NULL: 0 */
OddState odd_progress_get_state (const OddProgress *self, guint operation);              /* open beyond its end, and for NULL */
const char *odd_progress_get_reason (const OddProgress *self, guint operation);          /* why it was skipped, or NULL */
/* (transfer full) A copy with one state changed; NULL when nothing is done any more. */
OddProgress *odd_progress_with (OddProgress *self, guint operation, OddState state, const char *reason);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddProgress, odd_progress_unref)

typedef struct
{
  OddId id;
  OddHalfPlane line;             /* panel's frame; not used for a join of two panels */
  OddTreatment treatment;
  OddPressed pressed_to;
  OddProgress *progress;         /* or NULL */
  gboolean end_secured[2];       /* back-stitched: at from, at to (direction: odd_convex_chord_edges()) */
  gboolean end_cut[2];           /* was cut by trimming */
  double sewn_mm;                /* allowance really sewn, from a measure; 0: as planned */
  gboolean squared;              /* what it is part of was squared up since it was sewn: it takes no share of a loss any more */
  char *unknown_json;
} OddSeam;

void odd_seam_init (OddSeam *seam, OddId id, OddHalfPlane line);
void odd_seam_copy (OddSeam *to, const OddSeam *from);       /* deep */
void odd_seam_clear (OddSeam *seam);
gboolean odd_seam_is_touched (const OddSeam *seam);          /* any operation done or skipped */

typedef enum { ODD_NODE_LEAF, ODD_NODE_STRIP } OddNodeKind;

typedef struct _OddNode OddNode;
struct _OddNode                  /* read only */
{
  OddNodeKind kind;
  OddId id;
  gboolean locked;
  char *unknown_json;
  guint n_leaves, n_seams;       /* in the whole subtree */
  /* strip */
  guint n_parts;                 /* at least 2 */
  OddNode **parts;
  OddSeam *seams;                /* n_parts - 1 */
  OddTreatment treatment;
  OddMeasure *measure;           /* taken of it, or NULL */
  /* leaf */
  OddId scrap_id;                /* 0: bare */
  OddPlacement placement;        /* scrap's frame to panel's frame */
  OddState cut;                  /* has the patch been cut out? */
  OddState stayed;               /* are its edges on the bias held against stretching? */
};

OddNode *odd_node_new_bare (OddId id);
OddNode *odd_node_new_patch (OddId id, OddId scrap_id, const OddPlacement *placement);
/* @parts: n_parts references are taken (ref added); @seams: copied. */
OddNode *odd_node_new_strip (OddId id, OddNode *const *parts, const OddSeam *seams, guint n_parts);
OddNode *odd_node_ref (OddNode *self);
void odd_node_unref (OddNode *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddNode, odd_node_unref)

/* Copies with one thing changed; (transfer full). */
OddNode *odd_node_with_parts (OddNode *strip, OddNode *const *parts, const OddSeam *seams, guint n_parts);
OddNode *odd_node_with_treatment (OddNode *strip, const OddTreatment *treatment);
OddNode *odd_node_with_measure (OddNode *strip, OddMeasure *measure);      /* @measure: (nullable) */
OddNode *odd_node_with_lock (OddNode *self, gboolean locked);
OddNode *odd_node_with_patch (OddNode *leaf, OddId scrap_id, const OddPlacement *placement);  /* scrap 0: bare */
OddNode *odd_node_with_cut (OddNode *leaf, OddState cut);
OddNode *odd_node_with_stayed (OddNode *leaf, OddState stayed);
OddNode *odd_node_with_unknown (OddNode *self, const char *unknown_json);
/* The whole subtree placed anew: lines and placements. Used for shifts and half-turns; placement must not mirror. */
OddNode *odd_node_place (OddNode *self, const OddPlacement *by);

/* Search by id; NULL when not in the subtree. (transfer none) */
OddNode *odd_node_find (OddNode *self, OddId id);
OddNode *odd_node_find_seam (OddNode *self, OddId seam_id, guint *out_index);   /* the strip */
/* The subtree with node @id replaced by @with: path copied, the rest shared. NULL when @id is not in it. (transfer full) */
OddNode *odd_node_replace (OddNode *self, OddId id, OddNode *with);
/* The subtree with one seam's values replaced. */
OddNode *odd_node_replace_seam (OddNode *self, const OddSeam *seam);
typedef gboolean (*OddNodeFunc) (OddNode *node, gpointer data);                 /* FALSE stops */
gboolean odd_node_foreach (OddNode *self, OddNodeFunc func, gpointer data);     /* depth first, parts in order; FALSE when stopped */

G_END_DECLS
