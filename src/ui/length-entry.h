/* An entry for a length, in centimetres, millimetres or inches with fractions. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/length.h"

G_BEGIN_DECLS

#define ODD_TYPE_LENGTH_ENTRY (odd_length_entry_get_type ())
G_DECLARE_FINAL_TYPE (OddLengthEntry, odd_length_entry, ODD, LENGTH_ENTRY, GtkEntry)

/* Properties: value (double, mm; NAN: empty), unit (int OddUnit), allow-negative, allow-empty (gboolean).
 * Signal committed (double mm): Enter or leaving the entry, with a text that is a length and is not what was there before.
 * A text that is no length keeps the entry as typed, marks it, and says why below it. */
GtkWidget *odd_length_entry_new (void);
double odd_length_entry_get_value (OddLengthEntry *self);
/* Shows another length; nothing is emitted. What is being typed is left alone while the value is the same. */
void odd_length_entry_set_value (OddLengthEntry *self, double mm);
/* For a dialog's main button: takes what is typed as leaving the entry would. FALSE when it is no length: @out_mm stays, the entry is marked and
 * focused, and @out_complaint (lent, until the text changes) says why. Empty, where that is allowed, is NAN. */
gboolean odd_length_entry_read (OddLengthEntry *self, double *out_mm, const char **out_complaint);
/* What is being typed, taken or not; TRUE and NAN when empty and that is allowed. FALSE, @out_mm untouched and nothing marked, when it is no
 * length: @error says why. */
gboolean odd_length_entry_peek (OddLengthEntry *self, double *out_mm, GError **error);
/* The sentence shown while the text is no length, or NULL. */
const char *odd_length_entry_get_complaint (OddLengthEntry *self);

G_END_DECLS
