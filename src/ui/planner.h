/* Keeps the order of work up to date: after each edit it is made anew by a worker, from what the last one found out. */
#pragma once

#include "cloth/document.h"
#include "sewing/plan.h"

G_BEGIN_DECLS

#define ODD_TYPE_PLANNER (odd_planner_get_type ())
G_DECLARE_FINAL_TYPE (OddPlanner, odd_planner, ODD, PLANNER, GObject)

/* Properties: document, textile-id (guint), manner (int), active (gboolean: FALSE, at first, asks for nothing). Signal: planned (). */
OddPlanner *odd_planner_new (void);
/* (transfer none) (nullable): of the job as it was when it was made. */
OddPlan *odd_planner_get_plan (OddPlanner *self);
OddJob *odd_planner_get_job (OddPlanner *self);            /* (transfer none): the job the plan is of; NULL without a plan */
/* Stops that lie behind her, of a plan made as if nothing were done. */
guint odd_planner_get_n_passed (OddPlanner *self);
/* This task is to come as early as what it waits for allows; NULL: no task is pinned any more. */
void odd_planner_pin (OddPlanner *self, const OddTaskKey *key);
GArray *odd_planner_get_pins (OddPlanner *self);         /* (transfer none) (element-type OddTaskKey): in her order */
gboolean odd_planner_has_pins (OddPlanner *self);

G_END_DECLS
