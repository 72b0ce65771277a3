/* Cutting plan of one piece of cloth: equal squares, or rectangles, of one to three template sizes. */
#pragma once

#include "piecing/proposal.h"

G_BEGIN_DECLS

typedef struct
{
  guint template;             /* index */
  OddPoint at;                /* least corner in the turned frame, mm */
} OddPlanned;

typedef struct
{
  double turn_deg;            /* of the piece about its origin */
  GArray *pieces;             /* OddPlanned */
  double finished_mm2;
} OddCutPlan;

/*
 * odd_cut_plan_new:
 * @turns: (array length=n_turns): degrees at which the cloth may be cut
 * @templates: cut sizes
 * @allowance_mm: what a template loses on each side: plans are compared by finished area
 *
 * As a maker cuts: parallel strips at one turn, each strip into pieces of one template, its ends into smaller ones. Where the
 * strips lie is found by dynamic programming, f(y) = max (f (next), finished area of a strip at y + f (y + its height)), over the
 * corner levels, whole strips away from them, and a grid of about 4 mm; exact for strip cutting on these.
 * Packing equal squares in a simple polygon at its best is NP-hard even without turns (Abrahamsen and Stade, FOCS 2024).
 *
 * Returns: (transfer full): the plan; without pieces when nothing fits
 */
OddCutPlan *odd_cut_plan_new (OddPolygon *cloth, const double *turns, guint n_turns, const OddTemplate *templates, guint n_templates, double allowance_mm);
void odd_cut_plan_free (OddCutPlan *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddCutPlan, odd_cut_plan_free)

/* The same for every scrap that @options draw from; @cloth_mm2: what there was to cut from. */
typedef struct { OddId scrap_id; double cloth_mm2; OddCutPlan *plan; } OddScrapPlan;
/* (transfer full) (element-type OddScrapPlan), in the job's order; a scrap of several pieces comes several times; without pieces in it the
 * plan of cloth that gives nothing. NULL when cancelled. The sizes are not checked: see gives.h. */
GPtrArray *odd_cut_plans_new (OddJob *job, const OddProposalOptions *options, double allowance_mm, GCancellable *cancellable, GError **error);

G_END_DECLS
