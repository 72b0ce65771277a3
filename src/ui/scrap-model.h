/* The scraps of a document, searched, filtered and sorted. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"
#include "ui/scrap-row.h"

G_BEGIN_DECLS

typedef enum { ODD_SORT_LARGEST, ODD_SORT_SMALLEST, ODD_SORT_NUMBER, ODD_SORT_LIGHTNESS, ODD_SORT_FABRIC, ODD_SORT_GIVES } OddScrapSort;
#define ODD_N_SCRAP_SORTS 6
typedef enum { ODD_LIGHTNESS_ANY, ODD_LIGHTNESS_LIGHT, ODD_LIGHTNESS_MIDDLE, ODD_LIGHTNESS_DARK } OddLightnessBand;
typedef enum { ODD_SHOWN_FREE, ODD_SHOWN_PLACED, ODD_SHOWN_ALL } OddShownScraps;

#define ODD_TYPE_SCRAP_MODEL (odd_scrap_model_get_type ())
G_DECLARE_FINAL_TYPE (OddScrapModel, odd_scrap_model, ODD, SCRAP_MODEL, GObject)

/* A GListModel of OddScrapRow. Properties: document, search (string), sort (int), fabric (guint, 0: any), smallest (double, mm: the box's shorter
 * side is at least this), lightness (int band), shown (int), in-hand (guint: a scrap that stays listed while it is in the hand),
 * filtered (gboolean, read only: anything but search, sort and the usual "free" is set), n-free (guint, read only: of the whole document).
 * Scraps that are gone are listed under ODD_SHOWN_ALL only. */
OddScrapModel *odd_scrap_model_new (OddDocument *document);
void odd_scrap_model_clear_filter (OddScrapModel *self);       /* search too */
guint odd_scrap_model_get_n_free (OddScrapModel *self);
guint odd_scrap_model_get_n_scraps (OddScrapModel *self);      /* before any filter */
/* Place of a scrap in the list shown, or GTK_INVALID_LIST_POSITION. */
guint odd_scrap_model_find (OddScrapModel *self, OddId scrap_id);
const char *odd_scrap_sort_get_name (OddScrapSort sort);       /* translated: "Largest first" */

G_END_DECLS
