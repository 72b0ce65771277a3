/* One panel: its sizes, the finish of all its seams, and the work on all of them at once. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_PANEL_PANE (odd_panel_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddPanelPane, odd_panel_pane, ODD, PANEL_PANE, OddPane)

G_END_DECLS
