/* In the scrap's pane, for a pieced scrap: what it is made of, ends to secure, cutting it across, taking it apart. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_PIECE_ROWS (odd_piece_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddPieceRows, odd_piece_rows, ODD, PIECE_ROWS, GtkBox)

/* Hides itself for plain cloth. */
void odd_piece_rows_show (OddPieceRows *self, OddPane *pane, OddScrap *scrap);

G_END_DECLS
