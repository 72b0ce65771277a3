/* What is selected, shared by canvas, tray and panes. */
#pragma once

#include "cloth/document.h"

G_BEGIN_DECLS

typedef enum { ODD_SELECTED_NOTHING, ODD_SELECTED_SCRAP, ODD_SELECTED_PATCH, ODD_SELECTED_SEAM, ODD_SELECTED_PANEL, ODD_SELECTED_TEXTILE } OddSelected;
GType odd_selected_get_type (void);
#define ODD_TYPE_SELECTED (odd_selected_get_type ())

#define ODD_TYPE_SELECTION (odd_selection_get_type ())
G_DECLARE_FINAL_TYPE (OddSelection, odd_selection, ODD, SELECTION, GObject)

/* Properties: kind (OddSelected), id (guint). Signal: changed. Follows the document: what is gone from the job is unselected. */
OddSelection *odd_selection_new (OddDocument *document);
void odd_selection_set (OddSelection *self, OddSelected kind, OddId id);
OddSelected odd_selection_get_kind (OddSelection *self);
OddId odd_selection_get_id (OddSelection *self);       /* scrap, leaf, seam or join, panel, textile */

G_END_DECLS
