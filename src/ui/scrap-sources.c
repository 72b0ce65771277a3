#include "config.h"

#include "ui/scrap-sources.h"

#include <glib/gi18n.h>
#include <string.h>

#include "piecing/groups.h"

static void
array_unref_nullable (gpointer data)
{
  if (data != NULL)
    g_array_unref (data);
}

guint
odd_scrap_sources_count_free (OddJob *job)
{
  guint n = 0;

  for (guint i = 0; i < job->scraps->len; i++)
    n += odd_job_get_scrap_state (job, ((OddScrap *) job->scraps->pdata[i])->id) == ODD_SCRAP_FREE;
  return n;
}

/* Takes @text and @ids. */
static void
add_source (GPtrArray     *sources,
            GtkStringList *names,
            char          *text,
            GArray        *ids)
{
  gtk_string_list_append (names, text);
  g_free (text);
  g_ptr_array_add (sources, ids);
}

GPtrArray *
odd_scrap_sources_new (OddJob        *job,
                       GArray        *shown,
                       GtkStringList *names)
{
  GPtrArray *sources = g_ptr_array_new_with_free_func (array_unref_nullable);
  const guint n_free = odd_scrap_sources_count_free (job);
  g_autoptr(OddGroups) groups = odd_groups_new (job);

  for (guint i = 0; i < groups->n_groups && groups->n_groups > 1; i++)
    {
      GArray *ids = odd_groups_dup_scraps (groups, i);
      char *text = g_strdup_printf (ngettext ("group %u, %u scrap", "group %u, %u scraps", ids->len), i + 1, ids->len);

      add_source (sources, names, text, ids);
    }
  add_source (sources, names,
              g_strdup_printf (groups->n_groups > 1 ? ngettext ("%u free scrap, mixed", "all %u free scraps, mixed", n_free)
                                                    : ngettext ("%u free scrap", "all %u free scraps", n_free), n_free), NULL);
  if (shown != NULL && shown->len > 0 && shown->len < n_free)
    add_source (sources, names, g_strdup_printf (ngettext ("the %u shown in the tray", "the %u shown in the tray", shown->len), shown->len),
                g_array_ref (shown));
  return sources;
}

GArray *
odd_scrap_sources_get (GPtrArray *sources,
                       guint      row)
{
  return row < sources->len ? sources->pdata[row] : NULL;
}

guint
odd_scrap_sources_find (GPtrArray   *sources,
                        const OddId *scrap_ids,
                        guint        n_scrap_ids)
{
  for (guint i = 0; i < sources->len; i++)
    {
      const GArray *ids = sources->pdata[i];

      if (scrap_ids == NULL || ids == NULL ? scrap_ids == NULL && ids == NULL
                                           : ids->len == n_scrap_ids && memcmp (ids->data, scrap_ids, n_scrap_ids * sizeof (OddId)) == 0)
        return i;
    }
  return 0;
}
