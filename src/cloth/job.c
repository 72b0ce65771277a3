#include "config.h"

#include "cloth/job.h"
#include "cloth/job-private.h"
#include "cloth/layout.h"
#include "cloth/piece.h"

#include <glib/gi18n.h>
#include <string.h>

G_DEFINE_QUARK (odd-job-error-quark, odd_job_error)

/* --- pictures --- */

OddPicture *
odd_picture_new (const char *name,
                 GBytes     *bytes)
{
  OddPicture *self = g_atomic_rc_box_new0 (OddPicture);

  self->name = g_strdup (name);
  self->bytes = bytes != NULL ? g_bytes_ref (bytes) : NULL;
  return self;
}

OddPicture *
odd_picture_ref (OddPicture *self)
{
  return g_atomic_rc_box_acquire (self);
}

static void
picture_clear (gpointer data)
{
  OddPicture *self = data;

  g_free (self->name);
  g_clear_pointer (&self->bytes, g_bytes_unref);
}

void
odd_picture_unref (OddPicture *self)
{
  g_atomic_rc_box_release_full (self, picture_clear);
}

/* --- what is derived, made on first use --- */

typedef struct
{
  GMutex lock;
  GHashTable *scraps;         /* id -> index + 1 in job->scraps */
  GHashTable *uses;           /* scrap id -> GArray of OddUse */
  GHashTable *states;         /* scrap id -> OddScrapState, placed or sewn only */
} Index;

static gpointer
index_new (void)
{
  Index *index = g_new0 (Index, 1);

  g_mutex_init (&index->lock);
  return index;
}

static void
index_free (Index *index)
{
  g_clear_pointer (&index->scraps, g_hash_table_unref);
  g_clear_pointer (&index->uses, g_hash_table_unref);
  g_clear_pointer (&index->states, g_hash_table_unref);
  g_mutex_clear (&index->lock);
  g_free (index);
}

static GHashTable *
job_lock_scraps (OddJob *self)
{
  Index *index = self->index;

  g_mutex_lock (&index->lock);
  if (index->scraps == NULL)
    {
      index->scraps = g_hash_table_new (NULL, NULL);
      for (guint i = 0; i < self->scraps->len; i++)
        g_hash_table_insert (index->scraps,
                             GUINT_TO_POINTER (((OddScrap *) self->scraps->pdata[i])->id),
                             GUINT_TO_POINTER (i + 1));
    }
  return index->scraps;
}

/* Jobs that share their scraps share the table to find them too. */
void
odd_job_share_index (OddJob *self,
                     OddJob *from)
{
  Index *to_index = self->index;
  Index *from_index = from->index;

  if (self->scraps != from->scraps)
    return;
  g_mutex_lock (&from_index->lock);
  if (from_index->scraps != NULL)
    to_index->scraps = g_hash_table_ref (from_index->scraps);
  g_mutex_unlock (&from_index->lock);
}

/* --- making --- */

static void
job_clear (gpointer data)
{
  OddJob *self = data;

  g_ptr_array_unref (self->fabrics);
  g_ptr_array_unref (self->finishes);
  g_ptr_array_unref (self->scraps);
  g_ptr_array_unref (self->loose_panels);
  g_ptr_array_unref (self->textiles);
  g_ptr_array_unref (self->pictures);
  g_ptr_array_unref (self->record);
  g_free (self->unknown_json);
  index_free (self->index);
}

OddJob *
odd_job_ref (OddJob *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
odd_job_unref (OddJob *self)
{
  g_atomic_rc_box_release_full (self, job_clear);
}

static GPtrArray *
record_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) odd_act_unref);
}

/* No checks: for edits, which start from a job that was checked. */
OddJob *
odd_job_copy (OddJob *values)
{
  OddJob *self = g_atomic_rc_box_new0 (OddJob);

  self->fabrics = g_ptr_array_ref (values->fabrics);
  self->finishes = g_ptr_array_ref (values->finishes);
  self->scraps = g_ptr_array_ref (values->scraps);
  self->loose_panels = g_ptr_array_ref (values->loose_panels);
  self->textiles = g_ptr_array_ref (values->textiles);
  self->pictures = g_ptr_array_ref (values->pictures);
  self->record = values->record != NULL ? g_ptr_array_ref (values->record) : record_new ();
  self->treatment = values->treatment;
  self->settings = values->settings;
  self->next_id = values->next_id;
  self->unknown_json = g_strdup (values->unknown_json);
  self->index = index_new ();
  return self;
}

OddJob *
odd_job_new (void)
{
  OddJob *self = g_atomic_rc_box_new0 (OddJob);
  OddFinish *finish = NULL;

  self->fabrics = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_fabric_unref);
  self->finishes = odd_finish_shipped ();
  self->scraps = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_scrap_unref);
  self->loose_panels = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_panel_unref);
  self->textiles = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_textile_unref);
  self->pictures = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_picture_unref);
  self->record = record_new ();
  self->settings = ODD_SETTINGS_FIRST;
  self->next_id = self->finishes->len + 1;
  self->index = index_new ();
  finish = odd_job_get_finish_by_key (self, "overlocked");
  self->treatment = (OddTreatment) { finish->id, finish->allowance_mm };
  g_ptr_array_add (self->textiles, odd_textile_new (self->next_id++, ""));
  return self;
}

/* --- checks of what comes from outside --- */

typedef struct
{
  OddJob *job;
  GHashTable *seen;           /* ids */
  GError **error;
} Check;

static gboolean
check_id (Check      *check,
          OddId       id,
          const char *what)
{
  if (id == 0 || id >= check->job->next_id)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("%s has the id %u, which must lie between 1 and %u"), what, id, check->job->next_id - 1);
      return FALSE;
    }
  if (!g_hash_table_add (check->seen, GUINT_TO_POINTER (id)))
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("The id %u stands twice, the second time for %s"), id, what);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_treatment (Check              *check,
                 const OddTreatment *treatment,
                 const char         *what)
{
  if (treatment->finish_id != 0 && odd_job_get_finish (check->job, treatment->finish_id) == NULL)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND,
                   _("%s names finish %u, which is not in the job"), what, treatment->finish_id);
      return FALSE;
    }
  if (!isnan (treatment->allowance_mm) && !(treatment->allowance_mm > 0.0 && treatment->allowance_mm <= 200.0))
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                   _("%s has an allowance of %g mm; it must be more than 0 and at most 200"), what, treatment->allowance_mm);
      return FALSE;
    }
  return TRUE;
}

static gboolean
check_seam (Check         *check,
            const OddSeam *seam)
{
  g_autofree char *what = g_strdup_printf (_("Seam %u"), seam->id);

  return check_id (check, seam->id, what) && check_treatment (check, &seam->treatment, what);
}

static gboolean
check_node (OddNode  *node,
            gpointer  data)
{
  Check *check = data;
  g_autofree char *what = g_strdup_printf (node->kind == ODD_NODE_LEAF ? _("Patch %u") : _("Strip %u"), node->id);

  if (!check_id (check, node->id, what))
    return FALSE;
  if (node->kind == ODD_NODE_LEAF && node->scrap_id != 0 && odd_job_get_scrap (check->job, node->scrap_id) == NULL)
    {
      g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND,
                   _("%s lies on scrap %u, which is not in the job"), what, node->scrap_id);
      return FALSE;
    }
  if (node->kind == ODD_NODE_LEAF)
    return TRUE;
  for (guint i = 0; i + 1 < node->n_parts; i++)
    if (!check_seam (check, &node->seams[i]))
      return FALSE;
  return check_treatment (check, &node->treatment, what);
}

static gboolean
check_panel (Check    *check,
             OddPanel *panel)
{
  g_autofree char *what = g_strdup_printf (_("Panel %u"), panel->id);

  if (!check_id (check, panel->id, what) || !check_treatment (check, &panel->treatment, what))
    return FALSE;
  for (guint i = 0; i < panel->outline->n; i++)
    if (panel->edges[i].treatment.allowance_mm != 0.0 && !check_treatment (check, &panel->edges[i].treatment, what))
      return FALSE;
  return odd_node_foreach (panel->root, check_node, check);
}

static gboolean
check_textile (Check      *check,
               OddTextile *textile)
{
  g_autofree char *what = g_strdup_printf (_("Textile %u"), textile->id);

  if (!check_id (check, textile->id, what) || !check_treatment (check, &textile->treatment, what))
    return FALSE;
  for (guint i = 0; i < textile->n_hung; i++)
    if (!check_panel (check, textile->hung[i].panel))
      return FALSE;
  for (guint i = 0; i + 1 < textile->n_hung; i++)
    if (!check_seam (check, &textile->joins[i]))
      return FALSE;
  return TRUE;
}

static gboolean
check_scraps (Check *check)
{
  g_autoptr(GHashTable) numbers = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < check->job->scraps->len; i++)
    {
      OddScrap *scrap = check->job->scraps->pdata[i];
      g_autofree char *what = g_strdup_printf (_("Scrap %u"), scrap->number);

      if (!check_id (check, scrap->id, what))
        return FALSE;
      if (!g_hash_table_add (numbers, GUINT_TO_POINTER (scrap->number)))
        {
          g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                       _("Two scraps have the number %u; give one of them another"), scrap->number);
          return FALSE;
        }
      if (scrap->fabric_id != 0 && odd_job_get_fabric (check->job, scrap->fabric_id) == NULL)
        {
          g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_NOT_FOUND,
                       _("%s is cut from fabric %u, which is not in the job"), what, scrap->fabric_id);
          return FALSE;
        }
      if (scrap->piece != NULL && !check_panel (check, scrap->piece))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_finishes (Check *check)
{
  g_autoptr(GHashTable) keys = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < check->job->finishes->len; i++)
    {
      OddFinish *finish = check->job->finishes->pdata[i];

      if (!check_id (check, finish->id, finish->name))
        return FALSE;
      if (!g_hash_table_add (keys, finish->key))
        {
          g_set_error (check->error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                       _("Two finishes have the key “%s”"), finish->key);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
job_check (OddJob  *self,
           GError **error)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (NULL, NULL);
  Check check = { self, seen, error };

  for (guint i = 0; i < self->fabrics->len; i++)
    {
      OddFabric *fabric = self->fabrics->pdata[i];

      if (!check_id (&check, fabric->id, fabric->name))
        return FALSE;
    }
  if (!check_finishes (&check) || !check_scraps (&check) ||
      !check_treatment (&check, &self->treatment, _("The job")))
    return FALSE;
  if (self->treatment.finish_id == 0 || isnan (self->treatment.allowance_mm))
    {
      g_set_error_literal (error, ODD_JOB_ERROR, ODD_JOB_ERROR_BROKEN,
                           _("The job must name the finish and the allowance that everything starts from"));
      return FALSE;
    }
  for (guint i = 0; i < self->loose_panels->len; i++)
    if (!check_panel (&check, self->loose_panels->pdata[i]))
      return FALSE;
  for (guint i = 0; i < self->textiles->len; i++)
    if (!check_textile (&check, self->textiles->pdata[i]))
      return FALSE;
  return odd_job_check_pieces (self, error);
}

OddJob *
odd_job_new_take (const OddJob  *values,
                  GError       **error)
{
  g_autoptr(OddJob) self = odd_job_copy ((OddJob *) values);

  if (!job_check (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

/* --- look-up --- */

#define FIND_BY_ID(array, Type, wanted)                          \
  for (guint i = 0; i < (array)->len; i++)                       \
    if (((Type *) (array)->pdata[i])->id == (wanted))            \
      return (array)->pdata[i];                                  \
  return NULL

OddFabric *
odd_job_get_fabric (OddJob *self,
                    OddId   id)
{
  FIND_BY_ID (self->fabrics, OddFabric, id);
}

OddFinish *
odd_job_get_finish (OddJob *self,
                    OddId   id)
{
  FIND_BY_ID (self->finishes, OddFinish, id);
}

OddTextile *
odd_job_get_textile (OddJob *self,
                     OddId   id)
{
  FIND_BY_ID (self->textiles, OddTextile, id);
}

OddFinish *
odd_job_get_finish_by_key (OddJob     *self,
                           const char *key)
{
  for (guint i = 0; i < self->finishes->len; i++)
    if (strcmp (((OddFinish *) self->finishes->pdata[i])->key, key) == 0)
      return self->finishes->pdata[i];
  return NULL;
}

OddScrap *
odd_job_get_scrap (OddJob *self,
                   OddId   id)
{
  guint at = GPOINTER_TO_UINT (g_hash_table_lookup (job_lock_scraps (self), GUINT_TO_POINTER (id)));

  g_mutex_unlock (&((Index *) self->index)->lock);
  return at > 0 ? self->scraps->pdata[at - 1] : NULL;
}

OddScrap *
odd_job_get_scrap_by_number (OddJob *self,
                             guint   number)
{
  for (guint i = 0; i < self->scraps->len; i++)
    if (((OddScrap *) self->scraps->pdata[i])->number == number)
      return self->scraps->pdata[i];
  return NULL;
}

OddPicture *
odd_job_get_picture (OddJob     *self,
                     const char *name)
{
  for (guint i = 0; name != NULL && i < self->pictures->len; i++)
    if (strcmp (((OddPicture *) self->pictures->pdata[i])->name, name) == 0)
      return self->pictures->pdata[i];
  return NULL;
}

OddFabric *
odd_job_get_scrap_fabric (OddJob   *self,
                          OddScrap *scrap)
{
  return scrap != NULL && scrap->fabric_id != 0 ? odd_job_get_fabric (self, scrap->fabric_id) : NULL;
}

OddScrap *
odd_job_find_pieced (OddJob *self,
                     OddId   piece_id)
{
  for (guint i = 0; i < self->scraps->len; i++)
    {
      OddScrap *scrap = self->scraps->pdata[i];

      if (scrap->piece != NULL && scrap->piece->id == piece_id)
        return scrap;
    }
  return NULL;
}

typedef gboolean (*PanelTest) (OddPanel *panel, OddId id);

static OddPanel *
find_panel (OddJob      *self,
            PanelTest    test,
            OddId        id,
            OddTextile **out_textile,
            guint       *out_index)
{
  OddTextile *textile = NULL;
  OddPanel *found = NULL;
  guint index = 0;

  for (guint t = 0; t < self->textiles->len && found == NULL; t++)
    {
      textile = self->textiles->pdata[t];
      for (index = 0; index < textile->n_hung; index++)
        if (test (textile->hung[index].panel, id))
          {
            found = textile->hung[index].panel;
            break;
          }
    }
  for (guint i = 0; i < self->loose_panels->len && found == NULL; i++)
    if (test (self->loose_panels->pdata[i], id))
      {
        found = self->loose_panels->pdata[i];
        textile = NULL;
        index = i;
      }
  if (found == NULL)
    textile = NULL;
  if (out_textile != NULL)
    *out_textile = textile;
  if (out_index != NULL)
    *out_index = index;
  return found;
}

static gboolean
panel_has_id (OddPanel *panel,
              OddId     id)
{
  return panel->id == id;
}

static gboolean
panel_holds (OddPanel *panel,
             OddId     id)
{
  return odd_node_find (panel->root, id) != NULL || odd_node_find_seam (panel->root, id, NULL) != NULL;
}

OddPanel *
odd_job_get_panel (OddJob      *self,
                   OddId        id,
                   OddTextile **out_textile,
                   guint       *out_index)
{
  return find_panel (self, panel_has_id, id, out_textile, out_index);
}

OddPanel *
odd_job_find_panel_of (OddJob      *self,
                       OddId        node_or_seam_id,
                       OddTextile **out_textile,
                       guint       *out_index)
{
  OddPanel *panel = find_panel (self, panel_holds, node_or_seam_id, out_textile, out_index);

  for (guint t = 0; panel == NULL && t < self->textiles->len; t++)
    {
      OddTextile *textile = self->textiles->pdata[t];

      for (guint i = 0; i + 1 < textile->n_hung; i++)
        if (textile->joins[i].id == node_or_seam_id)
          {
            if (out_textile != NULL)
              *out_textile = textile;
            if (out_index != NULL)
              *out_index = i;
            return NULL;
          }
    }
  return panel;
}

/* --- uses --- */

static gboolean
collect_use (OddNode  *node,
             gpointer  data)
{
  gpointer *pair = data;
  GHashTable *uses = pair[0];
  GArray *list;
  OddUse use = { pair[1], node };

  if (node->kind != ODD_NODE_LEAF || node->scrap_id == 0)
    return TRUE;
  list = g_hash_table_lookup (uses, GUINT_TO_POINTER (node->scrap_id));
  if (list == NULL)
    {
      list = g_array_new (FALSE, FALSE, sizeof (OddUse));
      g_hash_table_insert (uses, GUINT_TO_POINTER (node->scrap_id), list);
    }
  g_array_append_val (list, use);
  return TRUE;
}

static void
foreach_panel (OddJob *self,
               void  (*func) (OddJob *self, OddPanel *panel, gpointer data),
               gpointer data)
{
  for (guint t = 0; t < self->textiles->len; t++)
    {
      OddTextile *textile = self->textiles->pdata[t];

      for (guint i = 0; i < textile->n_hung; i++)
        func (self, textile->hung[i].panel, data);
    }
  for (guint i = 0; i < self->loose_panels->len; i++)
    func (self, self->loose_panels->pdata[i], data);
}

static void
collect_panel_uses (OddJob   *self,
                    OddPanel *panel,
                    gpointer  data)
{
  gpointer pair[2] = { data, panel };

  odd_node_foreach (panel->root, collect_use, pair);
}

static void
foreach_piece (OddJob   *self,
               gboolean  gone,
               void    (*func) (OddJob *self, OddPanel *piece, gpointer data),
               gpointer  data)
{
  for (guint i = 0; i < self->scraps->len; i++)
    {
      OddScrap *scrap = self->scraps->pdata[i];

      if (scrap->piece != NULL && !scrap->gone == !gone)
        func (self, scrap->piece, data);
    }
}

static GHashTable *
job_get_uses_table (OddJob *self)
{
  Index *index = self->index;

  g_mutex_lock (&index->lock);
  if (index->uses == NULL)
    {
      index->uses = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) g_array_unref);
      foreach_panel (self, collect_panel_uses, index->uses);
      foreach_piece (self, FALSE, collect_panel_uses, index->uses);
      foreach_piece (self, TRUE, collect_panel_uses, index->uses);
    }
  g_mutex_unlock (&index->lock);
  return index->uses;
}

const OddUse *
odd_job_get_uses (OddJob *self,
                  OddId   scrap_id,
                  guint  *out_n)
{
  GArray *list = g_hash_table_lookup (job_get_uses_table (self), GUINT_TO_POINTER (scrap_id));

  *out_n = list != NULL ? list->len : 0;
  return list != NULL ? (const OddUse *) list->data : NULL;
}

static gboolean
patch_is_sewn (const OddLayout *layout,
               const OddPatch  *patch)
{
  for (guint e = 0; e < patch->region->n; e++)
    if (patch->region->labels[e] >= 0)
      {
        const OddLaidSeam *laid = &layout->seams[patch->region->labels[e]];

        if (odd_progress_get_state (laid->seam->progress, odd_finish_first_sew (laid->finish)) == ODD_STATE_DONE)
          return TRUE;
      }
  return FALSE;
}

static void
collect_panel_states (OddJob   *self,
                      OddPanel *panel,
                      gpointer  data)
{
  g_autoptr(OddLayout) layout = odd_job_dup_layout (self, panel->id);

  for (guint i = 0; i < layout->n_patches; i++)
    {
      const OddPatch *patch = &layout->patches[i];
      gpointer key;

      if (patch->scrap == NULL)
        continue;
      key = GUINT_TO_POINTER (patch->scrap->id);
      if (patch_is_sewn (layout, patch))
        g_hash_table_insert (data, key, GUINT_TO_POINTER (ODD_SCRAP_SEWN));
      else if (!g_hash_table_contains (data, key))
        g_hash_table_insert (data, key, GUINT_TO_POINTER (ODD_SCRAP_PLACED));
    }
}

static gboolean
set_sewn (OddNode  *node,
          gpointer  states)
{
  if (node->kind == ODD_NODE_LEAF)
    g_hash_table_insert (states, GUINT_TO_POINTER (node->scrap_id), GUINT_TO_POINTER (ODD_SCRAP_SEWN));
  return TRUE;
}

/* What went away with a piece, and is in no other: a piece that was cut lives on in its halves. */
static gboolean
set_gone (OddNode  *node,
          gpointer  states)
{
  if (node->kind == ODD_NODE_LEAF && !g_hash_table_contains (states, GUINT_TO_POINTER (node->scrap_id)))
    g_hash_table_insert (states, GUINT_TO_POINTER (node->scrap_id), GUINT_TO_POINTER (ODD_SCRAP_GONE));
  return TRUE;
}

static void
collect_piece_states (OddJob   *self,
                      OddPanel *piece,
                      gpointer  states)
{
  odd_node_foreach (piece->root, set_sewn, states);
}

static void
collect_gone_states (OddJob   *self,
                     OddPanel *piece,
                     gpointer  states)
{
  odd_node_foreach (piece->root, set_gone, states);
}

static GHashTable *
job_get_states (OddJob *self)
{
  Index *index = self->index;
  GHashTable *states;

  g_mutex_lock (&index->lock);
  states = index->states;
  g_mutex_unlock (&index->lock);
  if (states != NULL)
    return states;

  /* Layouts look scraps up, so they are made outside the lock; two threads may both do it, the first one's table stays. */
  states = g_hash_table_new (NULL, NULL);
  foreach_panel (self, collect_panel_states, states);
  foreach_piece (self, FALSE, collect_piece_states, states);
  foreach_piece (self, TRUE, collect_gone_states, states);
  g_mutex_lock (&index->lock);
  if (index->states == NULL)
    index->states = states;
  else
    g_hash_table_unref (states);
  states = index->states;
  g_mutex_unlock (&index->lock);
  return states;
}

OddScrapState
odd_job_get_scrap_state (OddJob *self,
                         OddId   scrap_id)
{
  OddScrap *scrap = odd_job_get_scrap (self, scrap_id);

  if (scrap == NULL || scrap->gone)
    return ODD_SCRAP_GONE;
  /* A vanished leaf still claims its scrap. */
  if (g_hash_table_contains (job_get_states (self), GUINT_TO_POINTER (scrap_id)))
    return GPOINTER_TO_UINT (g_hash_table_lookup (job_get_states (self), GUINT_TO_POINTER (scrap_id)));
  return g_hash_table_contains (job_get_uses_table (self), GUINT_TO_POINTER (scrap_id)) ? ODD_SCRAP_PLACED
         : scrap->cut_out ? ODD_SCRAP_GONE : ODD_SCRAP_FREE;
}

const char *
odd_scrap_state_get_nick (OddScrapState state)
{
  static const char *const nicks[] = { "free", "placed", "sewn", "gone" };

  return nicks[state];
}

/* --- names, inheritance --- */

char *
odd_job_dup_panel_name (OddJob   *self,
                        OddPanel *panel)
{
  OddScrap *pieced;
  guint number = 0;

  if (panel->name[0] != '\0')
    return g_strdup (panel->name);
  for (guint t = 0; t < self->textiles->len; t++)
    {
      OddTextile *textile = self->textiles->pdata[t];

      for (guint i = 0; i < textile->n_hung; i++, number++)
        if (textile->hung[i].panel->id == panel->id)
          return g_strdup_printf (_("Panel %u"), number + 1);
    }
  for (guint i = 0; i < self->loose_panels->len; i++, number++)
    if (((OddPanel *) self->loose_panels->pdata[i])->id == panel->id)
      return g_strdup_printf (_("Panel %u"), number + 1);
  pieced = odd_job_find_pieced (self, panel->id);
  if (pieced != NULL)
    return g_strdup_printf (_("Piece %u"), pieced->number);
  return g_strdup (_("Panel"));
}

char *
odd_job_dup_textile_name (OddJob     *self,
                          OddTextile *textile)
{
  if (textile->name[0] != '\0')
    return g_strdup (textile->name);
  for (guint t = 0; t < self->textiles->len; t++)
    if (((OddTextile *) self->textiles->pdata[t])->id == textile->id)
      return g_strdup_printf (_("Textile %u"), t + 1);
  return g_strdup (_("Textile"));
}

void
odd_job_resolve (OddJob                    *self,
                 const OddTreatment *const *levels,
                 guint                      n_levels,
                 OddFinish                **out_finish,
                 double                    *out_allowance_mm)
{
  OddFinish *finish = odd_job_get_finish (self, self->treatment.finish_id);
  double allowance_mm = self->treatment.allowance_mm;

  for (guint i = 0; i < n_levels; i++)
    {
      if (levels[i] == NULL)
        continue;
      if (levels[i]->finish_id != 0)
        {
          finish = odd_job_get_finish (self, levels[i]->finish_id);
          allowance_mm = finish->allowance_mm;
        }
      if (!isnan (levels[i]->allowance_mm))
        allowance_mm = levels[i]->allowance_mm;
    }
  if (out_finish != NULL)
    *out_finish = finish;
  if (out_allowance_mm != NULL)
    *out_allowance_mm = allowance_mm;
}
