/* One patch: its scrap, sizes and placement. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_PATCH_PANE (odd_patch_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddPatchPane, odd_patch_pane, ODD, PATCH_PANE, OddPane)

G_END_DECLS
