/* Shared by the files that make up OddCrumbs. */
#pragma once

#include "geometry/box-grid.h"
#include "piecing/crumbs.h"

G_BEGIN_DECLS

struct _OddCrumbs
{
  const OddFields *fields;
  const OddStock *stock;
  const OddCrumbRules *rules;
  GArray *nodes;              /* OddCrumb */
  GArray *roots;              /* guint: node, by field */
  OddCloth **cloths;          /* by scrap */
  double *fabric_mm2;         /* by fabric: finished area of its leaves, kept patches left out */
  double area_mm2;            /* of all fields */
  guint *by_area;             /* scraps, the smallest first */
  guint *kept_fabrics;        /* by kept patch: in the sources' fabrics, or ODD_NO_SCRAP */
  double used_mm2;
  OddBoxGrid *grid;           /* leaves by their node, and above all nodes the kept patches: odd_crumbs_find_near() */
  GArray *near;               /* guint: what was found last */
  /* what the move in hand has changed */
  GArray *old_nodes;          /* SavedNode */
  GArray *old_cloths;         /* SavedCloth */
  guint n_nodes_before;
  double used_before_mm2;
};

static inline OddCrumb *
odd_crumbs_node (const OddCrumbs *self,
                 guint            i)
{
  return &g_array_index (self->nodes, OddCrumb, i);
}

static inline const OddSourceScrap *
odd_crumbs_scrap (const OddCrumbs *self,
                  guint            scrap)
{
  return &g_array_index (self->stock->sources->scraps, OddSourceScrap, scrap);
}

/* --- tree (crumb-tree.c) --- */
void odd_crumb_clear (OddCrumb *node);
gboolean odd_crumb_is_leaf (const OddCrumb *node);
/* Every change of a node or a cloth goes between begin and keep, or undo; save a node before it is changed. */
void odd_crumbs_begin (OddCrumbs *self);
void odd_crumbs_save (OddCrumbs *self, guint node);
void odd_crumbs_set_cloth (OddCrumbs *self, guint scrap, OddCloth *cloth);     /* takes */
void odd_crumbs_undo (OddCrumbs *self);

/* Regions, and of leaves cut shapes, of the node and all below it, from its own region. FALSE when one breaks the rules: half done then. */
gboolean odd_crumbs_reshape (OddCrumbs *self, guint node);
/* A leaf without a scrap becomes a strip of two bare leaves; FALSE, and nothing changed but what was saved, when one would break the rules. */
gboolean odd_crumbs_part (OddCrumbs *self, guint leaf, OddHalfPlane line);
/* Leaves below the node: indices. Stops at @most: returns @most + 1 then. */
guint odd_crumbs_leaves_below (const OddCrumbs *self, guint node, guint *out, guint most);
gboolean odd_crumb_shape_is_good (const OddCrumbRules *rules, const OddConvex *region);

/* Leaves and kept patches that may lie at the box: nodes, the lowest first, then ODD_KEPT_FROM + which of the fields' kept. Till the next call. */
#define ODD_KEPT_FROM 0x80000000u
const GArray *odd_crumbs_find_near (const OddCrumbs *self, OddBox box);

/* --- look (crumb-look.c) --- */
/* What these leaves cost beside cloth; pairs among them once. */
double odd_crumbs_look_of (const OddCrumbs *self, const guint *leaves, guint n);
/* The patches that border on a leaf; more than there is room for are left out. */
#define ODD_MOST_AROUND 32
typedef struct { guint n; struct { guint fabric; OddBox box; } of[ODD_MOST_AROUND]; } OddAround;
void odd_crumbs_look_around (const OddCrumbs *self, guint leaf, OddAround *out);
/* What it would cost to lay this scrap in the leaf: neighbours and course alone. */
double odd_crumbs_look_with (const OddCrumbs *self, guint leaf, guint scrap, const OddAround *around);
double odd_crumbs_share_cost (const OddCrumbs *self);
/* How many seam ends on the two sides of the leaves' borders lie too near to one another. */
double odd_crumbs_lined_up (const OddCrumbs *self, const guint *leaves, guint n);

/* --- cloth for leaves (crumb-cloth.c) --- */
void odd_crumbs_take_off (OddCrumbs *self, guint leaf);
/* The cheapest of the @n_fits smallest scraps that fit, and of as many larger ones, of which offcuts come back. FALSE: none fits. */
gboolean odd_crumbs_lay_best (OddCrumbs *self, guint leaf, guint n_fits, OddRandom *random);
/* The cheapest of @own (or ODD_NO_SCRAP) and @n_tries taken by chance, near in size rather than far. FALSE: none fits. */
gboolean odd_crumbs_lay_some (OddCrumbs *self, guint leaf, guint own, guint n_tries, OddRandom *random);
/* That scrap and no other, if it fits. */
gboolean odd_crumbs_lay (OddCrumbs *self, guint leaf, guint scrap, OddRandom *random);
/* As it lay before, if the cloth is still there. */
gboolean odd_crumbs_lay_as (OddCrumbs *self, guint leaf, guint scrap, const OddPlacement *placement);

G_END_DECLS
