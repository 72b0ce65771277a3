/* Panels and textiles with their seam trees out of JSON. */
#pragma once

#include "store/value-reader.h"

G_BEGIN_DECLS

/* Strips within strips: more than a column of patches can need, few enough for everything that walks a tree. */
#define ODD_TREE_MAX_DEPTH 2000

/* Both read the object of the cursor and leave it. (transfer full), or NULL when the reading failed. @finish_id: what is inherited. */
OddPanel *odd_read_panel (OddCursor *cursor, OddIdBook *book, OddId finish_id, OddHung *out_hung);
OddTextile *odd_read_textile (OddCursor *cursor, OddIdBook *book, OddId finish_id);

G_END_DECLS
