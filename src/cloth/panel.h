/* A panel: a column of patches, seen flat from the right side, finished, alone. Immutable, atomically reference counted. */
#pragma once

#include "cloth/node.h"

G_BEGIN_DECLS

typedef struct { OddTreatment treatment; OddProgress *progress; } OddEdge;   /* outer edge */

typedef struct _OddPanel OddPanel;
struct _OddPanel               /* read only */
{
  OddId id;
  char *name;                  /* may be "" : shown as "Panel n" */
  OddConvex *outline;          /* finished; its box starts at 0,0; label i = edge i */
  OddEdge *edges;              /* outline->n of them */
  OddTreatment treatment;
  OddNode *root;
  gboolean locked;
  OddMeasure *measure;         /* taken of it, or NULL */
  char *unknown_json;
  /*< private >*/
  gpointer layout_slot;        /* last layout made of it, see layout.c */
};

/* Takes the outline as it is and moves everything so that its box starts at 0,0 (lines and placements with it). Its labels are
 * set to 0..n-1. @edges: (nullable): one an edge, copied; NULL: all inherited. */
OddPanel *odd_panel_new (OddId id, const char *name, OddConvex *outline, const OddEdge *edges, OddNode *root);
/* One bare rectangle. */
OddPanel *odd_panel_new_bare (OddId id, const char *name, double width_mm, double length_mm, OddId leaf_id);
OddPanel *odd_panel_ref (OddPanel *self);
void odd_panel_unref (OddPanel *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddPanel, odd_panel_unref)

OddPanel *odd_panel_with_root (OddPanel *self, OddNode *root);
/* New outline and root together, moved to start at 0,0. @edges as in odd_panel_new(). */
OddPanel *odd_panel_with_shape (OddPanel *self, OddConvex *outline, const OddEdge *edges, OddNode *root);
OddPanel *odd_panel_with_name (OddPanel *self, const char *name);
OddPanel *odd_panel_with_treatment (OddPanel *self, const OddTreatment *treatment);
OddPanel *odd_panel_with_edge (OddPanel *self, guint edge, const OddTreatment *treatment);
OddPanel *odd_panel_with_measure (OddPanel *self, OddMeasure *measure);         /* @measure: (nullable) */
OddPanel *odd_panel_with_lock (OddPanel *self, gboolean locked);
OddPanel *odd_panel_with_unknown (OddPanel *self, const char *unknown_json);

/* The outline's edge that faces this way most (top 0, right 1, bottom 2, left 3), its outward normal within 45 degrees; -1 when none. */
int odd_panel_side_edge (const OddPanel *self, guint side);
/* Four sides that run nearly all along the outline's box, as a join and a hem want them. */
gboolean odd_panel_has_four_sides (const OddPanel *self);

G_END_DECLS
