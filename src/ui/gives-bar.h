/* "How many squares do I get?": the cut sizes, and what all the scraps that a tray shows give of them. */
#pragma once

#include <adwaita.h>
#include "ui/tray.h"

G_BEGIN_DECLS

#define ODD_TYPE_GIVES_BAR (odd_gives_bar_get_type ())
G_DECLARE_FINAL_TYPE (OddGivesBar, odd_gives_bar, ODD, GIVES_BAR, AdwBin)

/* Properties: document, tray (whose scraps are summed up), unit (int), narrow (gboolean: one entry and the sum). */
GtkWidget *odd_gives_bar_new (void);

G_END_DECLS
