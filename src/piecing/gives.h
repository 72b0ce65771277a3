/* What scraps give when equal squares, or rectangles, are cut from them: scrap by scrap and together, before anything is pieced. */
#pragma once

#include "piecing/proposal.h"

G_BEGIN_DECLS

typedef struct
{
  OddTemplate templates[ODD_MAX_TEMPLATES];
  guint n_templates;
  double allowance_mm;
} OddCutSizes;

/* Those that a proposal of squares is offered first. */
void odd_cut_sizes_init (OddCutSizes *self, OddJob *job);
gboolean odd_cut_sizes_equal (const OddCutSizes *a, const OddCutSizes *b);

typedef struct
{
  guint template;                   /* index */
  OddConvex *shape;                 /* cut shape in the scrap's frame, as it will be sewn */
} OddGivenPiece;

typedef struct
{
  OddId scrap_id;
  gboolean left;                    /* it lies in a panel: this is what is left of it */
  double cloth_mm2;                 /* there was to cut from */
  double grams;                     /* of that cloth; 0: its weight is not known */
  guint n[ODD_MAX_TEMPLATES];       /* pieces of each template */
  GArray *pieces;                   /* OddGivenPiece, strip by strip */
  double offcuts_mm2;               /* what stays usable, where yield was asked for; of scraps that give nothing: 0 */
} OddScrapGives;

/* What is counted besides the squares of free scraps. */
typedef enum
{
  ODD_GIVES_FREE = 0,
  ODD_GIVES_REMAINS = 1,            /* what is left of scraps that lie in a panel */
  ODD_GIVES_YIELD = 2               /* which offcuts stay usable: six times the work */
} OddGivesWhat;

/* Atomically reference counted, immutable. */
typedef struct
{
  OddCutSizes sizes;
  OddGivesWhat what;
  GPtrArray *scraps;                /* (element-type OddScrapGives) in the job's order; of scraps in panels those that give something */
  GHashTable *by_id;
} OddGives;

/*
 * odd_gives_new:
 *
 * By the cutting plans that odd_propose() makes (cut-plan.h), so turns, zones and offcuts count as they do there; what grain and prints forbid is
 * not cut. Each scrap is counted by itself.
 *
 * Returns: (transfer full): NULL with ODD_PIECING_ERROR_RANGE for sizes that make no sense, or when cancelled
 */
OddGives *odd_gives_new (OddJob *job, const OddCutSizes *sizes, OddGivesWhat what, GCancellable *cancellable, GError **error);
OddGives *odd_gives_ref (OddGives *self);
void odd_gives_unref (OddGives *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddGives, odd_gives_unref)
/* NULL: the scrap was not counted. (transfer none) */
const OddScrapGives *odd_gives_find (const OddGives *self, OddId scrap_id);
/* When sewn, all together; mm2. */
double odd_gives_get_finished_mm2 (const OddGives *self, const OddScrapGives *scrap);

typedef struct
{
  guint n_scraps;                   /* counted */
  guint n_left;                     /* of them, those that lie in a panel */
  guint n_pieces;
  guint n_pieces_left;              /* of them, those from what is left of scraps in panels */
  guint n[ODD_MAX_TEMPLATES];       /* pieces of each template */
  guint n_none;                     /* scraps that give nothing */
  double none_mm2;
  double none_grams;                /* of those whose weight is known */
  guint n_weighed;                  /* so many of those that give nothing */
  double cloth_mm2;                 /* of all */
  double used_mm2;                  /* of those that give something, less offcuts that stay usable */
  double cut_mm2, finished_mm2;
  double of_heap;                   /* finished / cloth, 0..1 */
  double net_yield;                 /* finished / used; NAN, and fit too, where yield was not asked for */
  double own_bound;                 /* finished / cut: what the allowances leave of these very pieces; of the first template where there are none */
  double fit;                       /* net_yield / own_bound; these three as in OddFigures */
} OddGivesSum;

/* @ids: (nullable): these scraps, where they were counted; NULL: all. */
void odd_gives_sum (const OddGives *self, const OddId *ids, guint n_ids, OddGivesSum *out);

G_END_DECLS
