#include "config.h"

#include "cloth/record.h"

#include <string.h>

static gpointer
copy_bytes (gconstpointer from,
            gsize         size)
{
  return size > 0 ? g_memdup2 (from, size) : NULL;
}

OddAct *
odd_act_new (const OddAct *values)
{
  OddAct *self;

  g_return_val_if_fail (values != NULL && (guint) values->kind < ODD_N_ACT_KINDS, NULL);

  self = g_atomic_rc_box_new (OddAct);
  *self = *values;
  self->figures = copy_bytes (values->figures, values->n_figures * sizeof (double));
  self->ids = copy_bytes (values->ids, values->n_ids * sizeof (OddId));
  self->reason = g_strdup (values->reason);
  self->name = g_strdup (values->name);
  self->step = g_strdup (values->step);
  self->unknown_json = g_strdup (values->unknown_json);
  return self;
}

OddAct *
odd_act_ref (OddAct *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
act_clear (gpointer data)
{
  OddAct *self = data;

  g_free (self->figures);
  g_free (self->ids);
  g_free (self->reason);
  g_free (self->name);
  g_free (self->step);
  g_free (self->unknown_json);
}

void
odd_act_unref (OddAct *self)
{
  g_atomic_rc_box_release_full (self, act_clear);
}

void
odd_act_set_figures (OddAct       *self,
                     const double *figures,
                     guint         n)
{
  double *copy = copy_bytes (figures, n * sizeof (double));

  g_free (self->figures);
  self->figures = copy;
  self->n_figures = n;
}

void
odd_act_set_ids (OddAct      *self,
                 const OddId *ids,
                 guint        n)
{
  OddId *copy = copy_bytes (ids, n * sizeof (OddId));

  g_free (self->ids);
  self->ids = copy;
  self->n_ids = n;
}

static void
take_where_none (char **member,
                 char  *text)
{
  if (*member == NULL)
    *member = text;
  else
    g_free (text);
}

void
odd_act_take_name (OddAct *self,
                   char   *name)
{
  take_where_none (&self->name, name);
}

void
odd_act_take_step (OddAct *self,
                   char   *step)
{
  take_where_none (&self->step, step);
}

gboolean
odd_act_is_about (const OddAct *self,
                  OddId         id)
{
  if (id == 0)
    return FALSE;
  for (guint i = 0; i < self->n_ids; i++)
    if (self->ids[i] == id)
      return TRUE;
  return self->seam_id == id || self->node_id == id || self->scrap_id == id || self->panel_id == id || self->textile_id == id;
}

static gboolean
bytes_equal (gconstpointer a,
             gsize         n_a,
             gconstpointer b,
             gsize         n_b)
{
  return n_a == n_b && (n_a == 0 || memcmp (a, b, n_a) == 0);
}

gboolean
odd_act_equal (const OddAct *a,
               const OddAct *b)
{
  return a == b ||
         (a->kind == b->kind && a->seam_id == b->seam_id && a->node_id == b->node_id && a->scrap_id == b->scrap_id &&
          a->panel_id == b->panel_id && a->textile_id == b->textile_id && a->end == b->end && a->operation == b->operation &&
          a->state == b->state && a->anyway == b->anyway && a->clock_s == b->clock_s &&
          bytes_equal (a->figures, a->n_figures * sizeof (double), b->figures, b->n_figures * sizeof (double)) &&
          bytes_equal (a->ids, a->n_ids * sizeof (OddId), b->ids, b->n_ids * sizeof (OddId)) &&
          g_strcmp0 (a->reason, b->reason) == 0 && g_strcmp0 (a->name, b->name) == 0 && g_strcmp0 (a->step, b->step) == 0 &&
          g_strcmp0 (a->unknown_json, b->unknown_json) == 0);
}
