#include "config.h"

#include "ui/deed.h"

#include "ui/toast.h"

gint64
odd_now_s (void)
{
  return g_get_real_time () / G_USEC_PER_SEC;
}

OddJob *
odd_job_do_now (OddJob        *job,
                const OddAct  *act,
                GError       **error)
{
  OddAct now = *act;

  now.clock_s = odd_now_s ();
  return odd_job_do (job, &now, error);
}

gboolean
odd_do (GtkWidget    *from,
        OddDocument  *document,
        const OddAct *act,
        const char   *label)
{
  g_autoptr(GError) error = NULL;

  return odd_apply (from, document, odd_job_do_now (odd_document_get_job (document), act, &error), &error, label);
}

static gboolean
is_seam (OddJob *job,
         OddId   id)
{
  OddTextile *textile = NULL;
  OddPanel *panel = id != 0 ? odd_job_find_panel_of (job, id, &textile, NULL) : NULL;

  return panel != NULL ? odd_node_find_seam (panel->root, id, NULL) != NULL : textile != NULL;
}

static gboolean
is_leaf (OddJob *job,
         OddId   id)
{
  OddPanel *panel = id != 0 ? odd_job_find_panel_of (job, id, NULL, NULL) : NULL;
  OddNode *node = panel != NULL ? odd_node_find (panel->root, id) : NULL;

  return node != NULL && node->kind == ODD_NODE_LEAF;
}

gboolean
odd_act_find (const OddAct *act,
              OddJob       *job,
              OddSelected  *out_kind,
              OddId        *out_id)
{
  const struct { OddSelected kind; OddId id; gboolean there; } places[] = {
    { ODD_SELECTED_SEAM, act->seam_id, is_seam (job, act->seam_id) },
    { ODD_SELECTED_PATCH, act->node_id, is_leaf (job, act->node_id) },
    { ODD_SELECTED_SCRAP, act->scrap_id, odd_job_get_scrap (job, act->scrap_id) != NULL },
    { ODD_SELECTED_PANEL, act->panel_id, odd_job_get_panel (job, act->panel_id, NULL, NULL) != NULL },
    { ODD_SELECTED_TEXTILE, act->textile_id, odd_job_get_textile (job, act->textile_id) != NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    if (places[i].id != 0 && places[i].there)
      {
        *out_kind = places[i].kind;
        *out_id = places[i].id;
        return TRUE;
      }
  return FALSE;
}

static gboolean
is_same_day (GDateTime *a,
             GDateTime *b)
{
  return g_date_time_get_year (a) == g_date_time_get_year (b) && g_date_time_get_day_of_year (a) == g_date_time_get_day_of_year (b);
}

char *
odd_act_dup_time (const OddAct *act)
{
  g_autoptr(GDateTime) then = act->clock_s != 0 ? g_date_time_new_from_unix_local (act->clock_s) : NULL;
  g_autoptr(GDateTime) now = g_date_time_new_from_unix_local (odd_now_s ());

  if (then == NULL)
    return g_strdup ("");
  return g_date_time_format (then, is_same_day (then, now) ? "%H:%M" : "%e %b, %H:%M");
}
