/* A textile: panels joined side by side, left to right. Immutable, atomically reference counted. */
#pragma once

#include "cloth/panel.h"

G_BEGIN_DECLS

typedef struct
{
  OddPanel *panel;
  double offset_mm;           /* top raw edge below the first panel's, down positive */
  gboolean half_turn;         /* hangs turned by 180 degrees */
  double ease_mm;             /* so much of its length is eased into its neighbours and not trimmed; accepted by the maker */
} OddHung;

typedef struct _OddTextile OddTextile;
struct _OddTextile            /* read only */
{
  OddId id;
  char *name;
  OddTreatment treatment;
  OddHung *hung; guint n_hung;        /* may be 0 */
  OddSeam *joins;                     /* n_hung - 1 (0 when none); join i lies between hung i and i + 1 */
  double target_width_mm, target_length_mm;   /* finished; 0: none */
  OddMeasure *measure;                /* taken of it, or NULL */
  char *unknown_json;
};

OddTextile *odd_textile_new (OddId id, const char *name);
/* @hung: panels ref'd; @joins copied. */
OddTextile *odd_textile_with_panels (OddTextile *self, const OddHung *hung, guint n_hung, const OddSeam *joins);
OddTextile *odd_textile_with_panel (OddTextile *self, guint index, OddPanel *panel);
OddTextile *odd_textile_with_join (OddTextile *self, guint index, const OddSeam *join);
OddTextile *odd_textile_with_target (OddTextile *self, double width_mm, double length_mm);
OddTextile *odd_textile_with_name (OddTextile *self, const char *name);
OddTextile *odd_textile_with_treatment (OddTextile *self, const OddTreatment *treatment);
OddTextile *odd_textile_with_measure (OddTextile *self, OddMeasure *measure);   /* @measure: (nullable) */
OddTextile *odd_textile_with_unknown (OddTextile *self, const char *unknown_json);
OddTextile *odd_textile_ref (OddTextile *self);
void odd_textile_unref (OddTextile *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddTextile, odd_textile_unref)

G_END_DECLS
