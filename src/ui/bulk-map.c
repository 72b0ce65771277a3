#include "config.h"

#include "ui/bulk-map.h"

struct _OddBulkMap
{
  GtkWidget *widget;
  OddJob *job;                /* last asked about, or NULL */
  GArray *crossings;          /* OddCrossing, or NULL */
  GArray *pressings;          /* OddPressing, with them */
  GCancellable *cancellable;  /* of what runs, or NULL */
};

typedef struct { GArray *crossings, *pressings; } Counted;

static void
counted_free (Counted *counted)
{
  g_clear_pointer (&counted->crossings, g_array_unref);
  g_clear_pointer (&counted->pressings, g_array_unref);
  g_free (counted);
}

OddBulkMap *
odd_bulk_map_new (GtkWidget *widget)
{
  OddBulkMap *self = g_new0 (OddBulkMap, 1);

  self->widget = widget;
  return self;
}

static void
stop (OddBulkMap *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

void
odd_bulk_map_free (OddBulkMap *self)
{
  stop (self);
  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->crossings, g_array_unref);
  g_clear_pointer (&self->pressings, g_array_unref);
  g_free (self);
}

static void
count_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  Counted *counted = g_new0 (Counted, 1);

  counted->crossings = odd_job_dup_crossings (data, 0);
  counted->pressings = odd_job_dup_pressings (data, 0);
  g_task_return_pointer (task, counted, (GDestroyNotify) counted_free);
}

/* A map that is gone, or that asked again, has called its task off: then @data is not looked at. */
static void
counted_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  OddBulkMap *self = data;
  Counted *counted = g_task_propagate_pointer (G_TASK (result), NULL);

  if (counted == NULL)
    return;
  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->crossings, g_array_unref);
  g_clear_pointer (&self->pressings, g_array_unref);
  self->crossings = g_steal_pointer (&counted->crossings);
  self->pressings = g_steal_pointer (&counted->pressings);
  counted_free (counted);
  gtk_widget_queue_draw (self->widget);
}

const GArray *
odd_bulk_map_get (OddBulkMap *self,
                  OddJob     *job)
{
  g_autoptr(GTask) task = NULL;

  g_return_val_if_fail (self != NULL && job != NULL, NULL);

  if (self->job == job)
    return self->crossings;
  stop (self);
  g_clear_pointer (&self->job, odd_job_unref);
  self->job = odd_job_ref (job);
  self->cancellable = g_cancellable_new ();
  task = g_task_new (NULL, self->cancellable, counted_cb, self);
  g_task_set_task_data (task, odd_job_ref (job), (GDestroyNotify) odd_job_unref);
  g_task_run_in_thread (task, count_in_thread);
  return self->crossings;
}

const GArray *
odd_bulk_map_get_pressings (OddBulkMap *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->pressings;
}
