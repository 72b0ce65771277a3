/* "Piece by itself": what is asked for on the left, proposals side by side on the right; one of them may be taken. */
#pragma once

#include <gtk/gtk.h>
#include "piecing/proposal.h"
#include "ui/selection.h"

G_BEGIN_DECLS

/* @shown: (nullable) (element-type OddId): scraps the tray shows; @offer: (nullable): what is asked for at first. Taking is one undo step; all else leaves the document alone. */
void odd_propose_dialog_present (GtkWidget *from, OddDocument *document, OddSelection *selection, OddId textile_id, GArray *shown, int unit,
                                 const OddProposalOptions *offer);

G_END_DECLS
