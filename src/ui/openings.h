/* Openings: where a scrap can go on the table: open edges, bare regions, a new panel. Knows no widget. */
#pragma once

#include "piecing/snap.h"
#include "ui/table.h"

G_BEGIN_DECLS

typedef struct
{
  OddTarget target;
  guint item;                   /* edge, bare */
  OddSegment edge;              /* edge: finished, panel's layout frame */
  OddPoint outward;             /* edge: unit */
  const OddConvex *region;      /* bare: in the table's layout */
} OddOpening;

/* In the order of the keyboard: panel by panel, bare regions, the lower edge, upper, sides; a new loose piece, a new panel last.
 * (transfer full) (element-type OddOpening); lives no longer than @table. */
GArray *odd_openings_new (OddTable *table);
int odd_openings_find (GArray *openings, const OddTarget *target);            /* -1: not there */
/* The most likely one: in the selected panel, else in the last one: what is bare, else its lower edge. */
guint odd_openings_likely (GArray *openings, OddTable *table, OddSelection *selection);
/*
 * The one nearest to a scrap held at @px, or -1 when none is within @reach_px. @current (or -1) stays until another
 * one is nearer by ODD_OPENING_STAY_PX, so that a scrap at rest between two does not flicker.
 */
#define ODD_OPENING_STAY_PX 18.0
int odd_openings_nearest (GArray *openings, OddTable *table, OddViewport *viewport, OddPoint px, double reach_px, int current);

gboolean odd_target_equal (const OddTarget *a, const OddTarget *b);

G_END_DECLS
