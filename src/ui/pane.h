/* What the panes on the right have in common: they show one thing of the document and follow it. */
#pragma once

#include <adwaita.h>
#include "cloth/length.h"
#include "sewing/act.h"
#include "ui/selection.h"

G_BEGIN_DECLS

#define ODD_TYPE_PANE (odd_pane_get_type ())
G_DECLARE_DERIVABLE_TYPE (OddPane, odd_pane, ODD, PANE, AdwBin)

/* Properties: document, selection, unit (int), textile-id (guint: the one on the table), active (gboolean). */
struct _OddPaneClass
{
  AdwBinClass parent_class;
  /* Shows the job as it is. Called only while active; what it does to its widgets must not be taken for the maker's doing: ask
   * odd_pane_is_refreshing() in callbacks. */
  void (*refresh) (OddPane *self);
};

OddDocument *odd_pane_get_document (OddPane *self);      /* (transfer none) */
OddJob *odd_pane_get_job (OddPane *self);                /* (transfer none) */
OddSelection *odd_pane_get_selection (OddPane *self);    /* (transfer none) */
OddSelected odd_pane_get_kind (OddPane *self);
OddId odd_pane_get_id (OddPane *self);                   /* of what is selected */
OddUnit odd_pane_get_unit (OddPane *self);
OddId odd_pane_get_textile_id (OddPane *self);
gboolean odd_pane_is_refreshing (OddPane *self);
void odd_pane_refresh (OddPane *self);
/* As odd_apply(). After a refusal the pane is refreshed, so that its widgets say again what is. */
gboolean odd_pane_apply (OddPane *self, OddJob *job, GError **error, const char *label);
/* As odd_do(), likewise. */
gboolean odd_pane_do (OddPane *self, const OddAct *act, const char *label);
void odd_pane_select (OddPane *self, OddSelected kind, OddId id);
/* "Panel %s" and the like in one expression. Takes @text. */
void odd_label_take (GtkLabel *label, char *text);

G_END_DECLS
