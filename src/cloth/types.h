/* Small words shared by all values of the cloth room. */
#pragma once

#include "geometry/convex.h"

G_BEGIN_DECLS

/* Numbers things within one job; 0 means none. Never used twice in a job: OddJob holds the next one. */
typedef guint32 OddId;

typedef enum
{
  ODD_STATION_SEWING_MACHINE,
  ODD_STATION_OVERLOCKER,
  ODD_STATION_IRON,
  ODD_STATION_TABLE
} OddStation;
#define ODD_N_STATIONS 4

typedef enum
{
  ODD_OPERATION_SEW,          /* a line of stitching that joins */
  ODD_OPERATION_NEATEN,       /* overlock, zigzag, bind: raw edges made fast */
  ODD_OPERATION_TRIM,         /* cut an allowance back */
  ODD_OPERATION_FOLD,         /* turn an edge under, wrap (felled, French) */
  ODD_OPERATION_PRESS,
  ODD_OPERATION_TOPSTITCH
} OddOperationKind;
#define ODD_N_OPERATION_KINDS 6

typedef enum { ODD_STATE_OPEN, ODD_STATE_DONE, ODD_STATE_SKIPPED } OddState;

typedef enum { ODD_FACE_RIGHT_SIDES, ODD_FACE_WRONG_SIDES, ODD_FACE_ONE_LAYER } OddFace;   /* which sides lie together */

typedef enum { ODD_PRESSED_BY_RULE, ODD_PRESSED_TO_FIRST, ODD_PRESSED_TO_SECOND, ODD_PRESSED_OPEN } OddPressed;
/* first part: on the kept side of the seam's line */

/* The file's and the report's words for the enums above: "sewing-machine", "sew", "open", "right-sides" ... Untranslated; never NULL. */
const char *odd_station_get_nick (OddStation station);
const char *odd_operation_kind_get_nick (OddOperationKind kind);
const char *odd_state_get_nick (OddState state);
const char *odd_face_get_nick (OddFace face);
const char *odd_pressed_get_nick (OddPressed pressed);
/* The way back; FALSE for an unknown word, @out untouched. */
gboolean odd_station_from_nick (const char *nick, OddStation *out);
gboolean odd_operation_kind_from_nick (const char *nick, OddOperationKind *out);
gboolean odd_state_from_nick (const char *nick, OddState *out);
gboolean odd_face_from_nick (const char *nick, OddFace *out);
gboolean odd_pressed_from_nick (const char *nick, OddPressed *out);
/* Translated, for people: "sewing machine"; "Sew", "Neaten" ... */
const char *odd_station_get_name (OddStation station);
const char *odd_operation_kind_get_name (OddOperationKind kind);

/* Finish and allowance as one level (job, textile, panel, strip, seam, edge) sets them. A level that names a finish brings the
 * finish's own allowance unless it names an allowance too. */
typedef struct
{
  OddId finish_id;            /* 0: inherited */
  double allowance_mm;        /* NAN: from the finish, or inherited */
} OddTreatment;
#define ODD_TREATMENT_INHERIT ((OddTreatment) { 0, NAN })
gboolean odd_treatment_equal (const OddTreatment *a, const OddTreatment *b);   /* NAN equals NAN */

G_END_DECLS
