/* "What can I make?": what is wanted on the left; on the right, as it is typed, whether the tub gives it. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/document.h"
#include "piecing/proposal.h"

G_BEGIN_DECLS

typedef void (*OddPieceFunc) (GtkWidget *from, const OddProposalOptions *offer);

/* Changes nothing. @piece: called with @from when panels like these are to be pieced; the dialog is closed then. */
void odd_estimate_dialog_present (GtkWidget *from, OddDocument *document, OddId textile_id, int unit, OddPieceFunc piece);

G_END_DECLS
