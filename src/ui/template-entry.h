/* Entries for one size that is cut: width and, where it is no square, length. Counted while it is typed. */
#pragma once

#include <gtk/gtk.h>
#include "ui/cut-counter.h"

G_BEGIN_DECLS

#define ODD_TYPE_TEMPLATE_ENTRY (odd_template_entry_get_type ())
G_DECLARE_FINAL_TYPE (OddTemplateEntry, odd_template_entry, ODD, TEMPLATE_ENTRY, GtkBox)

/* Properties: unit (int), place (guint, construct only: which of the counter's sizes; ODD_MAX_TEMPLATES: its allowance), short (gboolean: the
 * width alone). */
void odd_template_entry_set_counter (OddTemplateEntry *self, OddCutCounter *counter);

G_END_DECLS
