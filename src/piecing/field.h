/* Regions of panels that are to be pieced by themselves: bare leaves of a job, and what is freed round that which is kept. */
#pragma once

#include "cloth/edit.h"

G_BEGIN_DECLS

typedef struct
{
  OddId panel_id, leaf_id;    /* a bare leaf of OddFields.job */
  OddConvex *region;          /* finished, common frame; label of edge i: -1 - i */
  double *allowances_mm;      /* by edge */
  double seam_allowance_mm;   /* of new seams inside */
  OddPlacement to_own;        /* common frame to the panel's own */
  OddNode *before;            /* (nullable): what lay there before it was freed; panel's own frame */
} OddField;

/* A patch that stays. */
typedef struct { OddConvex *region; OddBox box; OddId fabric_id, scrap_id; } OddKept;

typedef struct
{
  OddJob *job;                /* everything to be pieced is a bare leaf */
  GPtrArray *fields;          /* (element-type OddField) */
  GArray *kept;               /* OddKept: patches of the same panels and of those beside them */
} OddFields;

/*
 * odd_fields_new:
 * @panels: (array length=n_panels): of @job
 * @parts: (nullable) (array length=n_parts): strips and patches outside of which all is kept; NULL: the panels as a whole
 * @free_patches: %TRUE: all that is neither locked, cut out, nor sewn is freed first; else only what is bare counts
 *
 * Freed parts of a strip that lie side by side become one field. What is kept keeps its ids and seams.
 *
 * Returns: (transfer full): maybe without any field; NULL with an error when a panel is not there
 */
OddFields *odd_fields_new (OddJob *job, const OddId *panels, guint n_panels, const OddId *parts, guint n_parts, gboolean free_patches, GError **error);
void odd_fields_free (OddFields *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddFields, odd_fields_free)

G_END_DECLS
