#include "config.h"

#include "sewing/own-time.h"
#include "sewing/panel-work.h"

static gboolean
holds (GHashTable *ids,
       OddId       id)
{
  return g_hash_table_contains (ids, GUINT_TO_POINTER (id));
}

/* The panels and the joins at their sides. */
static GHashTable *
collect_ids (OddJob      *job,
             const OddId *panels,
             guint        n_panels)
{
  GHashTable *ids = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < n_panels; i++)
    g_hash_table_add (ids, GUINT_TO_POINTER (panels[i]));
  for (guint t = 0; t < job->textiles->len; t++)
    {
      const OddTextile *textile = job->textiles->pdata[t];

      for (guint i = 0; i + 1 < textile->n_hung; i++)
        if (holds (ids, textile->hung[i].panel->id) || holds (ids, textile->hung[i + 1].panel->id))
          g_hash_table_add (ids, GUINT_TO_POINTER (textile->joins[i].id));
    }
  return ids;
}

OddPanelWork
odd_job_measure_panel_work (OddJob      *job,
                            const OddId *panels,
                            guint        n_panels)
{
  g_autoptr(OddPlan) plan = odd_plan_new (job, 0, ODD_MANNER_CHAIN, NULL, 0, NULL);
  g_autoptr(GHashTable) ids = collect_ids (job, panels, n_panels);
  g_autofree guint *tasks = g_new (guint, plan->n_tasks + 1);
  OddPanelWork work = { 0 };
  guint n = 0;

  for (guint i = 0; i < plan->n_tasks; i++)
    {
      const OddTask *task = &plan->tasks[i];

      if (task->panel_id != 0 ? holds (ids, task->panel_id) : holds (ids, task->key.id))
        tasks[n++] = i;
      if (task->panel_id != 0 && holds (ids, task->panel_id))
        work.n_rounds = MAX (work.n_rounds, task->round);
    }
  work.time_s = odd_job_tasks_time (job, plan, tasks, n);
  return work;
}
