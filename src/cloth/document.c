#include "config.h"

#include "cloth/document.h"

#include <glib/gi18n.h>
#include <string.h>

typedef struct { OddJob *job; char *label; } Step;       /* the job as it was before the step named so */

struct _OddDocument
{
  GObject parent_instance;
  OddJob *job;
  OddJob *saved;              /* what the file holds, or what was started with */
  GFile *file;
  char *title;
  GArray *undo;               /* Step, oldest first */
  GArray *redo;
  char *merge_key;
};

enum { PROP_0, PROP_JOB, PROP_CAN_UNDO, PROP_CAN_REDO, PROP_UNDO_LABEL, PROP_REDO_LABEL, PROP_MODIFIED, PROP_FILE, PROP_TITLE, N_PROPS };
static GParamSpec *props[N_PROPS];
static guint changed_signal;

G_DEFINE_BOXED_TYPE (OddJob, odd_job, odd_job_ref, odd_job_unref)
G_DEFINE_FINAL_TYPE (OddDocument, odd_document, G_TYPE_OBJECT)

static void
step_clear (gpointer data)
{
  Step *step = data;

  odd_job_unref (step->job);
  g_free (step->label);
}

static const char *
last_label (GArray *steps)
{
  return steps->len > 0 ? g_array_index (steps, Step, steps->len - 1).label : NULL;
}

static void
odd_document_get_property (GObject    *object,
                           guint       id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  OddDocument *self = ODD_DOCUMENT (object);

  switch (id)
    {
    case PROP_JOB: g_value_set_boxed (value, self->job); break;
    case PROP_CAN_UNDO: g_value_set_boolean (value, self->undo->len > 0); break;
    case PROP_CAN_REDO: g_value_set_boolean (value, self->redo->len > 0); break;
    case PROP_UNDO_LABEL: g_value_set_string (value, last_label (self->undo)); break;
    case PROP_REDO_LABEL: g_value_set_string (value, last_label (self->redo)); break;
    case PROP_MODIFIED: g_value_set_boolean (value, odd_document_get_modified (self)); break;
    case PROP_FILE: g_value_set_object (value, self->file); break;
    case PROP_TITLE: g_value_set_string (value, odd_document_get_title (self)); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
odd_document_finalize (GObject *object)
{
  OddDocument *self = ODD_DOCUMENT (object);

  g_clear_pointer (&self->job, odd_job_unref);
  g_clear_pointer (&self->saved, odd_job_unref);
  g_clear_object (&self->file);
  g_clear_pointer (&self->title, g_free);
  g_clear_pointer (&self->undo, g_array_unref);
  g_clear_pointer (&self->redo, g_array_unref);
  g_clear_pointer (&self->merge_key, g_free);
  G_OBJECT_CLASS (odd_document_parent_class)->finalize (object);
}

static void
odd_document_class_init (OddDocumentClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = odd_document_get_property;
  object_class->finalize = odd_document_finalize;

  props[PROP_JOB] = g_param_spec_boxed ("job", NULL, NULL, ODD_TYPE_JOB, flags);
  props[PROP_CAN_UNDO] = g_param_spec_boolean ("can-undo", NULL, NULL, FALSE, flags);
  props[PROP_CAN_REDO] = g_param_spec_boolean ("can-redo", NULL, NULL, FALSE, flags);
  props[PROP_UNDO_LABEL] = g_param_spec_string ("undo-label", NULL, NULL, NULL, flags);
  props[PROP_REDO_LABEL] = g_param_spec_string ("redo-label", NULL, NULL, NULL, flags);
  props[PROP_MODIFIED] = g_param_spec_boolean ("modified", NULL, NULL, FALSE, flags);
  props[PROP_FILE] = g_param_spec_object ("file", NULL, NULL, G_TYPE_FILE, flags);
  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);

  /**
   * OddDocument::changed:
   * @before: the job that was
   * @after: the job that is now
   */
  changed_signal = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 2, ODD_TYPE_JOB, ODD_TYPE_JOB);
}

static GArray *
steps_new (void)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (Step));

  g_array_set_clear_func (steps, step_clear);
  return steps;
}

static void
odd_document_init (OddDocument *self)
{
  self->undo = steps_new ();
  self->redo = steps_new ();
}

OddDocument *
odd_document_new (OddJob *job)
{
  OddDocument *self = g_object_new (ODD_TYPE_DOCUMENT, NULL);

  self->job = job != NULL ? odd_job_ref (job) : odd_job_new ();
  self->saved = odd_job_ref (self->job);
  return self;
}

OddJob *
odd_document_get_job (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), NULL);

  return self->job;
}

static void
notify_all (OddDocument *self)
{
  for (guint i = PROP_JOB; i < N_PROPS; i++)
    g_object_notify_by_pspec (G_OBJECT (self), props[i]);
}

/* Steals @job. */
static void
switch_to (OddDocument *self,
           OddJob      *job)
{
  g_autoptr(OddJob) before = self->job;

  self->job = job;
  g_object_freeze_notify (G_OBJECT (self));
  g_signal_emit (self, changed_signal, 0, before, job);
  notify_all (self);
  g_object_thaw_notify (G_OBJECT (self));
}

static void
push (GArray     *steps,
      OddJob     *job,
      const char *label)
{
  const Step step = { odd_job_ref (job), g_strdup (label) };

  g_array_append_val (steps, step);
}

void
odd_document_apply (OddDocument *self,
                    OddJob      *job,
                    const char  *label)
{
  odd_document_apply_merging (self, job, label, NULL);
}

void
odd_document_apply_merging (OddDocument *self,
                            OddJob      *job,
                            const char  *label,
                            const char  *merge_key)
{
  g_return_if_fail (ODD_IS_DOCUMENT (self) && job != NULL && label != NULL);

  if (job == self->job)
    {
      odd_job_unref (job);
      return;
    }
  if (merge_key == NULL || g_strcmp0 (merge_key, self->merge_key) != 0 || self->undo->len == 0)
    push (self->undo, self->job, label);
  g_array_set_size (self->redo, 0);
  g_free (self->merge_key);
  self->merge_key = g_strdup (merge_key);
  switch_to (self, job);
}

void
odd_document_end_merging (OddDocument *self)
{
  g_return_if_fail (ODD_IS_DOCUMENT (self));

  g_clear_pointer (&self->merge_key, g_free);
}

static gboolean
step_over (OddDocument *self,
           GArray      *from,
           GArray      *to)
{
  Step *step;
  OddJob *job;

  g_clear_pointer (&self->merge_key, g_free);
  if (from->len == 0)
    return FALSE;
  step = &g_array_index (from, Step, from->len - 1);
  job = odd_job_ref (step->job);
  push (to, self->job, step->label);
  g_array_set_size (from, from->len - 1);
  switch_to (self, job);
  return TRUE;
}

gboolean
odd_document_undo (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), FALSE);

  return step_over (self, self->undo, self->redo);
}

gboolean
odd_document_redo (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), FALSE);

  return step_over (self, self->redo, self->undo);
}

static char *
title_of (GFile *file)
{
  g_autofree char *base = file != NULL ? g_file_get_basename (file) : NULL;
  char *dot;

  if (base == NULL)
    return NULL;
  dot = strrchr (base, '.');
  return g_utf8_make_valid (base, dot != NULL && dot != base ? dot - base : -1);
}

static void
set_saved (OddDocument *self,
           OddJob      *saved,
           GFile       *file)
{
  odd_job_ref (saved);
  g_clear_pointer (&self->saved, odd_job_unref);
  self->saved = saved;
  g_set_object (&self->file, file);
  g_free (self->title);
  self->title = title_of (file);
}

void
odd_document_reset (OddDocument *self,
                    OddJob      *job,
                    GFile       *file)
{
  g_return_if_fail (ODD_IS_DOCUMENT (self) && job != NULL);

  g_array_set_size (self->undo, 0);
  g_array_set_size (self->redo, 0);
  g_clear_pointer (&self->merge_key, g_free);
  set_saved (self, job, file);
  switch_to (self, odd_job_ref (job));
}

void
odd_document_mark_saved (OddDocument *self,
                         OddJob      *saved,
                         GFile       *file)
{
  g_return_if_fail (ODD_IS_DOCUMENT (self) && saved != NULL);

  set_saved (self, saved, file);
  notify_all (self);
}

gboolean
odd_document_get_modified (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), FALSE);

  return self->job != self->saved;
}

GFile *
odd_document_get_file (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), NULL);

  return self->file;
}

const char *
odd_document_get_title (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), NULL);

  return self->title != NULL ? self->title : _("New job");
}

const char *
odd_document_get_undo_label (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), NULL);

  return last_label (self->undo);
}

const char *
odd_document_get_redo_label (OddDocument *self)
{
  g_return_val_if_fail (ODD_IS_DOCUMENT (self), NULL);

  return last_label (self->redo);
}
