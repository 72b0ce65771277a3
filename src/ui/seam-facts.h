/* A seam of a panel or a join of two, looked at in one way by the panes. */
#pragma once

#include "sewing/progress.h"

G_BEGIN_DECLS

typedef struct
{
  OddLayout *layout;             /* of the panel; NULL for a join */
  OddTextileLayout *textile;     /* NULL for a loose panel's seam */
  const OddLaidSeam *laid;       /* NULL for a join */
  const OddLaidJoin *laid_join;  /* NULL for a seam */
  guint number;                  /* of the seam in its panel, of the join in its textile; from 1 */
  guint panel_number;            /* from 1, in its textile or among the loose ones */
  const OddSeam *seam;
  OddFinish *finish;
  double allowance_mm;
  double length_mm;              /* finished */
  const OddEnd *ends;            /* two, as laid: see odd_seam_facts_get_end() */
  OddWork next;
  guint next_operation;
} OddSeamFacts;

/* FALSE when there is no such seam. Clear what came of it. */
gboolean odd_seam_facts_init (OddSeamFacts *self, OddJob *job, OddId seam_id);
void odd_seam_facts_clear (OddSeamFacts *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OddSeamFacts, odd_seam_facts_clear)
/* "Seam 4 · 5": panel and seam; "Join 1 · 2". (transfer full) */
char *odd_seam_facts_dup_title (const OddSeamFacts *self);
/* "Patches 7 and 8 to patch 9, 23.6 cm long" (transfer full) */
char *odd_seam_facts_dup_subtitle (const OddSeamFacts *self, OddJob *job, int unit);
/* "patches 7, 8": the parts on one side (0: first, 1: second). (transfer full) */
char *odd_seam_facts_dup_side (const OddSeamFacts *self, OddJob *job, guint side);
/* Does the line run more across than down? Then its ends are left and right. */
gboolean odd_seam_facts_is_level (const OddSeamFacts *self);
/* Index in @ends of the left or upper end (@place 0), of the right or lower one (1): a line's direction is not the reader's. */
guint odd_seam_facts_get_end (const OddSeamFacts *self, guint place);

G_END_DECLS
