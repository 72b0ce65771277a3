/* What the edits of the cloth room share. */
#pragma once

#include "cloth/edit.h"
#include "cloth/job-private.h"
#include "cloth/hang.h"
#include "cloth/measured.h"

G_BEGIN_DECLS

/* A new array that shares all elements; @ref_func by what it holds. */
GPtrArray *odd_edit_copy_array (GPtrArray *array, GCopyFunc ref);
/* Copies of the job with one array, panel or textile replaced; (transfer full). */
OddJob *odd_edit_take_fabrics (OddJob *job, GPtrArray *fabrics);
OddJob *odd_edit_take_finishes (OddJob *job, GPtrArray *finishes);
OddJob *odd_edit_take_scraps (OddJob *job, GPtrArray *scraps);
OddJob *odd_edit_with_panel (OddJob *job, OddPanel *panel);            /* the one with the same id */
OddJob *odd_edit_with_textile (OddJob *job, OddTextile *textile);      /* the one with the same id */
/* The panel of an id or of a node's id; sets ODD_JOB_ERROR_NOT_FOUND, or REFUSED when it is locked. */
OddPanel *odd_edit_get_panel (OddJob *job, OddId panel_id, OddTextile **out_textile, guint *out_index, GError **error);
OddPanel *odd_edit_get_panel_of (OddJob *job, OddId id, GError **error);
/* What of the panel holds the node or seam and is locked: the panel is not asked. NULL: nothing. (transfer none) */
OddNode *odd_edit_find_lock (OddPanel *panel, OddId id);
/* FALSE, with one sentence, when the patch or a strip round it is locked. */
gboolean odd_edit_check_lock (OddJob *job, OddPanel *panel, OddId id, GError **error);
/* Layout of the panel by itself, with the levels of the textile it hangs in; not kept. (transfer full) */
OddLayout *odd_layout_new_alone (OddJob *job, OddTextile *textile, OddPanel *panel);
/* The panel with its outline made anew from planes (one an old edge, in order); NULL when nothing is left of it. */
OddPanel *odd_edit_panel_from_planes (OddPanel *panel, const OddHalfPlane *planes, OddNode *root);
OddHalfPlane *odd_edit_outline_planes (OddPanel *panel);               /* (transfer full) one an edge */

/*
 * odd_panel_reassemble:
 * @from: layout alone the cut shapes belong to
 * @to: layout alone of the same tree with the new finishes and allowances
 *
 * Keeps the cut: every cut shape stays, the parts move together (or apart) across each seam by what both its allowances changed, and
 * the outline becomes what all parts cover. (transfer full); NULL when nothing is left.
 */
OddPanel *odd_panel_reassemble (OddPanel *panel, const OddLayout *from, const OddLayout *to);
/* The same, one strip or patch trimmed by @by_mm on its sides (top, right, bottom, left) before it meets its neighbours. */
OddPanel *odd_panel_reassemble_trimmed (OddPanel *panel, const OddLayout *from, const OddLayout *to, OddId node_id, const double by_mm[4]);
/* (transfer full): @job, or what it becomes when this seam is not sewn and yet was measured as sewn: that is forgotten. Takes @job. */
OddJob *odd_edit_forget_unsewn (OddJob *job, OddId seam_id, GError **error);
/* Seams crossed where something was measured (by an empty measure: everywhere) that take a share of a loss; one may be there more than
 * once. (transfer full) (element-type OddCrossing) */
GArray *odd_job_find_shares (OddJob *self, OddId id, const OddMeasure *measure, gboolean across);

/* @after has the new levels or finishes; gives every panel concerned its new shape. Seams that have been worked on are pinned to what they
 * had. (transfer full), NULL with error. */
OddJob *odd_edit_resettle (OddJob *before, OddJob *after, gboolean keep_cut, GError **error);
/* The mark alone; what becomes of the rest of the scrap is cutting.c's. */
OddJob *odd_edit_mark_cut (OddJob *self, OddId leaf_id, OddState cut, GError **error);

/* Finishes: added, swapped for one of the same id, dropped; no cloth is moved. */
OddJob *odd_edit_add_finish (OddJob *self, const OddFinish *values, OddId *out_id, GError **error);
OddJob *odd_edit_swap_finish (OddJob *self, OddFinish *finish);
OddJob *odd_edit_drop_finish (OddJob *self, OddId id);

G_END_DECLS
