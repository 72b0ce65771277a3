/* What bulk.c (layers) and pressing.c (sides by rule) share: seams as lines, and what ends on them. */
#pragma once

#include "sewing/bulk.h"

G_BEGIN_DECLS

typedef struct
{
  OddId id, panel_id, textile_id;
  OddPoint from, along;       /* of the seam; frame: panel's, a join's: textile's */
  OddPoint normal;            /* out of the first part */
  OddPoint middle;
  const OddFinish *finish;
  OddPressed pressed;         /* resolved */
  gboolean free;              /* its side may be changed */
  gboolean may_open;
  int darker;                 /* side with the darker cloth, -1: no telling */
  guint row;                  /* index of its strip in the strip around it */
  GArray *feet;               /* guint: crossings on it */
  int ends[2];                /* crossings at its own ends, -1: none */
} OddBulkLine;

/* A seam that ends on a line. */
typedef struct
{
  guint line;                 /* the one that ends there */
  guint side;                 /* of the line it ends on */
  double at;                  /* along it */
  gboolean first_is_high;     /* its first part lies farther along */
  double width;               /* its allowance, measured along the line it ends on */
} OddBulkFoot;

typedef struct
{
  guint line;
  OddBulkFoot feet[2]; guint n_feet;
  double thickness_mm;
  OddId end_panel_id;         /* where the first one ends, in its panel */
  OddPoint end_at;
} OddBulkCross;

typedef struct
{
  OddJob *job;
  GPtrArray *layouts, *textiles;
  GArray *lines;              /* OddBulkLine */
  GArray *crosses;            /* OddBulkCross */
} OddWeb;

/* @textile_id: of a textile or a loose panel, or 0: everything on the table; @also_set: seams that were given a side are free, too. @job is not referenced. */
OddWeb *odd_web_new (OddJob *job, OddId textile_id, gboolean also_set);
void odd_web_free (OddWeb *web);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddWeb, odd_web_free)
/* The most layers at a crossing as all lines are pressed now. */
guint odd_web_count (OddWeb *web, const OddBulkCross *cross);

static inline OddBulkLine *
odd_web_get_line (OddWeb *web,
                  guint   i)
{
  return &g_array_index (web->lines, OddBulkLine, i);
}

static const OddPressed odd_bulk_sides[] = { ODD_PRESSED_TO_FIRST, ODD_PRESSED_TO_SECOND, ODD_PRESSED_OPEN };

G_END_DECLS
