#include "config.h"

#include "ui/scrap-life.h"

#include <adwaita.h>

#include "sewing/life.h"
#include "ui/deed.h"

#define ACT_KEY "odd-act"

/* Where it came from and where it is are looked up as acts are: by the ids they name. */
static OddAct *
dup_act (const OddLifeStep *step)
{
  const OddAct about = { .node_id = step->node_id, .scrap_id = step->node_id == 0 ? step->scrap_id : 0, .panel_id = step->textile_id == 0 ? step->panel_id : 0,
                         .textile_id = step->textile_id };

  return step->act != NULL ? odd_act_ref (step->act) : odd_act_new (&about);
}

static GtkWidget *
row_new (const OddLifeStep *step)
{
  GtkWidget *row = adw_action_row_new ();
  g_autofree char *title = g_markup_escape_text (step->text, -1);
  g_autofree char *time = step->act != NULL ? odd_act_dup_time (step->act) : g_strdup ("");
  const char *reason = step->act != NULL && step->act->reason != NULL ? step->act->reason : "";
  g_autofree char *below = g_strjoin (*time != '\0' && *reason != '\0' ? " · " : "", time, reason, NULL);
  g_autofree char *subtitle = g_markup_escape_text (below, -1);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 0);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  g_object_set_data_full (G_OBJECT (row), ACT_KEY, dup_act (step), (GDestroyNotify) odd_act_unref);
  return row;
}

void
odd_scrap_life_show (GtkListBox *list,
                     OddJob     *job,
                     OddId       scrap_id,
                     OddUnit     unit)
{
  g_autoptr(GPtrArray) life = odd_job_dup_scrap_life (job, scrap_id, unit);
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (list, 0)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
  for (guint i = 0; i < life->len; i++)
    gtk_list_box_append (list, row_new (life->pdata[i]));
}

gboolean
odd_scrap_life_find (GtkListBoxRow *row,
                     OddJob        *job,
                     OddSelected   *out_kind,
                     OddId         *out_id)
{
  const OddAct *act = g_object_get_data (G_OBJECT (row), ACT_KEY);

  return act != NULL && odd_act_find (act, job, out_kind, out_id);
}
