/* Crumbs while they are composed: a tree of tilted seams, and the scraps its leaves lie on.
 *
 *      +----------+--------+      A layout comes first, top down, by chance: a region is parted by a tilted seam until it is as small
 *      |         /     _,-'|      as wanted. Then the largest leaf takes the cheapest cloth that fits, and so on down. A leaf that
 *      |        /  _,-'    |      finds none is parted once more. Improving moves seams and exchanges scraps (simulated annealing).
 *      |_______/,-'        |
 *      |       \           |      All geometry is in one frame for all panels, laid side by side, so that neighbours across
 *      +--------+----------+      a join are neighbours here.
 */
#pragma once

#include "piecing/field.h"
#include "piecing/stock.h"

G_BEGIN_DECLS

#define ODD_NO_SCRAP G_MAXUINT

/* A strip of two (an inner node) or a leaf. */
typedef struct
{
  int parent;                 /* -1: root of its field */
  int kids[2];                /* -1: a leaf; the first lies on the line's kept side */
  guint field;
  gboolean gone;              /* slot not in use */
  gboolean listed;            /* a leaf that stands in the grid, by its box */
  OddHalfPlane line;
  double allowance_mm;        /* of the line */
  OddConvex *region;          /* labels: inner node whose line it is, or -1 - edge of the field */
  /* leaf */
  OddConvex *cut;
  OddBox box;
  double area_mm2;
  guint scrap;                /* in OddSources.scraps, or ODD_NO_SCRAP */
  OddPlacement placement;     /* scrap's frame to the common one */
} OddCrumb;

/* What a layout must obey and what pleases. */
typedef struct
{
  double smallest_mm;         /* least width of a leaf */
  double shortest_mm;         /* least edge */
  double scale_mm;            /* side of a leaf of middle size */
  double mix;                 /* 0: all of one size .. 1 */
  double tilt_deg;
  double sharpest_cos;        /* of the sharpest corner allowed */
  const float *contacts;      /* odd_contact_costs() */
  const double *wanted;       /* L* by hundredths of the length */
  gboolean graded;            /* the course of light and dark is more than a mean */
  double top_mm, length_mm;   /* of all fields */
  const double *most_share;   /* by fabric, of the finished area; NULL: as it comes */
  const double *least_share;  /* there where most_share is */
  const double *row_turns_deg;  /* by field: seams of rows run this way, and those within a row across it; NULL: as it comes */
  double row_least_mm, row_most_mm;   /* heights of rows; there where row_turns_deg is */
} OddCrumbRules;

typedef struct _OddCrumbs OddCrumbs;

/* Lent: fields, stock, rules. */
OddCrumbs *odd_crumbs_new (const OddFields *fields, const OddStock *stock, const OddCrumbRules *rules);
OddCrumbs *odd_crumbs_copy (OddCrumbs *self);
void odd_crumbs_free (OddCrumbs *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddCrumbs, odd_crumbs_free)

/* By chance: a layout for each field, and cloth for its leaves. @reach_mm2: so much is pieced, field after field and each from its top; what lies
 * beyond stays bare as one. INFINITY: all. FALSE when cancelled. */
gboolean odd_crumbs_fill (OddCrumbs *self, double reach_mm2, OddRandom *random, GCancellable *cancellable);
/* The fields as they were before they were freed: seams, and scraps where they still fit. FALSE when cancelled. */
gboolean odd_crumbs_take_over (OddCrumbs *self, GCancellable *cancellable);
/* One move at this heat; lower energy is better. */
void odd_crumbs_move (OddCrumbs *self, double heat, OddRandom *random);
/* Cloth gone in mm2, and what pleases and displeases as so much cloth. */
double odd_crumbs_get_energy (const OddCrumbs *self);
guint odd_crumbs_count_leaves (const OddCrumbs *self, guint *out_bare);
double odd_crumbs_get_laid_mm2 (const OddCrumbs *self);       /* finished area of the leaves that have cloth */
/* To be called before it is copied for another thread. FALSE when cancelled. */
gboolean odd_crumbs_settle (OddCrumbs *self, guint n_threads, GCancellable *cancellable);
/* Bare neighbours of one strip become one. */
void odd_crumbs_join_bare (OddCrumbs *self);

/* One field as a tree in its panel's own frame; seams that do not meet become one strip. (transfer full) */
OddNode *odd_crumbs_build (const OddCrumbs *self, guint field, OddId *next_id);

G_END_DECLS
