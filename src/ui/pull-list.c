#include "config.h"

#include "ui/pull-list.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "cloth/layout.h"

static int
by_place (gconstpointer a,
          gconstpointer b)
{
  const OddScrap *first = *(OddScrap *const *) a, *second = *(OddScrap *const *) b;
  const int order = g_utf8_collate (first->place != NULL ? first->place : "", second->place != NULL ? second->place : "");

  return order != 0 ? order : (first->number > second->number) - (first->number < second->number);
}

static void
add_scraps (GPtrArray *scraps,
            OddJob    *job,
            OddNode   *node)
{
  OddScrap *scrap;

  for (guint i = 0; i < node->n_parts; i++)
    add_scraps (scraps, job, node->parts[i]);
  if (node->kind != ODD_NODE_LEAF || node->scrap_id == 0 || node->cut == ODD_STATE_DONE)
    return;
  scrap = odd_job_get_scrap (job, node->scrap_id);
  if (scrap != NULL && !g_ptr_array_find (scraps, scrap, NULL))
    g_ptr_array_add (scraps, scrap);
}

/* (transfer full) (element-type OddScrap) lent by the job, by place and number. */
static GPtrArray *
scraps_to_fetch (OddJob *job,
                 OddId   textile_id)
{
  GPtrArray *scraps = g_ptr_array_new ();
  OddTextile *textile = odd_job_get_textile (job, textile_id);

  for (guint i = 0; textile != NULL && i < textile->n_hung; i++)
    add_scraps (scraps, job, textile->hung[i].panel->root);
  for (guint i = 0; i < job->loose_panels->len; i++)
    add_scraps (scraps, job, ((OddPanel *) job->loose_panels->pdata[i])->root);
  g_ptr_array_sort (scraps, by_place);
  return scraps;
}

static void
add_rows (AdwPreferencesPage *page,
          OddJob             *job,
          GPtrArray          *scraps)
{
  AdwPreferencesGroup *group = NULL;
  const char *place = NULL;

  for (guint i = 0; i < scraps->len; i++)
    {
      OddScrap *scrap = scraps->pdata[i];
      OddFabric *fabric = odd_job_get_scrap_fabric (job, scrap);
      GtkWidget *row = adw_action_row_new ();
      g_autofree char *title = g_strdup_printf (_("Scrap %u"), scrap->number);

      if (group == NULL || g_strcmp0 (place, scrap->place) != 0)
        {
          g_autofree char *markup = g_markup_escape_text (scrap->place != NULL ? scrap->place : _("No place is noted"), -1);

          place = scrap->place;
          group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
          adw_preferences_group_set_title (group, markup);
          adw_preferences_page_add (page, group);
        }
      adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
      if (fabric != NULL)
        adw_action_row_set_subtitle (ADW_ACTION_ROW (row), fabric->name);
      adw_preferences_group_add (group, row);
    }
}

void
odd_pull_list_present (GtkWidget   *from,
                       OddDocument *document,
                       OddId        textile_id)
{
  GtkRoot *root = gtk_widget_get_root (from);
  OddJob *job = odd_document_get_job (document);
  g_autoptr(GPtrArray) scraps = scraps_to_fetch (job, textile_id);
  GtkWidget *window = g_object_new (ADW_TYPE_PREFERENCES_WINDOW, "transient-for", root, "modal", TRUE, "search-enabled", FALSE,
                                    "default-width", 400, "default-height", 560, "title", _("Scraps to fetch"), NULL);
  AdwPreferencesPage *page = ADW_PREFERENCES_PAGE (adw_preferences_page_new ());

  if (scraps->len == 0)
    {
      AdwPreferencesGroup *group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());

      adw_preferences_group_set_description (group, _("Every patch is cut out. There is nothing to fetch."));
      adw_preferences_page_add (page, group);
    }
  add_rows (page, job, scraps);
  adw_preferences_window_add (ADW_PREFERENCES_WINDOW (window), page);
  gtk_window_present (GTK_WINDOW (window));
}
