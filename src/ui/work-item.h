/* One task of the order of work, as a row shows it. */
#pragma once

#include <gtk/gtk.h>
#include "sewing/plan.h"

G_BEGIN_DECLS

#define ODD_TYPE_WORK_ITEM (odd_work_item_get_type ())
G_DECLARE_FINAL_TYPE (OddWorkItem, odd_work_item, ODD, WORK_ITEM, GObject)

struct _OddWorkItem           /* read only */
{
  GObject parent_instance;
  OddJob *job;
  OddPlan *plan;
  guint task;                 /* in the plan */
  guint number;               /* in its stop, from 1 on, those done before counted */
  gboolean done;              /* @plan is then the one in which it was still open */
};

/* References of @job and @plan are kept. */
OddWorkItem *odd_work_item_new (OddJob *job, OddPlan *plan, guint task, guint number, gboolean done);
const OddTaskKey *odd_work_item_get_key (OddWorkItem *self);
/* "Patches 3–5 to 6", "Panel 1 to Panel 2", "Patch 7". (transfer full) */
char *odd_work_item_dup_title (OddWorkItem *self);
/* "Panel 2, 24.2 cm". (transfer full) */
char *odd_work_item_dup_place (OddWorkItem *self, OddUnit unit);

G_END_DECLS
