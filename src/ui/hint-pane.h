/* Nothing is selected: what could come next. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_HINT_PANE (odd_hint_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddHintPane, odd_hint_pane, ODD, HINT_PANE, OddPane)

G_END_DECLS
