/* A line of text that belongs to one thing of the job, taken on Enter, and when it is left. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/types.h"

G_BEGIN_DECLS

#define ODD_TYPE_TEXT_ENTRY (odd_text_entry_get_type ())
G_DECLARE_FINAL_TYPE (OddTextEntry, odd_text_entry, ODD, TEXT_ENTRY, GtkEntry)

/* Signal committed (guint of, const char *text): what was typed, and the id of the thing it was typed for, which need no longer be the
 * one shown. Escape brings back what was there. */
/* @text: (nullable): NULL is shown as "". What is being typed for the same thing stays. */
void odd_text_entry_show (OddTextEntry *self, OddId of, const char *text);

G_END_DECLS
