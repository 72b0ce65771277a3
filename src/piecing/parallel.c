#include "config.h"

#include "piecing/parallel.h"

typedef struct
{
  guint n;
  gint taken;                      /* atomic */
  OddItemFunc func;
  gpointer data;
  GCancellable *cancellable;
} Work;

static gpointer
work_cb (gpointer data)
{
  Work *work = data;

  while (!g_cancellable_is_cancelled (work->cancellable))
    {
      const guint item = (guint) g_atomic_int_add (&work->taken, 1);

      if (item >= work->n)
        break;
      work->func (item, work->data);
    }

  return NULL;
}

gboolean
odd_for_each_item (guint          n,
                   guint          n_threads,
                   OddItemFunc    func,
                   gpointer       data,
                   GCancellable  *cancellable,
                   GError       **error)
{
  Work work = { n, 0, func, data, cancellable };
  const guint n_wanted = MIN (n_threads > 0 ? n_threads : g_get_num_processors (), n);
  g_autofree GThread **threads = g_new0 (GThread *, MAX (n_wanted, 1));

  /* where the system gives no more threads, this one does the rest */
  for (guint i = 1; i < n_wanted; i++)
    threads[i] = g_thread_try_new ("piecing", work_cb, &work, NULL);
  work_cb (&work);
  for (guint i = 1; i < n_wanted; i++)
    if (threads[i] != NULL)
      g_thread_join (threads[i]);

  return !g_cancellable_set_error_if_cancelled (cancellable, error);
}
