/* One scrap: what is known of it, to read and to change. */
#pragma once

#include "ui/pane.h"

G_BEGIN_DECLS

#define ODD_TYPE_SCRAP_PANE (odd_scrap_pane_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapPane, odd_scrap_pane, ODD, SCRAP_PANE, OddPane)

G_END_DECLS
