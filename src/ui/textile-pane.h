/* The panel merger: panels side by side, what they come to, and what is missing. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_TEXTILE_PANE (odd_textile_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddTextilePane, odd_textile_pane, ODD, TEXTILE_PANE, OddPane)

G_END_DECLS
