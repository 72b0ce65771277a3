/* Rows of the scrap's pane: how many squares it gives, and the size that is cut. */
#pragma once

#include <adwaita.h>
#include "ui/scrap-view.h"
#include "cloth/document.h"

G_BEGIN_DECLS

#define ODD_TYPE_GIVES_ROWS (odd_gives_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddGivesRows, odd_gives_rows, ODD, GIVES_ROWS, AdwBin)

/* @view: where the pieces are drawn, of the same scrap. Follows the count by itself until another scrap is shown. */
void odd_gives_rows_show (OddGivesRows *self, OddDocument *document, OddScrap *scrap, OddUnit unit, OddScrapView *view);

G_END_DECLS
