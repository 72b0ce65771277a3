/* Panels of a textile that came out unequally long: four ways to bring them together, each with its price. All lengths raw. */
#pragma once

#include "cloth/measured.h"

G_BEGIN_DECLS

typedef enum
{
  ODD_REMEDY_TRIM,            /* all panels to the shortest */
  ODD_REMEDY_EASE,            /* the longer ones eased in, none trimmed */
  ODD_REMEDY_PATCH,           /* a patch at the end of each short panel: cut height = gap + 2a, finished height = gap */
  ODD_REMEDY_SEAMS            /* n seams not sewn yet sewn at (cut sum - need) / 2n, the cut kept */
} OddRemedyKind;
#define ODD_N_REMEDIES 4

typedef struct
{
  gboolean possible;
  char *text;                 /* what it does, or why it cannot be done: one sentence; lengths in the unit asked for */
  double cloth_mm2;           /* cut off, or needed */
  double minutes;             /* our estimate, see remedies.c */
  double cut_height_mm;       /* patch: of the first short panel */
  double ease_percent;        /* ease: of the longest panel */
  guint n_seams;              /* seams: of the first panel changed */
  double allowance_mm;        /* seams: of the first panel changed */
} OddRemedy;

typedef struct
{
  OddId textile_id;
  double shortest_mm;
  double wanted_mm;           /* what the next longer panels have: short panels are brought up to it */
  double gap_mm;              /* wanted - shortest */
  double longest_mm;
  GArray *short_panels;       /* (element-type OddId) */
  OddRemedy remedies[ODD_N_REMEDIES];
} OddUnequal;
void odd_unequal_free (OddUnequal *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddUnequal, odd_unequal_free)

/* (transfer full): NULL when all panels are equally long (to half a millimetre), or there are less than two. @unit: for the sentences. */
OddUnequal *odd_job_find_unequal (OddJob *self, OddId textile_id, int unit);
/* NULL with error when it is not possible; the error is the remedy's sentence. */
OddJob *odd_job_remedy (OddJob *self, OddId textile_id, OddRemedyKind kind, GError **error);
/* "Trim to the shortest" ... */
const char *odd_remedy_kind_get_name (OddRemedyKind kind);

G_END_DECLS
