/* Work on many things by several threads; each thing is done by one of them, on its own. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

typedef void (*OddItemFunc) (guint item, gpointer data);

/*
 * Calls @func once for each of 0 .. n - 1, in no order; it may write only what belongs to its item, so that the number of threads changes
 * nothing. @n_threads 0: one a processor. FALSE when cancelled: then some were not called.
 */
gboolean odd_for_each_item (guint n, guint n_threads, OddItemFunc func, gpointer data, GCancellable *cancellable, GError **error);

G_END_DECLS
