/* Edits: from one job to the next. Each returns a new job (transfer full), or NULL with an error and nothing changed. */
#pragma once

#include "cloth/cutting.h"
#include "cloth/layout.h"

G_BEGIN_DECLS

/* --- fabrics, finishes, scraps --- */
/* id 0 in the value: added with a new id (returned in @out_id, nullable); else the one with that id is replaced. */
OddJob *odd_job_put_fabric (OddJob *self, const OddFabric *values, OddId *out_id, GError **error);
OddJob *odd_job_put_finish (OddJob *self, const OddFinish *values, gboolean keep_cut, OddId *out_id, GError **error);
OddJob *odd_job_put_scrap (OddJob *self, const OddScrap *values, OddId *out_id, GError **error);   /* number 0: the next free one */
OddJob *odd_job_put_scraps (OddJob *self, GPtrArray *scraps, GError **error);    /* (element-type OddScrap) all with id 0 inside: added in order */
OddJob *odd_job_remove_scrap (OddJob *self, OddId scrap_id, GError **error);     /* refused while placed */
OddJob *odd_job_remove_fabric (OddJob *self, OddId fabric_id, GError **error);   /* refused while used */
OddJob *odd_job_remove_finish (OddJob *self, OddId finish_id, GError **error);
OddJob *odd_job_set_settings (OddJob *self, const OddSettings *settings, GError **error);
OddJob *odd_job_put_picture (OddJob *self, OddPicture *picture);
OddJob *odd_job_wash_scrap (OddJob *self, OddId scrap_id, gboolean washed, GError **error);       /* washed: takes its shrunk shape; not washed: keeps it */
/* One more at the record's end; nothing else. Acts are done by sewing/act.h. */
OddJob *odd_job_append_act (OddJob *self, OddAct *act);

/* --- panels and textiles --- */
OddJob *odd_job_add_textile (OddJob *self, const char *name, OddId *out_id, GError **error);
OddJob *odd_job_remove_textile (OddJob *self, OddId textile_id, GError **error);
/* A bare panel; @textile_id 0: loose. @index: place in the textile, or G_MAXUINT: last. */
OddJob *odd_job_add_panel (OddJob *self, OddId textile_id, guint index, const char *name, double width_mm, double length_mm, OddId *out_panel_id, GError **error);
OddJob *odd_job_insert_panel (OddJob *self, OddId textile_id, guint index, OddPanel *panel, GError **error);  /* ids inside already from this job's next ids, next_id must be past them */
OddJob *odd_job_remove_panel (OddJob *self, OddId panel_id, GError **error);
OddJob *odd_job_move_panel (OddJob *self, OddId panel_id, OddId to_textile_id, guint to_index, GError **error);
OddJob *odd_job_turn_panel (OddJob *self, OddId panel_id, GError **error);       /* by 180 degrees */
OddJob *odd_job_set_panel_offset (OddJob *self, OddId panel_id, double offset_mm, GError **error);
OddJob *odd_job_set_panel_name (OddJob *self, OddId panel_id, const char *name, GError **error);
OddJob *odd_job_set_textile_name (OddJob *self, OddId textile_id, const char *name, GError **error);
OddJob *odd_job_set_target (OddJob *self, OddId textile_id, double width_mm, double length_mm, GError **error);

/* --- sewing on and taking off; all geometry in the panel's OWN frame (odd_placement_undo of layout->hung) --- */
typedef struct
{
  guint edge;                 /* outline edge (alone) that is sewn on to */
  OddHalfPlane seam;          /* the new seam's line; the panel that stands is its kept side */
  OddHalfPlane outer;         /* the new part's far finished edge (replaces the outline's edge); kept side: the new part */
  OddNode *part;              /* (transfer none) what is sewn on: leaf or row, with ids from @self->next_id on */
  OddId next_id;              /* first id not used by @part */
} OddExtension;
/* Puts a seam above the root, or one more into the top strip when it does not meet the others. The other outline edges
 * are prolonged. Refused: the new seam swallows a patch; the panel is locked. Trimming is a cut and always allowed. */
OddJob *odd_job_extend_panel (OddJob *self, OddId panel_id, const OddExtension *extension, GError **error);
/* Takes the last seam of the panel off: the one sewn on last (highest id) among the outer parts of the top strip; what was sewn on
 * becomes free again. The panel's raw edge stays where the seam's raw edge was. Refused when sewn (unpick or untick first), or when one patch is left. */
OddJob *odd_job_take_off_last (OddJob *self, OddId panel_id, GError **error);
/* A panel's tree made anew. That what is locked, cut out or sewn is in it again is the caller's care; ids as in OddExtension. */
OddJob *odd_job_replace_root (OddJob *self, OddId panel_id, OddNode *root, OddId next_id, GError **error);
/* Any subtree in the place of a leaf; ids as in OddExtension. */
OddJob *odd_job_replace_leaf (OddJob *self, OddId leaf_id, OddNode *with, OddId next_id, GError **error);
/* Parts a leaf by a seam: @first on the kept side of @line, @second beyond; one of them may keep the leaf's id. Joins the strip in which the
 * leaf lies when the line is parallel to its seams, so that a row of squares stays one strip; else the leaf becomes a strip. */
OddJob *odd_job_split_leaf (OddJob *self, OddId leaf_id, OddHalfPlane line, OddNode *first, OddNode *second, OddId next_id, GError **error);
OddJob *odd_job_place_scrap (OddJob *self, OddId leaf_id, OddId scrap_id, const OddPlacement *placement, GError **error);
OddJob *odd_job_make_bare (OddJob *self, OddId leaf_id, GError **error);
/* Changes a panel's length at its free end (top edge part only): moves the outer edge; used while a row is being built. */
OddJob *odd_job_move_edge (OddJob *self, OddId panel_id, guint edge, double outward_mm, GError **error);
/* What was cut off at the table: the edge moves in, and sewn seams that end on it are cut there, back-stitched or not. */
OddJob *odd_job_trim_edge (OddJob *self, OddId panel_id, guint edge, double off_mm, GError **error);

/*
 * odd_job_narrow_seam:
 * @seam_id: a seam or a join that is not sewn
 * @lost_mm: cloth lost along each of its two raw edges, 0 to 100
 *
 * The allowance stays what it is, so the finished parts give up the cloth: each becomes smaller by @lost_mm, and they come together by twice as
 * much. Refused when a patch would vanish.
 */
OddJob *odd_job_narrow_seam (OddJob *self, OddId seam_id, double lost_mm, GError **error);
/*
 * odd_job_release_patch:
 * @leaf_id: a patch that is cut out and not sewn to anything
 * @out_scrap_id: (nullable): the piece
 *
 * Its place becomes bare, and the piece a scrap of its own: outline: its cut shape; in its parent's frame, with its zones. The parent loses the
 * piece; where it is cut out and this was its last patch, it is gone. A scrap no larger than the patch is the piece itself. Where the parent falls
 * apart without the piece, it stays the part that other patches are planned on, else the largest, and the other parts become scraps where
 * they hold the usable square; refused where patches are planned on several parts.
 */
OddJob *odd_job_release_patch (OddJob *self, OddId leaf_id, OddId *out_scrap_id, GError **error);

/* --- finish, allowance, progress --- */
typedef enum { ODD_LEVEL_JOB, ODD_LEVEL_TEXTILE, ODD_LEVEL_PANEL, ODD_LEVEL_STRIP, ODD_LEVEL_SEAM, ODD_LEVEL_EDGE } OddLevel;
/*
 * odd_job_set_treatment:
 * @id: textile, panel, strip, seam or join; the panel for an edge; ignored for the job
 * @edge: outline edge for ODD_LEVEL_EDGE
 * @keep_cut: %TRUE: parts move together across each seam whose allowance changes, cut shapes stay, finished sizes follow;
 *   parts of unequal extent are trimmed to the least. %FALSE: lines stay and cut shapes grow or shrink.
 *
 * Refused when a seam concerned has been worked on.
 */
OddJob *odd_job_set_treatment (OddJob *self, OddLevel level, OddId id, guint edge, const OddTreatment *treatment, gboolean keep_cut, GError **error);
/* How many levels below this one have a finish or an allowance of their own; seams that have been worked on are not counted. */
guint odd_job_count_own_treatments (OddJob *self, OddLevel level, OddId id);
/* Lets all of those inherit again; @keep_cut as above. The same job where there are none. */
OddJob *odd_job_inherit_below (OddJob *self, OddLevel level, OddId id, gboolean keep_cut, GError **error);
OddJob *odd_job_set_pressed (OddJob *self, OddId seam_id, OddPressed pressed, GError **error);
OddJob *odd_job_set_progress (OddJob *self, OddId seam_id, OddProgress *progress, GError **error);   /* seam or join */
/* The stitching taken out: @left of the progress stays (nullable), the ends are neither back-stitched nor cut. See sewing/unpick.h. */
OddJob *odd_job_open_seam (OddJob *self, OddId seam_id, OddProgress *left, GError **error);
OddJob *odd_job_set_end_secured (OddJob *self, OddId seam_id, guint end, gboolean secured, GError **error);
OddJob *odd_job_set_lock (OddJob *self, OddId node_or_panel_id, gboolean locked, GError **error);

G_END_DECLS
