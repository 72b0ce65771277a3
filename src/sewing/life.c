#include "config.h"

#include "sewing/life.h"

#include <glib/gi18n.h>

#include "sewing/act.h"

#define DEEPEST_DESCENT 64         /* parents of parents: a file may hold a circle of them */

static void
step_free (gpointer data)
{
  OddLifeStep *step = data;

  g_free (step->text);
  g_clear_pointer (&step->act, odd_act_unref);
  g_free (step);
}

/* Takes @text. */
static OddLifeStep *
add (GPtrArray   *life,
     OddLifeKind  kind,
     char        *text)
{
  OddLifeStep *step = g_new0 (OddLifeStep, 1);

  step->kind = kind;
  step->text = text;
  g_ptr_array_add (life, step);
  return step;
}

static void
add_origin (GPtrArray *life,
            OddJob    *job,
            OddScrap  *scrap,
            guint      depth)
{
  OddScrap *parent = scrap->parent_id != 0 ? odd_job_get_scrap (job, scrap->parent_id) : NULL;
  OddLifeStep *step;

  if (parent != NULL && depth < DEEPEST_DESCENT)
    {
      add_origin (life, job, parent, depth + 1);
      step = add (life, ODD_LIFE_ORIGIN, g_strdup_printf (_("Scrap %u was cut from scrap %u"), scrap->number, parent->number));
      step->scrap_id = parent->id;
      return;
    }
  if (scrap->place != NULL)
    step = add (life, ODD_LIFE_ORIGIN, g_strdup_printf (_("Scrap %u came from the tub, kept in %s"), scrap->number, scrap->place));
  else
    step = add (life, ODD_LIFE_ORIGIN, g_strdup_printf (_("Scrap %u came from the tub"), scrap->number));
  step->scrap_id = scrap->id;
}

/* Ids of all that the scrap has a part in: itself, its patches, the seams on their edges, their panels. */
static GHashTable *
collect_ids (OddJob   *job,
             OddScrap *scrap)
{
  GHashTable *ids = g_hash_table_new (NULL, NULL);
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  g_hash_table_add (ids, GUINT_TO_POINTER (scrap->id));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr(OddLayout) layout = odd_job_dup_layout (job, uses[i].panel->id);
      const OddPatch *patch = odd_layout_find_patch (layout, uses[i].leaf->id);

      g_hash_table_add (ids, GUINT_TO_POINTER (uses[i].leaf->id));
      for (guint e = 0; patch != NULL && e < patch->region->n; e++)
        {
          const int label = patch->region->labels[e];
          const OddId id = label >= 0 ? layout->seams[label].seam->id : layout->edges[-1 - label].join_id;

          g_hash_table_add (ids, GUINT_TO_POINTER (id));
        }
    }
  g_hash_table_remove (ids, GUINT_TO_POINTER (0));
  return ids;
}

static gboolean
holds (GHashTable *ids,
       OddId       id)
{
  return g_hash_table_contains (ids, GUINT_TO_POINTER (id));
}

/* What was done to a whole panel is about the scrap when it lies in that panel. */
static gboolean
lies_in (OddJob   *job,
         OddScrap *scrap,
         OddId     panel_id)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    if (uses[i].panel->id == panel_id)
      return TRUE;
  return FALSE;
}

static gboolean
is_about (OddJob       *job,
          OddScrap     *scrap,
          GHashTable   *ids,
          const OddAct *act)
{
  gboolean about = holds (ids, act->seam_id) || holds (ids, act->node_id) || holds (ids, act->scrap_id);

  for (guint i = 0; i < act->n_ids; i++)
    about |= holds (ids, act->ids[i]);
  return about || (act->seam_id == 0 && act->node_id == 0 && act->panel_id != 0 && lies_in (job, scrap, act->panel_id));
}

static void
add_acts (GPtrArray *life,
          OddJob    *job,
          OddScrap  *scrap,
          OddUnit    unit)
{
  g_autoptr(GHashTable) ids = collect_ids (job, scrap);

  for (guint i = 0; i < job->record->len; i++)
    {
      OddAct *act = job->record->pdata[i];

      if (is_about (job, scrap, ids, act))
        add (life, ODD_LIFE_ACT, odd_act_dup_text (act, unit))->act = odd_act_ref (act);
    }
}

static void
add_use (GPtrArray    *life,
         OddJob       *job,
         const OddUse *use)
{
  OddTextile *textile = NULL;
  g_autofree char *panel = odd_job_dup_panel_name (job, use->panel);
  g_autofree char *cloth = NULL;
  g_autoptr(OddLayout) layout = odd_job_dup_layout (job, use->panel->id);
  const OddPatch *patch = odd_layout_find_patch (layout, use->leaf->id);
  OddLifeStep *step;

  if (patch == NULL)
    return;
  step = add (life, ODD_LIFE_PLACE, g_strdup_printf (_("It is patch %u of %s"), patch->number, panel));
  step->node_id = use->leaf->id;
  step->panel_id = use->panel->id;
  odd_job_get_panel (job, use->panel->id, &textile, NULL);
  if (textile == NULL)
    return;
  cloth = odd_job_dup_textile_name (job, textile);
  step = add (life, ODD_LIFE_PLACE, g_strdup_printf (_("%s hangs in %s"), panel, cloth));
  step->textile_id = textile->id;
  step->panel_id = use->panel->id;
}

static void
add_places (GPtrArray *life,
            OddJob    *job,
            OddScrap  *scrap)
{
  guint n = 0;
  const OddUse *uses = odd_job_get_uses (job, scrap->id, &n);

  for (guint i = 0; i < n; i++)
    add_use (life, job, &uses[i]);
  for (guint i = 0; i < job->scraps->len; i++)
    {
      OddScrap *child = job->scraps->pdata[i];

      if (child->parent_id == scrap->id)
        add (life, ODD_LIFE_PLACE, g_strdup_printf (_("Scrap %u was cut from it"), child->number))->scrap_id = child->id;
    }
  if (scrap->gone)
    add (life, ODD_LIFE_PLACE, g_strdup (_("It is gone")));
}

GPtrArray *
odd_job_dup_scrap_life (OddJob  *job,
                        OddId    scrap_id,
                        OddUnit  unit)
{
  GPtrArray *life = g_ptr_array_new_with_free_func (step_free);
  OddScrap *scrap;

  g_return_val_if_fail (job != NULL, life);

  scrap = odd_job_get_scrap (job, scrap_id);
  if (scrap == NULL)
    return life;
  add_origin (life, job, scrap, 0);
  add_acts (life, job, scrap, unit);
  add_places (life, job, scrap);
  return life;
}
