/* Rows of a dialog: one to three template sizes. */
#pragma once

#include <adwaita.h>
#include "cloth/length.h"
#include "piecing/proposal.h"

G_BEGIN_DECLS

#define ODD_TYPE_TEMPLATE_ROWS (odd_template_rows_get_type ())
G_DECLARE_FINAL_TYPE (OddTemplateRows, odd_template_rows, ODD, TEMPLATE_ROWS, AdwBin)

/* Signals: changed (), while a length is being typed; committed (), when one is taken. */
void odd_template_rows_set_unit (OddTemplateRows *self, OddUnit unit);
void odd_template_rows_set (OddTemplateRows *self, const OddTemplate *templates, guint n);
/* What was taken last; the number of sizes. */
guint odd_template_rows_get (OddTemplateRows *self, OddTemplate out[ODD_MAX_TEMPLATES]);
/* As odd_length_entry_read(): FALSE, and all untouched, when one is no length. */
gboolean odd_template_rows_read (OddTemplateRows *self, OddTemplate out[ODD_MAX_TEMPLATES], guint *out_n, const char **out_complaint);
/* As odd_length_entry_peek(): what is being typed. */
gboolean odd_template_rows_peek (OddTemplateRows *self, OddTemplate out[ODD_MAX_TEMPLATES], guint *out_n, GError **error);

G_END_DECLS
