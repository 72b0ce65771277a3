/* Counts in a worker what each scrap of a document gives of the chosen sizes, and keeps the sizes for all who show or use them. */
#pragma once

#include "cloth/document.h"
#include "piecing/gives.h"

G_BEGIN_DECLS

#define ODD_TYPE_CUT_COUNTER (odd_cut_counter_get_type ())
G_DECLARE_FINAL_TYPE (OddCutCounter, odd_cut_counter, ODD, CUT_COUNTER, GObject)

/* Property: drawn (gboolean): the pieces are drawn on the scrap.
 * Signals: sizes-changed (): others were asked for; counted (): what odd_cut_counter_get_gives() hands out is another, or none. */

/* The one of this document: what is typed in one place is asked everywhere. (transfer none) */
OddCutCounter *odd_cut_counter_get (OddDocument *document);

/* Where each of the three places for a size stands; the width is NAN where it is empty. */
OddTemplate odd_cut_counter_get_template (OddCutCounter *self, guint place);
/* NAN: none of it. A length that is NAN is the width. */
void odd_cut_counter_set_template (OddCutCounter *self, guint place, OddTemplate size);
double odd_cut_counter_get_allowance (OddCutCounter *self);
void odd_cut_counter_set_allowance (OddCutCounter *self, double mm);
/* What is being typed is no length: nothing is counted until another size is set. */
void odd_cut_counter_complain (OddCutCounter *self, const char *complaint);
/* Those that are given, without gaps. */
OddCutSizes odd_cut_counter_get_sizes (OddCutCounter *self);
/* All at once, as a proposal was asked for. */
void odd_cut_counter_set_sizes (OddCutCounter *self, const OddCutSizes *sizes);

/* Nothing is counted while nobody looks. */
void odd_cut_counter_watch (OddCutCounter *self);
void odd_cut_counter_unwatch (OddCutCounter *self);
/* Somebody looks at the yield, too: it comes a moment after the counts. */
void odd_cut_counter_want_yield (OddCutCounter *self, gboolean wanted);
/* As last counted, what is left of scraps in panels with it; NULL while there is nothing, or the sizes are no good. (transfer none) */
OddGives *odd_cut_counter_get_gives (OddCutCounter *self);
/* Why the sizes are no good, one sentence, or NULL. (transfer none) */
const char *odd_cut_counter_get_complaint (OddCutCounter *self);

G_END_DECLS
