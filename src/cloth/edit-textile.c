/* Panels and textiles: adding, removing, hanging in another order, turning over end. */
#include "config.h"

#include "cloth/edit-private.h"

#include <glib/gi18n.h>

#define LEAST_PANEL_MM 10.0
#define LARGEST_PANEL_MM 10000.0

static gpointer ref_panel (gconstpointer p, gpointer data) { return odd_panel_ref ((gpointer) p); }
static gpointer ref_textile (gconstpointer p, gpointer data) { return odd_textile_ref ((gpointer) p); }

static OddTextile *
get_textile (OddJob  *job,
             OddId    id,
             GError **error)
{
  OddTextile *textile = odd_job_get_textile (job, id);

  if (textile == NULL)
    g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND, _("There is no textile %u in this job"), id);
  return textile;
}

static gboolean
refuse_joined (OddJob      *job,
               OddTextile  *textile,
               guint        join,
               GError     **error)
{
  g_autofree char *left = odd_job_dup_panel_name (job, textile->hung[join].panel);
  g_autofree char *right = odd_job_dup_panel_name (job, textile->hung[join + 1].panel);

  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("%s and %s are already sewn together. Unpick their seam first."), left, right);
  return FALSE;
}

/* FALSE and error when a join next to this panel has been worked on. */
static gboolean
check_joins_free (OddJob      *job,
                  OddTextile  *textile,
                  guint        index,
                  GError     **error)
{
  if (index > 0 && odd_seam_is_touched (&textile->joins[index - 1]))
    return refuse_joined (job, textile, index - 1, error);
  if (index + 1 < textile->n_hung && odd_seam_is_touched (&textile->joins[index]))
    return refuse_joined (job, textile, index, error);
  return TRUE;
}

/* The join that lay between these two panels, in either order. */
static const OddSeam *
find_join (OddTextile *textile,
           OddId       a,
           OddId       b)
{
  for (guint i = 0; i + 1 < textile->n_hung; i++)
    {
      const OddId left = textile->hung[i].panel->id;
      const OddId right = textile->hung[i + 1].panel->id;

      if ((left == a && right == b) || (left == b && right == a))
        return &textile->joins[i];
    }
  return NULL;
}

/* The textile with these panels in this order. Joins between panels that stay neighbours stay; a join that has been worked on must. */
static OddTextile *
rehang (OddJob        *job,
        OddTextile    *textile,
        const OddHung *hung,
        guint          n_hung,
        OddId         *next_id,
        GError       **error)
{
  g_autofree OddSeam *joins = g_new0 (OddSeam, n_hung);
  guint n_touched = 0;

  for (guint i = 0; i + 1 < n_hung; i++)
    {
      const OddSeam *kept = find_join (textile, hung[i].panel->id, hung[i + 1].panel->id);

      if (kept != NULL)
        joins[i] = *kept;
      else
        odd_seam_init (&joins[i], (*next_id)++, (OddHalfPlane) { { 1.0, 0.0 }, 0.0 });
      n_touched += odd_seam_is_touched (&joins[i]);
    }
  for (guint i = 0; i + 1 < textile->n_hung; i++)
    if (odd_seam_is_touched (&textile->joins[i]))
      {
        if (n_touched == 0)
          {
            refuse_joined (job, textile, i, error);
            return NULL;
          }
        n_touched--;
      }
  return odd_textile_with_panels (textile, hung, n_hung, joins);
}

static OddJob *
with_textile (OddJob     *job,
              OddTextile *textile,
              OddId       next_id)
{
  OddJob *copy = odd_edit_with_textile (job, textile);

  copy->next_id = next_id;
  return copy;
}

static gboolean
check_size (double    width_mm,
            double    length_mm,
            GError  **error)
{
  if (width_mm >= LEAST_PANEL_MM && width_mm <= LARGEST_PANEL_MM && length_mm >= LEAST_PANEL_MM && length_mm <= LARGEST_PANEL_MM)
    return TRUE;
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
               _("A panel of %.0f × %.0f mm cannot be made; each side must lie between 1 cm and 10 m"), width_mm, length_mm);
  return FALSE;
}

OddJob *
odd_job_add_textile (OddJob      *self,
                     const char  *name,
                     OddId       *out_id,
                     GError     **error)
{
  OddJob *job = odd_job_copy (self);

  odd_job_share_index (job, self);
  g_ptr_array_unref (job->textiles);
  job->textiles = odd_edit_copy_array (self->textiles, ref_textile);
  g_ptr_array_add (job->textiles, odd_textile_new (job->next_id, name));
  if (out_id != NULL)
    *out_id = job->next_id;
  job->next_id++;
  return job;
}

OddJob *
odd_job_remove_textile (OddJob  *self,
                        OddId    textile_id,
                        GError **error)
{
  OddTextile *textile = get_textile (self, textile_id, error);
  OddJob *job;

  if (textile == NULL)
    return NULL;
  if (textile->n_hung > 0)
    {
      g_autofree char *name = odd_job_dup_textile_name (self, textile);

      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED, _("%s still holds panels. Take them out first."), name);
      return NULL;
    }
  job = odd_job_copy (self);
  odd_job_share_index (job, self);
  g_ptr_array_unref (job->textiles);
  job->textiles = odd_edit_copy_array (self->textiles, ref_textile);
  for (guint i = 0; i < job->textiles->len; i++)
    if (((OddTextile *) job->textiles->pdata[i])->id == textile_id)
      {
        g_ptr_array_remove_index (job->textiles, i);
        break;
      }
  return job;
}

static gboolean
check_shape (OddJob    *job,
             OddPanel  *panel,
             GError   **error)
{
  g_autofree char *name = NULL;

  if (odd_panel_has_four_sides (panel))
    return TRUE;
  name = odd_job_dup_panel_name (job, panel);
  g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
               _("%s has a shape of its own, and straight joins would trim its corners off. Leave it loose and cut from it there."), name);
  return FALSE;
}

/* Puts the panel in; its edges may come along when it moved here from elsewhere. */
static OddJob *
insert_hung (OddJob        *self,
             OddId          textile_id,
             guint          index,
             const OddHung *panel,
             GError       **error)
{
  OddId next_id = self->next_id;

  if (textile_id == 0)
    {
      OddJob *job = odd_job_copy (self);

      odd_job_share_index (job, self);
      g_ptr_array_unref (job->loose_panels);
      job->loose_panels = odd_edit_copy_array (self->loose_panels, ref_panel);
      g_ptr_array_insert (job->loose_panels, MIN (index, job->loose_panels->len), odd_panel_ref (panel->panel));
      return job;
    }
  else
    {
      OddTextile *textile = get_textile (self, textile_id, error);
      const guint at = textile != NULL ? MIN (index, textile->n_hung) : 0;
      g_autofree OddHung *hung = NULL;
      g_autoptr(OddTextile) changed = NULL;

      if (textile == NULL || !check_shape (self, panel->panel, error))
        return NULL;
      hung = g_new0 (OddHung, textile->n_hung + 1);
      for (guint i = 0; i < textile->n_hung; i++)
        hung[i < at ? i : i + 1] = textile->hung[i];
      hung[at] = *panel;
      changed = rehang (self, textile, hung, textile->n_hung + 1, &next_id, error);
      return changed != NULL ? with_textile (self, changed, next_id) : NULL;
    }
}

OddJob *
odd_job_insert_panel (OddJob    *self,
                      OddId      textile_id,
                      guint      index,
                      OddPanel  *panel,
                      GError   **error)
{
  const OddHung hung = { panel, 0.0, FALSE };

  return insert_hung (self, textile_id, index, &hung, error);
}

OddJob *
odd_job_add_panel (OddJob      *self,
                   OddId        textile_id,
                   guint        index,
                   const char  *name,
                   double       width_mm,
                   double       length_mm,
                   OddId       *out_panel_id,
                   GError     **error)
{
  g_autoptr(OddPanel) panel = NULL;
  g_autoptr(OddJob) numbered = NULL;
  OddJob *job;

  if (!check_size (width_mm, length_mm, error))
    return NULL;
  panel = odd_panel_new_bare (self->next_id, name, width_mm, length_mm, self->next_id + 1);
  numbered = odd_job_copy (self);
  odd_job_share_index (numbered, self);
  numbered->next_id += 2;
  job = odd_job_insert_panel (numbered, textile_id, index, panel, error);
  if (job != NULL && out_panel_id != NULL)
    *out_panel_id = panel->id;
  return job;
}

/* Takes the panel out of where it is; (transfer full). */
static OddJob *
take_out (OddJob      *self,
          OddTextile  *textile,
          guint        index,
          GError     **error)
{
  OddId next_id = self->next_id;

  if (textile == NULL)
    {
      OddJob *job = odd_job_copy (self);

      odd_job_share_index (job, self);
      g_ptr_array_unref (job->loose_panels);
      job->loose_panels = odd_edit_copy_array (self->loose_panels, ref_panel);
      g_ptr_array_remove_index (job->loose_panels, index);
      return job;
    }
  else
    {
      g_autofree OddHung *hung = g_new0 (OddHung, textile->n_hung);
      g_autoptr(OddTextile) changed = NULL;

      if (!check_joins_free (self, textile, index, error))
        return NULL;
      for (guint i = 0; i + 1 < textile->n_hung; i++)
        hung[i] = textile->hung[i < index ? i : i + 1];
      changed = rehang (self, textile, hung, textile->n_hung - 1, &next_id, error);
      return changed != NULL ? with_textile (self, changed, next_id) : NULL;
    }
}

OddJob *
odd_job_remove_panel (OddJob  *self,
                      OddId    panel_id,
                      GError **error)
{
  OddTextile *textile = NULL;
  guint index = 0;

  if (odd_edit_get_panel (self, panel_id, &textile, &index, error) == NULL)
    return NULL;
  return take_out (self, textile, index, error);
}

OddJob *
odd_job_move_panel (OddJob  *self,
                    OddId    panel_id,
                    OddId    to_textile_id,
                    guint    to_index,
                    GError **error)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_edit_get_panel (self, panel_id, &textile, &index, error);
  g_autoptr(OddJob) without = NULL;
  OddHung hung;

  /* while it still has the name it goes by */
  if (panel == NULL || (textile == NULL && to_textile_id != 0 && !check_shape (self, panel, error)))
    return NULL;
  hung = textile != NULL ? textile->hung[index] : (OddHung) { panel, 0.0, FALSE };
  if (textile != NULL && textile->id == to_textile_id)
    {
      /* One step, so that joins between panels that stay neighbours stay. */
      OddId next_id = self->next_id;
      g_autofree OddHung *order = g_new0 (OddHung, textile->n_hung);
      const guint at = MIN (to_index, textile->n_hung - 1);
      g_autoptr(OddTextile) changed = NULL;
      guint n = 0;

      for (guint i = 0; i < textile->n_hung; i++)
        {
          if (i == index)
            continue;
          if (n == at)
            order[n++] = hung;
          order[n++] = textile->hung[i];
        }
      if (n == at)
        order[n++] = hung;
      changed = rehang (self, textile, order, textile->n_hung, &next_id, error);
      return changed != NULL ? with_textile (self, changed, next_id) : NULL;
    }
  without = take_out (self, textile, index, error);
  return without != NULL ? insert_hung (without, to_textile_id, to_index, &hung, error) : NULL;
}

static OddJob *
change_hung (OddJob        *self,
             OddTextile    *textile,
             guint          index,
             const OddHung *changed,
             GError       **error)
{
  g_autofree OddHung *hung = NULL;
  g_autoptr(OddTextile) copy = NULL;

  if (!check_joins_free (self, textile, index, error))
    return NULL;
  hung = g_memdup2 (textile->hung, textile->n_hung * sizeof (OddHung));
  hung[index] = *changed;
  copy = odd_textile_with_panels (textile, hung, textile->n_hung, textile->joins);
  return odd_edit_with_textile (self, copy);
}

OddJob *
odd_job_turn_panel (OddJob  *self,
                    OddId    panel_id,
                    GError **error)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_edit_get_panel (self, panel_id, &textile, &index, error);
  OddHung hung;

  if (panel == NULL)
    return NULL;
  if (textile == NULL)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                           _("A loose panel has no top. Put it into the textile, then turn it over end."));
      return NULL;
    }
  hung = textile->hung[index];
  hung.half_turn = !hung.half_turn;
  return change_hung (self, textile, index, &hung, error);
}

OddJob *
odd_job_set_panel_offset (OddJob  *self,
                          OddId    panel_id,
                          double   offset_mm,
                          GError **error)
{
  OddTextile *textile = NULL;
  guint index = 0;
  OddPanel *panel = odd_edit_get_panel (self, panel_id, &textile, &index, error);
  OddHung hung;

  if (panel == NULL)
    return NULL;
  if (textile == NULL || index == 0)
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_REFUSED,
                           _("The first panel sets the height that the others are offset from"));
      return NULL;
    }
  if (!isfinite (offset_mm) || fabs (offset_mm) > LARGEST_PANEL_MM)
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM, _("An offset of %g mm is out of reach; it must stay within 10 m"), offset_mm);
      return NULL;
    }
  hung = textile->hung[index];
  hung.offset_mm = offset_mm + textile->hung[0].offset_mm;
  return change_hung (self, textile, index, &hung, error);
}

OddJob *
odd_job_set_panel_name (OddJob      *self,
                        OddId        panel_id,
                        const char  *name,
                        GError     **error)
{
  OddPanel *panel = odd_edit_get_panel (self, panel_id, NULL, NULL, error);
  g_autoptr(OddPanel) changed = NULL;

  if (panel == NULL)
    return NULL;
  changed = odd_panel_with_name (panel, name);
  return odd_edit_with_panel (self, changed);
}

OddJob *
odd_job_set_textile_name (OddJob      *self,
                          OddId        textile_id,
                          const char  *name,
                          GError     **error)
{
  OddTextile *textile = get_textile (self, textile_id, error);
  g_autoptr(OddTextile) changed = NULL;

  if (textile == NULL)
    return NULL;
  changed = odd_textile_with_name (textile, name);
  return odd_edit_with_textile (self, changed);
}

OddJob *
odd_job_set_target (OddJob  *self,
                    OddId    textile_id,
                    double   width_mm,
                    double   length_mm,
                    GError **error)
{
  OddTextile *textile = get_textile (self, textile_id, error);
  g_autoptr(OddTextile) changed = NULL;

  if (textile == NULL)
    return NULL;
  if (!(width_mm >= 0.0 && width_mm <= 10 * LARGEST_PANEL_MM && length_mm >= 0.0 && length_mm <= 10 * LARGEST_PANEL_MM))
    {
      g_set_error (error, ODD_JOB_ERROR, ODD_JOB_ERROR_NO_ROOM,
                   _("A target of %g × %g mm makes no textile; give 0 for none, or up to 100 m"), width_mm, length_mm);
      return NULL;
    }
  changed = odd_textile_with_target (textile, width_mm, length_mm);
  return odd_edit_with_textile (self, changed);
}
