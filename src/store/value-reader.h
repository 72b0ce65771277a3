/* Fabrics, finishes and scraps out of JSON, for job files and scrap lists. The members are described in data/job.schema.json. */
#pragma once

#include "cloth/job.h"
#include "store/json-cursor.h"

G_BEGIN_DECLS

typedef enum { ODD_ID_FABRIC = 1, ODD_ID_FINISH, ODD_ID_SCRAP, ODD_ID_NODE, ODD_ID_SEAM, ODD_ID_PANEL, ODD_ID_TEXTILE } OddIdKind;

/* Which ids were given out so far, and to what. */
typedef struct
{
  GHashTable *kinds;          /* id -> OddIdKind */
  GHashTable *finishes;       /* id -> OddFinish, not owned */
  OddId next_id;
} OddIdBook;

void odd_id_book_init (OddIdBook *self, OddId next_id);
void odd_id_book_clear (OddIdBook *self);
/* The object's own "id": fails when it is missing, not below next_id, or taken. 0 then. */
OddId odd_id_book_claim (OddIdBook *self, OddCursor *cursor, OddIdKind kind);
/* Another thing's id under @member: 0 when it is not there; fails when nothing of that kind has it. */
OddId odd_id_book_look_up (OddIdBook *self, OddCursor *cursor, const char *member, OddIdKind kind);

/* Each reads the object of the cursor and leaves it. (transfer full), or NULL when the reading failed. */
OddFabric *odd_read_fabric (OddCursor *cursor, OddId id);
OddFinish *odd_read_finish (OddCursor *cursor, OddId id);
/* @number, @fabric_id, @parent_id, @piece (nullable): read by the caller, who knows what they mean; @with_picture: whether a picture may be named */
OddScrap *odd_read_scrap (OddCursor *cursor, OddId id, guint number, OddId fabric_id, OddId parent_id, OddPanel *piece, gboolean with_picture);
/* "finish" and "allowance_mm" */
OddTreatment odd_read_treatment (OddCursor *cursor, OddIdBook *book);

G_END_DECLS
