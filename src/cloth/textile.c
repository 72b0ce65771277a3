#include "config.h"

#include "cloth/textile.h"

static OddTextile *
textile_alloc (OddId          id,
               const char    *name,
               const OddHung *hung,
               guint          n_hung,
               const OddSeam *joins)
{
  OddTextile *self = g_atomic_rc_box_new0 (OddTextile);

  self->id = id;
  self->name = g_strdup (name != NULL ? name : "");
  self->treatment = ODD_TREATMENT_INHERIT;
  self->n_hung = n_hung;
  self->hung = g_new (OddHung, n_hung);
  self->joins = g_new (OddSeam, n_hung > 0 ? n_hung - 1 : 0);
  for (guint i = 0; i < n_hung; i++)
    {
      self->hung[i] = hung[i];
      odd_panel_ref (hung[i].panel);
      if (i + 1 < n_hung)
        odd_seam_copy (&self->joins[i], &joins[i]);
    }
  return self;
}

OddTextile *
odd_textile_new (OddId       id,
                 const char *name)
{
  return textile_alloc (id, name, NULL, 0, NULL);
}

OddTextile *
odd_textile_with_panels (OddTextile    *self,
                         const OddHung *hung,
                         guint          n_hung,
                         const OddSeam *joins)
{
  OddTextile *copy = textile_alloc (self->id, self->name, hung, n_hung, joins);

  copy->treatment = self->treatment;
  copy->target_width_mm = self->target_width_mm;
  copy->target_length_mm = self->target_length_mm;
  copy->measure = odd_measure_ref (self->measure);
  copy->unknown_json = g_strdup (self->unknown_json);
  return copy;
}

static OddTextile *
textile_copy (OddTextile *self)
{
  return odd_textile_with_panels (self, self->hung, self->n_hung, self->joins);
}

OddTextile *
odd_textile_with_panel (OddTextile *self,
                        guint       index,
                        OddPanel   *panel)
{
  OddTextile *copy = textile_copy (self);

  g_return_val_if_fail (index < self->n_hung, copy);

  odd_panel_ref (panel);
  odd_panel_unref (copy->hung[index].panel);
  copy->hung[index].panel = panel;
  return copy;
}

OddTextile *
odd_textile_with_join (OddTextile    *self,
                       guint          index,
                       const OddSeam *join)
{
  OddTextile *copy = textile_copy (self);

  g_return_val_if_fail (index + 1 < self->n_hung, copy);

  odd_seam_clear (&copy->joins[index]);
  odd_seam_copy (&copy->joins[index], join);
  return copy;
}

OddTextile *
odd_textile_with_target (OddTextile *self,
                         double      width_mm,
                         double      length_mm)
{
  OddTextile *copy = textile_copy (self);

  copy->target_width_mm = width_mm;
  copy->target_length_mm = length_mm;
  return copy;
}

OddTextile *
odd_textile_with_name (OddTextile *self,
                       const char *name)
{
  OddTextile *copy = textile_copy (self);

  g_free (copy->name);
  copy->name = g_strdup (name != NULL ? name : "");
  return copy;
}

OddTextile *
odd_textile_with_treatment (OddTextile         *self,
                            const OddTreatment *treatment)
{
  OddTextile *copy = textile_copy (self);

  copy->treatment = *treatment;
  return copy;
}

OddTextile *
odd_textile_with_measure (OddTextile *self,
                          OddMeasure *measure)
{
  OddTextile *copy = textile_copy (self);

  odd_measure_unref (copy->measure);
  copy->measure = odd_measure_ref (measure);
  return copy;
}

OddTextile *
odd_textile_with_unknown (OddTextile *self,
                          const char *unknown_json)
{
  OddTextile *copy = textile_copy (self);

  g_free (copy->unknown_json);
  copy->unknown_json = g_strdup (unknown_json);
  return copy;
}

OddTextile *
odd_textile_ref (OddTextile *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
textile_clear (gpointer data)
{
  OddTextile *self = data;

  for (guint i = 0; i < self->n_hung; i++)
    {
      odd_panel_unref (self->hung[i].panel);
      if (i + 1 < self->n_hung)
        odd_seam_clear (&self->joins[i]);
    }
  g_free (self->hung);
  g_free (self->joins);
  g_free (self->name);
  g_free (self->unknown_json);
  odd_measure_unref (self->measure);
}

void
odd_textile_unref (OddTextile *self)
{
  g_atomic_rc_box_release_full (self, textile_clear);
}
