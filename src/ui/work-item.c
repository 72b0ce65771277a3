#include "config.h"

#include "ui/work-item.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (OddWorkItem, odd_work_item, G_TYPE_OBJECT)

static void
odd_work_item_finalize (GObject *object)
{
  OddWorkItem *self = ODD_WORK_ITEM (object);

  odd_job_unref (self->job);
  odd_plan_unref (self->plan);
  G_OBJECT_CLASS (odd_work_item_parent_class)->finalize (object);
}

static void
odd_work_item_class_init (OddWorkItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_work_item_finalize;
}

static void
odd_work_item_init (OddWorkItem *self)
{
}

OddWorkItem *
odd_work_item_new (OddJob   *job,
                   OddPlan  *plan,
                   guint     task,
                   guint     number,
                   gboolean  done)
{
  OddWorkItem *self = g_object_new (ODD_TYPE_WORK_ITEM, NULL);

  self->job = odd_job_ref (job);
  self->plan = odd_plan_ref (plan);
  self->task = task;
  self->number = number;
  self->done = done;
  return self;
}

const OddTaskKey *
odd_work_item_get_key (OddWorkItem *self)
{
  g_return_val_if_fail (ODD_IS_WORK_ITEM (self), NULL);

  return &self->plan->tasks[self->task].key;
}

char *
odd_work_item_dup_title (OddWorkItem *self)
{
  const OddTask *task = &self->plan->tasks[self->task];
  g_autofree char *name = odd_plan_dup_name (self->plan, self->task);

  if (task->key.kind == ODD_TASK_CUT)
    return g_strdup_printf (_("Patch %s"), name);
  if (task->panel_id == 0)
    return g_steal_pointer (&name);
  /* translators: "Patches 3–5 to 6" */
  return g_strdup_printf (_("Patches %s"), name);
}

char *
odd_work_item_dup_place (OddWorkItem *self,
                         OddUnit      unit)
{
  const OddTask *task = &self->plan->tasks[self->task];
  OddPanel *panel = task->panel_id != 0 ? odd_job_get_panel (self->job, task->panel_id, NULL, NULL) : NULL;
  OddTextile *textile = task->textile_id != 0 ? odd_job_get_textile (self->job, task->textile_id) : NULL;
  g_autofree char *name = panel != NULL ? odd_job_dup_panel_name (self->job, panel)
                                        : textile != NULL ? odd_job_dup_textile_name (self->job, textile) : g_strdup ("");
  g_autofree char *length = NULL;
  OddTaskFacts facts;

  odd_plan_get_facts (self->plan, self->task, &facts);
  if (task->key.kind == ODD_TASK_CUT && facts.patch != NULL)
    {
      if (facts.patch->scrap == NULL)
        return g_steal_pointer (&name);
      /* translators: panel, number of the scrap */
      return g_strdup_printf (_("%s, from scrap %u"), name, facts.patch->scrap->number);
    }
  length = odd_length_format (facts.length_mm, unit);
  /* translators: panel, length */
  return g_strdup_printf (_("%s, %s"), name, length);
}
