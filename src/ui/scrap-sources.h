/* What may be drawn from, as a dialog offers it: scraps that live together, all that are free, those the tray shows. */
#pragma once

#include <gtk/gtk.h>
#include "cloth/job.h"

G_BEGIN_DECLS

/*
 * odd_scrap_sources_new:
 * @shown: (nullable) (element-type OddId): scraps the tray shows; offered where they are not all
 * @names: a row for each is added
 *
 * Cloth that lives together comes first; all of it is mixed on purpose only.
 *
 * Returns: (transfer full) (element-type GArray): OddId of each; NULL: all that are free
 */
GPtrArray *odd_scrap_sources_new (OddJob *job, GArray *shown, GtkStringList *names);
/* (transfer none): NULL also where there is no such row */
GArray *odd_scrap_sources_get (GPtrArray *sources, guint row);
/* The row of these; @scrap_ids: (nullable): all. 0 where there is none. */
guint odd_scrap_sources_find (GPtrArray *sources, const OddId *scrap_ids, guint n_scrap_ids);
guint odd_scrap_sources_count_free (OddJob *job);

G_END_DECLS
