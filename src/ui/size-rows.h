/* Rows of a pane: whether sizes are as planned or as sewn, what is to be expected, panels that are unequally long. */
#pragma once

#include <adwaita.h>
#include "cloth/job.h"
#include "cloth/length.h"

G_BEGIN_DECLS

#define ODD_TYPE_SIZE_ROWS (odd_size_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddSizeRows, odd_size_rows, ODD, SIZE_ROWS, AdwBin)

/* @id: strip, panel or textile */
void odd_size_rows_show (OddSizeRows *self, OddJob *job, OddId id, OddUnit unit);

G_END_DECLS
