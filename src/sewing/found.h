/* A seam or a join of the job, looked up with where it lies. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef struct
{
  OddPanel *panel;                 /* (transfer none) NULL for a join */
  OddLayout *layout;               /* of the panel */
  OddTextileLayout *textile;       /* where the panel hangs, or the join's; NULL: loose */
  guint index;                     /* in layout->seams, or in textile->joins */
  const OddSeam *seam;
  OddFinish *finish;               /* (transfer none) */
} OddFound;

/* @self: zeroed; clear it whatever is returned. FALSE with ODD_JOB_ERROR_NOT_FOUND. */
gboolean odd_found_init (OddFound *self, OddJob *job, OddId seam_id, GError **error);
void odd_found_clear (OddFound *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OddFound, odd_found_clear)

/* As odd_job_dup_seam_name(). (transfer full) */
char *odd_found_dup_name (const OddFound *self, OddJob *job);

G_END_DECLS
