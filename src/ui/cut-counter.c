#include "config.h"

#include "ui/cut-counter.h"

#include <glib/gi18n.h>
#include <math.h>

struct _OddCutCounter
{
  GObject parent_instance;
  OddDocument *document;           /* weak: it owns us */
  OddTemplate places[ODD_MAX_TEMPLATES];
  double allowance_mm;
  gboolean drawn;
  char *complaint;
  OddGives *gives;
  guint n_watching;
  gboolean wants_yield;
  gboolean stale;                  /* what was counted last is of another job or of other sizes */
  guint ask_id;                    /* once an entry has settled: a text that is replaced is empty for a moment */
  GCancellable *cancellable;       /* of what runs, or NULL */
};

G_DEFINE_FINAL_TYPE (OddCutCounter, odd_cut_counter, G_TYPE_OBJECT)

enum { PROP_0, PROP_DRAWN, N_PROPS };
static GParamSpec *props[N_PROPS];
enum { SIZES_CHANGED, COUNTED, N_SIGNALS };
static guint signals[N_SIGNALS];

/* --- the worker --- */

typedef struct
{
  OddJob *job;
  OddCutSizes sizes;
  OddGivesWhat what;
} Question;

static void
question_free (Question *question)
{
  odd_job_unref (question->job);
  g_free (question);
}

static void
count_in_thread (GTask        *task,
                 gpointer      source,
                 gpointer      data,
                 GCancellable *cancellable)
{
  const Question *question = data;
  GError *error = NULL;
  OddGives *gives = odd_gives_new (question->job, &question->sizes, question->what, cancellable, &error);

  if (gives != NULL)
    g_task_return_pointer (task, gives, (GDestroyNotify) odd_gives_unref);
  else
    g_task_return_error (task, error);
}

/* Takes both. */
static void
tell (OddCutCounter *self,
      OddGives      *gives,
      char          *complaint)
{
  g_clear_pointer (&self->gives, odd_gives_unref);
  g_free (self->complaint);
  self->gives = gives;
  self->complaint = complaint;
  g_signal_emit (self, signals[COUNTED], 0);
}

static void
call_off (OddCutCounter *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static void counted_cb (GObject *source, GAsyncResult *result, gpointer data);

static void
run (OddCutCounter *self,
     OddGivesWhat   what)
{
  g_autoptr(GTask) task = NULL;
  Question *question = g_new0 (Question, 1);

  question->job = odd_job_ref (odd_document_get_job (self->document));
  question->sizes = odd_cut_counter_get_sizes (self);
  question->what = what;
  self->cancellable = g_cancellable_new ();
  task = g_task_new (self, self->cancellable, counted_cb, NULL);
  g_task_set_task_data (task, question, (GDestroyNotify) question_free);
  g_task_run_in_thread (task, count_in_thread);
}

/* The yield is six times the work: what she asks first is answered first. */
static void
go_on (OddCutCounter *self)
{
  if (self->wants_yield && self->cancellable == NULL && !self->stale && self->document != NULL && self->gives != NULL
      && !(self->gives->what & ODD_GIVES_YIELD))
    run (self, ODD_GIVES_REMAINS | ODD_GIVES_YIELD);
}

static void
counted_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  OddCutCounter *self = ODD_CUT_COUNTER (source);
  g_autoptr(GError) error = NULL;
  g_autoptr(OddGives) gives = g_task_propagate_pointer (G_TASK (result), &error);

  if (self->cancellable == NULL || self->cancellable != g_task_get_cancellable (G_TASK (result)))
    return;
  g_clear_object (&self->cancellable);
  tell (self, g_steal_pointer (&gives), error != NULL ? g_strdup (error->message) : NULL);
  go_on (self);
}

static gboolean
ask_cb (gpointer data)
{
  OddCutCounter *self = data;

  self->ask_id = 0;
  if (self->n_watching == 0 || self->document == NULL)
    return G_SOURCE_REMOVE;
  self->stale = FALSE;
  call_off (self);
  if (odd_cut_counter_get_sizes (self).n_templates == 0)
    tell (self, NULL, g_strdup (_("Type the size that you cut.")));
  else if (isnan (self->allowance_mm))
    tell (self, NULL, g_strdup (_("Type the allowance of the seams.")));
  else
    run (self, ODD_GIVES_REMAINS);
  return G_SOURCE_REMOVE;
}

static void
ask (OddCutCounter *self)
{
  self->stale = TRUE;
  if (self->n_watching > 0 && self->ask_id == 0)
    self->ask_id = g_idle_add_full (G_PRIORITY_HIGH_IDLE, ask_cb, self, NULL);
}

/* What was being typed and is no length goes on being complained of until a size is set. */
static void
document_changed_cb (OddCutCounter *self)
{
  if (self->gives != NULL || self->complaint == NULL)
    ask (self);
}

void
odd_cut_counter_watch (OddCutCounter *self)
{
  g_return_if_fail (ODD_IS_CUT_COUNTER (self));

  if (self->n_watching++ == 0 && self->stale)
    ask (self);
}

void
odd_cut_counter_unwatch (OddCutCounter *self)
{
  g_return_if_fail (ODD_IS_CUT_COUNTER (self) && self->n_watching > 0);

  self->n_watching--;
}

void
odd_cut_counter_want_yield (OddCutCounter *self,
                            gboolean       wanted)
{
  g_return_if_fail (ODD_IS_CUT_COUNTER (self));

  self->wants_yield = wanted;
  go_on (self);
}

/* --- the sizes --- */

static gboolean
same_length (double a,
             double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static void
sizes_changed (OddCutCounter *self)
{
  ask (self);
  g_signal_emit (self, signals[SIZES_CHANGED], 0);
}

OddTemplate
odd_cut_counter_get_template (OddCutCounter *self,
                              guint          place)
{
  g_return_val_if_fail (ODD_IS_CUT_COUNTER (self) && place < ODD_MAX_TEMPLATES, ((OddTemplate) { NAN, NAN }));

  return self->places[place];
}

void
odd_cut_counter_set_template (OddCutCounter *self,
                              guint          place,
                              OddTemplate    size)
{
  g_return_if_fail (ODD_IS_CUT_COUNTER (self) && place < ODD_MAX_TEMPLATES);

  if (isnan (size.length_mm))
    size.length_mm = size.width_mm;
  if (self->complaint == NULL && same_length (size.width_mm, self->places[place].width_mm) && same_length (size.length_mm, self->places[place].length_mm))
    return;
  self->places[place] = size;
  sizes_changed (self);
}

double
odd_cut_counter_get_allowance (OddCutCounter *self)
{
  g_return_val_if_fail (ODD_IS_CUT_COUNTER (self), NAN);

  return self->allowance_mm;
}

void
odd_cut_counter_set_allowance (OddCutCounter *self,
                               double         mm)
{
  g_return_if_fail (ODD_IS_CUT_COUNTER (self));

  if (self->complaint == NULL && same_length (mm, self->allowance_mm))
    return;
  self->allowance_mm = mm;
  sizes_changed (self);
}

void
odd_cut_counter_complain (OddCutCounter *self,
                          const char    *complaint)
{
  g_return_if_fail (ODD_IS_CUT_COUNTER (self) && complaint != NULL);

  call_off (self);
  g_clear_handle_id (&self->ask_id, g_source_remove);
  tell (self, NULL, g_strdup (complaint));
}

OddCutSizes
odd_cut_counter_get_sizes (OddCutCounter *self)
{
  OddCutSizes sizes = { .allowance_mm = NAN };

  g_return_val_if_fail (ODD_IS_CUT_COUNTER (self), sizes);

  sizes.allowance_mm = self->allowance_mm;
  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    if (!isnan (self->places[i].width_mm))
      sizes.templates[sizes.n_templates++] = self->places[i];
  return sizes;
}

void
odd_cut_counter_set_sizes (OddCutCounter     *self,
                           const OddCutSizes *sizes)
{
  OddCutSizes before;

  g_return_if_fail (ODD_IS_CUT_COUNTER (self) && sizes != NULL);

  before = odd_cut_counter_get_sizes (self);
  if (odd_cut_sizes_equal (&before, sizes))
    return;
  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    self->places[i] = i < sizes->n_templates ? sizes->templates[i] : (OddTemplate) { NAN, NAN };
  self->allowance_mm = sizes->allowance_mm;
  sizes_changed (self);
}

OddGives *
odd_cut_counter_get_gives (OddCutCounter *self)
{
  g_return_val_if_fail (ODD_IS_CUT_COUNTER (self), NULL);

  return self->gives;
}

const char *
odd_cut_counter_get_complaint (OddCutCounter *self)
{
  g_return_val_if_fail (ODD_IS_CUT_COUNTER (self), NULL);

  return self->complaint;
}

/* --- life --- */

static void
odd_cut_counter_finalize (GObject *object)
{
  OddCutCounter *self = ODD_CUT_COUNTER (object);

  call_off (self);
  g_clear_handle_id (&self->ask_id, g_source_remove);
  g_clear_weak_pointer (&self->document);
  g_clear_pointer (&self->gives, odd_gives_unref);
  g_free (self->complaint);
  G_OBJECT_CLASS (odd_cut_counter_parent_class)->finalize (object);
}

static void
odd_cut_counter_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  if (prop_id == PROP_DRAWN)
    g_value_set_boolean (value, ODD_CUT_COUNTER (object)->drawn);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_cut_counter_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  if (prop_id == PROP_DRAWN)
    ODD_CUT_COUNTER (object)->drawn = g_value_get_boolean (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
odd_cut_counter_class_init (OddCutCounterClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = odd_cut_counter_finalize;
  object_class->get_property = odd_cut_counter_get_property;
  object_class->set_property = odd_cut_counter_set_property;
  props[PROP_DRAWN] = g_param_spec_boolean ("drawn", NULL, NULL, TRUE, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[SIZES_CHANGED] = g_signal_new ("sizes-changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[COUNTED] = g_signal_new ("counted", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
odd_cut_counter_init (OddCutCounter *self)
{
  self->drawn = TRUE;
  self->stale = TRUE;
}

OddCutCounter *
odd_cut_counter_get (OddDocument *document)
{
  static const char KEY[] = "odd-cut-counter";
  OddCutCounter *self;
  OddCutSizes sizes;

  g_return_val_if_fail (ODD_IS_DOCUMENT (document), NULL);

  self = g_object_get_data (G_OBJECT (document), KEY);
  if (self != NULL)
    return self;
  self = g_object_new (ODD_TYPE_CUT_COUNTER, NULL);
  g_set_weak_pointer (&self->document, document);
  odd_cut_sizes_init (&sizes, odd_document_get_job (document));
  for (guint i = 0; i < ODD_MAX_TEMPLATES; i++)
    self->places[i] = i < sizes.n_templates ? sizes.templates[i] : (OddTemplate) { NAN, NAN };
  self->allowance_mm = sizes.allowance_mm;
  g_signal_connect_object (document, "changed", G_CALLBACK (document_changed_cb), self, G_CONNECT_SWAPPED);
  g_object_set_data_full (G_OBJECT (document), KEY, self, g_object_unref);
  return self;
}
