#include "config.h"

#include "ui/planner.h"

struct _OddPlanner
{
  GObject parent_instance;
  OddDocument *document;
  gulong changed_id;
  OddId textile_id;
  OddManner manner;
  gboolean active;
  GArray *pins;              /* OddTaskKey: hers */
  gboolean stays;            /* the stop she is at is gone on with */
  OddPlan *plan;
  OddJob *job;
  guint n_passed;
  GCancellable *cancellable; /* of the plan being made */
};

G_DEFINE_FINAL_TYPE (OddPlanner, odd_planner, G_TYPE_OBJECT)

enum { PROP_0, PROP_DOCUMENT, PROP_TEXTILE_ID, PROP_MANNER, PROP_ACTIVE, N_PROPS };
enum { PLANNED, N_SIGNALS };
static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

typedef struct
{
  OddJob *job;
  OddId textile_id;
  OddManner manner;
  GArray *pins;
  OddPlan *previous;
  OddPlan *plan;
  guint n_passed;
} Work;

static void
work_free (Work *work)
{
  odd_job_unref (work->job);
  g_array_unref (work->pins);
  g_clear_pointer (&work->previous, odd_plan_unref);
  g_clear_pointer (&work->plan, odd_plan_unref);
  g_free (work);
}

static guint
count_passed (const OddPlan *plan)
{
  guint n = 0;

  for (guint s = 0; s < plan->n_stops; s++)
    {
      const OddStop *stop = &plan->stops[s];
      gboolean open = stop->number == 0;

      for (guint i = 0; i < stop->n && !open; i++)
        open = plan->tasks[stop->first + i].state == ODD_STATE_OPEN;
      n += !open;
    }
  return n;
}

static void
plan_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Work *work = data;
  const OddTaskKey *pins = (const OddTaskKey *) (gpointer) work->pins->data;
  g_autoptr(OddPlan) whole = NULL;

  work->plan = odd_plan_new (work->job, work->textile_id, work->manner, pins, work->pins->len, work->previous);
  if (g_task_return_error_if_cancelled (task))
    return;
  whole = odd_plan_new_from_start (work->job, work->textile_id, work->manner, NULL, 0);
  work->n_passed = count_passed (whole);
  g_task_return_boolean (task, TRUE);
}

static void
planned_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  OddPlanner *self = ODD_PLANNER (source);
  Work *work = g_task_get_task_data (G_TASK (result));

  if (!g_task_propagate_boolean (G_TASK (result), NULL))
    return;
  g_clear_pointer (&self->plan, odd_plan_unref);
  self->plan = g_steal_pointer (&work->plan);
  g_clear_pointer (&self->job, odd_job_unref);
  self->job = odd_job_ref (work->job);
  self->n_passed = work->n_passed;
  self->stays = TRUE;
  g_signal_emit (self, signals[PLANNED], 0);
}

/* After a tick the best plan from there may begin elsewhere; but nobody walks off from a stop with half of it done. So what she was shown
 * as her stop comes first, after what she pinned. */
static GArray *
all_pins (OddPlanner *self)
{
  GArray *pins = g_array_new (FALSE, FALSE, sizeof (OddTaskKey));

  g_array_append_vals (pins, self->pins->data, self->pins->len);
  if (self->plan != NULL && self->stays && self->plan->n_stops > 0)
    for (guint i = 0; i < self->plan->stops[0].n; i++)
      g_array_append_val (pins, self->plan->tasks[self->plan->stops[0].first + i].key);
  return pins;
}

static void
ask (OddPlanner *self)
{
  g_autoptr(GTask) task = NULL;
  Work *work;

  if (!self->active || self->document == NULL)
    return;
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  work = g_new0 (Work, 1);
  work->job = odd_job_ref (odd_document_get_job (self->document));
  work->textile_id = self->textile_id;
  work->manner = self->manner;
  work->pins = all_pins (self);
  work->previous = self->plan != NULL ? odd_plan_ref (self->plan) : NULL;
  task = g_task_new (self, self->cancellable, planned_cb, NULL);
  g_task_set_check_cancellable (task, TRUE);
  g_task_set_task_data (task, work, (GDestroyNotify) work_free);
  g_task_run_in_thread (task, plan_in_thread);
}

static void
set_document (OddPlanner  *self,
              OddDocument *document)
{
  if (self->document == document)
    return;
  if (self->document != NULL)
    g_signal_handler_disconnect (self->document, self->changed_id);
  g_set_object (&self->document, document);
  if (document != NULL)
    self->changed_id = g_signal_connect_swapped (document, "changed", G_CALLBACK (ask), self);
  ask (self);
}

static void
odd_planner_dispose (GObject *object)
{
  OddPlanner *self = ODD_PLANNER (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  set_document (self, NULL);
  G_OBJECT_CLASS (odd_planner_parent_class)->dispose (object);
}

static void
odd_planner_finalize (GObject *object)
{
  OddPlanner *self = ODD_PLANNER (object);

  g_array_unref (self->pins);
  g_clear_pointer (&self->plan, odd_plan_unref);
  g_clear_pointer (&self->job, odd_job_unref);
  G_OBJECT_CLASS (odd_planner_parent_class)->finalize (object);
}

static void
odd_planner_get_property (GObject    *object,
                          guint       prop_id,
                          GValue     *value,
                          GParamSpec *pspec)
{
  OddPlanner *self = ODD_PLANNER (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT: g_value_set_object (value, self->document); break;
    case PROP_TEXTILE_ID: g_value_set_uint (value, self->textile_id); break;
    case PROP_MANNER: g_value_set_int (value, self->manner); break;
    case PROP_ACTIVE: g_value_set_boolean (value, self->active); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_planner_set_property (GObject      *object,
                          guint         prop_id,
                          const GValue *value,
                          GParamSpec   *pspec)
{
  OddPlanner *self = ODD_PLANNER (object);

  switch (prop_id)
    {
    case PROP_DOCUMENT:
      set_document (self, g_value_get_object (value));
      break;
    case PROP_TEXTILE_ID:
      self->textile_id = g_value_get_uint (value);
      self->stays = FALSE;
      ask (self);
      break;
    case PROP_MANNER:
      self->manner = g_value_get_int (value);
      self->stays = FALSE;
      ask (self);
      break;
    case PROP_ACTIVE:
      self->active = g_value_get_boolean (value);
      ask (self);
      break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
odd_planner_class_init (OddPlannerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = odd_planner_dispose;
  object_class->finalize = odd_planner_finalize;
  object_class->get_property = odd_planner_get_property;
  object_class->set_property = odd_planner_set_property;
  props[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, ODD_TYPE_DOCUMENT, flags);
  props[PROP_TEXTILE_ID] = g_param_spec_uint ("textile-id", NULL, NULL, 0, G_MAXUINT, 0, flags);
  props[PROP_MANNER] = g_param_spec_int ("manner", NULL, NULL, 0, ODD_N_MANNERS - 1, ODD_MANNER_CHAIN, flags);
  props[PROP_ACTIVE] = g_param_spec_boolean ("active", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[PLANNED] = g_signal_new ("planned", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_planner_init (OddPlanner *self)
{
  self->pins = g_array_new (FALSE, FALSE, sizeof (OddTaskKey));
}

OddPlanner *
odd_planner_new (void)
{
  return g_object_new (ODD_TYPE_PLANNER, NULL);
}

OddPlan *
odd_planner_get_plan (OddPlanner *self)
{
  g_return_val_if_fail (ODD_IS_PLANNER (self), NULL);

  return self->plan;
}

OddJob *
odd_planner_get_job (OddPlanner *self)
{
  g_return_val_if_fail (ODD_IS_PLANNER (self), NULL);

  return self->job;
}

guint
odd_planner_get_n_passed (OddPlanner *self)
{
  g_return_val_if_fail (ODD_IS_PLANNER (self), 0);

  return self->n_passed;
}

void
odd_planner_pin (OddPlanner       *self,
                 const OddTaskKey *key)
{
  g_return_if_fail (ODD_IS_PLANNER (self));

  self->stays = FALSE;
  if (key == NULL)
    g_array_set_size (self->pins, 0);
  else
    g_array_append_vals (self->pins, key, 1);
  ask (self);
}

GArray *
odd_planner_get_pins (OddPlanner *self)
{
  g_return_val_if_fail (ODD_IS_PLANNER (self), NULL);

  return self->pins;
}

gboolean
odd_planner_has_pins (OddPlanner *self)
{
  g_return_val_if_fail (ODD_IS_PLANNER (self), FALSE);

  return self->pins->len > 0;
}
