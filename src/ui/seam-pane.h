/* A seam or a join: its work, finish, allowance, pressing, ends, and the one button for what comes next. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_SEAM_PANE (odd_seam_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddSeamPane, odd_seam_pane, ODD, SEAM_PANE, OddPane)

/* Marks the next operation of the selected seam done, after asking where raw ends would be enclosed. */
void odd_seam_pane_mark_next (OddSeamPane *self);
void odd_seam_pane_unmark_last (OddSeamPane *self);

G_END_DECLS
