/* Cut edges on the bias: they run across both threads of the cloth and stretch when they are handled. A row of stay stitching along them, or a strip ironed
 * on, holds them until they are sewn (common practice, no source). True bias stretches most (Nebraska Extension G91-1028, from memory).
 *
 *      thread |   / cut edge        off: the angle between the edge and the nearer of the two threads, 0 to 45 degrees
 *             |off/
 *             |  /
 *             | /
 *             +------- thread
 */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef struct
{
  guint edge;                 /* of the patch's cut shape */
  OddSegment cut;             /* layout's frame */
  OddSegment finished;        /* the same on the finished region; of no length where the region has no such edge */
  double length_mm;           /* of the cut edge */
  double off_deg;
} OddBiasEdge;

/*
 * odd_layout_dup_bias_edges:
 * @patch: of @layout
 *
 * Edges farther off and longer than @settings say. None of bare places, of knits, of pieced scraps, of a patch that is stayed, and of edges along which
 * work has begun: the seam holds those.
 *
 * Returns: (transfer full): GArray of OddBiasEdge, in the order of the cut shape's edges
 */
GArray *odd_layout_dup_bias_edges (const OddLayout *layout, const OddPatch *patch, const OddSettings *settings);

/* A patch that wants to be stayed before it is handled. */
typedef struct { OddId panel_id, leaf_id; guint number, n_edges; double length_mm; } OddBiasPatch;
/* Of a textile's panels, or @textile_id 0: of everything on the table; in order. (transfer full) GArray of OddBiasPatch */
GArray *odd_job_dup_bias (OddJob *job, OddId textile_id);

/* Its edges are stayed, left as they are on purpose, or neither. Refused for a bare place. The mark goes when the patch gets another scrap or place. */
OddJob *odd_job_set_stayed (OddJob *job, OddId leaf_id, OddState state, GError **error);

G_END_DECLS
