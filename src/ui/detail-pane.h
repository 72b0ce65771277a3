/* The right pane: shows what is selected. */
#pragma once

#include "ui/pane.h"
#include "ui/seam-pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_DETAIL_PANE (odd_detail_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddDetailPane, odd_detail_pane, ODD, DETAIL_PANE, OddPane)

/* Property stage (string: "scraps", "piecing", "textile"): decides what is shown when nothing, or a panel, is selected. */
OddSeamPane *odd_detail_pane_get_seam_pane (OddDetailPane *self);      /* (transfer none) */
/* "hint", "seam", "patch", "panel", "textile", "scrap" (transfer none) */
const char *odd_detail_pane_get_shown (OddDetailPane *self);

G_END_DECLS
