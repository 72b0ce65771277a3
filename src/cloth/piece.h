/* Pieced scraps: scraps that are themselves sewn. A pieced scrap holds a seam tree as a panel has one; a patch that lies on it keeps the
 * scrap's id and a placement only, so what shows there is always the scrap's own tree.
 *
 *      scrap 41 ── piece ── strip ─┬─ patch: scrap 7
 *                                  └─ patch: scrap 12
 */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

/* Pieces within pieces: more than anybody sews, few enough for everything that walks them. */
#define ODD_PIECE_MAX_DEPTH 12

/* --- edits --- */

/*
 * odd_job_panel_to_scrap:
 * @out_scrap_id: (nullable): the new scrap
 *
 * Puts a loose panel among the scraps. Its finishes and allowances are written down at its seams, for cloth that is sewn does not follow the job's any
 * more; its raw outline becomes the scrap's outline. Refused: a panel that hangs in a textile, is locked, has a bare patch or none but
 * one, or a seam that is not sewn; pieces nested deeper than ODD_PIECE_MAX_DEPTH.
 */
OddJob *odd_job_panel_to_scrap (OddJob *self, OddId panel_id, OddId *out_scrap_id, GError **error);
/* The way back: the scrap goes, its piece becomes a loose panel. Refused when it is placed, gone, or was cut from another piece. */
OddJob *odd_job_scrap_to_panel (OddJob *self, OddId scrap_id, OddId *out_panel_id, GError **error);
/*
 * odd_job_cut_piece:
 * @line: in the scrap's frame; the first of @out_ids lies on its kept side
 *
 * Cuts a pieced scrap across: two new scraps, each with its part of the outline and of the tree (with new ids), the scrap their parent and gone. Seam ends on
 * the line are cut, and the edge along it has no allowance: it is cut to size. Refused: plain, placed or gone; the line misses, leaves
 * only allowance on a side, runs along a seam, or makes more than two parts.
 */
OddJob *odd_job_cut_piece (OddJob *self, OddId scrap_id, OddHalfPlane line, OddId out_ids[2], GError **error);
/* Back-stitches an end of a seam inside a pieced scrap, or takes that back. */
OddJob *odd_job_set_piece_end_secured (OddJob *self, OddId scrap_id, OddId seam_id, guint end, gboolean secured, GError **error);
/* Marks a scrap given away or used up elsewhere, or takes that back. Refused when it is placed, or was cut into pieces that are there. */
OddJob *odd_job_set_scrap_gone (OddJob *self, OddId scrap_id, gboolean gone, GError **error);

/* --- asking --- */

/* Levels of pieces: 0 plain, 1 pieced of plain scraps ... */
guint odd_job_get_piece_depth (OddJob *self, OddScrap *scrap);

typedef struct
{
  OddFabric *fabric;           /* (transfer none) NULL: unknown cloth */
  double area_mm2;             /* finished area of its patches */
} OddClothShare;
/* The fabrics of a scrap, looked at through pieces within pieces, in tree order, each once; a plain scrap has one. (transfer full) (element-type OddClothShare) */
GArray *odd_job_dup_scrap_cloth (OddJob *self, OddScrap *scrap);
/* L*, for a pieced scrap the mean by area of the patches whose cloth is known; NAN: nothing is known. */
double odd_job_get_scrap_lightness (OddJob *self, OddScrap *scrap);
/* The same for a patch, whose cloth its layout knows. */
double odd_patch_get_lightness (const OddPatch *self);
/* "Red check", "unknown cloth", "pieced, 3 fabrics". (transfer full) */
char *odd_job_dup_scrap_cloth_name (OddJob *self, OddScrap *scrap);

/* For readers: no piece within itself, none nested too deep, no bare patch, a seam at least, each outline within what the piece covers. */
gboolean odd_job_check_pieces (OddJob *self, GError **error);

G_END_DECLS
